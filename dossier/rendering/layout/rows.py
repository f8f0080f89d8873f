"""Rows under a head: what tables, findings and listings share, and how they break over sheets."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import accumulate

from dossier.rendering.layout.item import EMPTY, Item, write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.measures import END, HEAD_ABOVE, HEAD_BELOW, MM, ROW, TOTALS
from dossier.rendering.layout.pen import Pen

CAPTION_GAP = 1.4 * MM
FIRST_GAP = 0.6 * MM
END_GAP = 0.4 * MM
NOTES_GAP = 1.5 * MM
LEAVES = 0.8  # share of a row, at the most, that stays where it is broken: a part goes with the notes
TOGETHER = 3  # rows that stay together at the head and at the foot of a sheet, if they are low


@dataclass(slots=True)
class Row:
    """One row; it knows its height and draws itself from its top."""

    height: float = 0.0
    key: str = ""

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw with the upper left corner at (x, top)."""
        raise NotImplementedError

    def split(self, room: float) -> "tuple[Row, Row] | None":
        """Two parts, for a row that is higher than a sheet."""
        del room
        return None

    def places(self) -> Iterator[tuple[str, float]]:
        """Keys of places in it."""
        if self.key:
            yield self.key, 0.0


Part = tuple[Lines, float, float, float, str]
"""Lines, left edge, distance of their top from the row's first line, width, alignment."""


def foot_of(parts: Sequence[Part]) -> float:
    """Distance of the lowest line's foot from the first line's top."""
    return max((down + lines.height for lines, _, down, _, _ in parts), default=0.0)


def broken(parts: Sequence[Part], room: float) -> tuple[list[Part], list[Part]] | None:
    """The lines of a row that fit into a height, and the others; None where a part would be empty."""
    upper: list[Part] = []
    lower: list[Part] = []
    for lines, left, down, width, align in parts:
        leading, count = lines.style.leading, len(lines.lines)
        fits = max(0, min(count, int((room - down) / leading + 1e-6)))
        if fits:
            upper.append((lines.part(0, fits), left, down, width, align))
        if fits < count:
            lower.append((lines.part(fits), left, down + fits * leading, width, align))
    if not upper or not lower:
        return None
    first = min(down for _, _, down, _, _ in lower)
    return upper, [(lines, left, down - first, width, align) for lines, left, down, width, align in lower]


@dataclass(slots=True)
class RowsItem(Item):
    """Caption, head, rows, totals, notes. ``first`` is false for what continues from the sheet before."""

    width: float = 0.0
    caption: Lines = EMPTY
    continued: Lines = EMPTY
    head: Row | None = None
    rows: Sequence[Row] = ()
    totals: Sequence[Row] = ()
    notes: Lines = EMPTY
    first: bool = True
    ends: bool = True
    key: str = ""
    again: object = field(default_factory=object)
    hairlines: bool = True
    together: int = TOGETHER
    rows_height: float = 0.0

    def measured(self, rows_height: float | None = None) -> "RowsItem":
        """Itself, with its height; that of all rows may be known already."""
        if rows_height is None:
            rows_height = sum(row.height for row in self.rows)
        self.rows_height = rows_height
        self.height = self._over() + rows_height + self._under()
        return self

    def _title(self) -> Lines:
        return self.caption if self.first else self.continued

    def _over(self) -> float:
        """Height above the first row."""
        title = self._title()
        over = title.height + CAPTION_GAP if title.lines else 0.0
        return over + (self.head.height if self.head else 0.0) + FIRST_GAP

    def _under(self) -> float:
        """Height below the last row."""
        notes = NOTES_GAP + self.notes.height if self.ends and self.notes.lines else 0.0
        return (sum(row.height for row in self.totals) if self.ends else 0.0) + END_GAP + notes

    @property
    def least(self) -> float:
        """Caption, head and the rows that stay together; with fewer than twice as many it is not broken."""
        if len(self.rows) < 2 * self.together:
            return self.height
        return self._over() + sum(row.height for row in self.rows[: self.together]) + END_GAP

    def _fitting(self, room: float) -> int:
        """How many rows fit into the room, if the table goes on behind them."""
        space = room - self._over() - END_GAP
        count = 0
        for used in accumulate(row.height for row in self.rows):
            if used > space:
                break
            count += 1
        return count

    def split(self, room: float) -> tuple[Item, Item] | None:
        """Break between rows; a single row that is too high for any sheet is broken in itself."""
        count = len(self.rows)
        fits = self._fitting(room)
        if fits > count - self.together:
            fits = count - self.together if count >= 2 * self.together else min(fits, count - 1)
        if fits > 0:
            return self._parts(self.rows[:fits], self.rows[fits:])
        space = room - self._over() - END_GAP
        last = self.rows[0].height * LEAVES if self.rows else 0.0
        halves = self.rows[0].split(min(space, last)) if self.rows else None
        if halves is None:
            return None
        return self._parts((halves[0],), (halves[1], *self.rows[1:]))

    def _parts(self, upper: Sequence[Row], lower: Sequence[Row]) -> tuple[Item, Item]:
        high = sum(row.height for row in upper)
        rest = self.rows_height - high if len(upper) + len(lower) == len(self.rows) else None
        return (
            replace(self, rows=upper, ends=False, below=0.0).measured(high),
            replace(self, rows=lower, first=False, above=0.0, key="").measured(rest),
        )

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw everything, a hairline between rows."""
        right, title = x + self.width, self._title()
        with pen.element("Table", again=self.again):
            if title.lines:
                with pen.element("Caption") if self.first else pen.artifact():
                    write(pen, title, x, top)
                top -= title.height + CAPTION_GAP
            pen.rule(x, top, right, top, HEAD_ABOVE)
            if self.head is not None:
                if self.first:
                    self.head.draw(pen, x, top)
                else:
                    with pen.artifact():
                        self.head.draw(pen, x, top)
                top -= self.head.height
                pen.rule(x, top, right, top, HEAD_BELOW)
            top -= FIRST_GAP
            for number, row in enumerate(self.rows):
                if number and self.hairlines:
                    pen.rule(x, top, right, top, ROW)
                row.draw(pen, x, top)
                top -= row.height
            if self.ends:
                for number, row in enumerate(self.totals):
                    pen.rule(x, top, right, top, ROW if number else TOTALS)
                    row.draw(pen, x, top)
                    top -= row.height
            top -= END_GAP
            pen.rule(x, top, right, top, END)
        if self.ends and self.notes.lines:
            with pen.element("P"):
                write(pen, self.notes, x, top - NOTES_GAP)

    def places(self) -> Iterator[tuple[str, float]]:
        """Its own key and those in its rows."""
        if self.key:
            yield self.key, 0.0
        at = self._over()
        for row in self.rows:
            for key, below in row.places():
                yield key, at + below
            at += row.height
