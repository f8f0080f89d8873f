"""Every package that is installed with the program stands in ``docs/licences.md`` under its own licence."""

import re
from importlib.metadata import distribution, requires
from pathlib import Path

import pytest
from packaging.requirements import Requirement

PROJECT = Path(__file__).parents[2] / "pyproject.toml"
PAPER = Path(__file__).parents[2] / "docs" / "licences.md"
LISTED = dict(re.findall(r"^\| ([a-z0-9-]+) \| ([^|]+) \|", PAPER.read_text(encoding="utf-8"), re.MULTILINE))
SAME = {
    "BSD-3-CLAUSE": "BSD",
    "BSD-2-CLAUSE": "BSD",
    "PYTHON SOFTWARE FOUNDATION": "PSF",
    "HISTORICAL PERMISSION": "HPND",
    "LESSER GENERAL": "GPL",
}
FREE = ("MIT", "BSD", "PSF", "APACHE", "MPL", "ZLIB", "0BSD", "CC0", "HPND", "GPL")


def known_as(name):
    return re.sub(r"[-_.]+", "-", name).lower()


def _asked_for(name):
    for line in requires(name) or ():
        asked = Requirement(line)
        if asked.marker is None or asked.marker.evaluate({"extra": ""}):
            yield asked.name


def with_the_program():
    """All packages that an installation brings along, extra ``dxf`` included."""
    declared = PROJECT.read_text(encoding="utf-8").partition("\ntest = [")[0].partition("\n[project]")[2]
    found, waiting = set(), [name for name, _ in re.findall(r'"([a-z0-9-]+)(>=[0-9.]+)"', declared)]
    while waiting:
        name = known_as(waiting.pop())
        if name not in found:
            found.add(name)
            waiting += _asked_for(name)
    return found


def said_by(name):
    """What a package says of its licence: the expression, else classifiers and the first line of the text."""
    told = distribution(name).metadata
    if told["License-Expression"]:
        return told["License-Expression"]
    classified = [c for c in told.get_all("Classifier") or () if c.startswith("License ::")]
    return " ".join([*classified, (told["License"] or "").split("\n")[0]])


def families(text):
    """Families of licences named in a text."""
    words = text.upper()
    for long, short in SAME.items():
        words = words.replace(long, short)
    return {family for family in FREE if family in words}


@pytest.mark.parametrize("name", sorted(with_the_program()))
def test_a_package_is_listed_under_the_licence_it_states(name):
    assert families(said_by(name)) & families(LISTED[name])


def test_no_package_is_listed_that_nothing_asks_for():
    differ = {
        "six",
        "charset-normalizer",
        "chardet",
        "tzdata",
        "typing-inspection",
    }  # from version to version
    assert LISTED.keys() - differ - {"package"} <= with_the_program()
