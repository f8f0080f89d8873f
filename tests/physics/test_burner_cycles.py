"""Cycles at their edges: what never stops, never starts, never settles."""

import numpy as np
import pytest

from dossier.notation import OutOfRange
from dossier.physics.store import (
    fluid_heat_capacity,
    heat_capacity,
    running_time,
    store_volume_needed,
    surplus,
    total_heat_capacity,
)
from dossier.physics.store_warming import store_temperature, time_to_reach


def test_burner_that_never_stops_is_told_so():
    with pytest.raises(OutOfRange, match="output over the load"):
        running_time(52e3, 12.0, surplus(3e3, 5e3))
    many = running_time(52e3, 12.0, surplus(3e3, np.array([1e3, 5e3])))
    assert many[0] == pytest.approx(312)
    assert np.isnan(many[1])


def test_swing_gone_leaves_no_run_of_the_store():
    assert running_time(52e3, -3.0, 11e3) == 0


def test_capacity_of_ring_and_metal():
    """12.3 l of a mix with 999 kg/m³ and 3850 J/kgK and 9 kg of steel: 51.4 kJ/K."""
    ring = fluid_heat_capacity(0.0123, 999.0, 3850.0)
    assert total_heat_capacity(ring, heat_capacity(9.0, 450.0)) == pytest.approx(51.36e3, rel=1e-3)
    assert fluid_heat_capacity(0.060, 999.0, 3850.0, 0.9) == pytest.approx(0.9 * 0.060 * 999 * 3850)


def test_ring_that_suffices_needs_no_store():
    assert store_volume_needed(600.0, 1e3, 12.0, 3.85e6, present=52e3) == 0


@pytest.mark.parametrize(("start", "settled"), [(288.15, 425.0), (348.15, 281.15)])
def test_time_and_temperature_are_inverse(start, settled):
    for time in (0.0, 300.0, 5000.0):
        warm = store_temperature(settled, start, 35.0, 180e3, time)
        assert time_to_reach(settled, start, 35.0, 180e3, float(warm)) == pytest.approx(time, abs=1e-6)


def test_temperature_that_is_never_reached():
    with pytest.raises(OutOfRange, match="temperature to reach"):
        time_to_reach(340.0, 290.0, 35.0, 180e3, 345.0)
    with pytest.raises(OutOfRange):
        time_to_reach(340.0, 290.0, 35.0, 180e3, 285.0)
    goals = time_to_reach(340.0, 290.0, 35.0, 180e3, np.array([300.0, 345.0, 290.0]))
    assert np.isnan(goals).tolist() == [False, True, False]
    assert goals[2] == 0
