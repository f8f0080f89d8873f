"""Sets tables: the head with units, cells by their columns, boxes to write in."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from dossier.rendering import fonts
from dossier.rendering.blocks import Align, Blank, Cell, Column, Span, Table, Tick
from dossier.rendering.layout.boxes import BOX_GAP, BOX_HEIGHT, write_blank
from dossier.rendering.layout.columns import GAP, Wish, shared
from dossier.rendering.layout.item import EMPTY, Item, Stands, text_item, write
from dossier.rendering.layout.lines import FONTS, Lines, longest_word, natural_width
from dossier.rendering.layout.measures import MM, Style
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.rows import Row, RowsItem
from dossier.rendering.layout.setting import Room, Setting, sets
from dossier.rendering.text import Face, Markup, Run, Text, italic, strong, text
from dossier.rendering.words import cut

GAP_SIGN = Markup((Run("", sign="gap"),))
ROW_ABOVE, ROW_BELOW = 0.5 * MM, 0.35 * MM
HEAD_LEAD, HEAD_TAIL = 1.25 * MM, 0.9 * MM
TICK = 4.2 * MM
LONGEST_CELL = 600
"""Letters of one cell."""
WIDEST_TEXT, WIDEST_WORD, WIDEST_LABEL = 95 * MM, 32 * MM, 17 * MM


@dataclass(frozen=True, slots=True)
class Slot:
    """Where a column stands: left edge and width from the table's left edge, and how its cells stand."""

    x: float
    width: float
    align: str
    strong: bool


@dataclass(slots=True)
class CellsRow(Row):
    """Cells beside one another."""

    slots: Sequence[Slot] = ()
    cells: Sequence[Lines | Blank | Tick | None] = ()
    shifts: Sequence[float] = ()
    small: Style = EMPTY.style
    header: bool = False
    lead: float = ROW_ABOVE

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw each cell in its slot."""
        inner = top - self.lead
        pen.push("TR")
        for number, (slot, cell) in enumerate(zip(self.slots, self.cells, strict=True)):
            header = self.header or (number == 0 and slot.align == "left")
            pen.push("TH" if header else "TD", scope="Column" if self.header else "Row" if header else "")
            if isinstance(cell, Lines):
                shift = self.shifts[number] if self.shifts else 0.0
                write(pen, cell, x + slot.x - shift, inner, slot.width, slot.align)
            elif isinstance(cell, Blank):
                write_blank(pen, cell, x + slot.x, top - BOX_GAP, slot.width, self.small)
            elif isinstance(cell, Tick):
                left = x + slot.x + (0.0 if slot.align == "left" else (slot.width - TICK) / 2)
                pen.frame(left, top - self.height / 2 - TICK / 2, TICK, TICK, 0.3 * MM)
                pen.field(cell.field, (left, top - self.height / 2 - TICK / 2, TICK, TICK), tick=True)
            pen.pop()
        pen.pop()

    def split(self, room: float) -> tuple[Row, Row] | None:
        """Break every cell after the lines that fit."""
        counts = [len(cell.lines) for cell in self.cells if isinstance(cell, Lines)]
        leading = max((c.style.leading for c in self.cells if isinstance(c, Lines)), default=0.0)
        first = int((room - ROW_ABOVE - ROW_BELOW) / leading) if leading else 0
        if first < 1 or first >= max(counts, default=0):
            return None
        upper = [cell.part(0, first) if isinstance(cell, Lines) else cell for cell in self.cells]
        lower = [cell.part(first) if isinstance(cell, Lines) else None for cell in self.cells]
        rest = max(counts) - first
        return (
            replace(self, cells=upper, height=ROW_ABOVE + first * leading + ROW_BELOW, lead=ROW_ABOVE),
            replace(self, cells=lower, height=ROW_ABOVE + rest * leading + ROW_BELOW, lead=ROW_ABOVE, key=""),
        )

    def places(self) -> Iterator[tuple[str, float]]:
        """Places in the words of the cells."""
        if self.key:
            yield self.key, 0.0
        for cell in self.cells:
            if isinstance(cell, Lines):
                yield from cell.targets()


def _cell(cell: Cell) -> Cell:
    """What a cell holds; a text longer than people write is cut."""
    return cut(cell, LONGEST_CELL) if isinstance(cell, str) else cell


class TableSetter:
    """Sets one table: measures its columns, then its rows."""

    def __init__(self, table: Table, setting: Setting, room: Room) -> None:
        self.setting, self.scale = setting, setting.scale
        kept = [n for n, c in enumerate(table.columns) if not (c.wide_only and setting.sheet.narrow)]
        self.columns: list[Column] = [table.columns[n] for n in kept]
        self.rows = [[_cell(row[n]) if n < len(row) else "" for n in kept] for row in table.rows]
        self.totals = [[row[n] if n < len(row) else "" for n in kept] for row in table.totals]
        self.style, self.pitch = self.scale.table, table.pitch * MM
        self._fractions = [0.0] * len(kept)
        wishes = self.wishes = [self._wish(n) for n in range(len(kept))]
        natural = sum(wish.natural for wish in wishes) + GAP * (len(wishes) - 1)
        self.stands, self.width = room.stands, room.width
        wide = table.span is Span.FULL or (natural > room.width and table.span is not Span.TEXT)
        if room.stands is Stands.TEXT and wide:
            self.stands, self.width = (Stands.FULL if room.full > room.width else Stands.TEXT), room.full
        self.slots: list[Slot] = []
        x = 0.0
        widths, between = shared(wishes, self.width)
        for column, width in zip(self.columns, widths, strict=True):
            align = {Align.TEXT: "left", Align.CENTRE: "centre"}.get(column.align, "right")
            self.slots.append(Slot(x, width, align, column.strong))
            x += width + between

    def _wish(self, n: int) -> Wish:
        """What a column needs."""
        column, known = self.columns[n], dict[str, tuple[float, float]]()
        heavy = self.style.faced(Face.STRONG)
        least = natural = 0.0
        for cells, style in ((self.rows, self._cell_style(column)), (self.totals, heavy)):
            for row in cells:
                cell = row[n]
                if isinstance(cell, Blank | Tick):
                    least, natural = max(least, 14 * MM), max(natural, 24 * MM)
                    continue
                if isinstance(cell, str) and cell in known and style is not heavy:
                    continue
                word, whole = self._widths(cell, style, column.align)
                if isinstance(cell, str):
                    known[cell] = (word, whole)
                least, natural = max(least, word), max(natural, whole)
        if column.align is Align.DECIMAL:
            self._fractions[n] = max((self._fraction(row[n], column) for row in self.rows), default=0.0)
            natural += self._fractions[n]
        label = natural_width(column.label, heavy, self.setting.resolve)
        label_word = longest_word(column.label, heavy, self.setting.resolve)
        unit = fonts.width(fonts.shown(f"[{column.unit}]"), fonts.REGULAR, self.scale.unit.size)
        unit = unit if column.unit else 0.0
        words = label if column.align is Align.TEXT or label <= max(WIDEST_LABEL, natural) else label_word
        if column.group:
            words = label_word = max(label_word, 6 * MM)
        return Wish(
            max(min(least, WIDEST_WORD), min(label_word, WIDEST_WORD), unit),
            max(min(natural, WIDEST_TEXT), words, unit) if column.width is None else column.width * MM,
            fixed=column.width is not None,
        )

    def _widths(self, cell: Text, style: Style, align: Align) -> tuple[float, float]:
        """Widest word and whole width of a cell; a number is one word."""
        if align is not Align.TEXT and isinstance(cell, str):
            whole = fonts.width(fonts.shown(cell), FONTS[style.face], style.size)
            return whole, whole
        whole = natural_width(cell, style, self.setting.resolve)
        return longest_word(cell, style, self.setting.resolve), whole

    def _cell_style(self, column: Column) -> Style:
        style = replace(self.style, size=self.scale.small.size) if column.small else self.style
        return style.faced(Face.STRONG) if column.strong else style

    def _fraction(self, cell: Cell, column: Column) -> float:
        """Width of what stands behind the decimal point."""
        if not isinstance(cell, str) or "." not in cell:
            return 0.0
        style = self._cell_style(column)
        return fonts.width("." + cell.partition(".")[2], FONTS[style.face], style.size)

    def row(self, cells: Sequence[Cell], *, total: bool = False) -> CellsRow:
        """One row."""
        set_cells: list[Lines | Blank | Tick | None] = []
        shifts: list[float] = []
        tall, decimal = 0.0, False
        for n, (cell, slot, column) in enumerate(zip(cells, self.slots, self.columns, strict=True)):
            shift = 0.0
            if isinstance(cell, Blank):
                tall = max(tall, BOX_HEIGHT + 2 * BOX_GAP - ROW_ABOVE - ROW_BELOW)
                set_cells.append(cell)
            elif isinstance(cell, Tick):
                tall = max(tall, TICK + 0.4 * MM)
                set_cells.append(cell)
            elif not cell:
                set_cells.append(None)
            else:
                style = self.style.faced(Face.STRONG) if total else self._cell_style(column)
                lines = self.setting.fold(cell, style, slot.width + 0.01)
                tall = max(tall, lines.height)
                if column.align is Align.DECIMAL:
                    shift, decimal = self._fractions[n] - self._fraction(cell, column), True
                set_cells.append(lines)
            shifts.append(shift)
        words = [cell.height for cell in set_cells if isinstance(cell, Lines)]
        low = max(0.0, tall - max(words, default=0.0)) / 2 if words else 0.0
        tall = max(tall, self.style.leading)
        spare = max(0.0, self.pitch - ROW_ABOVE - tall - ROW_BELOW)
        low, tall = low + spare / 2, tall + spare
        return CellsRow(
            ROW_ABOVE + tall + ROW_BELOW,
            "",
            self.slots,
            set_cells,
            shifts if decimal else (),
            self.scale.small,
            lead=ROW_ABOVE + low,
        )

    def head(self) -> "HeadRow":
        """The head: groups, labels, units."""
        heavy, unit = self.style.faced(Face.STRONG), self.scale.unit
        labels: list[Lines] = []
        lower: list[Lines] = []
        for column, slot in zip(self.columns, self.slots, strict=True):
            width = slot.width + 0.01
            if column.group:
                labels.append(EMPTY)
                lower.append(self.setting.fold(column.label, self.style, width))
            else:
                labels.append(self.setting.fold(column.label, heavy, width))
                lower.append(self.setting.fold(f"[{column.unit}]", unit, width) if column.unit else EMPTY)
        groups: list[tuple[Lines, float, float]] = []
        pairs = list(zip(self.columns, self.slots, strict=True))
        for name, members in groupby(pairs, key=lambda pair: pair[0].group):
            slots = [slot for _, slot in members]
            if name:
                wide = slots[-1].x + slots[-1].width - slots[0].x
                groups.append((self.setting.fold(name, heavy, wide), slots[0].x, wide))
        upper = max([lines.height for lines in labels] + [lines.height for lines, _, _ in groups])
        second = max(lines.height for lines in lower)
        height = HEAD_LEAD + upper + second + HEAD_TAIL
        return HeadRow(height, "", self.slots, labels, lower, groups, upper, second)


@dataclass(slots=True)
class HeadRow(Row):
    """The head of a table: labels stand on the line of the units."""

    slots: Sequence[Slot] = ()
    labels: Sequence[Lines] = ()
    lower: Sequence[Lines] = ()
    groups: Sequence[tuple[Lines, float, float]] = ()
    upper: float = 0.0
    second: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write labels and units."""
        top -= HEAD_LEAD
        with pen.element("TR"):
            for lines, left, wide in self.groups:
                write(pen, lines, x + left, top - self.upper + lines.height, wide, "right")
            for slot, label, unit in zip(self.slots, self.labels, self.lower, strict=True):
                with pen.element("TH", scope="Column"):
                    write(pen, label, x + slot.x, top - self.upper + label.height, slot.width, slot.align)
                    bottom = top - self.upper - self.second
                    write(pen, unit, x + slot.x, bottom + unit.height, slot.width, slot.align)


def captions(setting: Setting, caption: Text, width: float, number: Markup | None) -> tuple[Lines, Lines]:
    """The caption of a table, and the one on the sheets that follow."""
    style = setting.scale.caption
    if number is None and not caption:
        return EMPTY, EMPTY
    name = text(strong(number), GAP_SIGN) if number is not None else ""
    first = text(name, caption)
    again = text(first, " ", italic("(", setting.label("continued"), ")"))
    return setting.fold(first, style, width), setting.fold(again, style, width)


@sets(Table)
def table(block: Table, setting: Setting, room: Room) -> list[Item]:
    """A table; one without rows says that there is nothing to list."""
    number = None if block.plain else setting.label("table_name", number=setting.counters.table())
    setter = TableSetter(block, setting, room)
    caption, continued = captions(setting, block.caption, setter.width, number)
    if not block.rows and not block.totals:
        nothing = setting.fold(setting.label("nothing_listed"), setting.scale.small, setter.width)
        return [
            text_item(caption, setter.stands, 5.2 * MM, 1.0 * MM, key=block.key, keeps=True),
            text_item(nothing, setter.stands, 1.0 * MM, 5.2 * MM),
        ]
    item = RowsItem(
        0.0, 5.2 * MM, 5.2 * MM, setter.stands,
        what=f"table {block.key or block.caption}", width=setter.width,
        caption=caption, continued=continued,
        head=setter.head() if any(column.label or column.unit for column in block.columns) else None,
        rows=[setter.row(cells) for cells in setter.rows],
        totals=[setter.row(cells, total=True) for cells in setter.totals],
        notes=setting.fold(block.notes, setting.scale.small, setter.width) if block.notes else EMPTY,
        key=block.key,
    )  # fmt: skip
    return [item.measured()]
