"""The demonstration boats give what an independent quick calculation of the same boats gave.

The yardstick knows no more than the method in words: within 15 % for heat, flow and electricity, within half
the last printed digit for geometry and the drop in cables.
"""

import math

import pytest

from tests.demonstrations import assessed
from tests.demos.expected import rows

SCALES = {
    "1/h": 1.0,
    "Ah": 3600.0,
    "J/kgK": 1.0,
    "Pa*s": 1.0,
    "V": 1.0,
    "W/m2K": 1.0,
    "d": 86400.0,
    "deg": math.pi / 180,
    "kJ/K": 1e3,
    "kPa": 1e3,
    "kW": 1e3,
    "kg/m3": 1.0,
    "l": 1e-3,
    "l/min": 1e-3 / 60,
    "m": 1.0,
    "m3/h": 1.0,
    "min": 60.0,
    "mm": 1e-3,
}


def tolerance(row):
    """A share is taken on top of the half digit that the yardstick was rounded by."""
    share = row["tolerance"].removesuffix(" %")
    if share == row["tolerance"]:
        return float(share)
    half_digit = 0.5 * 10.0 ** -len(row["expected"].partition(".")[2])
    return abs(float(row["expected"])) * float(share) / 100 + half_digit


@pytest.mark.parametrize(
    "row", rows("expected_results.csv"), ids=lambda row: f"{row['demo']}-{row['result']}"
)
def test_result_agrees_with_the_independent_calculation(row):
    found = float(assessed(row["demo"]).results[row["result"]].value)
    found = found - 273.15 if row["unit"] == "degC" else found / SCALES[row["unit"]]
    assert found == pytest.approx(float(row["expected"]), abs=tolerance(row) + 1e-9)
