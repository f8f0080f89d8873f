"""Parts rounded so that they add up to their total as printed: each to the step below or above itself."""

from collections.abc import Sequence
from fractions import Fraction
from math import floor

from dossier.notation import Real
from dossier.rendering.numbers import Numbers, display

EXACT = Fraction(1, 10**6)
"""Share of a step up to which a sum of binary fractions counts as its total."""


def parts_of(
    numbers: Numbers, parts: Sequence[Real], kind: str, total: Real | None = None
) -> tuple[list[str], str]:
    """The parts and their total without units; ``total`` is the sum where it is not given.

    The parts whose remainders are largest are rounded up until the sum is that of the total. Where parts do
    not make up the total (some are not printed), each is rounded by itself.
    """
    shown = display(kind, numbers.system)
    counts = [shown.figure(float(part)) / shown.step for part in parts]
    whole = sum(counts, Fraction(0)) if total is None else shown.figure(float(total)) / shown.step
    steps = floor(whole + Fraction(1, 2)) if whole >= 0 else -floor(-whole + Fraction(1, 2))
    if abs(sum(counts, Fraction(0)) - whole) > max(EXACT, EXACT * abs(whole)):
        return [numbers.text(float(part), kind) for part in parts], numbers.style.marked(shown.written(steps))
    low = [floor(count) for count in counts]
    spare = steps - sum(low)
    order = sorted(range(len(counts)), key=lambda place: (low[place] - counts[place], place))
    raised = set(order[:spare])
    written = [shown.written(low[n] + (n in raised)) for n in range(len(low))]
    return [numbers.style.marked(each) for each in written], numbers.style.marked(shown.written(steps))
