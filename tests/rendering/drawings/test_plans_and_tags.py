"""Valve matrix and tag sheets hold every row once, on as many sheets as it takes, whatever the names."""

import pytest

from dossier.rendering.drawings.pictograms import PICTOGRAMS, pictogram
from dossier.rendering.drawings.record import misfits, record
from dossier.rendering.drawings.shapes import BLACK, WHITE, Path, Text
from dossier.rendering.drawings.sheet import Form, Sheet, TitleBlock
from dossier.rendering.drawings.tag_sheet import Label, tag_sheets
from dossier.rendering.drawings.valve_matrix import Cell, Matrix, Row, valve_matrix
from dossier.rendering.sections.tag_sheets import PICTOGRAMS as OF_SIGNS

LONG = "starboard quarter berth and oilskin locker under the side deck"
WORDS = {
    "part": "Part",
    "name": "What it is",
    "open": "open",
    "shut": "shut",
    "set": "set",
    "by itself": "by itself",
}
WORDS |= {"not known": "preset not known", "runs": "runs", "off": "off"}


def form(paper):
    return Form(TitleBlock(title="Valve plan", boat="Marsh Heron"), paper)


def matrix(modes, parts):
    kinds = list(WORDS)[2:]
    rows = tuple(
        Row(
            f"V{n}",
            LONG,
            tuple(Cell(kinds[(n + k) % len(kinds)], f"Kv {n}.{k}, 2.3 turns") for k in range(modes)),
        )
        for n in range(parts)
    )
    return Matrix(tuple(f"{LONG} {k}" for k in range(modes)), rows)


@pytest.mark.parametrize(("modes", "parts"), [(1, 1), (4, 9), (9, 40)])
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_every_part_stands_in_every_mode_once(modes, parts, paper):
    sheets = valve_matrix(matrix(modes, parts), form(paper), WORDS)
    told = [text for sheet in sheets for text in record(sheet).texts]
    for n in range(parts):
        for k in range(modes):
            assert told.count(f"Kv {n}.{k}, 2.3 turns") == 1
    for sheet in sheets:
        assert misfits(sheet, Sheet(paper).frame.grown(8.0)) == ()


def test_a_shut_valve_is_told_by_mark_and_word():
    (sheet,) = valve_matrix(
        Matrix(("heating",), (Row("V1", "valve", (Cell("shut", "shut"),)),)), form("A4"), WORDS
    )
    seen = record(sheet)
    assert any(sign.name == "mark shut" for sign in seen.signs)
    assert "shut" in seen.texts


@pytest.mark.parametrize("paper", ["A4 portrait", "letter portrait"])
def test_every_part_has_one_tag_and_nothing_stands_on_a_cut(paper):
    labels = (
        *(Label(f"V{n}", LONG, f"{LONG}, {LONG}") for n in range(40)),
        Label(LONG, LONG, LONG),
        Label(LONG.upper(), LONG, LONG, is_sign=True),
        Label(
            "EMERGENCY STOP OF THE BURNER", "Wheelhouse console", "Stop, then shut the fuel.", is_sign=True
        ),
    )
    sheets = tag_sheets(labels, form(paper))
    told = [text for sheet in sheets for text in record(sheet).texts]
    assert all(told.count(f"V{n}") == 1 for n in range(40))
    assert "Stop, then shut the fuel." in told
    for sheet in sheets:
        assert misfits(sheet, Sheet(paper).frame.grown(8.0)) == ()


def test_a_sign_keeps_all_it_says_to_do_however_long_the_place():
    place, do = (
        "Starboard saloon with the long settee and the drop-leaf table",
        "If it sounds: everybody out.",
    )
    do += " Read the emergency card."
    for picture in ("", "carbon_monoxide"):
        label = Label("CARBON MONOXIDE ALARM", place, do, is_sign=True, pictogram=picture)
        (sheet,) = tag_sheets((label,), form("A4 portrait"))
        assert do in " ".join(record(sheet).texts)
        assert ("CO" in record(sheet).texts) == bool(picture)
        assert misfits(sheet, Sheet("A4 portrait").frame.grown(8.0)) == ()


@pytest.mark.parametrize("name", sorted(PICTOGRAMS))
def test_a_pictogram_stands_in_its_square_and_is_black_on_white(name):
    """Curves lie inside their control points, so these bound them."""
    size, (x, y) = 20.0, (30.0, 40.0)
    parts = [part for shape in pictogram(name, (x, y), size) for part in shape.parts()]
    outlines = [part for part in parts if isinstance(part, Path)]
    reached = [point for path in outlines for _, points in path.steps for point in points]
    assert min(across for across, _ in reached) >= x
    assert max(across for across, _ in reached) <= x + size
    assert min(up for _, up in reached) >= y
    assert max(up for _, up in reached) <= y + size
    inks = {ink for path in outlines for ink in (path.fill, path.pen.ink if path.pen else None) if ink}
    assert inks <= {BLACK, WHITE}
    for lettering in (part for part in parts if isinstance(part, Text)):
        assert x < lettering.box.left < lettering.box.right < x + size


def test_every_sign_with_a_pictogram_has_one_that_is_drawn():
    assert set(OF_SIGNS.values()) == set(PICTOGRAMS)
