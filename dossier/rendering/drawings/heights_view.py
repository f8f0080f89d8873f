"""Header and wet points in one condition of the boat, looking forward, to scale."""

from dataclasses import dataclass

from dossier.rendering.drawings.callouts import Board, Callout, set_out
from dossier.rendering.drawings.dimensions import OVER, Upright
from dossier.rendering.drawings.heights import Heights, Stance, Wet
from dossier.rendering.drawings.lettering import CAPITALS, SEMIBOLD, SMALL, folded
from dossier.rendering.drawings.pens import AXIS, HIDDEN, NARROW, OUTLINE
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.scales import Window
from dossier.rendering.drawings.shapes import (
    BLACK,
    WHITE,
    Circle,
    Group,
    Line,
    Polygon,
    Polyline,
    Shape,
    Text,
)
from dossier.rendering.drawings.space import Place3, heeled, looking_forward, outline

DOT = 0.8
FOLD = 30.0
HEAD = 8.0  # over the view, for its name
BESIDE = 9.0  # from what is drawn to the dimension line
SIGN = (1.5, 2.5)
OUTSIDE = 8.0  # under and over a dimension whose figures stand outside it
TAG = 4.2
MARKED = 8.0  # least height of a header that shows its levels


@dataclass(frozen=True, slots=True)
class View:
    """One condition of the boat."""

    heights: Heights
    stance: Stance

    def seen(self, at: Place3) -> Point:
        """A point aboard as this view shows it, in metres from the centreline and the water."""
        return looking_forward(heeled(at, self.stance.angle, self.stance.side))

    @property
    def extent(self) -> Box:
        """All that is drawn, the water included."""
        boxes = [self.heights.header, *self.heights.parts]
        places = [corner for box in boxes for corner in box.corners]
        places += [point.at for point in self.heights.points]
        flat = [self.seen(place) for place in places]
        return Box.around([Box(x, y, x, y) for x, y in (*flat, (flat[0][0], 0.0))])


def heights_view(view: View, window: Window, frame: Box) -> list[Shape]:
    """The view in its frame: the dimension stands right of all else."""
    heights, stance = view.heights, view.stance
    shapes: list[Shape] = [*_heading(stance, frame), *_water(window, frame)]
    shapes += [Polygon(_turned(part.corners, view, window), NARROW, WHITE) for part in heights.parts]
    shapes.append(_header(view, window))
    shapes += [Circle(*window.paper(view.seen(point.at)), DOT, None, BLACK) for point in heights.points]
    shapes += _margin(view, window, frame)
    shapes += [] if stance.angle else _levels(view, window)
    board = Board(frame)
    board.add(shapes)
    lettering, _ = set_out(_callouts(view, window), board)
    return [*shapes, *lettering]


def _turned(corners: tuple[Place3, ...], view: View, window: Window) -> tuple[Point, ...]:
    return tuple(window.paper(p) for p in outline(view.seen(corner) for corner in corners))


def _heading(stance: Stance, frame: Box) -> list[Shape]:
    name = Text(frame.left + 1.2, frame.top - 3.2, stance.name, CAPITALS, SEMIBOLD)
    if not stance.note:
        return [name]
    return [name, Text(name.x + name.width + 3.0, frame.top - 3.2, stance.note, SMALL)]


def _water(window: Window, frame: Box) -> list[Shape]:
    """The loaded waterline with its sign."""
    y, x = window.origin[1], frame.left + 3.0
    half, high = SIGN
    sign = ((x, y), (x - half, y + high), (x + half, y + high), (x, y))
    return [Line((frame.left, y), (frame.right, y), AXIS), Polyline(sign, NARROW)]


def _header(view: View, window: Window) -> Shape:
    corners = _turned(view.heights.header.corners, view, window)
    box = Box.around([Box(x, y, x, y) for x, y in corners])
    inside: list[Shape] = [Polygon(corners, OUTLINE, WHITE)]
    x, y = box.middle
    tag = Text(x, y - 1.3, view.heights.header.name, CAPITALS, SEMIBOLD, "middle")
    if _holds_tag(view, box):
        inside.append(tag)
    return Group(view.heights.header.name, box, tuple(inside))


def _holds_tag(view: View, box: Box) -> bool:
    """Whether the header's tag fits into it, clear of its marks."""
    tag = Text(0, 0, view.heights.header.name, CAPITALS, SEMIBOLD)
    marked = bool(view.heights.levels) and box.height >= MARKED
    return box.width > tag.width + 2.0 and box.height > TAG and not marked


def _margin(view: View, window: Window, frame: Box) -> list[Shape]:
    """The level of the header's bottom, and its height over the point that counts."""
    foot = window.paper(view.seen(view.heights.foot))
    shapes: list[Shape] = [Circle(*foot, DOT / 2, None, BLACK)]
    point = view.heights.point(view.stance.over)
    if point is None:
        return shapes
    at = window.paper(view.seen(point.at))
    dimension = dimension_of(view, window, frame)
    for x, y in (foot, at):
        end = dimension.x + OVER if dimension.x > x else dimension.x - OVER
        shapes.append(Line((x + 1.4, y), (end, y), HIDDEN if (x, y) == foot else NARROW))
    return [*shapes, *dimension.shapes()]


def dimension_of(view: View, window: Window, frame: Box) -> Upright:
    """The header's height over the point that counts, at the right of the frame."""
    point = view.heights.point(view.stance.over)
    foot = window.paper(view.seen(view.heights.foot))[1]
    low = window.paper(view.seen(point.at))[1] if point else foot
    upright = Upright(0.0, low, foot, view.stance.found, view.stance.limit)
    x = frame.right - upright.reach - 1.0
    return Upright(x, low, foot, view.stance.found, view.stance.limit)


def _levels(view: View, window: Window) -> list[Shape]:
    """Marks of the levels in the header; the words come as callouts."""
    return [Line(*ends, NARROW) for ends, _ in level_lines(view, window)]


def level_lines(view: View, window: Window) -> list[tuple[tuple[Point, Point], str]]:
    """Ends of each mark on paper, and its words; none in a header drawn too small for them."""
    low, high = view.heights.header.low, view.heights.header.high
    if (high[2] - low[2]) * window.unit < MARKED:
        return []
    found = []
    for share, words in view.heights.levels:
        z = low[2] + share * (high[2] - low[2])
        left, right = (window.paper(view.seen((low[0], y, z))) for y in (high[1], low[1]))
        found.append(((left, right), words))
    return found


def _callouts(view: View, window: Window) -> list[Callout]:
    """Wet points with their heights, the header's, and tags of the parts; heeled only what counts."""
    heights, stance = view.heights, view.stance
    foot = window.paper(view.seen(heights.foot))
    box = _around(heights.header.corners, view, window)
    named: list[Callout] = []
    if not _holds_tag(view, box):
        named.append(_beside(box, (heights.header.name,), CAPITALS, SEMIBOLD))
    if stance.angle:
        counts = heights.point(stance.over)
        return [*named, *([_point(counts, view, window, said=False)] if counts else [])]
    named.append(Callout(foot, folded(heights.said, FOLD, SMALL), near=False, clear=DOT))
    named += [_point(point, view, window) for point in heights.points]
    named += [
        Callout(right, (words,), leader=False, bearings=(0,))
        for (_, right), words in level_lines(view, window)
    ]
    boxes = [_around(part.corners, view, window) for part in heights.parts]
    for part, around in zip(heights.parts, boxes, strict=True):
        alone = not any(other.meets(around) for other in boxes if other is not around)
        named.append(_beside(around, folded(part.name, FOLD, SMALL), SMALL, SEMIBOLD, near=alone))
    return named


def _around(corners: tuple[Place3, ...], view: View, window: Window) -> Box:
    """The box round a part as it is seen."""
    return Box.around([Box(x, y, x, y) for x, y in _turned(corners, view, window)])


def _beside(box: Box, lines: tuple[str, ...], size: float, weight: str, *, near: bool = True) -> Callout:
    """Lettering beside a box, on a leader where it would not be plain which box it names."""
    x, y = box.middle
    also = ((box.left, y), (x, box.top), (x, box.bottom))
    return Callout((box.right, y), lines, size, weight, 0.4, near=near, also=also)


def _point(point: Wet, view: View, window: Window, *, said: bool = True) -> Callout:
    lines = folded(point.name, FOLD, SMALL)
    return Callout(window.paper(view.seen(point.at)), (*lines, point.said) if said else lines, clear=DOT)
