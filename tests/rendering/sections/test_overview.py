"""Section 4 lists every part under its tag, and every mode with what it does to the ring."""

import pytest

from dossier.rendering.blocks import Note, Table
from dossier.rendering.sections import overview


def table(blocks, walk, key):
    return next((b for b in walk(blocks) if isinstance(b, Table) and b.key == key), None)


def test_each_component_has_one_row_with_its_line(each_boat, walk, blocks_of):
    rows = table(blocks_of(overview, each_boat), walk, "table_components").rows
    tags = list(each_boat.project.components)
    assert [str(row[0]) for row in rows] == tags
    for row, tag in zip(rows, tags, strict=True):
        assert row[-1] == str(each_boat.project.where(f"components.{tag}").line)


def test_ratings_are_those_of_the_file(assessed, walk, blocks_of):
    rows = table(blocks_of(overview, assessed("yacht")), walk, "table_components").rows
    rating = {str(row[0]): str(row[3]) for row in rows}
    assert rating["B1"] == "3.0\u00a0kW to 11.0\u00a0kW"
    assert rating["T1"] == "40.0\u00a0l"


def test_modes_show_the_computed_temperatures_and_flow(assessed, draft_of, walk, blocks_of):
    boat, draft = assessed("cutter"), draft_of(assessed("cutter"))
    rows = {
        str(row[0]): row
        for row in table(blocks_of(overview, draft.assessment), walk, "table_overview_modes").rows
    }
    assert set(rows) == {"Heating", "Anchor night", "Tap water only"}
    heating = rows["Heating"]
    assert heating[-3] == draft.cell(boat.results["supply.heating.B1"].value, "temperature")
    assert heating[-2] == draft.cell(boat.results["return.heating.B1"].value, "temperature")
    assert heating[-1] == draft.cell(boat.results["pump.heating.P1.flow"].value, "flow")
    assert "V9 0.60" in str(heating[4])


def test_a_file_without_circuit_has_one_line_instead_of_a_table(assessed, walk, blocks_of):
    blocks = blocks_of(overview, assessed("ten numbers"))
    assert table(blocks, walk, "table_overview_modes") is None
    assert any("circuit.ring" in str(b.text) for b in blocks if isinstance(b, Note))


def test_a_file_without_parts_says_which_key_it_needs(project_of, walk, blocks_of):
    boat = project_of("format: 1\ndocument: {number: X-1, date: 2026-01-02}\n")
    blocks = blocks_of(overview, boat)
    assert table(blocks, walk, "table_components") is None
    assert any("It needs components." in str(b.text) for b in blocks if isinstance(b, Note))


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_the_page_is_set_in_both_systems(assessed, draft_of, pages_of, units):
    pages = pages_of(draft_of(assessed("yacht"), units=units), overview.section)
    text = " ".join(page.text for page in pages)
    assert ("kW" in text) == (units == "metric")
    assert ("Btu/h" in text) == (units == "imperial")
