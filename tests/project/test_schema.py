"""The JSON Schema takes what the reader takes; judged by a library of its own, after two readings of YAML.

Editors read YAML 1.2 (numbers and Booleans guessed), our reader takes texts as written: both must pass.
"""

import datetime as dt
from pathlib import Path

import jsonschema
import pytest
import yaml

from dossier.project.fields import keys_of
from dossier.project.model.components import Component
from dossier.project.model.file import ProjectFile
from dossier.project.schema import schema

PROJECTS = sorted((Path(__file__).parents[2] / "projects").glob("*/*.yaml"))
SHORT = """
format: 1
zones:
  - id: saloon
    target: {is: 20 degC, basis: measured, spread: 1 K}
    room: {long: 4.4 m, wide: [3.9 m, 3.6 m, 3.0 m], high: 1.95 m, under_water: 0.6 m}
    hull: topsides
    windows: ["6 x 500 mm x 300 mm double 6 mm"]
    air: ordinary
build_ups:
  topsides: {plate: steel 6 mm, insulation: mineral_wool 50 mm, frames: every 500 mm, lining: plywood 9 mm}
  deck: {like: topsides, insulation: mineral_wool 80 mm}
components:
  F1: {typical: fan coil 4 kW, zone: saloon}
  B1: {kind: burner, output: {max: 5 kW}}
circuit:
  ring: [P1, B1, "hose 22, 1.6 m, 2 bends", {unit: X1}, "M1 to M2", {pipe: {size: hose 19, length: 1 m}}]
  branches: {from: branches.csv}
tap_water: none
vessel: {heel_angles: {is: none, note: a barge on the hard}}
fuel: {tank: 120 l, shut_off: V20}
modes: {heating: {set: {V9: 0.3 m3/h}}}
limits: {exhaust.length: {at_most: 2.5 m, source: "burner instructions, p. 14"}}
alternatives: {more: {note: "60 l store", components: {T1: {volume: 60 l}}}}
"""
WRONG = {
    "a misspelt key": "format: 1\nvessel: {lenght: 12 m}\n",
    "a bare number where a unit belongs": "format: 1\nvessel: {length: 12}\n",
    "an unknown kind": "format: 1\ncomponents: {B1: {kind: boiler}}\n",
    "a word that is not offered": "format: 1\ncircuit: {system: closed}\n",
    "a list where a mapping belongs": "format: 1\nexhaust: [1 m]\n",
    "no format": "vessel: {length: 12 m}\n",
}


@pytest.fixture(scope="module")
def judge():
    made = schema()
    jsonschema.Draft202012Validator.check_schema(made)
    return jsonschema.Draft202012Validator(made)


def plain(held):
    """What YAML gives, as JSON would hold it."""
    if isinstance(held, dict):
        return {str(key): plain(inner) for key, inner in held.items()}
    if isinstance(held, list):
        return [plain(inner) for inner in held]
    return held.isoformat() if isinstance(held, dt.date) else held


def faults(judge, text):
    return [
        f"{'.'.join(map(str, fault.absolute_path))}: {fault.message}"[:300]
        for loader in (yaml.BaseLoader, yaml.SafeLoader)
        for fault in judge.iter_errors(plain(yaml.load(text, loader)))  # noqa: S506 - both are safe
    ]


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_every_project_of_ours_is_valid(judge, path):
    assert faults(judge, path.read_text(encoding="utf-8")) == []


def test_short_forms_are_valid(judge):
    assert faults(judge, SHORT) == []


@pytest.mark.parametrize("what", WRONG)
def test_slips_are_found_while_writing(judge, what):
    assert faults(judge, WRONG[what])


def test_every_key_says_what_it_is():
    made = schema()
    silent = []
    for name, held in {"": made, **made["$defs"]}.items():
        for key, told in held.get("properties", {}).items():
            if key not in {"basis", "is", "note", "spread", "kind", "typical", "pipe", "from"}:
                silent += [] if told.get("description") else [f"{name}.{key}"]
    assert silent == []


def test_every_figure_says_its_unit_and_shows_one():
    made = schema()
    for cls in (ProjectFile, *Component.kinds.values()):
        assert keys_of(cls)
    area = made["$defs"]["Section"]["properties"]["area"]
    (figure,) = [way for way in area["anyOf"] if way.get("type") == "string"]
    assert "m2" in figure["description"]
    assert all(shown.split()[1] for shown in figure["examples"])
