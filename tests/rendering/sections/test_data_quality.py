"""Section 3 counts what the file states, and tells what to measure next and what nobody looked at."""

import re

from dossier.checking.finding import Status
from dossier.data.catalogue import Severity
from dossier.project.model import ProjectFile
from dossier.rendering.answers import missing_keys
from dossier.rendering.blocks import Paragraph, Table
from dossier.rendering.sections import data_quality
from dossier.rendering.sections.measure_next import MOST_MISSING, wanted


def table(blocks, walk, key):
    return next((b for b in walk(blocks) if isinstance(b, Table) and b.key == key), None)


def test_every_number_of_the_file_is_counted_once(each_boat, walk, blocks_of):
    inputs = table(blocks_of(data_quality, each_boat), walk, "table_inputs")
    rows = [[int(cell) for cell in row[1:]] for row in inputs.rows]
    together = [int(cell) for cell in inputs.totals[0][1:]]
    assert [sum(column) for column in zip(*rows, strict=True)] == together
    assert sum(together[:-1]) == len(list(each_boat.project.inputs()))
    waiting = {k for f in each_boat.findings if f.status is Status.NOT_ASSESSED for k in f.missing}
    assert together[-1] == len(waiting)


def test_what_a_danger_waits_for_comes_first(each_boat, draft_of):
    listed, more = wanted(draft_of(each_boat))
    kinds = [bool(each.findings) for each in listed]
    assert kinds == sorted(kinds, reverse=True)
    for each in listed:
        assert all(f.severity is Severity.DANGER and each.key in f.missing for f in each.findings)
    counts = [len(each.findings) for each in listed if each.findings]
    assert counts == sorted(counts, reverse=True)
    assert more == len(missing_keys(each_boat.worst_first)) - len(counts)


def test_no_key_of_a_danger_is_forgotten_while_there_is_room(assessed, draft_of):
    boat = assessed("barge")
    unknown = [f for f in boat.findings if f.status is Status.NOT_ASSESSED and f.severity is Severity.DANGER]
    dangers = {key for finding in unknown for key in finding.missing}
    listed, _ = wanted(draft_of(boat))
    named = {each.key for each in listed if each.findings}
    assert named <= dangers
    assert len(named) == min(len(dangers), MOST_MISSING)


def test_guesses_stand_with_what_they_move(assessed, walk, blocks_of):
    rows = table(blocks_of(data_quality, assessed("starter")), walk, "table_measure_next").rows
    guessed = [row for row in rows if str(row[2]) != "missing"]
    assert guessed
    assert all(" by " in str(row[4]) for row in guessed)


def test_inputs_are_named_in_words_and_their_keys_in_a_column_of_their_own(each_boat, walk, blocks_of):
    measure = table(blocks_of(data_quality, each_boat), walk, "table_measure_next")
    if measure is None:
        return
    heads = [str(column.label) for column in measure.columns]
    for row in measure.rows:
        said = dict(zip(heads, map(str, row), strict=True))
        assert not re.search(r"\w_\w|\w\.\w", said["Input"])
        assert each_boat.project.where(said["Key"]) is not None
        assert said["Key"].partition(".")[0] in ProjectFile.model_fields
    assert [column.small for column in measure.columns] == [head == "Key" for head in heads]


def test_a_file_silent_about_the_inspection_is_told_so(assessed, walk, blocks_of):
    said = " ".join(
        str(b.text) for b in walk(blocks_of(data_quality, assessed("cutter"))) if isinstance(b, Paragraph)
    )
    assert "The project file does not say what was left unexamined." in said
    assert "The project file states neither place nor date of measuring." in said


def test_what_was_not_examined_is_listed_with_the_reason(project_of, draft_of, walk, blocks_of):
    boat = project_of(
        "format: 1\n"
        "document: {number: X-1, date: 2026-01-02}\n"
        "inspection: {place: Quay, date: 2026-01-01, afloat: true, loading: half, present: [Owner],\n"
        "  not_examined: [{part: behind the lining, why: not opened}]}\n"
    )
    draft = draft_of(boat)
    rows = table(blocks_of(data_quality, draft.assessment), walk, "table_not_examined").rows
    assert [tuple(row) for row in rows] == [("behind the lining", "not opened")]
    said = " ".join(
        str(b.text) for b in walk(blocks_of(data_quality, draft.assessment)) if isinstance(b, Paragraph)
    )
    assert "Measured at Quay on 2026-01-01." in said
    assert "Loading when the waterline was taken: half." in said


def test_the_short_form_keeps_the_limits_of_the_document(assessed, walk, blocks_of):
    blocks = blocks_of(data_quality, assessed("cutter"), "aboard")
    assert table(blocks, walk, "table_inputs") is None
    assert any("no certificate" in str(item) for b in blocks for item in getattr(b, "items", ()))
