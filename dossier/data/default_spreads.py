"""How far an assumed figure may lie off: its own spread, else the usual one of its kind."""

from fnmatch import fnmatchcase
from functools import cache

from dossier.data.typed_rows import typed_rows
from dossier.notation import Line, Quantity
from dossier.notation.records import dataclass


@dataclass(frozen=True)
class DefaultSpread:
    """Usual spread of figures whose key fits a pattern: a share of the value, or a difference in its unit.

    A figure that is chosen (a target, a design condition) has neither: nobody can measure it.
    """

    pattern: str
    unit: str
    share: float | None
    difference: float | None
    meaning: str
    source: str


@cache
def default_spread(key: str, unit: str) -> DefaultSpread:
    """Row that counts for a key of the file and the SI unit of its figure."""
    rows: tuple[DefaultSpread, ...] = typed_rows(DefaultSpread, "default_spreads")
    return next(row for row in rows if fnmatchcase(key, row.pattern) and row.unit in {"", unit})


def spread_of(line: Line, quantity: Quantity | None, value: float) -> tuple[float, float] | None:
    """Ends within which a figure may lie, in its own unit: its own spread, else the usual one of its kind.

    None for what is chosen and carries no spread of its own. The ends of a usual spread stay inside the
    quantity's range.
    """
    if line.spread is not None:
        return line.spread
    usual = default_spread(line.key, quantity.unit if quantity else "")
    if usual.share is None and usual.difference is None:
        return None
    half = abs(value) * usual.share if usual.share is not None else usual.difference or 0.0
    low, high = value - half, value + half
    if quantity is not None:
        low, high = min(value, max(low, quantity.low)), max(value, min(high, quantity.high))
    return low, high
