"""Which numbers of the tables does no test guard?

python tests/data/perturb.py --sample 3 --seed 1       three numbers of every table, drawn at random
python tests/data/perturb.py --table materials         every number of one table
python tests/data/perturb.py --tests tests             with the whole suite, which takes a night

Changes one number (by a tenth, an integer by one) as the program reads its table, runs the tests of published
figures, of the tables and of the demonstrations until one fails, and prints the numbers that none guards. The
checksums of ``test_fingerprints.py`` are left out, since they guard everything and prove nothing. Prints how
many were tried and guarded. Needs a system that forks.
"""

import argparse
import os
import random
import signal
import sys
from collections import Counter
from importlib import import_module
from pathlib import Path
from types import MappingProxyType

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))
import pytest  # noqa: E402 - found by the path above

from tests.data.fingerprints import numbers, tables  # noqa: E402

TESTS = ("tests/published", "tests/data", "tests/demos")
SLOW = (
    "CoolProp",
    "numpy",
    "pydantic",
    "scipy.optimize",
    "scipy.stats",
    "yaml",
    "fluids",
    "ht",
)
"""Packages loaded once for all."""


def changed(text: str) -> str:
    """Another number of the same kind."""
    return str(int(text) + 1) if text.lstrip("+-").isdigit() else repr(float(text) * 1.1 or 0.1)


def _say(words: str) -> None:
    print(words, flush=True)  # noqa: T201 - a command's answer


def _with(table: str, place: int, column: str, text: str) -> None:
    """Have one number read otherwise; before any other part of the program is loaded."""
    from dossier.data import tables as module

    as_written = module.rows

    def rows(name: str) -> tuple[MappingProxyType[str, str], ...]:
        found = as_written(name)
        if name != table:
            return found
        moved = {**found[place], column: changed(text)}
        return (*found[:place], MappingProxyType(moved), *found[place + 1 :])

    module.rows = rows


def guarded(table: str, place: int, column: str, text: str, tests: list[str]) -> bool:
    """Whether a test fails when the number is another; a run that does not end counts too."""
    child = os.fork()
    if child == 0:
        status = 1
        try:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, 1)
            os.dup2(nowhere, 2)
            signal.alarm(900)
            _with(table, place, column, text)
            ignored = ["--ignore=tests/data/test_fingerprints.py", "-p", "no:cacheprovider", "-p", "no:xdist"]
            plain = ["-x", "-q", "-o", "addopts=", "--import-mode=importlib"]
            status = int(pytest.main([*plain, *ignored, *tests]) != 0)
        except BaseException:  # noqa: BLE001 - a table that cannot be read is guarded
            status = 1
        finally:
            os._exit(status)
    return os.waitpid(child, 0)[1] != 0


def main() -> int:
    """Exit status 0, and 2 where the tests fail by themselves; what is not guarded is printed."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--table", action="append", help="as fluids/water; all tables where left out")
    parser.add_argument("--sample", type=int, help="numbers to draw from each table; all where left out")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--tests", nargs="+", default=list(TESTS), help="files or folders of tests")
    asked = parser.parse_args()
    os.chdir(ROOT)
    for name in SLOW:
        import_module(name)
    chance = random.Random(asked.seed)  # noqa: S311 - a sample, no secret
    if guarded("none", 0, "", "", asked.tests):
        _say("these tests fail as it is")
        return 2
    tried: Counter[bool] = Counter()
    for table in asked.table or tables():
        cells = list(numbers(table))
        for cell in chance.sample(cells, min(asked.sample or len(cells), len(cells))):
            held = guarded(table, *cell, asked.tests)
            tried[held] += 1
            if not held:
                place, column, text = cell
                _say(f"no test guards {table}, row {place + 1}, {column}: {text}")
    _say(f"{tried[True]} of {tried.total()} numbers guarded")
    return 0


if __name__ == "__main__":
    sys.exit(main())
