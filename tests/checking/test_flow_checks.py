"""Checks of flow: met by the cutter as she is written, and tried just inside and just outside their limits.

Limits are those of the catalogue (common practice, no source, unless it names one). What is asked for is put
a thousandth under and over what the ring has, so that only the comparison is tried here.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.checking.finding import Status

MET, NOT_MET, OPEN, APART = Status.MET, Status.NOT_MET, Status.NOT_ASSESSED, Status.NOT_APPLICABLE


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).parents[1] / f"{name}.py")
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("ring_boat")
BRANCH, RING = boat.BRANCH, boat.RING
NO_FLOW = {"components.P1.curve": None}
"""Without a curve of the pump there is no flow."""

UNSOLVED = {"components.P1.curve": [["0 l/min", "24 kPa"], ["1 l/min", "23 kPa"], ["2 l/min", "22 kPa"]]}
"""A curve that ends long before the pump's working point: no mode has an answer."""


def litres(flow):
    return f"{float(flow) * 60000:.9f} l/min"


def pascals(pressure):
    return f"{float(pressure):.6f} Pa"


def degrees(kelvin):
    return f"{float(kelvin) - 273.15:.9f} degC"


def status(check, changes=None):
    return boat.finding(check, changes).status


def test_the_cutter_meets_every_check_of_flow():
    for name in boat.written_checks():
        if name.startswith("flow.") and name != "flow.measured":
            assert boat.finding(name).status is MET, name


@pytest.mark.parametrize("check", [n for n in boat.written_checks() if n.startswith("flow.")])
def test_without_flow_no_check_that_needs_it_is_met(check):
    geometry = {
        "flow.high_points",
        "flow.low_points",
        "flow.shut_valves",
        "flow.oxygen_barrier",
        "flow.hose_support",
    }
    if check not in geometry:
        changes = {"commissioning.flows": {"V1": "4 l/min"}}
        assert status(check, {**changes, **NO_FLOW}) is OPEN
        found = boat.finding(check, {**changes, **UNSOLVED})
        assert found.status is OPEN
        assert "beyond the last point of its curve" in found.why


# The burner


def burner_flows():
    ring = boat.study_of().ring
    return [o.flows.edges["B1"].flow for o in ring.operations.values()]


def test_least_flow_of_the_burner_counts_in_the_worst_mode():
    least = float(min(burner_flows()))
    assert status("flow.burner_min", {"components.B1.flow_min": litres(0.999 * least)}) is MET
    assert status("flow.burner_min", {"components.B1.flow_min": litres(1.001 * least)}) is NOT_MET


def test_without_the_makers_flow_the_rise_at_full_output_counts():
    """15 K at full output: Φ/(ρ·c_p·q_V) of the least flow (common practice, no source)."""
    coolant = boat.study_of().coolant
    carried = float(min(burner_flows())) * float(coolant.density) * float(coolant.specific_heat)
    full = {"components.B1.flow_min": None, "components.B1.output.min": "1 kW"}
    for factor, expected in ((0.99, MET), (1.01, NOT_MET)):
        changes = {**full, "components.B1.output.max": f"{15 * factor * carried:.3f} W"}
        found = boat.finding("flow.burner_min", changes)
        assert found.status is expected
        assert float(found.found) == pytest.approx(15 * factor, rel=2e-3)
        assert "judged by the rise" in found.remark


def test_without_makers_flow_and_output_nobody_knows():
    changes = {"components.B1.flow_min": None, "components.B1.output": None}
    assert status("flow.burner_min", changes) is OPEN
    assert (
        status("flow.burner_min", {"limits": {"flow.burner_min": {"at_least": "5 l/min", "source": "B1"}}})
        is MET
    )


def test_cold_start_counts_at_the_lowest_voltage():
    cold = float(boat.study_of().cold_start.flows.edges["B1"].flow)
    assert status("flow.cold_start", {"components.B1.flow_min": litres(0.999 * cold)}) is MET
    assert status("flow.cold_start", {"components.B1.flow_min": litres(1.001 * cold)}) is NOT_MET
    assert status("flow.cold_start", {"conditions.unheated_start": None}) is OPEN


def test_without_electrics_the_speed_on_a_tired_battery_is_unknown():
    found = boat.finding("flow.cold_start", {"electrics": None})
    assert found.status is OPEN
    assert "electrics.system" in found.missing
    assert status("flow.cold_start", {"electrics": None, "components.P1.regulated": "true"}) is MET


AUTOMATIC = {
    f"components.V{n}": {"kind": "motor_valve", "kv": "2 m3/h", "automatic": "true"} for n in (41, 42, 43)
}


def with_motor_valves(**changes):
    """Motor valves in all three branches of emitters."""
    added = dict(AUTOMATIC)
    for number, name in ((41, "saloon"), (42, "cabin"), (43, "heads")):
        items = boat.changed({})["circuit"]["ring"][10]["branches"][name]
        added[f"{BRANCH}.{name}"] = [{"unit": f"V{number}"}, *items]
    return {**added, "modes.heating.set.V9": "1.5 m3/h", "modes.night.set.V9": "1.5 m3/h", **changes}


def test_motor_valves_may_all_shut_where_a_bypass_stays():
    found = boat.finding("flow.never_shut", with_motor_valves())
    assert found.status is MET
    paths = boat.study_of(with_motor_valves()).ring.open_paths["heating"]
    assert (paths.states, float(paths.paths), set(paths.shut)) == (8, 1, {"V41", "V42", "V43"})
    assert paths.is_complete


def test_motor_valves_in_every_branch_leave_the_pump_no_path():
    branches = {"components.V44": {"kind": "motor_valve", "kv": "2 m3/h"}}
    branches[f"{BRANCH}.bypass"] = [{"unit": "V44"}, {"unit": "V9"}]
    found = boat.finding("flow.never_shut", with_motor_valves(**branches))
    assert found.status is NOT_MET
    assert float(found.found) == 0
    assert "V44" in found.place


def test_least_flow_counts_in_the_worst_combination():
    worst = boat.study_of(with_motor_valves()).ring.open_paths["heating"]
    assert set(worst.least_shut) == {"V41", "V42", "V43"}
    for factor, expected in ((0.999, MET), (1.001, NOT_MET)):
        flow = litres(factor * float(worst.least))
        changes = with_motor_valves(**{"components.B1.flow_min": flow})
        assert status("flow.never_shut", changes) is expected


def test_a_mode_that_shuts_everything_is_found_and_has_no_numbers():
    changes = {"modes.asleep": {"shut": ["V1", "V2", "V3", "V9"]}}
    ring = boat.study_of(changes).ring
    assert "asleep" not in ring.operations
    assert "pushes against closed valves" in ring.not_solved["asleep"]
    found = boat.finding("flow.never_shut", changes)
    assert found.status is NOT_MET
    assert "asleep" in found.place
    assert status("flow.burner_min", changes) is OPEN
    stopped = {"modes.asleep": {"shut": ["V1", "V2", "V3", "V9"], "stopped": ["P1", "B1"]}}
    assert status("flow.never_shut", stopped) is MET


# Branches and pump


def test_branch_flow_against_nine_tenths_of_the_wanted():
    """All branches of a balanced ring get one multiple of what they want; the wanted flow goes with 1/Δθ."""
    share = boat.study_of().ring.share
    for factor, expected in ((0.91, MET), (0.89, NOT_MET)):
        drop = 10.0 * factor / share
        assert status("flow.branch_flow", {"circuit.design_drop": f"{drop:.6f} K"}) is expected
    assert status("flow.branch_flow", {"conditions.outside_air": None}) is OPEN


def test_preset_range_asks_for_a_tenth_to_nine_tenths():
    kv = float(boat.study_of().ring.presets["V3"].kv)
    assert status("flow.preset_range", {"components.V3.kv": f"{kv / 0.101:.6f} m3/h"}) is MET
    assert status("flow.preset_range", {"components.V3.kv": f"{kv / 0.099:.6f} m3/h"}) is NOT_MET
    kv = float(boat.study_of().ring.presets["V2"].kv)
    assert status("flow.preset_range", {"components.V2.kv": f"{kv / 0.89:.6f} m3/h"}) is MET
    assert status("flow.preset_range", {"components.V2.kv": f"{kv / 0.91:.6f} m3/h"}) is NOT_MET
    assert status("flow.preset_range", {"conditions.outside_air": None, "modes.heating.set": None}) is OPEN


def test_measured_flow_may_lie_fifteen_per_cent_off_either_way():
    expected = float(boat.study_of().ring.presets["V1"].flow)
    for factor, result in ((1.149, MET), (1.151, NOT_MET), (0.851, MET), (0.849, NOT_MET)):
        assert status("flow.measured", {"commissioning.flows": {"V1": litres(factor * expected)}}) is result
    assert status("flow.measured") is OPEN


def test_pump_reserve_is_rise_over_need():
    reserve = float(boat.finding("flow.pump_reserve").found)
    need = boat.study_of().ring.design.pump_needs["P1"]
    assert reserve == pytest.approx(float(need.available) / float(need.needed))
    for factor, expected in ((0.999, MET), (1.001, NOT_MET)):
        limit = {"flow.pump_reserve": {"at_least": f"{factor * reserve:.6f}", "source": "the owner"}}
        assert status("flow.pump_reserve", {"limits": limit}) is expected
    assert status("flow.pump_reserve", {"conditions.outside_air": None}) is OPEN


# Speeds


def test_velocity_limits_of_hose_and_of_copper():
    """1.5 m/s in hose and plastic, 1.2 m/s in copper within the accommodation."""
    flow = max(float(o.flows.edges["B1"].flow) for o in boat.study_of().ring.operations.values())
    for speed, expected in ((1.45, MET), (1.58, NOT_MET)):
        bore = (4 * flow / speed / 3.14159) ** 0.5
        changes = {f"{RING['ring_2']}.size": None, f"{RING['ring_2']}.bore": f"{1000 * bore:.4f} mm"}
        changes[f"{RING['ring_2']}.length"] = "0.01 m"
        changes[f"{RING['ring_2']}.bends"] = "0"
        assert status("flow.velocity_max", changes) is expected
    own = {"flow.velocity_max": {"at_most": "0.5 m/s", "source": "B1"}}
    assert status("flow.velocity_max", {"limits": own}) is NOT_MET


def test_copper_in_the_engine_room_is_not_in_the_accommodation():
    thin = {f"{RING['ring_2']}.size": "copper 15x1", f"{RING['ring_2']}.length": "0.1 m"}
    assert float(boat.finding("flow.velocity_max", thin).found) > 1.2
    assert status("flow.velocity_max", {**thin, f"{RING['ring_2']}.through": "saloon"}) is NOT_MET
    assert status("flow.velocity_max", thin) is MET


def test_falling_run_is_fast_enough_or_has_a_vent_at_its_top():
    slow = {f"{RING['ring_3']}.size": "hose 25"}
    assert status("flow.velocity_air", slow) is NOT_MET
    vent = [{"at": ["5 m", "-1 m", "0.3 m"], "kind": "manual", "reachable": "true"}]
    assert status("flow.velocity_air", {**slow, f"{RING['ring_3']}.vents": vent}) is MET
    assert status("flow.velocity_air", {f"{RING['ring_1']}.route": None}) is OPEN


def test_backward_flow_is_found_and_may_be_allowed():
    """Where V9 leads from the return to the supply, the water passes it backward."""
    links = [{"from": "V31", "to": "V11", "pipe": {"size": "hose 10", "length": "1 m"}}]
    forward = {"circuit.links": links}
    assert status("flow.reverse", forward) is MET
    backward = {"circuit.links": [{"from": "V11", "to": "B1", "pipe": {"size": "hose 10", "length": "1 m"}}]}
    found = boat.finding("flow.reverse", backward)
    assert found.status is NOT_MET
    assert "links_1" in found.found
    for mode in ("heating", "night", "tap water only"):
        backward[f"modes.{mode}.reverse_allowed"] = ["links_1"]
    assert status("flow.reverse", backward) is MET


def test_ring_difference_lies_between_four_and_twenty_kelvin():
    source = boat.study_of().ring.design.heat.sources["B1"]
    assert float(boat.finding("flow.ring_difference").found) == pytest.approx(
        float(source.supply) - float(source.back)
    )
    assert status("flow.ring_difference", {"zones.0.sections.0.u_value": "0.1 W/m2K"}) is NOT_MET
    assert status("flow.ring_difference", {"components.B1.output": None}) is OPEN


# Pressure and temperature


def test_suction_keeps_the_makers_pressure_over_the_vapour_pressure():
    margin = float(boat.finding("flow.suction").found)
    assert status("flow.suction", {"components.P1.npsh": pascals(0.999 * margin)}) is MET
    assert status("flow.suction", {"components.P1.npsh": pascals(1.001 * margin)}) is NOT_MET
    assert status("flow.suction", {"layout.places.P1": None}) is OPEN
    assert status("flow.suction", {"layout.places.T2": None}) is OPEN


def test_lowest_pressure_counts_running_and_stopped():
    """One metre of coolant is some 9.8 kPa: the header comes down by what the ring has to spare, and more."""
    lowest = float(boat.finding("flow.no_suction_in").found)
    metres = lowest / (9.80665 * float(boat.study_of().coolant.density))
    for less, expected in ((0.99, MET), (1.01, NOT_MET)):
        at = ["3.0 m", "-0.1 m", f"{3.0 - less * metres:.6f} m"]
        assert status("flow.no_suction_in", {"layout.places.T2.at": at}) is expected
    assert status("flow.no_suction_in", {"circuit.header": None}) is OPEN


def test_automatic_vent_wants_five_kilopascal():
    """At 0.9 m the stopped ring has ρ·g·2.1 m and more; at 2.6 m less than half a metre is left."""
    key = f"{RING['ring_2']}.vents"
    low = [{"at": ["4 m", "-1 m", "0.35 m"], "kind": "automatic", "reachable": "true"}]
    high = [{"at": ["4 m", "-1 m", "2.7 m"], "kind": "automatic", "reachable": "true"}]
    assert status("flow.no_suction_in", {key: low}) is MET
    assert status("flow.no_suction_in", {key: high}) is NOT_MET
    del low[0]["at"]
    assert status("flow.no_suction_in", {key: low}) is OPEN


def test_weakest_rating_sets_the_pressure():
    highest = float(boat.finding("flow.pressure_rating").found)
    key = f"{RING['ring_1']}.pressure_rating"
    assert status("flow.pressure_rating", {key: pascals(1.001 * highest)}) is MET
    assert status("flow.pressure_rating", {key: pascals(0.999 * highest)}) is NOT_MET
    assert status("flow.pressure_rating", {key: None, "components.B1.pressure_rating": None}) is OPEN


def test_pressure_of_a_sealed_ring_counts_hot():
    study = boat.study_of(boat.SEALED)
    cold = max(float(p.highest) for p in study.pressures.modes.values())
    hot = cold + float(study.expansion.final) - float(study.pressures.join)
    assert float(boat.finding("flow.pressure_rating", boat.SEALED).found) == pytest.approx(hot)
    assert hot > cold
    assert status("flow.pressure_rating", {**boat.SEALED, "components.T3.volume": None}) is OPEN


def test_temperature_ratings_against_the_hottest_water_and_the_stat():
    key = f"{RING['ring_1']}.temperature_rating"
    assert status("flow.temperature_rating", {key: "98.01 degC"}) is MET
    assert status("flow.temperature_rating", {key: "97.99 degC"}) is NOT_MET
    assert status("flow.temperature_rating", {key: None}) is OPEN
    assert status("flow.temperature_rating", {"components.B1.overheat_stat": None}) is OPEN


def test_plastic_pipe_without_a_rating_stands_ninety_and_a_hundred_degrees():
    """EN ISO 15875-1, application class 5, from memory."""
    assert status("flow.temperature_rating", {"components.B1.overheat_stat": "100 degC"}) is MET
    assert status("flow.temperature_rating", {"components.B1.overheat_stat": "100.1 degC"}) is NOT_MET
    hot = {"components.B1.setpoint": "96 degC", "components.B1.overheat_stat": "99 degC"}
    found = boat.finding("flow.temperature_rating", hot)
    assert found.status is NOT_MET
    assert found.bound > 363.15


# Air, water, pipes, valves


def test_every_top_wants_a_vent_in_reach():
    key = f"{BRANCH}.saloon.3.pipe.vents"
    assert status("flow.high_points", {key: None}) is NOT_MET
    vent = {"at": ["7 m", "1 m", "0.7 m"], "kind": "manual", "reachable": "false"}
    assert status("flow.high_points", {key: [vent]}) is NOT_MET
    assert status("flow.high_points", {key: [{**vent, "reachable": "true"}]}) is MET
    assert status("flow.high_points", {key: [{"at": vent["at"], "kind": "manual"}]}) is OPEN
    aside = {**vent, "at": ["7 m", "1.2 m", "0.7 m"], "reachable": "true"}
    assert status("flow.high_points", {key: [aside]}) is NOT_MET
    assert status("flow.high_points", {f"{RING['ring_1']}.route": None}) is OPEN


def test_a_top_inside_a_run_is_found():
    route = [["3 m", "-1 m", "0.2 m"], ["3.5 m", "-1 m", "0.5 m"], ["4 m", "-1 m", "0.35 m"]]
    found = boat.finding("flow.high_points", {f"{RING['ring_1']}.route": route})
    assert found.status is NOT_MET
    assert "ring_1, 0.50 m" in found.place


def test_every_bottom_wants_a_drain():
    key = f"{RING['ring_3']}.drains"
    assert status("flow.low_points", {key: None}) is NOT_MET
    assert status("flow.low_points", {key: [["3.05 m", "-1 m", "0.1 m"]]}) is MET
    assert status("flow.low_points", {f"{RING['ring_3']}.route": None}) is OPEN


def test_air_separator_sits_between_burner_and_emitters():
    ring = boat.changed({})["circuit"]["ring"]
    without = [item for item in ring if item != {"unit": "V11"}]
    assert status("flow.air_separator", {"circuit.ring": without}) is NOT_MET
    cold = [{"unit": "V11"}, *without]
    assert status("flow.air_separator", {"circuit.ring": cold}) is NOT_MET
    assert status("flow.air_separator", {"layout.places.V11": None}) is OPEN


def test_air_separator_above_outside_pressure():
    high = ["4.2 m", "-1.0 m", "4.5 m"]
    assert status("flow.air_separator", {"layout.places.V11.at": high}) is NOT_MET


def test_plastic_pipe_wants_a_barrier():
    key = f"{BRANCH}.cabin.1.pipe.oxygen_tight"
    assert status("flow.oxygen_barrier", {key: "false"}) is NOT_MET
    assert status("flow.oxygen_barrier", {key: None}) is OPEN
    sizes = {
        f"{BRANCH}.{name}.{n}.pipe.size": "hose 13" for name in ("saloon", "cabin", "heads") for n in (1, 3)
    }
    assert status("flow.oxygen_barrier", sizes) is APART


@pytest.mark.parametrize(
    ("key", "inside", "outside"),
    [
        (f"{RING['ring_1']}.support", "500 mm", "501 mm"),
        (f"{BRANCH}.heads.1.pipe.support", "400 mm", "401 mm"),
    ],
)
def test_supports_of_hose_and_of_hot_plastic_pipe(key, inside, outside):
    assert status("flow.hose_support", {key: inside}) is MET
    assert status("flow.hose_support", {key: outside}) is NOT_MET
    assert status("flow.hose_support", {key: None}) is OPEN


def test_passages_of_hose_are_sleeved():
    key = f"{RING['ring_1']}.sleeved"
    assert status("flow.hose_support", {key: "false"}) is NOT_MET
    assert status("flow.hose_support", {key: None}) is OPEN


@pytest.mark.parametrize("valve", ["V30", "V31", "V32", "V33"])
def test_valves_on_both_sides_of_what_is_taken_out(valve):
    ring = [item for item in boat.changed({})["circuit"]["ring"] if item != {"unit": valve}]
    assert status("flow.shut_valves", {"circuit.ring": ring}) is NOT_MET


def test_valves_to_take_parts_out_must_not_cut_the_burner_off():
    changes = {"circuit.header.joins_before": "P1", "layout.places.P1": None}
    found = boat.finding("flow.shut_valves", changes)
    assert found.status is NOT_MET
    assert "V31" in found.found
    assert status("flow.shut_valves", {"circuit.header": None}) is OPEN
