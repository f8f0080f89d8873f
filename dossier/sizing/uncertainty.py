"""How sure are the answers, and what should be measured next?

Samples of all assumed figures, each triangular between the ends of its spread with its value as the
likeliest, pass through the workings that the results left behind. Figures vary independently of each other;
a convention that stands in at several places, and the points of a curve, vary as one. What was measured, read
off a plate or drawn is not sampled.

A triangular distribution says that the value was chosen as the likeliest and that nothing beyond the ends is
believed; GUM 4.3.9 recommends it where a uniform one would give values near the ends too much weight.
"""

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from math import isfinite, nan
from typing import TYPE_CHECKING, Any

import numpy as np

from dossier.data.sources import JANSEN, JCGM_101
from dossier.notation import NotAssessed, Result, named_results, q, solved
from dossier.physics.sensitivity import counted_out, first_order_index, percentiles, total_index, variance
from dossier.sizing.uncertainty_inputs import Samples, Unknowns, unknowns_behind
from dossier.sizing.uncertainty_results import (
    InputIndex,
    ResultSpread,
    ToMeasure,
    Uncertainty,
    in_unit_of,
)
from dossier.sizing.uncertainty_solutions import Again, Solutions, solutions
from dossier.sizing.uncertainty_workings import SampledWorkings

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "How sure are the answers?"
SAMPLES = 10_000
RANKED = 2_000
"""Samples of each of the two sets that the ranking rests on."""
LOAD = "heat_loss.total"
STUDIED = frozenset(
    {
        LOAD,
        "fuel.per_day",
        "store.running_time",
        "store.starts_per_hour",
        "tap_water.winter.flow",
    }
)
MARGIN = "zone_margin.heating."
ZONE_LOAD = "heat_loss.zone."
LEAST = 0.005
"""Indices below this are the noise of sampling or move nothing: they are left out."""
PERCENTILES = (0.1, 0.5, 0.9)
INDEX = q("S_T", "1", "total index of one input")


def _seed(project: "Project") -> int:
    """Seed of the samples: the same content of the files gives the same samples."""
    content = "".join(file.sha256 for file in project.files)
    return int.from_bytes(hashlib.sha256(content.encode()).digest()[:8], "big")


def uncertainty(
    project: "Project", parts: Iterable[Any], again: Again | None = None, *, ranked: bool = True
) -> Uncertainty | NotAssessed:
    """Spread of the load, the fuel, the burner's runs and starts, the zones' margins and the tap's flow.

    ``parts`` are the calculations of the project, among whose named results those studied are found;
    ``again`` makes them anew for a project with other numbers, without it the solved ring stays held.
    Unless ``ranked``, no indices are sampled: percentiles and moves alone, for checks.
    """
    named = {result.name: result for result in named_results(tuple(parts))}
    results = {
        name: result
        for name, result in named.items()
        if (name in STUDIED or name.startswith(MARGIN)) and isfinite(float(result.value))
    }
    if not results:
        waiting = [part for part in parts if isinstance(part, NotAssessed)]
        return NotAssessed(QUESTION, waiting[0].needs if waiting else ())
    return _Sampling(project, named, results, again).study(ranked=ranked)


class _Sampling:
    """The steps of the study, with what they share."""

    def __init__(
        self,
        project: "Project",
        named: Mapping[str, Result],
        results: Mapping[str, Result],
        again: Again | None,
    ) -> None:
        self.named, self.results = named, results
        numbers = {name: result.value for name, result in results.items()}
        self.unknowns: Unknowns = unknowns_behind(project, numbers.values())
        self.graph = SampledWorkings(numbers, self.unknowns.places.get)
        self.reaching = {
            name: [
                n for n, own in enumerate(self.unknowns.of_unknown) if self.graph.inputs_of(name) & set(own)
            ]
            for name in results
        }
        self.seed = _seed(project)
        self.solved = Solutions()
        drawn = self.unknowns.drawn(self.seed, SAMPLES)
        self.spread = self._samples(drawn)
        if again is not None:
            deviations = {name: float(np.nanstd(self.spread[name])) for name in results}
            self.solved = solutions(project, numbers, self.graph, self.unknowns, deviations, again)
            for name in self.solved.slopes:
                self.spread[name] = self.spread[name] + self.solved.added(name, self.unknowns, drawn)

    def _samples(self, drawn: list[Samples]) -> dict[str, Samples]:
        """Samples of all results."""
        if not drawn:
            return {name: np.full(SAMPLES, float(result.value)) for name, result in self.results.items()}
        values = self.graph.run(drawn)
        return {name: self.graph.of_result(name, drawn, values) for name in self.results}

    def study(self, *, ranked: bool) -> Uncertainty:
        """All that is found."""
        indices, moves = self._ranking() if ranked else {}, self._moves()
        spreads = {
            name: spread
            for name in self.results
            if (spread := self._spread(name, tuple(indices.get(name, ())), moves[name])) is not None
        }
        return Uncertainty(
            SAMPLES,
            self.unknowns.each,
            spreads,
            self._measure_next(spreads),
            self.solved.still,
            self.solved.count,
        )

    def _spread(
        self, name: str, indices: tuple[InputIndex, ...], moves: Mapping[str, float]
    ) -> ResultSpread | None:
        result, samples = self.results[name], self.spread[name]
        outside = counted_out(samples)
        found = percentiles(samples, PERCENTILES)
        if not all(isfinite(value) for value in found):
            return None
        text = (
            f"{SAMPLES} samples of {len(self.reaching[name])} assumed figures, "
            f"{outside} of them outside the range of a formula and left out"
        )
        declared = (
            q("P_10", "1", "tenth percentile"),
            q("P_50", "1", "median"),
            q("P_90", "1", "ninetieth percentile"),
        )
        p10, p50, p90 = (
            solved(
                value, in_unit_of(each, result.quantity), text, JCGM_101, [(result.quantity, result.value)]
            )
            for value, each in zip(found, declared, strict=True)
        )
        return ResultSpread(
            name,
            result.quantity,
            result.value,
            p10,
            p50,
            p90,
            SAMPLES,
            outside,
            self.solved.shares.get(name, 0.0),
            bool(self.solved.slopes.get(name)),
            indices,
            moves,
        )

    def _ends(self) -> Iterator[tuple[int, "_Run"]]:
        """For each unknown, the results with it alone at the ends of its spread."""
        middle = _Run(self, [np.full(2, figure.value) for figure in self.unknowns.figures])
        for number, places in enumerate(self.unknowns.of_unknown):
            figures = [(place, self.unknowns.figures[place]) for place in places]
            yield number, middle.moved({place: np.array([f.low, f.high]) for place, f in figures})

    def _moves(self) -> dict[str, dict[str, float]]:
        """How far each unknown alone moves each result that it reaches, by key."""
        moves: dict[str, dict[str, float]] = {name: {} for name in self.results}
        for number, ended in self._ends():
            for name in self._reached_by(number):
                move = float(np.max(np.abs(ended.of(name) - float(self.results[name].value))))
                if isfinite(move):
                    moves[name][self.unknowns.each[number].key] = move
        return moves

    def _reached_by(self, number: int) -> list[str]:
        return [name for name, reaching in self.reaching.items() if number in reaching]

    def _ranking(self) -> dict[str, list[InputIndex]]:
        """Indices of the unknowns for each result, strongest first."""
        indices: dict[str, list[InputIndex]] = {name: [] for name in self.results}
        if not self.unknowns.each:
            return indices
        one, other = (self.unknowns.drawn(self.seed + k, RANKED) for k in (1, 2))
        base, second = _Run(self, one), _Run(self, other)
        both = {name: (base.of(name), second.of(name)) for name in self.results}
        varying = {name: variance(*pair) for name, pair in both.items()}
        for number, ended in self._ends():
            swapped = base.moved({place: other[place] for place in self.unknowns.of_unknown[number]})
            for name in self._reached_by(number):
                moved = swapped.of(name)
                total = min(total_index(both[name][0], moved, varying[name]), 1.0)  # sampling may overshoot
                if total >= LEAST:
                    alone = first_order_index(*both[name], moved, varying[name])
                    indices[name].append(self._index(name, number, total, alone, ended.of(name)))
        for each in indices.values():
            each.sort(key=lambda index: (-float(index.total), index.key))
        return indices

    def _index(self, name: str, number: int, total: float, alone: float, ends: Samples) -> InputIndex:
        unknown, result = self.unknowns.each[number], self.results[name]
        text = f"share of the variance that stays when all others are known, twice {RANKED} samples"
        index = solved(total, INDEX, text, JANSEN, [(result.quantity, result.value)])
        return InputIndex(name, unknown.key, unknown, index, alone, float(ends[0]), float(ends[1]))

    def _measure_next(self, spreads: Mapping[str, ResultSpread]) -> tuple[ToMeasure, ...]:
        """What can be measured, by the largest effect on any result."""
        strongest: dict[str, ToMeasure] = {}
        for name, spread in spreads.items():
            size = abs(float(spread.value))
            if name.startswith(MARGIN):
                load = self.named.get(ZONE_LOAD + name.removeprefix(MARGIN))
                size = size if load is None else abs(float(load.value))
            width = (float(spread.p90) - float(spread.p10)) / 2
            for index in spread.indices:
                effect = float(index.total) ** 0.5 * width / size if size else nan
                known = strongest.get(index.key)
                if (
                    not index.unknown.convention
                    and isfinite(effect)
                    and (known is None or effect > known.effect)
                ):
                    line = index.unknown.first.line
                    strongest[index.key] = ToMeasure(index.unknown, line, name, effect)
        return tuple(sorted(strongest.values(), key=lambda each: (-each.effect, each.unknown.key)))


class _Run:
    """Results for one set of samples, or for that set with some figures replaced."""

    def __init__(self, study: _Sampling, drawn: list[Samples]) -> None:
        self._study, self._drawn = study, drawn
        self._values = [study.graph.run(drawn)]

    def moved(self, figures: Mapping[int, Samples]) -> "_Run":
        """The set with some figures replaced; only what they reach is found again."""
        run = object.__new__(_Run)
        run._study = self._study
        run._drawn = [figures.get(place, each) for place, each in enumerate(self._drawn)]
        run._values = [self._study.graph.again(self._drawn, self._values[0], figures), *self._values]
        return run

    def of(self, name: str) -> Samples:
        """Samples of a result."""
        found = self._study.graph.of_result(name, self._drawn, *self._values)
        return found + self._study.solved.added(name, self._study.unknowns, self._drawn)
