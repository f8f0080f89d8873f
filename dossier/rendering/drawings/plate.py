"""What surrounds a drawing on its sheet: legend, notes, heading of a part, and the room they leave free."""

from dataclasses import dataclass, replace

from dossier.rendering.drawings.legend import COLUMN, Entry, drawn, shared_out
from dossier.rendering.drawings.lettering import CAPITALS, SEMIBOLD, SMALL
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.shapes import Drawing, Shape, Text
from dossier.rendering.drawings.sheet import Form, Sheet, TitleBlock, framed, noted, title_block

INSET = 5.0  # from the frame to what is drawn
HEADING = 5.0
STEP = 2.0
CENTRING_MARK = 6.0  # how far the mark at the foot reaches into the frame


@dataclass(frozen=True, slots=True)
class Furniture:
    """Everything on the sheet but what is drawn, and the room left free for it."""

    sheet: Sheet
    free: Box
    shapes: tuple[Shape, ...]

    def drawn(self, title: TitleBlock) -> list[Shape]:
        """Legend and notes, frame and title block."""
        return [*self.shapes, *framed(self.sheet), *title_block(self.sheet, title)]

    def drawing(self, shapes: list[Shape], title: TitleBlock, scale: str = "") -> Drawing:
        """The whole sheet with what is drawn in its free room, at the scale told or that of the block."""
        title = replace(title, scale=scale or title.scale)
        whole = Drawing.of(*self.sheet.size, [*shapes, *self.drawn(title)], title.title)
        return replace(whole, scale=title.scale)


def laid_round(form: Form, found: list[Entry], lines: int = 0, part: str = "") -> Furniture:
    """Frame, notes and legend of a sheet, the legend as low as it goes.

    ``found`` are the entries of the legend, the first ``lines`` of them set apart; ``part`` is the heading of
    one part of a drawing that takes several sheets.
    """
    sheet = Sheet(form.paper)
    frame, block = sheet.frame, sheet.block
    notes, over_notes = noted(sheet, form)
    over = over_notes - block.top
    extra = over
    columns = _columns(sheet, extra, over)
    shares = shared_out(found, columns, lines)
    while shares is None and extra < frame.height / 2:
        extra += STEP
        columns = _columns(sheet, extra, over)
        shares = shared_out(found, columns, lines)
    top = block.top + extra
    shapes: list[Shape] = list(notes)
    if found and shares:
        word = form.word("legend", "Lines and symbols on this sheet")
        shapes.append(Text(frame.left + INSET, top - 2.6, word, SMALL, SEMIBOLD))
        shapes += drawn(shares, columns)
    free = Box(frame.left + INSET, top + 3.0, frame.right - INSET, frame.top - INSET)
    if part:
        shapes.append(Text(free.left, free.top - 2.6, part, CAPITALS, SEMIBOLD))
        free = Box(free.left, free.bottom, free.right, free.top - HEADING - 1.0)
    return Furniture(sheet, free, tuple(shapes))


def _columns(sheet: Sheet, extra: float, over: float) -> list[Box]:
    """Columns beside the title block, then those over it above the notes."""
    frame, block = sheet.frame, sheet.block
    top = block.top + extra - HEADING
    columns: list[Box] = []
    left = frame.left + INSET
    while left + COLUMN <= block.left - 1.0:
        over_mark = left < sheet.size[0] / 2 < left + COLUMN
        foot = frame.bottom + (CENTRING_MARK if over_mark else 2.0)
        columns.append(Box(left, foot, left + COLUMN, top))
        left += COLUMN
    left = max(left, frame.left + INSET)
    while left + COLUMN <= frame.right - 1.0:
        columns.append(Box(left, block.top + over + 1.0, left + COLUMN, top))
        left += COLUMN
    return [column for column in columns if column.height > 0]
