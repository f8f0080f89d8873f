"""The demonstration boats, read, studied and assessed once for all tests that run in one process."""

from functools import cache
from pathlib import Path

from dossier.assessment import Assessment, assess
from dossier.project import Project, load
from dossier.sizing.study import Study

PROJECTS = Path(__file__).parents[1] / "projects"
BOATS = ("lantern_auk", "northern_quill", "barley_moth_a", "barley_moth_b", "puddle_wren", "starter")


@cache
def read(boat: str) -> Project:
    """What the owner of a boat wrote."""
    (file,) = PROJECTS.glob("starter/boat.yaml" if boat == "starter" else f"*/{boat}.yaml")
    return load(file)


@cache
def assessed(boat: str) -> Assessment:
    """A boat with all that follows for her."""
    return assess(read(boat))


def studied(boat: str) -> Study:
    """Everything calculated for a boat."""
    return assessed(boat).study
