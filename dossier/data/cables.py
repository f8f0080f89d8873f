"""Cables: sections, gauges, resistances, what current they may carry, fuses.

Two tables of currents stand side by side: ``iso`` (ISO 10133, mm², most of it from memory) and ``us`` (33 CFR
183.425, gauges). A section or insulation between two rows counts as the smaller one; below the table is a
fault, never an extrapolation.
"""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dossier.data.tables import rows
from dossier.notation import OutOfRange, Quantity, Row, Source, Traced, lines_behind, q

SECTION = q("A", "m2", "section of the conductor", low=0.7e-6, high=130e-6)
INSULATION = q("θ_I", "K", "rating of the insulation", low=333.15, high=523.15)
CURRENT = q("I", "A", "current", low=0, high=1000)
SLACK = 1e-3
"""Share by which a section may fall short of its row, for rounding in the file."""


def _traced(table: str, row: Mapping[str, str], name: str, column: str) -> Traced:
    return Traced(float(row[column]), Row(table, name, row["source"]))


@cache
def sections() -> Mapping[str, Traced]:
    """Sections on sale (m²) by name, smallest first: ``0.75 mm2`` and so on."""
    return MappingProxyType(
        {row["name"]: _traced("cables", row, row["name"], "section") for row in rows("cables")}
    )


@cache
def _resistances() -> tuple[tuple[float, Traced], ...]:
    return tuple(
        (float(row["section"]), _traced("cables", row, row["name"], "resistance")) for row in rows("cables")
    )


def resistance_per_metre(section: float) -> Traced | None:
    """Greatest resistance (ohm/m) of a flexible conductor at 20 °C by IEC 60228; None for an odd section."""
    return next((found for area, found in _resistances() if abs(area - section) <= SLACK * area), None)


@cache
def gauges() -> Mapping[str, Traced]:
    """Least section (m²) of the conductors sold under each American gauge: ``18 AWG`` to ``4/0 AWG``."""
    return MappingProxyType(
        {row["name"]: _traced("awg", row, row["name"], "least_section") for row in rows("awg")}
    )


@cache
def gauge_numbers() -> Mapping[str, int]:
    """Number of each American gauge in the geometric series: 1/0 is 0, 2/0 is -1."""
    return MappingProxyType({row["name"]: int(row["number"]) for row in rows("awg")})


@cache
def resistivities() -> Mapping[str, Traced]:
    """Resistivity (ohm·m) by convention: ``usual`` (ours), ``iso``, ``copper``, ``abyc``."""
    return MappingProxyType(
        {
            row["name"]: _traced("resistivities", row, row["name"], "resistivity")
            for row in rows("resistivities")
        }
    )


@cache
def _currents(table: str) -> tuple[tuple[float, float, Traced], ...]:
    found = [
        (
            float(row["section"]),
            float(row["insulation"]),
            _traced(
                "ampacity",
                row,
                f"{table} {row['name']} {float(row['insulation']) - 273.15:.0f} °C",
                "current",
            ),
        )
        for row in rows("ampacity")
        if row["table"] == table
    ]
    if not found:
        raise KeyError(table)
    return tuple(found)


def _beyond(
    table: str, name: str, quantity: Quantity, ends: tuple[float, float], stated: float
) -> OutOfRange:
    told = Quantity(quantity.symbol, quantity.unit, quantity.label, *ends)
    source = Source(_currents(table)[0][2].origin.source)  # type: ignore[union-attr]  # a row of the table
    return OutOfRange(f"ampacity table {table}", name, told, stated, source, lines_behind(stated))


def tabled_current(section: float, insulation: float, table: str = "iso") -> Traced:
    """Current (A) a single conductor may carry outside engine spaces.

    ``section`` m², ``insulation`` its rating in K, ``table`` ``iso`` or ``us``. Raises ``OutOfRange`` below
    the smallest section or the coolest insulation of the table, ``KeyError`` for an unknown table.
    """
    known = _currents(table)
    sizes, ratings = {row[0] for row in known}, {row[1] for row in known}
    fitting = [size for size in sizes if size <= section * (1 + SLACK)]
    if not fitting:
        raise _beyond(table, "section", SECTION, (min(sizes), max(sizes)), section)
    rated = [rating for rating in ratings if rating <= insulation + SLACK]
    if not rated:
        raise _beyond(table, "insulation", INSULATION, (min(ratings), INSULATION.high), insulation)
    return next(row[2] for row in known if row[0] == max(fitting) and row[1] == max(rated))


@cache
def _factors(table: str, kind: str) -> tuple[tuple[float, Traced], ...]:
    return tuple(
        (float(row["from"]), _traced("ampacity_factors", row, f"{table} {kind} {row['from']}", "factor"))
        for row in rows("ampacity_factors")
        if row["table"] == table and row["kind"] == kind
    )


def engine_space_factor(insulation: float, table: str = "iso") -> Traced:
    """Factor on the current in engine spaces; 0 where the table does not admit the insulation there.

    Raises ``OutOfRange`` below the coolest insulation of the table.
    """
    known = [row for row in _factors(table, "engine space") if row[0] <= insulation + SLACK]
    if not known:
        lowest = _factors(table, "engine space")[0][0]
        raise _beyond(table, "insulation", INSULATION, (lowest, INSULATION.high), insulation)
    return known[-1][1]


def bundle_factor(conductors: int, table: str = "iso") -> Traced:
    """Factor on the current of conductors that lie in one bundle; 1 for one or two."""
    return [row for row in _factors(table, "bundle") if row[0] <= max(conductors, 1)][-1][1]


@cache
def fuse_sizes() -> tuple[Traced, ...]:
    """Fuses on sale (A), smallest first."""
    return tuple(
        _traced("fuses", row, row["name"], "value") for row in rows("fuses") if row["kind"] == "size"
    )


@cache
def fuse_rules() -> Mapping[str, Traced]:
    """Rules of 33 CFR 183.455 by name: share of the ampacity, distances (m)."""
    return MappingProxyType(
        {
            row["name"]: _traced("fuses", row, row["name"], "value")
            for row in rows("fuses")
            if row["kind"] == "rule"
        }
    )
