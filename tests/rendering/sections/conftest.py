"""Demonstration boats, assessed once a session, as drafts in any edition; pages of some blocks read back."""

from functools import cache
from pathlib import Path

import pytest

from dossier.assessment import Assessment, assess
from dossier.project import load
from dossier.rendering.draft import Draft
from dossier.rendering.editions import extents
from dossier.rendering.numbers import Numbers, System
from dossier.rendering.words import Words

PROJECTS = Path(__file__).parents[3] / "projects"
BOATS = {
    "lantern_auk": "lantern_auk/lantern_auk.yaml",
    "northern_quill": "northern_quill/northern_quill.yaml",
    "barley_moth_a": "barley_moth/barley_moth_a.yaml",
    "barley_moth_b": "barley_moth/barley_moth_b.yaml",
    "puddle_wren": "puddle_wren/puddle_wren.yaml",
    "starter": "starter/boat.yaml",
}


@cache
def _assessed(boat: str) -> Assessment:
    return assess(load(PROJECTS / BOATS[boat]))


@pytest.fixture(scope="session")
def assessed():
    """Assessment of a demonstration boat by name; each is made once."""
    return _assessed


@pytest.fixture(scope="session")
def draft():
    """Draft of a boat in an edition."""

    def made(boat: str, edition: str = "full", units: str = "metric", paper: str = "A4") -> Draft:
        numbers = Numbers(System(units))
        return Draft(_assessed(boat), Words("en"), numbers, edition, paper, extents(edition))

    return made


@pytest.fixture(scope="session")
def changed():
    """Draft of a project written out in a test, in an edition."""

    def made(text: str, folder: Path, edition: str = "full") -> Draft:
        file = folder / "boat.yaml"
        file.write_text(text, encoding="utf-8")
        found = assess(load(file))
        return Draft(found, Words("en"), Numbers(), edition, "A4", extents(edition))

    return made
