"""Every check has a source and advice, and is tried inside its limit, outside it, and with an input missing.

The tests that do so stand in ``tests/checking/tried.csv``, which ``python tests/checking/tried.py`` writes
while it runs them: a new check without its three tests fails here.
"""

import csv
import re
from pathlib import Path

import pytest

from dossier.data.catalogue import catalogue

CHECKING = Path(__file__).parents[1] / "checking"
STATUSES = ("met", "not met", "not assessed")
CANNOT_BE = {
    "recovery.leak_way": ("not met", "it tells which way a leaking plate drives the water: no way is wrong"),
    "document.local_rules": ("not assessed", "an entry that is missing is what it looks for: it is not met"),
}
"""Statuses that a check cannot come to, and why."""

with (CHECKING / "tried.csv").open(encoding="utf-8", newline="") as table:
    TRIED = {row["check"]: row for row in csv.DictReader(table)}


def test_every_check_of_the_catalogue_is_tried_and_no_other():
    assert list(TRIED) == list(catalogue())


@pytest.mark.parametrize("name", list(catalogue()))
def test_a_check_is_tried_inside_outside_and_with_an_input_missing(name):
    row = TRIED[name]
    cannot, _ = CANNOT_BE.get(name, ("", ""))
    for status in STATUSES:
        assert bool(row[status]) != (status == cannot), f"{name}: no test in which it is {status}"


@pytest.mark.parametrize("name", list(catalogue()))
def test_a_check_has_a_source_a_question_and_advice(name):
    row = catalogue()[name]
    assert row.source.strip()
    assert row.question.strip().endswith("?")
    assert len(row.advice.split()) > 2


def test_the_tests_named_are_written():
    written = {
        path.name: set(re.findall(r"^def (test_\w+)", path.read_text(encoding="utf-8"), re.MULTILINE))
        for path in CHECKING.glob("test_*.py")
    }
    for row in TRIED.values():
        for status in STATUSES:
            if row[status]:
                file, _, test = row[status].partition("::")
                assert test.partition("[")[0] in written[file], row[status]
