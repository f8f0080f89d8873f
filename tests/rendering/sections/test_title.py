"""Section 1 says which document of which boat this is, and what it does not say."""

import re

import pytest

from dossier.checking.finding import Status
from dossier.data.catalogue import Severity, catalogue
from dossier.rendering.blocks import Contents, DocumentTitle, Note, Paragraph, Table, TitleBlock
from dossier.rendering.sections import title


def said(blocks):
    return [str(block.text) for block in blocks if isinstance(block, Paragraph | Note)]


def identification(blocks):
    table = next(b for b in blocks if isinstance(b, Table) and b.key == "table_identification")
    return {str(name): str(value) for name, value in table.rows}


def test_the_ten_numbers_say_nothing_about_safety(assessed, draft_of, blocks_of):
    boat = assessed("ten numbers")
    dangers = [f for f in boat.findings if f.severity is Severity.DANGER]
    assert all(f.status is Status.NOT_ASSESSED for f in dangers)
    sentence = next(s for s in said(blocks_of(title, boat)) if "nothing about safety" in s)
    words = str(draft_of(boat).words("numerals.cardinal", count=len(dangers))).strip()
    counted = f"{words.capitalize()} checks of grade danger, {words} not assessed"
    assert sentence == f"{counted}: this page says nothing about safety."


@pytest.mark.parametrize(
    ("count", "words"),
    [(0, "no"), (1, "one"), (13, "thirteen"), (20, "twenty"), (41, "forty-one"), (100, "one hundred"),
     (175, "one hundred and seventy-five"), (999, "nine hundred and ninety-nine"), (1000, "1000")],
)  # fmt: skip
def test_numbers_in_words(assessed, draft_of, count, words):
    """English number words: common knowledge, no source."""
    assert str(draft_of(assessed("cutter")).words("numerals.cardinal", count=count)) == words


def test_dangers_left_open_stand_on_the_first_page(each_boat, blocks_of):
    open_ = [
        f for f in each_boat.findings if f.severity is Severity.DANGER and f.status is Status.NOT_ASSESSED
    ]
    sentences = [s for s in said(blocks_of(title, each_boat)) if "grade danger" in s]
    assert bool(sentences) == bool(open_)


def test_the_page_says_how_many_checks_this_version_holds(each_boat, blocks_of):
    held = len(each_boat.findings)
    sentences = [s for s in said(blocks_of(title, each_boat)) if "This version holds" in s]
    assert bool(sentences) == (held < len(catalogue()))
    if sentences:
        assert re.findall(r"\d+", sentences[0]) == [str(held), str(len(catalogue()))]


def test_the_boat_and_the_document_are_identified(assessed, blocks_of):
    rows = identification(blocks_of(title, assessed("cutter")))
    assert rows["Boat"] == "Lantern Auk"
    assert rows["Length, beam, draught"] == "14.2\u00a0m, 4.3\u00a0m, 1.8\u00a0m"
    assert rows["Built"] == "1968"
    assert rows["Document number"] == "LA-HEAT-01"
    assert rows["Approved by"] == "not approved; to be signed by a person"
    assert rows["Registration"] == "not stated"


def test_a_status_below_the_one_wished_for_is_told(assessed, blocks_of):
    sentences = " ".join(said(blocks_of(title, assessed("barge"))))
    assert "The author wished for as built; the data allow draft." in sentences


@pytest.mark.parametrize("edition", ["full", "survey", "aboard", "yard"])
def test_each_edition_says_what_it_leaves_out(assessed, edition, blocks_of):
    sentences = " ".join(said(blocks_of(title, assessed("cutter"), edition)))
    if edition == "full":
        assert "This edition leaves nothing out." in sentences
    else:
        assert "The full document is LA-HEAT-01, revision A." in sentences
    assert ("9 yard part" in sentences) == (edition in {"aboard", "survey"})


def test_the_title_page_bears_block_and_contents(assessed, blocks_of):
    kinds = [type(block) for block in blocks_of(title, assessed("yacht"))]
    assert kinds[0] is DocumentTitle
    assert TitleBlock in kinds
    assert kinds[-1] is Contents


def test_the_title_block_names_the_sheet_it_stands_on(assessed, draft_of, pages_of):
    pages = pages_of(draft_of(assessed("starter"), only=("title",)), title.section)
    number, page = next((n, page) for n, page in enumerate(pages, 1) if "Legal owner" in page.text)
    assert page.text.count(f"{number} of {len(pages)}") == len(["foot", "title block"])


def test_a_document_without_number_or_date_claims_neither(project_of, blocks_of):
    sentences = " ".join(said(blocks_of(title, project_of("format: 1\n"))))
    assert "The full document is" not in sentences
    rows = identification(blocks_of(title, project_of("format: 1\n")))
    assert {rows["Date"], rows["Document number"], rows["Revision"]} == {"not stated"}
