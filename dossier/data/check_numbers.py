"""The number each check, and so each finding, bears for life."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dossier.data.tables import rows


@cache
def check_numbers() -> Mapping[str, int]:
    """Numbers by the name of the check."""
    return MappingProxyType({row["check"]: int(row["number"]) for row in rows("check_numbers")})


def number_of(check: str) -> int:
    """Number of a check; it is the same in every revision of every dossier.

    Raises KeyError for a check the catalogue does not hold.

    >>> number_of("exhaust.length")
    1
    """
    return check_numbers()[check]
