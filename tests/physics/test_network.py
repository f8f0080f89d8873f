"""A circuit solved: what holds whatever the circuit, and what a circuit may not be."""

import pickle
import sys
from importlib.util import module_from_spec, spec_from_file_location
from math import inf
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dossier.notation import NotConverged
from dossier.physics import network_newton
from dossier.physics.network import Network
from dossier.physics.network_elements import (
    CheckValve,
    CircuitFault,
    Fitting,
    Node,
    Pipe,
    Pump,
    Run,
    Unit,
    UnitTable,
    Valve,
)
from dossier.physics.pump import STANDARD_GRAVITY, PumpCurve


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


circuits = _beside("circuits")
DENSITY, VISCOSITY = circuits.DENSITY, circuits.VISCOSITY

quick = settings(max_examples=25, deadline=None, derandomize=True)
seeds = st.integers(0, 10_000)
PUMP = PumpCurve((0.0, 1.7e-4, 3.3e-4, 5e-4, 6.7e-4), (62e3, 57e3, 45e3, 26e3, 0.0), 1000.0)


def ring(*branches, extra=()):
    """Pump and two mains with branches between their ends; the header holds 1.2 bar at the pump's inlet."""
    nodes = [Node("header", 1.2e5), Node("outlet"), Node("supply"), Node("return")]
    runs = [
        Run("pump", 0, 1, (Pump("P1", PUMP),)),
        Run("flow", 1, 2, (Pipe("H1", 0.019, 3.0, 1e-5, 4.0),)),
        Run("back", 3, 0, (Pipe("H2", 0.019, 3.0, 1e-5, 4.0),)),
        *(Run(f"branch{n}", 2, 3, elements) for n, elements in enumerate(branches)),
        *extra,
    ]
    return Network(nodes, runs)


def branch(number, length=8.0, *more):
    return (Pipe(f"pipe{number}", 0.012, length, 7e-6, 4.5), *more)


def imbalance(network, flow):
    """What enters each node less what leaves it."""
    total = -network.demand
    np.add.at(total, network.end, flow)
    np.subtract.at(total, network.start, flow)
    return total


@given(seeds)
@quick
def test_what_enters_a_node_leaves_it(seed):
    network = Network(*circuits.tangle(seed, 9810.0))
    flow = network.solve(1000.0, 1e-3).mass_flow
    unknown = np.isnan(network.pressure)
    assert np.abs(imbalance(network, flow)[unknown]).max() < 1e-8 * np.abs(flow).max()


@given(seeds)
@quick
def test_drops_of_every_open_run_make_up_the_difference_of_its_ends(seed):
    """So they sum to nothing round every loop."""
    network = Network(*circuits.tangle(seed, 9810.0))
    solution = network.solve(1000.0, 1e-3)
    between = solution.pressure[network.start] - solution.pressure[network.end]
    flowing = ~np.isin(np.arange(len(network.runs)), [network.run_index[n] for n in solution.blocked])
    largest = np.abs(solution.run_drop).max()
    assert np.abs(between - solution.run_drop)[flowing].max() < 1e-8 * max(largest, np.abs(between).max())


@given(seeds)
@quick
def test_check_valves_let_nothing_back_and_hold_only_against_pressure(seed):
    network = Network(*circuits.tangle(seed, 9810.0))
    solution = network.solve(1000.0, 1e-3)
    one_way = network.elements.one_way
    assert (solution.mass_flow[one_way] >= 0).all()
    for name in solution.blocked:
        run = network.run_index[name]
        assert solution.mass_flow[run] == 0
        assert solution.surplus[run] < 0


@given(st.integers(1, 30), seeds, st.floats(1.05, 4.0))
@quick
def test_more_resistance_everywhere_lowers_every_flow_of_a_ladder(branches, seed, factor):
    nodes, runs = circuits.ladder(branches, seed)
    longer = [
        Run(
            run.name,
            run.start,
            run.end,
            tuple(
                Pipe(e.name, e.bore, e.length * factor, e.roughness, e.loss * factor)
                if isinstance(e, Pipe)
                else Valve(e.name, e.kv / factor**0.5)
                if isinstance(e, Valve)
                else Unit(e.name, e.flow, e.drop * factor, e.density, e.viscosity)
                if isinstance(e, Unit)
                else e
                for e in run.elements
            ),
        )
        for run in runs
    ]
    before = Network(nodes, runs).solve(DENSITY, VISCOSITY).mass_flow
    after = Network(nodes, longer).solve(DENSITY, VISCOSITY).mass_flow
    assert (after < before).all()


@given(st.integers(1, 12), seeds, st.randoms(use_true_random=False))
@quick
def test_order_of_the_runs_does_not_matter(branches, seed, draw):
    nodes, runs = circuits.ladder(branches, seed)
    mixed = list(runs)
    draw.shuffle(mixed)
    first, second = Network(nodes, runs), Network(nodes, mixed)
    one, other = first.solve(DENSITY, VISCOSITY), second.solve(DENSITY, VISCOSITY)
    for run in runs:
        assert other.mass_flow[second.run_index[run.name]] == pytest.approx(
            one.mass_flow[first.run_index[run.name]], rel=1e-9
        )


def test_direction_of_a_run_turns_the_sign_and_nothing_else():
    nodes = [Node("in", 1.3e5), Node("out", 1e5)]
    pipe = (Pipe("p", 0.012, 5.0, 7e-6, 3.0),)
    forth = Network(nodes, [Run("r", 0, 1, pipe)]).solve(DENSITY, VISCOSITY)
    back = Network(nodes, [Run("r", 1, 0, pipe)]).solve(DENSITY, VISCOSITY)
    assert back.mass_flow[0] == pytest.approx(-forth.mass_flow[0])
    assert back.drop[0] == pytest.approx(-forth.drop[0])


def test_equal_branches_share_the_flow():
    solution = ring(*(branch(n) for n in range(5))).solve(DENSITY, VISCOSITY)
    shares = solution.mass_flow[3:]
    assert shares == pytest.approx(np.full(5, shares.mean()), rel=1e-12)


def test_run_cut_in_pieces_flows_as_the_whole():
    """Runs in series are one resistance."""
    nodes = [Node("in", 1.3e5), Node("out", 1e5), *(Node(f"n{n}") for n in range(9))]
    pieces = [
        Run(
            f"r{n}",
            n + 1 if n > 1 else (0 if n == 0 else 2),
            1 if n == 9 else n + 2,
            (Pipe(f"p{n}", 0.012, 0.5),),
        )
        for n in range(10)
    ]
    whole = Network(nodes[:2], [Run("r", 0, 1, (Pipe("p", 0.012, 5.0),))]).solve(DENSITY, VISCOSITY)
    flows = Network(nodes, pieces).solve(DENSITY, VISCOSITY).mass_flow
    assert flows == pytest.approx(np.full(10, whole.mass_flow[0]), rel=1e-9)


def test_ring_of_a_single_run_flows():
    nodes = [Node("header", 1.2e5)]
    run = Run("ring", 0, 0, (Pump("P1", PUMP), Pipe("H", 0.016, 12.0, 1e-5, 10.0)))
    solution = Network(nodes, [run]).solve(DENSITY, VISCOSITY)
    assert solution.drop.sum() == pytest.approx(0, abs=1e-3)
    assert -solution.drop[0] == pytest.approx(PUMP.rise(solution.volume_flow[0], 1.0, DENSITY))
    assert 1e-4 < solution.volume_flow[0] < 6e-4


def test_mass_is_kept_where_volume_is_not():
    """Warm and cool pipes of one run carry one mass flow."""
    network = ring(branch(0, 8.0, Fitting("cooled", 0.012, 1.0)))
    density = np.full(len(network.elements.names), 970.0)
    density[network.element_index["cooled"]] = 990.0
    solution = network.solve(density, VISCOSITY)
    warm, cool = (solution.volume_flow[network.element_index[name]] for name in ("pipe0", "cooled"))
    assert warm * 970 == pytest.approx(cool * 990)


def test_warm_column_beside_a_cold_one_circulates_by_itself():
    """Hagen-Poiseuille against Δρ·g·h: 20 m of 20 mm pipe, 2 m high, 972 beside 992 kg/m³ of thick oil."""
    nodes = [Node("bottom", 1.5e5), Node("top")]
    viscosity, bore = 0.05, 0.02
    runs = [
        Run("riser", 0, 1, (Pipe("warm", bore, 10.0, rise=2.0),)),
        Run("downcomer", 1, 0, (Pipe("cold", bore, 10.0, rise=-2.0),)),
    ]
    solution = Network(nodes, runs).solve(np.array([972.0, 992.0]), viscosity)
    resistance = 128 * viscosity * 10 / (np.pi * bore**4) * (1 / 972 + 1 / 992)
    assert solution.mass_flow[0] == pytest.approx(20 * STANDARD_GRAVITY * 2 / resistance, rel=1e-6)
    assert solution.pressure[1] == pytest.approx(1.5e5 - 982 * STANDARD_GRAVITY * 2, abs=30)


def test_pressure_falls_with_height_and_along_the_run():
    nodes = [Node("low", 2e5), Node("high", 1e5)]
    parts = (Pipe("a", 0.012, 5.0, rise=1.5), Valve("v", 1.6), Pipe("b", 0.012, 5.0, rise=0.5))
    solution = Network(nodes, [Run("r", 0, 1, parts)]).solve(DENSITY, VISCOSITY)
    weight = DENSITY * STANDARD_GRAVITY
    assert solution.inlet_pressure[0] == pytest.approx(2e5)
    assert solution.inlet_pressure[1] == pytest.approx(2e5 - solution.drop[0] - 1.5 * weight)
    assert solution.inlet_pressure[2] == pytest.approx(solution.inlet_pressure[1] - solution.drop[1])
    assert solution.drop.sum() == pytest.approx(1e5 - 2 * weight, rel=1e-9)


def test_pump_at_less_speed_moves_less():
    network = ring(branch(0), branch(1))
    full, slow = (network.solve(DENSITY, VISCOSITY, speed={"P1": ratio}) for ratio in (1.0, 0.8))
    flow, rise = -slow.mass_flow[0] / DENSITY, -slow.drop[0]
    assert -flow < full.mass_flow[0] / DENSITY
    assert rise == pytest.approx(PUMP.rise(-flow, 0.8, DENSITY))


def test_flow_beyond_the_curve_is_told():
    nodes = [Node("header", 1.2e5), Node("outlet")]
    runs = [Run("pump", 0, 1, (Pump("P1", PUMP),)), Run("wide", 1, 0, (Pipe("p", 0.05, 1.0),))]
    assert Network(nodes, runs).solve(DENSITY, VISCOSITY).beyond == ()
    pushed = [*nodes[:1], Node("outlet", 0.9e5)]
    assert Network(pushed, runs).solve(DENSITY, VISCOSITY).beyond == ("P1",)


def test_shut_valve_shuts_its_run_and_holds_what_stands_across_it():
    network = ring(branch(0), branch(1, 8.0, Valve("V1", 1.6)))
    solution = network.solve(DENSITY, VISCOSITY, kv={"V1": 0.0})
    run, valve = network.run_index["branch1"], network.element_index["V1"]
    assert solution.mass_flow[run] == 0
    assert solution.closed == ("branch1",)
    across = solution.pressure[network.start[run]] - solution.pressure[network.end[run]]
    assert solution.drop[valve] == pytest.approx(across)
    assert solution.inlet_pressure[valve] == pytest.approx(solution.pressure[network.start[run]])


def test_dead_leg_stands_still_and_is_named():
    far = Run("to radiator", 2, 4, (Pipe("leg", 0.012, 2.0),))
    near = Run("from radiator", 4, 3, (Valve("V9", 0.0), Pipe("leg2", 0.012, 2.0)))
    nodes = [Node("header", 1.2e5), Node("outlet"), Node("supply"), Node("return"), Node("radiator")]
    network = Network(nodes, [*ring(branch(0)).runs, far, near])
    solution = network.solve(DENSITY, VISCOSITY)
    assert solution.standing_still == ("to radiator",)
    assert solution.closed == ("from radiator",)
    assert solution.pressure[4] == pytest.approx(solution.pressure[2])


def test_part_that_nothing_holds_is_named_and_has_no_pressure():
    network = ring(branch(0))
    solution = network.solve(DENSITY, VISCOSITY, shut=["pump", "back"])
    assert set(solution.adrift) == {("outlet", "supply", "return")}
    assert np.isnan(solution.pressure[1:]).all()
    assert solution.pressure[0] == 1.2e5
    assert (solution.mass_flow == 0).all()


def test_circuit_without_any_drive_stands_still():
    nodes = [Node("header", 1.2e5), Node("other")]
    runs = [
        Run("a", 0, 1, (Pipe("p", 0.012, 5.0), Valve("v", 1.0))),
        Run("b", 1, 0, (Valve("w", 2.0),)),
    ]
    solution = Network(nodes, runs).solve(DENSITY, VISCOSITY)
    assert (solution.mass_flow == 0).all()
    assert solution.pressure == pytest.approx([1.2e5, 1.2e5])


def test_pump_against_shut_valves_gives_its_head_at_no_flow():
    network = ring(branch(0))
    solution = network.solve(DENSITY, VISCOSITY, shut=["branch0"])
    assert (solution.mass_flow == 0).all()
    assert solution.pressure[2] - solution.pressure[0] == pytest.approx(62e3 * DENSITY / 1000)


def test_check_valve_keeps_a_standing_pump_from_short_circuit():
    curve = circuits.parabolic(5e-4, 30e3)
    nodes = [Node("header", 1.2e5), Node("supply")]
    runs = [
        Run("strong", 0, 1, (Pump("P1", PUMP), CheckValve("C1", 5.0))),
        Run("weak", 0, 1, (Pump("P2", curve, 0.5), CheckValve("C2", 5.0))),
        Run("system", 1, 0, (Pipe("p", 0.012, 8.0, 7e-6, 10.0),)),
    ]
    solution = Network(nodes, runs).solve(DENSITY, VISCOSITY)
    assert solution.blocked == ("weak",)
    assert solution.mass_flow[1] == 0
    assert solution.mass_flow[0] == pytest.approx(solution.mass_flow[2])


def test_tee_that_draws_is_solved():
    """Crane TP-410M, worked problem 7.35: K = −0.0422; the run as a whole still resists, or hardly does."""
    tee = Fitting("tee", 0.019, -0.0422)
    alone = ring(branch(0), branch(1), extra=[Run("tee run", 2, 3, (tee, Valve("V", 2.5)))])
    assert alone.solve(DENSITY, VISCOSITY).residual.energy < 1e-8
    nodes = [*ring(branch(0)).nodes, Node("joint")]
    runs = [
        *ring(branch(0)).runs[:3],
        Run("branch0", 2, 4, branch(0)),
        Run("only a tee", 4, 3, (tee,)),
    ]
    network = Network(nodes, runs)
    solution = network.solve(DENSITY, VISCOSITY)
    assert solution.drop[network.element_index["tee"]] < 0
    assert max(solution.residual.flow, solution.residual.energy) < 1e-8


def test_held_branches_tell_what_their_valves_have_to_take():
    """Balancing: the longer branch has less to spare; valves of that drop keep the flows."""
    network = ring(branch(0, 3.0, Valve("V0", 5.0)), branch(1, 15.0, Valve("V1", 5.0)))
    wanted = {"branch0": 0.06, "branch1": 0.08}
    held = network.solve(DENSITY, VISCOSITY, held=wanted)
    assert held.mass_flow[0] == pytest.approx(0.14)
    spare = [held.surplus[network.run_index[name]] for name in wanted]
    assert spare[0] > spare[1] > 0
    kvs = {}
    for number in range(2):
        place = network.element_index[f"V{number}"]
        drop = held.drop[place] + spare[number]
        kvs[f"V{number}"] = 3600 * held.volume_flow[place] * (1e5 * DENSITY / 1000 / drop) ** 0.5
    balanced = network.solve(DENSITY, VISCOSITY, kv=kvs)
    assert balanced.mass_flow[3:] == pytest.approx([0.06, 0.08], rel=1e-7)


def test_held_flow_beyond_the_pump_shows_what_is_lacking():
    network = ring(branch(0, 30.0))
    assert network.solve(DENSITY, VISCOSITY, held={"branch0": 0.3}).surplus[3] < 0


def test_table_of_a_unit_is_read_forth_and_back():
    table = UnitTable("U", (1e-4, 2e-4, 3e-4), (1e3, 5e3, 12e3), 1000.0)
    for sign in (1, -1):
        nodes = [Node("in", 1e5 + sign * 5e3), Node("out", 1e5)]
        solution = Network(nodes, [Run("r", 0, 1, (table,))]).solve(1000.0, 1e-3)
        assert solution.volume_flow[0] == pytest.approx(sign * 2e-4)
        assert solution.beyond == ()


def test_thick_mix_costs_a_unit_more_when_its_exponent_says_so():
    nodes = [Node("in", 1.06e5), Node("out", 1e5)]
    unit = Unit("U", 1e-4, 6e3, 1000.0, 1e-3, 0.2)
    network = Network(nodes, [Run("r", 0, 1, (unit,))])
    thin, thick = network.solve(1000.0, 1e-3), network.solve(1000.0, 1e-2)
    assert thin.volume_flow[0] == pytest.approx(1e-4, rel=1e-6)
    assert thick.volume_flow[0] == pytest.approx(1e-4 * (10**-0.2) ** (1 / 1.8), rel=1e-6)


def test_run_without_resistance_joins_its_ends():
    nodes = [*ring(branch(0)).nodes, Node("manifold")]
    runs = [*ring(branch(0)).runs[:3], Run("bare", 2, 4, ()), Run("branch0", 4, 3, branch(0))]
    joined, plain = Network(nodes, runs).solve(DENSITY, VISCOSITY), ring(branch(0)).solve(DENSITY, VISCOSITY)
    assert joined.mass_flow[0] == pytest.approx(plain.mass_flow[0], rel=1e-5)
    assert joined.pressure[4] == pytest.approx(joined.pressure[2], abs=0.1)


def test_start_from_an_answer_nearby_takes_fewer_steps():
    network = Network(*circuits.ladder(10))
    cold = network.solve(1040.0, 5e-3)
    again = network.solve(1040.0, 5.05e-3, start=cold)
    assert again.iterations < cold.iterations
    assert again.mass_flow == pytest.approx(network.solve(1040.0, 5.05e-3).mass_flow, rel=1e-8)


def fault(make):
    with pytest.raises(CircuitFault) as caught:
        make()
    return caught.value


def test_loop_without_resistance_is_refused_by_name():
    loop = [Run("bare", 2, 3, ()), Run("end", 1, 2, ()), Run("bare too", 3, 2, (Fitting("none", 0.02, 0.0),))]
    wrong = fault(lambda: ring(branch(0), extra=loop).solve(DENSITY, VISCOSITY))
    assert "no resistance" in wrong.what
    assert wrong.edges == ("bare", "bare too")


def test_rises_that_do_not_close_are_refused_by_name():
    runs = [
        Run("up", 0, 1, (Pipe("a", 0.02, 3.0, rise=1.0),)),
        Run("down", 1, 0, (Pipe("b", 0.02, 3.0, rise=-0.7),)),
    ]
    wrong = fault(lambda: Network([Node("low", 1e5), Node("high")], runs))
    assert "0.300 m" in wrong.what
    assert set(wrong.edges) <= {"up", "down"}


@pytest.mark.parametrize(
    ("element", "words"),
    [
        (Pipe("bad", 0.0, 1.0), "bore"),
        (Pipe("bad", 0.01, 1.0, 0.001), "roughness"),
        (Pipe("bad", 0.01, -1.0), "length"),
        (Valve("bad", -1.0), "flow factor"),
        (CheckValve("bad", 0.0), "flow factor"),
        (Unit("bad", 0.0, 5e3, 1000.0, 1e-3), "rated flow"),
        (Fitting("bad", 0.01, float("nan")), "no number"),
        (Unit("bad", 1e-4, -5e3, 1000.0, 1e-3), "rated drop"),
        (Unit("bad", 1e-4, 5e3, 0.0, 1e-3), "test liquid"),
        (Unit("bad", 1e-4, 5e3, 1000.0, 1e-3, 1.5), "viscosity exponent"),
        (UnitTable("bad", (1e-4, 2e-4), (5e3, 4e3), 1000.0), "table"),
        (Pump("bad", PUMP, 0.0), "pump that stands"),
        (Pipe("bad", inf, 1.0), "bore"),
        (Pipe("bad", 0.01, inf), "length"),
        (Valve("bad", inf), "flow factor"),
        (CheckValve("bad", inf), "flow factor"),
        (Unit("bad", inf, 5e3, 1000.0, 1e-3), "rated flow"),
        (Unit("bad", 1e-4, inf, 1000.0, 1e-3), "rated drop"),
        (Unit("bad", 1e-4, 5e3, 1000.0, 0.0), "test liquid"),
        (Unit("bad", 1e-4, 5e3, 1000.0, 1e-3, -0.1), "viscosity exponent"),
    ],
)
def test_impossible_element_is_refused_by_name(element, words):
    wrong = fault(lambda: Network([Node("a", 1e5), Node("b", 1e5)], [Run("r", 0, 1, (element,))]))
    assert words in wrong.what
    assert wrong.edges == ("bad",)


def test_names_that_repeat_are_refused():
    twice = [Run("r", 0, 1, (Pipe("p", 0.01, 1.0),)), Run("r", 0, 1, (Pipe("q", 0.01, 1.0),))]
    assert fault(lambda: Network([Node("a", 1e5), Node("b")], twice)).edges == ("r",)


def test_run_to_nowhere_and_empty_circuit_are_refused():
    assert fault(lambda: Network([Node("a", 1e5)], [Run("r", 0, 1, ())])).edges == ("r",)
    assert "no runs" in fault(lambda: Network([Node("a", 1e5)], [])).what


def test_unknown_names_are_refused():
    network = ring(branch(0))
    assert fault(lambda: network.solve(DENSITY, VISCOSITY, shut=["branch7"])).edges == ("branch7",)
    assert fault(lambda: network.solve(DENSITY, VISCOSITY, kv={"V7": 1.0})).edges == ("V7",)
    assert "no valve" in fault(lambda: network.solve(DENSITY, VISCOSITY, kv={"H1": 1.0})).what


def test_density_of_nothing_is_refused():
    assert "density" in fault(lambda: ring(branch(0)).solve(0.0, VISCOSITY)).what
    assert "viscosity" in fault(lambda: ring(branch(0)).solve(DENSITY, float("nan"))).what


def test_held_flow_that_has_no_way_is_refused():
    network = ring(branch(0))
    wrong = fault(
        lambda: network.solve(DENSITY, VISCOSITY, shut=["pump"], held={"branch0": 0.1, "flow": 0.05})
    )
    assert "have no way" in wrong.what
    assert wrong.edges == ("outlet",)


def test_flow_forced_against_a_check_valve_is_refused():
    nodes = [Node("header", 1e5), Node("tap", demand=0.1)]
    runs = [Run("wrong way", 1, 0, (Pipe("p", 0.012, 2.0), CheckValve("C", 2.0)))]
    wrong = fault(lambda: Network(nodes, runs).solve(DENSITY, VISCOSITY))
    assert wrong.edges == ("wrong way",)


def test_fault_survives_the_way_between_processes():
    wrong = pickle.loads(pickle.dumps(CircuitFault("a loop has no resistance", ["a", "b"])))
    assert wrong.edges == ("a", "b")
    assert str(wrong) == "a loop has no resistance: a, b"


def test_search_cut_short_names_the_run_and_gives_no_number(monkeypatch):
    monkeypatch.setattr(network_newton, "STEPS", 2)
    with pytest.raises(NotConverged, match=r"no proven flow after 2 steps: the drops of \w+"):
        Network(*circuits.ladder(10)).solve(DENSITY, VISCOSITY)


@given(st.integers(1, 60), seeds, st.floats(2e-4, 0.05), st.floats(0.5, 1.5))
@quick
def test_every_ladder_is_proven(branches, seed, viscosity, speed):
    """Thin and thick mixes, slow and fast pumps."""
    network = Network(*circuits.ladder(branches, seed))
    residual = network.solve(1030.0, viscosity, speed={"circulator": speed}).residual
    assert max(residual.flow, residual.energy) < 1e-8


def test_regulated_pump_keeps_its_pressure():
    """A curve that is flat up to 20 l/min: the drop of the rest is that pressure."""
    curve = PumpCurve((0.0, 3.3e-4, 5e-4), (30e3, 30e3, 0.0), DENSITY)
    nodes = [Node("header", 1.2e5), Node("supply")]
    runs = [Run("pump", 0, 1, (Pump("P1", curve),)), Run("pipe", 1, 0, branch(0))]
    solution = Network(nodes, runs).solve(DENSITY, VISCOSITY)
    assert solution.run_drop[1] == pytest.approx(30e3)
    assert 0 < solution.volume_flow[0] < 3.3e-4


def test_two_pumps_in_one_run_add_their_pressures():
    """Against a square law: 2·Δp at the same flow."""
    nodes = [Node("header", 1.2e5), Node("supply")]
    runs = [
        Run("pumps", 0, 1, (Pump("P1", PUMP), Pump("P2", PUMP))),
        Run("pipe", 1, 0, branch(0, 20.0)),
    ]
    solution = Network(nodes, runs).solve(DENSITY, VISCOSITY)
    assert solution.drop[0] == pytest.approx(solution.drop[1])
    assert solution.run_drop[1] == pytest.approx(2 * PUMP.rise(solution.volume_flow[0], 1.0, DENSITY))
