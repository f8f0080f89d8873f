"""How warm does each room really get on the design night?

Where the emitters of a room fall short, the room settles below its target, and its neighbours follow.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import NotAssessed, Real, chosen, q
from dossier.physics.zones import Path, zone_balance
from dossier.sizing.heat_loss import HeatLoss
from dossier.sizing.ring import Operation, RingStudy
from dossier.sizing.ring_results import EmitterState

QUESTION = "How warm does each room really get?"
ROUNDS = 12
CLOSE = 1e-6


@dataclass(frozen=True)
class HeldRoom:
    """Temperature that a room's emitters can hold."""

    zone: str
    temperature: Annotated[
        Real,
        q("θ_i", "K", "room temperature the emitters can hold", name="temperature_held.zone.{zone}"),
    ]
    falls_short: bool


@dataclass(frozen=True)
class HeldRooms:
    """Temperatures of all rooms that call for heat."""

    rooms: Mapping[str, HeldRoom]


def held_rooms(loss: HeatLoss | NotAssessed, ring: RingStudy | NotAssessed) -> HeldRooms | NotAssessed:
    """Rooms at their target where the emitters suffice, else where heat given and heat lost meet."""
    if isinstance(loss, NotAssessed):
        return loss
    if isinstance(ring, NotAssessed):
        return ring
    heat = ring.design.heat if ring.design else None
    if heat is None:
        return NotAssessed(
            QUESTION, ("components.burner.output",), "no source of heat runs in the design mode"
        )
    short = {zone for zone, found in heat.zones.items() if float(found.margin) < 0}
    label = q("θ_i", "K", "room temperature")
    rooms = {
        zone: HeldRoom(
            zone,
            chosen(
                float(loss.zones[zone].temperature),
                label,
                "the target: the emitters suffice",
                HEAT_BALANCE,
                loss.zones[zone].temperature,
            ),
            falls_short=False,
        )
        for zone in heat.zones
        if zone not in short
    }
    if short and ring.design is not None:
        found = _settled(loss, ring.design, ring, short)
        rooms |= {zone: HeldRoom(zone, found[zone], falls_short=True) for zone in short}
    return HeldRooms({zone: rooms[zone] for zone in heat.zones})


def _settled(loss: HeatLoss, design: Operation, ring: RingStudy, short: set[str]) -> Mapping[str, Real]:
    """Temperatures with the emitters of the short rooms at all they can give."""
    heat = design.heat
    temperatures: Mapping[str, Real] = {name: zone.temperature for name, zone in loss.zones.items()}
    if heat is None:
        return temperatures
    targets = {
        name: zone.temperature if zone.heated and name not in short else None
        for name, zone in loss.zones.items()
    }
    gains: dict[str, Real] = {}
    for pipe in heat.pipes.values():
        if pipe.through in short:
            gains[pipe.through] = gains.get(pipe.through, 0.0) + float(pipe.loss)
    for _ in range(ROUNDS):
        before = temperatures
        emitting = [
            path
            for emitter in heat.emitters.values()
            if emitter.zone in short
            and (path := _path(emitter, design, ring, float(before[emitter.zone]))) is not None
        ]
        temperatures = zone_balance(targets, [*loss.paths, *emitting], gains).temperatures
        if max(abs(float(temperatures[zone]) - float(before[zone])) for zone in short) < CLOSE:
            break
    return temperatures


def _path(emitter: EmitterState, design: Operation, ring: RingStudy, room: float) -> Path | None:
    """An emitter as a way for heat from the room to its water, at a temperature of the room."""
    flow = float(design.outcome.solution.mass_flow[ring.hydraulics.run_of[emitter.tag]])
    rate = abs(flow) * design.outcome.specific_heat
    model = ring.emitters[emitter.tag].plain
    given = float(model.output(float(emitter.supply), rate, room, fan_runs=emitter.fan_runs))
    span = float(emitter.supply) - room
    return Path(emitter.zone, emitter.supply, given / span) if span > 0 else None
