"""The model itself: every key the checks read exists, every field is described, every example can be read."""

import json
import pickle
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest
from pydantic import ValidationError

from dossier.data.tables import FOLDER, rows
from dossier.notation import Quantity, Traced
from dossier.project import Project, load
from dossier.project.fields import keys_of
from dossier.project.model import Burner, Component, Entry, Pipe, ProjectFile, Section, Zone
from dossier.project.model.entry import Figure, Likely, is_entry
from dossier.project.nodes import Map
from dossier.project.syntax import compose

PROJECTS = sorted(Path(__file__).parents[2].joinpath("projects").glob("*/*.yaml"))


def all_entries(cls: type[Entry] = Entry) -> Iterator[type[Entry]]:
    for sub in cls.__subclasses__():
        if sub is not Project:
            yield sub
            yield from all_entries(sub)


ENTRIES = sorted(set(all_entries()), key=lambda cls: cls.__name__)


def classes(annotation: Any) -> Iterator[type[Entry]]:
    """Classes of the model an annotation speaks of."""
    if is_entry(annotation):
        yield annotation
    for inner in get_args(annotation):
        yield from classes(inner)


def below(cls: type[Entry], key: str) -> Iterator[type[Entry]] | None:
    """Classes under a key; None where the class has no such key."""
    fields = {field.alias or name: field for name, field in cls.model_fields.items()}
    return classes(fields[key].annotation) if key in fields else None


def exists(path: str) -> bool:
    """Whether a path of keys, with lists and user's names left out, stands in the model."""
    at: list[type[Entry]] = [ProjectFile]
    for segment in path.split("."):
        if segment == "pipe" and Pipe in at:
            at = [Pipe]
            continue
        if Component in at:
            kinds = [Component.kinds[segment]] if segment in Component.kinds else []
            at = (
                kinds
                or [cls for kind in Component.kinds.values() for cls in below(kind, segment) or ()]
                or at
            )
            if not kinds and all(below(kind, segment) is None for kind in Component.kinds.values()):
                return False
            continue
        found = [inner for cls in at if (inner := below(cls, segment)) is not None]
        if not found:
            return False
        at = [cls for inner in found for cls in inner]
    return True


def keys_of_checks() -> list[str]:
    tables = [rows(f"checks/{path.stem}") for path in (FOLDER / "checks").glob("*.csv")]
    cells = [row["in"] for table in tables for row in table if row.get("in")]
    return sorted({key.strip() for cell in cells for key in cell.split(",") if key.strip()})


@pytest.mark.parametrize("key", keys_of_checks())
def test_every_key_a_check_reads_stands_in_the_model(key):
    assert exists(key)


def test_a_key_that_is_none_is_not_found_in_the_model():
    assert not exists("components.burner.lenght")
    assert not exists("vessel.lenght")


@pytest.mark.parametrize("cls", ENTRIES, ids=lambda cls: cls.__name__)
def test_every_field_is_described_and_every_class_documented(cls):
    assert cls.__doc__
    for name, field in cls.model_fields.items():
        assert field.description or name == "kind", f"{cls.__name__}.{name}"
        quantity = next((mark for mark in field.metadata if isinstance(mark, Quantity)), None)
        likely = next((mark for mark in field.metadata if isinstance(mark, Likely)), None)
        if quantity:
            assert quantity.low < quantity.high or name == "format"
        if quantity and likely:
            assert quantity.low <= likely.low < likely.high <= quantity.high, f"{cls.__name__}.{name}"
        if quantity and quantity.unit == "1":
            assert any(isinstance(mark, Figure) for mark in field.metadata), f"{cls.__name__}.{name}"


@pytest.mark.parametrize("cls", [cls for cls in ENTRIES if cls.example], ids=lambda cls: cls.__name__)
def test_the_example_of_every_class_uses_its_own_keys(cls):
    node, faults = compose(cls.example, "example")
    assert isinstance(node, Map)
    assert not faults
    assert node.pairs.keys() <= keys_of(cls).keys() | {"components"}


def test_entries_are_frozen_and_refuse_unknown_keys():
    section = Section(name="Deck", area=6.4, u_value=1.2)
    with pytest.raises(ValidationError):
        section.area = 7.0
    with pytest.raises(ValidationError):
        Section(name="Deck", area=6.4, colour="red")
    assert Zone(id="a", sections=(section,)).sections == (section,)


def test_a_schema_can_be_made_of_the_model():
    schema = json.dumps(ProjectFile.model_json_schema())
    assert "Thermal conductivity" in schema


def entries_in(value: Any) -> Iterator[Entry]:
    """All entries in a value."""
    if isinstance(value, Entry):
        yield value
        for name in type(value).model_fields:
            yield from entries_in(getattr(value, name))
    elif isinstance(value, dict):
        for inner in value.values():
            yield from entries_in(inner)
    elif isinstance(value, tuple):
        for inner in value:
            yield from entries_in(inner)


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
class TestDemonstrations:
    """The demonstration projects load, whole."""

    def test_they_load_without_warnings(self, path):
        project = load(path)
        assert not project.warnings
        assert project.files[0].name == path.name

    def test_what_the_reader_makes_pydantic_finds_valid_too(self, path):
        project = load(path)
        for entry in entries_in(project):
            if not isinstance(entry, Project):
                values = {name: getattr(entry, name) for name in entry.model_fields_set}
                made = type(entry)(**values)
                assert all(getattr(made, name) == value for name, value in values.items())

    def test_every_number_leads_to_its_line(self, path):
        project = load(path)
        text = project.files[0].text.split("\n")
        count = 0
        for line in project.inputs():
            count += 1
            assert project.where(line.key).key == line.key
            if line.file == path.name and line.text:
                assert line.text.split(" at ")[0].split()[0] in text[line.line - 1]
        assert count > 10

    def test_they_can_be_pickled(self, path):
        project = load(path)
        again = pickle.loads(pickle.dumps(project))
        assert again == project
        assert [line.key for line in again.inputs()] == [line.key for line in project.inputs()]
        for name in project.alternatives or {}:
            assert again.alternative(name) == project.alternative(name)


def test_there_are_demonstrations():
    assert PROJECTS


def test_where_a_missing_input_belongs(desk):
    project = desk.read(
        """
        vessel:
          name: Marsh Heron
        components:
          B1: {kind: burner, flow_min: 9 l/min}
          B2: {kind: burner}
        zones:
          - id: saloon
            target: 20 degC
        """
    )
    assert project.where("vessel.length").line == 2
    assert project.where("components.burner.flow_min").line == 6
    assert project.where("components.burner.output.max").line == 5
    assert project.where("components.pump.curve").line == 4
    assert project.where("zones.saloon.volume").line == 8
    assert project.where("exhaust.route").line == 1
    assert project.where("vessel.name").line == 3


def test_components_are_found_by_their_class(desk):
    project = desk.read("components: {B1: {kind: burner}, G1: {kind: generator}, E1: {kind: engine}}\n")
    assert [part.tag for part in project.of_kind(Burner)] == ["B1"]
    assert [part.tag for part in project.of_kind(Component.kinds["engine"])] == ["G1", "E1"]
    assert project.zone("gone") is None


def test_a_project_needs_hardly_anything(desk):
    project = desk.read("document: {title: First look}\nvessel: {name: Puddle Wren}\n")
    assert project.zones is None
    assert list(project.inputs()) == []
    assert list(project.pipes()) == list(project.units()) == []


def test_numbers_given_by_hand_keep_their_origin(desk):
    area = desk.read("vessel: {length: 13 m}\n").vessel.length
    assert Section(name="a", area=area).area.origin is area.origin
    assert isinstance(area, Traced)


def test_numbers_are_replaced_by_their_key_for_a_study(desk):
    project = desk.read(
        """
        vessel: {length: 13 m, beam: 4 m}
        exhaust: {route: [[2 m, 0 m, 1 m], [1 m, 0 m, 2 m]]}
        components: {P1: {kind: pump, curve: [[0 l/min, 9 kPa], [9 l/min, 0 kPa]]}}
        """
    )
    other = project.with_numbers(
        {"vessel.length": 14.0, "exhaust.route.2.z": 3.0, "components.P1.curve.1.pressure": 8e3}
    )
    assert (other.vessel.length, other.vessel.beam) == (14, 4)
    assert other.exhaust.route[1] == (1, 0, 3)
    assert other.components["P1"].curve[0].pressure == 8000
    assert (project.vessel.length, project.exhaust.route[1].z) == (13, 2)
    assert other.where("vessel.length") == project.where("vessel.length")
    assert project.with_numbers({}) is project


def test_what_a_short_form_was_written_out_to_can_be_shown(desk):
    project = desk.read('zones: [{id: a, floats: true, windows: ["2 x 1 m x 1 m single 8 mm"]}]\n')
    texts = {line.key: line.text for line in project.under("zones.a")}
    assert texts["zones.a.sections.Windows.area"] == "2 x 1 m x 1 m"
    assert texts["zones.a.sections.Windows.glazing.thickness"] == "8 mm"
