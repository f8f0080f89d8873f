"""Height of the outlet above the water, upright and heeled: z · cos φ − |y| · sin φ − half the bore."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from math import asin, atan, cos, degrees, hypot, radians, sin
from pathlib import Path

import pytest

from dossier.checking.finding import Status


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


finding = _beside("exhaust_boat").finding
HALF_BORE = 0.015


def ending(y, z):
    """A route over a crest to an outlet at y and z."""
    return {
        "exhaust.route": [
            ["3 m", "-1 m", "0.05 m"],
            ["2.5 m", "-1 m", "1.9 m"],
            ["1.8 m", f"{y} m", f"{z:.12g} m"],
        ]
    }


@pytest.mark.parametrize(("edge", "status"), [(0.2501, "met"), (0.25, "met"), (0.2499, "not met")])
def test_the_lower_edge_of_the_outlet_is_a_quarter_of_a_metre_above_the_water(edge, status):
    # BSS Standards 2002, 10.4: 250 mm
    found = finding("exhaust.outlet_height", ending(-1.6, edge + HALF_BORE + 1e-12))
    assert (found.status.value, float(found.found)) == (status, pytest.approx(edge, abs=1e-9))


def test_a_wide_hull_fitting_lowers_the_edge():
    changes = ending(-1.6, 0.27) | {"exhaust.hull_fitting.bore": "60 mm"}
    found = finding("exhaust.outlet_height", changes)
    assert (found.status, float(found.found)) == (Status.NOT_MET, pytest.approx(0.24))


def test_without_a_bore_the_lower_edge_is_not_known():
    changes = {"exhaust.bore": None, "exhaust.hull_fitting.bore": None}
    for check in ("outlet_height", "outlet_freeboard", "outlet_heeled", "angle_under_water"):
        found = finding(f"exhaust.{check}", changes)
        assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("exhaust.bore",))


def test_without_a_route_the_outlet_has_no_place():
    for check in ("outlet_height", "outlet_freeboard", "outlet_heeled", "angle_under_water"):
        found = finding(f"exhaust.{check}", {"exhaust.route": None, "exhaust.length": "1 m"})
        assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("exhaust.route",))


@pytest.mark.parametrize(("measured", "status"), [("0.26 m", "met"), ("0.24 m", "not met")])
def test_the_height_measured_aboard_counts_where_it_is_lower(measured, status):
    found = finding("exhaust.outlet_height", {"commissioning.heights": {"outlet_upright": measured}})
    assert (found.status.value, found.place) == (status, "measured")
    assert [item.what for item in found.items] == ["by its route", "measured"]


def test_the_height_measured_aboard_counts_alone_where_there_is_no_route():
    changes = {"exhaust.route": None, "commissioning.heights": {"outlet_upright": "0.26 m"}}
    found = finding("exhaust.outlet_height", changes)
    assert (found.status, found.remark) == (Status.MET, "measured")


@pytest.mark.parametrize(("edge", "status"), [(0.9001, "met"), (0.8999, "not met")])
def test_at_sea_the_outlet_stands_nine_tenths_of_a_metre_above_the_water(edge, status):
    found = finding("exhaust.outlet_freeboard", ending(-1.6, edge + HALF_BORE))
    assert found.status.value == status
    assert "maker's figure not supplied" in found.remark


def test_a_boat_that_stays_inshore_needs_no_freeboard():
    for further in ({}, {"exhaust": None}):
        found = finding("exhaust.outlet_freeboard", {"vessel.goes_to_sea": "false"} | further)
        assert (found.status, found.why) == (Status.NOT_APPLICABLE, "the boat does not go to sea")


def test_whether_she_goes_to_sea_must_be_said():
    found = finding("exhaust.outlet_freeboard", {"vessel.goes_to_sea": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("vessel.goes_to_sea",))


def heeled_to(edge, angle, y):
    """Height of an axis whose lower edge stands so high at an angle of heel."""
    return (edge + HALF_BORE + abs(y) * sin(radians(angle))) / cos(radians(angle))


@pytest.mark.parametrize(
    ("edge", "angle", "y", "status"),
    [
        (0.001, 20, -1.6, "met"),
        (-0.001, 20, -1.6, "not met"),
        (-0.001, 20, 1.6, "not met"),  # the low side counts, whichever it is
        (0.101, 10, -0.2, "met"),
        (0.099, 10, -0.2, "not met"),
    ],
)
def test_the_outlet_stays_clear_at_the_largest_heel_and_a_hand_above_at_smaller_ones(edge, angle, y, status):
    found = finding("exhaust.outlet_heeled", ending(y, heeled_to(edge, angle, y)))
    at_angle = {item.what: item for item in found.items}[f"heel {angle}°"]
    assert at_angle.status.value == status
    assert float(at_angle.found) == pytest.approx(edge, abs=1e-9)
    assert found.status.value == status


def test_heel_is_asked_for_where_the_file_is_silent_and_left_out_where_she_cannot_list():
    for check in ("exhaust.outlet_heeled", "exhaust.angle_under_water"):
        found = finding(check, {"vessel.heel_angles": None})
        assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("vessel.heel_angles",))
        found = finding(check, {"vessel.heel_angles": "none"})
        assert (found.status, found.why) == (Status.NOT_APPLICABLE, "the file says that she cannot list")


@pytest.mark.parametrize(("beyond", "status"), [(5.01, "met"), (4.99, "not met")])
def test_the_outlet_meets_the_water_five_degrees_beyond_the_largest_heel(beyond, status):
    y, angle = 1.6, radians(20 + beyond)
    # The edge meets the water where z · cos φ − |y| · sin φ = d/2.
    z = (HALF_BORE + y * sin(angle)) / cos(angle)
    found = finding("exhaust.angle_under_water", ending(y, z))
    assert found.status.value == status
    assert degrees(float(found.found)) == pytest.approx(20 + beyond, abs=1e-6)
    assert degrees(float(found.bound)) == pytest.approx(25)
    assert degrees(atan(z / y) - asin(HALF_BORE / hypot(y, z))) == pytest.approx(20 + beyond, abs=1e-9)
