"""No number of a table changes unnoticed.

This proves nothing about a number: it is the one that stood there when somebody last looked. What a number
should be is the business of ``tests/published`` and of the source in its row; ``tests/data/perturb.py`` tells
which numbers no other test guards. Whoever changes a figure on purpose writes the checksums anew (``python
tests/data/fingerprints.py > tests/data/fingerprints.csv``), and a line under *Numbers that move* in the
changelog where a result moves.
"""

import csv
import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

HERE = Path(__file__).parent


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, HERE / f"{name}.py")
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


fingerprints = _beside("fingerprints")
with (HERE / "fingerprints.csv").open(encoding="ascii", newline="") as file:
    KNOWN = {row["table"]: (int(row["numbers"]), row["checksum"]) for row in csv.DictReader(file)}


@pytest.mark.parametrize("table", fingerprints.tables())
def test_the_numbers_of_a_table_are_those_last_looked_at(table):
    assert fingerprints.fingerprint(table) == KNOWN[table]


def test_no_checksum_is_kept_of_a_table_that_is_gone():
    assert KNOWN.keys() == set(fingerprints.tables())


def test_a_figure_that_moves_by_a_billionth_is_seen_and_a_nought_is_not(monkeypatch):
    table = "coefficients"
    rows = fingerprints.written(table)
    place, column, text = next(iter(fingerprints.numbers(table)))
    for changed, same in ((repr(float(text) * (1 + 1e-9)), False), (f"{float(text)}0", True)):
        moved = [dict(row) for row in rows]
        moved[place][column] = changed
        monkeypatch.setattr(fingerprints, "written", lambda _, moved=moved: moved)
        assert (fingerprints.fingerprint(table) == KNOWN[table]) is same
