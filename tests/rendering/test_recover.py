"""What goes into a PDF comes back as it was; a hostile PDF gets one line and leaves nothing behind."""

import json
import re
import zlib
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pypdf
import pytest

from dossier import assess, load
from dossier.cli import main
from dossier.notation import DossierError
from dossier.rendering import apart, carried
from dossier.rendering import render as module
from dossier.rendering.attachments import attachments
from dossier.rendering.blocks import Paragraph
from dossier.rendering.carried import read_carried
from dossier.rendering.pages import render_pdf
from dossier.rendering.recovery_of_sources import recover

DEMOS = sorted((Path(__file__).parents[2] / "projects").glob("*/*.yaml"))
PROJECT = """format: 1
document: {title: Two folders, number: TF-1, revision: A, date: 2026-11-22}
conditions: {outside_air: -6 degC}
include: [yard/own.yaml]
zones: {from: tables/zönes.csv}
pictures: [{file: pictures/outlet.png, caption: Outlet}]
"""
ZONES = "id;target [degC];volume [m3]\r\ncabin;18,5;16\r\n"
PIXEL = bytes.fromhex(
    "89504e470d0a1a0a0000000d4948445200000001000000010802000000907753de0000000c49444154789c63606060000000"
    "0400015c0ccdff0000000049454e44ae426082"
)


@pytest.fixture(scope="module")
def boat(tmp_path_factory):
    folder = tmp_path_factory.mktemp("boat")
    for name in ("yard", "tables", "pictures"):
        (folder / name).mkdir()
    (folder / "boat.yaml").write_text(PROJECT, encoding="utf-8")
    (folder / "yard" / "own.yaml").write_text(
        "format: 1\nmaterials: {cork: {conductivity: 0.045 W/m/K}}\n", encoding="utf-8"
    )
    (folder / "tables" / "zönes.csv").write_bytes(ZONES.encode("cp1252"))
    (folder / "pictures" / "outlet.png").write_bytes(PIXEL)
    return folder / "boat.yaml"


def build(file, out):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "blocks_of", lambda _draft: [Paragraph("One page.")])
        return module.render(assess(load(file)), out)


@pytest.fixture(scope="module")
def pdf(boat, tmp_path_factory):
    return build(boat, tmp_path_factory.mktemp("out"))


def test_all_sources_come_back_as_they_were(boat, pdf, tmp_path, capsys):
    assert main(["recover", str(pdf), "-o", str(tmp_path / "again")]) == 0
    for name in ("boat.yaml", "yard/own.yaml", "tables/zönes.csv", "pictures/outlet.png"):
        assert (tmp_path / "again" / name).read_bytes() == (boat.parent / name).read_bytes(), name
    assert f"next: dossier build {tmp_path / 'again' / 'boat.yaml'}" in capsys.readouterr().out


def test_recovered_sources_build_the_same_bytes(pdf, tmp_path):
    again = recover(pdf, tmp_path / "again").project
    assert build(again, tmp_path / "out").read_bytes() == pdf.read_bytes()


def test_the_results_travel_as_data(boat, pdf, tmp_path):
    recover(pdf, tmp_path)
    plain = json.loads((tmp_path / "results.json").read_text(encoding="utf-8"))
    assert plain["format"] == 1
    assessment = assess(load(boat))
    assert plain["results"].keys() == assessment.results.keys()
    assert [check["id"] for check in plain["checks"]] == [finding.check for finding in assessment.findings]


@pytest.mark.parametrize("file", DEMOS, ids=lambda path: path.stem)
def test_sources_of_every_demo_come_back(file, imprint, tmp_path):
    project = load(file)
    carried = attachments(SimpleNamespace(project=project, edition="yard"))
    out = tmp_path / "demo.pdf"
    render_pdf([Paragraph("One page.")], replace(imprint, attachments=tuple(carried)), out)
    found = {each.name: each.content for each in read_carried(out)}
    assert found == {each.name: (file.parent / each.name).read_bytes() for each in project.files}


def test_recovering_twice_changes_nothing_and_another_file_is_never_overwritten(pdf, tmp_path):
    recover(pdf, tmp_path)
    recover(pdf, tmp_path)
    (tmp_path / "boat.yaml").write_text("mine", encoding="utf-8")
    with pytest.raises(DossierError, match="stands there already"):
        recover(pdf, tmp_path)
    assert (tmp_path / "boat.yaml").read_text(encoding="utf-8") == "mine"


def test_a_link_inside_the_folder_leads_nobody_out(pdf, tmp_path):
    (tmp_path / "outside").mkdir()
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "tables").symlink_to(tmp_path / "outside", target_is_directory=True)
    with pytest.raises(DossierError, match="outside"):
        recover(pdf, tmp_path / "in")
    assert not list((tmp_path / "outside").iterdir())
    assert [path.name for path in (tmp_path / "in").iterdir()] == ["tables"]


def attached(*files, twist=None):
    """A PDF of one empty page that carries files, as any program may write it."""
    writer = pypdf.PdfWriter()
    writer.add_blank_page(100, 100)
    for name, content in files:
        writer.add_attachment(name, content)
    if twist:
        twist(writer)
    return writer


def written(writer, folder):
    path = folder / "made.pdf"
    with path.open("wb") as file:
        writer.write(file)
    return path


YAML = ("boat.yaml", b"format: 1\n")


@pytest.mark.parametrize(
    "name",
    [
        "../boat.yaml", "/etc/boat.yaml", "C:\\boat.yaml", "a/../../boat.yaml", "..\\boat.yaml",
        "~/boat.yaml", ".profile", "con.yaml", "boat.yaml ", "a\nb.yaml", "x" * 300,
    ],
)  # fmt: skip
def test_names_that_lead_out_or_are_no_names_are_refused(name, tmp_path):
    pdf = written(attached(YAML, (name, b"x")), tmp_path)
    with pytest.raises(DossierError, match="nothing was taken from it") as told:
        read_carried(pdf)
    assert "\n" not in str(told.value)


def test_scripts_and_links_are_never_followed(tmp_path):
    run = "/OpenAction<</S/JavaScript/JS(app.launchURL\\('https://example.org'\\))>>"
    also = "/AA<</WC<</S/Launch/F(/bin/true)>>>>/URI<</Base(https://example.org)>>"
    path = tmp_path / "made.pdf"
    path.write_bytes(raw(YAML[1], catalog=run + also))
    (file,) = read_carried(path)
    assert file.content == YAML[1]


def test_a_printed_pdf_carries_no_project_file(tmp_path):
    with pytest.raises(DossierError, match="carries no project file"):
        read_carried(written(attached(), tmp_path))


def test_a_pdf_with_other_files_alone_is_refused(tmp_path):
    pdf = written(attached(("letter.txt", b"Dear")), tmp_path)
    with pytest.raises(DossierError, match="no project file"):
        recover(pdf, tmp_path / "out")
    assert not (tmp_path / "out").exists()


def test_an_encrypted_pdf_is_refused_by_the_command(tmp_path, capsys):
    pdf = written(
        attached(YAML, twist=lambda writer: writer.encrypt("secret", algorithm="RC4-128")), tmp_path
    )
    assert main(["recover", str(pdf), "-o", str(tmp_path / "out")]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err == f"{pdf}: the PDF is encrypted; save it without a password and try again\n"
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("share", [0.05, 0.3, 0.6, 0.95, 0.999])
def test_a_pdf_cut_short_gives_the_right_bytes_or_a_fault(pdf, tmp_path, share):
    whole = pdf.read_bytes()
    cut = tmp_path / "cut.pdf"
    cut.write_bytes(whole[: int(len(whole) * share)])
    said, found = "", {"boat.yaml": PROJECT.encode("utf-8")}
    try:
        found = {file.name: file.content for file in read_carried(cut)}
    except DossierError as fault:
        said = str(fault)
    assert found["boat.yaml"] == PROJECT.encode("utf-8")
    assert re.fullmatch(r"(the PDF is damaged|the PDF carries no project file).*|", said)


def test_a_changed_byte_in_a_carried_file_is_noticed(tmp_path):
    path = tmp_path / "made.pdf"
    content = b"format: 1\nvessel: {length: 12.0 m}\n"
    path.write_bytes(raw(content, checksum="<00112233445566778899aabbccddeeff>"))
    with pytest.raises(DossierError, match="not as it was put there"):
        read_carried(path)


def raw(content, *, catalog="", kids="", filters="", checksum=""):
    """A PDF written by hand, so that it can say anything."""
    params = f"/Params<</CheckSum {checksum}>>" if checksum else ""
    objects = [
        f"<</Type/Catalog/Pages 2 0 R/Names<</EmbeddedFiles 4 0 R>>{catalog}>>".encode(),
        b"<</Type/Pages/Kids[]/Count 0>>",
        b"<</Type/Filespec/F(boat.yaml)/UF(boat.yaml)/EF<</F 5 0 R>>>>",
        f"<</Names[(boat.yaml) 3 0 R]{kids}>>".encode(),
        f"<</Type/EmbeddedFile{filters}{params}/Length {len(content)}>>stream\n".encode()
        + content
        + b"\nendstream",
    ]
    out, places = b"%PDF-1.7\n", []
    for number, body in enumerate(objects, 1):
        places.append(len(out))
        out += f"{number} 0 obj\n".encode() + body + b"\nendobj\n"
    table = "".join(f"{place:010d} 00000 n \n" for place in places)
    tail = f"xref\n0 {len(objects) + 1}\n0000000000 65535 f \n{table}"
    return (
        out + f"{tail}trailer<</Size {len(objects) + 1}/Root 1 0 R>>\nstartxref\n{len(out)}\n%%EOF".encode()
    )


def test_a_pdf_by_hand_is_read(tmp_path):
    path = tmp_path / "made.pdf"
    path.write_bytes(raw(b"format: 1\n"))
    (file,) = read_carried(path)
    assert (file.name, file.content) == ("boat.yaml", b"format: 1\n")


def test_a_tree_of_names_that_bites_its_tail_ends(tmp_path):
    path = tmp_path / "made.pdf"
    path.write_bytes(raw(b"format: 1\n", kids="/Kids[4 0 R 4 0 R 4 0 R]"))
    with pytest.raises(DossierError, match="damaged"):
        read_carried(path)


@pytest.mark.parametrize("times", [1, 2])
def test_a_small_file_that_swells_is_not_blown_up(tmp_path, times):
    content = bytes(200_000_000)
    for _ in range(times):
        content = zlib.compress(content, 9)
    path = tmp_path / "made.pdf"
    path.write_bytes(raw(content, filters="/Filter[" + "/FlateDecode " * times + "]"))
    assert path.stat().st_size < 300_000
    with pytest.raises(DossierError, match=r"damaged|larger than any"):
        read_carried(path)


def test_a_pdf_that_takes_too_long_is_given_up(pdf, monkeypatch):
    monkeypatch.setattr(apart, "SECONDS", 0.001)
    with pytest.raises(DossierError, match="too long to read"):
        carried.carried_by(pdf)


def test_modules_beside_the_pdf_are_not_run(pdf, tmp_path, monkeypatch):
    (tmp_path / "pypdf.py").write_text("raise SystemExit('taken over')", encoding="utf-8")
    (tmp_path / "json.py").write_text("raise SystemExit('taken over')", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert {file.name for file in carried.carried_by(pdf)} >= {"boat.yaml", "results.json"}


@pytest.mark.parametrize(
    ("content", "said"),
    [(b"", "no PDF"), (b"PK\x03\x04" + bytes(2000), "no PDF"), (b"%PDF-1.7\n", "damaged")],
)
def test_what_is_no_pdf_is_told_so(content, said, tmp_path, capsys):
    path = tmp_path / "some thing.pdf"
    path.write_bytes(content)
    assert main(["recover", str(path), "-o", str(tmp_path / "out")]) == 2
    told = capsys.readouterr().err
    assert told.startswith(f"{path}: ")
    assert said in told
    assert told.count("\n") == 1


def test_a_pdf_that_is_not_there_is_told_so(tmp_path, capsys):
    assert main(["recover", str(tmp_path / "nowhere.pdf"), "-o", str(tmp_path)]) == 2
    assert "No such file" in capsys.readouterr().err
