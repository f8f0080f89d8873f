"""Marks, cells and panels on a copy of one bit at 100 dpi: told apart without colour and without grey."""

import re
from itertools import combinations

import pypdf
import pypdfium2
import pytest

from dossier.rendering.blocks import Column, Finding, FindingsTable, Note, Panel, SignalWord, Table
from dossier.rendering.text import severity_blocks, status_mark, text

MM = 72 / 25.4
DPI = 100
STATUSES = ("met", "not met", "not assessed", "not applicable", "accepted deviation")
SEVERITIES = ("danger", "fault", "attention")


def copied(path, page=0):
    """A page as a copier sees it: True is ink."""
    document = pypdfium2.PdfDocument(str(path))
    grey = document[page].render(scale=DPI / 72, grayscale=True).to_numpy()
    document.close()
    return grey.reshape(grey.shape[:2]) < 128


def cut(bits, left, bottom, right, top):
    """Part of a copy, sides in points from the lower left."""
    scale, high = DPI / 72, bits.shape[0]
    return bits[int(high - top * scale) : int(high - bottom * scale), int(left * scale) : int(right * scale)]


def shares(bits):
    """Ink in a grid of parts, so that two pictures may be compared without their last dot."""
    rows, columns = 6, 12
    high, wide = bits.shape[0] // rows, bits.shape[1] // columns
    return [
        bits[r * high : (r + 1) * high, c * wide : (c + 1) * wide].mean()
        for r in range(rows)
        for c in range(columns)
    ]


def apart(one, other):
    return max(abs(a - b) for a, b in zip(shares(one), shares(other), strict=True))


def cell(written, read, severity, status):
    """A copy of one result cell, found by the words of its row."""
    path = written(FindingsTable([Finding("77", severity, status, "Title", "b", "f", "l", "m", "a")]))
    (page,) = read(path)
    number = next(word for word in page.words if word.text == "77")
    left = number.left + 6.4 * MM
    return cut(copied(path), left, number.bottom - 8 * MM, left + 25 * MM, number.top + 1 * MM)


def test_every_result_looks_different_on_a_copy(written, read):
    pictures = {s: cell(written, read, "danger", s) for s in STATUSES}
    for one, other in combinations(STATUSES, 2):
        assert apart(pictures[one], pictures[other]) > 0.2, (one, other)


def test_a_danger_not_met_is_the_blackest_cell(written, read):
    ink = {(g, s): cell(written, read, g, s).mean() for g in SEVERITIES for s in STATUSES}
    assert max(ink, key=ink.get) == ("danger", "not met")
    assert sorted(ink.values())[-2] < 0.6 * ink["danger", "not met"]


def test_grades_differ_by_their_blocks_alone(written):
    bits = copied(written(Table((Column("Grade"),), [(severity_blocks(s),) for s in SEVERITIES], "t")))
    strip = bits[:, int(20 * MM * DPI / 72) : int(26 * MM * DPI / 72)]
    rows = [row for row in strip if row.any() and not row.all()]
    full = [sum(row) for row in rows]
    assert len(set(full)) >= 3


@pytest.mark.parametrize("status", STATUSES)
def test_each_mark_leaves_ink_and_paper(written, status):
    bits = copied(written(Note(text(status_mark(status)))))
    inner = bits[
        int(16 * MM * DPI / 72) : int(30 * MM * DPI / 72), int(19 * MM * DPI / 72) : int(24 * MM * DPI / 72)
    ]
    assert 8 < inner.sum() < 0.5 * inner.size


@pytest.mark.parametrize("word", SignalWord)
def test_the_signal_word_survives_the_copy(written, read, word):
    path = written(Panel(word, "Hazard.", "What happens.", "How to avoid it."))
    (page,) = read(path)
    said = next(w for w in page.words if w.text == word.value.upper())
    picture = cut(copied(path), said.left, said.bottom, said.right, said.top)
    assert 0.15 < picture.mean() < 0.85
    assert picture.any(axis=1).all() or (~picture).any(axis=1).all()


def test_a_panel_keeps_its_black_border_on_the_copy(written):
    path = written(Panel(SignalWord.CAUTION, "Hazard.", "What happens.", "How to avoid it."))
    bits = copied(path)
    columns = bits[:, int(20 * MM * DPI / 72) : int(20.8 * MM * DPI / 72)]
    assert columns.any(axis=1).sum() > 12 * MM * DPI / 72


def test_no_letter_is_grey(a4_pdf):
    for page in pypdf.PdfReader(a4_pdf).pages:
        code = page.get_contents().get_data().decode("latin-1")
        for stretch in re.findall(r"q ([\d.]+) ([\d.]+) ([\d.]+) rg(.*?)\nQ", code, re.DOTALL):
            shades = {float(share) for share in stretch[:3]}
            if " Tj" in stretch[3] and len(shades) == 1:
                assert shades in ({0.0}, {1.0})
