"""What a person wrote into a box, as the project file writes it: with its unit, a list in brackets."""

from dossier.project.editing import CannotEdit, quoted
from dossier.project.fields import Many, Num, One, Pair, Plan, Row
from dossier.project.scalars import looks_numeric


def written_value(plan: Plan, text: str, unit: str = "") -> str:
    """A value of a key as the file writes it; a bare number is in the unit of its box. Raises CannotEdit.

    Whether it is right is the reader's to say.
    """
    said = " ".join(text.split())
    if said.casefold() == "none":
        return "none"
    for kind in plan.kinds:
        if isinstance(kind, Num | Pair):
            return quoted(with_unit(said, unit))
        if isinstance(kind, Row):
            return _in_brackets(said, unit, figures=True)
        if isinstance(kind, Many):
            if any(isinstance(inner, One | Row | Many) for inner in kind.item.kinds):
                raise CannotEdit("it holds more than a box does: enter it in the file")
            return _in_brackets(said, unit, figures=any(isinstance(inner, Num) for inner in kind.item.kinds))
    return quoted(said)


def with_unit(said: str, unit: str) -> str:
    """A bare number with the unit that is printed in its box.

    >>> with_unit("38", "mm"), with_unit("1.5 in", "mm"), with_unit("−6", "°C")
    ('38 mm', '1.5 in', '−6 °C')
    """
    bare = said.replace("\u2212", "-").lstrip("+-").replace(".", "", 1).strip()
    return f"{said} {unit}" if unit and bare.isdecimal() else said


def _in_brackets(said: str, unit: str, *, figures: bool) -> str:
    parts = [part.strip() for part in said.strip("[]").replace(";", ",").split(",")]
    written = (with_unit(part, unit) if figures and looks_numeric(part) else part for part in parts if part)
    return f"[{', '.join(map(quoted, written))}]"
