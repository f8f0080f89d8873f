"""Lagging and wood: the right way round when something changes, and the ends of the models."""

import numpy as np
import pytest

from dossier.data.coefficients import coefficient, spread_of
from dossier.data.fillings import filling_in, fillings
from dossier.physics.annular_fin import edge_conductance
from dossier.physics.exhaust_gas import fouled_gas_temperature
from dossier.physics.exhaust_heat import (
    conductivity_at,
    lagged_diameter,
    lagged_resistance,
    lagging_mean_temperature,
    outside_temperature,
    passage_gap,
)
from dossier.physics.exhaust_passage import (
    combustible_temperature,
    edge_temperature_air,
    edge_temperature_packed,
)

GAS, AIR = 623.15, 298.15
PIPE = (0.030, 0.033)
RESISTANCE = lagged_resistance(*PIPE, 0.008, 0.06, 35.0)
OUTSIDE = lagged_diameter(0.030, 0.0015, 0.008)
EDGE = edge_conductance(0.0635, 0.022, 0.13, 7.7)


def test_thicker_lagging_is_cooler_outside():
    thickness = np.array([0.0, 0.01, 0.02, 0.04])
    outside = lagged_diameter(0.030, 0.0015, thickness)
    surface = outside_temperature(GAS, AIR, lagged_resistance(*PIPE, thickness, 0.06, 35.0), outside, 10.0)
    assert np.all(np.diff(surface) < 0)


def test_conductivity_at_its_mean_temperature_is_consistent():
    """The mean of both faces at the conductivity of that mean is the mean again."""
    mean = lagging_mean_temperature(GAS, 308.15, 0.038, 0.041, 0.04, 35.0, 10.0, 0.04, 323.15, 0.0037)
    conductivity = conductivity_at(0.04, 323.15, 0.0037, mean)
    resistance = lagged_resistance(0.038, 0.041, 0.04, conductivity, 35.0)
    outer = outside_temperature(GAS, 308.15, resistance, 0.121, 10.0)
    flow = (GAS - outer) / resistance
    assert (GAS - flow / (35 * np.pi * 0.038) + outer) / 2 == pytest.approx(mean, rel=1e-9)
    assert conductivity > 0.04


def test_mean_temperature_of_samples():
    given = (0.038, 0.041, 0.04, 35.0, 10.0, 0.06, 473.15, 0.0037)
    gas = np.array([473.15, 623.15, 723.15])
    each = [lagging_mean_temperature(float(g), 308.15, *given) for g in gas]
    assert lagging_mean_temperature(gas, 308.15, *given) == pytest.approx(each, rel=1e-9)


def test_wider_gap_is_cooler_and_no_gap_the_hottest():
    holes = np.array([OUTSIDE, 0.055, 0.0635, 0.08, 0.12])
    edges = edge_conductance(holes, 0.022, 0.13, 7.7)
    found = edge_temperature_air(GAS, AIR, RESISTANCE, OUTSIDE, holes, 0.022, edges, 0.9)
    assert np.all(np.diff(found) < 0)
    touching = AIR + (GAS - AIR) / (1 + RESISTANCE * edges[0] / 0.022)
    assert found[0] == pytest.approx(touching, abs=1e-4)
    packed = edge_temperature_packed(GAS, AIR, RESISTANCE, OUTSIDE, OUTSIDE, 0.022, edges[0], 0.06)
    assert packed == pytest.approx(touching, rel=1e-12)


def test_hole_smaller_than_the_exhaust_counts_as_touching():
    assert passage_gap(0.045, OUTSIDE) < 0
    tight = edge_temperature_air(GAS, AIR, RESISTANCE, OUTSIDE, 0.045, 0.022, EDGE, 0.9)
    assert tight == pytest.approx(AIR + (GAS - AIR) / (1 + RESISTANCE * EDGE / 0.022), abs=1e-4)


def test_metal_bulkhead_carries_the_heat_away():
    steel = edge_conductance(0.060, 0.006, 50.0, 7.7)
    found = edge_temperature_air(GAS, AIR, RESISTANCE, OUTSIDE, 0.060, 0.006, steel, 0.9)
    assert AIR < found < AIR + 40


def test_passages_of_samples():
    gas = np.array([523.15, 623.15, 723.15])
    each = [edge_temperature_air(float(g), AIR, RESISTANCE, OUTSIDE, 0.0635, 0.022, EDGE, 0.9) for g in gas]
    found = edge_temperature_air(gas, AIR, RESISTANCE, OUTSIDE, 0.0635, 0.022, EDGE, 0.9)
    assert found == pytest.approx(each, rel=1e-9)


def test_wood_cools_with_distance_towards_the_air():
    distance = np.array([0.005, 0.02, 0.05, 0.2, 1.0, 5.0])
    found = combustible_temperature(500.0, AIR, 0.041, distance, 0.9, 2.5)
    assert np.all(np.diff(found) < 0)
    assert AIR < found[-1] < AIR + 3
    assert found[0] > 420
    assert found == pytest.approx(
        [combustible_temperature(500.0, AIR, 0.041, float(s), 0.9, 2.5) for s in distance], rel=1e-9
    )


def test_fouled_exchanger_is_a_hundred_kelvin_hotter():
    """Common practice, no source."""
    assert fouled_gas_temperature(GAS, coefficient("exhaust.fouling")) == pytest.approx(GAS + 100)


@pytest.mark.parametrize(
    ("closing", "conductivity"),
    [
        ("stainless plate each side, mineral packing", 0.07),
        ("Fire cement", 0.6),
        ("nothing", None),
        ("", None),
    ],
)
def test_packing_is_found_in_the_words_of_the_file(closing, conductivity):
    assert filling_in(closing) == conductivity


def test_every_coefficient_lies_within_its_spread():
    for key in ("exhaust.film_inside", "exhaust.film_outside", "fan_coil.air_exponent", "burner.excess_air"):
        low, high = spread_of(key)
        assert low <= coefficient(key) <= high
    assert all(0.02 < found < 1 for found in fillings().values())
