"""The summary fits one screen, says what the assessment says, and cannot steer a terminal."""

import re
import subprocess
import sys
from dataclasses import replace

import pytest

from dossier.checking.finding import Status
from dossier.data.catalogue import Severity
from dossier.data.check_numbers import number_of
from dossier.rendering.summary import KEPT, MOST_FINDINGS, summary

ROW = re.compile(r"^ {0,2}(\d{1,3}) \S")


def rows(text):
    listed = text.split("\n\n")[1]
    return [int(found[1]) for line in listed.splitlines() if (found := ROW.match(line))]


def test_it_fits_one_screen(each_boat):
    for width in (60, 80, 120):
        lines = summary(each_boat, width).splitlines()
        assert len(lines) <= 40
        assert all(len(line) <= width for line in lines)


def test_the_worst_findings_stand_first(each_boat):
    open_ = [number_of(f.check) for f in each_boat.worst_first if f.is_open]
    shown = rows(summary(each_boat))
    assert len(shown) == min(len(open_), MOST_FINDINGS)
    assert shown == [number for number in open_ if number in shown]
    assert shown[: MOST_FINDINGS - KEPT] == open_[: MOST_FINDINGS - KEPT]
    left = len(open_) - MOST_FINDINGS
    assert (f"and {left} more of {len(open_)} findings" in summary(each_boat)) == (left > 0)


def test_what_is_not_met_is_not_crowded_out_by_what_nobody_looked_at(each_boat):
    missed = [number_of(f.check) for f in each_boat.worst_first if f.is_open and f.status is Status.NOT_MET]
    assert set(missed[:KEPT]) <= set(rows(summary(each_boat)))


def test_counts_are_those_of_the_assessment(each_boat):
    said = " ".join(summary(each_boat).split())
    for status in Status:
        assert f"{each_boat.counts[status]} {status}" in said
    dangers = [f for f in each_boat.findings if f.severity is Severity.DANGER]
    missed = sum(f.status is Status.NOT_MET for f in dangers)
    unknown = sum(f.status is Status.NOT_ASSESSED for f in dangers)
    counted = f"Of {len(dangers)} checks of grade danger {missed} not met, {unknown} not assessed."
    assert counted in said


def test_found_and_limit_of_a_finding_stand_in_its_line(assessed):
    line = next(line for line in summary(assessed("barge")).splitlines() if line.startswith("  7 "))
    assert line.split("  ")[-1].strip() == "165 mm, limit ≥ 250 mm"


def test_load_burner_and_margin_are_told(assessed):
    """The yacht's burner gives 11.0 kW by its plate; the margin is the difference of what is printed."""
    said = " ".join(summary(assessed("yacht")).split())
    found = re.search(r"Load ([\d.]+) kW at −22 °C outside. Burner 11.0 kW, in hand \+([\d.]+) kW", said)
    assert found
    assert float(found[2]) <= 11.0 - float(found[1]) + 1e-9


def test_status_and_why(assessed):
    said = " ".join(summary(assessed("barge")).split())
    assert "Status draft; wished was as built. Against for construction: checks 7, 9, 11," in said
    assert "Status as built, as wished." in summary(assessed("yacht"))


def test_what_dangers_wait_for_is_to_be_measured_first(assessed):
    said = " ".join(summary(assessed("ten numbers")).split())
    assert "Measure or enter next: exhaust.route (line " in said


def test_it_never_says_that_a_boat_is_safe(each_boat):
    assert not re.search(r"\b(OK|pass|passed|safe)\b", summary(each_boat))


def test_names_cannot_steer_the_terminal(project_of):
    boat = project_of('format: 1\ndocument: {number: "N-1", date: 2026-01-02}\nvessel: {name: Red}\n')
    name = "\x1b[31mRed\a\u202egnal " + "x" * 200
    vessel = boat.project.vessel.model_copy(update={"name": name})
    text = summary(replace(boat, project=boat.project.model_copy(update={"vessel": vessel})))
    assert all(c.isprintable() or c == "\n" for c in text)
    assert all(len(line) <= 80 for line in text.splitlines())


def test_an_almost_empty_file_has_a_summary(project_of):
    said = summary(project_of("format: 1\n"))
    assert "boat without a name, no document number, draft" in said
    assert "Load not assessed: needs" in said


@pytest.mark.parametrize("heavy", ["reportlab", "jinja2", "matplotlib", "pypdf"])
def test_it_loads_neither_templates_nor_paper(heavy):
    code = f"import sys, dossier.rendering.summary; sys.exit({heavy!r} in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
