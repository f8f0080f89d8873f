"""How long from stepping aboard a cold boat to a warm one?

The boat of the simulated day, all of it at the temperature of the unheated boat, outside air as on the design
night: burner and emitters give what they can, until each zone has done its share of the rise. The power a
wanted time asks for is the closed form of one lumped capacity.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.catalogue import catalogue
from dossier.data.coefficients import coefficient
from dossier.data.sources import HEAT_BALANCE
from dossier.notation import NotAssessed, NotConverged, OutOfRange, Quantity, Real, formula, q, solved
from dossier.notation.records import dataclass
from dossier.physics.envelope import section_conductance
from dossier.physics.ventilation import ventilation_conductance
from dossier.physics.warm_up import extra_power, temperature_wanted, zone_capacity
from dossier.sizing.coolant import Coolant
from dossier.sizing.day import targets_of
from dossier.sizing.day_boat import Boat
from dossier.sizing.day_build import BoatBuilder
from dossier.sizing.day_burner import Burner, burner_law
from dossier.sizing.day_currents import Currents
from dossier.sizing.day_program import Program
from dossier.sizing.day_record import DayRecord, Vector
from dossier.sizing.day_run import DayRun
from dossier.sizing.heat_loss import HeatLoss
from dossier.sizing.modes import DESIGN
from dossier.sizing.ring import RingStudy
from dossier.sizing.store_modes import control_of
from dossier.sizing.store_parts import waiting

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "How long until a cold boat is warm?"
CHECK = "heat.warm_up"
LONGEST = 86400.0
"""Seconds after which a zone that is not warm counts as one that does not get warm."""
PART = 1800.0
"""Seconds run at a time, until all are warm."""
SHARP = 0.01
"""Seconds to which a moment is found."""


@formula("H = Σ H_i", HEAT_BALANCE)
def total_conductance(
    *each: Annotated[Real, q("H_i", "W/K", "conductance of a section or of the air", low=0, high=1e6)],
) -> Annotated[Real, q("H", "W/K", "conductance to all that lies beyond", low=0)]:
    """Conductance of a zone to all that lies beyond it."""
    return sum(each)


@dataclass(frozen=True)
class ZoneWarmUp:
    """How a zone gets warm. ``time`` is None where it does not within a day."""

    zone: str
    start: Annotated[Real, q("θ_0", "K", "temperature at the start")]
    target: Annotated[Real, q("θ_t", "K", "temperature to be held")]
    wanted: Annotated[Real, q("θ_w", "K", "temperature that counts as warm")]
    capacity: Annotated[Real, q("C", "J/K", "heat capacity of the zone")]
    conductance: Annotated[Real, q("H", "W/K", "conductance to all that lies beyond")]
    time: Annotated[
        Real | None,
        q("t", "s", "from the cold boat to 80 % of the rise", name="warm_up.zone.{zone}.time"),
    ]
    power: Annotated[
        Real,
        q("Φ_RH", "W", "extra power for the wanted warm-up time", name="warm_up.zone.{zone}.power"),
    ]


@dataclass(frozen=True)
class WarmUpCurves:
    """Temperatures (K) of all zones, and of the supply, over the time since the start (s)."""

    time: Vector
    rooms: Mapping[str, Vector]
    supply: Vector


@dataclass(frozen=True)
class WarmUp:
    """Warm-up of all zones that call; ``within`` (s) is the time wanted, ``stated`` whether by the file.

    ``lacking`` names the zones that no emitter of known output heats.
    """

    zones: Mapping[str, ZoneWarmUp]
    within: Annotated[Real, q("t", "s", "warm-up time wanted")]
    stated: bool
    lacking: tuple[str, ...]
    record: DayRecord
    boat: Boat

    def curves(self, step: float = 120.0) -> WarmUpCurves:
        """Temperatures at equal steps (s)."""
        last = self.record.stretches[-1]
        time: Vector = np.arange(0.0, last.begin + last.span + step / 2, step)
        states = self.record.at(time)[0]
        rooms = {zone: states[:, place] for zone, place in self.boat.zones.items()}
        return WarmUpCurves(time, rooms, states @ self.boat.row(self.boat.burner))


def warm_up(
    project: "Project",
    heat_loss: HeatLoss | NotAssessed,
    ring: RingStudy | NotAssessed,
    coolant: Coolant | NotAssessed,
) -> WarmUp | NotAssessed:
    """Warm-up of the cold boat on the design night, in the design mode."""
    conditions = project.conditions
    if conditions is None or conditions.unheated_start is None:
        return NotAssessed(QUESTION, ("conditions.unheated_start",))
    if (
        isinstance(heat_loss, NotAssessed)
        or isinstance(ring, NotAssessed)
        or isinstance(coolant, NotAssessed)
    ):
        return waiting(QUESTION, heat_loss, ring, coolant)
    heat = ring.design.heat if ring.design else None
    burners = [tag for tag, source in (heat.sources if heat else {}).items() if source.kind == "burner"]
    if not burners:
        return NotAssessed(QUESTION, ("components.burner.output",), "no burner runs in the design mode")
    if len(burners) > 1:
        return NotAssessed(QUESTION, (), "several burners share the ring: no rule of theirs is described")
    wanted = conditions.warm_up_within
    within = (catalogue()[CHECK].limit or 0.0) if wanted is None else wanted
    warming = _Warming(project, heat_loss, ring, coolant, conditions.unheated_start)
    try:
        return warming.warm_up(burners[0], within, stated=wanted is not None)
    except (NotConverged, OutOfRange) as reason:
        return NotAssessed(QUESTION, ("components.burner.band",), str(reason))


class _Warming:
    """The steps of the study, with what they share."""

    def __init__(
        self, project: "Project", loss: HeatLoss, ring: RingStudy, coolant: Coolant, start: Real
    ) -> None:
        self.project, self.loss, self.ring, self.coolant, self.start = project, loss, ring, coolant, start

    def warm_up(self, tag: str, within: Real, *, stated: bool) -> WarmUp:
        """Warm-up with one burner."""
        operation = self.ring.operations[DESIGN]
        control = control_of((self.project.components or {})[tag])
        cold = BoatBuilder(self.project, self.ring, self.coolant, self.loss, control).boat(operation)
        boat = replace(cold, start=np.full(len(cold.names), float(self.start)))
        band = float(assumed("day.thermostat_band"))
        program = Program(float(self.loss.outside_air), 0j, 0.0, band, (), ())
        targets = targets_of(self.loss, operation)
        running = DayRun(boat, Burner(burner_law(control)), program, targets, Currents())
        share = coefficient("warm_up.share")
        goals = {
            zone: temperature_wanted(self.start, self.loss.zones[zone].temperature, share)
            for zone in running.zones
        }
        now = 0.0
        while not now or (now < LONGEST and _are_cold(running.state, boat, goals)):
            running.run(now, now + PART)
            now += PART
        record = DayRecord(running.stretches)
        zones = {zone: self._zone(zone, goal, record, boat, within) for zone, goal in goals.items()}
        lacking = tuple(zone for zone in targets if zone not in zones)
        return WarmUp(zones, within, stated, lacking, record, boat)

    def _zone(self, name: str, goal: Real, record: DayRecord, boat: Boat, within: Real) -> ZoneWarmUp:
        zone = next(zone for zone in self.project.zones or () if zone.id == name)
        by_volume = stated_or_assumed(
            zone.heat_capacity, "zones.heat_capacity", f"zones.{name}.heat_capacity"
        )
        capacity = zone_capacity(by_volume, zone.volume or 0.0)
        conductance = total_conductance(*self._ways_out(name))
        target = self.loss.zones[name].temperature
        warm = float(self.start) >= float(goal)
        reached = 0.0 if warm else time_reached(record, boat.zones[name], float(goal))
        time = None
        if reached is not None:
            time = solved(
                reached,
                q("t", "s", "warm-up time"),
                "all zones and the ring together, from event to event",
                HEAT_BALANCE,
                self._rests(name, goal, capacity, conductance),
            )
        power = extra_power(capacity, conductance, self.start, goal, target, within)
        return ZoneWarmUp(name, self.start, target, goal, capacity, conductance, time, power)

    def _ways_out(self, name: str) -> list[Real]:
        """Conductances of all sections of a zone, those in its neighbours' lists too, and of its air."""
        ways = [
            section_conductance(section.transmittance, section.area)
            for section in self.loss.shell.sections
            if section.zone == name or (section.facing == "zone" and section.beyond == name)
        ]
        air = self.loss.zones[name].air_flow
        return [*ways, ventilation_conductance(coefficient("envelope.air_heat_capacity"), air)]

    def _rests(self, name: str, goal: Real, capacity: Real, conductance: Real) -> list[tuple[Quantity, Real]]:
        """What a warm-up time rests on."""
        rests: list[tuple[Quantity, Real]] = [
            (q("θ_0", "K", "temperature at the start"), self.start),
            (q("θ_w", "K", "temperature that counts as warm"), goal),
            (q("C", "J/K", "heat capacity of the zone"), capacity),
            (q("H", "W/K", "conductance to all that lies beyond"), conductance),
            (q("θ_e", "K", "outside air"), self.loss.outside_air),
        ]
        for tag, emitter in self.ring.emitters.items():
            if emitter.zone == name:
                rests.append((q("Φ_n", "W", f"rated output of {tag}"), emitter.rated_output))
        burners: list[Any] = [c for c in (self.project.components or {}).values() if c.kind == "burner"]
        rests += [(q("Φ_max", "W", f"full output of {b.tag}"), b.output.max) for b in burners if b.output]
        return rests


def _are_cold(state: Vector, boat: Boat, goals: Mapping[str, Real]) -> bool:
    """Whether any zone is under its goal (K)."""
    return any(state[boat.zones[zone]] < float(goal) for zone, goal in goals.items())


def time_reached(record: DayRecord, place: int, level: float) -> float | None:
    """When a temperature first reaches a level (K), in seconds since the start; None where it does not."""
    for stretch in record.stretches:
        course, span = stretch.course, stretch.span
        if course.state(span)[place] < level:
            continue
        low, high = 0.0, span
        while high - low > SHARP:
            middle = (low + high) / 2
            if course.state(middle)[place] >= level:
                high = middle
            else:
                low = middle
        return stretch.begin + high
    return None
