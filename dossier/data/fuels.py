"""Fuels of the burner, and the winter classes of diesel."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Annotated

from dossier.data.tables import rows
from dossier.notation import Row, Traced, q
from dossier.notation.records import dataclass

HEAT_OF_COMBUSTION = q("H_i", "J/kg", "lower heating value", low=30e6, high=50e6)
DENSITY = q("ρ_f", "kg/m3", "density of the fuel", low=700, high=950)
AIR_RATIO = q("L_0", "1", "air needed for each kilogram of fuel", low=10, high=17)


@dataclass(frozen=True)
class Fuel:
    """A fuel: lower heating value, density at 15 °C, composition by mass, stoichiometric air by mass."""

    name: str
    heat_of_combustion: Annotated[float, HEAT_OF_COMBUSTION]
    density: Annotated[float, DENSITY]
    carbon: Annotated[float, q("C", "1", "carbon by mass", low=0, high=1)]
    hydrogen: Annotated[float, q("H", "1", "hydrogen by mass", low=0, high=1)]
    sulphur: Annotated[float, q("S", "1", "sulphur by mass", low=0, high=1)]
    oxygen: Annotated[float, q("O", "1", "oxygen by mass", low=0, high=1)]
    air: Annotated[float, AIR_RATIO]
    source: str


@cache
def fuels() -> Mapping[str, Fuel]:
    """All fuels of the package by name, every number with its row."""
    found = {}
    for row in rows("fuels"):
        figures = {
            name: Traced(float(text), Row("fuels", row["name"], row["source"]))
            for name, text in row.items()
            if name not in {"name", "source"}
        }
        found[row["name"]] = Fuel(name=row["name"], source=row["source"], **figures)
    return MappingProxyType(found)


def fuel(name: str = "gas_oil") -> Fuel:
    """Fuel of the package's table by its name; ``KeyError`` where there is none."""
    return fuels()[name]


@cache
def plugging_points() -> Mapping[str, Traced]:
    """Cold filter plugging point (K) by EN 590 class: A to F, arctic 0 to 4."""
    return MappingProxyType(
        {
            row["class"]: Traced(
                float(row["plugging_point"]), Row("winter_fuel", row["class"], row["source"])
            )
            for row in rows("winter_fuel")
        }
    )
