"""Blocks in two columns: all of them, in their order, the first column filled before the second."""

import pytest

from dossier.rendering.blocks import (
    Answer,
    Column,
    Gathered,
    Heading,
    Paragraph,
    Side,
    SideNote,
    Table,
    TwoColumns,
)
from dossier.rendering.text import page_of


def lines(count):
    return [Paragraph(f"Paragraph {number} of many.") for number in range(count)]


def found_in(page, word):
    return next(w for w in page.words if w.text == word)


def test_the_first_column_is_filled_before_the_second(printed):
    (page,) = printed(TwoColumns([Paragraph("first"), *lines(20), Paragraph("last")]))
    first, last = found_in(page, "first"), found_in(page, "last")
    assert last.left > page.width / 2 > first.left


def test_both_columns_end_at_about_the_same_height(printed):
    (page,) = printed(TwoColumns(lines(21)), Paragraph("below"))
    numbered = [word for word in page.words if word.text.isdigit() and word.left < page.width * 0.9]
    left = min(word.bottom for word in numbered if word.right < page.width / 2 and word.bottom > 100)
    right = min(word.bottom for word in numbered if word.left > page.width / 2 and word.bottom > 100)
    assert abs(left - right) < 25
    assert found_in(page, "below").top < min(left, right)


@pytest.mark.parametrize("count", [3, 40, 300])
def test_nothing_is_lost_over_sheets(printed, count):
    pages = printed(TwoColumns(lines(count)))
    text = " ".join(" ".join(page.text.split()) for page in pages)
    assert [text.count(f"Paragraph {number} of many.") for number in range(count)] == [1] * count


def test_a_reference_finds_a_heading_in_a_column(printed):
    pages = printed(
        Paragraph(page_of("there")), TwoColumns([*lines(200), Heading(3, "Found", key="there"), *lines(9)])
    )
    sheet = next(n for n, page in enumerate(pages, 1) if "Found" in page.text)
    assert str(sheet) in pages[0].text.split()


def test_a_narrow_table_stands_in_a_column_and_a_wide_one_over_both(printed):
    narrow = Table([Column("Part"), Column("Litres")], [("ring", "14.7")], "Narrow")
    wide = Table([Column(f"A long head {n}") for n in range(9)], [["value"] * 9], "Wide")
    note = Side([SideNote("Method", "As written.")])
    (page,) = printed(Gathered([Heading(2, "Volume", key="v"), note, Answer("All."), narrow, narrow, wide]))
    tables = sorted(word.left for word in page.words if word.text == "ring")
    assert tables[0] < page.width / 2 < tables[1]
    assert max(word.right for word in page.words if word.text == "value") > page.width * 0.8
    assert found_in(page, "All.").bottom > found_in(page, "Method").top  # the answer comes first
