"""The exhaust is drawn to scale, on one waterline, and no figure stands on another, whatever the route."""

import math
from dataclasses import replace

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from dossier.rendering.drawings.exhaust import (
    DECK,
    SIDE,
    TRANSOM,
    Condition,
    ExhaustRoute,
    Height,
    Mark,
    Opening,
)
from dossier.rendering.drawings.exhaust_elevation import exhaust_elevation
from dossier.rendering.drawings.exhaust_plan import exhaust_plan
from dossier.rendering.drawings.exhaust_sheet import exhaust_sheets
from dossier.rendering.drawings.exhaust_view import View
from dossier.rendering.drawings.record import misfits, record
from dossier.rendering.drawings.scales import SCALES
from dossier.rendering.drawings.sheet import Form, Sheet, TitleBlock
from dossier.rendering.drawings.space import PORT, STARBOARD, Cuboid, heeled, lower_edge

ROUTE = ExhaustRoute(
    points=((5.6, -1.35, 0.42), (5.6, -1.35, 0.94), (4.6, -1.8, 1.02), (4.4, -2.05, 0.87)),
    bore=0.038,
    burner=Cuboid("B1", (5.45, -1.52, 0.1), (5.75, -1.2, 0.42)),
    lagging=0.04,
    lagging_text="lagging 40",
    fitting="double-wall fitting, isolated",
    drains=(Mark((5.6, -1.35, 0.48), "drain"),),
    openings=(
        Opening("ventilator", (3.2, -1.7, 1.3), "1,370", "≥ 500"),
        Opening("door, port side", (3.0, 1.3, 1.5), "3,670", "≥ 500"),
    ),
    compartments=(Cuboid("wheelhouse", (3.2, -1.3, 0.2), (5.9, 1.3, 2.6)),),
)
UPRIGHT = Condition("Upright", loop=Height("1,020"), outlet=Height("851", "≥ 250"))
HEELED = Condition("Heeled 20°", "to starboard", 20, STARBOARD, Height("343"), Height("98", "≥ 0"))


def ratio_of(drawing):
    return int(drawing.title.removeprefix("1 : "))


def mirrored(route):
    def port(p):
        return (p[0], -p[1], p[2])

    low, high = route.burner.low, route.burner.high
    burner = Cuboid("B1", (low[0], -high[1], low[2]), (high[0], -low[1], high[2]))
    return replace(route, points=tuple(port(p) for p in route.points), burner=burner, drains=(), openings=())


def test_heel_turns_the_low_side_down_about_the_waterline():
    """Plane rotation (identity): a mast top of 10 m heeled 30° to starboard lies 5 m out and 8.66 m up."""
    x, y, z = heeled((3.0, 0.0, 10.0), 30, STARBOARD)
    assert (x, y, z) == pytest.approx((3.0, -5.0, 10 * math.cos(math.radians(30))))
    assert heeled((3.0, -2.0, 0.0), 30, STARBOARD)[2] == pytest.approx(-1.0)
    assert heeled((3.0, -2.0, 0.0), 30, PORT)[2] == pytest.approx(1.0)


def test_the_lower_edge_of_a_level_pipe_lies_half_a_bore_below_its_axis():
    assert lower_edge((0, 0, 1), (0, -1, 1), 0.04) == pytest.approx((0, -1, 0.98))


def test_the_lower_edge_of_a_pipe_that_falls_at_45_degrees_lies_back_and_down():
    half = 0.02 / 2**0.5
    assert lower_edge((0, 0, 1), (0, -1, 0), 0.04) == pytest.approx((0, -1 + half, -half))


def test_a_pipe_straight_up_ends_level():
    assert lower_edge((0, 0, 1), (0, 0, 2), 0.04) == (0, 0, 2)


def test_the_height_of_the_outlet_is_to_scale_and_bears_found_and_limit():
    drawing = exhaust_elevation(ROUTE, (UPRIGHT,), 120)
    seen = record(drawing)
    found, limit = seen.label("851").box, seen.label("≥ 250").box
    assert limit.top < found.bottom
    x = found.middle[0]
    line = [p for p in seen.pieces if p.start[0] == p.end[0] == pytest.approx(x)]
    length = max(max(p.start[1], p.end[1]) for p in line) - min(min(p.start[1], p.end[1]) for p in line)
    edge = lower_edge(*ROUTE.points[-2:], ROUTE.bore)[2]
    assert length == pytest.approx(edge * 1000 / ratio_of(drawing), abs=0.01)


def test_both_conditions_stand_on_one_waterline_and_at_one_scale():
    drawing = exhaust_elevation(ROUTE, (UPRIGHT, HEELED), 175)
    seen = record(drawing)
    boxes = sorted((sign.box for sign in seen.signs if sign.name == "B1"), key=lambda box: box.left)
    side = 0.32 * 1000 / ratio_of(drawing)
    assert boxes[0].width == pytest.approx(side, rel=1e-6)
    turned = side * (math.cos(math.radians(20)) + math.sin(math.radians(20)))
    assert boxes[1].width == pytest.approx(turned, rel=1e-6)
    texts = {label.name: label.box for label in seen.labels}
    low = [p for p in seen.pieces if p.start[0] == p.end[0] == pytest.approx(texts["851"].middle[0])]
    water = min(min(p.start[1], p.end[1]) for p in low)
    assert boxes[0].bottom - water == pytest.approx(0.1 * 1000 / ratio_of(drawing))
    lowest = heeled((5.6, -1.52, 0.1), 20, STARBOARD)[2]
    assert boxes[1].bottom - water == pytest.approx(lowest * 1000 / ratio_of(drawing))


def test_starboard_is_drawn_to_the_right_and_port_to_the_left():
    assert View(ROUTE, UPRIGHT).out == 1
    assert View(mirrored(ROUTE), UPRIGHT).out == -1


def test_the_shell_is_taken_from_the_last_leg():
    up = replace(ROUTE, points=((2, 0, 0.4), (2, 0, 1.8)))
    aft = replace(ROUTE, points=((2, 0, 0.4), (2, 0, 0.9), (0, -0.5, 0.8)))
    assert [route.led_through for route in (ROUTE, up, aft)] == [SIDE, DECK, TRANSOM]
    assert aft.is_seen_from_the_side
    assert View(aft, UPRIGHT).out == -1


def test_the_plan_is_to_scale_forward_to_the_right_and_port_up():
    drawing = exhaust_plan(ROUTE, 120, 90)
    burner = record(drawing).sign("B1").box
    assert burner.width == pytest.approx(0.30 * 1000 / ratio_of(drawing))
    outlet = record(drawing).label("outlet").box
    assert outlet.middle[0] < burner.left
    assert outlet.middle[1] < burner.bottom
    assert {"FWD", "hull side", "ventilator", "1,370"} <= set(record(drawing).texts)


def test_an_opening_too_far_for_a_readable_scale_is_listed_not_drawn():
    far = replace(ROUTE, openings=(*ROUTE.openings, Opening("forehatch", (13.0, 0.0, 1.5), "8,900")))
    texts = record(exhaust_plan(far, 120, 90)).texts
    assert "forehatch" not in texts
    assert any(text.startswith("not drawn") and "forehatch 8,900" in text for text in texts)


def test_twenty_five_openings_are_numbered_and_each_stands_in_the_list():
    openings = tuple(
        Opening(f"port light {n}", (4 + 0.35 * (n % 9), -2.0 + 0.5 * (n // 9), 1.2), f"{400 + 90 * n:,}")
        for n in range(25)
    )
    drawing = exhaust_plan(replace(ROUTE, openings=openings), 120, 110)
    texts = record(drawing).texts
    for n in range(25):
        assert any(f"port light {n} {400 + 90 * n:,}" in text for text in texts)
    assert {str(n) for n in range(1, 26)} <= set(texts)
    assert misfits(drawing) == ()


lengths = st.floats(0.05, 2.5)
steps = st.one_of(
    st.tuples(st.floats(-2.0, 2.0), st.floats(-1.5, 1.5), st.floats(-1.0, 1.5)),
    st.sampled_from([(0, 0, 0.6), (0.8, 0, 0), (-1.5, 0, 0), (0, -0.7, 0), (0, 0.7, 0)]),
)
names = st.sampled_from(["hatch", "window, saloon to starboard", "filler"])
words = st.sampled_from(
    ["drain", "locker side, hole 180", "a passage with a very long name that has to be folded"]
)


@st.composite
def routes(draw):
    points = [(draw(st.floats(0, 9)), draw(st.floats(-1.5, 1.5)), draw(st.floats(-0.8, 1.0)))]
    for _ in range(draw(st.integers(1, 7))):
        step = draw(
            st.one_of(
                steps, st.sampled_from([(0, 0, 0.6), (0.8, 0, 0), (-1.5, 0, 0), (0, -0.7, 0), (0, 0.7, 0)])
            )
        )
        if any(abs(s) > 0.02 for s in step):
            points.append(tuple(p + s for p, s in zip(points[-1], step, strict=True)))
    x, y, z = points[0]
    deep, wide, high = draw(lengths) / 3, draw(lengths) / 3, draw(lengths) / 3
    places = st.tuples(st.floats(0, 14), st.floats(-2.2, 2.2), st.floats(0, 3))
    marks = tuple(Mark(draw(st.sampled_from(points)), draw(words)) for _ in range(draw(st.integers(0, 3))))
    openings = tuple(
        Opening(
            draw(names),
            draw(places),
            "1,370",
            "≥ 500",
            draw(st.booleans()),
        )
        for _ in range(draw(st.integers(0, 25)))
    )
    return ExhaustRoute(
        points=tuple(points),
        bore=draw(st.sampled_from([0.022, 0.038, 0.1])),
        burner=Cuboid("B1", (x - deep / 2, y - wide / 2, z - high), (x + deep / 2, y + wide / 2, z)),
        lagging=draw(st.sampled_from([0.0, 0.04])),
        lagging_text=draw(st.sampled_from(["", "lagging 40"])),
        fitting=draw(st.sampled_from(["", "double-wall fitting, isolated"])),
        passages=marks,
        drains=marks[:1],
        openings=openings,
        compartments=(Cuboid("engine room", (x - 1, -1.9, -0.8), (x + 2, 1.9, 1.1)),),
    )


heights = st.sampled_from(
    [None, Height("98", "≥ 0"), Height("1,020"), Height("−1,250 mm", "at least 250 mm")]
)


@settings(max_examples=30, deadline=None, phases=[Phase.generate])
@given(routes(), st.floats(0, 40), st.sampled_from([PORT, STARBOARD]), st.tuples(*[heights] * 4))
def test_no_figure_of_the_elevation_stands_on_another(route, angle, side, found):
    conditions = (
        Condition("Upright", "on the loaded waterline", loop=found[0], outlet=found[1]),
        Condition("Heeled", f"to {side}", angle, side, found[2], found[3]),
    )
    drawing = exhaust_elevation(route, conditions, 175, 110)
    assert misfits(drawing) == ()
    assert ratio_of(drawing) in SCALES


@settings(max_examples=30, deadline=None, phases=[Phase.generate])
@given(routes(), st.sampled_from([(120, 90), (175, 120), (85, 130)]))
def test_no_name_on_the_plan_stands_on_another(route, room):
    drawing = exhaust_plan(route, *room)
    assert misfits(drawing) == ()
    assert drawing.size == (pytest.approx(room[0]), pytest.approx(drawing.size[1]))
    said = " ".join(record(drawing).texts)
    for opening in route.openings:
        assert opening.found in said


@pytest.mark.parametrize("paper", ["A4", "A3", "letter", "A4 portrait"])
def test_the_sheet_keeps_both_figures_apart_from_the_title_block(paper):
    form = Form(TitleBlock(title="Exhaust", boat="Marsh Heron"), paper, ("Limits: common practice.",))
    for drawing in exhaust_sheets(ROUTE, (UPRIGHT, HEELED), form):
        assert misfits(drawing, Sheet(paper).frame.grown(8.0)) == ()
        block = Sheet(paper).block
        assert not any(block.meets(sign.box) for sign in record(drawing).signs)


def test_openings_far_apart_get_a_sheet_of_their_own():
    far = replace(ROUTE, openings=(*ROUTE.openings, Opening("hatch", (9.0, 1.8, 1.5), "5,900")))
    form = Form(TitleBlock(title="Exhaust"))
    sheets = exhaust_sheets(far, (UPRIGHT, HEELED), form)
    assert [sheet.scale for sheet in sheets] == ["1 : 20", "1 : 40"]
    assert "hatch" in record(sheets[1]).texts


def test_lines_that_run_close_share_no_figure_between_them():
    near = (Opening("filler", (6.4, -1.9, 1.0), "2,040"), Opening("tank vent", (6.5, -1.95, 1.3), "2,230"))
    texts = record(exhaust_plan(replace(ROUTE, openings=near), 120, 90)).texts
    assert {"filler 2,040", "tank vent 2,230"} <= set(texts)
