"""Inputs that are missing are named in words, those of many owners as one."""

import re

import pytest

from dossier.data.asked import asked_of
from dossier.data.catalogue import CheckKind, catalogue
from dossier.data.tables import rows
from dossier.project import load
from dossier.rendering.inputs import InputWords
from dossier.rendering.words import Words

BOAT = "format: 1\n"


@pytest.fixture(scope="module")
def inputs(tmp_path_factory):
    path = tmp_path_factory.mktemp("inputs") / "boat.yaml"
    path.write_text(BOAT, encoding="utf-8")
    return InputWords(Words("en"), load(path))


def test_many_keys_alike_are_said_once(inputs):
    said = str(inputs.listed([f"circuit.R{n}.route" for n in range(1, 5)]))
    assert said.count("route") == 2  # once in words, once in the key
    assert "4 runs" in said
    assert "circuit.….route" in said


def test_without_keys_no_name_of_the_file_is_left(inputs):
    said = str(inputs.listed(["exhaust.route", "circuit.R1.route", "safety.co_alarms"], with_keys=False))
    assert not re.search(r"\w[._]\w", said)
    assert "route of the exhaust" in said


def test_of_many_inputs_only_how_many_more(inputs):
    said = str(
        inputs.listed(["exhaust.route", "exhaust.bore", "fuel.length", "fuel.lift"], 2, with_keys=False)
    )
    assert said.endswith("and 2 more")


def test_what_a_check_asks_is_short_and_belongs_to_a_check_without_a_figure():
    """A narrow column: 24 letters at most. The list names no check that has a figure as its limit."""
    for row in rows("asked"):
        assert len(row["asked"]) <= 24
        check = catalogue()[row["check"]]
        assert check.kind not in {CheckKind.MAXIMUM, CheckKind.MINIMUM, CheckKind.RANGE}
    assert asked_of("safety.signs") == "fitted"
