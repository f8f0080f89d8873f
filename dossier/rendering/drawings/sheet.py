"""The drawing sheet: frame, reference fields, centring marks and title block.

Frame and fields after ISO 5457:1999, title block after ISO 7200:2004 (both in part from memory).
"""

from dataclasses import dataclass, field, replace
from itertools import pairwise

from dossier.rendering.drawings.lettering import (
    CAPITALS,
    ITALIC,
    LEAST,
    REGULAR,
    SEMIBOLD,
    SMALL,
    folded,
    leading,
    text_width,
)
from dossier.rendering.drawings.pens import FRAME, MIDDLE
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.shapes import Drawing, Line, Pen, Rect, Shape, Text

PAPERS: dict[str, tuple[float, float]] = {
    "A4": (297.0, 210.0),
    "A4 portrait": (210.0, 297.0),
    "A3": (420.0, 297.0),
    "letter": (279.4, 215.9),
    "letter portrait": (215.9, 279.4),
}
BINDING, OTHER = 20.0, 10.0  # borders
FIELD = 50.0
LETTERS = "ABCDEFGHJKLMNPQR"  # without I and O
BLOCK = 180.0
ROW = 12.0
COLUMNS = (0.0, 45.0, 90.0, 135.0, 180.0)


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """The fields of the title block, ready for the page; ``words`` may rename the labels.

    ``approved_by`` says who signs, or who has signed: a program approves nothing.
    """

    owner: str = ""
    title: str = ""
    boat: str = ""
    number: str = ""
    prepared_by: str = ""
    approved_by: str = ""
    is_signed: bool = False
    document_type: str = ""
    status: str = ""
    date: str = ""
    revision: str = ""
    language: str = ""
    scale: str = ""
    sheet: str = ""
    words: dict[str, str] = field(default_factory=dict)


LABELS: dict[str, str] = {
    "owner": "Legal owner",
    "title": "Title",
    "boat": "Boat",
    "number": "Document number",
    "prepared_by": "Prepared by",
    "approved_by": "Approved by",
    "document_type": "Document type",
    "status": "Status",
    "date": "Date of issue",
    "revision": "Revision",
    "language": "Language",
    "scale": "Scale",
    "sheet": "Sheet",
}
GRID = (
    (("owner", 0.0, 45.0), ("title", 45.0, 90.0), ("boat", 90.0, 135.0), ("number", 135.0, 180.0)),
    (
        ("prepared_by", 0.0, 45.0),
        ("approved_by", 45.0, 90.0),
        ("document_type", 90.0, 135.0),
        ("status", 135.0, 180.0),
    ),
    (
        ("date", 0.0, 45.0),
        ("revision", 45.0, 67.5),
        ("language", 67.5, 90.0),
        ("scale", 90.0, 135.0),
        ("sheet", 135.0, 180.0),
    ),
)
STRONG = frozenset({"title", "boat", "number", "revision", "sheet"})


@dataclass(frozen=True, slots=True)
class Form:
    """What is printed round a drawing: paper, title block, notes over it, words instead of ours.

    ``sheets`` are the sheet numbers where a drawing takes several sheets, in order.
    """

    title: TitleBlock = TitleBlock()
    paper: str = "A4"
    notes: tuple[str, ...] = ()
    words: dict[str, str] = field(default_factory=dict)
    sheets: tuple[str, ...] = ()

    def word(self, key: str, ours: str) -> str:
        """A word of the drawing as the caller wants it, else ours."""
        return self.words.get(key, ours)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of paper by name, with its frame; sizes in millimetres."""

    paper: str

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the trimmed sheet."""
        return PAPERS[self.paper]

    @property
    def frame(self) -> Box:
        """The frame: 20 mm on the binding side, 10 mm elsewhere."""
        across, up = self.size
        return Box(BINDING, OTHER, across - OTHER, up - OTHER)

    @property
    def block(self) -> Box:
        """Room of the title block, lower right."""
        frame = self.frame
        return Box(frame.right - BLOCK, frame.bottom, frame.right, frame.bottom + 3 * ROW)


def framed(sheet: Sheet) -> list[Shape]:
    """Frame, centring marks and reference fields with their letters and numbers."""
    frame = sheet.frame
    shapes: list[Shape] = [Rect(frame.left, frame.bottom, frame.width, frame.height, FRAME)]
    return shapes + _centring_marks(sheet) + _fields(sheet)


def _centring_marks(sheet: Sheet) -> list[Shape]:
    """Marks at the axes of the trimmed sheet; where one would meet the title block it stays outside."""
    (across, up), frame, block = sheet.size, sheet.frame, sheet.block
    x, y = across / 2, up / 2
    inside = 0.0 if block.left <= x <= block.right else 5.0
    return [
        Line((x, frame.top + 4.0), (x, frame.top - 5.0), FRAME),
        Line((x, frame.bottom - 4.0), (x, frame.bottom + inside), FRAME),
        Line((frame.left - 4.0, y), (frame.left + 5.0, y), FRAME),
        Line((frame.right + 4.0, y), (frame.right - 5.0, y), FRAME),
    ]


def _edges(low: float, high: float, middle: float) -> list[float]:
    """Ends of the reference fields, 50 mm each counted from the middle."""
    count = int((high - low) // (2 * FIELD)) + 1
    inner = [middle + n * FIELD for n in range(-count, count + 1)]
    return [low, *(edge for edge in inner if low + FIELD / 4 < edge < high - FIELD / 4), high]


def _fields(sheet: Sheet) -> list[Shape]:
    """Numbers along the top and letters down the right side."""
    (across, up), frame = sheet.size, sheet.frame
    shapes: list[Shape] = []
    columns = _edges(frame.left, frame.right, across / 2)
    for n, (left, right) in enumerate(pairwise(columns)):
        middle = (left + right) / 2
        shapes.append(Text(middle, frame.top + 1.4, str(n + 1), SMALL, REGULAR, "middle"))
        if n and abs(left - across / 2) > 1.0:
            shapes.append(Line((left, frame.top), (left, frame.top + 4.0), MIDDLE))
    rows = _edges(frame.bottom, frame.top, up / 2)[::-1]
    for n, (high, low) in enumerate(pairwise(rows)):
        middle = (low + high) / 2
        shapes.append(Text(frame.right + 2.4, middle - 0.95, LETTERS[n], SMALL, REGULAR, "middle"))
        if n and abs(high - up / 2) > 1.0:
            shapes.append(Line((frame.right, high), (frame.right + 4.0, high), MIDDLE))
    return shapes


def title_block(sheet: Sheet, title: TitleBlock) -> list[Shape]:
    """The title block in its corner."""
    block = sheet.block
    shapes: list[Shape] = [Rect(block.left, block.bottom, block.width, block.height, FRAME)]
    for n, row in enumerate(GRID):
        top = block.top - n * ROW
        if n:
            shapes.append(Line((block.left, top), (block.right, top), Pen(0.35)))
        for name, left, right in row:
            if left:
                shapes.append(Line((block.left + left, top), (block.left + left, top - ROW), Pen(0.35)))
            shapes += _entry(title, name, Box(block.left + left, top - ROW, block.left + right, top))
    return shapes


def _entry(title: TitleBlock, name: str, box: Box) -> list[Shape]:
    """One field: its label small, its text as large as it fits."""
    x, room = box.left + 1.6, box.width - 3.0
    label = title.words.get(name, LABELS[name])
    shapes: list[Shape] = [Text(x, box.top - 3.1, folded(label, room, LEAST, REGULAR, 1)[0], LEAST)]
    text = str(getattr(title, name))
    return shapes + _said(text, name, box, blank=name == "approved_by" and not title.is_signed)


def _said(text: str, name: str, box: Box, *, blank: bool = False) -> list[Shape]:
    """What a field says, in one line of large letters or two of small ones; ``blank`` waits for a hand."""
    if not text:
        return []
    x, room = box.left + 1.6, box.width - 3.0
    weight = ITALIC if blank else SEMIBOLD if name in STRONG else REGULAR
    if not blank and text_width(text, CAPITALS, weight) <= room:
        return [Text(x, box.bottom + 2.9, text, CAPITALS, weight)]
    lines = folded(text, room, SMALL, weight)
    base = box.bottom + (3.2 if len(lines) == 1 else 4.6)
    return [Text(x, base - n * leading(SMALL), line, SMALL, weight) for n, line in enumerate(lines)]


def numbered(drawing: Drawing, paper: str, number: str, kind: str = "") -> Drawing:
    """A finished sheet with its number, and what kind it is, entered in the title block where left empty."""
    block = Sheet(paper).block
    entered: list[Shape] = []
    for n, row in enumerate(GRID):
        top = block.top - n * ROW
        for name, left, right in row:
            said = {"sheet": number, "document_type": kind}.get(name, "")
            entered += _said(said, name, Box(block.left + left, top - ROW, block.left + right, top))
    return replace(drawing, shapes=(*drawing.shapes, *entered))


def noted(sheet: Sheet, form: Form) -> tuple[list[Shape], float]:
    """The notes over the title block, and the height over which the sheet is free."""
    block = sheet.block
    lines = [line for note in form.notes for line in folded(note, block.width - 4.0, SMALL, most=2)]
    over = len(lines) * leading(SMALL) + 2.5 if lines else 0.0
    first = block.top + over - 3.4
    notes: list[Shape] = [
        Text(block.left + 1.0, first - n * leading(SMALL), line, SMALL) for n, line in enumerate(lines)
    ]
    return notes, block.top + over
