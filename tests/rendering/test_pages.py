"""The sample document on every paper, read back: what any page must hold to."""

import re

import pypdf
import pypdfium2
import pytest

from dossier.rendering import pages
from dossier.rendering.blocks import Paragraph

MM = 72 / 25.4
EDGE = 8 * MM
FLOOR = (
    6.5  # points, least size of drawn letters (pages.md of the design: labels of figures and title blocks)
)


def _heads(page):
    return " ".join(word.text for word in page.words if word.bottom > page.height - 16 * MM)


def _runs(page):
    """Whether the page bears head and foot: drawing sheets and cards do not."""
    return bool(re.search(r"sheet \d+ of \d+", page.text))


def test_every_word_stands_eight_millimetres_from_the_edge(sample_pages):
    for number, page in enumerate(sample_pages, 1):
        edge = EDGE if _runs(page) else 6.5 * MM  # grid references of a drawing stand outside its frame
        for word in page.words:
            assert word.left > edge, (number, word)
            assert word.right < page.width - edge, (number, word)
            assert word.bottom > edge, (number, word)
            assert word.top < page.height - edge, (number, word)


def test_no_two_words_cover_each_other(sample_pages):
    for number, page in enumerate(sample_pages, 1):
        words = sorted(page.words, key=lambda word: word.left)
        for place, word in enumerate(words):
            for other in words[place + 1 :]:
                if other.left > word.right:
                    break
                assert not word.overlaps(other), (number, word, other)


def test_no_letters_below_the_floor(sample_pages):
    for page in sample_pages:
        indices = [word for word in page.words if word.size < FLOOR - 0.01]
        # indices of formulas are letters of letters, and the question mark is part of a drawn sign
        assert all(len(word.text) <= 12 for word in indices), indices


def test_head_and_foot_stand_on_every_sheet_but_drawings_and_cards(sample_pages):
    count = len(sample_pages)
    without = [number for number, page in enumerate(sample_pages, 1) if not _runs(page)]
    for number, page in enumerate(sample_pages, 1):
        if number in without:
            continue
        assert f"sheet {number} of {count}" in page.text
        assert "Marsh Heron" in _heads(page)
        assert "MH-HEAT-01" in _heads(page)
        assert "2026-11-20" in page.text
        assert "Maker’s instructions and local rules" in page.text
    assert 3 <= len(without) <= 4  # two drawings and the card


def test_the_section_in_the_head_is_that_of_the_sheet(sample_pages):
    flow = next(page for page in sample_pages if "Does each branch get its share?" in page.text)
    assert "6 Calculation part" in _heads(flow)
    route = [page for page in sample_pages if "Plan, 1 : 40" in page.text]
    assert "5 Survey part" in _heads(route[0])


def test_contents_give_the_sheet_on_which_each_heading_stands(sample_pages):
    contents = next(page for page in sample_pages if "Contents" in page.text)
    entries = re.findall(
        r"^(?:[\d.]+\s+)?(.+?)\s+(\d+)\r?$", contents.text[contents.text.index("Contents") :], re.MULTILINE
    )
    told = {title.strip(): int(number) for title, number in entries}
    wanted = [
        "Findings first",
        "Exhaust route and outlet",
        "Flow",
        "Yard part",
        "Workings",
        "The project file",
    ]
    for title in wanted:
        assert title in told
        stands = sample_pages[told[title] - 1]
        headings = [word for word in stands.words if word.size >= 12]
        assert set(title.split()) <= {word.text for word in headings}, (title, told[title])
    assert told["Emergency card"] == 1


def test_references_name_section_table_and_sheet(sample_pages):
    flow = next(page for page in sample_pages if "The saloon is the worst branch; see" in page.text)
    found = re.search(r"see section 5\.1, page (\d+), Table (\d+)", flow.text.replace("\r\n", " "))
    assert found
    stands = sample_pages[int(found[1]) - 1]
    assert "Exhaust route and outlet" in stands.text
    assert any(f"Table {found[2]}" in page.text and "Legs of the route" in page.text for page in sample_pages)


def test_no_heading_stands_at_the_foot(sample_pages):
    for page in sample_pages:
        for word in page.words:
            if word.size in {10.5, 15.0} and _runs(page):
                assert any(other.top < word.bottom - 2 and other.bottom > 20 * MM for other in page.words), (
                    word
                )


def test_nothing_of_the_program_is_left_on_the_pages(sample_pages):
    for page in sample_pages:
        for rest in ("None", "nan", "-0.0", "{{", "}}", "</", "Markup(", "<b>"):
            assert rest not in page.text


def test_every_letter_is_of_an_embedded_font_of_ours(sample_pdf):
    reader = pypdf.PdfReader(sample_pdf)
    names = set()
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            assert "/FontFile2" in font["/FontDescriptor"]
            names.add(str(font["/BaseFont"]).rpartition("+")[2])
    assert names <= {"SourceSans3-Regular", "SourceSans3-Semibold", "SourceSans3-Bold", "SourceSans3-It"}
    everything = b"".join(
        entry.get_data()
        for entry in map(reader.get_object, range(1, len(reader.xref_objStm) + 1))
        if hasattr(entry, "get_data")
    )
    assert b"Helvetica" not in everything
    assert b"Helvetica" not in sample_pdf.read_bytes()


def test_links_lead_somewhere_and_print(sample_pdf):
    reader = pypdf.PdfReader(sample_pdf)
    pages = {page.indirect_reference.idnum for page in reader.pages}
    links = [
        a.get_object()
        for page in reader.pages
        for a in page.get("/Annots", [])
        if a.get_object()["/Subtype"] == "/Link"
    ]
    assert len(links) > 20
    for annotation in links:
        assert annotation["/F"] == 4
        assert annotation["/Dest"][0].idnum in pages
        assert annotation["/Contents"]


def test_bookmarks_are_the_headings_in_order(sample_pdf):
    reader = pypdf.PdfReader(sample_pdf)

    def flat(entries):
        for entry in entries:
            yield from flat(entry) if isinstance(entry, list) else [entry]

    marks = [(entry.title, reader.get_destination_page_number(entry)) for entry in flat(reader.outline)]
    titles = [title for title, _ in marks]
    assert titles[0] == "Emergency card"
    assert {"5 Survey part", "5.1 Exhaust route and outlet", "Package 3 Exhaust and hull fitting"} <= set(
        titles
    )
    numbers = [number for _, number in marks]
    assert numbers == sorted(numbers)


def test_pages_are_neither_blank_nor_black(sample_pdf):
    document = pypdfium2.PdfDocument(str(sample_pdf))
    for number in range(len(document)):
        grey = document[number].render(scale=0.7, grayscale=True).to_numpy()
        ink = float((grey < 128).mean())
        assert 0.001 < ink < 0.35, number
    document.close()


def test_running_text_is_set_anew_for_small_paper_and_not_shrunk(sample_pages, paper):
    sizes = {word.size for page in sample_pages for word in page.words if word.text == "rests."}
    assert sizes == {10.0 if paper == "A5" else 9.5}


@pytest.mark.parametrize("gone", ["foot", "head"])
def test_the_test_of_heads_and_feet_can_fail(printed, monkeypatch, gone):
    monkeypatch.setattr(pages, f"running_{gone}", lambda *_: None)
    (page,) = printed(Paragraph("One line."))
    assert ("sheet 1 of 1" in page.text) is (gone != "foot")
    assert ("Marsh Heron" in _heads(page)) is (gone != "head")
