"""Runs against boxes and each other, by dense points and by a library's minimiser."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from dossier.physics.boxes import Box
from dossier.physics.nearness import (
    leg_box_distance,
    leg_leg_distance,
    leg_length_inside,
    run_box_distance,
    run_distance,
    run_length_inside,
)

QUICK = settings(max_examples=80, deadline=None, derandomize=True)
coordinate = st.integers(-16, 16).map(lambda n: n / 8)
points = st.tuples(coordinate, coordinate, coordinate)
sizes = st.tuples(*[st.integers(0, 12).map(lambda n: n / 8)] * 3)


def along(start, end, steps=4001):
    return np.asarray(start) + np.linspace(0, 1, steps)[:, None] * (np.asarray(end) - np.asarray(start))


@QUICK
@given(points, points, points, sizes)
def test_leg_and_box_against_dense_points(start, end, low, size):
    high = tuple(a + b for a, b in zip(low, size, strict=True))
    places = along(start, end)
    off = np.sqrt((np.maximum(np.maximum(low - places, places - high), 0) ** 2).sum(axis=1)).min()
    found = leg_box_distance(*start, *end, *low, *high)
    step = np.linalg.norm(np.subtract(end, start)) / 4000
    assert found <= off + 1e-12
    assert off <= found + step
    inside = ((places >= low) & (places <= high)).all(axis=1).mean() * step * 4000
    assert leg_length_inside(*start, *end, *low, *high) == pytest.approx(inside, abs=3 * step + 1e-9)


@QUICK
@given(points, points, points, points)
def test_two_legs_against_a_librarys_minimiser(a, b, c, d):
    """scipy.optimize.minimize over both shares of the way, from several starts."""

    def apart(shares):
        one = np.asarray(a) + shares[0] * np.subtract(b, a)
        other = np.asarray(c) + shares[1] * np.subtract(d, c)
        return ((one - other) ** 2).sum()

    theirs = min(
        minimize(apart, start, bounds=[(0, 1)] * 2, method="L-BFGS-B", tol=1e-14).fun
        for start in ((0.5, 0.5), (0.0, 1.0))
    )
    found = leg_leg_distance(*a, *b, *c, *d)
    assert found**2 == pytest.approx(theirs, abs=1e-7)
    assert found**2 <= theirs + 1e-12


@pytest.mark.parametrize(
    ("start", "end", "distance"),
    [
        ((-1.0, 0.5, 0.5), (2.0, 0.5, 0.5), 0.0),  # through
        ((2.0, 2.0, 0.5), (3.0, 3.0, 0.5), 2**0.5),  # to an edge
        ((2.0, 2.0, 2.0), (3.0, 3.0, 3.0), 3**0.5),  # to a corner
        ((-1.0, 2.0, 0.5), (2.0, 2.0, 0.5), 1.0),  # along a face
        ((2.0, 0.0, 0.5), (0.0, 2.0, 0.5), 0.0),  # touching an edge
        ((3.0, 0.0, 0.5), (0.0, 3.0, 0.5), 0.5**0.5),  # across an edge
        ((2.0, 0.5, 0.5), (2.0, 0.5, 0.5), 1.0),  # a point
    ],
)
def test_leg_and_unit_cube(start, end, distance):
    """Elementary geometry."""
    assert leg_box_distance(*start, *end, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0) == pytest.approx(distance, abs=1e-15)


def test_crossing_parallel_and_skew_legs():
    """Elementary geometry."""
    assert leg_leg_distance(0.0, 0.0, 0.0, 2.0, 0.0, 0.0, 1.0, -1.0, 0.0, 1.0, 1.0, 0.0) == 0
    assert leg_leg_distance(0.0, 0.0, 0.0, 2.0, 0.0, 0.0, 1.0, -1.0, 0.3, 1.0, 1.0, 0.3) == pytest.approx(0.3)
    assert leg_leg_distance(0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 3.0, 4.0, 0.0, 9.0, 4.0, 0.0) == pytest.approx(
        20**0.5
    )
    assert leg_leg_distance(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 3.0, 4.0, 0.0, 3.0, 4.0, 0.0) == pytest.approx(5)


def test_many_legs_at_once():
    rng = np.random.default_rng(7)
    ends, low = rng.uniform(-2, 2, (6, 300)), rng.uniform(-2, 2, (3, 300))
    high = low + rng.uniform(0, 1, (3, 300))
    found = leg_box_distance(*ends, *low, *high)
    assert found == pytest.approx(
        [leg_box_distance(*ends[:, n], *low[:, n], *high[:, n]) for n in range(300)]
    )


FUEL_LINE = [(3.0, 0.5, 0.0), (2.2, -1.0, 0.1)]
EXHAUST = [(2.1, -1.2, 0.55), (2.1, -1.6, 0.95), (1.6, -1.9, 1.05)]


def test_runs_by_their_nearest_legs():
    """Dense points on both runs."""
    exhaust = np.concatenate([along(a, b, 801) for a, b in pairwise(EXHAUST)])
    line = along(*FUEL_LINE, 801)
    theirs = np.sqrt(((exhaust[:, None] - line[None]) ** 2).sum(axis=-1)).min()
    assert run_distance(FUEL_LINE, EXHAUST) == pytest.approx(theirs, abs=1e-3)
    assert run_distance([(0.0, 0.0, 0.0)], [(3.0, 4.0, 0.0)]) == pytest.approx(5)


def test_exhaust_through_a_cabin():
    cabin = Box((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))
    run = [(-1.0, 0.5, 0.5), (0.5, 0.5, 0.5), (0.5, 0.5, 2.5)]
    assert run_length_inside(run, cabin) == pytest.approx(1.0)
    assert run_box_distance(run, cabin) == 0
    assert run_box_distance([(0.5, 0.5, 3.0)], cabin) == pytest.approx(2)
