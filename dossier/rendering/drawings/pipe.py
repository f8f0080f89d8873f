"""A round pipe with its lagging as any view shows it: axis, walls, lagging, marks across it."""

from math import dist

from dossier.rendering.drawings.pens import AXIS, NARROW, WIDE
from dossier.rendering.drawings.plane import Point, beside
from dossier.rendering.drawings.shapes import Circle, Line, Polyline, Shape
from dossier.rendering.drawings.space import along_polyline

LENGTH = 4.5  # of a stroke across a pipe
NEAR = 0.2  # millimetres on paper: corners nearer than this are one


def pipe(points: tuple[Point, ...], bore: float, lagging: float) -> list[Shape]:
    """The pipe along its axis, measures in millimetres on paper; seen end on it is a circle."""
    corners = distinct(points)
    if len(corners) == 1:
        rings: list[Shape] = [Circle(*corners[0], bore / 2, NARROW)]
        return [*rings, Circle(*corners[0], bore / 2 + lagging, NARROW)] if lagging else rings
    shapes: list[Shape] = [Polyline(corners, AXIS)]
    shapes += [Polyline(beside(corners, side * bore / 2), NARROW) for side in (1, -1)]
    lagged = _shortened(corners, lagging + 1.0)
    if lagging and len(lagged) > 1:
        shapes += [Polyline(beside(lagged, side * (bore / 2 + lagging)), NARROW) for side in (1, -1)]
    return shapes


def _shortened(points: tuple[Point, ...], by: float) -> tuple[Point, ...]:
    """The axis as far as it is lagged: not through the shell."""
    (x0, y0), (x1, y1) = points[-2:]
    length = dist((x0, y0), (x1, y1))
    if length <= by:
        return points[:-1]
    part = (length - by) / length
    return (*points[:-1], (x0 + (x1 - x0) * part, y0 + (y1 - y0) * part))


def distinct(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """The corners without those that fall on the one before."""
    kept = [points[0]]
    for x, y in points[1:]:
        if abs(x - kept[-1][0]) + abs(y - kept[-1][1]) > NEAR:
            kept.append((x, y))
    return tuple(kept)


def across(points: tuple[Point, ...], at: Point, reach: float) -> list[Shape]:
    """The mark of a passage: strokes across the pipe on both sides of it, out to ``reach``."""
    corners = distinct(points)
    if len(corners) == 1:
        return [Circle(*corners[0], reach, WIDE)]
    (x, y), (ux, uy) = along_polyline(corners, at)
    shapes: list[Shape] = []
    for side in (1, -1):
        inner, outer = side * reach, side * (reach + LENGTH)
        start, end = (x - uy * inner, y + ux * inner), (x - uy * outer, y + ux * outer)
        shapes.append(Line(start, end, WIDE))
    return shapes
