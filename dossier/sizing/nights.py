"""What does tonight take, and how long will the fuel last at that cold?

Twelve hours at five temperatures of the outside air, rooms at their targets, sea and wind as on the design
night. The ring is solved once more for each, with the valves as they are preset, so that a cabin the water no
longer keeps warm is named.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import ARITHMETIC, NotAssessed, NotConverged, OutOfRange, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.fuel import fuel_autonomy, fuel_rate, fuel_volume
from dossier.physics.network_elements import CircuitFault
from dossier.physics.zones import total_heat_flow
from dossier.sizing.battery import battery_day
from dossier.sizing.burner_day import burner_day
from dossier.sizing.fuel import FuelStudy
from dossier.sizing.heat_loss import HeatLoss, loss_at
from dossier.sizing.held import HeldRooms, held_rooms
from dossier.sizing.modes import DESIGN
from dossier.sizing.operation import operate
from dossier.sizing.ring import RingStudy
from dossier.sizing.season import standing_losses
from dossier.sizing.store import StoreStudy
from dossier.sizing.surroundings import PipeLosses

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "What does tonight take?"
OUTSIDE = (5, 0, -5, -10, -20)
"""Outside air in whole degrees Celsius."""
ICE_POINT = 273.15
NIGHT = 43200.0
LEAST_RATE = 1e-12
"""Fuel (m³/s) below which a tank lasts for ever."""


@formula("Φ_b = min(max(Φ, 0), Φ_max)", HEAT_BALANCE)
def heat_of_burner(
    needed: Annotated[Real, q("Φ", "W", "heat needed", low=-1e6, high=1e6)],
    full: Annotated[Real, q("Φ_max", "W", "full output", low=1, high=1e6)],
) -> Annotated[Real, q("Φ_b", "W", "heat the burner gives, mean of the night", low=0)]:
    """Heat the burner gives: what is needed, at most its full output."""
    return np.minimum(np.maximum(needed, 0.0), full)


@formula("Q = Φ_b · 43200 s", HEAT_BALANCE)
def heat_of_night(
    given: Annotated[Real, q("Φ_b", "W", "heat the burner gives", low=0, high=1e6)],
) -> Annotated[Real, q("Q", "J", "heat of twelve hours", low=0)]:
    """Heat of twelve hours."""
    return given * NIGHT


@formula("Q = Q_d/2", ARITHMETIC)
def charge_of_night(
    a_day: Annotated[Real, q("Q_d", "C", "charge of a day", low=0, high=1e9)],
) -> Annotated[Real, q("Q", "C", "charge of twelve hours", low=0)]:
    """Charge of half a day."""
    return a_day / 2


@formula("n = t/86400 s", ARITHMETIC)
def days_of(
    time: Annotated[Real, q("t", "s", "time until the usable fuel is burnt", low=0, high=1e12)],
) -> Annotated[Real, q("n", "1", "days", low=0)]:
    """Days in a time."""
    return time / 86400.0


@dataclass(frozen=True)
class Night:
    """One night. ``held`` are the rooms that keep their target, ``colder`` the others and what they keep (K).

    Both are empty where the ring could not be solved; ``not_solved`` then says why. ``falls_short`` tells
    that the full output is less than what is needed.
    """

    outside: str
    air: Annotated[Real, q("θ_e", "K", "outside air")]
    load: Annotated[Real, q("Φ_HL", "W", "load of all rooms")]
    needed: Annotated[Real, q("Φ", "W", "rooms, pipes and stores")]
    given: Annotated[Real, q("Φ_b", "W", "heat the burner gives, mean of the night")]
    falls_short: bool
    fuel: Annotated[Real, q("V", "m3", "fuel of twelve hours", name="night.{outside}.fuel")]
    charge: Annotated[Real | None, q("Q", "C", "charge of twelve hours", name="night.{outside}.charge")]
    days_left: Annotated[
        Real | None,
        q("n", "1", "days until only the engine's reserve is left", name="night.{outside}.days_left"),
    ]
    held: tuple[str, ...]
    colder: Mapping[str, Real]
    not_solved: str = ""


@dataclass(frozen=True)
class Nights:
    """Five nights, the warmest first; ``needs`` names the keys without which their charge is not known."""

    nights: tuple[Night, ...]
    needs: tuple[str, ...]


def nights(
    project: "Project",
    loss: HeatLoss | NotAssessed,
    burnt: FuelStudy | NotAssessed,
    ring: RingStudy | NotAssessed,
    store: StoreStudy | NotAssessed,
) -> Nights | NotAssessed:
    """Fuel, charge, rooms held and days left at five temperatures of the outside air."""
    if isinstance(loss, NotAssessed):
        return NotAssessed(QUESTION, loss.needs, loss.why)
    if isinstance(burnt, NotAssessed):
        return NotAssessed(QUESTION, burnt.needs, burnt.why)
    if not loss.heated:
        return NotAssessed(QUESTION, ("zones.target",), "no zone is heated")
    made = _Reckoning(project, loss, burnt, ring, store)
    return Nights(tuple(made.night(celsius) for celsius in OUTSIDE), made.needs)


class _Reckoning:
    """What all nights share."""

    def __init__(
        self,
        project: "Project",
        loss: HeatLoss,
        burnt: FuelStudy,
        ring: RingStudy | NotAssessed,
        store: StoreStudy | NotAssessed,
    ) -> None:
        self.project, self.loss, self.burnt = project, loss, burnt
        self.ring = None if isinstance(ring, NotAssessed) else ring
        self.store = None if isinstance(store, NotAssessed) else store
        self.standing = standing_losses(ring, store)
        burners: list[Any] = [c for c in (project.components or {}).values() if c.kind == "burner"]
        self.full = total_heat_flow(*(burner.output.max for burner in burners))
        self.needs = battery_day(project, None, None).needs if project.electrics else ("electrics.system",)

    def night(self, celsius: int) -> Night:
        """One night."""
        air = celsius + ICE_POINT
        targets = {name: zone.temperature if zone.heated else None for name, zone in self.loss.zones.items()}
        loss = loss_at(self.project, self.loss.shell, targets, air)
        needed = total_heat_flow(loss.total, self.standing)
        given = heat_of_burner(needed, self.full)
        fuel, efficiency = self.burnt.fuel, self.burnt.efficiency
        figures = (efficiency, fuel.heat_of_combustion, fuel.density)
        held, reason = self._held(loss)
        rooms = {} if held is None else held.rooms
        return Night(
            outside=f"{'m' if celsius < 0 else ''}{abs(celsius)}",
            air=air,
            load=loss.total,
            needed=needed,
            given=given,
            falls_short=float(needed) > float(self.full),
            fuel=fuel_volume(heat_of_night(given), *figures),
            charge=self._charge(given),
            days_left=self._days(fuel_rate(given, *figures)),
            held=tuple(name for name, room in rooms.items() if not room.falls_short),
            colder={name: room.temperature for name, room in rooms.items() if room.falls_short},
            not_solved=reason,
        )

    def _charge(self, given: Real) -> Real | None:
        """Charge of the night; starts at the mean load, those of a burner that runs on are none."""
        if self.store is None or not self.project.electrics:
            return None
        day = battery_day(self.project, *burner_day(self.store, given))
        return None if day.per_day is None else charge_of_night(day.per_day)

    def _days(self, rate: Real) -> Real | None:
        if self.burnt.usable is None or float(rate) <= LEAST_RATE:
            return None
        return days_of(fuel_autonomy(self.burnt.usable, rate))

    def _held(self, loss: HeatLoss) -> tuple[HeldRooms | None, str]:
        """Rooms that night, or why they are not known."""
        if self.ring is None or self.ring.design is None:
            return None, "the circuit is not solved"
        try:
            held = held_rooms(loss, self._ring(self.ring, loss))
        except (NotConverged, OutOfRange, CircuitFault) as why:
            return None, str(why)
        return (None, held.why) if isinstance(held, NotAssessed) else (held, "")

    def _ring(self, ring: RingStudy, loss: HeatLoss) -> RingStudy:
        """The ring with the loads and the air of that night, valves as preset."""
        design = ring.operations[DESIGN]
        old = design.setting
        loads = {tag: load * self._ratio(loss, old.emitters[tag].zone) for tag, load in old.loads.items()}
        air: dict[str, Real] = {name: zone.temperature for name, zone in loss.zones.items()}
        air["outside"] = loss.outside_air
        pipes = {
            tag: replace(pipe, air=air.get(pipe.through or pipe.beside, pipe.air))
            for tag, pipe in old.pipes.items()
        }
        rooms = {
            tag: float(air.get(old.emitters[tag].air_from or old.emitters[tag].zone, room))
            for tag, room in old.rooms.items()
        }
        setting = replace(old, loads=loads, rooms=rooms, pipes=pipes, pipe_losses=PipeLosses(pipes))
        outcome = operate(ring.hydraulics, setting, design.outcome)
        operation = replace(design, setting=setting, outcome=outcome)
        return replace(ring, operations={**ring.operations, DESIGN: operation})

    def _ratio(self, loss: HeatLoss, zone: str) -> float:
        """Load of a zone that night over that of the design night."""
        before, now = self.loss.zones[zone].load, loss.zones[zone].load
        if before is None or now is None or float(before) <= 0:
            return 1.0
        return max(float(now), 0.0) / float(before)
