"""Random circuits and ladders against EPANET 2.2 (through wntr), up to some 180 runs.

What is expected to differ: EPANET has Swamee-Jain's friction factor, up to 3 % from Colebrook's root near Re
4000 and some per mille beyond 1e4, and flows have half of that. So flows are compared twice: with our own
friction within 1 % of the largest flow, and with EPANET's friction put in place of ours to 1 part in 200 even
of small flows, which leaves nothing but the solvers to differ.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest

from dossier.physics import network_laws
from dossier.physics.network import Network
from dossier.physics.network_elements import Node, Pipe, Run


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


circuits, epanet = _beside("circuits"), _beside("epanet_oracle")

WATER, VISCOSITY = 1000.0, 1e-3


def friction_of_epanet(reynolds, roughness, _):
    """EPANET 2.2 User Manual, analysis algorithms: f·Re and d(f·Re²)/dRe, as ``pipe.friction`` gives them."""
    turbulent = np.maximum(reynolds, 4000.0)
    inside = roughness / 3.7 + 5.74 / turbulent**0.9
    logarithm = np.log10(inside)
    factor = 0.25 / logarithm**2
    tilt = 0.5 / logarithm**3 * 5.74 * 0.9 / turbulent**1.9 / inside / np.log(10)
    y2 = roughness / 3.7 + 5.74 / 4000**0.9
    y3 = -0.86859 * np.log(y2)
    a = y3**-2
    b = a * (2 - 0.00514215 / (y2 * y3))
    r = reynolds / 2000
    x = 7 * a - b, 0.128 - 17 * a + 2.5 * b, -0.128 + 13 * a - 2 * b, 0.032 - 3 * a + 0.5 * b
    cubic = x[0] + r * (x[1] + r * (x[2] + r * x[3]))
    cubic_tilt = (x[1] + r * (2 * x[2] + r * 3 * x[3])) / 2000
    factor, tilt = np.where(reynolds < 4000, cubic, factor), np.where(reynolds < 4000, cubic_tilt, tilt)
    laminar = reynolds <= 2000
    number = np.where(laminar, 64.0, factor * reynolds)
    return number, np.where(laminar, 64.0, 2 * factor * reynolds + tilt * reynolds**2)


@pytest.mark.parametrize("seed", range(100))
def test_tangle_has_the_flows_of_epanet(seed, monkeypatch):
    nodes, runs = circuits.tangle(seed, WATER * epanet.GRAVITY, rough=seed % 2 == 0)
    network = Network(nodes, runs)
    theirs, their_pressure = epanet.solved(nodes, runs, WATER, VISCOSITY)
    largest = np.abs(theirs).max()

    ours = network.solve(WATER, VISCOSITY)
    assert np.abs(ours.mass_flow - theirs).max() < 0.01 * largest
    assert max(ours.residual.flow, ours.residual.energy) < 1e-8

    monkeypatch.setattr(network_laws, "friction", friction_of_epanet)
    same = network.solve(WATER, VISCOSITY)
    size = np.maximum(np.abs(theirs), 0.05 * largest)
    assert (np.abs(same.mass_flow - theirs) / size).max() < 0.005
    assert np.abs(same.pressure - their_pressure).max() < 0.002 * their_pressure.max()


@pytest.mark.parametrize("branches", [1, 2, 3, 5, 10, 20, 40, 66])
def test_ladder_has_the_flows_of_epanet(branches):
    """Smooth turbulent flow in all branches: within 1 % each."""
    nodes, runs = circuits.ladder(branches, plain=True)
    ours = Network(nodes, runs).solve(circuits.DENSITY, circuits.VISCOSITY)
    theirs, _ = epanet.solved(nodes, runs, circuits.DENSITY, circuits.VISCOSITY)
    assert np.nanmin(ours.reynolds) > 4000
    assert ours.mass_flow == pytest.approx(theirs, rel=0.01)


@pytest.mark.parametrize("shut", [{"branch0"}, {"branch3", "branch4"}, {"flow1", "back1"}])
def test_ladder_with_shut_runs_has_the_flows_of_epanet(shut):
    nodes, runs = circuits.ladder(6, plain=True)
    ours = Network(nodes, runs).solve(circuits.DENSITY, circuits.VISCOSITY, shut=shut)
    theirs, _ = epanet.solved(nodes, runs, circuits.DENSITY, circuits.VISCOSITY, shut)
    assert ours.mass_flow == pytest.approx(theirs, rel=0.01, abs=1e-5)


def test_cubic_of_the_transition_is_that_of_epanet(monkeypatch):
    """Reproduces the source of our transition: one smooth pipe at Re 2000 to 4000."""
    monkeypatch.setattr(network_laws, "friction", friction_of_epanet)
    runs = [Run("pipe", 0, 1, (Pipe("p", 0.02, 30.0),))]
    for reynolds in np.linspace(1900, 4100, 12):
        flow = reynolds * np.pi * 0.02 * VISCOSITY / 4
        nodes = [Node("in", demand=-float(flow)), Node("out", pressure=WATER * epanet.GRAVITY * 10)]
        _, pressure = epanet.solved(nodes, runs, WATER, VISCOSITY)
        ours = Network(nodes, runs).solve(WATER, VISCOSITY)
        assert ours.run_drop[0] == pytest.approx(pressure[0] - pressure[1], rel=2e-3)
