"""Whatever is wrong with a file is told with its line and column, status 2, no traceback, nothing written."""

import re
from pathlib import Path

import pytest

from dossier.cli import main

DEMO = (Path(__file__).parents[2] / "projects" / "lantern_auk" / "lantern_auk.yaml").read_text(
    encoding="utf-8"
)
MONTHS = Path(__file__).parents[2] / "projects" / "lantern_auk" / "months.csv"


def broken(old, new):
    assert old in DEMO
    return DEMO.replace(old, new, 1)


WRONG = {
    "a misspelt key": (broken("air_changes: 2.0 1/h", "air_chnges: 2.0 1/h"), "air_changes"),
    "a bare number": (broken("volume: 12.5 m3", "volume: 12.5"), "m3"),
    "a wrong unit": (broken("volume: 12.5 m3", "volume: 12.5 kW"), "volume"),
    "an unknown zone": (broken("zone: wheelhouse, air_from", "zone: whelhouse, air_from"), "wheelhouse"),
    "a circuit that does not close": (broken("between: [M1, M2]", "between: [M1, M9]"), "M9"),
    "a circuit without a pump": (broken("    - unit: P1\n", ""), "P1"),
    "a doubled key": (broken("    volume: 12.5 m3", "    volume: 12.5 m3\n    volume: 13 m3"), "volume"),
    "a decimal comma": (broken("volume: 12.5 m3", "volume: 12,5 m3"), "12.5 m3"),
    "an empty file": ("", "empty"),
}


@pytest.mark.parametrize("command", ["check", "build"])
@pytest.mark.parametrize("what", WRONG)
def test_a_fault_is_told_with_its_place(what, command, tmp_path, capsys):
    text, hint = WRONG[what]
    file = tmp_path / "boat.yaml"
    file.write_text(text, encoding="utf-8")
    (tmp_path / "months.csv").write_bytes(MONTHS.read_bytes())
    out = tmp_path / "out"
    more = ["-o", str(out)] if command == "build" else []
    assert main([command, str(file), *more]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "Traceback" not in told.err
    assert hint in told.err
    if text:
        assert re.search(r"boat\.yaml:\d+:\d+: ", told.err)
    assert not list(out.glob("*")) if out.exists() else True


@pytest.mark.parametrize(
    "content", [b"\x00\x01\x02\xff\xfe", b"\x89PNG\r\n\x1a\n" + bytes(range(256)), b"\xff" * 400]
)
def test_a_binary_file_is_refused_by_name(content, tmp_path, capsys):
    file = tmp_path / "boat.yaml"
    file.write_bytes(content)
    assert main(["check", str(file)]) == 2
    told = capsys.readouterr().err
    assert told.startswith("boat.yaml")
    assert "Traceback" not in told


def test_a_file_that_is_not_there_is_named(tmp_path, capsys):
    assert main(["check", str(tmp_path / "nowhere.yaml")]) == 2
    assert "nowhere.yaml" in capsys.readouterr().err


def test_one_bad_file_does_not_stop_the_others(tmp_path, capsys):
    bad, good = tmp_path / "bad.yaml", tmp_path / "good.yaml"
    bad.write_text("format: 2\n", encoding="utf-8")
    good.write_text("format: 1\ndocument: {date: 2026-11-22}\n", encoding="utf-8")
    assert main(["check", str(bad), str(good)]) == 2
    told = capsys.readouterr()
    assert "bad.yaml:1:" in told.err
    assert told.out
