"""Inputs are named in words: one by one with whose they are, many alike as one, each with its line."""

import re

import pytest

from dossier.assessment import assess
from dossier.data.shipped import shipped
from dossier.project import load
from dossier.project.model import Component, ProjectFile
from dossier.rendering.inputs import InputWords, _labels
from dossier.rendering.words import Words

RAW = re.compile(r"\w_\w|\w\.\w")


@pytest.fixture(scope="module")
def cutter():
    return load(shipped("projects") / "lantern_auk/lantern_auk.yaml")


@pytest.fixture(scope="module")
def said(cutter):
    return InputWords(Words("en"), cutter)


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("exhaust.route", "route of the exhaust"),
        ("commissioning.co.highest_inside", "highest carbon monoxide inside in the test run"),
        ("components.B1.mass", "dry mass of B1"),
        ("components.T2.vent.led_to", "where vent or outlet leads: T2"),
        ("components.engine.air_flow", "air flow of the engine"),
        ("components (a header_tank)", "a header tank"),
        ("circuit.ring.ring_1.support", "spacing of supports of run ring 1"),
        ("circuit.branches.fore_cabin.fore_cabin_1.route", "route of run fore cabin, fore cabin 1"),
        ("zones.engine_room.fresh_water", "whether drinking-water pipes run through: engine room"),
        ("layout.places.B1", "place of B1"),
        ("layout.places", "places of the parts"),
        ("conditions.humidity_inside", "relative humidity inside"),
    ],
)
def test_an_input_and_whose_it_is(said, key, words):
    assert str(said.phrase(key)) == words


def test_few_owners_are_named_and_many_counted(said):
    few = [f"components.{tag}.mass" for tag in ("B1", "F1", "T2")]
    assert str(said.listed(few, with_keys=False)).startswith("dry mass of B1, F1 and T2 (lines ")
    many = [f"components.{tag}.mass" for tag in ("B1", "F1", "F2", "F3", "T2")]
    assert str(said.listed(many, with_keys=False)).startswith("dry mass of 5 parts (lines ")


def test_lines_are_those_of_the_file(said, cutter):
    text = cutter.files[0].content.decode().splitlines()
    (line,) = re.findall(r"line (\d+)", str(said.listed(["exhaust.route"])))
    assert text[int(line) - 1].lstrip().startswith("route:")
    first, last = map(int, re.findall(r"lines (\d+)–(\d+)", str(said.listed(
        ["components.F1.mass", "components.F2.mass", "components.F3.mass"]
    )))[0])  # fmt: skip
    assert text[first - 1].split(":")[0].strip() == "F1"
    assert text[last - 1].split(":")[0].strip() == "F3"


def test_the_key_stands_beside_the_words_where_it_is_asked_for(said):
    assert "(exhaust.route, line " in str(said.listed(["exhaust.route"]))
    assert "components.*.mass" in str(said.listed(["components.B1.mass", "components.F1.mass"]))
    assert "exhaust.route" not in str(said.listed(["exhaust.route"], with_keys=False))


def test_what_is_left_out_is_counted(said):
    keys = ["exhaust.route", "exhaust.bore", "components.B1.mass", "components.F1.mass"]
    assert str(said.listed(keys, 1)).endswith(" and 3 more")


@pytest.mark.parametrize("file", ["lantern_auk/lantern_auk.yaml", "puddle_wren/puddle_wren.yaml"])
def test_no_missing_input_goes_by_its_key(file):
    assessment = assess(load(shipped("projects") / file))
    said = InputWords(Words("en"), assessment.project)
    missing = {key for finding in assessment.findings for key in finding.missing}
    assert missing
    for key in missing:
        assert not RAW.search(str(said.phrase(key))), key


def test_every_name_of_an_input_is_one_of_the_project_file():
    (environment,) = Words("en")._environments
    blocks = [*environment.get_template("inputs.j2").blocks, *environment.plain["inputs.j2"]]
    names = [block.removeprefix("input_") for block in blocks if block.startswith("input_")]
    assert len(names) > 100
    for name in names:
        section = max((s for s in [*ProjectFile.model_fields, "recovery"] if name.startswith(s)), key=len)
        rest = name.removeprefix(section).lstrip("_")
        known = _labels(section) if section in ProjectFile.model_fields else {}
        assert not rest or rest in known or rest in Component.kinds, name
