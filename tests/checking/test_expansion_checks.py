"""Checks of expansion: met by the cutter, open and sealed, and tried just inside and just outside.

Limits are those of the catalogue: EN 12828:2012 (from memory), else common practice, no source.
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
OF_OPEN = ("highest", "highest_heeled", "capacity", "open_vent", "vent_led")
OF_SEALED = ("vessel", "precharge", "safety_valve", "gauge")
OF_BOTH = ("no_valve", "boiling", "cold_level", "after_stop")


def status(name, changes=None):
    return boat.finding(f"expansion.{name}", changes).status


def sealed(name, changes=None):
    return status(name, {**boat.SEALED, **(changes or {})})


def test_the_cutter_meets_every_check_that_applies():
    for name in (*OF_OPEN, *OF_BOTH, "level_seen"):
        assert status(name) is MET, name
    for name in (*OF_SEALED, *OF_BOTH):
        assert sealed(name) is MET, name


def test_checks_of_the_other_kind_do_not_apply():
    assert {status(name) for name in OF_SEALED} == {APART}
    assert {sealed(name) for name in OF_OPEN} == {APART}
    assert sealed("level_seen") is APART


def test_nobody_says_whether_the_ring_is_open():
    silent = {"components.T2": None, "circuit.header": None, "circuit.system": None, "layout.places.T2": None}
    for name in (*OF_OPEN, *OF_SEALED):
        assert status(name, silent) is OPEN, name


# Header


def test_header_at_the_height_of_the_highest_wetted_point():
    for height, expected in ((3.0, MET), (3.001, NOT_MET)):
        point = {"name": "R3 vent", "at": ["6 m", "1 m", f"{height} m"]}
        assert status("highest", {"layout.highest_wetted": point}) is expected
    assert "good practice" in boat.finding("expansion.highest", {"layout.highest_wetted": point}).remark
    assert status("highest", {"layout.places.T2": None}) is OPEN


def test_header_heeled_to_the_worse_side():
    """Geometry: Δz·cos φ − |Δy|·sin φ of header (middle at y = 0) and a point 3 m to port, at 20°."""
    even = 3 * 0.36397023426620236  # tan 20°
    for more, expected in ((-0.001, MET), (0.001, NOT_MET)):
        point = {"name": "rail", "at": ["3.125 m", "3 m", f"{3.0 - even + more:.9f} m"]}
        assert status("highest_heeled", {"layout.highest_wetted": point}) is expected
    assert status("highest_heeled", {"vessel.heel_angles": None}) is OPEN
    assert status("highest_heeled", {"vessel.trim_angles": None}) is OPEN
    never = {"vessel.heel_angles": {"is": "none", "note": "dries upright"}, "vessel.trim_angles": "none"}
    assert status("highest_heeled", never) is APART


def test_room_for_twelve_tenths_of_the_expansion():
    """Room is (1 − cold level) of the header's volume; a small header changes next to nothing else."""
    study = boat.study_of({"components.T2.volume": "1.2 l"})
    need = float(study.expansion.volume)
    assert status("capacity", {"components.T2.volume": f"{1000 * 1.21 * need / 0.7:.6f} l"}) is MET
    assert status("capacity", {"components.T2.volume": f"{1000 * 1.19 * need / 0.7:.6f} l"}) is NOT_MET
    assert status("capacity", {"components.T2.cold_level": None}) is OPEN


def test_vent_is_open_and_fifteen_millimetres_wide():
    assert status("open_vent", {"components.T2.vent.bore": "15 mm"}) is MET
    assert status("open_vent", {"components.T2.vent.bore": "14.9 mm"}) is NOT_MET
    assert status("open_vent", {"components.T2.vent.bore": None}) is OPEN
    assert status("open_vent", {"components.T2.vent.valve": "V30"}) is NOT_MET
    assert status("open_vent", {"components.T2.vent.valve": None}) is OPEN
    assert status("open_vent", {"components.T2.vent": "none"}) is NOT_MET
    assert status("open_vent", {"components.T2.vent": None}) is OPEN
    assert status("open_vent", {"components.T2.cap": None}) is OPEN


def test_vent_is_led_somewhere():
    assert status("vent_led", {"components.T2.vent.led_to": None}) is OPEN
    assert status("vent_led", {"components.T2.vent": "none"}) is NOT_MET
    assert boat.finding("expansion.vent_led").found == "catch bottle"


def test_level_is_seen():
    glass = "components.T2.sight_glass"
    assert status("level_seen", {glass: "false"}) is NOT_MET
    assert status("level_seen", {glass: None}) is OPEN
    assert status("level_seen", {glass: "false", "components.T2.low_level_alarm": "true"}) is MET


def test_cold_level_holds_one_and_a_half_times_the_contraction():
    """Coolant in the header counts in the system too, by less than a thousandth here."""
    study = boat.study_of({"components.T2.cold_level": "3 %"})
    need = 1.5 * float(study.expansion.contraction)
    for factor, expected in ((1.01, MET), (0.99, NOT_MET)):
        level = f"{100 * factor * need / 0.008:.6f} %"
        assert status("cold_level", {"components.T2.cold_level": level}) is expected
    assert status("cold_level", {"conditions.lay_up_lowest": None}) is OPEN
    assert status("cold_level", {"components.T2.cold_level": None}) is OPEN
    assert status("cold_level", {"conditions.lay_up_lowest": "15 degC"}) is APART


# Sealed


def test_vessel_holds_what_is_needed():
    key = "components.T3.volume"
    near = boat.study_of({**boat.SEALED, key: "3.5 l", "components.V8.setting": "9 bar"})
    needed = 1000 * float(near.expansion.needed)
    for factor, expected in ((1.02, MET), (0.98, NOT_MET)):
        changes = {key: f"{factor * needed:.6f} l", "components.V8.setting": "9 bar"}
        assert sealed("vessel", changes) is expected
    assert sealed("vessel", {key: None}) is OPEN
    assert sealed("vessel", {"components.T3.precharge": None}) is OPEN


def test_final_pressure_stays_half_a_bar_under_the_safety_valve():
    final = float(boat.study_of(boat.SEALED).expansion.final)
    key = "components.V8.setting"
    assert sealed("vessel", {key: f"{final + 50001:.3f} Pa"}) is MET
    assert sealed("vessel", {key: f"{final + 49999:.3f} Pa"}) is NOT_MET
    assert sealed("vessel", {key: None}) is OPEN
    assert sealed("vessel", {"circuit.fill_pressure": None}) is OPEN


def test_precharge_over_static_and_over_half_a_bar():
    """Static at the vessel: ρ·g·0.6 m of a mix of some 1000 kg/m³ is 5.9 kPa; half a bar counts first."""
    key = "components.T3.precharge"
    assert sealed("precharge", {key: "0.5 bar"}) is MET
    assert sealed("precharge", {key: "0.499 bar"}) is NOT_MET
    static = float(boat.study_of(boat.SEALED).expansion.static)
    high = {"layout.highest_wetted": {"name": "mast", "at": ["6 m", "1 m", "6.3 m"]}}
    over = static * 10  # 6 m instead of 0.6 m
    assert sealed("precharge", {**high, key: f"{over + 30001:.3f} Pa"}) is MET
    assert sealed("precharge", {**high, key: f"{over + 29999:.3f} Pa"}) is NOT_MET
    assert sealed("precharge", {key: None}) is OPEN
    assert sealed("precharge", {"layout.places.T3": None}) is OPEN


def test_safety_valve_opens_before_the_weakest_part_and_relieves_all():
    setting, capacity = "components.V8.setting", "components.V8.capacity"
    assert sealed("safety_valve", {setting: "2.5 bar"}) is MET
    assert sealed("safety_valve", {setting: "2.51 bar"}) is NOT_MET
    assert sealed("safety_valve", {capacity: "5 kW"}) is MET
    assert sealed("safety_valve", {capacity: "4.99 kW"}) is NOT_MET
    for missing in (setting, capacity, "components.V8.led_to", "components.B1.pressure_rating"):
        assert sealed("safety_valve", {missing: None}) is OPEN, missing
    assert sealed("safety_valve", {"components.V8": None}) is NOT_MET


def test_recovered_heat_counts_for_the_safety_valve():
    engine = {
        "components.G1": {"kind": "generator", "jacket_heat": "6 kW"},
        "components.X2": {"kind": "recovery_exchanger", "serves": "G1"},
    }
    assert sealed("safety_valve", {**engine, "components.V8.capacity": "11 kW"}) is MET
    assert sealed("safety_valve", {**engine, "components.V8.capacity": "10.9 kW"}) is NOT_MET
    assert sealed("safety_valve", {**engine, "components.G1.jacket_heat": None}) is OPEN


def test_a_pressure_cap_is_the_safety_valve():
    cap = {
        "components.T2.cap": "pressure",
        "components.T2.cap_pressure": "0.5 bar",
        "circuit.system": "sealed",
    }
    assert status("safety_valve", cap) is MET
    assert status("safety_valve", {**cap, "components.T2.cap_pressure": "2.51 bar"}) is NOT_MET
    assert status("safety_valve", {**cap, "components.T2.cap_pressure": None}) is OPEN
    assert status("vessel", cap) is APART
    assert status("precharge", cap) is APART


def test_gauge_and_filling_point():
    assert sealed("gauge", {"circuit.gauge": "false"}) is NOT_MET
    assert sealed("gauge", {"circuit.gauge": None}) is OPEN
    assert sealed("gauge", {"circuit.fill_valve": "false"}) is NOT_MET
    assert sealed("gauge", {"circuit.fill_valve": None}) is OPEN


# Burner


def test_owner_and_circuit_must_agree_that_nothing_closes():
    stated = "circuit.header.valves_to_burner"
    assert status("no_valve", {stated: ["V31"]}) is NOT_MET
    assert status("no_valve", {stated: None}) is OPEN
    found = boat.finding("expansion.no_valve", {"circuit.header.joins_before": "P1"})
    assert found.status is NOT_MET
    assert "V31" in found.found
    assert "shows otherwise" in found.remark
    assert status("no_valve", {"circuit.header": None}) is OPEN
    assert status("no_valve", {"circuit.header.joins_before": None}) is OPEN


@pytest.mark.parametrize(
    "part",
    [
        {"kind": "check_valve", "kv": "6 m3/h"},
        {"kind": "strainer"},
        {"kind": "thermostatic_valve", "kv": "6 m3/h", "opens": "20 degC", "full": "30 degC"},
        {"kind": "motor_valve", "kv": "6 m3/h"},
        {"kind": "balancing_valve", "kv": "6 m3/h"},
    ],
    ids=lambda part: part["kind"],
)
def test_what_may_close_lies_not_between_burner_and_header(part):
    """The header joins before P1: on the way to it only the part in question stands, in place of V31."""
    ring = [{"unit": "V50"} if i == {"unit": "V31"} else i for i in boat.changed({})["circuit"]["ring"]]
    changes = {"components.V50": part, "circuit.ring": ring, "circuit.header.joins_before": "P1"}
    found = boat.finding("expansion.no_valve", changes)
    assert found.status is NOT_MET
    assert "V50" in found.found


def test_a_pump_lets_coolant_expand():
    ring = [i for i in boat.changed({})["circuit"]["ring"] if i != {"unit": "V31"}]
    assert status("no_valve", {"circuit.ring": ring, "circuit.header.joins_before": "P1"}) is MET


def test_safety_valve_in_the_ring_has_its_own_way():
    ring = boat.changed({})["circuit"]["ring"]
    near = [*ring[:4], {"unit": "V8"}, *ring[4:]]
    far = [*ring[:9], {"unit": "V8"}, *ring[9:]]
    assert sealed("no_valve", {"circuit.ring": near}) is MET
    found = boat.finding("expansion.no_valve", {**boat.SEALED, "circuit.ring": far})
    assert found.status is NOT_MET
    assert "V32" in found.found


def test_boiling_keeps_ten_kelvin_running_and_none_at_the_stat():
    study = boat.study_of()
    at_stat = study.expansion.at_stat[0]
    for more, expected in ((-0.01, MET), (0.01, NOT_MET)):
        stat = f"{float(at_stat.point) - 273.15 + more:.6f} degC"
        assert status("boiling", {"components.B1.overheat_stat": stat}) is expected
    assert status("boiling", {"components.B1.overheat_stat": None}) is OPEN
    assert status("boiling", {"layout.places.T2": None}) is OPEN
    assert status("boiling", {"layout.places.B1": None}) is OPEN


def test_boiling_counts_the_altitude():
    """On a lake at 3000 m water boils near 90 °C (standard atmosphere, 70 kPa): the stat is too high."""
    low = {"layout.places.T2.at": ["3.0 m", "-0.1 m", "1.2 m"]}
    assert status("boiling", low) is MET
    assert status("boiling", {**low, "conditions.altitude": "3000 m"}) is NOT_MET


def test_after_stop_against_the_boiling_point():
    study = boat.study_of()
    stop = study.expansion.stops[0]
    rise = float(stop.temperature) - 349.15  # setpoint 76 °C
    room = float(stop.point) - 349.15
    for factor, expected in ((0.999, MET), (1.001, NOT_MET)):
        heat = f"{factor * 150 * room / rise:.6f} kJ"
        assert status("after_stop", {"components.B1.heat_after_stop": heat}) is expected
    assert status("after_stop", {"components.B1.heat_after_stop": None}) is OPEN
    assert status("after_stop", {"layout.places.B1": None}) is OPEN
