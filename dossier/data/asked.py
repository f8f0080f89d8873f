"""What a check asks for in a word or two, where it has no figure."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dossier.data.tables import rows

FITTED = "fitted"


@cache
def _asked() -> Mapping[str, str]:
    return MappingProxyType({row["check"]: row["asked"] for row in rows("asked")})


def asked_of(check: str) -> str:
    """What a check asks for, for a narrow column.

    >>> asked_of("recovery.valves")
    'two valves'
    """
    return _asked().get(check, FITTED)
