"""What the solved ring adds to a spread: while samples pass, its flows and water temperatures stay.

So everything is solved again at a few points at which all assumed figures behind the ring lie off together.
Where that moves a result by little beside what its formulas let through, the ring stays held and the share it
would add is told. Where it moves one by more, each figure is moved by itself, and the result takes what the
solution adds in a straight line.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field
from math import inf, isfinite, sqrt
from typing import TYPE_CHECKING, Any

import numpy as np

from dossier.notation import DossierError, named_results
from dossier.notation.records import dataclass
from dossier.sizing.uncertainty_inputs import Samples, Unknown, Unknowns
from dossier.sizing.uncertainty_workings import SampledWorkings

if TYPE_CHECKING:
    from dossier.project import Project

Again = Callable[["Project"], Iterable[Any]]
"""Calculates a project anew, as far as the results studied go."""

POINTS = 4
"""Points at which all figures behind the ring lie off together."""
COUNTS = 0.3
"""Standard deviation by the ring over that by the formulas above which figures are moved one by one.

Below it the percentiles lie less than a twentieth too near to the median.
"""
REACH = 0.5
"""How far a figure is moved, of the way to an end of its spread."""


@dataclass(frozen=True)
class Solutions:
    """What solving again adds.

    ``shares`` has, for each result, the standard deviation that the held ring would add over that of its
    formulas; ``slopes`` for each result and unknown the change that a solution adds for each unit of its
    first figure, where it was moved by itself. ``still`` are the keys that no solution could move.
    """

    shares: Mapping[str, float] = field(default_factory=dict)
    slopes: Mapping[str, Mapping[int, float]] = field(default_factory=dict)
    still: tuple[str, ...] = ()
    count: int = 0

    def added(self, name: str, unknowns: Unknowns, samples: list[Samples]) -> Samples | float:
        """What the solutions add to samples of a result."""
        total: Samples | float = 0.0
        for number, slope in self.slopes.get(name, {}).items():
            place = unknowns.of_unknown[number][0]
            total = total + slope * (samples[place] - unknowns.each[number].first.value)
        return total


class _Solver:
    """Moves figures of a project and says what a full solution adds to what the formulas let through."""

    def __init__(
        self, project: "Project", results: Mapping[str, Any], graph: SampledWorkings, unknowns: Unknowns
    ) -> None:
        self._project, self._graph, self._unknowns = project, graph, unknowns
        self._results = {name: float(results[name]) for name in results if graph.held[name]}
        self.names = tuple(self._results)
        self.count = 0

    def added(self, again: Again, shares: Mapping[int, float]) -> dict[str, float] | None:
        """Change of each result beyond that of its formulas; None where the project has no answer there.

        ``shares`` says for each unknown how far it moves, of the way to its upper (negative: lower) end.
        """
        figures = self._unknowns.figures
        samples = [np.array([figure.value]) for figure in figures]
        for number, share in shares.items():
            for place in self._unknowns.of_unknown[number]:
                figure = figures[place]
                end = figure.high if share > 0 else figure.low
                samples[place] = np.array([figure.value + abs(share) * (end - figure.value)])
        moved = {
            figures[place].line.key: float(samples[place][0])
            for number in shares
            for place in self._unknowns.of_unknown[number]
        }
        self.count += 1
        try:
            found = again(self._project.with_numbers(moved))
        except DossierError:
            return None
        full = {r.name: float(r.value) for r in named_results(tuple(found)) if r.name in self._results}
        if full.keys() != self._results.keys():
            return None
        values = self._graph.run(samples)
        return {name: full[name] - float(self._graph.of_result(name, samples, values)[0]) for name in full}


def _is_stated(unknown: Unknown) -> bool:
    return all(figure.line.line is not None for figure in unknown.figures)


def solutions(  # noqa: PLR0913, PLR0917 - what is solved, how, and what it is held against
    project: "Project",
    results: Mapping[str, Any],
    graph: SampledWorkings,
    unknowns: Unknowns,
    deviations: Mapping[str, float],
    again: Again,
) -> Solutions:
    """What the solved ring adds to results; ``deviations`` are their standard deviations by the formulas."""
    behind = frozenset[int]().union(*graph.held.values())
    stuck = [n for n, places in enumerate(unknowns.of_unknown) if behind & set(places)]
    moving = [n for n in stuck if _is_stated(unknowns.each[n])]
    still = [unknowns.each[n].key for n in stuck if n not in moving]
    if not moving:
        return Solutions(still=tuple(still))
    solver = _Solver(project, results, graph, unknowns)
    signs = np.random.Generator(np.random.PCG64(POINTS)).choice([-REACH, REACH], (POINTS, len(moving)))
    points = [solver.added(again, dict(zip(moving, row, strict=True))) for row in signs.tolist()]
    shares = _shares([point for point in points if point is not None], deviations, solver)
    if max(shares.values()) <= COUNTS:
        return Solutions(shares, {}, tuple(still), solver.count)
    slopes: dict[str, dict[int, float]] = {name: {} for name in shares}
    for number in moving:
        figure = unknowns.each[number].first
        for share in (REACH, -REACH):
            alone = solver.added(again, {number: share})
            way = share * (figure.high - figure.value if share > 0 else figure.value - figure.low)
            if alone is not None and way:
                for name, change in alone.items():
                    slopes[name][number] = change / way
                break
        else:
            still.append(unknowns.each[number].key)
    return Solutions({}, slopes, tuple(still), solver.count)


def _shares(
    points: list[dict[str, float]], deviations: Mapping[str, float], solver: _Solver
) -> dict[str, float]:
    """Standard deviation of what the solutions add, over that of each result; infinite without any point."""
    shares = {}
    for name in solver.names:
        squares = [point[name] ** 2 for point in points]
        added = sqrt(sum(squares) / len(squares)) if squares else inf
        deviation = deviations[name]
        share = added / deviation if deviation > 0 and isfinite(deviation) else (inf if added else 0.0)
        shares[name] = share
    return shares
