"""Tables, findings and key figures. Every number is a string made by ``numbers``."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from dossier.rendering.text import Text


class Align(str, Enum):
    """How the cells of a column stand."""

    TEXT = "text"
    """Left, wrapping."""
    NUMBER = "number"
    """Right, on one line; give equal decimals down the column."""
    DECIMAL = "decimal"
    """By the decimal point, where decimals cannot be equal."""
    CENTRE = "centre"


class Span(str, Enum):
    """Which columns of the sheet a block takes."""

    TEXT = "text"
    FULL = "full"


@dataclass(frozen=True, slots=True)
class Blank:
    """An empty box to write in, 8 mm high; ``unit`` stands in it, ``entered`` what is known already.

    ``field`` is its name in the electronic form: the key's path (``commissioning.flows.V1``). ``below`` is a
    small line under what is entered, such as its date; ``marked`` draws a thick frame round what is not as
    expected.
    """

    unit: str = ""
    field: str = ""
    entered: str = ""
    below: str = ""
    marked: bool = False


@dataclass(frozen=True, slots=True)
class Tick:
    """An empty box to tick."""

    field: str = ""


Cell: TypeAlias = Text | Blank | Tick
"""What stands in a cell; an empty string leaves it empty."""


@dataclass(frozen=True, slots=True)
class Column:
    """The head of a column.

    ``width`` in millimetres fixes it; without it the column takes what its words need. ``group`` is written
    once above neighbours that share it (``From [mm]`` over x, y and z, or the mark of a result), and the
    label below it in regular. ``wide_only`` leaves the column out on A5, ``small`` sets its cells in small
    type.
    """

    label: Text
    unit: str = ""
    align: Align = Align.TEXT
    width: float | None = None
    strong: bool = False
    group: Text = ""
    wide_only: bool = False
    small: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table: caption above, head repeated on each sheet, rows unbroken, totals after a thicker rule.

    ``span`` chooses the text column or the whole width; without it the table takes what it needs.
    ``plain`` leaves out number and caption line, as for an identification list. ``pitch`` is the least height
    of a row in millimetres, for tables that people write in.
    """

    columns: Sequence[Column]
    rows: Sequence[Sequence[Cell]]
    caption: Text = ""
    key: str = ""
    totals: Sequence[Sequence[Cell]] = ()
    notes: Text = ""
    span: Span | None = None
    plain: bool = False
    pitch: float = 0.0


@dataclass(frozen=True, slots=True)
class Finding:
    """One row of the findings: severity and status as the checks name them, the rest as printed.

    ``found_note`` is the small line under what was found ("at 8° of heel"); ``sheet`` is best given as
    ``page_of(key)``; ``key`` makes the row a place to lead to. A margin given as ``str`` is set strong.
    """

    number: str
    severity: str
    status: str
    title: Text
    basis: Text
    found: Text
    limit: Text
    margin: Text
    action: Text
    who: Text = ""
    found_note: Text = ""
    sheet: Text = ""
    key: str = ""


@dataclass(frozen=True, slots=True)
class FindingsTable:
    """Findings, in the order given."""

    findings: Sequence[Finding]
    caption: Text = ""
    key: str = ""


@dataclass(frozen=True, slots=True)
class KeyFigures:
    """A short list of figures in the outer column, beside what follows."""

    title: Text
    rows: Sequence[tuple[Text, Text]]
