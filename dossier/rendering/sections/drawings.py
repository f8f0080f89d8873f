"""Section 7: the drawings, each on a sheet of its own."""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Block, Cell, Column, DrawingSheet, Heading, Note, Paragraph, Table
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections import (
    arrangement_sheets,
    build_up_sheets,
    exhaust_drawn,
    heights_sheets,
    schematic_sheets,
    valve_plan,
)
from dossier.rendering.text import strong

FOR_THE_CREW = (schematic_sheets.sheets, arrangement_sheets.sheets)
ALL = (
    schematic_sheets.sheets,
    arrangement_sheets.sheets,
    exhaust_drawn.sheets,
    heights_sheets.sheets,
    build_up_sheets.sheets,
)


def section(draft: Draft) -> Iterator[Block]:
    """A list of drawings, the valve plan, what could not be drawn, then the sheets."""
    words = draft.words
    yield Heading(1, words("drawings.title"), key="drawings", number="7")
    yield Paragraph(words("drawings.introduction"))
    sheets: list[DrawingSheet] = []
    gaps: list[NotAssessed] = []
    for make in ALL if draft.extent("drawings") is Extent.WHOLE else FOR_THE_CREW:
        made = make(draft)
        if isinstance(made, NotAssessed):
            gaps.append(made)
        else:
            sheets += made
    if sheets:
        yield _list(draft, sheets)
    yield Heading(2, words("drawings.valve_plan"), key="valve_plan", numbered=False)
    yield from valve_plan.blocks(draft)
    for gap in gaps:
        yield Note(draft.needs(gap))
    yield from sheets


def _list(draft: Draft, sheets: Sequence[DrawingSheet]) -> Table:
    words = draft.words
    rows: list[Sequence[Cell]] = [[strong(sheet.kind), sheet.title, sheet.scale] for sheet in sheets]
    return Table(
        columns=[
            Column(words("drawings.number")),
            Column(words("drawings.shows")),
            Column(words("drawings.scale")),
        ],
        rows=rows,
        caption=words("drawings.list"),
        key="table_drawings",
    )
