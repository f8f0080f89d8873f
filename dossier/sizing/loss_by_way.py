"""Which way does the heat go? The load of each heated zone parted by what it leaves through.

Only ways out are counted: what comes in from a warmer neighbour is told apart, so that the ways less the
gains are the load.
"""

from collections.abc import Iterator, Mapping
from enum import Enum
from typing import Annotated

from dossier.data.recognised_words import says
from dossier.notation import NotAssessed, Real, q
from dossier.notation.records import dataclass
from dossier.physics.zones import total_heat_flow
from dossier.sizing.envelope import SectionWorth
from dossier.sizing.heat_loss import HeatLoss, ZoneLoss


class Way(str, Enum):
    """Ways for heat out of a zone, in the order in which they are told."""

    AIR = "air"
    GLASS = "glass"
    SIDES = "sides"
    DECK = "deck"
    WATER = "water"
    NEIGHBOURS = "neighbours"
    ELSEWHERE = "elsewhere"


@dataclass(frozen=True)
class ZoneWays:
    """Heat of one zone by way (W, none negative), and what neighbours give it."""

    zone: str
    ways: Mapping[Way, Real]
    gained: Annotated[Real, q("Φ_+", "W", "heat that comes in from neighbours; negative")]
    load: Annotated[Real, q("Φ_HL", "W", "load of the zone")]


@dataclass(frozen=True)
class LossByWay:
    """All heated zones by way, largest load first, and together."""

    zones: tuple[ZoneWays, ...]
    together: Mapping[Way, Real]
    gone: Annotated[Real, q("Φ", "W", "heat that leaves all heated zones")]
    gained: Annotated[Real, q("Φ_+", "W", "heat that comes in from neighbours; negative")]


def way_of(section: SectionWorth) -> Way:
    """What kind of way a section is, by what it faces, what it is made of and how it lies."""
    if section.facing == "zone":
        return Way.NEIGHBOURS
    if section.facing == "sea":
        return Way.WATER
    if section.wall is None and (says("glass", section.made_of) or _is_opening(section.name)):
        return Way.GLASS
    if section.facing != "air":
        return Way.ELSEWHERE
    if section.wall is not None and section.wall.direction == "up":
        return Way.DECK
    return Way.SIDES


def _is_opening(name: str) -> bool:
    return bool(says("glass", name) or says("opening", name))


def loss_by_way(loss: HeatLoss | NotAssessed) -> LossByWay | NotAssessed:
    """The design load by way."""
    if isinstance(loss, NotAssessed):
        return loss
    zones = sorted((_zone(zone) for zone in loss.heated), key=lambda zone: -float(zone.load))
    together = {
        way: total_heat_flow(*(zone.ways[way] for zone in zones if way in zone.ways))
        for way in Way
        if any(way in zone.ways for zone in zones)
    }
    return LossByWay(
        tuple(zones),
        together,
        total_heat_flow(*together.values()),
        total_heat_flow(*(zone.gained for zone in zones)),
    )


def _zone(zone: ZoneLoss) -> ZoneWays:
    flows: dict[Way, list[Real]] = {}
    gains: list[Real] = []
    for way, flow in _flows(zone):
        if float(flow) > 0:
            flows.setdefault(way, []).append(flow)
        else:
            gains.append(flow)
    ways = {way: total_heat_flow(*flows[way]) for way in Way if way in flows}
    return ZoneWays(zone.zone, ways, total_heat_flow(*gains), 0.0 if zone.load is None else zone.load)


def _flows(zone: ZoneLoss) -> Iterator[tuple[Way, Real]]:
    yield Way.AIR, zone.ventilation
    for section in zone.sections:
        yield way_of(section.worth), section.loss
    for exchange in zone.exchanges:
        yield Way.NEIGHBOURS, exchange.loss
