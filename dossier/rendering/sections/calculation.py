"""Section 6: every calculation, each with its question, its answer and how it was found."""

from collections.abc import Iterator

from dossier.rendering.blocks import Block, Heading
from dossier.rendering.draft import Draft
from dossier.rendering.sections import (
    conditions,
    coolant,
    flow,
    heat_loss,
    modes,
    temperatures,
    volume,
    warm_up,
)

PARTS = (conditions, heat_loss, warm_up, coolant, volume, flow, temperatures, modes)


def section(draft: Draft) -> Iterator[Block]:
    """All sub-sections in the order of the document."""
    yield Heading(1, draft.words("calculation.title"), key="calculation", number="6")
    for part in PARTS:
        yield from part.section(draft)
