"""Numbers as the workings print them: SI, four figures, powers of ten written out, raised units."""

from functools import cache
from math import floor, isfinite, log10

from dossier.notation import PageFault
from dossier.rendering.numbers import MINUS, SPACE
from dossier.rendering.text import Markup, own, sup, text

FIGURES = 4
KELVIN_FIGURES = 5
SMALLEST, LARGEST = 1e-3, 1e6
"""Ends between which a number is written without a power of ten."""


def exact(number: float, unit: str = "") -> Markup:
    """A number in four figures (temperatures in five), a power of ten written out where it is far from one.

    Raises PageFault for what is not finite.
    """
    if not isfinite(number):
        raise PageFault(f"{number} is no number for a page")
    figures = KELVIN_FIGURES if unit == "K" else FIGURES
    if number == 0:
        return text("0")
    power = floor(log10(abs(float(f"{number:.{figures - 1}e}"))))
    if SMALLEST <= abs(number) < LARGEST:
        return text(_signed(_trimmed(f"{number:,.{max(figures - 1 - power, 0)}f}")))
    mantissa = _trimmed(f"{number / 10.0**power:.{figures - 1}f}")
    raised = _signed(str(power))
    return text(_signed(mantissa), own("·10"), sup(own(raised)))


def _trimmed(digits: str) -> str:
    return digits.rstrip("0").rstrip(".") if "." in digits else digits


def _signed(digits: str) -> str:
    return digits.replace("-", MINUS)


@cache
def unit_text(unit: str) -> Markup:
    r"""A unit as results declare it (``W/m2K``), set for reading, a hard space before it; nothing for 1.

    >>> str(unit_text("W/m2K"))
    '\xa0W/m2K'
    """
    if unit in {"1", ""}:
        return Markup()
    parts: list[Markup] = [own(SPACE)]
    letters = unit.replace("*", "·").replace("ohm", "Ω")
    for place, letter in enumerate(letters):
        raised = letter.isdigit() and place > 0 and letters[place - 1].isalpha()
        parts.append(sup(own(letter)) if raised else own(letter))
    return text(*parts)
