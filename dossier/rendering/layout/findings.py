"""Sets the findings: each row bears grade and result as shape and word, and can be sent alone."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from dossier.rendering.blocks import Finding, FindingsTable
from dossier.rendering.layout.item import EMPTY, Item, Stands, write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.measures import MM, Style
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.result_cell import CELL_WIDTH, ResultCell, result_cell
from dossier.rendering.layout.rows import Row, RowsItem
from dossier.rendering.layout.setting import Room, Setting, joined, sets, shown_strong
from dossier.rendering.layout.tables import HEAD_LEAD, HEAD_TAIL, captions
from dossier.rendering.text import Face, Text, strong, text

ABOVE, BELOW = 1.0 * MM, 1.4 * MM
NUMBER_SIZE, LONG_SIZE, LONG = 12.0, 10.0, 3


@dataclass(slots=True)
class FindingRow(Row):
    """One finding: the parts of its columns, each with its left edge, width and alignment."""

    number: Lines = EMPTY
    cell: ResultCell | None = None
    cell_x: float = 0.0
    parts: Sequence[tuple[Lines, float, float, float, str]] = ()
    """Lines, left edge, distance of their top from the row's first line, width, alignment."""

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw the cell, write the columns."""
        inner = top - ABOVE
        with pen.element("TR"):
            with pen.element("TH", scope="Row"):
                write(pen, self.number, x, inner + (self.number.style.leading - 3.75 * MM) * -0.12)
            if self.cell is not None:
                with pen.element("TD"):
                    self.cell.draw(pen, x + self.cell_x, inner - 0.35 * MM)
            for lines, left, down, width, align in self.parts:
                with pen.element("TD"):
                    write(pen, lines, x + left, inner - down, width, align)

    def places(self) -> Iterator[tuple[str, float]]:
        """The finding's own key and places in its words."""
        if self.key:
            yield self.key, 0.0
        for lines, *_ in self.parts:
            yield from lines.targets()


@dataclass(slots=True)
class FindingsHead(Row):
    """Heads of the columns."""

    labels: Sequence[tuple[Lines, float, float, str]] = ()

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write the heads."""
        with pen.element("TR"):
            for lines, left, width, align in self.labels:
                with pen.element("TH", scope="Column"):
                    write(pen, lines, x + left, top - HEAD_LEAD, width, align)


@dataclass(frozen=True, slots=True)
class _Columns:
    """Left edges and widths."""

    number: float
    cell: float
    title: tuple[float, float]
    found: tuple[float, float]
    limit: tuple[float, float]
    margin: tuple[float, float]
    action: tuple[float, float]
    sheet: tuple[float, float]


def _columns(width: float) -> _Columns:
    """Columns for a width of 175 mm; what is over or short goes to title and action."""
    more = width / MM - 175.0
    title, action = 45.5 + more * 0.6, 35.8 + more * 0.4
    found = 34.0 + title + 1.0
    limit, margin = found + 17.4, found + 32.8
    start = margin + 18.2
    edges = (
        (34.0, title),
        (found, 16.4),
        (limit + 0.8, 13.6),
        (margin, 16.0),
        (start, action),
        (width / MM - 8, 8.0),
    )
    return _Columns(0.0, 6.4 * MM, *((left * MM, wide * MM) for left, wide in edges))


def _stacked(*parts: tuple[Lines, float, float, str]) -> list[tuple[Lines, float, float, float, str]]:
    """Parts below one another in one column."""
    down, placed = 0.0, []
    for lines, left, width, align in parts:
        if any(lines.lines):
            placed.append((lines, left, down, width, align))
            down += lines.height
    return placed


class _Setter:
    """Sets findings for a wide or a narrow sheet."""

    def __init__(self, setting: Setting, width: float) -> None:
        self.setting, self.width = setting, width
        self.style, self.small = setting.scale.table, setting.scale.small
        self.narrow = width < 150 * MM
        self.columns = _columns(width)

    def _part(
        self, words: Text, column: tuple[float, float], align: str = "left", *, small: bool = False
    ) -> tuple[Lines, float, float, str]:
        left, width = column
        lines = self.setting.fold(words, self.small if small else self.style, width)
        return lines, left, width, align

    def row(self, finding: Finding) -> FindingRow:
        """One finding."""
        cell = result_cell(self.setting, finding.severity, finding.status)
        size = NUMBER_SIZE if len(finding.number) < LONG else LONG_SIZE
        number = self.setting.fold(finding.number, Style(size, 4.3 * MM, Face.STRONG), 9 * MM)
        parts = self._narrow(finding) if self.narrow else self._wide(finding)
        tall = max([down + lines.height for lines, _, down, _, _ in parts] + [cell.height + 0.6 * MM])
        return FindingRow(
            ABOVE + tall + BELOW - 0.3 * MM, finding.key, number, cell, self.columns.cell, parts
        )

    def _wide(self, finding: Finding) -> list[tuple[Lines, float, float, float, str]]:
        c = self.columns
        sheet = finding.sheet
        return [
            *_stacked(
                self._part(strong(finding.title), c.title), self._part(finding.basis, c.title, small=True)
            ),
            *_stacked(
                self._part(finding.found, c.found, "right"),
                self._part(finding.found_note, c.found, "right", small=True),
            ),
            *_stacked(self._part(finding.limit, c.limit, "right")),
            *_stacked(self._part(shown_strong(finding.margin), c.margin, "right")),
            *_stacked(self._part(finding.action, c.action), self._part(strong(finding.who), c.action)),
            *_stacked(self._part(sheet, c.sheet, "right")),
        ]

    def _narrow(self, finding: Finding) -> list[tuple[Lines, float, float, float, str]]:
        left = self.columns.title[0]
        column = (left, self.width - left)
        label = self.setting.label
        found = joined(label("finding_found"), strong(finding.found), finding.found_note)
        figures = text(
            found, " · ", label("finding_limit"), " ", strong(finding.limit),
            " · ", label("finding_margin"), " ", shown_strong(finding.margin),
        )  # fmt: skip
        sheet = joined(label("finding_sheet"), finding.sheet) if finding.sheet else ""
        return _stacked(
            self._part(strong(finding.title), column),
            self._part(finding.basis, column, small=True),
            self._part(figures, column),
            self._part(joined(finding.action, strong(finding.who), sheet), column),
        )

    def head(self) -> FindingsHead:
        """Heads of the columns."""
        c, label = self.columns, self.setting.label
        named = [
            self._part(strong(label("finding_number")), (0.0, 6.4 * MM)),
            self._part(strong(label("finding_result")), (c.cell + 0.6 * MM, CELL_WIDTH)),
            self._part(strong(label("finding_title")), c.title if not self.narrow else (c.title[0], 80 * MM)),
        ]
        if not self.narrow:
            named += [
                self._part(strong(label("finding_found")), c.found, "right"),
                self._part(strong(label("finding_limit")), c.limit, "right"),
                self._part(strong(label("finding_margin")), c.margin, "right"),
                self._part(strong(label("finding_action")), c.action),
                self._part(
                    strong(label("finding_sheet")), (c.sheet[0] - 4 * MM, c.sheet[1] + 4 * MM), "right"
                ),
            ]
        tall = max(lines.height for lines, *_ in named)
        return FindingsHead(HEAD_LEAD + tall + HEAD_TAIL, "", named)


@sets(FindingsTable)
def findings_table(block: FindingsTable, setting: Setting, room: Room) -> list[Item]:
    """Findings, in the order given."""
    number = setting.label("table_name", number=setting.counters.table())
    setter = _Setter(setting, room.full)
    caption, continued = captions(setting, block.caption, room.full, number)
    if not block.findings:
        nothing = setting.fold(setting.label("nothing_listed"), setting.scale.small, room.full)
        caption = caption.__class__(caption.style, caption.lines + nothing.lines)
    item = RowsItem(
        0.0, 5.5 * MM, 6.5 * MM, Stands.FULL if room.full > room.width else room.stands,
        what="the findings", width=room.full, caption=caption, continued=continued, head=setter.head(),
        rows=[setter.row(finding) for finding in block.findings], key=block.key, together=1,
    )  # fmt: skip
    return [item.measured()]
