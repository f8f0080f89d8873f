"""The words for crew and yard are whole, plain, and lead to things that exist."""

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator

import pytest

from dossier.data.catalogue import catalogue, check_groups, further_limits
from dossier.data.commissioning import commissioning_sheets, hold_points, work_packages
from dossier.data.procedures import (
    cautions,
    cautions_in,
    emergency_cards,
    emergency_places,
    fault_trees,
    glossary,
    maintenance,
    normal_readings,
    procedures,
    spares,
)
from dossier.data.tables import rows
from dossier.data.wording import BLANK, filled, needs, placeholders, places_in, wanted

TABLES = (
    "maintenance",
    "seasonal",
    "commissioning_sheets",
    "commissioning_lines",
    "hold_points",
    "work_packages",
    "package_steps",
    "settings",
    "fault_trees",
    "emergency",
    "emergency_places",
    "cautions",
    "glossary",
    "spares",
    "readings",
    "stop_rules",
)
BASES = {"standard", "maker", "local rule", "common practice", "rule of this dossier"}
CODE = re.compile(r"(?<![A-Za-z0-9])[HMCFWDTP]\d+\b")
GRAVE = re.compile(r"kill|fatal|lives|severe|blind|poison|scald|fire|flame|sink|burn|flood|acid|injure")
NO_PROSE = {"basis", "source", "key", "unit", "needs", "applies_if", "caution", "cautions", "checks"}


def cells(table: str) -> Iterator[tuple[str, str]]:
    for row in rows(table):
        yield from row.items()


def sentences(text: str) -> list[str]:
    return [part for part in re.split(r"(?<=[.!?])\s+|: ", text) if part]


@pytest.mark.parametrize("table", TABLES)
def test_every_row_says_what_it_rests_on(table: str):
    if table == "commissioning_lines":  # its sheet says it
        assert {row["sheet"] for row in rows(table)} == {
            str(sheet.number) for sheet in commissioning_sheets()
        }
        return
    for row in rows(table):
        assert row["basis"] in BASES
        assert row["source"].strip()


@pytest.mark.parametrize("table", [*TABLES, "placeholders", "aboard", "check_groups"])
def test_texts_are_clean(table: str):
    for column, text in cells(table):
        assert text is not None, column
        assert text == text.strip()
        assert "  " not in text
        assert not any(unicodedata.category(c) in {"Cc", "Cf", "Co"} for c in text)
        assert unicodedata.is_normalized("NFC", text)


@pytest.mark.parametrize("table", TABLES)
def test_no_code_stands_alone(table: str):
    for column, text in cells(table):
        if column not in NO_PROSE:
            assert not CODE.search(text), text


@pytest.mark.parametrize("table", TABLES)
def test_numbers_of_tasks_faults_and_tests_lead_to_one_that_exists(table: str):
    last = {"Task": 36, "Fault": 16, "Test": 12, "Hold": 8, "Package": 12}
    for column, text in cells(table):
        if column not in NO_PROSE:
            for word, number in re.findall(r"\b(Task|Fault|Test|Hold|Package) (\d+)", text):
                assert 1 <= int(number) <= last[word], text


@pytest.mark.parametrize("table", TABLES)
def test_every_placeholder_is_documented(table: str):
    for _, text in cells(table):
        assert set(places_in(text)) <= placeholders().keys()
        assert text.count("{") == text.count("}") == len(places_in(text))


def test_every_placeholder_is_used():
    used = {place for table in TABLES for _, text in cells(table) for place in places_in(text)}
    assert placeholders().keys() - used == set()


def test_every_placeholder_can_be_filled_from_something_that_exists(is_key, is_result):
    for place in placeholders().values():
        assert place.meaning
        if place.kind == "key":
            assert is_key(place.filled_from), place
        elif place.kind == "result":
            assert is_result(place.filled_from), place
        elif place.kind == "limit":
            check, _, case = place.filled_from.partition("/")
            row = catalogue()[check]
            cases = {further.case: further.unit for further in further_limits(check)}
            cases |= {} if row.limit is None else {"limit": row.unit}
            cases |= {} if row.upper_limit is None else {"upper_limit": row.unit}
            assert cases[case] == place.unit
        else:
            assert place.kind == "words"


@pytest.mark.parametrize("table", TABLES)
def test_every_need_is_known(table: str):
    column = "applies_if" if table == "maintenance" else "needs"
    for row in rows(table):
        names = [name for name in re.split(r" or | and ", row.get(column, "")) if name]
        assert set(names) <= needs().keys()
        assert not (" or " in row.get(column, "") and " and " in row.get(column, ""))


def test_every_need_is_met_by_a_component_or_a_key_that_exists(is_key):
    for need in needs().values():
        assert bool(need.component) != bool(need.key)
        assert is_key(f"components.{need.component}" if need.component else need.key), need


def test_there_are_36_tasks_16_faults_12_tests_8_holds_and_12_packages():
    assert [task.number for task in maintenance()] == list(range(1, 37))
    assert [tree.number for tree in fault_trees()] == list(range(1, 17))
    assert [sheet.number for sheet in commissioning_sheets()] == list(range(1, 13))
    assert [hold.number for hold in hold_points()] == list(range(1, 9))
    assert [package.number for package in work_packages()] == list(range(1, 13))


def test_a_task_has_an_interval_and_somebody_to_do_it():
    for task in maintenance():
        assert task.calendar
        assert 0 < task.calendar_months <= 120
        assert task.hours is None or 0 < task.hours <= 2000
        assert task.who
        assert set(task.who) <= {"crew", "technician", "licensed trade", "maker's representative"}
        assert task.task
        assert task.tools
        assert task.good_reading
        assert task.hazard


@pytest.mark.parametrize(
    ("words", "least", "most"),
    [
        ("each day", 0.03, 0.04),
        ("weekly", 0.2, 0.25),
        ("monthly", 1, 1),
        ("every 3 months", 3, 3),
        ("every 6 months", 6, 6),
        ("yearly", 12, 12),
        ("every 2 years", 24, 24),
        ("every 5 years", 60, 60),
        ("every 8 years", 96, 96),
    ],
)
def test_an_interval_in_months_agrees_with_its_words(words: str, least: float, most: float):
    tasks = [task for task in maintenance() if task.calendar.startswith(words)]
    assert tasks
    for task in tasks:
        assert least <= task.calendar_months <= most, task


def test_steps_count_up_from_one_and_hold_one_action_in_a_few_words():
    for procedure in procedures().values():
        assert [step.step for step in procedure.steps] == list(range(1, len(procedure.steps) + 1))
        for step in procedure.steps:
            assert step.action.endswith(".")
            assert all(len(sentence.split()) <= 25 for sentence in sentences(step.action)), step.action
            assert not step.caution or step.caution in cautions()


def test_a_step_whose_part_is_not_aboard_is_left_out():
    steps = procedures()["summer"].steps
    bare = [step.action for step in steps if wanted(step.needs, {"burner", "header_tank", "open_ring"})]
    assert not any("bypass" in action for action in bare)
    assert any("header" in action for action in bare)
    full = [step.action for step in steps if wanted(step.needs, set(needs()))]
    assert len(full) == len(steps)


def test_a_sheet_stops_at_a_rule_and_its_lines_are_entered_under_keys_that_exist(is_key):
    for sheet in commissioning_sheets():
        assert sheet.method
        assert sheet.stop_rule
        assert 1 <= sheet.hold <= 8
        assert [line.line for line in sheet.lines] == list(range(1, len(sheet.lines) + 1))
        for line in sheet.lines:
            assert line.what
            assert line.expected or line.target or line.tolerance or line.least or line.most, line
            assert bool(line.target or line.tolerance or line.least or line.most) == bool(line.shown), line
            assert not line.key or (line.key.startswith("commissioning.") and is_key(line.key))
            assert not line.unit or line.key or line.unit in {"m", "s", "V", "Pa"}


def test_every_check_that_waits_for_a_test_finds_its_line_on_a_sheet():
    keys = {line.key for sheet in commissioning_sheets() for line in sheet.lines}
    for row in catalogue().values():
        for path in row.inputs:
            if path.startswith("commissioning."):
                assert any(key == path or key.startswith(f"{path}.") for key in keys), row.id


def test_a_hold_point_names_the_tests_that_wait_for_it():
    for sheet in commissioning_sheets():
        assert sheet.number in hold_points()[sheet.hold - 1].tests
    for hold in hold_points():
        assert hold.when
        assert hold.seen
        assert hold.signed_by
        assert set(hold.tests) <= {sheet.number for sheet in commissioning_sheets()}


def test_every_check_the_yard_must_meet_stands_in_a_package():
    covered: set[str] = set()
    for package in work_packages():
        for pattern in package.checks:
            group, _, name = pattern.partition(".")
            found = {c for c in catalogue() if c == pattern or (name == "*" and c.startswith(f"{group}."))}
            assert found, pattern
            covered |= found
        assert set(package.cautions) <= cautions().keys()
        assert package.done_by
        holds = {hold.number for hold in hold_points()}
        assert set(package.hold_before) | set(package.hold_after) <= holds
        assert max(package.hold_before, default=0) < min(package.hold_after, default=9)
        assert set(package.drawings) <= set(range(1, 10))
    yards = {row.id for row in catalogue().values() if "yard" in row.readers}
    assert yards - covered == set()


def test_a_step_of_a_package_names_panels_of_its_package_that_are_meant_for_yards():
    for package in work_packages():
        assert [step.step for step in package.steps] == list(range(1, len(package.steps) + 1))
        assert [step.stage for step in package.steps] == sorted(step.stage for step in package.steps)
        for step in package.steps:
            assert set(step.caution) <= set(package.cautions), step
            assert step.stage <= 2 + len(package.hold_after)
            assert all(len(sentence.split()) <= 25 for sentence in sentences(step.action)), step.action
        assert all("yard" in cautions()[name].printed_in for name in package.cautions)


def test_a_setting_is_a_key_that_exists_a_figure_or_a_placeholder(is_key):
    for package in work_packages():
        for row in package.settings:
            if not row.kind and (row.key.startswith("{") or row.key[0].isdigit()):
                continue
            key = f"components.{row.kind}.{row.key}" if row.kind else row.key
            assert is_key(key), row


def test_every_hold_point_is_reached_by_a_package():
    reached = {hold for package in work_packages() for hold in (*package.hold_before, *package.hold_after)}
    assert reached == {hold.number for hold in hold_points()}
    for hold in hold_points():
        home = work_packages()[hold.package - 1]
        assert hold.number in (*home.hold_before, *home.hold_after)


def test_a_fault_tree_looks_first_asks_then_mends_and_says_when_to_stop():
    order = ["first look", "question", "remedy", "stop"]
    for tree in fault_trees():
        parts = [line.part for line in tree.lines]
        assert parts == sorted(parts, key=order.index)
        assert parts.count("first look") == 1
        assert parts.count("question") >= 3
        assert "remedy" in parts
        assert "stop" in parts
        for line in tree.lines:
            assert (line.part == "question") == bool(line.yes or line.no), line
            assert line.text.endswith("?" if line.part == "question" else ".")
            for text in (line.text, line.yes, line.no):
                assert all(len(sentence.split()) <= 25 for sentence in sentences(text)), text


def test_the_emergency_card_has_one_variant_for_every_boat():
    stops = {"stop_outside", "stop_on_way_out", "stop_inside", "stop_unknown"}
    fires = [
        {"fire_port"},
        {"no_fire_port", "no_fixed_extinguishing"},
        {"no_fire_port", "fixed_extinguishing"},
    ]
    fires = [fire | {aboard} for fire in fires for aboard in ("extinguisher", "no_extinguisher")]
    for stop in stops:
        for fire in fires:
            for card in emergency_cards():
                printed = [step.step for step in card.steps if wanted(step.needs, {stop} | fire)]
                assert max(Counter(printed).values(), default=1) == 1
                if card.side == "front":
                    assert {1, 2, 4, 5, 6} <= set(printed)
    # nobody is sent back in: carbon monoxide, first step is out, and every variant of the stop says never
    carbon_monoxide = emergency_cards()[0]
    assert carbon_monoxide.id == "carbon_monoxide"
    assert "Everybody out" in carbon_monoxide.steps[0].lead
    variants = [step for step in carbon_monoxide.steps if step.step == 3]
    assert {step.needs for step in variants} == stops
    assert all("Never go back in" in step.text for step in variants)


def test_steps_of_the_emergency_card_are_short():
    for card in emergency_cards():
        for step in card.steps:
            assert all(len(sentence.split()) <= 16 for sentence in sentences(f"{step.lead} {step.text}")), (
                step
            )
    assert [place.number for place in emergency_places()] == [1, 2, 3, 4, 5, 6]


def test_a_panel_has_a_legal_signal_word_and_says_hazard_consequence_and_avoidance():
    parts = {"survey", "aboard", "yard", "commissioning"}
    for caution in cautions().values():
        assert caution.signal_word in {"DANGER", "WARNING", "CAUTION", "NOTICE"}
        assert caution.printed_in
        assert set(caution.printed_in) <= parts
        for text in (caution.hazard, caution.consequence, caution.avoidance):
            assert text.endswith(".")
            assert all(len(sentence.split()) <= 25 for sentence in sentences(text)), text


def test_a_signal_word_agrees_with_the_harm_it_means():
    # ANSI Z535.4-2007, 4.14.1 to 4.14.4: DANGER will, WARNING could result in death or serious injury;
    # CAUTION minor or moderate injury; NOTICE practices not related to injury
    for caution in cautions().values():
        if caution.signal_word == "DANGER":
            assert re.search(r"\b(kills|will kill)\b", caution.consequence)
        if caution.signal_word == "WARNING":
            assert re.search(r"\b(can|could)\b", caution.consequence)
            assert GRAVE.search(caution.consequence)
        if caution.signal_word == "CAUTION":
            assert not re.search(r"\b(kill|death|fatal|blind)", caution.consequence)
        if caution.signal_word == "NOTICE":
            assert not re.search(
                r"\b(kill|burns?\b|injur|poison|scald)", f"{caution.hazard} {caution.consequence}"
            )


def test_danger_is_kept_for_carbon_monoxide_alone():
    assert [c.id for c in cautions().values() if c.signal_word == "DANGER"] == ["carbon_monoxide"]


def test_panels_of_a_part_come_strongest_first():
    for part in ("survey", "aboard", "yard", "commissioning"):
        words = [caution.signal_word for caution in cautions_in(part)]
        assert words[0] == "DANGER"
        assert words == sorted(words, key=["DANGER", "WARNING", "CAUTION", "NOTICE"].index)


def test_the_glossary_is_in_alphabetical_order_and_explains_in_one_breath():
    terms = [term.term for term in glossary()]
    assert terms == sorted(terms)
    assert len(terms) == len(set(terms)) >= 25
    for term in glossary():
        assert all(len(sentence.split()) <= 25 for sentence in sentences(term.meaning)), term


def test_spares_and_readings_say_what_they_are():
    for spare in spares():
        assert spare.item
        assert spare.number
        assert spare.fits
    for reading in normal_readings():
        assert reading.what
        assert reading.steady
        assert reading.stop_if


def test_what_is_not_known_becomes_a_line_to_write_on():
    assert filled("Fuel off at {fuel_shut_off}.", {}) == f"Fuel off at {BLANK}."
    assert filled("Fuel off at {fuel_shut_off}.", {"fuel_shut_off": ""}) == f"Fuel off at {BLANK}."
    assert filled("Fuel off at {fuel_shut_off}.", {"fuel_shut_off": "V20"}) == "Fuel off at V20."


def test_groups_of_checks_have_a_heading_and_a_chapter():
    assert len(check_groups()) == 17
    for group in check_groups():
        assert group.title
        assert group.chapter
