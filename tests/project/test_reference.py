"""docs/reference.md is the model's own word: every key, current to the letter."""

import re
from pathlib import Path

from dossier.project.fields import keys_of
from dossier.project.model.components import Component
from dossier.project.model.file import ProjectFile
from dossier.project.reference import reference

REFERENCE = Path(__file__).parents[2] / "docs" / "reference.md"


def test_the_reference_is_current():
    written = REFERENCE.read_text(encoding="utf-8")
    assert written == reference(), "python -m dossier.project.reference > docs/reference.md"


def test_every_key_stands_in_it_with_words():
    rows = re.findall(r"^\| `(\w+)` \| (.*?) \| (.*?) \|$", reference(), re.MULTILINE)
    silent = [row[0] for row in rows if not row[1].strip(" .*") or not row[2].strip()]
    assert silent == []
    told = {row[0] for row in rows}
    assert keys_of(ProjectFile).keys() <= told
    for cls in Component.kinds.values():
        assert keys_of(cls).keys() <= told


def test_every_chapter_that_is_pointed_to_is_there():
    text = reference()
    chapters = {
        re.sub(r": (all kinds|kind .*)$", "", found)
        for found in re.findall(r"^## `([^`]+)`", text, re.MULTILINE)
    }
    assert set(re.findall(r"keys of `([^`]+)`", text)) <= chapters
