"""Section 7: the drawings, each on a sheet of its own."""

from collections.abc import Iterator, Mapping, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Block, Cell, Column, DrawingSheet, Heading, Note, Paragraph, Table
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections import (
    arrangement_sheets,
    build_up_sheets,
    exhaust_drawn,
    fuel_sheets,
    heights_sheets,
    one_line_sheets,
    schematic_sheets,
    tag_sheets,
    valve_sheets,
)
from dossier.rendering.text import Markup, Text, page_of, strong

FOR_THE_CREW = ("schematic", "arrangement", "valves")
"""Drawings of the short form."""
IN_FULL = frozenset({"build_up", "tags"})
"""Drawings of the whole form alone: build-ups stand in the calculation too, tags are for cutting out."""

ALL = {
    "schematic": schematic_sheets.sheets,
    "arrangement": arrangement_sheets.sheets,
    "exhaust": exhaust_drawn.sheets,
    "heights": heights_sheets.sheets,
    "one_line": one_line_sheets.sheets,
    "fuel": fuel_sheets.sheets,
    "build_up": build_up_sheets.sheets,
    "valves": valve_sheets.sheets,
    "tags": tag_sheets.sheets,
}
"""Makers of the drawings by the name of their texts, in the order of their numbers."""


def section(draft: Draft) -> Iterator[Block]:
    """A list of the drawings, what could not be drawn, then the sheets."""
    words = draft.words
    yield Heading(1, words("drawings.title"), key="drawings", number="7", new_sheet=draft.opens("drawings"))
    yield Paragraph(words("drawings.introduction"))
    drawn: dict[str, list[DrawingSheet]] = {}
    gaps: list[Text] = []
    for name in _names(draft):
        made = ALL[name](draft)
        if isinstance(made, NotAssessed):
            gaps.append(_gap(draft, name, draft.needs(made)))
        elif isinstance(made, Markup):
            gaps.append(_gap(draft, name, made))
        else:
            drawn[name] = made
    if drawn and draft.extent("drawings") is not Extent.SHORT:
        yield _list(draft, drawn)
    for gap in gaps:
        yield Note(gap)
    for sheets in drawn.values():
        yield from sheets


def _names(draft: Draft) -> Sequence[str]:
    """Which drawings an edition holds."""
    extent = draft.extent("drawings")
    if extent is Extent.SHORT:
        return FOR_THE_CREW
    return [name for name in ALL if extent is Extent.WHOLE or name not in IN_FULL]


def _gap(draft: Draft, name: str, why: Text) -> Text:
    """One line for a drawing that cannot be made."""
    return draft.words("drawings.gap", kind=draft.words(f"drawings.{name}_kind"), gap=why)


def _list(draft: Draft, drawn: Mapping[str, Sequence[DrawingSheet]]) -> Table:
    """The drawings with their scales and the sheet each begins on."""
    words = draft.words
    rows: list[Sequence[Cell]] = [
        [
            strong(words(f"drawings.{name}_kind")),
            sheets[0].title,
            ", ".join(dict.fromkeys(str(sheet.scale) for sheet in sheets)),
            page_of(sheets[0].key),
        ]
        for name, sheets in drawn.items()
    ]
    return Table(
        columns=[
            Column(words("drawings.number")),
            Column(words("drawings.shows")),
            Column(words("drawings.scale")),
            Column(words("drawings.sheet"), align=Align.NUMBER),
        ],
        rows=rows,
        caption=words("drawings.list"),
        key="table_drawings",
    )
