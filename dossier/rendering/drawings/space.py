"""Points aboard, heeled and projected: x forward, y to port, z up from the waterline, in metres."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from math import cos, dist, hypot, radians, sin
from typing import TypeAlias

from dossier.rendering.drawings.plane import Point

Place3: TypeAlias = tuple[float, float, float]

STARBOARD = "starboard"
PORT = "port"


@dataclass(frozen=True, slots=True)
class Cuboid:
    """A box aboard from its aft, starboard, lower corner to the one opposite, with its name or tag."""

    name: str
    low: Place3
    high: Place3

    @property
    def corners(self) -> tuple[Place3, ...]:
        """All eight corners."""
        (x0, y0, z0), (x1, y1, z1) = self.low, self.high
        return tuple((x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1))

    def holds(self, at: Place3) -> bool:
        """Whether a point lies in the box."""
        return all(low <= c <= high for low, c, high in zip(self.low, at, self.high, strict=True))


def heeled(at: Place3, angle: float, side: str) -> Place3:
    """A point of the boat heeled by ``angle`` degrees to ``side``, turned about the waterline amidships."""
    x, y, z = at
    c, s = cos(radians(angle)), sin(radians(angle))
    if side == PORT:
        s = -s
    return x, y * c - z * s, z * c + y * s


def looking_forward(at: Place3) -> Point:
    """Seen from astern: starboard to the right."""
    return -at[1], at[2]


def looking_to_port(at: Place3) -> Point:
    """Seen from starboard: forward to the right."""
    return at[0], at[2]


def from_above(at: Place3) -> Point:
    """Plan: forward to the right, port upward."""
    return at[0], at[1]


def distance(a: Place3, b: Place3) -> float:
    """Straight distance of two points in metres."""
    return dist(a, b)


def lower_edge(before: Place3, end: Place3, bore: float) -> Place3:
    """The lowest point of the rim of a pipe that ends in ``end``; a pipe straight up ends level."""
    length = distance(before, end)
    if length == 0:
        return end
    d = tuple((e - b) / length for b, e in zip(before, end, strict=True))
    down = (d[2] * d[0], d[2] * d[1], d[2] * d[2] - 1.0)
    size = sum(c * c for c in down) ** 0.5
    if size == 0:
        return end
    x, y, z = (e + c / size * bore / 2 for e, c in zip(end, down, strict=True))
    return x, y, z


def outline(points: Iterable[Point]) -> tuple[Point, ...]:
    """The convex outline of points, counter-clockwise."""
    ordered = sorted({(round(x, 9), round(y, 9)) for x, y in points})
    if len(ordered) <= 2:  # noqa: PLR2004 - a line has no outline
        return tuple(ordered)
    low, high = _half(ordered), _half(ordered[::-1])
    return tuple(low[:-1] + high[:-1])


def _half(points: list[Point]) -> list[Point]:
    chain: list[Point] = []
    for p in points:
        while len(chain) > 1 and _turn(chain[-2], chain[-1], p) <= 0:
            chain.pop()
        chain.append(p)
    return chain


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def along_polyline(points: tuple[Point, ...], at: Point) -> tuple[Point, Point]:
    """The nearest point of a line of legs to a point, and the direction of the leg it lies on."""
    best: tuple[float, Point, Point] | None = None
    for a, b in pairwise(points):
        length = hypot(b[0] - a[0], b[1] - a[1])
        if length == 0:
            continue
        u = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
        t = min(max((at[0] - a[0]) * u[0] + (at[1] - a[1]) * u[1], 0.0), length)
        near = (a[0] + u[0] * t, a[1] + u[1] * t)
        gap = hypot(at[0] - near[0], at[1] - near[1])
        if best is None or gap < best[0]:
            best = (gap, near, u)
    return (best[1], best[2]) if best else (points[0], (0.0, 1.0))
