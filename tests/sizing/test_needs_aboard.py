"""Needs of steps and spares against what the file says is aboard."""

import pytest

from dossier.data.wording import needs
from dossier.sizing.needs_aboard import needs_met
from tests.demonstrations import BOATS, read
from tests.sizing.boats_of_the_year import box


@pytest.mark.parametrize(
    ("rest", "met", "unmet"),
    [
        ("", {"burner", "no_fire_port", "stop_unknown"}, {"fire_port", "glycol", "fuel_hose"}),
        ("safety: {fire_port: none}", {"no_fire_port"}, {"fire_port"}),
        ("safety: {extinguishers: []}", {"no_extinguisher"}, {"extinguisher"}),
        ("safety: {extinguishers: [{at: saloon}]}", {"extinguisher"}, {"no_extinguisher"}),
        ("safety: {fire_port: none}", {"extinguisher"}, {"no_extinguisher"}),
        ("safety: {fire_port: {at: sole}}", {"fire_port"}, {"no_fire_port"}),
        ("safety: {stop: {at: console, reach: on the way out}}", {"stop_on_way_out"}, {"stop_unknown"}),
        ("safety: {stop: none}", {"stop_unknown"}, {"stop_on_way_out"}),
        ("fuel: {line: {material: hose}}", {"fuel_hose"}, set()),
        ("fuel: {line: {material: copper}}", set(), {"fuel_hose"}),
        ("vessel: {hull: steel}", {"metal_hull"}, set()),
        ("vessel: {heel_angles: none}", set(), {"heeling"}),
        ("circuit: {system: sealed}", {"sealed_ring"}, {"open_ring"}),
        (
            "circuit: {coolant: {base: ethylene glycol, share: 40 %}}",
            {"glycol", "ethylene_glycol"},
            {"plain_water"},
        ),
        (
            "circuit: {ring: [{unit: B1}, {pipe: {size: hose 19, length: 1 m, drains: [[0 m, 0 m, 0 m]]}}]}",
            {"low_point_drains"},
            set(),
        ),
        ("electrics: {circuits: [{name: a, isolator: none}]}", set(), {"isolator"}),
    ],
)
def test_a_need_is_met_by_what_the_file_says(tmp_path, rest, met, unmet):
    found = needs_met(box(tmp_path, "wind: 4 m/s", rest=rest))
    assert met <= found
    assert not unmet & found


def test_a_heater_with_a_relief_valve_is_found_by_its_kind(tmp_path):
    more = "  W1: {kind: water_heater, volume: 60 l, relief_valve: {setting: 6 bar}}"
    found = needs_met(box(tmp_path, "wind: 4 m/s", rest=more))
    assert {"water_heater", "stored_tap_water_relief"} <= found


def test_needs_that_no_demonstration_boat_meets_are_those_of_parts_she_lacks():
    boats = [read(boat) for boat in BOATS]
    met = frozenset().union(*map(needs_met, boats))
    nowhere = {
        "radiator", "floor_loop", "water_heater", "strainer", "stored_tap_water_relief", "plain_water",
        "fuel_hose", "isolator", "fixed_extinguishing", "smoke_alarm", "stop_outside", "stop_inside",
        "low_point_drains", "controls", "no_extinguisher",
    }  # fmt: skip
    assert set(needs()) - met <= nowhere
