"""What a file says of itself besides its pages: titles, language, and the one date of the document.

The information dictionary and the metadata packet say the same.
"""

from calendar import timegm
from datetime import datetime, timezone
from time import gmtime
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.utils import TimeStamp
from reportlab.pdfbase import pdfdoc

from dossier.notation import PageFault
from dossier.rendering.blocks import Imprint

PART = 3  # of ISO 19005
DATES = ("CreateDate", "ModifyDate", "MetadataDate")
UNKNOWN = datetime(2000, 1, 1, tzinfo=timezone.utc)
"""For the library, which must have some moment; it stands nowhere in the file."""


class Undated(pdfdoc.PDFInfo):  # type: ignore[misc]  # the library has no types
    """What a document without a date says of itself: all but a date."""

    def format(self, document: Any) -> bytes:
        """Bytes of the dictionary."""
        said = {
            "Title": self.title,
            "Author": self.author,
            "Subject": self.subject,
            "Keywords": self.keywords,
            "Creator": self.creator,
            "Producer": self.producer,
        }
        entries = {name: pdfdoc.PDFString(words) for name, words in said.items()}
        entries["Trapped"] = pdfdoc.PDFName(self.trapped)
        written: bytes = pdfdoc.PDFDictionary(entries).format(document)
        return written


def moment_of(imprint: Imprint) -> datetime | None:
    """The document's date; of a month its first day; None of a document without a date."""
    if not imprint.date and imprint.undated:
        return None
    written = "%Y-%m-%d" if imprint.date.count("-") > 1 else "%Y-%m"
    try:
        return datetime.strptime(imprint.date, written).replace(tzinfo=timezone.utc)
    except ValueError as fault:
        raise PageFault(f"the date of the document is written YYYY-MM-DD, not {imprint.date!r}") from fault


def stamp(moment: datetime | None) -> TimeStamp:
    """The library's time stamp, set to the document's date."""
    made = TimeStamp(1)
    seconds = timegm((moment or UNKNOWN).timetuple())
    made.t, made.lt, made.tzname, made.dhh, made.dmm = seconds, tuple(gmtime(seconds)), "UTC", 0, 0
    made.YMDhms = made.lt[:6]
    return made


def xmp(  # noqa: PLR0913 - one word each
    imprint: Imprint, *, title: str, author: str, subject: str, keywords: str, producer: str
) -> bytes:
    """The metadata packet; it says the same as the information dictionary."""
    moment = moment_of(imprint)
    day = f"{moment:%Y-%m-%dT%H:%M:%S}+00:00" if moment else ""
    dates = "".join(f"<xmp:{name}>{day}</xmp:{name}>\n" for name in DATES if day)
    given = {"title": title, "author": author, "subject": subject, "keywords": keywords, "producer": producer}
    said = {name: escape(words) for name, words in given.items()}
    return (
        '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>\n'
        '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">\n'
        '<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" '
        'xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:xmp="http://ns.adobe.com/xap/1.0/" '
        'xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">\n'
        "<dc:format>application/pdf</dc:format>\n"
        f'<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{said["title"]}</rdf:li></rdf:Alt></dc:title>\n'
        f"<dc:creator><rdf:Seq><rdf:li>{said['author']}</rdf:li></rdf:Seq></dc:creator>\n"
        f'<dc:description><rdf:Alt><rdf:li xml:lang="x-default">{said["subject"]}</rdf:li></rdf:Alt>'
        "</dc:description>\n"
        f"<dc:language><rdf:Bag><rdf:li>{escape(imprint.language)}</rdf:li></rdf:Bag></dc:language>\n"
        f"<pdf:Keywords>{said['keywords']}</pdf:Keywords>\n"
        f"<pdf:Producer>{said['producer']}</pdf:Producer>\n"
        f"<xmp:CreatorTool>{said['producer']}</xmp:CreatorTool>\n"
        f"{dates}"
        f"<pdfaid:part>{PART}</pdfaid:part>\n<pdfaid:conformance>B</pdfaid:conformance>\n"
        "</rdf:Description></rdf:RDF></x:xmpmeta>\n"
        '<?xpacket end="w"?>'
    ).encode()
