"""Section 8: what is carried as spares, and whom to ask."""

from collections.abc import Iterator, Sequence

from dossier.rendering.blocks import Block, Cell, Column, Heading, Note, Span, StopRule, Table
from dossier.rendering.sections.crew import Crew
from dossier.rendering.text import line_break, strong, text
from dossier.sizing.spares_aboard import SpareAboard, spares_aboard

ASKED = ("burner", "electrics", "fuel", "yard", "surveyor", "insurer", "coolant", "alarms")
"""Those who are asked, each for what; their names are written in."""
PITCH = 7.2
"""Height of a row with room to write."""


def spares(crew: Crew) -> Iterator[Block]:
    """Spares with their sizes, a box for where each is kept."""
    words, draft = crew.words, crew.draft
    yield Heading(2, words("maintenance.spares_title"), key="spares", new_sheet=True)
    yield Table(
        [
            Column(words("maintenance.column_spare"), strong=True),
            Column(words("maintenance.column_number")),
            Column(words("maintenance.column_size")),
            Column(words("maintenance.column_fits"), wide_only=True),
            Column(words("maintenance.column_kept"), width=30.0),
        ],
        [_spare(crew, spare) for spare in spares_aboard(draft.project, draft.study.parts)],
        words("aboard.spares_caption"),
        key="table_spares_aboard",
        span=Span.FULL,
        pitch=PITCH,
    )
    yield Note(words("aboard.spares_note"))
    if crew.fuse_is_wrong:
        yield StopRule(words("maintenance.stop"), words("aboard.spares_fuse"))


def _spare(crew: Crew, spare: SpareAboard) -> Sequence[Cell]:
    made = crew.draft.made
    fits, named = made(spare.fits), strong(crew.words.told(spare.item))
    item = text(named, line_break(), fits) if crew.narrow else named
    return [item, made(spare.number), made(spare.size), fits, ""]


def whom_to_ask(crew: Crew) -> Iterator[Block]:
    """Who knows what, with room for names and numbers."""
    words = crew.words
    yield Heading(2, words("maintenance.who_to_ask_title"), key="whom_to_ask")
    yield Table(
        [
            Column(words("aboard.ask_whom"), strong=True),
            Column(words("aboard.ask_what")),
            Column(words("aboard.ask_number"), width=45.0),
        ],
        [[words(f"aboard.ask_{name}"), words(f"aboard.ask_{name}_what"), ""] for name in ASKED],
        words("aboard.ask_caption"),
        key="table_whom_to_ask",
        span=Span.FULL,
        pitch=PITCH,
    )
