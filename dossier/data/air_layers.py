"""Resistance of unventilated air layers, by thickness and direction of the heat flow."""

from functools import cache

import numpy as np
from numpy.typing import NDArray

from dossier.data.surface_resistances import HeatFlow
from dossier.data.tables import rows


@cache
def air_layer_table(direction: HeatFlow) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Thicknesses (m) and resistances (m2K/W) for one direction, both of shape ``[rows]``."""
    table = rows("air_layers")
    thicknesses = np.array([float(row["thickness"]) for row in table])
    resistances = np.array([float(row[direction.value]) for row in table])
    return thicknesses, resistances
