"""Sets the table of contents from the entries of the headings."""

from collections.abc import Sequence
from dataclasses import dataclass

from dossier.rendering.blocks import Contents
from dossier.rendering.layout.figures import PairItem
from dossier.rendering.layout.item import EMPTY, Item, Stack, Stands, stacked, text_item, write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.measures import MM
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.setting import Room, Setting, sets
from dossier.rendering.text import page_of, strong

INDENT = 9 * MM
GUTTER = 10 * MM
DEEPER = 11 * MM


@dataclass(slots=True)
class ContentsItem(Item):
    """One line of the contents, a link as a whole."""

    number: Lines = EMPTY
    title: Lines = EMPTY
    page: Lines = EMPTY
    left: float = 0.0
    indent: float = 0.0
    width: float = 0.0
    key: str = ""
    again: object = None

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write number, title and page, dots between."""
        bottom, style = top - self.height, self.title.style
        with pen.element("TOC", again=self.again), pen.element("TOCI"), pen.element("Link"):
            write(pen, self.number, x + self.left, top)
            write(pen, self.title, x + self.indent, top)
            last = top - self.title.height + style.leading - style.base
            ends = self.title.lines[-1][-1]
            start = x + self.indent + ends.x + ends.width + 1.5 * MM
            stop = x + self.width - 8 * MM
            if stop > start:
                pen.rule(start, last, stop, last, 0.35, "0.5 2.6")
            write(pen, self.page, x, top - self.title.height + style.leading, self.width, "right")
            pen.link(self.key, " ".join(_said(self.title)), (x + self.left, bottom, x + self.width, top))


def _said(lines: Lines) -> list[str]:
    return ["".join(piece.text for piece in line) for line in lines.lines]


@sets(Contents)
def contents(block: Contents, setting: Setting, room: Room) -> list[Item]:
    """The contents, a line each heading down to a depth; in two columns where one sheet is too short."""
    title = setting.fold(block.title, setting.scale.heading, room.width)
    head: Item = text_item(title, room.stands, 8 * MM, 4 * MM, role="P", keeps=True)
    lines = _lines(block, setting, room)
    column = (room.full - GUTTER) / 2
    if stacked([head, *lines])[1] <= setting.sheet.room or setting.sheet.narrow or room.full <= room.width:
        return [head, *lines]
    lines = _lines(block, setting, Room(column, column))
    starts = [number for number, line in enumerate(lines) if line.keeps and number]
    middle = min(starts, key=lambda n: _unlike(lines, n), default=0)
    left, right = (Stack(stacked(p)[1], items=p, width=column) for p in (lines[:middle], lines[middle:]))
    height = max(left.height, right.height)
    if not middle or head.height + 4 * MM + height > setting.sheet.room:
        return [head, *_lines(block, setting, room)]
    both = PairItem(
        height, 4 * MM, 0.0, Stands.FULL, what="the contents", left=left, right=right, right_x=column + GUTTER
    )
    return [head, both]


def _unlike(lines: Sequence[Item], middle: int) -> float:
    """How much the two parts differ in height."""
    return abs(stacked(lines[:middle])[1] - stacked(lines[middle:])[1])


def _lines(block: Contents, setting: Setting, room: Room) -> list[Item]:
    scale, again = setting.scale, object()
    items: list[Item] = []
    for entry in setting.entries:
        if entry.level > block.depth:
            continue
        first = entry.level == 1
        left = 0.0 if first else INDENT
        number = setting.fold(strong(entry.number) if first else entry.number, scale.body, 40 * MM)
        indent = INDENT
        if not first and entry.number:
            indent += max(DEEPER, number.width + 2.4 * MM)
        words = strong(entry.title) if first else entry.title
        set_title = setting.fold(words, scale.body, room.width - indent - 12 * MM)
        items.append(
            ContentsItem(
                set_title.height, (2.4 if first else 0.35) * MM, 0.35 * MM, room.stands, keeps=first,
                what="a line of the contents", number=number, title=set_title,
                page=setting.fold(page_of(entry.key), scale.body, 12 * MM), left=left, indent=indent,
                width=room.width, key=entry.key, again=again,
            )
        )  # fmt: skip
    return items
