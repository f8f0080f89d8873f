"""Sheets: the imprint every sheet bears, breaks, the title page, drawing sheets, files inside the PDF."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from dossier.rendering.blocks.figures import Drawable
from dossier.rendering.text import Text


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file carried inside the PDF: its bytes as they are, and what it is to the document."""

    name: str
    content: bytes
    mime: str
    description: str = ""
    relationship: str = "Source"


@dataclass(frozen=True, slots=True)
class Imprint:
    """What document this is: number, revision and status on every sheet, the rest in block and metadata.

    ``date`` is written YYYY-MM-DD or YYYY-MM and is the only date in the file; of a document without one
    ``undated`` says so, and the file bears no date at all. ``foot`` is the sentence in the middle
    of the foot. ``approval`` says who signs; nothing is approved by a program. ``large`` sets larger type,
    as for the aboard edition.
    """

    boat: str
    title: str
    number: str
    revision: str
    status: str
    date: str
    edition: str
    language: str = "en"
    owner: str = ""
    author: str = ""
    approval: str = ""
    subject: str = ""
    keywords: tuple[str, ...] = ()
    foot: Text = ""
    producer: str = ""
    large: bool = False
    undated: str = ""
    attachments: tuple[Attachment, ...] = ()


class Outer(str, Enum):
    """What the outer column of a sheet is for."""

    SIDE = "side"
    """Basis, source and limit of what stands beside it."""
    NOTES = "notes"
    """A ruled-off column for pencil."""
    NONE = "none"
    """No outer column: the text takes the whole width."""


@dataclass(frozen=True, slots=True)
class PageBreak:
    """The next block starts a new sheet."""


@dataclass(frozen=True, slots=True)
class NewSheet:
    """The next block starts a new sheet of another kind, which lasts until the next ``NewSheet``.

    A heading of level 1 returns to an upright sheet with an outer column. ``paper`` is ``A3`` for fold-outs,
    empty for the paper of the document. ``leaf`` is a sheet to laminate: letters of 12 points or more, no
    running head, room to cut, marks of the holes.
    """

    landscape: bool = False
    outer: Outer = Outer.SIDE
    paper: str = ""
    leaf: bool = False


@dataclass(frozen=True, slots=True)
class DocumentTitle:
    """The title of the document, 24 pt, with a line above and one below it."""

    title: Text
    above: Text = ""
    below: Text = ""


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """The title block at the foot of the title page; all it says stands in the imprint."""

    title: Text
    kind: Text
    scale: Text = ""


@dataclass(frozen=True, slots=True)
class DrawingSheet:
    """A drawing on a sheet of its own.

    Give either ``drawing``, which gets frame, centring marks and title block here
    (``layout.measures.drawing_area`` tells the room), or ``whole``: a function that draws the whole sheet,
    frame and block and all, when told its number ("24 of 31"). ``kind`` is the document type of the block
    ("Drawing 1, schematic"); ``notes`` stand above the block. ``name`` is what ``dossier draw`` calls it.
    Of a drawing on several sheets each tells which ``part`` of how many it is; the first stands in contents
    and bookmarks for all.
    """

    title: Text
    kind: Text
    alt: str
    key: str
    drawing: Drawable | None = None
    whole: Callable[[str], Drawable] | None = None
    scale: Text = ""
    notes: Text = ""
    landscape: bool = True
    paper: str = ""
    name: str = ""
    part: int = 1
    parts: int = 1
