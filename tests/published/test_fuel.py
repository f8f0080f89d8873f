"""Fuel against the figures of law and standard, and arithmetic."""

import pytest

from dossier.data.fuels import fuel, fuels, plugging_points
from dossier.physics.fuel import fuel_autonomy, fuel_rate, fuel_volume, plugging_margin, usable_fuel


def test_common_heat_of_combustion_of_diesel():
    """Common practice, no source: 9.94 kWh/l from 42.6 MJ/kg and 0.84 kg/l."""
    burnt = fuel()
    assert burnt.heat_of_combustion * burnt.density / 3.6e9 == pytest.approx(9.94, abs=0.005)


@pytest.mark.parametrize(
    ("name", "by_mass", "by_volume"),
    [("diesel", 43, 36), ("hydrotreated_vegetable_oil", 44, 34), ("biodiesel", 37, 33)],
)
def test_heat_of_combustions_of_the_law(name, by_mass, by_volume):
    """French order of 2 May 2012, annex I (as Directive (EU) 2018/2001, annex III): MJ/kg, MJ/l."""
    burnt = fuels()[name]
    assert burnt.heat_of_combustion / 1e6 == pytest.approx(by_mass)
    assert burnt.heat_of_combustion * burnt.density / 1e9 == pytest.approx(by_volume, abs=0.05)


def test_common_heat_of_combustion_is_no_more_than_one_in_a_hundred_below_the_law():
    assert fuel().heat_of_combustion / fuels()["diesel"].heat_of_combustion == pytest.approx(1, abs=0.01)


@pytest.mark.parametrize("name", ["gas_oil", "diesel"])
def test_density_within_the_standard(name):
    """EN 590: 820 to 845 kg/m³ at 15 °C."""
    assert 820 <= fuels()[name].density <= 845


@pytest.mark.parametrize(
    ("output", "efficiency", "hourly"),
    [(9000.0, 0.82, 1.093915), (5000.0, 0.80, 0.6229236), (2200.0, 0.85, 0.2579637)],
)
def test_fuel_burnt_by_small_burners(output, efficiency, hourly):
    """Arithmetic with 43 MJ/kg and 840 kg/m³, litres an hour."""
    assert fuel_rate(output, efficiency, 43e6, 840.0) * 3.6e6 == pytest.approx(hourly, rel=1e-6)


def test_fuel_saved_by_engine_heat():
    """Arithmetic: 6 kW at 82 % with 43 MJ/kg and 840 kg/m³: 0.7292764 l in an hour."""
    assert fuel_volume(6000 * 3600.0, 0.82, 43e6, 840.0) * 1e3 == pytest.approx(0.7292764, rel=1e-6)


def test_days_in_a_tank():
    """Arithmetic: 400 l, 85 % usable, 7.5 l a day: 45.33333 days."""
    usable = usable_fuel(0.400, 0.85)
    assert fuel_autonomy(usable, 0.0075 / 86400) / 86400 == pytest.approx(45.33333, rel=1e-6)


def test_workboat_of_ten_numbers():
    """Independent calculation of the invented boat D: 1.59 kW, 80 %: 4.8 l/day, 102 l last 21 days."""
    burnt = fuel()
    rate = fuel_rate(1590.0, 0.80, burnt.heat_of_combustion, burnt.density)
    assert rate * 86400e3 == pytest.approx(4.8, abs=0.05)
    usable = usable_fuel(0.120, 0.85)
    assert usable == pytest.approx(0.102)
    assert fuel_autonomy(usable, rate) / 86400 == pytest.approx(21, abs=0.5)


@pytest.mark.parametrize(
    ("boat", "heat", "efficiency", "litres"),
    [
        ("A", 5130, 0.84, 14.7),
        ("B", 6600, 0.86, 18.5),
        ("C", 3800, 0.80, 11.4),
        ("C repaired", 3800, 0.82, 11.1),
    ],
)
def test_daily_fuel_of_the_invented_boats(boat, heat, efficiency, litres):
    """Independent calculation at the design load, ± 15 %."""
    burnt = fuel()
    found = fuel_volume(heat * 86400.0, efficiency, burnt.heat_of_combustion, burnt.density) * 1e3
    assert found == pytest.approx(litres, rel=0.15), boat


@pytest.mark.parametrize(("name", "celsius"), [("F", -20), ("0", -20), ("4", -44), ("A", 5)])
def test_classes_of_winter_diesel(name, celsius):
    """EN 590 classes by the plugging point, from memory."""
    assert plugging_points()[name] - 273.15 == pytest.approx(celsius)


def test_summer_diesel_waxes_in_a_hard_frost():
    """EN 590 class B plugs at 0 °C (from memory): at -8 °C it lacks 8 K; class F keeps 12 K."""
    assert plugging_margin(265.15, plugging_points()["B"]) == pytest.approx(-8)
    assert plugging_margin(265.15, plugging_points()["F"]) == pytest.approx(12)
