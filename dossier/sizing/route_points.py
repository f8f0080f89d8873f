"""Where will air collect in the ring, and where will water stay when it is drained?

Every top and every bottom of the runs that have a route, and of the units between them.
"""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from dossier.data.coefficients import coefficient
from dossier.notation import NotAssessed
from dossier.notation.records import dataclass
from dossier.physics.network_topology import Groups
from dossier.sizing.circuit import Circuit, Place

if TYPE_CHECKING:
    from dossier.project.model.values import Point

QUESTION = "Where will air collect, and can the ring be emptied?"
LEVEL = 1e-6
"""Difference in height (m) that counts as none."""


@dataclass(frozen=True)
class Outlet:
    """A vent or a drain near a top or a bottom; a drain has no kind."""

    kind: str
    reachable: bool | None


@dataclass(frozen=True)
class Turn:
    """A top or a bottom of the ring: the parts it lies in, its place, and what lets air or water out."""

    tags: tuple[str, ...]
    at: "Point"
    outlet: Outlet | None
    key: str


@dataclass(frozen=True)
class Fall:
    """A stretch of a run that goes down in its direction, from its top; ``vented`` by a vent there."""

    tag: str
    top: "Point"
    height: float
    vented: bool
    key: str


@dataclass(frozen=True)
class RoutePoints:
    """Tops, bottoms and falls of all runs that have a route; ``unrouted`` names the pipes that have none."""

    tops: tuple[Turn, ...]
    bottoms: tuple[Turn, ...]
    falls: tuple[Fall, ...]
    rises: tuple[Fall, ...]
    unrouted: tuple[Place, ...]


def route_points(circuit: Circuit | NotAssessed) -> RoutePoints | NotAssessed:
    """Tops, bottoms and falls of the ring."""
    if isinstance(circuit, NotAssessed):
        return NotAssessed(QUESTION, circuit.needs, circuit.why)
    pipes = [place for place in circuit.places.values() if place.pipe is not None]
    routed = [place for place in pipes if len(_route(place)) > 1]
    unrouted = tuple(place for place in pipes if len(_route(place)) <= 1)
    if not routed:
        keys = tuple(f"{place.key}.route" for place in unrouted)
        return NotAssessed(QUESTION, keys or ("circuit.ring",), "no run has a route")
    return RoutePoints(
        (*_inside(routed, 1), *_joints(circuit, routed, 1)),
        (*_inside(routed, -1), *_joints(circuit, routed, -1)),
        tuple(fall for place in routed for fall in _falls(place, _route(place))),
        tuple(fall for place in routed for fall in _falls(place, _route(place)[::-1])),
        unrouted,
    )


def _route(place: Place) -> "Sequence[Point]":
    return place.pipe.route or () if place.pipe is not None else ()


def _near(one: "Point", other: "Point") -> bool:
    reach = float(coefficient("circuit.vent_reach"))
    return sum((float(a) - float(b)) ** 2 for a, b in zip(one, other, strict=True)) <= reach**2


def _outlet(places: Sequence[Place], at: "Point", side: int) -> Outlet | None:
    """Vent near a top (``side`` 1) or drain near a bottom (−1), in any of these pipes."""
    for place in places:
        pipe: Any = place.pipe
        if pipe is None:
            continue
        for vent in (pipe.vents or ()) if side > 0 else ():
            if vent.at is not None and _near(vent.at, at):
                return Outlet(vent.kind or "", vent.reachable)
        for drain in (pipe.drains or ()) if side < 0 else ():
            if _near(drain, at):
                return Outlet("", None)
    return None


def _inside(routed: Sequence[Place], side: int) -> Iterator[Turn]:
    """Tops or bottoms between the ends of each run; a level stretch counts once, at its beginning."""
    for place in routed:
        points = _route(place)
        coming = 0
        for number in range(1, len(points)):
            step = side * (float(points[number].z) - float(points[number - 1].z))
            going = 0 if abs(step) <= LEVEL else 1 if step > 0 else -1
            if going < 0 < coming:
                top = _first_of_level(points, number - 1)
                yield Turn((place.tag,), points[top], _outlet([place], points[top], side), place.key)
            coming = going or coming


def _first_of_level(points: "Sequence[Point]", number: int) -> int:
    while number > 1 and abs(float(points[number].z) - float(points[number - 1].z)) <= LEVEL:
        number -= 1
    return number


def _joints(circuit: Circuit, routed: Sequence[Place], side: int) -> Iterator[Turn]:
    """Tops or bottoms where runs meet, the units between them counted in.

    One that a run of unknown route meets is left out: nobody knows which way that goes. So is a top at which
    the header joins, for there the air finds its own way.
    """
    groups = Groups(circuit.nodes)
    for place in circuit.places.values():
        if place.pipe is None:
            groups.join(place.start, place.end)
    known = {place.tag for place in routed}
    meeting: dict[int, list[tuple[Place, Sequence[Point]]]] = {}
    unknown = set()
    for place in circuit.places.values():
        if place.pipe is not None and place.tag not in known:
            unknown |= {groups.of(place.start), groups.of(place.end)}
        elif place.pipe is not None:
            meeting.setdefault(groups.of(place.start), []).append((place, _route(place)))
            meeting.setdefault(groups.of(place.end), []).append((place, _route(place)[::-1]))
    header = groups.of(circuit.join) if circuit.join is not None else -1
    for group, runs in meeting.items():
        if group in unknown or (side > 0 and group == header):
            continue
        if all(_goes(points, side) < 0 for _, points in runs):
            _, points = max(runs, key=lambda run: side * float(run[1][0].z))
            units = [p for p in circuit.places.values() if p.pipe is None and groups.of(p.start) == group]
            tags = tuple(unit.tag for unit in units) or tuple(place.tag for place, _ in runs)
            outlets = [found for place, way in runs if (found := _outlet([place], way[0], side)) is not None]
            key = units[0].key if units else runs[0][0].key
            yield Turn(tags, points[0], outlets[0] if outlets else None, key)


def _goes(points: "Sequence[Point]", side: int) -> int:
    """Whether a run first goes up (1) or down (−1) from its beginning; 0 where it is level."""
    for point in points[1:]:
        step = side * (float(point.z) - float(points[0].z))
        if abs(step) > LEVEL:
            return 1 if step > 0 else -1
    return 0


def _falls(place: Place, points: "Sequence[Point]") -> Iterator[Fall]:
    """Stretches that go down in the order of the points."""
    top = 0
    for number in range(1, len(points) + 1):
        ends = number == len(points) or float(points[number].z) > float(points[number - 1].z) + LEVEL
        if not ends:
            continue
        height = float(points[top].z) - float(points[number - 1].z)
        if height > LEVEL:
            begins = next(
                n for n in range(top, number - 1) if float(points[n + 1].z) < float(points[n].z) - LEVEL
            )
            vented = _outlet([place], points[top], 1) is not None
            vented = vented or _outlet([place], points[begins], 1) is not None
            yield Fall(place.tag, points[begins], height, vented, place.key)
        top = number
