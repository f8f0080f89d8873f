"""Resistance of the air film on inner surfaces, by the direction the heat flows."""

from enum import Enum
from functools import cache

from dossier.data.tables import rows
from dossier.notation import Row, Traced


class HeatFlow(str, Enum):
    """Direction of the heat flow through a build-up, seen from the warm side."""

    UP = "up"
    HORIZONTAL = "horizontal"
    DOWN = "down"

    def __str__(self) -> str:
        return self.value


@cache
def _table() -> dict[str, Traced]:
    return {
        row["case"]: Traced(float(row["resistance"]), Row("surface_resistances", row["case"], row["source"]))
        for row in rows("surface_resistances")
    }


def inside_surface_resistance(direction: HeatFlow | str) -> Traced:
    """R_si for heat loss, m2K/W; ``ValueError`` for a word that is no direction."""
    return _table()[HeatFlow(direction).value]


def mould_surface_resistance() -> Traced:
    """R_si for condensation and mould, m2K/W: air stands still in corners and behind furniture."""
    return _table()["mould"]
