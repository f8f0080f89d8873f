"""The year against degree-hours of an open hourly weather file, counted by pandas from pvlib's reading of it.

Heat of a box of known loss is its loss times the degree-hours of the year: the definition behind every
degree-day method (ASHRAE Handbook of Fundamentals, energy estimating; from memory).
"""

from pathlib import Path
from shutil import copy

import pytest

from dossier.sizing.study import study
from tests.sizing.boats_of_the_year import UA, box

pvlib = pytest.importorskip("pvlib")

TMY3 = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"
HOUR = 3600.0
TARGET = 20.0


@pytest.fixture(scope="module")
def hours():
    return pvlib.iotools.read_tmy3(TMY3, map_variables=True, coerce_year=1990)[0]


@pytest.fixture
def boat(tmp_path):
    copy(TMY3, tmp_path / "weather.csv")

    def made(gains):
        return study(box(tmp_path, f"inner_gains: {gains} W, weather: {{from: weather.csv}}")).season

    return made


@pytest.mark.parametrize("gains", [0, 400])
def test_heat_of_the_year_is_loss_times_degree_hours(hours, boat, gains):
    base = TARGET - gains / UA
    degree_hours = (base - hours.temp_air).clip(lower=0)
    found = boat(gains)
    assert found.heat == pytest.approx(UA * degree_hours.sum() * HOUR, rel=1e-9)
    by_month = degree_hours.groupby((hours.index - hours.index[0]).days).sum()
    january = by_month.iloc[:31].sum()
    assert found.months[0].heat == pytest.approx(UA * january * HOUR, rel=1e-9)


def test_time_heated_is_that_of_the_cold_hours(hours, boat):
    found = boat(400)
    cold = (hours.temp_air < TARGET - 400 / UA).sum()
    assert sum(float(month.heated) for month in found.months) == pytest.approx(cold * HOUR)
