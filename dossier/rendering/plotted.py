"""Numbers for the axes of a figure: in the reader's unit, not rounded."""

from collections.abc import Iterable

from dossier.notation import Real
from dossier.rendering.numbers import Numbers, display


def plotted(numbers: Numbers, values: Iterable[Real], kind: str) -> list[float]:
    """SI values as figures in the printed unit of a kind."""
    shown = display(kind, numbers.system)
    zero, scale = float(shown.zero), float(shown.scale)
    return [(float(value) - zero) / scale for value in values]
