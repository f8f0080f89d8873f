"""How inputs are measured aboard, and on which sheet each stands."""

from collections.abc import Mapping
from fnmatch import fnmatchcase
from functools import cache
from types import MappingProxyType

from dossier.data.typed_rows import typed_rows
from dossier.notation.records import dataclass


@dataclass(frozen=True)
class MeasuredInput:
    """How an input is measured; ``pattern`` is its key without names, ``*`` stands for anything.

    ``unit`` is the one to write in, empty where the usual one will do.
    """

    sheet: str
    pattern: str
    unit: str
    how: str
    source: str


@dataclass(frozen=True)
class MeasuringSheet:
    """A sheet for one group of inputs; ``extra`` names tables and grids that may stand on it."""

    sheet: str
    title: str
    instruction: str
    cautions: tuple[str, ...]
    extra: tuple[str, ...]
    source: str


@cache
def measuring_sheets() -> Mapping[str, MeasuringSheet]:
    """All sheets by name."""
    return MappingProxyType({row.sheet: row for row in typed_rows(MeasuringSheet, "measuring_sheets")})


def measured_input(pattern: str) -> MeasuredInput | None:
    """How an input is measured, by its key without names; None for one that is not measured aboard.

    >>> measured_input("exhaust.bore").unit
    'mm'
    """
    return next(
        (row for row in typed_rows(MeasuredInput, "measuring") if fnmatchcase(pattern, row.pattern)), None
    )
