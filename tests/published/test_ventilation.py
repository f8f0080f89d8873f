"""Ventilation loss against the convention of EN 12831 and the density of air by PsychroLib."""

import numpy as np
import pytest

from dossier.data.assumptions import assumed
from dossier.data.coefficients import coefficient
from dossier.physics.ventilation import (
    air_change_flow,
    breathing_air_flow,
    outside_air_flow,
    ventilation_conductance,
    ventilation_loss,
)

HOUR = 3600.0


def test_a_cubic_metre_of_air_takes_0_34_wh_for_each_kelvin():
    """EN 12831, all editions, from memory."""
    assert coefficient("envelope.air_heat_capacity") / HOUR == pytest.approx(0.34, abs=0.007)


def test_the_convention_lies_within_two_percent_of_dry_air():
    """PsychroLib 2.5.0, GetDryAirDensity(20, 101325) = 1.204152 kg/m3; specific heat 1006 J/kgK."""
    assert coefficient("envelope.air_heat_capacity") == pytest.approx(1.204152 * 1006, rel=0.02)


@pytest.mark.parametrize(
    ("changes", "volume", "celsius", "loss"),
    [(1.5, 9.5, (19, -8), 130.815), (0.5, 30, (20, -10), 153.0), (2.0, 12, (21, 0), 171.36)],
)
def test_ventilation_loss_by_the_convention(changes, volume, celsius, loss):
    """Arithmetic: 0.34·n·V·(θ_i − θ_e)."""
    flow = air_change_flow(changes / HOUR, float(volume))
    inside, outside = (273.15 + t for t in celsius)
    heat_capacity = coefficient("envelope.air_heat_capacity")
    assert ventilation_loss(heat_capacity, flow, inside, outside) == pytest.approx(loss, rel=1e-6)
    assert ventilation_conductance(heat_capacity, flow) * (inside - outside) == pytest.approx(loss, rel=1e-6)


def test_the_larger_of_both_flows_counts():
    """4 l/s a person, common practice, no source: four people need 16 l/s, 34 m3 at 1.5 1/h give 14.2."""
    by_people = breathing_air_flow(4.0, assumed("zones.air_per_person"))
    by_changes = air_change_flow(1.5 / HOUR, 34.0)
    assert by_people == pytest.approx(0.016)
    assert by_changes == pytest.approx(0.0141667, rel=1e-5)
    assert outside_air_flow(by_changes, by_people) == by_people
    assert outside_air_flow(np.array([0.02, 0.01]), 0.016) == pytest.approx([0.02, 0.016])
