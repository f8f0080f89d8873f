"""Which sections make up an edition, and in which order."""

import csv
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module

from dossier.data.shipped import shipped
from dossier.notation import PageFault
from dossier.rendering.blocks import Block
from dossier.rendering.draft import Draft, Extent

EDITIONS = ("full", "survey", "aboard", "yard", "measure", "proof")


@cache
def _table() -> tuple[Mapping[str, str], ...]:
    with (shipped("templates") / "editions.csv").open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(line for line in file if not line.startswith("#")))


def extents(edition: str) -> dict[str, Extent]:
    """How much of each section an edition prints, in the order of the document; PageFault if unknown."""
    if edition not in EDITIONS:
        raise PageFault(f"there is no edition {edition!r}; there are {', '.join(EDITIONS)}")
    return {row["section"]: Extent(row[edition]) for row in _table()}


def blocks_of(draft: Draft) -> Iterator[Block]:
    """All blocks of a document, section after section."""
    for section in draft.extents or ():
        if draft.has(section):
            module = import_module(f"dossier.rendering.sections.{section}")
            yield from module.section(draft)
