"""Fuel: can it be stopped, does the line stand fire and cold, does the tank last?

Limits are common practice, no source, or those of ISO 9094 and the Boat Safety Scheme as the catalogue says;
here each is tried just inside and just outside.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.checking.spaces import lies_in
from dossier.data.catalogue import LimitBasis
from dossier.data.fuel_lines import fuel_line_kinds


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("whole_boat")
finding = boat.finding
UNDER_THE_BURNER = {
    "layout.places.K2": {"at": ["2.3 m", "-1.3 m", "-0.7 m"], "size": ["0.6 m", "0.6 m", "0.4 m"]}
}
"""The burner reaches from y −1.15 to −0.85 m: 0.45 m across at most, and 0.30 m above the tank's top."""
HIGH_TANK = {"fuel.tank_top": "0.30 m"}
"""A tank whose fuel may stand over the burner."""


@pytest.mark.parametrize(
    ("check", "changes", "status"),
    [
        ("shut_off", HIGH_TANK, "met"),
        ("shut_off", {**HIGH_TANK, "components.V20.at_tank": "false"}, "not met"),
        ("shut_off", {**HIGH_TANK, "fuel.shut_off": "none"}, "not met"),
        # a tank lower than the burner at every heel, and guarded against siphoning, needs no valve
        ("shut_off", {**UNDER_THE_BURNER, "fuel.shut_off": "none"}, "met"),
        ("shut_off", {**UNDER_THE_BURNER, "fuel.shut_off": None}, "met"),
        ("shut_off", {**UNDER_THE_BURNER, "fuel.shut_off": "none", "fuel.anti_siphon": "false"}, "not met"),
        ("shut_off", {"fuel.shut_off": "none"}, "not met"),  # lower, but far to port: not when she heels
        ("shut_off", {**UNDER_THE_BURNER, "fuel.shut_off": "none", "vessel.heel_angles": None}, "not met"),
        ("shut_off_remote", {}, "met"),
        ("shut_off_remote", {"components.V20.operated_from": "engine room"}, "not met"),
        ("shut_off_remote", {"components.V20.operated_from": "outside engine room"}, "met"),
        ("shut_off_remote", {"fuel.shut_off": "none"}, "not met"),
        ("shut_off_space", {}, "met"),
        ("shut_off_space", {"fuel.shut_off_space": "none"}, "not met"),
        ("shut_off_space", {"fuel.shut_off_space": "none", "fuel.tank_in": "engine_room"}, "not applicable"),
        ("line_material", {"fuel.line.material": "stainless steel"}, "met"),
        ("line_material", {"fuel.line.material": "hose to ISO 7840"}, "met"),
        ("line_material", {"fuel.line.material": "copper, plastic-coated"}, "met"),
        ("line_material", {"fuel.line.material": "nylon tube"}, "not met"),
        ("line_material", {"fuel.line.material": "plastic, supplied by the maker"}, "met"),
        ("lift", {"fuel.lift": "1.0 m"}, "met"),
        ("lift", {"fuel.lift": "1.01 m"}, "not met"),
        ("line_length", {"fuel.line.suction": "2.0 m", "fuel.line.length": "6.0 m"}, "met"),
        ("line_length", {"fuel.line.suction": "2.01 m"}, "not met"),
        ("line_length", {"fuel.line.length": "6.01 m"}, "not met"),
        ("line_length", {"fuel.line.suction": None, "fuel.line.length": "1.9 m"}, "met"),
        ("siphon", HIGH_TANK, "met"),
        ("siphon", {**HIGH_TANK, "fuel.anti_siphon": "none"}, "not met"),
        ("siphon", {"fuel.anti_siphon": "none"}, "met"),
        ("pick_up", {"fuel.pick_up.heating": "41 mm"}, "met"),
        ("pick_up", {"fuel.pick_up.heating": "40 mm"}, "not met"),
        ("pick_up", {"fuel.pick_up.heating": "39 mm"}, "not met"),
        ("pick_up", {"fuel.reserve_for_engine": "0 l"}, "not met"),
        ("tank_vent", {}, "met"),
        ("tank_vent", {"fuel.vent.led_to": "engine room"}, "not met"),
        ("tank_vent", {"fuel.vent.flame_screen": "false"}, "not met"),
        ("tank_vent", {"fuel.vent": "none"}, "not met"),
        ("winter", {"fuel.cfpp": "-15 degC"}, "met"),
        ("winter", {"fuel.cfpp": "-14.9 degC"}, "not met"),
    ],
)
def test_fuel_is_stopped_led_and_kept_as_asked(check, changes, status):
    assert finding(f"fuel.{check}", changes).status.value == status


@pytest.mark.parametrize(
    ("check", "changes", "missing"),
    [
        ("shut_off", {**HIGH_TANK, "fuel.shut_off": None}, ["fuel.shut_off"]),
        ("shut_off", {**HIGH_TANK, "components.V20.at_tank": None}, ["components.V20.at_tank"]),
        (
            "shut_off",
            {**HIGH_TANK, "components.V20.operated_from": None, "layout.reached_without_tools": None},
            ["components.V20.operated_from"],
        ),
        ("shut_off_remote", {"fuel.shut_off": None}, ["fuel.shut_off"]),
        ("shut_off_remote", {"components.V20.operated_from": None}, ["components.V20.operated_from"]),
        (
            "shut_off_remote",
            {"components.V20.operated_from": "engine-room step"},
            ["components.V20.operated_from"],
        ),
        (
            "shut_off_remote",
            {"layout.places": None, "layout.reached_without_tools": None},
            ["layout.places.B1"],
        ),
        ("shut_off_space", {"fuel.shut_off_space": None}, ["fuel.shut_off_space"]),
        ("shut_off_space", {"fuel.shut_off_space": "none", "fuel.tank_in": None}, ["fuel.tank_in"]),
        ("line_material", {"fuel.line.material": None}, ["fuel.line.material"]),
        ("line_material", {"fuel.line.material": "rubber hose"}, ["fuel.line.material"]),
        ("line_material", {"fuel.line.material": "mithril"}, ["fuel.line.material"]),
        ("line_material", {"fuel.line.material": "plastic, maker unknown"}, ["fuel.line.material"]),
        ("lift", {"fuel.lift": None}, ["fuel.lift"]),
        ("line_length", {"fuel.line.suction": None}, ["fuel.line.suction"]),
        ("siphon", {"fuel.anti_siphon": None, "fuel.tank_top": None}, ["fuel.anti_siphon", "fuel.tank_top"]),
        ("pick_up", {"fuel.pick_up.engine": None}, ["fuel.pick_up.engine"]),
        ("pick_up", {"fuel.reserve_for_engine": None}, ["fuel.reserve_for_engine"]),
        ("route", {"fuel.line.route": None}, ["fuel.line.route"]),
        ("route", {"fuel.line.support": None}, ["fuel.line.support"]),
        ("tank_vent", {"fuel.vent": None}, ["fuel.vent.led_to", "fuel.vent.flame_screen"]),
        ("autonomy", {"fuel.tank": None}, ["fuel.tank"]),
        ("winter", {"fuel.cfpp": None}, ["fuel.cfpp"]),
    ],
)
def test_silence_is_not_assessed_and_names_the_key(check, changes, missing):
    found = finding(f"fuel.{check}", changes)
    assert found.status.value == "not assessed"
    assert list(found.missing) == missing


def test_the_maker_stands_above_common_practice_and_his_silence_is_told():
    assert finding("fuel.lift").remark == "maker's figure not supplied"
    with_maker = finding(
        "fuel.lift", {"limits": {"fuel.lift": {"at_most": "0.5 m", "source": "burner instructions"}}}
    )
    assert (with_maker.status.value, with_maker.remark) == ("not met", "")
    assert with_maker.limit.basis is LimitBasis.MAKER
    assert with_maker.bound == 0.5


@pytest.mark.parametrize(("room", "status"), [(0.101, "met"), (0.099, "not met")])
def test_the_line_keeps_off_the_outside_of_the_lagging(room, status):
    """Exhaust upright at x 2.5 m, y −1.0 m; bore 30, wall 1.5, lagging 30 mm: 46.5 mm to its outside."""
    y = -1.0 + 0.0465 + room
    route = [["5.0 m", f"{y} m", "0.6 m"], ["2.5 m", f"{y} m", "0.6 m"]]
    found = finding("fuel.route", {"fuel.line.route": route, "fuel.line.support": "100 mm"})
    assert found.status.value == status
    assert found.items[0].found == pytest.approx(room)


@pytest.mark.parametrize(("height", "status"), [(1.6, "not met"), (0.6, "met")])
def test_the_line_never_runs_over_the_exhaust(height, status):
    """The last leg of the exhaust runs outboard 1.2 to 1.1 m high; the line crosses it in plan."""
    route = [["5.0 m", "-1.5 m", f"{height} m"], ["2.0 m", "-1.5 m", f"{height} m"]]
    found = finding("fuel.route", {"fuel.line.route": route})
    assert found.items[0].status.value == "met"  # half a metre is far enough
    assert found.status.value == status


@pytest.mark.parametrize(("support", "status"), [("300 mm", "met"), ("301 mm", "not met")])
def test_the_line_is_supported(support, status):
    assert finding("fuel.route", {"fuel.line.support": support}).status.value == status


def test_the_tank_lasts_the_days_wanted():
    """What the tank holds and the burner takes is tried in the tests of sizing."""
    found = finding("fuel.autonomy")
    assert found.bound == 10 * 86400
    lasts = float(found.found) / 86400
    for days, status in ((lasts - 0.01, "met"), (lasts + 0.01, "not met")):
        assert finding("fuel.autonomy", {"fuel.days_wanted": f"{days:.4f}"}).status.value == status
    assert finding("fuel.autonomy", {"fuel.days_wanted": None}).bound == 7 * 86400


def test_a_warm_night_asks_for_no_fuel():
    warm = {"conditions.outside_air": "25 degC", "conditions.sea": "25 degC"}
    found = finding("fuel.autonomy", warm)
    assert (found.status.value, found.why) == ("not applicable", "no zone needs heat on the design night")
    no_load = finding("fuel.autonomy", {"zones.0.volume": None})
    assert (no_load.status.value, no_load.missing) == ("not assessed", ("zones.saloon.volume",))


def test_fuel_is_as_cold_as_the_coldest_night_or_lay_up():
    colder_night = finding("fuel.winter", {"conditions.outside_air": "-18 degC"})
    assert colder_night.bound == pytest.approx(273.15 - 18 - 3)


@pytest.mark.parametrize(
    "check",
    [
        *("shut_off", "shut_off_remote", "shut_off_space", "line_material", "lift", "line_length", "siphon"),
        *("pick_up", "route", "tank_vent", "autonomy", "winter"),
    ],
)
def test_where_no_burner_is_aboard_nobody_asks_for_its_fuel(check):
    found = finding(f"fuel.{check}", boat.NO_BURNER)
    assert (found.status.value, found.why) == ("not applicable", "no burner is aboard")


@pytest.mark.parametrize(
    ("words", "lies"),
    [
        ("engine room", True),
        ("in the engine room", True),
        ("engine-room bulkhead", None),
        ("outside the engine-room", False),
        ("saloon", False),
        ("engine rooms", False),
    ],
)
def test_words_name_a_place_in_a_space_or_leave_it_open(words, lies):
    assert lies_in(words, "engine_room") is lies


def test_words_for_a_line_are_known_whole():
    assert fuel_line_kinds("Cupronickel") == {"metal"}
    assert fuel_line_kinds("plasticine") == set()
