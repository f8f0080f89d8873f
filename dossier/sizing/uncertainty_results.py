"""What the study of uncertainty found: percentiles, indices, and the list of what to measure next."""

from collections.abc import Mapping
from typing import Annotated

from dossier.notation import Line, Quantity, Real, q, slug
from dossier.notation.records import dataclass
from dossier.sizing.uncertainty_inputs import Unknown


def in_unit_of(declared: Quantity, quantity: Quantity) -> Quantity:
    """Declaration of a percentile of a quantity."""
    return Quantity(declared.symbol, quantity.unit, f"{declared.label} of: {quantity.label}")


@dataclass(frozen=True)
class InputIndex:
    """How much one unknown moves a result.

    ``total`` is the share of the variance that stays when all others are known, ``alone`` the share that goes
    when this one is measured. ``at_low`` and ``at_high`` are the result with this one alone at an end.
    """

    result: str
    key: str
    unknown: Unknown
    total: Annotated[Real, q("S_T", "1", "total index of one input", name="uncertainty.{result}.index.{key}")]
    alone: Annotated[Real, q("S", "1", "first-order index of one input")]
    at_low: Real
    at_high: Real

    def result_name(self, name: str) -> str:
        """Name with the dots of the result and of the key."""
        key = ".".join(slug(part) for part in self.key.split("."))
        return name.replace(f".{slug(self.result)}.", f".{self.result}.").replace(slug(self.key), key)


@dataclass(frozen=True)
class ResultSpread:
    """A result with its percentiles, and what moves it, strongest first.

    ``outside`` counts the samples that left the range of a formula: the percentiles are those of the rest.
    ``held`` is the standard deviation that the solved ring, held still, would add over that of the formulas;
    ``linear`` says that it was added in a straight line instead. ``moves`` tells for every unknown that
    reaches the result how far it alone moves it, at the end of its spread where it does so most.
    """

    result: str
    quantity: Quantity
    value: Real
    p10: Annotated[Real, q("P_10", "1", "tenth percentile", name="uncertainty.{result}.p10")]
    p50: Annotated[Real, q("P_50", "1", "median", name="uncertainty.{result}.p50")]
    p90: Annotated[Real, q("P_90", "1", "ninetieth percentile", name="uncertainty.{result}.p90")]
    samples: int
    outside: int
    held: float
    linear: bool
    indices: tuple[InputIndex, ...]
    moves: Mapping[str, float]

    def result_name(self, name: str) -> str:
        """Name with the dots of the result."""
        return name.replace(f".{slug(self.result)}.", f".{self.result}.")

    def result_quantity(self, declared: Quantity) -> Quantity:
        """A percentile is in the unit of its result."""
        return in_unit_of(declared, self.quantity)


@dataclass(frozen=True)
class ToMeasure:
    """An input to measure: the result it moves most, and by how much of that result's size.

    ``effect`` is half the width between the tenth and the ninetieth percentile that this input alone would
    leave, over the result; over the load of its zone where the result is a margin.
    """

    unknown: Unknown
    line: Line
    result: str
    effect: float


@dataclass(frozen=True)
class Uncertainty:
    """The spread of the results studied, and the list of what to measure next, strongest first.

    ``still`` are keys that could not be moved in the solved ring; ``solutions`` counts how often it was
    solved again.
    """

    samples: int
    unknowns: tuple[Unknown, ...]
    spreads: Mapping[str, ResultSpread]
    measure_next: tuple[ToMeasure, ...]
    still: tuple[str, ...]
    solutions: int
