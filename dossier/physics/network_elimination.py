"""The linear system of a Newton step, solved by structure.

Its matrix is that of a network of resistors: one row a node, one entry a run. Small systems go to a dense
solver. Larger ones, and many of the same shape at once, are eliminated node by node, nodes of few neighbours
first, which is what reducing runs in series, dead ends and parallel runs amounts to. Nodes that do not touch
each other are eliminated together, as arrays, so the count of steps grows with the logarithm of the size
for anything like a ladder. What is left when neighbours become many is solved densely.
"""

from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple, Protocol

import numpy as np
from numpy.typing import NDArray

from dossier.physics.network_figures import stretches

Array = NDArray[np.float64]
Index = NDArray[np.intp]

FEW = 120
"""Up to so many nodes a dense solver is quicker for a single case."""

ROOT = 24
"""So many nodes are left to the dense solver at the end of the elimination of a single case."""

NEIGHBOURS = 10
"""Nodes with more neighbours than this are not eliminated."""


class System(Protocol):
    """A matrix whose pattern is known."""

    def solution(self, conductance: Array, right: Array, anchored: Array | None = None) -> Array:
        """Heads for a conductance of each run and a right-hand side; ``anchored`` adds to the diagonal."""


class _Level(NamedTuple):
    """Nodes eliminated together, as places in the row of all values (see ``Elimination``)."""

    nodes: Index
    pair_edge: Index
    pair_node: Index
    pair_other: Index
    pair_starts: Index
    pair_owner: Index
    factor: Index
    source: Index
    target: Index
    target_starts: Index


class Dense:
    """Solves one case through a full matrix."""

    def __init__(self, count: int, start: Index, end: Index) -> None:
        self._count = count
        outside = count
        place = np.concatenate(
            (start * count + start, end * count + end, start * count + end, end * count + start)
        )
        sign = np.repeat([1.0, 1.0, -1.0, -1.0], len(start))
        runs = np.tile(np.arange(len(start)), 4)
        inside = np.concatenate(
            (start < outside, end < outside, *(((start < outside) & (end < outside)),) * 2)
        ) & np.tile(start != end, 4)
        self._place, self._sign, self._runs = place[inside], sign[inside], runs[inside]

    def solution(self, conductance: Array, right: Array, anchored: Array | None = None) -> Array:
        """Heads of the unknown nodes."""
        count = self._count
        summed = np.bincount(self._place, conductance[self._runs] * self._sign, count * count)
        row = np.asarray(summed, dtype=np.float64)
        if anchored is not None:
            row[:: count + 1] += anchored
        return np.asarray(np.linalg.solve(row.reshape(count, count), right), dtype=np.float64)


class Elimination:
    """Solves one or many cases by eliminating levels of nodes.

    All values lie in one row (each with its cases): diagonal, right-hand side, then the pairs of neighbours,
    those that arise on the way included.
    """

    def __init__(self, count: int, start: Index, end: Index, least: int = ROOT) -> None:
        self._count, self._least = count, least
        neighbours: list[dict[int, int]] = [{} for _ in range(count)]
        self._pairs = 0
        self._gather = self._gathered(start, end, neighbours)
        self._levels, root = self._ordered(neighbours)
        self._root = np.array(root, dtype=np.intp)
        place = {node: number for number, node in enumerate(root)}
        pairs = [
            (place[one], place[other], 2 * count + pair)
            for one in root
            for other, pair in neighbours[one].items()
        ]
        self._root_pairs = np.array(pairs, dtype=np.intp).reshape(-1, 3).T

    def _gathered(
        self, start: Index, end: Index, neighbours: list[dict[int, int]]
    ) -> tuple[Index, Index, Index]:
        """Where each run's conductance is added: runs, sorted by place, and the places' first ones."""
        count, places, runs = self._count, [], []
        for run, (one, other) in enumerate(zip(start.tolist(), end.tolist(), strict=True)):
            if one == other:
                continue
            for node in (one, other):
                if node < count:
                    places.append(node)
                    runs.append(run)
            if one < count and other < count:
                places.append(2 * count + self._pair(neighbours, one, other))
                runs.append(run)
        order = np.argsort(np.array(places, dtype=np.intp), kind="stable")
        sorted_places = np.array(places, dtype=np.intp)[order]
        starts, owners = stretches(sorted_places)
        return np.array(runs, dtype=np.intp)[order], starts, owners

    def _pair(self, neighbours: list[dict[int, int]], one: int, other: int) -> int:
        found = neighbours[one].get(other)
        if found is None:
            found = neighbours[one][other] = neighbours[other][one] = self._pairs
            self._pairs += 1
        return found

    def _ordered(self, neighbours: list[dict[int, int]]) -> tuple[list[_Level], list[int]]:
        left = set(range(self._count))
        levels = []
        while len(left) > self._least:
            chosen = self._chosen(left, neighbours)
            if not chosen:
                break
            levels.append(self._level(chosen, neighbours))
            left.difference_update(chosen)
        return levels, sorted(left)

    @staticmethod
    def _chosen(left: Iterable[int], neighbours: list[dict[int, int]]) -> list[int]:
        """Nodes of few neighbours that do not touch each other, the fewest first."""
        ranked = sorted((len(neighbours[node]), node) for node in left)
        most = min(max(ranked[0][0] + 1, ranked[len(ranked) // 3][0]), NEIGHBOURS)
        touched: set[int] = set()
        chosen = []
        for many, node in ranked:
            if many > most:
                break
            if node not in touched:
                chosen.append(node)
                touched.update(neighbours[node])
        return chosen

    def _level(self, chosen: list[int], neighbours: list[dict[int, int]]) -> _Level:
        count = self._count
        edge: list[int] = []
        node_of: list[int] = []
        other_of: list[int] = []
        factor: list[int] = []
        source: list[int] = []
        target: list[int] = []
        for node in chosen:
            around = list(neighbours[node].items())
            first = len(edge)
            for other, pair in around:
                factor += [len(edge)] * 2
                source += [2 * count + pair, count + node]
                target += [other, count + other]
                edge.append(2 * count + pair)
                node_of.append(node)
                other_of.append(other)
                del neighbours[other][node]
            for i, (one, _) in enumerate(around):
                for j in range(i):
                    factor.append(first + i)
                    source.append(edge[first + j])
                    target.append(2 * count + self._pair(neighbours, one, around[j][0]))
        order = np.argsort(np.array(target, dtype=np.intp), kind="stable")
        targets = np.array(target, dtype=np.intp)[order]
        target_starts, owners = stretches(targets)
        node_array = np.array(node_of, dtype=np.intp)
        pair_starts, pair_owner = stretches(node_array)
        return _Level(
            np.array(chosen, dtype=np.intp),
            np.array(edge, dtype=np.intp),
            node_array,
            np.array(other_of, dtype=np.intp),
            pair_starts,
            pair_owner,
            np.array(factor, dtype=np.intp)[order],
            np.array(source, dtype=np.intp)[order],
            owners,
            target_starts,
        )

    def solution(self, conductance: Array, right: Array, anchored: Array | None = None) -> Array:
        """Heads of the unknown nodes, a column for each case."""
        count = self._count
        row = np.zeros((2 * count + self._pairs, *right.shape[1:]))
        runs, starts, owners = self._gather
        if len(owners):
            row[owners] = np.add.reduceat(conductance[runs], starts, axis=0)
        row[2 * count :] *= -1
        row[count : 2 * count] = right
        if anchored is not None:
            row[:count] += anchored
        ratios = []
        for level in self._levels:
            ratio = row[level.pair_edge] / row[level.pair_node]
            ratios.append(ratio)
            if len(level.target):
                row[level.target] -= np.add.reduceat(
                    ratio[level.factor] * row[level.source], level.target_starts, axis=0
                )
        heads = np.empty_like(right)
        self._solve_root(row, heads)
        for level, ratio in zip(reversed(self._levels), reversed(ratios), strict=True):
            heads[level.nodes] = row[count + level.nodes] / row[level.nodes]
            if len(level.pair_owner):
                heads[level.pair_owner] -= np.add.reduceat(
                    ratio * heads[level.pair_other], level.pair_starts, axis=0
                )
        return heads

    def _solve_root(self, row: Array, heads: Array) -> None:
        """Dense solution of the nodes that are left."""
        root, many = self._root, len(self._root)
        if not many:
            return
        cases = row.shape[1:]
        matrix = np.zeros((many, many, *cases))
        matrix[np.arange(many), np.arange(many)] = row[root]
        one, other, pair = self._root_pairs
        matrix[one, other] = row[pair]
        right = row[self._count + root]
        if cases:
            heads[root] = np.linalg.solve(np.moveaxis(matrix, -1, 0), right.T[:, :, None])[:, :, 0].T
        else:
            heads[root] = np.linalg.solve(matrix, right)


def system(count: int, start: Index, end: Index, *, many: bool = False) -> System:
    """System of ``count`` unknown nodes; runs end at one of them, or at ``count`` where the head is known.

    ``many`` cases are eliminated to the last node. The pattern is analysed once for each shape of circuit.
    """
    least = 0 if many else ROOT
    return _system(count, start.tobytes(), end.tobytes(), least if many or count > FEW else None)


@lru_cache(maxsize=64)
def _system(count: int, start: bytes, end: bytes, least: int | None) -> System:
    ends = np.frombuffer(start, dtype=np.intp), np.frombuffer(end, dtype=np.intp)
    return Dense(count, *ends) if least is None else Elimination(count, *ends, least)
