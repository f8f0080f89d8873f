"""Every formula keeps what it declares: finite over its range, its symbols in its text, a source."""

import math
import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dossier.notation import DossierError
from tests.house.formulas import all_formulas

FORMULAS = all_formulas()
REFUSING = {
    "rated_effectiveness",
    "store_warming.time_to_reach",
    "units_",
}
"""Formulas that refuse some inputs by a fault of their own: an impossible rating, a time that never comes."""
NOTHING = 1e-100
"""Smallest number drawn beside nought: what is nearer to it underflows and is no quantity of the trade."""


def over_the_range(quantity):
    low = quantity.low if math.isfinite(quantity.low) else -1e6
    high = quantity.high if math.isfinite(quantity.high) else 1e6
    numbers = st.floats(low, high, allow_nan=False, allow_subnormal=False)
    return numbers.map(lambda number: number if abs(number) > NOTHING else min(max(0.0, low), high))


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_a_formula_gives_a_finite_number_inside_its_own_range(name):
    formula = FORMULAS[name]
    if any(quantity is None for quantity in formula.inputs):
        pytest.skip("takes a word or a table beside numbers")

    @settings(max_examples=12, derandomize=True, deadline=None, database=None)
    @given(st.tuples(*map(over_the_range, formula.inputs)))
    def sweep(arguments):
        try:
            with np.errstate(all="ignore"):
                found = float(formula(*arguments))
        except DossierError:
            assert any(part in name for part in REFUSING)
            return
        except (OverflowError, ZeroDivisionError):
            pytest.fail(f"{name}{arguments} leaves its range")
        gives = formula.statement.gives
        assert math.isfinite(found), arguments
        slack = 1e-9 * max(1.0, abs(found))
        assert gives.low - slack <= found <= gives.high + slack, (arguments, found)

    sweep()


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_a_formula_says_its_symbols(name):
    formula = FORMULAS[name]
    text = re.sub(r"[{}\s]", "", formula.statement.text)
    for quantity in formula.inputs:
        if quantity is None or not quantity.symbol:
            continue
        symbol = re.sub(r"[{}\s]", "", quantity.symbol)
        bare = re.split(r"[_,]", symbol)[0]
        assert symbol in text or bare in text, f"{quantity.symbol} stands nowhere in {formula.statement.text}"


def test_every_formula_names_a_source_and_a_docstring():
    for name, formula in FORMULAS.items():
        assert formula.source.title, name
        assert formula.statement.doc, name
