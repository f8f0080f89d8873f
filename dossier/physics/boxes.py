"""Boxes along the boat's axes: components, compartments, service space, canopies; how far apart they are.

All distances are exact. ``separation`` tells boxes that clash by how far one must be shifted to come free, as
a negative number. Single boxes are asked by the functions at the end, many by the formulas with arrays of
their coordinates. Legs of a run against boxes and against each other stand in ``nearness``.
"""

from collections.abc import Iterable
from enum import Enum
from typing import Annotated

import numpy as np

from dossier.data.sources import GEOMETRY
from dossier.notation import Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.attitude import heeled_height, trimmed_height
from dossier.physics.route import Point

GAP = q("g", "m", "gap of two boxes along one axis; negative where they overlap along it", low=-1e3, high=1e3)
SEPARATION = q("s", "m", "distance; negative by the shift that would free a clash")
SPACE = q("s", "m", "free space before a face", low=-1e3, high=1e3)


class Side(str, Enum):
    """Side of a box, as said aboard."""

    PORT = "port"
    STARBOARD = "starboard"
    FORE = "fore"
    AFT = "aft"
    TOP = "top"
    BOTTOM = "bottom"

    @property
    def axis(self) -> int:
        """Axis the side looks along: 0 fore and aft, 1 athwartships, 2 up and down."""
        return _AXES[self]

    @property
    def is_upper(self) -> bool:
        """Whether the side looks towards rising coordinates."""
        return self in _UPPER


_AXES = {Side.FORE: 0, Side.AFT: 0, Side.PORT: 1, Side.STARBOARD: 1, Side.TOP: 2, Side.BOTTOM: 2}
_UPPER = frozenset({Side.FORE, Side.PORT, Side.TOP})


@dataclass(frozen=True)
class Box:
    """A box by its corner nearest aft, starboard and keel, and the opposite one (x, y, z in metres)."""

    low: Point
    high: Point

    @staticmethod
    def of_size(at: Point, size: Point) -> "Box":
        """Box by its corner nearest aft, starboard and keel, and its size along x, y and z."""
        return Box(at, tuple(corner(a, b) for a, b in zip(at, size, strict=True)))  # type: ignore[arg-type]  # three of each


@formula("c = a + b", GEOMETRY)
def corner(
    at: Annotated[Real, q("a", "m", "corner", low=-500, high=500)],
    size: Annotated[Real, q("b", "m", "size along the axis", low=0, high=500)],
) -> Annotated[Real, q("c", "m", "opposite corner")]:
    """Coordinate of the opposite corner."""
    return at + size


@formula("g = max(l_a − h_b, l_b − h_a)", GEOMETRY)
def axis_gap(
    low: Annotated[Real, q("l_a", "m", "low end of one box", low=-500, high=500)],
    high: Annotated[Real, q("h_a", "m", "high end of one box", low=-500, high=500)],
    other_low: Annotated[Real, q("l_b", "m", "low end of the other box", low=-500, high=500)],
    other_high: Annotated[Real, q("h_b", "m", "high end of the other box", low=-500, high=500)],
) -> Annotated[Real, GAP]:
    """Gap between two boxes along one axis."""
    return np.maximum(low - other_high, other_low - high)


@formula(
    "s = √(max(g_x, 0)² + max(g_y, 0)² + max(g_z, 0)²), or the greatest gap where all are negative", GEOMETRY
)
def separation(
    x: Annotated[Real, q("g_x", "m", "gap fore and aft", low=-1e3, high=1e3)],
    y: Annotated[Real, q("g_y", "m", "gap athwartships", low=-1e3, high=1e3)],
    z: Annotated[Real, q("g_z", "m", "gap up and down", low=-1e3, high=1e3)],
) -> Annotated[Real, SEPARATION]:
    """Distance of two boxes from their gaps along the axes."""
    apart = np.sqrt(np.maximum(x, 0.0) ** 2 + np.maximum(y, 0.0) ** 2 + np.maximum(z, 0.0) ** 2)
    distance: Real = np.where(apart > 0, apart, np.minimum(np.maximum(np.maximum(x, y), z), 0.0))[()]
    return distance


@formula("m = min(l_i − l_o, h_o − h_i)", GEOMETRY)
def axis_margin(
    low: Annotated[Real, q("l_i", "m", "low end of the inner box", low=-500, high=500)],
    high: Annotated[Real, q("h_i", "m", "high end of the inner box", low=-500, high=500)],
    outer_low: Annotated[Real, q("l_o", "m", "low end of the outer box", low=-500, high=500)],
    outer_high: Annotated[Real, q("h_o", "m", "high end of the outer box", low=-500, high=500)],
) -> Annotated[Real, q("m", "m", "margin along one axis; negative where it sticks out")]:
    """Margin of a box inside another along one axis."""
    return np.minimum(low - outer_low, outer_high - high)


@formula("m = min(m_x, m_y, m_z)", GEOMETRY)
def least_margin(
    x: Annotated[Real, q("m_x", "m", "margin fore and aft", low=-1e3, high=1e3)],
    y: Annotated[Real, q("m_y", "m", "margin athwartships", low=-1e3, high=1e3)],
    z: Annotated[Real, q("m_z", "m", "margin up and down", low=-1e3, high=1e3)],
) -> Annotated[Real, q("m", "m", "least margin; negative where it sticks out")]:
    """Least margin of a box inside another."""
    return np.minimum(np.minimum(x, y), z)


@formula("s = b − a", GEOMETRY)
def face_distance(
    face: Annotated[Real, q("a", "m", "face of the box, along its direction", low=-500, high=500)],
    next_face: Annotated[Real, q("b", "m", "next face in that direction", low=-500, high=500)],
) -> Annotated[Real, SPACE]:
    """Free space from a face to the next one before it; negative where that lies behind."""
    return next_face - face


@formula("s = a − b", GEOMETRY)
def face_distance_back(
    face: Annotated[Real, q("a", "m", "face of the box, against its direction", low=-500, high=500)],
    next_face: Annotated[Real, q("b", "m", "next face in that direction", low=-500, high=500)],
) -> Annotated[Real, SPACE]:
    """As ``face_distance``, for a side that looks aft, to starboard or down."""
    return face - next_face


@formula("s = min(s_i)", GEOMETRY)
def least_distance(
    *distances: Annotated[Real, q("s_i", "m", "one distance", low=-1e3, high=1e3)],
) -> Annotated[Real, q("s", "m", "least distance; negative where boxes clash")]:
    """Least of several distances."""
    least = distances[0]
    for distance in distances[1:]:
        least = np.minimum(least, distance)
    return least


@formula("z' = min(z'_i)", GEOMETRY)
def least_height(
    *heights: Annotated[Real, q("z'_i", "m", "height of one corner above the water", low=-100, high=100)],
) -> Annotated[Real, q("z'", "m", "lowest corner above the water")]:
    """Lowest of several heights."""
    least = heights[0]
    for height in heights[1:]:
        least = np.minimum(least, height)
    return least


def box_separation(one: Box, other: Box) -> Real:
    """Distance of two boxes (m); negative by the shift that would free a clash, 0 where they touch."""
    return separation(*(axis_gap(one.low[k], one.high[k], other.low[k], other.high[k]) for k in range(3)))


def margin_inside(inner: Box, outer: Box) -> Real:
    """Least margin (m) of a box inside another; negative where it sticks out."""
    return least_margin(
        *(axis_margin(inner.low[k], inner.high[k], outer.low[k], outer.high[k]) for k in range(3))
    )


def service_space(box: Box, side: Side, depth: Real) -> Box:
    """Box that is to be kept free before one side."""
    low, high = list(box.low), list(box.high)
    k = side.axis
    if side.is_upper:
        low[k], high[k] = box.high[k], box.high[k] + depth
    else:
        low[k], high[k] = box.low[k] - depth, box.low[k]
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def free_space(box: Box, side: Side, obstacles: Iterable[Box] = (), inside: Box | None = None) -> Real | None:
    """Free space (m) before one side: to the nearest obstacle that stands before the face, or the wall.

    Negative where an obstacle begins behind the face. An obstacle counts where it faces the side by any width
    and does not end behind it. None where nothing bounds the space. Takes single numbers.
    """
    k = side.axis
    others = [n for n in range(3) if n != k]
    measure = face_distance if side.is_upper else face_distance_back
    face = box.high[k] if side.is_upper else box.low[k]
    found = []
    for obstacle in obstacles:
        aside = any(max(box.low[n], obstacle.low[n]) >= min(box.high[n], obstacle.high[n]) for n in others)
        behind = obstacle.high[k] <= face if side.is_upper else obstacle.low[k] >= face
        if not aside and not behind:
            found.append(measure(face, obstacle.low[k] if side.is_upper else obstacle.high[k]))
    if inside is not None:
        found.append(measure(face, inside.high[k] if side.is_upper else inside.low[k]))
    return least_distance(*found) if found else None


def lowest_height_heeled(box: Box, heel: Real) -> Real:
    """Height (m) of the lowest corner of a box above the water, heeled to the worse side."""
    return least_height(*(heeled_height(y, box.low[2], heel) for y in (box.low[1], box.high[1])))


def lowest_height_trimmed(box: Box, length: Real, trim: Real) -> Real:
    """Height (m) of the lowest corner of a box above the water, trimmed to the worse end."""
    return least_height(*(trimmed_height(x, box.low[2], length, trim) for x in (box.low[0], box.high[0])))


def is_inside(point: Point, box: Box) -> bool:
    """Whether a point lies in a box, its faces counted."""
    return all(box.low[k] <= point[k] <= box.high[k] for k in range(3))
