"""What a line of a commissioning sheet expects: figures of the calculation with their tolerance, or words."""

from dataclasses import dataclass

from dossier.data.commissioning import SheetLine
from dossier.data.wording import filled, places_in
from dossier.notation import Real
from dossier.rendering.draft import Draft
from dossier.rendering.filling import POINTS, Filling
from dossier.rendering.numbers import Limits, Numbers
from dossier.rendering.text import Markup, Text, own, text

NOISE = 1e-9


@dataclass(frozen=True)
class Expected:
    """What is expected, as printed; ``low`` and ``high`` bound a reading in SI, None where nothing does."""

    words: Text
    target: Real | None = None
    low: float | None = None
    high: float | None = None

    def holds(self, reading: float) -> bool | None:
        """Whether a reading is as expected; None where nothing bounds it."""
        if self.low is None and self.high is None:
            return None
        slack = NOISE * max(abs(reading), 1e-6)
        return (self.low is None or reading >= self.low - slack) and (
            self.high is None or reading <= self.high + slack
        )


class Expectations:
    """Expectations of one draft."""

    def __init__(self, draft: Draft) -> None:
        self.draft, self.words = draft, draft.words
        self.filling = Filling(draft)

    def of(self, line: SheetLine) -> Expected:
        """What a line expects."""
        return self.made(
            line,
            self._number(line.target),
            self._number(line.tolerance),
            (self._number(line.least), self._number(line.most)),
        )

    def made(
        self,
        line: SheetLine,
        target: Real | None,
        tolerance: Real | None = None,
        bounds: tuple[Real | None, Real | None] = (None, None),
    ) -> Expected:
        """What is expected of a target in SI, how far off it may lie, and its least and most."""
        least, most = bounds
        parts: list[Text] = []
        lows = [] if least is None else [float(least)]
        highs = [] if most is None else [float(most)]
        if target is not None and tolerance is not None:
            width = float(tolerance) * (abs(float(target)) if line.relative else 1.0)
            lows.append(float(target) - width)
            highs.append(float(target) + width)
            parts.append(self._within(line, target, float(tolerance), (lows[-1], highs[-1])))
        parts += self._bounds(line, least, most)
        if target is not None and tolerance is None:
            misses = any(target < low for low in lows) or any(target > high for high in highs)
            name = "calculated_misses" if misses else "calculated"
            parts.append(self.words(f"records.{name}", figure=self._said(target, line.shown)))
        if line.expected:
            parts.append(filled(line.expected, self.filling))
        asked = line.target or line.least or line.most or line.tolerance
        if asked and target is None and not parts:
            parts.append(self.words("records.not_known"))
        return Expected(_joined(parts), target, max(lows, default=None), min(highs, default=None))

    def _number(self, written: str) -> Real | None:
        """A figure in SI, or that of a placeholder in braces."""
        if not written:
            return None
        names = places_in(written)
        return self.filling.number(names[0]) if names else float(written)

    def _said(self, number: Real, shown: str) -> str:
        return self.draft.numbers.both(float(number), shown)

    def _within(self, line: SheetLine, target: Real, tolerance: float, ends: tuple[float, float]) -> Text:
        """A target with its tolerance, and the range a reading may lie in, rounded to the strict side."""
        numbers, shown = self.draft.numbers, line.shown
        low = rounded(numbers, ends[0], shown, Limits.MAXIMUM, units=False)
        high = rounded(numbers, ends[1], shown, Limits.MINIMUM, units=False)
        if line.relative:
            off = numbers.said(tolerance, "share")
        elif shown == "share":
            off = self.filling.said(tolerance, POINTS)
        else:
            off = numbers.said(tolerance, shown)
        figure = numbers.said(float(target), shown)
        return self.words("records.within", figure=figure, off=off, low=low, high=high)

    def _bounds(self, line: SheetLine, least: Real | None, most: Real | None) -> list[Text]:
        shown = line.shown
        if least is not None and most is not None:
            low, high = (self.draft.numbers.text(float(end), shown) for end in (least, most))
            return [self.words("records.between", low=low, high=high, unit=self.draft.numbers.unit(shown))]
        if least is not None:
            figure = rounded(self.draft.numbers, float(least), shown, Limits.MAXIMUM, both=True)
            return [self.words("records.at_least", figure=figure)]
        if most is None:
            return []
        if float(most) == 0:
            return [self._said(most, shown)]
        figure = rounded(self.draft.numbers, float(most), shown, Limits.MINIMUM, both=True)
        return [self.words("records.at_most", figure=figure)]


def rounded(numbers: Numbers, bound: float, shown: str, limits: Limits, **how: bool) -> str:
    """A bound rounded to its strict side: up with ``MAXIMUM``, down with ``MINIMUM``."""
    far = max(1.0, abs(bound))
    beyond = bound + far if limits is Limits.MAXIMUM else bound - far
    return numbers.judged(bound, beyond, shown, limits, **how).found


def _joined(parts: list[Text]) -> Markup:
    return text(*(piece for n, part in enumerate(parts) for piece in ((own(", "), part) if n else (part,))))
