"""Checks one by one: result, figures and sources stand in their columns, with room to tick and to write."""

import pytest

from dossier.rendering.blocks import Check, ChecksTable, Heading, Paragraph
from dossier.rendering.text import page_of


def check(number, status="met", **changed):
    given = {
        "number": str(number),
        "severity": "danger",
        "status": status,
        "title": f"Outlet away from opening {number}",
        "question": "Can exhaust gas come back?",
        "found": "477 mm",
        "limit": "≥ 500 mm",
        "margin": "−23 mm",
        "found_note": "side hatch",
        "notes": ["Limit at least 500 mm. Source invented for this test.", "Data measured, line 12."],
        "key": f"check {number}",
    }
    return Check(**(given | changed))


@pytest.mark.parametrize("paper", ["A4", "letter", "A5"])
def test_everything_said_of_a_check_is_printed(printed, paper):
    (page,) = printed(ChecksTable([check(11, "not met")], "Checks"), paper=paper)
    for word in ("Outlet away from opening 11", "Can exhaust gas come back?", "477 mm", "≥ 500 mm", "−23 mm"):
        assert word in page.text
    assert "not met" in page.text
    assert "Data measured, line 12." in page.text


def test_columns_do_not_run_into_one_another(printed):
    long = check(
        7, found="no canopy, cover or tent aboard", limit="outside the accommodation", margin="a tent"
    )
    (page,) = printed(ChecksTable([long, check(8)], "Checks"))
    words = page.words
    pairs = [(a, b) for n, a in enumerate(words) for b in words[n + 1 :] if a.overlaps(b)]
    assert not pairs


def test_the_head_is_repeated_and_no_row_is_broken(printed):
    pages = printed(ChecksTable([check(n) for n in range(1, 31)], "Checks"))
    assert len(pages) > 1
    assert all("Seen" in " ".join(page.text.split()) for page in pages)
    for number in range(1, 31):
        holding = [page for page in pages if f"opening {number} ·" in page.text]
        assert len(holding) == 1


def test_a_reference_finds_the_sheet_of_a_check(printed):
    pages = printed(
        Paragraph(page_of("check 30")), Heading(1, "Checks"), ChecksTable([check(n) for n in range(1, 31)])
    )
    sheet = next(n for n, page in enumerate(pages, 1) if "opening 30" in page.text)
    assert str(sheet) in pages[0].text


def test_no_word_of_a_figure_is_broken(printed):
    long = check(
        168, found="passages from the drawing", limit="measured aboard", margin="a measurement aboard"
    )
    (page,) = printed(ChecksTable([long], "Checks"))
    assert {"measurement", "passages", "measured"} <= {word.text for word in page.words}
