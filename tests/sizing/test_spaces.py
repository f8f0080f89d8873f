"""In which space a part stands, and whether people live there."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.sizing import spaces


def _beside(name):
    if name not in sys.modules:
        place = Path(__file__).parents[1] / "checking" / f"{name}.py"
        spec = spec_from_file_location(name, place)
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("exhaust_boat")
CASING = {"from": ["2.5 m", "-1.5 m", "0 m"], "to": ["3.5 m", "-0.5 m", "0.6 m"], "holds": ["burner"]}


def test_of_compartments_one_in_the_other_the_inner_one_counts():
    project = boat.project_of({"layout.compartments.casing": CASING})
    assert spaces.space_at(project, (3.0, -1.0, 0.3)) == "casing"
    assert spaces.space_at(project, (3.0, -1.0, 1.0)) == "engine_room"
    assert spaces.space_at(project, (30.0, 0.0, 0.0)) is None
    assert spaces.burner_space(project) == "casing"


def test_a_burner_without_a_place_stands_where_it_draws_its_air():
    assert spaces.burner_space(boat.project_of({"layout.places.B1": None})) == "engine_room"
    ducted = {"layout.places.B1": None, "combustion_air": {"from": "outside"}}
    assert spaces.burner_space(boat.project_of(ducted)) is None


@pytest.mark.parametrize(
    ("space", "lived_in"), [("saloon", True), ("engine_room", False), ("lazarette", None)]
)
def test_people_live_where_it_is_heated_or_slept_in(space, lived_in):
    assert spaces.is_accommodation(boat.project_of({}), space) is lived_in


def test_compartments_that_touch_are_neighbours():
    project = boat.project_of({"layout.compartments.casing": CASING})
    assert set(spaces.neighbours(project, "engine_room")) == {"saloon", "casing"}
    assert spaces.neighbours(project, "lazarette") == ()
