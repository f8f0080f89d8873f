"""Rooms from above, all to one scale: where their places are known in place, else as squares beside."""

from collections.abc import Sequence
from dataclasses import dataclass

from dossier.rendering.drawings.lettering import SMALL, ascent, text_width
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.scales import forward_arrow, scale_bar, scale_for, scale_words
from dossier.rendering.drawings.shapes import Drawing, Pen, Rect, Shape, Text

WALL, OUTLINE = Pen(0.5), Pen(0.25, (4.0, 1.5))
HEAD, FOOT, GAP = 7.0, 9.0, 4.0
MOST_HIGH = 90.0
SCALES = (50, 100, 125, 200, 500)
INSIDE = 1.5


@dataclass(frozen=True, slots=True)
class RoomDrawn:
    """A room: its number in the table, its name, its extents (m), and its aft starboard corner if known."""

    number: str
    name: str
    along: float
    across: float
    corner: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class HullDrawn:
    """Length and beam of the hull (m), drawn round rooms whose places are known."""

    length: float
    beam: float


def rooms_drawn(rooms: Sequence[RoomDrawn], hull: HullDrawn | None, width: float, forward: str) -> Drawing:
    """The plan, ``width`` millimetres wide; the title is its scale."""
    placed = [(room, room.corner) for room in rooms if room.corner is not None]
    loose = [room for room in rooms if room.corner is None]
    low, high = _extent(placed, hull)
    deep = max((room.across for room in loose), default=0.0)
    wide = max(high[0] - low[0], sum(room.along for room in loose) + 0.3 * len(loose))
    ratio = scale_for(wide, high[1] - low[1] + deep, (width, MOST_HIGH), SCALES)
    unit = 1000 / ratio
    outlines: list[Box] = []
    y, x = FOOT, 0.0
    for room in loose:
        outlines.append(Box(x, y, x + room.along * unit, y + room.across * unit))
        x += room.along * unit + GAP
    if loose:
        y += deep * unit + (GAP if placed else 0.0)
    shapes: list[Shape] = []
    if placed:
        origin = (-low[0] * unit, y - low[1] * unit)
        if hull is not None:
            beam = hull.beam * unit
            shapes.append(Rect(origin[0], origin[1] - beam / 2, hull.length * unit, beam, OUTLINE))
        for room, corner in placed:
            left, bottom = origin[0] + corner[0] * unit, origin[1] + corner[1] * unit
            outlines.append(Box(left, bottom, left + room.along * unit, bottom + room.across * unit))
        y += (high[1] - low[1]) * unit
        shapes += forward_arrow((0.0, y + 2.6), forward)
    shapes += [Rect(box.left, box.bottom, box.width, box.height, WALL) for box in outlines]
    shapes += _labels([*loose, *(room for room, _ in placed)], outlines)
    shapes += scale_bar((1.0, 5.0), ratio, 50.0)
    return Drawing.of(width, y + (HEAD if placed else GAP), shapes, scale_words(ratio))


def _extent(
    placed: Sequence[tuple[RoomDrawn, tuple[float, float]]], hull: HullDrawn | None
) -> tuple[tuple[float, float], tuple[float, float]]:
    """Lowest and highest corner of what is drawn in place."""
    if not placed:
        return (0.0, 0.0), (0.0, 0.0)
    points = [corner for _, corner in placed]
    points += [(corner[0] + room.along, corner[1] + room.across) for room, corner in placed]
    if hull is not None:
        points += [(0.0, -hull.beam / 2), (hull.length, hull.beam / 2)]
    across, up = [x for x, _ in points], [y for _, y in points]
    return (min(across), min(up)), (max(across), max(up))


def _labels(rooms: Sequence[RoomDrawn], outlines: Sequence[Box]) -> list[Text]:
    """Number and name in the first corner of each room that is free of other lettering."""
    taken: list[Box] = []
    found: list[Text] = []
    for room, box in zip(rooms, outlines, strict=True):
        words = [f"{room.number} {room.name}", room.number]
        fitting = [word for word in words if text_width(word, SMALL) <= box.width - 2 * INSIDE] or words[1:]
        places = [
            _lettered(word, box, down, right) for word in fitting for right in (0, 1) for down in (0, 1)
        ]
        free = [text for text in places if not any(text.box.meets(other) for other in taken)]
        chosen = (free or places)[0]
        taken.append(chosen.box.grown(0.4))
        found.append(chosen)
    return found


def _lettered(word: str, box: Box, down: int, right: int) -> Text:
    """A word in one corner of a box: the upper left one, or further down or right."""
    y = box.bottom + INSIDE if down else box.top - INSIDE - ascent(SMALL)
    x = box.right - INSIDE if right else box.left + INSIDE
    return Text(x, y, word, SMALL, anchor="end" if right else "start", ground=True)
