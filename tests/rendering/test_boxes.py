"""Boxes and rows that people write in keep their height, with pencil or with what is known already."""

from itertools import pairwise

import pypdf
import pytest

from dossier.rendering.blocks import Blank, Column, Table

MM = 72 / 25.4


def table(*cells, pitch=0.0):
    return Table(
        [Column("What"), Column("Measured", width=40.0)],
        [(f"row {n}", cell) for n, cell in enumerate(cells, 1)],
        "Readings",
        pitch=pitch,
    )


def test_a_reading_stands_over_its_date_in_the_same_box(printed):
    (page,) = printed(table(Blank(entered="3.30 bar", below="2026-09-28, within")))
    words = {word.text: word for word in page.words}
    assert words["3.30"].bottom > words["2026-09-28,"].top
    assert words["3.30"].top - words["2026-09-28,"].bottom < 8 * MM
    assert words["2026-09-28,"].size == pytest.approx(6.5, abs=0.05)


def test_rows_to_write_in_are_no_lower_than_asked(printed):
    (page,) = printed(table("", "", "", pitch=9.0))
    at = [word.bottom for word in page.words if word.text == "row"]
    assert [a - b for a, b in pairwise(at)] == pytest.approx([9.0 * MM] * 2, abs=0.1)


def test_a_box_that_is_filled_has_no_field_and_an_empty_one_has(written):
    path = written(table(Blank(field="commissioning.co.outside"), Blank(field="x.y", entered="1")))
    assert set(pypdf.PdfReader(path).get_fields()) >= {"commissioning.co.outside"}
    assert "x.y" not in pypdf.PdfReader(path).get_fields()


def test_what_is_not_as_expected_has_a_thick_frame(written):
    widths = []
    for marked in (False, True):
        page = pypdf.PdfReader(written(table(Blank(entered="1", marked=marked)))).pages[0]
        content = page.get_contents()
        widths.append([float(given[0]) for given, operator in content.operations if operator == b"w"])
    assert max(widths[1]) == pytest.approx(0.5 * MM, abs=0.02)
    assert max(widths[0]) < max(widths[1])
