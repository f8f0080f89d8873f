"""Checks of heat and of temperatures: met by the cutter, and tried just inside and just outside.

Limits are those of the catalogue: common practice, no source, unless it names one.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.checking.finding import Status
from dossier.checking.source_output import full_output

MET, NOT_MET, OPEN, APART = Status.MET, Status.NOT_MET, Status.NOT_ASSESSED, Status.NOT_APPLICABLE
NO_HEAT = ("source_covers", "source_reserve", "emitter_covers", "room_held", "fan_speed")
UNSOLVED = {"components.P1.curve": [["0 l/min", "24 kPa"], ["1 l/min", "23 kPa"], ["2 l/min", "22 kPa"]]}
"""A curve that ends long before the pump's working point: no mode has an answer."""


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).parents[1] / f"{name}.py")
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("ring_boat")
BRANCH, RING = boat.BRANCH, boat.RING
WITH_ENGINE = {
    "components.G1": {
        "kind": "generator",
        "jacket_heat": "9 kW",
        "thermostat": "70 degC",
        "jacket_highest": "89 degC",
        "own_cooler": "true",
    },
    "components.X2": {
        "kind": "recovery_exchanger",
        "serves": "G1",
        "output": "9 kW",
        "at": {
            "engine_in": "82 degC",
            "engine_flow": "18 l/min",
            "ring_in": "60 degC",
            "ring_flow": "18 l/min",
        },
        "pressure_drop": "5 kPa at 18 l/min",
    },
    "circuit.ring": [{"unit": "X2"}, *boat.changed({})["circuit"]["ring"]],
}
"""Heat of a generator's jacket before the burner."""


def heat(name, changes=None):
    return boat.finding(f"heat.{name}", changes).status


def temperature(name, changes=None):
    return boat.finding(f"temperature.{name}", changes).status


def watts(power):
    return f"{float(power):.6f} W"


def degrees(kelvin):
    return f"{float(kelvin) - 273.15:.9f} degC"


def to_cover():
    study = boat.study_of()
    return float(study.heat_loss.total) + float(study.ring.design.heat.outside)


def test_the_cutter_meets_every_check_of_heat_that_applies():
    for name in (*NO_HEAT, "source_not_oversize", "fresh_air", "fan_start", "rated_point"):
        assert heat(name) is MET, name
    for name in ("return_min", "supply_max", "supply_reached"):
        assert temperature(name) is MET, name


@pytest.mark.parametrize("name", NO_HEAT)
def test_without_an_answer_of_the_design_mode_no_heat_is_met(name):
    found = boat.finding(f"heat.{name}", UNSOLVED)
    assert found.status is OPEN
    assert "beyond the last point of its curve" in found.why


@pytest.mark.parametrize("name", ["return_min", "supply_max", "supply_reached", "touch"])
def test_without_an_answer_of_a_mode_no_temperature_is_met(name):
    assert temperature(name, UNSOLVED) is OPEN
    one = {"modes.asleep": {"shut": ["V1", "V2", "V3", "V9"]}, f"{RING['ring_1']}.within_reach": "true"}
    lagged = {f"{RING['ring_1']}.insulation": {"thickness": "30 mm", "conductivity": "0.03 W/m/K"}}
    expected = MET if name == "supply_reached" else OPEN
    assert temperature(name, {**one, **lagged}) is expected


# Source


@pytest.mark.parametrize(("name", "least"), [("source_covers", 1.0), ("source_reserve", 1.1)])
def test_source_against_load_and_pipe_losses_outside_the_rooms(name, least):
    """The supply falls where the source is smaller, and the pipes lose a little less."""
    for factor, expected in ((1.01, MET), (0.97, NOT_MET)):
        changes = {"components.B1.output.max": watts(factor * least * to_cover())}
        assert heat(name, changes) is expected
    assert heat(name, {"conditions.outside_air": None}) is OPEN
    assert heat(name, {"components.B1.output": None}) is OPEN


def test_before_a_circuit_is_written_the_load_alone_counts():
    bare = {"circuit": None, "modes": None}
    load = float(boat.study_of(bare).heat_loss.total)
    found = boat.finding("heat.source_covers", {**bare, "components.B1.output.max": watts(1.001 * load)})
    assert found.status is MET
    assert "not counted" in found.remark
    assert heat("source_covers", {**bare, "components.B1.output.max": watts(0.999 * load)}) is NOT_MET


def test_source_not_more_than_twice_the_load_nor_its_lowest_output_above_it():
    load = float(boat.study_of().heat_loss.total)
    full, low = "components.B1.output.max", "components.B1.output.min"
    assert heat("source_not_oversize", {full: watts(1.999 * load)}) is MET
    assert heat("source_not_oversize", {full: watts(2.001 * load)}) is NOT_MET
    assert heat("source_not_oversize", {low: watts(0.999 * load)}) is MET
    assert heat("source_not_oversize", {low: watts(1.001 * load)}) is NOT_MET
    assert heat("source_not_oversize", {"conditions.outside_air": None}) is OPEN


# Emitters and rooms


def test_emitter_covers_its_zone_at_the_flow_it_really_gets():
    small = {"components.R3.output": "300 W"}
    zone = boat.study_of(small).ring.design.heat.zones["heads"]
    found = boat.finding("heat.emitter_covers", small)
    assert found.status is NOT_MET
    assert float(found.found) == pytest.approx(float(zone.output) / float(zone.load))
    for factor, expected in ((0.999, MET), (1.001, NOT_MET)):
        limit = {"at_least": f"{factor * float(found.found):.6f}", "source": "the owner"}
        assert heat("emitter_covers", {**small, "limits": {"heat.emitter_covers": limit}}) is expected
    assert heat("emitter_covers", {"components.F1.air_flow": None}) is OPEN


def test_a_zone_that_calls_and_has_no_emitter_is_not_covered():
    assert heat("emitter_covers", {"components.R3.zone": "cabin"}) is NOT_MET
    assert heat("room_held", {"components.R3.zone": "cabin"}) is NOT_MET


def test_room_may_stay_a_kelvin_under_its_target():
    small = {"components.F1.output": "1.55 kW", "components.F1.air_flow": "200 m3/h"}
    held = float(boat.study_of(small).held.rooms["saloon"].temperature)
    assert 282 < held < 292.1
    assert heat("room_held", small) is NOT_MET
    lower = {"limits": {"heat.room_held": {"at_least": degrees(held - 0.001), "source": "the owner"}}}
    higher = {"limits": {"heat.room_held": {"at_least": degrees(held + 0.001), "source": "the owner"}}}
    assert heat("room_held", {**small, **lower}) is MET
    assert heat("room_held", {**small, **higher}) is NOT_MET
    assert heat("room_held", {"components.B1.output": None}) is OPEN


def test_quiet_fan_against_the_load_of_the_night():
    """The cabin has a target of its own in the mode night: that load counts; the saloon's is the design's."""
    study = boat.study_of()
    night = study.ring.operations["night"].heat
    found = boat.finding("heat.fan_speed")
    assert {item.what for item in found.items} == {"F1, heating", "F2, night"}
    ratio = {item.what: float(item.found) for item in found.items}
    assert ratio["F2, night"] == pytest.approx(
        float(night.emitters["F2"].quiet) / float(night.zones["cabin"].load)
    )
    least = min(ratio.values())
    for factor, expected in ((0.999, MET), (1.001, NOT_MET)):
        limit = {"heat.fan_speed": {"at_least": f"{factor * least:.6f}", "source": "the owner"}}
        assert heat("fan_speed", {"limits": limit}) is expected
    assert heat("fan_speed", {"components.F1.quiet_air_flow": None}) is OPEN


def test_fan_waits_for_warm_water():
    assert heat("fan_start", {"components.F1.start_stat": "40 degC"}) is MET
    assert heat("fan_start", {"components.F1.start_stat": "39.9 degC"}) is NOT_MET
    assert heat("fan_start", {"components.F1.start_stat": None}) is OPEN


def test_rated_point_asks_for_less_than_85_hundredths():
    """ε of a rated point: Φ/(Ċ_min·62 K), air of 300 m³/h at 18 °C as the smaller flow (ε-NTU)."""
    asked = float(boat.study_of().ring.emitters["F1"].effectiveness)
    for bound, expected in ((0.849, MET), (0.851, NOT_MET)):
        output = f"{4 * bound / asked:.9f} kW"
        assert heat("rated_point", {"components.F1.output": output}) is expected
    assert heat("rated_point", {"components.F1.output": None}) is OPEN


def test_fresh_air_of_four_litres_a_second_for_each():
    """20 m³ at one change an hour is 5.56 l/s: enough for one, not for two."""
    assert heat("fresh_air", {"zones.0.people": "1"}) is MET
    assert heat("fresh_air", {"zones.0.people": "2"}) is NOT_MET
    assert heat("fresh_air", {"zones.0.people": None, "zones.1.people": None}) is OPEN
    assert heat("fresh_air", {"zones.0.air_changes": "0.721 1/h"}) is MET
    assert heat("fresh_air", {"zones.0.air_changes": "0.719 1/h"}) is NOT_MET


def test_unheated_space_with_fresh_water_stays_above_three_degrees():
    wet = {"zones.3.fresh_water": "true", "conditions.sea": "4 degC"}
    sections = [{"name": "Shell", "u_value": "3 W/m2K", "area": "12 m2", "faces": "sea"}]
    for air, expected in ((3.01, MET), (2.99, NOT_MET)):
        zone = {"zones.3.sections": [{**sections[0], "faces": {"temperature": f"{air} degC"}}]}
        still = {"zones.3.air_changes": "0 1/h"}
        assert heat("unheated_frost", {**wet, **zone, **still}) is expected
    assert heat("unheated_frost", {"zones.3.fresh_water": None}) is OPEN
    assert heat("unheated_frost") is APART


def test_frames_through_the_insulation():
    """A steel web of 1 % of the area bridges mineral wool: far beyond a ratio of 1.5 (ISO 6946)."""
    layers = [("steel", "5 mm"), ("mineral_wool", "50 mm"), ("plywood", "9 mm")]
    wall = {"build_ups.side.layers": [{"material": m, "thickness": t} for m, t in layers]}
    frames = {"spacing": "500 mm", "web": "5 mm", "depth": "50 mm", "flange": "40 mm"}
    side = {"zones.0.sections.0": {"name": "Shell", "build_up": "side", "area": "30 m2", "faces": "air"}}
    steel = {"build_ups.side.frames": {"material": "steel", **frames}}
    assert heat("frame_method", {**wall, **side, **steel}) is NOT_MET
    pine = {"build_ups.side.frames": {"material": "pine", **frames}}
    assert heat("frame_method", {**wall, **side, **pine}) is MET
    assert heat("frame_method") is APART
    assert heat("frame_method", {"conditions.outside_air": None}) is OPEN


# Temperatures


def test_return_against_the_makers_least():
    back = min(float(o.heat.sources["B1"].back) for o in boat.study_of().ring.operations.values())
    key = "components.B1.return_min"
    assert temperature("return_min", {key: degrees(back - 0.001)}) is MET
    assert temperature("return_min", {key: degrees(back + 0.001)}) is NOT_MET
    assert temperature("return_min", {"components.B1.output": None}) is OPEN
    assert boat.finding("temperature.return_min", {key: None}).bound == pytest.approx(318.15)


def test_supply_against_the_lowest_of_all_ratings():
    hottest = max(float(o.heat.sources["B1"].supply) for o in boat.study_of().ring.operations.values())
    key = "components.B1.supply_max"
    assert temperature("supply_max", {key: degrees(hottest + 0.001)}) is MET
    assert temperature("supply_max", {key: degrees(hottest - 0.001)}) is NOT_MET
    pipe = f"{RING['ring_1']}.temperature_rating"
    assert temperature("supply_max", {pipe: degrees(hottest - 0.001)}) is NOT_MET
    assert temperature("supply_max", {"components.B1.output": None}) is OPEN


def test_ring_warmed_by_an_engine_with_all_zones_shut_counts_for_the_supply():
    """A jacket that may get 91 °C warms the ring beyond its 90 °C; one of 89 °C does not."""
    engine = {**WITH_ENGINE, "modes.generator": {"stopped": ["B1"], "recovering": ["X2"]}}
    assert temperature("supply_max", engine) is MET
    hot = {**engine, "components.G1.jacket_highest": "92 degC"}
    assert temperature("supply_max", hot) is NOT_MET
    found = boat.finding("temperature.supply_max", hot)
    assert found.place == "X2, generator, zones shut"
    assert temperature("supply_max", {**engine, "components.G1.jacket_highest": None}) is OPEN


def test_heat_recovered_in_the_design_mode_counts_with_the_burners():
    alone = float(full_output(boat.study_of(WITH_ENGINE)))
    study = boat.study_of({**WITH_ENGINE, "modes.heating.recovering": ["X2"]})
    recovered = float(study.ring.design.heat.sources["X2"].output)
    assert recovered > 100
    assert float(full_output(study)) == pytest.approx(alone + recovered, rel=1e-12)


def test_supply_reaches_the_setpoint_less_the_band():
    """At full output the supply falls where the rooms want more than the burner gives."""
    weak = {"components.B1.output": {"max": "1.6 kW", "min": "1 kW"}}
    supply = float(boat.study_of(weak).ring.design.heat.sources["B1"].supply)
    assert supply < 339.15
    for band, expected in ((0.001, MET), (-0.001, NOT_MET)):
        wide = {"components.B1.band": f"{349.15 - supply + band:.6f} K"}
        assert temperature("supply_reached", {**weak, **wide}) is expected
    assert temperature("supply_reached", {"components.B1.output": None}) is OPEN


def test_bare_pipe_within_reach_may_not_burn():
    """ISO 13732-1: 55 °C on bare metal for some 10 s, from memory."""
    reach = f"{RING['ring_1']}.within_reach"
    assert temperature("touch", {reach: "true"}) is NOT_MET
    lagging = {"thickness": "20 mm", "conductivity": "0.04 W/m/K"}
    assert temperature("touch", {reach: "true", f"{RING['ring_1']}.insulation": lagging}) is MET
    assert temperature("touch", {reach: None}) is OPEN
    assert temperature("touch") is APART
