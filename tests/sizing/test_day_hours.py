"""The flame hour by hour: counted second by second here, by the ends of the hours in the program."""

from types import SimpleNamespace

import pytest

from dossier.sizing.day_hours import burner_hours

DAY = [(0.0, 600.0), (3000.0, 1200.0), (7200.0, 3600.0), (40000.0, 9000.0), (86000.0, 400.0)]
"""Begin and length: at midnight, over the end of an hour, one hour, over three hours, to the last second."""


def hours_of(runs):
    return burner_hours(SimpleNamespace(runs=lambda: iter(runs)))


def test_the_flame_of_every_hour_is_counted_second_by_second():
    burning = [0] * 24
    for begin, length in DAY:
        for second in range(int(begin), int(begin + length)):
            burning[second // 3600] += 1
    assert [float(hour.burning) for hour in hours_of(DAY)] == pytest.approx(burning)


def test_a_run_lights_in_the_hour_it_begins_in_and_the_flame_of_midnight_was_lit_the_day_before():
    assert {hour.hour: hour.starts for hour in hours_of(DAY) if hour.starts} == {0: 1, 2: 1, 11: 1, 23: 1}


def test_a_flame_that_never_goes_out_burns_all_hours_and_lights_in_none():
    found = hours_of([(0.0, 86400.0)])
    assert [(hour.hour, float(hour.burning), hour.starts) for hour in found] == [
        (n, 3600, 0) for n in range(24)
    ]


def test_what_begins_with_the_end_of_the_day_is_of_its_last_hour():
    (last,) = (hour for hour in hours_of([(86400.0, 0.0)]) if hour.starts)
    assert (last.hour, float(last.burning)) == (23, 0)
