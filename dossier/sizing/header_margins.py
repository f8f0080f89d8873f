"""How high does the header hang over the highest wetted point, upright, heeled and trimmed?

The middle of the header's bottom counts, against every point that is known to be wet: the one the layout
names, and the points of the runs. Heeled and trimmed, the worse side and the worse end count.
"""

from collections.abc import Callable, Iterator
from math import degrees
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.sources import GEOMETRY
from dossier.notation import NotAssessed, Real, chosen, q
from dossier.notation.records import dataclass
from dossier.physics.attitude import heeled_head, middle, offset, trimmed_head
from dossier.physics.boxes import corner

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "Is the header the highest wetted point?"
MARGIN = q("Δz", "m", "header's bottom over the highest wetted point")


@dataclass(frozen=True)
class WettedPoint:
    """A point of the ring that must stay below the header."""

    name: str
    x: Annotated[Real, q("x", "m", "forward of the aft end")]
    y: Annotated[Real, q("y", "m", "to port")]
    z: Annotated[Real, q("z", "m", "above the waterline")]


@dataclass(frozen=True)
class HeaderMargin:
    """Margin in one condition: ``upright``, ``heel_10``, ``trim_1``; ``over`` names the point that counts."""

    condition: str
    angle: Annotated[Real | None, q("φ", "rad", "angle of heel or trim")]
    over: str
    margin: Annotated[
        Real,
        q(
            "Δz",
            "m",
            "header's bottom over the highest wetted point",
            name="expansion.header_margin.{condition}",
        ),
    ]


@dataclass(frozen=True)
class HeaderMargins:
    """Margins of the header in all conditions."""

    header: str
    bottom: WettedPoint
    points: tuple[WettedPoint, ...]
    upright: HeaderMargin
    heeled: tuple[HeaderMargin, ...]
    trimmed: tuple[HeaderMargin, ...]


def header_of(project: "Project") -> str | None:
    """Tag of the header tank: the one the circuit joins, else the only one aboard."""
    joined: Any = project.circuit.header if project.circuit is not None else None
    if joined and joined.unit:
        return str(joined.unit)
    tanks = [tag for tag, part in (project.components or {}).items() if part.kind == "header_tank"]
    return tanks[0] if len(tanks) == 1 else None


def wetted_points(project: "Project") -> tuple[WettedPoint, ...]:
    """The highest point the layout names, and all points and vents of runs that have a route."""
    found = []
    named = project.layout.highest_wetted if project.layout else None
    if named is not None and named.at is not None:
        found.append(WettedPoint(named.name or "highest wetted point", *named.at))
    for pipe in project.pipes():
        found += [WettedPoint(pipe.id, *point) for point in pipe.route or ()]
        found += [WettedPoint(f"vent of {pipe.id}", *vent.at) for vent in pipe.vents or () if vent.at]
    return tuple(found)


def header_margins(project: "Project") -> HeaderMargins | NotAssessed:
    """Margins of the header upright, at every stated angle of heel to both sides, of trim to both ends."""
    tag = header_of(project)
    if tag is None:
        return NotAssessed(QUESTION, ("circuit.header.unit",))
    place = ((project.layout.places or {}) if project.layout else {}).get(tag)
    needs = [] if place is not None and place.at and place.size else [f"layout.places.{tag}"]
    points = wetted_points(project)
    stated = project.layout is not None and project.layout.highest_wetted is not None
    all_routed = bool(points) and all(pipe.route for pipe in project.pipes())
    if not stated and not all_routed:
        needs.append("layout.highest_wetted")
    if needs or place is None or place.at is None or place.size is None:
        return NotAssessed(QUESTION, tuple(needs))
    x, y = (middle(place.at[k], corner(place.at[k], place.size[k])) for k in (0, 1))
    bottom = WettedPoint(tag, x, y, place.at[2])
    vessel: Any = project.vessel
    heels = tuple(vessel.heel_angles or ()) if vessel else ()
    trims = tuple(vessel.trim_angles or ()) if vessel else ()
    return HeaderMargins(
        tag,
        bottom,
        points,
        _least("upright", None, points, lambda p: offset(p.z, bottom.z)),
        tuple(_at_angle("heel", angle, bottom, points) for angle in heels),
        tuple(_at_angle("trim", angle, bottom, points) for angle in trims),
    )


def _at_angle(motion: str, angle: Real, bottom: WettedPoint, points: tuple[WettedPoint, ...]) -> HeaderMargin:
    def margin(point: WettedPoint) -> Real:
        head = offset(point.z, bottom.z)
        if motion == "heel":
            return heeled_head(head, offset(point.y, bottom.y), angle)
        return trimmed_head(head, offset(point.x, bottom.x), angle)

    return _least(f"{motion}_{round(degrees(float(angle)), 3):g}", angle, points, margin)


def _least(
    condition: str,
    angle: Real | None,
    points: tuple[WettedPoint, ...],
    margin: Callable[[WettedPoint], Real],
) -> HeaderMargin:
    """Least margin over all wetted points."""
    each = [(float(found), point, found) for point, found in _each(points, margin)]
    least, point, found = min(each, key=lambda pair: pair[0])
    if len(each) > 1:
        found = chosen(least, MARGIN, "Δz = least over all wetted points", GEOMETRY, *(m for _, _, m in each))
    return HeaderMargin(condition, angle, point.name, found)


def _each(
    points: tuple[WettedPoint, ...], margin: Callable[[WettedPoint], Real]
) -> Iterator[tuple[WettedPoint, Real]]:
    for point in points:
        yield point, margin(point)
