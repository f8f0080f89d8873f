"""Tags in a line: neighbours in number drawn together, as in ``F1–F4, P1``."""

import re
from collections.abc import Iterable

_NUMBERED = re.compile(r"(.*?)(\d+)")
LEAST = 3  # neighbours that are worth a dash


def tag_list(tags: Iterable[str]) -> str:
    """Every tag once, by letter and number.

    >>> tag_list(["F1", "F2", "F3", "B1", "V9"])
    'B1, F1–F3, V9'
    """
    rows: list[list[tuple[str, int, str]]] = []
    for letters, number, tag in sorted({_key(tag) for tag in tags}):
        last = rows[-1][-1] if rows else None
        if last is not None and number >= 0 and (letters, number) == (last[0], last[1] + 1):
            rows[-1].append((letters, number, tag))
        else:
            rows.append([(letters, number, tag)])
    return ", ".join(part for row in rows for part in _said([tag for _, _, tag in row]))


def _key(tag: str) -> tuple[str, int, str]:
    found = _NUMBERED.fullmatch(tag)
    is_plain = found is not None and (found[2] == "0" or not found[2].startswith("0"))
    return (found[1], int(found[2]), tag) if found is not None and is_plain else (tag, -1, tag)


def _said(row: list[str]) -> list[str]:
    return [f"{row[0]}–{row[-1]}"] if len(row) >= LEAST else row
