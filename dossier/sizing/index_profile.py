"""How does the pressure run along the index circuit? From the pump, by the least favoured branch, round."""

from collections import deque
from typing import Annotated

from dossier.notation import NotAssessed, Real, q
from dossier.notation.records import dataclass
from dossier.sizing.circuit import Circuit, Place
from dossier.sizing.ring import RingStudy

QUESTION = "How does the pressure run along the index circuit?"


@dataclass(frozen=True)
class ProfilePoint:
    """One part of the index circuit: where it begins along the way, and the pressure before and after it.

    Pressures are counted from the pump's inlet, heights left out: what pump and drops make. Once round, what
    the lift of the warm water adds is left over.
    """

    tag: str
    kind: str
    begins: Annotated[Real, q("s", "m", "length of pipe from the pump")]
    length: Annotated[Real, q("L", "m", "length of pipe")]
    before: Annotated[Real, q("p", "Pa", "pressure over that at the pump's inlet")]
    drop: Annotated[Real, q("Δp", "Pa", "drop; negative at a pump")]


def index_profile(ring: RingStudy | NotAssessed) -> tuple[ProfilePoint, ...] | NotAssessed:
    """Pressure along the index circuit in the design mode."""
    if isinstance(ring, NotAssessed):
        return ring
    if ring.design is None:
        return NotAssessed(QUESTION, ("modes.heating",), next(iter(ring.not_solved.values()), ""))
    circuit = ring.hydraulics.circuit
    pumps = [p for p in circuit.of_kind("pump") if p.tag not in ring.design.state.stopped]
    if not pumps:
        return NotAssessed(QUESTION, ("components.pump",), "no pump runs in the design mode")
    way = index_circuit(circuit, pumps[0], ring.index)
    if not way:
        return NotAssessed(QUESTION, ("circuit.ring",), f"no way leads from {pumps[0].tag} round to itself")
    points = []
    gone, pressure = 0.0, 0.0
    for place in way:
        edge = ring.design.flows.edges[place.tag]
        measure = ring.hydraulics.pipes.get(place.tag)
        length = float(measure.length) if measure else 0.0
        points.append(ProfilePoint(place.tag, place.kind, gone, length, pressure, edge.drop))
        gone += length
        pressure -= float(edge.drop)
    return tuple(points)


def index_circuit(circuit: Circuit, pump: Place, branch: str) -> tuple[Place, ...]:
    """Parts from a pump once round, through a branch where one is named; none where no way leads there."""
    if not branch:
        return _way(circuit, pump, pump)[:-1]
    through = circuit.in_branch(branch)
    first = min(through, key=lambda place: len(_way(circuit, pump, place)) or len(circuit.places))
    back = _way(circuit, first, pump)
    out = _way(circuit, pump, first)
    return (*out[:-1], *back[:-1]) if out and back else ()


def _way(circuit: Circuit, start: Place, goal: Place) -> tuple[Place, ...]:
    """Shortest way along the flow from a part to another, both included; round, where they are the same.

    Inside the branches of ``start`` it stays in them as far as it can: shortest in parts.
    """
    leaving: dict[int, list[Place]] = {}
    for place in circuit.places.values():
        leaving.setdefault(place.start, []).append(place)
    waiting: deque[tuple[Place, ...]] = deque([(start,)])
    seen = {start.end} if start.tag != goal.tag else set()
    while waiting:
        way = waiting.popleft()
        for place in leaving.get(way[-1].end, ()):
            if place.tag == goal.tag:
                return (*way, place)
            if place.end not in seen:
                seen.add(place.end)
                waiting.append((*way, place))
    return ()
