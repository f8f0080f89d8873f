"""Lists the tables must agree with: keys of the project file, names of results, verbs of advice."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest

from dossier.project.model import Component, Pipe, ProjectFile
from dossier.project.model.entry import Entry, is_entry

HERE = Path(__file__).parent


def listed(name: str) -> set[str]:
    lines = (HERE / name).read_text(encoding="utf-8").splitlines()
    return {line for line in lines if line and not line.startswith("#")}


RESULTS = listed("known_results.txt")


def entries(annotation: Any) -> Iterator[type[Entry]]:
    """Classes of the model an annotation speaks of, through lists, mappings and choices."""
    if is_entry(annotation):
        yield annotation
    for inner in get_args(annotation):
        yield from entries(inner)


def fields_named(classes: list[type[Entry]], key: str) -> list[Any]:
    return [
        field.annotation
        for cls in classes
        for name, field in cls.model_fields.items()
        if key in {name, name.rstrip("_"), field.alias}
    ]


def kinds_of(cls: type[Component]) -> Iterator[type[Component]]:
    yield cls
    for further in cls.__subclasses__():
        yield from kinds_of(further)


def knows_key(path: str) -> bool:
    """Whether the model has the key; after ``components`` stands a kind, or a key of all kinds."""
    classes: list[type[Entry]] = [ProjectFile]
    walked: list[str] = []
    for part in path.split("."):
        if walked == ["components"]:
            of_kind = [c for c in kinds_of(Component) if part in get_args(c.model_fields["kind"].annotation)]
            found = of_kind or fields_named([Component], part)
            classes = of_kind or [entry for annotation in found for entry in entries(annotation)]
        elif walked == ["circuit", "ring"] and part == "pipe":
            found, classes = [Pipe], [Pipe]
        else:
            found = fields_named(classes, part)
            classes = [entry for annotation in found for entry in entries(annotation)]
        if not found:
            return False
        walked.append(part)
    return True


def knows_result(name: str) -> bool:
    """Whether a name agrees with one of the patterns of results (capitals stand for anything)."""
    pattern_of = {
        "MODE": "(MODE|heating|cold_start)",
        "SEASON": "(SEASON|winter|summer)",
        "RESULT": r"[\w.]+",
    }
    for known in RESULTS:
        parts = [pattern_of.get(part, re.escape(part)) for part in known.split(".")]
        if re.fullmatch(r"\.".join(parts), name):
            return True
    return False


@pytest.fixture
def is_key():
    """Whether the project file knows a key."""
    return knows_key


@pytest.fixture
def is_result():
    """Whether there is a result of a name."""
    return knows_result


@pytest.fixture
def verbs():
    """Verbs with which an advice may begin."""
    return listed("verbs.txt")


@pytest.fixture
def known_checks():
    """Names of the checks, which owners write in their files."""
    return listed("known_checks.txt")
