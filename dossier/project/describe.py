"""What a key of the file is, in words: its unit, its range, how it may be written.

The schema and the reference say it alike.
"""

from collections.abc import Iterator, Mapping
from functools import cache
from math import inf, log10
from typing import Any

import yaml

from dossier.project.fields import Num
from dossier.project.model.entry import Entry, Figure
from dossier.project.quantities import CUSTOMARY, SHARES, TEMPERATURES
from dossier.project.units import scale_of, unit

DIGITS = (1, 1.5, 2, 3, 4, 5, 6, 8)
POWERS = range(-2, 5)
EASY = (1.0, 999.0)
"""Between these people read a number at a glance."""
CLUMSY = 0.5
"""What a number that is not costs, in powers of ten from the middle of what is likely."""
PLAIN = frozenset({Figure.COUNT, Figure.NUMBER, Figure.ANY})
LONG = 10_000
"""From here on a number is written out whole."""
TRACES = 0.1
"""Shares below this may be told in parts per million."""


def units_of(num: Num) -> tuple[str, ...]:
    """Units such a figure is usually written in; none for a plain number."""
    if num.how is Figure.TEMPERATURE:
        return TEMPERATURES
    if num.how is Figure.SHARE:
        return SHARES if num.quantity.high <= TRACES else SHARES[:1]
    if num.how in PLAIN or num.quantity.unit == "1":
        return ()
    return CUSTOMARY.get(num.quantity.unit, (num.quantity.unit,))


def unit_of(num: Num) -> str:
    """In which unit it is written, in words."""
    if num.how is Figure.COUNT:
        return "a whole number"
    if num.how is Figure.ANY:
        return "in the unit of its check"
    return " or ".join(units_of(num)[:2]) or "a plain number"


def range_of(num: Num) -> str:
    """What is possible, in a customary unit; empty where nothing bounds it."""
    low, high = num.quantity.low, num.quantity.high
    if num.how is Figure.ANY or inf in {abs(low), abs(high)}:
        return ""
    names = units_of(num)
    scale, zero = _written_in(names[0] if names else "", num)
    ends = " to ".join(_readable((end - zero) / scale, whole=bool(zero)) for end in (low, high))
    return f"{ends} {names[0]}" if names else ends


def _readable(end: float, *, whole: bool) -> str:
    return f"{end + 0.0:.0f}" if whole or abs(end) >= LONG else f"{end:.4g}"


@cache
def example_of(num: Num) -> str:
    """A likely figure as it is written."""
    if num.how is Figure.ANY:
        return "2.5 m"
    found = sorted(_candidates(num))
    return found[0][1] if found else ""


def _candidates(num: Num) -> Iterator[tuple[float, str]]:
    """Figures in customary units, each with how far it lies from the middle of what is likely."""
    ends = num.likely or num.quantity
    straight = num.how is Figure.TEMPERATURE or ends.low < 0
    names = units_of(num)
    middle = (ends.low + ends.high) / 2 if straight else (max(ends.low, ends.high / 100) * ends.high) ** 0.5
    for place, name in enumerate(names[:1] if straight else names[:3] or ("",)):
        scale, zero = _written_in(name, num)
        for figure in (digit * 10.0**power for power in POWERS for digit in DIGITS):
            amount = figure * scale + zero
            if not ends.low <= amount <= ends.high or (num.how is Figure.COUNT and figure % 1):
                continue
            away = abs(amount - middle) / (ends.high - ends.low) if straight else abs(log10(amount / middle))
            clumsy = 0.0 if EASY[0] <= figure <= EASY[1] else CLUMSY
            yield round(away + clumsy + 0.01 * place, 6), f"{figure:g} {name}".strip()


def _written_in(name: str, num: Num) -> tuple[float, float]:
    """Size of a unit in that of the quantity, and where it starts to count."""
    if not name:
        return 1.0, 0.0
    used, own = unit("percent" if name == "%" else name), float(scale_of(num.quantity.unit))
    return float(used.scale) / own, float(used.offset) / own if num.how is Figure.TEMPERATURE else 0.0


@cache
def example_keys(cls: type[Entry]) -> Mapping[str, Any]:
    """The example of an entry as plain values by key, every scalar as it is written."""
    held = plain(cls.example) if cls.example else {}
    return held if isinstance(held, dict) else {}


def plain(example: str) -> Any:
    """An example as plain values, every scalar as it is written."""
    return yaml.load(example.replace("…", "'…'"), yaml.BaseLoader)  # noqa: S506 - makes texts alone
