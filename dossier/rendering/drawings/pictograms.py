"""Safety signs: our own drawing, in black, after the signs of ISO 7010 (from memory), for people in a hurry.

A black square stands for what to use in an emergency, a triangle warns, a barred ring forbids.
``pictogram("no_flame", place, size)`` gives the shapes of a sign in a square whose lower left corner is
``place``; millimetres throughout.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from dossier.rendering.drawings.lettering import BOLD, POINT
from dossier.rendering.drawings.plane import Point
from dossier.rendering.drawings.shapes import (
    BLACK,
    WHITE,
    Circle,
    Line,
    Path,
    Pen,
    Polygon,
    Rect,
    Shape,
    Step,
    Text,
)

FLAME: tuple[tuple[str, tuple[Point, ...]], ...] = (
    ("M", ((0.50, 0.0),)),
    ("C", ((0.14, 0.0), (0.0, 0.24), (0.16, 0.46))),
    ("C", ((0.26, 0.60), (0.30, 0.72), (0.24, 0.86))),
    ("C", ((0.40, 0.80), (0.47, 0.70), (0.46, 0.60))),
    ("C", ((0.58, 0.70), (0.60, 0.86), (0.50, 1.0))),
    ("C", ((0.76, 0.90), (0.84, 0.70), (0.78, 0.52))),
    ("C", ((0.94, 0.28), (0.86, 0.0), (0.50, 0.0))),
    ("Z", ()),
)
"""A flame in a square of one."""


@dataclass(frozen=True, slots=True)
class _Square:
    """Where a sign is drawn, and how large; its own measures run from 0 to 1."""

    place: Point
    size: float

    def at(self, across: float, up: float) -> Point:
        return self.place[0] + across * self.size, self.place[1] + up * self.size

    def points(self, *points: Point) -> tuple[Point, ...]:
        return tuple(self.at(*point) for point in points)

    def pen(self, width: float, ink: str = BLACK) -> Pen:
        return Pen(width * self.size, (), ink)

    def rect(self, low: Point, size: Point, ink: str) -> Rect:
        x, y = self.at(*low)
        return Rect(x, y, size[0] * self.size, size[1] * self.size, None, ink)

    def flame(self, low: Point, size: Point, ink: str) -> Path:
        def placed(point: Point) -> Point:
            return self.at(low[0] + point[0] * size[0], low[1] + point[1] * size[1])

        steps: tuple[Step, ...] = tuple((sign, tuple(map(placed, points))) for sign, points in FLAME)
        return Path(steps, None, ink)


def _triangle(square: _Square) -> list[Shape]:
    corners = square.points((0.5, 0.94), (0.03, 0.10), (0.97, 0.10))
    return [Polygon(corners, square.pen(0.055), WHITE)]


def _hot_surface(square: _Square) -> list[Shape]:
    """Heat that rises from a surface."""
    shapes = [*_triangle(square), square.rect((0.27, 0.21), (0.46, 0.055), BLACK)]
    for across in (0.38, 0.50, 0.62):
        wave = (
            ("M", square.points((across, 0.32))),
            ("C", square.points((across + 0.08, 0.38), (across - 0.08, 0.44), (across, 0.50))),
            *([("C", square.points((0.57, 0.55), (0.44, 0.60), (0.5, 0.66)))] if across == 0.50 else []),  # noqa: PLR2004 - the middle one
        )
        shapes.append(Path(wave, square.pen(0.045)))
    return shapes


def _carbon_monoxide(square: _Square) -> list[Shape]:
    """A gas that nobody sees or smells, named."""
    x, y = square.at(0.5, 0.26)
    points = 0.30 * square.size / POINT
    return [*_triangle(square), Text(x, y, "CO", points, BOLD, "middle")]


def _no_flame(square: _Square) -> list[Shape]:
    """A burning match, barred."""
    x, y = square.at(0.5, 0.5)
    match = Line(square.at(0.36, 0.22), square.at(0.49, 0.52), square.pen(0.07))
    bar = Line(square.at(0.21, 0.79), square.at(0.79, 0.21), square.pen(0.08))
    under = Line(square.at(0.21, 0.79), square.at(0.79, 0.21), square.pen(0.14, WHITE))
    ring = Circle(x, y, 0.42 * square.size, square.pen(0.08))
    return [match, square.flame((0.38, 0.48), (0.27, 0.33), BLACK), under, bar, ring]


def _black(square: _Square) -> list[Shape]:
    return [square.rect((0.04, 0.04), (0.92, 0.92), BLACK)]


def _extinguisher(square: _Square) -> list[Shape]:
    """An extinguisher, and the flame it is for."""
    hose = (
        ("M", square.points((0.60, 0.73))),
        ("C", square.points((0.36, 0.76), (0.34, 0.60), (0.36, 0.46))),
    )
    return [
        *_black(square),
        square.rect((0.50, 0.14), (0.24, 0.50), WHITE),
        Circle(*square.at(0.62, 0.64), 0.12 * square.size, None, WHITE),
        square.rect((0.58, 0.70), (0.08, 0.12), WHITE),
        Line(square.at(0.56, 0.85), square.at(0.80, 0.80), square.pen(0.045, WHITE)),
        Path(hose, square.pen(0.045, WHITE)),
        square.flame((0.12, 0.14), (0.28, 0.32), WHITE),
    ]


def _emergency_stop(square: _Square) -> list[Shape]:
    """A mushroom button, and the way to push it."""
    head = square.points((0.50, 0.52), (0.36, 0.70), (0.64, 0.70))
    cap = (
        ("M", square.points((0.22, 0.36))),
        ("C", square.points((0.24, 0.50), (0.76, 0.50), (0.78, 0.36))),
        ("Z", ()),
    )
    return [
        *_black(square),
        square.rect((0.14, 0.14), (0.72, 0.07), WHITE),
        square.rect((0.40, 0.21), (0.20, 0.15), WHITE),
        Path(cap, None, WHITE),
        Polygon(head, None, WHITE),
        square.rect((0.45, 0.70), (0.10, 0.18), WHITE),
    ]


PICTOGRAMS: Mapping[str, Callable[[_Square], list[Shape]]] = {
    "carbon_monoxide": _carbon_monoxide,
    "emergency_stop": _emergency_stop,
    "extinguisher": _extinguisher,
    "hot_surface": _hot_surface,
    "no_flame": _no_flame,
}


def pictogram(name: str, place: Point, size: float) -> list[Shape]:
    """Shapes of a sign; raises KeyError for one that is not drawn here."""
    return PICTOGRAMS[name](_Square(place, size))
