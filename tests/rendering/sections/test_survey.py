"""Section 5 prints every check once, with its figures, its limit's source, and what it waits for."""

import re

import pytest

from dossier.checking.finding import Status
from dossier.data.catalogue import Severity, catalogue, check_groups
from dossier.data.check_numbers import number_of
from dossier.rendering.blocks import Answer, ChecksTable, Figure, Heading, Note, Panel, SignalWord, Table
from dossier.rendering.sections import findings, survey
from dossier.rendering.sections.finding_words import FindingWords, is_for_yard

MM = 72 / 25.4


def checks_of(blocks, walk):
    return [check for b in walk(blocks) if isinstance(b, ChecksTable) for check in b.checks]


def table(blocks, walk, key):
    return next((b for b in walk(blocks) if isinstance(b, Table) and b.key == key), None)


def short_tables(blocks, walk):
    return [b for b in walk(blocks) if isinstance(b, Table) and b.key.startswith("table_survey_")]


def numbers_in(tables):
    return [str(row[0]) for each in tables for row in each.rows]


def not_applicable(blocks, walk):
    return [b for b in walk(blocks) if isinstance(b, Table) and str(b.caption) == "Not applicable, by rule"]


def test_every_check_stands_in_the_survey_part_once(each_boat, walk, blocks_of):
    blocks = blocks_of(survey, each_boat, "full")
    printed = [check.number for check in checks_of(blocks, walk)]
    printed += numbers_in(not_applicable(blocks, walk))
    assert sorted(printed, key=int) == sorted((str(number_of(f.check)) for f in each_boat.findings), key=int)


def ruled_out_in_words(blocks, walk):
    """Numbers in the notes of the survey edition: each stands before its check's title."""
    notes = [str(b.text) for b in walk(blocks) if isinstance(b, Note) and "Not applicable" in str(b.text)]
    return [number for note in notes for number in re.findall(r"(?:: |, )(\d+) [A-Z]", note)]


def test_the_survey_edition_has_every_check_once_too(each_boat, walk, blocks_of):
    blocks = blocks_of(survey, each_boat, "survey")
    printed = [check.number for check in checks_of(blocks, walk)] + ruled_out_in_words(blocks, walk)
    assert sorted(printed, key=int) == sorted((str(number_of(f.check)) for f in each_boat.findings), key=int)


def test_the_survey_edition_says_whose_limit_and_which_line(each_boat, draft_of, walk, blocks_of):
    """Basis of limit and data stand beside each check; the clause of what is met is in appendix B."""
    said = FindingWords(draft_of(each_boat))
    checks = {check.number: check for check in checks_of(blocks_of(survey, each_boat, "survey"), walk)}
    words = {
        Status.NOT_MET: lambda f: f.limit.source,
        Status.MET: said.basis,
        Status.NOT_ASSESSED: said.whose,
    }
    for finding in each_boat.findings:
        if finding.status in words:
            notes = " ".join(map(str, checks[said.number(finding)].notes))
            assert str(words[finding.status](finding)) in notes


def test_groups_follow_the_order_of_the_survey(each_boat, blocks_of):
    blocks = blocks_of(survey, each_boat)
    printed = [str(b.text) for b in blocks if isinstance(b, Heading) and b.level == 2]
    wanted = [
        g.title for g in check_groups() if any(f.limit.row.group == g.group for f in each_boat.findings)
    ]
    assert printed == wanted
    sections = [b.number for b in blocks if isinstance(b, Heading) and b.level == 2]
    assert sections == [f"5.{n}" for n in range(1, len(wanted) + 1)]


def test_each_group_stands_worst_first(each_boat, walk, blocks_of):
    order = {number_of(f.check): n for n, f in enumerate(each_boat.worst_first)}
    for block in walk(blocks_of(survey, each_boat)):
        if isinstance(block, ChecksTable):
            places = [order[int(check.number)] for check in block.checks]
            assert places == sorted(places)


def test_a_check_that_does_not_apply_names_the_rule(each_boat, walk, blocks_of):
    rules = {str(number_of(f.check)): f.why for f in each_boat.findings if f.status is Status.NOT_APPLICABLE}
    printed = {
        str(row[0]): str(row[3])
        for t in not_applicable(blocks_of(survey, each_boat, "full"), walk)
        for row in t.rows
    }
    assert printed == rules
    assert all(rules.values())


def test_a_check_that_was_not_made_names_its_inputs_and_lines(assessed, draft_of, walk, blocks_of):
    boat = assessed("ten numbers")
    checks = {check.number: check for check in checks_of(blocks_of(survey, boat, "full"), walk)}
    for finding in boat.findings:
        if finding.status is Status.NOT_ASSESSED:
            notes = " ".join(map(str, checks[str(number_of(finding.check))].notes))
            assert str(draft_of(boat).inputs.listed(finding.missing[:1])).partition(" of ")[0] in notes
    outlet = " ".join(map(str, checks[str(number_of("exhaust.outlet_height"))].notes))
    line = boat.project.where("exhaust.route").line
    assert f"Missing: route of the exhaust (exhaust.route, line {line})." in outlet


def test_inputs_of_many_runs_are_told_as_one(assessed, walk, blocks_of):
    """The cutter's ring has 11 runs of pipe, written in lines 126 to 136 of her file."""
    checks = {check.number: check for check in checks_of(blocks_of(survey, assessed("cutter"), "full"), walk)}
    notes = " ".join(map(str, checks[str(number_of("flow.high_points"))].notes))
    assert "Missing: route of 11 runs (circuit.*.route, lines 126–136)." in notes


def test_the_exhaust_opens_on_the_sheet_of_the_survey_part(assessed, draft_of, pages_of):
    pages = pages_of(draft_of(assessed("ten numbers"), only=("survey",)), survey.section)
    assert "5.1" in {word.text for word in pages[0].words}


def test_the_limit_and_whose_it_is_stand_beside_each_check(each_boat, walk, blocks_of):
    checks = {check.number: check for check in checks_of(blocks_of(survey, each_boat, "full"), walk)}
    for finding in each_boat.findings:
        check = checks.get(str(number_of(finding.check)))
        if check is not None:
            notes = " ".join(map(str, check.notes))
            assert finding.limit.source in notes
            if finding.limit.overridden:
                assert catalogue()[finding.check].source in notes


def test_an_overridden_limit_is_printed_with_the_one_it_replaces(assessed, walk, blocks_of):
    boat = assessed("cutter")
    checks = {check.number: check for check in checks_of(blocks_of(survey, boat, "full"), walk)}
    notes = " ".join(map(str, checks[str(number_of("exhaust.length"))].notes))
    assert "Limit of this project ≤\u00a03.00\u00a0m (burner instructions" in notes
    assert "Without it the maker's greatest length; without one at most 3.00\u00a0m" in notes


def test_an_accepted_deviation_is_printed_beside_its_check(assessed, walk, blocks_of):
    boat = assessed("mended barge")
    accepted = next(f for f in boat.findings if f.status is Status.ACCEPTED)
    checks = {check.number: check for check in checks_of(blocks_of(survey, boat), walk)}
    notes = " ".join(map(str, checks[str(number_of(accepted.check))].notes))
    deviation = next(d for d in boat.project.deviations if d.check == accepted.check)
    for said in (deviation.reason, deviation.instead, deviation.by, str(deviation.until)):
        assert said in notes


def test_what_a_check_looked_at_is_listed(assessed, draft_of, walk, blocks_of):
    boat = assessed("barge")
    listed = {
        (str(row[0]), str(row[2]))
        for b in walk(blocks_of(survey, boat, "full"))
        if isinstance(b, Table) and str(b.caption).startswith("One by one")
        for row in b.rows
    }
    gap = next(f for f in boat.findings if f.check == "exhaust.bulkhead_gap")
    assert len(gap.items) == 2
    for item in gap.items:
        assert (str(number_of(gap.check)), FindingWords(draft_of(boat)).draft.capital(item.what)) in listed


def test_the_exhaust_opens_with_its_danger(each_boat, blocks_of):
    blocks = blocks_of(survey, each_boat)
    start = next(n for n, b in enumerate(blocks) if isinstance(b, Heading) and b.key == "survey_exhaust")
    panel = next(b for b in blocks[start:] if isinstance(b, Panel))
    assert panel.word is SignalWord.DANGER
    assert "carbon monoxide" in str(panel.hazard)
    assert sum(isinstance(b, Panel) for b in blocks) == 1


def test_the_outlet_stays_clear_by_what_was_calculated(assessed, blocks_of):
    """Heel of 20°: 0.87·cos 20° − 2.05·sin 20° − 0.019 = 0.0974 m; it meets the water at 22.5° (by hand)."""
    blocks = blocks_of(survey, assessed("cutter"))
    start = next(n for n, b in enumerate(blocks) if isinstance(b, Heading) and b.key == "survey_exhaust")
    answer = next(b for b in blocks[start:] if isinstance(b, Answer))
    assert str(answer.strong) == (
        "The outlet stays clear of the sea to 20° of heel, by 97\u00a0mm. At 22.5° it goes under:"
    )


def test_legs_and_heights_are_those_of_the_route(assessed, walk, blocks_of):
    """Leg 1 rises 0.94 − 0.42 = 0.52 m; leg 3 falls 1.02 − 0.87 = 0.15 m (from the file, by hand)."""
    blocks = blocks_of(survey, assessed("cutter"))
    legs = table(blocks, walk, "table_legs")
    assert legs.rows[0][7:9] == ["520", "+520"]
    assert legs.rows[2][8] == "−150"
    assert legs.totals[0][8] == "+450"
    heights = {str(row[0]): row[1:4] for row in table(blocks, walk, "table_outlet_heights").rows}
    assert heights["upright"] == ["851", "≥\u00a0250", "+601"]
    assert heights["heeled 20°"] == ["97", "≥\u00a00", "+97"]


def test_openings_stand_nearest_first(assessed, walk, blocks_of):
    rows = table(blocks_of(survey, assessed("barge")), walk, "table_openings").rows
    found = [int(str(row[1]).replace(",", "")) for row in rows]
    assert found == sorted(found)
    assert str(rows[0][0]) == "Side hatch starboard"
    assert rows[0][1:] == ["477", "≥\u00a0500", "−23"]


def test_the_exhaust_is_drawn_where_there_is_a_route(assessed, walk, blocks_of):
    drawn = [b for b in walk(blocks_of(survey, assessed("cutter"))) if isinstance(b, Figure)]
    assert {figure.key for figure in drawn} == {"figure_exhaust_elevation", "figure_exhaust_plan"}
    assert all(figure.alt for figure in drawn)
    assert not [b for b in walk(blocks_of(survey, assessed("ten numbers"))) if isinstance(b, Figure)]


def test_without_a_route_one_line_says_what_it_needs(assessed, walk, blocks_of):
    blocks = blocks_of(survey, assessed("ten numbers"))
    assert table(blocks, walk, "table_legs") is None
    notes = [str(b.text) for b in blocks if isinstance(b, Note)]
    assert any("exhaust.route" in note for note in notes)


def test_the_yard_gets_its_own_checks_only(assessed, walk, blocks_of):
    boat = assessed("barge")
    blocks = blocks_of(survey, boat, "yard")
    note = next(str(b.text) for b in walk(blocks) if isinstance(b, Note) and "Not applicable" in str(b.text))
    printed = numbers_in(short_tables(blocks, walk))
    assert sorted([*printed, *re.findall(r"\d+", note)], key=int) == [
        str(n) for n in sorted(number_of(f.check) for f in boat.findings if is_for_yard(f))
    ]


def test_the_yard_s_tables_are_worst_first_and_name_the_package(assessed, walk, blocks_of):
    boat = assessed("barge")
    tables = short_tables(blocks_of(survey, boat, "yard"), walk)
    order = {str(number_of(f.check)): n for n, f in enumerate(boat.worst_first)}
    for each in tables:
        places = [order[number] for number in numbers_in([each])]
        assert places == sorted(places)
    package = {str(row[0]): row[-1] for each in tables for row in each.rows}
    assert package[str(number_of("exhaust.length"))] == "3"  # exhaust and hull fitting
    assert package[str(number_of("fuel.shut_off"))] == "4"  # fuel


def test_the_yard_reads_what_is_missing_for_each_check_not_made(assessed, walk, blocks_of):
    boat = assessed("ten numbers")
    rows = table(blocks_of(survey, boat, "yard"), walk, "table_survey_not_assessed").rows
    missing = {str(row[0]): str(row[1]).partition("Missing: ")[2] for row in rows}
    unknown = [f for f in boat.findings if is_for_yard(f) and f.status is Status.NOT_ASSESSED]
    assert set(missing) == {str(number_of(f.check)) for f in unknown}
    assert all(missing.values())
    line = boat.project.where("exhaust.route").line
    assert f"route of the exhaust (line {line})" in missing[str(number_of("exhaust.outlet_height"))]


def test_ways_out_are_compared_where_the_file_names_some(project_of, walk, assessed, tmp_path, blocks_of):
    text, months = (file.content.decode() for file in assessed("barge").project.files)
    (tmp_path / "months.csv").write_text(months, encoding="utf-8")
    way = "[[2.1 m, -0.6 m, 0.05 m], [1.0 m, -0.6 m, 0.6 m], [0.0 m, -0.6 m, 0.5 m]]"
    other = f"  candidates:\n    stern: {{route: {way}}}\n"
    assert "\nexhaust:\n" in text
    boat = project_of(text.replace("\nexhaust:\n", f"\nexhaust:\n{other}"))
    rows = table(blocks_of(survey, boat), walk, "table_candidates").rows
    assert {str(row[0]) for row in rows} == {"stern", "as it is"}


def test_findings_lead_to_the_sheet_of_their_check(assessed, draft_of, pages_of):
    boat = assessed("ten numbers")
    pages = pages_of(draft_of(boat, only=("findings", "survey")), findings.section, survey.section)
    finding = next(f for f in boat.worst_first if f.is_open)
    title = finding.limit.row.title
    sheet = next(n for n, page in enumerate(pages, 1) if "Seen" in page.text and title in page.text)
    first = next(page for page in pages if "Table 1" in page.text)
    number = next(w for w in first.words if w.text == str(number_of(finding.check)) and w.left < 30 * MM)
    row = [word for word in first.words if abs(word.bottom - number.bottom) < 3]
    assert max(row, key=lambda word: word.right).text == str(sheet)


@pytest.mark.parametrize(("paper", "units"), [("A4", "metric"), ("letter", "imperial")])
def test_the_pages_hold_no_stray_words_and_stay_on_the_sheet(assessed, draft_of, pages_of, units, paper):
    draft = draft_of(assessed("yacht"), only=("findings", "survey"), units=units, paper=paper)
    for page in pages_of(draft, findings.section, survey.section):
        for stray in ("None", "nan", "-0.0", "{{", "{%", "NotAssessed", "Status."):
            assert stray not in page.text
        for word in page.words:
            assert word.left > 8 * 72 / 25.4
            assert word.right < page.width - 8 * 72 / 25.4


def test_no_danger_is_lost_between_findings_and_survey(each_boat, walk, blocks_of):
    blocks = blocks_of(survey, each_boat, "full")
    printed = {check.number for check in checks_of(blocks, walk)} | {
        *numbers_in(not_applicable(blocks, walk))
    }
    dangers = {str(number_of(f.check)) for f in each_boat.findings if f.severity is Severity.DANGER}
    assert dangers <= printed


def test_a_group_of_which_nothing_applies_says_so(assessed, blocks_of):
    """The cutter takes no heat from her engine: all eight checks of that are ruled out."""
    blocks = blocks_of(survey, assessed("cutter"))
    start = next(n for n, b in enumerate(blocks) if isinstance(b, Heading) and b.key == "survey_recovery")
    answer = next(b for b in blocks[start:] if isinstance(b, Answer))
    assert str(answer.strong) == "Of eight checks none applies."


def test_notes_of_the_checks_name_no_key_but_in_brackets(each_boat, walk, blocks_of):
    """A remark speaks of inputs in words; a key stands only where the file is to be filled in."""
    for check in checks_of(blocks_of(survey, each_boat), walk):
        for note in check.notes:
            remark = re.search(r"Note (.*)$", str(note))
            if remark:
                assert not re.search(r"[a-z]_[a-z]|[a-z]\.[a-z]+\.", remark[1]), check.number
