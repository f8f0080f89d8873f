"""Checksums of each table's numbers: ``python tests/data/fingerprints.py > tests/data/fingerprints.csv``.

Numbers alone count, each with its row and column: a source or a remark may change, and 0.50 is 0.5.
"""

import csv
import re
import sys
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

DATA = Path(__file__).parents[2] / "dossier" / "data"
NUMBER = re.compile(r"[-+]?[0-9]+(\.[0-9]+)?([eE][-+]?[0-9]+)?")


def tables() -> list[str]:
    """Names of all tables, as ``fluids/water``."""
    return sorted(path.relative_to(DATA).with_suffix("").as_posix() for path in DATA.rglob("*.csv"))


def written(name: str) -> list[dict[str, str]]:
    """Rows of a table as they stand in its file."""
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def numbers(name: str) -> Iterator[tuple[int, str, str]]:
    """Row, column and text of every cell of a table that is a number."""
    for place, row in enumerate(written(name)):
        for column, text in row.items():
            if column and isinstance(text, str) and NUMBER.fullmatch(text.strip()):
                yield place, column, text.strip()


def fingerprint(name: str) -> tuple[int, str]:
    """How many numbers a table holds, and their checksum; a row is known by its first cell."""
    rows = written(name)
    said = [
        f"{next(iter(rows[place].values()))}\0{column}\0{float(text)!r}"
        for place, column, text in numbers(name)
    ]
    return len(said), sha256("\n".join(said).encode()).hexdigest()[:16]


if __name__ == "__main__":
    out = csv.writer(sys.stdout, lineterminator="\n")
    out.writerow(("table", "numbers", "checksum"))
    out.writerows((name, *fingerprint(name)) for name in tables())
