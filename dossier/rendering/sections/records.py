"""Section 10: commissioning sheets, logs, and the register of findings and deviations."""

from collections.abc import Callable, Iterator, Mapping
from itertools import count

from dossier.rendering.blocks import Block, Heading
from dossier.rendering.draft import Draft
from dossier.rendering.sections.records_commissioning import commissioning
from dossier.rendering.sections.records_logs import logs
from dossier.rendering.sections.records_register import register

Part = Callable[[Draft, str], Iterator[Block]]
EVERYTHING: tuple[Part, ...] = (commissioning, logs, register)
PARTS: Mapping[str, tuple[Part, ...]] = {
    "survey": (commissioning, register),
    "aboard": (logs,),
    "yard": (commissioning, register),
}
"""What each edition's readers write or read; the full document has everything."""


def section(draft: Draft) -> Iterator[Block]:
    """The parts that the edition's readers need."""
    yield Heading(
        1, draft.words("records.title"), key="records", number="10", new_sheet=draft.opens("records")
    )
    numbers = count(1)
    for part in PARTS.get(draft.edition, EVERYTHING):
        yield from part(draft, f"10.{next(numbers)}")
