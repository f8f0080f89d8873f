"""Hot tap water: does it scald, is there enough, and what may it touch?

Limits are those of Approved Document G (48 °C), HSG274 (60 °C stored) and common practice as the catalogue
says; here each is tried just inside and just outside.
"""

import sys
from dataclasses import replace
from importlib.util import module_from_spec, spec_from_file_location
from math import log
from pathlib import Path

import pytest

from dossier.checking import tap_water as checks
from dossier.checking.finding import Status
from dossier.checking.run import limit_of
from dossier.data.catalogue import catalogue
from tests.demonstrations import studied


def _hot_boat():
    if "hot_boat" not in sys.modules:
        spec = spec_from_file_location("hot_boat", Path(__file__).parents[1] / "hot_boat.py")
        sys.modules["hot_boat"] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules["hot_boat"])
    return sys.modules["hot_boat"]


boat = _hot_boat()
ICE_POINT = 273.15
NO_ENGINE = {"modes.generator running": None}
UNWRITTEN = {"circuit": None, "modes": None, "layout": None}
"""The circuit is not written out yet."""
ETHYLENE = {"circuit.coolant.base": "ethylene glycol"}


def finding(check, changes=None):
    return boat.finding(f"tap_water.{check}", changes)


@pytest.mark.parametrize("name", [name for name, row in catalogue().items() if row.group == "tap_water"])
def test_a_boat_written_out_meets_every_check_or_has_no_such_part(name):
    found = boat.finding(name)
    assert found.status in {Status.MET, Status.NOT_APPLICABLE}, found


@pytest.mark.parametrize("name", [name for name, row in catalogue().items() if row.group == "tap_water"])
def test_before_a_circuit_is_written_silence_is_no_answer(name):
    found = boat.finding(name, boat.BARE)
    assert found.status is Status.NOT_ASSESSED
    assert found.missing == (
        ("circuit.fill_connection",) if name == "tap_water.fill_link" else ("tap_water",)
    )


@pytest.mark.parametrize("name", [name for name, row in catalogue().items() if row.group == "tap_water"])
def test_none_is_an_answer(name):
    found = boat.finding(name, boat.BARE | {"tap_water": "none"})
    assert (found.status, found.why) == (Status.NOT_APPLICABLE, "the file says there is no hot tap water")


@pytest.mark.parametrize(
    "name", [n for n, row in catalogue().items() if row.group == "tap_water" and n != "tap_water.fill_link"]
)
def test_a_written_circuit_without_a_heater_has_no_hot_tap(name):
    found = boat.finding(name, boat.WITHOUT_HEAT_FROM_TAP_OR_ENGINE)
    assert (found.status, found.why) == (Status.NOT_APPLICABLE, "nothing in the circuit heats tap water")


@pytest.mark.parametrize(
    ("changes", "status"),
    [
        ({"tap_water.mixing_valve": "48 degC"}, "met"),
        ({"tap_water.mixing_valve": "48.01 degC"}, "not met"),
        ({"tap_water.mixing_valve": "55 degC", "tap_water.outlets": ["galley"]}, "met"),
        ({"tap_water.mixing_valve": "55.01 degC", "tap_water.outlets": ["galley"]}, "not met"),
        ({"tap_water.mixing_valve": "50 degC", "tap_water.outlets": ["galley", "heads basin"]}, "not met"),
        ({"tap_water.mixing_valve": "50 degC", "tap_water.outlets": None}, "not met"),
        ({"commissioning": {"tap": {"highest": "48 degC"}}}, "met"),
        ({"commissioning": {"tap": {"highest": "48.1 degC"}}}, "not met"),
        ({"tap_water.mixing_valve": "none"}, "not met"),
        ({"tap_water.mixing_valve": None}, "not met"),
    ],
)
def test_water_at_the_tap_does_not_scald(changes, status):
    assert finding("outlet_max", changes).status.value == status


def test_a_valve_that_is_not_written_is_not_aboard_once_circuit_and_tap_are():
    found = finding("outlet_max", {"tap_water.mixing_valve": None})
    assert "what is not written is not aboard" in found.remark
    assert float(found.found) - ICE_POINT == pytest.approx(85)  # the generator's jacket, common practice


@pytest.mark.parametrize("check", ["outlet_max", "mixing_valve", "scald_time"])
@pytest.mark.parametrize(
    "changes",
    [
        {"tap_water": None},
        UNWRITTEN | {"tap_water.mixing_valve": None},
    ],
)
def test_who_says_nothing_of_the_valve_is_asked_for_it(check, changes):
    found = finding(check, changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("tap_water.mixing_valve",))


def test_without_a_valve_nobody_knows_the_tap_before_the_ring_is_known():
    found = finding("outlet_max", {"tap_water.mixing_valve": "none", "components.P1.curve": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("components.P1.curve",))


@pytest.mark.parametrize(("setpoint", "status"), [("48 degC", "met"), ("48.1 degC", "not met")])
def test_a_valve_is_needed_where_the_primary_is_hotter_than_the_taps_may_be(setpoint, status):
    changes = {**NO_ENGINE, "components.B1.setpoint": setpoint, "tap_water.mixing_valve": "none"}
    found = finding("mixing_valve", changes)
    assert found.status.value == status
    assert found.margin == ("nothing missing" if status == "met" else "the valve")


def test_an_engine_whose_highest_jacket_nobody_states_may_be_hotter_than_the_burner():
    cool = {"components.B1.setpoint": "45 degC", "components.G1.jacket_highest": None}
    for check in ("outlet_max", "mixing_valve"):
        found = finding(check, {**cool, "tap_water.mixing_valve": "none"})
        assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("components.G1.jacket_highest",))


def _temperature_that_scalds_in(seconds):
    """Between 49 °C, 480 s and 51 °C, 120 s of Moritz and Henriques, the logarithm straight."""
    return 49 + 2 * log(480 / seconds) / log(480 / 120)


@pytest.mark.parametrize(("off", "status"), [(-0.01, "met"), (0.01, "not met")])
def test_a_child_has_five_minutes(off, status):
    setting = _temperature_that_scalds_in(300) + off
    found = finding("scald_time", {"tap_water.mixing_valve": f"{setting:.4f} degC"})
    assert found.status.value == status
    assert float(found.found) == pytest.approx(300, rel=0.02)


@pytest.mark.parametrize("setting", ["43 degC", "44 degC"])
def test_below_44_degrees_there_is_no_burn_within_six_hours(setting):
    found = finding("scald_time", {"tap_water.mixing_valve": setting})
    assert float(found.found) == pytest.approx(21600)


@pytest.mark.parametrize("share", [0.999, 1.001])
def test_the_shower_wanted_is_what_the_exchanger_must_hold_in_winter(share):
    holds = float(finding("flow_winter").found)
    found = finding("flow_winter", {"tap_water.shower_flow": f"{holds * share * 6e4:.6f} l/min"})
    assert found.status.value == ("met" if share < 1 else "not met")


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"tap_water.cold": None}, ("tap_water.cold.winter",)),
        (
            {"tap_water.shower_flow": None, "tap_water.at_tap": None},
            ("tap_water.at_tap", "tap_water.shower_flow"),
        ),
        ({"components.X1.output": None}, ("components.X1.output",)),
        (
            {"components.X1.at": {"primary_in": "75 degC", "primary_flow": "16 l/min", "tap_in": "10 degC"}},
            ("components.X1.at.tap_flow",),
        ),
        ({"components.P1.curve": None}, ("components.P1.curve",)),
    ],
)
def test_a_shower_in_winter_waits_for_its_inputs(changes, missing):
    for check in ("flow_winter", "source_covers"):
        found = finding(check, changes)
        assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


@pytest.mark.parametrize("longer", [-1.0, 1.0])
def test_source_and_store_carry_the_shower_for_its_minutes(longer):
    """Available and needed heat meet at one length: store − left · start = (power − left) · length."""
    counts = boat.study_of().tap_water.seasons["winter"].counts
    begins = float(counts.mode.start_time)
    length = (float(counts.from_store) - float(counts.left) * begins) / (
        float(counts.power) - float(counts.left)
    )
    found = finding("source_covers", {"tap_water.shower": f"{length + longer:.3f} s"})
    assert found.status.value == ("met" if longer < 0 else "not met")
    assert float(found.found) == pytest.approx(float(found.bound), rel=0.01)


def test_a_shower_without_a_length_is_not_assessed():
    found = finding("source_covers", {"tap_water.shower": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("tap_water.shower",))


@pytest.mark.parametrize(
    ("changes", "status"),
    [
        ({}, "met"),
        ({"circuit.coolant.inhibitor": {"metals": ["steel"], "food_grade": "false"}}, "not met"),
        ({"circuit.coolant.inhibitor": "none"}, "not met"),
        (ETHYLENE, "not met"),
        ({"circuit.coolant": {"base": "water"}}, "not met"),
        ({**ETHYLENE, "components.X1.walls": "2"}, "met"),
        ({"components.X1.walls": None}, "met"),
    ],
)
def test_one_wall_only_for_propylene_glycol_with_an_approved_inhibitor(changes, status):
    assert finding("wall", changes).status.value == status


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"circuit.coolant.inhibitor": None}, ("circuit.coolant.inhibitor.food_grade",)),
        ({**ETHYLENE, "components.X1.walls": None}, ("components.X1.walls",)),
        ({"circuit.coolant.base": None}, ("circuit.coolant.base",)),
        (
            {"circuit.coolant.inhibitor": None, "components.X1.walls": None},
            ("circuit.coolant.inhibitor.food_grade", "components.X1.walls"),
        ),
    ],
)
def test_what_is_not_said_of_wall_and_coolant_is_asked_for(changes, missing):
    found = finding("wall", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


@pytest.mark.parametrize(
    ("link", "status"),
    [
        ("none", "met"),
        ({"backflow_preventer": "true", "hose_kept_off": "true"}, "met"),
        ({"backflow_preventer": "false", "hose_kept_off": "true"}, "not met"),
        ({"backflow_preventer": "true", "hose_kept_off": "false"}, "not met"),
    ],
)
def test_no_fixed_link_to_the_drinking_water(link, status):
    assert finding("fill_link", {"circuit.fill_connection": link}).status.value == status


@pytest.mark.parametrize(
    ("link", "missing"),
    [
        (None, ("circuit.fill_connection",)),
        ({"backflow_preventer": "true"}, ("circuit.fill_connection.hose_kept_off",)),
        ({"hose_kept_off": "true"}, ("circuit.fill_connection.backflow_preventer",)),
    ],
)
def test_a_link_half_described_is_not_assessed(link, missing):
    found = finding("fill_link", {"circuit.fill_connection": link})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


@pytest.mark.parametrize(
    ("changes", "status"),
    [
        ({"components.X1.setpoint": "60 degC"}, "met"),
        ({"components.X1.setpoint": "59.9 degC"}, "not met"),
        ({"components.X1.setpoint": None}, "met"),
        ({"components.X1.setpoint": None, "components.B1.setpoint": "60 degC"}, "not met"),
    ],
)
def test_stored_water_is_hot_enough_against_germs(changes, status):
    assert finding("legionella", boat.HEATER | changes).status.value == status


def test_a_store_of_unknown_volume_is_not_assessed():
    found = finding("legionella", boat.HEATER | {"components.X1.volume": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("components.X1.volume",))


@pytest.mark.parametrize(("litres", "status"), [("3 l", "not applicable"), ("3.01 l", "met")])
def test_an_exchanger_of_more_than_three_litres_is_a_store(litres, status):
    # DVGW W 551, 3-litre rule, from memory
    assert finding("legionella", {"components.X1.water_volume": litres}).status.value == status


@pytest.mark.parametrize(
    ("valve", "status", "missing"),
    [
        ({"setting": "6 bar", "led_to": "bilge well"}, "met", ()),
        ("none", "not met", ()),
        (None, "not assessed", ("components.X1.relief_valve",)),
        ({"setting": "6 bar"}, "not assessed", ("components.X1.relief_valve.led_to",)),
    ],
)
def test_a_store_has_a_relief_valve_that_leads_somewhere(valve, status, missing):
    found = finding("relief", boat.HEATER | {"components.X1.relief_valve": valve})
    assert (found.status.value, found.missing) == (status, missing)


@pytest.mark.parametrize(
    ("changes", "status"),
    [
        ({"tap_water.hardness": "2.5 mmol/l"}, "met"),
        ({"tap_water.hardness": "2.51 mmol/l"}, "not met"),
        ({"tap_water.hardness": "4 mmol/l", "components.B1.setpoint": "60 degC", **NO_ENGINE}, "met"),
        ({"tap_water.chloride": "250 mg/l"}, "met"),
        ({"tap_water.chloride": "251 mg/l"}, "not met"),
        ({"tap_water.chloride": "900 mg/l", "components.X1.wetted": ["stainless steel"]}, "met"),
        ({"tap_water.chloride": None, "components.X1.wetted": ["stainless steel"]}, "met"),
    ],
)
def test_plates_stand_the_water(changes, status):
    assert finding("scale", changes).status.value == status


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"tap_water.hardness": None}, ("tap_water.hardness",)),
        ({"tap_water.chloride": None}, ("tap_water.chloride",)),
        ({"tap_water.chloride": "900 mg/l", "components.X1.wetted": None}, ("components.X1.wetted",)),
    ],
)
def test_water_that_nobody_tested_is_not_assessed(changes, missing):
    found = finding("scale", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


@pytest.mark.parametrize(
    ("changes", "status", "missing"),
    [
        ({}, "met", ()),
        ({"tap_water.accumulator": "false"}, "not met", ()),
        ({"tap_water.accumulator": "none"}, "not met", ()),
        ({"tap_water.check_valve": "none", "tap_water.accumulator": "false"}, "met", ()),
        ({"tap_water.accumulator": None}, "not assessed", ("tap_water.accumulator",)),
        ({"tap_water.check_valve": None}, "not assessed", ("tap_water.check_valve",)),
        (boat.HEATER | {"tap_water.accumulator": "false"}, "met", ()),
        (
            boat.HEATER | {"tap_water.accumulator": "false", "components.X1.relief_valve": "none"},
            "not met",
            (),
        ),
    ],
)
def test_heated_water_has_room_to_expand(changes, status, missing):
    found = finding("expansion", changes)
    assert (found.status.value, found.missing) == (status, missing)


@pytest.mark.parametrize("off", [0.0, 0.01])
def test_the_owners_limit_stands_above_the_catalogues(off):
    changes = {"limits": {"tap_water.outlet_max": {"at_most": "43 degC", "source": "harbour rule"}}}
    found = finding("outlet_max", {**changes, "tap_water.mixing_valve": f"{43 + off} degC"})
    assert found.status.value == ("not met" if off else "met")


def test_every_reason_printed_is_one_sentence():
    for name, row in catalogue().items():
        if row.group == "tap_water":
            words = getattr(checks, row.function).__doc__
            assert words.endswith("."), name
            assert words.count(". ") == 0, name


def test_the_outlet_is_judged_by_its_own_temperature():
    study = boat.study_of()
    tap = replace(study.tap_water, outlet_highest=321.15)
    limit = limit_of(study, "tap_water.outlet_max")
    assert checks.outlet_max(study.but(tap_water=tap), limit).margin == 0.0


@pytest.mark.parametrize("check", ["outlet_max", "mixing_valve", "wall"])
def test_the_barges_planted_dangers_are_found_and_her_repair_too(check):
    """No valve before taps far above 48 °C, ethylene glycol behind one wall; both mended in revision B."""
    found = [boat.finding_in(studied(f"barley_moth_{mark}"), f"tap_water.{check}") for mark in "ab"]
    assert [f.status for f in found] == [Status.NOT_MET, Status.MET]


def test_the_barges_fill_link_is_not_told():
    found = boat.finding_in(studied("barley_moth_a"), "tap_water.fill_link")
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("circuit.fill_connection",))


@pytest.mark.parametrize(
    ("name", "status"),
    [("lantern_auk", "not met"), ("northern_quill", "met")],
)
def test_the_cutters_source_falls_short_and_the_yachts_store_carries_her_shower(name, status):
    assert boat.finding_in(studied(name), "tap_water.source_covers").status.value == status
