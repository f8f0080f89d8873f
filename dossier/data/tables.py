"""Reads the package's own tables: CSV files, every row with its source."""

import csv
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

FOLDER = Path(__file__).parent


@cache
def rows(name: str) -> tuple[Mapping[str, str], ...]:
    """Rows of ``dossier/data/<name>.csv``, read once; lines that start with ``#`` are remarks."""
    with (FOLDER / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        lines = (line for line in file if not line.startswith("#"))
        return tuple(MappingProxyType(row) for row in csv.DictReader(lines))
