"""What each input of the project file moves in a result, and the basis a result carries.

Workings are differentiated one by one and chained; a working that cannot be found again (a network solved
as a whole) counts all its inputs in full.
"""

from collections.abc import Callable, Iterable, Mapping
from math import isfinite
from typing import Any

import numpy as np

from dossier.notation.origin import Basis, Line, Traced, origin_of
from dossier.notation.quantity import Quantity
from dossier.notation.working import Given, Working, lines_behind

STEP = 1e-6
"""Relative step of the differences."""

COUNTS = 0.05
"""Share of a result that an input must move to lend it its mark."""


def _partials(working: Working) -> list[float | None]:
    """Derivative by each given number; None where it cannot be had."""
    function = working.statement.function
    given = working.given
    if function is None:
        return [None] * len(given)
    plain = [float(g.value) if isinstance(g.value, Traced) else g.value for g in given]
    partials: list[float | None] = []
    for place, g in enumerate(given):
        if not isinstance(g.value, Traced):
            partials.append(0.0)
            continue
        step = STEP * max(abs(plain[place]), 1e-9)
        moved = [*plain]
        moved[place] += step
        try:
            change = (float(function(*moved)) - working.value) / step
        except (ArithmeticError, ValueError, np.linalg.LinAlgError):
            change = float("nan")
        partials.append(change if isfinite(change) else None)
    return partials


Ends = tuple[float, float]
SpreadOf = Callable[[Line, Quantity | None, float], Ends]


def stated_spread(line: Line, _quantity: Quantity | None, number: float) -> Ends:
    """Ends of an input's own spread; where it has none, as far off as it is large."""
    return line.spread or (number - abs(number), number + abs(number))


class Influence:
    """Moves of results by inputs; keeps what it has walked, so that many results of one study are cheap.

    ``spread_of`` gives the ends within which an assumed input may lie; all others count with their whole
    size.
    """

    def __init__(self, spread_of: SpreadOf = stated_spread) -> None:
        self._spread_of = spread_of
        self._known: dict[int, dict[Line, float]] = {}
        self._kept: list[Working] = []

    def moves(self, number: Any) -> Mapping[Line, float]:
        """By how much each input moves the number, in the number's own unit, linearised."""
        origin = origin_of(number)
        if isinstance(origin, Line):
            return {origin: self._move_of(origin, None, float(number))}
        if not isinstance(origin, Working):
            return {}
        pending = [origin]
        while pending:
            working = pending[-1]
            waiting = [
                behind
                for g in working.given
                if isinstance(behind := origin_of(g.value), Working) and id(behind) not in self._known
            ]
            if waiting:
                pending.extend(waiting)
                continue
            pending.pop()
            if id(working) not in self._known:
                self._known[id(working)] = self._chained(working)
                self._kept.append(working)
        return self._known[id(origin)]

    def _chained(self, working: Working) -> dict[Line, float]:
        total: dict[Line, float] = {}
        for g, partial in zip(working.given, _partials(working), strict=True):
            for line, move in self._of(g).items():
                share = abs(working.value) if partial is None else abs(partial) * move
                total[line] = total.get(line, 0.0) + share
        floor = abs(working.value) * COUNTS / 100
        return {line: move for line, move in total.items() if move > floor}

    def _of(self, given: Given) -> Mapping[Line, float]:
        origin = origin_of(given.value)
        if isinstance(origin, Line):
            return {origin: self._move_of(origin, given.quantity, float(given.value))}
        return self._known[id(origin)] if isinstance(origin, Working) else {}

    def _move_of(self, line: Line, quantity: Quantity | None, number: float) -> float:
        """How far an input may lie off."""
        if line.basis is not Basis.ASSUMED:
            return abs(number)
        low, high = self._spread_of(line, quantity, number)
        return max(abs(low - number), abs(high - number))

    def basis(self, number: Any) -> Basis:
        """Weakest basis among the inputs that move the number by more than a twentieth of itself.

        Of a number that nothing moves, such as a difference of nought and nought, that of all behind it.
        """
        moves = self.moves(number)
        heavy = [line for line, move in moves.items() if move > COUNTS * abs(float(number))]
        return weakest(line.basis for line in heavy or moves or lines_behind(number))


def weakest(marks: Iterable[Basis]) -> Basis:
    """Weakest of several marks; what rests on no line of the file at all counts as assumed."""
    return max(marks, key=lambda mark: mark.weakness, default=Basis.ASSUMED)
