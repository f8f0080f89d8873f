"""Which words of the tables are printed for one boat, and what fills their gaps.

A text may name things in braces, ``{fuel_shut_off}``: ``placeholders`` tells what each one stands for and
where its filling comes from. A row may have a need, ``tap_exchanger or water_heater``: it is printed only
where the need is met by what is aboard, and ``needs`` tells how to see that.
"""

import re
from collections.abc import Collection, Iterator, Mapping
from functools import cache
from types import MappingProxyType

from dossier.data.tables import rows
from dossier.notation.records import dataclass

BLANK = "____________"
_PLACE = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True)
class Placeholder:
    """A name in braces, what it means, and where its filling comes from.

    ``kind`` is ``key`` (of the project file), ``result``, ``limit`` (``check/limit``, ``check/upper_limit``
    or ``check/case`` of the catalogue) or ``words``; ``unit`` is SI, empty where the filling is words, and
    ``shown`` the kind of number it is printed as.
    """

    name: str
    meaning: str
    unit: str
    shown: str
    kind: str
    filled_from: str


@dataclass(frozen=True)
class Need:
    """Something that must be aboard.

    It is met by a component of kind ``component``; or by the ``key`` of the project file: given and not
    ``none`` where ``answers`` is empty, else with one of the answers (``not stated`` is silence).
    """

    need: str
    meaning: str
    component: str
    key: str
    answers: tuple[str, ...]


@cache
def placeholders() -> Mapping[str, Placeholder]:
    """All placeholders by name."""
    return MappingProxyType(
        {
            row["name"]: Placeholder(
                row["name"], row["meaning"], row["unit"], row["shown"], row["kind"], row["filled_from"]
            )
            for row in rows("placeholders")
        }
    )


@cache
def needs() -> Mapping[str, Need]:
    """All needs by name."""
    return MappingProxyType(
        {
            row["need"]: Need(
                row["need"],
                row["meaning"],
                row["component"],
                row["key"],
                tuple(answer.strip() for answer in row["answers"].split(",") if answer.strip()),
            )
            for row in rows("aboard")
        }
    )


def wanted(need: str, aboard: Collection[str]) -> bool:
    """Whether a row with this need is printed; ``aboard`` holds the names of the needs that are met.

    >>> wanted("tap_exchanger or water_heater", {"burner", "water_heater"})
    True
    >>> wanted("no_fire_port and fixed_extinguishing", {"no_fire_port"})
    False
    >>> wanted("", set())
    True
    """
    if not need:
        return True
    if " and " in need:
        return all(name in aboard for name in need.split(" and "))
    return any(name in aboard for name in need.split(" or "))


def places_in(text: str) -> tuple[str, ...]:
    """Names in braces within a text.

    >>> places_in("Shut {fuel_shut_off}, then {isolator}.")
    ('fuel_shut_off', 'isolator')
    """
    return tuple(_PLACE.findall(text))


def pieces(text: str) -> Iterator[tuple[str, str]]:
    """The words of a text, each stretch with the name in braces that follows it.

    >>> list(pieces("Shut {fuel_shut_off} first."))
    [('Shut ', 'fuel_shut_off'), (' first.', '')]
    """
    here = 0
    for place in _PLACE.finditer(text):
        yield text[here : place.start()], place[1]
        here = place.end()
    yield text[here:], ""


def filled(text: str, filling: Mapping[str, str], blank: str = BLANK) -> str:
    """The text with its places filled; what is not known becomes a line to write on, never a guess.

    >>> filled("Shut {fuel_shut_off}, then {isolator}.", {"isolator": "Q1"}, "____")
    'Shut ____, then Q1.'
    """
    return _PLACE.sub(lambda place: filling.get(place[1]) or blank, text)
