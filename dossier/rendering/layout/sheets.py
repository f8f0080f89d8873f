"""Sets drawing sheets and the title block: frame, centring marks, grid references, what document it is."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from dossier.notation import PageFault
from dossier.rendering import fonts
from dossier.rendering.blocks import Drawable, DrawingSheet, TitleBlock
from dossier.rendering.layout.item import EMPTY, Break, Item, Marker, Stands, write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.measures import (
    FRAME_EDGE,
    FRAME_PADDING,
    MM,
    TITLE_BLOCK_HEIGHT,
    TITLE_BLOCK_WIDTH,
    Style,
    bare_sheet,
    framed_sheet,
)
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.prose import marker
from dossier.rendering.layout.running import shortened
from dossier.rendering.layout.setting import Room, Setting, sets
from dossier.rendering.text import Text, italic, page_of, strong

OUTLINE, INNER, GRID_LINE = 0.7 * MM, 0.35 * MM, 0.35 * MM
FIELD = 50 * MM
LABEL = Style(6.5, 8.4)
SIZES = (Style(10.7, 13.2), Style(7.7, 9.4))
ROWS = 3


@dataclass(frozen=True, slots=True)
class Box:
    """One field of the title block: its share of the width, its label and what it says."""

    share: float
    label: Lines
    said: Lines


@dataclass(slots=True)
class TitleBlockItem(Item):
    """Three rows of fields in a frame."""

    rows: Sequence[Sequence[Box]] = ()
    width: float = 0.0
    framed: bool = True

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw the lines, write the fields."""
        high = self.height / ROWS
        for number, row in enumerate(self.rows):
            upper = top - number * high
            if number:
                pen.rule(x, upper, x + self.width, upper, INNER)
            left = x
            for place, box in enumerate(row):
                if place:
                    pen.rule(left, upper, left, upper - high, INNER)
                with pen.element("P"):
                    write(pen, box.label, left + 1.6 * MM, upper - 0.9 * MM)
                    room = high - 0.9 * MM - box.label.height
                    write(pen, box.said, left + 1.6 * MM, upper - high + (room + box.said.height) / 2)
                left += box.share * self.width
        pen.frame(
            x - OUTLINE / 2,
            top - self.height - OUTLINE / 2,
            self.width + OUTLINE,
            self.height + OUTLINE,
            OUTLINE,
        )


def _said(words: Text, width: float, setting: Setting) -> Lines:
    """A field in the larger size, else in the smaller on up to two lines, else cut."""
    for style in SIZES:
        lines = setting.fold(words, style, width)
        if len(lines.lines) == 1 or (style is SIZES[-1] and len(lines.lines) == len(SIZES)):
            return lines
    return shortened(words, SIZES[-1], width, setting)


def title_block_item(  # noqa: PLR0913, PLR0917 - what the block says
    setting: Setting, title: Text, kind: Text, scale: Text, width: float, key: str
) -> TitleBlockItem:
    """The title block of a drawing or of the title page."""
    imprint, label = setting.imprint, setting.label
    sheet_number = label("sheet_number", sheet=page_of(key), sheets=str(setting.sheets))
    none = "—"
    fields: tuple[tuple[tuple[float, str, Text], ...], ...] = (
        (
            (0.25, "owner", imprint.owner or none),
            (0.25, "title", strong(title)),
            (0.25, "boat", strong(imprint.boat)),
            (0.25, "number", strong(imprint.number)),
        ),
        (
            (0.25, "author", imprint.author or none),
            (0.25, "approval", italic(imprint.approval)),
            (0.25, "kind", kind),
            (0.25, "status", imprint.status),
        ),
        (
            (0.25, "date", imprint.date or imprint.undated),
            (0.125, "revision", strong(imprint.revision)),
            (0.125, "language", imprint.language),
            (0.25, "scale", scale or none),
            (0.25, "sheet", strong(sheet_number)),
        ),
    )
    rows = [
        [
            Box(
                share,
                setting.fold(label(f"title_block_{name}"), LABEL, share * width - 2.4 * MM),
                _said(said, share * width - 2.6 * MM, setting),
            )
            for share, name, said in row
        ]
        for row in fields
    ]
    return TitleBlockItem(
        TITLE_BLOCK_HEIGHT, 0.0, 0.0, Stands.FOOT, what="the title block", rows=rows, width=width
    )


@sets(TitleBlock)
def title_block(block: TitleBlock, setting: Setting, room: Room) -> list[Item]:
    """The title block at the foot of the title page."""
    key = "title block"
    mark = Marker(keys=(key,), stands=room.stands)
    item = title_block_item(setting, block.title, block.kind, block.scale, setting.sheet.full_width, key)
    return [mark, item]


@dataclass(slots=True)
class DrawingItem(Item):
    """Everything on a drawing sheet, from its frame inwards."""

    width: float = 0.0
    drawing: Drawable | None = None
    alt: str = ""
    title: TitleBlockItem | None = None
    notes: Lines = EMPTY
    both_sides: bool = False

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw frame, marks, title block, notes and drawing."""
        bottom = top - self.height
        with pen.artifact():
            pen.frame(
                x - OUTLINE / 2, bottom - OUTLINE / 2, self.width + OUTLINE, self.height + OUTLINE, OUTLINE
            )
            _grid(pen, x, bottom, self.width, self.height, both=self.both_sides)
        above = 0.0
        if self.title is not None:
            self.title.draw(pen, x + self.width - self.title.width, bottom + self.title.height)
            above = self.title.height
            with pen.element("P"):
                write(
                    pen, self.notes, x + self.width - self.title.width,
                    bottom + above + 1.8 * MM + self.notes.height,
                )  # fmt: skip
        if self.drawing is not None:
            with pen.element("Figure", alt=self.alt):
                pen.drawing(self.drawing, *self._corner(x, bottom, above))

    def _corner(self, x: float, bottom: float, above: float) -> tuple[float, float]:
        """Lower left corner of the drawing: above the block in the middle, or the frame's own corner."""
        wide, high = (self.drawing.width, self.drawing.height) if self.drawing else (0.0, 0.0)
        over = above + self.notes.height + 2 * FRAME_PADDING
        left = x + (self.width - wide) / 2
        if high <= self.height - over - FRAME_PADDING:
            return left, bottom + over + (self.height - over - FRAME_PADDING - high) / 2
        return left, bottom + (self.height - high) / 2


@dataclass(slots=True)
class WholeItem(Item):
    """A sheet that is drawn as a whole once its number is known."""

    make: Callable[[str], Drawable] | None = None
    number: str = ""
    alt: str = ""

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Let the sheet be made, and draw it."""
        if self.make is None:
            return
        drawing = self.make(self.number)
        with pen.element("Figure", alt=self.alt):
            pen.drawing(drawing, x, top - drawing.height)


def _grid(  # noqa: PLR0913 - a frame has four sides
    pen: Pen, x: float, bottom: float, width: float, height: float, *, both: bool
) -> None:
    """Centring marks, and grid references counted from them."""
    middle, half = x + width / 2, bottom + height / 2
    edge = 4.5 * MM
    pen.rule(middle, bottom + height - 4 * MM, middle, bottom + height + FRAME_EDGE - edge + 1 * MM, OUTLINE)
    pen.rule(middle, bottom, middle, bottom - FRAME_EDGE + edge - 1 * MM, OUTLINE)
    pen.rule(x - 4 * MM, half, x + 4 * MM, half, OUTLINE)
    pen.rule(x + width - 4 * MM, half, x + width + FRAME_EDGE - edge + 1 * MM, half, OUTLINE)
    tick, size = 3.2 * MM, 7.7
    columns = _fields(width)
    for left, right, number in zip(columns, columns[1:], range(1, len(columns)), strict=False):
        sides = (bottom + height,) if not both else (bottom + height, bottom - tick - 0.8 * MM)
        for y in sides:
            word = str(number)
            wide = fonts.width(word, fonts.REGULAR, size)
            pen.words(x + (left + right - wide) / 2, y + 1.3 * MM, word, fonts.REGULAR, size)
        if number > 1 and abs(left - width / 2) > 1:
            pen.rule(x + left, bottom + height, x + left, bottom + height + tick, GRID_LINE)
    letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    lines = _fields(height)
    for low, high, number in zip(lines, lines[1:], range(len(lines)), strict=False):
        letter = letters[number]
        wide = fonts.width(letter, fonts.REGULAR, size)
        y = bottom + height - (low + high) / 2 - size * 0.33
        pen.words(x + width + 2.6 * MM - wide / 2, y, letter, fonts.REGULAR, size)
        if number and abs(low - height / 2) > 1:
            pen.rule(x + width, bottom + height - low, x + width + tick, bottom + height - low, GRID_LINE)


def _fields(length: float) -> list[float]:
    """Ends of fields of 50 mm counted both ways from the middle, the rest at the ends."""
    half = length / 2
    count = max(1, round(half / FIELD))
    inner = [half + FIELD * number for number in range(-count + 1, count)]
    return [0.0, *inner, length]


@sets(DrawingSheet)
def drawing_sheet(block: DrawingSheet, setting: Setting, room: Room) -> list[Item]:
    """A drawing on a sheet of its own. Raises PageFault if it is larger than the frame."""
    del room
    base = setting.base
    place = marker(setting.next_entry()) if block.part == 1 else Marker(keys=(block.key,))
    paper = block.paper or setting.paper
    if block.whole is not None:
        bare = bare_sheet(paper, landscape=block.landscape)
        turn, setting.sheet = setting.turn(bare), base
        number = setting.label("sheet_number", sheet=setting.page(block.key), sheets=str(setting.sheets))
        whole = WholeItem(
            bare.height, what=f"drawing {block.key}", make=block.whole, number=str(number), alt=block.alt
        )
        return [turn, place, whole, Break(sheet=base)]
    there = framed_sheet(paper, landscape=block.landscape)
    turn = setting.turn(there)
    width, height = there.full_width, there.room
    drawing = block.drawing
    if drawing is None:
        raise PageFault(f"drawing sheet {block.key} has neither a drawing nor a way to make one")
    if drawing.width > width + 0.5 or drawing.height > height + 0.5:
        raise PageFault(
            f"drawing {block.key} is {drawing.width / MM:.0f} × {drawing.height / MM:.0f} mm; "
            f"the frame holds {width / MM:.0f} × {height / MM:.0f} mm"
        )
    block_width = min(TITLE_BLOCK_WIDTH, width)
    title = title_block_item(setting, block.title, block.kind, block.scale, block_width, block.key)
    notes = setting.fold(block.notes, Style(7.7, 3.6 * MM), block_width) if block.notes else EMPTY
    item = DrawingItem(
        height, what=f"drawing {block.key}", width=width, drawing=drawing, alt=block.alt, title=title,
        notes=notes, both_sides=paper == "A3",
    )  # fmt: skip
    setting.sheet = base
    return [turn, place, item, Break(sheet=base)]
