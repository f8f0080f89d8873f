"""Properties of one mix against temperature: cubic pieces through the nodes of a fluid table.

The table is first read at the share, isotherm by isotherm; then a cubic runs from node to node with the
slopes of the parabolas through their neighbours. It meets every node, and its slope is continuous, as a
Newton solver wants. Viscosity is interpolated in its logarithm. The share may be as many samples as the
temperatures are.
"""

from bisect import bisect_right
from functools import lru_cache
from math import exp, nan

import numpy as np
from numpy.typing import NDArray

from dossier.data.fluid_tables import PROPERTIES, FluidSet, FluidTable, fluid_table
from dossier.notation.records import dataclass

VISCOSITY = PROPERTIES.index("viscosity")

CLOSE = 0.5
"""Isotherms nearer than this to the cold end of a curve are left out of it (K)."""

Samples = NDArray[np.float64]
Piece = tuple[float, float, float, float]


def interpolated(nodes: Samples, columns: Samples, at: Samples) -> Samples:
    """Cubic through the four nodes nearest to each sample (fewer where there are fewer).

    ``columns`` has a row for each quantity; the answer has a row for each quantity and a column for each
    sample, NaN where the sample lies outside the nodes.
    """
    many = min(4, len(nodes))
    first = np.clip(np.searchsorted(nodes, at) - many // 2, 0, len(nodes) - many)
    total = np.zeros((len(columns), len(at)))
    for i in range(many):
        weight = np.ones(len(at))
        for j in range(many):
            if i != j:
                weight *= (at - nodes[first + j]) / (nodes[first + i] - nodes[first + j])
        total += weight * columns[:, first + i]
    total[:, ~((at >= nodes[0]) & (at <= nodes[-1]))] = np.nan
    return total


def freezing_points(table: FluidTable, shares: Samples) -> Samples:
    """Freezing point at each share (K); NaN where the line does not reach."""
    line: Samples = interpolated(table.freezing_shares, table.freezing_points[None, :], shares)[0]
    return line


def _straightened(columns: Samples) -> Samples:
    """Columns as they are interpolated: the logarithm of the viscosity, the rest as it is."""
    straight = columns.copy()
    straight[VISCOSITY] = np.log(columns[VISCOSITY])
    return straight


def _slopes(nodes: Samples, columns: Samples, first: NDArray[np.int64]) -> Samples:
    """Slope at each node of the parabola through it and its neighbours; at an end, of the last parabola."""
    steps = np.diff(nodes, axis=0)
    chords = np.diff(columns, axis=1) / steps
    slopes = np.full(columns.shape, np.nan)
    before, after = steps[:-1], steps[1:]
    slopes[:, 1:-1] = (after * chords[:, :-1] + before * chords[:, 1:]) / (before + after)
    slopes[:, -1] = chords[:, -1] + (chords[:, -1] - chords[:, -2]) * steps[-1] / (steps[-1] + steps[-2])
    sample = np.arange(nodes.shape[1])
    near, next_one = chords[:, first, sample], chords[:, first + 1, sample]
    share = steps[first, sample] / (steps[first, sample] + steps[first + 1, sample])
    slopes[:, first, sample] = near + (near - next_one) * share
    return slopes


@dataclass(frozen=True)
class PropertyCurves:
    """All properties of a mix against temperature, for one share or for samples of it.

    ``lowest`` and ``highest`` end the curves (K). Sample ``n`` begins at row ``first[n]`` of ``nodes`` with
    its lowest temperature; the rows above are the isotherms of the table, those below unused. ``pieces``
    gives the four coefficients of the cubic for each property, row and sample.
    """

    isotherms: Samples
    lowest: Samples
    highest: float
    first: NDArray[np.int64]
    nodes: Samples
    pieces: Samples

    def at(self, place: int, temperature: Samples) -> Samples:
        """Property at each temperature, sample by sample with the share; NaN outside the curves."""
        sample = np.arange(len(self.first))
        piece = np.searchsorted(self.isotherms, temperature, side="right")
        piece = np.minimum(np.maximum(piece, self.first), len(self.nodes) - 2)
        a, b, c, d = self.pieces[place, piece, sample].T
        t = temperature - self.nodes[piece, sample]
        found = a + t * (b + t * (c + t * d))
        inside = (temperature >= self.lowest) & (temperature <= self.highest)
        return np.where(inside, np.exp(found) if place == VISCOSITY else found, np.nan)


def _nodes(table: FluidTable, coldest: float, shares: Samples) -> tuple[Samples, Samples, NDArray[np.int64]]:
    """Nodes and columns of the curves, and the row at which each sample begins."""
    isotherms = np.array([isotherm.temperature for isotherm in table.isotherms])
    rows = [interpolated(i.nodes, _straightened(i.columns), shares) for i in table.isotherms]
    # Row 0 is kept for a cold end below the second isotherm; what stands in it is never read otherwise.
    nodes = np.repeat(np.concatenate([isotherms[:1] - 1, isotherms])[:, None], len(shares), axis=1)
    columns = np.stack([rows[0], *rows], axis=1)
    if not len(table.freezing_shares):
        return nodes, columns, np.ones(len(shares), dtype=np.int64)
    freezing = freezing_points(table, shares)
    on_line = interpolated(table.freezing_shares[: table.line.shape[1]], _straightened(table.line), shares)
    lowest = np.maximum(freezing, coldest)
    first = (isotherms[:, None] <= lowest + CLOSE).sum(axis=0)
    sample = np.arange(len(shares))
    nodes[first, sample] = lowest
    columns[:, first, sample] = np.where(freezing >= coldest, on_line, rows[0])
    return nodes, columns, first


def property_curves(data_set: FluidSet, shares: Samples) -> PropertyCurves:
    """Curves of a mix at the given shares; NaN all along for a share outside the set."""
    table = fluid_table(data_set.key)
    coldest, highest = data_set.temperatures
    nodes, columns, first = _nodes(table, coldest, shares)
    slopes = _slopes(nodes, columns, first)
    step = np.diff(nodes, axis=0)
    low, high = slopes[:, :-1], slopes[:, 1:]
    chord = np.diff(columns, axis=1) / step
    c = (3 * chord - 2 * low - high) / step
    d = (low + high - 2 * chord) / step**2
    return PropertyCurves(
        isotherms=np.array([isotherm.temperature for isotherm in table.isotherms]),
        lowest=nodes[first, np.arange(len(shares))],
        highest=highest,
        first=first,
        nodes=nodes,
        pieces=np.stack([columns[:, :-1], low, c, d], axis=-1),
    )


class MixCurves:
    """The curves of a mix with one share; ``at`` is the fast path of solvers that ask one temperature."""

    def __init__(self, curves: PropertyCurves) -> None:
        first = int(curves.first[0])
        self.lowest, self.highest = float(curves.lowest[0]), curves.highest
        self._nodes: Samples = curves.nodes[first:, 0]
        self._pieces: Samples = np.ascontiguousarray(curves.pieces[:, first:, 0])
        self._inner: list[float] = self._nodes[1:-1].tolist()
        self._starts: list[float] = self._nodes.tolist()
        self._cubics: list[list[Piece]] = [
            [(a, b, c, d) for a, b, c, d in pieces] for pieces in self._pieces.tolist()
        ]

    def at(self, place: int, temperature: float) -> float:
        """Property at a temperature; NaN outside the curves."""
        if not self.lowest <= temperature <= self.highest:
            return nan
        piece = bisect_right(self._inner, temperature)
        a, b, c, d = self._cubics[place][piece]
        t = temperature - self._starts[piece]
        found = a + t * (b + t * (c + t * d))
        return exp(found) if place == VISCOSITY else found

    def samples(self, place: int, temperature: Samples) -> Samples:
        """Property at each temperature; NaN outside the curves."""
        piece = np.searchsorted(self._inner, temperature, side="right")
        t = temperature - self._nodes[piece]
        a, b, c, d = np.moveaxis(self._pieces[place][piece], -1, 0)
        found = a + t * (b + t * (c + t * d))
        inside = (temperature >= self.lowest) & (temperature <= self.highest)
        return np.where(inside, np.exp(found) if place == VISCOSITY else found, np.nan)


@lru_cache(maxsize=256)
def curves_of(data_set: FluidSet, share: float) -> MixCurves:
    """Curves of a mix with one share, made once."""
    return MixCurves(property_curves(data_set, np.array([share])))
