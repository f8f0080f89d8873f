"""Level bars of pieces told apart by pattern: where the heat goes, zone by zone.

The bars share one scale and one base line. A number stands in a piece only where it fits, on a white ground.
"""

from dataclasses import dataclass

from dossier.rendering.drawings.hatching import PLAIN, Hatch
from dossier.rendering.drawings.lettering import (
    CAPITALS,
    REGULAR,
    SEMIBOLD,
    SMALL,
    folded,
    leading,
    text_width,
)
from dossier.rendering.drawings.pens import WIDE
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.shapes import Drawing, Line, Shape, Text

NAMES = 36.0  # widest column of names, millimetres
BAR = 9.0
PITCH = 12.6
TOP = 1.8  # of the base line over the first bar
LEAST_PIECE = 9.8  # a narrower piece bears no number
THINNEST = 0.05
NOTHING = 1e-9
GAP = 2.0


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a bar: its amount, the pattern that names its kind, its number as text."""

    amount: float
    pattern: str
    text: str = ""


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar: name, a note under it, pieces in order, the total at its end."""

    name: str
    pieces: tuple[Piece, ...]
    total: str = ""
    note: str = ""


def bars(rows: tuple[Bar, ...], width: float) -> Drawing:
    """The bars one under the other as wide as ``width`` millimetres allows; amounts below nothing raise."""
    if any(piece.amount < 0 for row in rows for piece in row.pieces):
        raise ValueError("a piece of a bar cannot be less than nothing")
    names = min(NAMES, max([text_width(row.name, CAPITALS, SEMIBOLD) for row in rows] or [0.0]))
    notes = min(NAMES, max([text_width(row.note, SMALL) for row in rows] or [0.0]))
    left = max(names, notes) + GAP
    totals = max([text_width(row.total, CAPITALS, SEMIBOLD) for row in rows] or [0.0])
    most = max([sum(piece.amount for piece in row.pieces) for row in rows] or [0.0])
    unit = (width - left - GAP - totals - 0.5) / most if most > NOTHING else 0.0
    height = TOP + PITCH * (len(rows) - 1) + BAR + TOP if rows else TOP
    shapes: list[Shape] = []
    for n, row in enumerate(rows):
        shapes += _row(row, (left, height - TOP - n * PITCH - BAR), unit)
    shapes.append(Line((left, 0.0), (left, height), WIDE))
    return Drawing.of(width, height, shapes)


def _row(row: Bar, corner: tuple[float, float], unit: float) -> list[Shape]:
    left, bottom = corner
    x = left
    shapes: list[Shape] = list(_names(row, left - GAP, bottom))
    for piece in row.pieces:
        length = piece.amount * unit
        if length < THINNEST:
            continue
        box = Box(x, bottom, x + length, bottom + BAR)
        shapes.append(Hatch(box, piece.pattern))
        shapes += _number(piece, box)
        x += length
    if row.total:
        shapes.append(Text(x + GAP, bottom + BAR / 2 - 1.25, row.total, CAPITALS, SEMIBOLD))
    return shapes


def _number(piece: Piece, box: Box) -> list[Shape]:
    fits = box.width >= max(LEAST_PIECE, text_width(piece.text, SMALL, SEMIBOLD) + 2.4)
    if not piece.text or not fits:
        return []
    ground = piece.pattern != PLAIN
    return [Text(box.middle[0], box.middle[1] - 0.95, piece.text, SMALL, SEMIBOLD, "middle", ground)]


def _names(row: Bar, right: float, bottom: float) -> list[Shape]:
    """Name and note left of the base line; a name too long for its column becomes smaller, then folds."""
    if not row.name:
        return []
    lines: tuple[str, ...] = (row.name,)
    size = CAPITALS
    if text_width(row.name, CAPITALS, SEMIBOLD) > right:
        lines, size = folded(row.name, right, SMALL, SEMIBOLD, 1 if row.note else 2), SMALL
    first = bottom + BAR / 2 + (1.4 if row.note or len(lines) > 1 else -1.2)
    shapes: list[Shape] = [
        Text(0.0, first - n * leading(size), line, size, SEMIBOLD) for n, line in enumerate(lines)
    ]
    if row.note:
        note = folded(row.note, right, SMALL, REGULAR, 1)[0]
        shapes.append(Text(0.0, bottom + 0.6, note, SMALL))
    return shapes


def pattern_key(pattern: str, box: Box) -> Hatch:
    """A sample of a pattern for the table that names the kinds."""
    return Hatch(box, pattern)
