"""Can air get out of the ring, and water, where each of them gathers?"""

from typing import TYPE_CHECKING

from dossier.checking.aboard import circuit_is_written
from dossier.checking.finding import Finding, Limit, Status, not_assessed
from dossier.checking.judging import at_least, met, not_met, together
from dossier.checking.solved_modes import ring_of, unsolved
from dossier.notation import NotAssessed
from dossier.sizing.emitters import EMITTERS

if TYPE_CHECKING:
    from dossier.sizing.circuit import Circuit, Place
    from dossier.sizing.route_points import Turn
    from dossier.sizing.study import Study

ABOVE = "that it does not sit above electrics or a berth is for the eye"
UNDER = "that a container fits under it is for the eye"


def high_points(study: "Study", limit: Limit) -> Finding:
    """Air gathers at every top and stops the flow where it cannot be let out."""
    points = study.route_points
    if isinstance(points, NotAssessed):
        return not_assessed(limit, points)
    each = [(_named(top), _vented(limit, top)) for top in points.tops]
    each += _unrouted(limit, points.unrouted)
    return together(limit, each) if each else met(limit, "the ring has no top but the header", remark=ABOVE)


def _named(turn: "Turn") -> str:
    height = f"{float(turn.at.z):.2f}"
    return f"{', '.join(turn.tags)}, {height} m over the waterline"


def _vented(limit: Limit, top: "Turn") -> Finding:
    key = f"{top.key}.vents"
    if top.outlet is None:
        return not_met(limit, "no vent", "a vent", key=key)
    if top.outlet.reachable is None:
        return not_assessed(limit, [f"{key}.reachable"])
    if not top.outlet.reachable:
        return not_met(limit, "vent out of reach", "a vent in reach", key=key)
    return met(limit, f"{top.outlet.kind} vent".strip(), key=key, remark=ABOVE)


def _unrouted(limit: Limit, places: "tuple[Place, ...]") -> list[tuple[str, Finding]]:
    return [(place.tag, not_assessed(limit, [f"{place.key}.route"])) for place in places]


def low_points(study: "Study", limit: Limit) -> Finding:
    """Water left at a bottom freezes in lay-up and spills at the next repair."""
    points = study.route_points
    if isinstance(points, NotAssessed):
        return not_assessed(limit, points)
    each = []
    for bottom in points.bottoms:
        key = f"{bottom.key}.drains"
        if bottom.outlet is None:
            found = not_met(limit, "no drain", "a drain", key=key)
        else:
            found = met(limit, "a drain", key=key, remark=UNDER)
        each.append((_named(bottom), found))
    each += _unrouted(limit, points.unrouted)
    return together(limit, each) if each else met(limit, "the ring has no bottom", remark=UNDER)


def air_separator(study: "Study", limit: Limit) -> Finding:
    """Fine bubbles leave best where the water is hot and its pressure above the air's."""
    if not circuit_is_written(study.project) or isinstance(study.circuit, NotAssessed):
        return not_assessed(limit, ["circuit.ring"])
    separators = study.circuit.of_kind("air_separator")
    if not separators:
        return not_met(limit, "none in the ring", "an air separator", key="circuit.ring")
    each = [(place.tag, _separating(study, study.circuit, limit, place)) for place in separators]
    return max((found for _, found in each), key=lambda found: list(Status).index(found.status))


def _separating(study: "Study", circuit: "Circuit", limit: Limit, place: "Place") -> Finding:
    """One separator: on the warm side, and above outside pressure in every mode."""
    if circuit.of_kind("burner") and not _is_warm(circuit, place):
        return not_met(limit, "not between burner and emitters", "a place on the warm side", key=place.key)
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    pressures = study.pressures
    if isinstance(pressures, NotAssessed):
        return not_assessed(limit, pressures)
    each = unsolved(ring, limit)
    for mode, found in pressures.modes.items():
        edge = found.edges.get(place.tag)
        if edge is None:
            each.append((mode, not_assessed(limit, [f"layout.places.{place.tag}"])))
        else:
            above = at_least(limit, edge.gauge, 0.0, "Pa", key=place.key)
            each.append((mode, above))
    return together(limit, each)


def _is_warm(circuit: "Circuit", place: "Place") -> bool:
    """Whether water from a burner comes to it before it meets an emitter."""
    leaving: dict[int, list[Place]] = {}
    for each in circuit.places.values():
        leaving.setdefault(each.start, []).append(each)
    waiting = [burner.end for burner in circuit.of_kind("burner")]
    seen = set(waiting)
    while waiting:
        for each in leaving.get(waiting.pop(), ()):
            if each.tag == place.tag:
                return True
            if each.kind not in EMITTERS and not each.branches and each.end not in seen:
                seen.add(each.end)
                waiting.append(each.end)
    return False
