"""Sets checks one by one: result, figures, what they rest on, a box to tick and a line to write on."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from dossier.rendering.blocks import Check, ChecksTable
from dossier.rendering.layout.item import EMPTY, Item, Stands, write
from dossier.rendering.layout.lines import Lines, longest_word
from dossier.rendering.layout.measures import MM, ROW, Style
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.result_cell import CELL_WIDTH, ResultCell, flat_cell, result_cell
from dossier.rendering.layout.rows import Part, Row, RowsItem, broken, foot_of
from dossier.rendering.layout.setting import Room, Setting, joined, sets, shown_strong
from dossier.rendering.layout.tables import HEAD_LEAD, HEAD_TAIL, LONGEST_CELL, TICK, captions
from dossier.rendering.text import Face, Text, italic, strong, text
from dossier.rendering.words import cut

ABOVE, BELOW = 0.9 * MM, 0.9 * MM
CELL_X = 8.4 * MM
TITLE_X = 36.9 * MM
FIGURES, GAP = (22.0 * MM, 22.5 * MM, 18.0 * MM), 1.6 * MM
SEEN = 16.0 * MM
LONGEST_FIGURE = 32.0 * MM
NARROW = 150 * MM
MET = "met"


@dataclass(slots=True)
class CheckRow(Row):
    """One check."""

    number: Lines = EMPTY
    cell: ResultCell | None = None
    parts: Sequence[Part] = ()
    tick_x: float = 0.0
    right: float = 0.0
    ticked: bool = True

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw the cell, write the columns, leave a box and a line."""
        inner = top - ABOVE
        with pen.element("TR"):
            with pen.element("TH", scope="Row"):
                write(pen, self.number, x, inner)
            if self.cell is not None:
                with pen.element("TD"):
                    self.cell.draw(pen, x + CELL_X, inner - 0.35 * MM)
            for lines, left, down, width, align in self.parts:
                with pen.element("TD"):
                    write(pen, lines, x + left, inner - down, width, align)
            if not self.ticked:
                return
            left, box = x + self.tick_x, inner - 0.35 * MM - TICK
            pen.frame(left, box, TICK, TICK, 0.3 * MM)
            if self.right > self.tick_x + 2 * TICK:
                pen.rule(left + TICK + 1.4 * MM, box, x + self.right, box, ROW)

    def split(self, room: float) -> tuple[Row, Row] | None:
        """The lines that fit, with number, cell and box; the others."""
        halves = broken(self.parts, room - ABOVE - BELOW)
        if halves is None:
            return None
        upper, lower = (replace(self, parts=half, height=ABOVE + foot_of(half) + BELOW) for half in halves)
        return upper, replace(lower, number=EMPTY, cell=None, key="", ticked=False)

    def places(self) -> Iterator[tuple[str, float]]:
        """The check's own key and places in its words."""
        if self.key:
            yield self.key, 0.0
        for lines, *_ in self.parts:
            yield from lines.targets()


@dataclass(slots=True)
class ChecksHead(Row):
    """Heads of the columns."""

    labels: Sequence[tuple[Lines, float, float, str]] = ()

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write the heads."""
        with pen.element("TR"):
            for lines, left, width, align in self.labels:
                with pen.element("TH", scope="Column"):
                    write(pen, lines, x + left, top - HEAD_LEAD, width, align)


class _Setter:
    """Sets checks for a wide or a narrow sheet."""

    def __init__(self, setting: Setting, whole: float, checks: Sequence[Check]) -> None:
        self.setting, self.width = setting, whole
        self.style, self.small = setting.scale.table, setting.scale.small
        self.narrow = whole < NARROW
        self.seen = whole - (TICK if self.narrow else SEEN)
        widths: Sequence[float] = FIGURES if self.narrow else self._widths(checks)
        room = sum(widths) + 5 * GAP if not self.narrow else 2 * MM
        self.title = (TITLE_X, self.seen - TITLE_X - room)
        self.figures: list[tuple[float, float]] = []
        left = TITLE_X + self.title[1] + GAP
        for width in widths:
            self.figures.append((left, width))
            left += width + GAP
        self.notes = (TITLE_X, self.seen - TITLE_X - 2 * MM)

    def _widths(self, checks: Sequence[Check]) -> list[float]:
        """Widths of found, limit and margin: no word is broken that people would write."""
        bold, resolve = self.style.faced(Face.STRONG), self.setting.resolve
        said = (
            [
                (words, style)
                for c in checks
                for words, style in ((c.found, self.style), (c.found_note, self.small))
            ],
            [(c.limit, self.style) for c in checks],
            [(c.margin, bold) for c in checks],
        )
        return [
            min(
                max([least, *(longest_word(words, style, resolve) for words, style in column)]),
                LONGEST_FIGURE,
            )
            for least, column in zip(FIGURES, said, strict=True)
        ]

    def _fold(self, words: Text, width: float, style: Style) -> Lines:
        return self.setting.fold(cut(words, LONGEST_CELL) if isinstance(words, str) else words, style, width)

    def _stacked(
        self, column: tuple[float, float], align: str, down: float, *words: tuple[Text, Style]
    ) -> list[Part]:
        placed: list[Part] = []
        for said, style in words:
            if said:
                lines = self._fold(said, column[1], style)
                placed.append((lines, column[0], down, column[1], align))
                down += lines.height
        return placed

    def row(self, check: Check) -> CheckRow:
        """One check."""
        number = self._fold(check.number, CELL_X, self.style.faced(Face.STRONG))
        made = flat_cell if str.__str__(check.status) == MET else result_cell
        cell = made(self.setting, check.severity, check.status)
        parts = self._narrow(check) if self.narrow else self._wide(check)
        foot = max(down + lines.height for lines, _, down, _, _ in parts)
        said = self._asked(check)
        notes = self._stacked(self.notes, "left", foot + 0.2 * MM, *((n, self.small) for n in said))
        parts = [*parts, *notes]
        tall = max([down + lines.height for lines, _, down, _, _ in parts] + [cell.height + 0.4 * MM])
        return CheckRow(ABOVE + tall + BELOW, check.key, number, cell, parts, self.seen, self.width)

    @staticmethod
    def _asked(check: Check) -> Sequence[Text]:
        """The notes, the question before the first of them."""
        return [joined(italic(check.question), *check.notes[:1]), *check.notes[1:]]

    def _wide(self, check: Check) -> list[Part]:
        named = joined(strong(check.title), *(["·", check.found_note] if check.found_note else []))
        title = self._stacked(self.title, "left", 0.0, (named, self.style))
        found, limit, margin = self.figures
        return [
            *title,
            *self._stacked(found, "right", 0.0, (check.found, self.style)),
            *self._stacked(limit, "right", 0.0, (check.limit, self.style)),
            *self._stacked(margin, "right", 0.0, (shown_strong(check.margin), self.style)),
        ]

    def _narrow(self, check: Check) -> list[Part]:
        label = self.setting.label
        found = joined(label("finding_found"), strong(check.found), check.found_note)
        figures = text(
            found, " · ", label("finding_limit"), " ", strong(check.limit),
            " · ", label("finding_margin"), " ", shown_strong(check.margin),
        )  # fmt: skip
        return self._stacked(
            self.title, "left", 0.0, (strong(check.title), self.style), (figures, self.style)
        )

    def head(self) -> ChecksHead:
        """Heads of the columns."""
        label = self.setting.label
        named = [
            ("finding_number", (0.0, CELL_X), "left"),
            ("finding_result", (CELL_X + 0.6 * MM, CELL_WIDTH), "left"),
            ("check_title", self.title, "left"),
        ]
        if not self.narrow:
            words = ("finding_found", "finding_limit", "finding_margin")
            named += [(word, column, "right") for word, column in zip(words, self.figures, strict=True)]
            named.append(("check_seen", (self.seen, SEEN), "left"))
        labels = [
            (self._fold(strong(label(word)), column[1], self.style), *column, align)
            for word, column, align in named
        ]
        tall = max(lines.height for lines, *_ in labels)
        return ChecksHead(HEAD_LEAD + tall + HEAD_TAIL, "", labels)


@sets(ChecksTable)
def checks_table(block: ChecksTable, setting: Setting, room: Room) -> list[Item]:
    """Checks, in the order given."""
    number = setting.label("table_name", number=setting.counters.table())
    setter = _Setter(setting, room.full, block.checks)
    caption, continued = captions(setting, block.caption, room.full, number)
    item = RowsItem(
        0.0, 4.5 * MM, 5.2 * MM, Stands.FULL if room.full > room.width else room.stands,
        what="the checks", width=room.full, caption=caption, continued=continued, head=setter.head(),
        rows=[setter.row(check) for check in block.checks], key=block.key, together=1,
    )  # fmt: skip
    return [item.measured()]
