"""Section 8: what the crew looks at every day and every week, taken from the maintenance schedule."""

from collections.abc import Iterator, Sequence

from dossier.data.procedures import MaintenanceTask, maintenance
from dossier.rendering.blocks import Block, Cell, Column, Heading, Table
from dossier.rendering.sections.crew import Crew
from dossier.rendering.text import strong

MONTH = 1.0


def looks(crew: Crew) -> Iterator[Block]:
    """Tasks that come round within a month."""
    words = crew.words
    yield Heading(2, words("aboard.looks_title"), key="looks")
    tasks = [task for task in maintenance() if task.calendar_months <= MONTH and crew.has(task.applies_if)]
    yield Table(
        [
            Column(words("aboard.looks_when")),
            Column(words("aboard.looks_what")),
            Column(words("maintenance.column_reading")),
        ],
        [_row(crew, task) for task in sorted(tasks, key=lambda task: task.calendar_months)],
        words("aboard.looks_caption"),
        key="table_looks",
    )


def _row(crew: Crew, task: MaintenanceTask) -> Sequence[Cell]:
    return [strong(crew.words.told(task.calendar)), crew.said(task.task), crew.said(task.good_reading)]
