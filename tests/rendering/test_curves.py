"""Curves: words stay words, nothing is loaded before it is needed, names of curves stand free."""

import math
import re
import subprocess
import sys

import matplotlib as mpl
import pypdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dossier.notation import PageFault
from dossier.rendering.blocks import Figure, Paragraph
from dossier.rendering.charts import Dash, Level, Line, LineChart, Point, tick_text
from dossier.rendering.curves import Curve
from dossier.rendering.labels import place_labels

MM = 72 / 25.4


def xs(count=40, step=0.5):
    return [n * step for n in range(count)]


def chart(*lines, **more):
    return LineChart(120, 80, lines, "Flow [l/min]", "Head [kPa]", **more)


def test_words_of_a_curve_can_be_searched(printed):
    line = Line(xs(), [30 - 0.05 * x * x for x in xs()], "pump Ж, 24 V")
    (page,) = printed(Figure(chart(line), "c", "a curve"))
    for said in ("Flow [l/min]", "Head [kPa]", "pump Ж, 24 V"):
        assert said in page.text


def test_a_character_the_typeface_lacks_does_no_harm(printed):
    (page,) = printed(Figure(chart(Line([0, 1], [0, 1], "北")), "c", "a curve"))
    assert "[U+5317]" in page.text


def test_a_curve_is_not_scaled(printed):
    (page,) = printed(Figure(chart(Line(xs(), xs(), "a")), "c", "a"))
    assert {w.size for w in page.words if w.text in {"Flow", "Head", "a"} and w.size != 8.5} == {8.0}


def test_the_plotting_library_is_loaded_for_the_first_curve_and_not_before():
    code = (
        "import sys, dossier.rendering.pages, dossier.rendering.charts as c\n"
        "c.LineChart(100, 60, (c.Line([0, 1], [0, 1], 'a'),), 'x', 'y')\n"
        "assert 'matplotlib' not in sys.modules and 'reportlab.platypus' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_settings_of_the_user_are_neither_used_nor_changed(written):
    line = Figure(chart(Line(xs(), xs(), "a")), "c", "a")
    plain = written(line).read_bytes()
    with mpl.rc_context({"lines.linewidth": 9.0, "font.size": 33.0, "axes.grid": True}):
        assert written(line).read_bytes() == plain
        assert mpl.rcParams["font.size"] == 33.0


def test_any_figure_of_the_plotting_library_can_be_set(printed):
    def plot(figure):
        axes = figure.add_axes((0.1, 0.15, 0.8, 0.75))
        axes.fill_between([0, 1, 2], [0, 1, 0], color="0.8")
        axes.scatter([0, 1], [0.2, 0.4])
        axes.set_title("Any title", style="italic")
        axes.set_ylabel("turned words")
        axes.plot([0, math.nan, 2], [1, 1, 1])

    (page,) = printed(Figure(Curve(100, 70, plot), "c", "a"))
    assert "Any title" in page.text
    assert "0.5" in page.text


def test_a_picture_in_a_curve_is_refused(printed):
    def plot(figure):
        figure.add_axes((0, 0, 1, 1)).imshow([[0, 1], [1, 0]])

    with pytest.raises(NotImplementedError, match="no pictures"):
        printed(Figure(Curve(50, 50, plot), "c", "a"))


@pytest.mark.parametrize(
    ("number", "said"), [(-0.0, "0"), (-2.5, "−2.5"), (12000, "12,000"), (0.1 + 0.2, "0.3")]
)
def test_numbers_at_an_axis(number, said):
    assert tick_text(number) == said


def boxes(made):
    area = (10.5 * MM, 9 * MM, made.width - 14.5 * MM, made.height - 18.5 * MM)
    (x_low, x_high), (y_low, y_high) = made.ranges()
    paths = [
        [
            (
                area[0] + (x - x_low) / (x_high - x_low) * area[2],
                area[1] + (y - y_low) / (y_high - y_low) * area[3],
            )
            for x, y in zip(line.x, line.y, strict=True)
        ]
        for line in (*made.lines, *(Line((p.x,), (p.y,), p.label) for p in made.points))
    ]
    return place_labels(made, paths, area)


def meet(one, other):
    a, b = one.box, other.box
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


@given(st.lists(st.floats(0.5, 3.0), min_size=1, max_size=5), st.integers(0, 3))
@settings(max_examples=40, deadline=None)
def test_names_of_curves_never_cover_one_another(slopes, points):
    lines = [Line(xs(), [x**slope for x in xs()], f"case {n}") for n, slope in enumerate(slopes)]
    dots = tuple(Point(4 + 4 * n, 10 + 9 * n, "abc"[n]) for n in range(points))
    labels = boxes(chart(*lines, points=dots, levels=(Level(9, "least"),), y_range=(0, 60)))
    assert {label.words for label in labels} >= {line.label for line in lines} | {dot.label for dot in dots}
    for place, label in enumerate(labels):
        assert not any(meet(label, other) for other in labels[place + 1 :]), label


def test_names_stay_on_the_chart():
    made = chart(
        Line(xs(), xs(), "a rather long name of a curve at its end"),
        Line(xs(), [19 - x for x in xs()], "short"),
    )
    for label in boxes(made):
        left, bottom, right, top = label.box
        assert left > -2.1
        assert bottom > -2.1
        assert right < made.width + 2.1
        assert top < made.height + 2.1


def test_curves_differ_by_their_dashes(written):
    lines = [Line(xs(), [x * k for x in xs()], dash.value, dash) for k, dash in enumerate(Dash, 1)]
    code = (
        pypdf.PdfReader(written(Figure(chart(*lines), "c", "a")))
        .pages[0]
        .get_contents()
        .get_data()
        .decode("latin-1")
    )
    patterns = {p for p in re.findall(r"\[([\d. ]*)\] [\d.]+ d", code) if p}
    assert len(patterns) >= len(Dash) - 1


def test_a_figure_wider_than_the_sheet_is_a_fault(printed):
    wide = LineChart(190, 60, (Line([0, 1], [0, 1], "a"),), "x", "y")
    with pytest.raises(PageFault, match=r"190 mm wide; there are 175 mm"):
        printed(Paragraph("x"), Figure(wide, "c", "a", key="wide"))


def test_a_limit_beyond_the_axes_is_not_drawn_beside_the_figure(printed):
    line = Line([0, 1], [0, 1], "pump")
    (page,) = printed(
        Figure(chart(line, levels=[Level(4.0, "beyond"), Level(0.5, "within")]), "c", "a curve")
    )
    assert "within" in page.text
    assert "beyond" not in page.text
