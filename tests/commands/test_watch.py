"""`check --watch` checks again when a file comes to rest, never while it is half saved."""

import pytest

from dossier.cli import main
from dossier.project import watching
from dossier.project.watching import changes


class Saves:
    """Stands for the pauses: at each, the next thing happens to the files; then Ctrl-C."""

    def __init__(self, *happenings):
        self.happenings = list(happenings)

    def __call__(self, _seconds):
        if not self.happenings:
            raise KeyboardInterrupt
        happening = self.happenings.pop(0)
        if happening:
            happening()


def test_a_save_is_told_once_it_is_whole(tmp_path):
    file = tmp_path / "boat.yaml"
    file.write_text("a", encoding="utf-8")
    read = []

    def save(text):
        return lambda: file.write_text(text, encoding="utf-8")

    pauses = Saves(None, save("ab"), save("abc"), save("abcd"), None, None, save("x"), None)
    told = ((moved, file.read_text(encoding="utf-8")) for moved in changes(lambda: [file], pauses))
    with pytest.raises(KeyboardInterrupt):
        read.extend(told)
    assert read == [((file,), "abcd"), ((file,), "x")]


def test_files_that_come_and_go_are_told(tmp_path):
    first, second = tmp_path / "a", tmp_path / "b"
    first.write_text("a", encoding="utf-8")
    pauses = Saves(lambda: second.write_text("b", encoding="utf-8"), None, first.unlink, None)
    moved = []
    with pytest.raises(KeyboardInterrupt):
        moved.extend(changes(lambda: [first, second], pauses))
    assert moved == [(second,), (first,)]


def test_a_mended_file_is_checked_again(tmp_path, capsys, monkeypatch):
    file = tmp_path / "boat.yaml"
    table = tmp_path / "zones.csv"
    file.write_text("format: 2\n", encoding="utf-8")

    def mend():
        table.write_text("id;target [degC];volume [m3]\ncabin;18;16\n", encoding="utf-8")
        file.write_text("format: 1\nzones: {from: zones.csv}\n", encoding="utf-8")

    def warmer():
        table.write_text("id;target [degC];volume [m3]\ncabin;200;16\n", encoding="utf-8")

    monkeypatch.setattr(watching.time, "sleep", Saves(mend, None, warmer, None))
    monkeypatch.setattr(changes, "__defaults__", (watching.time.sleep,))
    assert main(["check", str(file), "--watch"]) == 2
    told = capsys.readouterr()
    assert "boat.yaml:1:9" in told.err
    assert f"{file} changed" in told.out
    assert f"{table} changed" in told.out
    assert "zones.csv:2" in told.err
    assert "\x1b" not in told.out
