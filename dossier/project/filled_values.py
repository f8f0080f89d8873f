"""What a person wrote into a box, as the project file writes it: with its unit, a list in brackets."""

from dataclasses import dataclass

from dossier.project.editing import CannotEdit, quoted
from dossier.project.fields import Many, Named, Num, One, Pair, Plan, Row
from dossier.project.scalars import looks_numeric

POINTS_PART, PER = ";", "per "
"""What parts the points of a line, and how a printed unit of something an hour begins."""


@dataclass(frozen=True)
class Filled:
    """What stands in one field of a sheet, and the unit printed in its box."""

    text: str
    unit: str = ""


def written_value(plan: Plan, text: str, unit: str = "") -> str:
    """A value of a key as the file writes it; a bare number is in the unit of its box. Raises CannotEdit.

    Whether it is right is the reader's to say.
    """
    said = " ".join(text.split())
    if said.casefold() == "none":
        return "none"
    for kind in plan.kinds:
        if isinstance(kind, Num | Pair | Row | Many | Named):
            return _of_kind(kind, said, unit)
    return quoted(said)


def _of_kind(kind: Num | Pair | Row | Many | Named, said: str, unit: str) -> str:
    """A value of one kind as the file writes it."""
    if isinstance(kind, Named):
        return written_value(kind.held, said, unit)
    if isinstance(kind, Row):
        return _in_brackets(_parted(said), unit, figures=True)
    if not isinstance(kind, Many):
        return quoted(with_unit(said, unit))
    inner = kind.item.kinds
    if any(isinstance(held, One | Many) for held in inner):
        raise CannotEdit("it holds more than a box does: enter it in the file")
    if any(isinstance(held, Row) for held in inner):
        rows = [_parted(row) for row in said.split(POINTS_PART) if row.strip("[] ")]
        return f"[{', '.join(_in_brackets(row, unit, figures=True) for row in rows)}]"
    return _in_brackets(said, unit, figures=any(isinstance(held, Num) for held in inner))


def with_unit(said: str, unit: str) -> str:
    """A bare number with the unit that is printed in its box.

    >>> with_unit("38", "mm"), with_unit("1.5 in", "mm"), with_unit("−6", "°C")
    ('38 mm', '1.5 in', '−6 °C')
    """
    if unit.startswith(PER):
        unit = f"1/{unit.removeprefix(PER)}"
    bare = said.replace("\u2212", "-").lstrip("+-").replace(".", "", 1).strip()
    return f"{said} {unit}" if unit and bare.isdecimal() else said


def _parted(row: str) -> str:
    """The figures of a point, parted by commas; blanks part bare figures too."""
    words = row.strip("[] ").split()
    return ", ".join(words) if "," not in row and all(looks_numeric(word) for word in words) else row


def _in_brackets(said: str, unit: str, *, figures: bool) -> str:
    parts = [part.strip() for part in said.strip("[]").replace(";", ",").split(",")]
    written = (with_unit(part, unit) if figures and looks_numeric(part) else part for part in parts if part)
    return f"[{', '.join(map(quoted, written))}]"
