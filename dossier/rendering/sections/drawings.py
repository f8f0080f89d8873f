"""Section 7: the drawings, each on a sheet of its own."""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Block, Cell, Column, DrawingSheet, Heading, Note, Paragraph, Span, Table
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections import exhaust_drawn, schematic_sheets
from dossier.rendering.text import Text, strong
from dossier.sizing.circuit_graph import Place
from dossier.sizing.ring import RingStudy

MOST_MODES = 8
"""Modes that the valve plan has columns for."""


def section(draft: Draft) -> Iterator[Block]:
    """A list of drawings, the valve plan, what could not be drawn, then the sheets."""
    words = draft.words
    yield Heading(1, words("drawings.title"), key="drawings", number="7")
    yield Paragraph(words("drawings.introduction"))
    sheets: list[DrawingSheet] = []
    gaps: list[NotAssessed] = []
    makers = [schematic_sheets.sheets]
    if draft.extent("drawings") is Extent.WHOLE:
        makers.append(exhaust_drawn.sheets)
    for make in makers:
        made = make(draft)
        if isinstance(made, NotAssessed):
            gaps.append(made)
        else:
            sheets += made
    if sheets:
        yield _list(draft, sheets)
    yield from _valves(draft)
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


def _valves(draft: Draft) -> Iterator[Block]:
    """Drawing 8: how every valve stands in every mode, as a matrix."""
    words, ring = draft.words, draft.study.ring
    yield Heading(2, words("drawings.valve_plan"), key="valve_plan", numbered=False)
    if isinstance(ring, NotAssessed):
        yield Note(draft.needs(ring))
        return
    rows = [_valve(draft, ring, place.tag, place.branch) for place in _valve_places(ring)]
    modes = list(ring.operations)[:MOST_MODES]
    if not rows or not modes:
        yield Note(words("drawings.no_valves"))
        return
    yield Table(
        columns=[
            Column(words("drawings.valve")),
            Column(words("drawings.branch")),
            *[Column(mode) for mode in modes],
        ],
        rows=rows,
        caption=words("drawings.valve_caption"),
        key="table_valve_plan",
        span=Span.FULL if len(modes) > 3 else None,  # noqa: PLR2004 - more than the text column holds
    )


def _valve_places(ring: RingStudy) -> Sequence[Place]:
    return ring.hydraulics.circuit.of_kind(
        "balancing_valve",
        "bypass_valve",
        "shut_valve",
        "motor_valve",
        "three_way_valve",
        "thermostatic_valve",
    )


def _valve(draft: Draft, ring: RingStudy, tag: str, branch: str) -> Sequence[Cell]:
    row: list[Cell] = [strong(tag), draft.capital(branch) or "—"]
    for operation in list(ring.operations.values())[:MOST_MODES]:
        state, preset = operation.state, ring.presets.get(tag)
        shown: Text
        if tag in state.shut:
            shown = draft.words("drawings.shut")
        elif tag in state.opened or (preset is not None and preset.is_open and tag not in state.kv):
            shown = draft.words("drawings.open")
        elif tag in state.kv:
            shown = draft.words("drawings.kv", kv=draft.cell(state.kv[tag], "flow_factor"))
        elif preset is not None:
            shown = draft.words("drawings.kv", kv=draft.cell(preset.kv, "flow_factor"))
        elif tag in operation.outcome.positions:
            position = operation.outcome.positions[tag]
            shown = draft.words("drawings.moves", share=draft.said(position, "share"))
        else:
            shown = draft.words("drawings.open")
        row.append(shown)
    return row
