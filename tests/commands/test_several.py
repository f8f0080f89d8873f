"""Several files in one go: names that tell number, revision and edition; nothing written over another."""

import re

import pytest

from dossier.rendering import render as module
from dossier.rendering.blocks import Paragraph
from dossier.rendering.many import Order, build_all

BOAT = "format: 1\ndocument: {{number: {number}, revision: {revision}, date: 2026-11-22}}\n"


@pytest.fixture(autouse=True)
def _short(monkeypatch):
    monkeypatch.setattr(module, "blocks_of", lambda _draft: [Paragraph("One page.")])


@pytest.fixture
def boat(tmp_path):
    def write(name, number="LA-1", revision="A"):
        file = tmp_path / name
        file.write_text(BOAT.format(number=number, revision=revision), encoding="utf-8")
        return file

    return write


def test_names_carry_number_revision_and_edition(run, boat, tmp_path):
    files = [boat("a.yaml"), boat("b.yaml", revision="B"), boat("c.yaml", number='"Ü 7/1: x"')]
    done = run("build", *files, "-o", tmp_path / "out", "--edition", "survey")
    assert done.status == 0
    assert [line.rpartition("/")[2] for line in done.out.splitlines()] == [
        "LA-1-A-survey.pdf",
        "LA-1-B-survey.pdf",
        "Ü_7_1__x-A-survey.pdf",
    ]


def test_a_dossier_is_not_written_over_another_of_the_same_call(run, boat, tmp_path):
    done = run("build", boat("a.yaml"), boat("b.yaml"), "-o", tmp_path / "out")
    assert done.status == 2
    assert re.search(r"b\.yaml: its dossier and that of .*a\.yaml would both be", done.err)
    assert len(list((tmp_path / "out").iterdir())) == 1


def test_one_bad_file_does_not_stop_the_others(run, boat, tmp_path):
    bad = tmp_path / "bad.yaml"
    bad.write_text("format: 2\n", encoding="utf-8")
    done = run("build", bad, boat("good.yaml"), "-o", tmp_path / "out")
    assert done.status == 2
    assert "bad.yaml:1:" in done.err
    assert done.out.strip().endswith("LA-1-A-full.pdf")


def test_jobs_build_the_same_bytes_in_the_order_of_the_files(boat, tmp_path, monkeypatch):
    monkeypatch.undo()  # the processes draw the true pages
    names = [str(tmp_path / "nowhere.yaml"), str(boat("a.yaml")), str(boat("b.yaml", revision="B"))]
    (alone,) = build_all(names[1:2], Order(tmp_path / "one", "proof"))
    together = list(build_all(names, Order(tmp_path / "two", "proof"), jobs=2))
    assert [built.name for built in together] == names
    assert "no such file" in together[0].fault
    assert [built.path.name for built in together[1:]] == ["LA-1-A-proof.pdf", "LA-1-B-proof.pdf"]
    assert alone.path.read_bytes() == together[1].path.read_bytes()


@pytest.mark.parametrize("count", ["0", "-1", "two"])
def test_jobs_are_counted(run, boat, count, capsys):
    with pytest.raises(SystemExit) as stopped:
        run("build", boat("a.yaml"), f"--jobs={count}")
    assert stopped.value.code == 2
    assert "whole number" in capsys.readouterr().err
