"""The arrangement is to scale, shows service room on the side it is asked for, and keeps every name apart."""

import random

import pytest

from dossier.rendering.drawings.arrangement import Arrangement, Part, Service, Way
from dossier.rendering.drawings.arrangement_fit import leaves
from dossier.rendering.drawings.arrangement_sheet import arrangement_sheets
from dossier.rendering.drawings.plane import Box, pieces_within
from dossier.rendering.drawings.record import misfits, record
from dossier.rendering.drawings.sheet import Form, Sheet, TitleBlock
from dossier.rendering.drawings.space import Cuboid
from dossier.rendering.drawings.tag_list import tag_list

FORM = Form(TitleBlock(title="Arrangement", boat="Marsh Heron"), notes=("Tags shown: B1.",))
ENGINE_ROOM = Cuboid("engine room", (2.8, -2.0, -0.9), (6.6, 2.0, 1.1))
SALOON = Cuboid("saloon", (6.6, -2.0, -0.5), (11.0, 2.0, 1.5))
BURNER = Part(
    Cuboid("B1", (5.3, -1.55, 0.1), (5.85, -1.23, 0.44)),
    (Service("port", 0.3, "300"), Service("top", 0.15, "150")),
)
STORE = Part(Cuboid("T1", (3.2, 0.9, -0.3), (3.7, 1.4, 0.5)))
BOAT = Arrangement(
    (ENGINE_ROOM, SALOON), (BURNER, STORE), ((5.6, -1.35, 0.42), (5.6, -1.35, 0.9), (4.4, -2.05, 0.87))
)


def test_room_to_port_of_a_part_lies_on_its_port_side():
    room = BURNER.envelope(BURNER.services[0])
    assert room.low == (5.3, -1.23, 0.1)
    assert room.high == pytest.approx((5.85, -0.93, 0.44))


def test_the_whole_boat_stands_in_plan_and_elevation_then_the_space_with_service_room_in_detail():
    found = leaves(BOAT, Box(25, 60, 282, 195))
    ways = [view.way for leaf in found for view in leaf.views]
    assert ways == [Way.PLAN, Way.ELEVATION, Way.PLAN, Way.ELEVATION]
    assert found[-1].ratio < found[0].ratio
    assert found[-1].views[0].space is ENGINE_ROOM


def test_spaces_shown_in_detail_share_a_sheet_at_one_scale_where_it_holds_them():
    heater = Part(Cuboid("F1", (7.0, -1.5, 0.0), (7.4, -1.2, 0.5)), (Service("fore", 0.3, "300"),))
    upright = Box(25, 80, 195, 282)
    *_, detail = leaves(Arrangement(BOAT.spaces, (BURNER, STORE, heater)), upright)
    assert [view.space for view in detail.views] == [ENGINE_ROOM, ENGINE_ROOM, SALOON, SALOON]
    assert {view.window.ratio for view in detail.views} == {detail.ratio}
    above, below = detail.views[0].frame, detail.views[2].frame
    assert above.bottom > below.top


def test_each_part_stands_in_the_elevation_right_below_its_place_in_the_plan():
    # first-angle or third-angle, the views of one object are in line: ISO 5456-2:1996, 5.1, from memory
    whole, *_ = leaves(BOAT, Box(25, 80, 195, 282))
    plan, elevation = whole.views
    assert plan.window.origin[0] == pytest.approx(elevation.window.origin[0])
    assert plan.frame.bottom > elevation.frame.top


def test_a_part_bears_its_tag_in_every_view_of_it():
    plan_and_elevation = arrangement_sheets(BOAT, FORM)
    for drawing in plan_and_elevation:
        seen = record(drawing)
        assert "B1" in {*seen.texts, *(sign.name for sign in seen.signs)}


def test_a_part_is_as_large_as_the_scale_in_the_title_block_says():
    for drawing in arrangement_sheets(BOAT, FORM):
        ratio = int(drawing.scale.removeprefix("1 : "))
        width = 0.55 * 1000 / ratio
        seen = record(drawing)
        lengths = {round(abs(p.end[0] - p.start[0]), 6) for p in seen.pieces if p.start[1] == p.end[1]}
        assert round(width, 6) in lengths


def test_every_sheet_bears_its_scale_bar_and_the_arrow_to_the_bow():
    for drawing in arrangement_sheets(BOAT, FORM):
        assert {"FWD", "m"} <= set(record(drawing).texts)


def test_service_room_that_is_not_there_is_crossed_out_and_said():
    short = Part(BURNER.box, (Service("port", 0.3, "300", "120 free of 300"),))
    drawing = arrangement_sheets(Arrangement((ENGINE_ROOM,), (short, STORE)), FORM)[-1]
    seen = record(drawing)
    assert "120 free of 300" in seen.texts
    assert any(p.start[0] != p.end[0] and p.start[1] != p.end[1] for p in seen.pieces if p.width == 0.25)


def boat(seed):
    """Any boat: up to five spaces, a dozen parts with long names, some behind each other."""
    rng = random.Random(seed)  # noqa: S311 - draws test cases
    spaces, left = [], 0.0
    for n in range(rng.randint(0, 5)):
        length = rng.uniform(0.8, 5.0)
        low = (left, -rng.uniform(0.5, 2.2), -0.6)
        high = (left + length, rng.uniform(0.5, 2.2), rng.uniform(0.4, 2.0))
        spaces.append(
            Cuboid(rng.choice(["saloon", f"starboard quarter berth and oilskin locker {n}"]), low, high)
        )
        left += length * rng.choice([0.6, 1.0])
    parts = []
    for n in range(rng.randint(1, 12)):
        x, y, z = rng.uniform(0, max(left, 2.0)), rng.uniform(-2, 2), rng.uniform(-0.5, 1.5)
        size = [rng.uniform(0.05, 0.7) for _ in range(3)]
        name = rng.choice(
            [f"F{n}", f"B{n}", "diesel tank under the starboard side deck, forward of the frame"]
        )
        services = tuple(
            Service(side, 0.2, "200", rng.choice(["", "50 free of 200"]))
            for side in rng.sample(["port", "starboard", "fore", "aft", "top", "bottom"], rng.randint(0, 3))
        )
        parts.append(Part(Cuboid(name, (x, y, z), (x + size[0], y + size[1], z + size[2])), services))
    return Arrangement(tuple(spaces), tuple(parts), BOAT.exhaust if rng.random() < 0.5 else ())


@pytest.mark.parametrize("seed", range(12))
def test_no_name_stands_on_another_or_on_a_line_whatever_the_boat(seed):
    for paper in ("A4", "letter", "A4 portrait", "letter portrait"):
        form = Form(TitleBlock(title="Arrangement"), paper)
        for drawing in arrangement_sheets(boat(seed), form):
            assert misfits(drawing, Sheet(paper).frame.grown(8.0)) == ()


def test_a_line_is_cut_at_the_edge_of_its_view():
    pieces = pieces_within(
        ((-5.0, 5.0), (5.0, 5.0), (5.0, 15.0), (20.0, 15.0), (20.0, 5.0), (8.0, 5.0)), Box(0, 0, 10, 10)
    )
    assert pieces == [((0.0, 5.0), (5.0, 5.0), (5.0, 10.0)), ((10.0, 5.0), (8.0, 5.0))]


def test_tags_that_follow_each_other_are_drawn_together():
    assert tag_list(["V2", "F1", "V1", "V3", "B1", "V10", "V11"]) == "B1, F1, V1–V3, V10, V11"


def test_each_sheet_names_the_tags_and_the_kinds_of_line_that_stand_on_it_alone():
    *whole, detail = arrangement_sheets(BOAT, FORM, say_tags=lambda tags: f"Seen: {tag_list(tags)}.")
    assert all("Seen: B1, T1." in record(sheet).texts for sheet in whole)
    seen = record(detail).texts
    assert "Seen: B1." in seen
    assert "pipe of the circuit" not in seen
    assert "room that is not there" not in seen
