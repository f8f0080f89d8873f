"""Sets the findings: each row bears grade and result as shape and word, and can be sent alone."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from dossier.rendering.blocks import Finding, FindingsTable
from dossier.rendering.layout.item import EMPTY, Item, Stands, write
from dossier.rendering.layout.lines import Lines, longest_word, natural_width
from dossier.rendering.layout.measures import MM, Style
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.result_cell import CELL_WIDTH, ResultCell, result_cell
from dossier.rendering.layout.rows import Part, Row, RowsItem, broken, foot_of
from dossier.rendering.layout.setting import Room, Setting, joined, sets, shown_strong
from dossier.rendering.layout.tables import HEAD_LEAD, HEAD_TAIL, LONGEST_CELL, captions
from dossier.rendering.text import Face, Text, strong, text
from dossier.rendering.words import cut

ABOVE, BELOW = 1.0 * MM, 1.4 * MM
NUMBER_SIZE, LONG_SIZE, LONG = 12.0, 10.0, 3
CELL_X, TITLE_X, SHEET, GAP = 6.4 * MM, 34.0 * MM, 8.6 * MM, 1.8 * MM
FIGURES, LONGEST_FIGURE = (26.0 * MM, 25.0 * MM, 20.0 * MM), 32.0 * MM
NOT_ASSESSED = "not assessed"
"""Width in which found, limit and margin are folded, and the most that a long word gets."""


@dataclass(slots=True)
class FindingRow(Row):
    """One finding: the parts of its columns, each with its left edge, width and alignment."""

    number: Lines = EMPTY
    cell: ResultCell | None = None
    cell_x: float = 0.0
    parts: Sequence[Part] = ()

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

    def split(self, room: float) -> tuple[Row, Row] | None:
        """The lines that fit, with number and cell; the others."""
        halves = broken(self.parts, room - ABOVE - BELOW)
        if halves is None:
            return None
        upper, lower = (replace(self, parts=half, height=ABOVE + foot_of(half) + BELOW) for half in halves)
        return upper, replace(lower, number=EMPTY, cell=None, key="")

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
    below: tuple[float, float]
    """Under the title and the figures, for what is to be done."""
    sheet: tuple[float, float]


def _columns(width: float, figures: Sequence[float]) -> _Columns:
    """Columns of a width: found, limit and margin take what they need, the title what is left."""
    end = width - SHEET
    edges, right = [], end - GAP
    for wide in reversed(figures):
        edges.append((right - wide, wide))
        right -= wide + GAP
    margin, limit, found = edges
    below = (TITLE_X, width - TITLE_X)
    return _Columns(0.0, CELL_X, (TITLE_X, right - TITLE_X), found, limit, margin, below, (end, SHEET))


def _figures(setting: Setting, findings: Sequence[Finding]) -> list[float]:
    """Widths of found, limit and margin: no word is broken that people would write."""
    table, small = setting.scale.table, setting.scale.small
    strong_table = table.faced(Face.STRONG)
    wanted: list[Sequence[tuple[Text, Style]]] = [
        [(said, style) for f in findings for said, style in ((f.found, table), (f.found_note, small))],
        [(f.limit, table) for f in findings],
        [(f.margin, strong_table) for f in findings],
    ]
    labels = ("finding_found", "finding_limit", "finding_margin")
    widths = []
    for name, said, folded in zip(labels, wanted, FIGURES, strict=True):
        head = natural_width(setting.label(name), strong_table, setting.resolve)
        words = [longest_word(words, style, setting.resolve) for words, style in said]
        whole = [natural_width(words, style, setting.resolve) for words, style in said]
        least = max([head, *words])
        widths.append(min(max(least, min(max([head, *whole]), folded)), LONGEST_FIGURE))
    return widths


def _stacked(*parts: tuple[Lines, float, float, str]) -> list[Part]:
    """Parts below one another in one column."""
    down, placed = 0.0, []
    for lines, left, width, align in parts:
        if any(lines.lines):
            placed.append((lines, left, down, width, align))
            down += lines.height
    return placed


class _Setter:
    """Sets findings for a wide or a narrow sheet."""

    def __init__(self, setting: Setting, width: float, findings: Sequence[Finding]) -> None:
        self.setting, self.width = setting, width
        self.style, self.small = setting.scale.table, setting.scale.small
        self.narrow = width < 150 * MM
        self.columns = _columns(width, [0.0] * 3 if self.narrow else _figures(setting, findings))

    def _part(
        self, words: Text, column: tuple[float, float], align: str = "left", *, small: bool = False
    ) -> tuple[Lines, float, float, str]:
        left, width = column
        words = cut(words, LONGEST_CELL) if isinstance(words, str) else words
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

    def _wide(self, finding: Finding) -> list[Part]:
        """In columns; the basis stands where the row is lower: under the title, or across the whole width."""
        ways = [self._in_columns(finding, beside=beside) for beside in (True, False)]
        return min(ways, key=foot_of)

    def _in_columns(self, finding: Finding, *, beside: bool) -> list[Part]:
        c = self.columns
        title = self._part(strong(finding.title), c.title)
        unknown = str.__str__(finding.status) == NOT_ASSESSED
        basis = self._part("" if unknown else finding.basis, c.title if beside else c.below, small=True)
        parts = [
            *_stacked(title, *([basis] if beside else [])),
            *_stacked(
                self._part(finding.found, c.found, "right"),
                self._part(finding.found_note, c.found, "right", small=True),
            ),
            *_stacked(self._part(finding.limit, c.limit, "right")),
            *_stacked(self._part(shown_strong(finding.margin), c.margin, "right")),
            *_stacked(self._part(finding.sheet, c.sheet, "right")),
        ]
        foot = foot_of(parts)
        lacks = text(finding.basis, ".") if unknown else ""
        to_do = self._part(joined(lacks, finding.action, strong(finding.who)), c.below)
        below = _stacked(*([] if beside else [basis]), to_do)
        return [
            *parts,
            *((lines, left, foot + down, width, align) for lines, left, down, width, align in below),
        ]

    def _narrow(self, finding: Finding) -> list[Part]:
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
                self._part(strong(label("finding_sheet")), c.sheet, "right"),
            ]
        tall = max(lines.height for lines, *_ in named)
        return FindingsHead(HEAD_LEAD + tall + HEAD_TAIL, "", named)


@sets(FindingsTable)
def findings_table(block: FindingsTable, setting: Setting, room: Room) -> list[Item]:
    """Findings, in the order given."""
    number = setting.label("table_name", number=setting.counters.table())
    setter = _Setter(setting, room.full, block.findings)
    caption, continued = captions(setting, block.caption, room.full, number)
    if not block.findings:
        nothing = setting.fold(setting.label("nothing_listed"), setting.scale.small, room.full)
        caption = caption.__class__(caption.style, caption.lines + nothing.lines)
    item = RowsItem(
        0.0, 4.5 * MM, 5.2 * MM, Stands.FULL if room.full > room.width else room.stands,
        what="the findings", width=room.full, caption=caption, continued=continued, head=setter.head(),
        rows=[setter.row(finding) for finding in block.findings], key=block.key, together=1,
    )  # fmt: skip
    return [item.measured()]
