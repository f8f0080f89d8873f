"""Figures of the envelope that a standard or a rule of this dossier fixes."""

from functools import cache

from dossier.data.tables import rows
from dossier.notation import Row, Traced


@cache
def envelope_constant(name: str) -> Traced:
    """One figure by its name, SI; ``KeyError`` where there is none."""
    for row in rows("envelope_constants"):
        if row["name"] == name:
            return Traced(float(row["value"]), Row("envelope_constants", name, row["source"]))
    raise KeyError(name)
