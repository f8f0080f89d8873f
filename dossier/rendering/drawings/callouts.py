"""Lettering set where it meets nothing: candidate places round a point, those with fewest choices first."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import islice
from math import cos, hypot, radians, sin

from dossier.rendering.drawings.lettering import ITALIC, REGULAR, SMALL, ascent, descent, leading, text_width
from dossier.rendering.drawings.pens import NARROW
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.record import Patterned, Piece, chords, crosses, cuts
from dossier.rendering.drawings.shapes import BLACK, Circle, Group, Line, Shape, Text

AIR = 0.5  # kept round every label
NEAR = (1.6, 2.6, 4.0)  # distances of a label without a leader
FAR = (6.0, 9.0, 12.0, 16.0, 21.0, 27.0)  # with one
LETTERS = "abcdefghijklmnopqrstuvwxyz"
MANY = 10  # free places beyond which a label is in no hurry
STRIDE, RISE = 1.5, 0.6  # from one place to the next that lettering is tried in
SLIGHT = 0.1  # of a direction: as good as nothing
BEARINGS = (0, 90, 180, 270, 45, 135, 315, 225, 20, 160, 340, 200, 65, 115, 245, 295)


@dataclass(frozen=True, slots=True)
class Callout:
    """Lettering that belongs to a point or any of several: ``near`` beside it, else off on a ``leader``."""

    at: Point
    lines: tuple[str, ...]
    size: float = SMALL
    weight: str = REGULAR
    clear: float = 0.0
    leader: bool = True
    near: bool = True
    also: tuple[Point, ...] = ()
    bearings: tuple[int, ...] = BEARINGS

    @property
    def measure(self) -> tuple[float, float]:
        """Width and height of the lettering."""
        width = max(text_width(line, self.size, self.weight) for line in self.lines)
        return width, ascent(self.size) + descent(self.size) + (len(self.lines) - 1) * leading(self.size)


@dataclass
class Board:
    """What already stands on a drawing: boxes that lettering may not meet, lines it may not touch."""

    frame: Box
    boxes: list[Box] = field(default_factory=list)
    pieces: list[tuple[float, float, float, float, Piece]] = field(default_factory=list)
    """Pieces of lines, each after its leftmost, rightmost, lowest and highest place: most lie far away."""

    def add(self, shapes: Iterable[Shape]) -> None:
        """Take shapes as standing."""
        for shape in shapes:
            if isinstance(shape, Group | Patterned):
                self.boxes.append(shape.box)
                continue
            for part in shape.parts():
                if isinstance(part, Text):
                    self.boxes.append(part.box)
                else:
                    width = part.pen.width if part.pen else 0.0
                    self.pieces += [_placed(Piece(a, b, width)) for a, b in chords(part)]

    def is_free(self, box: Box) -> bool:
        """Whether lettering may stand in a box."""
        grown = box.grown(AIR)
        if not self.frame.holds(box) or any(grown.meets(other) for other in self.boxes):
            return False
        left, bottom, right, top = grown.left, grown.bottom, grown.right, grown.top
        return not any(
            least < right and most > left and low < top and high > bottom and cuts(piece, grown)
            for least, most, low, high, piece in self.pieces
        )

    def lets_pass(self, start: Point, end: Point) -> bool:
        """Whether a leader may run from point to point: through no lettering and no sign."""
        return not any(crosses(start, end, box.grown(0.3)) for box in self.boxes)


def _placed(piece: Piece) -> tuple[float, float, float, float, Piece]:
    """A piece after its leftmost, rightmost, lowest and highest place, its width counted."""
    (x0, y0), (x1, y1), half = piece.start, piece.end, piece.width / 2
    return min(x0, x1) - half, max(x0, x1) + half, min(y0, y1) - half, max(y0, y1) + half, piece


def set_out(callouts: list[Callout], board: Board) -> tuple[list[Shape], list[Callout]]:
    """Shapes of all lettering that found a place, and what found none; the board takes what was set."""
    shapes: list[Shape] = []
    left_over: list[Callout] = []
    waiting = sorted(
        enumerate(callouts),
        key=lambda each: (sum(1 for _ in islice(_free(each[1], board, NEAR), MANY)), each[0]),
    )
    for _, callout in waiting:
        made = next(_set(callout, board), None)
        if made is None:
            left_over.append(callout)
            continue
        board.add(made)
        shapes += made
    return shapes, left_over


def set_out_with_key(callouts: list[Callout], board: Board) -> tuple[list[Shape], list[str]]:
    """As ``set_out``; what finds no place gets a letter at its point, and its words come back as a key."""
    shapes, rest = set_out(callouts, board)
    key: list[str] = []
    for n, callout in enumerate(sorted(rest, key=lambda each: each.at)):
        letter = LETTERS[n % len(LETTERS)]
        mark = Callout(callout.at, (letter,), weight=ITALIC, clear=callout.clear)
        more, _ = set_out([mark], board)
        shapes += more
        key.append(f"{letter} {' '.join(callout.lines)}" if more else " ".join(callout.lines))
    return shapes, key


def set_within(lines: tuple[str, ...], box: Box, board: Board, avoid: Iterable[Box] = ()) -> list[Shape]:
    """Small lettering in the first free place within a box, from its upper left corner; none if all is taken.

    It stands in none of the boxes to ``avoid`` if there is any other place.
    """
    size, shunned = SMALL, list(avoid)
    width, height = Callout((0.0, 0.0), lines, size).measure
    steps = max(0, int((box.width - width) / STRIDE))
    rows = max(0, int((box.height - height) / RISE))
    for row in range(rows + 1):
        for step in range(steps + 1):
            left, top = box.left + step * STRIDE, box.top - row * RISE
            place = Box(left, top - height, left + width, top)
            shuns = any(place.meets(other) for other in shunned)
            if box.grown(SLIGHT).holds(place) and not shuns and board.is_free(place):
                first = top - ascent(size)
                shapes: list[Shape] = [
                    Text(left, first - n * leading(size), line, size) for n, line in enumerate(lines)
                ]
                board.add(shapes)
                return shapes
    return set_within(lines, box, board) if shunned else []


def _set(callout: Callout, board: Board) -> Iterator[list[Shape]]:
    """Every way to set one callout, the nearest first."""
    if callout.near:
        for _, _, box in _free(callout, board, NEAR):
            yield _lettered(callout, box)
    if not callout.leader:
        return
    for at, bearing, box in _free(callout, board, FAR):
        end = _edge(box, bearing)
        start = _off(at, end, callout.clear)
        if board.lets_pass(start, end):
            tip: list[Shape] = [] if callout.clear else [Circle(*start, 0.45, None, BLACK)]
            yield [*tip, Line(start, end, NARROW), *_lettered(callout, box)]


def _free(callout: Callout, board: Board, distances: tuple[float, ...]) -> Iterator[tuple[Point, int, Box]]:
    """Free places: the point they belong to, the bearing from it, and the room of the lettering."""
    for distance in distances:
        for at in (callout.at, *callout.also):
            for bearing in callout.bearings:
                box = _box(callout, at, bearing, callout.clear + distance)
                if board.is_free(box):
                    yield at, bearing, box


def _box(callout: Callout, at: Point, bearing: int, distance: float) -> Box:
    """The box whose nearest edge or corner lies so far off in that direction."""
    width, height = callout.measure
    c, s = cos(radians(bearing)), sin(radians(bearing))
    x, y = at[0] + distance * c, at[1] + distance * s
    left = x - width * (0.5 - 0.5 * _sign(c))
    bottom = y - height * (0.5 - 0.5 * _sign(s))
    return Box(left, bottom, left + width, bottom + height)


def _sign(number: float) -> float:
    """-1, 0 or 1; a little off the axis counts as on it."""
    return 0.0 if abs(number) < SLIGHT else (1.0 if number > 0 else -1.0)


def _off(start: Point, end: Point, clear: float) -> Point:
    """Where a leader begins: at the edge of the mark it belongs to."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    part = min(clear / length, 1.0) if length else 0.0
    return start[0] + part * (end[0] - start[0]), start[1] + part * (end[1] - start[1])


def _edge(box: Box, bearing: int) -> Point:
    """Where a leader meets the lettering: the middle of the side it comes to."""
    c = cos(radians(bearing))
    x, y = box.middle
    if abs(c) > SLIGHT:
        return (box.left - 0.6, y) if c > 0 else (box.right + 0.6, y)
    return (x, box.bottom - 0.6) if sin(radians(bearing)) > 0 else (x, box.top + 0.6)


def _lettered(callout: Callout, box: Box) -> list[Shape]:
    first = box.top - ascent(callout.size)
    x = box.middle[0]
    return [
        Text(x, first - n * leading(callout.size), line, callout.size, callout.weight, "middle")
        for n, line in enumerate(callout.lines)
    ]
