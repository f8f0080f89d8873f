"""Section 6.12: what does an engine hour save?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong
from dossier.sizing.heat_recovery import Recovery

NUMBER = Align.NUMBER


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the modes that recover heat, each exchanger in them."""
    found = draft.study.recovery
    if isinstance(found, NotAssessed):
        yield from missing(draft, "recovery", "6.12", found)
        return
    yield heading(draft, "recovery", "6.12")
    yield feeds(draft, ["recovery"])
    yield _answer(draft, found)
    if found.modes:
        yield _modes(draft, found)
        yield _units(draft, found)
    yield grounds(
        draft, "recovery", numbers=[mode.heat for mode in found.modes.values()], chapters=["recovery"]
    )
    for gap in found.lacking.values():
        yield Note(draft.needs(gap))


def _answer(draft: Draft, found: Recovery) -> Answer:
    words = draft.words
    if not found.modes:
        return Answer(words("recovery.answer_none"))
    best = max(found.modes.values(), key=lambda mode: float(mode.heat))
    rest: Text = ""
    if best.saved_per_day is not None:
        rest = words("recovery.saves", volume=draft.said(best.saved_per_day, "volume"))
    answer = words("recovery.answer", mode=best.mode, heat=draft.said(best.heat, "power_large"))
    return Answer(draft.worked(best.heat, answer), rest)


def _modes(draft: Draft, found: Recovery) -> Table:
    words, numbers = draft.words, draft.numbers
    degrees = numbers.unit("temperature")
    rows: list[Sequence[Cell]] = [
        [
            strong(mode.mode),
            words("recovery.burner_runs" if mode.burner_runs else "recovery.burner_rests"),
            draft.worked(mode.heat, strong(draft.cell(mode.heat, "power"))),
            draft.worked(mode.engine_temperature, draft.cell(mode.engine_temperature, "temperature")),
            draft.worked(mode.ring_highest, draft.cell(mode.ring_highest, "temperature")),
            draft.cell(mode.saved_per_day, "volume"),
        ]
        for mode in found.modes.values()
    ]
    return Table(
        columns=[
            Column(words("recovery.mode")),
            Column(words("recovery.burner")),
            Column(words("recovery.heat"), numbers.unit("power"), NUMBER),
            Column(words("recovery.jacket"), degrees, NUMBER),
            Column(words("recovery.ring_highest"), degrees, NUMBER),
            Column(words("recovery.saved"), numbers.unit("volume"), NUMBER),
        ],
        rows=rows,
        caption=words("recovery.modes_caption"),
        key="table_recovery",
        notes=words("recovery.modes_notes"),
    )


def _units(draft: Draft, found: Recovery) -> Table:
    words, numbers = draft.words, draft.numbers
    degrees = numbers.unit("temperature")
    rows: list[Sequence[Cell]] = [
        [
            strong(unit.tag),
            unit.serves,
            mode.mode,
            draft.cell(unit.heat, "power"),
            draft.cell(unit.ring_in, "temperature"),
            draft.cell(unit.ring_out, "temperature"),
            draft.cell(unit.jacket, "temperature"),
            draft.cell(unit.thermostat, "temperature"),
            draft.cell(unit.cold.opens_after, "time_minutes") if unit.cold else "—",
        ]
        for mode in found.modes.values()
        for unit in mode.units
    ]
    return Table(
        columns=[
            Column(words("recovery.unit")),
            Column(words("recovery.serves")),
            Column(words("recovery.mode")),
            Column(words("recovery.heat"), numbers.unit("power"), NUMBER),
            Column(words("recovery.ring_in"), degrees, NUMBER),
            Column(words("recovery.ring_out"), degrees, NUMBER),
            Column(words("recovery.jacket"), degrees, NUMBER),
            Column(words("recovery.opens"), degrees, NUMBER),
            Column(words("recovery.opens_after"), numbers.unit("time_minutes"), NUMBER),
        ],
        rows=rows,
        caption=words("recovery.units_caption"),
        key="table_recovery_units",
        notes=words("recovery.units_notes"),
    )
