"""The same document gives the same bytes, whatever machine, place and time."""

import os
import re
import subprocess
import sys
import zlib
from dataclasses import replace
from pathlib import Path

import pytest

from dossier.rendering.blocks import Paragraph
from dossier.rendering.pages import render_pdf

SAMPLE = Path(__file__).parent / "sample_document.py"


def build(out, folder, **environment):
    env = {**os.environ, **environment}
    subprocess.run(
        [sys.executable, str(SAMPLE), "A4", str(out)], check=True, env=env, cwd=folder, umask=0o077
    )
    return out.read_bytes()


@pytest.fixture(scope="module")
def first(tmp_path_factory):
    folder = tmp_path_factory.mktemp("first")
    return build(folder / "a.pdf", folder, PYTHONHASHSEED="1", TZ="Pacific/Kiritimati", LC_ALL="C")


def test_two_processes_in_different_worlds_write_the_same_bytes(first, tmp_path):
    (tmp_path / "elsewhere").mkdir()
    second = build(
        tmp_path / "b.pdf",
        tmp_path / "elsewhere",
        PYTHONHASHSEED="77",
        TZ="America/Adak",
        LC_ALL="C.UTF-8",
        SOURCE_DATE_EPOCH="86400",
        MPLCONFIGDIR=str(tmp_path / "elsewhere"),
    )
    assert first == second


def test_ones_own_settings_of_the_plotting_library_change_nothing(first, tmp_path):
    (tmp_path / "matplotlibrc").write_text("lines.linewidth: 9\nfont.size: 30\naxes.grid: True\n")
    styled = build(tmp_path / "b.pdf", SAMPLE.parent, MATPLOTLIBRC=str(tmp_path / "matplotlibrc"))
    assert first == styled


def test_building_twice_in_one_process_gives_the_same_bytes(sample, tmp_path):
    files = [tmp_path / "a.pdf", tmp_path / "b.pdf"]
    for file in files:
        render_pdf(sample.document(), sample.IMPRINT, file)
    assert files[0].read_bytes() == files[1].read_bytes()


def test_the_environment_is_left_as_it_was(imprint, tmp_path):
    before = dict(os.environ)
    render_pdf([Paragraph("x")], imprint, tmp_path / "x.pdf")
    assert dict(os.environ) == before


def test_another_word_or_another_date_is_another_file(imprint, tmp_path):
    def written(words, **changes):
        render_pdf([Paragraph(words)], replace(imprint, **changes), tmp_path / "x.pdf")
        return (tmp_path / "x.pdf").read_bytes()

    identity = re.compile(rb"/ID\[<([0-9a-f]+)>")
    first, second, third = written("one"), written("two"), written("one", date="2026-11-21")
    assert len({first, second, third}) == 3
    assert len({identity.search(content)[1] for content in (first, second, third)}) == 3


def test_no_path_user_or_clock_is_in_the_file(a4_pdf):
    content = a4_pdf.read_bytes()
    unpacked = content + b"".join(
        zlib.decompress(part) for part in re.findall(rb"stream\n(x.+?)\nendstream", content, re.DOTALL)
    )
    for word in (
        str(Path.home()),
        str(Path.cwd()),
        str(a4_pdf.parent),
        os.environ.get("USER") or "nobody here",
    ):
        assert word == "/" or word.encode() not in unpacked
    years = set(re.findall(rb"D:(\d{4})", unpacked))
    assert years == {b"2026"}
