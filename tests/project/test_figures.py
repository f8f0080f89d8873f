"""Numbers as people write them.

Expected sizes: the definitions of the international yard and pound (1959), the US and imperial gallon and the
thermal unit as NIST SP 811 (2008), appendix B, gives them (from memory), and pint's own full registry.
"""

from fractions import Fraction

import pint
import pytest

from dossier.project.figures import Misread, figure
from dossier.project.units import UnknownUnit, dimension_of, kind, names, unit


@pytest.mark.parametrize(
    ("written", "metres"),
    [
        ("2.4 m", "2.4"),
        ("2.4m", "2.4"),
        ("  2.4   m ", "2.4"),
        (".5 m", "0.5"),
        ("40 mm", "0.040"),
        ("9 mm", "0.009"),
        ("1 1/2 in", "0.0381"),
        ("1/2 in", "0.0127"),
        ("½ in", "0.0127"),
        ("1½ in", "0.0381"),
        ("1 ½ in", "0.0381"),
        ("4 ft 6 in", "1.3716"),
        ("4' 6\"", "1.3716"),
        ("4'6\"", "1.3716"),
        ("-4 ft 6 in", "-1.3716"),
        ("−0.10 m", "-0.10"),  # U+2212
        ("+2 m", "2"),
        ("010 m", "10"),  # YAML 1.1 would say eight
        ("2.4 m - 0.4 m", "2"),
        ("2.4 m-0.4 m", "2"),
        ("1.2 m + 80 cm", "2"),
        ("2 x 3 m", "6"),
        ("1e-3 m", "0.001"),
    ],
)
def test_lengths_as_people_write_them(written, metres):
    found = figure(written)
    assert found.amount == Fraction(metres)
    assert found.dimension == dimension_of("m")


@pytest.mark.parametrize(
    ("written", "square_metres"),
    [
        ("3.2 m x 1.4 m - 0.4 m2", "4.08"),
        ("3.2 m × 1.4 m", "4.48"),
        ("3.2mx1.4m", "4.48"),
        ("3.2 m*1.4 m", "4.48"),
        ("6 x 500 mm x 300 mm", "0.9"),
        ("3.2 m x 1.4 m + 2 x 0.5 m²", "5.48"),
        ("100 cm2", "0.01"),
        ("1 ft2", "0.09290304"),
        ("1 sq ft", "0.09290304"),
    ],
)
def test_areas_are_sums_and_products_of_measured_pieces(written, square_metres):
    found = figure(written)
    assert found.amount == Fraction(square_metres)
    assert found.dimension == dimension_of("m2")


@pytest.mark.parametrize(
    ("written", "write"),
    [
        ("3,2 m", "write 3.2 m"),
        ("-1,2 m", "write -1.2 m"),
        ("1 000 l", "write 1000 l"),
        ("1\u202f000 l", "write 1000 l"),
        ("1'000 l", "write 1000 l"),
        ("1’000 l", "write 1000 l"),
        ("1.000,5 l", "write 1000.5 l"),
        ("1.000,5", "write 1000.5"),
        ("1,000,000 l", "write 1000000 l"),
        ("1.000.000 l", "write 1000000 l"),
        ("1_000 l", "write 1000 l"),
        ("1,000 l", "write 1000 l or 1.000 l"),
    ],
)
def test_commas_and_grouped_thousands_are_refused_with_what_to_write(written, write):
    with pytest.raises(Misread) as caught:
        figure(written)
    assert caught.value.instead == write


@pytest.mark.parametrize(
    "written",
    [
        "abc",
        "m",
        "",
        "nan",
        "nan m",
        "inf m",
        "1.2.3 m",
        "--3 m",
        "3 m x",
        "x 3 m",
        "3 m +",
        "1e999 W",
        "1e400 m",
        "9" * 5000 + " m",
        "12:30",
        "0x10 m",
        "3 m 2 m",
        "4 ft 6",
        "6 in 4 ft",
        "3 m2 + 1 m",
        "20 degC + 3 degC",
        "1/0 m",
        "2-3 m",
        "2 to 3 m",
        "3 m ± 5 %",
        "about 3 m",
        "none",
        "?",
        "１２ m",
        "3 m;",
    ],
)
def test_what_is_no_figure_is_refused_and_says_what_to_write(written):
    with pytest.raises(Misread) as caught:
        figure(written)
    assert caught.value.what
    assert caught.value.instead


def test_a_hundred_pieces_are_no_measured_area():
    with pytest.raises(Misread):
        figure(" + ".join(["1 m2"] * 40))


@pytest.mark.parametrize(
    ("written", "si", "value"),
    [
        ("1 in", "m", 0.0254),
        ("1 ft", "m", 0.3048),
        ("1 lb", "kg", 0.45359237),
        ("1 gal", "m3", 3.785411784e-3),
        ("1 US gal", "m3", 3.785411784e-3),
        ("1 imp gal", "m3", 4.54609e-3),
        ("1 gpm", "m3/s", 6.309020e-5),
        ("1 cfm", "m3/s", 4.719474e-4),
        ("1 psi", "Pa", 6894.757),
        ("1 bar", "Pa", 1e5),
        ("1 BTU/h", "W", 0.2930711),
        ("1 BTU/(h ft2 °F)", "W/m2K", 5.678263),
        ("1 kn", "m/s", 0.5144444),
        ("1 mph", "m/s", 0.44704),
        ("1 kWh", "J", 3.6e6),
        ("1 Ah", "C", 3600.0),
        ("1 mH2O", "Pa", 9806.65),
        ("1 l/min", "m3/s", 1 / 60000),
        ("1 kN*m", "N*m", 1000.0),
        ("1 kNm", "N*m", 1000.0),
        ("4000 rpm", "1/s", 4000 / 60),
        ("10 deg", "rad", 0.17453292519943295),
        ("10°", "rad", 0.17453292519943295),
        ("3 mmol/l", "mol/m3", 3.0),
        ("60 mg/l", "kg/m3", 0.06),
        ("5 mohm", "ohm", 0.005),
        ("5 mΩ", "ohm", 0.005),
        ("40 %", "1", 0.4),
        ("9 ppm", "1", 9e-6),
        ("1.5 1/h", "1/s", 1.5 / 3600),
        ("1.5/h", "1/s", 1.5 / 3600),
        ("1.5 h-1", "1/s", 1.5 / 3600),
        ("30 kJ/K/m3", "J/m3K", 30000.0),
    ],
)
def test_units_have_their_published_size(written, si, value):
    found = figure(written)
    assert float(found.amount) == pytest.approx(value, rel=2e-7)
    assert found.dimension == dimension_of(si)


@pytest.mark.parametrize(
    "text", ["W/m2K", "W/(m²·K)", "W/m/m/K", "W/(m2 K)", "W m-2 K-1", "W/m²K", "W/m^2/K"]
)
def test_a_transmittance_is_read_however_its_powers_are_written(text):
    assert unit(text).dimension == dimension_of("W/m2K")
    assert unit(text).scale == 1


def test_a_metre_beside_a_kelvin_is_no_millikelvin():
    assert unit("W/mK").dimension == unit("W/m/K").dimension
    assert unit("W/mK").scale == 1


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ("kw", "kW"),
        ("Kpa", "kPa"),
        ("F", "degF"),
        ("hrs", "h"),
        ("litres", "l"),
        ("AWG", "mm2"),
        ("furlong", ""),
    ],
)
def test_unknown_units_lead_to_the_nearest_known(text, near):
    with pytest.raises(UnknownUnit) as caught:
        unit(text)
    assert caught.value.near == near


@pytest.mark.parametrize("text", ["", "1", "((m", "m//s", "m" * 40, "mmm", "m5", "K/", "/", "m/(s"])
def test_what_is_no_unit_is_refused(text):
    with pytest.raises(UnknownUnit):
        unit(text)


COLUMN_OF_WATER = {"mWC", "mH2O", "metre_of_water"}
"""Not in every version of pint; checked among the published sizes above."""
NAMED_OTHERWISE = {
    "USgal": "gallon",
    "UKgal": "imperial_gallon",
    "impgal": "imperial_gallon",
    "British_thermal_unit": "Btu",
    "cfm": "ft**3/min",
    "cubic_foot_per_minute": "ft**3/min",
    "gpm": "gallon/min",
    "gallon_per_minute": "gallon/min",
    "lpm": "l/min",
    "litre_per_minute": "l/min",
    "pound_force_per_square_inch": "psi",
    "kn": "knot",
    "rpm": "1/min",
    "revolutions_per_minute": "1/min",
    "rev": "",
    "revolution": "",
    "parts_per_million": "ppm",
}
"""Names of ours that pint's registry lacks, or reads otherwise (its ``cfm`` is 1e-17 m)."""


@pytest.fixture(scope="module")
def pints_own():
    return pint.UnitRegistry()


@pytest.mark.parametrize("name", sorted(names() - COLUMN_OF_WATER))
def test_units_agree_with_the_full_registry_of_pint(name, pints_own):
    theirs = NAMED_OTHERWISE.get(name, name)
    one, zero = (pints_own.Quantity(figure, theirs).to_base_units().magnitude for figure in (1.0, 0.0))
    assert float(unit(name).scale) == pytest.approx(one - zero, rel=1e-6)
    assert float(unit(name).offset) == pytest.approx(zero, abs=1e-9)


@pytest.mark.parametrize(
    ("si", "said"),
    [("m2", "an area"), ("K", "a temperature"), ("1", "a share"), ("W/m2K", "a thermal transmittance")],
)
def test_dimensions_have_names_for_messages(si, said):
    assert kind(dimension_of(si)) == said
