"""Tasks by calendar and by running hours; intervals are those of the maintenance schedule."""

import datetime as dt

import pytest

from dossier.assessment import assess
from dossier.sizing.service_due import months_after, tasks_due
from dossier.sizing.study import study
from tests.demonstrations import studied
from tests.sizing.boats_of_the_year import box

SERVICED = "records: {service: [{date: 2027-09-01, hours: 610 h, by: The technician}]}"
COMMISSIONED = "commissioning: {date: 2026-11-04}"
EVEN = ", ".join(f"{{month: {n}, outside_air: 0 degC}}" for n in range(1, 13))


def due(folder, rest, burner="max: 5 kW"):
    """Tasks of a box at 0 °C all the year; its burner runs 40 % of the time."""
    found = study(box(folder, f"inner_gains: 0 W, months: [{EVEN}]", output=burner, rest=rest))
    return {each.task.number: each for each in tasks_due(found.project, found.season)}, found.season


def test_a_service_falls_due_by_the_hours_where_they_come_first(tmp_path):
    tasks, year = due(tmp_path, SERVICED)
    service = tasks[21]
    # 5 kW burner, 2 kW load: 9.6 h a day; 1000 h are 104 days and 4 h
    assert year.running_time == pytest.approx(0.4 * 365 * 86400)
    assert service.since == dt.date(2027, 9, 1)
    assert service.by_hours == dt.date(2027, 9, 1) + dt.timedelta(days=104)
    assert service.by_calendar == dt.date(2028, 9, 1)
    assert service.due == service.by_hours
    assert service.months == pytest.approx(12 * 1000 / 3504)


def test_by_the_calendar_where_the_burner_runs_little(tmp_path):
    tasks, _ = due(tmp_path, SERVICED, burner="max: 50 kW")
    assert tasks[21].due == tasks[21].by_calendar == dt.date(2028, 9, 1)
    assert tasks[21].by_hours > dt.date(2028, 9, 1)


def test_other_tasks_count_from_the_commissioning(tmp_path):
    tasks, _ = due(tmp_path, f"{COMMISSIONED}\n{SERVICED}")
    assert tasks[19].since == dt.date(2026, 11, 4)
    assert tasks[19].by_calendar == dt.date(2027, 11, 4)
    assert tasks[3].by_calendar == dt.date(2026, 11, 11)
    assert tasks[20].by_hours is None


def test_without_a_date_on_record_nothing_is_due(tmp_path):
    tasks, _ = due(tmp_path, "")
    assert all(each.due is None for each in tasks.values())
    assert tasks[21].months == pytest.approx(12 * 1000 / 3504)


def test_a_task_of_the_engine_counts_its_hours():
    found = studied("northern_quill")
    tasks = {each.task.number: each for each in tasks_due(found.project, found.season)}
    generator = sum(float(row.generator_hours) for row in found.project.conditions.months)
    assert tasks[33].hours_a_year == pytest.approx(generator)
    assert tasks[33].by_hours is not None


def test_hours_that_are_never_reached_give_no_date(tmp_path):
    conditions = "months: [{month: 7, outside_air: 30 degC}]"
    found = study(box(tmp_path, conditions, rest=COMMISSIONED))
    tasks = {each.task.number: each for each in tasks_due(found.project, found.season)}
    assert tasks[21].by_hours is None
    assert tasks[21].months is None


def test_without_a_season_the_calendar_remains(tmp_path):
    found = study(box(tmp_path, "wind: 4 m/s", rest=COMMISSIONED))
    tasks = {each.task.number: each for each in tasks_due(found.project, found.season)}
    assert tasks[21].due == dt.date(2027, 11, 4)


def test_the_same_day_some_months_later():
    assert months_after(dt.date(2027, 1, 31), 1) == dt.date(2027, 2, 28)
    assert months_after(dt.date(2027, 12, 15), 13) == dt.date(2029, 1, 15)


@pytest.mark.parametrize(("celsius", "status"), [(0, "not met"), (18, "met")])
def test_the_check_of_the_service_counts_the_hours_of_the_season(tmp_path, celsius, status):
    # 15 May to 20 November 2026 are 189 days; at 0 °C the burner of the box runs 9.6 h a day, at 18 °C 1 h
    even = ", ".join(f"{{month: {n}, outside_air: {celsius} degC}}" for n in range(1, 13))
    rest = "records: {service: [{date: 2026-05-15, hours: 0 h, by: The technician, what: nozzle}]}"
    found = assess(box(tmp_path, f"inner_gains: 0 W, months: [{even}]", rest=rest))
    finding = next(f for f in found.findings if f.check == "document.service_due")
    assert str(finding.status) == status
