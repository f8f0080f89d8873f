"""Pressures, told with the modes: where can the ring draw air, or boil?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Block, Cell, Column, Heading, Note, Paragraph, Table
from dossier.rendering.draft import Draft
from dossier.rendering.text import strong
from dossier.sizing.pressures import Pressures

NUMBER = Align.NUMBER


def blocks(draft: Draft) -> Iterator[Block]:
    """Lowest and highest of each mode, then part by part in the design mode."""
    words, found = draft.words, draft.study.pressures
    yield Heading(3, words("pressures.title"), key="pressures", numbered=False)
    if isinstance(found, NotAssessed):
        yield Note(draft.needs(found))
        return
    yield Paragraph(
        words(
            "pressures.held" if found.sealed else "pressures.held_open",
            pressure=draft.said(found.join, "pressure"),
            atmosphere=draft.said(found.atmosphere, "pressure"),
        )
    )
    if found.modes:
        yield _lowest(draft, found)
        yield _by_part(draft, found)


def _lowest(draft: Draft, found: Pressures) -> Table:
    words, numbers = draft.words, draft.numbers
    kpa = numbers.unit("pressure")
    rows: list[Sequence[Cell]] = [
        [
            strong(mode),
            draft.worked(each.lowest, strong(draft.cell(each.lowest, "pressure"))),
            each.lowest_at.replace("_", " "),
            draft.worked(each.highest, draft.cell(each.highest, "pressure")),
            each.highest_at.replace("_", " "),
        ]
        for mode, each in found.modes.items()
    ]
    return Table(
        columns=[
            Column(words("pressures.mode")),
            Column(words("pressures.lowest"), kpa, NUMBER),
            Column(words("pressures.at")),
            Column(words("pressures.highest"), kpa, NUMBER),
            Column(words("pressures.at")),
        ],
        rows=rows,
        caption=words("pressures.modes_caption"),
        key="table_pressures",
        notes=words("pressures.notes"),
    )


def _by_part(draft: Draft, found: Pressures) -> Table:
    words, numbers = draft.words, draft.numbers
    mode, first = next(iter(found.modes.items()))
    heights = found.heights
    rows: list[Sequence[Cell]] = [
        [
            strong(tag.replace("_", " ")),
            draft.cell(heights.get(tag), "length"),
            draft.worked(edge.gauge, draft.cell(edge.gauge, "pressure")),
            draft.worked(edge.inlet, draft.cell(edge.inlet, "pressure")),
        ]
        for tag, edge in first.edges.items()
    ]
    return Table(
        columns=[
            Column(words("pressures.part")),
            Column(words("pressures.height"), numbers.unit("length"), NUMBER),
            Column(words("pressures.gauge"), numbers.unit("pressure"), NUMBER),
            Column(words("pressures.absolute"), numbers.unit("pressure"), NUMBER),
        ],
        rows=rows,
        caption=words("pressures.parts_caption", mode=mode),
        key="table_pressures_parts",
    )
