"""Tags and signs to print and cut out: one for every part, with dashed lines to cut along."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from dossier.rendering.drawings.lettering import BOLD, REGULAR, SEMIBOLD, SMALL, ascent, folded, leading
from dossier.rendering.drawings.pens import HIDDEN, NARROW, WIDE
from dossier.rendering.drawings.pictograms import pictogram
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.plate import laid_round
from dossier.rendering.drawings.scales import scale_bar
from dossier.rendering.drawings.shapes import WHITE, Circle, Drawing, Line, Rect, Shape, Text
from dossier.rendering.drawings.sheet import Form

ACROSS = 3
HIGH = 23.5
HOLE = 2.0  # radius
LARGE = (26.0, 20.0, 15.0, 12.0)  # points, the largest that fits
HEADING = (15.0, 12.0, 10.7, 9.6, 8.6)
NAME = 8.6
SAID = 3  # lines of facts, or of what to do
MOST = {False: 1, True: 2}  # lines of the head of a tag, and of a sign
MARGIN = 2.6  # from the cut to the lettering
PICTURE = 12.0  # a pictogram on a sign
EDGE = 1.6  # from the cut to the frame of a sign
UNDER = 2.0  # from the baseline of the head to what stands under it
BAR = 100.0  # by which a print is seen to be at full size
FOOT = 9.0  # kept under the labels for the bar


@dataclass(frozen=True, slots=True)
class Label:
    """What is cut out: the tag or the words of a sign, the lines under it, and the name of its pictogram."""

    head: str
    name: str = ""
    said: str = ""
    is_sign: bool = False
    pictogram: str = ""


def tag_sheets(
    labels: tuple[Label, ...],
    form: Form,
    scale: str = "1 : 1",
    say_tags: Callable[[Iterable[str]], str] | None = None,
) -> tuple[Drawing, ...]:
    """As many sheets as the labels need, three across; ``say_tags`` says which tags a sheet bears."""

    def told(shown: tuple[Label, ...]) -> Form:
        tags = [label.head for label in shown if not label.is_sign]
        return replace(form, notes=(say_tags(tags), *form.notes)) if say_tags and tags else form

    free = laid_round(told(labels), []).free
    count = max(1, int((free.height - FOOT) // HIGH)) * ACROSS
    bar = scale_bar((free.left + 1.0, free.bottom + 4.2), 1.0, BAR, fine=True)
    sheets = []
    for first in range(0, len(labels), count):
        shown = labels[first : first + count]
        furniture = laid_round(told(shown), [])
        sheets.append(furniture.drawing([*_sheet(shown, free), *bar], form.title, scale))
    return tuple(sheets)


def _sheet(labels: tuple[Label, ...], free: Box) -> list[Shape]:
    """Labels row by row, with the lines to cut along."""
    width = free.width / ACROSS
    rows = -(-len(labels) // ACROSS)
    foot = free.top - rows * HIGH
    shapes: list[Shape] = [
        Line((free.left, free.top - n * HIGH), (free.right, free.top - n * HIGH), HIDDEN)
        for n in range(rows + 1)
    ]
    shapes += [
        Line((free.left + n * width, free.top), (free.left + n * width, foot), HIDDEN)
        for n in range(ACROSS + 1)
    ]
    for n, label in enumerate(labels):
        left, top = free.left + (n % ACROSS) * width, free.top - (n // ACROSS) * HIGH
        shapes += _label(label, Box(left, top - HIGH, left + width, top))
    return shapes


def _label(label: Label, box: Box) -> list[Shape]:
    """One label: a tag has a hole at its left, a sign a frame."""
    x, y = box.left + MARGIN + HOLE, box.middle[1]
    if label.is_sign:
        frame = box.grown(-EDGE)
        shapes: list[Shape] = [Rect(frame.left, frame.bottom, frame.width, frame.height, WIDE)]
        room = frame.grown(-EDGE)
        if label.pictogram:
            shapes += pictogram(label.pictogram, (room.left, room.middle[1] - PICTURE / 2), PICTURE)
            room = Box(room.left + PICTURE + EDGE, room.bottom, room.right, room.top)
        return shapes + _lettering(label, room)
    hole: list[Shape] = [
        Circle(x, y, HOLE, NARROW, WHITE),
        Line((x - HOLE / 2, y), (x + HOLE / 2, y), NARROW),
        Line((x, y - HOLE / 2), (x, y + HOLE / 2), NARROW),
    ]
    room = Box(x + HOLE + MARGIN, box.bottom + 1.0, box.right - MARGIN, box.top - 1.0)
    return hole + _lettering(label, room)


def _lettering(label: Label, room: Box) -> list[Shape]:
    """The head as large as all of it fits, name and facts under it, about the middle of the label.

    Where all of it is too much the name is shortened first: what to do, how a valve stands, is kept whole.
    """
    sizes = HEADING if label.is_sign else LARGE
    tried = [_lines(label, room, size, names) for names in (2, 1) for size in sizes]
    lines = next((each for each in tried if _fits(each, label, room)), tried[-1])
    height = sum(_pitch(size) for _, size, _ in lines)
    while height > room.height and len(lines) > 1:
        height -= _pitch(lines.pop()[1])
    top = room.middle[1] + height / 2
    shapes: list[Shape] = []
    for text, points, weight in lines:
        shapes.append(Text(room.left, top - ascent(points), text, points, weight))
        top -= _pitch(points)
    return shapes


def _pitch(points: float) -> float:
    """Height of a line: a large head stands close over the next."""
    return min(leading(points), ascent(points) + UNDER)


def _lines(label: Label, room: Box, size: float, names: int) -> list[tuple[str, float, str]]:
    """Every line with its size and weight, the head at the size told, the name on so many lines."""
    most = MOST[label.is_sign]
    lines = [(line, size, BOLD) for line in folded(label.head, room.width, size, BOLD, most)]
    lines += [(line, NAME, SEMIBOLD) for line in folded(label.name, room.width, NAME, SEMIBOLD, names)]
    return lines + [(line, SMALL, REGULAR) for line in folded(label.said, room.width, SMALL, REGULAR, SAID)]


def _fits(lines: list[tuple[str, float, str]], label: Label, room: Box) -> bool:
    """Whether the head stands whole in its lines and all lines in the room."""
    heads = [line for line, size, weight in lines if weight == BOLD]
    whole = "".join(label.head.split()) == "".join("".join(heads).split())
    return whole and sum(_pitch(size) for _, size, _ in lines) <= room.height
