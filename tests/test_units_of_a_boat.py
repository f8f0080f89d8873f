"""A boat in the units of the yard across the water is the same boat.

Sizes of the units: international yard and pound (NBS, 1959), the British thermal unit of the 1956 steam
tables (ISO 31-4:1992, annex A), the US gallon of 231 in3 (NIST SP 811, 2008, appendix B); from memory.
"""

import re
from fractions import Fraction
from shutil import copytree

import pytest

from dossier.assessment import assess
from dossier.project import load
from tests.demonstrations import PROJECTS, assessed

INCH, POUND, GALLON = Fraction("0.0254"), Fraction("0.45359237"), Fraction("0.003785411784")
PSI = POUND * Fraction("9.80665") / INCH**2
BTU_PER_HOUR = Fraction("1055.05585262") / 3600
OTHER = {
    "m": ("ft", 1 / (12 * INCH)),
    "mm": ("in", Fraction("0.001") / INCH),
    "cm": ("in", Fraction("0.01") / INCH),
    "m2": ("ft2", 1 / (12 * INCH) ** 2),
    "m3": ("gal", 1 / GALLON),
    "l": ("gal", Fraction("0.001") / GALLON),
    "l/min": ("gpm", Fraction("0.001") / GALLON),
    "kW": ("Btu/h", 1000 / BTU_PER_HOUR),
    "kPa": ("psi", 1000 / PSI),
    "bar": ("psi", 100_000 / PSI),
    "kg": ("lb", 1 / POUND),
    "min": ("s", Fraction(60)),
    "h": ("min", Fraction(60)),
}
FIGURE = re.compile(r"(?<=: |, |.\[|t )(-?[0-9]+(?:\.[0-9]+)?) ([A-Za-z0-9/]+)(?=[,}\]\s])")


def written(number):
    """A fraction with twenty figures behind the point."""
    whole = round(number * 10**20)
    return f"{'-' if whole < 0 else ''}{abs(whole) // 10**20}.{abs(whole) % 10**20:020d}"


def elsewhere(found):
    """A figure of the file in the other unit; a temperature in degrees Fahrenheit."""
    number, unit = Fraction(found[1]), found[2]
    if unit == "degC":
        return f"{written(number * 9 / 5 + 32)} degF"
    if unit not in OTHER:
        return found[0]
    name, factor = OTHER[unit]
    return f"{written(number * factor)} {name}"


@pytest.mark.parametrize("boat", ["lantern_auk", "barley_moth_b"])
def test_a_boat_written_in_feet_pounds_and_gallons_has_the_same_results(boat, tmp_path):
    folder = boat.removesuffix("_b")
    copytree(PROJECTS / folder, tmp_path / folder)
    file = tmp_path / folder / f"{boat}.yaml"
    text = file.read_text(encoding="utf-8")
    changed = FIGURE.sub(elsewhere, text)
    assert len(FIGURE.findall(text)) > 100
    file.write_text(changed, encoding="utf-8")
    own, other = assessed(boat), assess(load(file))
    assert other.results.keys() == own.results.keys()
    for name, result in own.results.items():
        assert float(other.results[name].value) == pytest.approx(float(result.value), rel=1e-9, abs=1e-9), (
            name
        )
    for one, two in zip(own.findings, other.findings, strict=True):
        assert (one.check, one.status) == (two.check, two.status)
