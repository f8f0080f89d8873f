"""Drawing 1: the heating circuit, on as many sheets as it needs."""

from collections.abc import Iterator

from dossier.notation import NotAssessed
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.circuit import tags_of
from dossier.rendering.drawings.schematic import schematic
from dossier.rendering.drawings.tag_list import tag_list
from dossier.rendering.sections.circuit_drawn import circuit_drawn
from dossier.rendering.sections.sheets_drawn import Subject, sheets_of

NOT_IN_THE_RING = frozenset({"fuel_filter", "fuel_shut_off", "fuel_tank", "battery", "isolator"})
"""Kinds that other drawings show."""


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed:
    """The sheets of the schematic; what it waits for where no ring is written."""
    circuit = circuit_drawn(draft)
    if circuit is None:
        return NotAssessed(str(draft.words("drawings.schematic_title")), ("circuit.ring",))
    tags = tags_of(circuit)
    notes = tuple(_notes(draft, tags))
    return sheets_of(draft, Subject(1, "schematic", lambda form: schematic(circuit, form), notes, tags))


def _notes(draft: Draft, shown: tuple[str, ...]) -> Iterator[str]:
    """What the figures mean, where more is said, and what the circuit as written does not hold."""
    words = draft.words
    yield str(words("drawings.schematic_note"))
    yield str(words("drawings.schematic_where"))
    parts = draft.project.components or {}
    missing = [t for t, part in parts.items() if t not in shown and part.kind not in NOT_IN_THE_RING]
    if missing:
        yield str(words("drawings.schematic_missing", tags=tag_list(missing)))
