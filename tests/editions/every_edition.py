"""Builds editions of the demonstration projects, and audits their pages.

``python tests/editions/every_edition.py`` builds every demo in every edition, on A4 and Letter (the aboard
edition on A5 too), metric and imperial, and in other languages what they have; it prints each fault and the
time; exit status 1 if there is any.
"""

import sys
import tempfile
import time
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
from dossier import assess, load, render
from dossier.assessment import Assessment
from dossier.project.model import Document
from dossier.rendering.language import editions_by_language
from dossier.rendering.words import homes
from tests.editions.page_audit import faults

PROJECTS = Path(__file__).parents[2] / "projects"
DEMOS = tuple(sorted(str(path.relative_to(PROJECTS)) for path in PROJECTS.glob("*/*.yaml")))
EDITIONS = ("full", "survey", "aboard", "yard", "measure", "proof")
UNITS = ("metric", "imperial")


def papers(edition: str) -> tuple[str, ...]:
    return ("A4", "letter", "A5") if edition == "aboard" else ("A4", "letter")


@lru_cache(maxsize=2)
def assessed(demo: str) -> Assessment:
    return assess(load(PROJECTS / demo))


def in_language(demo: str, language: str) -> Assessment:
    """A demo whose document is asked for in a language."""
    assessment = assessed(demo)
    document = (assessment.project.document or Document()).model_copy(update={"language": language})
    return replace(assessment, project=assessment.project.model_copy(update={"document": document}))


def audited(  # noqa: PLR0913, PLR0917 - what a document may be asked to be
    demo: str, edition: str, paper: str, units: str, folder: Path, language: str = "en"
) -> list[str]:
    """The faults of one document, each with what was built."""
    path = folder / f"{Path(demo).stem}_{edition}_{paper}_{units}_{language}.pdf"
    render(in_language(demo, language), path, edition=edition, paper=paper, units=units)
    return [f"{path.stem}: {fault}" for fault in faults(path)]


def _of_demo(demo: str) -> list[str]:
    found: list[str] = []
    with tempfile.TemporaryDirectory() as folder:
        for edition, paper, units, language in _ways():
            found += audited(demo, edition, paper, units, Path(folder), language)
    return found


def _ways() -> Iterator[tuple[str, str, str, str]]:
    for language, editions in editions_by_language(homes()).items():
        for edition in editions:
            for paper in papers(edition):
                for units in UNITS:
                    yield edition, paper, units, language


def main() -> int:
    start = time.perf_counter()
    with ProcessPoolExecutor(2) as workers:
        found = [fault for listed in workers.map(_of_demo, DEMOS) for fault in listed]
    count = len(DEMOS) * len(list(_ways()))
    said = [*found, f"{count} documents, {len(found)} faults, {time.perf_counter() - start:.0f} s"]
    sys.stdout.write("\n".join(said) + "\n")
    return bool(found)


if __name__ == "__main__":
    sys.exit(main())
