"""What follows from the flows: the cold, the index circuit, one emitter shut, other sizes of pipe."""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Block, Cell, Column, Figure, Heading, Span, Table
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections.index_figure import index_figure
from dossier.rendering.text import strong
from dossier.sizing.ring import RingStudy

NUMBER = Align.NUMBER
MOST_SHUT = 12
"""Emitters shut one by one that a table has columns for."""


def blocks(draft: Draft, ring: RingStudy) -> Iterator[Block]:
    """Each a table or figure of its own under one heading."""
    found = [_by_temperature(draft), _profile(draft, ring), _index(draft, ring), _shut(draft)]
    if draft.extent("calculation") is Extent.WHOLE:
        found.append(_sizes(draft))
    held = [block for block in found if block is not None]
    if held:
        yield Heading(3, draft.words("flow.further"), numbered=False)
        yield from held


def _by_temperature(draft: Draft) -> Table | None:
    """The ring from frost to working temperature."""
    words, numbers = draft.words, draft.numbers
    points = draft.study.mix_curve
    if isinstance(points, NotAssessed):
        return None
    rows: list[Sequence[Cell]] = [
        [
            draft.cell(point.temperature, "temperature"),
            draft.cell(point.viscosity, "viscosity"),
            draft.cell(point.burner, "flow"),
            draft.cell(point.pressure_rise, "pressure"),
            draft.cell(point.index, "flow"),
            draft.cell(point.index_loss, "ratio"),
        ]
        for point in points
        if point.viscosity is not None
    ]
    if not rows:
        return None
    return Table(
        columns=[
            Column(words("flow.ring_at"), numbers.unit("temperature"), NUMBER),
            Column(words("flow.viscosity"), numbers.unit("viscosity"), NUMBER),
            Column(words("flow.burner"), numbers.unit("flow"), NUMBER),
            Column(words("flow.head"), numbers.unit("pressure"), NUMBER),
            Column(words("flow.index_branch"), numbers.unit("flow"), NUMBER),
            Column(words("flow.times_warm"), "", NUMBER),
        ],
        rows=rows,
        caption=words("flow.by_temperature"),
        key="table_mix_curve",
        notes=words("flow.by_temperature_notes"),
    )


def _profile(draft: Draft, ring: RingStudy) -> Figure | None:
    """The pressure of the table below over the length of pipe."""
    points = draft.study.index_profile
    if isinstance(points, NotAssessed):
        return None
    return index_figure(draft, points, draft.named(ring.index) if ring.index else "—")


def _index(draft: Draft, ring: RingStudy) -> Table | None:
    """Part by part from the pump by the worst branch and back."""
    words, numbers = draft.words, draft.numbers
    points = draft.study.index_profile
    if isinstance(points, NotAssessed):
        return None
    rows: list[Sequence[Cell]] = [
        [
            point.tag.replace("_", " "),
            draft.named(point.kind),
            draft.cell(point.length, "length_long") if float(point.length) > 0 else "—",
            draft.cell(point.before, "pressure"),
            numbers.text(-float(point.drop), "pressure", signed=True),
        ]
        for point in points
    ]
    return Table(
        columns=[
            Column(words("flow.part")),
            Column(words("flow.kind")),
            Column(words("flow.length"), numbers.unit("length_long"), NUMBER),
            Column(words("flow.before"), numbers.unit("pressure"), NUMBER),
            Column(words("flow.change"), numbers.unit("pressure"), NUMBER),
        ],
        rows=rows,
        caption=words("flow.index_caption", branch=draft.named(ring.index) if ring.index else "—"),
        key="table_index",
        notes=words("flow.index_notes"),
    )


def _shut(draft: Draft) -> Table | None:
    """Flow through the others while one emitter is shut, over that with all open."""
    words = draft.words
    found = draft.study.interaction
    if isinstance(found, NotAssessed) or not found or len(found) > MOST_SHUT:
        return None
    order = [each.shut for each in found]
    tags = list(dict.fromkeys([*order, *(tag for each in found for tag in (*each.others, *each.burner))]))
    rows: list[Sequence[Cell]] = []
    for each in found:
        ratios = {**each.others, **each.burner}
        rows.append(
            [
                strong(each.shut),
                *[draft.cell(ratios[tag].ratio, "ratio") if tag in ratios else "—" for tag in tags],
            ]
        )
    return Table(
        columns=[Column(words("flow.shut")), *[Column(tag, align=NUMBER) for tag in tags]],
        rows=rows,
        caption=words("flow.shut_caption"),
        key="table_interaction",
        notes=words("flow.shut_notes"),
    )


def _sizes(draft: Draft) -> Table | None:
    """Every run in its own size and in the sizes beside it."""
    words, numbers = draft.words, draft.numbers
    choices = draft.study.pipe_choices
    if isinstance(choices, NotAssessed) or not choices:
        return None
    rows: list[Sequence[Cell]] = []
    for choice in choices.values():
        own = next((option for option in choice.options if option.size == choice.own), None)
        if own is None:
            continue
        better = choice.recommended != choice.own
        rows.append(
            [
                choice.tag.replace("_", " "),
                choice.own,
                draft.cell(own.velocity, "speed"),
                draft.cell(own.drop, "pressure"),
                strong(choice.recommended) if better else choice.recommended,
                choice.reason,
            ]
        )
    return Table(
        columns=[
            Column(words("flow.run")),
            Column(words("flow.size")),
            Column(words("flow.speed"), numbers.unit("speed"), NUMBER),
            Column(words("flow.drop"), numbers.unit("pressure"), NUMBER),
            Column(words("flow.recommended")),
            Column(words("flow.reason")),
        ],
        rows=rows,
        caption=words("flow.sizes_caption"),
        key="table_sizes",
        notes=words("flow.sizes_notes"),
        span=Span.FULL,
    )
