"""Scald times and hot surfaces as public pages print them."""

import pytest

from dossier.data.scald import burning_surfaces, contact_times
from dossier.notation import OutOfRange
from dossier.physics.scald import deep_scald_time, scald_time, scalds

KELVIN = 273.15
PRINTED = {
    45: (7200, 10800),
    47: (1200, 2700),
    48: (900, 1200),
    49: (480, 600),
    51: (120, 252),
    55: (17, 30),
    60: (3, 5),
}


@pytest.mark.parametrize("celsius", PRINTED)
def test_times_of_the_table(celsius):
    """Moritz and Henriques (1947), as printed on a public page: second and third degree, seconds."""
    second, third = PRINTED[celsius]
    assert scald_time(celsius + KELVIN) == pytest.approx(second, rel=1e-9)
    assert deep_scald_time(celsius + KELVIN) == pytest.approx(third, rel=1e-9)


def test_lowest_temperature_that_burns():
    """Encyclopedia article after Moritz and Henriques: 44 °C for more than six hours."""
    assert scald_time(44 + KELVIN) == pytest.approx(6 * 3600, rel=1e-9)
    assert scalds(44 + KELVIN)
    assert not scalds(43.9 + KELVIN)
    with pytest.raises(OutOfRange):
        scald_time(43 + KELVIN)


def test_burning_about_doubles_with_each_kelvin():
    """The same article: the rate about doubles per kelvin from 44 to 51 °C (6 h to 2 min in 7 K)."""
    for celsius in (45, 47, 48.5):
        assert 1.3 < scald_time(celsius + KELVIN) / scald_time(celsius + 1 + KELVIN) < 3.2


def test_between_two_rows_the_geometric_mean():
    """Interpolation in the logarithm of the time: 17 and 3 s have 7.14 s midway."""
    assert scald_time(57.5 + KELVIN) == pytest.approx((17 * 3) ** 0.5, rel=1e-9)


def test_boiling_water_burns_no_later_than_the_last_row():
    assert scald_time(90 + KELVIN) == pytest.approx(3, rel=1e-9)


@pytest.mark.parametrize(
    ("name", "celsius", "seconds"),
    [
        ("any surface for a minute", 52, 60),
        ("metal for five seconds", 60, 5),
        ("metal for a second", 70, 1),
        ("metal on prolonged contact", 43, 28800),
    ],
)
def test_surfaces_that_burn(name, celsius, seconds):
    """ASTM C1055 and EN ISO 13732-1 as quoted on public pages; 8 h of the last from memory."""
    assert burning_surfaces()[name] - KELVIN == pytest.approx(celsius)
    assert contact_times()[name] == seconds
