"""`upgrade` brings an older file to the newest format and touches nothing else."""

import io

import pytest

HEAD = "# My boat, kept by hand.\n\n"
REST = "vessel: {name: Marsh Heron,   length: 12 m}   # two blanks, kept\nfuel: {tank: 120 l}"


@pytest.fixture
def older(tmp_path):
    def write(text):
        file = tmp_path / "boat.yaml"
        file.write_bytes(text.encode("utf-8"))
        return file

    return write


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_a_file_without_a_format_gets_one_and_keeps_the_rest(run, older, newline):
    text = (HEAD + REST).replace("\n", newline)
    file = older(text)
    done = run("upgrade", file, "--yes")
    assert done.status == 0
    assert "0 to 1" in done.out
    assert file.read_bytes().decode() == text.replace("vessel:", f"format: 1{newline}vessel:")
    assert run("check", file).status in {0, 1}


def test_the_newest_format_is_left_alone(run, older):
    file = older("format: 1\n" + REST)
    assert "newest format" in run("upgrade", file).out


def test_nothing_is_written_unless_agreed(run, older, monkeypatch):
    file = older(HEAD + REST)
    monkeypatch.setattr("sys.stdin", io.StringIO("no\n"))
    assert run("upgrade", file).status == 0
    assert file.read_text(encoding="utf-8") == HEAD + REST


@pytest.mark.parametrize(
    ("text", "why"), [("format: 7\n", "format 7"), ("- a\n", "mapping"), ("a: [\n", "boat.yaml:"), ("", "")]
)
def test_what_cannot_be_upgraded_is_told(run, older, text, why):
    done = run("upgrade", older(text), "--yes")
    assert done.status == 2
    assert why in done.err
