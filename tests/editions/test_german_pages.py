"""The aboard edition in German: no English is left on its pages but the user's own and titles of works."""

import re
from pathlib import Path

import pypdf
import pypdfium2
import pytest

from dossier import assess, load, render
from dossier.project import Project
from dossier.rendering.spoken import users_words
from tests.demonstrations import PROJECTS
from tests.editions.page_audit import faults

ENGLISH = re.compile(
    r"\b(the|and|of|with|is|are|not|if|when|where|to|or|from|by|at|on|each|every|never|before|after|than|"
    r"until|for|this|that|it|no|none|per|hot|cold|open|shut)\b",
    re.IGNORECASE,
)
"""Common English words that are no German ones."""
PUBLISHED = (
    "WHO Air Quality Guidelines for Europe",
    "Water Supply (Water Fittings) Regulations 1999",
)
"""Titles of publications that hold such words."""
POINT = re.compile(r"(?<![\w.,:/-])\d+\.\d+(?![\w.-])")
"""A number with a decimal point."""
SECTION = re.compile(r"(?:^|Abschnitt )\d+\.\d+\b(?! [^\W\d]{0,3}$)", re.MULTILINE)
CLAUSE = re.compile(r"(?:BSS Standards 2002|Prüfpunkte?|ISO [\d:]+|ABYC [\w-]+),? [\d.,;–und ]+")


@pytest.fixture(scope="module")
def project(tmp_path_factory) -> Project:
    """The workboat of ten numbers, her document asked for in German."""
    written = (PROJECTS / "puddle_wren" / "puddle_wren.yaml").read_text(encoding="utf-8")
    path = tmp_path_factory.mktemp("german") / "puddle_wren.yaml"
    path.write_text(written.replace("document: {", "document: {language: de, ", 1), encoding="utf-8")
    return load(path)


@pytest.fixture(scope="module")
def german(project, tmp_path_factory) -> Path:
    """Her aboard edition."""
    return render(assess(project), tmp_path_factory.mktemp("pages"), edition="aboard")


@pytest.fixture(scope="module")
def pages(project, german) -> str:
    """What stands on its pages, without what the user wrote and without titles of publications."""
    document = pypdfium2.PdfDocument(german)
    text = "\n".join(page.get_textpage().get_text_range() for page in document).replace("\r", "")
    for theirs in sorted({*users_words(project), *PUBLISHED}, key=len, reverse=True):
        spaced = r"\s+".join(map(re.escape, theirs.replace("_", " ").split()))
        text = re.sub(rf"(?<!\w){spaced}(?!\w)", "", text, flags=re.IGNORECASE) if len(theirs) > 1 else text
    return text


def test_no_english_word_is_left(pages):
    assert [line for line in pages.splitlines() if ENGLISH.search(line)] == []


def test_german_words_are_there(pages):
    for word in (
        "Notfallkarte",
        "Vorlauf",
        "Rücklauf",
        "GEFAHR",
        "WARNUNG",
        "nicht beurteilt",
        "Blatt",
    ):
        assert word in " ".join(pages.split())


def test_no_number_bears_a_decimal_point(pages):
    before_the_sources = pages.rpartition("B Quellen")[0]
    bare = CLAUSE.sub("", SECTION.sub("", before_the_sources))
    assert [line for line in bare.splitlines() if POINT.search(line)] == []
    assert re.search(r"\d,\d", bare)


def test_the_file_says_its_language(german):
    reader = pypdf.PdfReader(german)
    assert reader.trailer["/Root"]["/Lang"] == "de"
    assert "<rdf:li>de</rdf:li>" in reader.trailer["/Root"]["/Metadata"].get_object().get_data().decode(
        "utf-8"
    )


def test_its_pages_are_laid_out_as_they_should(german):
    assert faults(german) == []
