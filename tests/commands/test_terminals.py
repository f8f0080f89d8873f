"""Terminals, pipes, shells, files as they come from other systems: nothing is lost, nothing breaks."""

import argparse
import io
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import dossier
from dossier.cli import main
from dossier.cli.parser import COMMANDS, parser
from dossier.cli.streams import prepare, spelled

ROOT = Path(__file__).parents[2]
NAMES = [command.__name__.rpartition(".")[2] for command in COMMANDS]


def helped(name, capsys):
    with pytest.raises(SystemExit) as stopped:
        main([name, "--help"])
    assert stopped.value.code == 0
    return capsys.readouterr().out


@pytest.mark.parametrize("name", NAMES)
def test_help_says_what_how_and_with_what_status(name, capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    told = helped(name, capsys)
    assert told.startswith(f"usage: dossier {name}")
    assert "examples:\n" in told
    assert re.search(r"exit status: 0 ", told)
    assert all(len(line) <= 80 for line in told.splitlines()), max(told.splitlines(), key=len)


@pytest.mark.parametrize("name", NAMES)
def test_every_example_in_a_help_is_one_the_program_takes(name, capsys):
    lines = [line.strip() for line in helped(name, capsys).splitlines()]
    examples = [line for line in lines if line.startswith(f"dossier {name}")]
    assert examples
    for line in examples:
        words = re.split(r"\s{2,}|[<>]", line)[0].replace("*.yaml", "a.yaml").replace('"', "").split()[1:]
        if "--mode" in words:  # its words stand in quotation marks
            words[words.index("--mode") + 1 :] = ["heating"]
        assert parser().parse_args(words).command == name, line


def test_bare_command_and_version(run, capsys):
    done = run()
    assert done.status == 0
    assert all(f"dossier {name}" in done.out for name in ("new", "check", "build"))
    with pytest.raises(SystemExit):
        main(["--version"])
    assert capsys.readouterr().out == f"dossier {dossier.__version__}\n"


def test_a_misspelt_command_or_option_is_a_fault_of_two_lines(capsys):
    for words in (["chek", "boat.yaml"], ["check", "boat.yaml", "--jsn"], ["explain", "boat.yaml"]):
        with pytest.raises(SystemExit) as stopped:
            main(words)
        assert stopped.value.code == 2
        assert "Traceback" not in capsys.readouterr().err


def test_options_are_written_out_for_scripts_never_guessed_from_their_first_letters(capsys):
    with pytest.raises(SystemExit):
        main(["check", "boat.yaml", "--js"])
    assert "--js" in capsys.readouterr().err


def test_a_terminal_without_the_signs_gets_them_spelled_out(smallest, monkeypatch):
    written = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    monkeypatch.setattr("sys.stdout", written)
    assert main(["explain", str(smallest), "heat_loss.total"]) == 0
    written.flush()
    told = written.buffer.getvalue().decode("ascii")
    assert "-6 deg C" in told
    assert "theta_e" in told
    assert "?" not in told


def test_a_minus_is_never_lost_whatever_the_encoding():
    for encoding in ("ascii", "latin-1", "cp1252", "cp437", "koi8-r", "shift-jis"):
        stream = io.TextIOWrapper(io.BytesIO(), encoding=encoding)
        prepare(stream)
        stream.write("−10 °C Gös 中")
        stream.flush()
        shown = stream.buffer.getvalue().decode(encoding)
        assert shown[:3] in {"-10", "−10"}, encoding
        assert "10" in shown
        assert "G" in shown
    assert spelled("中") == "?"


def test_nothing_is_coloured_anywhere(smallest, monkeypatch, capsys):
    class Terminal(io.StringIO):
        def isatty(self):
            return True

    for colour in ({"NO_COLOR": "1"}, {"FORCE_COLOR": "1", "CLICOLOR_FORCE": "1"}):
        for name in ("NO_COLOR", "FORCE_COLOR", "CLICOLOR_FORCE"):
            monkeypatch.delenv(name, raising=False)
        for name, held in colour.items():
            monkeypatch.setenv(name, held)
        terminal = Terminal()
        with monkeypatch.context() as patch:
            patch.setattr("sys.stdout", terminal)
            main(["check", str(smallest)])
        assert "\x1b" not in terminal.getvalue()
    capsys.readouterr()


def test_a_reader_that_has_had_enough_ends_the_command_in_peace():
    command = f'"{sys.executable}" -m dossier schema | head -n 1'
    done = subprocess.run(command, shell=True, capture_output=True, text=True, cwd=ROOT, check=False)  # noqa: S602 - a pipe as people write it
    assert done.stdout == "{\n"
    assert done.stderr == ""


@pytest.mark.parametrize(
    ("newline", "mark"), [("\r\n", ""), ("\n", "\ufeff"), ("\r\n", "\ufeff"), ("\r", "")], ids=repr
)
def test_files_from_other_systems_are_read_as_they_are(run, smallest, tmp_path, newline, mark):
    folder = tmp_path / "Böt mit Leerzeichen 中"
    folder.mkdir()
    file = folder / "Schöner Kahn.yaml"
    file.write_bytes((mark + smallest.read_text(encoding="utf-8").replace("\n", newline)).encode("utf-8"))
    done = run("check", file)
    assert (done.status, done.err) == (1, "")
    assert done.out == run("check", smallest).out


def test_a_file_named_from_its_own_folder_is_the_same(run, smallest, monkeypatch):
    whole = run("check", smallest).out
    monkeypatch.chdir(smallest.parent)
    assert run("check", smallest.name).out == whole
    assert run("check", f"./{smallest.name}").out == whole


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no bash here")
def test_bash_completes_commands_options_words_and_names(run, smallest, tmp_path):
    program = tmp_path / "dossier"
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m dossier "$@"\n', encoding="utf-8")
    program.chmod(0o755)
    paths = {"PATH": f"{tmp_path}:{os.environ['PATH']}", "PYTHONPATH": str(ROOT)}
    script = tmp_path / "completion"
    script.write_text(run("completion", "bash").out, encoding="utf-8")
    for words, found in (
        ("dossier bui", "build"),
        ("dossier build boat.yaml --edi", "--edition"),
        ("dossier build boat.yaml --edition sur", "survey"),
        ("dossier completion f", "fish"),
        ("dossier new boat --from lan", "lantern_auk"),
        ("dossier draw boat.yaml sche", "schematic"),
        (f'dossier explain "{smallest}" heat_loss.tot', "heat_loss.total"),
        (f'dossier explain "{smallest}" exhaust.len', "exhaust.length"),
    ):
        place = "COMP_CWORD=$((${#COMP_WORDS[@]}-1))"
        line = f'. "{script}"; COMP_WORDS=({words}); {place}; _dossier; echo "$COMPREPLY"'
        done = subprocess.run(
            ["bash", "-c", line],  # noqa: S607 - found on the path
            capture_output=True,
            text=True,
            check=False,
            env={**os.environ, **paths},
        )
        assert done.stdout.strip() == found, done.stderr


def test_other_shells_know_every_command_and_option(run):
    fish, zsh = run("completion", "fish").out, run("completion", "zsh").out
    assert "bashcompinit" in zsh
    groups = [a for a in parser()._actions if isinstance(a, argparse._SubParsersAction)]
    for name, command in groups[0].choices.items():
        assert f"-a {name} " in fish
        for action in command._actions:
            for flag in action.option_strings:
                assert not flag.startswith("--") or f"-l {flag[2:]}" in fish


def test_a_closed_output_is_no_traceback(smallest):
    done = subprocess.run(
        [sys.executable, "-m", "dossier", "check", str(smallest)],
        stdout=os.open(os.devnull, os.O_RDONLY), stderr=subprocess.PIPE, text=True, cwd=ROOT, check=False,
    )  # fmt: skip
    assert "Traceback" not in done.stderr
