"""Sizes of type and sheet: the scale, the margins, the columns. Lengths in points unless a name says mm."""

from dataclasses import dataclass, replace
from functools import cache

from dossier.notation import PageFault
from dossier.rendering.blocks import Outer, Span
from dossier.rendering.fonts import CAPITALS
from dossier.rendering.text import Face

MM = 72 / 25.4

# rules, widths in points
HEAD_ABOVE = 0.35 * MM
HEAD_BELOW = 0.2 * MM
ROW = 0.14 * MM
TOTALS = 0.25 * MM
END = 0.35 * MM
FRAME = 0.5 * MM
PANEL = 0.7 * MM


@dataclass(frozen=True, slots=True)
class Style:
    """Size, distance of baselines and face of a text."""

    size: float
    leading: float
    face: Face = Face.REGULAR

    @property
    def base(self) -> float:
        """From the top of the first line to its baseline; capitals stand in the middle of the line."""
        return self.leading / 2 + self.size * CAPITALS / 2

    def faced(self, face: Face) -> "Style":
        """The same type in another face."""
        return replace(self, face=face)


@dataclass(frozen=True, slots=True)
class Scale:
    """All styles of a document."""

    title: Style
    package: Style
    heading: Style
    subheading: Style
    minor: Style
    question: Style
    answer: Style
    body: Style
    steps: Style
    table: Style
    caption: Style
    small: Style
    unit: Style
    running: Style
    label: Style


@cache
def scale(*, large: bool, narrow: bool, leaf: bool = False) -> Scale:
    """The styles of an edition: ``large`` for the crew, ``narrow`` for A5, ``leaf`` for what is laminated."""
    if leaf:
        return _leaf_scale()
    body = (11.0, 14.5) if large and not narrow else (10.0, 13.2) if large else (9.5, 4.25 * MM)
    table = (10.0, 12.4) if large else (8.5, 3.75 * MM)
    steps = (12.0, 15.6) if large else (9.5, 4.25 * MM)
    return Scale(
        title=Style(24, 29, Face.STRONG),
        package=Style(20, 24, Face.STRONG),
        heading=Style(15, 18, Face.STRONG),
        subheading=Style(12, 15, Face.STRONG) if not large else Style(14, 17, Face.STRONG),
        minor=Style(10.5, 13.5, Face.STRONG) if not large else Style(12, 15, Face.STRONG),
        question=Style(body[0], body[1], Face.ITALIC),
        answer=Style(12 if not large else 13, (5.2 if not large else 5.7) * MM),
        body=Style(*body),
        steps=Style(*steps),
        table=Style(*table),
        caption=Style(table[0], table[1]),
        small=Style(7.7, 3.4 * MM) if not large else Style(10.0, 12.4),
        unit=Style(7.5, 3.4 * MM) if not large else Style(10.0, 12.4),
        running=Style(7.5, 9.5),
        label=Style(7.7, 3.6 * MM),
    )


def _leaf_scale() -> Scale:
    """The styles of a sheet to laminate: nothing below 12 points, steps larger."""
    plain = Style(12, 14.6)
    return Scale(
        title=Style(24, 29, Face.STRONG),
        package=Style(20, 24, Face.STRONG),
        heading=Style(20, 24, Face.STRONG),
        subheading=Style(17, 20.5, Face.STRONG),
        minor=Style(14, 17, Face.STRONG),
        question=plain.faced(Face.ITALIC),
        answer=Style(14, 17),
        body=plain,
        steps=Style(14, 17.6),
        table=plain,
        caption=plain,
        small=plain,
        unit=plain,
        running=plain,
        label=plain,
    )


_PAPERS = {"A3": (297.0, 420.0), "A4": (210.0, 297.0), "A5": (148.0, 210.0), "letter": (215.9, 279.4)}


@dataclass(frozen=True, slots=True)
class Sheet:
    """One kind of sheet: its size, margins and columns."""

    paper: str
    width: float
    height: float
    left: float
    right: float
    head: float
    top: float
    bottom: float
    foot: float
    gutter: float
    outer_width: float
    outer: Outer
    framed: bool = False
    leaf: bool = False

    @property
    def narrow(self) -> bool:
        """Whether there is no room for an outer column."""
        return self.paper == "A5"

    @property
    def full_width(self) -> float:
        """Between the margins."""
        return self.width - self.left - self.right

    @property
    def text_width(self) -> float:
        """Width of the text column."""
        inner = self.width - self.left - self.right
        return inner if self.outer is Outer.NONE else inner - self.gutter - self.outer_width

    @property
    def outer_x(self) -> float:
        """Left edge of the outer column."""
        return self.width - self.right - self.outer_width

    @property
    def room(self) -> float:
        """Height for blocks."""
        return self.height - self.top - self.bottom

    def width_of(self, span: Span) -> float:
        """Width of a span."""
        return self.full_width if span is Span.FULL else self.text_width


def paper_size(paper: str, *, landscape: bool) -> tuple[float, float]:
    """Width and height of a paper; raises PageFault for one nobody knows."""
    if paper not in _PAPERS:
        raise PageFault(f"{paper!r} is no paper of this dossier; these are: {', '.join(_PAPERS)}")
    short, long = (side * MM for side in _PAPERS[paper])
    return (long, short) if landscape else (short, long)


PENCIL = 35 * MM
"""Width of a column for pencil."""


@cache
def sheet(paper: str, *, landscape: bool = False, outer: Outer = Outer.SIDE) -> Sheet:
    """The sheet of a paper; A5 has no outer column unless it is for pencil, and then a small one."""
    width, height = paper_size(paper, landscape=landscape)
    narrow = paper == "A5"
    if narrow and not landscape:
        outer = Outer.NONE
    mm = (15, 10, 10.6, 16, 18, 8.6, 6, 35) if narrow else (20, 15, 11.6, 18, 18, 10.2, 10, 45)
    left, right, head, top, bottom, foot, gutter, outer_width = (side * MM for side in mm)
    if outer is Outer.NOTES:
        outer_width = PENCIL
    return Sheet(paper, width, height, left, right, head, top, bottom, foot, gutter, outer_width, outer)


def column_width(paper: str, span: Span = Span.TEXT) -> float:
    """Width in millimetres that a figure may have on a paper, in the text column or over both."""
    return sheet(paper).width_of(span) / MM


TWO_GUTTER = 7 * MM
"""Between the two columns in which narrow blocks are gathered."""


def figure_width(paper: str) -> float:
    """Width in millimetres of a figure that stands in one of two columns; on A5 there is but one."""
    there = sheet(paper)
    return (there.full_width if there.narrow else (there.full_width - TWO_GUTTER) / 2) / MM


FRAME_LEFT, FRAME_EDGE, FRAME_PADDING = 20 * MM, 10 * MM, 4 * MM
TITLE_BLOCK_WIDTH, TITLE_BLOCK_HEIGHT = 180 * MM, 36 * MM


@cache
def framed_sheet(paper: str, *, landscape: bool = True) -> Sheet:
    """The sheet of a drawing: its margins are its frame (ISO 5457), and it bears no running head."""
    width, height = paper_size(paper, landscape=landscape)
    left = FRAME_LEFT if paper != "A5" else FRAME_LEFT * 0.75
    edge = FRAME_EDGE
    return Sheet(paper, width, height, left, edge, edge, edge, edge, edge, 0.0, 0.0, Outer.NONE, framed=True)


def drawing_area(paper: str, *, landscape: bool = True, whole: bool = False) -> tuple[float, float]:
    """Width and height in points that a drawing may take on its sheet.

    Without ``whole`` it stands above the title block and two lines of notes. With ``whole`` it may fill the
    frame, and must itself keep clear of the block in the lower right corner.
    """
    there = framed_sheet(paper, landscape=landscape)
    width, height = there.full_width - 2 * FRAME_PADDING, there.room - 2 * FRAME_PADDING
    return width, height if whole else height - TITLE_BLOCK_HEIGHT - 2 * 3.6 * MM - FRAME_PADDING


@cache
def bare_sheet(paper: str, *, landscape: bool) -> Sheet:
    """A sheet without margins, head or foot, for what draws itself to the edges."""
    width, height = paper_size(paper, landscape=landscape)
    return Sheet(paper, width, height, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, Outer.NONE, framed=True)


LEAF_BINDING, LEAF_EDGE, LEAF_LINE = 16 * MM, 10 * MM, 6.5 * MM


@cache
def leaf_sheet(paper: str, *, landscape: bool = False) -> Sheet:
    """A sheet to laminate: binding edge on the left, room to cut all round, a line at the foot."""
    width, height = paper_size(paper, landscape=landscape)
    edge, foot = LEAF_EDGE, LEAF_EDGE + LEAF_LINE
    return Sheet(
        paper, width, height, LEAF_BINDING, edge, edge, edge, foot, edge, 0.0, 0.0, Outer.NONE,
        framed=True, leaf=True,
    )  # fmt: skip
