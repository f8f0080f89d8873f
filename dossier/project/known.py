"""Names that stand in the package's own tables: materials, pipe sizes, checks, typical parts."""

from collections.abc import Mapping
from functools import cache

from dossier.data.tables import FOLDER, rows


@cache
def materials() -> frozenset[str]:
    """Materials of the library."""
    return frozenset(row["name"] for row in rows("materials"))


@cache
def pipe_sizes() -> frozenset[str]:
    """Sizes of pipe and hose."""
    return frozenset(row["name"] for row in rows("pipes"))


@cache
def _checks() -> Mapping[str, str]:
    names = sorted(path.stem for path in (FOLDER / "checks").glob("*.csv"))
    return {
        row["id"]: row.get("unit") or "" for name in names for row in rows(f"checks/{name}") if "id" in row
    }


def checks() -> frozenset[str]:
    """Checks of the catalogue."""
    return frozenset(_checks())


def check_unit(check: str) -> str:
    """Unit of a check's limit; empty where its limit is words, or the check is unknown."""
    return _checks().get(check, "")


@cache
def typical_parts() -> Mapping[str, tuple[Mapping[str, str], ...]]:
    """Rows of the table of typical parts, by the part's name."""
    parts: dict[str, list[Mapping[str, str]]] = {}
    for row in rows("typical_parts"):
        parts.setdefault(row["name"], []).append(row)
    return {name: tuple(found) for name, found in parts.items()}
