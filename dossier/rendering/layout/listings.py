"""Sets workings of formulas and the printed project file."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from dossier.rendering import fonts
from dossier.rendering.blocks import FormulaLine, Listing
from dossier.rendering.layout.item import EMPTY, PART, Item, Stands, TextItem, write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.measures import MM, ROW, Style
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.rows import Row, RowsItem
from dossier.rendering.layout.setting import Room, Setting, joined, sets
from dossier.rendering.layout.tables import captions
from dossier.rendering.text import formula_text, strong

NUMBER_WIDTH = 7.5 * MM
FILE_SIZE, FILE_LEADING = 6.8, 8.4
MORE_GAP = 0.5 * MM


@dataclass(slots=True)
class ListingRow(Row):
    """A line of the file with its number."""

    number: str = ""
    lines: Lines = EMPTY
    indent: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write number and line."""
        style = self.lines.style
        with pen.artifact():
            wide = fonts.width(self.number, fonts.REGULAR, style.size)
            pen.words(
                x + NUMBER_WIDTH - 2.4 * MM - wide, top - style.base, self.number, fonts.REGULAR, style.size
            )
        with pen.element("TR"), pen.element("TD"):
            write(pen, self.lines, x + NUMBER_WIDTH + self.indent, top)


@sets(Listing)
def listing(block: Listing, setting: Setting, room: Room) -> list[Item]:
    """A file as it was written."""
    small = setting.scale.small
    style = Style(min(small.size, FILE_SIZE), FILE_LEADING)
    rows: list[Row] = []
    for number, raw in enumerate(block.lines, block.start):
        line = raw.expandtabs(4).rstrip()
        written = line.lstrip(" ")
        indent = (len(line) - len(written)) * style.size * 0.5
        indent = min(indent, room.full / 3)
        spaced = written.replace("  ", "\u00a0 ")
        lines = setting.fold(spaced, style, room.full - NUMBER_WIDTH - indent)
        place = f"{block.key}:{number}" if block.key else ""
        rows.append(ListingRow(lines.height, place, str(number), lines, indent))
    caption, continued = captions(setting, strong(block.caption), room.full, None)
    stands = Stands.FULL if room.full > room.width else room.stands
    item = RowsItem(
        0.0, 6.5 * MM, 6.5 * MM, stands, what="the listing", width=room.full, caption=caption,
        continued=continued, rows=rows, key=block.key, hairlines=False,
    )  # fmt: skip
    return [item.measured()]


@dataclass(slots=True)
class FormulaItem(Item):
    """One working."""

    number: Lines = EMPTY
    label: Lines = EMPTY
    result: Lines = EMPTY
    body: Lines = EMPTY
    source: Lines = EMPTY
    width: float = 0.0
    key: str = ""
    beside: bool = False
    more: Lines = EMPTY

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write number, label and result, the formula below, its source at the end of it or below."""
        left = x + NUMBER_WIDTH
        pen.rule(x, top, x + self.width, top, ROW)
        top -= 0.7 * MM
        with pen.element("P"):
            write(pen, self.number, x, top)
            write(pen, self.label, left, top)
            write(pen, self.result, x, top, self.width, "right")
        top -= max(self.label.height, self.result.height)
        with pen.element("P"):
            write(pen, self.body, left, top)
        with pen.element("P"):
            if self.beside:
                lift = self.body.height - self.source.height
                write(pen, self.source, x, top - lift, self.width, "right")
            else:
                write(pen, self.source, left, top - self.body.height)
        if self.more.lines:
            with pen.element("P"):
                write(pen, self.more, left, top - self._above_more)

    @property
    def _above_more(self) -> float:
        """From the top of the formula to the further workings."""
        return self.body.height + (0.0 if self.beside else self.source.height) + MORE_GAP

    @property
    def least(self) -> float:
        """All but the further workings, and two lines of these."""
        leading, count = self.more.style.leading, len(self.more.lines)
        return self.height - (count - PART) * leading if count >= 2 * PART else self.height

    def split(self, room: float) -> tuple[Item, Item] | None:
        """Break between lines of the further workings."""
        leading, count = self.more.style.leading, len(self.more.lines)
        above = self.height - self.more.height
        first = min(int((room - above) / leading + 1e-6), count - PART)
        if count < 2 * PART or first < PART:
            return None
        upper, lower = self.more.part(0, first), self.more.part(first)
        return (
            replace(self, height=above + upper.height, more=upper),
            TextItem(lower.height, stands=self.stands, what=self.what, lines=lower, indent=NUMBER_WIDTH),
        )

    def places(self) -> Iterator[tuple[str, float]]:
        """Its own key and those in its words."""
        if self.key:
            yield self.key, 0.0
        yield from self.body.targets()
        below = 0.7 * MM + max(self.label.height, self.result.height) + self._above_more
        yield from ((key, below + down) for key, down in self.more.targets())


@sets(FormulaLine)
def formula_line(block: FormulaLine, setting: Setting, room: Room) -> list[Item]:
    """One working, over both columns."""
    scale, width = setting.scale, room.full
    small = scale.small
    inner = width - NUMBER_WIDTH
    result = setting.fold(strong(block.result), scale.table, inner * 0.45)
    label = setting.fold(strong(block.label), scale.table, inner - result.width - 4 * MM)
    formula = formula_text(block.formula)
    body = setting.fold(joined(formula, block.values), small, inner)
    if block.values and len(body.lines) > 1:
        first, second = (setting.fold(words, small, inner) for words in (formula, block.values))
        body = Lines(body.style, first.lines + second.lines)
    source = setting.fold(block.source, small, inner) if block.source else EMPTY
    last = body.part(-1) if body.lines else EMPTY
    beside = len(source.lines) == 1 and last.width + source.width + 6 * MM <= inner
    height = 0.7 * MM + max(label.height, result.height) + body.height + 0.7 * MM
    height += 0.0 if beside else source.height
    more = setting.fold(block.more, small, inner) if block.more else EMPTY
    height += MORE_GAP + more.height if block.more else 0.0
    return [
        FormulaItem(
            height, 0.0, 0.0, Stands.FULL if room.full > room.width else room.stands, what="a working",
            number=setting.fold(strong(block.number), scale.table, NUMBER_WIDTH), label=label,
            result=result, body=body, source=source, width=width, key=block.key, beside=beside,
            more=more,
        )
    ]  # fmt: skip
