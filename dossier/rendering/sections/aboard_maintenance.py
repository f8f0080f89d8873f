"""Section 8: the maintenance schedule, each task with the day it falls due in this boat."""

import math
from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Answer, Block, Cell, Column, Heading, Paragraph, Span, Table
from dossier.rendering.sections.crew import Crew
from dossier.rendering.text import Text, line_break, own, strong, text
from dossier.sizing.service_due import SERVICE, TaskDue, tasks_due

PANELS = ("hot_parts", "stored_tap_water", "fan_blades", "short_circuit")
HOUR = 3600.0
LEAST_MONTHS = 1.0
"""Tasks that come round sooner bear no date."""
DAYS_A_MONTH, WEEK = 365.25 / 12, 7.0
IN_MONTHS, IN_WEEKS = 6 * DAYS_A_MONTH, 2 * WEEK
"""Days from which a time is told in months, and from which in weeks; never rounded up."""


def schedule(crew: Crew, number: str = "") -> Iterator[Block]:
    """When the burner is next serviced, then all tasks of what is aboard.

    With a ``number`` it stands alone, for readers who look at the schedule and do not work by it.
    """
    words, draft = crew.words, crew.draft
    yield Heading(
        2, words("maintenance.schedule_title"), key="maintenance", number=number, new_sheet=not number
    )
    due = [task for task in tasks_due(draft.project, draft.study.season) if crew.has(task.task.applies_if)]
    yield from _service(crew, due)
    yield Paragraph(words("maintenance.schedule"))
    yield from _season(crew)
    if not number:
        yield from crew.panels(PANELS)
    yield Table(
        [
            Column("", strong=True),
            Column(words("maintenance.column_task"), width=None if crew.narrow else 72.0),
            Column(words("aboard.column_when"), width=None if crew.narrow else 36.0),
            Column(words("maintenance.column_reading")),
            Column(words("maintenance.column_next")),
        ],
        [_row(crew, task) for task in due],
        words("aboard.maintenance_caption"),
        key="table_maintenance",
        notes=words("aboard.maintenance_notes"),
        span=Span.FULL,
    )


def _service(crew: Crew, due: Sequence[TaskDue]) -> Iterator[Block]:
    """The next service of the burner, which everybody asks for."""
    found = next((task for task in due if task.task.task.startswith(SERVICE)), None)
    if found is None:
        return
    words = crew.words
    if found.due is None:
        yield Answer(words("aboard.service_unknown", number=found.task.number))
        return
    yield Answer(
        words("aboard.service_due", date=str(found.due)),
        words("aboard.service_since", number=found.task.number, since=str(found.since)),
    )


def _season(crew: Crew) -> Iterator[Block]:
    season, draft = crew.draft.study.season, crew.draft
    if isinstance(season, NotAssessed):
        return
    yield Paragraph(
        crew.words(
            "aboard.season",
            hours=draft.cell(season.running_time, "time_hours_whole"),
            starts="" if season.starts is None else draft.cell(season.starts, "count"),
        )
    )


def _row(crew: Crew, due: TaskDue) -> Sequence[Cell]:
    task, words = due.task, crew.words
    what: list[Text] = [strong(crew.said(task.task))]
    between: Text = line_break()
    if task.tools != "none":
        what += [between, words("aboard.with"), own(" "), crew.said(task.tools)]
        between = own(". ")
    if not task.hazard.startswith("None"):
        what += [between, words("aboard.hazard"), own(" "), crew.said(task.hazard)]
    when: list[Text] = [crew.said(task.calendar)]
    if task.hours is not None:
        when += [line_break(), _by_hours(crew, due)]
    when += [own("; "), ", ".join(words.told(who) for who in task.who)]
    return [str(task.number), text(*what), text(*when), crew.said(task.good_reading), _next(due)]


def _by_hours(crew: Crew, due: TaskDue) -> Text:
    """The running hours, and how soon they are reached where that is sooner than the calendar."""
    words = crew.words
    hours = crew.draft.cell((due.task.hours or 0.0) * HOUR, "time_hours_whole")
    months = due.months
    if months is None or months >= due.task.calendar_months:
        return words("aboard.or_hours", hours=hours)
    days = math.floor(months * DAYS_A_MONTH)
    for name, span, least in (("months", DAYS_A_MONTH, IN_MONTHS), ("weeks", WEEK, IN_WEEKS)):
        if days >= least:
            return words(f"aboard.or_hours_{name}", hours=hours, count=math.floor(days / span))
    return words("aboard.or_hours_days", hours=hours, count=max(days, 1))


def _next(due: TaskDue) -> Text:
    """The date; nothing for what comes round within a month, and to write in where none is known."""
    if due.task.calendar_months < LEAST_MONTHS or due.due is None:
        return ""
    return str(due.due)
