"""Packings of exhaust passages, told from the words in which the file names them."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dossier.data.tables import rows
from dossier.notation import Row, Traced


@cache
def fillings() -> Mapping[str, Traced]:
    """Conductivity (W/mK) of every packing by its name."""
    return MappingProxyType(
        {
            row["name"]: Traced(float(row["conductivity"]), Row("fillings", row["name"], row["source"]))
            for row in rows("fillings")
        }
    )


def filling_in(closing: str) -> Traced | None:
    """Conductivity of the packing that a text such as ``plate each side, mineral packing`` names.

    None where it names none: the gap then counts as air.
    """
    spoken = closing.casefold()
    return next((found for name, found in fillings().items() if name in spoken), None)
