"""The pages under docs/ speak of what is there."""

import re
from pathlib import Path

import pytest

HOUSE = Path(__file__).parents[2]
PAGES = sorted(HOUSE.glob("docs/**/*.md"))


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_every_module_and_page_named_in_the_docs_exists(page):
    text = page.read_text(encoding="utf-8")
    for module in re.findall(r"`([a-z_]+(?:/[a-z_]+)+\.py)`", text):
        assert (HOUSE / "dossier" / module).exists() or (HOUSE / module).exists(), module
    for goal in re.findall(r"\]\(([^)#:]+)\)", text):
        assert (page.parent / goal).exists(), goal


def test_every_test_named_among_the_threats_exists():
    written = "\n".join(path.read_text(encoding="utf-8") for path in HOUSE.glob("tests/**/test_*.py"))
    text = (HOUSE / "docs" / "threats.md").read_text(encoding="utf-8")
    for test in re.findall(r"`(test_[a-z_0-9]+)`", text):
        assert f"def {test}(" in written, test
    for file in re.findall(r"`(tests/[a-z_/]+\.py)`", text):
        assert (HOUSE / file).exists(), file
