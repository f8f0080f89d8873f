"""How near the legs of a run come to boxes and to each other, and how much of them lies in a box. Exact.

The square of the distance from a leg's point to a box is convex in the place along the leg and made of
parabolas between the places where the leg crosses a face plane: the least of each piece is found in closed
form. Two legs are nearest inside both, or at an end of one.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import Annotated, Any

import numpy as np

from dossier.data.sources import GEOMETRY
from dossier.notation import Real, formula, q
from dossier.physics.boxes import Box, least_distance
from dossier.physics.route import X1, X2, X3, Y1, Y2, Y3, Z1, Z2, Z3, Point

X_LOW = q("x_l", "m", "aft face of the box", low=-500, high=500)
Y_LOW = q("y_l", "m", "starboard face of the box", low=-500, high=500)
Z_LOW = q("z_l", "m", "bottom of the box", low=-500, high=500)
X_HIGH = q("x_h", "m", "fore face of the box", low=-500, high=500)
Y_HIGH = q("y_h", "m", "port face of the box", low=-500, high=500)
Z_HIGH = q("z_h", "m", "top of the box", low=-500, high=500)
X4 = q("x_4", "m", "forward of the aft end, fourth point", low=-500, high=500)
Y4 = q("y_4", "m", "to port, fourth point", low=-500, high=500)
Z4 = q("z_4", "m", "above the waterline, fourth point", low=-500, high=500)
NEAREST = q("s", "m", "least distance", low=0)


def _stacked(*numbers: Any) -> Any:
    """Numbers as arrays of one shape, the coordinate x, y, z as last axis."""
    return np.stack(np.broadcast_arrays(*(np.asarray(number, dtype=float) for number in numbers)), axis=-1)


def _crossings(start: Any, way: Any, low: Any, high: Any) -> Any:
    """Shares of the leg, sorted, at which it crosses the planes of the faces; 0 and 1 among them."""
    moving = np.where(way == 0, 1.0, way)
    shares = [np.where(way == 0, 0.0, (face - start) / moving) for face in (low, high)]
    ends = np.zeros((*start.shape[:-1], 1))
    return np.sort(np.clip(np.concatenate([ends, *shares, ends + 1], axis=-1), 0.0, 1.0), axis=-1)


@formula(
    "s = least distance of (x_1, y_1, z_1)–(x_2, y_2, z_2) and box (x_l, y_l, z_l)–(x_h, y_h, z_h)", GEOMETRY
)
def leg_box_distance(
    x1: Annotated[Real, X1],
    y1: Annotated[Real, Y1],
    z1: Annotated[Real, Z1],
    x2: Annotated[Real, X2],
    y2: Annotated[Real, Y2],
    z2: Annotated[Real, Z2],
    x_low: Annotated[Real, X_LOW],
    y_low: Annotated[Real, Y_LOW],
    z_low: Annotated[Real, Z_LOW],
    x_high: Annotated[Real, X_HIGH],
    y_high: Annotated[Real, Y_HIGH],
    z_high: Annotated[Real, Z_HIGH],
) -> Annotated[Real, NEAREST]:
    """Least distance of a leg and a box; 0 where the leg passes through it."""
    whole = _stacked(x1, y1, z1, x2, y2, z2, x_low, y_low, z_low, x_high, y_high, z_high)
    start, end, low, high = (whole[..., n : n + 3] for n in (0, 3, 6, 9))
    way = end - start
    shares = _crossings(start, way, low, high)
    first, last = shares[..., :-1, None], shares[..., 1:, None]
    start, way, low, high = (part[..., None, :] for part in (start, way, low, high))
    # Between two crossings each coordinate stays before, within or beyond the box.
    halfway = start + (first + last) / 2 * way
    face = np.where(halfway < low, low, np.where(halfway > high, high, np.nan))
    counts = np.isfinite(face)
    off, slope = np.where(counts, start - face, 0.0), np.where(counts, way, 0.0)
    steepness = (slope**2).sum(axis=-1, keepdims=True)
    lowest = -(off * slope).sum(axis=-1, keepdims=True) / np.where(steepness == 0, 1.0, steepness)
    place = np.clip(lowest, first, last)
    return np.sqrt(((off + place * slope) ** 2).sum(axis=-1).min(axis=-1))[()]  # type: ignore[no-any-return]  # numpy gives Any


@formula(
    "L_i = length of (x_1, y_1, z_1)–(x_2, y_2, z_2) within box (x_l, y_l, z_l)–(x_h, y_h, z_h)", GEOMETRY
)
def leg_length_inside(
    x1: Annotated[Real, X1],
    y1: Annotated[Real, Y1],
    z1: Annotated[Real, Z1],
    x2: Annotated[Real, X2],
    y2: Annotated[Real, Y2],
    z2: Annotated[Real, Z2],
    x_low: Annotated[Real, X_LOW],
    y_low: Annotated[Real, Y_LOW],
    z_low: Annotated[Real, Z_LOW],
    x_high: Annotated[Real, X_HIGH],
    y_high: Annotated[Real, Y_HIGH],
    z_high: Annotated[Real, Z_HIGH],
) -> Annotated[Real, q("L_i", "m", "length within the box", low=0)]:
    """Length of the part of a leg that lies in a box."""
    whole = _stacked(x1, y1, z1, x2, y2, z2, x_low, y_low, z_low, x_high, y_high, z_high)
    start, end, low, high = (whole[..., n : n + 3] for n in (0, 3, 6, 9))
    way = end - start
    moving = np.where(way == 0, 1.0, way)
    one, other = (low - start) / moving, (high - start) / moving
    still_in = np.where((start >= low) & (start <= high), -np.inf, np.inf)
    enters = np.where(way == 0, still_in, np.minimum(one, other)).max(axis=-1)
    leaves = np.where(way == 0, -still_in, np.maximum(one, other)).min(axis=-1)
    share = np.maximum(np.minimum(leaves, 1.0) - np.maximum(enters, 0.0), 0.0)
    return (share * np.sqrt((way**2).sum(axis=-1)))[()]  # type: ignore[no-any-return]  # numpy gives Any


def _from_leg(point: Any, start: Any, end: Any) -> Any:
    """Square of the distance of a point from a leg."""
    way = end - start
    square = (way**2).sum(axis=-1)
    share = ((point - start) * way).sum(axis=-1) / np.where(square == 0, 1.0, square)
    return ((point - start - np.clip(share, 0.0, 1.0)[..., None] * way) ** 2).sum(axis=-1)


@formula(
    "s = least distance of (x_1, y_1, z_1)–(x_2, y_2, z_2) and (x_3, y_3, z_3)–(x_4, y_4, z_4)", GEOMETRY
)
def leg_leg_distance(
    x1: Annotated[Real, X1],
    y1: Annotated[Real, Y1],
    z1: Annotated[Real, Z1],
    x2: Annotated[Real, X2],
    y2: Annotated[Real, Y2],
    z2: Annotated[Real, Z2],
    x3: Annotated[Real, X3],
    y3: Annotated[Real, Y3],
    z3: Annotated[Real, Z3],
    x4: Annotated[Real, X4],
    y4: Annotated[Real, Y4],
    z4: Annotated[Real, Z4],
) -> Annotated[Real, NEAREST]:
    """Least distance of two legs, such as fuel line and exhaust; 0 where they cross."""
    whole = _stacked(x1, y1, z1, x2, y2, z2, x3, y3, z3, x4, y4, z4)
    a, b, c, d = (whole[..., n : n + 3] for n in (0, 3, 6, 9))
    at_ends = np.stack(
        [_from_leg(a, c, d), _from_leg(b, c, d), _from_leg(c, a, b), _from_leg(d, a, b)], axis=-1
    ).min(axis=-1)
    one, other, across = b - a, d - c, a - c
    oo, ot, tt = ((u * v).sum(axis=-1) for u, v in ((one, one), (one, other), (other, other)))
    og, tg = (one * across).sum(axis=-1), (other * across).sum(axis=-1)
    skew = oo * tt - ot**2
    safe = np.where(skew > 0, skew, 1.0)
    share, other_share = (ot * tg - tt * og) / safe, (oo * tg - ot * og) / safe
    between = (skew > 0) & (share >= 0) & (share <= 1) & (other_share >= 0) & (other_share <= 1)
    apart = ((across + share[..., None] * one - other_share[..., None] * other) ** 2).sum(axis=-1)
    # Both are distances of points of the legs, so the smaller holds even where the legs are nearly parallel.
    return np.sqrt(np.where(between, np.minimum(apart, at_ends), at_ends))[()]  # type: ignore[no-any-return]  # numpy gives Any


@formula("L_i = ΣL_n", GEOMETRY)
def length_within(
    *lengths: Annotated[Real, q("L_n", "m", "length of a leg within the box", low=0, high=1e4)],
) -> Annotated[Real, q("L_i", "m", "length within the box", low=0)]:
    """Length of a run that lies in a box, from its legs."""
    total: Real = 0.0
    for length in lengths:
        total = total + length
    return total


def run_box_distance(points: Sequence[Point], box: Box) -> Real:
    """Least distance (m) of a run and a box; 0 where it passes through it. One point will do."""
    legs = list(pairwise(points)) or [(points[0], points[0])]
    return least_distance(*(leg_box_distance(*start, *end, *box.low, *box.high) for start, end in legs))


def run_distance(points: Sequence[Point], others: Sequence[Point]) -> Real:
    """Least distance (m) of two runs; either may be one point."""
    legs = list(pairwise(points)) or [(points[0], points[0])]
    facing = list(pairwise(others)) or [(others[0], others[0])]
    return least_distance(*(leg_leg_distance(*a, *b, *c, *d) for a, b in legs for c, d in facing))


def run_length_inside(points: Sequence[Point], box: Box) -> Real:
    """Length (m) of a run that lies in a box, such as exhaust in a cabin."""
    return length_within(
        *(leg_length_inside(*start, *end, *box.low, *box.high) for start, end in pairwise(points))
    )
