"""From nothing to a first own dossier: `new`, with and without questions."""

import io

import pypdf
import pytest

from dossier.rendering import render as module
from dossier.rendering.blocks import FormBox, FormRow

ANSWERS = """Marsh Heron
ex-pilot cutter
steel
13.6 m
thick
double
wheelhouse 2.2 m x 2.4 m x 1.9 m
saloon 4.4 m x 3.2 m x 1.95 m

cold
9 kW
24 V, 400 Ah
400 l
"""


@pytest.fixture(autouse=True)
def _short(monkeypatch):
    row = FormRow([FormBox("date", field="inspection.date")])
    monkeypatch.setattr(module, "blocks_of", lambda _draft: [row])


def test_ten_answers_from_a_pipe_give_a_file_that_checks_and_sheets_to_fill_in(run, tmp_path, monkeypatch):
    monkeypatch.setattr("sys.stdin", io.StringIO(ANSWERS))
    folder = tmp_path / "my boät"
    done = run("new", folder, "--ask")
    assert done.status == 0
    assert done.out.count("?") >= 10
    checked = run("check", folder / "boat.yaml")
    assert (checked.status, checked.err) == (1, "")
    assert "Marsh Heron" in checked.out
    assert "Burner 9.0 kW" in checked.out
    (sheets,) = folder.glob("*.pdf")
    assert pypdf.PdfReader(sheets).get_fields()


def test_no_answers_at_all_give_a_file_of_guesses(run, tmp_path, monkeypatch):
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    assert run("new", tmp_path / "boat", "--ask").status == 0
    assert run("check", tmp_path / "boat" / "boat.yaml").status in {0, 1}


def test_a_bad_answer_in_a_pipe_writes_nothing(run, tmp_path, monkeypatch):
    monkeypatch.setattr("sys.stdin", io.StringIO(ANSWERS.replace("13.6 m", "13,6 m")))
    done = run("new", tmp_path / "boat", "--ask")
    assert done.status == 2
    assert "13.6" in done.err
    assert not (tmp_path / "boat").exists()


def test_a_bad_answer_on_a_terminal_is_asked_again(run, tmp_path, monkeypatch):
    class Terminal(io.StringIO):
        def isatty(self):
            return True

    monkeypatch.setattr("sys.stdin", Terminal(ANSWERS.replace("13.6 m", "13,6 m\n13.6 m")))
    done = run("new", tmp_path / "boat", "--ask")
    assert done.status == 0
    assert done.out.count("How long is she") == 2
    assert "length: 13.6 m" in (tmp_path / "boat" / "boat.yaml").read_text(encoding="utf-8")


def test_nothing_is_overwritten(run, tmp_path):
    assert run("new", tmp_path).status == 0
    before = (tmp_path / "boat.yaml").read_bytes()
    for more in ([], ["--ask"]):
        done = run("new", tmp_path, *more)
        assert done.status == 2
        assert "stands there already" in done.err
    assert (tmp_path / "boat.yaml").read_bytes() == before


def test_the_starter_and_every_demo_can_be_written_and_checked(run, tmp_path):
    assert run("new", tmp_path / "one").status == 0
    assert run("check", tmp_path / "one" / "boat.yaml").status in {0, 1}
    done = run("new", tmp_path / "two", "--from", "puddle_wren")
    assert (tmp_path / "two" / "puddle_wren.yaml").is_file()
    assert done.status == 0
    slip = run("new", tmp_path / "three", "--from", "puddle_ren")
    assert slip.status == 2
    assert "puddle_wren" in slip.err
