"""What is not known: every assumed figure some results rest on, and how far each may lie off.

An assumed figure is one the file states without a better basis, or a row of the table of assumptions where
the file is silent. What was measured, read off a plate or taken from a drawing is not sampled.
"""

import hashlib
import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from dossier.data.default_spreads import spread_of
from dossier.notation import Basis, Given, Line, Quantity, Working, origin_of
from dossier.notation.records import dataclass
from dossier.physics.sensitivity import latin_hypercube, triangular

if TYPE_CHECKING:
    from dossier.project import Project

POINT_OF_A_CURVE = re.compile(r"\.curve\.\d+\..*")
Samples = NDArray[np.float64]


@dataclass(frozen=True)
class Figure:
    """An assumed figure: its value (the likeliest) and the ends of its spread, in its quantity's unit."""

    line: Line
    quantity: Quantity
    value: float
    low: float
    high: float

    def between(self, shares: Samples) -> Samples:
        """Samples of the figure for shares of its probability."""
        return np.asarray(triangular(shares, self.low, self.value, self.high))


@dataclass(frozen=True)
class Unknown:
    """One thing that is not known, with all figures that move together with it.

    Mostly one figure, under its key of the file. The points of a curve are one unknown. So is a convention,
    which no key of the file replaces: it bears the key of its row in the table of assumptions and counts once
    wherever it stands in. ``usual`` says that the spread is the usual one of its kind and not the file's own.
    """

    key: str
    figures: tuple[Figure, ...]
    convention: bool
    usual: bool

    @property
    def first(self) -> Figure:
        """The figure that is printed for it."""
        return self.figures[0]


@dataclass(frozen=True)
class Unknowns:
    """All unknowns of some results; ``places`` numbers their figures one after the other."""

    each: tuple[Unknown, ...]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Figures of all unknowns, in the order of their places."""
        return tuple(figure for unknown in self.each for figure in unknown.figures)

    @property
    def places(self) -> dict[Line, int]:
        """Place of the figure of each line."""
        return {figure.line: place for place, figure in enumerate(self.figures)}

    @property
    def of_unknown(self) -> tuple[tuple[int, ...], ...]:
        """Places of the figures of each unknown."""
        counts = [len(unknown.figures) for unknown in self.each]
        ends = np.cumsum([0, *counts]).tolist()
        return tuple(tuple(range(start, start + count)) for start, count in zip(ends, counts, strict=False))

    def drawn(self, seed: int, samples: int) -> list[Samples]:
        """Samples of all figures; those of one unknown move together.

        Each unknown has its own seed, from its key: it is sampled alike whatever stands beside it, so a study
        of few results and one of many agree.
        """
        drawn = []
        for unknown in self.each:
            own = int.from_bytes(hashlib.sha256(f"{seed} {unknown.key}".encode()).digest()[:8], "big")
            shares = latin_hypercube(own, samples, 1)[0]
            drawn += [figure.between(shares) for figure in unknown.figures]
        return drawn


def figures_behind(numbers: Iterable[Any]) -> Iterator[tuple[Line, Quantity | None, float]]:
    """Lines behind numbers with the quantity and value each enters with, each line once, in order."""
    seen: set[int] = set()
    told: set[Line] = set()
    stack = [Given(None, number) for number in reversed(tuple(numbers))]
    while stack:
        given = stack.pop()
        origin = origin_of(given.value)
        if isinstance(origin, Line) and origin not in told:
            told.add(origin)
            yield origin, given.quantity, float(given.value)
        elif isinstance(origin, Working) and id(origin) not in seen:
            seen.add(id(origin))
            stack.extend(reversed(origin.given))


def is_convention(project: "Project", line: Line) -> bool:
    """Whether no key of the file can replace an assumption: none is its own, or the file has it already."""
    if not line.row:
        return False
    own = line.row.rpartition(".")[2] == line.key.rpartition(".")[2]
    return not own or project.where(line.key).key == line.key


def unknowns_behind(project: "Project", numbers: Iterable[Any]) -> Unknowns:
    """Assumed figures some numbers rest on, in the order they are met; those without any spread left out."""
    found: dict[str, Unknown] = {}
    for line, quantity, value in figures_behind(numbers):
        ends = spread_of(line, quantity, value) if line.basis is Basis.ASSUMED else None
        if ends is None or not ends[0] < ends[1]:
            continue
        convention = is_convention(project, line)
        key = line.row if convention else POINT_OF_A_CURVE.sub(".curve", line.key)
        figure = Figure(line, quantity or Quantity("", "", ""), value, *ends)
        known = found.get(key)
        figures = (figure,) if known is None else (*known.figures, figure)
        found[key] = Unknown(key, figures, convention, line.spread is None)
    return Unknowns(tuple(found.values()))
