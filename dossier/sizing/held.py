"""How warm does each room really get on the design night?

Where the emitters of a room fall short, the room settles below its target and its neighbours follow; they
then need more, and the water meets colder air. So rooms and circuit are solved in turn until none moves.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Annotated, Any

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import NotAssessed, NotConverged, OutOfRange, Real, chosen, q
from dossier.notation.records import dataclass
from dossier.physics.zones import Path, zone_balance
from dossier.sizing.emitters import EMITTERS
from dossier.sizing.heat_loss import HeatLoss
from dossier.sizing.operation import Outcome, Setting, operate
from dossier.sizing.ring import Operation, RingStudy
from dossier.sizing.surroundings import PipeLosses

QUESTION = "How warm does each room really get?"
ROUNDS = 40
CLOSE = 1e-4
"""Last move of a room's temperature (K) that counts as none."""

ROOM = q("θ_i", "K", "room temperature")


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
    """Temperatures of all rooms that call for heat, and of those that nobody heats.

    ``beside`` holds the zones that float, with the heat of the pipes that pass them.
    """

    rooms: Mapping[str, HeldRoom]
    beside: Mapping[str, Real]


def held_rooms(loss: HeatLoss | NotAssessed, ring: RingStudy | NotAssessed) -> HeldRooms | NotAssessed:
    """Rooms at their target where the emitters suffice, else where heat given and heat lost meet."""
    if isinstance(loss, NotAssessed):
        return loss
    if isinstance(ring, NotAssessed):
        return ring
    if ring.design is None:
        return NotAssessed(QUESTION, ("modes.heating",), next(iter(ring.not_solved.values()), ""))
    if ring.design.heat is None:
        return NotAssessed(
            QUESTION, ("components.burner.output",), "no source of heat runs in the design mode"
        )
    try:
        return _Rooms(loss, ring, ring.design).settled()
    except (NotConverged, OutOfRange) as reason:
        return NotAssessed(QUESTION, (), str(reason))


class _Rooms:
    """Rooms and circuit on the way to where both stay."""

    def __init__(self, loss: HeatLoss, ring: RingStudy, design: Operation) -> None:
        self.loss, self.ring, self.design = loss, ring, design
        self.setting: Setting = design.setting
        self.outcome: Outcome = design.outcome
        emitters: list[Any] = [place.unit for place in ring.hydraulics.circuit.of_kind(*EMITTERS)]
        unknown = {unit.zone for unit in emitters if unit.tag in ring.lacking}
        self.heated = {
            zone.zone: float(zone.temperature)
            for zone in loss.heated
            if zone.zone in design.state.calls and zone.zone not in unknown
        }
        self.at: dict[str, float] = {name: float(zone.temperature) for name, zone in loss.zones.items()}
        self.loads = {zone.zone: float(zone.load or 0.0) for zone in loss.heated}
        self.begun = dict(self.loads)

    def settled(self) -> HeldRooms:
        """Rooms where nothing moves any more."""
        moved, worst = 0.0, ""
        for _ in range(ROUNDS):
            short = self._short()
            found, loads = self._balanced(short)
            worst = max(found, key=lambda zone: abs(found[zone] - self.at[zone]))
            moved = abs(found[worst] - self.at[worst])
            self.at, self.loads = found, {**self.loads, **loads}
            if moved < CLOSE:
                return self._told(short)
            if not short:
                continue
            self.setting = self._setting(short)
            self.outcome = operate(self.ring.hydraulics, self.setting, self.outcome)
        raise NotConverged(f"the temperature of {worst} still moves by {moved:.3g} K after {ROUNDS} rounds")

    def _pipe_heat(self, zone: str) -> float:
        found = self.outcome.temperatures
        return sum(
            found.heat.get(tag, 0.0) if found else 0.0
            for tag, pipe in self.setting.pipes.items()
            if pipe.through == zone
        )

    def _able(self, zone: str, room: float) -> list[tuple[float, float]]:
        """What each emitter of a zone can give at a temperature of the room (W), and its water (K)."""
        found = self.outcome.temperatures
        each = []
        for tag, model in self.setting.emitters.items():
            if model.zone != zone or found is None or tag not in found.inlet:
                continue
            flow = float(self.outcome.solution.mass_flow[self.ring.hydraulics.run_of[tag]])
            rate, water = abs(flow) * self.outcome.specific_heat, found.inlet[tag]
            air = room if model.air_from in {"", zone} else self.setting.rooms[tag]
            runs = tag in self.setting.running
            each.append((float(model.plain.output(water, rate, air, fan_runs=runs)), water))
        return each

    def _short(self) -> set[str]:
        """Heated zones whose emitters and pipes give less than they need at their target."""
        return {
            zone
            for zone, target in self.heated.items()
            if sum(heat for heat, _ in self._able(zone, target)) + self._pipe_heat(zone) < self.loads[zone]
        }

    def _balanced(self, short: set[str]) -> tuple[dict[str, float], dict[str, float]]:
        """Temperatures of all zones, and loads of those at their target."""
        targets = {
            name: float(zone.temperature) if zone.heated and name not in short else None
            for name, zone in self.loss.zones.items()
        }
        gains: dict[str, Real] = {
            name: self._pipe_heat(name) for name, target in targets.items() if target is None
        }
        paths = [replace(path, conductance=float(path.conductance)) for path in self.loss.paths]
        for zone in short:
            room = self.at[zone]
            for heat, water in self._able(zone, room):
                if water > room + CLOSE:
                    paths.append(Path(zone, water, max(heat, 0.0) / (water - room)))
        balance = zone_balance(targets, paths, gains)
        return (
            {name: float(t) for name, t in balance.temperatures.items()},
            {name: float(load) for name, load in balance.loads.items()},
        )

    def _setting(self, short: set[str]) -> Setting:
        """The mode with rooms, pipes and thermostats as they are found."""
        old = self.design.setting
        rooms, loads = dict(old.rooms), {}
        for tag, model in old.emitters.items():
            rooms[tag] = self.at.get(model.air_from or model.zone, rooms[tag])
            if tag in old.loads and model.zone not in short:
                loads[tag] = old.loads[tag] * self.loads[model.zone] / self.begun[model.zone]
        pipes = {
            tag: replace(pipe, air=self.at[zone])
            if (zone := pipe.through or pipe.beside) in self.at
            else pipe
            for tag, pipe in old.pipes.items()
        }
        return replace(old, rooms=rooms, loads=loads, pipes=pipes, pipe_losses=PipeLosses(pipes))

    def _told(self, short: set[str]) -> HeldRooms:
        rooms = {}
        for zone in self.heated:
            target = self.loss.zones[zone].temperature
            text = "heat given and heat lost meet" if zone in short else "the target: the emitters suffice"
            given = [target, *(path.beyond for path in self.loss.paths if path.zone == zone)]
            rests = [number for number in given if not isinstance(number, str)] if zone in short else [target]
            held = chosen(self.at[zone], ROOM, text, HEAT_BALANCE, *rests)
            rooms[zone] = HeldRoom(zone, held, zone in short)
        beside: dict[str, Real] = {
            zone.zone: chosen(
                self.at[zone.zone], ROOM, "with the heat of its pipes", HEAT_BALANCE, zone.temperature
            )
            for zone in self.loss.zones.values()
            if zone.zone not in rooms
        }
        return HeldRooms(rooms, beside)
