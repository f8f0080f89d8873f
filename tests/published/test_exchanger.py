"""Exchangers against textbook examples, the library ht and the exact series of crossflow."""

from math import exp, factorial

import ht
import numpy as np
import pytest
from scipy.special import ive

from dossier.physics.air import air_density
from dossier.physics.exchanger import (
    Arrangement,
    capacity_rate,
    cooled_outlet,
    effectiveness,
    exchanger_heat,
    log_mean_difference,
    rate_ratio,
    smaller_rate,
    transfer_units,
    warmed_outlet,
)
from dossier.physics.rated_point import (
    ImpossibleRating,
    rated_conductance,
    rated_effectiveness,
    units_asked,
)

KELVIN = 273.15
SUBTYPES = {
    Arrangement.COUNTERFLOW: "counterflow",
    Arrangement.PARALLEL: "parallel",
    Arrangement.CROSSFLOW: "crossflow approximate",
    Arrangement.CROSSFLOW_LEAST_MIXED: "crossflow, mixed Cmin",
    Arrangement.CROSSFLOW_GREATEST_MIXED: "crossflow, mixed Cmax",
}


def test_oil_cooler_gives_its_heat_to_the_water():
    """Incropera, Introduction to Heat Transfer, 6th ed., Example 11.1: 8524 W, 40.2 °C."""
    heat = 0.1 * 2131 * (100 - 60)
    assert heat == pytest.approx(8524, abs=1)
    assert warmed_outlet(30 + KELVIN, heat, 0.2 * 4178) - KELVIN == pytest.approx(40.2, abs=0.05)
    assert cooled_outlet(100 + KELVIN, heat, 0.1 * 2131) - KELVIN == pytest.approx(60, abs=1e-9)


def test_oil_cooler_has_its_logarithmic_mean():
    """Incropera, Example 11.1: 43.2 K."""
    assert log_mean_difference(100 - 40.2, 60 - 30.0) == pytest.approx(43.2, abs=0.05)


def test_oil_cooler_by_effectiveness_gives_the_same_heat():
    """Incropera, Example 11.1: UA = 8524 W/43.2 K passes 8524 W."""
    heat = exchanger_heat(
        Arrangement.COUNTERFLOW, 8524 / 43.2004, 0.1 * 2131.0, 0.2 * 4178.0, 100 + KELVIN, 30 + KELVIN
    )
    assert heat == pytest.approx(8524, rel=1e-4)


def test_oil_heated_by_steam():
    """Holman, Heat Transfer, 10th ed., Example 10-9, digits of the library ht."""
    oil, steam = 0.725 * 1900.0, 5.2 * 1860.0
    units = transfer_units(275 * 10.82, smaller_rate(oil, steam))
    assert units == pytest.approx(2.16007, abs=1e-4)
    share = effectiveness(Arrangement.CROSSFLOW_GREATEST_MIXED, units, rate_ratio(oil, steam))
    assert share == pytest.approx(0.831218, abs=1e-5)
    heat = exchanger_heat(
        Arrangement.CROSSFLOW_GREATEST_MIXED, 275 * 10.82, steam, oil, 130 + KELVIN, 15 + KELVIN
    )
    assert heat == pytest.approx(131675.3, abs=5)
    assert warmed_outlet(15 + KELVIN, heat, oil) - KELVIN == pytest.approx(110.59, abs=0.002)
    assert cooled_outlet(130 + KELVIN, heat, steam) - KELVIN == pytest.approx(116.386, abs=0.002)


PRINTED = {  # NTU, C_r: counterflow, parallel, crossflow exact, crossflow by approximation
    (0.5, 0.25): (0.3775889, 0.3717909, 0.3750944, 0.3720571),
    (0.5, 0.5): (0.3622656, 0.3517556, 0.357827, 0.3519478),
    (0.5, 0.75): (0.3475114, 0.3332217, 0.3415948, 0.3330961),
    (0.5, 1.0): (0.3333333, 0.3160603, 0.32633, 0.3154492),
    (1.0, 0.25): (0.598286, 0.5707962, 0.5880113, 0.587202),
    (1.0, 0.5): (0.5647334, 0.5179132, 0.5474898, 0.5447637),
    (1.0, 0.75): (0.5318575, 0.4721292, 0.5103086, 0.5051553),
    (1.0, 1.0): (0.5, 0.4323324, 0.4762224, 0.4685364),
    (2.0, 0.25): (0.8227658, 0.734332, 0.7974223, 0.803301),
    (2.0, 0.5): (0.7746003, 0.6334753, 0.7324093, 0.7387585),
    (2.0, 0.75): (0.721827, 0.5541729, 0.6710803, 0.6752072),
    (2.0, 1.0): (0.6666667, 0.4908422, 0.6142472, 0.6154071),
    (4.0, 0.25): (0.9621891, 0.7946096, 0.9340198, 0.9409853),
    (4.0, 0.5): (0.9274211, 0.6650142, 0.8696866, 0.8765638),
    (4.0, 0.75): (0.8729857, 0.5709075, 0.7968836, 0.8002437),
    (4.0, 1.0): (0.8, 0.4998323, 0.7224257, 0.7234867),
}


@pytest.mark.parametrize(("units", "ratio"), PRINTED)
def test_effectiveness_against_the_library(units, ratio):
    """Library ht 1.2.0, effectiveness_from_NTU; the approximation by its own closed form."""
    counterflow, parallel, exact, approximate = PRINTED[units, ratio]
    assert effectiveness(Arrangement.COUNTERFLOW, units, ratio) == pytest.approx(counterflow, abs=1e-6)
    assert effectiveness(Arrangement.PARALLEL, units, ratio) == pytest.approx(parallel, abs=1e-6)
    assert effectiveness(Arrangement.CROSSFLOW, units, ratio) == pytest.approx(approximate, rel=1e-6)
    assert effectiveness(Arrangement.CROSSFLOW, units, ratio) == pytest.approx(exact, abs=0.012)


@pytest.mark.parametrize(
    ("arrangement", "units", "ratio", "printed"),
    [
        (Arrangement.CROSSFLOW_GREATEST_MIXED, 1.0, 0.5, 0.541969),
        (Arrangement.CROSSFLOW_LEAST_MIXED, 1.0, 0.5, 0.5447637),
        (Arrangement.CROSSFLOW_GREATEST_MIXED, 2.0, 0.75, 0.6362264),
        (Arrangement.CROSSFLOW_LEAST_MIXED, 2.0, 0.75, 0.6450671),
    ],
)
def test_effectiveness_with_one_flow_mixed(arrangement, units, ratio, printed):
    """Library ht 1.2.0."""
    assert effectiveness(arrangement, units, ratio) == pytest.approx(printed, abs=1e-6)


@pytest.mark.parametrize("arrangement", Arrangement)
@pytest.mark.parametrize(("units", "printed"), [(0.5, 0.3934693), (1.0, 0.6321206), (3.0, 0.9502129)])
def test_one_flow_of_constant_temperature(arrangement, units, printed):
    """Incropera: at C_r = 0 all arrangements have 1 − e^−NTU."""
    assert effectiveness(arrangement, units, 0.0) == pytest.approx(printed, rel=1e-6)


def series_of_crossflow(units, ratio):
    """Exact effectiveness of crossflow, both flows unmixed: Mason's series (handbook form)."""
    total = 0.0
    inner_one = inner_two = 0.0
    for n in range(60):
        inner_one += units**n / factorial(n)
        inner_two += (ratio * units) ** n / factorial(n)
        total += (1 - exp(-units) * inner_one) * (1 - exp(-ratio * units) * inner_two)
    return total / (ratio * units)


@pytest.mark.parametrize(("units", "ratio"), PRINTED)
def test_series_of_crossflow_is_the_librarys_exact_value(units, ratio):
    """The series and ht 1.2.0 agree, so the series may judge the approximation elsewhere."""
    assert series_of_crossflow(units, ratio) == pytest.approx(PRINTED[units, ratio][2], abs=2e-6)


def bessel_of_crossflow(units, ratio):
    """Exact effectiveness in the form with modified Bessel functions (ESDU, Kays and London)."""
    root = np.sqrt(ratio)
    decay = np.exp(-units * (1 + ratio - 2 * root))
    argument = 2 * units * root
    terms = sum(ratio ** (n / 2) * ive(n, argument) for n in range(2, 80))
    return 1 - decay * (ive(0, argument) + root * ive(1, argument) - (1 - ratio) / ratio * terms)


def test_bessel_form_and_series_are_one():
    for units in (0.3, 1.0, 3.0):
        for ratio in (0.2, 0.6, 1.0):
            assert bessel_of_crossflow(units, ratio) == pytest.approx(
                series_of_crossflow(units, ratio), abs=1e-9
            )


def off_the_series(units, ratio):
    return effectiveness(Arrangement.CROSSFLOW, units, ratio) - series_of_crossflow(units, ratio)


def test_approximation_of_crossflow_stays_within_what_we_say_of_it():
    """Within 0.011 of the exact series up to NTU 6, worst near NTU 0.5 and C_r 1, where fan coils work."""
    off = {
        (units, ratio): abs(off_the_series(units, ratio))
        for units in np.geomspace(0.05, 6, 30)
        for ratio in np.linspace(0.05, 1, 20)
    }
    worst = max(off, key=off.get)
    assert 0.010 < off[worst] < 0.0111
    assert 0.3 < worst[0] < 0.8
    assert worst[1] == 1


def test_approximation_of_crossflow_falls_short_at_a_trickle():
    """At NTU 10 it promises up to 0.02 less than the exact series: on the safe side for a room."""
    off = [off_the_series(10.0, ratio) for ratio in np.linspace(0.4, 1, 13)]
    assert -0.0200 < min(off) < -0.0190
    assert max(off) < 0


@pytest.mark.parametrize("arrangement", Arrangement)
def test_transfer_units_from_the_library(arrangement):
    """Library ht, NTU_from_effectiveness, over what each arrangement can reach."""
    for units in (0.05, 0.4, 1.3, 3.0):
        for ratio in (0.1, 0.5, 0.9):
            share = effectiveness(arrangement, units, ratio)
            theirs = ht.NTU_from_effectiveness(share, ratio, subtype=SUBTYPES[arrangement])
            assert units_asked(arrangement, share, ratio) == pytest.approx(theirs, rel=1e-6)
            assert theirs == pytest.approx(units, rel=1e-6)


FAN_COIL = {"output": 3000.0, "hot_rate": 611.9226, "cold_rate": 70.654733, "hot": 353.15, "cold": 291.15}


def test_rated_effectiveness_of_a_fan_coil():
    """Arithmetic of the rated point 3 kW, 80/18 °C, 210 m³/h."""
    assert rated_effectiveness(3000.0, 70.654733, 353.15, 291.15) == pytest.approx(0.6848387, abs=1e-6)


def test_conductance_of_a_fan_coil_by_the_approximation():
    """Inverse of the approximation: 87.2619 W/K; by the exact series 87.469 W/K, 2 % asked."""
    found = rated_conductance(Arrangement.CROSSFLOW, *FAN_COIL.values())
    assert found == pytest.approx(87.2619, rel=1e-5)
    assert found == pytest.approx(87.46904, rel=0.02)


def test_fan_coil_at_another_temperature_gives_in_proportion():
    """Constant conductance and flows: output ∝ temperature difference; 60 °C water, 20 °C air 1935.484 W."""
    found = rated_conductance(Arrangement.CROSSFLOW, *FAN_COIL.values())
    heat = exchanger_heat(Arrangement.CROSSFLOW, found, 611.9226, 70.654733, 333.15, 293.15)
    assert heat == pytest.approx(1935.484, rel=1e-6)


def test_air_of_a_fan_coil_as_the_figures_count_it():
    """210 m³/h of air with 1.204 kg/m³ and 1006 J/kgK carry 70.654733 W/K."""
    assert capacity_rate(210 / 3600, air_density(293.15), 1006.0) == pytest.approx(70.654733, rel=3e-4)


def test_impossible_rated_point_is_refused_with_its_figures():
    """4.4 kW from 210 m³/h of air at 62 K ask for an effectiveness of 1.004."""
    with pytest.raises(ImpossibleRating, match=r"4400 W from 80 °C to 18 °C .* 1\.004") as refused:
        rated_conductance(Arrangement.CROSSFLOW, 4400.0, 611.9226, 210 / 3600 * 1.204 * 1006, 353.15, 291.15)
    assert refused.value.asked == pytest.approx(1.004, abs=5e-4)


@pytest.mark.parametrize(
    ("ends", "mean"),
    [((30.0, 55.0), 41.24488), ((40.0, 42.0), 40.99187), ((30.0, 30.0), 30.0)],
)
def test_logarithmic_mean_even_between_equal_ends(ends, mean):
    """Closed form; equal ends are its limit, the arithmetic mean."""
    assert log_mean_difference(*ends) == pytest.approx(mean, rel=1e-6)


PLATE = {"output": 14000.0, "hot_rate": 1089.4, "cold_rate": 349.22853, "hot": 348.15, "cold": 283.15}


def test_plate_exchanger_from_its_rated_point():
    """Library ht, counterflow: NTU 1.087334, UA 379.7281 W/K; tap water leaves with 50.08836 °C."""
    asked = rated_effectiveness(14000.0, 349.22853, 348.15, 283.15)
    ratio = rate_ratio(1089.4, 349.22853)
    assert units_asked(Arrangement.COUNTERFLOW, asked, ratio) == pytest.approx(1.087334, rel=1e-5)
    conductance = rated_conductance(Arrangement.COUNTERFLOW, *PLATE.values())
    assert conductance == pytest.approx(379.7281, rel=1e-5)
    assert warmed_outlet(283.15, 14000.0, 349.22853) - KELVIN == pytest.approx(50.08836, abs=1e-5)


def test_jacket_water_exchanger():
    """Library ht, counterflow, UA 810 W/K: 15639.67 W, ring 67.37741 °C, engine water back at 71.09807 °C."""
    heat = exchanger_heat(Arrangement.COUNTERFLOW, 810.0, 1125.0, 900.0, 85 + KELVIN, 50 + KELVIN)
    assert heat == pytest.approx(15639.67, rel=1e-6)
    assert warmed_outlet(50 + KELVIN, heat, 900.0) - KELVIN == pytest.approx(67.37741, abs=1e-5)
    assert cooled_outlet(85 + KELVIN, heat, 1125.0) - KELVIN == pytest.approx(71.09807, abs=1e-5)
