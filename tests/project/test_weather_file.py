"""Hourly weather in open formats, read from the file that pvlib carries and held against pvlib's own reading.

The file is Greensboro Piedmont Triad of the TMY3 set (National Renewable Energy Laboratory, public domain).
The EPW file is written here from the same hours: the format keeps temperature in its seventh column and wind
in its twenty-second (EnergyPlus Auxiliary Programs, from memory; pvlib reads them there).
"""

from importlib import import_module
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pytest

PVLIB = find_spec("pvlib")
if PVLIB is None:
    pytest.skip("pvlib is not installed", allow_module_level=True)

TMY3 = Path(PVLIB.origin).parent / "data" / "723170TYA.CSV"
WEATHER = "conditions: {weather: {from: %s}}\n"
LOCATION = "LOCATION,Greensboro,NC,USA,TMY3,723170,36.1,-79.95,-5.0,273.0"


@pytest.fixture(scope="module")
def pvlib():
    return import_module("pvlib")  # slow to load


@pytest.fixture(scope="module")
def by_pvlib(pvlib):
    return pvlib.iotools.read_tmy3(TMY3, map_variables=True, coerce_year=1990)[0]


def epw(hours):
    head = [LOCATION, *("-" for _ in range(7))]
    lines = []
    for time, air, wind in zip(hours.index, hours.temp_air, hours.wind_speed, strict=True):
        begun = time - np.timedelta64(1, "h")
        cells = [begun.year, begun.month, begun.day, begun.hour + 1, 0, "-", air, *[0] * 14, wind, *[0] * 13]
        lines.append(",".join(map(str, cells)))
    return "\n".join([*head, *lines, ""])


def test_a_tmy3_file_is_read_as_pvlib_reads_it(desk, by_pvlib):
    desk.put("weather.csv", TMY3.read_bytes())
    weather = desk.read(WEATHER % "weather.csv").conditions.weather
    assert len(weather.outside_air) == 8760
    assert np.array(weather.outside_air) - 273.15 == pytest.approx(by_pvlib.temp_air.to_numpy())
    assert np.array(weather.wind) == pytest.approx(by_pvlib.wind_speed.to_numpy())


def test_an_epw_file_is_read_as_pvlib_reads_it(desk, pvlib, by_pvlib):
    path = desk.put("weather.epw", epw(by_pvlib))
    theirs = pvlib.iotools.read_epw(path)[0]
    ours = desk.read(WEATHER % "weather.epw").conditions.weather
    assert np.array(ours.outside_air) - 273.15 == pytest.approx(theirs.temp_air.to_numpy())
    assert np.array(ours.wind) == pytest.approx(theirs.wind_speed.to_numpy())


def test_degree_days_of_the_file_are_those_of_the_place(desk):
    # 3,848 °F·day below 65 °F: normals of 1971 to 2000 for Greensboro, from memory; a typical year is near
    desk.put("weather.csv", TMY3.read_bytes())
    air = np.array(desk.read(WEATHER % "weather.csv").conditions.weather.outside_air)
    fahrenheit = ((air - 273.15) * 1.8 + 32).reshape(365, 24).mean(axis=1)
    assert np.maximum(65 - fahrenheit, 0).sum() == pytest.approx(3848, rel=0.05)


def broken(desk, text):
    desk.put("weather.csv", text)
    return desk.fault(WEATHER % "weather.csv")


def test_a_file_in_no_known_format_is_refused(desk):
    assert broken(desk, "time,temperature\n1,2\n").startswith("this is no weather file in EPW or TMY3 format")


def test_a_year_runs_from_january_to_december(desk):
    lines = TMY3.read_text(encoding="utf-8").splitlines()
    turned = "\n".join([*lines[:2], *lines[4400:], *lines[2:4400]])
    assert broken(desk, turned).startswith("month 1 follows month 12")


def test_a_missing_hour_is_told(desk):
    lines = TMY3.read_text(encoding="utf-8").splitlines()
    assert broken(desk, "\n".join(lines[:-1])).startswith("the weather file has 8759 hours")


def test_a_gap_is_told_with_its_line(desk):
    lines = TMY3.read_text(encoding="utf-8").splitlines()
    place = lines[1].split(",").index("Dry-bulb (C)")
    cells = lines[100].split(",")
    cells[place] = "-9900.0"
    lines[100] = ",".join(cells)
    desk.put("weather.csv", "\n".join(lines))
    (fault,) = desk.faults(WEATHER % "weather.csv")
    assert (fault.line, fault.what) == (101, "the hour has -9900 degC and 5.2 m/s, which cannot be")


def test_months_beside_a_weather_file_may_give_sea_and_hours_aboard(desk):
    desk.put("weather.csv", TMY3.read_bytes())
    text = "conditions: {weather: {from: weather.csv}, months: [{month: 1, sea: 5 degC%s}]}\n"
    assert desk.read(text % "").warnings == ()
    (doubt,) = desk.read(text % ", outside_air: 3 degC").warnings
    assert doubt.what.startswith("months and weather both give the outside air")
