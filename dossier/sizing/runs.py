"""Which runs of pipe and hose are there, and what does each end meet?

An end meets a unit, another run, a manifold, or several others in a tee. What joins it follows from the two
materials: a transition where hose and pipe meet, a reducer where sizes differ, a joiner where they do not.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.pipes import pipe_size
from dossier.notation import Real, q
from dossier.notation.records import dataclass
from dossier.sizing.circuit import Circuit, Place
from dossier.sizing.heights import heights_of
from dossier.sizing.hydraulics import pipe_measure

if TYPE_CHECKING:
    from dossier.project import Project

HOSE = "hose"
MANIFOLD = "manifold"
CONNECTOR, JOINER, REDUCER, TRANSITION, TEE, THREADED = (
    "connector",
    "joiner",
    "reducer",
    "transition",
    "tee",
    "threaded joint",
)
PAIR = 2


@dataclass(frozen=True)
class Run:
    """One run of pipe or hose of one size, or the pipe of a floor loop; ``size`` as people type it."""

    tag: str
    branch: str
    size: str
    material: str
    length: Annotated[Real, q("L", "m", "length")]
    outside: Annotated[Real, q("d_o", "m", "outside diameter")]
    bends: Real | None
    pipe: Any


@dataclass(frozen=True)
class End:
    """One end of a run: what it meets, what joins it, and how high it lies (m over the waterline)."""

    run: str
    at_start: bool
    meets: tuple[str, ...]
    joint: str
    height: Annotated[Real | None, q("z", "m", "over the waterline")]


@dataclass(frozen=True)
class Joint:
    """A joint of the circuit: ``kind``, ``size`` as it is bought, and what it joins."""

    kind: str
    size: str
    joins: tuple[str, ...]


@dataclass(frozen=True)
class Runs:
    """All runs by tag, their ends, and all joints of the circuit."""

    runs: Mapping[str, Run]
    ends: tuple[End, ...]
    joints: tuple[Joint, ...]

    def ends_of(self, tag: str) -> tuple[End, End]:
        """Start and end of a run."""
        first, last = sorted((end for end in self.ends if end.run == tag), key=lambda end: not end.at_start)
        return first, last


@dataclass(frozen=True)
class _Side:
    """A place as a node meets it."""

    place: Place
    at_start: bool

    @property
    def tag(self) -> str:
        return self.place.way_of or self.place.tag


def run_of(place: Place) -> Run | None:
    """The run a place is; None for units."""
    if place.pipe is not None:
        measure = pipe_measure(place.pipe)
        written = place.pipe.size
        name = pipe_size(written).name if written else f"bore {float(measure.bore) * 1000:g} mm"
        return Run(
            place.tag,
            place.branch,
            name,
            measure.material,
            measure.length,
            measure.outside,
            place.pipe.bends,
            place.pipe,
        )
    unit: Any = place.unit
    if place.kind == "floor_loop" and unit.size and unit.length is not None:
        size = pipe_size(unit.size)
        return Run(place.tag, place.branch, size.name, size.material, unit.length, size.outside, None, None)
    return None


def runs_of(project: "Project", circuit: Circuit) -> Runs:
    """All runs of a circuit with what joins them."""
    runs = {place.tag: run for place in circuit.places.values() if (run := run_of(place)) is not None}
    heights = heights_of(project, circuit)
    meeting: dict[int, list[_Side]] = {}
    for place in circuit.places.values():
        meeting.setdefault(place.start, []).append(_Side(place, at_start=True))
        meeting.setdefault(place.end, []).append(_Side(place, at_start=False))
    ends: list[End] = []
    joints: list[Joint] = []
    for sides in meeting.values():
        kinds, made = _joined(sides, runs)
        joints += made
        for side, kind in zip(sides, kinds, strict=True):
            if side.place.tag in runs:
                others = _others(side, sides)
                height = _height(side, sides, heights)
                ends.append(End(side.place.tag, side.at_start, others, kind, height))
    if circuit.header and circuit.join is not None:
        near = [runs[s.place.tag].size for s in meeting[circuit.join] if s.place.tag in runs]
        joins = tuple(side.tag for side in meeting[circuit.join])
        joints.append(Joint(TEE, near[0] if near else "", (*joins, circuit.header)))
    return Runs(runs, tuple(ends), tuple(joints))


def _joined(sides: list[_Side], runs: Mapping[str, Run]) -> tuple[list[str], list[Joint]]:
    """What joins each side at a node, and the joints to buy for it."""
    if len(sides) == PAIR:
        joint = _pair(sides[0], sides[1], runs)
        return [joint.kind] * PAIR, [joint]
    manifolds = [side for side in sides if side.place.kind == MANIFOLD]
    if manifolds:
        hub = manifolds[0]
        pairs = [None if side is hub else _pair(side, hub, runs) for side in sides]
        return [pair.kind if pair else "" for pair in pairs], [pair for pair in pairs if pair is not None]
    own = [runs[side.place.tag] for side in sides if side.place.tag in runs]
    size = max(own, key=lambda run: float(run.outside)).size if own else ""
    tee = Joint(TEE, size, tuple(side.tag for side in sides))
    return [TEE] * len(sides), [tee] * max(len(sides) - PAIR, 0)


def _pair(one: _Side, other: _Side, runs: Mapping[str, Run]) -> Joint:
    """What joins two sides."""
    joins = (one.tag, other.tag)
    first, second = runs.get(one.place.tag), runs.get(other.place.tag)
    if first is None and second is None:
        return Joint(THREADED, "", joins)
    if first is None or second is None:
        run = first or second
        return Joint(CONNECTOR, run.size if run else "", joins)
    if first.size == second.size:
        return Joint(JOINER, first.size, joins)
    kind = REDUCER if first.material == second.material else TRANSITION
    return Joint(kind, " to ".join(sorted((first.size, second.size))), joins)


def _others(side: _Side, sides: list[_Side]) -> tuple[str, ...]:
    """What a side meets: at a manifold that alone, else all others."""
    others = [other for other in sides if other is not side]
    manifolds = [other for other in others if other.place.kind == MANIFOLD]
    return tuple(other.tag for other in (manifolds[:1] if len(sides) > PAIR else []) or others)


def _height(side: _Side, sides: list[_Side], heights: Mapping[str, Real]) -> Real | None:
    """Height of an end: of its route, else of a unit it meets; None where neither is known."""
    pipe = side.place.pipe
    if pipe is not None and pipe.route:
        return pipe.route[0].z if side.at_start else pipe.route[-1].z
    known = [heights[s.place.tag] for s in sides if s is not side and s.place.tag in heights]
    return known[0] if known else None
