"""Roots: as sharp as a library's, one or many, and honest where there is none."""

from math import cos

import numpy as np
import pytest
from scipy.optimize import brentq

from dossier.notation import NotConverged
from dossier.physics.root import bracketed_root

EQUATIONS = [
    (lambda x: x**3 - 2 * x - 5, 2.0, 3.0),
    (lambda x: np.cos(x) - x, 0.0, 1.0),
    (lambda x: np.exp(-x) - 1e-6, 0.0, 50.0),
    (lambda x: x - 1e-9, 0.0, 1.0),
]


@pytest.mark.parametrize(("function", "low", "high"), EQUATIONS)
def test_root_is_the_librarys(function, low, high):
    theirs = brentq(function, low, high, xtol=1e-15)
    found = bracketed_root(function, low, high)
    assert abs(function(found)) <= abs(function(theirs)) + 1e-15
    assert bracketed_root(function, np.array([low, low]), high) == pytest.approx([found, found], rel=1e-9)


def test_flat_root_is_found_as_well_as_the_function_tells_it():
    assert bracketed_root(lambda x: (x - 1) ** 9, 0.0, 3.0) == pytest.approx(1, abs=1e-3)


def test_samples_are_found_each_in_its_own_bracket():
    target = np.linspace(0.1, 50, 1000)
    found = bracketed_root(lambda x: x**3 * np.exp(x) - target, np.zeros(1000), np.full(1000, 10.0))
    assert found**3 * np.exp(found) == pytest.approx(target, rel=1e-12)


def test_no_change_of_sign_is_told_not_guessed():
    with pytest.raises(NotConverged, match="no root between 0 and 1"):
        bracketed_root(lambda x: x + 2, 0.0, 1.0)
    found = bracketed_root(lambda x: x - np.array([0.5, 7.0]), np.zeros(2), np.ones(2))
    assert found[0] == 0.5
    assert np.isnan(found[1])


def test_root_at_an_end_and_bracket_without_width():
    assert bracketed_root(lambda x: x, 0.0, 1.0) == 0
    assert bracketed_root(lambda x: x, -1.0, 0.0) == 0
    assert bracketed_root(lambda x: x - 3, 3.0, 3.0) == 3
    assert bracketed_root(lambda x: x, np.array([-1.0, 0.0, 5.0]), np.array([0.0, 1.0, 5.0])).tolist() == [
        0,
        0,
        5,
    ]


def test_few_calls_are_enough():
    calls = []

    def counted(x):
        calls.append(x)
        return cos(x) - x

    bracketed_root(counted, 0.0, 1.0)
    assert len(calls) < 15
