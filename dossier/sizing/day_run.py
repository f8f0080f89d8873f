"""Runs the day from event to event: thermostats, fans, showers, engine and burner on one heat balance.

Between two events nothing switches, so the balance is linear and its course is exact.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import inf
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from dossier.notation import NotConverged
from dossier.sizing.day_boat import Boat
from dossier.sizing.day_burner import APART, CLOSE, FLAMES, STARTING, Burner, Burning
from dossier.sizing.day_currents import Currents
from dossier.sizing.day_linear import Driven, Levels, LinearSystem
from dossier.sizing.day_program import FREQUENCY, Happening, Moment, Program
from dossier.sizing.day_record import Stretch

Vector = NDArray[np.float64]
MOST_EVENTS = 8000
ROUNDS = 8
LEAST = 1e-9
"""Seconds within which a time counts as reached."""
FAN_APART = 5.0
"""Kelvin that the water must cool below a fan's start before it stops."""


@dataclass
class Tally:
    """What is counted over a stretch of time: heat (J), time (s), charge (C), integrals (K·s)."""

    burner: float = 0.0
    recovered: float = 0.0
    tap: float = 0.0
    flame: float = 0.0
    charge: float = 0.0
    starts: int = 0
    peak: float = -inf
    integral: Vector = field(default_factory=lambda: np.zeros(0))


class Switched(NamedTuple):
    """The balance as it is switched, the levels watched, the current (A)."""

    balance: Driven
    levels: Levels
    current: float


class DayRun:
    """A boat at work. ``targets`` are those of the zones that call (K)."""

    def __init__(
        self, boat: Boat, burner: Burner, program: Program, targets: Mapping[str, float], currents: Currents
    ) -> None:
        self.boat, self.burner, self.program, self.currents = boat, burner, program, currents
        self.targets = dict(targets)
        self.zones = [zone for zone in targets if any(e.zone == zone for e in boat.emissions)]
        self.fans = [e for e in boat.emissions if e.starts is not None]
        self.calls = dict.fromkeys(self.zones, False)
        self.warm = {e.tag: False for e in self.fans}
        self.tap = self.recovery = 0
        self.lowered = False
        self.state = boat.start.copy()
        self.systems: dict[tuple[object, ...], tuple[LinearSystem, Vector]] = {}
        self.switched: dict[tuple[object, ...], Switched] = {}
        self.stretches: list[Stretch] = []
        self.tally = Tally(integral=np.zeros(len(boat.names)))
        rows = [boat.sensor, boat.row(boat.burner)]
        rows += [boat.row(boat.zones[zone]) for zone in self.zones]
        rows += [e.inlet for e in self.fans]
        self.tap_at, self.recovery_at = len(rows), len(rows) + (boat.tap is not None)
        rows += [boat.tap.inlet] if boat.tap else []
        rows += [boat.recovery.inlet, boat.row(boat.recovery.cell)] if boat.recovery else []
        self.watched = np.array(rows)
        self.hot = [1, len(rows) - 1] if boat.recovery else [1]
        self.now_seen: Vector = self.watched @ self.state

    def run(self, begin: float, end: float) -> None:
        """Run from one time to another (s since midnight)."""
        moments = self.program.upcoming(begin, end)
        if not self.stretches:
            for what, going in self.program.state_at(begin).items():
                self._happens(Moment(begin, what, going))
        now = begin
        for _ in range(MOST_EVENTS):
            now_switched = self._settled(now)
            if now >= end:
                return
            until = min(end, self.burner.until, moments[0].time if moments else inf)
            now = self._stretch(now_switched, now, until)
            if now >= self.burner.until:
                self.tally.starts += self.burner.waits_out(now)
            while moments and now >= moments[0].time:
                self._happens(moments.pop(0))
        raise NotConverged(f"more than {MOST_EVENTS} switchings in the day: the burner starts all the time")

    def _stretch(self, at_work: Switched, now: float, until: float) -> float:
        """Go on to the next event, at the latest at ``until``; the time reached."""
        course = at_work.balance.start(self.state, now)
        span, seen = course.crossing(at_work.levels, until - now)
        reached = until if now + span >= until - LEAST else now + span
        span = reached - now
        self.state, integral = course.passed(span)
        self.now_seen = self.watched @ self.state
        does = self.burner.does
        self.stretches.append(Stretch(now, span, course, does, at_work.current, tuple(self.calls.values())))
        hottest = max([float(self.now_seen[place]) for place in self.hot])
        if len(seen):
            middle = at_work.levels.middle
            hottest = max(hottest, *[float(seen[:, place].max() + middle[place]) for place in self.hot])
        self._count(span, integral, at_work.current, hottest)
        return reached

    def _count(self, span: float, integral: Vector, current: float, peak: float) -> None:
        tally, boat, burner = self.tally, self.boat, self.burner
        tally.integral += integral
        tally.charge += current * span
        tally.peak = max(tally.peak, peak)
        if burner.does in FLAMES:
            tally.flame += span
            tally.burner += burner.output * span
            if burner.does is Burning.BETWEEN:
                law = burner.law
                tally.burner += law.gain * (law.stops * span - float(boat.sensor @ integral))
        if boat.tap is not None and self.tap:
            tally.tap += boat.tap.demand * span
            if self.tap > 1:
                drawn = boat.tap.conductance * (float(boat.tap.inlet @ integral) - boat.tap.cold * span)
                tally.tap += drawn - boat.tap.demand * span
        if boat.recovery is not None and self.recovery:
            given = boat.recovery.heat * span
            if self.recovery > 1:
                short = boat.recovery.ends * span - float(boat.recovery.inlet @ integral)
                given = boat.recovery.slope * short
            tally.recovered += given

    def _runs(self) -> tuple[bool, ...]:
        """Whether each emitter runs: its room calls, and its fan has warm water."""
        calls, warm = self.calls, self.warm
        return tuple(calls.get(e.zone, False) and warm.get(e.tag, True) for e in self.boat.emissions)

    def _switched(self) -> Switched:
        """The balance as it is switched now."""
        burner = self.burner
        key = (
            burner.does,
            burner.gone_up,
            burner.keeps,
            self.lowered,
            self.tap,
            self.recovery,
            *self.calls.values(),
            *self.warm.values(),
        )
        found = self.switched.get(key)
        if found is None:
            system, source = self._system()
            source = source.copy()
            place, sizes = self.boat.burner, self.boat.capacities
            source[place] += burner.output / sizes[place]
            if burner.does is Burning.BETWEEN:
                source[place] += burner.law.gain * burner.law.stops / sizes[place]
            found = Switched(system.under(source), self._levels(), self._current())
            self.switched[key] = found
        return found

    def _current(self) -> float:
        currents, does = self.currents, self.burner.does
        running = zip(self.boat.emissions, self._runs(), strict=True)
        total = currents.pump + sum(currents.of_fan(e.tag) for e, runs in running if runs)
        if does in STARTING:
            return total + currents.start
        return total + (currents.run if does in FLAMES or does is Burning.AFTER_RUN else 0.0)

    def _system(self) -> tuple[LinearSystem, Vector]:
        """The balance without the burner's heat, and its constant source (K/s)."""
        boat = self.boat
        runs, between = self._runs(), self.burner.does is Burning.BETWEEN
        key = (runs, self.tap, self.recovery, between)
        found = self.systems.get(key)
        if found is not None:
            return found
        matrix, source, outside = boat.matrix.copy(), boat.source.copy(), boat.outside.copy()
        for emission, running in zip(boat.emissions, runs, strict=True):
            share = 1.0 if running else emission.stopped
            matrix += share * emission.term.matrix
            outside += share * emission.term.outside
        if boat.tap is not None and self.tap == 1:
            source[boat.tap.cell] -= boat.tap.demand
        elif boat.tap is not None and self.tap:
            matrix[boat.tap.cell] -= boat.tap.conductance * boat.tap.inlet
            source[boat.tap.cell] += boat.tap.conductance * boat.tap.cold
        if boat.recovery is not None and self.recovery == 1:
            source[boat.recovery.cell] += boat.recovery.heat
        elif boat.recovery is not None and self.recovery:
            matrix[boat.recovery.cell] -= boat.recovery.slope * boat.recovery.inlet
            source[boat.recovery.cell] += boat.recovery.slope * boat.recovery.ends
        if between:
            matrix[boat.burner] -= self.burner.law.gain * boat.sensor
        sizes = boat.capacities
        swing = (self.program.swing * outside / sizes).astype(complex)
        system = LinearSystem(matrix / sizes[:, np.newaxis], swing, FREQUENCY, self.watched)
        self.systems[key] = system, (source + self.program.mean * outside) / sizes
        return self.systems[key]

    def _levels(self) -> Levels:
        """Levels of all that is watched; what nothing waits for has none."""
        low, high = np.full(len(self.watched), -inf), np.full(len(self.watched), inf)
        low[0], high[0] = self.burner.marks
        if self.burner.does in FLAMES:
            high[1] = self.burner.law.stat
        half = self.program.thermostat_band / 2
        for place, zone in enumerate(self.zones, 2):
            target = self.targets[zone] - (self.program.setback if self.lowered else 0.0)
            if self.calls[zone]:
                high[place] = target + half
            else:
                low[place] = target - half
        for place, fan in enumerate(self.fans, 2 + len(self.zones)):
            starts = fan.starts or 0.0
            if self.warm[fan.tag]:
                low[place] = starts - FAN_APART
            else:
                high[place] = starts
        if self.boat.tap is not None and self.tap:
            bend = self.boat.tap.cold + self.boat.tap.demand / self.boat.tap.conductance
            low[self.tap_at], high[self.tap_at] = (bend, inf) if self.tap == 1 else (-inf, bend + APART)
        if self.boat.recovery is not None and self.recovery:
            bend, place = self.boat.recovery.bends, self.recovery_at
            low[place], high[place] = (-inf, bend) if self.recovery == 1 else (bend - APART, inf)
        return Levels(low, high)

    def _settled(self, now: float) -> Switched:
        """Let everything react to the temperatures there are, until nothing more changes."""
        seen = self.now_seen
        for _ in range(ROUNDS):
            at_work = self._switched()
            reached = at_work.levels.reached(seen, CLOSE)
            if not len(reached):
                return at_work
            for place in reached:
                self._reacts(int(place), now, float(seen[0]), float(seen[1]))
        raise NotConverged(f"the simulated day finds no state at {now:.0f} s")

    def _reacts(self, place: int, now: float, sensor: float, outlet: float) -> None:
        """What follows where something watched has reached a level."""
        zones = len(self.zones)
        if place < 2:  # noqa: PLR2004 - sensor and overheat stat
            self.burner.feels(now, sensor, outlet)
        elif place < 2 + zones:
            zone = self.zones[place - 2]
            self.calls[zone] = not self.calls[zone]
        elif place < 2 + zones + len(self.fans):
            tag = self.fans[place - 2 - zones].tag
            self.warm[tag] = not self.warm[tag]
        elif self.boat.tap is not None and place == self.tap_at:
            self.tap = 3 - self.tap
        else:
            self.recovery = 3 - self.recovery

    def _happens(self, moment: Moment) -> None:
        if moment.what is Happening.SETBACK:
            self.lowered = moment.begins
        elif moment.what is Happening.TAP:
            self.tap = 1 if moment.begins else 0
        else:
            self.recovery = 1 if moment.begins else 0
