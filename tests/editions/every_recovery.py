"""Recovers every demonstration project from its dossier and builds it again: the bytes must be the same.

``python tests/editions/every_recovery.py`` builds, recovers and builds anew in each edition; it prints each
demo with its time and whether the bytes agree; exit status 1 if any do not.
"""

import sys
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
from dossier import assess, load, render
from dossier.rendering.recovery_of_sources import recover

PROJECTS = Path(__file__).parents[2] / "projects"
DEMOS = tuple(sorted(str(path.relative_to(PROJECTS)) for path in PROJECTS.glob("*/*.yaml")))
EDITIONS = ("full", "survey", "aboard", "yard", "proof")


def built_again(demo: str, edition: str) -> bool:
    """Whether the recovered project gives the same bytes as the one it came from."""
    with tempfile.TemporaryDirectory() as folder:
        first, again, second = (Path(folder) / name for name in ("first", "again", "second"))
        before = render(assess(load(PROJECTS / demo)), first, edition=edition)
        project = recover(before, again).project
        return render(assess(load(project)), second, edition=edition).read_bytes() == before.read_bytes()


def _of_demo(demo: str) -> tuple[float, list[str]]:
    begun = time.perf_counter()
    wrong = [edition for edition in EDITIONS if not built_again(demo, edition)]
    return time.perf_counter() - begun, wrong


def main() -> int:
    failed = False
    with ProcessPoolExecutor(2) as workers:
        for demo, (taken, wrong) in zip(DEMOS, workers.map(_of_demo, DEMOS), strict=True):
            said = f"DIFFERS: {', '.join(wrong)}" if wrong else "same bytes"
            sys.stdout.write(f"{demo:40} {taken:5.0f} s  {said}\n")
            failed |= bool(wrong)
    return int(failed)


if __name__ == "__main__":
    sys.exit(main())
