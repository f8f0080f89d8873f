"""Which tests try each check: inside its limit, outside it, and with an input missing.

    python tests/checking/tried.py

runs the tests of the checks and writes ``tried.csv`` beside this file: for every check of the catalogue
one test in which it is met, one in which it is not met, one in which it cannot be assessed. Findings of
whole boats, where all checks are made at once, do not count. ``tests/house/test_checks_are_tried.py`` holds
the table
to the catalogue, and the tests it names to those that are written.
"""

import csv
import os
import sys
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any

import pytest

HERE = Path(__file__).parent
TABLE = HERE / "tried.csv"
STATUSES = ("met", "not met", "not assessed")
ALL_AT_ONCE = Path("dossier", "checking", "run.py")


class Recorder:
    """Notes the first test that brings a check to each status."""

    def __init__(self) -> None:
        self.tried: dict[str, dict[str, str]] = {}

    def pytest_configure(self) -> None:
        """Put a recording function in the place of every check."""
        from dossier.checking import run
        from dossier.data.catalogue import catalogue

        for name, row in catalogue().items():
            module = run._module(row)
            check = getattr(module, row.function)
            for place in {module, sys.modules[check.__module__]}:
                setattr(place, row.function, self._recording(name, check))
        run.written_checks.cache_clear()

    def _recording(self, name: str, check: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(check)
        def recorded(*args: Any) -> Any:
            finding = check(*args)
            if not sys._getframe(1).f_code.co_filename.endswith(str(ALL_AT_ONCE)):
                test = (
                    os.environ.get("PYTEST_CURRENT_TEST", "")
                    .rpartition("/")[2]
                    .partition("[")[0]
                    .partition(" ")[0]
                )
                self.tried.setdefault(name, {}).setdefault(str(finding.status), test)
            return finding

        return recorded


def main() -> int:
    recorder = Recorder()
    status = pytest.main(["-q", "-p", "no:cacheprovider", "-n0", str(HERE)], plugins=[recorder])
    if status:
        return int(status)
    from dossier.data.catalogue import catalogue

    with TABLE.open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(("check", *STATUSES))
        for name in catalogue():
            table.writerow((name, *(recorder.tried.get(name, {}).get(each, "") for each in STATUSES)))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
