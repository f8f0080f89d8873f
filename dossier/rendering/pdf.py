"""Writes the PDF: pages, bookmarks, metadata, language, colour, structure, and the files it carries.

Built to the rules of PDF/A-3, conformance level B (ISO 19005-3): every font embedded, a colour profile,
metadata in both forms and alike, no transparency, nothing outside the file. The same document gives the same
bytes: the only date in it is the imprint's, and nothing comes from clock, host, path or environment.
"""

import hashlib
from datetime import datetime
from io import BytesIO
from pathlib import Path
from typing import Any

from reportlab.pdfbase import pdfdoc
from reportlab.pdfgen.canvas import Canvas

from dossier.notation import PageFault
from dossier.rendering import fonts
from dossier.rendering.blocks import Attachment, Imprint
from dossier.rendering.icc import srgb
from dossier.rendering.layout.item import Entry
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.structure import Structure
from dossier.rendering.metadata import Undated, moment_of, stamp, xmp
from dossier.rendering.packing import packed
from dossier.rendering.tagging import write_structure
from dossier.rendering.widgets import write_fields

VERSION = (1, 7)
PRODUCER = "boat-heating-dossier"


class Stream(pdfdoc.PDFStream):  # type: ignore[misc]  # the library has no types
    """A stream whose end stands on a line of its own, as ISO 19005 asks."""

    def format(self, document: Any) -> bytes:
        """Bytes of the object."""
        dictionary = pdfdoc.PDFDictionary(self.dictionary.dict.copy())
        content = self.content.encode("latin-1") if isinstance(self.content, str) else self.content
        if self.filters and "Filter" not in dictionary.dict:
            for applied in reversed(self.filters):
                content = applied.encode(content)
            dictionary["Filter"] = pdfdoc.PDFArray([pdfdoc.PDFName(f.pdfname) for f in self.filters])
        dictionary["Length"] = len(content)
        written: bytes = pdfdoc.format(dictionary, document)
        return written + b"\nstream\n" + content + b"\nendstream\n"


class Sheets(Canvas):  # type: ignore[misc]  # the library has no types
    """The canvas, with what it does not know of itself: links that print, pages with their structure."""

    def __init__(self, imprint: Imprint) -> None:
        super().__init__(
            BytesIO(),
            pagesize=(595, 842),
            pageCompression=1,
            invariant=1,
            pdfVersion=VERSION,
            initialFontName=fonts.REGULAR,
            lang=imprint.language,
        )
        self.pages: list[Any] = []
        self.document = self._doc
        day = moment_of(imprint)
        self.document._timeStamp = stamp(day)  # noqa: SLF001 - else it is read from the environment
        if day is None:
            self.document.info = Undated()
        self.document.signature = hashlib.md5(b"dossier", usedforsecurity=False)

    def _setAnnotations(self, page: Any) -> None:  # noqa: N802 - the library's name
        """Finish a page: the library calls this before it keeps the page."""
        super()._setAnnotations(page)
        code = "\n".join([self._preamble, *self._code]) + "\n"
        self.document.signature.update(code.encode("latin-1"))
        page.Contents = Stream(content=code, filters=[pdfdoc.PDFZCompress])
        page.__NoDefault__ = [*page.__NoDefault__, "StructParents", "Tabs"]
        page.Tabs = pdfdoc.PDFName("S")
        self.pages.append(page)

    def note_annotation(self, name: str) -> None:
        """Let this page hold an annotation that is written later."""
        self._annotatePage(name)

    def add_link(
        self, key: str, said: str, area: tuple[float, float, float, float], name: str, number: int
    ) -> None:
        """Lead from an area of this page to the place of a key."""
        annotation = pdfdoc.PDFDictionary(
            {
                "Type": pdfdoc.PDFName("Annot"),
                "Subtype": pdfdoc.PDFName("Link"),
                "Rect": pdfdoc.PDFArray(list(area)),
                "Contents": pdfdoc.PDFString(said),
                "Dest": self._bookmarkReference(key),
                "Border": pdfdoc.PDFArray([0, 0, 0]),
                "F": 4,
                "StructParent": number,
            }
        )
        self._addAnnotation(annotation, name)


class Writer:
    """Writes one document."""

    def __init__(self, imprint: Imprint) -> None:
        self.imprint = imprint
        self.canvas = Sheets(imprint)
        self.structure = Structure()
        self.pen = Pen(self.canvas, self.structure)
        self._level = -1

    def start_page(self, width: float, height: float) -> None:
        """Begin a page of this size."""
        self.canvas.setPageSize((width, height))
        self.pen.new_page()

    def end_page(self) -> None:
        """Finish the page."""
        self.pen.end_page()
        self.canvas.showPage()

    def bookmark(self, entry: Entry) -> None:
        """Add a heading to the bookmarks; levels do not jump."""
        self._level = min(entry.level - 1, self._level + 1)
        title = fonts.shown(f"{entry.number} {entry.title}".strip())
        self.canvas.addOutlineEntry(title, entry.key, self._level, closed=self._level > 0)

    def save(self, out: Path) -> None:
        """Write the file, whole or not at all. Raises PageFault if the folder cannot be written to."""
        content = self.content()
        part = out.with_name(f".{out.name}.part")
        try:
            part.write_bytes(content)
            part.replace(out)
        except OSError as fault:
            part.unlink(missing_ok=True)
            raise PageFault(f"{out} cannot be written: {fault.strerror}") from fault

    def content(self) -> bytes:
        """Bytes of the file."""
        document = self.canvas.document
        self._describe(document)
        for font in document.delayedFonts:
            font.addObjects(document)
        document.delayedFonts = []
        write_fields(self.pen.fields, self.canvas)
        write_structure(self.structure, self.canvas)
        for kept in list(document.idToObject.values()):
            if type(kept) is pdfdoc.PDFStream:
                kept.__class__ = Stream
        document.info.invariant = document.invariant
        document.info.digest(document.signature)
        document.Outlines.prepare(document, self.canvas)
        if document.Outlines.ready < 0:
            document.Catalog.Outlines = None
        return packed(document)

    def _describe(self, document: Any) -> None:
        """Metadata, colour, attachments, and how a viewer shows the file."""
        imprint, catalog = self.imprint, document.Catalog
        title = fonts.shown(f"{imprint.boat}: {imprint.title}")
        author, subject = fonts.shown(imprint.author), fonts.shown(imprint.subject)
        keywords = fonts.shown(", ".join(imprint.keywords))
        producer = fonts.shown(imprint.producer or PRODUCER)
        document.setTitle(title)
        document.setAuthor(author)
        document.setSubject(subject)
        document.setKeywords(keywords)
        document.setCreator(producer)
        document.setProducer(producer)
        packet = xmp(
            imprint, title=title, author=author, subject=subject, keywords=keywords, producer=producer
        )
        metadata = Stream(content=packet, filters=[])
        metadata.dictionary["Type"] = pdfdoc.PDFName("Metadata")
        metadata.dictionary["Subtype"] = pdfdoc.PDFName("XML")
        catalog.__NoDefault__ = [*catalog.__NoDefault__, "OutputIntents", "AF"]
        catalog.Metadata = document.Reference(metadata, "metadata")
        catalog.ViewerPreferences = pdfdoc.PDFDictionary({"DisplayDocTitle": "true"})
        catalog.MarkInfo = pdfdoc.PDFDictionary({"Marked": "true"})
        catalog.OutputIntents = pdfdoc.PDFArray([_output_intent(document)])
        if self._level >= 0:
            catalog.setPageMode("UseOutlines")
        if imprint.attachments:
            _attach(document, imprint)


def _output_intent(document: Any) -> Any:
    profile = Stream(content=srgb(), filters=[pdfdoc.PDFZCompress])
    profile.dictionary["N"] = 3
    return pdfdoc.PDFDictionary(
        {
            "Type": pdfdoc.PDFName("OutputIntent"),
            "S": pdfdoc.PDFName("GTS_PDFA1"),
            "OutputConditionIdentifier": pdfdoc.PDFString("sRGB IEC61966-2-1"),
            "Info": pdfdoc.PDFString("sRGB IEC61966-2-1"),
            "DestOutputProfile": document.Reference(profile, "profile"),
        }
    )


def _attach(document: Any, imprint: Imprint) -> None:
    """Carry files: their bytes, what they are, and the document's date."""
    names = [attachment.name for attachment in imprint.attachments]
    for name in names:
        if not name or "/" in name or "\\" in name or name.startswith(".") or names.count(name) > 1:
            raise PageFault(f"a file carried in the PDF needs a plain name of its own, not {name!r}")
    specs = [(a.name, _file_spec(document, a, moment_of(imprint))) for a in imprint.attachments]
    tree: list[Any] = []
    for name, spec in sorted(specs, key=lambda pair: pair[0]):
        tree += [pdfdoc.PDFString(name), spec]
    files = pdfdoc.PDFDictionary({"Names": pdfdoc.PDFArray(tree)})
    document.Catalog.Names = pdfdoc.PDFDictionary({"EmbeddedFiles": files})
    document.Catalog.AF = pdfdoc.PDFArray([spec for _, spec in specs])


def _file_spec(document: Any, attachment: Attachment, moment: datetime | None) -> Any:
    content = attachment.content
    document.signature.update(content)
    file = Stream(content=content, filters=[pdfdoc.PDFZCompress])
    file.dictionary["Type"] = pdfdoc.PDFName("EmbeddedFile")
    file.dictionary["Subtype"] = "/" + attachment.mime.replace("/", "#2F")
    dates = {}
    if moment is not None:
        day = pdfdoc.PDFString(f"D:{moment:%Y%m%d%H%M%S}+00'00'")
        dates = {"ModDate": day, "CreationDate": day}
    checksum = hashlib.md5(content, usedforsecurity=False).hexdigest()
    file.dictionary["Params"] = pdfdoc.PDFDictionary(
        {"Size": len(content), **dates, "CheckSum": f"<{checksum}>"}
    )
    reference = document.Reference(file, f"file {attachment.name}")
    spec = pdfdoc.PDFDictionary(
        {
            "Type": pdfdoc.PDFName("Filespec"),
            "F": pdfdoc.PDFString(attachment.name),
            "UF": pdfdoc.PDFString(attachment.name),
            "Desc": pdfdoc.PDFString(attachment.description or attachment.name),
            "AFRelationship": pdfdoc.PDFName(attachment.relationship),
            "EF": pdfdoc.PDFDictionary({"F": reference, "UF": reference}),
        }
    )
    return document.Reference(spec, f"file specification {attachment.name}")
