"""What stands in where the project file is silent, with its spread and its source."""

from functools import cache

from dossier.data.tables import rows
from dossier.notation import Basis, Line, Traced


@cache
def _table() -> dict[str, tuple[float, tuple[float, float], str, str]]:
    return {
        row["key"]: (float(row["value"]), (float(row["low"]), float(row["high"])), row["text"], row["source"])
        for row in rows("assumptions")
    }


def assumed(key: str, place: str = "") -> Traced:
    """Value assumed for a key, in SI; ``place`` is the full key of the file it stands in for."""
    number, spread, text, source = _table()[key]
    return Traced(number, Line(place or key, text, Basis.ASSUMED, spread=spread, source=source, row=key))


def stated_or_assumed(stated: float | None, key: str, place: str = "") -> float:
    """What the file states, else what is assumed in its place."""
    return assumed(key, place) if stated is None else stated
