"""The exhaust of invented boats: line, heights and distances against closed forms of geometry.

Figures of the cutter, the yacht and the barge come from a calculation made apart from this program for these
boats, exact to the digits shown.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from math import acos, cos, degrees, radians, sin, sqrt
from pathlib import Path

import pytest

from dossier.notation import NotAssessed, lines_behind, named_results, origin_of


def _beside(name):
    if name not in sys.modules:
        place = Path(__file__).parents[1] / "checking" / f"{name}.py"
        spec = spec_from_file_location(name, place)
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("exhaust_boat")
CUTTER = [(5.60, -1.35, 0.42), (5.60, -1.35, 0.94), (4.60, -1.80, 1.02), (4.40, -2.05, 0.87)]
YACHT = [(6.10, 1.30, 0.40), (6.10, 1.30, 1.10), (5.20, 1.95, 1.32), (4.80, 2.32, 1.12)]
BARGE = [(2.10, -0.60, 0.05), (2.60, -0.90, -0.02), (3.20, -1.30, 0.16), (3.40, -1.58, 0.18)]
BARGE_AFTER = [(2.10, -0.60, 0.24), (2.50, -1.00, 0.33), (2.80, -1.30, 0.38), (2.95, -1.58, 0.30)]


def running(points, bore="38 mm", **changes):
    route = [[f"{c:.9g} m" for c in point] for point in points]
    return boat.study_of(
        {"exhaust.route": route, "exhaust.bore": bore, "exhaust.hull_fitting": None} | changes
    )


def results(study):
    return {result.name: float(result.value) for result in named_results(study.exhaust)}


@pytest.mark.parametrize(
    ("points", "bore", "heels", "worked"),
    [
        (CUTTER, 38, (10, 20), (1.97, 125, (0.85, 0.48, 0.10), (1.02, 0.69, 0.34), 22.5)),
        (YACHT, 38, (10, 20), (2.41, 111, (1.10, 0.68, 0.24), (1.32, 0.96, 0.57), 25.3)),
        (BARGE, 30, (3, 8), (1.68, 44, (0.165, 0.08, -0.06), (0.18, 0.10, -0.04), 6.0)),
        (BARGE_AFTER, 30, (3, 8), (1.33, 29, (0.285, 0.20, 0.06), (0.38, 0.31, 0.20), 10.2)),
    ],
)
def test_line_and_heights_of_four_boats(points, bore, heels, worked):
    length, bends, outlet, loop, under_water = worked
    angles = {"vessel.heel_angles": [f"{heel} deg" for heel in heels]}
    found = results(running(points, f"{bore} mm", **angles))
    assert found["exhaust.length"] == pytest.approx(length, abs=0.005)
    assert degrees(found["exhaust.bends"]) == pytest.approx(bends, abs=0.5)
    names = ("upright", *(f"heel_{heel}" for heel in heels))
    for name, edge, top in zip(names, outlet, loop, strict=True):
        assert found[f"exhaust.outlet_height.{name}"] == pytest.approx(edge, abs=0.005)
        assert found[f"exhaust.loop_height.{name}"] == pytest.approx(top, abs=0.005)
    assert degrees(found["exhaust.angle_under_water"]) == pytest.approx(under_water, abs=0.05)


def test_length_and_turn_of_a_route_by_the_unit_vectors_of_its_legs():
    """Derived: sum of leg lengths 1.276209 m, arccos of the unit legs' product 64.84026°."""
    study = running([(2.1, -1.2, 0.55), (2.1, -1.6, 0.85), (1.4, -1.9, 1.0)])
    assert float(study.exhaust.length) == pytest.approx(1.276209, rel=1e-6)
    assert degrees(float(study.exhaust.route.bends)) == pytest.approx(64.84026, abs=1e-4)


def test_legs_tell_their_rise_their_bend_and_the_sum_so_far():
    legs = running(CUTTER).exhaust.route.legs
    first = degrees(acos(0.08 / sqrt(1.0**2 + 0.45**2 + 0.08**2)))  # from straight up
    assert [float(leg.length) for leg in legs] == pytest.approx([0.52, 1.0995, 0.35355], abs=1e-4)
    assert [float(leg.rise) for leg in legs] == pytest.approx([0.52, 0.08, -0.15])
    assert degrees(float(legs[0].bend)) == pytest.approx(first, abs=1e-9)
    assert float(legs[1].bends) == pytest.approx(float(legs[0].bend) + float(legs[1].bend))
    assert (legs[2].bend, legs[2].bends) == (None, None)


def test_low_points_are_told_with_their_drains():
    low = running(BARGE).exhaust.route.low
    assert [(tuple(map(float, point.at)), point.is_sag) for point in low] == [((2.6, -0.9, -0.02), True)]
    assert low[0].drain is None
    assert results(running(BARGE))["exhaust.low_points"] == 1
    own = boat.study_of().exhaust.route.low
    assert [(point.is_sag, point.drain.led_to) for point in own] == [(False, "overboard")]


def test_a_point_given_twice_is_one():
    once, twice = running(CUTTER), running([*CUTTER[:2], CUTTER[1], *CUTTER[2:]])
    assert results(once) == pytest.approx(results(twice))
    at_one_place = running([CUTTER[0], CUTTER[0]]).exhaust
    assert isinstance(at_one_place.route, NotAssessed)


def test_the_flattest_falling_leg_counts_level_ones_too():
    falls = running([(3, -1, 0.5), (3, -1, 1.4), (2.5, -1, 1.3), (2.3, -1, 1.1)]).exhaust.route.least_fall
    assert degrees(float(falls)) == pytest.approx(11.309932, abs=1e-5)  # atan(1/5)
    level = running([(3, -1, 0.5), (3, -1, 1.4), (2.5, -1, 1.4), (2.3, -1, 1.1)]).exhaust.route.least_fall
    assert float(level) == 0
    assert running([(3, -1, 0.5), (2, -1, 1.4)]).exhaust.route.least_fall is None


def test_trimmed_the_outlet_sinks_towards_its_own_end():
    changes = {"vessel.trim_angles": ["2 deg"], "vessel.length": "14 m"}
    for points, arm in ((CUTTER, 7 - 4.4), ([(9, 0, 0.1), (10, 0, 0.9)], 10 - 7)):
        z = points[-1][2]
        expected = z * cos(radians(2)) - arm * sin(radians(2)) - 0.019
        found = results(running(points, **changes))
        assert found["exhaust.outlet_height.trim_2"] == pytest.approx(expected, rel=1e-9)
    silent = running(CUTTER, **{"vessel.length": None}).exhaust.outlet
    assert (silent.trimmed, float(silent.upright)) == ((), pytest.approx(0.851))


def test_half_degrees_have_names_of_their_own():
    found = results(running(CUTTER, **{"vessel.heel_angles": ["7.5 deg", "8 deg"]}))
    assert {"exhaust.outlet_height.heel_7_5", "exhaust.loop_height.heel_8"} <= found.keys()


def test_distances_of_the_cutters_outlet():
    openings = {
        "Wheelhouse door port": ((3.40, 1.30, 2.00), 3.67),
        "Wheelhouse window starboard": ((4.60, -1.30, 2.30), 1.63),
        "Engine-room ventilator": ((3.20, -1.75, 1.45), 1.37),
        "Saloon skylight": ((8.60, 0.00, 1.75), 4.76),
        "Fuel filler": ((6.40, -1.90, 1.25), 2.04),
        "Tank vent": ((6.50, -1.95, 1.60), 2.23),
    }
    listed = [{"name": name, "at": [f"{c} m" for c in at]} for name, (at, _) in openings.items()]
    study = running(CUTTER, **{"layout.openings": listed, "combustion_air.at": None})
    found = {each.name: each.distance for each in study.exhaust.distances}
    assert {name: float(s) for name, s in found.items()} == pytest.approx(
        {name: s for name, (_, s) in openings.items()}, abs=0.005
    )
    assert study.exhaust.nearest.name == "Engine-room ventilator"
    assert results(study)["exhaust.outlet_distance.Wheelhouse_door_port"] == pytest.approx(3.67, abs=0.005)


def test_the_air_intake_is_a_distance_of_its_own():
    found = results(boat.study_of())
    expected = sqrt((3.0 - 1.8) ** 2 + (1.5 + 1.6) ** 2 + (1.6 - 1.2) ** 2)
    assert found["exhaust.outlet_distance.combustion_air_intake"] == pytest.approx(expected, rel=1e-9)


def test_the_run_is_told_apart_by_the_compartments_it_lies_in():
    spaces = dict(running([(2.0, -1.0, 0.5), (5.0, -1.0, 0.5)]).exhaust.route.spaces)
    assert {name: float(length) for name, length in spaces.items()} == pytest.approx(
        {"engine_room": 2.0, "saloon": 1.0}
    )


def test_every_result_leads_back_to_lines_of_the_file():
    study = boat.study_of({"vessel.heel_angles": ["10 deg", "20 deg"]})
    for result in [*named_results(study.exhaust), *named_results(study.air)]:
        assert origin_of(result.value) is not None, result.name
        assert lines_behind(result.value), result.name
    straight = running([(3, -1, 0.5), (2, -1, 1.4)])
    assert all(origin_of(result.value) is not None for result in named_results(straight.exhaust))


def test_a_boat_without_an_exhaust_in_the_file_is_not_assessed():
    study = boat.study_of({"exhaust": None})
    assert isinstance(study.exhaust, NotAssessed)
    assert study.exhaust.needs == ("exhaust.route",)
    assert study.candidates == {}


def test_what_is_silent_stays_open_and_the_rest_is_found():
    study = boat.study_of({"exhaust": {"length": "2.2 m"}})
    found = study.exhaust
    assert float(found.length) == 2.2
    assert all(isinstance(part, NotAssessed) for part in (found.route, found.outlet, found.loop))
    assert found.heat.lacking["run_temperature"] == ("exhaust.bore", "exhaust.lagging.thickness")
    assert set(results(study)) == {"exhaust.length", "exhaust.wind_pressure"}
