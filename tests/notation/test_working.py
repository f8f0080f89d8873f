"""A formula guards its range and leaves a working; a number remembers the lines it rests on."""

import pickle
from typing import Annotated

import numpy as np
import pytest

from dossier.notation import (
    PRACTICE,
    Basis,
    Influence,
    Line,
    OutOfRange,
    Real,
    Traced,
    Working,
    formula,
    lines_behind,
    q,
    solved,
    workings_behind,
)

AREA = q("A", "m2", "area", low=0, high=500)


@formula("Φ = U · A · Δθ", PRACTICE)
def loss(
    transmittance: Annotated[Real, q("U", "W/m2K", "transmittance", low=0, high=10)],
    area: Annotated[Real, AREA],
    difference: Annotated[Real, q("Δθ", "K", "difference", low=-100, high=100)],
) -> Annotated[Real, q("Φ", "W", "loss")]:
    """Heat lost."""
    return transmittance * area * difference


@formula("Φ = Σ Φ_i", PRACTICE)
def together(
    *parts: Annotated[Real, q("Φ_i", "W", "part", low=-1e6, high=1e6)],
) -> Annotated[Real, q("Φ", "W", "sum")]:
    """Sum of heat flows."""
    return sum(parts)


def line(key, basis=Basis.MEASURED, **more):
    return Line(key, "as written", basis, "boat.yaml", 12, 3, **more)


def test_plain_numbers_give_a_plain_number():
    assert type(loss(2.0, 3.0, 10.0)) is float


def test_a_traced_input_gives_a_traced_result_with_its_working():
    result = loss(2.0, Traced(3.0, line("area")), 10.0)
    assert result == 60
    assert isinstance(result.origin, Working)
    assert [g.quantity.symbol for g in result.origin.given] == ["U", "A", "Δθ"]
    assert [k.key for k in lines_behind(result)] == ["area"]


def test_keywords_are_taken_in_the_order_of_the_formula():
    result = loss(2.0, difference=10.0, area=Traced(3.0, line("area")))
    assert [float(g.value) for g in result.origin.given] == [2.0, 3.0, 10.0]


def test_a_number_out_of_range_names_the_line_it_rests_on():
    with pytest.raises(OutOfRange, match=r"area A = 600 m2 lies outside 0 … 500 m2 .* zones\.a \(line 12\)"):
        loss(2.0, Traced(600.0, line("zones.a")), 10.0)


def test_not_a_number_is_out_of_range():
    with pytest.raises(OutOfRange):
        loss(2.0, float("nan"), 10.0)


def test_samples_out_of_range_become_nan_and_leave_the_others():
    result = loss(np.array([1.0, 11.0, 2.0]), 1.0, 10.0)
    assert np.isnan(result[1])
    assert list(result[[0, 2]]) == [10.0, 20.0]


def test_every_term_of_a_sum_is_guarded_and_shown():
    terms = [Traced(float(n), line(f"part {n}")) for n in range(4)]
    assert len(together(*terms).origin.given) == 4
    with pytest.raises(OutOfRange):
        together(1.0, 2.0, 2e6)


def test_workings_come_inputs_before_results_and_each_once():
    part = loss(2.0, Traced(3.0, line("area")), 10.0)
    total = together(part, part)
    assert [w.statement.gives.label for w in workings_behind(total)] == ["loss", "sum"]


def test_a_traced_number_survives_being_sent_to_another_process():
    result = loss(2.0, Traced(3.0, line("area")), 10.0)
    plain = Traced(3.0, line("area"))
    assert pickle.loads(pickle.dumps(plain)).origin == plain.origin
    assert result.origin.value == 60


def test_a_result_carries_the_weakest_basis_among_the_inputs_that_matter():
    area = Traced(3.0, line("area", Basis.DRAWING))
    small = Traced(1e-6, line("small", Basis.ASSUMED))
    big = loss(Traced(2.0, line("u", Basis.MEASURED)), area, 10.0)
    assert Influence().basis(big) is Basis.DRAWING
    assert Influence().basis(together(big, small)) is Basis.DRAWING
    guess = Traced(30.0, line("guess", Basis.ASSUMED))
    assert Influence().basis(together(big, guess)) is Basis.ASSUMED


def test_an_assumed_input_counts_by_its_spread():
    known = Traced(100.0, line("known", Basis.PLATE))
    narrow = Traced(50.0, line("narrow", Basis.ASSUMED, spread=(49.0, 51.0)))
    wide = Traced(50.0, line("wide", Basis.ASSUMED, spread=(20.0, 90.0)))
    assert Influence().basis(together(known, narrow)) is Basis.PLATE
    assert Influence().basis(together(known, wide)) is Basis.ASSUMED


def test_what_was_solved_as_a_whole_counts_all_its_inputs():
    guess = Traced(5.0, line("guess", Basis.ASSUMED))
    found = solved(7.0, AREA, "solved together", PRACTICE, [(AREA, guess)])
    assert Influence().basis(found) is Basis.ASSUMED
    again = solved(7.0, AREA, "x", PRACTICE, [(AREA, guess)], function=lambda x: 7.0 + 1e-9 * (x - 5.0))
    assert Influence().moves(again) == {}
