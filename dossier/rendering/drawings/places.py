"""A small plan of the boat on which numbered places are marked: seen from above, the bow to the right.

The outline is drawn from length, beam and compartments alone and shows no more than what lies where. A
number stands in its compartment, or at the very point where that is known. What finds no room inside stands
beside the hull with a line to it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from dossier.rendering.drawings.lettering import BOLD, ITALIC, REGULAR, ascent, leading, text_width
from dossier.rendering.drawings.pens import MIDDLE
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.shapes import (
    BLACK,
    WHITE,
    Circle,
    Drawing,
    Line,
    Pen,
    Polygon,
    Rect,
    Shape,
    Text,
)

HULL = Pen(0.7)
ROOM = Pen(0.35, (2.4, 0.8))
SIZE = 14.0
"""Points: what is read at arm's length."""
LEAST = 10.0
RADIUS = 3.2
PITCH = 2 * RADIUS + 0.9
HIGHEST = 26.0
"""The hull may be drawn broader or narrower than it is long, so that the card holds it (mm)."""
SLENDER = 0.3
STRAIGHT = 0.55
STEPS = 24
TAPERS = (2.0, 2.6, 3.4, 4.6, 6.5, 10.0, 20.0)
ROW = PITCH + 2.2
GAP = 2.0


@dataclass(frozen=True, slots=True)
class Room:
    """A compartment: its name as people read it, its box in metres (x forward, y to port), its sole."""

    name: str
    box: Box
    sole: float = 0.0


@dataclass(frozen=True, slots=True)
class Mark:
    """A number, and where it stands: a point in metres, or the name of a room."""

    number: str
    at: Point | None = None
    room: str = ""


@dataclass(frozen=True, slots=True)
class _Words:
    """A name in lines, over dots in rows of so many."""

    lines: tuple[str, ...]
    numbers: tuple[str, ...]
    across: int

    @property
    def rows(self) -> int:
        return -(-len(self.numbers) // self.across) if self.numbers else 0

    @property
    def width(self) -> float:
        written = [text_width(line, SIZE) for line in self.lines]
        return max([*written, min(len(self.numbers), self.across) * PITCH])

    @property
    def height(self) -> float:
        return len(self.lines) * leading(SIZE) + self.rows * PITCH

    def drawn(self, left: float, bottom: float) -> Iterator[Shape]:
        """Name and dots about one middle line."""
        middle, top = left + self.width / 2, bottom + self.height
        for count, line in enumerate(self.lines, 1):
            base = top - count * leading(SIZE) + (leading(SIZE) - ascent(SIZE)) * 0.7
            yield Text(middle, base, line, SIZE, REGULAR, "middle")
        for row in range(self.rows):
            shown = self.numbers[row * self.across : (row + 1) * self.across]
            y = bottom + (self.rows - row - 0.5) * PITCH
            for place, number in enumerate(shown):
                yield from _dot((middle + (place - (len(shown) - 1) / 2) * PITCH, y), number)


def places_plan(  # noqa: PLR0913, PLR0917 - a boat, what is marked in it, and the sheet
    length: float | None,
    beam: float | None,
    rooms: Sequence[Room],
    marks: Sequence[Mark],
    width: float,
    hint: str = "",
) -> Drawing:
    """The plan in ``width`` millimetres; lengths of the boat in metres.

    ``hint`` stands in the outline of a boat without rooms, which is there to write on.
    """
    return _Plan(length, beam, rooms, width).drawn(marks, hint)


class _Plan:
    """The hull on the sheet, and the rooms in it."""

    def __init__(self, length: float | None, beam: float | None, rooms: Sequence[Room], width: float) -> None:
        boxes = [room.box for room in rooms]
        self.rooms = sorted(rooms, key=lambda room: room.sole)
        self.long = max([length or 0.0, *(box.right for box in boxes)]) or 1.0
        half = max([(beam or 0.0) / 2, *(abs(y) for box in boxes for y in (box.bottom, box.top))])
        self.half = half or self.long * SLENDER / 2
        self.across = width
        self.scale = (width - HULL.width) / self.long
        self.rise = min(self.scale, HIGHEST / (2 * self.half))
        self.floor = 0.0
        self.taper = next((t for t in TAPERS if all(self._holds(box, t) for box in boxes)), TAPERS[-1])

    @property
    def hull(self) -> Box:
        """The hull on the sheet."""
        return Box(0.0, self.floor, self.across, self.floor + 2 * self.half * self.rise + HULL.width)

    def _breadth(self, x: float, taper: float) -> float:
        """Half breadth at a distance from aft, in metres."""
        share = max(0.0, (x / self.long - STRAIGHT) / (1 - STRAIGHT))
        return float(self.half * (1 - share**taper))

    def _holds(self, box: Box, taper: float) -> bool:
        return max(abs(box.bottom), abs(box.top)) <= self._breadth(box.right, taper) + 0.02 * self.half

    def point(self, x: float, y: float) -> Point:
        """A point of the boat on the sheet."""
        edge = HULL.width / 2
        return edge + x * self.scale, self.floor + edge + (y + self.half) * self.rise

    def placed(self, box: Box) -> Box:
        """A box of the boat on the sheet."""
        return Box(*self.point(box.left, box.bottom), *self.point(box.right, box.top))

    def outline(self) -> Polygon:
        """Transom aft, sides straight over half the length, then to a point."""
        ahead = [self.long * (STRAIGHT + (1 - STRAIGHT) * (n / STEPS) ** 0.7) for n in range(STEPS + 1)]
        port = [(0.0, self.half * 0.94), *((x, self._breadth(x, self.taper)) for x in ahead)]
        points = [self.point(x, y) for x, y in port] + [self.point(x, -y) for x, y in reversed(port)]
        return Polygon(tuple(points), HULL)

    def drawn(self, marks: Sequence[Mark], hint: str) -> Drawing:
        """Outline, rooms, names and numbers; what stands outside makes the drawing higher."""
        beside = self._outside([self._inside(n, marks)[1] for n in range(len(self.rooms))])
        self.floor = ROW if any(under for _, _, under in beside.values()) else 0.0
        height = self.hull.top + (ROW if any(not under for _, _, under in beside.values()) else 0.0)
        boxes = [self.placed(room.box) for room in self.rooms]
        shapes: list[Shape] = [self.outline()]
        shapes += [Rect(box.left, box.bottom, box.width, box.height, ROOM) for box in boxes]
        for number in range(len(self.rooms)):
            shapes += self._inside(number, marks)[0]
        for at, mark in self._fixed(marks):
            shapes += _dot(at, mark)
        for number, (words, left, under) in beside.items():
            bottom = 0.0 if under else self.hull.top + ROW - words.height
            shapes.append(self._leader(number, left + words.width / 2, words, under=under))
            shapes += words.drawn(left, bottom)
        if hint and not self.rooms:
            shapes.append(
                Text(self.across * 0.44, self.hull.top - leading(LEAST), hint, LEAST, ITALIC, "middle")
            )
        return Drawing.of(self.across, height, shapes)

    def _fixed(self, marks: Sequence[Mark]) -> list[tuple[Point, str]]:
        """Numbers whose point is known, none over another."""
        placed: list[tuple[Point, str]] = []
        for mark in marks:
            if mark.at is not None:
                x, y = self.point(*mark.at)
                while any(_around(at).meets(_around((x, y))) for at, _ in placed):
                    x += PITCH / 4
                placed.append(((min(x, self.across - RADIUS), y), mark.number))
        return placed

    def _inside(self, number: int, marks: Sequence[Mark]) -> tuple[list[Shape], "_Words | None"]:
        """Name and numbers of a room as far as they fit in it, and what must stand outside."""
        room = self.rooms[number]
        numbers = tuple(m.number for m in marks if m.at is None and m.room == room.name)
        free = self._free(number)
        across = max(1, int(free.width / PITCH))
        names = _lines(room.name, free.width - 1.0)
        taken = [_around(at) for at, _ in self._fixed(marks)]
        for lines, dots in ((names, numbers), ((), numbers)):
            words = _Words(lines, dots, across)
            spot = _spot(words, free, taken) if lines or dots else None
            if spot is not None:
                left_out = _Words((room.name,), (), 1) if numbers and not lines else None
                return list(words.drawn(*spot)), left_out
        return [], _Words((), numbers, len(numbers)) if numbers else None

    def _free(self, number: int) -> Box:
        """The largest part of a room that no room above it hides."""
        box = self.placed(self.rooms[number].box)
        free = box
        for room in self.rooms[number + 1 :]:
            over = self.placed(room.box)
            if over.meets(free):
                parts = (
                    Box(free.left, free.bottom, max(over.left, free.left), free.top),
                    Box(min(over.right, free.right), free.bottom, free.right, free.top),
                    Box(free.left, free.bottom, free.right, max(over.bottom, free.bottom)),
                    Box(free.left, min(over.top, free.top), free.right, free.top),
                )
                free = max(parts, key=lambda part: part.width * part.height)
        return free.grown(-0.6)

    def _outside(self, left_out: "Sequence[_Words | None]") -> "dict[int, tuple[_Words, float, bool]]":
        """Where what is left out stands: its left edge, and whether under the hull."""
        ends = {True: -GAP, False: -GAP}
        found: dict[int, tuple[_Words, float, bool]] = {}
        waiting = [(self._free(n).middle[0], n, words) for n, words in enumerate(left_out) if words]
        for middle, number, words in sorted(waiting, key=lambda each: each[:2]):
            lines = words.lines or (self.rooms[number].name,)
            whole = words if words.lines else _Beside(lines, words.numbers, len(words.numbers))
            wished = min(max(0.0, middle - whole.width / 2), self.across - whole.width)
            under = max(wished, ends[True] + GAP) + whole.width <= self.across
            left = min(max(wished, ends[under] + GAP), self.across - whole.width)
            ends[under] = left + whole.width
            found[number] = (whole, left, under)
        return found

    def _leader(self, number: int, x: float, words: "_Words", *, under: bool) -> Line:
        free = self._free(number)
        inner = min(max(x, free.left), free.right)
        if under:
            return Line((x, words.height + 0.3), (inner, free.bottom + 0.8), MIDDLE)
        return Line((x, self.hull.top + ROW - words.height - 0.3), (inner, free.top - 0.8), MIDDLE)


class _Beside(_Words):
    """The same on one line: name, then dots."""

    @property
    def width(self) -> float:
        return text_width(self.lines[0], SIZE) + 1.5 + len(self.numbers) * PITCH

    @property
    def height(self) -> float:
        return PITCH

    def drawn(self, left: float, bottom: float) -> Iterator[Shape]:
        """Name, then dots."""
        yield Text(left, bottom + (PITCH - 0.66 * ascent(SIZE) / 0.71) / 2, self.lines[0], SIZE)
        for place, number in enumerate(reversed(self.numbers)):
            yield from _dot((left + self.width - (place + 0.5) * PITCH, bottom + PITCH / 2), number)


def _around(at: Point) -> Box:
    return Box(at[0], at[1], at[0], at[1]).grown(RADIUS + 0.2)


def _spot(words: _Words, free: Box, taken: Sequence[Box]) -> Point | None:
    """Lower left corner of what fits in a box clear of what stands there: its middle before its edges."""
    if words.width > free.width or words.height > free.height:
        return None
    spare, over = free.width - words.width, free.height - words.height
    for up, along in product((0.5, 1.0, 0.0), (0.5, 0.0, 1.0)):
        left, bottom = free.left + along * spare, free.bottom + up * over
        box = Box(left, bottom, left + words.width, bottom + words.height)
        if not any(box.meets(other) for other in taken):
            return left, bottom
    return None


def _lines(name: str, width: float) -> tuple[str, ...]:
    """A name folded at blanks; empty where a word of it is too wide."""
    lines: list[str] = []
    for word in name.split():
        if text_width(word, SIZE) > width:
            return ()
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(joined, SIZE) <= width:
            lines[-1] = joined
        else:
            lines.append(word)
    return tuple(lines)


def _dot(at: Point, number: str) -> Iterator[Shape]:
    """A white number on a black dot, as in the list below the plan."""
    yield Circle(*at, RADIUS, None, BLACK)
    yield Text(at[0], at[1] - ascent(SIZE) * 0.46, number, SIZE, BOLD, "middle", ink=WHITE)
