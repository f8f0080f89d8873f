"""Sets the laminated card: two faces side by side on one leaf that folds in the middle, or two A5 sheets.

The type is as large as the faces hold: it grows before the margins do. It never falls below what one reads
at arm's length; what does not fit then goes on further faces.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from dossier.notation import PageFault
from dossier.rendering.blocks import (
    Card,
    CardBand,
    CardFace,
    CardFigure,
    CardLine,
    CardPart,
    CardPlaces,
    CardSteps,
    CardTopic,
)
from dossier.rendering.layout.item import Break, Item, write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.marks import numbered
from dossier.rendering.layout.measures import MM, Style, bare_sheet
from dossier.rendering.layout.pen import WHITE, Pen
from dossier.rendering.layout.prose import marker
from dossier.rendering.layout.setting import Room, Setting, sets
from dossier.rendering.text import Face, heavy, strong, text

BINDING, EDGE = 16 * MM, 9 * MM
LARGEST, LEAST = 18.0, 14.0
HOLES, HOLE = (0.33, 0.67), 2.5 * MM
DOCUMENT_LINE = Style(10.7, 13)
THICK = 0.8 * MM
BOX = 9 * MM


@dataclass(frozen=True, slots=True)
class Piece:
    """One part of a face, ready to draw from its top."""

    height: float
    draw: Callable[[Pen, float, float], None]
    gap: float = 0.0
    keeps: bool = False


class _Face:
    """Sets the parts of one face in a size of type."""

    def __init__(self, setting: Setting, width: float, size: float) -> None:
        self.setting, self.width, self.size = setting, width, size
        self.leading = size * 1.16
        self.body = Style(size, self.leading)

    def least(self, share: float, leading: float) -> Style:
        """A share of the size of the steps, but nothing that could not be read at arm's length."""
        size = max(self.size * share, LEAST)
        return Style(size, size * leading)

    def set(self, part: CardPart) -> list[Piece]:
        """Pieces of a part."""
        if isinstance(part, CardBand):
            return [self._band(part)]
        if isinstance(part, CardSteps):
            return self._steps(part)
        if isinstance(part, CardTopic):
            return [self._topic(part)]
        if isinstance(part, CardFigure):
            return [self._figure(part)]
        if isinstance(part, CardPlaces):
            return self._places(part)
        return [self._line(part)]

    def _band(self, part: CardBand) -> Piece:
        inner = self.width - 6 * MM
        title = self.setting.fold(heavy(part.title), Style(self.size * 1.5, self.size * 1.75), inner)
        below = self.setting.fold(strong(part.below), self.least(0.9, 1.16), inner)
        below_height = below.height if part.below else 0.0
        height = title.height + below_height + 2.4 * MM

        def draw(pen: Pen, x: float, top: float) -> None:
            pen.box(x, top - height, self.width, height, filled=True)
            with pen.element("H3"), pen.inked(WHITE):
                write(pen, title, x + 3 * MM, top - 1.0 * MM)
            if part.below:
                with pen.element("P"), pen.inked(WHITE):
                    write(pen, below, x + 3 * MM, top - 1.0 * MM - title.height)

        return Piece(height, draw, 2.2 * MM, keeps=True)

    def _steps(self, part: CardSteps) -> list[Piece]:
        indent, again = self.size * 1.55, object()
        pieces = []
        for number, step in enumerate(part.items, 1):
            label = self.setting.fold(heavy(str(number)), Style(self.size * 1.3, self.leading), indent)
            lines = self.setting.fold(step, self.body, self.width - indent - 1.2 * MM)

            def draw(pen: Pen, x: float, top: float, *, label: Lines = label, lines: Lines = lines) -> None:
                with pen.element("L", again=again), pen.element("LI"):
                    with pen.element("Lbl"):
                        write(pen, label, x + 1.2 * MM, top)
                    with pen.element("LBody"):
                        write(pen, lines, x + 1.2 * MM + indent, top)

            pieces.append(Piece(lines.height, draw, 1.55 * MM))
        return pieces

    def _topic(self, part: CardTopic) -> Piece:
        title = self.setting.fold(strong(part.title), Style(self.size * 1.12, self.size * 1.35), self.width)
        words = self.setting.fold(part.text, self.least(0.94, 1.18), self.width)
        text_height = words.height if part.text else 0.0
        height = 1.4 * MM + title.height + text_height

        def draw(pen: Pen, x: float, top: float) -> None:
            pen.rule(x, top, x + self.width, top, THICK)
            with pen.element("H3"):
                write(pen, title, x, top - 1.4 * MM)
            if part.text:
                with pen.element("P"):
                    write(pen, words, x, top - 1.4 * MM - title.height)

        return Piece(height, draw, 2.4 * MM, keeps=not part.text)

    def _figure(self, part: CardFigure) -> Piece:
        drawing = part.drawing
        if drawing.width > self.width + 0.5:
            raise PageFault(
                f"the plan of the card is {drawing.width / MM:.0f} mm wide; "
                f"a face holds {self.width / MM:.0f} mm"
            )

        def draw(pen: Pen, x: float, top: float) -> None:
            with pen.element("Figure", alt=part.alt):
                pen.drawing(drawing, x + (self.width - drawing.width) / 2, top - drawing.height)

        return Piece(drawing.height, draw, 2.6 * MM)

    def _places(self, part: CardPlaces) -> list[Piece]:
        """Two columns, read across; a box of its own line for a place that is not known."""
        style = self.least(0.88, 1.18)
        radius, column = style.size * 0.575, self.width / 2
        hint = Style(10, 12, Face.ITALIC)
        pieces = []
        for first in range(0, len(part.places), 2):
            row = []
            for number, what, where in part.places[first : first + 2]:
                room = column - 2 * radius - 3 * MM
                said = text(strong(what), ": ", where) if where else strong(what)
                unknown = None if where else self.setting.fold(part.unknown, hint, room)
                row.append((number, self.setting.fold(said, style, room), unknown))
            height = max(words.height + (BOX if unknown else 0.0) for _, words, unknown in row)

            def draw(
                pen: Pen, x: float, top: float, *, row: Sequence[tuple[str, Lines, Lines | None]] = row
            ) -> None:
                for place, (number, words, unknown) in enumerate(row):
                    left = x + place * column
                    with pen.element("P"):
                        numbered(pen, number, left + radius, top - style.leading / 2, radius)
                    inner = left + 2 * radius + 1.4 * MM
                    with pen.element("P"):
                        write(pen, words, inner, top)
                        if unknown:
                            bottom = top - words.height - BOX + 0.6 * MM
                            pen.frame(inner, bottom, column - 2 * radius - 4 * MM, BOX - 1 * MM, 0.3 * MM)
                            write(pen, unknown, inner + 1 * MM, bottom + unknown.height + 0.6 * MM)

            pieces.append(Piece(height, draw, 0.9 * MM))
        return pieces

    def _line(self, part: CardLine) -> Piece:
        words = self.setting.fold(part.text, self.least(0.82, 1.16), self.width)

        def draw(pen: Pen, x: float, top: float) -> None:
            pen.rule(x, top, x + self.width, top, THICK)
            with pen.element("P"):
                write(pen, words, x, top - 1.2 * MM)

        return Piece(1.2 * MM + words.height, draw, 0.0)


def _fitted(face: CardFace, setting: Setting, width: float, room: float) -> list[Piece] | None:
    """Pieces of a face in the largest type that fits; None where even the least does not."""
    size = LARGEST
    while size >= LEAST:
        setter = _Face(setting, width, size)
        pieces = [piece for part in face.parts for piece in setter.set(part)]
        if sum(piece.height + piece.gap for piece in pieces) <= room:
            return pieces
        size -= 0.25
    return None


def _faces(block: Card, setting: Setting, width: float, room: float) -> list[list[Piece]]:
    """The two faces, or as many as the text needs in the least type."""
    front, back = (_fitted(face, setting, width, room) for face in (block.front, block.back))
    if front is not None and back is not None:
        return [front, back]
    setter = _Face(setting, width, LEAST)
    faces: list[list[Piece]] = [[]]
    used = 0.0
    pieces = [piece for part in (*block.front.parts, *block.back.parts) for piece in setter.set(part)]
    for number, piece in enumerate(pieces):
        need = piece.height
        for kept, after in zip(pieces[number:], pieces[number + 1 :], strict=False):
            if not kept.keeps:
                break
            need += kept.gap + after.height
        if used and used + need > room:
            faces.append([])
            used = 0.0
        faces[-1].append(piece)
        used += piece.height + piece.gap
    return faces


@dataclass(slots=True)
class FaceItem(Item):
    """Faces side by side on one sheet."""

    faces: Sequence[tuple[Sequence[Piece], float, float]] = ()
    """Pieces, left edge of the text, left edge of the holes' middle."""
    line: Lines | None = None
    width: float = 0.0
    fold_at: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw holes, the fold, the parts, and which document it is."""
        with pen.artifact():
            for _, _, hole in self.faces:
                for share in HOLES:
                    pen.circle(x + hole, top - self.height * share, HOLE, line=0.35, dash="1.6 1.6")
            if self.fold_at:
                for start in (top - 3 * MM, top - self.height + 9 * MM):
                    pen.rule(x + self.fold_at, start, x + self.fold_at, start - 6 * MM, 0.35, "2 2")
        for pieces, left, _ in self.faces:
            at = top - EDGE
            for piece in pieces:
                piece.draw(pen, x + left, at)
                at -= piece.height + piece.gap
            if self.line is not None:
                with pen.element("P"):
                    bottom = top - self.height + EDGE + self.line.height
                    write(pen, self.line, x + left, bottom, self.width, "right")


@sets(Card)
def card(block: Card, setting: Setting, room: Room) -> list[Item]:
    """The card on a leaf of its own."""
    del room
    entry, base, imprint = setting.next_entry(), setting.base, setting.imprint
    single = setting.paper == "A5"
    there = bare_sheet(setting.paper, landscape=not single)
    turn = setting.turn(there)
    face_width = there.width if single else there.width / 2
    width = face_width - BINDING - EDGE
    line = setting.fold(
        text(block.title, " · ", imprint.number, " · ", imprint.revision, " · ", imprint.boat),
        DOCUMENT_LINE,
        width,
    )
    space = there.height - 2 * EDGE - line.height - 1.5 * MM
    faces = _faces(block, setting, width, space)
    placed = [
        (face, EDGE, face_width - BINDING / 2) if number % 2 else (face, BINDING, BINDING / 2)
        for number, face in enumerate(faces)
    ]
    setting.sheet = base
    items: list[Item] = [turn, marker(entry)]
    step = 1 if single else 2
    for first in range(0, len(placed), step):
        shown = [
            (face, left + number * face_width, hole + number * face_width)
            for number, (face, left, hole) in enumerate(placed[first : first + step])
        ]
        items.append(
            FaceItem(
                there.height, what="the card", faces=shown, line=line, width=width,
                fold_at=0.0 if single else face_width,
            )
        )  # fmt: skip
        items.append(Break(sheet=there if first + step < len(placed) else base))
    return items
