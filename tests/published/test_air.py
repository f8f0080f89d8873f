"""Air against the general property library."""

import pytest

from dossier.physics.air import air_conductivity, air_density, air_viscosity


@pytest.mark.parametrize("temperature", [253.15, 293.15, 323.15, 423.15, 623.15, 773.15])
def test_air_against_coolprop(temperature):
    """CoolProp, dry air at 101325 Pa; the viscosity of the standard atmosphere is 3 % low at 500 °C."""
    from CoolProp import CoolProp  # takes seconds to load

    def theirs(name):
        return CoolProp.PropsSI(name, "T", temperature, "P", 101325, "Air")

    assert air_density(temperature) == pytest.approx(theirs("D"), rel=2e-3)
    assert air_viscosity(temperature) == pytest.approx(theirs("V"), rel=0.03)
    assert air_conductivity(temperature) == pytest.approx(theirs("L"), rel=0.03)


def test_air_of_the_standard_atmosphere_at_the_sea():
    """US Standard Atmosphere 1976, 15 °C: 1.2250 kg/m³, 17.894 µPa·s, 25.326 mW/mK (from memory)."""
    assert air_density(288.15) == pytest.approx(1.2250, rel=1e-4)
    assert air_viscosity(288.15) == pytest.approx(17.894e-6, rel=1e-4)
    assert air_conductivity(288.15) == pytest.approx(25.326e-3, rel=1e-4)
