"""`compare` tells people what changed between two revisions, from files or from dossiers."""

import re

import pytest

from dossier.rendering import render as module
from dossier.rendering.blocks import Paragraph


@pytest.fixture
def later(smallest, tmp_path):
    text = smallest.read_text(encoding="utf-8")
    file = tmp_path / "later.yaml"
    file.write_text(
        text.replace("revision: A", "revision: B").replace("area: 26 m2", "area: 30 m2"), encoding="utf-8"
    )
    return file


def test_changes_are_told_and_explained(run, smallest, later):
    done = run("compare", smallest, later)
    assert done.status == 0
    assert re.search(r"^  zones\.cabin\.sections\.Shell\.area +26 m2 +→ +30 m2$", done.out, re.MULTILINE)
    assert re.search(r"^Why heat_loss\.total moved from 1,588 W", done.out, re.MULTILINE)
    assert re.search(r"^  zones\.cabin\.sections\.Shell\.area +\+172\.8 W$", done.out, re.MULTILINE)
    assert re.search(r"^  all together, beyond each alone \(residual\)", done.out, re.MULTILINE)


def test_a_result_can_be_asked_for_and_a_slip_is_answered(run, smallest, later):
    assert "Why fuel.per_day moved" in run("compare", smallest, later, "--why", "fuel.per_day").out
    slip = run("compare", smallest, later, "--why", "fuel.perday")
    assert (slip.status, slip.out) == (2, "")
    assert "fuel.per_day" in slip.err
    assert "did not move" in run("compare", smallest, later, "--why", "exhaust.length").err


def test_a_dossier_is_compared_by_what_it_carries(run, smallest, later, tmp_path, monkeypatch):
    monkeypatch.setattr(module, "blocks_of", lambda _draft: [Paragraph("One page.")])
    pdf = run("build", smallest, "-o", tmp_path / "out").out.strip()
    done = run("compare", pdf, later)
    assert "revision A" in done.out
    assert "revision B" in done.out
    assert "26 m2" in done.out
    assert done.err == ""


def test_the_same_is_the_same(run, smallest):
    done = run("compare", smallest, smallest)
    assert done.status == 0
    assert "Nothing differs" in done.out


def test_a_file_that_cannot_be_read_is_a_fault(run, smallest, tmp_path):
    done = run("compare", smallest, tmp_path / "nowhere.yaml")
    assert (done.status, done.out) == (2, "")
    assert "nowhere.yaml" in done.err
