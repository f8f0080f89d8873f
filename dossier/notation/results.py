"""Results by their dotted names, walked from the declarations of frozen result classes.

A field declared ``Annotated[Real, q("Φ_T", "W", "to air, sea and ground", name="heat_loss.zone.{zone}")]``
is a result; ``{zone}`` is filled from the field ``zone`` of the same class. So a table on a page, the
terminal and a program read one declaration.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from functools import cache
from typing import Annotated, Any, get_args, get_origin

from dossier.notation.missing import NotAssessed
from dossier.notation.quantity import Quantity, Real

_PLACE = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True, slots=True)
class Result:
    """A named result with its declaration."""

    name: str
    quantity: Quantity
    value: Real


def slug(text: str) -> str:
    """Name of the user as it stands in a result's name: all but letters and digits becomes ``_``.

    >>> slug("tap water only")
    'tap_water_only'
    """
    return "".join(c if c.isalnum() else "_" for c in text)


@cache
def quantities(cls: type) -> Mapping[str, Quantity]:
    """Declared quantities of a result class, by field, in the order of the fields."""
    found = {}
    for field in fields(cls):
        if get_origin(field.type) is Annotated:
            for extra in get_args(field.type)[1:]:
                if isinstance(extra, Quantity):
                    found[field.name] = extra
    return found


def _filled(pattern: str, holder: object) -> str:
    return _PLACE.sub(lambda place: slug(str(getattr(holder, place[1]))), pattern)


def named_results(root: Any) -> Iterator[Result]:
    """All named results in a tree of frozen dataclasses, tuples and mappings, in the order of the fields.

    What stands in several places of the tree is told once. A class with a method ``result_name`` says under
    which name each result below it stands, so that several of one class can stand side by side; one with a
    method ``result_quantity`` says what its own fields are, where that differs from one to the next.
    """
    return _results(root, set())


def _results(root: Any, seen: set[int]) -> Iterator[Result]:
    if isinstance(root, Mapping):
        for value in root.values():
            yield from _results(value, seen)
    elif isinstance(root, tuple | list):
        for value in root:
            yield from _results(value, seen)
    elif is_dataclass(root) and not isinstance(root, type | NotAssessed) and id(root) not in seen:
        seen.add(id(root))
        renamed = getattr(root, "result_name", None)
        for result in _declared_in(root, seen):
            yield result if renamed is None else replace(result, name=renamed(result.name))


def _declared_in(root: Any, seen: set[int]) -> Iterator[Result]:
    declared = quantities(root.__class__)
    own = getattr(root, "result_quantity", None)
    for field in fields(root):
        value = getattr(root, field.name)
        quantity = declared.get(field.name)
        if quantity is None:
            yield from _results(value, seen)
        elif quantity.name and value is not None:
            yield Result(_filled(quantity.name, root), own(quantity) if own else quantity, value)
