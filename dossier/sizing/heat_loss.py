"""How much heat does each space lose on the design night, and where does it go?

All zones are solved together: heated ones are held at their target, the others float.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.coefficients import coefficient
from dossier.data.sources import HEAT_BALANCE
from dossier.notation import DossierError, NotAssessed, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.envelope import section_conductance, transmission_loss
from dossier.physics.ventilation import (
    air_change_flow,
    breathing_air_flow,
    outside_air_flow,
    ventilation_conductance,
    ventilation_loss,
)
from dossier.physics.zones import Path, total_heat_flow, zone_balance
from dossier.sizing.envelope import SectionWorth, Shell, shell

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.envelope import Zone
    from dossier.sizing.modes import ModeState

QUESTION = "How much heat does each space lose?"


@dataclass(frozen=True)
class SectionLoss:
    """Heat through one section, seen from the zone it is written in."""

    zone: str
    name: str
    worth: SectionWorth
    beyond: Annotated[Real, q("θ_e", "K", "temperature beyond")]
    loss: Annotated[Real, q("Φ_T", "W", "through one section", name="heat_loss.section.{zone}.{name}")]


@dataclass(frozen=True)
class Exchange:
    """Heat to a neighbour through a section that the neighbour's list holds."""

    neighbour: str
    name: str
    worth: SectionWorth
    loss: Annotated[Real, q("Φ_N", "W", "to a neighbour, through a section of its list")]


@dataclass(frozen=True)
class ZoneLoss:
    """Heat lost by one zone; its load where it is heated."""

    zone: str
    heated: bool
    temperature: Annotated[
        Real,
        q("θ_i", "K", "target, or the temperature found where it floats", name="temperature.zone.{zone}"),
    ]
    sections: tuple[SectionLoss, ...]
    exchanges: tuple[Exchange, ...]
    transmission: Annotated[
        Real, q("Φ_T", "W", "to air, sea and ground", name="heat_loss.zone.{zone}.transmission")
    ]
    neighbours: Annotated[
        Real,
        q("Φ_N", "W", "to other zones; negative when heat comes in", name="heat_loss.zone.{zone}.neighbours"),
    ]
    ventilation: Annotated[Real, q("Φ_V", "W", "by outside air", name="heat_loss.zone.{zone}.ventilation")]
    air_flow: Annotated[
        Real, q("q_V", "m3/s", "outside air counted in the load", name="ventilation.zone.{zone}.flow")
    ]
    air_by_changes: Annotated[Real, q("q_a", "m3/s", "outside air by air changes")]
    air_by_people: Annotated[Real, q("q_h", "m3/s", "outside air for the people aboard")]
    load: Annotated[Real | None, q("Φ_HL", "W", "load of one zone", name="heat_loss.zone.{zone}")]


@dataclass(frozen=True)
class HeatLoss:
    """The design load, zone by zone; ``paths`` are all ways for heat out of the zones."""

    shell: Shell
    zones: Mapping[str, ZoneLoss]
    outside_air: Annotated[Real, q("θ_e", "K", "outside air")]
    sea: Annotated[Real | None, q("θ_w", "K", "water the boat lies in")]
    total: Annotated[
        Real,
        q("Φ_HL", "W", "design load: sum over the heated zones, pipes not counted", name="heat_loss.total"),
    ]
    residual: float
    paths: tuple[Path, ...]

    @property
    def heated(self) -> tuple[ZoneLoss, ...]:
        """Zones that are kept at a target."""
        return tuple(zone for zone in self.zones.values() if zone.heated)

    @property
    def floating(self) -> tuple[ZoneLoss, ...]:
        """Zones whose temperature is a result."""
        return tuple(zone for zone in self.zones.values() if not zone.heated)


@formula("Φ = Φ_T + Φ_N + Φ_V", HEAT_BALANCE)
def load_of_zone(
    transmission: Annotated[Real, q("Φ_T", "W", "to air, sea and ground")],
    neighbours: Annotated[Real, q("Φ_N", "W", "to other zones")],
    ventilation: Annotated[Real, q("Φ_V", "W", "by outside air")],
) -> Annotated[Real, q("Φ_HL", "W", "load of one zone")]:
    """Heat that keeps a zone at its target."""
    return transmission + neighbours + ventilation


def missing_inputs(project: "Project") -> tuple[str, ...]:
    """Keys without which no load can be found."""
    conditions = project.conditions
    needs = []
    if not project.zones:
        needs.append("zones")
    if conditions is None or conditions.outside_air is None:
        needs.append("conditions.outside_air")
    for zone in project.zones or ():
        if zone.target is not None and not zone.sections:
            needs.append(f"zones.{zone.id}.sections")
        if zone.volume is None and (zone.target is not None or zone.air_changes is not None):
            needs.append(f"zones.{zone.id}.volume")
        faces_sea = any(section.faces == "sea" for section in zone.sections or ())
        if faces_sea and (conditions is None or conditions.sea is None):
            needs.append("conditions.sea")
    return tuple(dict.fromkeys(needs))


def heat_loss(project: "Project") -> HeatLoss | NotAssessed:
    """Design load of the project: every heated zone at its target on the design night."""
    needs, conditions = missing_inputs(project), project.conditions
    if needs or conditions is None or conditions.outside_air is None:
        return NotAssessed(QUESTION, needs)
    targets = {zone.id: zone.target for zone in project.zones or ()}
    return loss_at(project, shell(project), targets, conditions.outside_air)


def loss_at(
    project: "Project", worth: Shell, targets: Mapping[str, Real | None], outside_air: Real
) -> HeatLoss:
    """Loss with the zones held at ``targets`` (K; None floats) and the outside air at ``outside_air`` (K).

    Raises ``DossierError`` where a floating zone touches nothing of known temperature.
    """
    sea = project.conditions.sea if project.conditions else None
    known: dict[str, Real | None] = {"air": outside_air, "sea": sea}
    air = {zone.id: _air(zone) for zone in project.zones or ()}
    paths = []
    for section in worth.sections:
        conductance = section_conductance(section.transmittance, section.area)
        paths.append(Path(section.zone, _beyond(section, known), conductance))
    heat_capacity = coefficient("envelope.air_heat_capacity")
    paths += [
        Path(name, outside_air, ventilation_conductance(heat_capacity, flows[2]))
        for name, flows in air.items()
    ]
    balance = zone_balance(targets, paths)
    temperatures = balance.temperatures
    losses = [_section_loss(section, temperatures, known) for section in worth.sections]
    zones = {}
    for name, target in targets.items():
        own = tuple(loss for loss in losses if loss.zone == name)
        received = tuple(
            _exchange(section, temperatures)
            for section in worth.sections
            if section.facing == "zone" and section.beyond == name
        )
        outward = total_heat_flow(*(s.loss for s in own if s.worth.facing != "zone"))
        across = total_heat_flow(
            *(s.loss for s in own if s.worth.facing == "zone"), *(e.loss for e in received)
        )
        by_changes, by_people, flow = air[name]
        with_air = ventilation_loss(heat_capacity, flow, temperatures[name], outside_air)
        heated = target is not None
        zones[name] = ZoneLoss(
            name,
            heated,
            temperatures[name],
            own,
            received,
            outward,
            across,
            with_air,
            flow,
            by_changes,
            by_people,
            load_of_zone(outward, across, with_air) if heated else None,
        )
    total = total_heat_flow(*(zone.load for zone in zones.values() if zone.load is not None))
    return HeatLoss(worth, zones, outside_air, sea, total, balance.residual, tuple(paths))


def loss_in_mode(project: "Project", design: HeatLoss, state: "ModeState") -> HeatLoss:
    """Loss in a mode of use: targets and outside air as the mode has them, zones that do not call float."""
    outside_air = design.outside_air if state.outside_air is None else state.outside_air
    targets = {
        name: state.targets.get(name, zone.temperature) if zone.heated and name in state.calls else None
        for name, zone in design.zones.items()
    }
    if outside_air == design.outside_air and all(
        (target is None) is not zone.heated and (target is None or target == zone.temperature)
        for zone, target in zip(design.zones.values(), targets.values(), strict=True)
    ):
        return design
    return loss_at(project, design.shell, targets, outside_air)


def _air(zone: "Zone") -> tuple[Real, Real, Real]:
    """Outside air of a zone by air changes, by people, and the larger of both (m3/s)."""
    place = f"zones.{zone.id}"
    if zone.volume is None:
        by_changes: Real = 0.0
    else:
        changes = stated_or_assumed(zone.air_changes, "zones.air_changes", f"{place}.air_changes")
        by_changes = air_change_flow(changes, zone.volume)
    people = stated_or_assumed(zone.people, "zones.people", f"{place}.people")
    by_people = breathing_air_flow(people, assumed("zones.air_per_person", f"{place}.people"))
    return by_changes, by_people, outside_air_flow(by_changes, by_people)


def _beyond(section: SectionWorth, known: Mapping[str, Real | None]) -> str | Real:
    """Zone beyond a section, or the temperature there (K)."""
    beyond = known.get(section.facing, section.beyond)
    if beyond is None:
        raise DossierError(f"the temperature beyond {section.name} of zone {section.zone} is not known")
    return beyond


def _section_loss(
    section: SectionWorth, temperatures: Mapping[str, Real], known: Mapping[str, Real | None]
) -> SectionLoss:
    place = _beyond(section, known)
    beyond = temperatures[place] if isinstance(place, str) else place
    loss = transmission_loss(section.transmittance, section.area, temperatures[section.zone], beyond)
    return SectionLoss(section.zone, section.name, section, beyond, loss)


def _exchange(section: SectionWorth, temperatures: Mapping[str, Real]) -> Exchange:
    inside, beyond = temperatures[str(section.beyond)], temperatures[section.zone]
    loss = transmission_loss(section.transmittance, section.area, inside, beyond)
    return Exchange(section.zone, section.name, section, loss)
