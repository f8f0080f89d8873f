"""Materials of hulls, linings and insulation: what the package knows without being told."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Annotated

from dossier.data.tables import rows
from dossier.notation import Row, Traced, q
from dossier.notation.records import dataclass


@dataclass(frozen=True)
class Material:
    """A material by its name, of the package's table or of the project's own.

    ``vapour_factor`` is the dry-cup resistance factor to water vapour, ``vapour_factor_wet`` the wet-cup one.
    ``fibrous`` insulation takes up water; what is ``combustible`` burns or chars beside something hot.
    """

    name: str
    conductivity: Annotated[float, q("λ", "W/mK", "thermal conductivity", low=0.01, high=500)]
    density: Annotated[float, q("ρ", "kg/m3", "density", low=5, high=12000)]
    specific_heat: Annotated[float, q("c", "J/kgK", "specific heat", low=100, high=5000)]
    vapour_factor: Annotated[float, q("μ", "1", "water vapour resistance factor, dry", low=1, high=1e6)]
    vapour_factor_wet: Annotated[float, q("μ", "1", "water vapour resistance factor, wet", low=1, high=1e6)]
    fibrous: bool
    combustible: bool
    source: str


@cache
def materials() -> Mapping[str, Material]:
    """All materials of the package by name, every number with its row."""
    found = {}
    for row in rows("materials"):
        name, source = row["name"], row["source"]

        def number(column: str, row: Mapping[str, str] = row) -> Traced:
            return Traced(float(row[column]), Row("materials", row["name"], row["source"]))

        found[name] = Material(
            name=name,
            conductivity=number("conductivity"),
            density=number("density"),
            specific_heat=number("specific_heat"),
            vapour_factor=number("vapour_factor"),
            vapour_factor_wet=number("vapour_factor_wet"),
            fibrous=row["fibrous"] == "yes",
            combustible=row["combustible"] == "yes",
            source=source,
        )
    return MappingProxyType(found)


def material(name: str) -> Material:
    """Material of the package's table by its name; ``KeyError`` where there is none."""
    return materials()[name]
