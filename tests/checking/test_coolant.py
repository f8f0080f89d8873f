"""Frost, share, inhibitor and condition of the coolant, just inside, just outside, and unanswered.

Freezing points are those of inhibited propylene glycol by volume (ASHRAE Fundamentals 2001, as carried in the
open data of CoolProp): −21.1 °C at 40 %, −33.5 °C at 50 %. All limits are common practice, no source.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.checking.judging import counted
from dossier.checking.run import limit_of


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("whole_boat")
finding = boat.finding
MIX, TEST = "circuit.coolant", "commissioning.coolant"
WATER = {MIX: {"base": "water"}}
ALL_COPPER = {f"components.{tag}.wetted": ["copper"] for tag in ("B1", "P1", "F1")}


@pytest.mark.parametrize(
    ("check", "changes", "status"),
    [
        ("freezing", {"conditions.lay_up_lowest": "-15 degC"}, "met"),
        ("freezing", {"conditions.lay_up_lowest": "-17 degC"}, "not met"),
        ("freezing", {f"{TEST}.share": "20 %"}, "not met"),  # thinner than planned: −8 °C
        ("freezing", {**WATER, TEST: None}, "not met"),
        ("freezing", {**WATER, TEST: None, "conditions.lay_up_lowest": "5 degC"}, "met"),
        ("share", {f"{MIX}.share": "25 %"}, "met"),
        ("share", {f"{MIX}.share": "24.9 %"}, "not met"),
        ("share", {f"{MIX}.share": "50 %"}, "met"),
        ("share", {f"{MIX}.share": "50.1 %"}, "not met"),
        ("share", WATER, "not met"),
        ("share", {**WATER, "conditions.lay_up_lowest": "2 degC"}, "met"),
        ("inhibitor", {f"{MIX}.inhibitor": "none"}, "not met"),
        ("inhibitor", {f"{MIX}.inhibitor.metals": ["steel", "copper"]}, "not met"),
        ("inhibitor", {f"{MIX}.inhibitor.metals": ["steel", "copper", "aluminum"]}, "met"),
        ("inhibitor", {"components.F1.wetted": ["galvanised steel"]}, "not met"),
        ("inhibitor", {"components.F1.wetted": ["brass"]}, "not met"),
        ("condition", {f"{TEST}.pH": "7.5"}, "met"),
        ("condition", {f"{TEST}.pH": "7.4"}, "not met"),
        ("condition", {f"{TEST}.pH": "8.5"}, "met"),
        ("condition", {f"{TEST}.pH": "8.6"}, "not met"),  # with aluminium wetted
        ("condition", {**ALL_COPPER, f"{TEST}.pH": "9.5"}, "met"),
        ("condition", {**ALL_COPPER, f"{TEST}.pH": "9.6"}, "not met"),
        ("condition", {f"{TEST}.share": "37.1 %"}, "met"),
        ("condition", {f"{TEST}.share": "36.9 %"}, "not met"),
        ("condition", {f"{TEST}.share": "43.1 %"}, "not met"),
        ("condition", {"commissioning.date": "2025-11-20"}, "met"),
        ("condition", {"commissioning.date": "2025-11-19"}, "not met"),
        ("condition", {**WATER, TEST: {"pH": "8.0"}}, "met"),
        (
            "condition",
            {"records.coolant": [{"date": "2026-11-15", "share": "40 %", "pH": "6.9"}]},
            "not met",
        ),
    ],
)
def test_the_coolant_stands_frost_and_guards_the_metals(check, changes, status):
    assert finding(f"coolant.{check}", changes).status.value == status


@pytest.mark.parametrize(
    ("check", "changes", "missing"),
    [
        ("freezing", {"conditions.lay_up_lowest": None}, ["conditions.lay_up_lowest"]),
        ("freezing", {f"{MIX}.share": None}, ["circuit.coolant.share"]),
        ("freezing", {f"{TEST}.share": "5 %"}, ["commissioning.coolant.share"]),  # below the data
        ("share", {f"{MIX}.share": None}, ["circuit.coolant.share"]),
        ("share", {**WATER, "conditions.lay_up_lowest": None}, ["conditions.lay_up_lowest"]),
        ("inhibitor", {f"{MIX}.inhibitor": None}, ["circuit.coolant.inhibitor.metals"]),
        ("inhibitor", {"components.P1.wetted": None}, ["components.P1.wetted"]),
        ("condition", {TEST: None}, ["records.coolant"]),
        ("condition", {f"{TEST}.pH": None}, ["commissioning.coolant.pH"]),
        ("condition", {f"{TEST}.share": None}, ["commissioning.coolant.share"]),
        ("condition", {"commissioning.date": None}, ["commissioning.date"]),
        ("condition", {"document.date": None}, ["document.date"]),
        (
            "condition",
            {**ALL_COPPER, "components.B1.wetted": None, f"{TEST}.pH": "8.6"},
            ["components.B1.wetted"],
        ),
    ],
)
def test_silence_is_not_assessed_and_names_the_key(check, changes, missing):
    found = finding(f"coolant.{check}", changes)
    assert found.status.value == "not assessed"
    assert list(found.missing) == missing


def test_five_kelvin_are_kept_to_the_freezing_point():
    """Planned 40 %, measured 39 %: the thinner one counts."""
    found = finding("coolant.freezing")
    assert found.bound == pytest.approx(273.15 - 12 - 5)
    assert found.place == "as measured"
    assert [item.what for item in found.items] == ["as planned", "as measured"]
    planned = found.items[0]
    assert float(planned.found) - 273.15 == pytest.approx(-21.1, abs=0.6)
    strong = finding("coolant.freezing", {f"{MIX}.share": "50 %", TEST: None})
    assert float(strong.found) - 273.15 == pytest.approx(-33.5, abs=0.6)


def test_a_share_by_mass_is_judged_by_volume():
    """Propylene glycol 1.036 kg/l, water 0.998 kg/l at 20 °C: 50.5 % by mass are 49.6 % by volume."""
    by_mass = {f"{MIX}.by": "mass", f"{MIX}.share": "50.5 %"}
    found = finding("coolant.share", by_mass)
    assert found.status.value == "met"
    assert float(found.found) == pytest.approx(0.505 / 1.036 / (0.505 / 1.036 + 0.495 / 0.998), abs=5e-4)


def test_coolant_that_turned_is_to_be_replaced():
    found = finding("coolant.condition", {f"{TEST}.pH": "6.9"})
    assert "replace it" in found.remark


def test_the_data_sheet_of_the_coolant_may_allow_more():
    changes = {
        f"{TEST}.pH": "9.0",
        "limits": {"coolant.condition": {"at_most": "9.2", "source": "data sheet of the coolant"}},
    }
    assert finding("coolant.condition", changes).status.value == "met"


def test_a_limit_counted_from_a_figure_is_added_to_it_and_the_projects_own_stands_alone():
    study = boat.study_of()
    assert counted(limit_of(study, "coolant.freezing"), 261.15) == pytest.approx(256.15)
    own = boat.study_of({"limits": {"coolant.freezing": {"at_most": "-30 degC", "source": "insurer"}}})
    assert counted(limit_of(own, "coolant.freezing"), 261.15) == pytest.approx(243.15)
