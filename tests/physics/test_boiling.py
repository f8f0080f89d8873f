"""Saturation, atmosphere and boiling margins against general-purpose libraries and plain sense."""

from itertools import pairwise

import fluids
import numpy as np
import pytest

from dossier.notation import Basis, Line, Traced, lines_behind
from dossier.physics.boiling import (
    absolute_pressure,
    atmospheric_pressure,
    boiling_margin,
    boiling_point,
    mixture_boiling_point,
    mixture_vapour_pressure,
    saturation_pressure,
    saturation_temperature,
    temperature_after_stop,
    vapour_pressure,
)
from dossier.physics.fluid import coolant, water

BASES = ["ethylene glycol", "propylene glycol"]


def test_water_boils_where_the_library_says():
    """CoolProp, IAPWS-95; the two formulations agree within 0.02 %."""
    from CoolProp import CoolProp  # takes seconds to load

    for temperature in np.linspace(274, 453, 60):
        expected = CoolProp.PropsSI("P", "T", temperature, "Q", 0, "Water")
        assert saturation_pressure(temperature) == pytest.approx(expected, rel=3e-4)


def test_boiling_point_and_vapour_pressure_of_water_undo_each_other():
    temperatures = np.linspace(273.15, 640, 200)
    assert saturation_temperature(saturation_pressure(temperatures)) == pytest.approx(temperatures, abs=1e-5)


def test_the_atmosphere_thins_as_in_the_standard_one():
    """fluids, US Standard Atmosphere 1976: it counts geometric altitude, 0.1 % apart at 6,000 m."""
    for altitude in (0, 250, 1000, 1912, 3812, 6000):
        expected = fluids.ATMOSPHERE_1976(altitude).P
        assert atmospheric_pressure(altitude) == pytest.approx(expected, rel=1.5e-3)


def test_gauge_and_atmosphere_make_absolute():
    assert absolute_pressure(5e4, 9e4) == 1.4e5


@pytest.mark.parametrize("base", BASES)
@pytest.mark.parametrize("inhibited", [True, False])
def test_a_mix_never_boils_below_water_and_little_above(base, inhibited):
    by = "volume" if inhibited else "mass"
    for pressure in (6e4, 1.013e5, 2e5, 3.5e5):
        rises = [
            boiling_point(coolant(base, share, inhibited=inhibited, by=by), pressure)
            - saturation_temperature(pressure)
            for share in (0.1, 0.2, 0.3, 0.4, 0.5, 0.6)
        ]
        assert all(later >= earlier >= 0 for earlier, later in pairwise(rises))
        assert 4 < rises[-1] < 15


def test_the_allowance_is_taken_off_but_never_below_water():
    without = mixture_boiling_point(1e5, 0.85, 0.0)
    assert mixture_boiling_point(1e5, 0.85, 1.5) == pytest.approx(without - 1.5)
    assert mixture_boiling_point(1e5, 0.99, 1.5) == saturation_temperature(1e5)


def test_vapour_pressure_of_the_mix_is_its_boiling_point_read_backwards():
    for fraction in (0.75, 0.9, 0.99):
        pressure = mixture_vapour_pressure(370.0, fraction, 1.5)
        assert mixture_boiling_point(pressure, fraction, 1.5) == pytest.approx(370.0, abs=1e-5)


def test_vapour_pressure_of_a_coolant_lies_under_that_of_water():
    mix = coolant("propylene glycol", 0.4)
    assert 0.85 < vapour_pressure(mix, 371.15) / saturation_pressure(371.15) < 1
    assert vapour_pressure(water(), 371.15) == saturation_pressure(371.15)


def test_a_boiling_point_rests_on_share_and_pressure():
    share, pressure = (Line(key, "", Basis.MEASURED, "boat.yaml", 4, 1) for key in ("share", "altitude"))
    found = boiling_point(coolant("propylene glycol", Traced(0.4, share)), Traced(1e5, pressure))
    assert set(lines_behind(found)) == {share, pressure}


def test_samples_of_share_have_their_own_boiling_points():
    shares = np.array([0.2, 0.4, 0.6])
    singly = [boiling_point(coolant("ethylene glycol", float(x)), 1e5) for x in shares]
    assert boiling_point(coolant("ethylene glycol", shares), 1e5) == pytest.approx(singly)


def test_margin_is_negative_where_it_boils():
    assert boiling_margin(373.0, 375.0) == -2


def test_heat_left_in_a_burner_warms_its_water():
    """Worked by hand: 12 kW for 30 s into 13 kJ/K is 27.7 K."""
    assert temperature_after_stop(348.15, 360e3, 13e3) == pytest.approx(348.15 + 27.692, abs=1e-3)
