"""Room to work, fit, reach, bilge water, and what must be kept off hot parts; just inside and just outside.

Figures are common practice, no source (90 mm, 10 mm, 150 mm, 50 mm, 300 mm); the rules about batteries are
those of ISO 10133:2012, 5.6 and 5.7 (excerpt seen).
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from math import cos, radians, sin
from pathlib import Path

import pytest

from dossier.data.catalogue import LimitBasis


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("whole_boat")
finding = boat.finding
NO_PLACES = {"layout.places": None, "layout.reached_without_tools": None}


def at(*point):
    return [f"{n} m" for n in point]


def box(point, size):
    return {"at": at(*point), "size": at(*size)}


@pytest.mark.parametrize(
    ("check", "changes", "status"),
    [
        # a locker above the burner, whose lid ends at 0.30 m and asks for 150 mm above it
        ("service", {"layout.places.L1": box((2.3, -1.15, 0.451), (0.5, 0.3, 0.2))}, "met"),
        ("service", {"layout.places.L1": box((2.3, -1.15, 0.449), (0.5, 0.3, 0.2))}, "not met"),
        # a pump walled in on all sides, 89 and 91 mm from each
        (
            "service",
            {"layout.compartments.box": {"from": at(3.111, -1.289, -0.089), "to": at(3.489, -0.961, 0.239)}},
            "not met",
        ),
        (
            "service",
            {"layout.compartments.box": {"from": at(3.109, -1.291, -0.091), "to": at(3.491, -0.959, 0.241)}},
            "met",
        ),
        ("inside", {"layout.places.F1": box((4.5, 1.788, 0.0), (0.4, 0.4, 0.4))}, "met"),
        ("inside", {"layout.places.F1": box((4.5, 1.792, 0.0), (0.4, 0.4, 0.4))}, "not met"),
        # a box that touches the burner's fore end, and one that reaches 5 mm into it
        ("inside", {"layout.places.L1": box((2.8, -1.0, 0.05), (0.2, 0.1, 0.1))}, "met"),
        ("inside", {"layout.places.L1": box((2.795, -1.0, 0.05), (0.2, 0.1, 0.1))}, "not met"),
        ("access", {"layout.reached_without_tools": ["V20", "Q1"]}, "not met"),
        ("access", {"layout.reached_without_tools": ["V20", "T2", "Q1", "K1"]}, "met"),
        ("burner_combustible", {"clearances.burner": "50 mm"}, "met"),
        ("burner_combustible", {"clearances.burner": "49 mm"}, "not met"),
        ("fuel", {"clearances.hot_to_fuel": "300 mm"}, "met"),
        ("fuel", {"clearances.hot_to_fuel": "299 mm"}, "not met"),
        ("fuel", {"clearances.hot_to_fuel": "100 mm", "clearances.fuel_screen": "true"}, "met"),
        # a filter placed 299 mm from the burner's fore side at x 2.8 m, whatever the file states
        ("fuel", {"layout.places.K3": box((3.099, -1.0, 0.0), (0.1, 0.1, 0.2))}, "not met"),
        ("stowage", {}, "met"),
        ("stowage", {"layout.compartments.engine_room.guard": "false"}, "not met"),
        (
            "stowage",
            {
                "layout.compartments.engine_room.guard": "false",
                "layout.compartments.engine_room.stowage": "false",
            },
            "not applicable",
        ),
        (
            "battery",
            {"layout.places.K1": box((2.2, -1.2, -0.5), (0.5, 0.4, 0.3))},
            "not met",
        ),  # burner over it
        (
            "battery",
            {"layout.places.K1": box((2.4, -2.1, -0.5), (0.5, 0.4, 0.3))},
            "not met",
        ),  # exhaust over it
        ("battery", {"layout.places.K1": box((5.2, 1.1, 0.2), (0.5, 0.4, 0.3))}, "not met"),  # over the tank
        # under the fuel line, which comes down to 0.08 m over its fore edge
        ("battery", {"layout.places.K1": box((3.3, 0.3, -0.525), (0.5, 0.4, 0.3))}, "met"),
        ("battery", {"layout.places.K1": box((3.3, 0.3, -0.515), (0.5, 0.4, 0.3))}, "not met"),
    ],
)
def test_there_is_room_and_distance_as_asked(check, changes, status):
    assert finding(f"clearance.{check}", changes).status.value == status


@pytest.mark.parametrize(
    ("check", "changes", "missing"),
    [
        ("service", NO_PLACES, ["layout.places.B1"]),
        (
            "service",
            {"layout.places.B1": box((2.3, -1.15, 0.0), (0.5, 0.3, 0.3))},
            ["layout.places.B1.keep_free"],
        ),
        ("inside", NO_PLACES, ["layout.places"]),
        ("inside", {"layout.places.F1": box((9.0, 0.0, 0.0), (0.4, 0.3, 0.4))}, ["layout.compartments"]),
        ("access", {"layout.reached_without_tools": None}, ["layout.reached_without_tools"]),
        ("access", {"fuel.shut_off": None}, ["fuel.shut_off"]),
        ("flooding", {"layout.flooding_level": None}, ["layout.flooding_level"]),
        ("flooding", {"vessel.heel_angles": None}, ["vessel.heel_angles"]),
        ("flooding", {"layout.places.P1": None}, ["layout.places.P1"]),
        ("burner_combustible", {"clearances.burner": None}, ["clearances.burner"]),
        ("fuel", {"clearances.hot_to_fuel": None}, ["clearances.hot_to_fuel"]),  # what is drawn is not all
        (
            "stowage",
            {"layout.compartments.engine_room.guard": None},
            ["layout.compartments.engine_room.guard"],
        ),
        ("stowage", {**NO_PLACES, "fuel.line.route": None}, ["layout.places", "layout.compartments"]),
        ("battery", {"layout.places.K1": None}, ["layout.places"]),
    ],
)
def test_silence_is_not_assessed_and_names_the_key(check, changes, missing):
    found = finding(f"clearance.{check}", changes)
    assert found.status.value == "not assessed"
    assert list(found.missing) == missing


@pytest.mark.parametrize(("above", "status"), [(0.001, "met"), (-0.001, "not met")])
def test_the_pump_stays_clear_of_bilge_water_when_she_heels_to_its_side(above, status):
    """The pump's low corner lies at y −1.2 m; at 20° it drops by 1.2 m · sin 20°; 150 mm are asked."""
    level = -(0.15 + above + 1.2 * sin(radians(20))) / cos(radians(20))
    found = finding("clearance.flooding", {"layout.flooding_level": f"{level:.6f} m"})
    assert found.status.value == status
    assert found.place == "P1 heeled 20°"
    assert found.margin == pytest.approx(above, abs=1e-5)


def test_a_boat_that_cannot_heel_is_looked_at_upright():
    found = finding("clearance.flooding", {"vessel.heel_angles": "none", "layout.flooding_level": "-0.16 m"})
    assert found.status.value == "met"
    assert found.margin == pytest.approx(0.01)


def test_space_asked_for_a_part_is_its_makers_figure():
    found = finding("clearance.service", {"layout.places.L1": box((2.3, -1.15, 0.4), (0.5, 0.3, 0.2))})
    assert (found.place, found.bound, found.limit.basis) == ("B1 top", 0.15, LimitBasis.MAKER)
    assert found.found == pytest.approx(0.1)


def test_nearness_that_is_drawn_counts_though_the_file_states_more():
    found = finding("clearance.fuel", {"layout.places.K3": box((2.9, -1.0, 0.0), (0.1, 0.1, 0.2))})
    assert (found.status.value, found.found) == ("not met", pytest.approx(0.1))


@pytest.mark.parametrize("check", ["flooding", "burner_combustible", "fuel", "stowage", "battery"])
def test_without_a_burner_nothing_is_hot(check):
    assert finding(f"clearance.{check}", boat.NO_BURNER).status.value == "not applicable"
