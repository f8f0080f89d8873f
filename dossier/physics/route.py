"""The line a pipe, hose or exhaust takes through the boat: length, bends, falls, low and high points.

A route is a sequence of points (x forward from the aft end, y to port, z up from the loaded waterline) in
metres, in the direction of flow. The sums over a route call the formulas leg by leg, so that a working leads
back to every coordinate. How a point lies when the boat heels or trims is asked in ``attitude``.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import Annotated, TypeAlias

import numpy as np

from dossier.data.sources import GEOMETRY
from dossier.notation import Real, formula, q

Point: TypeAlias = tuple[Real, Real, Real]
"""Coordinates x, y, z (m)."""

X1 = q("x_1", "m", "forward of the aft end, first point", low=-500, high=500)
Y1 = q("y_1", "m", "to port, first point", low=-500, high=500)
Z1 = q("z_1", "m", "above the waterline, first point", low=-500, high=500)
X2 = q("x_2", "m", "forward of the aft end, second point", low=-500, high=500)
Y2 = q("y_2", "m", "to port, second point", low=-500, high=500)
Z2 = q("z_2", "m", "above the waterline, second point", low=-500, high=500)
X3 = q("x_3", "m", "forward of the aft end, third point", low=-500, high=500)
Y3 = q("y_3", "m", "to port, third point", low=-500, high=500)
Z3 = q("z_3", "m", "above the waterline, third point", low=-500, high=500)
ANGLE = q("α", "rad", "change of direction", low=0, high=np.pi)
LENGTH = q("L", "m", "developed length", low=0)


@formula("L = √((x_2 − x_1)² + (y_2 − y_1)² + (z_2 − z_1)²)", GEOMETRY)
def leg_length(
    x1: Annotated[Real, X1],
    y1: Annotated[Real, Y1],
    z1: Annotated[Real, Z1],
    x2: Annotated[Real, X2],
    y2: Annotated[Real, Y2],
    z2: Annotated[Real, Z2],
) -> Annotated[Real, q("L", "m", "length of a leg", low=0)]:
    """Length of a straight leg; also the distance of two points."""
    return np.sqrt((x2 - x1) ** 2 + (y2 - y1) ** 2 + (z2 - z1) ** 2)


@formula("s = √((x_2 − x_1)² + (y_2 − y_1)² + (z_2 − z_1)²)", GEOMETRY)
def point_distance(
    x1: Annotated[Real, X1],
    y1: Annotated[Real, Y1],
    z1: Annotated[Real, Z1],
    x2: Annotated[Real, X2],
    y2: Annotated[Real, Y2],
    z2: Annotated[Real, Z2],
) -> Annotated[Real, q("s", "m", "distance", low=0)]:
    """Distance of two points, such as exhaust outlet and hatch."""
    return np.sqrt((x2 - x1) ** 2 + (y2 - y1) ** 2 + (z2 - z1) ** 2)


@formula("L = ΣL_i", GEOMETRY)
def total_length(
    *legs: Annotated[Real, q("L_i", "m", "length of a leg", low=0, high=1e4)],
) -> Annotated[Real, LENGTH]:
    """Developed length of a route from its legs."""
    total: Real = 0.0
    for leg in legs:
        total = total + leg
    return total


@formula("α = angle from (x_1, y_1, z_1)–(x_2, y_2, z_2) to (x_2, y_2, z_2)–(x_3, y_3, z_3)", GEOMETRY)
def change_of_direction(
    x1: Annotated[Real, X1],
    y1: Annotated[Real, Y1],
    z1: Annotated[Real, Z1],
    x2: Annotated[Real, X2],
    y2: Annotated[Real, Y2],
    z2: Annotated[Real, Z2],
    x3: Annotated[Real, X3],
    y3: Annotated[Real, Y3],
    z3: Annotated[Real, Z3],
) -> Annotated[Real, ANGLE]:
    """Change of direction at the middle point: 0 straight on, π back; 0 where a leg has no length."""
    ax, ay, az = x2 - x1, y2 - y1, z2 - z1
    bx, by, bz = x3 - x2, y3 - y2, z3 - z2
    across = np.sqrt((ay * bz - az * by) ** 2 + (az * bx - ax * bz) ** 2 + (ax * by - ay * bx) ** 2)
    return np.arctan2(across, ax * bx + ay * by + az * bz)


@formula("Σα = Σα_i", GEOMETRY)
def total_change(
    *changes: Annotated[Real, q("α_i", "rad", "change of direction at a point", low=0, high=np.pi)],
) -> Annotated[Real, q("Σα", "rad", "sum of all changes of direction", low=0)]:
    """Sum of all changes of direction of a route."""
    total: Real = 0.0
    for change in changes:
        total = total + change
    return total


@formula("γ = atan((z_2 − z_1)/√((x_2 − x_1)² + (y_2 − y_1)²))", GEOMETRY)
def leg_slope(
    x1: Annotated[Real, X1],
    y1: Annotated[Real, Y1],
    z1: Annotated[Real, Z1],
    x2: Annotated[Real, X2],
    y2: Annotated[Real, Y2],
    z2: Annotated[Real, Z2],
) -> Annotated[Real, q("γ", "rad", "slope of a leg", low=-np.pi / 2, high=np.pi / 2)]:
    """Slope of a leg in its direction: positive where it rises, negative where it falls."""
    return np.arctan2(z2 - z1, np.sqrt((x2 - x1) ** 2 + (y2 - y1) ** 2))


@formula("γ_f = min(−γ_i)", GEOMETRY)
def least_fall(
    *slopes: Annotated[Real, q("γ_i", "rad", "slope of a leg that does not rise", low=-np.pi / 2, high=0)],
) -> Annotated[Real, q("γ_f", "rad", "flattest falling leg", low=0, high=np.pi / 2)]:
    """Fall of the flattest of the legs that fall or lie level."""
    least = -slopes[0]
    for slope in slopes[1:]:
        least = np.minimum(least, -slope)
    return least


def leg_lengths(points: Sequence[Point]) -> tuple[Real, ...]:
    """Length of each leg (m)."""
    return tuple(leg_length(*start, *end) for start, end in pairwise(points))


def developed_length(points: Sequence[Point]) -> Real:
    """Developed length of a route (m)."""
    return total_length(*leg_lengths(points))


def changes_of_direction(points: Sequence[Point]) -> tuple[Real, ...]:
    """Change of direction at each inner point (rad); a point given twice counts once."""
    told = [point for n, point in enumerate(points) if n == 0 or tuple(point) != tuple(points[n - 1])]
    return tuple(change_of_direction(*a, *b, *c) for a, b, c in zip(told, told[1:], told[2:], strict=False))


def bends(points: Sequence[Point]) -> Real:
    """Sum of all changes of direction of a route (rad)."""
    return total_change(*changes_of_direction(points))


def leg_slopes(points: Sequence[Point]) -> tuple[Real, ...]:
    """Slope of each leg (rad), positive where it rises."""
    return tuple(leg_slope(*start, *end) for start, end in pairwise(points))


def flattest_fall(points: Sequence[Point]) -> Real | None:
    """Fall of the flattest leg that falls or lies level (rad); None where every leg rises.

    Takes single numbers: which legs fall is a matter of one route.
    """
    falling = [slope for slope in leg_slopes(points) if slope <= 0]
    return least_fall(*falling) if falling else None


def low_points(points: Sequence[Point]) -> tuple[int, ...]:
    """Indices of the points where water gathers, the burner's end of a rising run among them.

    Of a level stretch with both ends rising the first point counts. The outlet is none: it drains itself.
    """
    heights = [float(point[2]) for point in points]
    found = []
    for n, height in enumerate(heights):
        if n > 0 and heights[n - 1] <= height:
            continue  # comes from below, or the stretch began earlier
        after = next((later for later in heights[n + 1 :] if later != height), height)
        if after > height:
            found.append(n)
    return tuple(found)


def high_points(points: Sequence[Point]) -> tuple[int, ...]:
    """Indices of the points where air gathers, ends included; of a level stretch its first point."""
    heights = [float(point[2]) for point in points]
    found = []
    for n, height in enumerate(heights):
        if n > 0 and heights[n - 1] >= height:
            continue
        after = next((later for later in heights[n + 1 :] if later != height), None)
        if (after is None and n > 0) or (after is not None and after < height):
            found.append(n)
    return tuple(found)


def loop_top(points: Sequence[Point]) -> int:
    """Index of the highest point of a route, the first of equals: the top of the loop."""
    heights = [float(point[2]) for point in points]
    return heights.index(max(heights))
