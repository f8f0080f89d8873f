"""Expansion, header and vessel: against library densities, closed forms, and one another."""

import numpy as np
import pytest

from dossier.notation import Basis, Influence, Line, OutOfRange, Traced, lines_behind
from dossier.physics.expansion import (
    acceptance_factor,
    contraction_volume,
    coolant_contraction,
    coolant_expansion,
    cushion_pressure,
    expansion_volume,
    final_pressure,
    header_content,
    header_room,
    static_pressure,
    vessel_content,
    vessel_needed,
    water_reserve,
)
from dossier.physics.fluid import coolant, water

BAR = 1e5
LITRE = 1e-3
FILL, HOT = 283.15, 353.15


def mix_of(code, share):
    base = "ethylene glycol" if code.endswith("EG") else "propylene glycol"
    inhibited = code.startswith("A")
    return coolant(base, share, inhibited=inhibited, by="volume" if inhibited else "mass")


@pytest.mark.parametrize("code", ["MEG", "MPG", "AEG", "APG"])
@pytest.mark.parametrize("share", [0.3, 0.4, 0.5])
def test_relative_expansion_of_a_mix_from_10_to_80_degrees(code, share):
    """CoolProp at test time, densities of its incompressible mixes."""
    from CoolProp import CoolProp  # takes seconds to load

    cold, hot = (CoolProp.PropsSI("D", "T", t, "P", 3e5, f"INCOMP::{code}[{share}]") for t in (FILL, HOT))
    mix = mix_of(code, share)
    found = expansion_volume(1.0, mix.density(FILL), mix.density(HOT))
    assert found == pytest.approx(cold / hot - 1, rel=1e-3)


@pytest.mark.parametrize(
    ("cold", "hot"), [(5, 80), (10, 60), (10, 70), (10, 80), (10, 90), (15, 85), (20, 95)]
)
def test_relative_expansion_of_water(cold, hot):
    """CoolProp at test time, IAPWS-95 at 2 bar absolute."""
    from CoolProp import CoolProp  # takes seconds to load

    densities = [CoolProp.PropsSI("D", "T", t + 273.15, "P", 2e5, "Water") for t in (cold, hot)]
    found = coolant_expansion(water(), 1.0, cold + 273.15, hot + 273.15)
    assert found == pytest.approx(densities[0] / densities[1] - 1, rel=2e-3)


def test_expansion_is_of_the_fill_volume_and_no_mass_is_lost():
    cold, hot = 1045.0, 1004.0
    grown = 0.02 + expansion_volume(0.02, cold, hot)
    assert grown * hot == pytest.approx(0.02 * cold)


def test_contraction_loses_no_mass_either():
    fill, coldest = 1040.0, 1050.0
    shrunk = 0.02 - contraction_volume(0.02, fill, coldest)
    assert shrunk * coldest == pytest.approx(0.02 * fill)


@pytest.mark.parametrize("base", ["ethylene glycol", "propylene glycol"])
def test_a_vessel_is_sized_with_the_larger_of_both_data_sets(base):
    mix = coolant(base, 0.4)
    both = [expansion_volume(0.06, f.density(FILL), f.density(HOT)) for f in (mix, mix.twin())]
    assert coolant_expansion(mix, 0.06, FILL, HOT) == pytest.approx(max(both))
    assert min(both) < 0.95 * max(both)


def test_the_pure_set_expands_more_and_both_sets_ask_the_same_of_a_vessel():
    mix = coolant("ethylene glycol", 0.375)
    assert coolant_expansion(mix, 0.06, FILL, HOT) == pytest.approx(
        coolant_expansion(mix.twin(), 0.06, FILL, HOT)
    )


def test_where_the_other_set_ends_the_coolants_own_stands_alone():
    mix = coolant("ethylene glycol", 0.59)
    own = expansion_volume(0.06, mix.density(FILL), mix.density(HOT))
    assert coolant_expansion(mix, 0.06, FILL, HOT) == own


def test_samples_expand_sample_by_sample():
    shares = np.array([0.2, 0.4, 0.59])
    singly = [coolant_expansion(coolant("ethylene glycol", float(x)), 0.06, FILL, HOT) for x in shares]
    assert coolant_expansion(coolant("ethylene glycol", shares), 0.06, FILL, HOT) == pytest.approx(singly)


def test_expansion_rests_on_volume_share_and_both_temperatures():
    lines = [Line(key, "", Basis.MEASURED, "boat.yaml", 7, 1) for key in ("share", "volume", "fill", "stat")]
    share, volume, fill, stat = (
        Traced(number, line) for number, line in zip((0.4, 0.06, FILL, HOT), lines, strict=True)
    )
    found = coolant_expansion(coolant("propylene glycol", share), volume, fill, stat)
    assert set(lines_behind(found)) == set(lines)
    assert Influence().moves(found)[lines[1]] == pytest.approx(found, rel=1e-6)


def test_contraction_to_a_lay_up_below_the_freezing_point_is_refused():
    with pytest.raises(OutOfRange, match="which freezes"):
        coolant_contraction(coolant("propylene glycol", 0.3), 0.06, FILL, 253.15)


def test_contraction_takes_the_larger_set_too():
    mix = coolant("propylene glycol", 0.4)
    both = [contraction_volume(0.06, f.density(FILL), f.density(259.15)) for f in (mix, mix.twin())]
    assert coolant_contraction(mix, 0.06, FILL, 259.15) == pytest.approx(max(both))


def test_water_grows_below_four_degrees():
    assert coolant_contraction(water(), 1.0, 277.15, 273.15) < 0


def test_an_open_header_has_room_above_its_cold_level():
    assert header_room(8 * LITRE, 0.30) == pytest.approx(5.6 * LITRE)
    assert header_content(8 * LITRE, 0.30) == pytest.approx(2.4 * LITRE)


def test_expansion_of_an_open_system():
    """Closed form V·e: 48 l at 3.45 % is 1.656 l."""
    assert expansion_volume(48 * LITRE, 1000 * 1.0345, 1000) == pytest.approx(1.656 * LITRE)


@pytest.mark.parametrize(
    ("system", "ratio", "precharge", "final", "vessel"),
    [(60, 0.0373, 1.0, 2.5, 9.79125), (35, 0.0284, 0.5, 2.5, 2.676154), (120, 0.04, 1.5, 2.5, 27.3)],
)
def test_vessel_with_reserve(system, ratio, precharge, final, vessel):
    """Form of EN 12828 annex D (from memory) at 1 bar: reserve 20 % of the vessel up to 15 l, else 3 l."""
    acceptance = acceptance_factor(precharge * BAR, final * BAR, BAR)
    found = vessel_needed(system * ratio * LITRE, system * LITRE, acceptance)
    assert found == pytest.approx(vessel * LITRE, rel=1e-6)


def test_the_two_rules_of_reserve_meet_at_15_litres():
    acceptance = 0.4
    expansion = 0.015 * (acceptance - 0.2)
    beside = [vessel_needed(expansion + tiny, 0.1, acceptance) for tiny in (-1e-9, 1e-9)]
    assert beside[1] == pytest.approx(beside[0], rel=1e-6)


@pytest.mark.parametrize(("system", "precharge", "final"), [(60, 1.0, 2.5), (120, 1.5, 2.5), (35, 0.5, 2.0)])
def test_a_vessel_of_the_size_needed_ends_at_its_final_pressure(system, precharge, final):
    """The needed vessel, holding its reserve when cold, comes out at the final pressure it was sized for."""
    expansion, atmosphere = 0.04 * system * LITRE, 9e4
    acceptance = acceptance_factor(precharge * BAR, final * BAR, atmosphere)
    vessel = vessel_needed(expansion, system * LITRE, acceptance)
    reserve = water_reserve(vessel, system * LITRE)
    fill = (precharge * BAR + atmosphere) * vessel / (vessel - reserve) - atmosphere
    assert vessel_content(vessel, precharge * BAR, fill, atmosphere) == pytest.approx(reserve)
    found = final_pressure(vessel, precharge * BAR, fill, expansion, atmosphere)
    assert found == pytest.approx(final * BAR, rel=1e-9)


def test_a_vessel_filled_below_its_precharge_holds_no_reserve():
    assert vessel_content(18 * LITRE, 0.8 * BAR, 0.5 * BAR, BAR) == 0
    below, level = (final_pressure(18 * LITRE, 0.8 * BAR, p * BAR, 1 * LITRE, BAR) for p in (0.5, 0.8))
    assert below == level


def test_a_vessel_too_small_ends_far_above_any_valve():
    assert final_pressure(2 * LITRE, 1.0 * BAR, 1.0 * BAR, 3 * LITRE, BAR) > 100 * BAR


def test_a_higher_boat_fills_its_vessel_more():
    """The same gauge pressures ask for a smaller vessel where the air is thin."""
    low, high = (acceptance_factor(1 * BAR, 2.5 * BAR, p) for p in (101325.0, 80000.0))
    assert high > low


def test_static_pressure_of_a_metre_of_water():
    """1 m of water at 4 °C is 9.807 kPa (the conventional metre of water, 9,806.65 Pa)."""
    assert static_pressure(1000.0, 1.0) == pytest.approx(9806.65)


def test_the_plain_cushion_obeys_boyle():
    """Worked by hand: 3 l of air at 1 bar squeezed by 1 l stands at 1.5 bar absolute."""
    assert cushion_pressure(3 * LITRE, 1 * LITRE, BAR, 293.15, 293.15, 0.0) == pytest.approx(0.5 * BAR)


def test_a_warm_damp_cushion_stands_higher():
    cold = cushion_pressure(3 * LITRE, 1 * LITRE, BAR, 283.15, 283.15, 0.0)
    warm = cushion_pressure(3 * LITRE, 1 * LITRE, BAR, 283.15, 343.15, 2e4)
    assert warm == pytest.approx(1.5 * BAR * 343.15 / 283.15 + 2e4 - BAR)
    assert warm > cold
