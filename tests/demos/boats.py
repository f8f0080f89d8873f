"""The demonstration boats, each assessed once for all tests of this folder."""

import csv
from functools import cache
from pathlib import Path

from dossier.assessment import Assessment, assess
from dossier.project import load

PROJECTS = Path(__file__).parents[2] / "projects"
FILES = {
    "lantern_auk": "lantern_auk/lantern_auk.yaml",
    "northern_quill": "northern_quill/northern_quill.yaml",
    "barley_moth_a": "barley_moth/barley_moth_a.yaml",
    "barley_moth_b": "barley_moth/barley_moth_b.yaml",
    "puddle_wren": "puddle_wren/puddle_wren.yaml",
}


@cache
def assessed(boat: str) -> Assessment:
    return assess(load(PROJECTS / FILES[boat]))


def rows(name: str) -> list[dict[str, str]]:
    with (Path(__file__).parent / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))
