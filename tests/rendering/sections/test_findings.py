"""Section 2 says what the assessment found, worst first, and never that anything is safe."""

import re
from dataclasses import replace

import pytest

from dossier.checking.finding import Status
from dossier.data.catalogue import Severity, catalogue
from dossier.data.check_numbers import number_of
from dossier.rendering.blocks import Answer, FindingsTable, KeyFigures, Paragraph, Table
from dossier.rendering.sections import findings
from dossier.rendering.sections.findings_facts import WARMTH, Facts

PROMISES = re.compile(r"(?<![.\w])(OK|pass|passes|passed|safe|compliant)\b")


def table_of(blocks, walk):
    return next((block for block in walk(blocks) if isinstance(block, FindingsTable)), None)


def words_of(blocks, walk):
    return " ".join(str(block.text) for block in walk(blocks) if isinstance(block, Paragraph))


def test_one_row_for_each_open_finding_and_no_other(each_boat, walk, blocks_of):
    rows = table_of(blocks_of(findings, each_boat), walk).findings
    assert [int(row.number) for row in rows] == [
        number_of(f.check) for f in each_boat.worst_first if f.is_open
    ]
    assert all(
        str(row.title) == catalogue()[check].title
        for row, check in zip(rows, (f.check for f in each_boat.worst_first if f.is_open), strict=True)
    )


def test_the_worst_stands_first(each_boat, walk, blocks_of):
    rows = table_of(blocks_of(findings, each_boat), walk).findings
    order = [
        ("danger", "not met"),
        ("danger", "not assessed"),
        ("fault", "not met"),
        (None, "accepted deviation"),
        ("attention", "not met"),
    ]

    def place(row):
        return next(
            n
            for n, (grade, result) in enumerate(order)
            if result == row.status and grade in {None, row.severity}
        )

    places = [place(row) for row in rows]
    assert places == sorted(places)


def test_the_tally_adds_up_to_the_checks_that_were_made(each_boat, walk, blocks_of):
    tables = [b for b in walk(blocks_of(findings, each_boat)) if isinstance(b, Table)]
    tally = next(table for table in tables if table.key == "table_tally")
    rows = [[int(cell) for cell in row[1:]] for row in tally.rows]
    together = [int(cell) for cell in tally.totals[0][1:]]
    assert [sum(column) for column in zip(*rows, strict=True)] == together
    assert sum(together) == len(each_boat.findings)
    assert together == [each_boat.counts[status] for status in findings.RESULTS]
    for row, grade in zip(rows, Severity, strict=True):
        assert sum(row) == sum(f.severity is grade for f in each_boat.findings)


def test_the_tally_says_how_much_of_the_catalogue_this_version_holds(each_boat, walk, blocks_of):
    held = len(each_boat.findings)
    tables = [b for b in walk(blocks_of(findings, each_boat)) if isinstance(b, Table)]
    tally = next(table for table in tables if table.key == "table_tally")
    assert str(held) in str(tally.caption)
    if held < len(catalogue()):
        assert str(len(catalogue())) in str(tally.notes)


def test_found_limit_and_margin_are_those_of_the_assessment(assessed, walk, blocks_of):
    """By hand: the edge stands at 180 − 30/2 = 165 mm, which is 85 mm short of 250 mm."""
    rows = {row.number: row for row in table_of(blocks_of(findings, assessed("barge")), walk).findings}
    outlet = rows[str(number_of("exhaust.outlet_height"))]
    assert (outlet.found, outlet.limit, outlet.margin) == ("165\u00a0mm", "≥\u00a0250\u00a0mm", "−85\u00a0mm")
    assert outlet.status == "not met"
    assert outlet.severity == "danger"


def test_a_danger_nobody_looked_at_names_what_is_missing_and_its_line(assessed, walk, blocks_of):
    boat = assessed("ten numbers")
    rows = {row.number: row for row in table_of(blocks_of(findings, boat), walk).findings}
    outlet = rows[str(number_of("exhaust.outlet_height"))]
    assert outlet.status == "not assessed"
    assert outlet.found == "—"
    line = boat.project.where("exhaust.route").line
    assert str(outlet.basis) == f"Input missing: route of the exhaust (line {line})"


def test_the_verdict_counts_dangers(assessed, draft_of, walk, blocks_of):
    boat = assessed("barge")
    facts = Facts(draft_of(boat))
    verdict = next(str(b.strong) for b in walk(blocks_of(findings, boat)) if isinstance(b, Answer))
    assert len(facts.open_dangers) == sum(
        f.severity is Severity.DANGER and f.status is Status.NOT_MET for f in boat.findings
    )
    assert verdict.startswith("Not to be fired as found.")
    assert "stand open" in verdict


def test_where_nothing_is_known_of_dangers_the_verdict_says_so(assessed, walk, blocks_of):
    boat = assessed("ten numbers")
    verdict = next(str(b.strong) for b in walk(blocks_of(findings, boat)) if isinstance(b, Answer))
    assert verdict.startswith("Not to be fired on these data. Of ")
    assert "none could be made" in verdict


def test_no_page_of_findings_promises_anything(each_boat, walk, blocks_of):
    said = words_of(blocks_of(findings, each_boat), walk)
    said += " ".join(str(b.strong) for b in walk(blocks_of(findings, each_boat)) if isinstance(b, Answer))
    assert not PROMISES.search(said)


def test_the_key_figures_are_the_results(assessed, draft_of, walk, blocks_of):
    boat, draft = assessed("cutter"), draft_of(assessed("cutter"))
    figures = next(b for b in walk(blocks_of(findings, draft.assessment)) if isinstance(b, KeyFigures))
    shown = {str(name): str(figure) for name, figure in figures.rows}
    load = boat.results["heat_loss.total"].value
    assert shown["Design load"] == draft.said(load, "power_large")
    assert shown["Carbon monoxide"] == "not assessed"


def test_a_key_figure_that_a_check_judges_is_printed_as_there(each_boat, draft_of, walk, blocks_of):
    """Rounded once, to the worse side: a page does not say 6.3 here and 6.4 there."""
    draft = draft_of(each_boat)
    figures = next(b for b in walk(blocks_of(findings, each_boat)) if isinstance(b, KeyFigures))
    shown = {str(name): str(figure) for name, figure in figures.rows}
    rows = {
        row.number: row for row in getattr(table_of(blocks_of(findings, each_boat), walk), "findings", ())
    }
    for name, check in (
        ("Starts an hour, worst", "store.starts_hour"),
        ("Battery, design day", "electrics.battery_day"),
    ):
        row = rows.get(str(number_of(check)))
        if row is not None and row.status == "not met":
            assert shown[name] == row.found
    assert draft.edition == "survey"


def test_the_opening_never_sounds_better_than_the_findings(each_boat, walk, blocks_of):
    """A boat is not said to be warm while a check of warmth is missed or was not made."""
    said = words_of(blocks_of(findings, each_boat), walk)
    for finding in each_boat.findings:
        if finding.check in WARMTH and "the load at" in said:
            title = f"“{finding.limit.row.title}” ({number_of(finding.check)})"
            doubtful = {Status.NOT_MET, Status.ACCEPTED, Status.NOT_ASSESSED}
            assert (title in said) == (finding.status in doubtful)
    if any(f.check in WARMTH and f.status is Status.NOT_MET for f in each_boat.findings):
        assert "It covers the load" not in said
        assert "and every room is held at its temperature" not in said


def test_no_key_of_the_file_stands_in_a_sentence(each_boat, walk, blocks_of):
    said = words_of(blocks_of(findings, each_boat), walk)
    assert not re.search(r"[a-z]_[a-z]|[a-z]\.[a-z]", said)


def test_dangers_left_open_are_named_by_their_numbers(assessed, walk, blocks_of):
    boat = assessed("cutter")
    rows = {row.number: row for row in table_of(blocks_of(findings, boat), walk).findings}
    row = rows[str(number_of("document.danger_open"))]
    unknown = [f for f in boat.findings if f.severity is Severity.DANGER and f.status is Status.NOT_ASSESSED]
    numbers = ", ".join(str(n) for n in sorted(number_of(f.check) for f in unknown))
    assert (row.found, str(row.found_note)) == (str(len(unknown)), f"Findings {numbers}")


def test_the_five_with_least_in_hand_are_met_and_none_has_less(assessed):
    boat = assessed("yacht")
    least = findings.least_in_hand(boat.findings)
    assert len(least) == 5
    shares = [findings.in_hand(f) for f in least]
    assert shares == sorted(shares)
    others = [
        findings.in_hand(f)
        for f in boat.findings
        if f not in least and f.limit.row.group != "document" and findings.in_hand(f) is not None
    ]
    assert min(others) >= max(shares)
    assert all(f.status is Status.MET for f in least)


def test_an_accepted_deviation_stands_beside_its_finding_and_does_not_become_met(assessed, walk, blocks_of):
    boat = assessed("mended barge")
    accepted = [f for f in boat.findings if f.status is Status.ACCEPTED]
    assert accepted
    rows = {row.number: row for row in table_of(blocks_of(findings, boat), walk).findings}
    for finding in accepted:
        row = rows[str(number_of(finding.check))]
        assert row.status == "accepted deviation"
        assert "2031-11-05" in str(row.who)
        assert "The owner" in str(row.who)


def test_the_status_that_is_not_the_one_wished_for_is_explained(assessed, walk, blocks_of):
    boat = assessed("barge")
    said = words_of(blocks_of(findings, boat), walk)
    assert "Wished for was as built; the data allow draft." in said
    against = {number_of(reason.check) for reason in boat.status.reasons}
    named = {int(n) for n in re.findall(r"\d+", said.split("Against for construction", 1)[1])}
    assert against <= named


@pytest.mark.parametrize(("edition", "kept"), [("aboard", "crew"), ("yard", "yard")])
def test_the_short_form_keeps_what_concerns_its_readers(assessed, walk, edition, kept, blocks_of):
    boat = assessed("barge")
    rows = table_of(blocks_of(findings, boat, edition), walk).findings
    numbers = {int(row.number) for row in rows}
    for finding in boat.findings:
        who = set(finding.limit.row.who)
        danger = finding.severity is Severity.DANGER
        wanted = danger or "owner" in who if kept == "crew" else bool(who - {"owner", "surveyor"})
        assert (number_of(finding.check) in numbers) == (finding.is_open and wanted)


def test_sheets_are_named_only_where_the_edition_has_a_survey_part(assessed, walk, blocks_of):
    boat = assessed("cutter")
    with_survey = table_of(blocks_of(findings, boat, "survey"), walk).findings
    without = table_of(blocks_of(findings, boat, "aboard"), walk).findings
    assert all(row.sheet for row in with_survey)
    assert not any(row.sheet for row in without)


def test_a_boat_without_open_findings_has_no_table(assessed, walk, blocks_of):
    boat = assessed("yacht")
    settled = replace(boat, findings=tuple(f for f in boat.findings if not f.is_open))
    blocks = blocks_of(findings, settled)
    assert table_of(blocks, walk) is None


def test_no_word_of_the_findings_is_broken(each_boat, draft_of, pages_of, walk, blocks_of):
    pages = pages_of(draft_of(each_boat, only=("findings",)), findings.section)
    printed = {word.text for page in pages for word in page.words}
    printed |= {half for word in printed for half in re.split("[-\x02]", word)}  # at the end of a line
    for row in table_of(blocks_of(findings, each_boat), walk).findings:
        for cell in (row.found, row.limit, row.margin, row.found_note):
            for word in filter(None, str(cell).split(" ")):
                parts = word.split("\u00a0")
                halves = word.split("-")
                assert set(parts) <= printed or set(halves) <= printed, word


def test_some_twenty_findings_fit_on_two_sheets(assessed, draft_of, pages_of):
    boat = assessed("cutter")
    assert sum(finding.is_open for finding in boat.findings) >= 20
    assert len(pages_of(draft_of(boat, only=("findings",)), findings.section)) == 2


def test_the_page_says_the_verdict_and_every_number(assessed, draft_of, pages_of):
    boat = assessed("barge")
    pages = pages_of(draft_of(boat, only=("findings",)), findings.section)
    text = " ".join(page.text for page in pages)
    assert "Not to be fired as found." in text
    printed = {word.text for page in pages for word in page.words}
    assert {str(number_of(f.check)) for f in boat.findings if f.is_open} <= printed
    for stray in ("None", "nan", "-0.0", "{{", "<b>"):
        assert stray not in text
