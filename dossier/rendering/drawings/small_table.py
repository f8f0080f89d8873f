"""A small table on a drawing: columns as wide as their words, rules round the head and at the end."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from dossier.rendering.drawings.lettering import REGULAR, SEMIBOLD, SMALL, ascent, folded, leading, text_width
from dossier.rendering.drawings.pens import MIDDLE, NARROW
from dossier.rendering.drawings.shapes import Line, Shape, Text

GAP = 4.0  # between columns
ROW = 4.4
PADDING = 1.2
WIDEST = 38.0  # to which the words of a cell fold


@dataclass(frozen=True, slots=True)
class Column:
    """The head of a column; figures stand right, words left."""

    head: str
    is_figure: bool = field(default=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class SmallTable:
    """Rows of words and figures under their heads."""

    columns: Sequence[Column]
    rows: Sequence[Sequence[str]]
    widest: float = WIDEST

    def _cell(self, text: str, column: Column) -> tuple[str, ...]:
        return (text,) if column.is_figure else folded(text, self.widest, SMALL) or ("",)

    @property
    def widths(self) -> tuple[float, ...]:
        """Width of each column."""
        found = []
        for n, column in enumerate(self.columns):
            words = [line for row in self.rows for line in self._cell(row[n], column)]
            heads = folded(column.head, self.widest, SMALL, SEMIBOLD)
            found.append(
                max(
                    [text_width(word, SMALL) for word in words]
                    + [text_width(head, SMALL, SEMIBOLD) for head in heads]
                )
            )
        return tuple(found)

    @property
    def width(self) -> float:
        """Width of the whole table."""
        return sum(self.widths) + GAP * (len(self.columns) - 1)

    def _heights(self) -> tuple[float, ...]:
        """Height of each row, the head first."""
        heads = max(len(folded(column.head, self.widest, SMALL, SEMIBOLD)) for column in self.columns)
        counts = [heads]
        counts += [
            max(len(self._cell(cell, column)) for cell, column in zip(row, self.columns, strict=True))
            for row in self.rows
        ]
        return tuple(ROW + (count - 1) * leading(SMALL) for count in counts)

    @property
    def height(self) -> float:
        """Height of the whole table."""
        return sum(self._heights())

    def drawn(self, left: float, top: float) -> list[Shape]:
        """The table with its upper left corner there."""
        right, y = left + self.width, top
        shapes: list[Shape] = [Line((left, top), (right, top), MIDDLE)]
        heads = [column.head for column in self.columns]
        for number, (row, high) in enumerate(zip((heads, *self.rows), self._heights(), strict=True)):
            shapes += self._row(row, left, y, is_head=not number)
            y -= high
            last = number in {0, len(self.rows)}
            shapes.append(Line((left, y), (right, y), MIDDLE if last else NARROW))
        return shapes

    def _row(self, row: Sequence[str], left: float, top: float, *, is_head: bool) -> list[Shape]:
        shapes: list[Shape] = []
        x, weight = left, SEMIBOLD if is_head else REGULAR
        for text, column, width in zip(row, self.columns, self.widths, strict=True):
            lines = folded(text, self.widest, SMALL, weight) if is_head else self._cell(text, column)
            at, anchor = (x + width, "end") if column.is_figure else (x, "start")
            first = top - PADDING - ascent(SMALL)
            shapes += [
                Text(at, first - n * leading(SMALL), line, SMALL, weight, anchor)
                for n, line in enumerate(lines)
                if line
            ]
            x += width + GAP
        return shapes
