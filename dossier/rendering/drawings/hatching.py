"""Areas told apart by their pattern alone: materials in section, pieces of a bar. Each survives a copier."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, floor

from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.shapes import BLACK, WHITE, Path, Pen, Step, Text

METAL = "metal"
WOOD = "wood"
FIBROUS = "fibrous"
FOAM = "foam"
PLASTIC = "plastic"
GLASS = "glass"
CONCRETE = "concrete"
AIR = "air"
LIQUID = "liquid"

PLAIN = "white"
SOLID = "black"
STROKES = "strokes"
CROSSED = "crossed"
LINES = "lines"
DOTS = "dots"

FRAME = Pen(0.25)
BOUNDARY = Pen(0.35)


@dataclass(frozen=True, slots=True)
class Hatch:
    """A box filled with a pattern and framed; the pattern's lines may have lettering on a white ground."""

    box: Box
    pattern: str
    frame: Pen | None = FRAME

    @property
    def is_dense(self) -> bool:
        """Whether lettering on it needs a ground."""
        return self.pattern not in {PLAIN, AIR}

    @property
    def outline(self) -> Path:
        """The frame alone."""
        return Path(_rectangle(self.box), self.frame) if self.frame else Path(())

    def parts(self) -> "Iterator[Path | Text]":
        """The ground, the pattern, the frame."""
        box = self.box
        fill = BLACK if self.pattern == SOLID else WHITE
        yield Path(_rectangle(box), None, fill)
        yield from _pattern(self.pattern, box)
        if self.frame:
            yield Path(_rectangle(box), self.frame)


def _rectangle(box: Box) -> tuple[Step, ...]:
    corners = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
    return (("M", (corners[0],)), *(("L", (c,)) for c in corners[1:]), ("Z", ()))


def _pattern(pattern: str, box: Box) -> Iterator[Path]:
    """The strokes of a pattern; none for white, black and air."""
    if pattern in SLANTS:
        for slope, pitch, width in SLANTS[pattern]:
            yield from _made(_slanted(box, slope, pitch), Pen(width))
    elif pattern == WOOD:
        yield from _made(_upright(box, 1.9), Pen(0.25))
    elif pattern in LEVELS:
        pitch, width = LEVELS[pattern]
        yield from _made(_level(box, pitch), Pen(width))
    elif pattern == FIBROUS:
        yield from _made(_waves(box), Pen(0.25))
    elif pattern in ROUND:
        yield from _round(box, pattern)


SLANTS: dict[str, tuple[tuple[int, float, float], ...]] = {
    METAL: ((1, 1.0, 0.25),),
    PLASTIC: ((-1, 1.6, 0.25),),
    GLASS: ((1, 3.2, 0.25),),
    STROKES: ((1, 1.7, 0.3),),
    CROSSED: ((1, 1.8, 0.25), (-1, 1.8, 0.25)),
}
LEVELS: dict[str, tuple[float, float]] = {LINES: (1.1, 0.25), LIQUID: (2.0, 0.25)}
ROUND: dict[str, tuple[float, float]] = {DOTS: (1.25, 0.2), FOAM: (2.4, 0.55), CONCRETE: (1.9, 0.3)}


def _made(strokes: Iterator[tuple[Step, ...]], pen: Pen) -> Iterator[Path]:
    steps = tuple(step for stroke in strokes for step in stroke)
    if steps:
        yield Path(steps, pen)


def _slanted(box: Box, slope: int, pitch: float) -> Iterator[tuple[Step, ...]]:
    """Lines at 45 degrees, at the same places whatever the box, so that neighbours join."""
    step = pitch * 2**0.5
    offsets = [y - slope * x for x in (box.left, box.right) for y in (box.bottom, box.top)]
    for n in range(ceil(min(offsets) / step), floor(max(offsets) / step) + 1):
        ends = _clipped(n * step, slope, box)
        if ends:
            yield ("M", (ends[0],)), ("L", (ends[1],))


def _clipped(offset: float, slope: int, box: Box) -> tuple[Point, Point] | None:
    """The part of y = slope x + offset inside a box."""
    at = sorted(slope * (y - offset) for y in (box.bottom, box.top))
    low, high = max(box.left, at[0]), min(box.right, at[1])
    if high - low <= 0:
        return None
    return (low, slope * low + offset), (high, slope * high + offset)


def _upright(box: Box, pitch: float) -> Iterator[tuple[Step, ...]]:
    count = max(1, round(box.width / pitch))
    for n in range(1, count):
        x = box.left + n * box.width / count
        yield ("M", ((x, box.bottom),)), ("L", ((x, box.top),))


def _level(box: Box, pitch: float) -> Iterator[tuple[Step, ...]]:
    for n in range(ceil(box.bottom / pitch), floor(box.top / pitch) + 1):
        if box.bottom < n * pitch < box.top:
            yield ("M", ((box.left, n * pitch),)), ("L", ((box.right, n * pitch),))


def _waves(box: Box) -> Iterator[tuple[Step, ...]]:
    """Waves across the box, a whole number of them."""
    count = max(1, round(box.width / 7.0))
    period, rise = box.width / count, min(1.3, box.width / 4)
    rows = max(1, int(box.height // 4.2))
    for row in range(rows):
        y = box.bottom + (row + 0.5) * box.height / rows
        steps: list[Step] = [("M", ((box.left, y),))]
        for n in range(2 * count):
            x, half = box.left + n * period / 2, period / 2
            bow = y + (rise if n % 2 == 0 else -rise) * 4 / 3
            steps.append(("C", ((x + half * 0.36, bow), (x + half * 0.64, bow), (x + half, y))))
        yield tuple(steps)


def _round(box: Box, pattern: str) -> Iterator[Path]:
    """Dots or rings in staggered rows, each wholly inside."""
    pitch, radius = ROUND[pattern]
    steps: list[Step] = []
    for row in range(floor(box.bottom / pitch), ceil(box.top / pitch) + 1):
        y = row * pitch
        for column in range(floor(box.left / pitch) - 1, ceil(box.right / pitch) + 1):
            x = column * pitch + (pitch / 2 if row % 2 else 0.0)
            if box.grown(-0.1).holds(Box(x - radius, y - radius, x + radius, y + radius)):
                steps += _ring(x, y, radius)
    if steps:
        yield Path(tuple(steps), Pen(0.25), None) if pattern == FOAM else Path(tuple(steps), None, BLACK)


def _ring(x: float, y: float, r: float) -> list[Step]:
    """A circle of four curves."""
    k = 0.5523 * r
    return [
        ("M", ((x + r, y),)),
        ("C", ((x + r, y + k), (x + k, y + r), (x, y + r))),
        ("C", ((x - k, y + r), (x - r, y + k), (x - r, y))),
        ("C", ((x - r, y - k), (x - k, y - r), (x, y - r))),
        ("C", ((x + k, y - r), (x + r, y - k), (x + r, y))),
        ("Z", ()),
    ]
