"""Times after which hot water burns skin, and surfaces that burn on touch."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from dossier.data.tables import rows
from dossier.notation import Row, Traced

DEGREES = ("second_degree", "third_degree")
"""Depth of the burn: outer skin lost, skin lost through its whole thickness."""


@cache
def scald_table(degree: str) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Temperatures (K, rising) and times (s) of one depth of burn; ``KeyError`` for an unknown one."""
    known = [(row["temperature"], row[degree]) for row in rows("scald") if row[degree]]
    return np.array([float(t) for t, _ in known]), np.array([float(s) for _, s in known])


@cache
def burning_surfaces() -> Mapping[str, Traced]:
    """Temperature (K) from which a surface burns, by what touches it for how long."""
    return MappingProxyType(
        {
            row["name"]: Traced(float(row["temperature"]), Row("touch", row["name"], row["source"]))
            for row in rows("touch")
        }
    )


@cache
def contact_times() -> Mapping[str, Traced]:
    """Time (s) of contact that each surface of ``burning_surfaces`` is told for."""
    return MappingProxyType(
        {
            row["name"]: Traced(float(row["contact"]), Row("touch", row["name"], row["source"]))
            for row in rows("touch")
        }
    )
