"""Points, boxes and parallel lines on the sheet, in millimetres."""

from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

Point: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle with sides along the sheet: left, bottom, right, top in millimetres."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Extent across."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Extent upward."""
        return self.top - self.bottom

    @property
    def middle(self) -> Point:
        """Centre."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    @property
    def outline(self) -> tuple[Point, ...]:
        """The corners counter-clockwise from the lower left, and the first again."""
        low, high = (self.left, self.bottom), (self.right, self.top)
        return low, (high[0], low[1]), high, (low[0], high[1]), low

    def moved(self, dx: float, dy: float) -> "Box":
        """The same box elsewhere."""
        return Box(self.left + dx, self.bottom + dy, self.right + dx, self.top + dy)

    def grown(self, by: float) -> "Box":
        """The box with a margin all round; negative shrinks it."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def meets(self, other: "Box") -> bool:
        """Whether two boxes share an area."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.bottom < other.top
            and other.bottom < self.top
        )

    def holds(self, other: "Box") -> bool:
        """Whether the other box lies inside this one."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.bottom <= other.bottom
            and other.top <= self.top
        )

    @staticmethod
    def around(boxes: "list[Box]") -> "Box":
        """The least box that holds them all."""
        return Box(
            min(b.left for b in boxes),
            min(b.bottom for b in boxes),
            max(b.right for b in boxes),
            max(b.top for b in boxes),
        )


def beside(points: tuple[Point, ...], offset: float) -> tuple[Point, ...]:
    """The line that runs at a constant distance left of a polyline (right, if negative), corners mitred."""
    kept = [points[0]]
    kept += [p for p, before in zip(points[1:], points, strict=False) if p != before]
    if len(kept) == 1:
        return (kept[0], kept[0])
    normals = []
    for (x0, y0), (x1, y1) in pairwise(kept):
        length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        normals.append((-(y1 - y0) / length, (x1 - x0) / length))
    result = []
    for n, (x, y) in enumerate(kept):
        before, after = normals[max(n - 1, 0)], normals[min(n, len(normals) - 1)]
        shared = max(1 + before[0] * after[0] + before[1] * after[1], 0.2)
        result.append(
            (x + offset * (before[0] + after[0]) / shared, y + offset * (before[1] + after[1]) / shared)
        )
    return tuple(result)


def clipped(start: Point, end: Point, box: Box) -> tuple[Point, Point] | None:
    """The part of a straight line that lies in a box; None where none does."""
    low, high = 0.0, 1.0
    for a, b, least, most in (
        (start[0], end[0], box.left, box.right),
        (start[1], end[1], box.bottom, box.top),
    ):
        if a == b:
            if not least <= a <= most:
                return None
            continue
        first, last = sorted(((least - a) / (b - a), (most - a) / (b - a)))
        low, high = max(low, first), min(high, last)
    if low >= high:
        return None
    (x0, y0), (x1, y1) = start, end
    return (x0 + low * (x1 - x0), y0 + low * (y1 - y0)), (x0 + high * (x1 - x0), y0 + high * (y1 - y0))


def pieces_within(points: tuple[Point, ...], box: Box) -> list[tuple[Point, ...]]:
    """The stretches of a line of legs that lie in a box, in order."""
    found: list[list[Point]] = []
    for start, end in pairwise(points):
        inside = clipped(start, end, box)
        if inside is None:
            continue
        if found and found[-1][-1] == inside[0]:
            found[-1].append(inside[1])
        else:
            found.append(list(inside))
    return [tuple(piece) for piece in found]
