"""Heel and trim: against turning the boat as a rigid body."""

from math import radians

import numpy as np
import pytest

from dossier.physics.attitude import (
    angle_under_water,
    heeled_head,
    heeled_height,
    lower_edge,
    trimmed_head,
    trimmed_height,
)


def turned(axis, angle, point):
    """Point turned about an axis through the origin (rotation matrix)."""
    along, up = (1, 2) if axis == "x" else (0, 2)
    matrix = np.eye(3)
    matrix[along, along] = matrix[up, up] = np.cos(angle)
    matrix[along, up], matrix[up, along] = -np.sin(angle), np.sin(angle)
    return matrix @ np.asarray(point)


@pytest.mark.parametrize("angle", [0.0, 5.0, 20.0, 45.0])
@pytest.mark.parametrize("point", [(3.0, 1.2, 0.8), (9.0, -1.7, 0.3), (0.0, 0.0, 1.0)])
def test_lower_of_both_sides_and_both_ends(angle, point):
    x, y, z = point
    sides = [turned("x", side * radians(angle), point)[2] for side in (1, -1)]
    assert heeled_height(y, z, radians(angle)) == pytest.approx(min(sides))
    ends = [turned("y", end * radians(angle), (x - 7.0, y, z))[2] for end in (1, -1)]
    assert trimmed_height(x, z, 14.0, radians(angle)) == pytest.approx(min(ends))


def test_head_is_the_difference_of_two_turned_points():
    upper, lower = (3.0, 0.2, 1.9), (4.0, -1.5, 1.2)
    for angle in (0.0, 8.0, 20.0):
        sides = [
            turned("x", side * radians(angle), upper)[2] - turned("x", side * radians(angle), lower)[2]
            for side in (1, -1)
        ]
        assert heeled_head(0.7, 1.7, radians(angle)) == pytest.approx(min(sides))
        assert trimmed_head(0.7, -1.7, radians(angle)) == pytest.approx(min(sides))


@pytest.mark.parametrize("bore", [0.0, 0.03, 0.06])
@pytest.mark.parametrize(("y", "z"), [(1.58, 0.3), (-2.05, 0.87), (0.4, 0.02), (1.0, -0.2)])
def test_at_the_angle_under_water_the_lower_edge_touches(bore, y, z):
    angle = angle_under_water(y, z, bore)
    if angle >= 0:
        assert lower_edge(heeled_height(y, z, angle), bore) == pytest.approx(0, abs=1e-12)
    else:
        assert lower_edge(z, bore) < 0


def test_outlet_on_the_middle_line_stays_dry_until_she_lies_flat():
    assert angle_under_water(0.0, 1.0) == pytest.approx(np.pi / 2)


def test_samples_of_the_angle():
    assert heeled_height(1.0, 1.0, np.radians([0.0, 45.0])) == pytest.approx([1, 0])
