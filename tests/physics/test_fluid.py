"""The coolant's properties: true to the library they came from, guarded, traced, and the same for arrays."""

import pickle

import numpy as np
import pytest

from dossier.data.fluid_tables import PROPERTIES, fluid_sets
from dossier.data.tables import rows
from dossier.notation import Basis, Influence, Line, OutOfRange, Traced, Working, lines_behind
from dossier.physics.fluid import Fluid, coolant, water

LIBRARY = {row["key"]: row["library"] for row in rows("fluids/sets")}
WITHIN = 2e-4
"""Largest error of the interpolation, as stated in the module's head; the requirement is 0.5 %."""


def line(key):
    return Line(key, "as written", Basis.MEASURED, "boat.yaml", 12, 3)


def coolprop():
    """The library, which takes seconds to load: only where a test asks it."""
    from CoolProp import CoolProp

    return CoolProp


def library_state(key, share):
    backend, name = LIBRARY[key].split("::")
    state = coolprop().AbstractState(backend, name)
    if fluid_sets()[key].by == "mass":
        state.set_mass_fractions([share])
    elif fluid_sets()[key].by == "volume":
        state.set_volu_fractions([share])
    return state


def library_properties(key, state, temperature):
    library = coolprop()
    if fluid_sets()[key].is_mix:
        state.update(library.PT_INPUTS, 3e5, temperature)
    else:
        state.update(library.QT_INPUTS, 0, temperature)
        if state.p() < 101325:
            state.update(library.PT_INPUTS, 101325, temperature)
    return state.rhomass(), state.cpmass(), state.conductivity(), state.viscosity()


@pytest.mark.parametrize("key", LIBRARY)
def test_properties_follow_the_library_over_the_whole_range(key):
    """Dense grid between the nodes of the table, down to the freezing line; CoolProp at test time."""
    data_set = fluid_sets()[key]
    for share in np.linspace(*data_set.shares, 61 if data_set.is_mix else 1):
        fluid = Fluid(data_set, float(share))
        state = library_state(key, float(share))
        coldest = max(float(fluid.lowest), 273.16 if not data_set.is_mix else 0) + 0.02
        temperatures = np.linspace(coldest, fluid.highest, 97)
        expected = np.array([library_properties(key, state, t) for t in temperatures]).T
        for name, column in zip(PROPERTIES, expected, strict=True):
            found = getattr(fluid, name)(temperatures)
            assert np.abs(found / column - 1).max() < WITHIN, f"{name} at {share:.3f}"


@pytest.mark.parametrize("key", [key for key in LIBRARY if key != "water"])
def test_freezing_points_follow_the_library(key):
    data_set = fluid_sets()[key]
    for share in np.linspace(*data_set.shares, 61):
        expected = library_state(key, float(share)).keyed_output(coolprop().iT_freeze)
        assert Fluid(data_set, float(share)).freezing_point == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize("base", ["ethylene glycol", "propylene glycol"])
@pytest.mark.parametrize("inhibited", [True, False])
def test_one_number_and_samples_give_the_same(base, inhibited):
    by = "volume" if inhibited else "mass"
    mix = coolant(base, 0.43, inhibited=inhibited, by=by)
    temperatures = np.linspace(float(mix.lowest), mix.highest, 41)
    sampled = coolant(base, np.full(41, 0.43), inhibited=inhibited, by=by)
    for name in PROPERTIES:
        singly = [getattr(mix, name)(float(t)) for t in temperatures]
        assert getattr(mix, name)(temperatures) == pytest.approx(singly, rel=1e-12)
        assert getattr(sampled, name)(temperatures) == pytest.approx(singly, rel=1e-12)
    assert sampled.freezing_point == pytest.approx(np.full(41, float(mix.freezing_point)))


def test_samples_of_share_beyond_the_set_are_no_numbers():
    mixes = coolant("propylene glycol", np.array([0.05, 0.4, 0.65]))
    assert np.isnan(mixes.density(300.0)).tolist() == [True, False, True]


def test_samples_beyond_the_table_are_no_numbers():
    density = coolant("propylene glycol", 0.4).density(np.array([240.0, 300.0, 380.0]))
    assert np.isnan(density).tolist() == [True, False, True]


def test_a_frozen_coolant_has_no_density_and_the_fault_names_its_freezing_point():
    with pytest.raises(OutOfRange, match=r"40 % propylene glycol, which freezes at 251\.64 K") as fault:
        coolant("propylene glycol", 0.4).density(Traced(250.0, line("conditions.lay_up_lowest")))
    assert "conditions.lay_up_lowest (line 12)" in str(fault.value)


def test_a_coolant_above_the_table_is_refused_with_the_range():
    with pytest.raises(OutOfRange, match=r"251\.641 … 373\.15 K"):
        coolant("propylene glycol", 0.4).viscosity(374.0)


@pytest.mark.parametrize("share", [0.0, 0.09, 0.61])
def test_an_inhibited_mix_outside_ten_to_sixty_per_cent_is_refused(share):
    with pytest.raises(OutOfRange, match=r"0\.1 … 0\.6"):
        coolant("ethylene glycol", share)


def test_pure_glycol_begins_with_no_glycol_at_all():
    """Identity of two sources: the pure set at 0 % against water of IAPWS, within the sets' own 0.1 %."""
    thin = coolant("ethylene glycol", 0.0, inhibited=False, by="mass")
    assert thin.density(293.15) == pytest.approx(water().density(293.15), rel=1e-3)


def test_water_reaches_from_freezing_to_130_degrees():
    assert (water().lowest, water().highest) == (273.15, 403.15)
    assert coolant("water").density(403.15) < 940
    assert water().freezing_point == 273.15


def test_a_plain_temperature_gives_a_plain_number():
    assert type(coolant("propylene glycol", Traced(0.4, line("share"))).density(300.0)) is float


def test_a_traced_temperature_leaves_a_working_with_table_and_source():
    mix = coolant("propylene glycol", Traced(0.4, line("circuit.coolant.share")))
    density = mix.density(Traced(343.15, line("components.B1.setpoint")))
    assert isinstance(density.origin, Working)
    assert [k.key for k in lines_behind(density)] == ["circuit.coolant.share", "components.B1.setpoint"]
    assert density.origin.statement.text == "ρ = ρ(x, θ), table propylene glycol, inhibited, by volume"
    assert "ASHRAE Fundamentals 2001 as carried in CoolProp APG" in str(density.origin.statement.source)
    assert density == mix.density(343.15)


def test_what_share_and_temperature_move_can_be_asked():
    mix = coolant("propylene glycol", Traced(0.4, line("share")))
    moves = Influence().moves(mix.viscosity(Traced(343.15, line("setpoint"))))
    slope = (mix.viscosity(343.65) - mix.viscosity(342.65)) / 1.0
    assert {k.key for k in moves} == {"share", "setpoint"}
    assert moves[line("setpoint")] == pytest.approx(abs(slope) * 343.15, rel=1e-2)


def test_the_freezing_point_rests_on_the_share():
    mix = coolant("propylene glycol", Traced(0.4, line("share")))
    assert [k.key for k in lines_behind(mix.freezing_point)] == ["share"]


def test_a_share_by_mass_is_turned_into_the_volume_the_set_counts():
    """ASHRAE Fundamentals 2001 as carried in CoolProp: 40 % by mass is 37.5 % by volume."""
    assert coolant("ethylene glycol", 0.40, by="mass").share == pytest.approx(0.375)


def test_the_other_data_set_is_the_same_mix():
    twin = coolant("ethylene glycol", 0.375).twin()
    assert not twin.data_set.inhibited
    assert twin.share == pytest.approx(0.40)
    assert twin.twin().share == pytest.approx(0.375)


def test_where_the_other_set_does_not_reach_there_is_no_twin():
    assert coolant("propylene glycol", 0.05, inhibited=False, by="mass").twin() is None
    assert coolant("ethylene glycol", 0.59).twin() is None
    assert water().twin() is None


def test_pure_and_inhibited_mixes_differ_as_far_as_is_told():
    """Largest differences of trap 1 of the notes on sources: 0.9, 2.4, 4.4 and 13 % at the same mixture."""
    mix = coolant("ethylene glycol", 0.476)
    twin = mix.twin()
    cold = 263.15
    for name, most in zip(PROPERTIES, (0.01, 0.026, 0.045, 0.14), strict=True):
        assert 0 < abs(getattr(twin, name)(cold) / getattr(mix, name)(cold) - 1) < most


def test_a_fluid_goes_to_another_process_and_back():
    again = pickle.loads(pickle.dumps(coolant("propylene glycol", 0.4)))
    assert again.density(300.0) == coolant("propylene glycol", 0.4).density(300.0)


def test_a_fluid_says_what_it_is():
    assert str(coolant("propylene glycol", 0.4)).startswith("40 % propylene glycol, inhibited, by volume")
    assert str(water()).startswith("water, at 101.325 kPa")
