"""Water against the check values of IAPWS R7-97(2012), the Industrial Formulation 1997.

The tables hold water at 101.325 kPa (above 100 °C at saturation); the region 1 values are printed at 3 MPa.
"""

import pytest

from dossier.physics.boiling import saturation_pressure, saturation_temperature
from dossier.physics.fluid import water


@pytest.mark.parametrize(("kelvin", "printed"), [(300, 0.353658941e-2), (500, 2.63889776), (600, 12.3443146)])
def test_saturation_pressure(kelvin, printed):
    """R7-97, table 35 (MPa), nine digits."""
    assert saturation_pressure(float(kelvin)) == pytest.approx(printed * 1e6, rel=2e-9)


@pytest.mark.parametrize(("megapascal", "printed"), [(0.1, 372.755919), (1, 453.035632), (10, 584.149488)])
def test_saturation_temperature(megapascal, printed):
    """R7-97, table 36 (K), nine digits."""
    assert saturation_temperature(megapascal * 1e6) == pytest.approx(printed, rel=2e-9)


def test_specific_volume_at_300_kelvin():
    """R7-97, table 5: 0.00100215168 m³/kg at 3 MPa; 2.9 MPa less pressure makes water 0.13 % lighter."""
    assert water().density(300.0) == pytest.approx(1 / 0.00100215168, rel=1.5e-3)


def test_specific_heat_at_300_kelvin():
    """R7-97, table 5: 4.17301218 kJ/kgK at 3 MPa; 2.9 MPa less pressure raises it by 0.2 %."""
    assert water().specific_heat(300.0) == pytest.approx(4173.01218, rel=2.5e-3)


@pytest.mark.parametrize(
    ("celsius", "density"),
    [(4, 999.97), (10, 999.70), (20, 998.21), (40, 992.2), (60, 983.2), (80, 971.8), (100, 958.4)],
)
def test_density(celsius, density):
    """CRC Handbook of Chemistry and Physics, density of water, from memory, in its digits."""
    assert water().density(celsius + 273.15) == pytest.approx(density, abs=0.06)


@pytest.mark.parametrize(
    ("celsius", "viscosity"), [(0, 1.793), (20, 1.002), (40, 0.653), (60, 0.466), (80, 0.354), (100, 0.282)]
)
def test_viscosity(celsius, viscosity):
    """CRC Handbook of Chemistry and Physics, viscosity of water (mPa·s), from memory, in its digits."""
    assert water().viscosity(celsius + 273.15) * 1e3 == pytest.approx(viscosity, abs=0.0015)
