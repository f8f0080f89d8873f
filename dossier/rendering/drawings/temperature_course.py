"""The temperature through a wall as lines over its section: between frames, along a frame, the dew point."""

from dataclasses import dataclass
from itertools import pairwise

from dossier.rendering.drawings.callouts import Callout
from dossier.rendering.drawings.lettering import REGULAR, SEMIBOLD, SMALL
from dossier.rendering.drawings.pens import NARROW
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.shapes import BLACK, WHITE, Circle, Line, Pen, Polyline, Shape, Text

BETWEEN = Pen(0.7)
ALONG = Pen(0.5, (4.0, 1.6))
DOTTED = Pen(0.25, (0.5, 0.9))
DEW = Pen(0.35, (0.9, 1.1))
FILM = 8.0
MARK = 1.25
PLACES = (0.5, 0.35, 0.65, 0.2, 0.8)


@dataclass(frozen=True, slots=True)
class Surface:
    """What the inner surface comes to, wet or dry, in words."""

    text: str
    is_wet: bool


@dataclass(frozen=True, slots=True)
class Course:
    """Temperatures through a wall: both airs, and at depths in metres from the outer face.

    ``name`` stands by the line, ``surface`` at the innermost of the points.
    """

    outside: float
    points: tuple[Point, ...]
    inside: float
    name: str = ""
    surface: Surface | None = None


@dataclass(frozen=True, slots=True)
class Axes:
    """Where depth and temperature stand on the sheet; ``unit`` is millimetres for a metre."""

    left: float
    unit: float
    graph: Box
    span: Point

    def x(self, depth: float) -> float:
        """A depth from the outer face."""
        return self.left + depth * self.unit

    def y(self, temperature: float) -> float:
        """A temperature."""
        low, high = self.span
        return self.graph.bottom + (temperature - low) / (high - low) * self.graph.height

    def line(self, course: Course) -> tuple[Point, ...]:
        """A course on the sheet, from air to air."""
        first, last = course.points[0], course.points[-1]
        return (
            (self.graph.left, self.y(course.outside)),
            (self.x(first[0]) - FILM, self.y(course.outside)),
            *((self.x(depth), self.y(t)) for depth, t in course.points),
            (self.x(last[0]) + FILM, self.y(course.inside)),
            (self.graph.right, self.y(course.inside)),
        )


def curves(
    between: Course, along: Course | None, axes: Axes, ticks: tuple[tuple[float, str], ...]
) -> list[Shape]:
    """Grid with its figures, both lines, and the marks of the inner surface: open if dry, full if wet."""
    graph = axes.graph
    shapes: list[Shape] = []
    for value, text in ticks:
        y = axes.y(value)
        shapes.append(Line((graph.left, y), (graph.right, y), NARROW))
        shapes.append(Text(graph.left - 1.4, y - 0.95, text, SMALL, REGULAR, "end"))
    for course, pen in ((along, ALONG), (between, BETWEEN)):
        if course is None or not course.points:
            continue
        shapes.append(Polyline(axes.line(course), pen))
    for course in (along, between):
        if course and course.surface and course.points:
            x, y = _surface(course, axes)
            shapes.append(Circle(x, y, MARK, Pen(0.5), BLACK if course.surface.is_wet else WHITE))
    return shapes


def _surface(course: Course, axes: Axes) -> Point:
    depth, temperature = course.points[-1]
    return axes.x(depth), axes.y(temperature)


def dew_line(axes: Axes, value: float) -> Line:
    """The dew point of the room across the graph."""
    y = axes.y(value)
    return Line((axes.graph.left, y), (axes.graph.right, y), DEW)


def callouts(
    between: Course, along: Course | None, axes: Axes, dew_point: tuple[float, str] | None
) -> list[Callout]:
    """The words by the lines and by the marks of the surface."""
    named: list[Callout] = []
    for course in (between, along):
        if course is None or not course.points:
            continue
        if course.surface:
            weight = SEMIBOLD if course.surface.is_wet else REGULAR
            named.append(Callout(_surface(course, axes), (course.surface.text,), weight=weight, clear=MARK))
        if course.name:
            places = _along_the_line(axes.line(course))
            named.append(Callout(places[0], (course.name,), weight=SEMIBOLD, leader=False, also=places[1:]))
    if dew_point:
        y = axes.y(dew_point[0])
        width = axes.graph.width
        places = tuple((axes.graph.left + part * width, y) for part in (0.35, 0.5, 0.2, 0.65, 0.8))
        named.append(Callout(places[0], (dew_point[1],), leader=False, also=places[1:], bearings=(90, 270)))
    return named


def _along_the_line(line: tuple[Point, ...]) -> tuple[Point, ...]:
    """Places along a line, those on its longer pieces first."""
    pieces = sorted(pairwise(line[1:-1]), key=lambda p: -abs(p[1][0] - p[0][0]))
    return tuple(
        (a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])) for a, b in pieces[:3] for part in PLACES
    )
