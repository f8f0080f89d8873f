"""Figures of the trade that no project file states, each with its spread and source."""

from functools import cache

from dossier.data.tables import rows
from dossier.notation import Row, Traced


@cache
def _table() -> dict[str, tuple[Traced, tuple[float, float]]]:
    return {
        row["key"]: (
            Traced(float(row["value"]), Row("coefficients", row["key"], row["source"])),
            (float(row["low"]), float(row["high"])),
        )
        for row in rows("coefficients")
    }


def coefficient(key: str) -> Traced:
    """Figure of a key such as ``exhaust.film_inside``, in SI; raises ``KeyError`` for an unknown one."""
    return _table()[key][0]


def spread_of(key: str) -> tuple[float, float]:
    """Ends within which the figure of a key may lie, in SI."""
    return _table()[key][1]
