"""Pumps against worked problems, closed forms and steam tables."""

import numpy as np
import pytest

from dossier.physics.boiling import saturation_pressure
from dossier.physics.pump import (
    CurveFault,
    PumpCurve,
    flow_at_speed,
    head,
    power_at_speed,
    pressure_of_head,
    rise_at_speed,
    shaft_power,
    speed_at_voltage,
    suction_head,
    suction_margin,
)
from dossier.physics.pump_viscosity import (
    efficiency_correction,
    flow_correction,
    head_correction,
    performance_parameter,
    viscous_curve,
)

FOOT = 0.3048
PSI = 6894.757293168
POUND_PER_CUBIC_FOOT = 16.01846337396


def test_suction_head_of_crane_7_32():
    """Crane TP-410M, worked problem 7.32: 13.89 ft from 5 psi gauge over 25 ft of lift and 6 ft of loss."""
    density = 62.364 * POUND_PER_CUBIC_FOOT
    inlet = (5 + 14.696) * PSI - pressure_of_head(31 * FOOT, density)
    assert suction_head(inlet, 0.256 * PSI, density, 0.0) / FOOT == pytest.approx(13.89, abs=0.05)


@pytest.mark.parametrize(
    ("celsius", "density", "over_pump", "loss", "expected"),
    [(80, 971.8, 1.0, 0.5, 6.15664), (95, 961.9, 0.3, 0.2, 1.872018)],
)
def test_suction_head_under_an_open_header(celsius, density, over_pump, loss, expected):
    """By iapws 1.5.5, IF97: vapour pressure and density of water."""
    inlet = 101325 + pressure_of_head(over_pump - loss, density)
    vapour = saturation_pressure(celsius + 273.15)
    assert suction_head(inlet, vapour, density, 0.0) == pytest.approx(expected, abs=0.05)


def test_pump_that_needs_more_than_there_is_has_a_negative_margin():
    """Definition, identity."""
    assert suction_margin(60e3, 47e3, 20e3) == pytest.approx(-7e3)


def test_affinity_of_crane_7_33():
    """Crane TP-410M, worked problem 7.33: 400 gal/min, 126 ft, 17.5 hp at 3500 rpm, slowed to 1700."""
    ratio, gallon = 1700 / 3500, 3.785411784e-3 / 60
    assert flow_at_speed(400 * gallon, ratio) / gallon == pytest.approx(194.3, abs=0.1)
    assert rise_at_speed(pressure_of_head(126 * FOOT, 1000), ratio) / (9806.65 * FOOT) == pytest.approx(
        29.7, abs=0.05
    )
    assert power_at_speed(17.5 * 745.7, ratio) / 745.7 == pytest.approx(2, abs=0.01)


@pytest.mark.parametrize(("ratio", "expected"), [(0.8, 2.88), (1.2, 6.48)])
def test_head_follows_the_square_of_the_speed(ratio, expected):
    """Affinity law, identity: 4.5 m at rated speed."""
    curve = PumpCurve((0.0, 4e-4), (pressure_of_head(4.5, 1000), 0.0), 1000)
    assert head(curve.rise(0.0, ratio), 1000) == pytest.approx(expected)
    assert head(curve.rise(ratio * 2e-4, ratio), 1000) == pytest.approx(expected / 2)


def test_voltage_is_speed_for_an_unregulated_motor():
    """Affinity law: 10.8 V on a 12 V curve leave 90 % of the flow and 81 % of the head."""
    ratio = speed_at_voltage(10.8, 12)
    assert flow_at_speed(1e-3, ratio) == pytest.approx(0.9e-3)
    assert rise_at_speed(1e4, ratio) == pytest.approx(0.81e4)


@pytest.mark.parametrize(
    ("litres", "metres", "efficiency", "density", "expected"),
    [(20, 4.5, 0.3, 1012, 49.62165), (30, 3, 0.25, 985, 57.9573)],
)
def test_power_a_pump_takes(litres, metres, efficiency, density, expected):
    """Derived: ρ·g·Q·H/η with g = 9.80665 m/s²."""
    rise = pressure_of_head(metres, density)
    assert shaft_power(litres / 60000, rise, efficiency) == pytest.approx(expected, rel=1e-6)


def test_head_of_a_curve_does_not_ask_for_the_density():
    """Turbomachinery: the same metres of every liquid, so more pressure of a heavier one."""
    curve = PumpCurve((0.0, 1e-3), (40e3, 0.0), 1000)
    assert curve.rise(5e-4, 1.0, 1050.0) == pytest.approx(20e3 * 1.05)


def test_curve_is_straight_between_its_points():
    """Rule of this dossier: no invented shape."""
    curve = PumpCurve((0.0, 1e-4, 3e-4), (60e3, 55e3, 25e3))
    assert curve.rise(np.array([5e-5, 2e-4, 4e-4])) == pytest.approx([57.5e3, 40e3, 10e3])
    assert curve.holds(3e-4)
    assert not curve.holds(3.1e-4)


@pytest.mark.parametrize(
    ("flows", "rises"),
    [((0.0, 1e-4), (5.0, 6.0)), ((1e-4, 1e-4), (5.0, 4.0)), ((0.0,), (5.0,)), ((0.0, 1e-4), (5.0,))],
)
def test_curve_that_is_none_is_refused(flows, rises):
    """Rule of this dossier: flows rise, pressures never do."""
    with pytest.raises(CurveFault, match="pump curve"):
        PumpCurve(flows, rises)


def test_parameter_b_of_a_large_oil_pump():
    """ANSI/HI 9.6.7, worked example from memory: 110 m³/h, 77 m, 2950 1/min, 120 mm²/s give B = 5.5."""
    parameter = performance_parameter(120e-6, 77, 110 / 3600, 2950 / 60)
    assert parameter == pytest.approx(5.5, abs=0.05)


def test_parameter_b_in_american_units():
    """ANSI/HI 9.6.7, from memory: 26.6 · ν^0.5 · H^0.0625/(Q^0.375 · N^0.25) in mm²/s, ft, gal/min, 1/min."""
    american = 26.6 * 120**0.5 * (77 / FOOT) ** 0.0625 / ((110 / 0.2271247) ** 0.375 * 2950**0.25)
    assert performance_parameter(120e-6, 77, 110 / 3600, 2950 / 60) == pytest.approx(american, rel=0.005)


def test_correction_of_head_grows_from_none_to_that_of_the_flow():
    """ANSI/HI 9.6.7, from memory: no correction at shut-off, that of the flow at the best point."""
    assert head_correction(0.9, 0.0) == 1
    assert head_correction(0.9, 1.0) == pytest.approx(0.9)


def test_water_needs_no_correction():
    """ANSI/HI 9.6.7, from memory: nothing is corrected up to B = 1."""
    parameter = performance_parameter(1e-6, 77, 110 / 3600, 2950 / 60)
    assert parameter < 1
    assert flow_correction(parameter) == 1
    assert efficiency_correction(parameter) == 1


def test_cold_mix_lowers_a_small_pump():
    """ANSI/HI 9.6.7: a viscous curve lies inside the one of water and starts at the same head."""
    water = PumpCurve((0.0, 1.7e-4, 3.3e-4, 5e-4, 6.7e-4), (62e3, 57e3, 45e3, 26e3, 0.0))
    cold = viscous_curve(water, 2.2e-5, 3.3e-4, 4000 / 60)
    assert 1 < cold.parameter < 40
    assert cold.curve.rises[0] == water.rises[0]
    assert all(after < before for before, after in zip(water.flows[1:], cold.curve.flows[1:], strict=True))
    assert cold.curve.rise(3e-4) < water.rise(3e-4)
