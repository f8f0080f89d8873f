"""Section 8: the leaves to laminate: start and stop, how the valves stand, what the gauges read."""

from collections.abc import Iterator, Sequence

from dossier.checking.finding import Status
from dossier.data.catalogue import Severity
from dossier.data.procedures import NormalReading, normal_readings, procedures, stop_rules
from dossier.notation import NotAssessed
from dossier.rendering.blocks import (
    Block,
    Bullets,
    Cell,
    Column,
    Heading,
    NewSheet,
    Note,
    Panel,
    SignalWord,
    Span,
    StopRule,
    Table,
)
from dossier.rendering.numbers import Judged, Limits
from dossier.rendering.sections.aboard_steps import steps
from dossier.rendering.sections.crew import Crew
from dossier.rendering.sections.finding_words import FindingWords
from dossier.rendering.sections.valve_plan import PlanRow, Stand, ValvePlan, valve_plan
from dossier.rendering.text import Text, line_break, page_of, strong, text

MODES_ACROSS = {"A5": 3}
"""Modes that the leaf has columns for, where it is not five."""


def start_and_stop(crew: Crew) -> Iterator[Block]:
    """One leaf: when to stop at once, how to start, how to stop."""
    words = crew.words
    yield NewSheet(leaf=True)
    yield Heading(2, words("aboard.start_title"), key="start_and_stop")
    yield from _dangers(crew)
    for name in ("start", "stop"):
        found = procedures()[name]
        yield Heading(3, words.told(found.title), key=f"procedure_{name}")
        yield from steps(crew, found, checkbox=False)
    rules = [crew.said(rule.rule) for rule in stop_rules() if crew.has(rule.needs)]
    yield Heading(3, words("aboard.stop_rules"), key="stop_rules")
    yield Bullets(rules)


def _dangers(crew: Crew) -> Iterator[Block]:
    """A burner with dangers that nobody put right is not started from a page that hides them."""
    words, draft = crew.words, crew.draft
    if draft.project.safety is not None and draft.project.safety.co_alarms == ():
        yield StopRule(words("maintenance.stop"), words("safety.alarm_first"))
    found = [
        finding
        for finding in draft.assessment.findings
        if finding.severity is Severity.DANGER and finding.status is Status.NOT_MET
    ]
    if not found:
        return
    number = FindingWords(draft).numeral(len(found), capital=True)
    yield Panel(
        SignalWord.DANGER,
        words("aboard.dangers", count=len(found), count_words=number),
        words("aboard.dangers_mean"),
        words("aboard.dangers_first", page=page_of("findings")),
        embedded=True,
    )


def valves(crew: Crew) -> Iterator[Block]:
    """The other side of the leaf: how each valve stands in each mode."""
    words, draft = crew.words, crew.draft
    plan = valve_plan(draft)
    bare = isinstance(plan, NotAssessed) or not plan.rows
    if not bare:
        yield NewSheet(leaf=True)
    yield Heading(2, words("aboard.valves_title"), key="valve_positions")
    if isinstance(plan, NotAssessed):
        yield Note(draft.needs(plan))
        return
    if bare:
        yield Note(words("valve_plan.no_valves"))
        return
    across = MODES_ACROSS.get(draft.paper, 5)
    for first in range(0, len(plan.modes), across):
        yield _positions(crew, plan, first, first + across)


def _positions(crew: Crew, plan: ValvePlan, first: int, beyond: int) -> Table:
    """Some modes side by side; what is shut or off is set strong."""
    words, draft = crew.words, crew.draft
    return Table(
        [
            Column(words("valve_plan.part"), strong=True),
            *(Column(draft.capital(mode)) for mode in plan.modes[first:beyond]),
        ],
        [
            [
                _tag(crew, row),
                *(_stands(crew, row, place) for place in range(first, min(beyond, len(plan.modes)))),
            ]
            for row in plan.rows
        ],
        words("valve_plan.caption"),
        key=f"table_valve_positions{first or ''}",
        notes=words("valve_plan.notes") if beyond >= len(plan.modes) else "",
        span=Span.FULL,
    )


def _tag(crew: Crew, row: PlanRow) -> Text:
    """The tag over the branch it lies in; on the ring over what it is."""
    below = crew.draft.named(row.where) or crew.words(f"overview.kind_{row.kind}")
    return text(row.tag, line_break(), below)


def _stands(crew: Crew, row: PlanRow, place: int) -> Text:
    """How a part stands in one mode."""
    position = row.positions[place]
    if position.stand is Stand.UNKNOWN:
        return crew.not_known(position.said)
    if position.stand in {Stand.SHUT, Stand.OFF}:
        return strong(position.said.upper())
    return position.said


def readings(crew: Crew) -> Iterator[Block]:
    """One leaf: what each gauge shows cold, warming up and steady, and when to stop."""
    words = crew.words
    yield NewSheet(leaf=True)
    yield Heading(2, words("maintenance.readings_title"), key="normal_readings")
    rows = [_reading(crew, row) for row in normal_readings() if crew.has(row.needs)]
    yield Table(
        [
            Column(words("maintenance.column_what")),
            *(
                Column(words(f"maintenance.column_{name}"), wide_only=True)
                for name in ("where", "cold", "warming_up")
            ),
            Column(words("maintenance.column_steady")),
            Column(words("maintenance.column_stop_if"), strong=True),
        ],
        rows,
        words("maintenance.readings"),
        key="table_readings",
        span=Span.FULL,
    )
    yield from _beyond(crew)


def _reading(crew: Crew, row: NormalReading) -> Sequence[Cell]:
    where = crew.said(row.where)
    named = strong(crew.words.told(row.what))
    what: Text = text(named, line_break(), where) if crew.narrow else named
    return [what, where, *(crew.said(cell) for cell in (row.cold, row.warming_up, row.steady, row.stop_if))]


def _beyond(crew: Crew) -> Iterator[Block]:
    """Where a check of what the table says is not met, the reader of the table is told."""
    filling = crew.filling
    missed = {f.check: f for f in crew.draft.assessment.findings if f.status is Status.NOT_MET}
    for check, name, word, shown in BEYOND:
        finding = missed.get(check)
        if finding is not None and isinstance(finding.found, float) and isinstance(finding.bound, float):
            figures = (finding.found, finding.bound, shown, Limits.MAXIMUM)
            yield _panel(crew, word, name, crew.draft.numbers.judged(*figures, both=True))
    voltage, least = filling.number("start_voltage"), filling.number("lowest_voltage")
    if "electrics.drop_start" not in missed or voltage is None or least is None:
        return
    if float(voltage) < float(least):
        judged = crew.draft.numbers.judged(float(voltage), float(least), "voltage", Limits.MINIMUM, both=True)
        yield _panel(crew, SignalWord.NOTICE, "voltage", judged)


BEYOND = (
    ("tap_water.outlet_max", "tap", SignalWord.WARNING, "temperature"),
    ("store.starts_hour", "starts", SignalWord.NOTICE, "per_hour"),
)
"""Checks of what the table says: which words tell of a miss, how grave, and the kind of number."""


def _panel(crew: Crew, word: SignalWord, name: str, judged: Judged) -> Panel:
    """What was found, rounded to its worse side as among the findings, and its limit."""
    words = crew.words
    return Panel(
        word,
        words(f"aboard.beyond_{name}", found=judged.found, limit=judged.limit),
        words(f"aboard.beyond_{name}_means"),
        words(f"aboard.beyond_{name}_do"),
        embedded=True,
    )
