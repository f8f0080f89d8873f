"""`take`: sheets are filled in on screen and entered; every change is shown before it is written."""

import io

import pypdf
import pytest
from pypdf.generic import NameObject, TextStringObject

from dossier.rendering import render as module
from dossier.rendering.blocks import Blank, Column, FormBox, FormRow, Paragraph, Table, Tick


def fill(pdf, out, texts, ticks=()):
    """Fill fields as a viewer does, with a library of its own."""
    writer = pypdf.PdfWriter(clone_from=pypdf.PdfReader(pdf))
    found = set()
    for page in writer.pages:
        for reference in page.get("/Annots", ()):
            field = reference.get_object()
            name = _name(field)
            found.add(name)
            if name in texts:
                field[NameObject("/V")] = TextStringObject(texts[name])
            if name in ticks:
                field[NameObject("/V")] = field[NameObject("/AS")] = NameObject("/Yes")
    assert {*texts, *ticks} <= found, {*texts, *ticks} - found
    writer.write(out)
    return out


def _name(field):
    parts = []
    while field is not None:
        parts += [str(field["/T"])] if "/T" in field else []
        field = field["/Parent"].get_object() if "/Parent" in field else None
    return ".".join(reversed(parts))


@pytest.fixture
def boat(smallest, tmp_path):
    file = tmp_path / "boat with ümlaut.yaml"
    file.write_bytes(smallest.read_bytes())
    return file


@pytest.fixture
def sheets(boat, run, tmp_path, monkeypatch):
    """A sheet of a few boxes, as all sheets are made of."""
    cells = [
        Blank("mm", "exhaust.bore.is"),
        Tick("exhaust.bore.basis.plate"),
        Tick("exhaust.bore.basis.drawing"),
    ]
    blocks = [
        Table([Column("what"), Column("value"), Column("P"), Column("D")], [["Bore", *cells]]),
        FormRow(
            [FormBox("date", field="inspection.date"), FormBox("length", unit="m", field="exhaust.length.is")]
        ),
    ]
    monkeypatch.setattr(module, "blocks_of", lambda _draft: blocks)
    return run("build", boat, "-o", tmp_path / "out").out.strip()


def test_changes_are_shown_and_written_when_agreed(run, boat, sheets, tmp_path, monkeypatch):
    filled = fill(sheets, tmp_path / "filled.pdf", {"exhaust.bore.is": "38", "inspection.date": "2026-11-30"},
                  ["exhaust.bore.basis.plate"])  # fmt: skip
    before = boat.read_text(encoding="utf-8")
    monkeypatch.setattr("sys.stdin", io.StringIO("y\n"))
    done = run("take", boat, filled)
    assert done.status == 0
    assert "exhaust.bore     —  →  {is: 38 mm, basis: plate}" in done.out
    after = boat.read_text(encoding="utf-8")
    assert after == before.replace("{length: 2.2 m}", "{length: 2.2 m, bore: {is: 38 mm, basis: plate}}") + (
        "\ninspection:\n  date: 2026-11-30\n"
    )
    assert run("check", boat).status == 1


def test_nothing_is_written_unless_agreed(run, boat, sheets, tmp_path, monkeypatch):
    filled = fill(sheets, tmp_path / "filled.pdf", {"exhaust.bore.is": "38"})
    before = boat.read_bytes()
    for answer in ("n\n", "", "perhaps\n"):
        monkeypatch.setattr("sys.stdin", io.StringIO(answer))
        done = run("take", boat, filled)
        assert done.status == 0
        assert "nothing was written" in done.out
        assert boat.read_bytes() == before


def test_what_cannot_be_read_is_told_and_the_rest_is_taken(run, boat, sheets, tmp_path):
    filled = fill(sheets, tmp_path / "filled.pdf", {"exhaust.bore.is": "3,8", "exhaust.length.is": "2.35"})
    done = run("take", boat, filled, "--yes")
    assert done.status == 2
    assert "not taken: exhaust.bore: '3,8'" in done.err
    assert "exhaust: {length: {is: 2.35 m, basis: measured}}" in boat.read_text(encoding="utf-8")


def test_blank_sheets_change_nothing(run, boat, sheets):
    before = boat.read_bytes()
    done = run("take", boat, sheets, "--yes")
    assert (done.status, done.out) == (0, "nothing new is filled in\n")
    assert boat.read_bytes() == before


def test_a_print_without_boxes_is_refused(run, boat, tmp_path, monkeypatch):
    monkeypatch.setattr(module, "blocks_of", lambda _draft: [Paragraph("One page.")])
    pdf = run("build", boat, "-o", tmp_path / "out").out.strip()
    done = run("take", boat, pdf, "--yes")
    assert done.status == 2
    assert "no boxes" in done.err


def test_the_whole_way_with_the_true_sheets(run, boat, tmp_path):
    """Measured, entered, checked: the exhaust's length moves and its check knows the new basis."""
    pdf = run("build", boat, "--edition", "measure", "-o", tmp_path / "out").out.strip()
    texts = {"exhaust.length.is": "2.35", "exhaust.bore.is": "38", "inspection.place": "Marsh Haven, afloat"}
    filled = fill(pdf, tmp_path / "filled.pdf", texts, ["exhaust.bore.basis.plate"])
    done = run("take", boat, filled, "--yes")
    assert (done.status, done.err) == (0, "")
    told = run("explain", boat, "exhaust.length").out
    assert "L = 2.35 m, basis measured" in told


def test_tables_of_the_true_sheets_are_taken_line_by_line(run, boat, tmp_path):
    """A route of three points, two openings, a part's place: what the exhaust's checks wait for."""
    pdf = run("build", boat, "--edition", "measure", "-o", tmp_path / "out").out.strip()
    points = [("2100", "-1200", "550"), ("2100", "-1600", "950"), ("1400", "-2050", "980")]
    texts = {
        f"exhaust.route[{n}].{axis}": figure
        for n, point in enumerate(points, 1)
        for axis, figure in zip("xyz", point, strict=True)
    }
    for n, (name, kind, x) in enumerate(
        [("Galley hatch", "hatch", "5200"), ("Cockpit", "cockpit", "900")], 1
    ):
        texts |= {f"layout.openings[{n}].name": name, f"layout.openings[{n}].kind": kind}
        texts |= {
            f"layout.openings[{n}].at.{axis}": at for axis, at in zip("xyz", (x, "200", "1400"), strict=True)
        }
    before = boat.read_text(encoding="utf-8")
    done = run("take", boat, fill(pdf, tmp_path / "filled.pdf", texts), "--yes")
    assert (done.status, done.err) == (0, "")
    assert "layout.openings" in done.out
    (changed,) = set(before.splitlines()) - set(boat.read_text(encoding="utf-8").splitlines())
    assert changed.startswith("exhaust: {length: 2.2 m}")
    told = run("explain", boat, "exhaust.length").out
    # 0.566 m and 0.832 m by hand: the roots of 0.4² + 0.4² and of 0.7² + 0.45² + 0.03²
    assert "L = 1.398" in told
    assert "exhaust.route" in told
