"""Totals that an owner can hold against common sense."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dossier.data.typed_rows import typed_rows
from dossier.notation.records import dataclass


@dataclass(frozen=True)
class UsualTotal:
    """What is set against what, the kinds of number they are printed as, and the usual range of the ratio.

    ``low`` and ``high`` are in the SI unit of the ratio. ``ratio`` is "yes" where both are of one kind, so
    that their ratio is a plain number. ``against`` may name the ``{freeboard}`` and ``{headroom}`` taken.
    """

    name: str
    what: str
    against: str
    shown: str
    shown_against: str
    ratio: str
    low: float
    high: float
    source: str


@cache
def usual_totals() -> Mapping[str, UsualTotal]:
    """All totals by name."""
    return MappingProxyType({row.name: row for row in typed_rows(UsualTotal, "proof_totals")})
