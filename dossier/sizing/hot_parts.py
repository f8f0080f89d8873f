"""How near do burner and exhaust come to fuel and batteries?

The exhaust is its axis with the outside of its lagging round it; burner, tank, filter and battery are boxes
of the layout. The fuel line counts against the exhaust alone, since it must reach the burner.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise, product
from math import hypot
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.coefficients import coefficient
from dossier.data.sources import GEOMETRY
from dossier.notation import Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.boxes import Box, axis_gap, box_separation, least_distance
from dossier.physics.exhaust_heat import lagged_diameter
from dossier.physics.nearness import run_box_distance, run_distance
from dossier.physics.route import Point

if TYPE_CHECKING:
    from dossier.project import Project

FUEL_PARTS = ("fuel_tank", "fuel_filter")
TALL = 100.0
"""Height (m) of the column that stands for all that lies above or below a part."""


@formula("s = s_a − D/2", GEOMETRY)
def from_outside(
    axis: Annotated[Real, q("s_a", "m", "distance of the exhaust's axis", low=0, high=1e3)],
    diameter: Annotated[Real, q("D", "m", "outside diameter of pipe or lagging", low=0, high=1)],
) -> Annotated[Real, q("s", "m", "distance of the exhaust's outside; negative where it reaches in")]:
    """Distance from the outside of the exhaust."""
    return axis - diameter / 2


@dataclass(frozen=True)
class Nearness:
    """How near one hot part comes to another part."""

    hot: str
    other: str
    distance: Annotated[Real, q("s", "m", "least distance; negative where they clash")]


@dataclass(frozen=True)
class Overlap:
    """Two parts one above the other: ``above`` over ``below``, with the height between them."""

    above: str
    below: str
    height: Annotated[Real, q("h", "m", "height between them; negative where they clash")]


@dataclass(frozen=True)
class HotParts:
    """Distances of hot parts to fuel and batteries, and what stands above what.

    ``line_above_exhaust`` is None where fuel line or exhaust has no route.
    """

    near_fuel: tuple[Nearness, ...]
    near_battery: tuple[Nearness, ...]
    to_fuel: Annotated[
        Real | None, q("s", "m", "burner or exhaust to tank, filter, line", name="clearance.hot_to_fuel")
    ]
    to_battery: Annotated[
        Real | None, q("s", "m", "burner or exhaust to battery", name="clearance.hot_to_battery")
    ]
    line_to_exhaust: Annotated[Real | None, q("s", "m", "fuel line to exhaust")]
    line_above_exhaust: bool | None
    over_battery: tuple[Overlap, ...]
    fuel_and_battery: tuple[Overlap, ...]
    line_over_battery: tuple[Overlap, ...]
    compartments: frozenset[str]
    """Compartments that hold a burner or a part of the exhaust."""


def outside_diameter(project: "Project") -> Real | None:
    """Outside diameter (m) of the exhaust with its lagging; None where no bore is stated."""
    written = project.exhaust
    bore = written.bore if written is not None else None
    if bore is None:
        outlets = [getattr(part, "exhaust_outlet", None) for part in (project.components or {}).values()]
        bore = next((outlet for outlet in outlets if outlet is not None), None)
    if bore is None:
        return None
    lagging: Any = written.lagging if written is not None else None
    thickness = lagging.thickness if lagging and lagging.thickness is not None else 0.0
    return lagged_diameter(bore, coefficient("exhaust.wall"), thickness)


def hot_parts(
    project: "Project",
    boxes: Mapping[str, Box],
    kinds: Mapping[str, str],
    exhaust_route: Sequence[Point] | None,
) -> HotParts:
    """All distances of hot parts; ``kinds`` tells the kind of each placed component by its tag."""

    def of_kind(*wanted: str) -> dict[str, Box]:
        return {tag: box for tag, box in boxes.items() if kinds.get(tag) in wanted}

    diameter = outside_diameter(project)
    exhaust = list(exhaust_route) if exhaust_route and diameter is not None else None
    line = _fuel_line(project)
    burners, batteries = of_kind("burner"), of_kind("battery")
    fuel = of_kind(*FUEL_PARTS)
    near_fuel = list(_nearness(burners, fuel, exhaust, diameter))
    to_line = None
    if line and exhaust and diameter is not None:
        to_line = from_outside(run_distance(exhaust, line), diameter)
        near_fuel.append(Nearness("exhaust", "fuel line", to_line))
    near_battery = tuple(_nearness(burners, batteries, exhaust, diameter))
    return HotParts(
        tuple(near_fuel),
        near_battery,
        _least(near_fuel),
        _least(near_battery),
        to_line,
        runs_above(line, exhaust, float(diameter)) if line and exhaust and diameter is not None else None,
        tuple(_over(burners, batteries)) + tuple(_run_over("exhaust", exhaust, batteries, diameter)),
        tuple(_over(fuel, batteries)) + tuple(_over(batteries, fuel)),
        tuple(_run_over("fuel line", line, batteries, 0.0)),
        _compartments(project, burners, exhaust_route),
    )


def _fuel_line(project: "Project") -> list[Point] | None:
    written = project.fuel.line if project.fuel else None
    return [(p.x, p.y, p.z) for p in written.route] if written and written.route else None


def _least(near: Sequence[Nearness]) -> Real | None:
    return least_distance(*(pair.distance for pair in near)) if near else None


def _nearness(
    burners: Mapping[str, Box],
    others: Mapping[str, Box],
    exhaust: Sequence[Point] | None,
    diameter: Real | None,
) -> Iterator[Nearness]:
    for (burner, box), (name, other) in product(burners.items(), others.items()):
        yield Nearness(burner, name, box_separation(box, other))
    if exhaust and diameter is not None:
        for name, other in others.items():
            yield Nearness("exhaust", name, from_outside(run_box_distance(exhaust, other), diameter))


def _over(uppers: Mapping[str, Box], lowers: Mapping[str, Box]) -> Iterator[Overlap]:
    """Boxes that stand directly over others: any part of the one over any part of the other."""
    for (upper, box), (lower, below) in product(uppers.items(), lowers.items()):
        aside = max(float(axis_gap(box.low[k], box.high[k], below.low[k], below.high[k])) for k in (0, 1))
        if aside < 0 and float(box.low[2]) + float(box.high[2]) > float(below.low[2]) + float(below.high[2]):
            yield Overlap(upper, lower, axis_gap(below.low[2], below.high[2], box.low[2], box.high[2]))


def _run_over(
    name: str, route: Sequence[Point] | None, lowers: Mapping[str, Box], diameter: Real | None
) -> Iterator[Overlap]:
    """Boxes a run passes over, with its least height over their top."""
    if not route or diameter is None:
        return
    reach = float(diameter) / 2
    for lower, box in lowers.items():
        top = box.high[2]
        low = (float(box.low[0]) - reach, float(box.low[1]) - reach, float(top))
        column = Box(low, (float(box.high[0]) + reach, float(box.high[1]) + reach, float(top) + TALL))
        if float(run_box_distance(route, column)) > 0:
            continue
        flat = Box(low, (*column.high[:2], float(top)))
        yield Overlap(name, lower, from_outside(run_box_distance(route, flat), diameter))


def _compartments(
    project: "Project", burners: Mapping[str, Box], exhaust: Sequence[Point] | None
) -> frozenset[str]:
    """Compartments that hold a burner or a part of the exhaust."""
    found = set()
    written: Mapping[str, Any] = (project.layout.compartments or {}) if project.layout else {}
    for name, compartment in written.items():
        if compartment.from_ is None or compartment.to is None:
            continue
        room = Box(tuple(compartment.from_), tuple(compartment.to))
        meets_burner = any(float(box_separation(box, room)) < 0 for box in burners.values())
        if meets_burner or (exhaust and float(run_box_distance(exhaust, room)) == 0):
            found.add(name)
    return frozenset(found)


def runs_above(line: Sequence[Point], exhaust: Sequence[Point], width: float) -> bool:
    """Whether a line runs over a pipe of a width anywhere, so that what drips from it falls on the pipe.

    Looked at where the legs cross in plan, and where an end of one lies over the other within half the width.
    """
    for (a, b), (c, d) in product(pairwise(line), pairwise(exhaust)):
        for along, across in _plan_meetings(a, b, c, d, width / 2):
            upper = float(a[2]) + along * (float(b[2]) - float(a[2]))
            lower = float(c[2]) + across * (float(d[2]) - float(c[2]))
            if upper > lower:
                return True
    return False


def _plan_meetings(a: Point, b: Point, c: Point, d: Point, reach: float) -> Iterator[tuple[float, float]]:
    """Shares along two legs at which they meet in plan: crossing, or an end within reach of the other."""
    ax, ay, bx, by, cx, cy, dx, dy = (float(n) for p in (a, b, c, d) for n in p[:2])
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    skew = ux * vy - uy * vx
    if skew:
        along = ((cx - ax) * vy - (cy - ay) * vx) / skew
        across = ((cx - ax) * uy - (cy - ay) * ux) / skew
        if 0 <= along <= 1 and 0 <= across <= 1:
            yield along, across
    for share, (px, py) in ((0.0, (ax, ay)), (1.0, (bx, by))):
        onto, apart = _onto((px - cx, py - cy), (vx, vy))
        if apart <= reach:
            yield share, onto
    for share, (px, py) in ((0.0, (cx, cy)), (1.0, (dx, dy))):
        onto, apart = _onto((px - ax, py - ay), (ux, uy))
        if apart <= reach:
            yield onto, share


def _onto(point: tuple[float, float], leg: tuple[float, float]) -> tuple[float, float]:
    """Share along a leg in plan that lies nearest to a point, both seen from its start, and how far off."""
    (px, py), (ux, uy) = point, leg
    square = ux * ux + uy * uy
    share = min(max((px * ux + py * uy) / square, 0.0), 1.0) if square else 0.0
    return share, hypot(px - share * ux, py - share * uy)
