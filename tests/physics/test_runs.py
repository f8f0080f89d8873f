"""Runs through the boat: where water lies, where air stays, what they remember."""

from math import degrees, pi

import numpy as np
import pytest

from dossier.notation import Line, Traced, lines_behind
from dossier.physics.route import (
    bends,
    change_of_direction,
    developed_length,
    flattest_fall,
    high_points,
    leg_length,
    loop_top,
    low_points,
)


def heights(*levels):
    return [(float(n), 0.0, z) for n, z in enumerate(levels)]


@pytest.mark.parametrize(
    ("levels", "low", "high"),
    [
        ((0.4, 0.9, 1.0, 0.9), (0,), (2,)),  # an exhaust over its loop
        ((0.05, -0.02, 0.16, 0.18), (1,), (0, 3)),
        ((1.0, 0.9, 0.8), (), (0,)),
        ((0.8, 0.9, 1.0), (0,), (2,)),
        ((1.0, 0.5, 0.5, 0.9), (1,), (0, 3)),  # a level sag counts once
        ((0.5, 0.5, 0.9, 0.9), (0,), (2,)),
        ((1.0, 1.0, 0.5), (), (0,)),
        ((0.5, 0.5, 0.5), (), ()),
        ((0.5, 0.9, 0.5, 0.9, 0.5), (0, 2), (1, 3)),
        ((1.0, 0.5, 0.5), (), (0,)),  # level to the outlet: it drains there
    ],
)
def test_low_and_high_points_of_a_run(levels, low, high):
    assert low_points(heights(*levels)) == low
    assert high_points(heights(*levels)) == high


def test_flattest_fall_counts_level_legs_and_leaves_rising_ones_out():
    assert flattest_fall(heights(0.4, 0.9, 1.0)) is None
    assert flattest_fall(heights(0.4, 0.9, 0.9, 0.8)) == 0
    assert degrees(flattest_fall(heights(0.4, 1.4, 0.4, 0.3))) == pytest.approx(degrees(np.arctan(0.1)))


def test_turning_back_is_half_a_circle_and_a_doubled_point_nothing():
    assert change_of_direction(0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0) == pytest.approx(pi)
    square = [(0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 1.0, 0.0)]
    assert degrees(bends(square)) == pytest.approx(90)
    assert developed_length(square) == pytest.approx(2)


def test_straight_run_has_no_bend_to_the_last_digit():
    assert bends([(0.0, 0.0, 0.0), (0.1, 0.2, 0.3), (0.7, 1.4, 2.1)]) == pytest.approx(0, abs=1e-12)


def test_loop_top_is_the_first_of_equals():
    assert loop_top(heights(0.2, 1.0, 1.0, 0.8)) == 1


def test_length_remembers_every_coordinate():
    points = [
        tuple(
            Traced(value, Line(f"exhaust.route.{n}.{axis}", f"{value} m"))
            for axis, value in zip("xyz", at, strict=True)
        )
        for n, at in enumerate([(0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 2.0, 0.5)])
    ]
    assert len(lines_behind(developed_length(points))) == 9
    assert len(lines_behind(bends(points))) == 9


def test_samples_of_a_coordinate_give_samples_of_the_length():
    x = np.array([0.0, 3.0, 6.0])
    assert leg_length(x, 0.0, 0.0, 0.0, 4.0, 0.0) == pytest.approx([4, 5, 52**0.5])
