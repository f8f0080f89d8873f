"""What does a shower do to the ring? Tap and ring temperature against time.

The ring is one mixed volume. Between two events (the flame lights, the tap can no longer be held, the fans
stop for want of warm water, the setpoint is reached) its temperature follows a straight line or an
exponential, so every phase is exact and no step is chosen. Where the fans would start and stop by turns, the
ring rests at their temperature and they take what is left; likewise at the setpoint.
"""

from bisect import bisect_right
from collections.abc import Callable
from math import expm1, inf, log1p

import numpy as np
from numpy.typing import NDArray

from dossier.notation import NotConverged
from dossier.notation.records import dataclass

PHASES = 60
NEAR = 1e-9
"""Kelvin within which a temperature counts as an event's own."""


@dataclass(frozen=True)
class Draw:
    """What a shower is drawn from, in plain SI numbers.

    ``capacity`` (J/K) and ``start`` (K) are those of the ring; ``lights`` (s) is when the flame lights,
    ``flame`` (W) its heat and ``rise`` (K) what it adds to the water before that reaches the exchanger;
    ``steady`` (W) is heat that flows all the time. ``standing`` (W) is what the ring loses, ``fans`` (W) what
    its fans take besides as long as it is warmer than ``fan_stop`` (K). ``top`` (K) ends the flame's surplus.
    ``passed`` (W/K) is the exchanger's heat for each kelvin between ring and cold water, ``tap`` (W/K) the
    capacity rate of the shower, ``cold`` and ``wanted`` (K) its temperatures.
    """

    capacity: float
    start: float
    lights: float
    flame: float
    rise: float
    steady: float
    standing: float
    fans: float
    fan_stop: float
    top: float
    passed: float
    tap: float
    cold: float
    wanted: float

    @property
    def power(self) -> float:
        """Heat of the shower at the wanted temperature (W)."""
        return self.tap * (self.wanted - self.cold)

    def least(self, *, burning: bool) -> float:
        """Ring temperature below which the tap falls short (K)."""
        return self.cold + self.power / self.passed - (self.rise if burning else 0.0)

    def drawn(self, ring: float, *, burning: bool) -> float:
        """Heat drawn at a ring temperature (W)."""
        reach = self.passed * (ring + (self.rise if burning else 0.0) - self.cold)
        return min(max(reach, 0.0), self.power)

    def at_tap(self, ring: float, *, burning: bool) -> float:
        """Temperature at the tap (K)."""
        return self.cold + self.drawn(ring, burning=burning) / self.tap


@dataclass(frozen=True)
class Phase:
    """A stretch between two events: the ring goes from ``ring`` by ``slope`` (K/s) that fades (1/s)."""

    begins: float
    ends: float
    burning: bool
    ring: float
    slope: float
    fade: float

    def at(self, time: float) -> float:
        """Ring temperature (K) at a time within the phase."""
        passed = time - self.begins
        if self.fade == 0:
            return self.ring + self.slope * passed
        return self.ring + self.slope / self.fade * -expm1(-self.fade * passed)


@dataclass(frozen=True)
class Course:
    """Temperatures (K) over time (s), for a figure: tap, and ring."""

    times: NDArray[np.float64]
    tap: NDArray[np.float64]
    ring: NDArray[np.float64]


@dataclass(frozen=True)
class Shower:
    """A shower of a length that was asked for, and how it goes on.

    ``held`` (s) is when the tap first falls short of what is wanted, at most ``horizon``; ``coldest`` (K) the
    least at the tap within the shower, ``coldest_ring`` that of the ring; ``settled`` (K) the tap at the
    horizon.
    """

    draw: Draw
    phases: tuple[Phase, ...]
    held: float
    coldest: float
    coldest_ring: float
    settled: float

    def course(self, until: float, points: int = 181) -> Course:
        """Temperatures from the start to a time."""
        times = np.linspace(0.0, until, points)
        begins = [phase.begins for phase in self.phases]
        tap, ring = np.empty(points), np.empty(points)
        for place, time in enumerate(times):
            phase = self.phases[max(bisect_right(begins, float(time)) - 1, 0)]
            ring[place] = phase.at(float(min(time, phase.ends)))
            tap[place] = self.draw.at_tap(float(ring[place]), burning=phase.burning)
        return Course(times, tap, ring)


def shower(draw: Draw, length: float, horizon: float) -> Shower:
    """A shower of ``length`` (s) out of the ring, followed up to ``horizon`` (s)."""
    phases = tuple(_phases(draw, max(horizon, length)))
    held = next((p.begins for p in phases if _falls_short(draw, p)), max(horizon, length))
    within = [phase for phase in phases if phase.begins < length]
    ends = [(t, p) for p in within for t in (p.begins, min(p.ends, length))]
    last = phases[-1]
    return Shower(
        draw,
        phases,
        held,
        min(draw.at_tap(p.at(t), burning=p.burning) for t, p in ends),
        min(p.at(t) for t, p in ends),
        draw.at_tap(last.at(last.ends), burning=last.burning),
    )


def _falls_short(draw: Draw, phase: Phase) -> bool:
    """Whether the tap is short of the wanted temperature within a phase; phases end where that begins."""
    middle = phase.at((phase.begins + phase.ends) / 2)
    return middle < draw.least(burning=phase.burning) - NEAR


def _phases(draw: Draw, horizon: float) -> list[Phase]:
    found: list[Phase] = []
    time, ring = 0.0, min(draw.start, draw.top)
    while time < horizon:
        if len(found) == PHASES:
            raise NotConverged(f"the shower has more than {PHASES} events by {time:.0f} s")
        burning = time >= draw.lights
        ends = horizon if burning else min(draw.lights, horizon)
        phase = _phase(draw, time, ends, ring, burning=burning)
        found.append(phase)
        time, ring = phase.ends, phase.at(phase.ends)
    return found


def _gain(draw: Draw, *, burning: bool) -> Callable[[float], float]:
    """Heat the ring gains (W) at a temperature that is no event's own."""

    def gain(ring: float) -> float:
        source = draw.steady + (draw.flame if burning else 0.0)
        load = draw.standing + (draw.fans if ring > draw.fan_stop else 0.0)
        left = source - load - draw.drawn(ring, burning=burning)
        return min(left, 0.0) if ring > draw.top else left

    return gain


def _phase(draw: Draw, begins: float, ends: float, ring: float, *, burning: bool) -> Phase:
    """From one temperature to the next event, at most to a time."""
    gain = _gain(draw, burning=burning)
    marks = sorted({draw.top, draw.fan_stop, draw.least(burning=burning), _idle(draw, burning=burning)})
    here = next((mark for mark in marks if abs(mark - ring) < NEAR), ring)
    above = min((mark for mark in marks if mark > here), default=inf)
    below = max((mark for mark in marks if mark < here), default=-inf)
    up, down = _line(gain, here, above), _line(gain, here, below)
    if up[0] > 0:
        (heat, bend), goal = up, above
    elif down[0] < 0:
        (heat, bend), goal = down, below
    else:
        return Phase(begins, ends, burning, here, 0.0, 0.0)
    slope, fade = heat / draw.capacity, max(-bend, 0.0) / draw.capacity
    lasts = _time_to(goal - here, slope, fade)
    return Phase(begins, min(begins + lasts, ends), burning, here, slope, fade)


def _idle(draw: Draw, *, burning: bool) -> float:
    """Ring temperature at which the exchanger passes nothing."""
    return draw.cold - (draw.rise if burning else 0.0)


def _line(gain: Callable[[float], float], here: float, mark: float) -> tuple[float, float]:
    """Heat gained (W) just beside here on the way to the next event, and how it grows (W/K)."""
    span = mark - here if mark not in {inf, -inf} else (1.0 if mark == inf else -1.0)
    first, second = gain(here + span / 3), gain(here + 2 * span / 3)
    bend = (second - first) / (span / 3)
    return first - bend * span / 3, bend


def _time_to(distance: float, slope: float, fade: float) -> float:
    """Time until the ring has gone a distance; infinite where it settles before."""
    if slope == 0 or distance in {inf, -inf}:
        return inf
    if fade == 0:
        return distance / slope
    share = distance * fade / slope
    return -log1p(-share) / fade if share < 1 else inf
