"""Bars and their patterns: to scale, named, told apart on a copy."""

from itertools import combinations

import pypdf
import pypdfium2
import pytest

from dossier.rendering.bars import Bar, Piece, StackedBars, Swing, SwingBars, Upright, UprightBars
from dossier.rendering.blocks import Column, Figure, Table
from dossier.rendering.patterns import Pattern, fill
from dossier.rendering.text import pattern_box, text

MM = 72 / 25.4
LONG = "A zone whose name goes on and on for sixty characters or even more"


def bar(name, *lengths, below="held at 20 °C"):
    pieces = [
        Piece(length, pattern, f"{length:,}") for length, pattern in zip(lengths, Pattern, strict=False)
    ]
    return Bar(name, below, pieces, f"{sum(lengths):,}")


def test_numbers_stand_where_they_fit_and_totals_at_the_ends(printed):
    bars = StackedBars(120, [bar("Saloon", 580, 10, 355), bar("Heads", 140, 0, 70)])
    (page,) = printed(Figure(bars, "Loss", "by zone"))
    said = [w.text for w in page.words]
    assert {"580", "355", "945", "210"} <= set(said)
    assert "10" not in said
    assert "0" not in said


def test_bars_are_as_long_as_their_numbers(written):
    bars = StackedBars(120, [bar("Saloon", 600), bar("Heads", 200), bar("Fore cabin", 300)])
    code = (
        pypdf.PdfReader(written(Figure(bars, "Loss", "by zone"))).pages[0].get_contents().get_data().decode()
    )
    wide = [float(line.split()[-4]) for line in code.splitlines() if line.endswith(" re S") and " re" in line]
    framed = sorted({round(w, 1) for w in wide})
    assert framed[-1] / framed[0] == pytest.approx(3, rel=0.01)
    assert framed[-1] / framed[1] == pytest.approx(2, rel=0.01)


@pytest.mark.parametrize(
    "drawing",
    [
        StackedBars(120, [bar(LONG, 580, 1000, 355, 20, 30, 40), bar("Heads", 1, below=LONG)]),
        UprightBars(
            120, 50, [Upright(LONG, [Piece(n, Pattern.DOTS)], f"{n}") for n in range(12)], "Fuel [l]"
        ),
        SwingBars(
            120,
            [Swing(LONG, 4200, 6100, "4,200", "6,100"), Swing("U", 5400, 4900, "5,400", "4,900")],
            5130,
            "5,130 W",
        ),
        SwingBars(80, [Swing("nothing moves", 5, 5, "5", "5")], 5, "5"),
        UprightBars(60, 40, [Upright("none", [Piece(0, Pattern.WHITE)], "0")], "Fuel [l]"),
    ],
)
def test_words_of_bars_stay_inside_and_apart(printed, drawing):
    (page,) = printed(Figure(drawing, "c", "a"))
    for one in page.words:
        assert one.left >= 20 * MM - 1
        assert one.right <= 20 * MM + 120 * MM + 1 or one.top > page.height - 16 * MM or one.bottom < 14 * MM
        assert not any(one is not other and one.overlaps(other) for other in page.words), one


def test_nothing_to_show_is_drawn_as_nothing(printed):
    for drawing in (StackedBars(120, []), SwingBars(120, [], 0, ""), UprightBars(120, 40, [], "Fuel [l]")):
        printed(Figure(drawing, "c", "a"))


class Swatches:
    """A field of each pattern, one beside the other."""

    width, height = 120 * MM, 15 * MM

    def draw(self, canvas, x, y):
        for number, pattern in enumerate(Pattern):
            fill(canvas, pattern, (x + number * 20 * MM, y, 18 * MM, 15 * MM))


def test_patterns_are_told_apart_on_a_copy(written):
    document = pypdfium2.PdfDocument(str(written(Figure(Swatches(), "c", "a"))))
    scale = 100 / 72
    grey = document[0].render(scale=scale, grayscale=True).to_numpy()
    document.close()
    bits = grey.reshape(grey.shape[:2]) < 128
    top = int((18 * MM + 3.75 * MM + 2.6 * MM + 2 * MM) * scale)
    fields = {}
    for number, pattern in enumerate(Pattern):
        left = int((20 + number * 20 + 2) * MM * scale)
        fields[pattern] = bits[top : top + 40, left : left + 50]
    assert fields[Pattern.BLACK].all()
    assert not fields[Pattern.WHITE].any()
    for one, other in combinations(Pattern, 2):
        assert (fields[one] ^ fields[other]).mean() > 0.05, (one, other)


def test_a_table_is_the_key_of_the_patterns(printed):
    rows = [(text(pattern_box(pattern), " ", pattern.value),) for pattern in Pattern]
    (page,) = printed(Table((Column("Way"),), rows, "t"))
    for pattern in Pattern:
        assert next(w for w in page.words if w.text == pattern.value).left > 25 * MM
