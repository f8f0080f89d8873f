"""How does the circuit hang together? Units and pipes between nodes, branches, and where the header joins."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from dossier.notation import Fault, NotAssessed, ProjectFaults

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.circuit import Group, Item, Pipe
    from dossier.project.model.components import Component

QUESTION = "Does each branch get its flow?"
RING = "ring"


@dataclass(frozen=True)
class Place:
    """One unit or pipe in the circuit, from its inlet node to its outlet node in flow order.

    ``branches`` names the branches it lies in, outermost first; none on the ring itself.
    """

    tag: str
    start: int
    end: int
    branches: tuple[str, ...]
    key: str
    unit: "Component | None" = None
    pipe: "Pipe | None" = None

    @property
    def kind(self) -> str:
        """Kind of the component, or ``pipe``."""
        return self.unit.kind if self.unit is not None else "pipe"

    @property
    def branch(self) -> str:
        """Innermost branch it lies in, empty on the ring."""
        return self.branches[-1] if self.branches else ""


@dataclass(frozen=True)
class Branch:
    """One of several ways from one manifold to the other."""

    name: str
    between: tuple[str, str]
    start: int
    end: int
    key: str
    parent: str = ""


@dataclass(frozen=True)
class Chain:
    """Places in series from one junction to another; each is passed forward."""

    name: str
    start: int
    end: int
    tags: tuple[str, ...]


@dataclass(frozen=True)
class Circuit:
    """The circuit as a graph. ``chains`` joins places in series between junctions."""

    places: Mapping[str, Place]
    branches: Mapping[str, Branch]
    nodes: int
    chains: tuple[Chain, ...]
    join: int | None
    join_before: str = ""
    header: str = ""

    def of_kind(self, *kinds: str) -> tuple[Place, ...]:
        """Places of units of these kinds, in the order of the file."""
        return tuple(place for place in self.places.values() if place.kind in kinds)

    def in_branch(self, name: str) -> tuple[Place, ...]:
        """Places of a branch, those of nested branches included."""
        return tuple(place for place in self.places.values() if name in place.branches)

    def chain_of(self, tag: str) -> Chain:
        """Chain a unit or pipe lies in."""
        return self._by_tag[tag]

    @property
    def _by_tag(self) -> Mapping[str, Chain]:
        return {tag: chain for chain in self.chains for tag in chain.tags}


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
        group: Group | None = item if hasattr(item, "between") else None
        if group is not None:
            self._group(group, start, end, branches)
        elif hasattr(item, "unit"):
            unit = (self.project.components or {})[item.unit]
            self.place(Place(item.unit, start, end, branches, item.key, unit=unit))
        else:
            self.place(Place(item.id, start, end, branches, item.key, pipe=item))

    def _group(self, group: "Group", start: int, end: int, branches: tuple[str, ...]) -> None:
        first, last = group.between
        inner_start, inner_end = self._manifold(first, start, branches, group.key, leaving=True), None
        inner_end = self._manifold(last, end, branches, group.key, leaving=False)
        for name, items in group.branches.items():
            key = f"{group.key}.branches.{name}"
            if name in self.branches:
                self._fault(f"two branches bear the name {name}", "give each branch a name of its own", key)
                continue
            if not items:
                self._fault(f"branch {name} is empty", "list its units and pipes, or leave it out", key)
                continue
            parent = branches[-1] if branches else ""
            self.branches[name] = Branch(name, (first, last), inner_start, inner_end, key, parent)
            self.series(items, inner_start, inner_end, (*branches, name))

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
        for number, link in enumerate(self.project.circuit.links or (), 1):
            start, end = self.places.get(link.from_), self.places.get(link.to)
            if start is None or end is None:
                self._fault(
                    f"{link.from_ if start is None else link.to} is linked, but stands nowhere in the ring",
                    "link units that the ring or a branch holds",
                    link.key,
                )
                continue
            tag = link.pipe.id or f"link_{number}"
            self.place(Place(tag, start.end, end.start, (), link.key, pipe=link.pipe))

    def _fault(self, what: str, instead: str, key: str) -> None:
        line = self.project.where(key)
        self.faults.append(Fault(what, instead, line.file, line.line or 0, line.column or 0, 4))


def circuit(project: "Project") -> Circuit | NotAssessed:
    """The circuit of the project as a graph; raises ``ProjectFaults`` where it does not hang together."""
    if project.circuit is None or not project.circuit.ring:
        return NotAssessed(QUESTION, ("circuit.ring",))
    laying = _Laying(project)
    first = laying.node()
    laying.series(project.circuit.ring, first, first, ())
    laying.links()
    connection = project.circuit.header or project.circuit.expansion or None
    before = connection.joins_before if connection else None
    header = connection.unit if connection else None
    join = None
    if before:
        if before in laying.places:
            join = laying.places[before].start
        else:
            laying._fault(  # noqa: SLF001 - its own module
                f"the header joins before {before}, which stands nowhere in the ring",
                "name a unit of the ring under joins_before",
                connection.key,
            )
    if laying.faults:
        raise ProjectFaults(laying.faults)
    chains = tuple(_chains(laying.places, laying.nodes, join))
    return Circuit(laying.places, laying.branches, laying.nodes, chains, join, before or "", header or "")


def _chains(places: Mapping[str, Place], nodes: int, join: int | None) -> Iterator[Chain]:
    """Join places in series wherever a node has just one way in and one way out."""
    leaving: list[list[Place]] = [[] for _ in range(nodes)]
    arriving: list[list[Place]] = [[] for _ in range(nodes)]
    for place in places.values():
        leaving[place.start].append(place)
        arriving[place.end].append(place)
    junctions = {n for n in range(nodes) if len(leaving[n]) != 1 or len(arriving[n]) != 1}
    if join is not None:
        junctions.add(join)
    ring_start = next(iter(places.values())).start
    if len(junctions) < 2:  # noqa: PLR2004 - a single loop: two nodes keep a run from biting its own tail
        junctions |= {ring_start, next(iter(places.values())).end}
    for place in places.values():
        if place.start not in junctions:
            continue
        tags = [place.tag]
        here = place
        while here.end not in junctions:
            here = leaving[here.end][0]
            tags.append(here.tag)
        yield Chain(tags[0], place.start, here.end, tuple(tags))
