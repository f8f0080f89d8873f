"""Pushes samples of inputs through the very workings that results left behind.

    graph = SampledWorkings({"heat_loss.total": loss.total}, place)       # place(line): number of an input
    base = graph.run(samples)                                             # one array for each input
    moved = graph.again(samples, base, {3: others})                       # input 3 alone replaced

Every working knows the formula it came from, so the samples pass through the same formulas as the single
number did, and only through those that an input reaches. What a working's declaration says of its range holds
for samples too: one that leaves it is NaN from there on. A working that cannot be found again (a network
solved as a whole) keeps its number.
"""

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from dossier.notation import DossierError, Given, Line, Quantity, Traced, Working, origin_of

Samples = NDArray[np.float64]
Values = dict[int, Samples]
"""Samples of all steps that vary, by number."""


@dataclass(frozen=True, slots=True)
class Reference:
    """What a step is given: an input, an earlier step, or a constant."""

    quantity: Quantity | None
    value: Any = None
    input: int | None = None
    step: int | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """A working to be found again: its formula, what it is given, and the inputs that reach it."""

    name: str
    function: Callable[..., Any]
    given: tuple[Reference, ...]
    inputs: frozenset[int]


class SampledWorkings:
    """The workings behind some results, in an order in which each can be found again.

    ``results`` are numbers with their origins. ``place`` gives the number of the input a line of the file (or
    an assumption in its place) stands for, with its value there, None where it is not sampled. ``held`` has,
    for each result, the inputs that reach it also through workings that cannot be found again.
    """

    def __init__(self, results: Mapping[str, Any], place: Callable[[Line], int | None]) -> None:
        self._place = place
        self._steps: list[Step] = []
        self._known: dict[int, Reference] = {}
        self._kept: list[Working] = []
        self._same: dict[Hashable, int] = {}
        self._stuck: dict[int, frozenset[int]] = {}
        self.results: dict[str, Reference] = {}
        self.held: dict[str, frozenset[int]] = {}
        for name, number in results.items():
            self.results[name] = self._entered(number)
            self.held[name] = self._stuck_behind(number)
        self._downstream: dict[int, list[int]] = {}
        for number, step in enumerate(self._steps):
            for each in step.inputs:
                self._downstream.setdefault(each, []).append(number)

    def _entered(self, number: Any) -> Reference:
        """Enter all workings of a number, inputs before results."""
        origin = origin_of(number)
        pending = [origin] if isinstance(origin, Working) else []
        while pending:
            working = pending[-1]
            waiting = [
                behind
                for given in working.given
                if isinstance(behind := origin_of(given.value), Working) and id(behind) not in self._known
            ]
            if waiting:
                pending.extend(waiting)
                continue
            pending.pop()
            if id(working) not in self._known:
                self._known[id(working)] = self._of_working(working)
                self._kept.append(working)
        return self._of_given(Given(None, number))

    def _of_given(self, given: Given) -> Reference:
        origin = origin_of(given.value)
        if isinstance(origin, Line):
            place = self._place(origin)
            if place is not None:
                return Reference(given.quantity, input=place)
        elif isinstance(origin, Working):
            known = self._known[id(origin)]
            return Reference(given.quantity, known.value, known.input, known.step)
        return Reference(
            given.quantity, float(given.value) if isinstance(given.value, Traced) else given.value
        )

    def _of_working(self, working: Working) -> Reference:
        given = tuple(self._of_given(g) for g in working.given)
        reached = frozenset[int]().union(*(self._reaching(ref) for ref in given))
        stuck = frozenset[int]().union(*(self._stuck_behind(g.value) for g in working.given))
        function = working.statement.function
        if function is None:
            self._stuck[id(working)] = stuck | reached
            return Reference(None, working.value)
        self._stuck[id(working)] = stuck
        if not reached:
            return Reference(None, working.value)
        return Reference(None, step=self._numbered(Step(working.statement.name, function, given, reached)))

    def _numbered(self, step: Step) -> int:
        """Number of a step; one that was found from the same figures already is not found twice."""
        same = (step.function, tuple((ref.value, ref.input, ref.step) for ref in step.given))
        try:
            if same in self._same:
                return self._same[same]
            self._same[same] = len(self._steps)
        except TypeError:  # a table among the given
            pass
        self._steps.append(step)
        return len(self._steps) - 1

    def _reaching(self, ref: Reference) -> frozenset[int]:
        if ref.input is not None:
            return frozenset((ref.input,))
        return frozenset() if ref.step is None else self._steps[ref.step].inputs

    def _stuck_behind(self, number: Any) -> frozenset[int]:
        origin = origin_of(number)
        return self._stuck.get(id(origin), frozenset()) if isinstance(origin, Working) else frozenset()

    def inputs_of(self, name: str) -> frozenset[int]:
        """Inputs that reach a result, in any way."""
        return self._reaching(self.results[name]) | self.held[name]

    def run(self, samples: Sequence[Samples]) -> Values:
        """Samples of all steps for samples of all inputs, one array for each."""
        values: Values = {}
        for number in range(len(self._steps)):
            values[number] = self._found(number, samples, values, values)
        return values

    def again(self, samples: Sequence[Samples], base: Values, moved: Mapping[int, Samples]) -> Values:
        """Samples of the steps that some inputs reach, once these take ``moved`` instead of their own."""
        changed: Values = {}
        inputs = [moved.get(place, each) for place, each in enumerate(samples)]
        reached = {number for place in moved for number in self._downstream.get(place, ())}
        for number in sorted(reached):
            changed[number] = self._found(number, inputs, base, changed)
        return changed

    def of_result(self, name: str, samples: Sequence[Samples], *values: Values) -> Samples:
        """Samples of a result; of several sets of values the first that has it counts."""
        ref = self.results[name]
        if ref.input is not None:
            return samples[ref.input]
        if ref.step is None:
            return np.full(np.shape(samples[0]), float(ref.value))
        return next(each[ref.step] for each in values if ref.step in each)

    def _found(self, number: int, samples: Sequence[Samples], base: Values, changed: Values) -> Samples:
        step = self._steps[number]
        outside: Any = False
        given = []
        for ref in step.given:
            value = ref.value
            if ref.input is not None:
                value = samples[ref.input]
            elif ref.step is not None:
                value = changed[ref.step] if ref.step in changed else base[ref.step]
            if isinstance(value, np.ndarray) and ref.quantity is not None:
                inside = value.min() >= ref.quantity.low and value.max() <= ref.quantity.high
                if not inside:  # or NaN among them
                    outside |= ~((value >= ref.quantity.low) & (value <= ref.quantity.high))
            given.append(value)
        found = _elementwise(step.function, given)
        return found if outside is False else np.where(outside, np.nan, found)


def _elementwise(function: Callable[..., Any], given: Sequence[Any]) -> Samples:
    """A function of numbers and samples; one by one where it knows no arrays."""
    shape = np.broadcast_shapes(*(value.shape for value in given if isinstance(value, np.ndarray)))
    try:
        found = np.asarray(function(*given), dtype=float)
        if found.shape == shape:
            return found
        if found.shape == ():
            return np.full(shape, float(found))
    except (TypeError, ValueError, DossierError):
        pass
    return _one_by_one(function, given, shape)


def _one_by_one(function: Callable[..., Any], given: Sequence[Any], shape: tuple[int, ...]) -> Samples:
    """A function of single numbers for every sample; NaN where it refuses one."""
    found = np.full(shape, np.nan)
    for place in np.ndindex(shape):
        numbers = [float(value[place]) if isinstance(value, np.ndarray) else value for value in given]
        try:
            found[place] = float(function(*numbers))
        except (ArithmeticError, ValueError, DossierError, np.linalg.LinAlgError):
            continue
    return found
