"""The exact course of a linear system between two events, and when it first crosses a level.

    x' = A·x + b + Re(g·e^(iωt))

Solved by eigenvalues: nothing is stepped. Crossings are looked for on a geometric grid, fine at first and
coarse later, then found to a billionth of the time since the last event. A level that is passed and passed
back between two places of the grid (17 % of that time) is not seen.
"""

from cmath import exp
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
        self.answered: Complex = np.array([self.inverse @ self.answer.real, self.inverse @ self.answer.imag])
        self.watched = watched
        self.rates: Complex = np.append(own, 1j * frequency)
        self.still = np.append(still, False)
        self.divided = _divided(1.0, self.rates)
        self.shapes: Complex = np.concatenate([self.vectors, self.answer[:, np.newaxis]], axis=1)
        self.seen: Complex = watched @ self.shapes
        exponents = np.outer(GRID, self.rates)
        growth = np.exp(np.minimum(exponents.real, GROWN) + 1j * exponents.imag)[:, np.newaxis, :]
        # Rows that meet weights as they lie in memory, real and imaginary parts in turn; the product is real.
        self.sight: Vector = (growth * self.seen).conj().reshape(PLACES * len(watched), -1).view(np.float64)

    def under(self, source: Vector) -> "Driven":
        """The system under a constant source b (K/s)."""
        level: Vector = self.settling @ source
        ramp: Vector | None = None if self.drift is None else self.drift @ source
        seen_ramp = None if ramp is None else self.watched @ ramp
        return Driven(self, level, ramp, self.watched @ level, seen_ramp, self.inverse @ level)


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
class Driven:
    """A system under a constant source: the level it tends to (K), the ramp of what never settles (K/s).

    ``seen_level`` and ``seen_ramp`` are those of what is watched, ``weight`` is the level in eigenvectors.
    """

    system: LinearSystem
    level: Vector
    ramp: Vector | None
    seen_level: Vector
    seen_ramp: Vector | None
    weight: Complex

    def start(self, state: Vector, now: float) -> "Course":
        """Course from a state (K) at a moment (s)."""
        system = self.system
        turn = exp(1j * system.frequency * now)
        weights = np.empty(len(system.rates), dtype=complex)
        real, imaginary = system.answered
        weights[:-1] = system.inverse @ state - self.weight - (turn.real * real - turn.imag * imaginary)
        weights[-1] = turn
        return Course(system, self, now, weights)


@dataclass(frozen=True, slots=True)
class Course:
    """The course of a system from one event to the next."""

    system: LinearSystem
    driven: Driven
    begin: float
    weights: Complex

    def state(self, after: float) -> Vector:
        """Temperatures ``after`` seconds from its beginning."""
        grown = self.weights * np.exp(self.system.rates * after)
        level, ramp = self.driven.level, self.driven.ramp
        found: Vector = (self.system.shapes @ grown).real + level
        return found if ramp is None else found + ramp * after

    def passed(self, after: float) -> tuple[Vector, Vector]:
        """Temperatures ``after`` seconds from its beginning, and their integral till then (K·s)."""
        system, level, ramp = self.system, self.driven.level, self.driven.ramp
        grown = self.weights * np.exp(system.rates * after)
        sums = (grown - self.weights) * system.divided
        if ramp is not None:
            sums = sums + system.still * self.weights * after
        both = system.shapes @ np.array([grown, sums]).T
        state: Vector = both[:, 0].real + level
        integral: Vector = both[:, 1].real + level * after
        if ramp is not None:
            state = state + ramp * after
            integral = integral + ramp * (after * after / 2)
        return state, integral

    def watched(self, after: float) -> Vector:
        """What is watched, ``after`` seconds from the beginning."""
        return self.system.watched @ self.state(after)

    def crossing(self, levels: "Levels", span: float) -> tuple[float, Vector]:
        """Seconds until something watched leaves its levels, at most ``span`` or two hours.

        The second answer is all that was seen on the way, shape ``[places, watched]``, over the middles of
        the levels.
        """
        system, ramp = self.system, self.driven.seen_ramp
        places = int(GRID.searchsorted(span))
        rows = len(levels.middle)
        seen: Vector = (system.sight[: places * rows] @ self.weights.view(np.float64)).reshape(places, rows)
        seen += self.driven.seen_level - levels.middle
        if ramp is not None:
            seen += np.outer(GRID[:places], ramp)
        out: NDArray[np.bool_] = (np.abs(seen) >= levels.half).any(axis=1)  # type: ignore[assignment]  # an array, since an axis is given
        first = int(out.argmax()) if places else 0
        before = float(GRID[first - 1]) if first else 0.0
        if places and bool(out[first]):
            after, there = float(GRID[first]), seen[first]
        else:
            first = places
            before, after = (float(GRID[places - 1]) if places else 0.0), min(span, LAST)
            there = self.watched(after) - levels.middle
        moment = after
        for number in (np.abs(there) >= levels.half).nonzero()[0].tolist():
            bound = levels.bound(number, above=bool(there[number] > 0))
            over = float(levels.middle[number]) - bound
            then = float(seen[first - 1, number]) + over if first else None
            moment = min(
                moment, self._reached(number, bound, (before, then), (after, float(there[number]) + over))
            )
        return moment, seen[:first]

    def _reached(
        self, number: int, bound: float, before: tuple[float, float | None], after: tuple[float, float]
    ) -> float:
        """When one thing watched passes a bound between two times: Newton's steps kept inside the bracket.

        The times come with how far it lies over the bound there, None where that is not known.
        """
        rates = self.system.rates
        row = self.system.seen[number] * self.weights
        base = float(self.driven.seen_level[number]) - bound
        slope = 0.0 if self.driven.seen_ramp is None else float(self.driven.seen_ramp[number])
        (low, known), (high, at_high) = before, after
        at_low = float((row @ np.exp(rates * low)).real) + base + slope * low if known is None else known
        time = low + (high - low) * at_low / (at_low - at_high) if at_low * at_high < 0 else (low + high) / 2
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
