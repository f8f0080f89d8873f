"""Shapes keep exact millimetres on the canvas and in SVG, and the recorder sees what meets what."""

import io
from xml.etree import ElementTree as ET

import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfgen.canvas import Canvas

from dossier.rendering.drawings.dashes import fitted
from dossier.rendering.drawings.lettering import CAPITALS, REGULAR, SMALL, face, folded, text_width
from dossier.rendering.drawings.pens import EXHAUST, RETURN
from dossier.rendering.drawings.plane import Box, beside
from dossier.rendering.drawings.record import misfits, record
from dossier.rendering.drawings.shapes import (
    Arc,
    Arrow,
    Circle,
    Drawing,
    Group,
    Line,
    Polygon,
    Polyline,
    Rect,
    Text,
)


def page_of(drawing: Drawing) -> pypdfium2.PdfPage:
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(drawing.width, drawing.height), initialFontName=face(REGULAR))
    drawing.draw(canvas)
    canvas.showPage()
    canvas.save()
    return pypdfium2.PdfDocument(stream.getvalue())[0]


def test_capitals_have_the_heights_of_iso_3098():
    """ISO 3098 heights 2.5 and 1.8 mm (from memory); capitals 660/1000 high (the face's OS/2 table)."""
    heights = [size * 25.4 / 72 * 0.66 for size in (CAPITALS, SMALL)]
    assert heights == pytest.approx([2.5, 1.8], abs=0.02)


def test_a_drawing_of_a4_has_the_points_of_a4():
    drawing = Drawing.of(297, 210, [])
    assert (drawing.width, drawing.height) == pytest.approx((841.89, 595.28), abs=0.01)


def test_a_line_of_100_millimetres_is_100_millimetres_on_the_page():
    page = page_of(Drawing.of(120, 40, [Line((10, 20), (110, 20)), Text(10, 10, "scale", SMALL)]))
    image = page.render(scale=254 / 72).to_pil().convert("L")  # ten dots a millimetre
    row = [x for x in range(image.width) if image.getpixel((x, image.height - 200)) < 128]
    assert (row[0] / 10, row[-1] / 10) == pytest.approx((10, 110), abs=0.2)


def test_lettering_stays_text_in_the_embedded_face():
    page = page_of(Drawing.of(60, 20, [Text(5, 5, "Kv 0.98 · 72 °C ≥ 250", CAPITALS, "semibold")]))
    assert page.get_textpage().get_text_bounded().strip() == "Kv 0.98 · 72 °C ≥ 250"


def test_a_character_the_face_lacks_is_shown_by_its_code_and_measured_so():
    drawing = Drawing.of(60, 20, [Text(5, 5, "中", SMALL)])
    assert page_of(drawing).get_textpage().get_text_bounded().strip() == "[U+4E2D]"
    assert record(drawing).labels[0].box.width == pytest.approx(text_width("[U+4E2D]", SMALL))


def test_svg_keeps_text_and_escapes_it():
    drawing = Drawing.of(
        50, 30, [Text(5, 5, 'R & D <hot> "1"', anchor="end"), Circle(9, 9, 2, fill="000000")]
    )
    root = ET.fromstring(drawing.to_svg())  # noqa: S314 - our own text
    assert root.attrib["width"] == "50mm"
    [text] = root.iter("{http://www.w3.org/2000/svg}text")
    assert text.text == 'R & D <hot> "1"'
    assert (text.attrib["text-anchor"], text.attrib["y"]) == ("end", "25")


def test_svg_draws_dashes_run_by_run():
    drawing = Drawing.of(50, 50, [Polyline(((5, 5), (45, 5), (45, 40)), RETURN)])
    root = ET.fromstring(drawing.to_svg())  # noqa: S314 - our own text
    runs = list(root.iter("{http://www.w3.org/2000/svg}line"))
    assert len(runs) == 2
    for run, length in zip(runs, (40, 35), strict=True):
        stroke, gap = (float(n) for n in run.attrib["stroke-dasharray"].split())
        strokes = (length + gap) / (stroke + gap)
        assert strokes == pytest.approx(round(strokes), abs=0.01)


@given(st.floats(0.1, 500))
def test_a_dashed_run_ends_with_a_stroke(length):
    dashes = fitted((5.0, 1.5), length)
    if dashes:
        strokes = (length + dashes[1]) / sum(dashes)
        assert strokes == pytest.approx(round(strokes))
        assert 0.5 < dashes[0] / 5 < 1.5
    else:
        assert length < 9.8


def test_a_circle_is_round_to_a_thousandth():
    [outline] = Circle(0, 0, 10).parts()
    for mark, points in outline.steps:
        if mark in "MC":
            assert (points[-1][0] ** 2 + points[-1][1] ** 2) ** 0.5 == pytest.approx(10)
    [quarter] = Arc(0, 0, 10, 0, 90).parts()
    assert len(quarter.steps) == 2
    (x1, y1), (x2, y2), _ = quarter.steps[1][1]
    middle = ((10 + 3 * x1 + 3 * x2) / 8, (3 * y1 + 3 * y2 + 10) / 8)
    assert (middle[0] ** 2 + middle[1] ** 2) ** 0.5 == pytest.approx(10, rel=1e-3)


def test_a_double_line_keeps_its_distance_round_a_corner():
    outer, inner = Polyline(((0, 0), (0, 10), (10, 10)), EXHAUST).parts()
    corner_out, corner_in = outer.steps[1][1][0], inner.steps[1][1][0]
    assert corner_out == pytest.approx((-0.8, 10.8))
    assert corner_in == pytest.approx((0.8, 9.2))


def test_a_parallel_line_of_a_point_is_that_point():
    assert beside(((3.0, 4.0), (3.0, 4.0)), 1.0) == ((3.0, 4.0), (3.0, 4.0))


def test_an_arrow_points_where_it_says():
    [head] = Arrow(10, 10, 180).parts()
    assert head.steps[0][1][0] == (10, 10)
    assert min(p[0] for _, points in head.steps[1:] for p in points) > 10


def test_folded_lines_fit_and_say_when_something_is_left_out():
    lines = folded("Berth heater under the starboard quarter berth aft of the engine", 30, SMALL)
    assert len(lines) == 2
    assert lines[-1].endswith("…")
    assert all(text_width(line, SMALL) <= 30 for line in lines)


@given(st.text(alphabet="abc -_/.Wil", max_size=80), st.floats(8, 60), st.integers(1, 4))
def test_folding_never_exceeds_its_width_nor_loses_a_word_in_silence(text, width, most):
    lines = folded(text, width, SMALL, most=most)
    assert len(lines) <= most
    assert all(text_width(line, SMALL) <= width for line in lines)
    joined = "".join("".join(lines).split())
    assert joined == "".join(text.split()) or joined.endswith("…")


def test_the_recorder_tells_labels_from_signs_and_lines():
    sign = Group("P1", Box(0, 0, 8, 8), (Circle(4, 4, 4), Text(4, 3, "M", anchor="middle")))
    seen = record(Drawing.of(40, 20, [sign, Text(10, 3, "P1"), Line((8, 4), (9, 4))]))
    assert seen.texts == ("P1",)
    assert seen.sign("P1").box == Box(0, 0, 8, 8)
    assert [piece.end for piece in seen.pieces] == [(9, 4)]


@pytest.mark.parametrize(
    ("shapes", "words"),
    [
        ([Text(10, 10, "one"), Text(12, 10, "two")], "label 'one' meets label 'two'"),
        ([Text(10, 10, "one"), Line((5, 11), (30, 11))], "a line runs through label 'one'"),
        ([Text(10, 10, "one"), Line((5, 5), (20, 16))], "a line runs through label 'one'"),
        ([Text(38, 10, "one")], "'one' stands outside the frame"),
        ([Line((5, 5), (45, 5))], "a line from (5, 5) to (45, 5) leaves the frame"),
        ([Group("B1", Box(5, 5, 15, 15), (Rect(5, 5, 10, 10),)), Text(10, 10, "one")], "meets"),
        ([Text(10, 10, "one"), Polygon(((5, 5), (12, 5), (11, 30)))], "a line runs through label"),
    ],
)
def test_whatever_meets_is_told(shapes, words):
    assert any(words in told for told in misfits(Drawing.of(40, 40, shapes)))


def test_labels_that_keep_clear_are_no_fault():
    shapes = [Text(10, 10, "one"), Text(10, 14, "two"), Line((5, 8.5), (30, 8.5))]
    assert misfits(Drawing.of(40, 40, shapes)) == ()
