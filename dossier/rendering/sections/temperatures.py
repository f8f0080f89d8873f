"""Section 6.8: does each cabin get its heat?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Span, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong
from dossier.sizing.held import HeldRooms
from dossier.sizing.ring import RingStudy
from dossier.sizing.ring_results import EmitterState, ModeHeat

NUMBER = Align.NUMBER


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the sources, the emitters, the rooms, the pipes."""
    ring = draft.study.ring
    if isinstance(ring, NotAssessed):
        yield from missing(draft, "temperatures", "6.8", ring)
        return
    heat = ring.design.heat if ring.design else None
    if heat is None:
        gap = NotAssessed("", ("components.burner.output",), str(draft.words("temperatures.no_source")))
        yield from missing(draft, "temperatures", "6.8", gap)
        return
    yield heading(draft, "temperatures", "6.8")
    yield feeds(draft, ["temperature", "heat"])
    held = draft.study.held
    yield _answer(draft, heat, None if isinstance(held, NotAssessed) else held)
    yield _sources(draft, ring, heat)
    if heat.zones:
        yield _rooms(draft, heat, None if isinstance(held, NotAssessed) else held)
    if heat.emitters:
        yield _emitters(draft, ring, heat)
    numbers = [source.output for source in heat.sources.values()]
    numbers += [emitter.output for emitter in heat.emitters.values()]
    yield grounds(draft, "temperatures", numbers=numbers, chapters=["heat"])
    for gap in ring.lacking.values():
        yield Note(draft.needs(gap))
    if heat.pipes:
        yield _pipes(draft, heat)


def _answer(draft: Draft, heat: ModeHeat, held: HeldRooms | None) -> Answer:
    words = draft.words
    short = {zone: state for zone, state in heat.zones.items() if float(state.margin) < 0}
    source = next(iter(heat.sources.values()))
    rest: Text = words(
        "temperatures.source_says",
        tag=source.tag,
        output=draft.said(source.output, "power_large"),
        full=draft.said(source.full, "power_large"),
        regime=str(source.regime),
        supply=draft.said(source.supply, "temperature"),
        back=draft.said(source.back, "temperature"),
    )
    if not heat.zones:
        return Answer(words("temperatures.answer_unknown"), rest)
    if not short:
        least = min(heat.zones.values(), key=lambda state: float(state.margin))
        answer = words(
            "temperatures.answer_enough",
            zone=draft.named(least.zone),
            margin=draft.said(least.margin, "power"),
        )
        return Answer(draft.worked(least.margin, answer), rest)
    worst = min(short.values(), key=lambda state: float(state.margin))
    room = held.rooms.get(worst.zone) if held else None
    answer = words(
        "temperatures.answer_short",
        zones=", ".join(draft.named(zone) for zone in short),
        zone=draft.named(worst.zone),
        lacks=draft.said(-float(worst.margin), "power"),
    )
    if room is not None:
        rest = words(
            "temperatures.held_at",
            zone=draft.named(worst.zone),
            temperature=draft.said(room.temperature, "temperature_fine"),
        )
    return Answer(answer, rest)


def _sources(draft: Draft, ring: RingStudy, heat: ModeHeat) -> Table:
    words, numbers = draft.words, draft.numbers
    flows = ring.design.flows.edges if ring.design else {}
    degrees, watts = numbers.unit("temperature_fine"), numbers.unit("power")
    rows: list[Sequence[Cell]] = [
        [
            strong(source.tag),
            draft.named(source.kind),
            draft.cell(flows[source.tag].flow, "flow"),
            draft.worked(source.back, draft.cell(source.back, "temperature_fine")),
            draft.worked(source.supply, draft.cell(source.supply, "temperature_fine")),
            draft.worked(source.output, strong(draft.cell(source.output, "power"))),
            draft.cell(source.full, "power"),
            str(source.regime),
        ]
        for source in heat.sources.values()
    ]
    return Table(
        columns=[
            Column(words("temperatures.source")),
            Column(words("temperatures.kind")),
            Column(words("temperatures.flow"), numbers.unit("flow"), NUMBER),
            Column(words("temperatures.in"), degrees, NUMBER),
            Column(words("temperatures.out"), degrees, NUMBER),
            Column(words("temperatures.output"), watts, NUMBER),
            Column(words("temperatures.full"), watts, NUMBER),
            Column(words("temperatures.regime")),
        ],
        rows=rows,
        caption=words("temperatures.sources_caption"),
        key="table_heat_sources",
        notes=words("temperatures.sources_notes"),
    )


def _rooms(draft: Draft, heat: ModeHeat, held: HeldRooms | None) -> Table:
    words, numbers = draft.words, draft.numbers
    watts = numbers.unit("power")
    rows: list[Sequence[Cell]] = []
    for zone, state in heat.zones.items():
        room = held.rooms.get(zone) if held else None
        warm: Text = "—"
        if room is not None:
            shown = draft.cell(room.temperature, "temperature_fine")
            warm = draft.worked(room.temperature, strong(shown) if room.falls_short else shown)
        rows.append(
            [
                strong(draft.capital(zone)),
                draft.cell(state.load, "power"),
                draft.cell(state.output, "power"),
                draft.worked(state.margin, strong(numbers.text(float(state.margin), "power", signed=True))),
                warm,
                words("temperatures.falls_short") if room is not None and room.falls_short else "",
            ]
        )
    return Table(
        columns=[
            Column(words("temperatures.room")),
            Column(words("temperatures.load"), watts, NUMBER),
            Column(words("temperatures.can_give"), watts, NUMBER),
            Column(words("temperatures.margin"), watts, NUMBER),
            Column(words("temperatures.held"), numbers.unit("temperature_fine"), NUMBER),
            Column(""),
        ],
        rows=rows,
        caption=words("temperatures.rooms_caption"),
        key="table_rooms",
    )


def _emitters(draft: Draft, ring: RingStudy, heat: ModeHeat) -> Table:
    words, numbers = draft.words, draft.numbers
    degrees, watts = numbers.unit("temperature_fine"), numbers.unit("power")
    flows = ring.design.flows.edges if ring.design else {}

    def row(state: EmitterState) -> Sequence[Cell]:
        return [
            strong(state.tag),
            draft.named(state.kind),
            draft.named(state.zone),
            draft.cell(flows[state.tag].flow, "flow"),
            draft.worked(state.supply, draft.cell(state.supply, "temperature_fine")),
            draft.worked(state.back, draft.cell(state.back, "temperature_fine")),
            draft.cell(state.room, "temperature_fine"),
            draft.worked(state.output, strong(draft.cell(state.output, "power"))),
            draft.cell(state.given, "power"),
            draft.cell(state.quiet, "power"),
        ]

    return Table(
        columns=[
            Column(words("temperatures.emitter")),
            Column(words("temperatures.kind"), wide_only=True),
            Column(words("temperatures.room")),
            Column(words("temperatures.flow"), numbers.unit("flow"), NUMBER),
            Column(words("temperatures.in"), degrees, NUMBER),
            Column(words("temperatures.out"), degrees, NUMBER),
            Column(words("temperatures.air"), degrees, NUMBER),
            Column(words("temperatures.output"), watts, NUMBER),
            Column(words("temperatures.given"), watts, NUMBER),
            Column(words("temperatures.quiet"), watts, NUMBER),
        ],
        rows=[row(state) for state in heat.emitters.values()],
        caption=words("temperatures.emitters_caption"),
        key="table_emitters",
        notes=words("temperatures.emitters_notes"),
        span=Span.FULL,
    )


def _pipes(draft: Draft, heat: ModeHeat) -> Table:
    words, numbers = draft.words, draft.numbers
    rows: list[Sequence[Cell]] = [
        [
            draft.named(pipe.tag),
            draft.named(pipe.through or pipe.beside) or "—",
            draft.cell(heat.inlets.get(pipe.tag), "temperature_fine"),
            draft.worked(pipe.surface, draft.cell(pipe.surface, "temperature")),
            draft.worked(pipe.loss, strong(draft.cell(pipe.loss, "power_fine"))),
        ]
        for pipe in heat.pipes.values()
    ]
    outside = draft.worked(heat.outside, strong(draft.cell(heat.outside, "power_fine")))
    return Table(
        columns=[
            Column(words("temperatures.pipe")),
            Column(words("temperatures.through")),
            Column(words("temperatures.water"), numbers.unit("temperature_fine"), NUMBER),
            Column(words("temperatures.surface"), numbers.unit("temperature"), NUMBER),
            Column(words("temperatures.loss"), numbers.unit("power_fine"), NUMBER),
        ],
        rows=rows,
        totals=[[words("temperatures.outside_cabins"), "", "", "", outside]],
        caption=words("temperatures.pipes_caption"),
        key="table_pipe_losses",
        notes=words("temperatures.pipes_notes"),
    )
