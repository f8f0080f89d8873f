"""The page of masses: the columns add up to their totals as they are printed."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.rendering.blocks import Answer, Note, Table
from dossier.rendering.sections import masses
from tests.written_boat import WrittenBoat, as_text


def _boat():
    if "whole_boat" not in sys.modules:
        spec = spec_from_file_location("whole_boat", Path(__file__).parents[2] / "checking" / "whole_boat.py")
        sys.modules["whole_boat"] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules["whole_boat"])
    return sys.modules["whole_boat"]


@pytest.fixture
def page(project_of, draft_of):
    return list(masses.section(draft_of(project_of(_boat().CUTTER), "full")))


def amount(cell):
    text = str(cell).replace(",", "").replace("\N{MINUS SIGN}", "-")
    return float(text) if text[:1].isdigit() else 0.0


def test_the_columns_add_up_to_their_totals(page):
    table = next(block for block in page if isinstance(block, Table) and block.key == "table_masses")
    parts = [amount(row[2]) for row in table.rows]
    assert sum(parts) == pytest.approx(amount(table.totals[0][2]), abs=0.05 * len(parts) + 0.05)
    filled = sum(amount(row[4]) for row in table.rows)
    assert sum(parts) < filled < amount(table.totals[0][4])  # coolant of the pipes is in the total alone
    assert "coolant of the pipes" in str(table.notes)


def test_filled_is_dry_and_liquid(page):
    table = next(block for block in page if isinstance(block, Table) and block.key == "table_masses")
    for row in table.rows:
        if amount(row[3]):
            assert amount(row[2]) + amount(row[3]) == pytest.approx(amount(row[4]), abs=0.11)


def test_the_answer_says_both_totals(page):
    table = next(block for block in page if isinstance(block, Table) and block.key == "table_masses")
    answer = str(next(block for block in page if isinstance(block, Answer)).strong)
    assert str(table.totals[0][2]).split(".")[0] in answer
    assert str(table.totals[0][4]).split(".")[0] in answer


def test_what_is_not_weighed_is_named_and_the_answer_says_so(project_of, draft_of):
    unknown = WrittenBoat(_boat().CUTTER).mapping({"components.B1.mass": None})
    page = list(masses.section(draft_of(project_of(as_text(unknown)), "full")))
    assert "What is known" in str(next(block for block in page if isinstance(block, Answer)).strong)
    assert any("B1" in str(block.text) for block in page if isinstance(block, Note))
