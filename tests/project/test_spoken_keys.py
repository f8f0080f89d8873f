"""A key of the file in words: whose it is, how it is written."""

import pytest

from dossier.project import load
from dossier.project.spoken_keys import spoken

BOAT = """
format: 1
components:
  B1: {kind: burner, output: {max: 5 kW}}
  P1: {kind: pump, curve: [[0 l/min, 60 kPa], [10 l/min, 40 kPa], [20 l/min, 0 kPa]]}
zones:
  - {id: cabin, target: 20 degC, sections: [{name: Hull v. water, u_value: 1 W/m2K, area: 2 m2, faces: air}]}
circuit:
  ring: [{unit: B1}, {pipe: {size: hose 22, length: 2 m, id: long.run}}, {unit: P1}]
exhaust: {length: 2 m}
"""


@pytest.fixture(scope="module")
def boat(tmp_path_factory):
    file = tmp_path_factory.mktemp("boat") / "boat.yaml"
    file.write_text(BOAT, encoding="utf-8")
    return load(file)


def test_a_key_of_a_component_is_one_of_its_kind(boat):
    said = spoken(boat, "components.B1.after_run")
    assert (said.pattern, said.names, said.unit) == ("components.burner.after_run", ("B1",), "s")
    assert spoken(boat, "components.P1.after_run") is None
    assert spoken(boat, "components.burner.after_run").names == ()


def test_a_run_is_told_by_its_name_wherever_it_lies(boat):
    for key in ("circuit.ring.ring_1.support", "circuit.branches.saloon.saloon_2.support"):
        said = spoken(boat, key)
        assert said.pattern == "circuit.ring.pipe.support"
        assert said.names == (key.split(".")[-2],)


def test_names_may_hold_dots_and_blanks(boat):
    said = spoken(boat, "zones.cabin.sections.Hull v. water.area")
    assert said.names == ("cabin", "Hull v. water")
    assert said.unit == "m2"


def test_a_member_of_a_list_is_asked_for_as_the_list(boat):
    assert spoken(boat, "vessel.heel_angles.1").key == "vessel.heel_angles"
    assert spoken(boat, "components.P1.curve.2.flow").key == "components.P1.curve"


def test_what_may_be_written_is_told(boat):
    assert spoken(boat, "exhaust.hull_fitting.kind").choices == ("double wall", "insulated", "single wall")
    assert spoken(boat, "exhaust.hull_fitting.isolated").yes_or_no
    assert spoken(boat, "safety.co_alarms.cabin.tested").is_date
    assert set(spoken(boat, "safety.stop").children) >= {"at", "reach"}


def test_a_key_nobody_knows_is_none(boat):
    assert spoken(boat, "exhaust.lenght") is None
    assert spoken(boat, "components (a header_tank)") is None
