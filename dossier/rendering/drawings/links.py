"""Pipes outside the tree, led in lanes over or under everything, with gaps where they cross."""

from collections.abc import Iterator
from itertools import pairwise

from dossier.rendering.drawings.cells import boxes_of, flow_arrow, wire_of
from dossier.rendering.drawings.circuit import Link
from dossier.rendering.drawings.lettering import SEMIBOLD, SMALL, text_width
from dossier.rendering.drawings.pens import MIDDLE
from dossier.rendering.drawings.placing import Anchor
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.shapes import WHITE, Circle, Group, Line, Shape, Text
from dossier.rendering.drawings.wires import LINK_RANK, Wire, broken

LANE = 5.5  # from lane to lane
STUB = 3.6  # from the run to the middle of a connector
RADIUS = 1.7
CONNECTOR = "link "
LETTERS = "abcdefghijklmnopqrstuvwxyz"


def linked(shapes: tuple[Shape, ...], links: tuple[Link, ...]) -> tuple[Shape, ...]:
    """The shapes with every link drawn that begins or ends among them, crossings broken.

    A link that finds no free way, or whose other end is in another part, ends in lettered circles.
    """
    anchors = {shape.name: (shape.x, shape.y) for shape in shapes if isinstance(shape, Anchor)}
    numbers = [n for n in range(len(links)) if f"start {n}" in anchors or f"end {n}" in anchors]
    if not numbers:
        return shapes
    result = list(shapes)
    obstacles = list(_obstacles(result))
    lanes: list[tuple[str, float, tuple[float, float]]] = []
    for n in numbers:
        start, end = anchors.get(f"start {n}"), anchors.get(f"end {n}")
        way = _free_way(obstacles, start, end) if start and end else 0
        if way and start and end:
            room = Box.around(obstacles)
            level = room.top + LANE if way > 0 else room.bottom - LANE
            lanes.append((links[n].text, level, (start[0], end[0])))
            more = _lane(links[n], (start, end), level)
        else:
            more = [_connector(at, LETTERS[n % 26]) for at in (start, end) if at]
        result += more
        obstacles += _obstacles(more)
    for text, level, ends in lanes:
        result += _lettering(text, level, ends, obstacles)
    wires = tuple(shape for shape in result if isinstance(shape, Wire))
    return (*broken(wires), *(shape for shape in result if not isinstance(shape, Wire)))


def _free_way(obstacles: list[Box], start: Point, end: Point) -> int:
    """1 if both ends may be led up, -1 if both may be led down, else 0."""
    for way in (1, -1):
        if all(_is_free(obstacles, at, way) for at in (start, end)):
            return way
    return 0


def _is_free(obstacles: list[Box], at: Point, way: int) -> bool:
    x, y = at
    low, high = (y + 1.0, 1e4) if way > 0 else (-1e4, y - 1.0)
    channel = Box(x - 0.8, low, x + 0.8, high)
    return not any(channel.meets(box) for box in obstacles)


def _obstacles(shapes: list[Shape]) -> Iterator[Box]:
    """Signs, lettering, and lines that run up and down."""
    for shape in shapes:
        if not isinstance(shape, Wire):
            yield from boxes_of((shape,))
            continue
        for (x0, y0), (x1, y1) in pairwise(shape.points):
            if x0 == x1:
                yield Box(x0 - 0.8, min(y0, y1) - 0.4, x0 + 0.8, max(y0, y1) + 0.4)


def _lane(link: Link, ends: tuple[Point, Point], level: float) -> list[Shape]:
    """One link: away from its run, along its lane, and back to the other run."""
    (x0, y0), (x1, y1) = ends
    kind = wire_of(link.side)
    result: list[Shape] = [Wire(((x0, y0), (x0, level), (x1, level), (x1, y1)), kind, LINK_RANK)]
    result.append(flow_arrow((x0 + x1) / 2, level, 0 if x1 > x0 else 180, link.side))
    return result


def _lettering(text: str, level: float, ends: tuple[float, float], obstacles: list[Box]) -> list[Shape]:
    """The text of a link over its lane, near the middle where nothing stands; none where there is no room."""
    low, high = min(ends), max(ends)
    width = text_width(text, SMALL)
    free = (high - low - width) / 2 - 1.0
    for step in range(int(max(free, -1.0)) + 1):
        for side in (1, -1):
            label = Text((low + high) / 2 + side * step, level + 1.8, text, SMALL, anchor="middle")
            if text and free > 0 and not any(label.box.grown(0.5).meets(box) for box in obstacles):
                return [label]
    return []


def has_connectors(shapes: tuple[Shape, ...]) -> bool:
    """Whether a link among the shapes ends in a lettered circle."""
    return any(isinstance(shape, Group) and shape.name.startswith(CONNECTOR) for shape in shapes)


def connector_sample() -> tuple[Shape, ...]:
    """A lettered circle for the legend."""
    return (Circle(0, 0, RADIUS, MIDDLE, WHITE), Text(0, -0.75, LETTERS[0], SMALL, SEMIBOLD, "middle"))


def _connector(at: Point, letter: str) -> Shape:
    """A lettered circle on a stub: the link goes on where the same letter stands."""
    x, y = at
    box = Box(x - RADIUS, y + STUB - RADIUS, x + RADIUS, y + STUB + RADIUS)
    stub = Line((x, y), (x, y + STUB - RADIUS), MIDDLE)
    circle = Circle(x, y + STUB, RADIUS, MIDDLE, WHITE)
    return Group(
        f"{CONNECTOR}{letter}",
        box,
        (stub, circle, Text(x, y + STUB - 0.75, letter, SMALL, SEMIBOLD, "middle")),
    )
