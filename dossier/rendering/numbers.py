"""Numbers as they are printed: SI inside, the reader's unit on the page, no more digits than are known.

Rounding never flatters. What was found is rounded towards the worse side of its limit, and the margin is the
difference of the two as printed; where that would turn a miss into a hit, or a hit into a miss, more digits
are shown instead.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cache

from dossier.data.tables import rows
from dossier.notation import PageFault, Quantity
from dossier.project.units import unit
from dossier.rendering.language import Style

NOT_APPLICABLE = "—"
MINUS, PLUS, SPACE = "\u2212", "+", "\u00a0"
NOISE = Fraction(1, 10**9)  # of a step: what sums of binary fractions are off by
CLOSE, LARGE = 1e-6, 1e12  # where plain floats may not decide
FINER = 4  # digits that may be added before a margin says what is so


class System(str, Enum):
    """The units a document puts first."""

    METRIC = "metric"
    IMPERIAL = "imperial"

    @property
    def other(self) -> "System":
        """The units in brackets."""
        return System.IMPERIAL if self is System.METRIC else System.METRIC


class Limits(str, Enum):
    """On which side of its limit a value must lie."""

    MINIMUM = "minimum"
    MAXIMUM = "maximum"


class Display:
    """How a kind of quantity is printed: figure = (SI value − zero) / scale, to the nearest step."""

    __slots__ = ("_grid", "_zero", "decimals", "grain", "scale", "step", "text", "zero")

    def __init__(self, text: str, scale: Fraction, zero: Fraction, step: Fraction) -> None:
        self.text, self.scale, self.zero, self.step = text, scale, zero, step
        self.decimals = 0
        while (step * 10**self.decimals).denominator != 1:
            self.decimals += 1
        self.grain = int(step * 10**self.decimals)  # a step, in units of the last decimal
        self._zero, self._grid = float(zero), float(scale * step)

    def figure(self, number: float) -> Fraction:
        """The number in the printed unit, exactly as its shortest decimal says."""
        return (Fraction(repr(float(number))) - self.zero) / self.scale

    def finer(self, digits: int) -> "Display":
        """The same with a finer step."""
        return Display(self.text, self.scale, self.zero, self.step / 10**digits)

    def nearest(self, number: float) -> int:
        """Steps of a number, to the nearest; in plain floats unless it lies near the middle of two."""
        count = (number - self._zero) / self._grid
        if abs(count % 1.0 - 0.5) > CLOSE and abs(count) < LARGE:
            return math.floor(count + 0.5)
        return _steps(self.figure(number), self.step, 0)

    def written(self, steps: int, *, signed: bool = False) -> str:
        """Digits with a comma for thousands, the true minus sign, and no sign on zero."""
        power = 10**self.decimals
        whole, rest = divmod(abs(steps) * self.grain, power)
        digits = f"{whole:,}.{rest:0{self.decimals}d}" if self.decimals else f"{whole:,}"
        return ((MINUS if steps < 0 else PLUS if signed else "") if steps else "") + digits


@dataclass(frozen=True, slots=True)
class Judged:
    """Found, limit and margin as they stand beside one another."""

    found: str
    limit: str
    margin: str


def _scale(si: str) -> Fraction:
    return Fraction(1) if si == "1" else unit(si).scale


@cache
def display(kind: str, system: System) -> Display:
    """How a kind is printed; raises PageFault for one nobody knows."""
    for row in rows("display_units"):
        if row["kind"] == kind:
            name = row[system.value]
            scale = unit(name).scale / _scale(row["si"]) if name else Fraction(1)
            zero = unit(name).offset if _is_temperature(kind) else Fraction(0)
            return Display(row[f"{system.value}_text"], scale, zero, Fraction(row[f"{system.value}_step"]))
    raise PageFault(f"nobody knows how to print {kind!r}")


def _is_temperature(kind: str) -> bool:
    """Whether a kind has a zero of its own; a difference has none."""
    return kind.startswith("temperature") and "difference" not in kind


@cache
def kinds() -> tuple[str, ...]:
    """All kinds of quantity that can be printed."""
    return tuple(row["kind"] for row in rows("display_units"))


def kind_of(quantity: Quantity) -> str:
    """The usual kind of a declared quantity, from its unit and symbol.

    >>> kind_of(Quantity("Δθ", "K", "cooling"))
    'temperature_difference'
    """
    if quantity.unit == "K" and quantity.symbol.startswith("Δ"):
        return "temperature_difference"
    if quantity.unit == "1":
        return "ratio"
    for row in rows("display_units"):
        if row["si"] == quantity.unit:
            return row["kind"]
    raise PageFault(f"nobody knows how to print {quantity.label} in {quantity.unit}")


def _steps(figure: Fraction, step: Fraction, side: int) -> int:
    """How many steps: the nearest, or the next one down (−1) or up (+1) unless it is only noise away."""
    count = figure / step
    if side < 0:
        return math.floor(count + NOISE)
    if side > 0:
        return math.ceil(count - NOISE)
    nearest = math.floor(abs(count) + Fraction(1, 2) + NOISE)
    return nearest if count >= 0 else -nearest


def _finite(number: float) -> float:
    if not math.isfinite(number):
        raise PageFault(f"{number} is no number for a page")
    return number


class Numbers:
    """Prints numbers in one system of units, and the other in brackets where both are wanted."""

    def __init__(self, system: System = System.METRIC, style: Style | None = None) -> None:
        self.system, self.style = System(system), style or Style()

    @property
    def other(self) -> "Numbers":
        """The same in the other system of units."""
        return Numbers(self.system.other, self.style)

    def unit(self, kind: str) -> str:
        """The unit as printed, for the head of a column."""
        shown = display(kind, self.system).text
        return self.style.units.get(shown, shown)

    def text(self, number: float | None, kind: str, *, signed: bool = False) -> str:
        """A number without its unit; "—" where there is none.

        Raises PageFault for what is not finite.
        """
        if number is None:
            return NOT_APPLICABLE
        shown = display(kind, self.system)
        return self.style.marked(shown.written(shown.nearest(_finite(number)), signed=signed))

    def said(self, number: float | None, kind: str, *, signed: bool = False) -> str:
        """A number with its unit, not to be parted by the end of a line."""
        return self.with_unit(self.text(number, kind, signed=signed), kind)

    def with_unit(self, written: str, kind: str) -> str:
        """A number that is a text already, with its unit; degrees of angle stand close."""
        shown = self.unit(kind)
        if not shown or written == NOT_APPLICABLE:
            return written
        return written + ("" if shown == "°" else SPACE) + shown

    def both(self, number: float | None, kind: str) -> str:
        """A number in both systems: ``851 mm (33.5 in)``; once where they print alike."""
        first, second = self.said(number, kind), self.other.said(number, kind)
        return first if number is None or first == second else f"{first} ({second})"

    def span(self, low: float, high: float, kind: str) -> str:
        """A range without its unit: ``3.6 – 4.8``."""
        return f"{self.text(low, kind)}{SPACE}–{SPACE}{self.text(high, kind)}"

    def column(self, numbers: Iterable[float | None], kind: str, *, signed: bool = False) -> list[str]:
        """A column of numbers, the same decimals in each."""
        return [self.text(number, kind, signed=signed) for number in numbers]

    def judged(  # noqa: PLR0913 - two numbers and how they are compared and written
        self, found: float, limit: float, kind: str, limits: Limits, *, units: bool = True, both: bool = False
    ) -> Judged:
        """What was found, its limit and the margin, rounded so that none looks better than it is.

        ``units`` writes the unit with each; ``both`` adds the other system in brackets to found and limit.
        """
        sign = ("≥" if limits is Limits.MINIMUM else "≤") + SPACE
        first = self._marked(_figures(found, limit, display(kind, self.system), limits))
        texts = [self.with_unit(written, kind) if units else written for written in first]
        if both:
            other = self.other
            second = self._marked(_figures(found, limit, display(kind, other.system), limits))
            for place in (0, 1):
                bracket = other.with_unit(second[place], kind)
                if bracket != self.with_unit(first[place], kind):
                    texts[place] += f" ({bracket})"
        if units and _is_temperature(kind):
            texts[2] = self.with_unit(first[2], kind.replace("temperature", "temperature_difference"))
        return Judged(texts[0], sign + texts[1], texts[2])

    def _marked(self, figures: Iterable[str]) -> list[str]:
        return [self.style.marked(written) for written in figures]


def _figures(found: float, limit: float, shown: Display, limits: Limits) -> tuple[str, str, str]:
    """Found, limit, margin in digits that agree with one another and with what is so."""
    worse = -1 if limits is Limits.MINIMUM else 1
    exact_found, exact_limit = shown.figure(_finite(found)), shown.figure(_finite(limit))
    room = (exact_limit - exact_found) * worse
    same = abs(room) <= shown.step * NOISE
    for digits in range(FINER + 1):
        finer = shown.finer(digits)
        limit_steps = _steps(exact_limit, finer.step, -worse)
        found_steps = limit_steps if same else _steps(exact_found, finer.step, worse)
        margin_steps = (limit_steps - found_steps) * worse
        even = abs(limit_steps * finer.step - exact_limit) <= finer.step * NOISE
        if even if same else (margin_steps >= 0) == (room > 0):
            break
    return (
        finer.written(found_steps),
        finer.written(limit_steps),
        finer.written(margin_steps, signed=True),
    )
