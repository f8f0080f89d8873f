"""Can anything cut the burner off from its expansion? Ways along the flow and against it.

The circuit is the evidence, the owner's statement (``valves_to_burner``) speaks for what it does not show: a
safety valve that stands nowhere in the ring, the line to the header itself.
"""

from collections import deque
from collections.abc import Mapping
from typing import TYPE_CHECKING

from dossier.notation import NotAssessed
from dossier.notation.records import dataclass
from dossier.project.model.circuit import Connection
from dossier.sizing.circuit import Circuit, Place

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "Can anything cut the burner off from expansion?"
PASSED = (
    "pipe",
    "pump",
    "burner",
    "fan_coil",
    "radiator",
    "towel_rail",
    "floor_loop",
    "tap_exchanger",
    "recovery_exchanger",
    "water_heater",
    "buffer",
    "manifold",
    "air_separator",
    "header_tank",
    "membrane_vessel",
    "safety_valve",
)
"""Kinds through which coolant can always expand; a circulation pump lets it through when it stands."""


@dataclass(frozen=True)
class ExpansionWay:
    """The freest way from a burner to what takes its expansion; ``closing`` names what could shut it."""

    burner: str
    to: str
    closing: tuple[str, ...]
    against_flow: bool


@dataclass(frozen=True)
class ExpansionWays:
    """Ways of all burners, and what the owner states; ``stated`` is None where nothing is stated.

    ``beside`` names safety valves whose place in the ring the file does not tell.
    """

    ways: tuple[ExpansionWay, ...]
    stated: tuple[str, ...] | None
    beside: tuple[str, ...]
    key: str

    @property
    def closing(self) -> tuple[str, ...]:
        """What could cut a burner off, by the circuit or by the owner's own words."""
        shown = [tag for way in self.ways for tag in way.closing]
        return tuple(dict.fromkeys([*shown, *(self.stated or ())]))


def expansion_ways(project: "Project", circuit: Circuit | NotAssessed) -> ExpansionWays | NotAssessed:
    """Ways from every burner to header or vessel, and to safety valves that stand in the ring."""
    if isinstance(circuit, NotAssessed):
        return NotAssessed(QUESTION, circuit.needs, circuit.why)
    written = project.circuit
    connection = (written.header or written.expansion) if written else None
    if not isinstance(connection, Connection):
        sealed = written is not None and written.system == "sealed"
        return NotAssessed(QUESTION, ("circuit.expansion" if sealed else "circuit.header",))
    if circuit.join is None:
        return NotAssessed(QUESTION, (f"{connection.key}.joins_before",))
    stated = connection.valves_to_burner
    ways, goals = [], {circuit.join: circuit.header or "the header"}
    beside = []
    for tag, part in (project.components or {}).items():
        if part.kind == "safety_valve":
            if tag in circuit.places:
                ways += [
                    _way(circuit, b, {circuit.places[tag].start: tag}) for b in circuit.of_kind("burner")
                ]
            else:
                beside.append(tag)
    ways = [_way(circuit, burner, goals) for burner in circuit.of_kind("burner")] + ways
    return ExpansionWays(
        tuple(ways),
        None if stated is None else tuple(stated or ()),
        tuple(beside),
        f"{connection.key}.valves_to_burner",
    )


def _way(circuit: Circuit, burner: Place, goals: Mapping[int, str]) -> ExpansionWay:
    """The way with fewest parts that could shut, from either end of the burner."""
    beside: dict[int, list[tuple[int, Place, bool]]] = {}
    for place in circuit.places.values():
        if place.tag != burner.tag:
            beside.setdefault(place.start, []).append((place.end, place, False))
            beside.setdefault(place.end, []).append((place.start, place, True))
    best: dict[int, tuple[str, ...]] = {}
    backward: dict[int, bool] = {}
    waiting: deque[tuple[int, tuple[str, ...], bool]] = deque(
        [(burner.start, (), True), (burner.end, (), False)]
    )
    while waiting:
        node, closing, against = waiting.popleft()
        if node in best and len(best[node]) <= len(closing):
            continue
        best[node], backward[node] = closing, against
        for other, place, _ in beside.get(node, ()):
            if place.kind in PASSED:
                waiting.appendleft((other, closing, against))
            else:
                waiting.append((other, (*closing, place.way_of or place.tag), against))
    reached = [(len(best[node]), node) for node in goals if node in best]
    if not reached:
        return ExpansionWay(burner.tag, next(iter(goals.values())), ("no way at all",), against_flow=False)
    _, node = min(reached)
    return ExpansionWay(burner.tag, goals[node], best[node], backward[node])
