"""Cables against regulation, standards and public tables."""

import pytest

from dossier.data.cables import (
    bundle_factor,
    engine_space_factor,
    fuse_rules,
    gauge_numbers,
    gauges,
    resistance_per_metre,
    resistivities,
    tabled_current,
)
from dossier.physics.cable import (
    CIRCULAR_MIL,
    ampacity,
    battery_autonomy,
    cable_resistance,
    cable_resistance_tabled,
    charge_drawn,
    current_of,
    drop_share,
    gauge_section,
    resistivity_at,
    resistivity_of_constant,
    section_for_drop,
    smallest_section,
    terminal_voltage,
    voltage_drop,
)

KELVIN = 273.15
FOOT = 0.3048


IEC_60228 = {0.75: 26, 1: 19.5, 1.5: 13.3, 2.5: 7.98, 4: 4.95, 6: 3.30, 10: 1.91, 16: 1.21, 25: 0.780}
IEC_60228 |= {35: 0.554, 50: 0.386}


@pytest.mark.parametrize(("area", "printed"), IEC_60228.items())
def test_resistance_of_flexible_conductors(area, printed):
    """IEC 60228, class 5, plain copper at 20 °C, ohm/km."""
    assert resistance_per_metre(area * 1e-6) * 1e3 == pytest.approx(printed, rel=1e-9)


CFR_TABLE_5 = {  # 60, 75, 90, 105 °C
    "18 AWG": (10, 10, 20, 20),
    "16 AWG": (15, 15, 25, 25),
    "14 AWG": (20, 20, 30, 35),
    "12 AWG": (25, 25, 40, 45),
    "10 AWG": (40, 40, 55, 60),
    "8 AWG": (55, 65, 70, 80),
    "6 AWG": (80, 95, 100, 120),
    "4 AWG": (105, 125, 135, 160),
    "2 AWG": (140, 170, 180, 210),
    "1 AWG": (165, 195, 210, 245),
    "1/0 AWG": (195, 230, 245, 285),
    "2/0 AWG": (225, 265, 285, 330),
}


@pytest.mark.parametrize("gauge", CFR_TABLE_5)
def test_currents_of_the_federal_regulation(gauge):
    """33 CFR 183.425, table 5."""
    section = gauge_section(float(gauge_numbers()[gauge]))
    found = tuple(tabled_current(section, rating + KELVIN, "us") for rating in (60, 75, 90, 105))
    assert found == CFR_TABLE_5[gauge]


@pytest.mark.parametrize(("area", "at_60", "at_105"), [(1.5, 12, 25), (2.5, 17, 35), (4, 22, 45)])
def test_currents_of_the_metric_table(area, at_60, at_105):
    """Public page that lists 12/25, 17/35, 22/45 A, taken to be ISO 10133 table A.1."""
    assert tabled_current(area * 1e-6, 60 + KELVIN) == at_60
    assert tabled_current(area * 1e-6, 105 + KELVIN) == at_105


@pytest.mark.parametrize(
    ("rating", "factor"),
    [(60, 0.58), (75, 0.75), (80, 0.78), (90, 0.82), (105, 0.85), (125, 0.89), (200, 1.0)],
)
def test_factors_in_engine_spaces(rating, factor):
    """33 CFR 183.425, note 1; 80, 125 and 200 °C from memory."""
    assert engine_space_factor(rating + KELVIN, "us") == factor


def test_rules_about_fuses():
    """33 CFR 183.455: 150 %, 7 in, 40 in."""
    rules = fuse_rules()
    assert rules["greatest share of the ampacity"] == 1.5
    assert rules["greatest distance from the source"] / 0.0254 == pytest.approx(7)
    assert rules["greatest distance from the source in a sheath"] / 0.0254 == pytest.approx(40)


AWG = {18: 0.8230468, 16: 1.308696, 14: 2.080908, 12: 3.308773, 10: 5.261155, 8: 8.365564, 6: 13.30177}
AWG |= {4: 21.15064, 2: 33.63083, 1: 42.4077, 0: 53.47512, -1: 67.43088, -2: 85.02877, -3: 107.2193}


@pytest.mark.parametrize("number", AWG)
def test_sections_of_american_gauges(number):
    """Geometric series, 0.127 mm · 92^((36 − n)/39); 1/0 is 0."""
    assert gauge_section(float(number)) * 1e6 == pytest.approx(AWG[number], rel=1e-6)


def test_stranded_gauges_have_up_to_an_eighth_less():
    """SAE least areas (from memory) against the geometric ones: up to 12 %."""
    short = [1 - gauges()[name] / gauge_section(float(number)) for name, number in gauge_numbers().items()]
    assert 0.01 < min(short) < max(short) < 0.125


def test_resistivities_side_by_side():
    """NBS Handbook 100: 0.017241; ISO form 0.0164, below copper; K = 10.75 is 0.01787108 ohm·mm²/m."""
    assert resistivities()["copper"] * 1e6 == pytest.approx(0.017241)
    assert resistivities()["iso"] * 1e6 == pytest.approx(0.0164)
    assert resistivity_of_constant(10.75) * 1e6 == pytest.approx(0.01787108, rel=1e-6)
    assert resistivities()["abyc"] == pytest.approx(resistivity_of_constant(10.75), rel=1e-6)
    assert resistivities()["iso"] < resistivities()["copper"] < resistivities()["usual"]


def test_warm_copper():
    """NBS: 0.00393 1/K: 0.01927371 ohm·mm²/m at 50 °C; what we count with is reached at 53 °C."""
    assert resistivity_at(1.7241e-8, 50 + KELVIN) * 1e6 == pytest.approx(0.01927371, rel=1e-6)
    assert resistivity_at(1.7241e-8, 53.3 + KELVIN) == pytest.approx(resistivities()["usual"], rel=2e-3)


def test_what_we_count_with_is_what_flexible_conductors_have():
    """IEC 60228, class 5: 0.0191 to 0.0200 ohm·mm²/m at 20 °C from 0.75 to 50 mm²."""
    have = [per_kilometre * area / 1e3 for area, per_kilometre in IEC_60228.items()]
    assert 0.01909 < min(have) < resistivities()["usual"] * 1e6 < max(have) < 0.0200


def test_circular_mil():
    """Definition: π/4 · (0.0254 mm)² = 0.0005067075 mm²."""
    in_square_millimetres = CIRCULAR_MIL * 1e6
    assert in_square_millimetres == pytest.approx(0.0005067075, rel=1e-6)


@pytest.mark.parametrize(
    ("convention", "current", "out_and_back", "area", "system", "percent"),
    [
        ("iso", 10, 6, 2.5, 12, 3.28),
        ("abyc", 10, 6, 2.5, 12, 3.574216),
        ("copper", 10, 6, 2.5, 12, 3.4482),
        ("iso", 10, 12, 4, 24, 2.05),
        ("abyc", 10, 12, 4, 24, 2.233885),
        ("copper", 10, 12, 4, 24, 2.155125),
        ("iso", 18, 10, 6, 12, 4.1),
        ("abyc", 18, 10, 6, 12, 4.46777),
        ("copper", 18, 10, 6, 12, 4.31025),
        ("iso", 4, 20, 1.5, 24, 3.644444),
        ("abyc", 4, 20, 1.5, 24, 3.971351),
        ("copper", 4, 20, 1.5, 24, 3.831333),
    ],
)
def test_drop_by_each_convention(convention, current, out_and_back, area, system, percent):  # noqa: PLR0913, PLR0917 - one case
    """Arithmetic 100·ρ·I·L/(S·U), L out and back."""
    resistance = cable_resistance(resistivities()[convention], out_and_back / 2, area * 1e-6)
    assert 100 * drop_share(voltage_drop(float(current), resistance), float(system)) == pytest.approx(
        percent, rel=1e-6
    )


def test_circular_mils_for_three_per_cent():
    """ABYC formula, K = 10.75: 20 ft, 10 A, 0.36 V: 5972.222 circular mils."""
    section = section_for_drop(resistivity_of_constant(10.75), 10.0, 10 * FOOT, 0.36)
    assert section / CIRCULAR_MIL == pytest.approx(5972.222, rel=1e-6)


@pytest.mark.parametrize(
    ("feet", "current", "gauge"),
    [
        (10, 5, 18),
        (10, 10, 14),
        (10, 15, 12),
        (10, 25, 10),
        (20, 5, 14),
        (20, 10, 10),
        (30, 5, 12),
        (40, 5, 10),
    ],
)
def test_size_table_for_three_per_cent_at_12_volts(feet, current, gauge):
    """Public marine pages after ABYC E-11, length out and back: the smallest gauge sold that keeps 0.36 V."""
    needed = section_for_drop(resistivities()["abyc"], float(current), feet / 2 * FOOT, 0.36)
    fitting = [gauge_numbers()[name] for name, area in gauges().items() if area >= needed]
    assert max(fitting) == gauge


@pytest.mark.parametrize(
    ("boat", "current", "length", "area", "printed"),
    [
        ("A start", 13.9, 4.2, 6, 0.38),
        ("A fans", 3.0, 8.5, 2.5, 0.40),
        ("B start", 10, 5.0, 6, 0.33),
        ("B pump", 3.3, 5.2, 4, 0.17),
        ("B fans", 3.5, 9.0, 4, 0.31),
        ("C start", 21.8, 7.5, 2.5, 2.55),
        ("C running", 5.8, 7.5, 2.5, 0.68),
        ("C fans", 4.5, 9.0, 2.5, 0.63),
        ("C repaired, start", 21.8, 7.5, 16, 0.40),
        ("C repaired, running", 5.8, 7.5, 16, 0.11),
        ("C repaired, fans", 4.5, 9.0, 6, 0.26),
    ],
)
def test_drops_of_the_invented_boats(boat, current, length, area, printed):
    """Independent calculation, to the last digit: reached with the usual resistivity alone."""
    resistance = cable_resistance(resistivities()["usual"], length, area * 1e-6)
    drop = voltage_drop(float(current), resistance)
    assert drop == pytest.approx(printed, abs=0.0051), boat
    by_table = voltage_drop(
        float(current), cable_resistance_tabled(resistance_per_metre(area * 1e-6), length)
    )
    assert by_table == pytest.approx(drop, rel=0.03), boat


def test_thin_hot_cable_of_the_barge():
    """From memory of ISO 10133 table A.1 with 0.75: about 19 A for 2.5 mm², 70 °C, in the engine space."""
    assert ampacity(2.5e-6, 70 + KELVIN, engine_space=True) == pytest.approx(19, abs=0.5)


def test_cable_that_would_do_for_the_barge():
    """Revision B of the invented barge fits 16 mm² for 5 % of 12 V at 21.8 A and 7.5 m."""
    needed = section_for_drop(resistivities()["usual"], 21.8, 7.5, 0.6)
    assert smallest_section(21.8, needed, 105 + KELVIN, engine_space=True) == pytest.approx(16e-6)
    assert smallest_section(500.0, needed, 105 + KELVIN, engine_space=True) is None


def test_insulation_the_metric_table_does_not_admit_in_engine_spaces():
    """ISO 10133, from memory: below 70 °C none; the current counts as nothing."""
    assert ampacity(2.5e-6, 60 + KELVIN, engine_space=True) == 0


@pytest.mark.parametrize(("conductors", "factor"), [(1, 1), (2, 1), (3, 0.7), (6, 0.6), (7, 0.5), (30, 0.4)])
def test_conductors_in_a_bundle(conductors, factor):
    """ABYC E-11, from memory."""
    assert bundle_factor(conductors) == factor


def test_hours_on_a_battery():
    """Arithmetic: 400 Ah, 50 %, 3.2 A: 62.5 h."""
    assert battery_autonomy(400 * 3600.0, 0.5, 3.2) / 3600 == pytest.approx(62.5)


def test_ampere_hours_of_a_day():
    """Arithmetic: 2.5, 1.2, 8 A for 10, 24, 0.4 h: 57 Ah."""
    drawn = sum(charge_drawn(i, 3600.0 * h) for i, h in ((2.5, 10.0), (1.2, 24.0), (8.0, 0.4)))
    assert drawn / 3600 == pytest.approx(57)


def test_voltage_while_the_glow_pin_draws():
    """Ohm's law: 22 V at rest, 14 A through 5 mohm of battery and 27 mohm of cable leave 21.552 V."""
    assert terminal_voltage(22.0, 14.0, 0.005, 0.027) == pytest.approx(21.552)


def test_current_of_a_pump():
    """Ohm's law: the 80 W pump of the invented boat B draws 3.3 A at 24 V."""
    assert current_of(80.0, 24.0) == pytest.approx(3.3, abs=0.05)
