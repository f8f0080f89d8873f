"""Courses between two events, beside a general solver of differential equations (SciPy's solve_ivp)."""

import numpy as np
import pytest
from scipy.integrate import quad_vec, solve_ivp

from dossier.notation import NotConverged
from dossier.sizing.day_linear import Levels, LinearSystem

DAILY = 2 * np.pi / 86400


def ring_with_rooms():
    """Six cells in a ring, two rooms: rates in 1/s, temperatures about 330 and 290 K."""
    matrix = np.zeros((8, 8))
    for cell in range(6):
        matrix[cell, cell] -= 0.04 + 2e-4 * cell
        matrix[cell, cell - 1 if cell else 5] += 0.04
    for cell, room in ((2, 6), (4, 7)):
        matrix[cell, cell] -= 2e-3
        matrix[cell, room] += 2e-3
        matrix[room, room] -= 3e-4
        matrix[room, cell] += 1e-4
    source = np.array([0.9, 0.02, 0.0, 0.01, 0.0, 0.0, 2e-4 * 270, 2e-4 * 272])
    swing = np.array([0, 0, 0, 0, 0, 0, 2e-4 * 3, 2e-4 * (1 - 2j)], dtype=complex)
    start = np.array([331.0, 330, 329, 328, 327, 326, 289, 291])
    return matrix, source, swing, start


def solved(matrix, source, swing, start, now, after):  # noqa: PLR0913, PLR0917 - one course
    def slope(time, state):
        return matrix @ state + source + (swing * np.exp(1j * DAILY * time)).real

    times = np.atleast_1d(after)
    return solve_ivp(
        slope, (now, now + times[-1]), start, t_eval=now + times, method="LSODA", rtol=1e-11, atol=1e-9
    ).y.T


@pytest.mark.parametrize("now", [0.0, 30000.0])
def test_temperatures_as_a_general_solver_finds_them(now):
    """SciPy's LSODA, tolerance 1e-11."""
    matrix, source, swing, start = ring_with_rooms()
    course = LinearSystem(matrix, swing, DAILY, np.eye(8)).under(source).start(start, now)
    times = np.array([1.0, 20.0, 300.0, 7000.0])
    expected = solved(matrix, source, swing, start, now, times)
    for time, state in zip(times, expected, strict=True):
        assert course.state(time) == pytest.approx(state, abs=1e-6)
    assert course.state(0.0) == pytest.approx(start, abs=1e-9)


def test_integral_is_that_of_the_course():
    """SciPy's quadrature over the course itself."""
    matrix, source, swing, start = ring_with_rooms()
    course = LinearSystem(matrix, swing, DAILY, np.eye(8)).under(source).start(start, 5000.0)
    state, integral = course.passed(900.0)
    expected = quad_vec(course.state, 0, 900.0, epsrel=1e-12)[0]
    assert integral == pytest.approx(expected, rel=1e-9)
    assert state == pytest.approx(course.state(900.0), abs=1e-9)


def test_a_part_that_never_settles_warms_straight_on():
    """Closed form: 12 kW into 200 kJ/K, nothing lost: 0.06 K/s; its integral a parabola."""
    system = LinearSystem(np.zeros((1, 1)), np.zeros(1, complex), DAILY, np.eye(1))
    course = system.under(np.array([0.06])).start(np.array([330.0]), 0.0)
    state, integral = course.passed(200.0)
    assert state[0] == pytest.approx(342.0)
    assert integral[0] == pytest.approx(330 * 200 + 0.03 * 200**2)
    levels = Levels(np.array([-np.inf]), np.array([338.4]))
    assert course.crossing(levels, 1000.0)[0] == pytest.approx(140.0, abs=1e-6)


def test_first_of_several_crossings():
    """SciPy's event finder on the same system."""
    matrix, source, swing, start = ring_with_rooms()
    watched = np.eye(8)[[0, 6, 7]]
    course = LinearSystem(matrix, swing, DAILY, watched).under(source).start(start, 0.0)
    levels = Levels(np.array([-np.inf, -np.inf, 290.9]), np.array([345.0, 289.5, np.inf]))
    found = course.crossing(levels, 5000.0)[0]

    def slope(time, state):
        return matrix @ state + source + (swing * np.exp(1j * DAILY * time)).real

    def hits(number, level):
        def event(_, state):
            return state[number] - level

        event.terminal = True
        return event

    each = []
    for number, level in ((0, 345.0), (6, 289.5), (7, 290.9)):
        run = solve_ivp(
            slope, (0, 5000), start, events=hits(number, level), rtol=1e-10, atol=1e-8, max_step=5
        )
        each += run.t_events[0].tolist()
    assert found == pytest.approx(min(each), rel=1e-6)
    assert np.any(np.abs(course.watched(found) - np.array([345.0, 289.5, 290.9])) < 1e-6)


def test_no_crossing_goes_to_the_end_of_the_span():
    matrix, source, swing, start = ring_with_rooms()
    course = LinearSystem(matrix, swing, DAILY, np.eye(8)).under(source).start(start, 0.0)
    free = Levels(np.full(8, -np.inf), np.full(8, np.inf))
    assert course.crossing(free, 17.5)[0] == 17.5
    assert course.crossing(free, 0.1)[0] == 0.1


def test_crossing_in_the_last_piece_before_the_end():
    system = LinearSystem(np.zeros((1, 1)), np.zeros(1, complex), DAILY, np.eye(1))
    course = system.under(np.array([0.06])).start(np.array([330.0]), 0.0)
    levels = Levels(np.array([-np.inf]), np.array([330.006]))
    assert course.crossing(levels, 0.2)[0] == pytest.approx(0.1, abs=1e-8)


def test_a_system_without_independent_modes_is_refused():
    """Two equal cells one after the other have one mode only: no exact answer by eigenvalues."""
    matrix = np.array([[-0.04, 0.0], [0.04, -0.04]])
    with pytest.raises(NotConverged, match="independent modes"):
        LinearSystem(matrix, np.zeros(2, complex), DAILY, np.eye(2))
