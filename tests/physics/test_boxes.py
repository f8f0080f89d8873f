"""Boxes: distances against brute force, service space, margins, lowest corners."""

from itertools import product
from math import radians

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dossier.notation import Line, Traced, lines_behind
from dossier.physics.attitude import heeled_height, trimmed_height
from dossier.physics.boxes import (
    Box,
    Side,
    axis_gap,
    box_separation,
    free_space,
    is_inside,
    lowest_height_heeled,
    lowest_height_trimmed,
    margin_inside,
    separation,
    service_space,
)

QUICK = settings(max_examples=60, deadline=None, derandomize=True)
coordinate = st.integers(-20, 20).map(lambda n: n / 8)
boxes = st.builds(
    Box.of_size,
    st.tuples(coordinate, coordinate, coordinate),
    st.tuples(*[st.integers(1, 16).map(lambda n: n / 8)] * 3),
)


def grid(box, steps=9):
    """Points of a box, faces and corners among them."""
    return np.array(
        list(product(*(np.linspace(low, high, steps) for low, high in zip(box.low, box.high, strict=True))))
    )


@QUICK
@given(boxes, boxes)
def test_distance_of_boxes_against_dense_points(one, other):
    apart = np.sqrt(((grid(one)[:, None] - grid(other)[None]) ** 2).sum(axis=-1)).min()
    found = box_separation(one, other)
    if found > 0:
        # The nearest points may lie between the points of the grid, a step apart at most.
        assert found <= apart + 1e-12
        assert apart <= found + np.sqrt(3) * 0.25
    assert found == box_separation(other, one)


@QUICK
@given(boxes, boxes)
def test_clash_is_freed_by_the_least_shift(one, other):
    found = box_separation(one, other)
    if found >= 0:
        return
    freed = []
    for axis, sign in product(range(3), (1, -1)):
        shift = [0.0, 0.0, 0.0]
        shift[axis] = -found * sign
        moved = Box(
            tuple(a + b for a, b in zip(one.low, shift, strict=True)),
            tuple(a + b for a, b in zip(one.high, shift, strict=True)),
        )
        freed.append(box_separation(moved, other))
    assert max(freed) == pytest.approx(0, abs=1e-12)


def test_touching_boxes_are_neither_apart_nor_clashing():
    assert box_separation(Box((0, 0, 0), (1, 1, 1)), Box((1, 0, 0), (2, 1, 1))) == 0
    assert box_separation(Box((0, 0, 0), (1, 1, 1)), Box((2, 3, 0), (3, 4, 1))) == pytest.approx(5**0.5)


def test_many_boxes_at_once():
    rng = np.random.default_rng(4)
    low, other_low = rng.uniform(-2, 2, (2, 3, 200))
    high, other_high = low + rng.uniform(0.1, 1, (3, 200)), other_low + rng.uniform(0.1, 1, (3, 200))
    found = separation(*(axis_gap(low[k], high[k], other_low[k], other_high[k]) for k in range(3)))
    each = [
        box_separation(
            Box(tuple(low[:, n]), tuple(high[:, n])), Box(tuple(other_low[:, n]), tuple(other_high[:, n]))
        )
        for n in range(200)
    ]
    assert found == pytest.approx(each)


BURNER = Box.of_size((5.30, -1.55, 0.10), (0.55, 0.32, 0.34))
ENGINE_ROOM = Box((2.8, -2.0, -0.9), (6.6, 2.0, 1.10))


def test_burner_of_the_cutter_stands_inside_its_space():
    """Invented boat A: 450 mm to the ship's side is the least."""
    assert margin_inside(BURNER, ENGINE_ROOM) == pytest.approx(0.45)
    assert margin_inside(Box((6.5, 0, 0), (6.7, 0.1, 0.1)), ENGINE_ROOM) == pytest.approx(-0.1)


def test_free_space_before_each_side():
    pump = Box.of_size((5.95, -1.50, 0.15), (0.18, 0.14, 0.14))
    found = {side: free_space(BURNER, side, [pump], ENGINE_ROOM) for side in Side}
    assert found[Side.FORE] == pytest.approx(0.10)  # the pump
    assert found[Side.AFT] == pytest.approx(2.5)
    assert found[Side.PORT] == pytest.approx(3.23)
    assert found[Side.STARBOARD] == pytest.approx(0.45)
    assert found[Side.TOP] == pytest.approx(0.66)
    assert found[Side.BOTTOM] == pytest.approx(1.0)


def test_free_space_without_bounds_and_with_a_clash():
    assert free_space(BURNER, Side.TOP) is None
    clashing = Box.of_size((5.40, -1.50, 0.40), (0.1, 0.1, 0.3))
    assert free_space(BURNER, Side.TOP, [clashing]) == pytest.approx(-0.04)


def test_beam_that_only_touches_the_service_space_edge_does_not_count():
    beside = Box.of_size((5.85, -1.55, 0.5), (0.2, 0.2, 0.2))
    assert free_space(BURNER, Side.TOP, [beside]) is None


@QUICK
@given(boxes, st.lists(boxes, max_size=4), st.sampled_from(list(Side)))
def test_free_space_is_really_free(box, obstacles, side):
    """Brute force: the service space of that depth meets none, a hair more meets one."""
    ahead = [other for other in obstacles if box_separation(box, other) >= 0]
    space = free_space(box, side, ahead)
    if space is None:
        assert all(box_separation(service_space(box, side, 50.0), other) >= 0 for other in ahead)
        return
    assert all(box_separation(service_space(box, side, space), other) >= -1e-12 for other in ahead)
    assert any(box_separation(service_space(box, side, space + 1e-3), other) < 0 for other in ahead)


@pytest.mark.parametrize("angle", [0.0, 8.0, 20.0])
def test_lowest_corner_against_all_corners(angle):
    corners = grid(BURNER, 2)
    heeled = [heeled_height(y, z, radians(angle)) for _, y, z in corners]
    assert lowest_height_heeled(BURNER, radians(angle)) == pytest.approx(min(heeled))
    trimmed = [trimmed_height(x, z, 14.2, radians(angle)) for x, _, z in corners]
    assert lowest_height_trimmed(BURNER, 14.2, radians(angle)) == pytest.approx(min(trimmed))


def test_points_on_the_face_are_inside():
    assert is_inside((5.30, -1.55, 0.10), BURNER)
    assert not is_inside((5.29, -1.55, 0.10), BURNER)


def test_separation_remembers_where_the_boxes_stand():
    at = tuple(
        Traced(value, Line(f"layout.places.B1.at.{axis}", f"{value} m"))
        for axis, value in zip("xyz", BURNER.low, strict=True)
    )
    found = box_separation(Box.of_size(at, (0.55, 0.32, 0.34)), Box((0, 0, 0), (1, 1, 1)))
    assert {line.key[-1] for line in lines_behind(found)} == {"x", "y", "z"}
