"""What was filled in on the sheets of a PDF: fields by their names, with the units printed in their boxes."""

import json
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, BinaryIO

from dossier.notation import DossierError
from dossier.project.filled_values import Filled
from dossier.rendering.apart import opened, read_apart

MOST_FIELDS, DEEPEST = 20_000, 30
LONGEST = 2000
TICKED = "/Off"
UNIT = re.compile(r"\[([^\[\]]{1,20})\]$")


def filled_in(pdf: Path) -> Mapping[str, Filled]:
    """Fields that are filled in, read in a process of its own. Raises DossierError in one line."""
    sent = json.loads(read_apart(pdf, "dossier.rendering.filled_sheets"))
    if sent is None:
        raise DossierError(
            f"{pdf}: it has no boxes to fill in on screen; take sheets that build wrote, not a print"
        )
    return {name: Filled(text, unit) for name, text, unit in sent}


def main(pdf: Path, out: BinaryIO) -> None:
    """Write the fields as data: null where the PDF has no form."""
    found = read_filled(pdf)
    out.write(json.dumps(None if found is None else [list(field) for field in found]).encode("ascii"))


def read_filled(pdf: Path) -> list[tuple[str, str, str]] | None:
    """Name, text and unit of every field that is filled in; None where there is no form. In this process."""
    return opened(pdf, _read)


def _read(reader: Any) -> list[tuple[str, str, str]] | None:
    form = reader.trailer["/Root"].get_object().get("/AcroForm")
    if form is None:
        return None
    found = []
    for name, field in _fields(form.get_object().get("/Fields", ())):
        text = _text(field)
        if text and len(text) <= LONGEST:
            found.append((name, text, _unit(field)))
        elif text:
            raise DossierError(f"the field {name[:60]!r} holds more than a box does")
    return found


def _fields(kids: Any) -> Iterator[tuple[str, Any]]:
    """All fields of a form with their whole names."""
    waiting = [(kid, "", 0) for kid in reversed(kids.get_object() if hasattr(kids, "get_object") else kids)]
    seen = 0
    while waiting:
        kid, path, depth = waiting.pop()
        field, seen = kid.get_object(), seen + 1
        if seen > MOST_FIELDS or depth > DEEPEST:
            raise DossierError("the PDF has more fields than any sheet; nothing was taken from it")
        part = str(field.get("/T", ""))
        name = f"{path}.{part}" if path and part else path or part
        inner = field.get("/Kids")
        named = (
            [each for each in inner.get_object() if "/T" in each.get_object()] if inner is not None else []
        )
        if named:
            waiting += [(each, name, depth + 1) for each in reversed(named)]
        elif name:
            yield name, field


def _unit(field: Any) -> str:
    """Unit of a field: what stands in brackets at the end of what is said of it."""
    found = UNIT.search(str(field.get("/TU", ""))[:LONGEST])
    return found[1] if found else ""


def _text(field: Any) -> str:
    """What a field holds: its text, or yes for a tick; empty where it is blank."""
    held = field.get("/V")
    held = held.get_object() if held is not None else None
    if held is None:
        return ""
    if field.get("/FT") == "/Btn":
        return "" if str(held) == TICKED else "yes"
    return " ".join(str(held).split())
