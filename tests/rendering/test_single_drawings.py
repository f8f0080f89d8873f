"""Single drawings and figures as files: read back by general-purpose libraries of their own."""

import io
import struct
from pathlib import Path
from xml.etree import ElementTree as ET

import ezdxf
import pypdf
import pypdfium2
import pytest

from dossier.cli import main
from dossier.notation import DossierError, PageFault
from dossier.rendering import single
from dossier.rendering.blocks import Figure
from dossier.rendering.drawings.dxf import dxf
from dossier.rendering.drawings.png import png
from dossier.rendering.drawings.shapes import Circle, Drawing, Line, Pen, Polyline, Rect, Text
from dossier.rendering.drawings.traced import shapes_of
from dossier.rendering.single import USUAL, Drawn, all_drawn, draft_of, files_of, find
from tests.demonstrations import assessed

ROOT = Path(__file__).parents[2]
SVG = "{http://www.w3.org/2000/svg}"
TAGS = {"B1", "P1", "X1", "M1", "M2", "V1", "F1"}


@pytest.fixture(scope="module")
def draft():
    return draft_of(assessed("lantern_auk"))


@pytest.fixture(scope="module")
def schematic(draft):
    return find(draft, "schematic")


@pytest.fixture(scope="module")
def pump(draft):
    return find(draft, "pump")


def only(files):
    ((_, content),) = files.items()
    return content


def test_names_that_shells_complete_are_drawn(draft):
    assert set(USUAL) <= {drawn.name for drawn in all_drawn(draft)}


def test_svg_holds_the_tags_as_text_and_the_size_of_the_sheet(schematic):
    root = ET.fromstring(only(files_of(schematic, Path("x.svg"))))  # noqa: S314 - our own
    assert (root.get("width"), root.get("height")) == ("297mm", "210mm")
    assert {text.text for text in root.iter(f"{SVG}text")} >= TAGS


def test_dxf_is_sound_and_keeps_tags_and_line_kinds(schematic):
    written = only(files_of(schematic, Path("x.dxf"))).decode("utf-8")
    document = ezdxf.read(io.StringIO(written))
    assert not document.audit().errors
    space = document.modelspace()
    assert {text.dxf.text for text in space.query("TEXT")} >= TAGS
    assert {"SUPPLY", "RETURN", "FUEL", "LETTERING"} <= {layer.dxf.name for layer in document.layers}
    assert document.layers.get("RETURN").dxf.linetype != "CONTINUOUS"
    assert document.units == ezdxf.units.MM
    points = [point for line in space.query("LWPOLYLINE") for point in line.get_points("xy")]
    assert all(0 <= x <= 297 and 0 <= y <= 210 for x, y in points)
    assert written == only(files_of(schematic, Path("y.dxf"))).decode("utf-8")


def test_pdf_is_as_large_as_the_sheet_and_searchable(schematic):
    content = only(files_of(schematic, Path("x.pdf")))
    (page,) = pypdf.PdfReader(io.BytesIO(content)).pages
    assert [round(float(side) / 72 * 25.4) for side in page.mediabox[2:]] == [297, 210]
    assert all(tag in page.extract_text() for tag in TAGS)
    assert content == only(files_of(schematic, Path("x.pdf")))


def test_png_shows_what_the_pdf_shows(pump):
    """The share of ink in each ninth of the picture, against an independent rasteriser of the PDF."""
    ours = _ink(pypdfium_of_png(only(files_of(pump, Path("x.png")))))
    document = pypdfium2.PdfDocument(only(files_of(pump, Path("x.pdf"))))
    theirs = _ink(document[0].render(scale=200 / 72).to_pil().convert("L"))
    document.close()
    assert ours == pytest.approx(theirs, abs=0.004)


def pypdfium_of_png(content):
    from PIL import Image

    return Image.open(io.BytesIO(content)).convert("L")


def _ink(picture):
    wide, high = picture.size
    cells = []
    for row in range(3):
        for column in range(3):
            box = (column * wide // 3, row * high // 3, (column + 1) * wide // 3, (row + 1) * high // 3)
            part = picture.crop(box)
            counted = part.histogram()
            cells.append(
                sum(n * (255 - grey) for grey, n in enumerate(counted)) / 255 / (part.width * part.height)
            )
    return cells


def test_png_has_the_size_of_its_resolution():
    content = png(Drawing.of(25.4, 50.8, [Line((1, 1), (20, 40))]))
    assert struct.unpack(">II", content[16:24]) == (200, 400)


def test_a_curve_keeps_its_words_and_its_dashes_in_svg(pump):
    text = only(files_of(pump, Path("x.svg"))).decode("utf-8")
    words = [found.text for found in ET.fromstring(text).iter(f"{SVG}text")]  # noqa: S314 - our own
    assert any("l/min" in word for word in words)
    assert "stroke-dasharray" in text


def test_a_drawing_of_several_sheets_has_a_page_or_a_file_for_each(draft):
    drawn = find(draft, "exhaust")
    count = len(drawn.sheets)
    assert count > 1
    assert len(pypdf.PdfReader(io.BytesIO(only(files_of(drawn, Path("x.pdf"))))).pages) == count
    assert [path.name for path in files_of(drawn, Path("x.svg"))][:2] == ["x.svg", "x_2.svg"]
    assert f"1 / {count}" in files_of(drawn, Path("x.svg"))[Path("x.svg")].decode("utf-8")


def test_a_slip_is_answered_with_the_names_there_are(draft, monkeypatch):
    monkeypatch.setattr(
        single, "blocks_of", lambda _draft: [Figure(Drawing.of(9, 9, []), "Pump", "", "figure_pump")]
    )
    with pytest.raises(DossierError, match="perhaps pump"):
        find(draft, "pmup")
    with pytest.raises(DossierError, match="there are pump"):
        find(draft, "zzz")


def test_an_ending_that_nobody_knows_is_a_fault():
    with pytest.raises(DossierError, match=r"\.dxf, \.png, \.svg or \.pdf"):
        files_of(Drawn("x", "X", (Drawing.of(9, 9, []),)), Path("x.dwg"))


def test_dxf_without_its_library_says_what_to_install(monkeypatch):
    import sys

    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(DossierError, match="pip install"):
        dxf(Drawing.of(9, 9, []))


def test_nothing_a_file_says_is_a_command_of_the_drawing():
    made = dxf(Drawing.of(99, 99, [Text(5, 5, "a%%d b^J c\\P")]))
    (text,) = ezdxf.read(io.StringIO(made)).modelspace().query("TEXT")
    assert "%%" not in text.dxf.text
    assert "^" not in text.dxf.text


def test_what_only_a_pdf_can_hold_is_said_so():
    class Photograph:
        width = height = 72.0

        def draw(self, canvas, x, y):
            canvas.drawImage(None, x, y, 9, 9)

    with pytest.raises(PageFault, match="draw it as pdf"):
        shapes_of(Photograph())


def test_clipped_lines_end_at_the_sides():
    class Hatched:
        width = height = 72.0

        def draw(self, canvas, x, y):
            clip = canvas.beginPath()
            clip.rect(x + 10, y + 10, 20, 20)
            canvas.clipPath(clip, stroke=0, fill=0)
            canvas.line(0, 20, 72, 20)
            canvas.line(0, 50, 72, 50)

    (part,) = shapes_of(Hatched()).parts()
    points = [point for _, ends in part.steps for point in ends]
    assert [round(x * 72 / 25.4) for x, _ in points] == [10, 30]


def test_shapes_of_every_kind_come_out_in_dxf():
    shapes = [
        Circle(10, 10, 5, Pen(0.5), "000000"),
        Rect(1, 1, 8, 8),
        Polyline(((0, 0), (5, 5)), Pen(0.35, double=1.6)),
    ]
    space = ezdxf.read(io.StringIO(dxf(Drawing.of(50, 50, shapes)))).modelspace()
    assert len(space.query("CIRCLE")) == 1
    assert len(space.query("HATCH")) == 1
    assert len(space.query("LWPOLYLINE")) == 3


def test_the_command_lists_and_draws(tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(
        single,
        "blocks_of",
        lambda _draft: [Figure(Drawing.of(9, 9, [Line((1, 1), (2, 2))]), "Pump", "", "figure_pump")],
    )
    small = str(ROOT / "projects" / "puddle_wren" / "puddle_wren.yaml")
    assert main(["draw", small]) == 0
    assert capsys.readouterr().out == "pump  Pump\n"
    out = tmp_path / "drawn here" / "pümp.svg"
    assert main(["draw", small, "pump", "-o", str(out)]) == 0
    assert out.read_text(encoding="utf-8").startswith("<?xml")
    assert main(["draw", small, "pump", "-o", str(tmp_path / "pump.gif")]) == 2
    assert "Traceback" not in capsys.readouterr().err
