"""How does the circuit hang together? Units and pipes between nodes, branches, and where the header joins."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any

from dossier.notation import Fault, NotAssessed, ProjectFaults
from dossier.project.model.circuit import Connection, Group, Unit
from dossier.sizing.circuit_graph import Branch, Chain, Circuit, Place, ThreeWay, chains_of

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.circuit import Item

__all__ = ["QUESTION", "Branch", "Chain", "Circuit", "Place", "ThreeWay", "circuit", "fault_at"]

QUESTION = "Does each branch get its flow?"
WAYS = 2


@dataclass
class _Laying:
    """Lays the items of the file out as a graph, collecting what is wrong."""

    project: "Project"
    places: dict[str, Place] = field(default_factory=dict)
    branches: dict[str, Branch] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    nodes: int = 0

    def node(self) -> int:
        self.nodes += 1
        return self.nodes - 1

    def place(self, place: Place) -> None:
        if place.tag in self.places:
            self._fault(
                f"{place.tag} stands twice in the circuit",
                "list it once, where the coolant passes it",
                place.key,
            )
            return
        self.places[place.tag] = place

    def series(self, items: "Sequence[Item]", start: int, end: int, branches: tuple[str, ...]) -> None:
        """Lay items in series from node ``start`` to node ``end``."""
        here = start
        for number, item in enumerate(items):
            there = end if number == len(items) - 1 else self.node()
            self._item(item, here, there, branches)
            here = there

    def _item(self, item: "Item", start: int, end: int, branches: tuple[str, ...]) -> None:
        if isinstance(item, Group):
            self._group(item, start, end, branches)
        elif isinstance(item, Unit):
            unit = (self.project.components or {})[item.unit]
            self.place(Place(item.unit, start, end, branches, item.key, unit=unit))
        else:
            self.place(Place(item.id, start, end, branches, item.key, pipe=item))

    def _group(self, group: Group, start: int, end: int, branches: tuple[str, ...]) -> None:
        first, last = group.between
        inner_start = self._manifold(first, start, branches, group.key, leaving=True)
        inner_end = self._manifold(last, end, branches, group.key, leaving=False)
        for name, items in group.branches.items():
            key = f"circuit.branches.{name}"
            if name in self.branches:
                self._fault(f"two branches bear the name {name}", "give each branch a name of its own", key)
                continue
            if not items:
                self._fault(f"branch {name} is empty", "list its units and pipes, or leave it out", key)
                continue
            parent = branches[-1] if branches else ""
            self.branches[name] = Branch(name, (first, last), inner_start, inner_end, key, parent)
            self._branch(name, items, (inner_start, inner_end), (*branches, name))

    def _branch(
        self, name: str, items: "Sequence[Item]", ends: tuple[int, int], branches: tuple[str, ...]
    ) -> None:
        """Lay a branch; where a three-way valve serves it, the valve's way closes it."""
        end = ends[1]
        for valve in self.served.get(name, ()):
            before = self.node()
            unit = (self.project.components or {})[valve]
            tag = f"{valve} {name}"
            self.place(Place(tag, before, end, branches, f"components.{valve}", unit=unit, way_of=valve))
            end = before
        self.series(items, ends[0], end, branches)

    @cached_property
    def served(self) -> Mapping[str, list[str]]:
        """Three-way valves by the branches they serve."""
        found: dict[str, list[str]] = {}
        for tag, part in (self.project.components or {}).items():
            valve: Any = part
            for branch in (valve.ways or ()) if part.kind == "three_way_valve" else ():
                found.setdefault(branch, []).append(tag)
        return found

    def three_ways(self) -> Iterator[ThreeWay]:
        """Three-way valves of the circuit; a fault where one serves branches of two groups."""
        for tag, part in (self.project.components or {}).items():
            valve: Any = part
            if part.kind != "three_way_valve" or tag not in self.places:
                continue
            branches = [self.branches[name] for name in valve.ways or () if name in self.branches]
            key = f"components.{tag}.ways"
            if len(branches) != WAYS:
                self._fault(
                    f"{tag} has no two branches to mix or divert", "name two branches of one group", key
                )
            elif (branches[0].start, branches[0].end) != (branches[1].start, branches[1].end):
                self._fault(
                    f"{tag} serves {branches[0].name} and {branches[1].name}, which lie in two groups",
                    "name two branches of one group",
                    key,
                )
            else:
                first, second = (f"{tag} {branch.name}" for branch in branches)
                yield ThreeWay(tag, (first, second), branches[0].end)

    def _manifold(self, tag: str, node: int, branches: tuple[str, ...], key: str, *, leaving: bool) -> int:
        """Node on the inner side of a manifold; the manifold itself lies between it and ``node``."""
        unit = (self.project.components or {}).get(tag)
        if unit is None or tag in self.places:
            return node
        inner = self.node()
        ends = (node, inner) if leaving else (inner, node)
        self.place(Place(tag, *ends, branches, key, unit=unit))
        return inner

    def links(self) -> None:
        """Lay the cross-connections outside the tree."""
        for number, link in enumerate(
            (self.project.circuit.links if self.project.circuit else None) or (), 1
        ):
            start, end = self.places.get(link.from_), self.places.get(link.to)
            if start is None or end is None:
                self._fault(
                    f"{link.from_ if start is None else link.to} is linked, but stands nowhere in the ring",
                    "link units that the ring or a branch holds",
                    link.key,
                )
                continue
            if start.end == end.start:
                self._fault(
                    f"the link from {link.from_} to {link.to} leads back to where it leaves: the ring joins "
                    "the two already",
                    "link two units with something between them",
                    link.key,
                )
                continue
            tag = link.pipe.id or f"links_{number}"
            self.place(Place(tag, start.end, end.start, (), link.key, pipe=link.pipe))

    def joined(self) -> tuple[int | None, str, str]:
        """Node where header or vessel joins, the unit behind it, and the header or vessel itself."""
        written = self.project.circuit
        connection = (written.header or written.expansion) if written else None
        if not isinstance(connection, Connection):
            return None, "", ""
        before = connection.joins_before or ""
        if before and before not in self.places:
            self._fault(
                f"the header joins before {before}, which stands nowhere in the ring",
                "name a unit of the ring under joins_before",
                f"{connection.key}.joins_before",
            )
        place = self.places.get(before)
        return (place.start if place else None), before, connection.unit or ""

    def _fault(self, what: str, instead: str, key: str) -> None:
        self.faults.append(fault_at(self.project, key, what, instead, 4))


def fault_at(project: "Project", key: str, what: str, instead: str, rank: int = 5) -> Fault:
    """A fault at the line of a key."""
    line = project.where(key)
    return Fault(what, instead, line.file, line.line or 0, line.column or 0, rank)


def circuit(project: "Project") -> Circuit | NotAssessed:
    """The circuit of the project as a graph; raises ``ProjectFaults`` where it does not hang together."""
    if project.circuit is None or not project.circuit.ring:
        return NotAssessed(QUESTION, ("circuit.ring",))
    laying = _Laying(project)
    first = laying.node()
    laying.series(project.circuit.ring, first, first, ())
    laying.links()
    join, before, header = laying.joined()
    three_ways = tuple(laying.three_ways())
    if laying.faults:
        raise ProjectFaults(laying.faults)
    chains = tuple(chains_of(laying.places, laying.nodes, join))
    return Circuit(laying.places, laying.branches, laying.nodes, chains, join, before, header, three_ways)
