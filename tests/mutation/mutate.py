"""How many small faults in the calculations would the tests catch?

python tests/mutation/mutate.py --sample 200 --seed 1            physics, sizing and checking
python tests/mutation/mutate.py --package checking --sample 80   one of them
python tests/mutation/mutate.py --only 3412 3420                 these alone, by number

Draws changes at random (``changes.py`` says which there are), builds all of them into the package as choices,
and collects the tests once. A first run, with no change taken, notes which test reaches which change and how
long it takes. Then each change is tried in processes of its own: the tests that reach it, the quickest file
first, and those that stand after them (which may look at what the first one kept), until one fails. What no
test fails within ``--most`` seconds of tests counts as survived: the score is rather too low than too high.
Prints the survivors and the score of each package; exit status 1 under ``--least`` per cent.

Needs a system that forks.
"""

import argparse
import builtins
import importlib.abc
import importlib.machinery
import json
import os
import random
import signal
import sys
import tempfile
import time
from collections import Counter, defaultdict
from collections.abc import Iterable
from pathlib import Path
from types import CodeType
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))
from tests.mutation.changes import Change, sites, with_choices  # noqa: E402 - found by the path above

PACKAGES = ("physics", "sizing", "checking")
TESTS = ("physics", "published", "sizing", "checking", "demos", "house/test_formulas.py")

ACTIVE = -1
REACHED: set[int] = set()


def _asked(number: int) -> bool:
    REACHED.add(number)
    return number == ACTIVE


class _Loader(importlib.machinery.SourceFileLoader):
    """Compiles a module with the drawn changes in it; compiled files of old are passed over."""

    plan: dict[str, tuple[int, set[int]]] = {}  # noqa: RUF012 - filled once

    def get_code(self, fullname: str) -> CodeType:
        first, wanted = self.plan[fullname]
        tree, _ = with_choices(Path(self.path).read_text(encoding="utf-8"), fullname, first, wanted)
        return compile(tree, self.path, "exec")


class _Finder(importlib.abc.MetaPathFinder):
    def find_spec(self, name: str, _path: Any, _target: Any = None) -> Any:
        if name not in _Loader.plan:
            return None
        file = str(ROOT.joinpath(*name.split(".")).with_suffix(".py"))
        return importlib.machinery.ModuleSpec(name, _Loader(name, file), origin=file)


class _Outcome:
    """Notes failures, and reports no further."""

    failed: list[str] = []  # noqa: RUF012 - one for the process

    def pytest_runtest_logreport(self, report: Any) -> None:
        if report.failed:
            self.failed.append(report.nodeid)


def _quiet() -> None:
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)


def _in_a_child(work: Any, seconds: float) -> int:
    """Exit status of some work in a process of its own; 98 where it was stopped."""
    child = os.fork()
    if child == 0:
        status = 99
        try:
            _quiet()
            signal.signal(signal.SIGALRM, signal.SIG_DFL)
            signal.setitimer(signal.ITIMER_REAL, seconds)
            status = work()
        finally:
            os._exit(status)
    _, status = os.waitpid(child, 0)
    return os.waitstatus_to_exitcode(status) if not os.WIFSIGNALED(status) else 98


def _run(items: list[Any], stop_after: float | None = None) -> int:
    """1 where a test failed, 0 where none did."""
    begun = time.process_time()
    for item, following in zip(items, [*items[1:], None], strict=True):
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        if _Outcome.failed:
            return 1
        if stop_after is not None and time.process_time() - begun > stop_after:
            break
    return 0


def _note(items: list[Any], out: Path) -> int:
    """Run the tests of a file, writing down what each reaches and how long it takes."""
    noted = []
    for item, following in zip(items, [*items[1:], None], strict=True):
        REACHED.clear()
        _Outcome.failed.clear()
        begun = time.process_time()
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        noted.append((sorted(REACHED), time.process_time() - begun, bool(_Outcome.failed)))
    out.write_text(json.dumps(noted), encoding="utf-8")
    return 0


class Trial:
    """Tries the drawn changes on the collected tests."""

    def __init__(self, drawn: list[Change], most: float) -> None:
        self.drawn, self.most = drawn, most
        self.killed: dict[int, bool] = {}
        self.unreached: set[int] = set()

    def pytest_runtestloop(self, session: Any) -> bool:
        """In the place of a run: one run to note, then one for each change."""
        files: dict[Any, list[Any]] = defaultdict(list)
        for item in session.items:
            files[item.path].append(item)
        at_import = set(REACHED)
        ways = self._noted(files)
        for number, change in enumerate(self.drawn, 1):
            plan = self._plan(change, ways, everything=change.number in at_import)
            died = bool(plan) and self._dies(change, plan)
            self.killed[change.number] = died
            if not plan:
                self.unreached.add(change.number)
            mark = "killed  " if died else "SURVIVED" if plan else "UNREACHED"
            _say(f"{number:4d} {mark} {change.number} {change}")
        return True

    def _noted(self, files: dict[Any, list[Any]]) -> list[tuple[list[Any], list[Any]]]:
        """Tests of each file, with what each reaches and its time, but those that fail by themselves."""
        ways = []
        with tempfile.TemporaryDirectory() as folder:
            out = Path(folder) / "noted.json"
            for path, items in files.items():
                out.unlink(missing_ok=True)
                _in_a_child(lambda items=items: _note(items, out), 900)
                if not out.exists():
                    _say(f"left out, it does not end: {path}")
                    continue
                noted = json.loads(out.read_text(encoding="utf-8"))
                if any(failed for _, _, failed in noted):
                    _say(f"left out, it fails by itself: {path}")
                    continue
                ways.append((items, noted))
        return ways

    def _plan(self, change: Change, ways: Iterable[Any], *, everything: bool) -> list[list[Any]]:
        """Tests to try: those that reach the change, the quickest file first; then what stands after them."""
        direct, after = [], []
        for items, noted in ways:
            hits = [n for n, (reached, _, _) in enumerate(noted) if everything or change.number in reached]
            if hits:
                later = [n for n in range(hits[0], len(items)) if n not in set(hits)]
                for found, places in ((direct, hits), (after, sorted({hits[0], *later}) if later else [])):
                    found.append((sum(noted[n][1] for n in places), [items[n] for n in places]))
        ordered = (sorted(found, key=lambda each: each[0]) for found in (direct, after))
        return [items for found in ordered for _, items in found if items]

    def _dies(self, change: Change, plan: list[list[Any]]) -> bool:
        left = self.most
        for items in plan:
            begun = time.process_time() + sum(os.times()[2:4])
            if _in_a_child(
                lambda items=items, left=left: _taken(change.number, items, left), 3 * self.most + 30
            ):
                return True
            left -= time.process_time() + sum(os.times()[2:4]) - begun
            if left <= 0:
                break
        return False


def _taken(number: int, items: list[Any], seconds: float) -> int:
    global ACTIVE  # noqa: PLW0603 - one change is taken in this process
    ACTIVE = number
    return _run(items, seconds)


def _say(words: str) -> None:
    print(words, file=sys.__stdout__, flush=True)


def main() -> int:
    """Exit status: 0 where each package reaches the score asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--package", choices=PACKAGES, action="append", help="physics, sizing, checking")
    parser.add_argument("--sample", type=int, default=200, help="changes to draw in each package")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", type=int, nargs="+", help="numbers of changes")
    parser.add_argument("--most", type=float, default=60.0, help="seconds of tests for one change")
    parser.add_argument("--least", type=float, default=85.0, help="score asked for, in per cent")
    parser.add_argument("--tests", nargs="+", help="files or folders of tests")
    asked = parser.parse_args()
    os.chdir(ROOT)
    sources = {
        f"dossier.{package}.{path.stem}": path.read_text(encoding="utf-8")
        for package in PACKAGES
        for path in sorted((ROOT / "dossier" / package).glob("*.py"))
    }
    possible = list(sites(sources))
    if asked.only:
        drawn = [change for change in possible if change.number in set(asked.only)]
    else:
        chance = random.Random(asked.seed)  # noqa: S311 - a sample, no secret
        drawn = []
        for package in asked.package or PACKAGES:
            of_it = [change for change in possible if change.module.split(".")[1] == package]
            drawn += chance.sample(of_it, min(asked.sample, len(of_it)))
        chance.shuffle(drawn)  # so that a run broken off tells something of each package
    first = 0
    for module in sources:
        count = sum(change.module == module for change in possible)
        wanted = {change.number for change in drawn if change.module == module}
        if wanted:
            _Loader.plan[module] = (first, wanted)
        first += count
    builtins.__mutant__ = _asked  # type: ignore[attr-defined]
    sys.meta_path.insert(0, _Finder())
    trial = Trial(drawn, asked.most)
    tests = asked.tests or [f"tests/{name}" for name in TESTS]
    pytest.main(
        ["-p", "no:cacheprovider", "-p", "no:terminal", "-p", "no:xdist", "-o", "addopts=", *COLLECT, *tests],
        plugins=[trial, _Outcome()],
    )
    return _told(trial, asked.least)


COLLECT = ("--import-mode=importlib",)


def _told(trial: Trial, least: float) -> int:
    """Print the score of each package."""
    alive: Counter[str] = Counter()
    total: Counter[str] = Counter()
    for change in trial.drawn:
        package = change.module.split(".")[1]
        total[package] += 1
        alive[package] += not trial.killed.get(change.number, False)
    worst = 100.0
    for package, count in total.items():
        score = 100 * (1 - alive[package] / count)
        worst = min(worst, score)
        _say(f"{package}: {count - alive[package]} of {count} changes caught, {score:.0f} %")
    return int(worst < least or not trial.killed)


if __name__ == "__main__":
    sys.exit(main())
