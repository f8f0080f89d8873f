"""When is each task of the maintenance schedule due: by the calendar, and by the hours the burner runs?

Hours are counted month by month as the season has them, from the last service or the commissioning on.
"""

import datetime as dt
from calendar import monthrange
from typing import TYPE_CHECKING, Annotated

from dossier.data.procedures import MaintenanceTask, maintenance
from dossier.notation import NotAssessed, Real, q
from dossier.notation.records import dataclass
from dossier.sizing.season import Season

if TYPE_CHECKING:
    from dossier.project import Project

MONTHS = 12
DAYS = 365.25
HOUR = 3600.0
LONGEST = 50
"""Years within which a task by hours must fall due to be given a date."""
SERVICE = "Service the burner"
BY_ENGINE = "recovery_exchanger"
"""Need of the tasks whose hours are those of the engine."""


def months_after(date: dt.date, months: int) -> dt.date:
    """The same day some months later, or the last day of that month.

    >>> months_after(dt.date(2026, 1, 31), 1)
    datetime.date(2026, 2, 28)
    """
    count = date.year * MONTHS + date.month - 1 + months
    year, month = count // MONTHS, count % MONTHS + 1
    return dt.date(year, month, min(date.day, monthrange(year, month)[1]))


@dataclass(frozen=True)
class TaskDue:
    """A task with the dates on which it falls due; ``since`` is when it was last known to be done.

    ``by_hours`` is None for a task without hours, and where the season is not known.
    """

    task: MaintenanceTask
    since: dt.date | None
    hours_a_year: Annotated[Real | None, q("t", "s", "running time in a year")]
    by_calendar: dt.date | None
    by_hours: dt.date | None

    @property
    def due(self) -> dt.date | None:
        """The earlier of both dates."""
        return min((date for date in (self.by_calendar, self.by_hours) if date is not None), default=None)

    @property
    def months(self) -> float | None:
        """Months from one time to the next by the hours alone; None where they do not count."""
        if self.task.hours is None or self.hours_a_year is None or float(self.hours_a_year) <= 0:
            return None
        return MONTHS * self.task.hours * HOUR / float(self.hours_a_year)


def tasks_due(project: "Project", season: Season | NotAssessed) -> tuple[TaskDue, ...]:
    """All tasks with the dates on which they fall due; tasks of parts that are not aboard are among them."""
    burner = {} if isinstance(season, NotAssessed) else {m.month: m.running_time for m in season.months}
    rows = (project.conditions.months if project.conditions else None) or ()
    engine = {
        int(row.month): float(row.engine_hours or 0.0) + float(row.generator_hours or 0.0) for row in rows
    }
    total = None if isinstance(season, NotAssessed) else season.running_time
    found = []
    for task in maintenance():
        since = _since(project, serviced=task.task.startswith(SERVICE))
        by_engine = task.applies_if == BY_ENGINE
        hours = engine if by_engine else burner
        in_a_year = (sum(engine.values()) if engine else None) if by_engine else total
        by_calendar = by_hours = None
        if since is not None:
            by_calendar = _by_calendar(since, task.calendar_months)
            if task.hours is not None:
                by_hours = _by_hours(since, task.hours * HOUR, hours)
        found.append(TaskDue(task, since, None if task.hours is None else in_a_year, by_calendar, by_hours))
    return tuple(found)


def _since(project: "Project", *, serviced: bool) -> dt.date | None:
    """Last service of the burner on record; for other tasks and a burner not yet serviced, commissioning."""
    kept = (project.records.service if project.records else None) or ()
    services = [entry.date.first for entry in kept if entry.date is not None]
    if serviced and services:
        return max(services)
    tested = project.commissioning.date if project.commissioning else None
    return tested.first if tested is not None else None


def _by_calendar(since: dt.date, months: float) -> dt.date:
    if months == round(months):
        return months_after(since, round(months))
    return since + dt.timedelta(days=max(round(months * DAYS / MONTHS), 1))


def _by_hours(
    since: dt.date, interval: float, by_month: "dict[int, Real] | dict[int, float]"
) -> dt.date | None:
    """Day on which a running time (s) is reached; None where it is not within fifty years."""
    left, day = interval, since
    if sum(float(time) for time in by_month.values()) * LONGEST < interval:
        return None
    while True:
        length = monthrange(day.year, day.month)[1]
        a_day = float(by_month.get(day.month, 0.0)) / length
        rest = length - day.day + 1
        if a_day * rest >= left:
            return day + dt.timedelta(days=min(int(left / a_day), rest - 1))
        left -= a_day * rest
        day += dt.timedelta(days=rest)
