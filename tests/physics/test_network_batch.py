"""Many cases at once give what one after the other does."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dossier.notation import NotConverged
from dossier.physics import network_newton
from dossier.physics.network import Network
from dossier.physics.network_batch import solve_batch
from dossier.physics.network_elements import CheckValve, CircuitFault, Node, Pipe, Pump, Run, UnitTable, Valve


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


circuits = _beside("circuits")
DENSITY, VISCOSITY = circuits.DENSITY, circuits.VISCOSITY
quick = settings(max_examples=25, deadline=None, derandomize=True)


def every_combination(network, branches):
    """Open runs of all combinations of open and shut branches."""
    cases = 2**branches
    open_runs = np.ones((len(network.runs), cases), dtype=bool)
    for number in range(branches):
        open_runs[network.run_index[f"branch{number}"]] = (np.arange(cases) >> number) & 1
    return open_runs


def singly(network, open_runs, case):
    shut = [run.name for place, run in enumerate(network.runs) if not open_runs[place, case]]
    return network.solve(DENSITY, VISCOSITY, shut=shut)


def test_every_combination_of_a_ladder_flows_as_it_does_alone():
    network = Network(*circuits.ladder(6))
    open_runs = every_combination(network, 6)
    batch = solve_batch(network, DENSITY, VISCOSITY, open_runs)
    assert batch.mass_flow.shape == open_runs.shape
    assert max(batch.flow_residual.max(), batch.energy_residual.max()) < 1e-8
    for case in range(64):
        alone = singly(network, open_runs, case)
        assert batch.mass_flow[:, case] == pytest.approx(alone.mass_flow, rel=1e-7, abs=1e-9)
        flowing = alone.mass_flow != 0
        assert batch.drop[flowing, case] == pytest.approx(alone.run_drop[flowing], rel=1e-6, abs=1e-4)


@given(st.integers(0, 10_000), st.floats(0.5, 0.95))
@quick
def test_random_shut_runs_leave_the_same_flows(seed, share):
    """Parts without known pressure, dead ends and islands among them."""
    nodes, runs = circuits.ladder(5, seed)
    network = Network(nodes, runs)
    open_runs = np.random.default_rng(seed).random((len(runs), 20)) < share
    batch = solve_batch(network, DENSITY, VISCOSITY, open_runs)
    for case in range(20):
        alone = singly(network, open_runs, case).mass_flow
        assert batch.mass_flow[:, case] == pytest.approx(alone, rel=1e-7, abs=1e-8)


def test_more_cases_than_go_side_by_side():
    network = Network(*circuits.ladder(9))
    open_runs = every_combination(network, 9)
    flow = solve_batch(network, DENSITY, VISCOSITY, open_runs).mass_flow
    for case in (0, 1, 255, 256, 511):
        assert flow[:, case] == pytest.approx(singly(network, open_runs, case).mass_flow, rel=1e-7, abs=1e-9)


def test_samples_of_liquid_valve_and_speed_stand_in_their_columns():
    network = Network(*circuits.ladder(3))
    open_runs = np.ones((len(network.runs), 4), dtype=bool)
    density, viscosity = np.array([980.0, 1000.0, 1030.0, 1050.0]), np.array([4e-4, 1e-3, 5e-3, 2e-2])
    kv, speed = np.array([0.5, 1.0, 0.0, 2.0]), np.array([1.0, 0.9, 0.8, 1.1])
    many = len(network.elements.names)
    batch = solve_batch(
        network,
        np.tile(density, (many, 1)),
        np.tile(viscosity, (many, 1)),
        open_runs,
        kv={"valve 1": kv},
        speed={"circulator": speed},
    )
    for case in range(4):
        alone = network.solve(
            density[case],
            viscosity[case],
            kv={"valve 1": float(kv[case])},
            speed={"circulator": float(speed[case])},
        )
        assert batch.mass_flow[:, case] == pytest.approx(alone.mass_flow, rel=1e-7, abs=1e-9)


def test_heights_check_valves_and_tables_go_side_by_side_too():
    nodes = [Node("header", 1.2e5), Node("supply"), Node("loft")]
    table = UnitTable("U", (1e-4, 3e-4), (2e3, 14e3), 1000.0)
    runs = [
        Run("pump", 0, 1, (Pump("P", circuits.parabolic(6e-4, 40e3)), CheckValve("C", 4.0))),
        Run("up", 1, 2, (Pipe("a", 0.012, 6.0, rise=2.0), table)),
        Run("down", 2, 0, (Pipe("b", 0.012, 6.0, rise=-2.0), Valve("V", 1.6))),
        Run("bypass", 1, 0, (Valve("B", 0.6),)),
    ]
    network = Network(nodes, runs)
    open_runs = np.array([[1, 1, 0], [1, 1, 1], [1, 1, 1], [1, 0, 1]], dtype=bool)
    density = np.array([975.0, 975.0, 975.0, 995.0, 995.0, 995.0])[:6]
    density = np.resize(density, len(network.elements.names))
    flow = solve_batch(network, density, VISCOSITY, open_runs).mass_flow
    for case in range(3):
        shut = [run.name for place, run in enumerate(runs) if not open_runs[place, case]]
        alone = network.solve(density, VISCOSITY, shut=shut).mass_flow
        assert flow[:, case] == pytest.approx(alone, rel=1e-6, abs=1e-8)


def test_valve_shut_as_given_stays_shut_in_every_case():
    nodes, runs = circuits.ladder(2)
    runs[-1] = Run("branch1", runs[-1].start, runs[-1].end, (Valve("V", 0.0),))
    network = Network(nodes, runs)
    open_runs = np.ones((len(runs), 2), dtype=bool)
    assert (solve_batch(network, DENSITY, VISCOSITY, open_runs).mass_flow[-1] == 0).all()
    opened = solve_batch(network, DENSITY, VISCOSITY, open_runs, kv={"V": np.array([0.0, 1.0])}).mass_flow
    assert opened[-1, 0] == 0
    assert opened[-1, 1] > 0


def test_loop_without_resistance_is_refused_where_a_case_opens_it():
    nodes = [Node("header", 1e5), Node("other")]
    runs = [Run("pipe", 0, 1, (Pipe("p", 0.012, 3.0),)), Run("bare", 0, 1, ()), Run("bare too", 1, 0, ())]
    network = Network(nodes, runs)
    closed = np.array([[1, 1], [1, 0], [0, 1]], dtype=bool)
    assert (solve_batch(network, DENSITY, VISCOSITY, closed).mass_flow == 0).all()
    with pytest.raises(CircuitFault, match="no limit: bare, bare too"):
        solve_batch(network, DENSITY, VISCOSITY, np.ones((3, 2), dtype=bool))


def test_wrong_shapes_and_liquids_are_refused():
    network = Network(*circuits.ladder(2))
    with pytest.raises(CircuitFault, match="rows of open runs"):
        solve_batch(network, DENSITY, VISCOSITY, np.ones((3, 2), dtype=bool))
    with pytest.raises(CircuitFault, match="not above nothing"):
        solve_batch(network, -1.0, VISCOSITY, np.ones((len(network.runs), 2), dtype=bool))


def test_search_cut_short_names_case_and_run(monkeypatch):
    monkeypatch.setattr(network_newton, "STEPS", 2)
    network = Network(*circuits.ladder(4))
    with pytest.raises(NotConverged, match=r"no proven flow of case \d+ after 2 steps"):
        solve_batch(network, DENSITY, VISCOSITY, every_combination(network, 4))
