"""Circuits against EPANET, a worked textbook, Crane TP-410 and closed forms.

EPANET reckons in Swamee-Jain's friction factor, so its flows may differ by half a per cent from Colebrook's;
a second solution with the exact root (scipy) stands beside each and is met to its 6 printed digits.
"""

from math import pi

import numpy as np
import pytest

from dossier.data.fittings import fitting_loss
from dossier.physics.fittings import loss_factor, loss_factor_of_contraction
from dossier.physics.network import Network
from dossier.physics.network_elements import Fitting, Node, Pipe, Pump, Run, Valve
from dossier.physics.pipe import friction_factor_rough
from dossier.physics.pump import PumpCurve
from dossier.physics.valves import kv_needed

WATER = 1000.0
GRAVITY = 9.80665
ATMOSPHERE = 1e5
FOOT = 0.3048
PEX = 7e-6

PIPES = {
    "PAR2": "S A M1 6 0.019 2|B1 M1 M2 12 0.012 8|B2 M1 M2 18 0.016 8|R M2 B 6 0.019 2",
    "RING3": (
        "S D M1 4 0.019 12|F1 M1 M2 13.4 0.012 25|F2 M1 M2 8 0.012 25|F3 M1 M2 22 0.012 30|R M2 H 5 0.019 6"
    ),
    "TREE4": (
        "d D S1 2 0.019 10|s12 S1 S2 3 0.019 0.6|s23 S2 S3 3 0.016 0.6|s34 S3 S4 4 0.016 0.6"
        "|U1 S1 R1 3 0.012 20|U2 S2 R2 3 0.012 20|U3 S3 R3 3 0.012 20|U4 S4 R4 3 0.012 20"
        "|r43 R4 R3 4 0.016 0.6|r32 R3 R2 3 0.016 0.6|r21 R2 R1 3 0.019 0.6|r R1 H 3 0.019 4"
    ),
    "RES3": "a A J 20 0.019 1|b B J 10 0.016 1|c J C 15 0.019 1",
}
"""Name, from, to, length, bore, loss factor of each pipe; wall 0.007 mm rough."""

PIPES["RING3BYPASS"] = PIPES["RING3"] + "|BY M1 M2 0.5 0.016 6"
PIPES["RING3SHUT"] = PIPES["RING3COLD"] = PIPES["RING3"]

HEADS = {"PAR2": {"A": 3, "B": 0}, "RES3": {"A": 5, "B": 3, "C": 0}, "TREE4": {"H": 0.5}}
PUMPS = {"TREE4": (0.00041666667, 5.0)}
VISCOSITY = {"TREE4": 6e-7, "RES3": 1e-6, "RING3COLD": 2.2e-5}

LOOPED = (
    "p1 A B 250 0.3|p2 B C 100 0.2|p3 C D 125 0.2|p4 D E 125 0.2|p5 E A 100 0.2|p6 D F 100 0.15"
    "|p7 F G 125 0.25|p8 G E 100 0.15|p9 C X 100 0.15|p10 X F 125 0.25"
)
DEMANDS = {"D": 0.04, "G": 0.02, "X": 0.02}

FLOWS = [
    ("PAR2", "S", 0.0003193169, 0.000319361),
    ("PAR2", "B1", 0.0001163391, 0.000116401),
    ("PAR2", "B2", 0.0002029778, 0.00020296),
    ("PAR2", "R", 0.0003193169, 0.000319361),
    ("RING3", "S", 0.0003266116, 0.000326626),
    ("RING3", "F1", 0.0001103638, 0.000110371),
    ("RING3", "F2", 0.0001253401, 0.00012532),
    ("RING3", "F3", 9.090773e-05, 9.09356e-05),
    ("RING3", "R", 0.0003266116, 0.000326626),
    ("RING3", "P", 0.0003266116, 0.000326626),
    ("RING3COLD", "S", 0.000188248, 0.000188131),
    ("RING3COLD", "F1", 6.043053e-05, 6.03918e-05),
    ("RING3COLD", "F2", 8.910538e-05, 8.90525e-05),
    ("RING3COLD", "F3", 3.871211e-05, 3.86864e-05),
    ("RING3COLD", "R", 0.000188248, 0.000188131),
    ("RING3COLD", "P", 0.000188248, 0.000188131),
    ("RING3SHUT", "S", 0.0002511515, 0.000251197),
    ("RING3SHUT", "F1", 0.0001375402, 0.000137558),
    ("RING3SHUT", "F3", 0.0001136076, 0.00011364),
    ("RING3SHUT", "R", 0.0002511515, 0.000251197),
    ("RING3SHUT", "P", 0.0002511515, 0.000251197),
    ("TREE4", "d", 0.0004537247, 0.000453664),
    ("TREE4", "s12", 0.0003124838, 0.000312453),
    ("TREE4", "s23", 0.0001910911, 0.000191091),
    ("TREE4", "s34", 9.126155e-05, 9.12762e-05),
    ("TREE4", "U1", 0.0001412409, 0.000141211),
    ("TREE4", "U2", 0.0001213927, 0.000121362),
    ("TREE4", "U3", 9.982953e-05, 9.98152e-05),
    ("TREE4", "U4", 9.126155e-05, 9.12762e-05),
    ("TREE4", "r43", 9.126155e-05, 9.12762e-05),
    ("TREE4", "r32", 0.0001910911, 0.000191091),
    ("TREE4", "r21", 0.0003124838, 0.000312453),
    ("TREE4", "r", 0.0004537247, 0.000453664),
    ("TREE4", "P", 0.0004537247, 0.000453664),
    ("RING3BYPASS", "S", 0.0004149022, 0.00041486),
    ("RING3BYPASS", "F1", 5.0189e-05, 5.02386e-05),
    ("RING3BYPASS", "F2", 5.77938e-05, 5.78139e-05),
    ("RING3BYPASS", "F3", 4.088055e-05, 4.09555e-05),
    ("RING3BYPASS", "R", 0.0004149022, 0.00041486),
    ("RING3BYPASS", "BY", 0.0002660389, 0.000265852),
    ("RING3BYPASS", "P", 0.0004149022, 0.00041486),
    ("RES3", "a", 0.0003589543, 0.000358858),
    ("RES3", "b", 0.0001014994, 0.000101635),
    ("RES3", "c", 0.0004604537, 0.000460493),
]
"""Circuit, pipe, flow by EPANET 2.2 (wntr 1.5.0), flow by the exact root (m³/s)."""

HEADS_FOUND = [
    ("PAR2", "M1", 2.40993, 2.40960),
    ("PAR2", "M2", 0.5900698, 0.59040),
    ("RING3", "D", 5.559883, 5.55976),
    ("RING3", "M1", 4.428653, 4.42764),
    ("RING3", "M2", 1.805686, 1.80617),
    ("RING3COLD", "D", 6.52161, 6.52219),
    ("RING3COLD", "M1", 5.724453, 5.72502),
    ("RING3COLD", "M2", 1.794352, 1.79443),
    ("RING3SHUT", "D", 6.148466, 6.14815),
    ("RING3SHUT", "M1", 5.469832, 5.46877),
    ("RING3SHUT", "M2", 1.488573, 1.48904),
    ("TREE4", "D", 5.190353, 5.19088),
    ("TREE4", "S1", 3.582191, 3.58194),
    ("TREE4", "S2", 3.313222, 3.31291),
    ("TREE4", "S3", 3.065335, 3.06515),
    ("TREE4", "S4", 2.979696, 2.97976),
    ("TREE4", "R1", 1.477326, 1.47754),
    ("TREE4", "R2", 1.746295, 1.74657),
    ("TREE4", "R3", 1.994182, 1.99433),
    ("TREE4", "R4", 2.079821, 2.07972),
    ("RING3BYPASS", "D", 4.676048, 4.67653),
    ("RING3BYPASS", "M1", 2.872068, 2.87185),
    ("RING3BYPASS", "M2", 2.273265, 2.27343),
    ("RES3", "J", 2.714675, 2.71586),
]
"""Circuit, node, head by EPANET 2.2 (wntr 1.5.0), head by the exact root (m)."""


def parabola(flow, metres, points=400):
    """Curve that EPANET makes of one point: 4/3 of the head at shut-off, none at twice the flow."""
    flows = np.linspace(0, 2 * flow, points)
    rises = WATER * GRAVITY * metres * (4 - (flows / flow) ** 2) / 3
    return PumpCurve(tuple(flows.tolist()), tuple(rises.tolist()), WATER)


def circuit(name):
    """Circuit by its name, as a network and the answer of its state."""
    heads = HEADS.get(name, {"H": 1})
    rows = [row.split() for row in PIPES[name].split("|")]
    names = list(dict.fromkeys([*heads, *(end for row in rows for end in row[1:3])]))
    place = {node: number for number, node in enumerate(names)}
    nodes = [
        Node(node, pressure=ATMOSPHERE + WATER * GRAVITY * heads[node] if node in heads else None)
        for node in names
    ]
    runs = [
        Run(pipe, place[a], place[b], (Pipe(pipe, float(bore), float(length), PEX, float(loss)),))
        for pipe, a, b, length, bore, loss in rows
    ]
    if "H" in heads:
        curve = parabola(*PUMPS.get(name, (0.00033333333, 4.5)))
        runs.append(Run("P", place["H"], place["D"], (Pump("P", curve),)))
    network = Network(nodes, runs)
    viscosity = WATER * VISCOSITY.get(name, 4.74e-7)
    return network, network.solve(WATER, viscosity, shut=["F2"] if name == "RING3SHUT" else [])


@pytest.mark.parametrize(("name", "pipe", "epanet", "exact"), FLOWS)
def test_flow_in_a_small_circuit(name, pipe, epanet, exact):
    """EPANET 2.2 through wntr, Darcy-Weisbach; exact root through scipy."""
    network, solution = circuit(name)
    flow = solution.mass_flow[network.run_index[pipe]] / WATER
    assert flow == pytest.approx(epanet, rel=0.006)
    assert flow == pytest.approx(exact, rel=1e-5)


@pytest.mark.parametrize(("name", "node", "epanet", "exact"), HEADS_FOUND)
def test_head_in_a_small_circuit(name, node, epanet, exact):
    """EPANET 2.2 through wntr, Darcy-Weisbach; exact root through scipy."""
    network, solution = circuit(name)
    head = (solution.pressure[network.node_index[node]] - ATMOSPHERE) / (WATER * GRAVITY)
    assert head == pytest.approx(epanet, abs=0.02)
    assert head == pytest.approx(exact, abs=2e-5)


def test_shut_branch_carries_nothing():
    """EPANET 2.2: no flow in a closed link."""
    network, solution = circuit("RING3SHUT")
    assert solution.mass_flow[network.run_index["F2"]] == 0
    assert solution.closed == ("F2",)


def looped(friction=None):
    """Looped network of Maurer; ``friction`` holds fixed friction factors by pipe."""
    rows = [row.split() for row in LOOPED.split("|")]
    names = list(dict.fromkeys(end for row in rows for end in row[1:3]))
    place = {node: number for number, node in enumerate(names)}
    nodes = [
        Node(node, WATER * 9.81 * 30 if node == "A" else None, WATER * DEMANDS.get(node, 0)) for node in names
    ]
    runs = []
    for pipe, a, b, length, bore in rows:
        if friction:
            element = Fitting(pipe, float(bore), friction[pipe] * float(length) / float(bore))
        else:
            element = Pipe(pipe, float(bore), float(length), 0.25e-3)
        runs.append(Run(pipe, place[a], place[b], (element,)))
    return Network(nodes, runs).solve(WATER, WATER * 1.023e-6).mass_flow / WATER


FIXED = {"p1": 0.01879, "p6": 0.02233, "p7": 0.01964, "p8": 0.02233, "p9": 0.02233, "p10": 0.01964}


def test_looped_network_with_fixed_friction():
    """Maurer, example 4.7: three sweeps of Hardy Cross, within 0.0003 m³/s."""
    printed = [0.0383, 0.0383, 0.0232, -0.0258, -0.0417, 0.009, 0.0041, -0.0159, 0.0151, -0.0049]
    flows = looped({f"p{number}": FIXED.get(f"p{number}", 0.02075) for number in range(1, 11)})
    assert flows == pytest.approx(printed, abs=3e-4)


def test_looped_network_with_fixed_friction_solved_to_the_end():
    """Derived: the same equations by scipy.optimize.root."""
    converged = [0.03822796, 0.03822796, 0.02315271, -0.02564684, -0.04177204]
    converged += [0.008799552, 0.003874797, -0.0161252, 0.01507525, -0.004924755]
    flows = looped({f"p{number}": FIXED.get(f"p{number}", 0.02075) for number in range(1, 11)})
    assert flows == pytest.approx(converged, rel=1e-5)


def test_looped_network_with_colebrook():
    """Maurer, example 4.7, second part: roughness 0.25 mm, within 0.0003 m³/s."""
    printed = [0.0382, 0.0382, 0.023, -0.0258, -0.0418, 0.0088, 0.004, -0.016, 0.0152, -0.0048]
    assert looped() == pytest.approx(printed, abs=3e-4)


def test_looped_network_against_epanet():
    """EPANET 2.2 through wntr 1.5.0."""
    epanet = [0.03811506, 0.03811506, 0.0230086, -0.02566663, -0.04188494]
    epanet += [0.008675227, 0.003781687, -0.01621831, 0.01510646, -0.00489354]
    assert looped() == pytest.approx(epanet, rel=0.006)


def test_pipes_in_parallel_of_maurer_4_6():
    """Maurer, example 4.6: 0.5 m³/s of water at 100 °C split 0.15 and 0.35, 4.8 and 5.0 m/s, 30 m of head."""
    density = 958.4
    nodes = [Node("in", demand=-0.5 * density), Node("out", 1e5)]
    bores, lengths = (0.2, 0.3), (400, 600)
    runs = [
        Run(f"r{bore}", 0, 1, (Pipe(f"p{bore}", bore, length, 0.025e-3),))
        for bore, length in zip(bores, lengths, strict=True)
    ]
    solution = Network(nodes, runs).solve(density, 2.94e-7 * density)
    assert solution.mass_flow / density == pytest.approx([0.15, 0.35], abs=0.005)
    assert solution.velocity == pytest.approx([4.8, 5.0], abs=0.06)
    assert solution.run_drop[0] / (density * 9.81) == pytest.approx(30, abs=0.35)


def test_reservoir_of_crane_7_19_empties():
    """Crane TP-410M, worked problem 7.19: 11.5 ft drive 137 gal/min through 3 in and 2 in pipe in series.

    The contraction as in the open solution (Rennels); with Crane's 0.5 · (1 − β²) it would be 139.
    """
    density, wide, narrow, rough = 62.364 * 16.01846, 3.068 * 0.0254, 2.067 * 0.0254, 0.00015 * FOOT
    fully = friction_factor_rough(rough / wide)
    first = fitting_loss("entrance_flush").loss + sum(
        loss_factor(fitting_loss(name).multiple, fully) for name in ("mitre_bend_90", "gate_valve")
    )
    second = float(loss_factor_of_contraction(narrow, wide)) + fitting_loss("exit").loss
    nodes = [Node("tank", 1e5 + density * GRAVITY * 11.5 * FOOT), Node("end", 1e5)]
    run = Run(
        "both",
        0,
        1,
        (Pipe("3 in", wide, 10 * FOOT, rough, float(first)), Pipe("2 in", narrow, 20 * FOOT, rough, second)),
    )
    flow = Network(nodes, [run]).solve(density, 1.1e-3).volume_flow[0]
    assert flow / (3.785411784e-3 / 60) == pytest.approx(137, rel=0.01)


def quadratic(resistances, head, series):
    """Total flow (m³/s) through square-law resistances (m per (m³/s)²) under a head (m)."""
    bore = 0.02
    unit = 1 / (2 * GRAVITY * (pi / 4 * bore**2) ** 2)
    fittings = [Fitting(f"f{number}", bore, each / unit) for number, each in enumerate(resistances)]
    nodes = [Node("in", 1e5 + WATER * GRAVITY * head), Node("out", 1e5)]
    if series:
        runs = [Run("all", 0, 1, tuple(fittings))]
    else:
        runs = [Run(fitting.name, 0, 1, (fitting,)) for fitting in fittings]
    return Network(nodes, runs).solve(WATER, 1e-3).mass_flow.sum() / WATER


@pytest.mark.parametrize(
    ("resistances", "head", "series", "expected"),
    [
        ([2e6, 5e6], 4, False, 0.002308641),
        ([1e7, 2e7, 4e7], 3, False, 0.001208882),
        ([2e6, 5e6, 1e6], 4, True, 0.0007071068),
    ],
)
def test_square_law_resistances(resistances, head, series, expected):
    """Closed form: Q = Σ√(H/K) in parallel, √(H/ΣK) in series."""
    assert quadratic(resistances, head, series) == pytest.approx(expected, rel=1e-6)


def pumped(pumps_series, pumps_parallel):
    """Flow (m³/s) of equal pumps H = 6 − 1.35e7·Q² against 3e7·Q² (m, m³/s)."""
    flows = np.linspace(0, (6 / 1.35e7) ** 0.5, 2001)
    curve = PumpCurve(
        tuple(flows.tolist()), tuple((WATER * GRAVITY * (6 - 1.35e7 * flows**2)).tolist()), WATER
    )
    bore = 0.02
    loss = 3e7 * 2 * GRAVITY * (pi / 4 * bore**2) ** 2
    nodes = [Node("header", 1e5), Node("supply")]
    runs = [
        Run(f"r{branch}", 0, 1, tuple(Pump(f"p{branch}{place}", curve) for place in range(pumps_series)))
        for branch in range(pumps_parallel)
    ]
    runs.append(Run("system", 1, 0, (Fitting("K", bore, loss),)))
    network = Network(nodes, runs)
    return network.solve(WATER, 1e-3).mass_flow[network.run_index["system"]] / WATER


@pytest.mark.parametrize(
    ("series", "parallel", "expected"), [(1, 1, 0.0003713907), (2, 1, 0.0004588315), (1, 2, 0.0004239992)]
)
def test_pumps_against_a_square_law(series, parallel, expected):
    """Closed forms of parabolas; the curve has 2,001 points, straight between them."""
    assert pumped(series, parallel) == pytest.approx(expected, rel=1e-6)


def test_operating_point_of_maurer_7_3():
    """Maurer, example 7.3: 82.5 − 0.201·Q² meets 30 + 0.16·Q² (ft, ft³/s) at 12.051 ft³/s, 53.285 ft."""
    cubic_foot = FOOT**3
    flows = np.linspace(0, 20, 2001)
    rises = WATER * GRAVITY * FOOT * (82.5 - 0.201 * flows**2)
    curve = PumpCurve(tuple((flows * cubic_foot).tolist()), tuple(rises.tolist()), WATER)
    bore = 0.5
    loss = 0.16 * FOOT / cubic_foot**2 * 2 * GRAVITY * (pi / 4 * bore**2) ** 2
    nodes = [Node("low", 1e5), Node("high", 1e5 + WATER * GRAVITY * 30 * FOOT)]
    run = Run("line", 0, 1, (Pump("pump", curve), Fitting("K", bore, loss)))
    solution = Network(nodes, [run]).solve(WATER, 1e-3)
    assert solution.volume_flow[0] / cubic_foot == pytest.approx(12.051, abs=0.02)
    assert -solution.drop[0] / (WATER * GRAVITY * FOOT) == pytest.approx(53.285, abs=0.1)


def test_laminar_branches_split_as_the_fourth_power_of_the_bore():
    """Hagen-Poiseuille: Q ~ d⁴/L; 12 mm over 10 m beside 16 mm over 15 m takes 32.18543 %."""
    nodes = [Node("in", 1e5 + 500), Node("out", 1e5)]
    runs = [
        Run("thin", 0, 1, (Pipe("p12", 0.012, 10),)),
        Run("wide", 0, 1, (Pipe("p16", 0.016, 15),)),
    ]
    flow = Network(nodes, runs).solve(1050.0, 0.022).mass_flow
    assert flow[0] / flow.sum() == pytest.approx(0.3218543, rel=1e-6)


def test_held_branch_tells_what_its_valve_must_take():
    """Definition of Kv: 12 kPa of surplus at 5 l/min of 988 kg/m³ ask for Kv 0.8608136."""
    nodes = [Node("in", 1e5 + 12000), Node("out", 1e5)]
    network = Network(nodes, [Run("branch", 0, 1, (Fitting("none", 0.012, 0.0),))])
    held = network.solve(988.0, 5e-4, held={"branch": 988 * 5 / 60000})
    kv = kv_needed(held.volume_flow[0], held.surplus[0], 988.0)
    assert kv == pytest.approx(0.8608136, rel=1e-6)
    valve = Network(nodes, [Run("branch", 0, 1, (Valve("V", float(kv)),))]).solve(988.0, 5e-4)
    assert valve.volume_flow[0] * 60000 == pytest.approx(5, rel=1e-6)
