"""The year: heat, fuel, running hours and starts.

Litres of the demonstration boats are those of the independent calculation made for them (rooms alone, gains
400 W, wind 4 m/s), within the quarter that it claims. The box loses 100 W/K, so its sums are arithmetic.
"""

from dataclasses import replace
from time import perf_counter

import numpy as np
import pytest

from dossier.notation import NotAssessed, lines_behind, named_results
from dossier.project.model.conditions import Weather
from dossier.sizing.heat_loss import heat_loss
from dossier.sizing.season import season
from dossier.sizing.season_year import DAYS
from dossier.sizing.study import study
from tests.demonstrations import studied
from tests.sizing.boats_of_the_year import UA, box

HOUR = 3600.0
NO_GAINS = "inner_gains: 0 W, "
LITRE = 0.001
HEAT_OF_A_LITRE = 42.6e6 * 0.84
"""J; gas oil of 42.6 MJ/kg and 0.84 kg/l, common practice, no source."""


def months(*rows):
    return "months: [" + ", ".join("{" + row + "}" for row in rows) + "]"


def year(folder, conditions, **parts):
    return study(box(folder, conditions, **parts)).season


def weather(celsius, wind=4.0):
    return Weather("weather", tuple(float(t) + 273.15 for t in celsius), (float(wind),) * len(celsius))


def hours_of(found, air, **changes):
    """The season of a study with hourly air in the place of its months'."""
    project = found.project
    held = project.conditions.model_copy(update={"weather": air, **changes})
    there = project.model_copy(update={"conditions": held})
    return season(there, found.heat_loss, found.fuel, found.ring, found.store, found.recovery)


@pytest.mark.parametrize(
    ("boat", "cubic_metres"),
    [("lantern_auk", 0.9), ("northern_quill", 3.2), ("barley_moth_b", 1.1)],
)
def test_fuel_of_a_year_of_the_demonstration_boats(boat, cubic_metres):
    found = studied(boat).season
    before_recovery = found.fuel + found.fuel_saved
    assert before_recovery == pytest.approx(cubic_metres, rel=0.25)


def test_a_month_is_its_degrees_its_hours_and_the_fuel_they_take(tmp_path):
    found = year(tmp_path, NO_GAINS + months("month: 1, outside_air: 5 degC, hours_aboard: 500 h"))
    (january,) = found.months
    heat = UA * 15 * 500 * HOUR
    assert january.heat == pytest.approx(heat)
    assert january.fuel == pytest.approx(heat / 0.8 / HEAT_OF_A_LITRE * LITRE)
    assert january.running_time == pytest.approx(heat / 5000)
    assert (found.heat, found.fuel) == (pytest.approx(january.heat), pytest.approx(january.fuel))


def test_people_lamps_and_cooking_bring_their_part_400_watts_unless_stated(tmp_path):
    row = months("month: 1, outside_air: 5 degC, hours_aboard: 500 h")
    assert year(tmp_path, row).heat == pytest.approx((UA * 15 - 400) * 500 * HOUR)
    assert year(tmp_path, "inner_gains: 1 kW, " + row).heat == pytest.approx((UA * 15 - 1000) * 500 * HOUR)


def test_a_month_warmer_than_the_cabin_takes_nothing(tmp_path):
    found = year(tmp_path, months("month: 7, outside_air: 24 degC, hours_aboard: 500 h"))
    assert (found.heat, found.fuel, found.running_time) == (0, 0, 0)


def test_the_sea_counts_where_the_boat_lies_in_it(tmp_path):
    bottom = "- {name: Bottom, u_value: 1 W/m2K, area: 20 m2, faces: sea}"
    row = "month: 1, outside_air: 5 degC, hours_aboard: 100 h"
    unknown = year(tmp_path, NO_GAINS + months(row), more=bottom)
    assert isinstance(unknown, NotAssessed)
    assert unknown.needs == ("conditions.months.sea",)
    found = year(tmp_path, NO_GAINS + months(row + ", sea: 8 degC"), more=bottom)
    assert found.heat == pytest.approx((UA * 15 + 20 * 12) * 100 * HOUR)


def test_without_hours_aboard_somebody_is_aboard_all_month(tmp_path):
    found = year(tmp_path, NO_GAINS + months("month: 2, outside_air: 5 degC"))
    assert found.months[0].aboard == 28 * 86400
    assert any(line.key.endswith("hours_aboard") for line in lines_behind(found.heat))


def test_hours_aboard_are_no_more_than_the_month_has(tmp_path):
    found = year(tmp_path, NO_GAINS + months("month: 2, outside_air: 5 degC, hours_aboard: 744 h"))
    assert found.months[0].aboard == 28 * 86400


def test_a_burner_too_small_gives_what_it_has_and_says_so(tmp_path):
    found = year(tmp_path, NO_GAINS + months("month: 1, outside_air: -40 degC, hours_aboard: 100 h"))
    assert found.heat == pytest.approx(5000 * 100 * HOUR)
    assert found.months[0].falls_short == pytest.approx(100 * HOUR)
    assert found.running_time == pytest.approx(100 * HOUR)


def test_a_burner_runs_longer_at_its_lowest_output(tmp_path):
    row = NO_GAINS + months("month: 1, outside_air: 5 degC, hours_aboard: 500 h")
    found = year(tmp_path, row, output="max: 5 kW, min: 2 kW")
    assert found.running_time == pytest.approx(UA * 15 * 500 * HOUR / 2000)


def test_nothing_is_said_of_a_year_that_nobody_describes(tmp_path):
    found = year(tmp_path, "wind: 4 m/s")
    assert isinstance(found, NotAssessed)
    assert found.needs == ("conditions.months",)
    lacking = year(tmp_path, months("month: 1, hours_aboard: 500 h"))
    assert lacking.needs == ("conditions.months.outside_air",)


def test_without_a_circuit_starts_are_not_known(tmp_path):
    found = year(tmp_path, months("month: 1, outside_air: 5 degC"))
    assert found.starts is None
    assert not any(result.name == "season.starts" for result in named_results(found))


def test_hours_of_even_months_come_to_the_same_as_the_months():
    found = studied("lantern_auk")
    rows = found.project.conditions.months
    each = zip(rows, DAYS, strict=True)
    air = np.concatenate([np.full(days * 24, float(row.outside_air) - 273.15) for row, days in each])
    by_hours, by_months = hours_of(found, weather(air)), found.season
    assert by_hours.hourly
    assert not by_months.hourly
    for hours, month in zip(by_hours.months, by_months.months, strict=True):
        for number in ("heat", "fuel", "running_time", "starts"):
            assert getattr(hours, number) == pytest.approx(getattr(month, number), rel=1e-6), number


def test_cold_nights_of_a_mild_month_count_by_the_hour(tmp_path):
    found = study(box(tmp_path, NO_GAINS + months("month: 5, outside_air: 21 degC, hours_aboard: 744 h")))
    assert found.season.heat == 0
    swing = 21 + 10 * np.sin(np.linspace(0, 2 * np.pi * 365, 8760, endpoint=False))
    assert hours_of(found, weather(swing)).heat > UA * 1.0 * 744 * HOUR


def test_wind_of_the_hours_cools_thin_walls():
    found = studied("lantern_auk")
    calm, gale = (hours_of(found, weather([2.0] * 8760, wind)).heat for wind in (1.0, 15.0))
    assert gale > 1.05 * calm


def test_a_leap_year_has_a_day_more_in_february(tmp_path):
    found = study(box(tmp_path, NO_GAINS + months("month: 1, outside_air: 0 degC")))
    leap = hours_of(found, weather([5.0] * 8784), months=None)
    assert leap.months[1].heat == pytest.approx(UA * 15 * 29 * 86400)
    assert leap.heat == pytest.approx(UA * 15 * 366 * 86400)


def test_a_generator_spares_the_burner_what_the_ring_calls_for():
    found = studied("northern_quill")
    january = found.season.months[0]
    rate = max(float(mode.heat) for mode in found.recovery.modes.values())
    called = float(january.ring_heat) / float(january.aboard)
    assert january.recovered == pytest.approx(min(rate, called) * 93 * HOUR, rel=1e-6)
    assert january.burner_heat == pytest.approx(january.heat - january.recovered)
    assert found.season.fuel_saved > 0.2


def test_two_showers_a_day_aboard_are_counted():
    # A: 5 l/min for 6 min from 4 (winter) and 18 °C (summer) to 40 °C; water of 4.18 kJ/kgK
    january = studied("lantern_auk").season.months[0]
    showers = 2 * 520 / 24
    assert january.tap_heat == pytest.approx(showers * 30 * 4180 * (40 - 11), rel=0.02)


def test_starts_of_a_month_are_those_of_its_mean_load():
    found = studied("lantern_auk")
    january = found.season.months[0]
    load = float(january.ring_heat) / float(january.aboard)
    assert january.starts == pytest.approx(found.store.starts_at(load) * 520, rel=1e-6)


def test_more_store_means_fewer_starts_and_the_same_fuel():
    base = studied("lantern_auk")
    large = study(base.project.alternative("buffer_120")).season
    assert large.starts < base.season.starts / 5
    assert large.fuel == pytest.approx(base.season.fuel, rel=0.1)


def test_every_number_of_the_year_says_what_it_rests_on():
    found = studied("lantern_auk").season
    for result in named_results(found):
        keys = {line.key for line in lines_behind(result.value)}
        if result.name.endswith(("recovered", "fuel_saved")):
            continue
        assert any(key.startswith("zones.") for key in keys), result.name
    assert any(line.key.startswith("conditions.months") for line in lines_behind(found.fuel))


def test_a_working_finds_its_number_again():
    found = studied("northern_quill").season
    for month in found.months:
        for number in (month.ring_heat, month.recovered, month.running_time):
            working = number.origin
            again = working.statement.function(*(float(given.value) for given in working.given))
            assert again == pytest.approx(float(number), rel=1e-9)


def test_a_warmer_month_by_its_working_is_the_month_calculated_afresh(tmp_path):
    cold = year(tmp_path, months("month: 1, outside_air: 2 degC, hours_aboard: 500 h")).months[0]
    mild = year(tmp_path, months("month: 1, outside_air: 6 degC, hours_aboard: 500 h")).months[0]
    working = cold.ring_heat.origin
    numbers = [float(given.value) for given in working.given]
    numbers[-1] += 4.0
    assert working.statement.function(*numbers) == pytest.approx(float(mild.ring_heat), rel=1e-9)


def test_weather_no_formula_knows_leaves_the_year_unassessed():
    found = studied("lantern_auk")
    gale = hours_of(found, weather([5.0] * 8760, wind=90.0))
    assert isinstance(gale, NotAssessed)
    assert gale.needs == ("conditions.weather",)


def test_a_year_of_hours_takes_less_than_two_seconds():
    found = studied("northern_quill")
    air = weather(5 + 15 * np.sin(np.linspace(0, 2 * np.pi, 8760)))
    begun = perf_counter()
    made = hours_of(found, air)
    assert perf_counter() - begun < 2.0
    assert made.hourly


def test_a_boat_that_needs_no_heat_on_the_design_night_has_no_season(tmp_path):
    project = box(tmp_path, months("month: 1, outside_air: 5 degC"))
    loss = replace(heat_loss(project), total=0.0)
    found = season(project, loss, study(project).fuel, *[NotAssessed("", ())] * 3)
    assert isinstance(found, NotAssessed)
