"""The header stands over its wet points to scale, upright and heeled, and the table holds every condition."""

import random

import pytest

from dossier.rendering.drawings.heights import Heights, Stance, Wet
from dossier.rendering.drawings.heights_sheet import heights_sheet
from dossier.rendering.drawings.record import misfits, record
from dossier.rendering.drawings.sheet import Form, Sheet, TitleBlock
from dossier.rendering.drawings.space import PORT, STARBOARD, Cuboid, heeled

FORM = Form(TitleBlock(title="Header and heights", boat="Marsh Heron"))
HEADER = Cuboid("T2", (5.5, -0.75, 2.12), (5.75, -0.55, 2.37))
VENT = Wet("F1 vent", "1,720", (5.5, -1.05, 1.72))
STANCES = (
    Stance("Upright", over="F1 vent", found="400", limit="≥ 0"),
    Stance("Heeled 20°", "to port", 20, PORT, "F1 vent", "239", "≥ 0"),
)
HEIGHTS = Heights(
    HEADER,
    "bottom 2,120",
    (VENT,),
    STANCES,
    (Cuboid("F1", (5.4, -1.2, 1.2), (5.8, -0.95, 1.65)),),
    ((0.3, "cold"), (0.7, "hot")),
    (("upright", "F1 vent", "400", "≥ 0"), ("heeled 20°", "F1 vent", "239", "≥ 0")),
)


def upright_lengths(drawing, x):
    seen = record(drawing)
    return [abs(p.end[1] - p.start[1]) for p in seen.pieces if p.start[0] == p.end[0] == pytest.approx(x)]


def test_the_level_of_the_header_and_the_point_stand_apart_as_the_scale_says():
    drawing = heights_sheet(HEIGHTS, FORM)
    ratio = int(drawing.scale.removeprefix("1 : "))
    seen = record(drawing)
    level = [p.start[1] for p in seen.pieces if p.start[1] == p.end[1] and 40 < p.end[0] - p.start[0] < 90]
    assert any(abs(a - b) == pytest.approx(0.4 * 1000 / ratio, abs=1e-6) for a in level for b in level)
    # Plane rotation (identity): the header stands to port of the vent; heel to port brings it down.
    foot, vent = (heeled(at, 20, PORT)[2] for at in (HEIGHTS.foot, VENT.at))
    assert any(
        abs(a - b) == pytest.approx((foot - vent) * 1000 / ratio, abs=1e-6) for a in level for b in level
    )


def test_every_condition_stands_in_the_table_and_every_figure_on_the_sheet():
    texts = record(heights_sheet(HEIGHTS, FORM)).texts
    assert {"400", "239", "upright", "heeled 20°", "bottom 2,120", "1,720"} <= set(texts)


def any_heights(seed):
    rng = random.Random(seed)  # noqa: S311 - draws test cases
    places = [
        (rng.uniform(0, 12), rng.uniform(-2, 2), rng.uniform(-0.5, 2.5)) for _ in range(rng.randint(1, 14))
    ]
    names = ["R3 top in the bathroom, behind the shower bulkhead to starboard", "F1 vent", "ring_12"]
    points = tuple(Wet(f"{rng.choice(names)} {n}", "1,720", at) for n, at in enumerate(places))
    parts = tuple(
        Cuboid(f"F{n}", (x, y, z), (x + 0.3, y + rng.uniform(0.1, 0.6), z + rng.uniform(0.1, 1.2)))
        for n, (x, y, z) in enumerate(places)
    )
    over = points[0].name
    stances = (
        Stance("Upright", "on the loaded waterline", 0, STARBOARD, over, "−1,350", "≥ 0"),
        Stance("Heeled 35°", "to port", 35, PORT, over, "−2,418", "≥ 0"),
    )
    rows = tuple((f"heeled {n}°", over, "−418", "≥ 0") for n in range(rng.randint(1, 5)))
    return Heights(HEADER, "bottom 2,120", points, stances, parts, ((0.3, "cold"),), rows)


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_no_name_stands_on_another_or_on_a_line(seed, paper):
    drawing = heights_sheet(any_heights(seed), Form(TitleBlock(title="Heights"), paper))
    assert misfits(drawing, Sheet(paper).frame.grown(8.0)) == ()
