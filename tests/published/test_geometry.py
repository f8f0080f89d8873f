"""Geometry, exact: closed forms, and the invented boats to the last digit of their pages."""

from math import degrees, radians

import pytest

from dossier.physics.attitude import (
    angle_under_water,
    heeled_head,
    heeled_height,
    lower_edge,
    middle,
    offset,
    trimmed_height,
)
from dossier.physics.route import (
    bends,
    changes_of_direction,
    developed_length,
    leg_lengths,
    leg_slopes,
    loop_top,
    low_points,
    point_distance,
)


@pytest.mark.parametrize(
    ("y", "z", "heel", "height"),
    [
        (1.6, 1.0, 0, 1.0),
        (1.6, 1.0, 10, 0.7069707),
        (1.6, 1.0, 20, 0.3924604),
        (1.6, 1.0, 30, 0.0660254),
        (-1.9, 1.0, 0, 1.0),
        (-1.9, 1.0, 10, 0.6548762),
        (-1.9, 1.0, 20, 0.2898543),
        (-1.9, 1.0, 30, -0.0839746),
        (0.0, 1.2, 0, 1.2),
        (0.0, 1.2, 10, 1.181769),
        (0.0, 1.2, 20, 1.127631),
        (0.0, 1.2, 30, 1.03923),
    ],
)
def test_height_of_a_point_heeled_to_its_own_side(y, z, heel, height):
    """Rotation about the origin in the waterline: z·cos φ − |y|·sin φ."""
    assert heeled_height(y, z, radians(heel)) == pytest.approx(height, abs=1e-6)


BENT = [(2.1, -1.2, 0.55), (2.1, -1.6, 0.85), (1.4, -1.9, 1.0)]
SQUARE = [(0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 1.0, 0.0), (1.0, 1.0, 1.0)]
STRAIGHT = [(0.0, 0.0, 0.0), (1.0, 1.0, 1.0), (3.0, 3.0, 3.0)]


@pytest.mark.parametrize(
    ("route", "length", "turn", "right_angles"),
    [(BENT, 1.276209, 64.84026, 0.7204473), (SQUARE, 3.0, 180.0, 2.0), (STRAIGHT, 5.196152, 0.0, 0.0)],
)
def test_length_and_bends_of_a_route(route, length, turn, right_angles):
    """Sum of the legs; arccos of the unit legs' product; angles over 90°."""
    assert developed_length(route) == pytest.approx(length, abs=1e-6)
    assert degrees(bends(route)) == pytest.approx(turn, abs=1e-4)
    assert degrees(bends(route)) / 90 == pytest.approx(right_angles, abs=1e-5)


def test_last_leg_that_rises_leaves_a_low_point():
    """Fall of a hose run: 1.00, 0.90, 0.95 m: the last leg rises 0.05 m."""
    run = [(0.0, 0.0, 1.0), (2.0, 0.0, 0.9), (3.5, 0.0, 0.95)]
    assert low_points(run) == (1,)
    assert run[2][2] - run[1][2] == pytest.approx(0.05)
    assert leg_slopes(run)[1] > 0


def test_header_nearly_level_with_a_component_when_heeled():
    """Header (3, 0.2, 1.9) over (4, -1.5, 1.2), 20° to port: 0.07635059 m."""
    head, across = offset(1.2, 1.9), offset(-1.5, 0.2)
    assert heeled_head(head, across, radians(20)) == pytest.approx(0.07635059, abs=1e-8)


ROUTES = {
    "A": [(5.60, -1.35, 0.42), (5.60, -1.35, 0.94), (4.60, -1.80, 1.02), (4.40, -2.05, 0.87)],
    "B": [(6.10, 1.30, 0.40), (6.10, 1.30, 1.10), (5.20, 1.95, 1.32), (4.80, 2.32, 1.12)],
    "C": [(2.10, -0.60, 0.05), (2.60, -0.90, -0.02), (3.20, -1.30, 0.16), (3.40, -1.58, 0.18)],
    "C repaired": [(2.10, -0.60, 0.24), (2.50, -1.00, 0.33), (2.80, -1.30, 0.38), (2.95, -1.58, 0.30)],
}
BORES = {"A": 0.038, "B": 0.038, "C": 0.030, "C repaired": 0.030}


@pytest.mark.parametrize(
    ("boat", "length", "turn"),
    [("A", 1.97, 125), ("B", 2.41, 111), ("C", 1.68, 44), ("C repaired", 1.33, 29)],
)
def test_exhaust_length_and_bends_of_the_invented_boats(boat, length, turn):
    """Design pages of the invented boats, to the last digit."""
    assert round(float(developed_length(ROUTES[boat])), 2) == length
    assert round(degrees(bends(ROUTES[boat]))) == turn


@pytest.mark.parametrize(
    ("boat", "legs", "turns"),
    [("A", (0.52, 1.10, 0.35), (86, 39)), ("B", (0.70, 1.13, 0.58), (79, 32))],
)
def test_legs_and_turns_of_the_invented_boats(boat, legs, turns):
    """Design pages of the invented boats, to the last digit."""
    assert tuple(round(float(leg), 2) for leg in leg_lengths(ROUTES[boat])) == legs
    assert tuple(round(degrees(turn)) for turn in changes_of_direction(ROUTES[boat])) == turns


def outlet_heights(boat, heels):
    _, y, z = ROUTES[boat][-1]
    return [float(lower_edge(heeled_height(y, z, radians(heel)), BORES[boat])) for heel in heels]


@pytest.mark.parametrize(
    ("boat", "heels", "heights"),
    [
        ("A", (0, 10, 20), ("0.85", "0.48", "0.10")),
        ("B", (0, 10, 20), ("1.10", "0.68", "0.24")),
        ("C", (0, 3, 8), ("0.165", "0.08", "-0.06")),
        ("C repaired", (0, 3, 8), ("0.285", "0.20", "0.06")),
    ],
)
def test_outlet_heights_of_the_invented_boats(boat, heels, heights):
    """Lower edge of the outlet over the water, upright and heeled, to the last digit."""
    for found, printed in zip(outlet_heights(boat, heels), heights, strict=True):
        digits = len(printed.split(".")[1])
        assert f"{found:.{digits}f}" == printed


@pytest.mark.parametrize(
    ("boat", "heels", "heights"),
    [
        ("A", (0, 10, 20), (1.02, 0.69, 0.34)),
        ("B", (0, 10, 20), (1.32, 0.96, 0.57)),
        ("C", (0, 3, 8), (0.18, 0.10, -0.04)),
        ("C repaired", (0, 3, 8), (0.38, 0.31, 0.20)),
    ],
)
def test_loop_heights_of_the_invented_boats(boat, heels, heights):
    """Top of the loop over the water, to the last digit."""
    _, y, z = ROUTES[boat][loop_top(ROUTES[boat])]
    assert tuple(round(float(heeled_height(y, z, radians(heel))), 2) for heel in heels) == heights


@pytest.mark.parametrize(("boat", "angle"), [("A", 22.5), ("B", 25.3), ("C", 6.0), ("C repaired", 10.2)])
def test_heel_at_which_the_outlet_meets_the_water(boat, angle):
    """Exact, to the last digit."""
    _, y, z = ROUTES[boat][-1]
    found = angle_under_water(y, z, BORES[boat])
    assert round(degrees(found), 1) == angle
    assert lower_edge(heeled_height(y, z, found), BORES[boat]) == pytest.approx(0, abs=1e-12)


OPENINGS = {
    "A": {
        (3.40, 1.30, 2.00): 3.67,
        (4.60, -1.30, 2.30): 1.63,
        (3.20, -1.75, 1.45): 1.37,
        (8.60, 0.00, 1.75): 4.76,
        (6.40, -1.90, 1.25): 2.04,
        (6.50, -1.95, 1.60): 2.23,
    },
    "B": {
        (3.10, 2.20, 1.35): 1.72,
        (6.90, 1.75, 1.85): 2.30,
        (2.40, 0.90, 1.80): 2.87,
        (7.60, 2.10, 1.60): 2.85,
        (7.70, 2.10, 1.90): 3.01,
        (4.80, -1.10, 2.20): 3.59,
    },
    "C": {
        (3.70, -1.55, 0.55): 0.48,
        (2.40, -1.55, 0.75): 1.15,
        (5.0, -1.45, 1.10): 1.85,
        (2.2, 0.0, 2.05): 2.73,
    },
    "C repaired": {
        (3.70, -1.55, 0.55): 0.79,
        (2.40, -1.55, 0.75): 0.71,
        (5.00, -1.45, 1.10): 2.20,
        (2.20, 0.00, 2.05): 2.47,
    },
}


@pytest.mark.parametrize("boat", OPENINGS)
def test_distances_from_outlet_to_openings(boat):
    """Design pages of the invented boats: hatches, doors, ventilators, fillers, to the last digit."""
    for opening, printed in OPENINGS[boat].items():
        assert round(float(point_distance(*ROUTES[boat][-1], *opening)) + 1e-9, 2) == printed


def test_condensate_gathers_at_the_burner_of_a_rising_run():
    """Design pages: A, B and the repaired C drain at the burner; C as built traps water at z −0.02 m."""
    assert [low_points(ROUTES[boat]) for boat in ("A", "B", "C repaired")] == [(0,), (0,), (0,)]
    assert low_points(ROUTES["C"]) == (1,)


@pytest.mark.parametrize(
    ("low", "size", "wetted", "heels", "margins"),
    [
        ((5.50, -0.75, 2.12), 0.20, (-1.05, 1.72), (0, 10, 20), (0.40, 0.32, 0.24)),
        ((1.50, 0.60, 0.95), 0.18, (1.20, 1.30), (0, 3, 8), (-0.35, -0.38, -0.42)),
        ((1.50, 0.05, 1.50), 0.18, (1.20, 1.30), (0, 3, 8), (0.20, 0.14, 0.05)),
    ],
)
def test_header_over_the_highest_wetted_point(low, size, wetted, heels, margins):
    """Design pages: middle of the header's bottom over the highest wetted point, worse side."""
    head, across = offset(wetted[1], low[2]), offset(wetted[0], middle(low[1], low[1] + size))
    found = tuple(round(float(heeled_head(head, across, radians(heel))) + 1e-12, 2) for heel in heels)
    assert found == margins


def test_trim_lowers_both_ends_alike():
    """Rotation about half the length in the waterline: a point at 0 of 14 m and one at 14 m."""
    low = trimmed_height(0.0, 1.0, 14.0, radians(1))
    assert low == pytest.approx(trimmed_height(14.0, 1.0, 14.0, radians(1)))
    assert low == pytest.approx(1.0 - 7 * 0.0174524 - 0.000152, abs=1e-6)
    assert trimmed_height(7.0, 1.0, 14.0, radians(1)) == pytest.approx(0.999848, abs=1e-6)
