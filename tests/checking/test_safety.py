"""Alarms, tests for gas, stops, stats, extinguishers: each check just inside, just outside, and unanswered.

Figures: 1 to 3 m for alarms (EN 50292 siting guidance, reported), 9 ppm over 8 h (WHO Air Quality Guidelines
for Europe, 2nd ed., table seen), a month for the test button (Boat Safety Scheme check 6.4.4, reported), 2 m
for extinguishers (common practice, no source).
"""

import datetime as dt
import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import SimpleNamespace

import pytest

from dossier.checking.dates import months_after
from dossier.notation import NotAssessed


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("whole_boat")
finding = boat.finding
ALARM, FIRE = "safety.co_alarms.0", "safety.extinguishers.0"
CABIN = {
    "id": "fore_cabin",
    "target": "18 degC",
    "volume": "8 m3",
    "berths": "2",
    "sections": [{"name": "Shell", "u_value": "1.5 W/m2K", "area": "10 m2"}],
}
ZONES = boat.changed(boat.CUTTER, {})["zones"]


def alarm(place, **more):
    return {"at": place, "replace_by": "2033-06", "tested": "2026-11-01", "standard": "EN 50291-2"} | more


@pytest.mark.parametrize(
    ("check", "changes", "status"),
    [
        ("co_alarm", {"safety.co_alarms": []}, "not met"),
        ("co_alarm", {"safety.co_alarms": [alarm("engine_room")]}, "not met"),
        ("co_alarm", {f"{ALARM}.standard": "UL 2034"}, "met"),
        ("co_alarm", {f"{ALARM}.standard": "EN 50291-1"}, "not met"),
        ("co_alarm", {f"{ALARM}.replace_by": "2026-11"}, "not met"),
        ("co_alarm_berths", {"zones": [*ZONES, CABIN]}, "not met"),
        (
            "co_alarm_berths",
            {"zones": [*ZONES, CABIN], "safety.co_alarms": [alarm("saloon"), alarm("fore_cabin")]},
            "met",
        ),
        ("co_alarm_berths", {"zones.0.berths": "0"}, "not applicable"),
        ("co_alarm_place", {f"{ALARM}.from_source": "1.0 m"}, "met"),
        ("co_alarm_place", {f"{ALARM}.from_source": "0.99 m"}, "not met"),
        ("co_alarm_place", {f"{ALARM}.from_source": "3.0 m"}, "met"),
        ("co_alarm_place", {f"{ALARM}.from_source": "3.01 m"}, "not met"),
        ("co_alarm_place", {"safety.co_alarms": []}, "not applicable"),
        ("co_alarm_age", {f"{ALARM}.tested": "2026-10-20"}, "met"),  # 31 days
        ("co_alarm_age", {f"{ALARM}.tested": "2026-10-19"}, "not met"),
        ("co_alarm_age", {f"{ALARM}.replace_by": "2026-11-21"}, "met"),
        ("co_alarm_age", {f"{ALARM}.replace_by": "2026-11-20"}, "not met"),
        ("co_reading", {"commissioning.co": {"outside": "9 ppm", "highest_inside": "9 ppm"}}, "met"),
        ("co_reading", {"commissioning.co": {"outside": "10 ppm", "highest_inside": "9.1 ppm"}}, "not met"),
        ("co_reading", {"commissioning.co": {"outside": "1 ppm", "highest_inside": "1.1 ppm"}}, "not met"),
        ("exhaust_leak", {"commissioning.exhaust_leak.hot": "weeps at the elbow"}, "not met"),
        ("exhaust_leak", {"commissioning.signed.H7": "no"}, "not met"),
        ("exhaust_leak", {"commissioning.signed.H7": {"by": ["The owner"], "date": "2026-11-10"}}, "met"),
        ("overheat_test", {"commissioning.overheat.hand_reset": "false"}, "not met"),
        ("overheat_test", {"commissioning.date": "2025-11-20"}, "met"),
        ("overheat_test", {"commissioning.date": "2025-11-19"}, "not met"),
        (
            "overheat_test",
            {
                "commissioning.date": "2024-11-19",
                "records.service": [{"date": "2026-09-01", "what": "seals, overheat stat tripped"}],
            },
            "met",
        ),
        ("flame_failure", {"components.B1.flame_sensor": "false"}, "not met"),
        ("remote_stop", {"safety.stop.reach": "from outside"}, "met"),
        ("remote_stop", {"safety.stop.reach": "inside"}, "not met"),
        ("remote_stop", {"safety.stop": "none"}, "not met"),
        ("extinguisher", {f"{FIRE}.from_entry": "2.0 m"}, "met"),
        ("extinguisher", {f"{FIRE}.from_entry": "2.01 m"}, "not met"),
        ("extinguisher", {f"{FIRE}.at": "engine room"}, "not met"),
        ("extinguisher", {f"{FIRE}.replace_by": "2026-10"}, "not met"),
        ("extinguisher", {"safety.extinguishers": []}, "not met"),
        ("fire_port", {"safety.fire_port": "none"}, "met"),  # a fixed system is fitted
        ("fire_port", {"safety.fixed_system": "none"}, "met"),
        ("fire_port", {"safety.fire_port": "none", "safety.fixed_system": "none"}, "not met"),
        ("signs", {"safety.signs": ["stop", "fuel shut-off", "isolator", "header", "exhaust"]}, "not met"),
        ("signs", {}, "met"),
        ("signs", {"safety.signs": []}, "not met"),
        ("fire_stop", {}, "met"),
        ("smoke_alarm", {}, "met"),
        ("fire_stop", {"safety.fixed_system.stops_burner": "false"}, "not met"),
        ("fire_stop", {"safety.fixed_system": "none"}, "not applicable"),
        ("smoke_alarm", {"safety.smoke_alarms": []}, "not met"),
        ("smoke_alarm", {"safety.smoke_alarms": [{"at": "saloon", "replace_by": "2026-11"}]}, "not met"),
    ],
)
def test_the_crew_is_warned_and_the_burner_stopped_as_asked(check, changes, status):
    assert finding(f"safety.{check}", changes).status.value == status


@pytest.mark.parametrize(
    ("check", "changes", "missing"),
    [
        ("co_alarm", {"safety.co_alarms": None}, ["safety.co_alarms"]),
        ("co_alarm", {"safety.co_alarms": [{"replace_by": "2033-06"}]}, ["safety.co_alarms.at"]),
        ("co_alarm_berths", {"safety.co_alarms": None}, ["safety.co_alarms"]),
        ("co_alarm_berths", {"zones.0.berths": None}, ["zones.saloon.berths"]),
        ("co_alarm_place", {f"{ALARM}.from_source": None}, ["safety.co_alarms.saloon.from_source"]),
        ("co_alarm_age", {f"{ALARM}.tested": None}, ["safety.co_alarms.saloon.tested"]),
        ("co_alarm_age", {f"{ALARM}.tested": "2026-11-21"}, ["safety.co_alarms.saloon.tested"]),  # to come
        ("co_alarm_age", {f"{ALARM}.replace_by": None}, ["safety.co_alarms.saloon.replace_by"]),
        ("co_alarm_age", {"document.date": None}, ["document.date"]),
        ("co_reading", {"commissioning.co.outside": None}, ["commissioning.co.outside"]),
        ("co_reading", {"commissioning.co.highest_inside": None}, ["commissioning.co.highest_inside"]),
        ("exhaust_leak", {"commissioning.exhaust_leak.cold": None}, ["commissioning.exhaust_leak.cold"]),
        ("exhaust_leak", {"commissioning.signed.H2": None}, ["commissioning.signed.H2"]),
        ("overheat_stat", {"components.B1.overheat_stat": None}, ["components.B1.overheat_stat"]),
        (
            "overheat_test",
            {"commissioning.overheat": None},
            ["commissioning.overheat.trips_at", "commissioning.overheat.hand_reset"],
        ),
        ("flame_failure", {"components.B1.flame_sensor": None}, ["components.B1.flame_sensor"]),
        ("remote_stop", {"safety.stop": None}, ["safety.stop"]),
        ("remote_stop", {"safety.stop.reach": None}, ["safety.stop.reach"]),
        ("extinguisher", {"safety.extinguishers": None}, ["safety.extinguishers"]),
        ("extinguisher", {f"{FIRE}.from_entry": None}, ["safety.extinguishers.saloon step.from_entry"]),
        ("fire_port", {"safety.fire_port": None, "safety.fixed_system": "none"}, ["safety.fire_port"]),
        ("signs", {"safety.signs": None}, ["safety.signs"]),
        ("fire_stop", {"safety.fixed_system": None}, ["safety.fixed_system"]),
        ("fire_stop", {"safety.fixed_system.stops_burner": None}, ["safety.fixed_system.stops_burner"]),
        ("smoke_alarm", {"safety.smoke_alarms": None}, ["safety.smoke_alarms"]),
        ("smoke_alarm", {"zones": [*ZONES, CABIN]}, ["safety.smoke_alarms.at"]),  # is it heard there?
        ("smoke_alarm", {"zones.0.berths": None, "zones.1.berths": None}, ["zones.berths"]),
    ],
)
def test_silence_is_not_assessed_and_names_the_key(check, changes, missing):
    found = finding(f"safety.{check}", changes)
    assert found.status.value == "not assessed"
    assert list(found.missing) == missing


@pytest.mark.parametrize(
    ("tested", "why"), [(None, ""), ("2026-11-21", "the test is dated after the document")]
)
def test_only_a_test_still_to_come_is_said_to_be_dated_ahead(tested, why):
    found = finding("safety.co_alarm_age", {f"{ALARM}.tested": tested})
    assert ("dated after the document" in found.why) is bool(why)
    assert why in found.why


def test_an_alarm_of_no_stated_standard_counts_and_says_what_to_look_for():
    found = finding("safety.co_alarm", {f"{ALARM}.standard": None})
    assert found.status.value == "met"
    assert "EN 50291-2" in found.remark


@pytest.mark.parametrize(
    ("saloon", "place", "status"),
    [("cabin", "cabin", "met"), ("cabin", "heads", "not met"), ("cabin", "pantry", "met")],
)
def test_an_alarm_guards_the_living_space_next_to_the_burner(saloon, place, status):
    """The heated spaces that share a bulkhead with the burner's: cabin (written there) and pantry (here)."""
    wall = {"name": "Bulkhead", "u_value": "2 W/m2K", "area": "2 m2", "faces": {"zone": "engine_room"}}
    small = {"target": "18 degC", "volume": "3 m3", "berths": "0"}
    shell = {"name": "Shell", "u_value": "1.5 W/m2K", "area": "5 m2"}
    zones = [
        {**ZONES[0], "id": saloon},
        {
            **ZONES[1],
            "sections": [ZONES[1]["sections"][0], {**ZONES[1]["sections"][1], "faces": {"zone": saloon}}],
        },
        {"id": "heads", **small, "sections": [shell]},
        {"id": "pantry", **small, "sections": [shell, wall]},
    ]
    changes = {
        "zones": zones,
        "components.F1": None,
        "circuit": None,
        "fuel.tank_in": None,
        "electrics": None,
        "layout.places.F1": None,
        "safety.smoke_alarms": None,
        "commissioning.tags_seen": None,
        "safety.co_alarms": [alarm(place)],
    }
    assert finding("safety.co_alarm", changes).status.value == status


@pytest.mark.parametrize(("boiling", "status"), [(368.16, "met"), (368.14, "not met")])
def test_the_stat_trips_before_the_coolant_boils(boiling, status):
    """The stat is set to 95 °C, 368.15 K."""
    found = finding("safety.overheat_stat", expansion=SimpleNamespace(boiling_point=boiling))
    assert found.status.value == status


def test_the_pressure_of_the_air_alone_tells_the_boiling_point_under_the_highest_header():
    """Under 101.3 kPa 40 % propylene glycol boils at 104 °C (ASHRAE, from memory), water at 100 °C."""
    found = finding("safety.overheat_stat")
    assert 100.0 < found.bound - 273.15 <= 104.0
    assert "air alone" in found.remark
    low_header = {"layout.highest_wetted.at": ["4.6 m", "1.2 m", "1.7 m"]}
    assert finding("safety.overheat_stat", low_header).status.value == "not assessed"
    sealed = {"circuit.system": "sealed"}
    unknown = NotAssessed("When does it boil?", ("circuit.fill_pressure",))
    assert finding("safety.overheat_stat", sealed, expansion=unknown).missing == ("circuit.fill_pressure",)


def test_the_nearest_extinguisher_in_date_counts():
    both = [
        {"at": "saloon step", "from_entry": "1.0 m", "replace_by": "2026-01"},
        {"at": "cockpit", "from_entry": "1.9 m"},
        {"at": "fore cabin", "from_entry": "5 m"},
    ]
    found = finding("safety.extinguisher", {"safety.extinguishers": both})
    assert (found.status.value, found.found, found.place) == ("met", 1.9, "cockpit")


@pytest.mark.parametrize(
    "check",
    [
        *("co_alarm", "co_alarm_berths", "co_alarm_place", "co_alarm_age", "co_reading", "exhaust_leak"),
        *("overheat_stat", "overheat_test", "flame_failure", "remote_stop", "extinguisher", "fire_port"),
        *("signs", "fire_stop"),
    ],
)
def test_without_a_burner_there_is_nothing_to_guard(check):
    assert finding(f"safety.{check}", boat.NO_BURNER).status.value == "not applicable"


def test_a_month_after_a_long_month_is_the_end_of_a_short_one():
    assert months_after(dt.date(2024, 2, 29), 12) == dt.date(2025, 2, 28)
    assert months_after(dt.date(2026, 12, 15), 1) == dt.date(2027, 1, 15)
