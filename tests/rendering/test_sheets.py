"""Drawing sheets, title block, card, landscape sheets, notes columns."""

import re
from dataclasses import replace

import pypdf
import pytest

from dossier.notation import PageFault
from dossier.rendering.blocks import (
    Card,
    CardBand,
    CardFace,
    CardPlaces,
    CardSteps,
    Column,
    Contents,
    DrawingSheet,
    Heading,
    NewSheet,
    Outer,
    PackageHead,
    Paragraph,
    Table,
    Wide,
)
from dossier.rendering.layout.measures import drawing_area, paper_size, sheet
from dossier.rendering.text import page_of, text

MM = 72 / 25.4


class Plate:
    def __init__(self, width, height):
        self.width, self.height = width, height
        self.at = None

    def draw(self, canvas, x, y):
        self.at = (x, y)
        canvas.rect(x, y, self.width, self.height)


def drawing(plate=None, **more):
    return DrawingSheet("Heating circuit", "Drawing 1", "the ring", "d1", drawing=plate, **more)


@pytest.mark.parametrize("paper", ["A4", "letter", "A5", "A3"])
@pytest.mark.parametrize("landscape", [True, False])
def test_a_drawing_that_fills_its_area_stands_inside_the_frame_and_over_the_block(printed, paper, landscape):
    plate = Plate(*drawing_area(paper, landscape=landscape))
    (page,) = printed(drawing(plate, landscape=landscape, paper=paper, notes="One line."))
    width, height = paper_size(paper, landscape=landscape)
    assert (page.width, page.height) == pytest.approx((width, height), abs=0.1)
    x, y = plate.at
    block_top = max(w.top for w in page.words if w.text in {"Legal", "Boat", "owner"})
    assert y > block_top
    assert x > 14 * MM
    assert y + plate.height < height - 10 * MM
    assert x + plate.width < width - 10 * MM


def test_the_title_block_says_all_that_iso_7200_asks_for(printed):
    # mandatory fields of ISO 7200:2004, table seen in a public summary: legal owner, identification number,
    # date of issue, sheet number, title, approval person, creator, document type
    (page,) = printed(drawing(Plate(100, 100), scale="not to scale"))
    for said in (
        "Legal owner",
        "MH-HEAT-01",
        "2026-11-20",
        "1 of 1",
        "Heating circuit",
        "Approved by",
        "Prepared by",
        "Drawing 1",
        "the owner signs here",
        "not to scale",
    ):
        assert said in page.text


def test_the_frame_leaves_twenty_millimetres_to_bind_and_ten_elsewhere(written):
    # ISO 5457:1999, from memory
    code = (
        pypdf.PdfReader(written(drawing(Plate(100, 100))))
        .pages[0]
        .get_contents()
        .get_data()
        .decode("latin-1")
    )
    frames = [tuple(map(float, f)) for f in re.findall(r"([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+) re S", code)]
    left, bottom, width, height = max(frames, key=lambda f: f[2] * f[3])
    assert left == pytest.approx(20 * MM, abs=0.1)
    assert bottom == pytest.approx(10 * MM, abs=0.1)
    assert left + width == pytest.approx(287 * MM, abs=0.1)
    assert bottom + height == pytest.approx(200 * MM, abs=0.1)


def test_long_fields_of_the_title_block_stay_in_their_boxes(printed, imprint):
    long = replace(
        imprint, boat="A boat with a name of sixty characters that goes on and on and on", owner="O" * 90
    )
    (page,) = printed(drawing(Plate(100, 100)), with_imprint=long)
    for one in page.words:
        for other in page.words:
            assert one is other or not one.overlaps(other), (one, other)


def test_a_drawing_larger_than_its_frame_is_a_fault(printed):
    with pytest.raises(PageFault, match="drawing d1 is 300 × 50 mm; the frame holds 267 × 190 mm"):
        printed(drawing(Plate(300 * MM, 50 * MM)))
    with pytest.raises(PageFault, match="neither a drawing nor a way to make one"):
        printed(drawing())


def test_a_sheet_drawn_as_a_whole_is_told_its_number(printed):
    told = []

    def whole(number):
        told.append(number)
        return Plate(*paper_size("A4", landscape=True))

    pages = printed(Paragraph(text("See sheet ", page_of("d1"))), drawing(whole=whole), Heading(1, "After"))
    assert told == ["2 of 3"]
    assert "See sheet 2" in pages[0].text
    assert pages[2].width < pages[2].height


def test_a_drawing_on_several_sheets_is_one_line_of_contents_and_bookmarks(printed, tmp_path):
    sheets = [
        DrawingSheet("Shell", "Drawing 7", "walls", f"d7_{n}", drawing=Plate(90, 90), part=n, parts=3)
        for n in (1, 2, 3)
    ]
    contents, *_, after = printed(
        Contents("Contents"), *sheets, Heading(1, "After"), Paragraph(text("Third: ", page_of("d7_3")))
    )
    assert [line for line in contents.lines() if "Drawing" in line] == ["Drawing 7: Shell, 3 sheets 2"]
    assert "Third: 4" in after.text
    marks = pypdf.PdfReader(tmp_path / "printed.pdf").outline
    assert [mark.title for mark in marks] == ["Drawing 7: Shell, 3 sheets", "1 After"]


def test_a_sheet_turned_sideways_lasts_until_the_next_section(printed):
    first, second, third = printed(
        Paragraph("upright"),
        NewSheet(landscape=True, outer=Outer.NONE),
        Table((Column("a"),), [("b",)], "wide"),
        Heading(1, "Next"),
        Paragraph("upright again"),
    )
    assert first.width < first.height
    assert second.width > second.height
    assert third.width < third.height


def test_a_work_package_leaves_a_column_for_pencil_beside_its_text_alone(printed):
    _, package, after = printed(
        Heading(1, "Yard part"),
        PackageHead("Package 3", "Exhaust", [("By whom", "The yard")], "p3"),
        Paragraph("words " * 300),
        Wide([Paragraph("more " * 200)]),
        Heading(1, "Next"),
        Paragraph("x"),
    )
    kept = sheet("A4", outer=Outer.NOTES)
    notes = next(word for word in package.words if word.text == "Notes")
    assert all(w.right <= kept.left + kept.text_width + 1 for w in package.words if w.text == "words")
    assert kept.outer_width >= 35 * MM  # wide enough to write in: common practice, no source
    assert notes.left > kept.left + kept.text_width
    assert any(word.right > kept.outer_x for word in package.words if word.text == "more")
    assert "Notes" not in after.text


def test_a_column_for_pencil_ends_where_something_takes_the_whole_width(printed):
    _, package = printed(
        Heading(1, "Yard part"),
        PackageHead("Package 3", "Exhaust", [], "p3"),
        Paragraph("words " * 100),
        Wide([Paragraph("between " * 30)]),
        Paragraph("again " * 100),
    )
    assert [word.text for word in package.words].count("Notes") == 2  # one beside each stretch of text


def card(*steps, places=(("1", "stop", "S1"), ("2", "isolator", ""))):
    face = CardFace([CardBand("CARBON MONOXIDE", "Alarm"), CardSteps(steps or ["Everybody out."])])
    return Card(face, CardFace([CardPlaces(places, "write the place here")]), "Emergency card", "card")


def test_the_card_reads_at_arms_length_and_keeps_clear_of_the_cut(printed):
    # steps of 14 pt or more, nothing nearer than 8 mm to the cut: common practice, no source
    (page,) = printed(card())
    assert next(w for w in page.words if w.text == "Everybody").size >= 14
    for word in page.words:
        assert word.left > 8 * MM
        assert word.right < page.width - 8 * MM
        assert abs(word.left - page.width / 2) > 8 * MM


STEP = "A step of some length that says what to do and how, in plain words."


def test_the_cards_type_shrinks_to_hold_its_text_on_two_faces(printed):
    (page,) = printed(card(*[STEP] * 11))
    sizes = {w.size for w in page.words if w.text == "step"}
    assert 14 <= min(sizes) < 18
    assert min(w.bottom for w in page.words if w.text == "step") > 8 * MM


@pytest.mark.parametrize("paper", ["A4", "A5"])
def test_what_two_faces_do_not_hold_goes_on_further_ones_in_letters_that_can_be_read(printed, paper):
    # 14 pt at arm's length: common practice, no source
    pages = printed(card(*[STEP] * 40), paper=paper)
    assert len(pages) == {"A4": 2, "A5": 4}[paper]
    steps = [w for page in pages for w in page.words if w.text == "step"]
    assert len(steps) == 40
    assert {w.size for w in steps} == {14.0}
    assert min(w.bottom for w in steps) > 8 * MM


def test_a_place_that_is_not_known_is_a_box_under_its_name_and_no_guess(printed):
    (page,) = printed(card())
    assert "isolator" in page.text
    assert "write the place here" in page.text


def test_on_a5_the_card_is_two_sheets(printed):
    pages = printed(card(), paper="A5")
    assert len(pages) == 2
    assert {round(page.width / MM) for page in pages} == {148}


def test_an_unknown_paper_is_a_fault(printed):
    with pytest.raises(PageFault, match="'foolscap' is no paper"):
        printed(Paragraph("x"), paper="foolscap")
