"""What a circuit is made of: places between nodes, branches, chains in series, three-way valves."""

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import TYPE_CHECKING

from dossier.notation.records import dataclass

if TYPE_CHECKING:
    from dossier.project.model.circuit import Pipe
    from dossier.project.model.components import Component


@dataclass(frozen=True)
class Place:
    """One unit or pipe in the circuit, from its inlet node to its outlet node in flow order.

    ``branches`` names the branches it lies in, outermost first; none on the ring itself. ``way_of`` is the
    tag of the three-way valve whose way this is: it has one in each of the two branches it serves.
    """

    tag: str
    start: int
    end: int
    branches: tuple[str, ...]
    key: str
    unit: "Component | None" = None
    pipe: "Pipe | None" = None
    way_of: str = ""

    @property
    def kind(self) -> str:
        """Kind of the component, ``pipe``, or ``way`` of a three-way valve."""
        if self.way_of:
            return "way"
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
class ThreeWay:
    """A three-way valve: its ways as places of the circuit, and the node where they come together."""

    tag: str
    ways: tuple[str, str]
    meets: int


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
    three_ways: tuple[ThreeWay, ...] = ()

    def of_kind(self, *kinds: str) -> tuple[Place, ...]:
        """Places of units of these kinds, in the order of the file."""
        return tuple(place for place in self.places.values() if place.kind in kinds)

    def in_branch(self, name: str) -> tuple[Place, ...]:
        """Places of a branch, those of nested branches included."""
        return tuple(place for place in self.places.values() if name in place.branches)

    def chain_of(self, tag: str) -> Chain:
        """Chain a unit or pipe lies in."""
        return self._by_tag[tag]

    @cached_property
    def _by_tag(self) -> Mapping[str, Chain]:
        return {tag: chain for chain in self.chains for tag in chain.tags}


def chains_of(places: Mapping[str, Place], nodes: int, join: int | None) -> Iterator[Chain]:
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
