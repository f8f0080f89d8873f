"""Length, bends, bore, water traps, loop and way of the exhaust, against closed forms.

Limits stand in the catalogue; distances and angles here are plain geometry.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from math import atan, cos, degrees, pi, radians, sin
from pathlib import Path

import pytest

from dossier.checking.finding import Status


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("exhaust_boat")
finding = boat.finding


def metres(*points):
    return [[f"{coordinate:.9g} m" for coordinate in point] for point in points]


def turning(*angles):
    """A level route of equal legs that turns by these angles (degrees), each to the same side."""
    x, y, heading = 2.0, -1.0, 0.0
    points = [(x, y, 1.0)]
    for angle in (0, *angles):
        heading += radians(angle)
        x, y = x + 0.2 * cos(heading), y + 0.2 * sin(heading)
        points.append((x, y, 1.0))
    return metres(*points)


def falling(slope):
    """A run that rises to a crest and falls by a slope (rise over run) along the last metre."""
    return metres((3.0, -1.0, 0.5), (3.0, -1.0, 1.4), (2.0, -1.0, 1.4 - slope))


SAG = metres((3.0, -1.0, 0.8), (2.6, -1.0, 0.5), (2.2, -1.0, 1.3), (1.8, -1.6, 1.2))


@pytest.mark.parametrize(("length", "status"), [("2.99 m", "met"), ("3.0 m", "met"), ("3.01 m", "not met")])
def test_without_a_makers_figure_an_exhaust_may_be_three_metres_long(length, status):
    found = finding("exhaust.length", {"exhaust.route": None, "exhaust.length": length})
    assert found.status.value == status
    assert "maker's figure not supplied" in found.remark
    assert found.key == "exhaust.length"


def test_the_length_of_a_route_counts_more_than_one_that_is_stated():
    route = metres((4.0, -1.0, 0.5), (1.0, -1.0, 4.5))  # 3, 4, 5: Pythagoras
    found = finding("exhaust.length", {"exhaust.route": route, "exhaust.length": "2 m"})
    assert (found.status, float(found.found)) == (Status.NOT_MET, pytest.approx(5.0, rel=1e-12))
    assert found.margin == pytest.approx(-2.0, rel=1e-12)


def test_the_makers_length_stands_above_the_fallback():
    limits = {"limits": {"exhaust.length": {"at_most": "2.0 m", "source": "burner instructions"}}}
    found = finding("exhaust.length", limits)
    assert found.status is Status.NOT_MET
    assert (found.bound, found.remark) == (2.0, "")


def test_an_exhaust_without_route_and_length_is_not_assessed():
    found = finding("exhaust.length", {"exhaust.route": None})
    assert found.status is Status.NOT_ASSESSED
    assert found.missing == ("exhaust.length", "exhaust.route")


@pytest.mark.parametrize(
    ("angles", "status", "second_look"),
    [
        ((90, 90, 80), "met", False),
        ((90, 90, 90, 10), "met", True),
        ((90, 90, 90, 90, 80), "met", True),
        ((90, 90, 90, 90, 90, 10), "not met", True),
    ],
)
def test_bends_may_add_up_to_five_right_angles_and_are_remarked_from_three(angles, status, second_look):
    found = finding("exhaust.bends", {"exhaust.route": turning(*angles)})
    assert found.status.value == status
    assert float(found.found) == pytest.approx(radians(sum(angles)), rel=1e-7)
    assert ("second look" in found.remark) is second_look


def test_bends_need_a_route():
    found = finding("exhaust.bends", {"exhaust.route": None, "exhaust.length": "1 m"})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("exhaust.route",))


def test_a_straight_exhaust_has_no_bends():
    found = finding("exhaust.bends", {"exhaust.route": metres((3.0, -1.0, 0.5), (2.0, -1.0, 1.5))})
    assert (found.status, float(found.found), float(found.margin)) == (Status.MET, 0.0, 2.5 * pi)


@pytest.mark.parametrize(
    ("changes", "status", "place"),
    [
        ({}, "met", "exhaust"),
        ({"exhaust.bore": "29 mm"}, "not met", "exhaust"),
        ({"exhaust.hull_fitting.bore": "29 mm"}, "not met", "hull fitting"),
        ({"exhaust.bore": "31 mm"}, "met", "hull fitting"),
    ],
)
def test_no_part_may_be_narrower_than_the_burners_outlet(changes, status, place):
    found = finding("exhaust.bore", changes)
    assert (found.status.value, found.place) == (status, place)


def test_a_hull_fitting_without_a_bore_of_its_own_counts_as_the_exhaust():
    found = finding("exhaust.bore", {"exhaust.hull_fitting.bore": None})
    assert found.status is Status.MET
    assert "hull fitting" in found.remark


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"components.B1.exhaust_outlet": None}, ("components.B1.exhaust_outlet",)),
        ({"exhaust.bore": None, "exhaust.hull_fitting.bore": None}, ("exhaust.bore",)),
        (
            {"exhaust.bore": None, "components.B1.exhaust_outlet": None},
            ("components.B1.exhaust_outlet", "exhaust.bore"),
        ),
    ],
)
def test_bores_that_are_not_stated_are_named(changes, missing):
    found = finding("exhaust.bore", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


@pytest.mark.parametrize(("slope", "status"), [(0.0525, "met"), (0.0523, "not met"), (0.0, "not met")])
def test_what_falls_falls_by_three_degrees(slope, status):
    # atan(0.0524) = 3.0°
    found = finding("exhaust.fall", {"exhaust.route": falling(slope)})
    flattest = {item.what: item for item in found.items}["flattest fall"]
    assert flattest.status.value == status
    assert degrees(float(flattest.found)) == pytest.approx(degrees(atan(slope)), abs=1e-6)
    assert found.status.value == status


@pytest.mark.parametrize(
    ("drain", "status"),
    [
        ([{"at": ["2.6 m", "-1.0 m", "0.46 m"]}], "met"),  # 40 mm under it
        ([{"at": ["2.6 m", "-1.0 m", "0.44 m"]}], "not met"),  # 60 mm
        ([], "not met"),
        (None, "not met"),  # a sag shows in the route itself
    ],
)
def test_a_sag_needs_a_drain_at_it(drain, status):
    found = finding("exhaust.fall", {"exhaust.route": SAG, "exhaust.drains": drain})
    assert found.status.value == status
    assert finding("exhaust.drain", {"exhaust.route": SAG, "exhaust.drains": drain}).status.value == (
        status if status == "not met" else "not assessed"  # where it leads is not said
    )


def test_a_drain_anywhere_along_a_level_bottom_counts():
    trough = metres((3.0, -1.0, 0.8), (2.8, -1.0, 0.5), (2.2, -1.0, 0.5), (2.0, -1.0, 1.3), (1.8, -1.6, 1.2))
    drain = [{"at": ["2.5 m", "-1.0 m", "0.5 m"], "led_to": "overboard"}]
    assert finding("exhaust.drain", {"exhaust.route": trough, "exhaust.drains": drain}).status is Status.MET
    found = finding("exhaust.fall", {"exhaust.route": trough, "exhaust.drains": drain})
    assert (found.status, found.place) == (Status.NOT_MET, "flattest fall")  # level is no fall


def test_silence_on_drains_at_the_burners_end_is_not_assessed():
    for check in ("exhaust.fall", "exhaust.drain"):
        found = finding(check, {"exhaust.drains": None})
        assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("exhaust.drains",))
    found = finding("exhaust.fall", {"exhaust.drains": [{"led_to": "overboard"}]})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("exhaust.drains.at",))


@pytest.mark.parametrize(
    ("led_to", "status"),
    [
        ("overboard", "met"),
        ("catch bottle in the engine room", "met"),
        ("bottle in the saloon", "not met"),
        ("under the cabin sole", "not met"),
        ("a pipe", "not assessed"),
        (None, "not assessed"),
    ],
)
def test_condensate_is_led_out_of_where_people_live(led_to, status):
    at = ["3.0 m", "-1.0 m", "0.5 m"]
    drain = {"at": at, "led_to": led_to} if led_to else {"at": at}
    found = finding("exhaust.drain", {"exhaust.drains": [drain]})
    assert found.status.value == status
    assert (found.missing == ("exhaust.drains.led_to",)) is (status == "not assessed")


def test_a_run_that_falls_all_the_way_needs_no_drain():
    route = metres((3.0, -1.0, 1.5), (2.0, -1.6, 1.2))
    assert finding("exhaust.drain", {"exhaust.route": route}).status is Status.NOT_APPLICABLE
    assert finding("exhaust.fall", {"exhaust.route": route}).status is Status.MET


def test_drains_need_a_route():
    for check in ("exhaust.fall", "exhaust.drain", "exhaust.high_loop", "exhaust.inside_run"):
        found = finding(check, {"exhaust.route": None, "exhaust.length": "1 m"})
        assert found.status is Status.NOT_ASSESSED
        assert "exhaust.route" in found.missing


def loop(y, z):
    """A run over a crest at y and z to an outlet below it."""
    return metres((3.0, -0.2, 0.1), (2.5, y, z), (2.2, y - 0.1, z - 0.05))


@pytest.mark.parametrize(("height", "status"), [(0.2501, "met"), (0.2499, "not met")])
def test_the_loop_stands_a_quarter_of_a_metre_above_the_water_upright(height, status):
    changes = {"exhaust.route": loop(0.0, height), "vessel.heel_angles": "none"}
    found = finding("exhaust.high_loop", changes)
    assert (found.status.value, float(found.found)) == (status, pytest.approx(height))


@pytest.mark.parametrize(("height", "status"), [(0.1001, "met"), (0.0999, "not met")])
def test_the_loop_stands_a_hand_above_the_water_at_every_heel(height, status):
    y = -1.5
    upright = (height + 1.5 * sin(radians(20))) / cos(radians(20))  # z·cos φ − |y|·sin φ
    found = finding("exhaust.high_loop", {"exhaust.route": loop(y, upright)})
    assert (found.status.value, found.place) == (status, "heel 20°")
    assert float(found.found) == pytest.approx(height, abs=1e-8)


def test_a_run_that_rises_to_the_outlet_has_no_loop():
    found = finding("exhaust.high_loop", {"exhaust.route": metres((3.0, -1.0, 0.5), (1.8, -1.6, 2.0))})
    assert found.status is Status.NOT_MET
    assert "highest point" in str(found.found)


def test_a_loop_at_heel_needs_the_angles():
    found = finding("exhaust.high_loop", {"vessel.heel_angles": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("vessel.heel_angles",))


@pytest.mark.parametrize(
    ("end", "status"),
    [(3.999, "met"), (4.2, "not met")],  # the saloon begins at 4.0 m
)
def test_no_exhaust_runs_through_the_saloon(end, status):
    route = metres((3.0, -1.0, 0.5), (3.0, -1.0, 1.3), (end, -1.4, 1.2))
    found = finding("exhaust.inside_run", {"exhaust.route": route})
    assert found.status.value == status
    assert (found.place == "saloon") is (status == "not met")


def test_a_compartment_nobody_describes_leaves_open_whether_people_live_there():
    locker = {"from": ["0.5 m", "-2 m", "0 m"], "to": ["1.5 m", "2 m", "1.8 m"]}
    route = metres((3.0, -1.0, 0.5), (3.0, -1.0, 1.3), (1.0, -1.4, 1.2))
    changes = {"exhaust.route": route, "layout.compartments.locker": locker}
    found = finding("exhaust.inside_run", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("layout.compartments.locker.holds",))
    changes["layout.compartments.locker"] = locker | {"holds": ["ropes and fenders"]}
    assert finding("exhaust.inside_run", changes).status is Status.MET


def test_a_heated_engine_room_is_no_accommodation():
    shell = [{"name": "Shell", "u_value": "3 W/m2K", "area": "12 m2", "faces": "air"}]
    room = {"target": "5 degC", "volume": "8 m3", "sections": shell}
    zones = [{"id": "saloon", **room}, {"id": "engine_room", **room}]
    assert finding("exhaust.inside_run", {"zones": zones}).status is Status.MET
    zones[1]["berths"] = "1"
    assert finding("exhaust.inside_run", {"zones": zones}).status is Status.NOT_MET


def test_the_way_needs_compartments():
    found = finding("exhaust.inside_run", {"layout.compartments": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("layout.compartments",))
    far = metres((-3.0, -1.0, 0.5), (-4.0, -1.0, 1.3))
    found = finding("exhaust.inside_run", {"exhaust.route": far})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("layout.compartments",))


@pytest.mark.parametrize(
    "check", ["length", "bends", "bore", "fall", "drain", "high_loop", "inside_run", "canopy", "hull_fitting"]
)
def test_nothing_of_an_exhaust_is_asked_where_a_whole_circuit_has_no_burner(check):
    changes = {"components": {}, "fuel": None} | boat.CIRCUIT_WITHOUT
    found = finding(f"exhaust.{check}", changes)
    assert (found.status, found.why) == (Status.NOT_APPLICABLE, "no burner is aboard")


def test_a_file_that_says_nothing_of_the_exhaust_names_the_keys_of_the_check():
    found = finding("exhaust.hull_fitting", {"exhaust": None})
    assert found.status is Status.NOT_ASSESSED
    assert "exhaust.hull_fitting.kind" in found.missing
    assert finding("exhaust.high_loop", {"exhaust": None}).missing == ("exhaust.route",)
