"""Filling sheets: order kept, nothing lost, nothing outside, headings never alone."""

import itertools
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dossier.notation import PageFault
from dossier.rendering.blocks import (
    Anchor,
    Figure,
    Heading,
    Note,
    PageBreak,
    Paragraph,
    Side,
    SideNote,
    Together,
)
from dossier.rendering.layout.flow import fill
from dossier.rendering.layout.item import Break, Item, Marker, Stands
from dossier.rendering.layout.measures import MM, sheet
from dossier.rendering.text import reference

A4 = sheet("A4")


class Slab(Item):
    """An item that may be cut anywhere between its layers of 10 points."""

    def split(self, room):
        upper = int(room // 10) * 10
        if upper <= 0 or upper >= self.height:
            return None
        return replace(self, height=float(upper)), replace(self, height=self.height - upper)

    @property
    def least(self):
        return min(self.height, 20.0)


items = st.builds(
    lambda high, above, stands, keeps, floats, cut: (Slab if cut else Item)(
        high, above, above / 2, stands, keeps and stands is not Stands.OUTER, floats and not cut
    ),
    st.floats(5, 700),
    st.floats(0, 40),
    st.sampled_from([Stands.TEXT, Stands.TEXT, Stands.FULL, Stands.OUTER]),
    st.booleans(),
    st.booleans(),
    st.booleans(),
)


@given(st.lists(items, max_size=25))
@settings(max_examples=80, deadline=None)
def test_everything_is_placed_within_the_margins_and_nothing_covers_another(wanted):
    pages = fill(wanted, A4)
    total = sum(placed.item.height for page in pages for placed in page.placed)
    assert total == pytest.approx(sum(item.height for item in wanted))
    for page in pages:
        columns = {"main": [], "outer": []}
        for placed in page.placed:
            assert placed.top >= A4.top - 0.01
            assert placed.top + placed.item.height <= A4.height - A4.bottom + 0.02
            stands = placed.item.stands
            if stands is not Stands.OUTER:
                columns["main"].append(placed)
            if stands is not Stands.TEXT:
                columns["outer"].append(placed)
        for column in columns.values():
            ordered = sorted(column, key=lambda placed: placed.top)
            for upper, lower in itertools.pairwise(ordered):
                assert upper.top + upper.item.height <= lower.top + 0.02


@given(st.lists(st.floats(5, 400), min_size=1, max_size=30))
@settings(max_examples=60, deadline=None)
def test_text_keeps_its_order(heights):
    wanted = [Item(high, what=str(n)) for n, high in enumerate(heights)]
    placed = [p.item.what for page in fill(wanted, A4) for p in page.placed]
    assert placed == [str(n) for n in range(len(heights))]


def said(page, text):
    """Words of a page that say this, head and foot left out."""
    inner = (20 * MM, page.height - 16 * MM)
    return [w for w in page.words if w.text == text and inner[0] < w.bottom < inner[1]]


def test_what_cannot_be_broken_and_is_higher_than_a_sheet_is_a_fault():
    with pytest.raises(PageFault, match="the great plate is 353 mm high and cannot be broken"):
        fill([Item(1000, what="the great plate")], A4)


def test_a_break_without_anything_before_it_makes_no_empty_sheet():
    assert len(fill([Break(), Break(), Item(10), Break(), Break(), Item(10)], A4)) == 2


def test_a_heading_goes_with_its_paragraph(printed):
    for lines in range(20, 60):
        pages = printed(
            *[Paragraph("Line.")] * lines, Heading(3, "Presets"), Paragraph("The preset follows. " * 20)
        )
        (stands,) = [page for page in pages if said(page, "Presets")]
        assert said(stands, "follows.")


def test_a_paragraph_leaves_no_single_line(printed):
    for lines in range(20, 60):
        pages = printed(*[Paragraph("Line.")] * lines, Paragraph("word " * 120))
        counts = [len({round(w.bottom) for w in page.words if w.text == "word"}) for page in pages]
        assert 1 not in counts


class Plate:
    def __init__(self, width, height):
        self.width, self.height = width * MM, height * MM

    def draw(self, canvas, x, y):
        canvas.rect(x, y, self.width, self.height)


def test_text_goes_before_a_figure_that_would_leave_half_a_sheet_empty(printed):
    first, second = printed(
        *[Paragraph("Line.")] * 18,
        Figure(Plate(100, 190), "A tall figure", "tall"),
        *[Paragraph(f"After{n}.") for n in range(30)],
    )
    assert "After5." in first.text
    assert "A tall figure" in second.text


def test_a_figure_does_not_go_behind_a_heading(printed):
    pages = printed(
        *[Paragraph("Line.")] * 18,
        Figure(Plate(100, 190), "A tall figure", "tall"),
        Heading(3, "Next"),
        Paragraph("x"),
    )
    places = [
        (number, -w.top)
        for number, page in enumerate(pages)
        for w in (*said(page, "tall"), *said(page, "Next"))
    ]
    assert places == sorted(places)


def test_a_note_in_the_outer_column_stands_beside_what_follows(printed):
    (page,) = printed(Paragraph("First."), Side([SideNote("Basis", "beside")]), Paragraph("Second."))
    basis = next(w for w in page.words if w.text == "Basis")
    second = next(w for w in page.words if w.text == "Second.")
    assert basis.left > second.right
    assert abs(basis.bottom - second.bottom) < 6


def test_notes_that_do_not_fit_beside_go_on_overleaf(printed):
    notes = [SideNote(f"Note{n}", "words " * 40) for n in range(20)]
    pages = printed(Side(notes), *[Paragraph("Line.")] * 80)
    found = [w.text for page in pages for w in page.words if w.text.startswith("Note")]
    assert found == [f"Note{n}" for n in range(20)]
    assert len(pages) > 1


def test_together_keeps_blocks_on_one_sheet(printed):
    for lines in range(25, 50):
        pages = printed(
            *[Paragraph("Line.")] * lines, Together([Paragraph("One."), Note("Two."), Paragraph("Three.")])
        )
        (stands,) = [page for page in pages if "One." in page.text]
        assert "Three." in stands.text


def test_a_reference_that_leads_nowhere_is_a_fault(printed):
    with pytest.raises(PageFault, match="'nowhere'"):
        printed(Paragraph(reference("nowhere")))


def test_two_places_of_one_key_are_a_fault(printed):
    with pytest.raises(PageFault, match="two places of the document bear the key 'here'"):
        printed(Anchor("here"), Paragraph("x"), Anchor("here"))


def test_a_reference_that_moves_its_own_place_still_prints_the_right_sheet(printed):
    pages = printed(
        Paragraph(reference("far")),
        *[Paragraph("Line.")] * 39,
        PageBreak(),
        *[Paragraph("Line.")] * 400,
        Heading(3, "Far", key="far"),
        Paragraph("x"),
    )
    stands = next(
        number
        for number, page in enumerate(pages, 1)
        if "Far" in page.text.split("\r\n")[-5:] or "\nFar" in page.text
    )
    assert f"Far, page {stands}" in pages[0].text


def test_a_place_stands_on_the_sheet_of_what_it_marks_however_little_room_is_left():
    for left in range(120):
        before = Item(A4.room - left, 0.0, 5.0)
        heading = Item(10.0, 30.0, 5.0, keeps=True, what="heading")
        pages = fill([before, Marker(keys=("place",)), heading, Item(40.0, 5.0, 5.0)], A4)
        marked = [page for page in pages if "place" in dict(page.places())]
        bears = [page for page in pages if any(placed.item is heading for placed in page.placed)]
        assert marked == bears, left
