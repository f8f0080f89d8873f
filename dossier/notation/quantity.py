"""What a number is: its symbol, unit, label and range, declared once for formula, page and program."""

from dataclasses import dataclass
from math import inf
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Real: TypeAlias = float | NDArray[np.float64]
"""A number, or as many samples of it: every formula takes either."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """The declaration of a quantity.

    ``unit`` is SI and written as the results are (``W/m2K``, ``Pa*s``); ``low`` and ``high`` are the ends
    of the range in which the number means something; ``name`` is the pattern of the result's dotted name
    (``heat_loss.zone.{zone}``), empty where the number is no result of its own.
    """

    symbol: str
    unit: str
    label: str
    low: float = -inf
    high: float = inf
    name: str = ""


def q(  # noqa: PLR0913 - a declaration is as long as what it declares
    symbol: str,
    unit: str,
    label: str,
    *,
    low: float = -inf,
    high: float = inf,
    name: str = "",
) -> Quantity:
    """Declaration of a quantity, written inside ``Annotated[Real, ...]``."""
    return Quantity(symbol, unit, label, low, high, name)
