"""Samples follow the workings: through formulas, out of ranges, not through what was solved as a whole."""

from typing import Annotated

import numpy as np
import pytest

from dossier.notation import PRACTICE, Basis, Line, OutOfRange, Real, Traced, formula, q, solved
from dossier.sizing.uncertainty_workings import SampledWorkings

LENGTH = q("L", "m", "length", low=0, high=10)
ONE, OTHER = Line("one", "2 m", Basis.ASSUMED), Line("other", "3 m", Basis.ASSUMED)
PLACES = {ONE: 0, OTHER: 1}


@formula("A = L·B", PRACTICE)
def area(
    length: Annotated[Real, LENGTH], breadth: Annotated[Real, q("B", "m", "breadth", low=0, high=10)]
) -> Annotated[Real, q("A", "m2", "area")]:
    """Area of a rectangle."""
    return length * breadth


@formula("b = L where L > 2 m, else 0", PRACTICE)
def counted(length: Annotated[Real, LENGTH]) -> Annotated[Real, q("b", "m", "length that counts")]:
    """Length that counts, found for one number only."""
    if length < 0.5:
        raise OutOfRange("counted", "length", LENGTH, float(length), PRACTICE)
    return length if length > 2 else 0.0


def graph(number):
    return SampledWorkings({"it": number}, PLACES.get)


def found(number, one, other=(3.0,) * 4):
    workings = graph(number)
    samples = [np.array(one), np.array(other)]
    return workings.of_result("it", samples, workings.run(samples))


TWO, THREE = Traced(2.0, ONE), Traced(3.0, OTHER)


def test_samples_pass_through_formulas_in_a_row():
    assert found(area(area(TWO, THREE), 1.5), [1.0, 2.0, 0.5, 0.1]).tolist() == [
        4.5,
        9.0,
        2.25,
        pytest.approx(0.45),
    ]


def test_a_sample_outside_the_range_is_none_from_there_on():
    values = found(area(counted(area(TWO, THREE)), 1.0), [1.0, 3.0, 4.0, 0.9])
    assert np.isnan(values).tolist() == [False, False, True, False]  # 12 m lies beyond 10 m


def test_a_formula_that_knows_no_samples_is_asked_one_by_one():
    values = found(counted(TWO), [2.5, 1.5, 0.4, 11.0])
    assert values[:2].tolist() == [2.5, 0.0]
    assert np.isnan(values[2:]).all()  # refused by the formula; beyond its range


def test_what_was_solved_as_a_whole_keeps_its_number_and_says_which_inputs_it_holds():
    whole = solved(6.0, q("x", "m", "solved"), "all together", PRACTICE, [(LENGTH, TWO)])
    number = area(whole, THREE)
    assert found(number, [1.0, 2.0, 3.0, 4.0], [1.0, 2.0, 3.0, 4.0]).tolist() == [6.0, 12.0, 18.0, 24.0]
    assert graph(number).held["it"] == {0}
    assert graph(number).inputs_of("it") == {0, 1}
    assert graph(area(TWO, THREE)).held["it"] == frozenset()


def test_one_input_replaced_gives_what_a_fresh_run_gives():
    number = area(area(TWO, THREE), area(THREE, 0.5))
    workings = graph(number)
    samples = [np.linspace(1, 2, 5), np.linspace(0.5, 1, 5)]
    base = workings.run(samples)
    others = np.linspace(2, 1, 5)
    again = workings.of_result("it", samples, workings.again(samples, base, {1: others}), base)
    fresh = [samples[0], others]
    assert again.tolist() == workings.of_result("it", fresh, workings.run(fresh)).tolist()


def test_a_figure_of_the_file_is_its_own_samples_and_a_plain_number_none():
    assert found(TWO, [1.0, 2.0, 3.0, 4.0]).tolist() == [1.0, 2.0, 3.0, 4.0]
    assert found(7.5, [1.0, 2.0, 3.0, 4.0]).tolist() == [7.5] * 4
