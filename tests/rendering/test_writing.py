"""Whatever goes wrong while a dossier is written: the older file stays whole, nothing half-made stays."""

import errno
import multiprocessing
import os
import signal
import subprocess
import sys
from pathlib import Path

import pypdf
import pytest

from dossier import assess, load
from dossier.cli import main
from dossier.notation import PageFault
from dossier.rendering import fonts
from dossier.rendering import render as module
from dossier.rendering.blocks import Heading, Paragraph
from dossier.rendering.render import render

BOAT = Path(__file__).parents[2] / "projects" / "puddle_wren" / "puddle_wren.yaml"
OLDER = b"%PDF an older dossier"


@pytest.fixture(autouse=True)
def _short(monkeypatch):
    monkeypatch.setattr(module, "blocks_of", lambda _draft: [Paragraph("One page.")])


@pytest.fixture(scope="module")
def assessment():
    return assess(load(BOAT))


def left(folder):
    return [path.name for path in folder.iterdir()]


def test_a_full_disk_leaves_the_older_dossier_as_it_was(assessment, tmp_path, monkeypatch):
    out = tmp_path / "wren.pdf"
    out.write_bytes(OLDER)

    def full(path, content):
        with path.open("wb") as file:
            file.write(content[:100])
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(PageFault, match="No space left on device"):
        render(assessment, out)
    assert out.read_bytes() == OLDER
    assert left(tmp_path) == ["wren.pdf"]


def test_a_page_that_cannot_be_set_leaves_the_older_dossier_as_it_was(assessment, tmp_path, monkeypatch):
    out = tmp_path / "wren.pdf"
    out.write_bytes(OLDER)
    twice = [Heading(1, "Flow", key="flow"), Heading(1, "Flow", key="flow")]
    monkeypatch.setattr(module, "blocks_of", lambda _draft: twice)
    with pytest.raises(PageFault, match="flow"):
        render(assessment, out)
    assert out.read_bytes() == OLDER
    assert left(tmp_path) == ["wren.pdf"]


@pytest.mark.parametrize(
    "obstacle", ["a file for a folder", "a folder for the file", "a folder that is none"]
)
def test_a_target_in_the_way_is_told_in_one_line(obstacle, tmp_path, capsys):
    out = tmp_path / "out"
    if obstacle == "a file for a folder":
        out.write_text("not a folder")
    elif obstacle == "a folder for the file":
        (out / "PW-0-A-full.pdf" / "kept").mkdir(parents=True)
    else:
        out = Path(os.devnull) / "out"
    assert main(["build", str(BOAT), "-o", str(out)]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert len(told.err.strip().splitlines()) == 1
    assert "Traceback" not in told.err
    assert not list(tmp_path.glob("**/.*"))


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="rights of folders bind no administrator")
def test_a_folder_that_may_not_be_written_to_is_named(tmp_path, capsys):
    tmp_path.chmod(0o555)
    try:
        assert main(["build", str(BOAT), "-o", str(tmp_path)]) == 2
    finally:
        tmp_path.chmod(0o755)
    assert str(tmp_path) in capsys.readouterr().err


def _killed(out):
    """A build that dies where the new file is ready and not yet in its place."""
    module.blocks_of = lambda _draft: [Paragraph("One page.")]
    Path.replace = lambda _part, _goal: os.kill(os.getpid(), signal.SIGKILL)
    render(assess(load(BOAT)), out)


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="no such signal here")
def test_a_build_killed_on_the_way_leaves_the_older_dossier_as_it_was(tmp_path):
    out = tmp_path / "wren.pdf"
    out.write_bytes(OLDER)
    process = multiprocessing.get_context("spawn").Process(target=_killed, args=(out,))
    process.start()
    process.join()
    assert process.exitcode == -signal.SIGKILL
    assert out.read_bytes() == OLDER


def test_two_builds_at_once_leave_one_whole_dossier(assessment, tmp_path):
    out = tmp_path / "wren.pdf"
    context = multiprocessing.get_context("fork")
    builds = [context.Process(target=render, args=(assessment, out)) for _ in range(3)]
    for build in builds:
        build.start()
    for build in builds:
        build.join()
    assert [build.exitcode for build in builds] == [0, 0, 0]
    assert len(pypdf.PdfReader(out).pages) == 1
    assert left(tmp_path) == ["wren.pdf"]


def test_a_font_that_is_missing_is_named(assessment, tmp_path, monkeypatch):
    monkeypatch.setattr(fonts, "FOLDER", tmp_path / "nowhere")
    monkeypatch.setattr(fonts.pdfmetrics, "getRegisteredFontNames", list)
    fonts.font.cache_clear()
    with pytest.raises(PageFault, match="font"):
        render(assessment, tmp_path / "wren.pdf")
    assert left(tmp_path) == []


@pytest.mark.parametrize("locale", ["xx_XX.nonsense", "C", "tr_TR.UTF-8"])
def test_a_broken_locale_changes_nothing(locale):
    told = subprocess.run(
        [sys.executable, "-m", "dossier", "check", str(BOAT)],
        env={**os.environ, "LC_ALL": locale, "LANG": locale, "PYTHONIOENCODING": "ascii"},
        capture_output=True,
        check=False,
    )
    assert told.returncode == 1
    assert b"Puddle Wren" in told.stdout
    assert told.stderr == b""
