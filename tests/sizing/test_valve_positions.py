"""Valves that find their own position: thermostatic and three-way valves in the balance of a whole ring.

What a position must be follows from its own characteristic at the temperatures found (identities), and from
the mixing rule: the share of the hot way is (θ_m − θ_k)/(θ_h − θ_k).
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.notation import NotConverged
from dossier.sizing.valve_positions import Felt, Mixing, Thermostatic, positioned

HERE = Path(__file__).parent


def _module(path):
    if path.stem not in sys.modules:
        spec = spec_from_file_location(path.stem, path)
        sys.modules[path.stem] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[path.stem])
    return sys.modules[path.stem]


boat = _module(HERE.parent / "ring_boat.py")
BRANCH = boat.BRANCH
ITEMS = boat.changed({})["circuit"]["ring"][10]["branches"]


def felt(temperature):
    return Felt(lambda _tag: temperature, lambda _node: temperature)


def settle(control, temperature_at):
    """Position of one valve whose temperature follows its position."""

    def solve(kv):
        position = kv[next(iter(kv))] / control.kv_open
        return position, felt(temperature_at(position))

    return positioned([control], solve)[1][control.tag]


def test_thermostatic_valve_meets_its_own_line():
    """θ = 330 − 10·h and h = (θ − 318.15)/10 meet at h = 11.85/20."""
    valve = Thermostatic("V6", 2.5, 318.15, 328.15)
    assert settle(valve, lambda h: 330 - 10 * h) == pytest.approx(11.85 / 20, abs=1e-6)
    assert settle(valve, lambda _: 300.0) == 0
    assert settle(valve, lambda _: 340.0) == 1


def test_mixing_valve_finds_its_setting_or_stands_at_the_nearer_end():
    valve = Mixing("V12", ("a", "b"), 2.5, 323.15, 0)
    assert settle(valve, lambda h: 303.15 + 40 * h) == pytest.approx(0.5, abs=1e-6)
    assert settle(valve, lambda h: 343.15 - 40 * h) == pytest.approx(0.5, abs=1e-6)
    assert settle(valve, lambda h: 303.15 + 10 * h) == 1
    assert settle(valve, lambda h: 343.15 - 10 * h) == 1
    assert settle(valve, lambda h: 353.15 - 10 * h + 20 * (h > 0.5)) == 0


def test_two_valves_that_lean_on_each_other():
    one, other = Thermostatic("A", 1.0, 300.0, 320.0), Thermostatic("B", 1.0, 300.0, 320.0)

    def solve(kv):
        at = {"A": 316 - 6 * kv["B"], "B": 314 - 4 * kv["A"]}
        return kv, Felt(at.__getitem__, lambda _: 0.0)

    _, at = positioned([one, other], solve)
    # a = (16 − 6b)/20 and b = (14 − 4a)/20, solved by hand: a = 236/376, b = 216/376
    assert at["A"] == pytest.approx(236 / 376, abs=1e-6)
    assert at["B"] == pytest.approx(216 / 376, abs=1e-6)


def test_a_valve_that_hunts_is_named():
    valve = Thermostatic("V6", 2.5, 318.15, 328.15)
    with pytest.raises(NotConverged, match="V6 finds no steady position"):
        settle(valve, lambda h: 340.0 if h < 0.37 else 300.0)


def thermostatic(opens, full):
    """A thermostatic valve in the return of the saloon, after its fan coil."""
    valve = {"kind": "thermostatic_valve", "kv": "1.2 m3/h", "opens": opens, "full": full}
    return {"components.V6": valve, f"{BRANCH}.saloon": [*ITEMS["saloon"], {"unit": "V6"}]}


def test_flow_factor_follows_the_water_in_the_coupled_balance():
    ring = boat.study_of(thermostatic("55 degC", "75 degC")).ring
    for mode in ("heating", "night"):
        operation = ring.operations[mode]
        position = operation.outcome.positions["V6"]
        at = float(operation.heat.inlets["V6"])
        assert 0.05 < position < 0.95
        assert position == pytest.approx((at - 328.15) / 20, abs=1e-5)
        assert operation.outcome.kv["V6"] == pytest.approx(1.2 * position)
        edge = operation.flows.edges["V6"]
        assert float(edge.kv) == pytest.approx(1.2 * position)
        density = 1000 * float(edge.drop) / 1e5 * (float(edge.kv) / 3600 / float(edge.flow)) ** 2
        assert density == pytest.approx(float(ring.hydraulics.project and 1000.0), rel=0.02)


def test_a_valve_too_cold_shuts_and_a_warm_one_opens_fully():
    cold = boat.study_of(thermostatic("85 degC", "90 degC")).ring.operations["heating"]
    assert cold.outcome.positions["V6"] == 0
    assert float(cold.flows.branches["saloon"].flow) == 0
    assert {part.why for part in cold.standing if part.branch == "saloon"} == {"V6 is shut"}
    warm = boat.study_of(thermostatic("20 degC", "30 degC")).ring.operations["heating"]
    assert warm.outcome.positions["V6"] == 1


def three_way(setting, at="V12"):
    """Low-temperature group for the cabin: its supply mixed from the hot main and its own return."""
    return {
        "components.V12": {
            "kind": "three_way_valve",
            "kv": "3 m3/h",
            "setting": setting,
            "ways": ["through", "past"],
        },
        "components.M5": {"kind": "manifold"},
        "circuit.ring": [
            *boat.changed({})["circuit"]["ring"][:10],
            {
                "between": ["M5", at],
                "branches": {
                    "through": [
                        {"pipe": {"size": "pex 16x2.0", "length": "4 m"}},
                        {"unit": "F1"},
                        {"unit": "F2"},
                        {"unit": "R3"},
                    ],
                    "past": [{"pipe": {"size": "pex 16x2.0", "length": "1 m"}}],
                },
            },
            boat.changed({})["circuit"]["ring"][11],
        ],
        "components.B1.output.min": "600 W",
        "modes": {"heating": {}},
    }


@pytest.mark.parametrize("setting", [69.5, 71.0, 72.0])
def test_mixing_valve_holds_its_setting_where_its_ways_meet(setting):
    operation = boat.study_of(three_way(f"{setting} degC")).ring.operations["heating"]
    heat, flows = operation.heat, operation.flows
    mixed = float(heat.inlets["ring_3"]) - 273.15
    assert mixed == pytest.approx(setting, abs=1e-4)
    cooled, hot = (float(heat.outlets[f"V12 {way}"]) - 273.15 for way in ("through", "past"))
    assert cooled < setting < hot
    solution = operation.outcome.solution
    chains = boat.study_of(three_way(f"{setting} degC")).circuit
    through, past = (
        solution.mass_flow[solution.network.run_index[chains.chain_of(f"V12 {way}").name]]
        for way in ("through", "past")
    )
    assert past / (past + through) == pytest.approx((setting - cooled) / (hot - cooled), abs=1e-5)
    assert float(flows.edges["V12"].drop) == 0


def test_mixing_valve_asked_for_too_much_stands_at_its_end():
    operation = boat.study_of(three_way("95 degC")).ring.operations["heating"]
    assert operation.outcome.positions["V12"] == 0
    assert float(operation.flows.edges["F1"].flow) == 0


def test_a_mode_may_set_a_valve_that_else_finds_its_own_position():
    changes = {**thermostatic("55 degC", "75 degC"), "modes.heating.set.V6": "0.5 m3/h"}
    operation = boat.study_of(changes).ring.operations["heating"]
    assert not operation.outcome.positions
    assert float(operation.flows.edges["V6"].kv) == 0.5


def test_in_the_cold_a_thermostatic_valve_is_shut_and_a_three_way_valve_asks_for_heat():
    cold = boat.study_of(thermostatic("45 degC", "55 degC")).cold_start
    assert float(cold.flows.edges["V6"].flow) == 0
    cold = boat.study_of(three_way("65 degC")).cold_start
    assert float(cold.flows.edges["V12 through"].flow) == 0
    assert float(cold.flows.edges["V12 past"].flow) > 0


def test_open_paths_try_both_ends_of_a_three_way_valve():
    paths = boat.study_of(three_way("65 degC")).ring.open_paths["heating"]
    assert paths.automatic == ("V12",)
    assert paths.states == 2
    assert float(paths.paths) == 1
