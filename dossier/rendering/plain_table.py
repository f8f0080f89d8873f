"""Tables in plain text: columns of equal width for a terminal, a pipe or a mail."""

from collections.abc import Iterator, Sequence
from unicodedata import combining, east_asian_width

GAP = "  "


def width_of(text: str) -> int:
    """Columns a text takes on a terminal."""
    return sum(0 if combining(c) else 2 if east_asian_width(c) in "WF" else 1 for c in text)


def steerless(text: str) -> str:
    """Text without anything that steers a terminal: nothing a file says can."""
    return "".join(c if c.isprintable() else " " for c in text.replace("\u00a0", " "))


def aligned(rows: Sequence[Sequence[str]], right: frozenset[int] = frozenset()) -> Iterator[str]:
    """Rows with their columns one under the other; the columns in ``right`` end in line.

    >>> list(aligned([("found", "1 m"), ("limit", "≤ 3 m")]))
    ['found  1 m', 'limit  ≤ 3 m']
    """
    rows = [[steerless(cell) for cell in row] for row in rows]
    widths = [max(map(width_of, column)) for column in zip(*rows, strict=True)] if rows else []
    for row in rows:
        cells = []
        for place, (cell, wide) in enumerate(zip(row, widths, strict=True)):
            room = " " * (wide - width_of(cell))
            cells.append(room + cell if place in right else cell + room)
        kept = [cell for cell, wide in zip(cells, widths, strict=True) if wide]
        yield GAP.join(kept).rstrip()
