"""Tables of water and of aqueous glycol, read once: what a set covers, its grid and its freezing line.

Two sets stand for each glycol, because the pure and the inhibited mix differ at the same share (by up to 13 %
in viscosity, 2.3 K in freezing point, a seventh in expansion): pure glycol counted by mass, industrially
inhibited glycol counted by volume.
"""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from dossier.data.tables import rows
from dossier.notation import Source
from dossier.notation.records import dataclass

PROPERTIES = ("density", "specific_heat", "conductivity", "viscosity")
"""Columns of every fluid table, in the order of the arrays below."""

ON_THE_LINE = 1e-4
"""A point this near the freezing line was written as a point of it (K)."""

Samples = NDArray[np.float64]


@dataclass(frozen=True)
class FluidSet:
    """One data set: what it describes, how it counts the share, and where it ends.

    ``by`` is ``mass`` or ``volume``, empty for water. Shares are fractions, temperatures kelvin.
    """

    key: str
    base: str
    inhibited: bool
    by: str
    shares: tuple[float, float]
    temperatures: tuple[float, float]
    label: str
    origin: str

    @property
    def is_mix(self) -> bool:
        """Whether the set has a share at all."""
        return bool(self.by)

    @property
    def source(self) -> Source:
        """The set as a page names it: what it is and where it was printed."""
        return Source(self.label, self.origin)

    def __str__(self) -> str:
        return f"{self.label} ({self.origin})"


@dataclass(frozen=True)
class Isotherm:
    """Properties along one temperature: ``nodes`` are shares, ``columns`` has a row for each property."""

    temperature: float
    nodes: Samples
    columns: Samples


@dataclass(frozen=True)
class FluidTable:
    """The grid of a set, isotherm by isotherm, and its freezing line.

    Isotherms that cross the freezing line begin on it, so that every liquid state lies between nodes.
    ``freezing_shares`` and ``freezing_points`` give the whole line; ``line`` holds the properties along its
    first part, as far as the line lies inside the set's temperatures (empty for water).
    """

    isotherms: tuple[Isotherm, ...]
    freezing_shares: Samples
    freezing_points: Samples
    line: Samples


@dataclass(frozen=True)
class Glycol:
    """A base fluid alone: molar mass (kg/mol), density at 20 °C (kg/m³), boiling allowance (K)."""

    base: str
    molar_mass: float
    density: float
    boiling_allowance: float
    source: str


@cache
def fluid_sets() -> Mapping[str, FluidSet]:
    """All data sets by key."""
    found = {}
    for row in rows("fluids/sets"):
        found[row["key"]] = FluidSet(
            key=row["key"],
            base=row["base"],
            inhibited=row["kind"] == "inhibited",
            by=row["by"],
            shares=(float(row["share_low"]), float(row["share_high"])),
            temperatures=(float(row["temperature_low"]), float(row["temperature_high"])),
            label=row["name"],
            origin=row["source"],
        )
    return MappingProxyType(found)


def fluid_set(base: str, *, inhibited: bool = True) -> FluidSet:
    """Data set of a base fluid; water has only one.

    Raises ``ValueError`` with the known bases where there is none.
    """
    known = [s for s in fluid_sets().values() if s.base == base]
    for candidate in known:
        if candidate.inhibited == inhibited or not candidate.is_mix:
            return candidate
    bases = ", ".join(dict.fromkeys(s.base for s in fluid_sets().values()))
    raise ValueError(f"no table of {base!r}; there are tables of {bases}")


def _columns(table: list[Mapping[str, str]]) -> Samples:
    return np.array([[float(row[name]) for row in table] for name in PROPERTIES])


@cache
def fluid_table(key: str) -> FluidTable:
    """Grid and freezing line of a data set."""
    mix = fluid_sets()[key].is_mix
    line_rows = list(rows(f"fluids/{key}_freezing")) if mix else []
    inside = [row for row in line_rows if row["density"]]
    line = _columns(inside) if inside else np.empty((len(PROPERTIES), 0))
    by_temperature: dict[float, list[Mapping[str, str]]] = {}
    for row in rows(f"fluids/{key}"):
        by_temperature.setdefault(float(row["temperature"]), []).append(row)
    isotherms = []
    for temperature, cells in sorted(by_temperature.items()):
        nodes = np.array([float(row["share"]) for row in cells])
        columns = _columns(cells)
        for place, row in enumerate(inside):
            on_line = abs(float(row["freezing_point"]) - temperature) < ON_THE_LINE
            if on_line and float(row["share"]) < nodes[0]:
                nodes = np.concatenate([[float(row["share"])], nodes])
                columns = np.concatenate([line[:, place : place + 1], columns], axis=1)
        isotherms.append(Isotherm(temperature, nodes, columns))
    return FluidTable(
        isotherms=tuple(isotherms),
        freezing_shares=np.array([float(row["share"]) for row in line_rows]),
        freezing_points=np.array([float(row["freezing_point"]) for row in line_rows]),
        line=line,
    )


@cache
def glycol(base: str) -> Glycol:
    """A base fluid by name, water among them."""
    for row in rows("fluids/glycols"):
        if row["base"] == base:
            return Glycol(
                base=base,
                molar_mass=float(row["molar_mass"]),
                density=float(row["density"]),
                boiling_allowance=float(row["boiling_allowance"]),
                source=row["source"],
            )
    raise ValueError(f"no figures for {base!r}")


@cache
def share_pairs(base: str) -> tuple[Samples, Samples]:
    """Shares by mass and by volume of the same inhibited mix, each rising."""
    pairs = [(float(r["by_mass"]), float(r["by_volume"])) for r in rows("fluids/shares") if r["base"] == base]
    by_mass, by_volume = np.array(pairs).T
    return by_mass, by_volume
