"""Sheets to laminate, panels before a step, stop rules, ends of lines, boxes in a line."""

import pytest

from dossier.rendering.blocks import (
    Column,
    Heading,
    NewSheet,
    Note,
    Panel,
    Paragraph,
    SignalWord,
    Steps,
    StopRule,
    Table,
)
from dossier.rendering.text import blank, line_break, text

MM = 72 / 25.4


@pytest.mark.parametrize("paper", ["A4", "letter", "A5"])
def test_nothing_on_a_leaf_is_below_twelve_points_or_nearer_than_eight_millimetres_to_the_cut(printed, paper):
    # 12 pt and 8 mm from the cut: common practice, no source
    (page,) = printed(
        NewSheet(leaf=True),
        Heading(2, "Start", numbered=False),
        Steps(["Switch on.", "Wait."], large=True),
        Table((Column("Valve"), Column("heating", "m³/h")), [("V1", "0.60")], "Valves", notes="A note."),
        Note("Small words."),
        paper=paper,
    )
    assert {word.size for word in page.words} >= {12.0, 14.0}
    for word in page.words:
        assert word.size >= 12, word
        assert 8 * MM < word.left < word.right < page.width - 8 * MM, word
        assert 8 * MM < word.bottom < word.top < page.height - 8 * MM, word
    assert "MH-HEAT-01" in page.text
    assert "sheet 1 of 1" not in page.text


def test_a_leaf_lasts_until_another_sheet_is_asked_for(printed):
    pages = printed(NewSheet(leaf=True), Paragraph("leaf"), NewSheet(), Paragraph("page"))
    assert ["sheet" in page.text for page in pages] == [False, True]


@pytest.mark.parametrize("word", list(SignalWord))
@pytest.mark.parametrize("paper", ["A4", "A5"])
def test_a_panel_before_a_step_bears_its_word_and_is_lower_than_one_of_its_own(printed, word, paper):
    said = ("Exhaust gas kills.", "It has no smell.", "Keep the alarms working.")
    heights = []
    for embedded in (False, True):
        (page,) = printed(Panel(word, *said, embedded=embedded), Paragraph("after"), paper=paper)
        assert word.value.upper() in page.text
        for sentence in said:
            assert sentence in page.text.replace("\r\n", " ")
        heights.append(next(w for w in page.words if w.text == "after").top)
    assert heights[1] > heights[0]


def test_a_stop_rule_stands_in_a_box_under_its_word(printed):
    (page,) = printed(StopRule("STOP", "Never fit a larger fuse."))
    assert "STOP" in page.text
    assert "Never fit a larger fuse." in page.text


def test_a_line_ends_where_it_is_told_to_and_not_in_a_word(printed):
    (page,) = printed(Table((Column("Task"),), [(text("first", line_break(), "second"),)]))
    first, second = (next(w for w in page.words if w.text == said) for said in ("first", "second"))
    assert first.left == pytest.approx(second.left, abs=0.5)
    assert first.bottom > second.top


def test_a_box_in_a_line_takes_room_between_its_words(printed):
    (page,) = printed(Paragraph(text("STOP at ", blank(), " now.")))
    at, now = (next(w for w in page.words if w.text == said) for said in ("at", "now."))
    assert now.left - at.right > 18 * MM
    assert now.bottom == pytest.approx(at.bottom, abs=2)
