"""The exhaust in elevation, upright and heeled, all on one waterline and one scale."""

from itertools import pairwise
from math import dist

from dossier.rendering.drawings.callouts import Board, Callout, set_out_with_key
from dossier.rendering.drawings.dimensions import OVER, Upright
from dossier.rendering.drawings.exhaust import Condition, ExhaustRoute, Height, Mark
from dossier.rendering.drawings.exhaust_fit import BETWEEN, FOOT, MARGIN, Figures, fit_for
from dossier.rendering.drawings.exhaust_view import View
from dossier.rendering.drawings.lettering import CAPITALS, SEMIBOLD, SMALL, folded, leading
from dossier.rendering.drawings.pens import AXIS, NARROW
from dossier.rendering.drawings.pipe import across, distinct, pipe
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.scales import Window, scale_bar, scale_words
from dossier.rendering.drawings.shapes import (
    WHITE,
    Arrow,
    Drawing,
    Group,
    Line,
    Pen,
    Polygon,
    Polyline,
    Shape,
    Text,
)
from dossier.rendering.drawings.space import along_polyline

SHELL = Pen(1.0)
BODY = Pen(0.5)
FOLD = 40.0  # width of callouts
SMALLEST = 1e-6


def exhaust_elevation(
    route: ExhaustRoute, conditions: tuple[Condition, ...], width: float, height: float = 110.0
) -> Drawing:
    """The route to scale in each condition side by side, within ``width`` and ``height`` millimetres."""
    views = tuple(View(route, condition) for condition in conditions)
    fit = fit_for(views, width, height)
    share = max(0.0, width - fit.total) / len(views)
    key_lines: list[str] = []
    shapes: list[Shape] = []
    x = 0.0
    for view in views:
        room = fit.width(view) + share
        left = x + Figures(view, fit.unit).beside[0] + share / 2 - view.extent.left * fit.unit
        window = Window(fit.ratio, (left, FOOT + MARGIN - fit.low))
        drawn, key = _view(view, window, Box(x, FOOT, x + room, fit.height))
        shapes += drawn
        key_lines += key
        x += room + BETWEEN
    shapes += scale_bar((2.0, 4.8), fit.ratio, min(60.0, width / 3))
    across_paper = max(width, fit.total)
    text = "; ".join(key_lines)
    left = min(60.0, width / 3) + 14.0
    for n, line in enumerate(folded(text, across_paper - left, SMALL, most=2) if text else ()):
        shapes.append(Text(left, 5.0 - n * leading(SMALL), line, SMALL))
    return Drawing.of(across_paper, fit.height, shapes, scale_words(fit.ratio))


def _view(view: View, window: Window, frame: Box) -> tuple[list[Shape], list[str]]:
    """One view in its frame, and the key of what found no place beside its point."""
    board = Board(frame)
    shapes: list[Shape] = _heading(view.condition, frame)
    shapes += _water(view, window, frame)
    shapes += _shell(view, window)
    corners = tuple(window.paper(p) for p in view.pipe)
    bore, lagging = view.route.bore * window.unit, view.route.lagging * window.unit
    shapes += pipe(corners, bore, lagging)
    shapes += _burner(view, window)
    if not view.condition.angle:
        for passage in view.route.passages:
            shapes += across(corners, window.paper(view.seen(passage.at)), bore / 2 + lagging + 1.0)
        shapes += _drains(view, window)
    shapes += _dimensions(view, window)
    board.add(shapes)
    lettering, key = set_out_with_key(_callouts(view, window, corners), board)
    return shapes + lettering, key


def _heading(condition: Condition, frame: Box) -> list[Shape]:
    name = Text(frame.left, frame.top - 3.2, condition.name, CAPITALS, SEMIBOLD)
    if not condition.note:
        return [name]
    return [name, Text(frame.left + name.width + 3.0, frame.top - 3.2, condition.note, SMALL)]


def _water(view: View, window: Window, frame: Box) -> list[Shape]:
    """The waterline: an axis within the boat, the surface of the water outside her."""
    y = window.origin[1]
    inner, outer = (frame.left, frame.right) if view.out > 0 else (frame.right, frame.left)
    sign = outer - view.out * 2.4
    shapes: list[Shape] = [Polygon(((sign, y), (sign - 1.5, y + 2.5), (sign + 1.5, y + 2.5)), NARROW, WHITE)]
    if view.shell_at_water is None:
        return [*shapes, Line((inner, y), (outer, y), AXIS)]
    shell = window.paper((view.shell_at_water, 0.0))[0]
    shapes += [Line((inner, y), (shell, y), AXIS), Line((shell, y), (outer, y), NARROW)]
    if view.condition.outlet and view.rim[1] < 0:
        return shapes
    middle, half = (shell + outer) / 2, abs(outer - shell) / 2
    for n, part in enumerate((0.8, 0.55, 0.3)):
        depth = y - 1.3 * (n + 1)
        shapes.append(Line((middle - half * part, depth), (middle + half * part, depth), NARROW))
    return shapes


def _shell(view: View, window: Window) -> list[Shape]:
    """The shell, open where the pipe goes through."""
    line = distinct(tuple(window.paper(p) for p in view.shell))
    if len(line) == 1:
        return []
    outlet = window.paper(view.pipe[-1])
    (x, y), (ux, uy) = along_polyline(line, outlet)
    hole = view.route.bore * window.unit / 2 + 0.8
    shapes: list[Shape] = []
    if abs(x - outlet[0]) + abs(y - outlet[1]) > hole:
        return [Polyline(line, SHELL)]
    before: list[Point] = []
    after: list[Point] = []
    for point in line:
        is_before = (point[0] - x) * ux + (point[1] - y) * uy < 0
        (before if is_before else after).append(point)
    if before:
        shapes.append(Polyline((*before, (x - ux * hole, y - uy * hole)), SHELL))
    if after:
        shapes.append(Polyline(((x + ux * hole, y + uy * hole), *after), SHELL))
    return shapes


def _burner(view: View, window: Window) -> list[Shape]:
    """The burner's outline with its tag."""
    corners = tuple(window.paper(p) for p in view.burner)
    box = Box.around([Box(x, y, x, y) for x, y in corners])
    tag = Text(box.middle[0], box.middle[1] - 1.2, view.route.burner.name, CAPITALS, SEMIBOLD, "middle")
    inside: tuple[Shape, ...] = (tag,) if tag.width < box.width - 2.0 else ()
    return [Group(view.route.burner.name, box, (Polygon(corners, BODY, WHITE), *inside))]


def _drains(view: View, window: Window) -> list[Shape]:
    """Drains as short lines down from the pipe."""
    shapes: list[Shape] = []
    for drain in view.route.drains:
        (x, y), end = _drain(drain, view, window)
        shapes += [Polyline(((x, y), (end, y), (end, y - 4.0)), NARROW), Arrow(end, y - 6.2, 270, 2.2, 1.5)]
    return shapes


def _drain(drain: Mark, view: View, window: Window) -> tuple[Point, float]:
    """Where a drain leaves the pipe, and where it leads down: clear of the burner on the inner side."""
    x, y = window.paper(view.seen(drain.at))
    edges = [window.paper(p)[0] for p in view.burner]
    inner = min(edges) - 2.0 if view.out > 0 else max(edges) + 2.0
    end = x - view.out * 5.5
    return (x, y), (min(end, inner) if view.out > 0 else max(end, inner))


def _dimensions(view: View, window: Window) -> list[Shape]:
    """Heights over the water: the loop on the inner side, the outlet on the outer side."""
    shapes: list[Shape] = []
    water = window.origin[1]
    figures = Figures(view, window.unit)
    extent = view.extent
    inner, outer = (extent.left, extent.right) if view.out > 0 else (extent.right, extent.left)
    if view.condition.loop:
        x, y = window.paper(view.highest)
        at = window.paper((inner, 0.0))[0] - view.out * figures.inboard
        shapes += _height(view.condition.loop, (at, water, (x, y)), -view.out)
    if view.condition.outlet:
        x, y = window.paper(view.rim)
        at = window.paper((outer, 0.0))[0] + view.out * figures.outboard
        shapes += _height(view.condition.outlet, (at, water, (x, y)), view.out)
    return shapes


def _height(height: Height, place: tuple[float, float, Point], side: int) -> list[Shape]:
    at, water, (x, y) = place
    away = 1.2 if at > x else -1.2
    extension = Line((x + away, y), (at + (OVER if at > x else -OVER), y), NARROW)
    return [extension, *Upright(at, water, y, height.found, height.limit, side).shapes()]


def _callouts(view: View, window: Window, corners: tuple[Point, ...]) -> list[Callout]:
    """What is named; lagging, fitting, passages and drains only where the boat stands upright."""
    route = view.route
    named: list[Callout] = []
    tag = Text(0, 0, route.burner.name, CAPITALS, SEMIBOLD)
    burner = Box.around([Box(x, y, x, y) for x, y in (window.paper(p) for p in view.burner)])
    if tag.width >= burner.width - 2.0:
        named.append(Callout(burner.middle, (route.burner.name,), CAPITALS, SEMIBOLD, burner.width / 2))
    if view.condition.angle:
        return named
    if route.fitting:
        named.append(Callout(corners[-1], folded(route.fitting, FOLD, SMALL), near=False))
    if route.lagging_text and len(corners) > 1:
        offset = (route.bore / 2 + 0.8 * route.lagging) * window.unit
        named.append(Callout(_on_lagging(corners, offset), (route.lagging_text,), near=False))
    named += [
        Callout(window.paper(view.seen(passage.at)), folded(passage.text, FOLD, SMALL), near=False)
        for passage in route.passages
    ]
    for drain in route.drains:
        (_, y), end = _drain(drain, view, window)
        named.append(Callout((end, y - 4.0), folded(drain.text, FOLD, SMALL)))
    return named


def _on_lagging(corners: tuple[Point, ...], offset: float) -> Point:
    """A point within the lagging of the longest leg."""
    (x0, y0), (x1, y1) = max(pairwise(corners), key=lambda leg: dist(*leg))
    length = max(dist((x0, y0), (x1, y1)), SMALLEST)
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    return (x0 + x1) / 2 + uy * offset, (y0 + y1) / 2 - ux * offset
