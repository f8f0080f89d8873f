"""Measuring sheets ask for what is missing or guessed, what is grave first, each once."""

import pytest

from dossier.rendering.blocks import Answer, Blank, Figure, Note, Table, Tick
from dossier.rendering.numbers import System
from dossier.rendering.sections import measure
from dossier.rendering.sections.measure_inputs import inputs
from dossier.rendering.sections.measure_lines import printed_unit

MM = 72 / 25.4


@pytest.fixture(scope="module")
def wren(draft):
    return draft("puddle_wren", "measure")


@pytest.fixture(scope="module")
def wren_blocks(wren, walk):
    return list(walk(measure.section(wren)))


def fields(blocks):
    cells = [cell for b in blocks if isinstance(b, Table) for row in b.rows for cell in row]
    return [cell.field for cell in cells if isinstance(cell, Blank | Tick) and cell.field]


def test_every_missing_input_and_every_guess_is_asked_for(wren):
    found = inputs(wren)
    keys = {each.key.key for each in found.asked}
    # the file has ten numbers, all assumed, and no route of the exhaust
    assert {"exhaust.route", "exhaust.length", "fuel.tank", "zones.cabin.volume"} <= keys
    assert "components.B1.output.max" in keys
    assert any(key.startswith("commissioning.") for key in found.elsewhere)
    assert not any(key.startswith(("commissioning", "document", "records")) for key in keys)


def test_what_dangers_wait_for_comes_first(wren):
    found = inputs(wren)
    grades = [each.grade for each in found.asked]
    assert grades == sorted(grades)
    assert found.asked[0].key.key == "exhaust.route"
    first = [asked[0].urgency for asked in found.sheets().values()]
    assert first == sorted(first)


def test_each_input_has_one_box_and_four_ticks_for_its_basis(wren_blocks):
    named = fields(wren_blocks)
    assert len(named) == len(set(named))
    assert "exhaust.bore.is" in named
    bases = [name for name in named if name.startswith("exhaust.bore.basis.")]
    assert [name.rpartition(".")[2] for name in bases] == ["measured", "plate", "drawing", "assumed"]


def test_a_guess_stands_beside_its_box(wren_blocks):
    rows = [row for b in wren_blocks if isinstance(b, Table) for row in b.rows if row]
    tank = next(str(row[0]) for row in rows if str(row[0]).partition("now")[0].endswith("fuel.tank"))
    assert "now 120 l" in tank


def test_the_route_is_a_table_of_points_with_paper_to_sketch_on(wren_blocks):
    route = next(b for b in wren_blocks if isinstance(b, Table) and b.key == "measure_table_route")
    assert [str(column.label) for column in route.columns][1:4] == ["x", "y", "z"]
    assert all(isinstance(cell, Blank) for row in route.rows for cell in row[1:])
    sketches = [b.key for b in wren_blocks if isinstance(b, Figure)]
    assert {"sketch_elevation", "sketch_plan"} <= set(sketches)


def test_an_exhaust_that_was_drawn_is_to_be_measured(draft):
    keys = {each.key.key for each in inputs(draft("lantern_auk", "measure")).asked}
    assert {"exhaust.route", "exhaust.bore", "exhaust.passes"} <= keys


def test_runs_of_the_circuit_stand_in_lines_with_a_box_for_each_input(draft, walk):
    blocks = list(walk(measure.section(draft("starter", "measure"))))
    held = next(b for b in blocks if isinstance(b, Table) and b.key == "measure_runs_held")
    assert [row[0] for row in held.rows][:2] == ["ring_1", "ring_2"]
    assert "circuit.ring.ring_1.support.is" in fields(blocks)


def test_a_file_without_gaps_asks_for_little(draft):
    asked = inputs(draft("northern_quill", "measure")).asked
    assert len(asked) < len(inputs(draft("starter", "measure")).asked)
    answer = next(b for b in measure.section(draft("northern_quill", "measure")) if isinstance(b, Answer))
    assert "danger" in str(answer.strong)


def test_people_who_measure_in_inches_get_inches():
    assert printed_unit("mm", System.IMPERIAL) == "in"
    assert printed_unit("degC", System.METRIC) == "°C"
    assert printed_unit("A", System.IMPERIAL) == "A"


HOSTILE = """
format: 1
document: {date: 2026-01-02}
vessel: {name: Hostile}
defaults: {basis: assumed}
zones:
  - {id: cabin, target: 20 degC, volume: 20 m3,
     sections: [{name: "%(name)s", u_value: 1 W/m2K, area: 2 m2, faces: air}]}
components:
  B1: {kind: burner, output: {max: 5 kW, min: 5 kW}}
exhaust: {bore: 30 mm, passes: [{bulkhead: "%(name)s", hole: 60 mm}]}
electrics: {system: 12 V, circuits: [{name: "%(name)s", feeds: [B1], length: 3 m}]}
layout: {openings: [{name: "%(name)s", kind: hatch}]}
"""


@pytest.mark.parametrize("name", ["<b>bold</b> & {{ 7319*7 }}", "unbroken" * 10, "a_b/c.d-e 北京"])
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_names_stay_as_written_and_on_the_sheet(project_of, draft_of, pages_of, name, paper):
    drafted = draft_of(project_of(HOSTILE % {"name": name}), "measure", paper=paper)
    pages = pages_of(drafted, measure.section)
    if name.isascii():
        assert "".join(name.split()) in "".join("".join(page.text.split()) for page in pages)
    for page in pages:
        for word in page.words:
            assert 4 * MM < word.left < word.right < page.width - 4 * MM, word.text


def test_boxes_of_a_table_are_called_by_list_line_and_key(wren_blocks):
    named = fields(wren_blocks)
    assert {"exhaust.route[1].x", "layout.openings[1].at.z", "exhaust.passes[1].bulkhead"} <= set(named)
    openings = next(b for b in wren_blocks if isinstance(b, Table) and b.key == "measure_table_openings")
    assert [cell.unit for cell in openings.rows[0][1:]] == ["", "", "mm", "mm", "mm"]


def test_words_that_may_stand_under_a_head_are_told_under_its_table(wren_blocks):
    told = [str(block.text) for block in wren_blocks if isinstance(block, Note)]
    assert any("Kind: One of: " in note and "hatch" in note for note in told)
