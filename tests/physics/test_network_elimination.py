"""The linear system of a step: elimination against numpy's dense solver."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dossier.physics.network_elimination import Dense, Elimination, system

quick = settings(max_examples=40, deadline=None, derandomize=True)


def resistors(count, extra, draw):
    """Ends and conductances of a connected network; end ``count`` is earth."""
    start = [count, *(int(draw.integers(0, node)) for node in range(1, count))]
    end = list(range(count))
    for _ in range(extra):
        one, other = draw.integers(0, count + 1, 2)
        start.append(int(one))
        end.append(int(other))
    return np.array(start, dtype=np.intp), np.array(end, dtype=np.intp), draw.uniform(0.1, 10, len(start))


def full_matrix(count, start, end, conductance):
    matrix = np.zeros((count + 1, count + 1))
    for one, other, value in zip(start, end, conductance, strict=True):
        if one != other:
            matrix[one, one] += value
            matrix[other, other] += value
            matrix[one, other] -= value
            matrix[other, one] -= value
    return matrix[:count, :count]


@given(st.integers(1, 120), st.integers(0, 200), st.integers(0, 10_000), st.sampled_from([0, 5, 24]))
@quick
def test_elimination_agrees_with_the_dense_solver(count, extra, seed, least):
    draw = np.random.default_rng(seed)
    start, end, conductance = resistors(count, extra, draw)
    right = draw.normal(size=count)
    expected = np.linalg.solve(full_matrix(count, start, end, conductance), right)
    for way in (Dense(count, start, end), Elimination(count, start, end, least)):
        assert way.solution(conductance, right) == pytest.approx(expected, rel=1e-8, abs=1e-10)


@given(st.integers(1, 40), st.integers(0, 60), st.integers(0, 10_000))
@quick
def test_cases_side_by_side_are_solved_each(count, extra, seed):
    draw = np.random.default_rng(seed)
    start, end, _ = resistors(count, extra, draw)
    conductance, right = draw.uniform(0.1, 10, (len(start), 3)), draw.normal(size=(count, 3))
    anchored = draw.uniform(0, 2, (count, 3))
    found = Elimination(count, start, end, 0).solution(conductance, right, anchored)
    for case in range(3):
        matrix = full_matrix(count, start, end, conductance[:, case]) + np.diag(anchored[:, case])
        assert found[:, case] == pytest.approx(np.linalg.solve(matrix, right[:, case]), rel=1e-8, abs=1e-10)


def test_ladder_is_eliminated_in_few_levels():
    """The count of levels grows with the logarithm of the length."""
    levels = []
    for rungs in (250, 1000):
        supply, back = np.arange(rungs), np.arange(rungs) + rungs
        start = np.concatenate(([2 * rungs], supply[:-1], back[:-1], supply))
        end = np.concatenate(([0], supply[1:], back[1:], back))
        levels.append(len(Elimination(2 * rungs, start, end)._levels))
    assert levels[1] <= levels[0] + 8
    assert levels[1] < 25


def test_small_single_cases_go_to_the_dense_solver_and_large_ones_do_not():
    start, end = np.array([3, 0, 1], dtype=np.intp), np.array([0, 1, 2], dtype=np.intp)
    assert isinstance(system(3, start, end), Dense)
    assert isinstance(system(3, start, end, many=True), Elimination)
    chain = np.arange(200, dtype=np.intp)
    assert isinstance(system(200, np.roll(chain, 1), chain), Elimination)
