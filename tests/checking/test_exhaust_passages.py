"""Bulkheads, hull and hull fitting."""

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
OAK = {
    "bulkhead": "hull side",
    "hole": "175 mm",
    "material": "oak",
    "thickness": "50 mm",
    "sleeve": "true",
    "closing": "mineral packing",
}
LAGGED, BARE = 113, 33
"""Outside diameters (mm): bore 30, walls of 1.5, lagging of 40 all round."""


def passing(**changes):
    whole = {name: words for name, words in (OAK | changes).items() if words is not None}
    return {"exhaust.passes": [whole]}


def hole(outside, gap):
    return f"{outside + 2 * gap} mm"


@pytest.mark.parametrize(("gap", "status"), [(25.1, "met"), (24.9, "not met"), (-5, "not met")])
def test_wood_keeps_an_inch_from_lagged_pipe(gap, status):
    found = finding("exhaust.bulkhead_gap", passing(hole=hole(LAGGED, gap)))
    assert (found.status.value, found.place) == (status, "hull side")
    assert float(found.found) * 1000 == pytest.approx(gap, abs=1e-9)


@pytest.mark.parametrize(("gap", "status"), [(100.1, "met"), (99.9, "not met")])
def test_wood_keeps_a_hand_from_bare_pipe(gap, status):
    found = finding("exhaust.bulkhead_gap", passing(hole=hole(BARE, gap)) | {"exhaust.lagging": "none"})
    assert found.status.value == status
    assert float(found.found) * 1000 == pytest.approx(gap, abs=1e-9)


@pytest.mark.parametrize("extent", ["to the partition", None])
@pytest.mark.parametrize(
    ("gap", "status"), [(100.1 - 40, "met"), (99.9 - 40, "not assessed"), (24.9, "not met")]
)
def test_where_lagging_may_end_before_the_hole_the_gap_must_do_for_bare_pipe_too(extent, gap, status):
    found = finding(
        "exhaust.bulkhead_gap", passing(hole=hole(LAGGED, gap)) | {"exhaust.lagging.extent": extent}
    )
    assert found.status.value == status
    assert (found.missing == ("exhaust.lagging.extent",)) is (status == "not assessed")


def test_the_makers_gap_stands_above_both():
    limits = {"exhaust.bulkhead_gap": {"at_least": "40 mm", "source": "burner instructions"}}
    changes = passing(hole=hole(BARE, 41)) | {"exhaust.lagging": "none", "limits": limits}
    assert finding("exhaust.bulkhead_gap", changes).status is Status.MET
    assert finding("exhaust.bulkhead_gap", passing() | {"limits": limits}).status is Status.NOT_MET


def test_packing_that_burns_is_no_gap():
    found = finding("exhaust.bulkhead_gap", passing(closing="sprayed foam"))
    assert (found.status, found.found) == (Status.NOT_MET, "closed with: sprayed foam")


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        (passing(hole=None), ("exhaust.passes.hull side.hole",)),
        (passing(material=None), ("exhaust.passes.hull side.material",)),
        ({"exhaust.bore": None}, ("exhaust.bore",)),
        ({"exhaust.lagging": None}, ("exhaust.lagging.thickness",)),
        ({"exhaust.passes": None}, ("exhaust.passes",)),
        ({"exhaust.passes": []}, ("exhaust.passes",)),  # an exhaust leaves a wooden hull somewhere
    ],
)
def test_what_a_gap_waits_for_is_named(changes, missing):
    found = finding("exhaust.bulkhead_gap", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


def test_metal_does_not_char():
    steel = passing(material="steel", thickness="5 mm", hole="60 mm")
    for check in ("exhaust.bulkhead_gap", "exhaust.bulkhead_sleeve"):
        assert finding(check, steel).status is Status.NOT_APPLICABLE
        welded = {"exhaust.passes": [], "vessel.hull": "steel"}
        assert finding(check, welded).status is Status.NOT_APPLICABLE


def test_one_wooden_bulkhead_among_plates_of_metal_is_judged():
    plate = {"bulkhead": "plate", "hole": "60 mm", "material": "aluminium", "thickness": "5 mm"}
    found = finding("exhaust.bulkhead_gap", {"exhaust.passes": [plate, OAK | {"hole": "120 mm"}]})
    assert (found.status, found.place) == (Status.NOT_MET, "hull side")


def test_a_material_only_the_project_knows_counts_as_if_it_burnt():
    own = {"materials": {"own_board": {"conductivity": "0.2 W/m/K", "source": "delivery note"}}}
    found = finding("exhaust.bulkhead_gap", passing(material="own_board", hole="120 mm") | own)
    assert found.status is Status.NOT_MET


@pytest.mark.parametrize(
    ("changes", "status"),
    [
        ({}, "met"),
        ({"closing": "stainless plate each side, mineral packing"}, "met"),
        ({"sleeve": "false"}, "not met"),
        ({"closing": "none"}, "not met"),
        ({"closing": "expanding foam"}, "not met"),
        ({"sleeve": "false", "closing": None}, "not met"),
    ],
)
def test_a_hole_in_wood_has_a_metal_sleeve_and_packing_that_does_not_burn(changes, status):
    assert finding("exhaust.bulkhead_sleeve", passing(**changes)).status.value == status


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"sleeve": None}, ("exhaust.passes.hull side.sleeve",)),
        ({"closing": None}, ("exhaust.passes.hull side.closing",)),
        ({"closing": "what the yard left"}, ("exhaust.passes.hull side.closing",)),
        (
            {"sleeve": None, "closing": None},
            ("exhaust.passes.hull side.sleeve", "exhaust.passes.hull side.closing"),
        ),
    ],
)
def test_what_a_sleeve_waits_for_is_named(changes, missing):
    found = finding("exhaust.bulkhead_sleeve", passing(**changes))
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


def test_no_passages_told_of_is_not_assessed():
    found = finding("exhaust.bulkhead_sleeve", {"exhaust.passes": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("exhaust.passes",))


@pytest.mark.parametrize(
    ("hull", "fitting", "status"),
    [
        ("wood", {"kind": "double wall", "material": "stainless steel"}, "met"),
        ("grp", {"kind": "insulated", "material": "brass"}, "met"),
        ("wood", {"kind": "single wall", "material": "stainless steel"}, "not met"),
        ("grp", {"kind": "double wall", "material": "nylon"}, "not met"),
        ("steel", {"kind": "single wall", "material": "stainless steel", "isolated": "true"}, "met"),
        ("aluminium", {"kind": "double wall", "material": "steel", "isolated": "false"}, "not met"),
        ("concrete", {"kind": "single wall", "material": "bronze"}, "met"),
        ("wood", "none", "not met"),
    ],
)
def test_the_hull_fitting_suits_the_hull(hull, fitting, status):
    found = finding("exhaust.hull_fitting", {"vessel.hull": hull, "exhaust.hull_fitting": fitting})
    assert found.status.value == status


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"exhaust.hull_fitting": None}, ("exhaust.hull_fitting",)),
        ({"vessel.hull": None}, ("vessel.hull",)),
        ({"exhaust.hull_fitting.kind": None}, ("exhaust.hull_fitting.kind",)),
        ({"exhaust.hull_fitting.material": None}, ("exhaust.hull_fitting.material",)),
        ({"exhaust.hull_fitting.material": "bought second-hand"}, ("exhaust.hull_fitting.material",)),
        ({"vessel.hull": "steel"}, ("exhaust.hull_fitting.isolated",)),
    ],
)
def test_what_a_hull_fitting_waits_for_is_named(changes, missing):
    found = finding("exhaust.hull_fitting", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)
