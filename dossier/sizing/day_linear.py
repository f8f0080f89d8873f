"""The exact course of a linear system between two events, and when it first crosses a level.

    x' = A·x + b + Re(g·e^(iωt))

Solved by eigenvalues: nothing is stepped. Crossings are looked for on a geometric grid, fine at first and
coarse later, then found to a billionth of the time since the last event. A level that is passed and passed
back between two places of the grid (17 % of that time) is not seen.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from dossier.notation import NotConverged

Vector = NDArray[np.float64]
Complex = NDArray[np.complex128]

FIRST, LAST, PLACES = 0.25, 7200.0, 66
STILL = 1e-13
"""Rate (1/s) below which a part of the system counts as one that never settles."""
SHARP = 1e-9
"""Share of the time since the last event to which a crossing is found."""
CARRIED = 1e-7
"""Largest share of the fastest rate by which the eigenvectors may miss the system."""
GROWN = 100.0
"""Exponent up to which growth is followed: long before, something has crossed its level."""
ROUNDS = 60
GRID: Vector = np.geomspace(FIRST, LAST, PLACES)
"""Seconds after an event at which crossings are looked for."""


class LinearSystem:
    """A system with its eigenvalues and all that its courses share.

    ``matrix`` (1/s) and ``swing`` (K/s, complex) are A and g above, ``watched`` the rows whose products with
    x are to be held against levels. Raises ``NotConverged`` where the eigenvectors do not carry the system.
    """

    def __init__(self, matrix: Vector, swing: Complex, frequency: float, watched: Vector) -> None:
        found, columns = np.linalg.eig(matrix)
        own: Complex = found.astype(complex)
        self.vectors: Complex = columns.astype(complex)
        self.inverse: Complex = _inverse(self.vectors)
        error = float(np.abs((self.vectors * own) @ self.inverse - matrix).max())
        if not error <= CARRIED * float(np.abs(matrix).max()):
            raise NotConverged(f"the heat balance of the day has no independent modes: error {error:.1e} 1/s")
        still = np.abs(own) < STILL
        self.settling: Vector = ((self.vectors * _divided(-1.0, own)) @ self.inverse).real
        self.drift: Vector | None = ((self.vectors * still) @ self.inverse).real if still.any() else None
        self.frequency = frequency
        turning = 1j * frequency * np.eye(len(matrix)) - matrix
        self.answer: Complex = np.linalg.solve(turning, swing).astype(complex)
        self.watched = watched
        self.rates: Complex = np.append(own, 1j * frequency)
        self.still = np.append(still, False)
        self.divided = _divided(1.0, self.rates)
        self.shapes: Complex = np.concatenate([self.vectors, self.answer[:, np.newaxis]], axis=1)
        self.seen: Complex = watched @ self.shapes
        exponents = np.outer(GRID, self.rates)
        growth = np.exp(np.minimum(exponents.real, GROWN) + 1j * exponents.imag)[:, np.newaxis, :]
        count = len(self.rates)
        sight: Vector = np.empty((PLACES, len(watched), 2 * count))
        sight[:, :, :count] = growth.real * self.seen.real - growth.imag * self.seen.imag
        sight[:, :, count:] = -(growth.real * self.seen.imag + growth.imag * self.seen.real)
        self.sight = sight.reshape(-1, 2 * count)

    def start(self, state: Vector, source: Vector, now: float) -> "Course":
        """Course from a state (K) at a moment (s), with a constant source b (K/s)."""
        level = self.settling @ source
        ramp = None if self.drift is None else self.drift @ source
        turn = np.exp(1j * self.frequency * now)
        weights = np.empty(len(self.rates), dtype=complex)
        weights[:-1] = self.inverse @ (state - level - (self.answer * turn).real)
        weights[-1] = turn
        return Course(self, now, weights, level, ramp)


def _inverse(vectors: Complex) -> Complex:
    try:
        return np.linalg.inv(vectors).astype(complex)
    except np.linalg.LinAlgError as error:
        raise NotConverged("the heat balance of the day has no independent modes") from error


def _divided(number: float, by: Complex) -> Complex:
    """Number over each, 0 where that stands still."""
    still = np.abs(by) < STILL
    return np.where(still, 0.0, number / np.where(still, 1.0, by))


FAR = 1e5
"""Kelvin that stand for a level nothing waits for."""


class Levels:
    """Levels between which all that is watched may move, as middles and half widths."""

    def __init__(self, low: Vector, high: Vector) -> None:
        least, most = np.maximum(low, -FAR), np.minimum(high, FAR)
        self.low, self.high = low, high
        self.middle: Vector = (least + most) / 2
        self.half: Vector = (most - least) / 2

    def bound(self, number: int, *, above: bool) -> float:
        """The upper or the lower level of one thing watched."""
        return float(self.high[number] if above else self.low[number])

    def reached(self, seen: Vector, close: float) -> NDArray[np.intp]:
        """Numbers of the things watched that have come within ``close`` (K) of a level, or beyond."""
        return (np.abs(seen - self.middle) >= self.half - close).nonzero()[0]


@dataclass(frozen=True, slots=True)
class Course:
    """The course of a system from one event to the next."""

    system: LinearSystem
    begin: float
    weights: Complex
    level: Vector
    ramp: Vector | None

    def state(self, after: float) -> Vector:
        """Temperatures ``after`` seconds from its beginning."""
        grown = self.weights * np.exp(self.system.rates * after)
        found: Vector = (self.system.shapes @ grown).real + self.level
        return found if self.ramp is None else found + self.ramp * after

    def passed(self, after: float) -> tuple[Vector, Vector]:
        """Temperatures ``after`` seconds from its beginning, and their integral till then (K·s)."""
        system = self.system
        grown = self.weights * np.exp(system.rates * after)
        sums = (grown - self.weights) * system.divided
        if self.ramp is not None:
            sums = sums + system.still * self.weights * after
        both = system.shapes @ np.array([grown, sums]).T
        state: Vector = both[:, 0].real + self.level
        integral: Vector = both[:, 1].real + self.level * after
        if self.ramp is not None:
            state = state + self.ramp * after
            integral = integral + self.ramp * (after * after / 2)
        return state, integral

    def watched(self, after: float) -> Vector:
        """What is watched, ``after`` seconds from the beginning."""
        return self.system.watched @ self.state(after)

    def crossing(self, levels: "Levels", span: float) -> tuple[float, Vector]:
        """Seconds until something watched leaves its levels, at most ``span`` or two hours.

        The second answer is all that was seen on the way, shape ``[places, watched]``, over the middles of
        the levels.
        """
        system = self.system
        places = int(GRID.searchsorted(span))
        both = np.concatenate([self.weights.real, self.weights.imag])
        rows = len(levels.middle)
        seen: Vector = (system.sight[: places * rows] @ both).reshape(places, rows)
        seen += system.watched @ self.level - levels.middle
        if self.ramp is not None:
            seen += np.outer(GRID[:places], system.watched @ self.ramp)
        out = np.any(np.abs(seen) >= levels.half, axis=1)
        first = int(np.argmax(out)) if places else 0
        before = float(GRID[first - 1]) if first else 0.0
        if places and bool(out[first]):
            after, there = float(GRID[first]), seen[first]
        else:
            first = places
            before, after = (float(GRID[places - 1]) if places else 0.0), min(span, LAST)
            there = self.watched(after) - levels.middle
        moment = after
        for number in (np.abs(there) >= levels.half).nonzero()[0]:
            bound = levels.bound(int(number), above=bool(there[number] > 0))
            moment = min(moment, self._reached(int(number), bound, before, after))
        return moment, seen[:first]

    def _reached(self, number: int, bound: float, before: float, after: float) -> float:
        """When one thing watched passes a bound between two times: Newton's steps kept inside the bracket."""
        rates = self.system.rates
        row = self.system.seen[number] * self.weights
        base = float(self.system.watched[number] @ self.level) - bound
        slope = 0.0 if self.ramp is None else float(self.system.watched[number] @ self.ramp)
        at_low = float((row @ np.exp(rates * before)).real) + base + slope * before
        low, high = before, after
        time = (low + high) / 2
        for _ in range(ROUNDS):
            grown = row * np.exp(rates * time)
            over = float(grown.sum().real) + base + slope * time
            speed = float((grown @ rates).real) + slope
            if (over < 0) == (at_low < 0):
                low = time
            else:
                high = time
            new = time - over / speed if speed else low
            if not low <= new <= high:
                new = (low + high) / 2
            if abs(new - time) <= SHARP * max(1.0, time):
                return new
            time = new
        return high
