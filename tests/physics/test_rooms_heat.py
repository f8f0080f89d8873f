"""Emitters as the circuit asks them: any flow, any samples, either direction of heat."""

import numpy as np
import pytest

from dossier.notation import Line, Traced, lines_behind
from dossier.physics.emitter import (
    FanCoil,
    Radiator,
    ducted_air_flow,
    fan_coil_conductance,
    stopped_output,
)
from dossier.physics.floor_loop import FloorLoop, floor_heat, floor_resistance, floor_surface, heat_flux

EMITTERS = {
    "fan coil": FanCoil.rated(3600.0, 560.0, 77.4, 353.15, 291.15),
    "radiator": Radiator.rated_at(900.0, 348.15, 338.15, 293.15, 1.3),
    "floor loop": FloorLoop(4.0, 0.12),
}


@pytest.mark.parametrize("emitter", EMITTERS.values(), ids=EMITTERS)
def test_output_for_one_is_the_output_for_many(emitter):
    water, rate, room = (
        np.array([355.0, 320.0, 300.0, 280.0, 293.0, 340.0]),
        np.array([0.0, 3.0, 150.0, 40.0, 70.0, 1e4]),
        np.array([290.0, 295.0, 270.0, 293.0, 293.0, 288.0]),
    )
    each = [emitter.output(*map(float, given)) for given in zip(water, rate, room, strict=True)]
    assert emitter.output(water, rate, room) == pytest.approx(each, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("emitter", EMITTERS.values(), ids=EMITTERS)
def test_output_never_exceeds_what_the_water_carries_to_the_room(emitter):
    rates = np.geomspace(0.01, 1e4, 60)
    heat = emitter.output(345.0, rates, 293.0)
    assert np.all(heat <= rates * 52 * (1 + 1e-12))
    assert np.all(np.diff(heat) > 0)
    trickle = emitter.output(345.0, 0.01, 293.0)
    assert trickle == pytest.approx(0.01 * 52, rel=0.05)


@pytest.mark.parametrize("emitter", EMITTERS.values(), ids=EMITTERS)
def test_cold_water_takes_heat_from_the_room(emitter):
    assert emitter.output(283.0, 100.0, 293.0) < 0
    assert emitter.output(293.0, 100.0, 293.0) == 0
    assert emitter.output(345.0, 0.0, 293.0) == 0


@pytest.mark.parametrize("emitter", EMITTERS.values(), ids=EMITTERS)
def test_output_remembers_the_lines_of_room_and_water(emitter):
    room = Traced(293.15, Line("zones.saloon.target", "20 degC"))
    assert [line.key for line in lines_behind(emitter.output(345.0, 120.0, room))] == ["zones.saloon.target"]


def test_rated_points_are_met_again():
    assert EMITTERS["fan coil"].output(353.15, 560.0, 291.15) == pytest.approx(3600, rel=1e-9)
    assert EMITTERS["radiator"].output(348.15, 90.0, 293.15) == pytest.approx(900, rel=1e-9)


def test_quiet_fan_and_duct():
    """UA follows the air flow to the 0.6, a duct takes a fifth (common practice, no source)."""
    assert ducted_air_flow(0.1, 0.2) == pytest.approx(0.08)
    assert fan_coil_conductance(100.0, 0.05, 0.1, 0.6) == pytest.approx(100 * 0.5**0.6)
    assert fan_coil_conductance(100.0, 0.0, 0.1, 0.6) == 0
    assert stopped_output(3000.0, 0.075) == pytest.approx(225)


def test_conductance_may_follow_the_water_flow():
    stiff = FanCoil.rated(3600.0, 560.0, 77.4, 353.15, 291.15)
    soft = FanCoil(stiff.conductance, stiff.air_rate, stiff.rated_water_rate, 0.3)
    assert soft.output(353.15, 560.0, 291.15) == pytest.approx(3600, rel=1e-9)
    assert soft.output(353.15, 140.0, 291.15) < stiff.output(353.15, 140.0, 291.15)
    assert soft.output(353.15, np.array([140.0, 560.0]), 291.15)[1] == pytest.approx(3600, rel=1e-9)


def test_floor_gives_what_its_resistance_lets_through():
    """Balance: the flux through the floor is the flux of its surface."""
    resistance = floor_resistance(0.05, 0.1, 0.016, 0.012, 1.0, 0.4)
    assert resistance == pytest.approx(
        0.05 + 0.1 * (np.log(0.1 / (np.pi * 0.016)) / (2 * np.pi) + np.log(16 / 12) / (0.8 * np.pi))
    )
    heat = floor_heat(4.0, resistance, 318.15, 1e5, 293.15)
    flux = heat_flux(heat, 4.0)
    surface = floor_surface(flux, 293.15)
    assert 318.15 - surface == pytest.approx(flux * resistance, rel=1e-3)
    assert surface < 318.15


def test_carpet_cools_the_floor():
    rates = {
        covering: floor_heat(4.0, 0.07 + covering, 318.15, 90.0, 293.15) for covering in (0.0, 0.05, 0.15)
    }
    assert rates[0.0] > rates[0.05] > rates[0.15]
