"""Sets figures, the outer column, and stacks side by side."""

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.notation import PageFault
from dossier.rendering.blocks import Drawable, Figure, Pair, Side, Span, Together
from dossier.rendering.layout.item import EMPTY, Break, Item, Stack, Stands, stacked, write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.measures import MM
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.rows import NOTES_GAP, RowsItem
from dossier.rendering.layout.setting import Room, Setting, sets
from dossier.rendering.layout.tables import captions

CAPTION_GAP = 2.6 * MM
LEAST_COLUMN = 55 * MM


@dataclass(slots=True)
class FigureItem(Item):
    """A caption over a drawing at its own size."""

    caption: Lines = EMPTY
    drawing: Drawable | None = None
    notes: Lines = EMPTY
    alt: str = ""
    key: str = ""

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write the caption, let the drawing draw itself."""
        with pen.element("Caption"):
            write(pen, self.caption, x, top)
        top -= self.caption.height + CAPTION_GAP
        if self.drawing is not None:
            with pen.element("Figure", alt=self.alt):
                pen.drawing(self.drawing, x, top - self.drawing.height)
            top -= self.drawing.height
        if self.notes.lines:
            with pen.element("P"):
                write(pen, self.notes, x, top - NOTES_GAP)

    def places(self) -> Iterator[tuple[str, float]]:
        """Its own key."""
        if self.key:
            yield self.key, 0.0


@sets(Figure)
def figure(block: Figure, setting: Setting, room: Room) -> list[Item]:
    """A figure; one wider than the text column takes both. Raises PageFault if it is wider than that."""
    wide = block.drawing.width
    stands, width = room.stands, room.width
    if stands is Stands.TEXT and (block.span is Span.FULL or wide > room.width + 0.5):
        stands, width = (Stands.FULL if room.full > room.width else stands), room.full
    if wide > width + 0.5:
        raise PageFault(
            f"figure {block.key or block.caption} is {wide / MM:.0f} mm wide; there are {width / MM:.0f} mm"
        )
    number = setting.label("figure_name", number=setting.counters.figure())
    caption, _ = captions(setting, block.caption, width, number)
    notes = setting.fold(block.notes, setting.scale.small, width) if block.notes else EMPTY
    height = caption.height + CAPTION_GAP + block.drawing.height
    height += NOTES_GAP + notes.height if block.notes else 0.0
    return [
        FigureItem(
            height, 5.2 * MM, 5.2 * MM, stands, floats=True, what=f"figure {block.key or block.caption}",
            caption=caption, drawing=block.drawing, notes=notes, alt=block.alt, key=block.key,
        )
    ]  # fmt: skip


@sets(Side)
def side(block: Side, setting: Setting, room: Room) -> list[Item]:
    """Blocks in the outer column; in the text where the sheet has none."""
    there = room.full > room.width and room.stands is Stands.TEXT
    within = room
    if there:
        width = setting.sheet.outer_width
        within = Room(width, width, Stands.OUTER)
    items = [item for inner in block.blocks for item in setting.set(inner, within)]
    return [item for item in items if not isinstance(item, Break)]


@dataclass(slots=True)
class PairItem(Item):
    """Two stacks side by side."""

    left: Stack | None = None
    right: Stack | None = None
    right_x: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw both."""
        if self.left is not None:
            self.left.draw(pen, x, top)
        if self.right is not None:
            self.right.draw(pen, x + self.right_x, top)

    def places(self) -> Iterator[tuple[str, float]]:
        """Places of both."""
        for stack in (self.left, self.right):
            if stack is not None:
                yield from stack.places()


@sets(Pair)
def pair(block: Pair, setting: Setting, room: Room) -> list[Item]:
    """Two stacks side by side; one below the other where they do not fit."""
    gutter = 10 * MM
    left_width = block.left_width * MM if block.left_width is not None else (room.full - gutter) / 2
    right_width = room.full - gutter - left_width
    narrow = min(left_width, right_width) < min(LEAST_COLUMN, setting.sheet.outer_width) - 0.5
    if setting.sheet.narrow or narrow:
        return [item for inner in (*block.left, *block.right) for item in setting.set(inner, room)]
    left, right = setting.stack(block.left, left_width), setting.stack(block.right, right_width)
    height = max(left.height, right.height)
    if height > setting.sheet.room:
        return [*left.items, *right.items]
    stands = Stands.FULL if room.full > room.width else room.stands
    return [
        PairItem(
            height, 5.2 * MM, 5.2 * MM, stands, floats=True, what="a pair", left=left, right=right,
            right_x=left_width + gutter,
        )
    ]  # fmt: skip


@sets(Together)
def together(block: Together, setting: Setting, room: Room) -> list[Item]:
    """Blocks on one sheet, as far as it holds them."""
    items = [item for inner in block.blocks for item in setting.set(inner, room)]
    _, height = stacked([item for item in items if item.stands is not Stands.OUTER])
    if height <= setting.sheet.room:
        for item in items[:-1]:
            item.keeps = True
        for item in items if block.whole else ():
            if isinstance(item, RowsItem):
                item.together = max(item.together, len(item.rows))
    return items
