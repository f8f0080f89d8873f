"""Other languages: every word of what they print, none that English lacks, numbers with their own marks."""

import csv
import re
from collections import Counter
from functools import cache

import pytest
from jinja2 import Environment, meta

from dossier.checking.document_status import RISING, SUPERSEDED
from dossier.data.asked import asked_of
from dossier.data.catalogue import LimitBasis, Severity, catalogue
from dossier.data.shipped import shipped
from dossier.data.tables import rows
from dossier.data.wording import places_in
from dossier.notation import PageFault, ProjectFaults, Standing
from dossier.project import load
from dossier.project.model import Component, ProjectFile
from dossier.rendering.draft import Draft
from dossier.rendering.editions import blocks_of, extents
from dossier.rendering.inputs import _labels
from dossier.rendering.language import ENGLISH, Style, read_language
from dossier.rendering.numbers import Limits, Numbers, System
from dossier.rendering.sections.sheets_drawn import FURNITURE
from dossier.rendering.spoken import Spoken
from dossier.rendering.words import Words, words_of
from tests import demonstrations

HOME = shipped("templates")
OTHERS = sorted(folder.name for folder in HOME.iterdir() if folder.is_dir() and folder.name != ENGLISH)
OF_THE_CREW = {
    "maintenance": ("task", "calendar", "tools", "good_reading", "hazard"),
    "emergency": ("title", "shows", "lead", "text"),
    "emergency_places": ("what",),
    "cautions": ("hazard", "consequence", "avoidance"),
    "readings": ("what", "where", "cold", "warming_up", "steady", "stop_if"),
    "stop_rules": ("rule",),
    "seasonal": ("title", "when", "action"),
    "fault_trees": ("symptom", "text", "yes", "no"),
    "spares": ("item",),
}
"""Tables of which the aboard edition prints words, and the columns that hold them."""
MADE = {"phrases", "inputs", "units", "kinds", "drawings"}
"""Texts that no table of ours holds: made by checks, labels of the model, words of drawings."""
WHOLE = ("aboard", "overview", "inputs", "emergency_card", "filling", "numerals", "valve_plan", "photographs")
"""Templates of which the aboard edition needs every text."""
MORE = {("findings", "verdict_unknown"): {"unknown"}}
"""Blocks that another language tells with more than English does."""


def read_by_the_crew() -> set[str]:
    """Texts of our tables that the aboard edition may print."""
    texts = {row[column] for name, columns in OF_THE_CREW.items() for row in rows(name) for column in columns}
    shown = [r for r in catalogue().values() if r.severity is Severity.DANGER or "owner" in r.who]
    texts |= {text for row in shown for text in (row.title, row.advice, row.before, asked_of(row.id))}
    texts |= {str(basis) for basis in LimitBasis}
    texts |= {row["base"] for row in rows("fluids/sets")} | {
        kind.replace("_", " ") for kind in Component.kinds
    }
    texts |= set(FURNITURE.values()) | {
        who for row in rows("maintenance") for who in re.split(", *", row["who"])
    }
    unsourced = ("common practice, no source", str(Standing.OWN))
    texts |= {*RISING, SUPERSEDED} | {
        label
        for section in ProjectFile.model_fields
        for key, label in _labels(section).items()
        if f"input_{section}_{key}" not in blocks(ENGLISH, "inputs")
    }
    texts |= {row.source for row in catalogue().values() if not row.source.startswith(unsourced)}
    return texts - {""}


@cache
def told(code: str, table: str = "*") -> list[tuple[str, str]]:
    found = []
    for file in sorted((HOME / code / "texts").glob(f"{table}.csv")):
        with file.open(encoding="utf-8", newline="") as opened:
            found += [(row["english"], row["told"]) for row in csv.DictReader(opened)]
    return found


@cache
def blocks(code: str, section: str) -> dict[str, set[str]]:
    """Names of the blocks of a template, each with what it is filled with."""
    file = HOME / code / f"{section}.j2"
    if not file.is_file():
        return {}
    found = re.finditer(
        r"\{% block (\w+) %\}(.*?)\{%-? endblock %\}", file.read_text(encoding="utf-8"), re.DOTALL
    )
    read = Environment(autoescape=True)
    return {block[1]: meta.find_undeclared_variables(read.parse(block[2])) for block in found}


@pytest.mark.parametrize("code", OTHERS)
def test_a_language_has_words_for_every_text_that_the_crew_reads(code):
    words = Words(code)
    lacking = []
    for text in sorted(read_by_the_crew()):
        try:
            words.told(text)
        except PageFault:
            lacking.append(text)
    assert lacking == []


@pytest.mark.parametrize("code", OTHERS)
def test_no_translation_is_left_over_from_a_text_that_has_changed(code):
    tables = {file.stem for file in (HOME / code / "texts").glob("*.csv")} - MADE
    left = {english for name in tables for english, _ in told(code, name)} - read_by_the_crew()
    assert left == set()


@pytest.mark.parametrize("code", OTHERS)
def test_a_text_is_translated_once(code):
    assert [text for text, times in Counter(english for english, _ in told(code)).items() if times > 1] == []


@pytest.mark.parametrize("code", OTHERS)
def test_what_is_filled_in_is_the_same_in_both_languages(code):
    unlike = [
        (english, other)
        for english, other in told(code)
        if Counter(places_in(english)) != Counter(places_in(other))
    ]
    assert unlike == []


@pytest.mark.parametrize("code", OTHERS)
def test_figures_and_numbers_of_tests_are_the_same_in_both_languages(code):
    def figures(text: str) -> Counter[str]:
        return Counter(re.findall(r"\d+", text))

    unlike = [pair for pair in told(code) if figures(pair[0]) != figures(pair[1])]
    assert unlike == []


@pytest.mark.parametrize("code", OTHERS)
@pytest.mark.parametrize("section", sorted(file.stem for file in (HOME / ENGLISH).glob("*.j2")))
def test_a_template_has_the_blocks_of_the_english_one_and_fills_them_with_the_same(code, section):
    english, other = blocks(ENGLISH, section), blocks(code, section)
    assert set(other) <= set(english)
    if section in WHOLE:
        assert set(other) == set(english)
    for block, names in other.items():
        assert names == english[block] | MORE.get((section, block), set()), block


@pytest.mark.parametrize("code", OTHERS)
@pytest.mark.parametrize("boat", sorted(demonstrations.BOATS))
def test_every_demonstration_can_be_told(code, boat):
    assessment, words = demonstrations.assessed(boat), Words(code)
    for edition in words.editions:
        numbers = Numbers(System.METRIC, words.style)
        assert list(blocks_of(Draft(assessment, words, numbers, edition, "A4", extents(edition))))


def test_german_writes_numbers_with_a_comma_and_a_narrow_space():
    numbers = Numbers(System.METRIC, Words("de").style)
    assert numbers.said(12345.0, "power") == "12\u202f350\u00a0W"
    assert numbers.said(1234.5, "energy_fine") == "0,0\u00a0kWh"
    assert numbers.both(0.0253, "length_check") == "25\u00a0mm (1,0\u00a0in)"
    assert numbers.judged(3.25, 3.0, "length", Limits.MAXIMUM).margin == "−0,25\u00a0m"
    assert numbers.said(3.0, "per_hour") == "3,0\u00a0pro h"


def test_a_style_leaves_what_is_no_figure():
    style = Style(",", ".")
    assert [style.figure(text) for text in ("7.5 A", "V2.1", "2026-11-10", "8.8")] == [
        "7,5 A",
        "V2.1",
        "2026-11-10",
        "8,8",
    ]


@pytest.fixture
def small(tmp_path):
    """A small project in a language of choice."""

    def written(language):
        path = tmp_path / "boat.yaml"
        document = f"document: {{title: T, number: N,\n  language: {language}}}"
        path.write_text(f"format: 1\n{document}\nvessel: {{name: First Look}}\n", encoding="utf-8")
        return load(path)

    return written


@pytest.mark.parametrize(
    ("language", "edition", "says"),
    [
        (
            "de",
            "survey",
            "boat.yaml:3:13: the survey edition is not written in 'de'; survey is written in en; de has",
        ),
        (
            "fr",
            "aboard",
            "boat.yaml:3:13: the aboard edition is not written in 'fr'; aboard is written in de, en",
        ),
        (
            "../en",
            "full",
            "boat.yaml:3:13: the full edition is not written in '../en'; full is written in en",
        ),
    ],
)
def test_an_edition_that_a_language_lacks_is_refused_with_the_place(small, language, edition, says):
    with pytest.raises(ProjectFaults) as refused:
        words_of(small(language), edition)
    assert str(refused.value).startswith(says)


def test_a_yard_adds_a_language_and_changes_a_text_of_ours(small, tmp_path):
    house = tmp_path / "house"
    for code, told_there in (("nl", "Zet de zekering."), ("de", "Sicherung rein.")):
        (house / code / "texts").mkdir(parents=True)
        table = f"english,told\nNever fit a larger fuse.,{told_there}\n"
        (house / code / "texts" / "fault_trees.csv").write_text(table, encoding="utf-8")
    (house / "nl" / "language.csv").write_text("setting,value\neditions,aboard\n", encoding="utf-8")
    assert words_of(small("nl"), "aboard", house).told("Never fit a larger fuse.") == "Zet de zekering."
    german = words_of(small("de"), "aboard", house)
    assert german.told("Never fit a larger fuse.") == "Sicherung rein."
    assert german.told("Close the ventilators.") == "Die Lüfter schließen."


def test_a_text_without_words_in_the_language_is_a_fault_and_never_printed_in_english():
    with pytest.raises(PageFault, match="no words in 'de' for 'A new sentence'"):
        Words("de").told("A new sentence")


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("text,told\na,b\n", "texts/x.csv: the columns are to be english, told"),
        ("english,told\na,\n", "texts/x.csv, line 2: a cell is empty"),
        ("english,told\na,b, c\n", "texts/x.csv, line 2: a text that holds a comma stands in quotes"),
    ],
)
def test_a_table_that_is_laid_out_wrong_is_refused(tmp_path, content, says):
    (tmp_path / "texts").mkdir()
    (tmp_path / "texts" / "x.csv").write_text(content, encoding="utf-8")
    with pytest.raises(PageFault, match=says):
        read_language("xx", (tmp_path,))


def test_a_phrase_keeps_what_was_filled_in(tmp_path):
    (tmp_path / "texts").mkdir()
    table = "english,told\nopens at {bar} bar,öffnet bei {bar} bar\nfrom {place},aus {place}\n"
    (tmp_path / "texts" / "phrases.csv").write_text(table, encoding="utf-8")
    language = read_language("yy", (tmp_path,))
    assert language.phrase("from the galley") == "aus the galley"
    assert language.phrase("opens at 2.5 bar") == "öffnet bei 2.5 bar"
    assert language.phrase("opens towards the galley") is None


@pytest.mark.parametrize("code", OTHERS)
@pytest.mark.parametrize("boat", sorted(demonstrations.BOATS))
def test_what_checks_make_for_the_crew_is_told_and_the_users_words_stay(code, boat):
    assessment = demonstrations.assessed(boat)
    told_in = Spoken(Words(code), assessment.project)
    crews = [f for f in assessment.findings if f.severity is Severity.DANGER or "owner" in f.limit.row.who]
    made = {text for f in crews for text in (f.found, f.bound, f.margin) if isinstance(text, str) and text}
    assert [text for text in sorted(made) if told_in(text) is None] == []


def test_a_users_word_that_looks_like_a_phrase_of_ours_stays_as_it_is():
    project = demonstrations.read("lantern_auk")
    assert Spoken(Words("de"), project)("worked from wheelhouse") == "bedient von: wheelhouse"
    assert Spoken(Words("de"), project)("wheelhouse console") == "wheelhouse console"
    assert Spoken(Words("de"), project)("worked by the moon") is None


@pytest.mark.parametrize(
    ("count", "said"),
    [
        (1, "ein"),
        (12, "zwölf"),
        (17, "siebzehn"),
        (21, "einundzwanzig"),
        (101, "einhunderteins"),
        (730, "siebenhundertdreißig"),
    ],
)
def test_german_numerals_are_those_of_its_grammar(count, said):
    """Grammar of the language, from memory."""
    assert str(Words("de")("numerals.cardinal", count=count)).strip() == said
