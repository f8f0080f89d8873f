"""A thousand random scenes of each kind against dense samples; heel and trim against rotation matrices.

Boxes have their corners on a lattice of 1/8 m, so that the nearest points of two boxes, and every cell they
share, are among the points and cells sampled: brute force is exact for them. Runs are sampled every few
millimetres.
"""

import numpy as np
import pytest
from scipy.spatial import cKDTree
from scipy.spatial.transform import Rotation

from dossier.physics.attitude import heeled_head, heeled_height, trimmed_height
from dossier.physics.box_fields import BoxField
from dossier.physics.boxes import (
    Box,
    Side,
    box_separation,
    free_space,
    lowest_height_heeled,
    lowest_height_trimmed,
)
from dossier.physics.nearness import leg_box_distance, leg_leg_distance, leg_length_inside

SCENES = 1000
CELL = 1 / 8
SAMPLES = 601
STEEPEST = np.pi / 4


@pytest.fixture(scope="module")
def chance():
    return np.random.default_rng(20261125)


def lattice_boxes(chance, count, reach):
    """Low and high corners as cells of the lattice."""
    low = chance.integers(0, reach, (count, 3))
    return low, low + chance.integers(1, 9, (count, 3))


def box(low, high):
    return Box(tuple(low * CELL), tuple(high * CELL))


def points(low, high):
    """All points of the lattice in a box, faces counted (m)."""
    axes = [np.arange(a, b + 1) * CELL for a, b in zip(low, high, strict=True)]
    return np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 3)


def cells(low, high):
    """All cells of the lattice in a box."""
    return {tuple(cell) for cell in np.argwhere(np.ones(high - low)) + low}


def test_distance_of_two_boxes_and_their_clash(chance):
    low, high = lattice_boxes(chance, 2 * SCENES, 16)
    ones, others = slice(0, SCENES), slice(SCENES, None)
    at_once = box_separation(
        Box(tuple(low[ones].T * CELL), tuple(high[ones].T * CELL)),
        Box(tuple(low[others].T * CELL), tuple(high[others].T * CELL)),
    )
    clashing = 0
    for n in range(SCENES):
        one, other = (low[n], high[n]), (low[SCENES + n], high[SCENES + n])
        apart, _ = cKDTree(points(*one)).query(points(*other))
        assert max(at_once[n], 0.0) == pytest.approx(apart.min(), abs=1e-12)
        assert (at_once[n] < 0) == bool(cells(*one) & cells(*other))
        clashing += at_once[n] < 0
    assert 50 < clashing < SCENES - 50


def test_clashes_of_whole_layouts(chance):
    found = 0
    for _ in range(SCENES // 20):
        low, high = lattice_boxes(chance, 20, 24)
        filled = [cells(a, b) for a, b in zip(low, high, strict=True)]
        expected = [
            (one, other)
            for one in range(20)
            for other in range(one + 1, 20)
            if filled[one] & filled[other]
            and not (filled[one] <= filled[other] or filled[other] <= filled[one])
        ]
        field = BoxField.of([box(a, b) for a, b in zip(low, high, strict=True)])
        assert field.clashes() == expected
        found += len(expected)
    assert found > 100


def test_boxes_that_touch_or_are_built_in_do_not_clash():
    inner, outer = Box((0.2, 0.2, 0.2), (0.4, 0.4, 0.4)), Box((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))
    beside, across = Box((1.0, 0.0, 0.0), (2.0, 1.0, 1.0)), Box((0.9, 0.5, 0.5), (1.1, 0.6, 0.6))
    field = BoxField.of([inner, outer, beside, across])
    assert field.clashes() == [(1, 3), (2, 3)]
    assert field.clashes(least=0.11) == []


def test_free_space_before_every_side_by_walking_outward(chance):
    """Cell by cell from the face, until one of those before it is taken or the wall is reached."""
    size, checked = 30, 0
    room = Box((0.0, 0.0, 0.0), (size * CELL,) * 3)
    for _ in range(SCENES // 10):
        low, high = lattice_boxes(chance, 10, 22)
        taken = np.full((size, size, size), -1)
        kept = []
        for a, b in zip(low, high, strict=True):
            part = taken[tuple(slice(*ends) for ends in zip(a, b, strict=True))]
            if (part < 0).all():
                part[...] = len(kept)
                kept.append((a, b))
        boxes = [box(a, b) for a, b in kept]
        field = BoxField.of(boxes).free_spaces([room] * len(boxes))
        for row, (a, b) in enumerate(kept):
            for column, side in enumerate(Side):
                walked = _walk(taken, a, b, side) * CELL
                assert field.space[row, column] == pytest.approx(walked, abs=1e-12)
                others = [other for place, other in enumerate(boxes) if place != row]
                assert free_space(boxes[row], side, others, room) == pytest.approx(walked, abs=1e-12)
                checked += 1
    assert checked > SCENES


def _walk(taken, low, high, side):
    axis = side.axis
    front = [slice(*ends) for ends in zip(low, high, strict=True)]
    at, step, last = (high[axis], 1, taken.shape[axis]) if side.is_upper else (low[axis] - 1, -1, -1)
    walked = 0
    while at != last:
        front[axis] = at
        if (taken[tuple(front)] >= 0).any():
            break
        walked, at = walked + 1, at + step
    return walked


@pytest.fixture(scope="module")
def legs(chance):
    """Two legs and a box for every scene."""
    ends = chance.uniform(-1.5, 1.5, (4, SCENES, 3))
    low = chance.uniform(-1, 0.5, (SCENES, 3))
    return ends, low, low + chance.uniform(0.05, 1.0, (SCENES, 3))


def along(start, end):
    """Points along a leg, and how far apart they lie."""
    share = np.linspace(0.0, 1.0, SAMPLES)[:, None]
    return start + share * (end - start), np.linalg.norm(end - start) / (SAMPLES - 1)


def test_distance_of_a_leg_and_a_box_and_what_runs_inside_it(legs):
    ends, low, high = legs
    start, end = ends[0], ends[1]
    distance = leg_box_distance(*start.T, *end.T, *low.T, *high.T)
    within = leg_length_inside(*start.T, *end.T, *low.T, *high.T)
    for n in range(SCENES):
        sampled, step = along(start[n], end[n])
        off = np.maximum(np.maximum(low[n] - sampled, sampled - high[n]), 0.0)
        nearest = np.linalg.norm(off, axis=1).min()
        assert distance[n] <= nearest + 1e-12
        assert nearest <= distance[n] + step
        inside = ((sampled >= low[n]) & (sampled <= high[n])).all(axis=1).sum() * step
        assert within[n] == pytest.approx(inside, abs=2 * step)


def test_distance_of_two_legs(legs):
    ends, _, _ = legs
    distance = leg_leg_distance(*(axis for corner in ends for axis in corner.T))
    for n in range(SCENES):
        one, step = along(ends[0, n], ends[1, n])
        other, pace = along(ends[2, n], ends[3, n])
        nearest = cKDTree(one).query(other)[0].min()
        assert distance[n] <= nearest + 1e-12
        assert nearest <= distance[n] + (step + pace) / 2


def test_heel_and_trim_against_rotation_matrices(chance):
    """Right-handed turns about the boat's own axes, to either side; the lower of both counts."""
    count, length = SCENES, 12.0
    place = chance.uniform((0, -3, -2), (length, 3, 4), (count, 3))
    angle = chance.uniform(0, STEEPEST, count)
    heeled = np.minimum(*(_turned("x", sign * angle, place)[:, 2] for sign in (1, -1)))
    assert heeled_height(place[:, 1], place[:, 2], angle) == pytest.approx(heeled, abs=1e-12)
    aft = place - (length / 2, 0, 0)
    trimmed = np.minimum(*(_turned("y", sign * angle, aft)[:, 2] for sign in (1, -1)))
    assert trimmed_height(place[:, 0], place[:, 2], length, angle) == pytest.approx(trimmed, abs=1e-12)
    other = chance.uniform((0, -3, -2), (length, 3, 4), (count, 3))
    apart = np.minimum(*(_turned("x", sign * angle, place - other)[:, 2] for sign in (1, -1)))
    between = place - other
    assert heeled_head(between[:, 2], between[:, 1], angle) == pytest.approx(apart, abs=1e-12)


def test_lowest_corner_of_a_box_against_all_eight_turned(chance):
    length = 12.0
    for _ in range(SCENES):
        low = chance.uniform((0, -2, -1), (10, 1, 1))
        high = low + chance.uniform(0.05, 1.5, 3)
        angle = chance.uniform(0, STEEPEST)
        whole = Box(tuple(low), tuple(high))
        corners = np.array(np.meshgrid(*zip(low, high, strict=True))).reshape(3, -1).T
        for axis, shift, found in (
            ("x", (0, 0, 0), lowest_height_heeled(whole, angle)),
            ("y", (length / 2, 0, 0), lowest_height_trimmed(whole, length, angle)),
        ):
            turned = [_turned(axis, sign * angle, corners - shift)[:, 2].min() for sign in (1, -1)]
            assert found == pytest.approx(min(turned), abs=1e-12)


def _turned(axis, angle, place):
    """Points turned about an axis through the origin; a rotation matrix for each angle."""
    about = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0)}[axis]
    turns = Rotation.from_rotvec(np.multiply.outer(angle, about)).as_matrix()
    return np.einsum("...ij,...j->...i", turns, place)
