"""Pump against circuit: where they meet, and how the circuit's curve bends."""

import numpy as np
import pytest
from fluids.friction import friction_factor

from dossier.physics.fluid import water
from dossier.project import load
from dossier.sizing.study import study

RING = """
format: 1
conditions: {outside_air: -10 degC, unheated_start: 2 degC}
zones:
  - id: saloon
    target: 20 degC
    volume: 30 m3
    sections: [{name: Deck, u_value: 2 W/m2K, area: 40 m2, faces: air}]
components:
  P1:
    kind: pump
    curve: [[0 l/min, 32 kPa], [8 l/min, 30 kPa], [16 l/min, 23 kPa], [24 l/min, 11 kPa], [29 l/min, 0 kPa]]
    power: 45 W
  B1: {kind: burner, output: {max: 8 kW}, flow_min: 7 l/min, pressure_drop: 5 kPa at 20 l/min}
  F1:
    kind: fan_coil
    zone: saloon
    air_from: saloon
    output: 6 kW
    at: {water_in: 80 degC, air_in: 18 degC, flow: 12 l/min}
    pressure_drop: 5 kPa at 12 l/min
circuit:
  coolant: {base: propylene glycol, share: 40 %, by: volume}
  ring:
    - unit: P1
    - unit: B1
    - pipe: {bore: 16 mm, roughness: 0.01 mm, length: 24 m, bends: 0}
    - unit: F1
electrics: {system: 24 V, lowest_voltage: 22 V}
"""


@pytest.fixture(scope="module")
def found(tmp_path_factory):
    path = tmp_path_factory.mktemp("ring") / "boat.yaml"
    path.write_text(RING, encoding="utf-8")
    return study(load(path))


def of(things, case):
    return next(thing for thing in things if thing.case == case)


@pytest.mark.parametrize("case", ["warm", "cold"])
def test_the_solved_point_lies_on_pump_line_and_circuit_curve(found, case):
    curves = found.system_curves
    line, curve, met = (of(t, case) for t in (curves.lines, curves.curves, curves.meetings))
    assert float(met.rise) == pytest.approx(np.interp(met.flow, line.flows, line.rises), rel=0.01)
    assert float(met.rise) == pytest.approx(np.interp(met.flow, curve.flows, curve.heads), rel=0.02)


def test_a_pipe_and_two_units_take_what_handbook_friction_says(found):
    """Darcy and Weisbach, friction factor by the library ``fluids`` (Colebrook); units by the square."""
    curve, liquid = of(found.system_curves.curves, "water"), found.coolant
    density, viscosity = water().density(float(liquid.working)), water().viscosity(float(liquid.working))
    for flow, head in zip(curve.flows[4:], curve.heads[4:], strict=True):
        speed = flow / (np.pi / 4 * 0.016**2)
        friction = friction_factor(Re=density * speed * 0.016 / viscosity, eD=0.01 / 16)
        pipe = friction * 24 / 0.016 * density * speed**2 / 2
        tested = density / water().density(293.15)
        units = tested * (5000 * (flow / (20 / 60000)) ** 2 + 5000 * (flow / (12 / 60000)) ** 2)
        assert head == pytest.approx(pipe + units, rel=0.03)


def test_cold_mix_takes_most_and_water_least(found):
    curves = found.system_curves.curves
    at = 8 / 60000
    cold, warm, plain = (
        np.interp(at, c.flows, c.heads) for c in (of(curves, n) for n in ("cold", "warm", "water"))
    )
    assert cold > warm > plain > 0


def test_margin_is_flow_beyond_the_burners_least(found):
    met = of(found.system_curves.meetings, "warm")
    assert float(met.margin) == pytest.approx(float(met.at_burner) - 7 / 60000)
