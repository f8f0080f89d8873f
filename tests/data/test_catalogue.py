"""The catalogue of checks is whole, legal and says where each limit comes from.

Limits printed in a publication are compared with it in ``tests/published/test_limits_of_checks.py``; here
the catalogue is compared with the lists it must agree with.
"""

import re
import unicodedata
from math import isfinite, pi

import pytest

from dossier.data.catalogue import (
    CatalogueRow,
    LimitBasis,
    Severity,
    catalogue,
    check_groups,
    further_limit,
    further_limits,
)
from dossier.data.tables import FOLDER, rows
from dossier.notation import Row, origin_of

ROWS = tuple(catalogue().values())
COLUMNS = (
    *("id", "title", "question", "in", "out", "kind", "limit", "upper_limit", "unit", "counted_from"),
    *("limit_text", "severity", "basis", "source", "readers", "advice", "tier", "who", "before"),
)
UNITS = {"", "1", "K", "m", "m/s", "m3", "m3/s", "Pa", "W", "J", "C", "s", "rad", "V", "A", "kg", "kg/m2"}
UNITS |= {"kg/m3", "mol/m3", "1/h"}
TRADES = {"owner", "yard", "electrician", "licensed trade", "technician", "surveyor"}
MOMENTS = {
    "before parts are ordered",
    "before holes are cut",
    "before linings are closed",
    "before filling",
    "before power is connected",
    "before firing",
    "before hot water is used",
    "before hand-over",
    "before anybody sleeps aboard",
    "before this winter",
    "before frost",
    "before going to sea",
    "at the next service",
    "before it is called as built",
    "before this dossier is issued",
}
CODE = re.compile(r"(?<![A-Za-z0-9])[A-Z]{1,2}\d+\b")
PLACE = re.compile(r"\{([^{}:]+)(?::([^{}]+))?\}")


def test_the_catalogue_holds_175_checks_of_which_133_core_and_41_of_grade_danger():
    assert len(ROWS) == 175
    assert sum(row.tier == "core" for row in ROWS) == 133
    assert sum(row.tier == "second" for row in ROWS) == 42
    assert sum(row.severity is Severity.DANGER for row in ROWS) == 41


def test_checks_keep_the_names_that_owners_write_in_their_files(known_checks):
    assert set(catalogue()) == known_checks


def test_every_file_of_checks_is_a_group_and_every_group_a_file():
    files = {path.stem for path in (FOLDER / "checks").glob("*.csv")} - {"further_limits"}
    assert files == {group.group for group in check_groups()}


@pytest.mark.parametrize("group", [group.group for group in check_groups()])
def test_a_file_of_checks_has_its_columns_and_only_its_own_checks(group: str):
    for row in rows(f"checks/{group}"):
        assert tuple(row) == COLUMNS
        assert None not in row.values()
        assert row["id"].startswith(f"{group}.")


def test_no_check_and_no_title_stands_twice():
    names = [row["id"] for group in check_groups() for row in rows(f"checks/{group.group}")]
    assert len(names) == len(set(names)) == len(ROWS)
    assert len({row.title for row in ROWS}) == len(ROWS)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_a_check_says_what_it_asks_who_says_so_and_what_to_do(row: CatalogueRow, verbs):
    assert re.fullmatch(r"[a-z_]+\.[a-z_]+", row.id)
    for text in (row.title, row.question, row.limit_text, row.source, row.advice):
        assert text == text.strip() != ""
    assert row.question.endswith("?")
    assert row.advice.endswith(".")
    assert row.advice.split()[0].rstrip(",") in verbs
    assert not row.title.endswith((".", "?"))
    assert row.tier in {"core", "second"}
    assert row.readers
    assert set(row.readers) <= {"survey", "yard", "aboard"}
    assert row.who
    assert set(row.who) <= TRADES
    assert row.before in MOMENTS
    assert row.unit in UNITS


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_what_a_check_reads_exists(row: CatalogueRow, is_key, is_result):
    assert row.inputs or row.results
    assert [path for path in row.inputs if not is_key(path)] == []
    assert [name for name in row.results if not is_result(name)] == []


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_a_limit_in_words_names_every_number_of_the_check_once(row: CatalogueRow):
    named = [place[0] for place in PLACE.findall(row.limit_text)]
    assert len(named) == len(set(named))
    numbers: dict[str, float] = {further.case: further.limit for further in further_limits(row.id)}
    numbers |= {} if row.limit is None else {"limit": row.limit}
    numbers |= {} if row.upper_limit is None else {"upper_limit": row.upper_limit}
    said_in_words = {name for name, number in numbers.items() if number == 0}  # "not above the ampacity"
    assert numbers.keys() - said_in_words <= set(named) <= numbers.keys()
    written = row.limit_in_words(lambda number, unit, shown: f"<{float(number):g} {unit} {shown}>")
    assert "{" not in written


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_a_limit_is_a_finite_number_with_a_unit_that_remembers_its_row(row: CatalogueRow):
    for number in (row.limit, row.upper_limit):
        if number is None:
            continue
        assert isfinite(number)
        assert row.unit
        origin = origin_of(number)
        assert isinstance(origin, Row)
        assert (origin.row, origin.source) == (row.id, row.source)
    if row.upper_limit is not None:
        assert row.limit is not None
        assert row.limit < row.upper_limit
    if row.unit == "K" and row.limit is not None and not row.counted_from:
        assert (row.shown == "difference") == (row.limit < 100)
    assert (row.shown == "offset") <= bool(row.counted_from)
    assert row.kind.value != "range" or row.upper_limit is not None


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_a_basis_agrees_with_its_source(row: CatalogueRow):
    words = row.source
    if row.basis is LimitBasis.PRACTICE:
        assert "common" in words or "no source" in words
    elif row.basis is LimitBasis.MAKER:
        assert "maker" in words
    elif row.basis is LimitBasis.OWN:
        assert "rule of this dossier" in words or "the owner asks" in words
    else:
        assert re.search(r"\b(EN|ISO|SOLAS|WHO|HSE|DIN|ABYC|Boat Safety Scheme|Approved Document)\b", words)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_a_check_speaks_in_words(row: CatalogueRow):
    for text in (row.title, row.question, row.limit_text, row.advice):
        assert not CODE.search(text), text
        assert not re.search(r"\b[a-z]+_[a-z]+\.[a-z]", text), text
        assert not any(unicodedata.category(c) == "Cc" for c in text)
        assert not re.search(r"\b(OK|passed|failed|passes the check)\b", text)


def test_a_number_is_read_in_a_way_that_is_declared():
    declared = {"", "%", "points", "ppm", "difference", "offset"}
    for row in ROWS:
        assert {place[1] for place in PLACE.findall(row.limit_text)} <= declared
        assert row.shown in declared


def test_every_further_limit_belongs_to_a_check_and_is_found_by_its_case():
    stated = [(row["check"], row["case"]) for row in rows("checks/further_limits")]
    assert len(stated) == len(set(stated))
    for check, case in stated:
        assert check in catalogue()
        further = further_limit(check, case)
        assert further in further_limits(check)
        assert further.unit in UNITS - {""}
        assert isfinite(further.limit)
        assert further.meaning
        assert further.source
        assert isinstance(origin_of(further.limit), Row)


def test_a_case_that_is_not_there_is_an_error():
    with pytest.raises(KeyError, match=r"exhaust.bends has no further limit for 'green'"):
        further_limit("exhaust.bends", "green")
    assert further_limits("exhaust.length") == ()


def test_a_second_number_is_never_of_a_higher_grade_than_its_check():
    order = list(Severity)
    for row in ROWS:
        for further in further_limits(row.id):
            if row.id != "heat.rated_point":  # an impossible plate is refused: worse than a doubtful one
                assert order.index(further.severity) >= order.index(row.severity)


def test_what_can_hurt_people_is_cured_before_the_burner_is_lit_or_the_part_is_used():
    late = {
        "at the next service",
        "before this winter",
        "before this dossier is issued",
        "before going to sea",
    }
    late |= {"before frost", "before parts are ordered"}
    assert [row.id for row in ROWS if row.severity is Severity.DANGER and row.before in late] == []


def test_angles_are_radians():
    bends = catalogue()["exhaust.bends"].limit
    assert bends == pytest.approx(2.5 * pi, rel=1e-12)
    assert further_limit("exhaust.bends", "attention from").limit == pytest.approx(1.5 * pi, rel=1e-12)
