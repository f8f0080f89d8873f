"""What the words for a fuel line's material stand for."""

import re
from functools import cache

from dossier.data.tables import rows


@cache
def _words() -> tuple[tuple[str, str], ...]:
    return tuple((row["word"], row["stands_for"]) for row in rows("fuel_lines"))


def fuel_line_kinds(material: str) -> frozenset[str]:
    """Kinds of line a material names: ``metal``, ``marked hose``, ``hose``, ``plastic``; none if unknown.

    >>> sorted(fuel_line_kinds("Copper pipe with ends of hose to ISO 7840"))
    ['hose', 'marked hose', 'metal']
    """
    told = " ".join(re.findall(r"\w+", material.casefold()))
    return frozenset(kind for word, kind in _words() if re.search(rf"\b{word}\b", told))
