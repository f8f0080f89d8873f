"""Runs commands in this process, and holds the demonstration projects."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import pytest

from dossier.cli import main

if TYPE_CHECKING:
    from dossier.assessment import Assessment

ROOT = Path(__file__).parents[2]


class Done(NamedTuple):
    """What a command left behind."""

    status: int
    out: str
    err: str


@pytest.fixture
def run(capsys) -> Callable[..., Done]:
    """Runs a command and gives its exit status and what it printed."""

    def command(*arguments: object) -> Done:
        status = main([str(argument) for argument in arguments])
        told = capsys.readouterr()
        assert "Traceback" not in told.err
        return Done(status, told.out, told.err)

    return command


@pytest.fixture(scope="session")
def projects() -> Path:
    return ROOT / "projects"


@pytest.fixture(scope="session")
def cutter(projects) -> Path:
    return projects / "lantern_auk" / "lantern_auk.yaml"


@pytest.fixture(scope="session")
def smallest(projects) -> Path:
    """The project of ten figures."""
    return projects / "puddle_wren" / "puddle_wren.yaml"


@pytest.fixture(scope="session")
def cutter_assessed(cutter) -> "Assessment":
    from dossier import assess, load

    return assess(load(cutter))
