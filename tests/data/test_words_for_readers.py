"""The templates of the prose sections: each named block can be set, in plain sentences, with what it says."""

import re
from functools import cache

import pytest
from jinja2 import Environment, meta

from dossier.data.shipped import shipped
from dossier.rendering.words import Words

SECTIONS = (
    "safety",
    "title",
    "limits",
    "maintenance",
    "sources",
    "workings",
    "project_file",
    "answers",
    "dangers",
    "findings",
    "overview",
    "survey",
    "survey_exhaust",
)
WORDS = Words("en")


@cache
def written(section: str) -> str:
    return (shipped("templates") / "en" / f"{section}.j2").read_text(encoding="utf-8")


@cache
def names_used(section: str) -> set[str]:
    return meta.find_undeclared_variables(Environment(autoescape=True).parse(written(section)))


def blocks(section: str) -> list[str]:
    return list(Environment(autoescape=True).from_string(written(section)).blocks)


EVERY_BLOCK = [(section, block) for section in SECTIONS for block in blocks(section)]


@pytest.mark.parametrize("section", SECTIONS)
def test_the_head_of_a_template_lists_what_it_is_given(section: str):
    head = re.match(r"\{#(.*?)#\}", written(section), re.DOTALL)
    assert head
    listed = re.search(r"Given: ([\w,\s]+)\.", head[1])
    given = set(re.findall(r"\w+", listed[1])) if listed else set()
    assert names_used(section) == given


@pytest.mark.parametrize(("section", "block"), EVERY_BLOCK, ids=".".join)
def test_a_text_can_be_set_and_is_plain(section: str, block: str):
    given = dict.fromkeys(names_used(section), "x")
    lines = WORDS.lines(f"{section}.{block}", **given)
    assert lines
    for line in lines:
        text = str(line)
        assert text.strip()
        assert "{" not in text
        for sentence in re.split(r"(?<=[.!?:;])\s+", text):
            assert len(sentence.split()) <= 26, sentence


def test_the_standing_cautions_defer_to_makers_local_rules_and_licensed_trades():
    text = written("safety")
    for must in ("makers' instructions", "local rules", "licensed trades", "replaces neither", "can kill"):
        assert must in text


def test_the_document_says_what_it_is_not():
    lines = WORDS.lines("limits.what_this_is_not")
    text = " ".join(map(str, lines))
    for denied in ("no certificate", "no valuation", "condition of hull", "no licence", "no local rule"):
        assert denied in text


@pytest.mark.parametrize("section", SECTIONS)
def test_no_text_promises_safety(section: str):
    # the standing rule: never "OK", "pass", "safe" or a tick; a denial may use the word
    text = written(section).replace("It never says that the boat is safe", "").replace("exhaust.passes", "")
    assert not re.search(r"\b(OK|passes|passed|is safe|are safe|guarantee)\b", text)
