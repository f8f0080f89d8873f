"""Dew on surfaces: samples and single numbers alike, and the film that belongs to each question."""

import numpy as np
import pytest

from dossier.physics.moisture import (
    dew_point,
    saturation_pressure,
    surface_humidity,
    surface_temperature,
    surface_transmittance,
    vapour_pressure,
)


def test_dew_point_and_saturation_are_each_others_inverse():
    temperatures = np.linspace(233.15, 333.15, 101)
    assert dew_point(saturation_pressure(temperatures)) == pytest.approx(temperatures)


def test_saturated_air_has_its_dew_point_at_its_own_temperature():
    assert dew_point(vapour_pressure(1.0, 268.15)) == pytest.approx(268.15)


def test_the_film_for_mould_makes_the_surface_colder_than_that_of_the_heat_loss():
    usual = surface_temperature(0.61, 0.13, 293.15, 263.15)
    behind = surface_temperature(surface_transmittance(0.61, 0.13, 0.25), 0.25, 293.15, 263.15)
    assert usual == pytest.approx(290.77, abs=0.01)
    assert behind < usual


def test_the_film_for_mould_replaces_the_other():
    """Arithmetic: 1/0.5 − 0.13 + 0.25 = 2.12 m2K/W."""
    assert surface_transmittance(0.5, 0.13, 0.25) == pytest.approx(1 / 2.12)


def test_a_surface_at_the_dew_point_is_saturated():
    pressure = vapour_pressure(0.6, 293.15)
    assert surface_humidity(pressure, dew_point(pressure)) == pytest.approx(1.0)
    assert surface_humidity(pressure, 293.15) == pytest.approx(0.6)
