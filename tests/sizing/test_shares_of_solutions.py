"""What the solutions add to the spread of a result, over the deviation that its own inputs give it."""

from math import inf, sqrt
from types import SimpleNamespace

import pytest

from dossier.sizing.uncertainty_solutions import _shares

LOADS = SimpleNamespace(names=["load"])


def share(added, deviation):
    return _shares([{"load": each} for each in added], {"load": deviation}, LOADS)["load"]


def test_the_root_of_the_mean_square_over_the_deviation():
    assert share([3.0, -4.0], 10.0) == pytest.approx(sqrt((9 + 16) / 2) / 10)


def test_a_result_that_nothing_else_moves():
    """Nothing over nothing is nothing; something over nothing has no bound."""
    assert share([0.0, 0.0], 0.0) == 0.0
    assert share([1.0, 0.0], 0.0) == inf


def test_without_any_point_there_is_no_bound():
    assert share([], 2.0) == inf
    assert share([1.0], inf) == inf
