"""Section 8: run the heating and keep it, with no other book. The short form has the maintenance alone."""

from collections.abc import Iterator

from dossier.rendering.blocks import Block, Heading, NewSheet, Outer, Pair, Paragraph
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections import (
    aboard_faults,
    aboard_leaves,
    aboard_looks,
    aboard_maintenance,
    aboard_places,
    aboard_spares,
    aboard_steps,
    aboard_tonight,
)
from dossier.rendering.sections.crew import Crew

FINDER_WIDTH = 92.0
WHOLE_WIDTH = NewSheet(outer=Outer.NONE)
"""Sheets of the crew: what stands beside a text elsewhere would be in the way of wet hands."""


def section(draft: Draft) -> Iterator[Block]:
    """In the order in which a crew needs it; each task on its page."""
    words, crew = draft.words, Crew(draft)
    yield Heading(1, words("aboard.title"), key="aboard", number="8")
    if draft.extent("aboard") is Extent.SHORT:
        yield from aboard_maintenance.schedule(crew, "8.1")
        return
    cautions = [Paragraph(words("safety.standing_cautions")), Paragraph(words("safety.deference"))]
    yield Pair(list(aboard_places.finder(crew)), cautions, left_width=FINDER_WIDTH)
    yield from crew.panels(["carbon_monoxide"])
    yield from aboard_places.places(crew)
    yield WHOLE_WIDTH
    yield from aboard_steps.before_season(crew)
    yield from aboard_leaves.start_and_stop(crew)
    yield from aboard_leaves.valves(crew)
    yield from aboard_leaves.readings(crew)
    yield WHOLE_WIDTH
    yield from aboard_looks.looks(crew)
    yield from aboard_tonight.tonight(crew)
    yield from aboard_tonight.top_up(crew)
    yield from aboard_faults.faults(crew)
    yield from aboard_maintenance.schedule(crew)
    yield from aboard_steps.through_the_year(crew)
    yield from aboard_spares.spares(crew)
    yield from aboard_spares.whom_to_ask(crew)
