"""The rated point of an exchanger: found again, refused with its lines, sampled."""

import pickle

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dossier.notation import DossierError, Line, Traced, lines_behind, workings_behind
from dossier.physics.exchanger import Arrangement, exchanger_heat, rate_ratio
from dossier.physics.rated_point import ImpossibleRating, rated_conductance, rated_effectiveness, units_asked


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    arrangement=st.sampled_from(Arrangement),
    conductance=st.floats(0.5, 500),
    hot=st.floats(5, 3000),
    cold=st.floats(5, 3000),
)
def test_rated_point_gives_back_the_exchanger_it_was_made_from(arrangement, conductance, hot, cold):
    if conductance > 4 * min(hot, cold):
        return  # so near its limit that the rated point no longer tells the conductance
    heat = exchanger_heat(arrangement, conductance, hot, cold, 353.15, 291.15)
    found = rated_conductance(arrangement, heat, hot, cold, 353.15, 291.15)
    assert found == pytest.approx(conductance, rel=1e-6)


@pytest.mark.parametrize("arrangement", Arrangement)
@pytest.mark.parametrize("ratio", [0.0, 1e-12, 1e-6, 0.5, 1 - 1e-9, 1.0])
def test_units_are_finite_and_rise_with_the_effectiveness(arrangement, ratio):
    asked = np.linspace(0.01, 0.45, 12)
    found = units_asked(arrangement, asked, ratio)
    assert np.all(np.diff(found) > 0)
    assert found == pytest.approx([units_asked(arrangement, float(a), ratio) for a in asked], rel=1e-9)


def test_impossible_point_names_the_lines_it_rests_on():
    output = Traced(4400.0, Line("components.F1.output", "4.4 kW", line=61))
    with pytest.raises(ImpossibleRating, match=r"components\.F1\.output \(line 61\)") as refused:
        rated_effectiveness(output, 70.65, 353.15, 291.15)
    assert isinstance(refused.value, DossierError)
    assert [line.line for line in refused.value.lines] == [61]
    assert refused.value.highest == 1


def test_impossible_point_survives_pickling():
    with pytest.raises(ImpossibleRating) as refused:
        rated_effectiveness(4400.0, 70.65, 353.15, 291.15)
    again = pickle.loads(pickle.dumps(refused.value))
    assert str(again) == str(refused.value)
    assert again.asked == refused.value.asked


def test_water_colder_than_the_air_is_refused_too():
    with pytest.raises(ImpossibleRating, match="carry at most 0 W"):
        rated_effectiveness(1000.0, 70.0, 291.15, 353.15)


def test_possible_point_may_still_ask_too_much_of_the_arrangement():
    """Parallel flow with equal capacity rates cannot pass one half."""
    with pytest.raises(ImpossibleRating, match=r"parallel asks .* 0\.600, which must be below 0\.5"):
        units_asked(Arrangement.PARALLEL, 0.6, 1.0)


def test_impossible_samples_become_nan():
    outputs = np.array([3000.0, 4400.0])
    found = rated_conductance(Arrangement.CROSSFLOW, outputs, 611.9, 70.65, 353.15, 291.15)
    assert found[0] == pytest.approx(87.26, abs=0.02)
    assert np.isnan(found[1])
    assert np.isnan(units_asked(Arrangement.PARALLEL, np.array([0.6]), 1.0)).all()


def test_working_leads_back_to_the_plate():
    output = Traced(3000.0, Line("components.F1.output", "3 kW"))
    found = rated_conductance(Arrangement.CROSSFLOW, output, 611.9, 70.65, 353.15, 291.15)
    assert [line.key for line in lines_behind(found)] == ["components.F1.output"]
    names = [working.statement.name for working in workings_behind(found)]
    assert names == ["rated_effectiveness", "units_crossflow", "conductance_of_units"]


def test_standing_flows_have_no_ratio_and_pass_no_heat():
    assert rate_ratio(0.0, 0.0) == 0
    assert exchanger_heat(Arrangement.COUNTERFLOW, 100.0, 0.0, 50.0, 353.0, 293.0) == 0
    many = exchanger_heat(Arrangement.COUNTERFLOW, 100.0, np.array([0.0, 50.0]), 50.0, 353.0, 293.0)
    assert many == pytest.approx([0, 2 / 3 * 50 * 60], abs=1e-3)
