"""Room, fit, heights and nearness of the parts, and the header over the highest wetted point.

Margins of the header are those of the independent calculation made for the demonstration projects, exact to
the last digit; the rest is geometry worked out beside each case.
"""

from math import cos, hypot, radians, sin
from pathlib import Path

import pytest

from dossier.notation import NotAssessed, named_results
from dossier.project import load
from dossier.sizing.hot_parts import runs_above
from dossier.sizing.placement import header_margins, placement

BOAT = """
format: 1
document: {number: T-1, revision: A, date: 2026-11-20}
vessel: {length: 14.2 m, heel_angles: [10 deg, 20 deg], trim_angles: [1 deg, 2.5 deg]}
components:
  B1: {kind: burner, output: {max: 12 kW}, exhaust_outlet: 38 mm}
  P1: {kind: pump}
  T2: {kind: header_tank, volume: 8 l}
  K1: {kind: battery}
  K2: {kind: fuel_tank}
fuel: {tank: 900 l}
exhaust: {lagging: {thickness: 40 mm}}
layout:
  compartments:
    engine_room: {from: [2.8 m, -2.0 m, -0.9 m], to: [6.6 m, 2.0 m, 1.10 m]}
    wheelhouse: {from: [3.2 m, -1.3 m, 1.10 m], to: [5.9 m, 1.3 m, 3.1 m]}
  places:
    B1: {at: [5.30 m, -1.55 m, 0.10 m], size: [0.55 m, 0.32 m, 0.34 m],
      keep_free: {port: 300 mm, top: 150 mm, aft: 100 mm}}
    P1: {at: [5.95 m, -1.50 m, 0.15 m], size: [0.18 m, 0.14 m, 0.14 m], keep_free: {port: 100 mm, aft: 50 mm}}
    T2: {at: [5.50 m, -0.75 m, 2.12 m], size: [0.25 m, 0.20 m, 0.25 m], keep_free: {top: 150 mm}}
    K1: {at: [3.0 m, 0.0 m, -0.5 m], size: [0.5 m, 0.4 m, 0.3 m]}
    K2: {at: [3.0 m, -1.9 m, -0.6 m], size: [1.5 m, 1.0 m, 0.6 m]}
  highest_wetted: {name: F1 vent, at: [5.50 m, -1.05 m, 1.72 m]}
  flooding_level: -0.40 m
"""
EXHAUST = ((5.60, -1.35, 0.42), (5.60, -1.35, 0.94), (4.60, -1.80, 1.02), (4.40, -2.05, 0.87))


def project(folder: Path, *changes):
    text = BOAT
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    file = folder / "boat.yaml"
    file.write_text(text, encoding="utf-8")
    return load(file)


def place(name):
    """The line of a place."""
    return next(line for line in BOAT.splitlines() if line.startswith(f"    {name}:"))


@pytest.mark.parametrize(
    ("header", "wetted", "heels", "margins"),
    [
        # cutter: 0.40 / 0.32 / 0.24 m
        (
            ("5.50 m, -0.75 m, 2.12 m", "0.25 m, 0.20 m, 0.25 m"),
            "5.50 m, -1.05 m, 1.72 m",
            (10, 20),
            (0.40, 0.32, 0.24),
        ),
        # barge: −0.35 / −0.38 / −0.42 m, repaired 0.20 / 0.14 / 0.05 m
        (
            ("1.50 m, 0.60 m, 0.95 m", "0.22 m, 0.18 m, 0.22 m"),
            "11.40 m, 1.20 m, 1.30 m",
            (3, 8),
            (-0.35, -0.38, -0.42),
        ),
        (
            ("1.50 m, 0.05 m, 1.50 m", "0.22 m, 0.18 m, 0.22 m"),
            "11.40 m, 1.20 m, 1.30 m",
            (3, 8),
            (0.20, 0.14, 0.05),
        ),
    ],
)
def test_the_header_over_the_highest_wetted_point(tmp_path, header, wetted, heels, margins):
    boat = project(
        tmp_path,
        (place("T2"), f"    T2: {{at: [{header[0]}], size: [{header[1]}]}}"),
        ("5.50 m, -1.05 m, 1.72 m", wetted),
        ("10 deg, 20 deg", ", ".join(f"{angle} deg" for angle in heels)),
    )
    found = {result.name: round(float(result.value), 2) for result in named_results(header_margins(boat))}
    names = ("upright", *(f"heel_{angle}" for angle in heels))
    assert tuple(found[f"expansion.header_margin.{name}"] for name in names) == margins


def test_the_header_trims_to_the_worse_end(tmp_path):
    """Middle of the header at x 5.625 m, the vent at 5.50 m: 0.40 m · cos τ − 0.125 m · sin τ."""
    found = {r.name: float(r.value) for r in named_results(header_margins(project(tmp_path)))}
    for name, angle in (("trim_1", 1), ("trim_2_5", 2.5)):
        expected = 0.40 * cos(radians(angle)) - 0.125 * sin(radians(angle))
        assert found[f"expansion.header_margin.{name}"] == pytest.approx(expected)


def test_every_point_of_a_run_counts_and_another_one_when_she_heels(tmp_path):
    """A pipe to port lies lower than the vent, but at 20° to port it is the higher of both."""
    circuit = (
        "circuit: {ring: [{unit: P1}, {unit: B1}, {pipe: {id: H1, size: hose 22, "
        "route: [[5.0 m, 1.9 m, 1.60 m], [5.0 m, 0.0 m, 0.5 m]]}}]}\n"
    )
    found = header_margins(project(tmp_path, ("fuel: {tank: 900 l}\n", f"fuel: {{tank: 900 l}}\n{circuit}")))
    assert (found.upright.over, found.heeled[1].over) == ("F1 vent", "H1")
    across = 1.9 - (-0.65)
    assert found.heeled[1].margin == pytest.approx(0.52 * cos(radians(20)) - across * sin(radians(20)))


@pytest.mark.parametrize(
    ("changes", "needs"),
    [
        ([("  T2: {kind: header_tank, volume: 8 l}\n", "")], ("circuit.header.unit",)),
        ([(place("T2") + "\n", "")], ("layout.places.T2",)),
        (
            [("  highest_wetted: {name: F1 vent, at: [5.50 m, -1.05 m, 1.72 m]}\n", "")],
            ("layout.highest_wetted",),
        ),
    ],
)
def test_a_header_or_a_point_that_is_not_placed_is_named(tmp_path, changes, needs):
    assert header_margins(project(tmp_path, *changes)).needs == needs


def test_room_is_counted_to_the_next_part_or_the_wall(tmp_path):
    found = placement(project(tmp_path), None).parts
    burner = {space.side: space.free for space in found["B1"].spaces}
    assert burner == pytest.approx({"port": 2.0 - (-1.23), "aft": 5.30 - 2.8, "top": 1.10 - 0.44})
    assert found["B1"].service == pytest.approx(0.66)
    pump = {space.side: space.free for space in found["P1"].spaces}
    assert pump["aft"] == pytest.approx(5.95 - 5.85)  # the burner stands there
    assert found["T2"].compartment == "wheelhouse"
    assert found["T2"].service == pytest.approx(3.1 - 2.37)


def test_parts_that_clash_leave_less_than_no_room(tmp_path):
    boat = project(tmp_path, ("at: [5.95 m, -1.50 m, 0.15 m]", "at: [5.80 m, -1.50 m, 0.15 m]"))
    pump = placement(boat, None).parts["P1"]
    assert {space.side: space.free for space in pump.spaces}["aft"] == pytest.approx(5.80 - 5.85)
    assert pump.service < 0


def test_a_part_that_sticks_out_of_its_compartment_has_less_than_no_margin(tmp_path):
    boat = project(tmp_path, ("at: [5.30 m, -1.55 m, 0.10 m]", "at: [6.2 m, -1.55 m, 0.10 m]"))
    found = placement(boat, None).parts
    assert found["B1"].inside == pytest.approx(6.6 - 6.75)
    assert found["P1"].inside == pytest.approx(6.6 - 6.13)


def test_a_locker_within_a_space_is_the_compartment_of_what_stands_in_it(tmp_path):
    locker = "    locker: {from: [5.2 m, -1.6 m, 0.05 m], to: [5.9 m, -1.2 m, 0.5 m]}\n"
    boat = project(tmp_path, ("  compartments:\n", f"  compartments:\n{locker}"))
    burner = placement(boat, None).parts["B1"]
    assert (burner.compartment, burner.inside) == ("locker", pytest.approx(0.03))


def test_a_part_outside_all_compartments_has_no_margin(tmp_path):
    boat = project(tmp_path, ("at: [5.30 m, -1.55 m, 0.10 m]", "at: [9.0 m, -1.55 m, 0.10 m]"))
    burner = placement(boat, None).parts["B1"]
    assert (burner.compartment, burner.inside) == ("", None)
    assert {space.side: space.free for space in burner.spaces}["top"] is None


def test_burner_and_pump_over_the_bilge_water_when_heeled(tmp_path):
    """The burner's low corner at y −1.55 m, 0.50 m over the alarm amidships."""
    burner = placement(project(tmp_path), None).parts["B1"]
    for height, angle in zip(burner.heights, (0, 10, 20), strict=True):
        expected = 0.50 * cos(radians(angle)) - 1.55 * sin(radians(angle))
        assert height.height == pytest.approx(expected)
    assert burner.flooding == pytest.approx(0.50 * cos(radians(20)) - 1.55 * sin(radians(20)))
    dry = project(tmp_path, ("  flooding_level: -0.40 m\n", ""))
    assert placement(dry, None).parts["B1"].flooding is None


def test_hot_parts_to_fuel_and_battery(tmp_path):
    """Tank up to x 4.5, y −0.9, z 0 m; battery to x 3.5, z −0.2, from y 0 m; exhaust 121 mm thick."""
    found = placement(project(tmp_path), EXHAUST)
    near = {(pair.hot, pair.other): float(pair.distance) for pair in found.hot.near_fuel}
    assert near["B1", "K2"] == pytest.approx(hypot(5.30 - 4.5, 0.10 - 0.0))
    assert near["exhaust", "K2"] == pytest.approx(hypot(0.87, 2.05 - 1.9) - 0.121 / 2)
    assert found.hot_to_fuel == pytest.approx(near["B1", "K2"])
    assert found.hot_to_battery == pytest.approx(hypot(5.30 - 3.5, 1.23, 0.10 + 0.2))
    assert {pair.other for pair in found.hot.near_battery} == {"K1"}
    assert found.hot.compartments == {"engine_room"}
    assert placement(project(tmp_path), None).hot.near_fuel[0].hot == "B1"


def test_the_fuel_line_is_held_against_the_outside_of_the_lagging(tmp_path):
    line = "fuel: {tank: 900 l, line: {route: [[3.0 m, -1.0 m, 0.6 m], [5.60 m, -1.0 m, 0.6 m]]}}"
    found = placement(project(tmp_path, ("fuel: {tank: 900 l}", line)), EXHAUST)
    assert found.hot.line_to_exhaust == pytest.approx(0.35 - 0.121 / 2)
    assert found.hot.line_above_exhaust is False


def test_runs_alone_are_enough_to_tell_how_near_they_come(tmp_path):
    file = tmp_path / "line.yaml"
    file.write_text(
        "format: 1\nexhaust: {bore: 30 mm}\nfuel: {line: {route: [[0 m, 0 m, 0 m], [1 m, 0 m, 0 m]]}}\n",
        encoding="utf-8",
    )
    boat = load(file)
    assert placement(boat, None) == NotAssessed("Does every part fit where it stands?", ("layout.places",))
    found = placement(boat, ((0.5, 0.3, 0.0), (0.5, 1.0, 0.0)))
    assert (found.parts, found.hot.line_to_exhaust) == ({}, pytest.approx(0.3 - 0.0165))


@pytest.mark.parametrize(
    ("line", "above"),
    [
        ([(0, -1, 1.2), (0, 1, 1.2)], True),  # crosses over it
        ([(0, -1, 0.8), (0, 1, 0.8)], False),  # crosses under it
        ([(-0.5, 0.04, 1.2), (0.5, 0.04, 1.2)], True),  # along it, within its width
        ([(-0.5, 0.06, 1.2), (0.5, 0.06, 1.2)], False),  # along it, beside its width
        ([(0, 0.5, 1.2), (0, 0.04, 1.2)], True),  # ends over it
        ([(-0.5, 0.0, 0.9), (0.5, 0.0, 1.1)], True),  # rises over it on the way
        ([(2, -1, 1.2), (2, 1, 1.2)], False),  # past its end
    ],
)
def test_a_line_runs_above_a_pipe_where_what_drips_would_fall_on_it(line, above):
    """A pipe of 100 mm along x at 1 m height."""
    assert runs_above(line, [(-1, 0, 1.0), (1, 0, 1.0)], 0.1) is above


def test_what_stands_over_a_battery_is_told(tmp_path):
    over = project(
        tmp_path, (place("K1"), "    K1: {at: [5.4 m, -1.5 m, -0.5 m], size: [0.5 m, 0.4 m, 0.3 m]}")
    )
    found = placement(over, EXHAUST).hot
    assert [(pair.above, pair.below) for pair in found.over_battery] == [("B1", "K1"), ("exhaust", "K1")]
    assert found.over_battery[0].height == pytest.approx(0.3)
    stacked = project(
        tmp_path, (place("K1"), "    K1: {at: [3.2 m, -1.5 m, 0.1 m], size: [0.5 m, 0.4 m, 0.3 m]}")
    )
    assert [(p.above, p.below) for p in placement(stacked, None).hot.fuel_and_battery] == [("K1", "K2")]


def test_results_bear_the_tags_of_the_parts(tmp_path):
    names = {result.name for result in named_results(placement(project(tmp_path), EXHAUST))}
    assert {"clearance.service.B1", "clearance.inside.T2", "clearance.flooding.P1"} <= names
    assert {"clearance.hot_to_fuel", "clearance.hot_to_battery"} <= names
    assert "clearance.flooding.T2" not in names
