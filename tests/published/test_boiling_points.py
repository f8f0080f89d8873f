"""When the coolant boils, and the air above the boat, against printed tables."""

import pytest

from dossier.physics.boiling import atmospheric_pressure, boiling_point
from dossier.physics.fluid import coolant

ASHRAE_PRESSURE = 100.7e3

BOILING = {
    "ethylene glycol": {0.1: 101.1, 0.2: 102.2, 0.3: 104.4, 0.4: 105.6, 0.5: 107.2, 0.6: 110.0},
    "propylene glycol": {0.2: 100.6, 0.3: 102.2, 0.4: 103.9, 0.5: 105.6, 0.6: 107.2},
}


@pytest.mark.parametrize(
    ("base", "by_mass", "printed"),
    [(base, share, celsius) for base, cells in BOILING.items() for share, celsius in cells.items()],
)
def test_boiling_point_lies_on_the_safe_side_of_the_print(base, by_mass, printed):
    """ASHRAE Handbook of Fundamentals, boiling points at 100.7 kPa, from memory: at most 2.5 K above ours."""
    mix = coolant(base, by_mass, inhibited=False, by="mass")
    margin = printed + 273.15 - boiling_point(mix, ASHRAE_PRESSURE)
    assert 0 <= margin <= 2.5


@pytest.mark.parametrize(
    ("altitude", "printed"), [(0, 101325), (500, 95460.8), (1000, 89874.6), (2000, 79495.2)]
)
def test_pressure_of_the_standard_atmosphere(altitude, printed):
    """ISO 2533:1975, geopotential altitude, from memory."""
    assert atmospheric_pressure(float(altitude)) == pytest.approx(printed, abs=1)
