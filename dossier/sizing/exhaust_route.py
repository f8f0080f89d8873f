"""Which way does the exhaust take, where does water lie in it, and how high is its outlet above the water?"""

from collections.abc import Sequence
from itertools import pairwise
from math import degrees
from typing import TYPE_CHECKING, Annotated

from dossier.data.coefficients import coefficient
from dossier.data.sources import GEOMETRY
from dossier.notation import NotAssessed, Real, q, solved
from dossier.notation.records import dataclass
from dossier.physics import route as line
from dossier.physics.attitude import (
    angle_under_water,
    heeled_height,
    lower_edge,
    offset,
    trimmed_height,
)
from dossier.physics.nearness import run_distance, run_length_inside
from dossier.physics.route import Point
from dossier.project.model.entry import Answer
from dossier.project.model.exhaust import Drain
from dossier.sizing.spaces import compartment_boxes

if TYPE_CHECKING:
    from dossier.project import Project

LOW_POINTS = q("n", "1", "low points of the run", low=0)
BENDS = q("Σα", "rad", "sum of all changes of direction", low=0)
COORDINATE = q("x", "m", "coordinate of a point of the run", low=-500, high=500)
HEIGHT = q("z", "m", "height of a point of the run", low=-500, high=500)


@dataclass(frozen=True)
class Leg:
    """One straight leg of the route, in the direction of the gas."""

    start: Point
    end: Point
    length: Annotated[Real, q("L_i", "m", "length of a leg")]
    rise: Annotated[Real, q("Δz", "m", "rise; negative where the leg falls")]
    bend: Annotated[Real | None, q("α", "rad", "change of direction at its end")]
    bends: Annotated[Real | None, q("Σα", "rad", "all changes of direction up to its end")]


@dataclass(frozen=True)
class LowPoint:
    """A point where water gathers; a ``sag`` lies below both neighbours, else it is the burner's end."""

    at: Point
    is_sag: bool
    drain: Drain | None


@dataclass(frozen=True)
class ExhaustRoute:
    """The route leg by leg. ``spaces`` tells how much of it lies in each compartment (m)."""

    points: tuple[Point, ...]
    legs: tuple[Leg, ...]
    length: Annotated[Real, q("L", "m", "developed length of the route")]
    bends: Annotated[Real, q("Σα", "rad", "sum of all changes of direction", name="exhaust.bends")]
    low: tuple[LowPoint, ...]
    low_points: Annotated[Real, q("n", "1", "low points of the run", name="exhaust.low_points")]
    least_fall: Annotated[Real | None, q("γ_f", "rad", "flattest falling leg", name="exhaust.least_fall")]
    spaces: tuple[tuple[str, Real], ...]

    @property
    def outlet(self) -> Point:
        """Axis of the outlet."""
        return self.points[-1]


@dataclass(frozen=True)
class OutletHeeled:
    """Lower edge of the outlet, heeled to its own side."""

    degrees: str
    angle: Annotated[Real, q("φ", "rad", "angle of heel")]
    height: Annotated[
        Real,
        q(
            "z",
            "m",
            "outlet over the water, lower of both sides",
            name="exhaust.outlet_height.heel_{degrees}",
        ),
    ]


@dataclass(frozen=True)
class OutletTrimmed:
    """Lower edge of the outlet, trimmed towards its own end."""

    degrees: str
    angle: Annotated[Real, q("τ", "rad", "angle of trim")]
    height: Annotated[
        Real,
        q("z", "m", "outlet over the water, lower of both ends", name="exhaust.outlet_height.trim_{degrees}"),
    ]


@dataclass(frozen=True)
class OutletHeights:
    """Lower edge of the outlet above the water, upright, heeled and trimmed."""

    upright: Annotated[
        Real,
        q(
            "z",
            "m",
            "lower edge of the outlet over the loaded waterline",
            name="exhaust.outlet_height.upright",
        ),
    ]
    heeled: tuple[OutletHeeled, ...]
    trimmed: tuple[OutletTrimmed, ...]
    angle_under_water: Annotated[
        Real,
        q(
            "φ",
            "rad",
            "heel at which the outlet's lower edge meets the water",
            name="exhaust.angle_under_water",
        ),
    ]


@dataclass(frozen=True)
class LoopHeeled:
    """Top of the loop, heeled to its own side."""

    degrees: str
    angle: Annotated[Real, q("φ", "rad", "angle of heel")]
    height: Annotated[
        Real,
        q("z", "m", "top of the loop, lower of both sides", name="exhaust.loop_height.heel_{degrees}"),
    ]


@dataclass(frozen=True)
class LoopHeights:
    """Axis at the highest point of the run; it is a loop only where the run falls from it to the outlet."""

    at: Point
    is_loop: bool
    upright: Annotated[
        Real,
        q("z", "m", "top of the high loop over the waterline", name="exhaust.loop_height.upright"),
    ]
    heeled: tuple[LoopHeeled, ...]
    angle_under_water: Annotated[
        Real,
        q("φ", "rad", "heel at which the top of the loop meets water", name="exhaust.loop_angle_under_water"),
    ]


def in_degrees(angle: Real) -> str:
    """Angle as it stands in the names of results: whole degrees wherever it is whole.

    >>> in_degrees(0.17453292519943295), in_degrees(0.1308996938995747)
    ('10', '7.5')
    """
    return f"{degrees(float(angle)):.4g}"


def without_repeats(points: Sequence[Point]) -> tuple[Point, ...]:
    """Points of a route, each given twice in a row taken once."""
    return tuple(point for n, point in enumerate(points) if n == 0 or tuple(point) != tuple(points[n - 1]))


def _legs(points: Sequence[Point]) -> tuple[Leg, ...]:
    changes = line.changes_of_direction(points)
    lengths = line.leg_lengths(points)
    found = []
    for n, (start, end) in enumerate(pairwise(points)):
        turns = n < len(changes)
        found.append(
            Leg(
                start,
                end,
                lengths[n],
                offset(start[2], end[2]),
                changes[n] if turns else None,
                line.total_change(*changes[: n + 1]) if turns else None,
            )
        )
    return tuple(found)


def _level_from(points: Sequence[Point], index: int) -> tuple[Point, ...]:
    """The low point and what lies level after it."""
    end = index + 1
    while end < len(points) and float(points[end][2]) == float(points[index][2]):
        end += 1
    return tuple(points[index:end])


def _low_points(points: Sequence[Point], drains: Sequence[Drain]) -> tuple[LowPoint, ...]:
    reach = coefficient("exhaust.drain_reach")
    found = []
    for index in line.low_points(points):
        stretch = _level_from(points, index)
        near = [d for d in drains if d.at is not None and run_distance([d.at], stretch) <= reach]
        found.append(LowPoint(points[index], index > 0, near[0] if near else None))
    return tuple(found)


def _straight(points: Sequence[Point]) -> Real:
    """No change of direction, led back to the two points of the only leg."""
    given = [(COORDINATE, coordinate) for point in points for coordinate in point]
    return solved(0.0, BENDS, "Σα = 0: one straight leg", GEOMETRY, given, function=lambda *_: 0.0)


def _count_low(*heights: float) -> float:
    return float(len(line.low_points([(0.0, 0.0, z) for z in heights])))


def exhaust_route(project: "Project", points: Sequence[Point], drains: Sequence[Drain]) -> ExhaustRoute:
    """Route of the exhaust from the burner to the outlet; ``points`` are two or more, none twice in a row."""
    low = _low_points(points, drains)
    legs = _legs(points)
    boxes = compartment_boxes(project)
    inside = ((name, run_length_inside(points, box)) for name, box in boxes.items())
    return ExhaustRoute(
        points=tuple(points),
        legs=legs,
        length=line.total_length(*(leg.length for leg in legs)),
        bends=line.bends(points) if len(legs) > 1 else _straight(points),
        low=low,
        low_points=solved(
            float(len(low)),
            LOW_POINTS,
            "n = points below what follows and not above what comes before, the burner's end included",
            GEOMETRY,
            [(HEIGHT, point[2]) for point in points],
            function=_count_low,
        ),
        least_fall=line.flattest_fall(points),
        spaces=tuple((name, length) for name, length in inside if length > 0),
    )


def heel_angles(project: "Project") -> tuple[Real, ...] | None:
    """Angles of heel to look at, none where she cannot list; None where the file is silent."""
    angles = project.vessel.heel_angles if project.vessel else None
    if angles is None:
        return None
    return () if isinstance(angles, Answer) else angles


def trim_angles(project: "Project") -> tuple[Real, ...]:
    """Angles of trim to look at; none where the file is silent."""
    angles = project.vessel.trim_angles if project.vessel else None
    return () if angles is None or isinstance(angles, Answer) else angles


def outlet_heights(
    project: "Project", outlet: Point, bore: Real | None, needs: str
) -> OutletHeights | NotAssessed:
    """Lower edge of the outlet above the water; ``needs`` is the key of its bore.

    Trimmed heights are left out where the boat's length is not stated.
    """
    if bore is None:
        return NotAssessed("How high is the outlet above the water?", (needs,))
    x, y, z = outlet
    heeled = tuple(
        OutletHeeled(in_degrees(angle), angle, lower_edge(heeled_height(y, z, angle), bore))
        for angle in heel_angles(project) or ()
    )
    length = project.vessel.length if project.vessel else None
    trimmed: tuple[OutletTrimmed, ...] = ()
    if length is not None:
        trimmed = tuple(
            OutletTrimmed(in_degrees(angle), angle, lower_edge(trimmed_height(x, z, length, angle), bore))
            for angle in trim_angles(project)
        )
    return OutletHeights(lower_edge(z, bore), heeled, trimmed, angle_under_water(y, z, bore))


def loop_heights(project: "Project", points: Sequence[Point]) -> LoopHeights:
    """Highest point of the run above the water, upright and heeled."""
    top = line.loop_top(points)
    _, y, z = points[top]
    return LoopHeights(
        points[top],
        top < len(points) - 1,
        z,
        tuple(
            LoopHeeled(in_degrees(angle), angle, heeled_height(y, z, angle))
            for angle in heel_angles(project) or ()
        ),
        angle_under_water(y, z),
    )
