"""Loss of common fittings, by name."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dossier.data.tables import rows
from dossier.notation import Row, Traced
from dossier.notation.records import dataclass


@dataclass(frozen=True)
class FittingLoss:
    """A fitting: its ``loss`` factor, or the ``multiple`` of the fully turbulent friction factor."""

    name: str
    meaning: str
    multiple: float | None
    loss: float | None
    source: str


@cache
def fitting_losses() -> Mapping[str, FittingLoss]:
    """All fittings by name, every number with its row."""
    found = {}
    for row in rows("fittings"):
        multiple, loss = (
            Traced(float(row[column]), Row("fittings", row["name"], row["source"])) if row[column] else None
            for column in ("multiple", "loss")
        )
        found[row["name"]] = FittingLoss(row["name"], row["meaning"], multiple, loss, row["source"])
    return MappingProxyType(found)


def fitting_loss(name: str) -> FittingLoss:
    """Fitting by its name; ``KeyError`` where there is none."""
    return fitting_losses()[name]
