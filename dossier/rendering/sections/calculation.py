"""Section 6: every calculation, each with its question, its answer and how it was found."""

from collections.abc import Iterator

from dossier.rendering.blocks import Block, Gathered, Heading
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections import (
    alternatives,
    build_ups,
    conditions,
    coolant,
    electrics,
    expansion,
    flow,
    fuel,
    heat_loss,
    masses,
    modes,
    moisture,
    recovery,
    spread,
    store,
    tap_water,
    temperatures,
    volume,
    warm_up,
)

PARTS = (
    conditions,
    build_ups,
    heat_loss,
    warm_up,
    coolant,
    volume,
    flow,
    temperatures,
    modes,
    store,
    tap_water,
    recovery,
    expansion,
    fuel,
    electrics,
    moisture,
    masses,
    spread,
    alternatives,
)
"""Sub-sections in the order of the document."""


def section(draft: Draft) -> Iterator[Block]:
    """All sub-sections; the short form has branches and settings alone."""
    yield Heading(
        1,
        draft.words("calculation.title"),
        key="calculation",
        number="6",
        new_sheet=draft.opens("calculation"),
    )
    if draft.extent("calculation") is Extent.SHORT:
        yield from flow.short(draft)
        return
    for part in PARTS:
        yield Gathered(list(part.section(draft)))
