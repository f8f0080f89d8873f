"""How the runs hang together: parts of the circuit, what holds their pressure, loops without resistance.

Works on indices; names are only put into faults.
"""

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from dossier.notation.records import dataclass
from dossier.physics.network_elements import CircuitFault, Node, Run

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Mask = NDArray[np.bool_]

CLOSURE = 1e-3
"""Largest difference in height (m) by which the rises round a loop may miss each other."""

BALANCE = 1e-9
"""Largest imbalance of what enters and leaves a part of the circuit, over the largest of it."""


class Groups:
    """Sets that are joined one by one (union by size, halving of paths)."""

    def __init__(self, count: int) -> None:
        self._parent = list(range(count))

    def of(self, member: int) -> int:
        """Representative of the set a member belongs to."""
        parent = self._parent
        while parent[member] != member:
            parent[member] = parent[parent[member]]
            member = parent[member]
        return member

    def join(self, one: int, other: int) -> bool:
        """Join the sets of two members; False where they were one already."""
        one, other = self.of(one), self.of(other)
        if one == other:
            return False
        self._parent[max(one, other)] = min(one, other)
        return True

    def all(self) -> list[int]:
        """Representative of every member."""
        return [self.of(member) for member in range(len(self._parent))]


@dataclass(frozen=True)
class Parts:
    """Parts of a circuit under a set of open runs.

    ``known`` marks the nodes whose head is given: those of known pressure, and one of each part that has
    none (``adrift`` lists those parts, by their nodes).
    """

    known: Mask
    adrift: tuple[tuple[int, ...], ...]


def elevations(nodes: Sequence[Node], runs: Sequence[Run], rises: Array) -> Array:
    """Height of every node over the first of its part (m), from the rise of each run.

    Raises ``CircuitFault`` where the rises round a loop do not close.
    """
    found = np.zeros(len(nodes))
    if not rises.any():
        return found
    at: list[list[tuple[int, float]]] = [[] for _ in nodes]
    for run, rise in zip(runs, rises.tolist(), strict=True):
        at[run.start].append((run.end, rise))
        at[run.end].append((run.start, -rise))
    seen = [False] * len(nodes)
    for first in range(len(nodes)):
        stack = [] if seen[first] else [first]
        seen[first] = True
        while stack:
            here = stack.pop()
            for other, rise in at[here]:
                if not seen[other]:
                    seen[other] = True
                    found[other] = found[here] + rise
                    stack.append(other)
    for run, rise in zip(runs, rises.tolist(), strict=True):
        missed = float(found[run.start] + rise - found[run.end])
        if abs(missed) > CLOSURE:
            raise CircuitFault(
                f"rises and falls round the loops do not close: {abs(missed):.3f} m are left over at",
                [run.name],
            )
    return found


def parts(nodes: Sequence[Node], runs: Sequence[Run], open_runs: Sequence[int], bare: Mask) -> Parts:
    """Parts of the circuit joined by open runs.

    ``bare`` marks the runs without resistance. Raises ``CircuitFault`` for a loop of them.
    """
    groups = Groups(len(nodes))
    known = np.array([node.pressure is not None for node in nodes])
    _join_held(groups, nodes)
    for number in open_runs:
        groups.join(runs[number].start, runs[number].end)
    if bare.any():
        loop_without_resistance(nodes, runs, [number for number in open_runs if bare[number]])
    members: dict[int, list[int]] = {}
    for place, group in enumerate(groups.all()):
        members.setdefault(group, []).append(place)
    adrift = []
    for part in members.values():
        if not known[part].any():
            known[part[0]] = True
            adrift.append(tuple(part))
    return Parts(known, tuple(adrift))


def _join_held(groups: Groups, nodes: Sequence[Node]) -> None:
    held = [place for place, node in enumerate(nodes) if node.pressure is not None]
    for place in held[1:]:
        groups.join(held[0], place)


def loop_without_resistance(nodes: Sequence[Node], runs: Sequence[Run], bare: Iterable[int]) -> None:
    """Raise ``CircuitFault`` where runs without resistance close a loop or join two known pressures."""
    groups, before = Groups(len(nodes)), []
    _join_held(groups, nodes)
    for number in bare:
        before.append(runs[number])
        if not groups.join(runs[number].start, runs[number].end):
            names = [run.name for run in _loop(nodes, before)]
            raise CircuitFault("a loop has no resistance, so its flow has no limit", names)


def _loop(nodes: Sequence[Node], runs: list[Run]) -> list[Run]:
    """Runs of the one loop among them: dead ends are taken off, known pressures count as one node."""

    def ends(run: Run) -> tuple[int, int]:
        start, end = (-1 if nodes[place].pressure is not None else place for place in (run.start, run.end))
        return start, end

    while True:
        touched = [end for run in runs for end in ends(run)]
        looped = [run for run in runs if all(touched.count(end) > 1 for end in ends(run))]
        if len(looped) == len(runs):
            return looped
        runs = looped


def check_balance(nodes: Sequence[Node], found: Parts, demand: Array) -> None:
    """Raise ``CircuitFault`` where a part without known pressure gains or loses.

    ``demand`` is what leaves at each node (kg/s), held flows counted.
    """
    largest = float(np.abs(demand).max(initial=0.0))
    if not largest:
        return
    for part in found.adrift:
        left_over = float(demand[list(part)].sum())
        if abs(left_over) > BALANCE * largest:
            raise CircuitFault(
                f"{abs(left_over):.6g} kg/s have no way {'into' if left_over > 0 else 'out of'} the part of",
                [nodes[place].name for place in part],
            )
