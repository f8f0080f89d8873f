"""Faults as people read them on a terminal: under each the line it stands in, and a mark under the place."""

from collections.abc import Iterator
from pathlib import Path
from unicodedata import combining, east_asian_width

from dossier.notation import Fault, OutOfRange, ProjectFaults

MOST_SHOWN = 12
"""Faults that are shown with their line; of more the message alone is told."""
WIDEST, BEFORE = 96, 60
"""Signs of a long line that are shown, and how many of them stand before the place."""
INDENT = "    "
TABLES = ".csv"


def pointed(faults: ProjectFaults | OutOfRange, folder: Path) -> str:
    """All faults in their order; the first of them with line and mark, where the file can be read."""
    return "\n".join(
        line for place, fault in enumerate(faults.faults) for line in _lines(fault, folder, place)
    )


def _lines(fault: Fault, folder: Path, place: int) -> Iterator[str]:
    yield str(fault)
    text = _line_of(fault, folder) if place < MOST_SHOWN else None
    if text is None:
        return
    column = 0 if fault.file.casefold().endswith(TABLES) else fault.column
    start = max(0, column - BEFORE) if len(text) > WIDEST else 0
    shown = text[start : start + WIDEST]
    head = "…" if start else ""
    tail = "…" if start + WIDEST < len(text) else ""
    yield f"{INDENT}{head}{shown}{tail}"
    if 0 < column <= len(text) + 1:
        yield INDENT + " " * (len(head) + _width(shown[: column - 1 - start])) + "^"


def _line_of(fault: Fault, folder: Path) -> str | None:
    """The line a fault stands in; None where there is none to show."""
    if not fault.line or not fault.file:
        return None
    try:
        text = (folder / fault.file).read_bytes().decode("utf-8-sig")
    except (OSError, ValueError):
        return None
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    found = lines[fault.line - 1] if fault.line <= len(lines) else ""
    return "".join(c if c.isprintable() else " " for c in found) if found.strip() else None


def _width(text: str) -> int:
    """Columns a text takes on a terminal."""
    return sum(0 if combining(c) else 2 if east_asian_width(c) in "WF" else 1 for c in text)
