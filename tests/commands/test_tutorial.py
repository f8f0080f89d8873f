"""docs/tutorial.md works as printed, from an empty folder: commands, changes of the file, what is printed."""

import contextlib
import io
import re
import shlex
import shutil
import time
from pathlib import Path

import pytest

from dossier.cli import main

TUTORIAL = (Path(__file__).parents[2] / "docs" / "tutorial.md").read_text(encoding="utf-8")
BLOCK = re.compile(r"^```(\w+)(?: (\S+))?\n(.*?)^```$", re.MULTILINE | re.DOTALL)
A_FIRST_PDF = 120.0
"""Seconds to the first own PDF, on a slow machine."""


def executed(line):
    """One line of a shell as people type it: a command of ours, or a copy."""
    words = shlex.split(line)
    if words[0] == "cp":
        shutil.copy(*words[1:])
        return ""
    assert words[0] == "dossier"
    printed = io.StringIO()
    with contextlib.ExitStack() as stack, pytest.MonkeyPatch.context() as patch:
        if "<" in words:
            at = words.index("<")
            patch.setattr("sys.stdin", stack.enter_context(Path(words[at + 1]).open(encoding="utf-8")))
            words = words[:at]
        stack.enter_context(contextlib.redirect_stdout(printed))
        assert main(words[1:]) in {0, 1}, line
    return printed.getvalue()


def changed(name, lines):
    """Exchange lines of a file: each ``-`` with the ``+`` behind it."""
    text = Path(name).read_text(encoding="utf-8")
    olds = [line[1:] for line in lines if line.startswith("-")]
    news = [line[1:] for line in lines if line.startswith("+")]
    for old, new in zip(olds, news, strict=True):
        assert text.count(f"{old}\n") == 1, old
        text = text.replace(old, new)
    Path(name).write_text(text, encoding="utf-8")


def seen(printed, lines):
    """Lines of the tutorial in what was printed, in order; three dots leave out lines or parts of one."""
    wanted = "".join(".*?" if line == "..." else _pattern(line) for line in lines)
    return re.search(rf"\A{wanted}", printed, re.DOTALL)


def _pattern(line):
    return r"[^\n]*?".join(map(re.escape, line.split("..."))) + r"[^\n]*\n"


def test_every_step_works_as_printed(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    began, printed, first = time.monotonic(), "", None
    for kind, name, body in BLOCK.findall(TUTORIAL):
        if kind == "sh":
            printed = "".join(executed(line) for line in body.splitlines())
        elif kind == "diff":
            changed(name, body.splitlines())
        elif name:
            Path(name).write_text(body, encoding="utf-8")
        else:
            assert seen(printed, body.splitlines()), f"{body}\n--- printed ---\n{printed}"
        if first is None and list(tmp_path.rglob("*-proof.pdf")):
            first = time.monotonic() - began
    assert first is not None
    assert first < A_FIRST_PDF


def test_commands_that_are_only_named_exist():
    from dossier.cli.parser import COMMANDS

    known = {command.__name__.rpartition(".")[2] for command in COMMANDS}
    assert set(re.findall(r"`dossier (\w+)", TUTORIAL)) <= known
