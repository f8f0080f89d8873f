"""Tables on pages: columns, continued heads, rows that stay whole, boxes."""

import re
from time import process_time

import pypdf
import pytest

from dossier.rendering import fonts
from dossier.rendering.blocks import (
    Align,
    Blank,
    Column,
    Heading,
    Paragraph,
    Side,
    SideNote,
    Span,
    Table,
    Tick,
)
from dossier.rendering.text import text

MM = 72 / 25.4
NUMBER = Align.NUMBER


def rows(count):
    return [(f"row{n}", f"{n}.5", "words of this row") for n in range(count)]


COLUMNS = (Column("Name"), Column("Flow", "l/min", NUMBER), Column("Note"))


def word(page, said):
    return next(w for w in page.words if w.text == said)


def test_every_row_is_printed_once_and_in_order(printed):
    pages = printed(Table(COLUMNS, rows(1000), "Many rows"))
    names = [w.text for page in pages for w in page.words if re.fullmatch(r"row\d+", w.text)]
    assert names == [f"row{n}" for n in range(1000)]


def test_a_table_of_a_thousand_rows_adds_less_than_half_a_second(written):
    def seconds(count):
        best = 9.0
        for _ in range(3):
            start = process_time()
            written(Table(COLUMNS, rows(count), "Rows"))
            best = min(best, process_time() - start)
        return best

    assert seconds(1000) - seconds(1) < 0.5


def test_head_and_caption_are_repeated_and_say_continued(printed):
    first, *others = printed(Table(COLUMNS, rows(150), "Branches"))
    assert others
    assert "continued" not in first.text
    for page in others:
        assert re.search(r"Table 1\s+Branches \(continued\)", page.text)
        assert word(page, "Flow").top > word(page, "[l/min]").top
        assert word(page, "Flow").bottom > max(w.top for w in page.words if w.text.startswith("row"))


def test_three_rows_at_least_stand_on_each_sheet(printed):
    for count in range(48, 60):
        pages = printed(Table(COLUMNS, rows(count), "Branches"))
        counts = [sum(1 for w in page.words if re.fullmatch(r"row\d+", w.text)) for page in pages]
        assert sum(counts) == count
        assert min(counts) >= 3


def test_a_heading_stays_with_the_head_and_three_rows_of_its_table(printed):
    for lines in range(35, 60):
        filler = [Paragraph("Line.")] * lines
        pages = printed(*filler, Heading(3, "Presets"), Table(COLUMNS, rows(30), "Branches"))
        (stands,) = [p for p in pages if any(w.text == "Presets" and w.size > 10 for w in p.words)]
        assert "row2" in stands.text, lines


def test_a_long_table_leaves_no_half_empty_sheet_before_it(printed):
    first, *_ = printed(
        *[Paragraph("Line.")] * 20, Heading(3, "Presets"), Table(COLUMNS, rows(60), "Branches")
    )
    lowest = min(w.bottom for w in first.words if w.text.startswith("row"))
    assert lowest < 40 * MM


def test_a_single_row_and_an_empty_table(printed):
    (page,) = printed(Table(COLUMNS, rows(1), "One"), Table(COLUMNS, [], "None of them"))
    assert "row0" in page.text
    assert "Nothing to list." in page.text


def test_a_row_higher_than_a_sheet_goes_on_overleaf(printed):
    long = " ".join(f"w{n}" for n in range(2500))
    cells = [("a", text(long)), ("b", "short")]
    pages = printed(Table((Column("Name"), Column("Remark")), cells, "Long"))
    assert len(pages) > 1
    assert [w.text for page in pages for w in page.words if re.fullmatch(r"w\d+", w.text)] == long.split()


def test_a_users_cell_is_cut_before_it_fills_a_sheet(printed):
    long = " ".join(f"w{n}" for n in range(2500))
    (page,) = printed(Table((Column("Name"), Column("Remark")), [("a", long), ("b", "short")], "Long"))
    shown = [w.text for w in page.words if re.fullmatch(r"w\d+…?", w.text)]
    assert shown[:-1] == long.split()[: len(shown) - 1]
    assert shown[-1].endswith("…")
    assert "short" in page.text


def test_numbers_end_under_one_another(printed):
    (page,) = printed(Table(COLUMNS, rows(30), "Flows"))
    ends = {round(w.right, 1) for w in page.words if re.fullmatch(r"\d+\.5", w.text)}
    assert max(ends) - min(ends) < 0.3


def test_decimal_points_stand_under_one_another(printed):
    cells = ["3.25", "12.5", "100.125", "0.5"]
    (page,) = printed(
        Table(
            (Column("Valve"), Column("Turns", align=Align.DECIMAL)), [("v", cell) for cell in cells], "Turns"
        )
    )
    points = []
    for cell in cells:
        found = word(page, cell)
        points.append(found.left + fonts.width(cell.split(".")[0], fonts.REGULAR, 8.5))
    assert max(points) - min(points) < 0.6  # the glyphs' own side bearings differ


def test_words_wrap_inside_their_column_and_numbers_do_not(printed):
    note = "a long remark that has to wrap within its own column and may not reach into the next one " * 3
    (page,) = printed(
        Table(
            (Column("Remark"), Column("Flow", align=NUMBER)),
            [(note, "1,234,567.8")],
            "Wrapped",
            span=Span.TEXT,
        )
    )
    number = word(page, "1,234,567.8")
    assert all(
        w.right < number.left for w in page.words if w.text in note.split() and w.top > number.bottom - 60
    )


@pytest.mark.parametrize("count", [3, 8, 14, 22])
def test_columns_keep_apart_however_many_there_are(printed, count):
    columns = [Column(f"Head{n}", "kPa", NUMBER) for n in range(count)]
    (page, *_) = printed(Table(columns, [[f"{n}.25" for n in range(count)]] * 4, "Wide"))
    for a in page.words:
        for b in page.words:
            assert a is b or not a.overlaps(b), (a, b)


def test_a_table_too_wide_for_the_text_column_takes_both_columns_below_the_notes(printed):
    side = Side([SideNote("Basis", "Words in the outer column. " * 6)])
    columns = [Column(f"Column {n}", "l/min", NUMBER) for n in range(10)]
    (page,) = printed(side, Paragraph("Short."), Table(columns, [["12,345,678.9"] * 10], "Wide"))
    lowest_note = min(w.bottom for w in page.words if w.left > 150 * MM and w.text in {"column.", "outer"})
    assert word(page, "Table").top < lowest_note


def test_totals_stand_below_the_rows_and_notes_below_the_end(printed):
    table = Table(COLUMNS, rows(3), "Sums", totals=[("together", "6.0", "")], notes="A note.")
    (page,) = printed(table)
    assert word(page, "row2").bottom > word(page, "together").top - 3
    assert word(page, "together").bottom > word(page, "note.").top


def test_boxes_to_write_in_are_eight_millimetres_high(written):
    path = written(
        Table(
            (Column("Tag"), Column("Measured"), Column("Seen")),
            [("V1", Blank("l/min", "a.b"), Tick("a.c"))],
            "t",
        )
    )
    code = pypdf.PdfReader(path).pages[0].get_contents().get_data().decode("latin-1")
    heights = [float(h) for h in re.findall(r"[\d.]+ [\d.]+ [\d.]+ ([\d.]+) re S", code)]
    assert any(abs(high - (8 * MM - 0.25 * MM)) < 0.05 for high in heights)
    assert any(high >= 4 * MM for high in heights)


def test_a_group_is_written_once_over_its_columns(printed):
    columns = [Column("Leg"), *[Column(c, group="From [mm]", align=NUMBER) for c in "xyz"]]
    (page,) = printed(Table(columns, [("1", "5,600", "−1,350", "420")], "Legs"))
    assert page.text.count("From [mm]") == 1


def test_columns_for_wide_paper_are_left_out_on_a5(printed):
    columns = [Column("Leg"), Column("Height", wide_only=True)]
    (small,) = printed(Table(columns, [("1", "lofty")], "Legs"), paper="A5")
    (large,) = printed(Table(columns, [("1", "lofty")], "Legs"))
    assert "Height" not in small.text
    assert "lofty" not in small.text
    assert "Height" in large.text


def test_markup_in_cells_keeps_its_words_together(printed):
    (page,) = printed(Table((Column("U"),), [(text("R", "si"),)], "t"))
    assert "Rsi" in page.text
