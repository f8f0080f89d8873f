"""What else is told of a ring: presets, pump's need, open paths, interaction, profile, sizes, mixes.

Expected figures are hand sums, other routes to the same number (a mode with the valve shut, a brute count of
paths), or laws of similarity.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from itertools import product
from pathlib import Path

import fluids
import numpy as np
import pytest

from dossier.data.pipes import pipe_size
from dossier.notation import NotAssessed, named_results, origins_behind
from dossier.sizing.index_profile import index_profile
from dossier.sizing.interaction import interaction
from dossier.sizing.mix_curve import mix_curve
from dossier.sizing.open_paths import ALL, TRIED, states_of
from dossier.sizing.pipe_choice import neighbours, pipe_choices
from dossier.sizing.strengths import strengths
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
BRANCH = boat.BRANCH
UNSOLVED = {"components.P1.curve": [["0 l/min", "24 kPa"], ["1 l/min", "23 kPa"]]}


# Balancing


def test_every_balanced_branch_gets_the_same_multiple_of_what_it_wants():
    ring = boat.study_of().ring
    multiples = [
        float(ring.design.flows.branches[name].flow) / float(want.flow) for name, want in ring.wanted.items()
    ]
    assert multiples == pytest.approx([ring.share] * 3, rel=0.01)


def test_presets_set_by_hand_give_the_same_flows():
    """The table written into the mode, as the yard would set the valves."""
    ring = boat.study_of().ring
    changes = {f"modes.heating.set.{tag}": f"{float(p.kv):.12g} m3/h" for tag, p in ring.presets.items()}
    again = boat.study_of(changes).ring
    for tag, edge in ring.design.flows.edges.items():
        assert float(again.design.flows.edges[tag].flow) == pytest.approx(float(edge.flow), rel=1e-5)


def test_wanted_flow_is_heat_over_cooling():
    """Φ/(ρ·c_p·10 K) of the saloon's load."""
    study = boat.study_of()
    load = float(study.heat_loss.zones["saloon"].load)
    carried = float(study.coolant.density) * float(study.coolant.specific_heat) * 10
    assert float(study.ring.wanted["saloon"].flow) == pytest.approx(load / carried)


def test_turns_by_the_makers_table():
    kv = float(boat.study_of().ring.presets["V2"].kv)
    table = [["0", "0 m3/h"], ["2", f"{2 * kv:.9g} m3/h"], ["4", "1.6 m3/h"]]
    assert float(boat.study_of({"components.V2.settings": table}).ring.presets["V2"].turns) == pytest.approx(
        1
    )
    short = [["2", f"{2 * kv:.9g} m3/h"], ["4", "1.6 m3/h"]]
    assert boat.study_of({"components.V2.settings": short}).ring.presets["V2"].turns is None


def test_targets_of_commissioning():
    """Flow to set, and the cooling that two thermometers on the branch must show."""
    ring = boat.study_of().ring
    preset, state = ring.presets["V2"], ring.design.heat.emitters["F2"]
    assert preset.flow == ring.design.flows.edges["V2"].flow
    assert float(preset.drop) == pytest.approx(float(state.supply) - float(state.back))
    assert ring.presets["V9"].drop is None


def test_authority_is_the_valves_share_of_its_branch():
    ring = boat.study_of().ring
    flows = ring.design.flows
    expected = float(flows.edges["V3"].drop) / float(flows.branches["heads"].drop)
    assert float(ring.presets["V3"].authority) == pytest.approx(expected)


# Pump


def square_law(curve):
    """The cutter with square-law parts alone: every pipe a loss factor without length."""
    changes = {"components.P1.curve": curve}
    for key in (
        *boat.RING.values(),
        *(f"{BRANCH}.{n}.{p}.pipe" for n in ("saloon", "cabin", "heads") for p in (1, 3)),
    ):
        for name in ("size", "bends", "route", "vents", "drains", "through"):
            changes[f"{key}.{name}"] = None
        changes |= {
            f"{key}.bore": "12 mm",
            f"{key}.length": "1 mm",
            f"{key}.k": "20",
            f"{key}.roughness": "0 mm",
        }
    return changes


def test_need_of_the_pump_goes_with_the_square_of_the_share():
    """Square-law resistances: 1/s² of the rise gives 1/s of every flow, and s is the common share."""
    ring = boat.study_of(square_law([["0 l/min", "30 kPa"], ["30 l/min", "20 kPa"]])).ring
    need, point = ring.design.pump_needs["P1"], ring.design.flows.pumps["P1"]
    assert float(need.needed) == pytest.approx(float(point.pressure_rise) / ring.share**2, rel=0.01)
    assert float(need.flow) == pytest.approx(float(point.flow) / ring.share, rel=0.01)
    assert float(need.available) == pytest.approx(30e3 - 10e3 * float(need.flow) * 2000, rel=0.01)


def test_no_need_where_nobody_calls():
    assert boat.study_of().ring.operations["tap water only"].pump_needs == {}


# Open paths


@pytest.mark.parametrize("count", [0, 1, 4, ALL])
def test_all_states_of_few_valves(count):
    states = states_of(count)
    assert len(states) == 2**count
    assert len(np.unique(states, axis=0)) == 2**count if count else True


def test_a_sample_of_the_states_of_many_valves():
    """All open, all shut, each alone either way, every pair shut: and a thousand in all."""
    states = states_of(14)
    rows = {tuple(row) for row in states.tolist()}
    assert len(rows) == pytest.approx(TRIED, abs=30)
    assert {(False,) * 14, (True,) * 14} <= rows
    for one in range(14):
        assert tuple(n == one for n in range(14)) in rows
        assert tuple(n != one for n in range(14)) in rows
    assert tuple(n in {3, 9} for n in range(14)) in rows


@pytest.mark.parametrize("seed", range(12))
def test_paths_counted_by_walking_them(seed):
    """Random nested circuits with a burner: every simple path walked one by one (depth first)."""
    drawn = rings.Drawing(seed + 500).circuit(links=False)
    whole = rings.as_project(drawn)
    whole["components"]["B9"] = {"kind": "burner", "pressure_drop": "5 kPa at 20 l/min"}
    whole["circuit"]["ring"].insert(1, {"unit": "B9"})
    study = boat.study_of_project(in_full(as_text(whole)))
    places = study.circuit.places
    leaving = {}
    for place in places.values():
        leaving.setdefault(place.start, []).append(place)

    def walk(node):
        return 1 if node == places["B9"].start else sum(walk(p.end) for p in leaving[node])

    paths = study.ring.open_paths["heating"]
    assert float(paths.paths) == walk(places["B9"].end)


def motor_valves(names):
    found = {}
    for number, name in enumerate(names):
        found[f"components.V6{number}"] = {"kind": "motor_valve", "kv": "1.5 m3/h"}
        items = boat.changed({})["circuit"]["ring"][10]["branches"][name]
        found[f"{BRANCH}.{name}"] = [{"unit": f"V6{number}"}, *items]
    return found


def test_least_flow_of_all_combinations_is_that_of_the_worst_mode_by_hand():
    """Each combination written as a mode of its own, solved with its temperatures."""
    names = ("saloon", "cabin", "heads")
    changes = motor_valves(names)
    presets = {t: f"{float(p.kv):.9g} m3/h" for t, p in boat.study_of(changes).ring.presets.items()}
    modes = {"heating": {"set": presets}}
    for states in product((0, 1), repeat=3):
        shut = [f"V6{n}" for n, state in enumerate(states) if state]
        modes["shut " + "".join(map(str, states))] = {"set": presets, "shut": shut, "calls": "none"}
    found = boat.study_of({**changes, "modes": modes}).ring
    by_hand = min(
        float(o.flows.edges["B1"].flow) for name, o in found.operations.items() if name.startswith("shut")
    )
    assert float(found.open_paths["heating"].least) == pytest.approx(by_hand, rel=0.01)
    assert set(found.open_paths["heating"].least_shut) == {"V60", "V61", "V62"}


def test_a_valve_the_mode_holds_is_not_tried():
    changes = {**motor_valves(("saloon",)), "modes.heating.open": ["V60"], "modes.night.shut": ["V60"]}
    paths = boat.study_of(changes).ring.open_paths
    assert paths["heating"].automatic == ()
    assert paths["night"].automatic == ()
    assert paths["tap water only"].automatic == ("V60",)
    by_hand = {**motor_valves(("saloon",)), "components.V60.automatic": "false"}
    assert boat.study_of(by_hand).ring.open_paths["tap water only"].automatic == ()


# Interaction


def test_shutting_one_emitter_by_its_valve_in_a_mode():
    """The same flows as in a mode that shuts the valve, but for the liquid, a little colder there."""
    ring = boat.study_of().ring
    presets = {t: f"{float(p.kv):.9g} m3/h" for t, p in ring.presets.items() if t != "V1"}
    modes = {"heating": {"set": {"V9": "0.5 m3/h"}}, "without": {"set": presets, "shut": ["V1"]}}
    other = boat.study_of({"modes": modes}).ring.operations["without"].flows
    row = next(row for row in interaction(ring) if row.shut == "F1")
    for tag in ("F2", "R3", "V9"):
        assert float(row.others[tag].flow) == pytest.approx(float(other.edges[tag].flow), rel=0.01)
        assert row.others[tag].ratio > 1
    assert float(row.burner["B1"].flow) == pytest.approx(float(other.edges["B1"].flow), rel=0.01)
    assert row.burner["B1"].ratio < 1


def test_interaction_waits_for_the_design_mode():
    assert isinstance(interaction(boat.study_of(UNSOLVED).ring), NotAssessed)


# Index circuit


def test_profile_comes_back_to_where_it_began():
    study = boat.study_of()
    profile = index_profile(study.ring)
    tags = [point.tag for point in profile]
    assert tags[0] == "P1"
    assert {"V1", "saloon_1", "F1", "saloon_2"} <= set(tags)
    assert not {"V2", "V3", "V9"} & set(tags)
    assert sum(float(point.drop) for point in profile) == pytest.approx(
        0, abs=30
    )  # warm water lifts a little
    assert profile[1].before == pytest.approx(float(study.ring.design.flows.pumps["P1"].pressure_rise))
    assert float(profile[-1].begins) + float(profile[-1].length) == pytest.approx(1.2 + 1.0 + 4.8 + 5.0 + 2.2)


def test_profile_of_a_ring_without_branches():
    ring = [
        {"unit": "P1"},
        {"unit": "B1"},
        {"pipe": {"size": "hose 19", "length": "5 m"}},
        {"unit": "F1"},
        {"unit": "F2"},
        {"unit": "R3"},
    ]
    changes = {"circuit.ring": ring, "modes": None}
    profile = index_profile(boat.study_of(changes).ring)
    assert [point.tag for point in profile] == ["P1", "B1", "ring_1", "F1", "F2", "R3"]


# Sizes of pipe


def test_neighbours_are_a_size_apart():
    names = [size.name for size in neighbours(pipe_size("pex 16x2.0"))]
    assert names == ["pex 14x2.0", "pex 16x2.0", "pex 18x2.0"]
    assert [s.name for s in neighbours(pipe_size("hose 22"))] == ["hose 19", "hose 22", "hose 25"]
    assert neighbours(pipe_size("hose 10"))[0].name == "hose 10"


def test_drop_in_another_size_by_an_open_library():
    """Friction factor of the library ``fluids`` (Colebrook), above Re 4000, and K on the new velocity."""
    study = boat.study_of()
    choice = pipe_choices(study.project, study.ring)["ring_2"]
    outcome = study.ring.design.outcome
    place = outcome.solution.network.element_index["ring_2"]
    density, viscosity = float(outcome.density[place]), float(outcome.viscosity[place])
    flow = float(study.ring.design.flows.edges["ring_2"].flow)
    for option in choice.options:
        bore = float(option.bore)
        speed = flow / (np.pi / 4 * bore**2)
        reynolds = density * speed * bore / viscosity
        assert reynolds > 4000
        factor = fluids.friction_factor(Re=reynolds, eD=1e-5 / bore, Method="Colebrook")
        expected = (factor * 1.0 / bore + 0.9) * density * speed**2 / 2
        assert float(option.drop) == pytest.approx(expected, rel=0.01)
        assert float(option.velocity) == pytest.approx(speed, rel=1e-6)


def test_volume_of_another_size():
    study = boat.study_of()
    options = {o.size: o for o in pipe_choices(study.project, study.ring)["ring_2"].options}
    assert float(options["hose 25"].volume) == pytest.approx(np.pi / 4 * (0.025**2 - 0.022**2) * 1.0)
    assert float(options["hose 22"].volume) == 0


def test_size_on_the_index_circuit_stays_and_off_it_the_valve_gives_back():
    study = boat.study_of()
    choices = pipe_choices(study.project, study.ring)
    assert choices["saloon_1"].on_index
    assert choices["saloon_1"].recommended == "pex 16x2.0"
    assert not choices["heads_1"].on_index
    assert choices["heads_1"].recommended == "pex 14x2.0"
    assert "gives back" in choices["heads_1"].reason


def test_size_that_is_too_fast_is_to_grow():
    study = boat.study_of({"limits": {"flow.velocity_max": {"at_most": "0.45 m/s", "source": "B1"}}})
    choice = pipe_choices(study.project, study.ring)["ring_2"]
    assert choice.recommended == "hose 25"
    assert "0.45 m/s allowed" in choice.reason
    none = boat.study_of({"limits": {"flow.velocity_max": {"at_most": "0.05 m/s", "source": "B1"}}})
    choice = pipe_choices(none.project, none.ring)["ring_2"]
    assert "no size beside it suits" in choice.reason


def test_size_that_costs_the_reserve_is_held():
    reserve = float(boat.finding("flow.pump_reserve").found)
    limit = {"flow.pump_reserve": {"at_least": f"{reserve * 0.995:.6f}", "source": "the owner"}}
    study = boat.study_of({"limits": limit})
    choice = pipe_choices(study.project, study.ring)["ring_2"]
    assert choice.recommended == "hose 22"
    assert "hose 19 would not" in choice.reason


def test_reserve_with_another_size_by_writing_it_into_the_file():
    """The option's reserve against the whole ring calculated anew with that size."""
    study = boat.study_of()
    option = pipe_choices(study.project, study.ring)["ring_2"].options[0]
    changed = boat.finding("flow.pump_reserve", {f"{boat.RING['ring_2']}.size": option.size})
    assert float(option.reserve) == pytest.approx(float(changed.found), rel=0.01)


# Mixes


def test_curve_of_the_mix_passes_through_the_cold_start():
    study = boat.study_of({"conditions.unheated_start": "0 degC"})
    point = next(p for p in mix_curve(study.project, study.coolant, study.ring) if p.temperature == 273.15)
    assert point.burner == pytest.approx(float(study.cold_start.rated["B1"]), rel=1e-6)
    assert float(point.index_loss) == pytest.approx(float(study.cold_start.index_loss), rel=1e-6)


def test_thicker_mix_flows_less_and_frozen_mix_not_at_all():
    study = boat.study_of({"circuit.coolant.share": "25 %"})
    points = mix_curve(study.project, study.coolant, study.ring)
    flows = [point.burner for point in points if point.burner is not None]
    assert flows == sorted(flows)
    assert points[0].burner is None
    assert "freezes at" in points[0].why


def test_laminar_loss_goes_with_the_viscosity():
    """Below Re 2000 the drop at equal flow goes as μ; the index branch has pipe for the most part."""
    study = boat.study_of({"circuit.coolant.share": "50 %"})
    points = {round(p.temperature): p for p in mix_curve(study.project, study.coolant, study.ring)}
    cold, colder = points[263], points[253]
    pipes = float(colder.index_loss) / float(cold.index_loss)
    assert 1.5 < pipes < float(colder.viscosity) / float(cold.viscosity)


def test_strengths_beside_water():
    """Flow for the same heat is ρ·c_p of water over that of the mix; head rises with the share."""
    study = boat.study_of()
    found = strengths(study.project, study.coolant, study.ring)
    water, heads = found[0], [s.head for s in found if s.head is not None]
    assert (water.share, water.flow, water.head) == (0, pytest.approx(1), pytest.approx(1))
    assert heads == sorted(heads)
    forty = next(s for s in found if s.share == 0.4)
    carried = float(water.density) * float(water.specific_heat)
    assert forty.flow == pytest.approx(carried / (float(forty.density) * float(forty.specific_heat)))
    assert float(forty.freezing_point) == pytest.approx(float(study.coolant.freezing_point))
    plain = boat.study_of({"circuit.coolant": {"base": "water"}})
    assert len(strengths(plain.project, plain.coolant, plain.ring)) == 1


# Results


def test_every_result_of_the_ring_has_an_origin():
    """No number of the ring comes from nowhere."""
    study = boat.study_of()
    parts = (study.ring, study.pressures, study.expansion, study.held, study.cold_start)
    found = [result for part in parts for result in named_results(part)]
    names = [result.name for result in found]
    assert len(found) > 250
    for wanted in (
        "flow.heating.edge.B1",
        "flow_wanted.branch.saloon",
        "balancing.V2.kv",
        "pump.heating.P1.needed",
        "open_paths.night",
        "supply.heating.B1",
        "zone_margin.heating.saloon",
        "pipe_loss.heating.outside",
        "surface_temperature.heating.edge.ring_1",
        "output_quiet.night.F2",
        "network.residual.flow",
        "pressure.heating.lowest",
        "flow.cold_start.edge.B1",
        "expansion.boiling_margin",
        "temperature_held.zone.saloon",
    ):
        assert wanted in names, wanted
    bare = [r.name for r in found if float(r.value) and not list(origins_behind(r.value))]
    assert bare == []
