"""Section 6.7: does each branch get its share, and the burner what it needs?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed, Real
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Paragraph, Span, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections import flow_further, flow_meeting
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, boxed, strong, text
from dossier.sizing.branches import Branches, BranchRow, flow_off_by
from dossier.sizing.presets import Preset
from dossier.sizing.ring import RingStudy

NUMBER = Align.NUMBER
MEASURED = "flow.measured"


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the branches, the pump against the circuit, the presets, then what follows from them."""
    ring, found = draft.study.ring, draft.study.branches
    if isinstance(ring, NotAssessed) or isinstance(found, NotAssessed):
        gap = ring if isinstance(ring, NotAssessed) else found
        if isinstance(gap, NotAssessed):
            yield from missing(draft, "flow", "6.7", gap)
        return
    yield heading(draft, "flow", "6.7")
    yield feeds(draft, ["flow"])
    yield _answer(draft, ring, found)
    worst = _worst(draft, found)
    if worst:
        yield Paragraph(worst)
    yield _branches(draft, found)
    yield from flow_meeting.blocks(draft)
    yield grounds(draft, "flow", numbers=[row.flow for row in found.rows], chapters=["flow"])
    if ring.presets:
        yield presets(draft, ring)
    yield from flow_further.blocks(draft, ring)
    for mode, why in ring.not_solved.items():
        yield Note(draft.words("flow.not_solved", mode=mode, why=draft.made(why)))


def short(draft: Draft) -> Iterator[Block]:
    """Branches and presets alone, for who balances them."""
    ring, found = draft.study.ring, draft.study.branches
    if isinstance(ring, NotAssessed) or isinstance(found, NotAssessed):
        gap = ring if isinstance(ring, NotAssessed) else found
        if isinstance(gap, NotAssessed):
            yield from missing(draft, "flow", "6.7", gap)
        return
    yield heading(draft, "flow", "6.7")
    yield _answer(draft, ring, found)
    yield _branches(draft, found)
    if ring.presets:
        yield presets(draft, ring)


def _answer(draft: Draft, ring: RingStudy, found: Branches) -> Answer:
    """Yes or no, by how much, and what the burner gets warm and cold."""
    words = draft.words
    short_rows = found.short
    burner = found.burners[0] if found.burners else None
    parts: list[Text] = []
    if short_rows:
        parts.append(words("flow.answer_short", branches=", ".join(draft.named(r.name) for r in short_rows)))
    elif ring.share is not None:
        parts.append(words("flow.answer_share", times=draft.numbers.text(ring.share, "ratio")))
    elif any(row.wanted is not None for row in found.rows):
        parts.append(words("flow.answer_enough"))
    else:
        parts.append(words("flow.answer_unknown"))
    if burner is not None:
        gets = draft.said(burner.flow, "flow")
        said = (
            words("flow.burner_gets", tag=burner.tag, flow=gets)
            if burner.least is None
            else words("flow.burner_needs", tag=burner.tag, flow=gets, least=draft.said(burner.least, "flow"))
        )
        parts += [" ", said]
    cold = draft.study.cold_start
    rest: Text = ""
    if burner is not None and not isinstance(cold, NotAssessed):
        rest = words(
            "flow.answer_cold",
            flow=draft.said(cold.flows.edges[burner.tag].flow, "flow"),
            temperature=draft.said(cold.temperature, "temperature"),
        )
    return Answer(text(*parts), rest)


def _worst(draft: Draft, found: Branches) -> Text:
    """Which branch sets the pump, and what its valve does."""
    row = next((row for row in found.rows if row.is_index), None)
    if row is None:
        return ""
    given = {"branch": draft.named(row.name), "drop": draft.said(row.total, "pressure")}
    if row.preset is not None and row.preset.is_open:
        return draft.words("flow.worst_open", valve=row.preset.tag, **given)
    return draft.words("flow.worst", **given)


def _branches(draft: Draft, found: Branches) -> Table:
    """One row a branch in the manner of a measuring sheet; the burner and the pump below."""
    words, numbers = draft.words, draft.numbers
    flow, kpa = numbers.unit("flow"), numbers.unit("pressure")
    totals: list[Sequence[Cell]] = [
        [
            strong(words("flow.burner")),
            strong(burner.tag),
            strong(draft.cell(burner.least, "flow")),
            draft.worked(burner.flow, strong(draft.cell(burner.flow, "flow"))),
            strong(_signed(draft, burner.margin)),
            "",
            "",
            "",
            "",
            "",
            strong(draft.cell(burner.rise, "pressure")),
            "",
            strong(draft.cell(burner.warming, "temperature_difference_fine")),
        ]
        for burner in found.burners
    ]
    ring_drops = ", ".join(
        f"{draft.named(part.tag)} {draft.cell(part.drop, 'pressure')}" for part in found.ring
    )
    return Table(
        columns=[
            Column(words("flow.branch")),
            Column(words("flow.tag")),
            Column(words("flow.wanted"), flow, NUMBER),
            Column(words("flow.found"), flow, NUMBER),
            Column(words("flow.margin"), flow, NUMBER),
            Column(words("flow.speed"), numbers.unit("speed"), NUMBER, wide_only=True),
            Column(words("flow.reynolds"), "", NUMBER, wide_only=True),
            Column(words("flow.pipe"), kpa, NUMBER, wide_only=True),
            Column(words("flow.unit"), kpa, NUMBER, wide_only=True),
            Column(words("flow.valve"), kpa, NUMBER, wide_only=True),
            Column(words("flow.sum"), kpa, NUMBER),
            Column(words("flow.preset"), numbers.unit("flow_factor"), NUMBER),
            Column(words("flow.cools_by"), numbers.unit("temperature_difference_fine"), NUMBER),
        ],
        rows=[_branch(draft, row) for row in found.rows],
        totals=totals,
        caption=_caption(draft),
        key="table_branches",
        notes=text(
            strong("W"),
            " ",
            words("flow.branches_notes"),
            " ",
            words("flow.ring_drops", drops=ring_drops, unit=kpa) if ring_drops else "",
        ),
        span=Span.FULL,
    )


def _caption(draft: Draft) -> Text:
    mix = draft.study.coolant
    if isinstance(mix, NotAssessed):
        return draft.words("flow.branches_caption_plain")
    base = draft.words.told(mix.fluid.data_set.base)
    named = f"{draft.said(mix.share, 'share')} {base}" if mix.is_mix else base
    return draft.words("flow.branches_caption", mix=named, temperature=draft.said(mix.working, "temperature"))


def _branch(draft: Draft, row: BranchRow) -> Sequence[Cell]:
    name = draft.capital(row.name)
    return [
        text(name, "\u00a0 ", boxed("W")) if row.is_index else name,
        " · ".join(row.tags),
        draft.cell(row.wanted, "flow"),
        draft.worked(row.flow, strong(draft.cell(row.flow, "flow"))),
        _signed(draft, row.margin),
        draft.cell(row.velocity, "speed"),
        draft.cell(row.reynolds, "reynolds"),
        draft.cell(row.drops.pipes, "pressure"),
        draft.cell(row.drops.units, "pressure"),
        draft.cell(row.drops.valves, "pressure"),
        draft.cell(row.total, "pressure"),
        _preset(draft, row.preset),
        draft.cell(row.cooling, "temperature_difference_fine"),
    ]


def _signed(draft: Draft, number: Real | None) -> str:
    return draft.numbers.text(None if number is None else float(number), "flow", signed=True)


def _preset(draft: Draft, preset: Preset | None) -> Text:
    if preset is None:
        return "—"
    shown = draft.words("flow.open") if preset.is_open else draft.cell(preset.kv, "flow_factor")
    return draft.worked(preset.kv, shown)


def presets(draft: Draft, ring: RingStudy) -> Table:
    """What each valve is to be set to, and between what a meter may then read."""
    words, numbers = draft.words, draft.numbers
    low, high = next(
        (
            (finding.limit.value, finding.limit.upper)
            for finding in draft.assessment.findings
            if finding.check == MEASURED
        ),
        (None, None),
    )
    rows: list[Sequence[Cell]] = []
    for preset in ring.presets.values():
        turns = words("flow.open") if preset.is_open else draft.cell(preset.turns, "ratio")
        accepted = "—"
        if low is not None and high is not None:
            ends = [float(flow_off_by(preset.flow, share)) for share in (low, high)]
            accepted = numbers.span(ends[0], ends[1], "flow")
        rows.append(
            [
                strong(preset.tag),
                draft.capital(preset.branch),
                draft.worked(preset.kv, draft.cell(preset.kv, "flow_factor")),
                turns,
                draft.worked(preset.flow, strong(draft.cell(preset.flow, "flow"))),
                accepted,
                draft.cell(preset.drop, "temperature_difference_fine"),
            ]
        )
    flow = numbers.unit("flow")
    tolerance = numbers.said(high, "share") if high is not None else "—"
    return Table(
        columns=[
            Column(words("flow.valve")),
            Column(words("flow.branch")),
            Column(words("flow.preset"), numbers.unit("flow_factor"), NUMBER),
            Column(words("flow.turns"), "", NUMBER),
            Column(words("flow.expected"), flow, NUMBER),
            Column(words("flow.accept"), flow, NUMBER),
            Column(words("flow.cools_by"), numbers.unit("temperature_difference_fine"), NUMBER),
        ],
        rows=rows,
        caption=words("flow.presets_caption"),
        key="table_presets",
        notes=words("flow.presets_notes", tolerance=tolerance),
    )
