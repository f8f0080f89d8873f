"""Appendix D: words of the trade, for insurer and crew."""

from collections.abc import Iterator

from dossier.data.procedures import glossary
from dossier.rendering.blocks import Block, Column, Heading, Span, Table
from dossier.rendering.draft import Draft


def section(draft: Draft) -> Iterator[Block]:
    """Two columns, in alphabetical order."""
    words = draft.words
    yield Heading(2, words("glossary.title"), key="glossary", numbered=False)
    yield Table(
        columns=[Column(words("glossary.term"), strong=True, width=26), Column(words("glossary.meaning"))],
        rows=[[term.term, term.meaning] for term in glossary()],
        caption=words("glossary.caption"),
        key="table_glossary",
        span=Span.FULL,
    )
