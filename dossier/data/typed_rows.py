"""Rows of a table as objects: the fields of a frozen class bear the names of the columns."""

from functools import cache
from typing import Any, TypeVar, get_type_hints

from dossier.data.tables import rows

T = TypeVar("T")


def _cell(text: str, hint: Any) -> Any:
    if hint in {tuple[str, ...], tuple[int, ...]}:
        words = tuple(word.strip() for word in text.split(",") if word.strip())
        return tuple(map(int, words)) if hint == tuple[int, ...] else words
    if hint == float | None:
        return float(text) if text else None
    return hint(text)


@cache
def typed_rows(cls: type[T], table: str) -> tuple[T, ...]:
    """Rows of a table as objects of a class whose fields bear the names of its columns."""
    hints = get_type_hints(cls)
    return tuple(cls(**{name: _cell(row[name], hint) for name, hint in hints.items()}) for row in rows(table))
