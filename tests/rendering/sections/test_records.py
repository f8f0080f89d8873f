"""Section 10: what was read stands in its box with its date; what is expected stands left of it."""

import pytest

from dossier.data.commissioning import commissioning_sheets
from dossier.data.shipped import shipped
from dossier.rendering.blocks import Heading, Note, Table
from dossier.rendering.sections import records
from dossier.rendering.sections.records_commissioning import Sheets

QUILL = "northern_quill/northern_quill.yaml"


def row_of(draft, key):
    return next((e, b) for line, e, b in Sheets(draft).boxes() if line.key == key)


@pytest.fixture(scope="module")
def quill(draft):
    return draft("northern_quill")


@pytest.fixture(scope="module")
def spoilt(changed, tmp_path_factory):
    """The same boat with carbon monoxide inside and a stat that trips late."""
    text = (shipped("projects") / QUILL).read_text(encoding="utf-8")
    folder = tmp_path_factory.mktemp("spoilt")
    (folder / "months.csv").write_bytes((shipped("projects") / "northern_quill/months.csv").read_bytes())
    text = text.replace("highest_inside: 0 ppm", "highest_inside: 4 ppm").replace("97 degC", "99 degC")
    return changed(text, folder)


def test_a_reading_stands_in_its_box_with_its_date(quill):
    # 24.6 V on 2026-09-28 stands in the project file
    _, box = row_of(quill, "commissioning.start_voltage")
    assert box.entered == "24.6\u00a0V"
    assert box.below == "2026-09-28, within tolerance"
    assert not box.marked


def test_any_rise_of_carbon_monoxide_inside_is_marked_even_below_the_limit(spoilt):
    # 4 ppm inside with 0 ppm outside lies under the limit of 9 ppm, and is still a leak
    expected, box = row_of(spoilt, "commissioning.co.highest_inside")
    assert expected.high == pytest.approx(9e-6)
    assert box.marked
    assert "OUTSIDE" in box.below


def test_a_stat_that_trips_late_is_marked_and_counted_in_the_answer(spoilt):
    # the plate says 98 °C
    _, box = row_of(spoilt, "commissioning.overheat.trips_at")
    assert box.marked
    answer = next(block for block in records.section(spoilt) if hasattr(block, "strong"))
    assert "2 are not as expected" in str(answer.strong)


def test_bounds_as_printed_never_lie_wider_than_the_tolerance(quill):
    for line, expected, _ in Sheets(quill).boxes():
        if line.relative and expected.low is not None and expected.target is not None:
            inside = str(expected.words).partition("(")[2].partition(")")[0]
            low, _, high = inside.partition(" to ")
            unit = 1 / 60e3 if line.shown == "flow" else 1e-3
            assert float(low.replace(",", "")) * unit >= expected.low * (1 - 1e-9)
            assert float(high.replace(",", "")) * unit <= expected.high * (1 + 1e-9)


def test_each_valve_has_a_box_of_its_own(quill):
    parts = quill.project.components
    valves = {tag for tag, part in parts.items() if part.kind in {"balancing_valve", "bypass_valve"}}
    drawn = [str(row[0]) for row in Sheets(quill)._balance(commissioning_sheets()[5]).rows]
    assert valves | {"B1"} == set(drawn)


def test_boxes_to_fill_in_have_names_of_their_own(draft):
    for boat in ("lantern_auk", "puddle_wren"):
        fields = [box.field for _, _, box in Sheets(draft(boat)).boxes() if box.field]
        assert len(fields) == len(set(fields))
        assert all(field.startswith("commissioning.") for field in fields)


def test_without_a_reading_the_surveyor_gets_no_empty_sheets(draft):
    blocks = list(records.section(draft("lantern_auk", "survey")))
    assert any(isinstance(b, Note) and "commissioning" in str(b.text) for b in blocks)
    assert not any(isinstance(b, Heading) and "Test 1 " in str(b.text) for b in blocks)


def test_tests_of_parts_that_are_not_aboard_are_left_out(changed, tmp_path):
    boat = changed("format: 1\ndocument: {date: 2026-01-02}\nvessel: {name: Bare Hull}\n", tmp_path, "yard")
    numbers = [sheet.number for sheet in Sheets(boat).sheets()]
    assert numbers == [1, 2, 3, 4, 5, 6]


def test_a_finding_keeps_its_number_in_the_register(draft, walk):
    boat = draft("barley_moth_b")
    register = next(
        b for b in walk(records.section(boat)) if isinstance(b, Table) and b.key == "table_register"
    )
    listed = {str(row[0]): str(row[4]) for row in register.rows}
    assert listed["60"] == "accepted until 2031-11-05"  # the deviation of the file


def test_the_crew_writes_logs_on_small_sheets(draft, pages_of):
    pages = pages_of(draft("northern_quill", "aboard", paper="A5"), records.section)
    text = " ".join(page.text for page in pages)
    assert "Service log" in text
    assert "2026-09-28" in text  # the coolant test of the file opens the log
    assert "Test 1" not in text
