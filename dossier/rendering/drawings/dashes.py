"""Dashes fitted to straight runs, so that a stroke stands at each end and corners are never open."""

from collections.abc import Iterator

from dossier.rendering.drawings.plane import Point
from dossier.rendering.drawings.shapes import Path, Pen


def fitted(dashes: tuple[float, ...], length: float) -> tuple[float, ...]:
    """The dash lengths stretched or squeezed so that a stroke begins and ends a run of this length.

    A run shorter than a stroke and a half stays unbroken: the answer is empty.
    """
    stroke, rest = dashes[0], sum(dashes[1:])
    strokes = round((length + rest) / (stroke + rest))
    if strokes <= 1:
        return ()
    scale = length / (strokes * stroke + (strokes - 1) * rest)
    return tuple(d * scale for d in dashes)


def runs(path: Path, pen: Pen) -> Iterator[tuple[Point, Point, tuple[float, ...]]]:
    """The straight runs of an outline, each with its own fitted dashes."""
    first = here = (0.0, 0.0)
    for mark, points in path.steps:
        if mark == "M":
            first = here = points[0]
            continue
        there = first if mark == "Z" else points[-1]
        length = ((there[0] - here[0]) ** 2 + (there[1] - here[1]) ** 2) ** 0.5
        if length > 0:
            yield here, there, fitted(pen.dashes, length)
        here = there


def is_straight(path: Path) -> bool:
    """Whether an outline has no curves."""
    return all(mark != "C" for mark, _ in path.steps)
