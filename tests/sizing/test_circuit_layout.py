"""How a circuit of the file becomes a graph: places, branches, chains, links, tops and bottoms, heights."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.notation import NotAssessed
from dossier.sizing.circuit import circuit
from dossier.sizing.emitters import emitter_models
from dossier.sizing.heights import heights_of, rises_of
from dossier.sizing.hydraulics import Hydraulics
from dossier.sizing.modes import mode_states, valve_settings
from dossier.sizing.sources_of_heat import BurnerModel, RecoveryModel, Regime


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).parents[1] / f"{name}.py")
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("ring_boat")
RING = boat.changed({})["circuit"]["ring"]


def chains(graph):
    return {chain.tags for chain in graph.chains}


# Graph


def test_places_in_series_make_one_chain():
    """The header joins before B1, and cuts the common run in two; each branch is one chain."""
    graph = boat.study_of().circuit
    assert ("V1", "saloon_1", "F1", "saloon_2") in chains(graph)
    assert ("V9",) in chains(graph)
    assert ("B1", "ring_1", "V32", "X1", "V33", "V11", "ring_2", "M1") in chains(graph)
    assert len(graph.chains) == 6
    assert graph.join == graph.places["B1"].start
    assert (graph.join_before, graph.header) == ("B1", "T2")


def test_branches_know_their_parts_and_ends():
    graph = boat.study_of().circuit
    assert [place.tag for place in graph.in_branch("cabin")] == ["V2", "cabin_1", "F2", "cabin_2"]
    assert graph.branches["cabin"].start == graph.branches["heads"].start
    assert graph.chain_of("F2").start == graph.branches["cabin"].start
    assert graph.branches["cabin"].between == ("M1", "M2")


def test_groups_nest():
    """A tee in the cabin's branch parts it in two; the inner branches name the outer one."""
    inner = {
        "between": ["M3", "M4"],
        "branches": {"berth": [{"unit": "F2"}], "locker": [{"pipe": {"size": "hose 10", "length": "1 m"}}]},
    }
    changes = {
        "components.M3": {"kind": "manifold"},
        "components.M4": {"kind": "manifold"},
        f"{boat.BRANCH}.cabin": [{"unit": "V2"}, inner],
    }
    graph = circuit(boat.project_of(changes))
    assert graph.branches["berth"].parent == "cabin"
    assert graph.places["F2"].branches == ("cabin", "berth")
    assert {place.tag for place in graph.in_branch("cabin")} == {"V2", "M3", "F2", "locker_1", "M4"}
    flows = boat.study_of(changes).ring.design.flows
    inner_flow = sum(float(flows.branches[name].flow) for name in ("berth", "locker"))
    assert float(flows.branches["cabin"].flow) == pytest.approx(inner_flow, rel=0.002)
    assert float(flows.branches["berth"].drop) == pytest.approx(
        float(flows.branches["locker"].drop), rel=0.01
    )


def test_a_link_leads_from_outlet_to_inlet():
    links = [{"from": "X1", "to": "V30", "pipe": {"size": "hose 10", "length": "2 m"}}]
    graph = circuit(boat.project_of({"circuit.links": links}))
    link = graph.places["links_1"]
    assert (link.start, link.end) == (graph.places["X1"].end, graph.places["V30"].start)


def test_a_ring_without_groups_is_cut_at_the_header():
    ring = [{"unit": "P1"}, {"unit": "B1"}, {"unit": "F1"}, {"unit": "F2"}, {"unit": "R3"}]
    changes = {"circuit.ring": ring, "modes": None, "circuit.header": None}
    graph = circuit(boat.project_of(changes))
    assert sorted(tag for chain in graph.chains for tag in chain.tags) == ["B1", "F1", "F2", "P1", "R3"]
    assert len(graph.chains) == 2


def test_a_circuit_that_is_not_written_waits():
    assert isinstance(boat.study_of({"circuit": None, "modes": None}).circuit, NotAssessed)


# Modes


def test_what_a_mode_does_not_name_stands_as_preset_or_open():
    project = boat.project_of()
    graph, states = circuit(project), mode_states(project)
    assert list(states) == ["heating", "night", "tap water only"]
    assert states["heating"].calls == {"saloon", "cabin", "heads"}
    assert states["tap water only"].calls == set()
    settings = valve_settings(graph, states["tap water only"], {"V1": 0.5, "V9": 0.4})
    assert settings == {"V1": 0.0, "V2": 0.0, "V3": 0.0}
    assert valve_settings(graph, states["night"], {"V1": 0.5}) == {"V1": 0.5, "V9": 0.5}


def test_without_modes_heating_stands_alone_with_all_valves_open():
    project = boat.project_of({"modes": None})
    states = mode_states(project)
    assert list(states) == ["heating"]
    assert valve_settings(circuit(project), states["heating"], {}) == {}


# Heights


def test_units_count_at_half_their_height_and_pipes_along_their_route():
    project = boat.project_of()
    heights = heights_of(project, circuit(project))
    assert heights["B1"] == pytest.approx(0.25)
    assert heights["ring_3"] == pytest.approx(0.3)
    assert "F1" not in heights


def test_rises_close_round_every_loop():
    project = boat.project_of()
    graph = circuit(project)
    rises = rises_of(project, graph, ["M1", "M2"])
    assert rises["M1"] == rises["M2"] == 0
    branches = [
        sum(rises[place.tag] for place in graph.in_branch(name))
        for name in ("saloon", "cabin", "heads", "bypass")
    ]
    assert branches == pytest.approx([branches[0]] * 4, abs=1e-12)
    Hydraulics(project, graph)  # a loop that did not close would be refused


def test_a_ring_of_unknown_heights_is_level():
    places = {"layout": None}
    for key in boat.RING.values():
        places[f"{key}.route"] = None
        places[f"{key}.drains"] = None
    for name in ("saloon", "cabin", "heads"):
        for n in (1, 3):
            places[f"{boat.BRANCH}.{name}.{n}.pipe.route"] = None
            places[f"{boat.BRANCH}.{name}.{n}.pipe.vents"] = None
    project = boat.project_of(places)
    assert rises_of(project, circuit(project), []) == {}


# Tops and bottoms


def ridge(*heights):
    """Tops and bottoms of a run of these heights in place of ring_1, a metre apart."""
    route = [[f"{3 + n} m", "-1 m", f"{z} m"] for n, z in enumerate(heights)]
    points = boat.study_of(
        {f"{boat.RING['ring_1']}.route": route, f"{boat.RING['ring_1']}.length": "9 m"}
    ).route_points
    inside = [(t.at.x, t.at.z) for t in points.tops if t.tags == ("ring_1",)]
    return inside, [(t.at.x, t.at.z) for t in points.bottoms if t.tags == ("ring_1",)]


def test_tops_and_bottoms_inside_a_run():
    assert ridge(0.2, 0.3, 0.35) == ([], [])
    assert ridge(0.2, 0.5, 0.35) == ([(4, 0.5)], [])
    assert ridge(0.2, 0.1, 0.35) == ([], [(4, 0.1)])
    assert ridge(0.2, 0.5, 0.3, 0.6, 0.35) == ([(4, 0.5), (6, 0.6)], [(5, 0.3)])


def test_a_level_stretch_at_the_top_counts_once():
    assert ridge(0.2, 0.5, 0.5, 0.35) == ([(4, 0.5)], [])
    assert ridge(0.2, 0.2, 0.35) == ([], [])


def test_tops_at_units_between_runs():
    points = boat.study_of().route_points
    assert {top.tags for top in points.tops} == {("F1",), ("F2",), ("R3",)}
    assert {bottom.tags for bottom in points.bottoms} == {("V30", "P1", "V31", "B1")}
    assert all(top.outlet.kind == "manual" for top in points.tops)


def test_a_top_beside_a_run_of_unknown_route_is_left_open():
    points = boat.study_of({f"{boat.BRANCH}.saloon.1.pipe.route": None}).route_points
    assert {top.tags for top in points.tops} == {("F2",), ("R3",)}
    assert [place.tag for place in points.unrouted] == ["saloon_1"]


def test_the_header_lets_air_out_where_it_joins():
    """The header joins before F1: the top there needs no vent of its own."""
    points = boat.study_of({"circuit.header.joins_before": "F1"}).route_points
    assert {top.tags for top in points.tops} == {("F2",), ("R3",)}


def test_falls_of_a_run():
    route = [
        ["3 m", "-1 m", "0.2 m"],
        ["4 m", "-1 m", "0.6 m"],
        ["5 m", "-1 m", "0.6 m"],
        ["6 m", "-1 m", "0.35 m"],
    ]
    study = boat.study_of({f"{boat.RING['ring_1']}.route": route, f"{boat.RING['ring_1']}.length": "4 m"})
    falls = [f for f in study.route_points.falls if f.tag == "ring_1"]
    assert [(f.top.x, round(f.height, 9)) for f in falls] == [(5, 0.25)]
    back = [f for f in study.route_points.rises if f.tag == "ring_1"]
    assert [(f.top.x, round(f.height, 9)) for f in back] == [(4, 0.4)]


# Sources


def burner():
    return BurnerModel("B1", 5000.0, 2000.0, 349.15, 10.0, 344.15)


@pytest.mark.parametrize(
    ("regime", "heat", "entering", "leaving", "expected"),
    [
        (Regime.STEADY, 3000, 340, 349.15, Regime.STEADY),
        (Regime.STEADY, 1999, 345, 349.15, Regime.CYCLING),
        (Regime.STEADY, 5001, 330, 349.15, Regime.FULL),
        (Regime.STEADY, -1, 351, 349.15, Regime.OFF),
        (Regime.CYCLING, 1500, 340, 344.15, Regime.CYCLING),
        (Regime.CYCLING, 2100, 335, 344.15, Regime.CYCLING),
        (Regime.CYCLING, -1, 346, 344.15, Regime.OFF),
        (Regime.FULL, 5000, 330, 340, Regime.FULL),
        (Regime.FULL, 5000, 345, 350, Regime.STEADY),
        (Regime.OFF, 0, 346, 346, Regime.OFF),
        (Regime.OFF, 0, 340, 340, Regime.STEADY),
    ],
)
def test_regime_that_follows_from_the_heat(regime, heat, entering, leaving, expected):
    assert burner().settled(regime, heat, entering, leaving) is expected


def recovery():
    return RecoveryModel("X2", "G1", 500.0, 1200.0, 7000.0, 343.15, 361.15)


def test_jacket_under_its_thermostat_gives_all_its_heat():
    """Cold ring: the jacket settles where the exchanger passes 7 kW, below 70 °C."""
    model = recovery()
    assert model.heat(320.0, 1000.0) == pytest.approx(7000)
    assert model.jacket(320.0, 1000.0) < 343.15


def test_jacket_floats_between_thermostat_and_its_highest():
    """The cooler takes what the ring does not, in a straight line up to all of it."""
    model = recovery()
    jacket = model.jacket(340.0, 1000.0)
    cooled = 7000 * (jacket - 343.15) / (361.15 - 343.15)
    assert 343.15 < jacket < 361.15
    assert model.heat(340.0, 1000.0) + cooled == pytest.approx(7000)


def test_ring_hotter_than_the_jacket_may_get_gives_heat_back():
    assert recovery().jacket(370.0, 1000.0) == 361.15
    assert recovery().heat(370.0, 1000.0) < 0


# Emitters


def test_what_an_emitter_waits_for_is_named():
    _, lacking = emitter_models(circuit(boat.project_of({"components.F1.air_flow": None})))
    assert lacking["F1"].needs == ("components.F1.air_flow",)
    _, lacking = emitter_models(circuit(boat.project_of({"components.R3.at": None})))
    assert "components.R3.at.water_in" in lacking["R3"].needs


def test_floor_loop_gives_its_heat_over_its_area():
    """A floor loop in place of the towel rail: some 100 W/m² and more at water far too hot for a floor."""
    loop = {
        "kind": "floor_loop",
        "zone": "heads",
        "area": "2 m2",
        "size": "pex 16x2.0",
        "length": "20 m",
        "spacing": "100 mm",
        "covering": "0.05 m2K/W",
    }
    heat = boat.study_of({"components.R3": loop}).ring.design.heat
    assert 150 < float(heat.emitters["R3"].output) < 700


def test_stopped_fan_still_gives_a_little():
    night = boat.study_of().ring.operations["night"].heat.emitters["F1"]
    running = boat.study_of().ring.operations["heating"].heat.emitters["F1"]
    assert not night.fan_runs
    assert float(night.output) < 0.15 * float(running.output)


def test_ducted_coil_gives_less():
    """A fifth of the air, to the power of 0.6 in the conductance (assumed)."""
    bare = boat.study_of().ring.design.heat.emitters["F1"].output
    ducted = boat.study_of({"components.F1.ducted": "true"}).ring.design.heat.emitters["F1"].output
    assert 0.8 < float(ducted) / float(bare) < 0.95
