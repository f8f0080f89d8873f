"""Section 10.1: the commissioning sheets, Test 1 to Test 12: what is expected, and boxes for what is read."""

from collections.abc import Iterator, Sequence
from typing import Any

from dossier.checking.stated import stated
from dossier.data.commissioning import CommissioningSheet, SheetLine, commissioning_sheets
from dossier.data.wording import filled, wanted
from dossier.notation import NotAssessed, Real
from dossier.rendering.blocks import (
    Align,
    Answer,
    Blank,
    Block,
    Column,
    FormBox,
    FormRow,
    Heading,
    Note,
    Pair,
    Paragraph,
    Span,
    StopRule,
    Table,
    Together,
)
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.layout.measures import column_width
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.sections.hazards import hazard_panels, side_by_side
from dossier.rendering.sections.records_expected import Expectations, Expected
from dossier.rendering.sections.records_readings import DATE, Readings
from dossier.rendering.text import Markup, Text, strong, text
from dossier.sizing.needs_aboard import needs_met
from dossier.sizing.presets import Preset

NUMBER = Align.NUMBER
BALANCE = 6
"""The test of the flows, which has a line for every valve."""
MEASURED, INSTRUMENT, BY = 38.0, 16.0, 18.0
METHOD, RULES = 72.0, 120.0
"""Widths of what a test is, beside its stop rule, and of the rules of all, beside the date."""
VALVES = ("balancing_valve", "bypass_valve")


def test_key(number: int) -> str:
    """Key of the place where a test stands."""
    return f"test {number}"


class Sheets:
    """The commissioning sheets of one draft."""

    def __init__(self, draft: Draft) -> None:
        self.draft, self.words, self.project = draft, draft.words, draft.project
        self.expectations, self.readings = Expectations(draft), Readings(draft)
        self.aboard = needs_met(draft.project)

    def sheets(self) -> tuple[CommissioningSheet, ...]:
        """Tests of what is aboard."""
        return tuple(sheet for sheet in commissioning_sheets() if wanted(sheet.needs, self.aboard))

    def lines(self, sheet: CommissioningSheet) -> tuple[SheetLine, ...]:
        """Lines of a test for what is aboard."""
        return tuple(line for line in sheet.lines if wanted(line.needs, self.aboard))

    def boxes(self) -> Iterator[tuple[SheetLine, Expected, Blank]]:
        """Every line with what it expects and its box; the flows valve by valve."""
        for sheet in self.sheets():
            for line in self.lines(sheet):
                if line.sheet == BALANCE:
                    for key, expected in self.flows(line):
                        yield line, expected, self.readings.box(line, expected, key, self._unit(line))
                else:
                    expected = self.expectations.of(line)
                    yield line, expected, self.readings.box(line, expected, unit=self._unit(line))

    def flows(self, line: SheetLine) -> Iterator[tuple[str, Expected]]:
        """Keys of the flows to read, and what is expected there."""
        if line.part == "burner":
            for tag in self._tags("burner"):
                yield f"{line.key}.{tag}", self.expectations.of(line)
            return
        tolerance = self.expectations.filling.number("flow_tolerance")
        presets = self._presets()
        for tag in self._tags(*VALVES):
            target = presets[tag].flow if tag in presets else None
            yield f"{line.key}.{tag}", self.expectations.made(line, target, tolerance)

    def _presets(self) -> "dict[str, Preset] | Any":
        ring = self.draft.study.ring
        return {} if isinstance(ring, NotAssessed) else ring.presets

    def _tags(self, *kinds: str) -> list[str]:
        return [tag for tag, part in (self.project.components or {}).items() if part.kind in kinds]

    def _unit(self, line: SheetLine) -> str:
        return self.draft.numbers.unit(line.shown) if line.shown else ""

    def blocks(self, sheet: CommissioningSheet) -> Iterator[Block]:
        """One test: its head, its cautions, how it is made, its lines, who made it."""
        words = self.words
        title = words("records.test_title", number=sheet.number, title=sheet.title)
        yield Together(
            [
                Heading(3, title, key=test_key(sheet.number)),
                *self._rules(sheet),
                self._balance(sheet) if sheet.number == BALANCE else self._table(sheet),
            ],
            whole=True,
        )

    def _rules(self, sheet: CommissioningSheet) -> list[Block]:
        """Cautions, how the test is made, beside it when it stops; a single panel stands beside both."""
        panels = list(hazard_panels(self.draft, sheet.cautions))
        how: list[Block] = [
            Paragraph(sheet.method),
            StopRule(self.words("maintenance.stop_rule"), sheet.stop_rule),
        ]
        if len(panels) == 1:
            return [Pair(panels, how)]
        return [
            *side_by_side(panels, column_width(self.draft.paper, Span.FULL)),
            Pair(how[:1], how[1:], METHOD),
        ]

    def read(self) -> Table:
        """Every reading that was entered, with what was expected and how it compares."""
        words, rows = self.words, list[Sequence[Cell]]()
        for line, expected, box in self.boxes():
            if box.entered:
                where = box.field.rpartition(".")[2] if line.sheet == BALANCE else ""
                what = text(filled(line.what, self.expectations.filling), f" {where}" if where else "")
                verdict = strong(box.below) if box.marked else box.below
                rows.append([str(line.sheet), what, expected.words, box.entered, verdict])
        heads = (
            ("records.test", 10.0),
            ("maintenance.column_what", 52.0),
            ("maintenance.column_expected", 44.0),
            ("maintenance.column_measured", 30.0),
        )
        return Table(
            [*(Column(words(head), width=wide) for head, wide in heads), Column(words("records.compares"))],
            rows,
            words("records.readings_caption"),
            key="table_readings",
            span=Span.FULL,
        )

    def _notes(self, sheet: CommissioningSheet) -> Markup:
        """Which hold point waits for the test, and what it rests on."""
        basis = self.words("records.basis", source=sheet.source)
        return text(self.words("maintenance.waits_for", hold=sheet.hold), " ", basis)

    def _table(self, sheet: CommissioningSheet) -> Table:
        words = self.words
        rows: list[Sequence[Cell]] = []
        for line in self.lines(sheet):
            expected = self.expectations.of(line)
            box = self.readings.box(line, expected, unit=self._unit(line))
            what = filled(line.what, self.expectations.filling)
            rows.append([", ".join(self._tags(line.part)[:2]), what, expected.words, box, Blank(), Blank()])
        return Table(
            [
                Column(words("overview.tag"), width=8.0, strong=True),
                Column(words("maintenance.column_what"), width=40.0),
                Column(words("maintenance.column_expected"), width=42.0),
                Column(words("maintenance.column_measured"), width=MEASURED),
                Column(words("maintenance.column_instrument"), width=INSTRUMENT, wide_only=True),
                Column(words("maintenance.column_signed"), width=BY, wide_only=True),
            ],
            rows,
            notes=self._notes(sheet),
            span=Span.FULL,
            plain=True,
        )

    def _balance(self, sheet: CommissioningSheet) -> Table:
        """The valves with their settings, and the burner."""
        words, numbers = self.words, self.draft.numbers
        rows: list[Sequence[Cell]] = []
        for line in self.lines(sheet):
            for key, expected in self.flows(line):
                tag = key.rpartition(".")[2]
                box = self.readings.box(line, expected, key, self._unit(line))
                rows.append([tag, *self._setting(tag, line), expected.words, box, Blank()])
        if not rows:
            rows.append(["", words("records.no_valves"), "", "", "", "", Blank(), Blank()])
        return Table(
            [
                Column(words("overview.tag"), width=8.0, strong=True),
                Column(words("records.branch"), width=19.0),
                Column(words("records.set_to"), numbers.unit("flow_factor"), NUMBER, width=10.5),
                Column(words("records.turns"), "", NUMBER, width=9.5, wide_only=True),
                Column(
                    words("records.cools_by"), numbers.unit("temperature_difference_fine"), Align.CENTRE, 14.0
                ),
                Column(words("maintenance.column_expected"), width=36.0),
                Column(words("maintenance.column_measured"), width=MEASURED),
                Column(words("maintenance.column_signed"), width=BY, wide_only=True),
            ],
            rows,
            notes=text(words("records.balance_notes"), " ", self._notes(sheet)),
            span=Span.FULL,
            plain=True,
        )

    def _setting(self, tag: str, line: SheetLine) -> tuple[Text, Text, Text, Text]:
        """Branch, flow factor to set, turns, cooling of the water."""
        if line.part == "burner":
            return self.words("records.burner"), NOT_APPLICABLE, NOT_APPLICABLE, NOT_APPLICABLE
        preset = self._presets().get(tag)
        if preset is None:
            return NOT_APPLICABLE, NOT_APPLICABLE, NOT_APPLICABLE, NOT_APPLICABLE
        kv: Text = self.draft.cell(preset.kv, "flow_factor")
        if preset.is_open:
            kv = self.words("records.open")
        turns = self._cell(preset.turns, "tenths")
        cooling = self._cell(preset.drop, "temperature_difference_fine")
        return self.draft.capital(preset.branch), kv, turns, cooling

    def _cell(self, value: Real | None, kind: str) -> str:
        return self.draft.cell(value, kind)


def commissioning(draft: Draft, number: str) -> Iterator[Block]:
    """All sheets, headed by what was read so far."""
    words, sheets = draft.words, Sheets(draft)
    yield Heading(2, words("maintenance.tests_title"), key="commissioning", number=number)
    boxes = [(box, expected) for _, expected, box in sheets.boxes()]
    entered = [box for box, _ in boxes if box.entered]
    outside = [box for box in entered if box.marked]
    date = stated(draft.project, DATE)
    if entered:
        yield Answer(
            words("records.answer", count=len(entered), date=str(date or ""), outside=len(outside)),
            words("records.answer_empty", count=len(boxes) - len(entered)),
        )
    elif draft.edition == "survey":
        yield Note(words("records.no_reading", keys=draft.keys(("commissioning",))))
        return
    if draft.edition == "survey":
        yield sheets.read()
        return
    rules = [Paragraph(words("maintenance.tests"))]
    if entered:
        rules.append(Paragraph(words("records.frames")))
    if date is None:
        yield Pair(rules, [FormRow([FormBox(words("records.date_of_tests"), field=DATE)])], RULES)
    else:
        yield from rules
    for sheet in sheets.sheets():
        yield from sheets.blocks(sheet)
