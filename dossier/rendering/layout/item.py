"""What is laid out: a stretch of a column with its height, the space round it, and where it may be broken."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from dossier.rendering.layout.lines import Lines, Piece
from dossier.rendering.layout.marks import draw_sign
from dossier.rendering.layout.measures import MM, Sheet, Style
from dossier.rendering.layout.pen import Pen
from dossier.rendering.text import Text


class Stands(str, Enum):
    """Where an item stands on the sheet."""

    TEXT = "text"
    FULL = "full"
    OUTER = "outer"
    FOOT = "foot"
    """At the foot of the sheet, over both columns."""


@dataclass(slots=True)
class Item:
    """One thing laid out.

    ``above`` and ``below`` are the spaces to its neighbours, of which the larger counts; at the head of a
    sheet there is none. ``hugs`` sets it as near to what stands above as it asks itself. ``keeps`` holds it
    on the sheet of what follows. ``floats`` lets what follows go before it rather than leave the rest of a
    sheet empty.
    """

    height: float
    above: float = 0.0
    below: float = 0.0
    stands: Stands = Stands.TEXT
    keeps: bool = False
    floats: bool = False
    hugs: bool = False
    what: str = ""

    @property
    def least(self) -> float:
        """Height of the smallest part that may stand at the foot of a sheet."""
        return self.height

    def split(self, room: float) -> "tuple[Item, Item] | None":
        """Two parts, the first no higher than ``room``, or None if it cannot be broken there."""
        del room
        return None

    def laid(self) -> "Iterator[tuple[Item, float, float]]":
        """What is put on the sheet: itself, or its parts, each so far right of and below its corner."""
        yield self, 0.0, 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw with the upper left corner at (x, top)."""
        raise NotImplementedError

    def places(self) -> Iterator[tuple[str, float]]:
        """Keys of places in it, and how far below its top they stand."""
        return iter(())


@dataclass(slots=True)
class Break(Item):
    """The next item starts a new sheet: of this kind, or of the same kind if None."""

    height: float = 0.0
    sheet: Sheet | None = None


@dataclass(frozen=True, slots=True)
class Entry:
    """A heading in the bookmarks and the contents."""

    level: int
    number: str
    title: str
    key: str
    running: Text = ""


@dataclass(slots=True)
class Marker(Item):
    """A heading's entry or an anchor; takes no room and stands with what follows."""

    height: float = 0.0
    keeps: bool = True
    entry: Entry | None = None
    keys: Sequence[str] = ()

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw nothing."""

    def places(self) -> Iterator[tuple[str, float]]:
        """The keys, at the top."""
        return ((key, 0.0) for key in self.keys)


def write(  # noqa: PLR0913, PLR0917 - what, where, and against which edge
    pen: Pen, lines: Lines, x: float, top: float, width: float = 0.0, align: str = "left"
) -> None:
    """Write lines with the first line's top at ``top``; right and centre need the width."""
    style = lines.style
    y = top - style.base
    for line in lines.lines:
        if line:
            last = line[-1]
            wide = last.x + last.width
            start = x + (width - wide if align == "right" else (width - wide) / 2 if align == "centre" else 0)
            for piece in line:
                _write_piece(pen, piece, start + piece.x, y, style.size)
        y -= style.leading


def _write_piece(pen: Pen, piece: Piece, x: float, y: float, size: float) -> None:
    linked = piece.link and piece.text
    if linked:
        pen.push("Link")
    if piece.sign:
        draw_sign(pen, piece.sign, x, y, size, piece.width)
    else:
        pen.words(x, y + piece.rise, piece.text, piece.font, piece.size)
    if linked:
        pen.link(piece.link, piece.text, (x, y - 0.25 * size, x + piece.width, y + 0.8 * size))
        pen.pop()


PART = 2  # lines, at the least, on either side of a break
MOST_WHOLE = 12  # lines of a title or an answer that stays whole
EMPTY = Lines(Style(9.5, 4.25 * MM), ())


@dataclass(slots=True)
class TextItem(Item):
    """Lines of text, broken between lines but never with a single line left on either side."""

    lines: Lines = EMPTY
    role: str = "P"
    indent: float = 0.0
    key: str = ""
    whole: bool = False
    again: object = None

    @property
    def least(self) -> float:
        """Two lines, or all of three."""
        count = len(self.lines.lines)
        return self.height if self._kept or count < 2 * PART else PART * self.lines.style.leading

    @property
    def _kept(self) -> bool:
        """Whether it stays whole: what runs over more lines than people write cannot."""
        return self.whole and len(self.lines.lines) <= MOST_WHOLE

    def split(self, room: float) -> tuple[Item, Item] | None:
        """Break between lines."""
        leading, count = self.lines.style.leading, len(self.lines.lines)
        first = min(int(room / leading + 1e-6), count - PART)
        if self._kept or count < 2 * PART or first < PART:
            return None
        upper, lower = self.lines.part(0, first), self.lines.part(first)
        again = self.again or object()
        return (
            replace(self, height=upper.height, lines=upper, below=0.0, again=again),
            replace(self, height=lower.height, lines=lower, above=0.0, key="", again=again),
        )

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write the lines."""
        with pen.element(self.role, again=self.again):
            write(pen, self.lines, x + self.indent, top)

    def places(self) -> Iterator[tuple[str, float]]:
        """The paragraph's own key and those in its text."""
        if self.key:
            yield self.key, 0.0
        yield from self.lines.targets()


def text_item(  # noqa: PLR0913 - an item has as many properties
    lines: Lines,
    stands: Stands = Stands.TEXT,
    above: float = 0.0,
    below: float = 0.0,
    *,
    role: str = "P",
    indent: float = 0.0,
    key: str = "",
    keeps: bool = False,
    whole: bool = False,
    hugs: bool = False,
) -> TextItem:
    """A stretch of text."""
    return TextItem(
        lines.height,
        above,
        below,
        stands,
        keeps,
        hugs=hugs,
        lines=lines,
        role=role,
        indent=indent,
        key=key,
        whole=whole,
    )


@dataclass(slots=True)
class Stack(Item):
    """Items one below the other as one, as in a pair or a column that may not be broken."""

    items: Sequence[Item] = ()
    width: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw all."""
        for item, offset in zip(self.items, stacked(self.items)[0], strict=True):
            item.draw(pen, x, top - offset)

    def places(self) -> Iterator[tuple[str, float]]:
        """Places of all."""
        for item, offset in zip(self.items, stacked(self.items)[0], strict=True):
            for key, below in item.places():
                yield key, offset + below


def gap(upper: Item | None, lower: Item) -> float:
    """Space between two neighbours; a heading right under a heading stands nearer."""
    if upper is None:
        return 0.0
    if lower.hugs:
        return lower.above
    wide = lower.above / 2 if upper.keeps and lower.keeps else lower.above
    return max(upper.below, wide)


def stacked(items: Sequence[Item]) -> tuple[list[float], float]:
    """Distances of the items' tops from the first one's, and the height of all."""
    offsets: list[float] = []
    at, last = 0.0, None
    for item in items:
        if isinstance(item, Marker):
            offsets.append(at)
            continue
        at += gap(last, item)
        offsets.append(at)
        at += item.height
        last = item
    return offsets, at
