"""Thickness and name of every layer under a section, however thin the layers are."""

from dataclasses import dataclass

from dossier.rendering.drawings.dimensions import Level
from dossier.rendering.drawings.lettering import (
    REGULAR,
    SEMIBOLD,
    SMALL,
    ascent,
    descent,
    folded,
    leading,
    text_width,
)
from dossier.rendering.drawings.pens import NARROW
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.record import crosses
from dossier.rendering.drawings.shapes import Line, Shape, Text

LINE = -5.4  # height of the dimension line under the section
FIRST = LINE - 3.6  # baseline of the first row of names
ROWS = 7
AIR = 0.7
BESIDE = 1.6
INDENT = 4.0


@dataclass(frozen=True, slots=True)
class Name:
    """A layer's words and thickness text, and where it lies across the sheet."""

    words: str
    text: str
    left: float
    right: float

    @property
    def middle(self) -> float:
        """Across the sheet."""
        return (self.left + self.right) / 2


def named_layers(
    layers: list[tuple[str, str, float]], left: float, width: float
) -> tuple[list[Shape], float]:
    """Dimensions and names under a section whose lower edge is at height 0, and the depth they take.

    ``layers`` are name, thickness text and thickness on paper. Where the names find no place, each layer
    gets a number and the names stand in a list.
    """
    names: list[Name] = []
    x = left
    for words, text, thickness in layers:
        names.append(Name(words, text, x, x + thickness))
        x += thickness
    shapes: list[Shape] = [
        Line((each, 0.0), (each, LINE - 0.6), NARROW) for each in (left, *(n.right for n in names))
    ]
    levels = [Level(LINE, name.left, name.right, name.text) for name in names]
    shapes += [shape for level in levels for shape in level.shapes()]
    said = [
        name.words if level.is_wide else f"{name.text} {name.words}".strip()
        for name, level in zip(names, levels, strict=True)
    ]
    set_names = _in_rows(names, said, width)
    if set_names is not None:
        return shapes + set_names, -min([LINE, *(s.box.bottom for s in set_names if isinstance(s, Text))])
    numbers = _in_rows(names, [str(n) for n in range(1, len(names) + 1)], width) or []
    low = min([LINE, *(s.box.bottom for s in numbers if isinstance(s, Text))])
    key, depth = _key(names, low - 1.0, width)
    return [*shapes, *numbers, *key], depth


def _in_rows(names: list[Name], said: list[str], width: float) -> list[Shape] | None:
    """Every text in a row under its layer, thick layers first; None where one finds no place."""
    shapes: list[Shape] = []
    boxes: list[Box] = []
    leaders: list[Line] = []
    for n in sorted(range(len(names)), key=lambda n: names[n].left - names[n].right):
        if not said[n]:
            continue
        place = _place(names[n].middle, said[n], (boxes, leaders), width)
        if place is None:
            return None
        text, leader = place
        boxes.append(text.box)
        shapes.append(text)
        if leader:
            leaders.append(leader)
            shapes.append(leader)
    return shapes


def _place(
    x: float, said: str, taken: tuple[list[Box], list[Line]], width: float
) -> tuple[Text, Line | None] | None:
    boxes, leaders = taken
    for row in range(ROWS):
        y = FIRST - row * (ascent(SMALL) + descent(SMALL) + AIR)
        for anchor in ("middle", "start", "end"):
            shift = {"middle": 0.0, "start": -0.8, "end": 0.8}[anchor]
            text = Text(x + shift, y, said, SMALL, REGULAR, anchor)
            box = text.box
            leader = Line((x, LINE - 0.6), (x, box.top + 0.4), NARROW) if row else None
            if box.left < 0 or box.right > width or any(_wider(box).meets(other) for other in boxes):
                continue
            if any(crosses(each.start, each.end, box.grown(AIR / 2)) for each in leaders):
                continue
            if leader and any(crosses(leader.start, leader.end, other.grown(AIR / 2)) for other in boxes):
                continue
            return text, leader
    return None


def _wider(box: Box) -> Box:
    """A box with the air it wants beside it, so that two names do not read as one."""
    return Box(box.left - BESIDE, box.bottom - AIR / 2, box.right + BESIDE, box.top + AIR / 2)


def _key(names: list[Name], top: float, width: float) -> tuple[list[Shape], float]:
    """The list of layers by number, in columns."""
    widest = max(text_width(f"{name.text} {name.words}", SMALL) for name in names) + INDENT + 3.0
    columns = max(1, int(width // widest))
    rows = -(-len(names) // columns)
    shapes: list[Shape] = []
    for n, name in enumerate(names):
        x, y = (n // rows) * widest, top - ascent(SMALL) - (n % rows) * leading(SMALL)
        shapes.append(Text(x, y, str(n + 1), SMALL, SEMIBOLD))
        words = folded(f"{name.text} {name.words}", width - INDENT, SMALL, most=1)
        shapes += [Text(x + INDENT, y, line, SMALL) for line in words]
    return shapes, -(top - rows * leading(SMALL))
