"""Emitters against the points that EN 442 and EN 1264 fix, and closed forms."""

import numpy as np
import pytest
from scipy.optimize import brentq

from dossier.data.coefficients import coefficient
from dossier.physics.emitter import (
    FanCoil,
    Radiator,
    arithmetic_excess,
    logarithmic_excess,
    radiator_output,
    room_temperature_held,
)
from dossier.physics.exchanger import cooled_outlet
from dossier.physics.floor_loop import floor_flux, floor_surface

KELVIN = 273.15


def test_rating_point_of_radiators_has_50_kelvin():
    """EN 442: 75/65/20 °C."""
    assert arithmetic_excess(75 + KELVIN, 65 + KELVIN, 20 + KELVIN) == pytest.approx(50, abs=1e-9)


def test_output_from_50_to_60_kelvin():
    """Public trade pages on BS EN 442: factor 1.267."""
    assert radiator_output(1.0, 60.0, 50.0, 1.3) == pytest.approx(1.267, abs=6e-4)


@pytest.mark.parametrize(
    ("excess", "factor"), [(20.0, 0.3038631), (30.0, 0.5147503), (40.0, 0.7481988), (60.0, 1.267464)]
)
def test_output_at_other_excess_temperatures(excess, factor):
    """Closed form (Δθ/50)^1.3 of EN 442."""
    assert radiator_output(1.0, excess, 50.0, 1.3) == pytest.approx(factor, rel=1e-6)


def test_output_at_70_55_20_by_the_arithmetic_mean():
    """EN 442 with the arithmetic mean: 809.5517 W of 1000 W."""
    excess = arithmetic_excess(70 + KELVIN, 55 + KELVIN, 20 + KELVIN)
    assert radiator_output(1000.0, excess, 50.0, 1.3) == pytest.approx(809.5517, rel=1e-6)


def test_output_at_70_55_20_by_the_logarithmic_mean():
    """EN 442 with logarithmic means on both sides: 802.0351 W of 1000 W."""
    rated = logarithmic_excess(75 + KELVIN, 65 + KELVIN, 20 + KELVIN)
    excess = logarithmic_excess(70 + KELVIN, 55 + KELVIN, 20 + KELVIN)
    assert radiator_output(1000.0, excess, rated, 1.3) == pytest.approx(802.0351, rel=1e-6)


def test_radiator_finds_the_return_temperature_it_was_given():
    """The flow at which 70 °C water leaves with 55 °C gives the printed 802.0351 W back."""
    radiator = Radiator.rated_at(1000.0, 75 + KELVIN, 65 + KELVIN, 20 + KELVIN, 1.3)
    rate = 802.0351 / 15
    heat = radiator.output(70 + KELVIN, rate, 20 + KELVIN)
    assert heat == pytest.approx(802.0351, rel=1e-6)
    assert cooled_outlet(70 + KELVIN, heat, rate) - KELVIN == pytest.approx(55, abs=1e-5)


@pytest.mark.parametrize("rate", [3.0, 5.0, 8.0, 60.0, 900.0])
@pytest.mark.parametrize("exponent", [1.0, 1.3, 1.5])
def test_radiator_against_a_root_search_of_a_library(rate, exponent):
    """Root search by scipy, brentq, on the balance of the water with EN 442's logarithmic mean."""
    radiator = Radiator.rated_at(900.0, 348.15, 338.15, 293.15, exponent)

    def surplus(outlet):
        mean = (345.0 - outlet) / np.log((345.0 - 291.0) / (outlet - 291.0))
        return rate * (345.0 - outlet) - 900 * (mean / float(radiator.rated_excess)) ** exponent

    outlet = brentq(surplus, 291 + 1e-12, 345 - 1e-9, xtol=1e-13)
    assert radiator.output(345.0, rate, 291.0) == pytest.approx(rate * (345.0 - outlet), rel=1e-8)


@pytest.mark.parametrize(
    ("floor", "flux", "digits"),
    [
        (29.0, 100, 0.5),
        (35.0, 175, 1),
        (24.0, 40.98556, 1e-4),
        (27.0, 75.85299, 1e-4),
        (29.0, 100.0073, 1e-3),
    ],
)
def test_flux_of_a_heated_floor(floor, flux, digits):
    """EN 1264: 100 W/m² at 9 K and 175 W/m² at 15 K (public trade page); closed form between."""
    found = floor_flux(floor + KELVIN, 20 + KELVIN)
    assert found == pytest.approx(flux, abs=digits)
    assert floor_surface(found, 20 + KELVIN) - KELVIN == pytest.approx(floor, abs=1e-9)


def test_room_held_by_an_emitter_too_small():
    """Balance of heat: 45 W/K against 120 W/K at -8 °C, water 60 °C: 10.54545 °C."""
    held = room_temperature_held(45.0, 120.0, 60 + KELVIN, -8 + KELVIN)
    assert held - KELVIN == pytest.approx(10.54545, abs=1e-5)


def test_emitters_that_call_together():
    """Balance of heat: 65, 40, 25 W/K at 75 °C draw 7330 W; a burner of 5 kW holds 57.07692 °C."""
    emission, air = np.array([65.0, 40.0, 25.0]), np.array([20.0, 18.0, 16.0]) + KELVIN
    # Fan coils of which all heat capacity is in the air give ε · Ċ_min per kelvin.
    coils = [FanCoil(1e5, each) for each in emission]
    for supply, heat in ((75.0, 7330.0), (57.07692, 5000.0)):
        given = sum(coil.output(supply + KELVIN, 1e5, room) for coil, room in zip(coils, air, strict=True))
        assert given == pytest.approx(heat, rel=1e-6)


COILS_OF_THE_CUTTER = {  # rated W, l/min, m³/h; balanced l/min, room °C, loss W; output over loss
    "F1": (3600.0, 8, 230, 4.2, 19, 1830, 1.6),
    "F2": (4200.0, 9, 300, 4.6, 20, 2000, 1.7),
    "F3": (2100.0, 6, 125, 2.2, 18, 960, 1.8),
}


@pytest.mark.parametrize("tag", COILS_OF_THE_CUTTER)
def test_fan_coils_of_the_cutter(tag):
    """Independent calculation of the invented boat A, mean water 72 °C: output over loss, ± 15 %."""
    output, flow, air_flow, balanced, room, loss, printed = COILS_OF_THE_CUTTER[tag]
    air = air_flow / 3600 * 1.204 * float(coefficient("air.specific_heat"))
    coil = FanCoil.rated(output, flow * 4180 * 972 / 6e4, air, 80 + KELVIN, 18 + KELVIN)
    given = coil.output(75 + KELVIN, balanced * 999 * 3850 / 6e4, room + KELVIN)
    assert given / loss == pytest.approx(printed, rel=0.15)


def test_towel_rail_of_the_cutter():
    """Independent calculation of the invented boat A: 2.5 times the loss of 0.34 kW, ± 15 %."""
    rail = Radiator.rated_at(900.0, 75 + KELVIN, 65 + KELVIN, 20 + KELVIN, 1.3)
    assert rail.output(75 + KELVIN, 0.8 * 999 * 3850 / 6e4, 20 + KELVIN) / 340 == pytest.approx(2.5, rel=0.15)
