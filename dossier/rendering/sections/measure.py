"""Sheets to carry aboard: what is missing or assumed, and how each input is measured."""

from collections.abc import Iterator, Mapping, Sequence

from dossier.data.measuring import MeasuringSheet, measuring_sheets
from dossier.rendering.blocks import (
    Align,
    Answer,
    Block,
    Bullets,
    Column,
    FormBox,
    FormRow,
    Heading,
    Note,
    Paragraph,
    Span,
    Table,
    Together,
    WritingLines,
)
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.sections.finding_words import FindingWords
from dossier.rendering.sections.hazards import hazard_panels, side_by_side
from dossier.rendering.sections.measure_inputs import Asked, Inputs, inputs
from dossier.rendering.sections.measure_lines import lines
from dossier.rendering.sections.measure_runs import RUNS, runs
from dossier.rendering.sections.measure_tables import Form, forms_of, grids
from dossier.rendering.text import Text, page_of, severity_blocks, strong, text

TESTS = "commissioning"
DANGER = 0
ALWAYS = ("hot_parts", "closed_spaces")
"""Panels for everybody who measures aboard."""


def sheet_key(name: str) -> str:
    """Key of the place where a sheet stands."""
    return f"measure {name}"


def section(draft: Draft) -> Iterator[Block]:
    """How to measure, the sheets in their order, then each sheet."""
    words, found = draft.words, inputs(draft)
    sheets = found.sheets()
    yield Heading(1, words("measure.title"), key="measure", numbered=False)
    yield _answer(draft, found, sheets)
    yield from side_by_side(list(hazard_panels(draft, ALWAYS)))
    yield Heading(3, words("measure.rules_title"))
    yield Bullets(words.lines("measure.rules"))
    fields = ("date", "place", "loading")
    yield FormRow([FormBox(words(f"measure.box_{name}"), field=f"inspection.{name}") for name in fields])
    yield WritingLines(1, words("measure.instruments"))
    if sheets:
        yield _list(draft, sheets)
    yield from _elsewhere(draft, found)
    for number, (name, asked) in enumerate(sheets.items(), 1):
        yield from _sheet(draft, number, measuring_sheets()[name], asked)


def _answer(draft: Draft, found: Inputs, sheets: Mapping[str, Sequence[Asked]]) -> Answer:
    words = draft.words
    if not found.asked:
        return Answer(words("measure.nothing"))
    grave = sum(each.grade == DANGER for each in found.asked)
    first = measuring_sheets()[next(iter(sheets))].title
    return Answer(
        words("measure.answer", count=len(found.asked), grave=grave),
        words("measure.answer_first", sheet=first),
    )


def _list(draft: Draft, sheets: Mapping[str, Sequence[Asked]]) -> Table:
    words = draft.words
    rows: list[Sequence[Cell]] = []
    for number, (name, asked) in enumerate(sheets.items(), 1):
        grave = sum(each.grade == DANGER for each in asked)
        rows.append(
            [
                str(number),
                strong(measuring_sheets()[name].title),
                str(len(asked)),
                str(grave),
                page_of(sheet_key(name)),
            ]
        )
    return Table(
        [
            Column(words("measure.column_sheet"), width=12.0),
            Column(words("measure.column_group"), width=60.0),
            Column(words("measure.column_inputs"), align=Align.NUMBER, width=16.0),
            Column(words("measure.column_grave"), align=Align.NUMBER, width=16.0),
            Column(words("measure.column_page"), align=Align.NUMBER, width=12.0),
        ],
        rows,
        words("measure.list_caption"),
        key="table_measuring_sheets",
        notes=words("measure.list_notes"),
        span=Span.TEXT,
    )


def _elsewhere(draft: Draft, found: Inputs) -> Iterator[Block]:
    """What waits for tests, and what is written at the desk."""
    tests = [key for key in found.elsewhere if key.partition(".")[0] == TESTS]
    desk = [key for key in found.elsewhere if key not in tests]
    if desk:
        yield Note(draft.words("measure.desk", keys=", ".join(desk)))
    if tests:
        yield Note(draft.words("measure.tests", count=len(tests)))


def _sheet(draft: Draft, number: int, sheet: MeasuringSheet, asked: Sequence[Asked]) -> Iterator[Block]:
    """One sheet: cautions, how, tables and grids, then line after line."""
    words = draft.words
    title = words("measure.sheet", number=number, title=sheet.title)
    yield Heading(2, title, key=sheet_key(sheet.sheet), numbered=False, new_sheet=True)
    yield from side_by_side(list(hazard_panels(draft, sheet.cautions)))
    yield Paragraph(sheet.instruction)
    forms = [form for form in forms_of(draft, sheet.extra, asked) if form.asked]
    if "runs" in sheet.extra:
        yield from runs(draft, [each for each in asked if each.key.pattern.startswith(RUNS)])
        asked = [each for each in asked if not each.key.pattern.startswith(RUNS)]
    for form in forms:
        yield from _form(draft, form)
    told = {each.key.key for form in forms for each in form.asked}
    rest = [each for each in asked if each.key.key not in told]
    if rest:
        yield lines(draft, sheet, rest)
    yield from grids(draft, sheet.extra)


def _form(draft: Draft, form: Form) -> Iterator[Block]:
    """A blank table, and under it what it is for."""
    said = FindingWords(draft)
    notes: list[Text] = []
    for each in form.asked:
        notes += [" " if notes else "", strong(each.key.key), ": ", each.how.how]
        if each.now:
            notes += [" ", draft.words("measure.now", now=each.now)]
        grave = [said.number(f) for f in each.findings if f.severity.rank == DANGER]
        if grave:
            waits = draft.words("measure.waits", count=len(grave), numbers=", ".join(grave))
            notes += [" ", severity_blocks("danger"), " ", waits]
    for head, choices in form.choices:
        notes += [" ", strong(head), ": ", draft.words("measure.one_of", choices=", ".join(choices))]
    yield Together([form.table, Note(text(*notes))])
