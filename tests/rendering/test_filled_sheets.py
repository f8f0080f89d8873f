"""What stands in the boxes of a PDF, by names of fields as ISO 32000-1, 12.7 has them (T, V, TU, Kids)."""

import pypdf
import pytest
from pypdf.generic import ArrayObject, DictionaryObject, NameObject, TextStringObject

from dossier.notation import DossierError
from dossier.rendering import filled_sheets
from dossier.rendering.filled_sheets import read_filled


def field(name="", value=None, said="", kind="/Tx", kids=()):
    made = DictionaryObject({NameObject("/FT"): NameObject(kind)})
    if name:
        made[NameObject("/T")] = TextStringObject(name)
    if value is not None:
        made[NameObject("/V")] = NameObject(value) if value[:1] == "/" else TextStringObject(value)
    if said:
        made[NameObject("/TU")] = TextStringObject(said)
    if kids:
        made[NameObject("/Kids")] = ArrayObject(kids)
    return made


@pytest.fixture
def pdf_with(tmp_path):
    """A PDF of one blank page whose form holds some fields."""

    def made(*fields):
        writer = pypdf.PdfWriter()
        writer.add_blank_page(200, 200)
        form = DictionaryObject({NameObject("/Fields"): ArrayObject(fields)})
        writer.root_object[NameObject("/AcroForm")] = form
        out = tmp_path / "form.pdf"
        writer.write(out)
        return out

    return made


def test_names_are_joined_over_their_parents_and_units_stand_in_brackets(pdf_with):
    bore = field("exhaust", kids=[field("bore", kids=[field("is", " 38 ", "bore of the exhaust [mm]")])])
    place = field("place", "Marsh  Haven,\nafloat", "place (no unit)")
    assert read_filled(pdf_with(bore, place)) == [
        ("exhaust.bore.is", "38", "mm"),
        ("place", "Marsh Haven, afloat", ""),
    ]


def test_a_tick_is_yes_and_blank_boxes_are_left_out(pdf_with):
    ticked, empty = field("a", "/Yes", kind="/Btn"), field("b", "/Off", kind="/Btn")
    assert read_filled(pdf_with(ticked, empty, field("c"), field("d", "  "))) == [("a", "yes", "")]


def test_marks_of_a_field_on_several_sheets_are_no_fields(pdf_with):
    """Kids without a name are where the field is drawn; the value is the parent's."""
    assert read_filled(pdf_with(field("length", "2.35", kids=[field(), field()]))) == [("length", "2.35", "")]


def test_a_field_without_any_name_is_passed_over(pdf_with):
    assert read_filled(pdf_with(field(value="lost"), field("kept", "1"))) == [("kept", "1", "")]


def test_a_print_has_no_boxes(tmp_path):
    writer = pypdf.PdfWriter()
    writer.add_blank_page(200, 200)
    writer.write(tmp_path / "print.pdf")
    assert read_filled(tmp_path / "print.pdf") is None


def test_more_than_a_box_holds_is_refused_by_its_name(pdf_with):
    with pytest.raises(DossierError, match="'a' holds more than a box does"):
        read_filled(pdf_with(field("a", "x" * 2001)))
    assert read_filled(pdf_with(field("a", "x" * 2000)))[0][1] == "x" * 2000


def test_fields_without_end_are_refused(pdf_with, monkeypatch):
    deep = field("end", "1")
    for _ in range(filled_sheets.DEEPEST + 1):
        deep = field("d", kids=[deep])
    with pytest.raises(DossierError, match="more fields than any sheet"):
        read_filled(pdf_with(deep))
    monkeypatch.setattr(filled_sheets, "MOST_FIELDS", 3)
    assert len(read_filled(pdf_with(*(field(f"f{n}", "1") for n in range(3))))) == 3
    with pytest.raises(DossierError, match="more fields than any sheet"):
        read_filled(pdf_with(*(field(f"f{n}", "1") for n in range(4))))
