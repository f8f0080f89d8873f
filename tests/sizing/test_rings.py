"""Flow and heat of whole circuits: what holds for every ring, by random project files.

Each is a law of the trade that needs no figures: what enters a node leaves it; heat given is heat lost; more
resistance means less flow everywhere in a ladder; the order of branches is a matter of writing; like branches
get like flows.
"""

import sys
from functools import cache
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.written_boat import as_text, in_full

HERE = Path(__file__).parent


def _module(path):
    if path.stem not in sys.modules:
        spec = spec_from_file_location(path.stem, path)
        sys.modules[path.stem] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[path.stem])
    return sys.modules[path.stem]


boat = _module(HERE.parent / "ring_boat.py")
rings = _module(HERE / "random_rings.py")
FEW = settings(max_examples=15, deadline=None, derandomize=True)
drawn = pytest.mark.parametrize("seed", range(1000, 1015))


def study_of(whole):
    return boat.study_of_project(in_full(as_text(whole)))


@cache
def drawn_ring(seed):
    return study_of(rings.as_project(rings.Drawing(seed).circuit())).ring


@drawn
def test_what_enters_a_node_leaves_it(seed):
    ring = drawn_ring(seed)
    outcome = ring.operations["heating"].outcome
    network, flow = ring.hydraulics.network, outcome.solution.mass_flow
    left = np.zeros(len(network.nodes))
    np.add.at(left, network.end, flow)
    np.subtract.at(left, network.start, flow)
    assert np.abs(left).max() < 1e-8 * np.abs(flow).max()
    assert float(ring.flow_residual) < 1e-8


@drawn
def test_drops_round_every_pair_of_branches_agree(seed):
    """Branches between the same manifolds take the same pressure."""
    ring = drawn_ring(seed)
    flows = ring.operations["heating"].flows
    largest = max(float(pump.pressure_rise) for pump in flows.pumps.values())
    by_ends = {}
    for name, branch in ring.hydraulics.circuit.branches.items():
        if name in flows.branches and not _blocked(ring, name):
            by_ends.setdefault((branch.start, branch.end), []).append(float(flows.branches[name].drop))
    for drops in by_ends.values():
        assert max(drops) - min(drops) < 1e-5 * largest


def _blocked(ring, name):
    still = set(ring.operations["heating"].standing_still)
    return any(place.tag in still for place in ring.hydraulics.circuit.in_branch(name))


ladders = st.lists(
    st.tuples(st.floats(0.3, 3.0), st.floats(0.5, 15.0), st.sampled_from([10, 12, 13, 16])),
    min_size=2,
    max_size=6,
)


def ladder(branches, resistance=1.0, order=None):
    """A ring of parallel branches; ``resistance`` multiplies every drop but the pump's rise.

    Square-law parts alone (valves, and pipes as loss factors), so that a multiple is exact.
    """
    root = resistance**0.5
    components = {
        "P1": {
            "kind": "pump",
            "curve": [["0 l/min", "50 kPa"], ["30 l/min", "35 kPa"], ["60 l/min", "0 kPa"]],
        },
        "V0": {"kind": "shut_valve", "kv": f"{4 / root:.12g} m3/h"},
        "M1": {"kind": "manifold"},
        "M2": {"kind": "manifold"},
        "T1": {"kind": "header_tank", "volume": "8 l"},
    }
    lists = {}
    for number, (kv, loss, bore) in enumerate(branches):
        tag = f"V{number + 1}"
        components[tag] = {"kind": "shut_valve", "kv": f"{kv / root:.12g} m3/h"}
        pipe = {"bore": f"{bore} mm", "length": "1 mm", "k": f"{loss * resistance:.12g}", "roughness": "0 mm"}
        lists[f"b{number}"] = [{"unit": tag}, {"pipe": pipe}]
    if order is not None:
        lists = {name: lists[name] for name in (list(lists)[n] for n in order)}
    return {
        "format": "1",
        "document": {"number": "R-1", "revision": "A", "date": "2026-11-20"},
        "components": components,
        "circuit": {
            "coolant": {"base": "water"},
            "system": "open",
            "ring": [{"unit": "P1"}, {"unit": "V0"}, {"between": ["M1", "M2"], "branches": lists}],
            "header": {"unit": "T1", "joins_before": "P1"},
        },
    }


def branch_flows(whole):
    flows = study_of(whole).ring.operations["heating"].flows.branches
    return {name: float(branch.flow) for name, branch in flows.items()}


@FEW
@given(ladders)
def test_doubling_all_resistances_lowers_every_flow(branches):
    before, after = branch_flows(ladder(branches)), branch_flows(ladder(branches, 2.0))
    assert all(after[name] < before[name] for name in before)


@FEW
@given(ladders, st.randoms(use_true_random=False))
def test_the_order_of_branches_does_not_matter(branches, random):
    order = list(range(len(branches)))
    random.shuffle(order)
    before, after = branch_flows(ladder(branches)), branch_flows(ladder(branches, order=order))
    for name, flow in before.items():
        assert after[name] == pytest.approx(flow, rel=1e-8)


@FEW
@given(st.integers(2, 8), st.floats(0.3, 3.0), st.floats(0.5, 15.0))
def test_like_branches_get_like_flows(count, kv, loss):
    flows = list(branch_flows(ladder([(kv, loss, 13)] * count)).values())
    assert flows == pytest.approx([flows[0]] * count, rel=1e-9)


@FEW
@given(
    st.floats(-15, 10),
    st.floats(1, 12),
    st.floats(60, 85),
    st.sampled_from(["water", "ethylene glycol", "propylene glycol"]),
)
def test_heat_given_is_heat_lost(outside, output, setpoint, base):
    """Sources give what emitters and pipes take, in every mode, whatever the burner does."""
    changes = {
        "conditions.outside_air": f"{outside:.6f} degC",
        "components.B1.output": {"max": f"{output:.6f} kW", "min": f"{output / 2:.6f} kW"},
        "components.B1.setpoint": f"{setpoint:.6f} degC",
        "conditions.unheated_start": "5 degC",
    }
    if base == "water":
        changes["circuit.coolant"] = {"base": "water"}
    else:
        changes["circuit.coolant.base"] = base
    ring = boat.study_of(changes).ring
    assert not ring.not_solved
    assert float(ring.heat_residual) < 1e-6
    for operation in ring.operations.values():
        heat = operation.heat
        given_off = sum(float(source.output) for source in heat.sources.values())
        taken = sum(float(e.given) for e in heat.emitters.values())
        taken += sum(float(pipe.loss) for pipe in heat.pipes.values())
        assert given_off == pytest.approx(taken, rel=1e-5, abs=0.01)
