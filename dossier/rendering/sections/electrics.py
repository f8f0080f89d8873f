"""Section 6.15: amps, cables, fuses, and the battery's day."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from dossier.data.cables import gauges
from dossier.notation import NotAssessed, Real
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Span, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong, text
from dossier.sizing.electrics import CircuitStudy, ElectricsStudy

NUMBER = Align.NUMBER


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the circuits, the other conventions, the battery's day."""
    found = draft.study.electrics
    if isinstance(found, NotAssessed):
        yield from missing(draft, "electrics", "6.15", found)
        return
    words = draft.words
    yield heading(draft, "electrics", "6.15")
    yield feeds(draft, ["electrics"])
    yield _answer(draft, found)
    if found.circuits:
        yield _circuits(draft, found)
    else:
        yield Note(words("electrics.no_circuits", keys=draft.keys(("electrics.circuits",))))
    numbers = [found.per_day, *(circuit.drop_start for circuit in found.circuits)]
    yield grounds(draft, "electrics", numbers=numbers, chapters=["electrics"])
    if any(other.run is not None or other.start is not None for c in found.circuits for other in c.others):
        yield _conventions(draft, found)
    for circuit in found.circuits:
        if circuit.beyond_tables:
            yield Note(words("electrics.beyond", name=circuit.name, why=circuit.beyond_tables))
    yield from _battery(draft, found)


def _answer(draft: Draft, found: ElectricsStudy) -> Answer:
    words = draft.words
    rest: Text = ""
    if found.per_day is not None:
        rest = words("electrics.answer_day", charge=draft.said(found.per_day, "charge"))
        if found.autonomy is not None:
            rest = rest + " " + words("electrics.answer_lasts", time=draft.said(found.autonomy, "time_days"))
    known = [circuit for circuit in found.circuits if circuit.share_start is not None]
    if not known:
        return Answer(words("electrics.answer_unknown", system=draft.said(found.system, "voltage")), rest)
    worst = max(known, key=lambda circuit: float(circuit.share_start or 0.0))
    answer = words(
        "electrics.answer",
        name=worst.name,
        drop=draft.said(worst.drop_start, "voltage_fine"),
        share=draft.said(worst.share_start, "share_fine"),
    )
    return Answer(draft.worked(worst.drop_start, answer), rest)


def _circuits(draft: Draft, found: ElectricsStudy) -> Table:
    words, numbers = draft.words, draft.numbers
    written: Mapping[str, Any] = {
        circuit.name: circuit
        for circuit in (draft.project.electrics.circuits or ())  # type: ignore[union-attr]  # the study has circuits
    }
    amps, volts = numbers.unit("current"), numbers.unit("voltage_fine")
    return Table(
        columns=[
            Column(words("electrics.circuit")),
            Column(words("electrics.feeds"), wide_only=True),
            Column(words("electrics.start"), amps, NUMBER),
            Column(words("electrics.run"), amps, NUMBER),
            Column(words("electrics.length"), numbers.unit("length_long"), NUMBER),
            Column(words("electrics.section"), numbers.unit("cable_section"), NUMBER),
            Column(words("electrics.gauge"), "", NUMBER),
            Column(words("electrics.drop_run"), volts, NUMBER),
            Column(words("electrics.drop_start"), volts, NUMBER),
            Column(words("electrics.drop_start"), numbers.unit("share_fine"), NUMBER),
            Column(words("electrics.ampacity"), amps, NUMBER),
            Column(words("electrics.fuse"), amps, NUMBER),
            Column(words("electrics.needed"), numbers.unit("cable_section"), NUMBER),
        ],
        rows=[_circuit(draft, circuit, written[circuit.name]) for circuit in found.circuits],
        caption=words("electrics.caption", system=draft.said(found.system, "voltage")),
        key="table_circuits",
        notes=words(
            "electrics.notes",
            lowest=draft.said(found.lowest_voltage, "voltage"),
        ),
        span=Span.FULL,
    )


def _circuit(draft: Draft, circuit: CircuitStudy, written: Any) -> Sequence[Cell]:
    return [
        strong(circuit.name),
        ", ".join(circuit.feeds) or "—",
        draft.cell(circuit.start, "current"),
        draft.cell(circuit.run, "current"),
        draft.cell(written.length, "length_long"),
        draft.cell(written.section, "cable_section"),
        _gauge(written.section),
        draft.worked(circuit.drop_run, draft.cell(circuit.drop_run, "voltage_fine")),
        draft.worked(circuit.drop_start, strong(draft.cell(circuit.drop_start, "voltage_fine"))),
        draft.cell(circuit.share_start, "share_fine"),
        draft.worked(circuit.ampacity, draft.cell(circuit.ampacity, "current")),
        draft.cell(written.fuse, "current"),
        draft.worked(circuit.section_needed, draft.cell(circuit.section_needed, "cable_section")),
    ]


def _gauge(section: Real | None) -> str:
    """The largest American gauge that is no larger than the section."""
    if section is None:
        return "—"
    held = [(float(least), name) for name, least in gauges().items() if float(least) <= float(section)]
    return max(held)[1].replace(" AWG", "") if held else "—"


def _conventions(draft: Draft, found: ElectricsStudy) -> Table:
    """Drops by the other conventions of the resistivity: an outcome may hang on the choice."""
    words, numbers = draft.words, draft.numbers
    volts = numbers.unit("voltage_fine")
    names = list(dict.fromkeys(other.convention for circuit in found.circuits for other in circuit.others))
    rows: list[Sequence[Cell]] = []
    for circuit in found.circuits:
        by_name = {other.convention: other for other in circuit.others}
        rows.append(
            [
                strong(circuit.name),
                draft.cell(circuit.drop_start, "voltage_fine"),
                *[
                    draft.cell(by_name[name].start if name in by_name else None, "voltage_fine")
                    for name in names
                ],
            ]
        )
    return Table(
        columns=[
            Column(words("electrics.circuit")),
            Column(words("electrics.usual"), volts, NUMBER),
            *[Column(words(f"electrics.by_{name}"), volts, NUMBER) for name in names],
        ],
        rows=rows,
        caption=words("electrics.conventions_caption"),
        key="table_conventions",
    )


def _battery(draft: Draft, found: ElectricsStudy) -> Iterator[Block]:
    words, numbers, day = draft.words, draft.numbers, found.day
    if day.charges:
        rows: list[Sequence[Cell]] = [
            [
                strong(each.tag),
                each.moment,
                draft.cell(each.current, "current"),
                draft.cell(each.time, "time_hours"),
                draft.worked(each.charge, draft.cell(each.charge, "charge_fine")),
            ]
            for each in day.charges
        ]
        total = draft.worked(day.per_day, strong(draft.cell(day.per_day, "charge_fine")))
        yield Table(
            columns=[
                Column(words("electrics.consumer")),
                Column(words("electrics.moment")),
                Column(words("electrics.current"), numbers.unit("current"), NUMBER),
                Column(words("electrics.time"), numbers.unit("time_hours"), NUMBER),
                Column(words("electrics.charge"), numbers.unit("charge_fine"), NUMBER),
            ],
            rows=rows,
            totals=[[words("electrics.together"), "", "", "", total]],
            caption=words("electrics.battery_caption"),
            key="table_battery",
            notes=text(words("electrics.left", left=draft.said(day.left, "charge")))
            if day.left is not None
            else "",
        )
    if day.needs:
        yield Note(words("electrics.battery_needs", keys=draft.keys(day.needs)))
