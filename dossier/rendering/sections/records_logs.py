"""Section 10.2: ruled logs of services, coolant, alarms, fuel and hours; what the file has stands in them."""

from collections.abc import Iterator, Sequence

from dossier.rendering.blocks import Block, Column, Heading, PageBreak, Paragraph, Span, Table
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.filling import Filling
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.text import Text

PITCH = 9.0
SERVICES, COOLANTS, WEEKS, MONTHS = 45, 10, 24, 12
"""Lines of the logs: services of ten years on two sheets, coolant and alarms on one, fuel on one."""
MOST_ALARMS = 5
FIRST = "10.1"
"""Number of the part that stands under the heading of the section."""


def logs(draft: Draft, number: str) -> Iterator[Block]:
    """All logs, one after another."""
    words = draft.words
    yield Heading(2, words("records.logs_title"), key="logs", number=number, new_sheet=number != FIRST)
    yield Paragraph(words("records.logs"))
    yield _services(draft)
    yield PageBreak()
    yield _coolant(draft)
    yield _alarms(draft)
    yield PageBreak()
    yield _fuel(draft)


def _log(  # noqa: PLR0913, PLR0917 - a table of the logs
    draft: Draft,
    name: str,
    columns: Sequence[tuple[str, str, float | None]],
    entered: Sequence[Sequence[Cell]],
    lines: int,
    notes: Text = "",
) -> Table:
    """A ruled table with what is entered already on its first lines."""
    blank = [[""] * len(columns)] * max(0, lines - len(entered))
    return Table(
        [
            Column(draft.words(f"records.column_{column}"), unit, width=width)
            for column, unit, width in columns
        ],
        [*entered, *blank],
        draft.words(f"records.{name}_caption"),
        key=f"log_{name}",
        notes=notes,
        span=Span.FULL,
        pitch=PITCH,
    )


def _services(draft: Draft) -> Table:
    records = draft.project.records
    entered: list[Sequence[Cell]] = [
        [
            str(one.date or NOT_APPLICABLE),
            draft.cell(one.hours, "time_hours_whole"),
            NOT_APPLICABLE,
            one.what or NOT_APPLICABLE,
            one.by or NOT_APPLICABLE,
            "",
        ]
        for one in (records.service if records else None) or ()
    ]
    columns = (
        ("date", "", 22.0),
        ("hours", "h", 16.0),
        ("starts", "", 16.0),
        ("what", "", 66.0),
        ("by", "", 22.0),
        ("next", "", 20.0),
    )
    return _log(draft, "service", columns, entered, SERVICES)


def _coolant(draft: Draft) -> Table:
    records, tests = draft.project.records, draft.project.commissioning
    found: list[tuple[str, float | None, float | None]] = []
    if tests and tests.coolant:
        found.append((str(tests.date or NOT_APPLICABLE), tests.coolant.share, tests.coolant.pH))
    later = (records.coolant if records else None) or ()
    found += [(str(one.date or NOT_APPLICABLE), one.share, one.pH) for one in later]
    entered: list[Sequence[Cell]] = [
        [date, draft.cell(share, "share"), draft.cell(acidity, "acidity"), "", "", "", ""]
        for date, share, acidity in found
    ]
    columns = (
        ("date", "", 22.0),
        ("share", draft.numbers.unit("share"), 13.0),
        ("ph", "", 13.0),
        ("level", "", 16.0),
        ("concentrate", draft.numbers.unit("volume"), 26.0),
        ("colour", "", 54.0),
        ("by", "", 18.0),
    )
    notes: Text = ""
    circuit = draft.project.circuit
    mix = circuit.coolant if circuit else None
    if mix and mix.base:
        coolant: Text = draft.words.told(mix.base)
        if mix.share is not None:
            share = draft.said(mix.share, "share")
            coolant = draft.words("records.coolant_said", share=share, base=coolant)
        notes = draft.words("records.coolant_note", coolant=coolant)
    return _log(draft, "coolant", columns, entered, COOLANTS, notes)


def _alarms(draft: Draft) -> Table:
    """A column for each alarm, as far as the sheet has room."""
    words, safety = draft.words, draft.project.safety
    listed = (safety.co_alarms if safety else None) or ()
    alarms = listed[:MOST_ALARMS]
    names: list[Text] = [
        draft.capital(alarm.at) if alarm.at else words("records.alarms_unknown") for alarm in alarms
    ]
    names = names or [words("records.alarms_unknown")] * 3
    dates = ", ".join(
        str(words("records.alarm_date", place=draft.named(alarm.at or ""), date=str(alarm.replace_by)))
        for alarm in alarms
        if alarm.replace_by is not None
    )
    note = words("records.alarm_note", dates=dates) if dates else words("records.alarm_note_undated")
    return Table(
        [
            Column(words("records.column_date"), width=24.0),
            *(Column(name) for name in names),
            Column(words("records.column_remarks"), width=50.0),
        ],
        [[""] * (len(names) + 2)] * MONTHS,
        words("records.alarm_caption"),
        key="log_alarms",
        notes=note,
        span=Span.FULL,
        pitch=PITCH,
    )


def _fuel(draft: Draft) -> Table:
    filling, unit = Filling(draft), draft.numbers.unit
    columns = (
        ("date", "", 22.0),
        ("hours", "h", 16.0),
        ("starts", "", 16.0),
        ("tank", unit("volume_whole"), 22.0),
        ("bunkered", unit("volume_whole"), 18.0),
        ("supply", unit("temperature"), 15.0),
        ("return", unit("temperature"), 15.0),
        ("remarks", "", 38.0),
    )
    ends = {name: filling[name] for name in ("supply_low", "supply_high", "return_low", "return_high")}
    notes = draft.words("records.fuel_note_unknown")
    if all(ends.values()):
        notes = draft.words("records.fuel_note", **ends)
    return _log(draft, "fuel", columns, [], WEEKS, notes)
