"""The exhaust in plan: route, burner, spaces, and the outlet's distance from every opening."""

from itertools import pairwise
from math import dist

from dossier.rendering.drawings.callouts import Board, Callout, set_out
from dossier.rendering.drawings.exhaust import SIDE, TRANSOM, ExhaustRoute, Opening
from dossier.rendering.drawings.exhaust_plan_fit import (
    COLUMN,
    Plan,
    Words,
    far_lines,
    fitted,
    list_columns,
    said,
)
from dossier.rendering.drawings.lettering import (
    CAPITALS,
    REGULAR,
    SEMIBOLD,
    SMALL,
    folded,
    leading,
    text_width,
)
from dossier.rendering.drawings.pens import AXIS, HIDDEN, MIDDLE
from dossier.rendering.drawings.pipe import pipe
from dossier.rendering.drawings.plane import Box, Point, clipped
from dossier.rendering.drawings.scales import (
    Window,
    forward_arrow,
    scale_bar,
    scale_words,
)
from dossier.rendering.drawings.shapes import (
    BLACK,
    WHITE,
    Circle,
    Drawing,
    Group,
    Line,
    Pen,
    Polyline,
    Rect,
    Shape,
    Text,
)
from dossier.rendering.drawings.space import Cuboid, along_polyline, from_above
from dossier.rendering.drawings.space_names import space_names

SHELL = Pen(1.0)
BODY = Pen(0.5)
NAMED = 8  # so many openings bear their names; more are numbered and listed
LINED = 6  # so many of the nearest are joined to the outlet by a line
DOT = 0.9
APART = 4.5  # lines nearer than this share no figure between them
TAG = 5.0  # least height of a box that holds its tag


def exhaust_plan(route: ExhaustRoute, width: float, height: float, words: Words | None = None) -> Drawing:
    """The plan to scale, ``width`` millimetres wide and no more than ``height`` high.

    Openings too far away for a readable scale are listed with their distances; where they are too many or
    too near each other to be named in place, all are numbered and listed.
    """
    words = words or Words()
    plan = fitted(route, (width, height), numbered=False)
    shapes, left_over = _plan(plan, words)
    if left_over or len(plan.drawn) > NAMED:
        plan = fitted(route, (width, height), numbered=True)
        shapes, _ = _plan(plan, words)
    top = plan.list_height
    shapes += scale_bar((2.0, top + 4.8), plan.window.ratio, min(44.0, width / 3))
    shapes += forward_arrow((width - 22.0, top + 3.2), words.forward)
    shapes += _list(plan, words, top)
    return Drawing.of(width, plan.frame.top, shapes, scale_words(plan.window.ratio))


def _plan(plan: Plan, words: Words) -> tuple[list[Shape], bool]:
    """Everything over the scale bar, and whether an opening could not be named."""
    route, window, frame = plan.route, plan.window, plan.frame
    corners = tuple(window.paper(from_above(p)) for p in route.points)
    shapes = _spaces(route, window, frame)
    shapes += _shell(route, window, frame)
    shapes += pipe(corners, route.bore * window.unit, route.lagging * window.unit)
    shapes += _distances(plan.drawn, window, corners[-1])
    shapes += _burner(route.burner, window)
    shapes.append(Circle(*corners[-1], 1.1, None, BLACK))
    shapes += _openings(plan.drawn, window)
    board = Board(frame)
    board.add(shapes)
    lettering, left_over = set_out(_opening_callouts(plan), board)
    others, _ = set_out(_other_callouts(plan, words), board)
    boxes = [window.box(space.low[:2], space.high[:2]) for space in route.compartments]
    lettering += space_names([space.name for space in route.compartments], boxes, board)
    return [*shapes, *lettering, *others], bool(left_over)


def _spaces(route: ExhaustRoute, window: Window, frame: Box) -> list[Shape]:
    """Outlines of spaces, clipped to the frame, and the centreline if it passes."""
    shapes: list[Shape] = []
    for space in route.compartments:
        box = window.box(space.low[:2], space.high[:2])
        for start, end in pairwise(box.outline):
            inside = clipped(start, end, frame)
            if inside:
                shapes.append(Line(*inside, MIDDLE))
    y = window.origin[1]
    if frame.bottom + 1.0 < y < frame.top - 1.0:
        shapes.append(Line((frame.left, y), (frame.right, y), AXIS))
    return shapes


def _shell(route: ExhaustRoute, window: Window, frame: Box) -> list[Shape]:
    """The hull side or the transom at the outlet, open where the pipe goes through."""
    x, y = window.paper(from_above(route.outlet))
    gap = route.bore * window.unit / 2 + 0.8
    if route.led_through == SIDE:
        return [Line((frame.left, y), (x - gap, y), SHELL), Line((x + gap, y), (frame.right, y), SHELL)]
    if route.led_through == TRANSOM:
        return [Line((x, frame.bottom), (x, y - gap), SHELL), Line((x, y + gap), (x, frame.top), SHELL)]
    return []


def _burner(burner: Cuboid, window: Window) -> list[Shape]:
    box = window.box(burner.low[:2], burner.high[:2])
    tag = Text(box.middle[0], box.middle[1] - 1.2, burner.name, CAPITALS, SEMIBOLD, "middle")
    inside: tuple[Shape, ...] = (tag,) if _holds_tag(box, burner.name) else ()
    rect = Rect(box.left, box.bottom, box.width, box.height, BODY, WHITE)
    return [Group(burner.name, box, (rect, *inside))]


def _openings(drawn: tuple[Opening, ...], window: Window) -> list[Shape]:
    """A ring for each opening, a dot for fuel."""
    return [
        Circle(*window.paper(from_above(opening.at)), DOT, MIDDLE, BLACK if opening.is_fuel else WHITE)
        for opening in drawn
    ]


def _distances(drawn: tuple[Opening, ...], window: Window, outlet: Point) -> list[Shape]:
    """Dashed lines from the nearest openings to the outlet."""
    ends = [window.paper(from_above(opening.at)) for opening in drawn[:LINED]]
    far = [at for at in ends if dist(at, outlet) > 4 * DOT]
    return [Polyline((_towards(at, outlet), _towards(outlet, at)), HIDDEN) for at in far]


def _towards(start: Point, end: Point) -> Point:
    """A point on the way from start to end, off the mark at its start."""
    length = dist(start, end)
    step = DOT + 0.5
    return start[0] + (end[0] - start[0]) / length * step, start[1] + (end[1] - start[1]) / length * step


def _opening_callouts(plan: Plan) -> list[Callout]:
    """The outlet's name, and names and distances of the openings or their numbers."""
    outlet = plan.window.paper(from_above(plan.route.outlet))
    ends = [plan.window.paper(from_above(opening.at)) for opening in plan.drawn]
    named: list[Callout] = []
    for n, (opening, at) in enumerate(zip(plan.drawn, ends, strict=True)):
        if plan.numbered:
            named.append(Callout(at, (str(n + 1),), clear=DOT))
            continue
        found = opening.found
        on_a_line = n < LINED and dist(at, outlet) > 4 * DOT and _stands_alone(n, ends, outlet)
        lines = folded(opening.name, COLUMN, SMALL) if on_a_line else folded(said(opening), COLUMN, SMALL)
        named.append(Callout(at, lines, clear=DOT))
        if on_a_line and found:
            named.append(_on_the_way(outlet, at, found))
    return named


def _stands_alone(number: int, ends: list[Point], outlet: Point) -> bool:
    """Whether a distance at the middle of a line is plainly that line's: no other line passes near."""
    end = ends[number]
    middle = ((outlet[0] + end[0]) / 2, (outlet[1] + end[1]) / 2)
    others = [other for n, other in enumerate(ends[:LINED]) if n != number and dist(other, outlet) > 0]
    return all(dist(along_polyline((outlet, other), middle)[0], middle) > APART for other in others)


def _other_callouts(plan: Plan, words: Words) -> list[Callout]:
    """What else is named, as far as there is room: outlet, burner, spaces, shell, centreline."""
    route, window, frame = plan.route, plan.window, plan.frame
    outlet = window.paper(from_above(route.outlet))
    named = [Callout(outlet, (words.outlet,), weight=SEMIBOLD, clear=1.0)]
    box = window.box(route.burner.low[:2], route.burner.high[:2])
    if not _holds_tag(box, route.burner.name):
        named.append(Callout(box.middle, (route.burner.name,), CAPITALS, SEMIBOLD, box.width / 2))
    if route.led_through == SIDE:
        at = (frame.left + 2.0, outlet[1])
        named.append(Callout(at, (words.shell,), leader=False, bearings=(315, 45), clear=0.4))
    elif route.led_through == TRANSOM:
        at = (outlet[0], frame.top - 6.0)
        named.append(Callout(at, (words.transom,), leader=False, bearings=(0, 180), clear=0.4))
    if frame.bottom + 1.0 < window.origin[1] < frame.top - 1.0:
        y, right = window.origin[1], frame.right - text_width(words.centreline, SMALL, REGULAR) - 2.4
        also = tuple((right - part * (right - frame.left), y) for part in (0.25, 0.5, 0.75))
        named.append(Callout((right, y), (words.centreline,), leader=False, also=also, bearings=(45, 315)))
    return named


def _holds_tag(box: Box, name: str) -> bool:
    return text_width(name, CAPITALS, SEMIBOLD) < box.width - 2.0 and box.height > TAG


def _on_the_way(outlet: Point, at: Point, found: str) -> Callout:
    """A distance beside the middle of its line."""
    middle = ((outlet[0] + at[0]) / 2, (outlet[1] + at[1]) / 2)
    return Callout(middle, (found,), leader=False)


def _list(plan: Plan, words: Words, top: float) -> list[Shape]:
    """The numbered openings in columns under the scale bar, then lines of their own."""
    listed = plan.listed
    width = plan.frame.width
    columns, across = list_columns(listed, width)
    rows = -(-len(listed) // columns)
    shapes: list[Shape] = []
    for n, line in enumerate(listed):
        y = top - 2.6 - (n % rows) * leading(SMALL)
        text = folded(line, across - 2.0, SMALL, most=1)[0]
        shapes.append(Text(2.0 + (n // rows) * across, y, text, SMALL))
    for n, line in enumerate(far_lines(plan.far, width, words)):
        shapes.append(Text(2.0, top - 2.6 - (rows + n) * leading(SMALL), line, SMALL))
    return shapes
