"""Mutated project files go the whole way: read, sized, checked, printed.

``python tests/fuzzing/whole_way.py --cases 1000 --seed 1`` prints every case that ended otherwise than in an
assessment or in a fault told in words, and the slowest; exit status 1 if there was one.
"""

import argparse
import json
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from pathlib import Path
from types import FrameType

sys.path.insert(0, str(Path(__file__).parents[2]))
from dossier import assess, load
from dossier.assessment import as_plain
from dossier.notation import DossierError
from tests.fuzzing.mutations import cases

PROJECTS = Path(__file__).parents[2] / "projects"
LONGEST = 5.0


class TooSlow(Exception):
    """A case took longer than a reader would wait."""


def _stop(_signal: int, _frame: FrameType | None) -> None:
    raise TooSlow


def say(words: str) -> None:
    """Print at once, so that a long run shows what it found."""
    print(words, flush=True)  # noqa: T201 - a script


def outcome(path: Path, *, render: bool) -> str:
    """How the way of one project file ended: ``assessed`` or ``fault``; anything else is raised."""
    try:
        assessment = assess(load(path))
        json.dumps(as_plain(assessment), allow_nan=False)
        if render:
            from dossier.rendering.render import render as build

            build(assessment, path.parent / "out")
    except DossierError as fault:
        said = str(fault)
        if "Traceback" in said or not said.strip():
            raise
        return "fault"
    return "assessed"


def run(count: int, seed: int, every_render: int) -> int:
    """Run the cases; the number of those that broke."""
    texts = [path.read_text(encoding="utf-8") for path in sorted(PROJECTS.glob("*/*.yaml"))]
    ends: Counter[str] = Counter()
    slowest, broken, seen = 0.0, 0, set[str]()
    signal.signal(signal.SIGPROF, _stop)
    with tempfile.TemporaryDirectory() as folder:
        for table in PROJECTS.glob("barley_moth/*.csv"):
            Path(folder, table.name).write_bytes(table.read_bytes())
        path = Path(folder, "boat.yaml")
        for number, text in zip(range(count), cases(seed, texts), strict=False):
            path.write_text(text, encoding="utf-8")
            start = time.process_time()
            render = every_render > 0 and number % every_render == 0
            signal.setitimer(signal.ITIMER_PROF, (20 if render else 4) * LONGEST)
            try:
                ends[outcome(path, render=render)] += 1
            except Exception as error:  # noqa: BLE001 - whatever it is, it is what is looked for
                broken += 1
                last = traceback.extract_tb(error.__traceback__)[-1]
                mark = f"{type(error).__name__} {last.filename}:{last.lineno}"
                if mark not in seen:
                    seen.add(mark)
                    kept = Path(f"broken_{seed}_{number}.yaml")
                    kept.write_text(text, encoding="utf-8")
                    say(f"case {number}: {mark}: {error} ({kept})")
            finally:
                signal.setitimer(signal.ITIMER_PROF, 0)
            slowest = max(slowest, time.process_time() - start)
    say(f"{count} cases, seed {seed}: {dict(ends)}, broken {broken}, slowest {slowest:.2f} s")
    return broken


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cases", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--render-every", type=int, default=0, help="render every n-th case too")
    asked = parser.parse_args()
    sys.exit(run(asked.cases, asked.seed, asked.render_every) > 0)
