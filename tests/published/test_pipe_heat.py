"""Heat of pipes against the form of ISO 12241, the library ht and closed forms."""

import ht
import numpy as np
import pytest
from ht.conv_free_immersed import Nu_horizontal_cylinder_Churchill_Chu
from scipy.constants import Stefan_Boltzmann

from dossier.physics.air import air_conductivity, air_density, air_viscosity
from dossier.physics.pipe_heat import (
    convection_film,
    cylinder_film_resistance,
    cylinder_resistance,
    layers_resistance,
    linear_transmittance,
    pipe_heat,
    pipe_outlet,
    radiation_film,
    standing_pipe_heat,
    surface_temperature,
    transmittance_with_film,
)

KELVIN = 273.15


@pytest.mark.parametrize(
    ("bore", "outside", "lagging", "conductivity", "printed"),
    [(12, 16, 16, 0.4, 0.4753073), (12, 16, 34, 0.04, 0.2469237), (19, 27, 53, 0.036, 0.2686621)],
)
def test_transmittance_of_plastic_pipe_and_hose(bore, outside, lagging, conductivity, printed):
    """Form of ISO 12241, wall 0.4 W/mK, film 10 W/m²K: bare PE-X, PE-X with 9 mm, hose with 13 mm."""
    wall = cylinder_resistance(bore / 1e3, outside / 1e3, 0.4)
    lagged = cylinder_resistance(outside / 1e3, lagging / 1e3, conductivity)
    found = transmittance_with_film(layers_resistance(wall, lagged), 10.0, lagging / 1e3)
    assert found == pytest.approx(printed, rel=1e-6)


def test_lagged_steel_pipe_of_the_library():
    """Documentation example of ht.cylindrical_heat_transfer: 73.12001 W/m."""
    bore, steel, lagging = 0.0779272, 0.0779272 + 2 * 0.0054864, 0.0779272 + 2 * 0.0554864
    layers = layers_resistance(
        cylinder_resistance(bore, steel, 56.045),
        cylinder_resistance(steel, lagging, 0.0598535265),
        cylinder_film_resistance(22.697193, lagging),
    )
    assert (180 - 28) / layers == pytest.approx(73.12001, rel=1e-6)
    theirs = ht.cylindrical_heat_transfer(
        Ti=453.15,
        To=301.15,
        hi=1e12,
        ho=22.697193,
        Di=bore,
        ts=[0.0054864, 0.05],
        ks=[56.045, 0.0598535265],
    )["UA"]
    assert 1 / layers == pytest.approx(theirs, rel=1e-6)


@pytest.mark.parametrize(
    ("loss", "length", "litres", "inlet", "air", "outlet", "heat"),
    [
        (0.475, 12.0, 3, 70, 10, 68.35326, 337.285),
        (0.247, 12.0, 3, 70, 10, 69.13798, 176.5594),
        (0.475, 20.0, 9, 75, 5, 73.92607, 659.8857),
    ],
)
def test_water_cools_along_a_pipe(loss, length, litres, inlet, air, outlet, heat):  # noqa: PLR0913, PLR0917 - one case
    """Closed form θ_a + (θ_in − θ_a)·exp(−Ψ·L/Ċ), water of 980 kg/m³ and 4180 J/kgK."""
    rate = litres / 6e4 * 980 * 4180
    found = pipe_outlet(loss, length, rate, inlet + KELVIN, air + KELVIN)
    assert found - KELVIN == pytest.approx(outlet, abs=1e-5)
    assert pipe_heat(loss, length, rate, inlet + KELVIN, air + KELVIN) == pytest.approx(heat, rel=1e-6)


@pytest.mark.parametrize("outside", [0.012, 0.016, 0.022, 0.030, 0.050, 0.100])
@pytest.mark.parametrize("excess", [10.0, 30.0, 60.0])
def test_natural_convection_against_churchill_and_chu(outside, excess):
    """Library ht, horizontal cylinder: the simple form of ISO 12241 stays within 20 % of it."""
    mean = 288.15 + excess / 2
    conductivity = air_conductivity(mean)
    kinematic = air_viscosity(mean) / air_density(mean)
    grashof = 9.80665 / mean * excess * outside**3 / kinematic**2
    theirs = Nu_horizontal_cylinder_Churchill_Chu(Pr=0.71, Gr=grashof) * conductivity / outside
    assert convection_film(288.15 + excess, 288.15, outside) == pytest.approx(theirs, rel=0.20)


def test_radiation_as_a_film():
    """Stefan-Boltzmann law with the constant of CODATA (scipy)."""
    film = radiation_film(343.15, 288.15, 0.9)
    assert film * 55 == pytest.approx(0.9 * Stefan_Boltzmann * (343.15**4 - 288.15**4), rel=1e-7)


def test_bare_copper_pipe_is_as_hot_as_its_water():
    """The wall takes nothing: common knowledge of the trade, no source."""
    wall = cylinder_resistance(0.020, 0.022, 380.0)
    assert surface_temperature(353.15, 293.15, wall, 0.022, 0.9) == pytest.approx(353.15, abs=0.01)


def test_heat_through_the_wall_is_the_heat_that_leaves_the_surface():
    """Balance of heat at the surface, identity of the two ways to count it."""
    wall = cylinder_resistance(0.012, 0.016, 0.4)
    water, air = np.linspace(313, 363, 6), np.linspace(263, 303, 6)
    surface = surface_temperature(water, air, wall, 0.016, 0.9)
    loss = linear_transmittance(water, air, surface, 0.016, 0.9) * (water - air)
    assert loss == pytest.approx((water - surface) / wall, rel=1e-9)


def test_bare_plastic_pipe_loses_more_than_with_a_film_of_ten():
    """Trade tables count a film of 10 W/m²K (0.4753 W/mK above); a thin pipe at 60 K has 15 to 16."""
    wall = cylinder_resistance(0.012, 0.016, 0.4)
    surface = surface_temperature(343.15, 283.15, wall, 0.016, 0.9)
    found = linear_transmittance(343.15, 283.15, surface, 0.016, 0.9)
    assert 0.4753073 < found < transmittance_with_film(wall, 18.0, 0.016)


def test_ring_that_stands_loses_by_its_length():
    """Closed form: 0.475 W/mK over 12 m at 60 K: 342 W; with flow without end the same."""
    assert standing_pipe_heat(0.475, 12.0, 343.15, 283.15) == pytest.approx(342)
    assert pipe_heat(0.475, 12.0, 1e5, 343.15, 283.15) == pytest.approx(342, rel=1e-3)
