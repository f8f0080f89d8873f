"""Writes the fields of the electronic form over the boxes that are drawn anyway.

A field's name is the path of a key in the project file, so that what is filled in can be read back. The box
on the page stays under it: the sheet works on paper as well.
"""

from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

from reportlab.pdfbase import pdfdoc
from reportlab.pdfbase.ttfonts import TTFontFile

from dossier.notation import PageFault
from dossier.rendering.layout.pen import Field

FONT_FILE = Path(__file__).parent / "fonts" / "form-letters.ttf"
FONT_NAME = "DossierForm"
SIZE = 9
FIRST, LAST = 32, 255
TICK_STROKE = "1.2 w 1 J"

PDFDictionary, PDFArray, PDFName, PDFString = (
    pdfdoc.PDFDictionary,
    pdfdoc.PDFArray,
    pdfdoc.PDFName,
    pdfdoc.PDFString,
)


@cache
def _face() -> Any:
    return TTFontFile(str(FONT_FILE), charInfo=1)


def _font(document: Any) -> Any:
    """The font object of all fields."""
    face = _face()
    letters = [bytes([code]).decode("cp1252", "replace") for code in range(FIRST, LAST + 1)]
    widths = [round(face.charWidths.get(ord(letter), face.defaultWidth)) for letter in letters]
    file = pdfdoc.PDFStream(content=FONT_FILE.read_bytes(), filters=[pdfdoc.PDFZCompress])
    file.dictionary["Length1"] = FONT_FILE.stat().st_size
    nonsymbolic = 32
    descriptor = PDFDictionary(
        {
            "Type": PDFName("FontDescriptor"),
            "FontName": PDFName(FONT_NAME),
            "Flags": nonsymbolic,
            "FontBBox": PDFArray([round(side) for side in face.bbox]),
            "Ascent": round(face.ascent),
            "Descent": round(face.descent),
            "CapHeight": round(face.capHeight),
            "ItalicAngle": 0,
            "StemV": round(face.stemV),
            "FontFile2": document.Reference(file, "form font file"),
        }
    )
    return PDFDictionary(
        {
            "Type": PDFName("Font"),
            "Subtype": PDFName("TrueType"),
            "BaseFont": PDFName(FONT_NAME),
            "Encoding": PDFName("WinAnsiEncoding"),
            "FirstChar": FIRST,
            "LastChar": LAST,
            "Widths": PDFArray(widths),
            "FontDescriptor": document.Reference(descriptor, "form font descriptor"),
        }
    )


def _appearance(document: Any, name: str, size: tuple[float, float], drawn: str) -> Any:
    """How a field looks in one of its states."""
    form = pdfdoc.PDFStream(content=drawn, filters=[])
    form.dictionary["Type"] = PDFName("XObject")
    form.dictionary["Subtype"] = PDFName("Form")
    form.dictionary["BBox"] = PDFArray([0, 0, *size])
    form.dictionary["Resources"] = PDFDictionary({})
    return document.Reference(form, name)


def _spoken(field: Field) -> str:
    """What a reader aloud says of a field; its unit in brackets, from where ``take`` reads it back."""
    said = field.name.replace(".", " ").replace("_", " ")
    return f"{said} [{field.unit}]" if field.unit else said


def _widget(document: Any, field: Field, last: str) -> Any:
    left, bottom, width, height = field.area
    entries = {
        "Type": PDFName("Annot"),
        "Subtype": PDFName("Widget"),
        "T": PDFString(last),
        "TU": PDFString(_spoken(field)),
        "Rect": PDFArray([left, bottom, left + width, bottom + height]),
        "F": 4,
        "P": pdfdoc.PDFObjectReference(f"Page{field.page + 1}"),
        "StructParent": field.number,
    }
    name = f"look {field.name}"
    if field.tick:
        right, high = f"{width - 2:.2f}", f"{height - 2:.2f}"
        cross = f"{TICK_STROKE} 2 2 m {right} {high} l 2 {high} m {right} 2 l S"
        states = {
            state: _appearance(document, f"{name} {state}", (width, height), drawn)
            for state, drawn in (("Yes", cross), ("Off", ""))
        }
        off = PDFName("Off")
        entries |= {
            "FT": PDFName("Btn"),
            "V": off,
            "AS": off,
            "AP": PDFDictionary({"N": PDFDictionary(states)}),
        }
    else:
        look = _appearance(document, name, (width, height), "/Tx BMC EMC")
        entries |= {
            "FT": PDFName("Tx"),
            "DA": PDFString(f"/F {SIZE} Tf 0 g"),
            "V": PDFString(""),
            "AP": PDFDictionary({"N": look}),
        }
    return PDFDictionary(entries)


class _Node:
    """A part of the names: what fields share, or a field."""

    def __init__(self) -> None:
        self.parts: dict[str, _Node] = {}
        self.field: Field | None = None

    def add(self, field: Field) -> None:
        """Hang a field under the parts of its name; raises PageFault if the place is taken."""
        node = self
        for part in field.name.split("."):
            if node.field is not None:
                raise PageFault(f"form field {field.name!r} lies inside another field")
            node = node.parts.setdefault(part, _Node())
        if node.field is not None or node.parts:
            raise PageFault(f"two fields of the form are called {field.name!r}")
        node.field = field

    def written(self, document: Any, path: str, parent: Any) -> list[Any]:
        """References to the fields below this node."""
        references = []
        for part, node in self.parts.items():
            name = f"{path}.{part}" if path else part
            if node.field is not None:
                held = _widget(document, node.field, part)
                if parent is not None:
                    held["Parent"] = parent
                document.addAnnotation(node.field.label, held)
                references.append(document.refAnnotation(node.field.label))
                continue
            group = PDFDictionary({"T": PDFString(part)})
            if parent is not None:
                group["Parent"] = parent
            reference = document.Reference(group, f"field {name}")
            group["Kids"] = PDFArray(node.written(document, name, reference))
            references.append(reference)
        return references


def write_fields(fields: Sequence[Field], canvas: Any) -> None:
    """Put the form into the document's catalogue; without fields there is none."""
    if not fields:
        return
    document, tree = canvas.document, _Node()
    for field in fields:
        tree.add(field)
    font = document.Reference(_font(document), "form font")
    document.Catalog.AcroForm = PDFDictionary(
        {
            "Fields": PDFArray(tree.written(document, "", None)),
            "DR": PDFDictionary({"Font": PDFDictionary({"F": font})}),
            "DA": PDFString(f"/F {SIZE} Tf 0 g"),
        }
    )
