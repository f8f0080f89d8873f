"""Dates of records against the date of the document; the clock is never read.

A month stands for its day that flatters least: an end for its first, an age for its first, the document's own
date for its last.
"""

import datetime as dt
from typing import TYPE_CHECKING, Any

from dossier.checking.stated import stated
from dossier.data.procedures import maintenance
from dossier.sizing.service_due import months_after

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model import Date

__all__ = ["age", "interval_of", "lies_ahead", "months_after", "today"]

DATE = "document.date"
SECONDS = 86400.0


def today(project: "Project") -> dt.date | None:
    """Date of the document, None where it states none."""
    date: Any = stated(project, DATE)
    return None if date is None else date.last


def age(date: "Date", now: dt.date) -> float:
    """Time (s) from a date to another; negative where it lies ahead."""
    return (now - date.first).days * SECONDS


def lies_ahead(date: "Date", now: dt.date) -> bool:
    """Whether a date lies after another."""
    return date.first > now


def interval_of(task: str) -> tuple[int, float | None]:
    """Interval of a task of the maintenance schedule: months, and running hours where it has any."""
    found = next(row for row in maintenance() if row.task.startswith(task))
    return round(found.calendar_months), found.hours
