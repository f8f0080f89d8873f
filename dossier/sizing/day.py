"""What does a winter day look like, hour by hour?

The boat on its design day, from event to event: outside air in its daily course, thermostats with their
bands, fans that stand still while the water is cool, lower targets at night, showers, an engine's hours, and
the burner through purge, ignition, low, high, after-run and lock-out. Exact between events.

The ring is one mixed cell for each pipe and unit. Cut twice as fine, the starts of the demonstration boats
move by 5 % at most, the burner's time by 1 %, the peak by 1.5 K (it hangs on which fans stand still when a
shower begins). Flows are those of the mode; emitters and pipes are straight lines through their state in it:
radiators, which bend, are given up to 8 % too much heat by water 12 K cooler.
"""

from typing import TYPE_CHECKING, Annotated, Any

import numpy as np

from dossier.data.assumptions import stated_or_assumed
from dossier.data.fuels import fuel
from dossier.data.sources import HEAT_BALANCE, OHM
from dossier.notation import NotAssessed, NotConverged, OutOfRange, Quantity, Real, Traced, q, solved
from dossier.notation.records import dataclass
from dossier.physics.fuel import fuel_volume
from dossier.sizing.coolant import Coolant
from dossier.sizing.day_boat import Boat
from dossier.sizing.day_build import BoatBuilder
from dossier.sizing.day_burner import FLAMES, Burner, Burning, burner_law
from dossier.sizing.day_currents import Currents, currents_of
from dossier.sizing.day_program import DAY, Program, program_of
from dossier.sizing.day_record import DayCourse, DayRecord, HeatOfDay, Vector
from dossier.sizing.day_run import DayRun, Tally
from dossier.sizing.heat_loss import HeatLoss
from dossier.sizing.modes import DESIGN
from dossier.sizing.ring import Operation, RingStudy
from dossier.sizing.store_modes import Control, control_of
from dossier.sizing.store_parts import waiting

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "What does a winter day look like?"
RUN_IN = 2 * 3600.0
"""Seconds before midnight at which the boat is set going, rooms at their targets."""
CLOSED = 1e-6
"""Largest share of the day's heat that its balance may leave over."""


@dataclass(frozen=True)
class DayStudy:
    """The simulated day. ``needs`` names the keys without which its charge is not known."""

    mode: str
    control: Control
    program: Program
    boat: Boat
    record: DayRecord
    heat: HeatOfDay
    starts: Annotated[Real, q("n", "1", "burner starts of the simulated day", name="day.starts")]
    running_time: Annotated[Real, q("t", "s", "of the burner", name="day.running_time")]
    fuel: Annotated[Real, q("V", "m3", "of the simulated day", name="day.fuel")]
    charge: Annotated[
        Real | None,
        q("Q", "C", "taken from the battery in the simulated day", name="day.charge"),
    ]
    temperature_peak: Annotated[
        Real,
        q("θ", "K", "highest ring temperature of the simulated day", name="day.temperature_peak"),
    ]
    shortest_run: Annotated[Real | None, q("t_on", "s", "shortest burner run of the day")]
    lock_outs: int
    needs: tuple[str, ...]

    def course(self, step: float = 60.0) -> DayCourse:
        """The day at equal steps (s): the events stay where they are, whatever the step."""
        time: Vector = np.arange(0.0, DAY + step / 2, step)
        states, found = self.record.at(time)
        boat, law = self.boat, burner_law(self.control)
        seen = {"supply": boat.row(boat.burner), "return": boat.back, "sensor": boat.sensor}
        if boat.store is not None:
            seen["store"] = boat.row(boat.store)
        ring: dict[str, Vector] = {name: states @ row for name, row in seen.items()}
        rooms: dict[str, Vector] = {zone: states[:, place] for zone, place in boat.zones.items()}
        between = law.gain * (law.stops - states @ boat.sensor) + law.lowest
        does = tuple(stretch.burner for stretch in found)
        output = np.array([_output(state, law.lowest, law.full) for state in does])
        output = np.where([state is Burning.BETWEEN for state in does], between, output)
        current: Vector = np.array([stretch.current for stretch in found])
        return DayCourse(time, ring, rooms, self.program.outside(time), does, output, current)


def _output(does: Burning, lowest: float, full: float) -> float:
    if does not in FLAMES:
        return 0.0
    return full if does is Burning.HIGH else lowest


def day(  # noqa: PLR0913 - the studies it rests on, and two choices
    project: "Project",
    ring: RingStudy | NotAssessed,
    coolant: Coolant | NotAssessed,
    heat_loss: HeatLoss | NotAssessed,
    *,
    mode: str = DESIGN,
    cells: int = 1,
) -> DayStudy | NotAssessed:
    """Simulate the design day in a mode of use; ``cells`` cuts each part of the ring into so many.

    Not assessed where it does not come to an end, or its balance of heat does not close to a millionth.
    """
    if (
        isinstance(heat_loss, NotAssessed)
        or isinstance(ring, NotAssessed)
        or isinstance(coolant, NotAssessed)
    ):
        return waiting(QUESTION, heat_loss, ring, coolant)
    try:
        return _simulated(project, ring, coolant, heat_loss, mode, cells)
    except (NotConverged, OutOfRange) as reason:
        return NotAssessed(QUESTION, ("components.burner.band",), str(reason))


def _simulated(  # noqa: PLR0913, PLR0917 - a day with all that it rests on
    project: "Project", ring: RingStudy, coolant: Coolant, loss: HeatLoss, mode: str, cells: int
) -> DayStudy | NotAssessed:
    operation = ring.operations.get(mode)
    sources = operation.heat.sources if operation is not None and operation.heat else {}
    burners = [(project.components or {})[tag] for tag, s in sources.items() if s.kind == "burner"]
    if operation is None or not burners:
        return NotAssessed(QUESTION, ("components.burner.output",), f"no burner runs in mode {mode}")
    if len(burners) > 1:
        return NotAssessed(QUESTION, (), "several burners share the ring: no rule of theirs is described")
    control = control_of(burners[0])
    boat = BoatBuilder(project, ring, coolant, loss, control).boat(operation, cells)
    stated = operation.state.outside_air
    program = program_of(project, boat, float(loss.outside_air if stated is None else stated))
    currents = currents_of(project, control.unit.tag, boat)
    running = DayRun(boat, Burner(burner_law(control)), program, targets_of(loss, operation), currents)
    running.run(-RUN_IN, 0.0)
    running.stretches.clear()
    running.tally = Tally(integral=np.zeros(len(boat.names)))
    before, locked = running.state, running.burner.lock_outs
    running.run(0.0, DAY)
    heat = _heat(boat, program, running.tally, before, running.state)
    if heat.residual > CLOSED:
        raise NotConverged(f"the heat of the simulated day is out of balance by {heat.residual:.1e}")
    record = DayRecord(running.stretches)
    counted = _counted(control, program, currents, running.tally, record, heat, loss)
    lock_outs = running.burner.lock_outs - locked
    return DayStudy(
        mode, control, program, boat, record, heat, lock_outs=lock_outs, needs=currents.needs, **counted
    )


def targets_of(loss: HeatLoss, operation: Operation) -> dict[str, float]:
    """Targets (K) of the zones that call in a mode."""
    state = operation.state
    return {
        zone.zone: float(state.targets.get(zone.zone, zone.temperature))
        for zone in loss.heated
        if zone.zone in state.calls
    }


def _heat(boat: Boat, program: Program, tally: Tally, before: Vector, after: Vector) -> HeatOfDay:
    """Heat of the day by where it came from and went, with what its balance leaves over."""
    air = float(boat.outside @ tally.integral) - float(boat.outside.sum()) * program.mean * DAY
    lost = {
        what: float(out @ tally.integral) - float(held.sum()) * DAY
        for what, (out, held) in boat.fixed.items()
    }
    sea = lost.pop("sea", 0.0)
    elsewhere = sum(lost.values())
    stored = float(boat.capacities @ (after - before))
    brought = tally.burner + tally.recovered
    left = brought - tally.tap - air - sea - elsewhere - stored
    largest = max(brought, abs(air), abs(sea), abs(elsewhere), abs(stored), 1.0)
    residual = abs(left) / largest
    return HeatOfDay(tally.burner, tally.recovered, tally.tap, air, sea, elsewhere, stored, residual)


def _counted(  # noqa: PLR0913, PLR0917 - a day with all that it rests on
    control: Control,
    program: Program,
    currents: Currents,
    tally: Tally,
    record: DayRecord,
    heat: HeatOfDay,
    loss: HeatLoss,
) -> dict[str, Any]:
    """What is counted of the day, each number with all that it rests on."""
    rests = _rests(control, program, loss)
    text = f"simulated from event to event, {len(record)} stretches; balance {heat.residual:.1e}"

    def found(number: float, symbol: str, unit: str, label: str) -> Traced:
        return solved(number, q(symbol, unit, label), text, HEAT_BALANCE, rests)

    unit = control.unit
    efficiency = stated_or_assumed(
        unit.efficiency, "components.burner.efficiency", f"components.{unit.tag}.efficiency"
    )
    burnt = fuel()
    given = found(float(heat.burner), "Q", "J", "heat given by the burner")
    runs = [length for begin, length in record.runs() if begin > 0 and begin + length < DAY]
    charge = q("Q", "C", "charge of the day")
    return {
        "starts": found(tally.starts, "n", "1", "burner starts"),
        "running_time": found(tally.flame, "t", "s", "time of the flame"),
        "fuel": fuel_volume(given, efficiency, burnt.heat_of_combustion, burnt.density),
        "charge": None
        if currents.needs
        else solved(tally.charge, charge, text, OHM, [*currents.stated, *rests]),
        "temperature_peak": found(tally.peak, "θ", "K", "highest ring temperature"),
        "shortest_run": found(min(runs), "t_on", "s", "shortest run") if runs else None,
    }


def _rests(control: Control, program: Program, loss: HeatLoss) -> list[tuple[Quantity, Real]]:
    """What the day rests on: the load, the burner and its control, all that is assumed of the day."""
    unit = control.unit
    rests: list[tuple[Quantity, Real]] = [
        (q("Φ_HL", "W", "design load"), loss.total),
        (q("Φ_max", "W", "full output"), unit.output.max),
        (q("θ_set", "K", "setpoint"), control.setpoint),
        (q("Δθ_sw", "K", "switching band"), control.band),
        (q("t_n", "s", "after-run"), control.after_run),
        (q("t_a", "s", "start time"), control.start_time),
    ]
    if unit.output.min is not None:
        rests.append((q("Φ_min", "W", "lowest output"), unit.output.min))
    return [*rests, *program.assumptions]
