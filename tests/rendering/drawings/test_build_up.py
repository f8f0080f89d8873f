"""Section and temperature share one axis at scale; bars share one scale; patterns stay inside their boxes."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dossier.rendering.drawings.bars import BAR, Bar, Piece, bars
from dossier.rendering.drawings.build_up import BuildUp, Layer, Rib, build_up
from dossier.rendering.drawings.hatching import (
    AIR,
    CONCRETE,
    CROSSED,
    DOTS,
    FIBROUS,
    FOAM,
    GLASS,
    LINES,
    LIQUID,
    METAL,
    PLAIN,
    PLASTIC,
    SOLID,
    STROKES,
    WOOD,
    Hatch,
)
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.record import chords, misfits, record
from dossier.rendering.drawings.shapes import Circle, Text
from dossier.rendering.drawings.temperature_course import Course, Surface

MATERIALS = (METAL, WOOD, FIBROUS, FOAM, PLASTIC, GLASS, CONCRETE, AIR, LIQUID)
PATTERNS = (*MATERIALS, PLAIN, SOLID, STROKES, CROSSED, LINES, DOTS)
TOPSIDES = BuildUp(
    layers=(
        Layer("steel plate", 0.006, "6", METAL),
        Layer("mineral wool", 0.050, "50", FIBROUS),
        Layer("air", 0.020, "20", AIR),
        Layer("plywood", 0.009, "9", WOOD),
    ),
    between=Course(
        -10.0,
        ((0, -9.3), (0.006, -9.3), (0.056, 13.7), (0.076, 16.4), (0.085, 17.6)),
        20.0,
        "between frames",
        Surface("17 °C: dry", is_wet=False),
    ),
    ticks=((-10.0, "−10"), (0.0, "0"), (10.0, "10"), (20.0, "20 °C")),
    along=Course(
        -10.0,
        ((0, -7.6), (0.006, -7), (0.056, -3.5), (0.085, 2)),
        20.0,
        "along a frame",
        Surface("2 °C: wet", is_wet=True),
    ),
    rib=Rib(0.055, 0.006, 0.050),
    dew_point=(12.0, "dew point of the room, 12 °C"),
    outside=("outside", "−10 °C"),
    inside=("inside", "20 °C"),
)


def hatches(drawing, pattern):
    return [shape.box for shape in drawing.shapes if isinstance(shape, Hatch) and shape.pattern == pattern]


def test_a_wall_of_85_millimetres_is_85_millimetres_on_paper_at_one_to_one():
    drawing = build_up(TOPSIDES, 120)
    assert drawing.title == "1 : 1"
    [wool] = hatches(drawing, FIBROUS)
    [ply] = hatches(drawing, WOOD)
    assert wool.width == pytest.approx(50)
    assert ply.right - wool.left + 6 == pytest.approx(85)


def test_the_temperature_stands_over_the_face_it_belongs_to_on_the_scale_of_the_ticks():
    drawing = build_up(TOPSIDES, 120)
    [ply] = hatches(drawing, WOOD)
    open_mark, full_mark = (
        next(s for s in drawing.shapes if isinstance(s, Circle) and s.fill == fill)
        for fill in ("FFFFFF", "000000")
    )
    assert open_mark.x == full_mark.x == pytest.approx(ply.right)
    low, high = (
        next(s.y for s in drawing.shapes if isinstance(s, Text) and s.text == tick and s.anchor == "end")
        for tick in ("−10", "20 °C")
    )
    degree = (high - low) / 30
    assert open_mark.y - full_mark.y == pytest.approx((17.6 - 2.0) * degree)


def test_dry_is_an_open_dot_and_wet_a_full_one_both_with_their_word():
    texts = record(build_up(TOPSIDES, 120)).texts
    assert {
        "17 °C: dry",
        "2 °C: wet",
        "dew point of the room, 12 °C",
        "between frames",
        "along a frame",
    } <= set(texts)


def test_the_frame_stands_on_the_plating_with_its_flange_inward():
    drawing = build_up(TOPSIDES, 120)
    plate, web, flange = sorted(hatches(drawing, METAL), key=lambda box: box.left)
    assert web.left == pytest.approx(plate.right)
    assert flange.right == pytest.approx(plate.right + 55)
    assert web.height == pytest.approx(6)
    assert flange.height == pytest.approx(47.04)  # 50 mm, cut to what the section shows


def test_thin_layers_are_numbered_and_listed():
    layers = tuple(Layer(f"skin {n}", 0.0004, "0.4", PLASTIC) for n in range(8))
    drawing = build_up(
        BuildUp(layers, Course(0.0, ((0, 1), (0.0032, 19)), 20.0), ((0.0, "0"), (20.0, "20 °C"))), 120
    )
    texts = record(drawing).texts
    assert misfits(drawing) == ()
    assert {f"0.4 skin {n}" for n in range(8)} <= set(texts)


def any_build_up(seed):
    """A wall of up to nine layers with everything that may be shown of it."""
    draw = random.Random(seed)  # noqa: S311 - draws test cases
    names = ["air", "steel plate", "closed-cell foam, glued", "vapour barrier with taped joints"]
    layers, depth, points = [], 0.0, [(0.0, draw.uniform(-10, 0))]
    for _ in range(draw.randint(1, 9)):
        thickness = draw.choice([0.0002, 0.003, 0.006, 0.009, 0.02, 0.05, 0.12])
        layers.append(Layer(draw.choice(names), thickness, f"{thickness * 1000:g}", draw.choice(PATTERNS)))
        depth += thickness
        points.append((depth, points[-1][1] + draw.uniform(0, 6)))
    surface = draw.choice([None, Surface("17 °C: dry", is_wet=False), Surface("2 °C: wet", is_wet=True)])
    colder = tuple((d, t - 3) for d, t in points)
    return BuildUp(
        tuple(layers),
        Course(-10.0, tuple(points), 20.0, "between frames", surface),
        ((-10.0, "−10"), (0.0, "0"), (10.0, "10"), (20.0, "20 °C")),
        draw.choice([None, Course(-10.0, colder, 20.0, "along a frame", surface)]),
        draw.choice([None, Rib(depth / 2, 0.006, 0.05)]),
        draw.choice([None, (draw.uniform(0, 18), "dew point of the room")]),
        ("outside", "−10 °C"),
        ("inside", "20 °C"),
    )


@settings(max_examples=50, deadline=None)
@given(st.integers(0, 10**9), st.sampled_from([90, 120, 175]))
def test_no_lettering_of_any_build_up_meets_anything(seed, width):
    drawn = any_build_up(seed)
    drawing = build_up(drawn, width)
    assert misfits(drawing) == ()
    said = " ".join(record(drawing).texts)
    assert all(layer.text in said for layer in drawn.layers)


@pytest.mark.parametrize("pattern", PATTERNS)
@pytest.mark.parametrize("box", [Box(3, 4, 30, 13), Box(3.3, 4.1, 4.0, 60), Box(0, 0, 0.1, 0.1)])
def test_a_pattern_stays_inside_its_box(pattern, box):
    edge = box.grown(0.001)
    for part in Hatch(box, pattern).parts():
        for a, b in chords(part):
            assert all(edge.left <= x <= edge.right and edge.bottom <= y <= edge.top for x, y in (a, b))


def test_no_two_patterns_of_the_bars_look_alike():
    box = Box(0, 0, 20, 9)
    looks = {tuple(Hatch(box, pattern).parts()) for pattern in (PLAIN, SOLID, STROKES, CROSSED, LINES, DOTS)}
    assert len(looks) == 6


def row(name, *amounts):
    patterns = (PLAIN, SOLID, STROKES, CROSSED, LINES, DOTS)
    pieces = tuple(Piece(a, p, f"{a:,.0f}") for a, p in zip(amounts, patterns, strict=False))
    return Bar(name, pieces, f"{sum(amounts):,.0f}", "held at 20 °C")


def test_bars_share_one_scale_and_the_longest_fills_the_width():
    drawing = bars((row("Saloon", 580, 85, 355, 575), row("Heads", 145, 0, 70, 70)), 120)
    boxes = [shape.box for shape in drawing.shapes if isinstance(shape, Hatch)]
    assert boxes[0].width / boxes[4].width == pytest.approx(580 / 145)
    assert all(box.height == pytest.approx(BAR) for box in boxes)
    total = record(drawing).label("1,595").box
    assert total.right == pytest.approx(119.5, abs=0.1)


def test_a_number_stands_only_where_it_fits():
    texts = record(bars((row("Saloon", 1500, 20),), 120)).texts
    assert "1,500" in texts
    assert "20" not in texts


def test_a_piece_of_less_than_nothing_is_refused():
    with pytest.raises(ValueError, match="less than nothing"):
        bars((row("Saloon", -1.0),), 120)


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["Saloon", "Starboard-quarter-berth-and-oilskin-locker", "R & D"]),
            st.lists(st.floats(0, 4000), min_size=1, max_size=6),
        ),
        min_size=1,
        max_size=8,
    ),
    st.sampled_from([90, 120, 175]),
)
def test_no_lettering_of_the_bars_meets_anything(rows, width):
    assert misfits(bars(tuple(row(name, *amounts) for name, amounts in rows), width)) == ()


def test_bars_of_nothing_are_empty():
    assert misfits(bars((row("Saloon", 0.0),), 120)) == ()
    assert bars((), 120).shapes
