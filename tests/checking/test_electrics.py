"""Voltage, cables, fuses and supply, each check just inside and just outside.

Drops are counted out and back with 0.0195 ohm·mm²/m (stranded copper, warm; common practice, no source).
Ampacities are those of ISO 10133, table A.1: 2.5 mm² at 70 °C 25 A (from memory), 4 mm² at 105 °C 45 A (as
printed on a public page), × 0.75 and × 0.86 in engine spaces (from memory). Fuse places: 200 mm (ISO 10133,
from memory), 7 in and 40 in (33 CFR 183.455(b), seen), 150 % (33 CFR 183.455(c)(1), seen).
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.data.catalogue import LimitBasis
from dossier.sizing.electrics import electrics


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("whole_boat")
finding = boat.finding
BURNER, FANS = "electrics.circuits.0", "electrics.circuits.1"
ONE_FUSE = {f"{FANS}.fuse": "0.6 A", f"{FANS}.fuse_distance": "0 mm"}
UNKNOWN_BATTERY = {"electrics.lowest_voltage": None, "electrics.battery_resistance": None}


@pytest.mark.parametrize(
    ("check", "changes", "status"),
    [
        # 2 · 0.0195 · L · I/A: 2.5 mm², 6 m, 10 % of 24 V are 25.6 A, 3 % where vital are 7.69 A
        ("drop_run", {f"{FANS}.vital": "false", f"{FANS}.run": "25.6 A", f"{FANS}.start": "25.6 A"}, "met"),
        ("drop_run", {f"{FANS}.vital": "false", f"{FANS}.run": "25.7 A"}, "not met"),
        ("drop_run", {f"{FANS}.run": "7.69 A"}, "met"),
        ("drop_run", {f"{FANS}.run": "7.70 A"}, "not met"),
        # burner: 6 mm², 4 m: 0.026 ohm; 5 % of 24 V are 46.1 A
        ("drop_start", {f"{BURNER}.start": "46 A", "electrics.lowest_voltage": "26 V"}, "met"),
        ("drop_start", {f"{BURNER}.start": "46.3 A", "electrics.lowest_voltage": "26 V"}, "not met"),
        # 11 A · (6 + 26) mohm take 0.352 V from the battery's voltage at rest
        ("drop_start", {"electrics.lowest_voltage": "22.36 V"}, "met"),
        ("drop_start", {"electrics.lowest_voltage": "22.35 V"}, "not met"),
        ("drop_start", {"components.B1.voltage_min": "23.1 V"}, "met"),
        ("drop_start", {"components.B1.voltage_min": "23.2 V"}, "not met"),
        ("drop_start", {**UNKNOWN_BATTERY, "commissioning.start_voltage": "22.0 V"}, "met"),
        ("drop_start", {**UNKNOWN_BATTERY, "commissioning.start_voltage": "21.9 V"}, "not met"),
        ("ampacity", {f"{BURNER}.section": "4 mm2", f"{BURNER}.start": "38.7 A"}, "met"),
        ("ampacity", {f"{BURNER}.section": "4 mm2", f"{BURNER}.start": "38.8 A"}, "not met"),
        (
            "ampacity",
            {f"{FANS}.section": "2.5 mm2", f"{FANS}.insulation": "70 degC", f"{FANS}.start": "25 A"},
            "met",
        ),
        ("ampacity", {f"{FANS}.insulation": "70 degC", f"{FANS}.start": "25.1 A"}, "not met"),
        # insulation under 70 °C is not admitted in engine spaces
        ("ampacity", {f"{BURNER}.insulation": "60 degC"}, "not met"),
        # three conductors in a bundle carry 0.7 of their current (ABYC E-11, from memory)
        ("ampacity", {f"{FANS}.bundled": "3", f"{FANS}.start": "24.5 A"}, "met"),
        ("ampacity", {f"{FANS}.bundled": "3", f"{FANS}.start": "24.6 A"}, "not met"),
        ("fuse_protects", {f"{FANS}.fuse": "35 A"}, "met"),
        ("fuse_protects", {f"{FANS}.fuse": "36 A"}, "not met"),
        ("fuse_protects", {f"{FANS}.fuse": "none"}, "not met"),
        ("fuse_carries", {f"{BURNER}.fuse": "13.75 A"}, "met"),
        ("fuse_carries", {f"{BURNER}.fuse": "13.7 A"}, "not met"),
        ("fuse_carries", {f"{BURNER}.fuse": "none"}, "not met"),
        ("fuse_place", {f"{FANS}.fuse_distance": "200 mm"}, "met"),
        ("fuse_place", {f"{FANS}.fuse_distance": "201 mm"}, "not met"),
        ("fuse_place", {f"{FANS}.fuse_distance": "40 in", f"{FANS}.sheathed": "true"}, "met"),
        ("fuse_place", {f"{FANS}.fuse_distance": "40.1 in", f"{FANS}.sheathed": "true"}, "not met"),
        ("fuse_place", {f"{FANS}.fuse_distance": "1.2 m", f"{FANS}.sheathed": None}, "not met"),
        ("fuse_place", {f"{FANS}.fuse": "none"}, "not met"),
        ("isolator", {f"{BURNER}.isolator": "none"}, "not met"),
        ("isolator", {f"{BURNER}.fed_before_main_switch": "false"}, "not met"),
        ("isolator", {f"{BURNER}.cut_out": "opens at 23 V"}, "not met"),
        ("isolator", {f"{FANS}.isolator": None, f"{FANS}.cut_out": "opens at 23 V"}, "met"),
        ("two_wire", {}, "met"),
        ("two_wire", {f"{FANS}.two_wire": "false"}, "not met"),
        ("metals", {"exhaust.hull_fitting.isolated": "false"}, "not met"),
        ("metals", {"exhaust.hull_fitting": {"material": "steel", "isolated": "false"}}, "met"),
        ("metals", {"vessel.hull": "wood"}, "not applicable"),
        ("metals", {"exhaust.hull_fitting": "none"}, "not applicable"),
        ("high_voltage", {"electrics.charge_highest": "30 V"}, "met"),
        ("high_voltage", {"electrics.charge_highest": "30.1 V"}, "not met"),
    ],
)
def test_current_is_led_as_asked(check, changes, status):
    assert finding(f"electrics.{check}", changes).status.value == status


@pytest.mark.parametrize(
    ("check", "changes", "missing"),
    [
        ("drop_run", {f"{FANS}.section": None}, ["electrics.circuits.fans.section"]),
        ("drop_run", {"electrics.circuits": None}, ["electrics.circuits"]),
        ("drop_run", {"electrics.system": None}, ["electrics.system"]),
        ("drop_start", UNKNOWN_BATTERY, ["electrics.lowest_voltage", "electrics.battery_resistance"]),
        ("drop_start", {f"{BURNER}.length": None, **UNKNOWN_BATTERY}, ["electrics.circuits.burner.length"]),
        ("drop_start", {f"{BURNER}.feeds": None}, ["electrics.circuits.burner.feeds"]),
        ("ampacity", {f"{BURNER}.insulation": None}, ["electrics.circuits.burner.insulation"]),
        ("ampacity", {f"{BURNER}.engine_space": None}, ["electrics.circuits.burner.engine_space"]),
        (
            "ampacity",
            {f"{BURNER}.section": "0.72 mm2"},
            ["electrics.circuits.burner.section"],
        ),  # below the table
        ("fuse_protects", {f"{FANS}.fuse": None}, ["electrics.circuits.fans.fuse"]),
        ("fuse_protects", {f"{FANS}.insulation": None}, ["electrics.circuits.fans.insulation"]),
        ("fuse_carries", {f"{FANS}.fuse": None}, ["electrics.circuits.fans.fuse"]),
        ("fuse_place", {f"{FANS}.fuse_distance": None}, ["electrics.circuits.fans.fuse_distance"]),
        (
            "fuse_place",
            {f"{FANS}.fuse_distance": "0.5 m", f"{FANS}.sheathed": None},
            ["electrics.circuits.fans.sheathed"],
        ),
        ("isolator", {f"{BURNER}.cut_out": None}, ["electrics.circuits.burner.cut_out"]),
        ("isolator", {f"{BURNER}.feeds": None}, ["electrics.circuits.burner.feeds"]),
        ("battery_day", {"electrics.battery": None}, ["electrics.battery"]),
        (
            "battery_day",
            {"components.F1.power": None, "electrics.circuits.1.run": None},
            ["components.F1.power"],
        ),
        ("two_wire", {f"{FANS}.two_wire": None}, ["electrics.circuits.fans.two_wire"]),
        ("metals", {"vessel.hull": None}, ["vessel.hull"]),
        ("metals", {"exhaust.hull_fitting.isolated": None}, ["exhaust.hull_fitting.isolated"]),
        ("high_voltage", {"electrics.charge_highest": None}, ["electrics.charge_highest"]),
        ("high_voltage", {"components.P1.voltage_max": None}, ["components.P1.voltage_max"]),
    ],
)
def test_silence_is_not_assessed_and_names_the_key(check, changes, missing):
    found = finding(f"electrics.{check}", changes)
    assert found.status.value == "not assessed"
    assert [key for key in found.missing if key in missing] == missing


def test_a_drop_whose_outcome_hangs_on_the_convention_shows_both():
    """8.5 A on 2.5 mm² over 6 m: 0.796 V by warm copper, 0.669 V by the form of ISO 10133; 3 % are 0.72 V."""
    found = finding("electrics.drop_run", {f"{FANS}.run": "8.5 A"})
    shown = {item.what: (round(float(item.found) * 24, 3), item.status.value) for item in found.items}
    assert shown["fans"] == (0.796, "not met")
    assert shown["fans, by the form of ISO 10133"] == (0.669, "met")
    assert "warm stranded copper" in found.remark
    agreed = finding("electrics.drop_run", {f"{FANS}.run": "12 A"})
    assert [item.what for item in agreed.items] == ["burner", "fans"]


@pytest.mark.parametrize(
    ("fuse", "remark"),
    [("35 A", ""), ("52 A", "within what some rules allow"), ("53 A", "above what any rule allows")],
)
def test_a_fuse_over_the_ampacity_is_told_how_far_over(fuse, remark):
    """150 % of 35 A are 52.5 A; a bound of 33 CFR 183.455, not advice."""
    found = finding("electrics.fuse_protects", {f"{FANS}.fuse": fuse, f"{BURNER}.fuse": "1 A"})
    assert found.remark == remark


@pytest.mark.parametrize(("inches", "status"), [("7 in", "met"), ("7.1 in", "not met")])
def test_american_rules_count_where_they_are_named(inches, status):
    changes = {
        "document.local_rules": ["Coast Guard: 33 CFR 183 for the electrics."],
        f"{FANS}.fuse_distance": inches,
    }
    assert finding("electrics.fuse_place", changes).status.value == status
    ours = {**changes, "document.local_rules": ["Harbour: no discharge."]}
    assert finding("electrics.fuse_place", ours).status.value == "met"


@pytest.mark.parametrize(("others", "status"), [("88 Ah", "met"), ("89 Ah", "not met")])
def test_the_battery_lasts_the_day(others, status):
    """150 Ah; burner 24 starts of 90 s at 10 A and 12 h at 2 A, pump 24 h at 1 A, fan 14.4 h at 0.5 A."""
    day = 24 * 90 / 3600 * 10 + 12 * 2 + 24 * 1 + 0.6 * 24 * 0.5
    assert day == pytest.approx(61.2)
    found = finding("electrics.battery_day", {"electrics.other_loads": others})
    assert found.status.value == status
    assert float(found.found) / 3600 == pytest.approx(day)
    assert found.bound / 3600 == pytest.approx(150 - float(others.split()[0]))


def test_a_day_whose_load_is_not_known_waits_for_the_load():
    silent = boat.study_of({"zones.0.volume": None})
    day = electrics(silent.project, None, None)
    found = finding("electrics.battery_day", {"zones.0.volume": None}, electrics=day)
    assert (found.status.value, found.missing) == ("not assessed", ("zones.saloon.volume",))


def test_a_makers_lowest_voltage_stands_in_place_of_the_fallback():
    found = finding("electrics.drop_start", {"components.B1.voltage_min": "21.5 V"})
    assert (found.bound, found.limit.basis) == (21.5, LimitBasis.MAKER)
    assert found.items == ()  # the drop in the cable is asked only without it


def test_a_system_of_an_odd_voltage_has_no_fallback_at_the_burner():
    found = finding("electrics.drop_start", {"electrics.system": "48 V", "electrics.lowest_voltage": "46 V"})
    assert found.status.value == "not assessed"
    assert "components.B1.voltage_min" in found.missing


def test_currents_of_a_circuit_that_states_none_are_those_of_its_consumers():
    """Burner 10 A starting, 2 A running; pump 24 W at 24 V."""
    study = boat.study_of({f"{BURNER}.start": None, f"{BURNER}.run": None})
    assert (study.electrics.circuits[0].start, study.electrics.circuits[0].run) == (11.0, 3.0)
