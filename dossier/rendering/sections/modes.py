"""Section 6.9: what changes when, and where can the ring draw air?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Span, Table
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.sections import mode_figures, pressures
from dossier.rendering.sections.opening import grounds, heading, missing
from dossier.rendering.text import strong
from dossier.sizing.ring import Operation, RingStudy

NUMBER = Align.NUMBER


def section(draft: Draft) -> Iterator[Block]:
    """The modes side by side, what stands still in each, then the pressures."""
    ring, words = draft.study.ring, draft.words
    if isinstance(ring, NotAssessed):
        yield from missing(draft, "modes", "6.9", ring)
        return
    yield heading(draft, "modes", "6.9")
    yield _answer(draft, ring)
    if ring.operations:
        yield _modes(draft, ring)
    yield grounds(draft, "modes", chapters=["pressure"])
    for mode, why in ring.not_solved.items():
        yield Note(words("modes.not_solved", mode=mode, why=why))
    standing: list[tuple[str, str, str, str]] = [
        (operation.mode, part.tag, draft.named(part.branch) or "—", part.why)
        for operation in ring.operations.values()
        for part in operation.standing
        if part.tag not in operation.state.stopped
    ]
    if standing:
        yield Table(
            columns=[
                Column(words("modes.mode")),
                Column(words("modes.part")),
                Column(words("modes.branch")),
                Column(words("modes.why")),
            ],
            rows=_once(standing),
            caption=words("modes.standing_caption"),
            key="table_standing",
        )
    if draft.extent("calculation") is Extent.WHOLE:
        yield from mode_figures.figures(draft, ring)
    yield from pressures.blocks(draft)


def _once(rows: list[tuple[str, str, str, str]]) -> list[Sequence[Cell]]:
    """Parts that stand for the same reason in one row; the mode is told once."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for mode, tag, branch, why in rows:
        found.setdefault((mode, branch, why), []).append(tag.replace("_", " "))
    told: set[str] = set()
    table: list[Sequence[Cell]] = []
    for (mode, branch, why), tags in found.items():
        table.append(["" if mode in told else strong(mode), ", ".join(tags), branch, why])
        told.add(mode)
    return table


def _answer(draft: Draft, ring: RingStudy) -> Answer:
    words = draft.words
    solved, all_modes = len(ring.operations), len(ring.operations) + len(ring.not_solved)
    if ring.not_solved:
        return Answer(words("modes.answer_some", solved=str(solved), count=str(all_modes)))
    names = ", ".join(ring.operations)
    return Answer(words("modes.answer", count=str(all_modes), modes=names))


def _modes(draft: Draft, ring: RingStudy) -> Table:
    words, numbers = draft.words, draft.numbers
    return Table(
        columns=[
            Column(words("modes.mode")),
            Column(words("modes.calls")),
            Column(words("modes.shut"), wide_only=True),
            Column(words("modes.set"), wide_only=True),
            Column(words("modes.source")),
            Column(words("modes.output"), numbers.unit("power"), NUMBER),
            Column(words("modes.supply"), numbers.unit("temperature"), NUMBER),
            Column(words("modes.back"), numbers.unit("temperature"), NUMBER),
            Column(words("modes.flow"), numbers.unit("flow"), NUMBER),
            Column(words("modes.head"), numbers.unit("pressure"), NUMBER),
        ],
        rows=[_mode(draft, operation) for operation in ring.operations.values()],
        caption=words("modes.caption"),
        key="table_modes",
        notes=words("modes.notes"),
        span=Span.FULL,
    )


def _mode(draft: Draft, operation: Operation) -> Sequence[Cell]:
    state, heat = operation.state, operation.heat
    source = next(iter(heat.sources.values()), None) if heat else None
    pump = next((p for tag, p in operation.flows.pumps.items() if tag not in state.stopped), None)
    settings = ", ".join(
        f"{tag} {draft.said(kv, 'flow_factor')}" for tag, kv in state.kv.items() if float(kv) > 0
    )
    return [
        strong(operation.mode),
        ", ".join(draft.named(zone) for zone in sorted(state.calls)) or "—",
        ", ".join(sorted(state.shut)) or "—",
        settings or "—",
        draft.words("modes.source_runs", tag=source.tag, regime=str(source.regime)) if source else "—",
        draft.cell(source.output if source else None, "power"),
        draft.cell(source.supply if source else None, "temperature"),
        draft.cell(source.back if source else None, "temperature"),
        draft.cell(pump.flow if pump else None, "flow"),
        draft.cell(pump.pressure_rise if pump else None, "pressure"),
    ]
