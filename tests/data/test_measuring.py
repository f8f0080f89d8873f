"""Every input that a check reads aboard has a sheet, a unit that fits and a word on how to measure it."""

import pytest

from dossier.data.catalogue import catalogue
from dossier.data.measuring import MeasuredInput, measured_input, measuring_sheets
from dossier.data.procedures import cautions
from dossier.data.typed_rows import typed_rows
from dossier.project import load
from dossier.project.spoken_keys import spoken
from dossier.project.units import unit

AT_THE_DESK = {"commissioning", "records", "document", "deviations"}


@pytest.fixture(scope="module")
def nothing(tmp_path_factory):
    file = tmp_path_factory.mktemp("boat") / "boat.yaml"
    file.write_text("format: 1\n", encoding="utf-8")
    return load(file)


def patterns():
    keys = {key for row in catalogue().values() for key in row.inputs}
    return sorted(key for key in keys if key.partition(".")[0] not in AT_THE_DESK)


def test_every_input_of_a_check_can_be_measured(nothing):
    for pattern in patterns():
        assert spoken(nothing, pattern) is not None, pattern
        assert measured_input(pattern) is not None, pattern


def test_what_is_written_at_the_desk_is_on_no_sheet():
    for key in ("document.approved_by", "commissioning.co.outside", "records.service", "deviations"):
        assert measured_input(key) is None


def test_a_unit_of_the_sheets_measures_what_the_key_holds(nothing):
    for pattern in patterns():
        row, said = measured_input(pattern), spoken(nothing, pattern)
        if row.unit and said.unit and said.unit != "%":
            assert unit(row.unit).dimension == unit(said.unit).dimension, pattern


def test_a_more_general_pattern_never_hides_one_after_it():
    rows = typed_rows(MeasuredInput, "measuring")
    for row in rows:
        name = row.pattern.replace("*", "anything")
        assert measured_input(name) is row, row.pattern


def test_a_sheet_has_its_cautions_and_every_line_a_plain_word():
    used = {row.sheet for row in typed_rows(MeasuredInput, "measuring")}
    assert used == set(measuring_sheets())
    for sheet in measuring_sheets().values():
        assert set(sheet.cautions) <= cautions().keys()
        assert sheet.instruction.endswith(".")
    for row in typed_rows(MeasuredInput, "measuring"):
        assert row.how[0].isupper()
        assert row.how.endswith((".", "?"))
        assert len(row.how.split()) <= 16, row.how
