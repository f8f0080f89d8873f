"""What the file carries besides its pages: metadata, colour, language, structure, attachments, forms."""

import hashlib
import io
import re
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pypdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from PIL import Image, ImageCms

from dossier.notation import PageFault
from dossier.rendering import metadata, pdf
from dossier.rendering import pages as pdf_pages
from dossier.rendering.blocks import (
    Attachment,
    Blank,
    Column,
    FormBox,
    FormRow,
    Heading,
    Paragraph,
    Table,
    Tick,
)
from dossier.rendering.icc import srgb
from dossier.rendering.pages import render_pdf


@pytest.fixture(scope="module")
def reader(a4_pdf):
    return pypdf.PdfReader(a4_pdf, strict=True)


def packet(reader):
    return reader.trailer["/Root"]["/Metadata"].get_object().get_data().decode("utf-8")


def test_information_and_metadata_packet_say_the_same(reader):
    info, told = reader.metadata, reader.xmp_metadata
    assert info.title == told.dc_title["x-default"] == "Marsh Heron: Heating installation dossier"
    assert [info.author] == told.dc_creator == ["The owner"]
    assert info.subject == told.dc_description["x-default"]
    assert info["/Keywords"] == told.pdf_keywords == "boat, heating"
    assert info.producer == told.pdf_producer
    assert info.creation_date == info.modification_date
    assert f"{info.creation_date:%Y-%m-%d}" == "2026-11-20"
    assert told.xmp_create_date.replace(tzinfo=None) == info.creation_date.replace(tzinfo=None)


def test_the_file_says_it_is_pdf_a_3b_in_english(reader):
    root = reader.trailer["/Root"]
    assert "<pdfaid:part>3</pdfaid:part>" in packet(reader)
    assert "<pdfaid:conformance>B</pdfaid:conformance>" in packet(reader)
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"].value is True
    assert reader.pdf_header == "%PDF-1.7"
    assert "/Encrypt" not in reader.trailer


def test_the_output_intent_is_srgb_as_littlecms_reads_it(reader):
    intent = reader.trailer["/Root"]["/OutputIntents"][0]
    assert intent["/S"] == "/GTS_PDFA1"
    carried = intent["/DestOutputProfile"].get_object()
    assert carried["/N"] == 3
    assert carried.get_data() == srgb()
    ours = ImageCms.ImageCmsProfile(io.BytesIO(srgb()))
    theirs = ImageCms.createProfile("sRGB")
    wanted = [
        (0, 0, 0),
        (255, 255, 255),
        (155, 36, 35),
        (208, 93, 41),
        (249, 169, 0),
        (0, 83, 135),
        (181, 67, 28),
    ]
    colours = Image.new("RGB", (len(wanted), 1))
    for place, colour in enumerate(wanted):
        colours.putpixel((place, 0), colour)
    seen = ImageCms.profileToProfile(colours, ours, theirs)
    for place, before in enumerate(wanted):
        after = seen.getpixel((place, 0))
        assert max(abs(a - b) for a, b in zip(before, after, strict=True)) <= 1


def test_the_project_file_is_inside_byte_by_byte(reader, sample):
    (attachment,) = sample.IMPRINT.attachments
    assert reader.attachments["project.yaml"] == [attachment.content]
    (spec,) = reader.trailer["/Root"]["/AF"]
    spec = spec.get_object()
    file = spec["/EF"]["/F"].get_object()
    assert spec["/AFRelationship"] == "/Source"
    assert file["/Subtype"] == "/application/yaml"
    assert file["/Params"]["/Size"] == len(attachment.content)
    checksum = file["/Params"]["/CheckSum"]
    checksum = checksum.original_bytes if hasattr(checksum, "original_bytes") else bytes(checksum)
    assert checksum == hashlib.md5(attachment.content, usedforsecurity=False).digest()
    assert str(file["/Params"]["/ModDate"]).startswith("D:20261120")


@pytest.mark.parametrize("name", ["../x", "a/b", "a\\b", "", ".hidden"])
def test_an_attachment_has_a_plain_name(written, imprint, name):
    with pytest.raises(PageFault, match="plain name"):
        written(
            Paragraph("x"), with_imprint=replace(imprint, attachments=(Attachment(name, b"", "text/plain"),))
        )


def test_attachments_of_one_name_are_a_fault(written, imprint):
    twice = (Attachment("a", b"1", "text/plain"), Attachment("a", b"2", "text/plain"))
    with pytest.raises(PageFault, match="name of its own"):
        written(Paragraph("x"), with_imprint=replace(imprint, attachments=twice))


@pytest.mark.parametrize("date", ["", "20.11.2026", "2026-13-01", "today"])
def test_a_date_that_is_none_is_a_fault(written, imprint, date):
    with pytest.raises(PageFault, match="YYYY-MM-DD"):
        written(Paragraph("x"), with_imprint=replace(imprint, date=date))


def test_a_month_is_a_date(written, imprint):
    reader = pypdf.PdfReader(written(Paragraph("x"), with_imprint=replace(imprint, date="2026-11")))
    assert reader.metadata["/CreationDate"].startswith("D:20261101")


def test_a_document_without_a_date_says_so_and_bears_none(written, imprint):
    """Not the day of the build, nor any other: a date of issue is given by a person."""
    file = Attachment("boat.yaml", b"format: 1", "application/yaml")
    undated = replace(imprint, date="", undated="date not given", attachments=(file,))
    path = written(Paragraph("x"), with_imprint=undated)
    reader = pypdf.PdfReader(path, strict=True)
    assert "/CreationDate" not in reader.metadata
    assert "/ModDate" not in reader.metadata
    assert b"CreateDate" not in reader.trailer["/Root"]["/Metadata"].get_data()
    spec = reader.trailer["/Root"]["/AF"][0].get_object()
    assert "/CreationDate" not in spec["/EF"]["/F"]["/Params"]
    assert "date not given" in reader.pages[0].extract_text()
    assert reader.metadata["/Title"]


def test_nothing_is_transparent_and_nothing_runs(a4_pdf, reader):
    for page in reader.pages:
        assert "/Group" not in page
        assert not page["/Resources"].get("/ExtGState")
        assert "/AA" not in page
    assert not {"/OpenAction", "/AA"} & set(reader.trailer["/Root"])
    assert b"/JavaScript" not in a4_pdf.read_bytes()


def elements(node):
    node = node.get_object()
    if isinstance(node, pypdf.generic.DictionaryObject) and "/S" in node:
        yield node
    kids = node.get("/K", []) if isinstance(node, pypdf.generic.DictionaryObject) else node
    if isinstance(kids, pypdf.generic.IndirectObject):
        kids = kids.get_object()
    for kid in kids if isinstance(kids, pypdf.generic.ArrayObject) else [kids]:
        if isinstance(kid, pypdf.generic.IndirectObject | pypdf.generic.DictionaryObject):
            yield from elements(kid)


def test_the_structure_names_headings_tables_lists_figures_and_links(reader):
    roles = [str(e["/S"])[1:] for e in elements(reader.trailer["/Root"]["/StructTreeRoot"])]
    for role in (
        "H1",
        "H2",
        "H3",
        "P",
        "Table",
        "TR",
        "TH",
        "TD",
        "L",
        "LI",
        "Lbl",
        "LBody",
        "Figure",
        "Caption",
        "Link",
        "TOC",
        "TOCI",
        "Form",
    ):
        assert role in roles, role
    assert roles[0] == "Document"
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"].value is True


def test_every_figure_has_words_for_who_cannot_see_it(reader):
    figures = [e for e in elements(reader.trailer["/Root"]["/StructTreeRoot"]) if e["/S"] == "/Figure"]
    assert len(figures) == 6
    assert all(len(e["/Alt"]) > 10 for e in figures)
    assert "three circuits cross two pump curves" in {e["/Alt"] for e in figures}


def test_a_table_over_two_sheets_is_one_table_in_the_structure(written):
    rows = [(f"r{n}", "x") for n in range(120)]
    reader = pypdf.PdfReader(written(Table((Column("A"), Column("B")), rows, "t")))
    assert len(reader.pages) > 1
    roles = [str(e["/S"]) for e in elements(reader.trailer["/Root"]["/StructTreeRoot"])]
    assert roles.count("/Table") == 1
    assert roles.count("/TR") == 121
    assert roles.count("/TD") + roles.count("/TH") == 242


def test_marked_stretches_of_every_page_are_those_of_the_parent_tree(reader):
    tree = reader.trailer["/Root"]["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    by_key = {tree[n]: tree[n + 1] for n in range(0, len(tree), 2)}
    for page in reader.pages:
        code = page.get_contents().get_data().decode("latin-1")
        numbers = [int(n) for n in re.findall(r"/MCID (\d+)", code)]
        assert numbers == list(range(len(numbers)))
        assert len(by_key[page["/StructParents"]]) == len(numbers)
        assert code.count("BDC") + code.count("BMC") == code.count("EMC")
        assert page["/Tabs"] == "/S"


def test_pdfium_reads_the_structure(a4_pdf):
    document = pypdfium2.PdfDocument(str(a4_pdf))
    page = document[3]
    tree = pdfium.FPDF_StructTree_GetForPage(page.raw)
    assert pdfium.FPDF_StructTree_CountChildren(tree) == 1
    pdfium.FPDF_StructTree_Close(tree)
    document.close()


def test_fields_of_the_form_bear_the_keys_of_the_project_file(reader):
    fields = {name for name, field in reader.get_fields().items() if "/FT" in field}
    assert {
        "commissioning.outlet_height",
        "commissioning.gap",
        "commissioning.flows.V2",
        "yard.step_1",
    } <= fields
    assert "commissioning.flows.V1" not in fields  # it is filled in already


def test_what_is_typed_into_a_field_can_be_read_back_and_is_seen(written, tmp_path):
    path = written(
        FormRow([FormBox("Flow", "expected 4.6", "l/min", "commissioning.flows.V2")]),
        Table((Column("Seen"),), [(Tick("seen.V2"),)], "t"),
    )
    writer = pypdf.PdfWriter(clone_from=pypdf.PdfReader(path))
    writer.update_page_form_field_values(
        writer.pages[0], {"commissioning.flows.V2": "4.55", "seen.V2": "/Yes"}, auto_regenerate=False
    )
    filled = tmp_path / "filled.pdf"
    writer.write(filled)
    fields = pypdf.PdfReader(filled).get_fields()
    assert fields["commissioning.flows.V2"]["/V"] == "4.55"
    assert fields["seen.V2"]["/V"] == "/Yes"
    pictures = []
    for file in (path, filled):
        document = pypdfium2.PdfDocument(str(file))
        document.init_forms()
        pictures.append(document[0].render(scale=1, grayscale=True).to_numpy().astype(int))
        document.close()
    assert (abs(pictures[0] - pictures[1]) > 60).sum() > 20


def test_every_field_prints_and_has_its_look(reader):
    widgets = [
        a.get_object()
        for page in reader.pages
        for a in page.get("/Annots", [])
        if a.get_object()["/Subtype"] == "/Widget"
    ]
    assert widgets
    for widget in widgets:
        assert widget["/F"] == 4
        assert "/N" in widget["/AP"]
        assert widget["/TU"]
    assert "/NeedAppearances" not in reader.trailer["/Root"]["/AcroForm"]


@pytest.mark.parametrize("names", [("a.b", "a.b"), ("a.b", "a"), ("a", "a.b")])
def test_fields_that_take_each_others_name_are_a_fault(written, names):
    with pytest.raises(PageFault, match="field"):
        written(Table((Column("x"),), [(Blank(field=name),) for name in names], "t"))


def test_a_file_that_cannot_be_written_leaves_nothing_behind(imprint, tmp_path):
    (tmp_path / "folder").mkdir()
    with pytest.raises(PageFault, match="cannot be written"):
        render_pdf([Paragraph("x")], imprint, tmp_path / "folder")
    with pytest.raises(PageFault, match="cannot be written"):
        render_pdf([Paragraph("x")], imprint, tmp_path / "missing" / "x.pdf")
    assert [p.name for p in tmp_path.iterdir()] == ["folder"]


def test_progress_is_told_sheet_by_sheet(imprint, tmp_path):
    told = []
    count = render_pdf(
        [Heading(1, "A"), Heading(1, "B")],
        imprint,
        tmp_path / "x.pdf",
        progress=lambda n, of: told.append((n, of)),
    )
    assert count == 2
    assert told == [(1, 2), (2, 2)]


JARS = Path("/usr/share/java")


@pytest.mark.skipif(
    not (JARS / "preflight.jar").exists() or shutil.which("java") is None, reason="no PDFBox preflight"
)
def test_a_twin_built_as_part_one_passes_the_preflight_of_pdfbox(sample, tmp_path, monkeypatch):
    # the checker knows ISO 19005-1 only: part 1 has neither attachments nor object streams, all else is alike
    monkeypatch.setattr(metadata, "PART", 1)
    monkeypatch.setattr(pdf, "packed", lambda document: document.format())
    out = tmp_path / "twin.pdf"
    pdf_pages.render_pdf(sample.document(), replace(sample.IMPRINT, attachments=()), out)
    names = (
        "preflight",
        "pdfbox2",
        "xmpbox",
        "fontbox2",
        "fontbox",
        "commons-logging",
        "jaxb-api",
        "javax.activation",
    )
    path = ":".join(str(jar) for name in names for jar in sorted(JARS.glob(f"{name}*.jar")))
    java = [shutil.which("java"), "-cp", path, "org.apache.pdfbox.preflight.Validator_A1b", str(out)]
    done = subprocess.run(java, capture_output=True, text=True, check=False)
    assert "is a valid PDF/A-1b file" in done.stdout, done.stdout + done.stderr


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_qpdf_finds_no_fault(a4_pdf):
    done = subprocess.run(
        [shutil.which("qpdf"), "--check", str(a4_pdf)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
