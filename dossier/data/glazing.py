"""Resistance of the gap of double glazing, by its width."""

from functools import cache

import numpy as np
from numpy.typing import NDArray

from dossier.data.tables import rows


@cache
def gap_table() -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Widths (m) and resistances (m2K/W) of the gap, both of shape ``[rows]``."""
    table = rows("glazing")
    return (
        np.array([float(row["gap"]) for row in table]),
        np.array([float(row["resistance"]) for row in table]),
    )
