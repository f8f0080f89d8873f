"""One view of the arrangement: spaces, parts with the room kept free round them, the exhaust's way."""

from collections.abc import Iterator
from itertools import pairwise

from dossier.rendering.drawings.arrangement import Arrangement, Part, Service, Way, seen
from dossier.rendering.drawings.arrangement_fit import View
from dossier.rendering.drawings.callouts import Board, Callout, set_out_with_key
from dossier.rendering.drawings.lettering import CAPITALS, SEMIBOLD, SMALL, folded, text_width
from dossier.rendering.drawings.pens import AXIS, EXHAUST, HIDDEN, LINK, MIDDLE, NARROW, OUTLINE
from dossier.rendering.drawings.plane import Box, Point, clipped, pieces_within
from dossier.rendering.drawings.shapes import (
    BLACK,
    WHITE,
    Circle,
    Group,
    Line,
    Pen,
    Polyline,
    Rect,
    Shape,
    Text,
)
from dossier.rendering.drawings.space import Place3
from dossier.rendering.drawings.space_names import space_names

DOTTED = Pen(0.25, (0.5, 0.9))
SPOTS = (1.0, 0.0, 0.9, 0.1, 0.75, 0.25, 0.6, 0.4)  # of the width, for the sign of the water
TAG = 4.2  # least height of a box that holds its tag
NAME = 38.0  # width to which names fold
CLEAR = 0.4  # from a part to its tag's leader
MARK = 0.8  # radius of the outlet


def arrangement_view(arrangement: Arrangement, view: View, outlet: str) -> tuple[list[Shape], list[str]]:
    """The view, and the key of what found no room for its name."""
    shapes = _spaces(arrangement, view) + _ways(arrangement, view)
    parts = in_order(view)
    for part in parts:
        shapes += _services(part, view)
    for part in parts:
        shapes.append(_body(part, parts, view))
    shapes += _behind(parts, view)
    board = Board(view.frame)
    board.add(shapes)
    board.boxes += [_box(part, view) for part in parts]
    axis = _axis(view)
    shapes = [*axis, *shapes, *_water_sign(view, board)]
    board.add(axis)
    figures, beside = _service_texts(parts, view, board)
    callouts = [*_callouts(arrangement, parts, view, outlet), *beside]
    lettering, key = set_out_with_key(callouts, board)
    shapes += [*figures, *lettering]
    if not view.is_detail:
        boxes = [view.window.box(*_corners(seen(space, view.way))) for space in arrangement.spaces]
        shapes += space_names([space.name for space in arrangement.spaces], boxes, board)
    return shapes, key


def _corners(box: Box) -> tuple[Point, Point]:
    return (box.left, box.bottom), (box.right, box.top)


def _box(part: Part, view: View) -> Box:
    return view.window.box(*_corners(seen(part.box, view.way)))


def in_order(view: View) -> list[Part]:
    """Parts that lie in the frame, from the farthest to the nearest of the eye."""
    parts = [part for part in view.parts if view.frame.holds(_box(part, view))]
    if view.way is Way.PLAN:
        return sorted(parts, key=lambda part: part.box.high[2])
    return sorted(parts, key=lambda part: -part.box.low[1])


def _spaces(arrangement: Arrangement, view: View) -> list[Shape]:
    """Outlines of the spaces, a wall that two of them share drawn once; in a detail its own alone."""
    drawn: set[tuple[Point, Point]] = set()
    shapes: list[Shape] = []
    for space in (view.space,) if view.space else arrangement.spaces:
        outline = view.window.box(*_corners(seen(space, view.way))).outline
        for start, end in pairwise(outline):
            edge = (min(start, end), max(start, end))
            piece = clipped(*edge, view.frame)
            if edge not in drawn and piece:
                drawn.add(edge)
                shapes.append(Line(*piece, MIDDLE))
    return shapes


def _axis(view: View) -> list[Shape]:
    """The centreline, or the loaded waterline with its sign."""
    frame, y = view.frame, view.window.origin[1]
    if not frame.bottom + 1.0 < y < frame.top - 1.0:
        return []
    return [Line((frame.left, y), (frame.right, y), AXIS)]


def _water_sign(view: View, board: Board) -> list[Shape]:
    """The sign of the waterline, where nothing stands in its way."""
    frame, y = view.frame, view.window.origin[1]
    if view.way is Way.PLAN or not frame.bottom + 1.0 < y < frame.top - 3.0:
        return []
    for part in SPOTS:
        x = frame.left + 2.4 + part * (frame.width - 4.8)
        if board.is_free(Box(x - 1.5, y - 0.3, x + 1.5, y + 2.5)):
            sign = Polyline(((x, y), (x - 1.5, y + 2.5), (x + 1.5, y + 2.5), (x, y)), NARROW)
            board.add([sign])
            return [sign]
    return []


def _paper(line: tuple[Place3, ...], view: View) -> tuple[Point, ...]:
    return tuple(view.window.paper(view.way.flat(point)) for point in line)


def _ways(arrangement: Arrangement, view: View) -> list[Shape]:
    """Pipes that have a route, then the exhaust with its outlet; in a detail where it begins there."""
    shapes: list[Shape] = []
    for pipe in arrangement.pipes:
        shapes += [Polyline(piece, LINK) for piece in pieces_within(_paper(pipe, view), view.frame)]
    line = _exhaust(arrangement, view)
    inner = view.frame.grown(-EXHAUST.double)
    shapes += [Polyline(piece, EXHAUST) for piece in pieces_within(line, inner)]
    if line and view.frame.holds(Box(*line[-1], *line[-1])):
        shapes.append(Circle(*line[-1], MARK, None, BLACK))
    return shapes


def _exhaust(arrangement: Arrangement, view: View) -> tuple[Point, ...]:
    """The exhaust's axis on paper, where the view shows it."""
    route = arrangement.exhaust
    if len(route) < 2 or (view.space is not None and not view.space.holds(route[0])):  # noqa: PLR2004 - a line
        return ()
    return _paper(route, view)


def _services(part: Part, view: View) -> list[Shape]:
    """Room kept free, dashed; crossed out where it is not there."""
    shapes: list[Shape] = []
    for service in shown(part, view):
        box = view.window.box(*_corners(seen(part.envelope(service), view.way)))
        lines = [(box.outline, HIDDEN)]
        if service.short:
            low, right, high, left, _ = box.outline
            lines += [((low, high), NARROW), ((left, right), NARROW)]
        for line, pen in lines:
            shapes += [Polyline(piece, pen) for piece in pieces_within(line, view.frame)]
    return shapes


def shown(part: Part, view: View) -> tuple[Service, ...]:
    """Services that lie in the plane of the view, not before or behind the part."""
    hidden = {"top", "bottom"} if view.way is Way.PLAN else {"port", "starboard"}
    return tuple(service for service in part.services if service.side not in hidden)


def _body(part: Part, parts: list[Part], view: View) -> Shape:
    box = _box(part, view)
    body = Rect(box.left, box.bottom, box.width, box.height, OUTLINE, WHITE)
    if not _holds_tag(part, parts, view):
        return body
    x, y = box.middle
    return Group(part.tag, box, (body, Text(x, y - 1.3, part.tag, CAPITALS, SEMIBOLD, "middle")))


def _holds_tag(part: Part, parts: list[Part], view: View) -> bool:
    """Whether the tag fits into the part and no other part lies over or behind it."""
    box = _box(part, view)
    fits = box.height >= TAG and box.width >= text_width(part.tag, CAPITALS, SEMIBOLD) + 1.6
    return fits and not any(_box(other, view).meets(box) for other in parts if other is not part)


def _behind(parts: list[Part], view: View) -> list[Shape]:
    """Dotted outlines of the parts that stand behind another."""
    shapes: list[Shape] = []
    for n, part in enumerate(parts):
        box = _box(part, view)
        if any(_box(other, view).meets(box) for other in parts[n + 1 :]):
            shapes.append(Rect(box.left, box.bottom, box.width, box.height, DOTTED))
    return shapes


def _service_texts(parts: list[Part], view: View, board: Board) -> tuple[list[Shape], list[Callout]]:
    """How deep each room is, within it or with a leader; in details only."""
    shapes: list[Shape] = []
    beside: list[Callout] = []
    for part in parts if view.is_detail else ():
        for service in shown(part, view):
            box = view.window.box(*_corners(seen(part.envelope(service), view.way)))
            if service.short:
                lines = folded(service.short, NAME, SMALL)
                beside.append(Callout(box.middle, lines, weight=SEMIBOLD, near=False))
                continue
            figure = _in_the_middle(service.text, box, board)
            shapes += figure
            if not figure:
                beside.append(Callout(box.middle, (service.text,), near=False))
    return shapes, beside


def _in_the_middle(text: str, box: Box, board: Board) -> list[Shape]:
    x, y = box.middle
    figure = Text(x, y - 0.95, text, SMALL, anchor="middle")
    if not box.grown(-0.4).holds(figure.box) or not board.is_free(figure.box):
        return []
    board.add([figure])
    return [figure]


def _callouts(arrangement: Arrangement, parts: list[Part], view: View, outlet: str) -> Iterator[Callout]:
    """Tags that do not fit into their parts, and the outlet."""
    for part in parts:
        if not _holds_tag(part, parts, view):
            box = _box(part, view)
            x, y = box.middle
            lines = folded(part.tag, NAME, CAPITALS, SEMIBOLD)
            also = ((box.left, y), (x, box.top), (x, box.bottom))
            alone = not any(_box(other, view).meets(box) for other in parts if other is not part)
            yield Callout((box.right, y), lines, CAPITALS, SEMIBOLD, CLEAR, near=alone, also=also)
    line = _exhaust(arrangement, view)
    if line and view.frame.grown(-1.0).holds(Box(*line[-1], *line[-1])):
        yield Callout(line[-1], (outlet,), weight=SEMIBOLD, clear=MARK)
