"""From the outlet to openings, fuel, people, air intake and covers: straight lines in space."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
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
OUTLET = (1.8, -1.6, 1.2)
KIND_OF = {"openings": "hatch", "fuel_points": "fuel", "people": "boarding"}


def beside(distance, kind, name="Near one"):
    """An opening at a distance from the outlet, in the direction 2, 3, 6 (whose length is 7)."""
    at = [f"{c + distance * part / 7:.12g} m" for c, part in zip(OUTLET, (2, 3, 6), strict=True)]
    return {"name": name, "at": at} | ({"kind": kind} if kind else {})


@pytest.mark.parametrize("check", KIND_OF)
@pytest.mark.parametrize(("distance", "status"), [(0.501, "met"), (0.499, "not met")])
def test_half_a_metre_is_kept_from_openings_fuel_points_and_people(check, distance, status):
    # BSS Standards 2002, 8.8: 500 mm
    found = finding(f"exhaust.{check}", {"layout.openings": [beside(distance, KIND_OF[check])]})
    assert (found.status.value, float(found.found)) == (status, pytest.approx(distance, abs=1e-9))
    assert found.place == "Near one"


@pytest.mark.parametrize("kind", ["door", "hatch", "opening window", "opening port", "ventilator", None])
def test_gas_comes_in_by_every_opening_and_by_one_of_unknown_kind(kind):
    assert finding("exhaust.openings", {"layout.openings": [beside(0.4, kind)]}).status is Status.NOT_MET


@pytest.mark.parametrize("kind", ["cockpit", "boarding", "fuel"])
def test_an_opening_of_another_kind_is_no_way_into_the_boat(kind):
    found = finding("exhaust.openings", {"layout.openings": [beside(0.4, kind)]})
    assert found.status is Status.NOT_APPLICABLE  # the list is whole


def test_the_nearest_of_several_counts_and_all_are_shown():
    several = [beside(2.0, "hatch", "Far"), beside(0.6, "door", "Near"), beside(0.8, "hatch", "Between")]
    found = finding("exhaust.openings", {"layout.openings": several})
    assert (found.status, found.place, len(found.items)) == (Status.MET, "Near", 3)
    assert "somebody sleeps behind it: Near, Between" in found.remark


@pytest.mark.parametrize("check", KIND_OF)
def test_a_list_that_is_not_said_to_be_whole_answers_for_those_listed(check):
    listed = {"layout.openings": [beside(0.9, KIND_OF[check])], "layout.openings_complete": None}
    found = finding(f"exhaust.{check}", listed)
    assert (found.status, "for those listed" in found.remark) == (Status.MET, True)
    assert "listed" not in finding(f"exhaust.{check}", listed | {"layout.openings_complete": "true"}).remark


@pytest.mark.parametrize("check", KIND_OF)
def test_no_opening_of_the_kind_is_an_answer_only_in_a_whole_list(check):
    empty = {"layout.openings": []}
    assert finding(f"exhaust.{check}", empty).status is Status.NOT_APPLICABLE
    found = finding(f"exhaust.{check}", empty | {"layout.openings_complete": "false"})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("layout.openings",))


@pytest.mark.parametrize("check", KIND_OF)
def test_openings_must_be_listed_and_placed(check):
    found = finding(f"exhaust.{check}", {"layout.openings": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("layout.openings",))
    placeless = [{"name": "Somewhere", "kind": KIND_OF[check]}, beside(3.0, KIND_OF[check])]
    found = finding(f"exhaust.{check}", {"layout.openings": placeless})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("layout.openings.Somewhere.at",))
    found = finding(f"exhaust.{check}", {"exhaust.route": None, "exhaust.length": "2 m"})
    assert (found.status, "exhaust.route" in found.missing) == (Status.NOT_ASSESSED, True)


def test_one_opening_too_near_is_not_met_though_another_has_no_place():
    listed = [{"name": "Somewhere", "kind": "hatch"}, beside(0.3, "hatch")]
    assert finding("exhaust.openings", {"layout.openings": listed}).status is Status.NOT_MET


@pytest.mark.parametrize(("distance", "status"), [(0.501, "met"), (0.499, "not met")])
def test_half_a_metre_is_kept_from_the_air_intake(distance, status):
    found = finding("exhaust.air_intake", {"combustion_air.at": beside(distance, None)["at"]})
    assert (found.status.value, float(found.found)) == (status, pytest.approx(distance, abs=1e-9))


@pytest.mark.parametrize(("distance", "status"), [(0.501, "met"), (0.499, "not met")])
def test_where_the_intake_has_no_place_every_ventilator_counts(distance, status):
    ventilators = [beside(distance, "ventilator", "Near"), beside(3, "ventilator", "Far")]
    changes = {"combustion_air.at": None, "layout.openings": ventilators}
    found = finding("exhaust.air_intake", changes)
    assert (found.status.value, found.place) == (status, "Near")
    assert "all ventilators count" in found.remark


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"combustion_air": None}, ("combustion_air.from", "combustion_air.at")),
        ({"combustion_air.at": None, "combustion_air.from": "outside"}, ("combustion_air.at",)),
        ({"combustion_air.at": None, "layout.openings": []}, ("combustion_air.at",)),
    ],
)
def test_an_intake_of_unknown_place_is_asked_for(changes, missing):
    found = finding("exhaust.air_intake", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


def tent(top):
    return [
        {"name": "cockpit tent", "from": ["1 m", "-2 m", "0.9 m"], "to": ["3 m", "2 m", f"{top} m"]},
        {"name": "fore cover", "from": ["7 m", "-1 m", "1.5 m"], "to": ["9 m", "1 m", "2.5 m"]},
    ]


@pytest.mark.parametrize(("top", "status"), [(1.19, "met"), (1.2, "not met"), (1.9, "not met")])
def test_the_outlet_lies_outside_every_cover(top, status):
    found = finding("exhaust.canopy", {"layout.canopies": tent(top)})
    assert (found.status.value, found.place) == (status, "cockpit tent")


def test_covers_must_be_told_of_and_have_corners():
    found = finding("exhaust.canopy", {"layout.canopies": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("layout.canopies",))
    found = finding("exhaust.canopy", {"layout.canopies": [{"name": "tent", "from": ["1 m", "-2 m", "0 m"]}]})
    assert (found.status, found.missing) == (
        Status.NOT_ASSESSED,
        ("layout.canopies.tent.from", "layout.canopies.tent.to"),
    )
    assert finding("exhaust.canopy", {"layout.canopies": []}).status is Status.MET
