"""Section 11: workings, sources, project file, words of the trade. The short form has the sources alone."""

from collections.abc import Iterator

from dossier.rendering.blocks import Block, Heading, TwoColumns
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections import glossary, project_file, sources, workings


def section(draft: Draft) -> Iterator[Block]:
    """All appendices in their order."""
    yield Heading(1, draft.words("appendices.title"), key="appendices", number="11")
    if draft.extent("appendices") is Extent.SHORT:
        yield from sources.section(draft)
        return
    parts = (workings, sources, project_file, glossary)
    yield TwoColumns([block for part in parts for block in part.section(draft)])
