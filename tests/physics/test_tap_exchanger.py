"""Plates and coils for tap water against the ht library, textbook closed forms and a second integrator."""

import numpy as np
import pytest
from ht import effectiveness_from_NTU
from scipy.integrate import solve_ivp

from dossier.physics.exchanger import Arrangement
from dossier.physics.rated_point import rated_conductance
from dossier.physics.tap_exchanger import (
    capacity_of_water,
    fall,
    flow_of_heat,
    flow_of_plates,
    heat_after_start,
    heat_of_fall,
    heat_of_ring,
    heat_over_time,
    heat_passed,
    mean_temperature,
    passed_by_coil,
    passed_by_plates,
    primary_needed,
    reheating_time,
    ring_needed,
    tap_rate,
    volumetric_heat,
)

PRIMARY, TAP = 1089.4, 349.22853
VOLUMETRIC = TAP / (5 / 60000)
RATED = 379.7281


def test_a_plate_exchanger_gives_back_its_rated_point():
    """Library ht 1.2.0, NTU_from_effectiveness: UA 379.7281 W/K from 14 kW at 75 and 10 °C, 5 l/min.

    It leaves at 50.08836 °C there (T_in + Q/C), so 5 l/min is the flow it holds at that temperature.
    """
    found = rated_conductance(Arrangement.COUNTERFLOW, 14000.0, PRIMARY, TAP, 348.15, 283.15)
    assert found == pytest.approx(RATED, rel=1e-6)
    assert passed_by_plates(RATED, PRIMARY, TAP) * 65 == pytest.approx(14000, rel=1e-6)
    assert flow_of_plates(RATED, PRIMARY, 65.0, 40.08836, VOLUMETRIC) == pytest.approx(5 / 60000, rel=1e-5)


@pytest.mark.parametrize("reach", [45.0, 60.0, 80.0])
@pytest.mark.parametrize("rise", [10.0, 22.0, 36.0])
@pytest.mark.parametrize("conductance", [50.0, 380.0, 3000.0])
def test_the_flow_held_leaves_as_warm_as_wanted_by_the_library(conductance, rise, reach):
    """Library ht, effectiveness_from_NTU (counterflow): outlet rise = ε · Ċ_min · reach/Ċ_tap."""
    rate = flow_of_plates(conductance, PRIMARY, reach, rise, VOLUMETRIC) * VOLUMETRIC
    least, greatest = sorted((rate, PRIMARY))
    share = effectiveness_from_NTU(conductance / least, least / greatest, subtype="counterflow")
    assert share * least * reach / rate == pytest.approx(rise, rel=1e-9)


def test_no_flow_is_held_by_a_primary_that_is_too_cold():
    assert flow_of_plates(RATED, PRIMARY, 30.0, 36.0, VOLUMETRIC) == 0
    assert flow_of_plates(0.0, PRIMARY, 60.0, 36.0, VOLUMETRIC) == 0


def test_samples_go_through_as_numbers_do():
    reach = np.array([30.0, 60.0, 70.0])
    together = flow_of_plates(RATED, PRIMARY, reach, 36.0, VOLUMETRIC)
    one_by_one = [flow_of_plates(RATED, PRIMARY, float(r), 36.0, VOLUMETRIC) for r in reach]
    assert together == pytest.approx(one_by_one)


def test_a_coil_in_water_of_one_temperature_is_an_exchanger_with_no_ratio():
    """Library ht, effectiveness_from_NTU with Cr = 0: 1 − e^−NTU."""
    share = effectiveness_from_NTU(400 / 836.0, 0.0, subtype="counterflow")
    assert passed_by_coil(400.0, 836.0) == pytest.approx(share * 836.0)


def test_the_primary_needed_holds_the_shower_exactly():
    passed = passed_by_plates(RATED, PRIMARY, TAP)
    primary = primary_needed(283.15, 14000.0, passed)
    assert primary - 273.15 == pytest.approx(75, rel=1e-6)
    assert ring_needed(primary, 12.0) - 273.15 == pytest.approx(63, rel=1e-6)


@pytest.mark.parametrize(
    ("source", "goal"), [(3000.0, 60.0), (10000.0, 60.0), (50000.0, 60.0), (10000.0, 69.9), (200.0, 40.0)]
)
def test_a_store_heats_as_a_second_integrator_says(source, goal):
    """SciPy's solve_ivp on C·dθ/dt = min(Φ_s, G·(θ_1 − θ)), 60 l from 4 °C, primary 70 °C."""
    capacity, passed, primary = 60e-3 * 4.17e6, 300.0, 70.0

    def slope(_, store):
        return [min(source, passed * (primary - store[0])) / capacity]

    def hot(_, store):
        return store[0] - goal

    hot.terminal = True
    found = solve_ivp(slope, (0, 1e6), [4.0], events=hot, rtol=1e-9, atol=1e-9, max_step=100.0)
    time = reheating_time(capacity, passed, source, 273.15 + primary, 277.15, primary - goal)
    assert time == pytest.approx(float(found.t_events[0][0]), rel=1e-6)


def test_a_store_that_is_hot_already_takes_no_time():
    assert reheating_time(250e3, 300.0, 1e4, 343.15, 313.15, 40.0) == 0
    assert reheating_time(250e3, 300.0, 1e4, 300.0, 310.0, 5.0) == 0


def test_heat_of_flows_and_times_by_hand():
    """Arithmetic."""
    assert fall(313.15, 277.15) == pytest.approx(36)
    assert mean_temperature(277.15, 313.15) == pytest.approx(295.15)
    assert volumetric_heat(998.0, 4182.0) == 998.0 * 4182.0
    assert tap_rate(5 / 60000, 4.18e6) == pytest.approx(348.333333)
    assert heat_passed(300.0, 20.0) == 6000
    assert heat_passed(300.0, -20.0) == 0
    assert heat_over_time(12000.0, 360.0) == 4.32e6
    assert heat_after_start(12000.0, 360.0, 75.0) == 3.42e6
    assert heat_after_start(12000.0, 60.0, 75.0) == 0
    assert heat_of_fall(52e3, 14.0) == 728e3
    assert heat_of_ring(52e3, 339.15, 325.15) == pytest.approx(728e3)
    assert heat_of_ring(52e3, 300.0, 325.15) == 0
    assert capacity_of_water(0.06, 4.18e6) == pytest.approx(250800)
    assert flow_of_heat(4.514e6, 360.0, 4.18e6, 36.0) == pytest.approx(8.3326e-5, rel=1e-4)
