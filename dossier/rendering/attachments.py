"""The files a PDF carries: those it was made from, so that it can be made again, and the results as data.

Readers of PDFs know no folders, so a file's path in the project's folder stands in its description.
"""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from dossier.assessment import as_plain
from dossier.rendering.blocks import Attachment
from dossier.rendering.draft import Draft
from dossier.rendering.recovery_of_sources import RESULTS

MIME = {
    ".yaml": "application/yaml",
    ".yml": "application/yaml",
    ".csv": "text/csv",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".png": "image/png",
}
WITH_RESULTS = frozenset({"full", "survey"})
FIGURES = 7
"""Figures of the results carried: fewer than processors agree on, so that every machine writes the same."""


def attachments(draft: Draft) -> Iterator[Attachment]:
    """The project file, its tables and pictures, then the results where the edition proves them."""
    project, given = draft.project, set[str]()
    for file in project.files:
        mime = MIME.get(Path(file.name).suffix.lower(), "application/octet-stream")
        yield Attachment(_plain(file.name, given), project.content(file), mime, file.name)
    if draft.edition in WITH_RESULTS:
        name = _plain(RESULTS, given)
        yield Attachment(name, results_as_json(draft), "application/json", name, "Data")


def _plain(name: str, given: set[str]) -> str:
    """A name without folders that no file before it has."""
    plain = name.replace("/", "_")
    while plain in given:
        plain = f"_{plain}"
    given.add(plain)
    return plain


def results_as_json(draft: Draft) -> bytes:
    """What ``check --json`` prints without the alternatives, its numbers in seven figures."""
    plain = _rounded(as_plain(draft.assessment))
    return (json.dumps(plain, ensure_ascii=False, indent=1, allow_nan=False) + "\n").encode("utf-8")


def _rounded(held: Any) -> Any:
    if isinstance(held, dict):
        return {key: _rounded(inner) for key, inner in held.items()}
    if isinstance(held, list):
        return [_rounded(inner) for inner in held]
    return float(f"{held:.{FIGURES}g}") if isinstance(held, float) else held
