"""Rows become objects whose fields bear the names of the columns."""

from dossier.data.commissioning import HoldPoint, WorkPackage
from dossier.data.procedures import MaintenanceTask
from dossier.data.tables import rows
from dossier.data.typed_rows import typed_rows


def test_a_cell_becomes_what_its_field_says():
    first = typed_rows(MaintenanceTask, "maintenance")[0]
    cells = rows("maintenance")[0]
    assert first.number == int(cells["number"])
    assert first.calendar_months == float(cells["calendar_months"])
    assert first.hours is None
    assert cells["hours"] == ""
    assert first.who == (cells["who"],)


def test_lists_of_words_and_of_numbers_are_taken_apart():
    holds = typed_rows(HoldPoint, "hold_points")
    assert holds[0].tests == ()
    assert holds[5].tests == (3, 4, 5, 6)
    assert typed_rows(WorkPackage, "work_packages")[0].done_by == ("owner", "yard")
