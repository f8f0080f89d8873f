"""Sets what people fill in: boxes 8 mm high, lines to sign on, test sheets, heads of work packages."""

from collections.abc import Sequence
from dataclasses import dataclass

from dossier.rendering.blocks import (
    Blank,
    FormBox,
    FormRow,
    FormSheet,
    Outer,
    PackageHead,
    Signatures,
    Table,
    WritingLines,
)
from dossier.rendering.layout.boxes import BOX_HEIGHT, write_blank
from dossier.rendering.layout.item import EMPTY, Break, Item, Stands, text_item, write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.measures import HEAD_ABOVE, HEAD_BELOW, MM, Style, sheet
from dossier.rendering.layout.panels import signature_lines
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.prose import FIRST_LINE, marker
from dossier.rendering.layout.setting import Room, Setting, sets
from dossier.rendering.text import Face, Text, strong

BOX_WIDTH, BOX_GAP = 28 * MM, 8 * MM
SIGNING = 9 * MM
TITLE_LINES = 2


@dataclass(slots=True)
class BoxesItem(Item):
    """Boxes side by side, each under its label and what is expected."""

    boxes: Sequence[tuple[FormBox, Lines, Lines]] = ()
    pitch: float = 0.0
    box_width: float = 0.0
    indent: float = 0.0
    small: Style = EMPTY.style

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write labels, draw boxes on one height."""
        label_height = max(label.height for _, label, _ in self.boxes)
        under = label_height + max(expected.height for _, _, expected in self.boxes) + 0.7 * MM
        for number, (box, label, expected) in enumerate(self.boxes):
            left = x + self.indent + number * self.pitch
            with pen.element("P"):
                write(pen, label, left, top - label_height + label.height)
                write(pen, expected, left, top - label_height)
            blank = Blank(box.unit, box.field, box.entered)
            write_blank(pen, blank, left, top - under, self.box_width, self.small)


@sets(FormRow)
def form_row(block: FormRow, setting: Setting, room: Room) -> list[Item]:
    """Boxes side by side, in as many rows as they need."""
    scale = setting.scale
    indent = 13.4 * MM if room.width > 100 * MM else 0.0
    room_width = room.width - indent
    count = max(1, min(len(block.boxes), int((room_width + BOX_GAP) / (BOX_WIDTH + BOX_GAP))))
    pitch = (room_width + BOX_GAP) / count
    under = min(pitch - BOX_GAP / 2, room_width)
    items: list[Item] = []
    for first in range(0, len(block.boxes), count):
        boxes = []
        for box in block.boxes[first : first + count]:
            label = setting.fold(strong(box.label), scale.table, under)
            boxes.append((box, label, setting.fold(box.expected, scale.small, under)))
        height = max(label.height for _, label, _ in boxes) + max(e.height for _, _, e in boxes)
        items.append(
            BoxesItem(
                height + 0.7 * MM + BOX_HEIGHT, 4 * MM, 4 * MM, room.stands, what="boxes", boxes=boxes,
                pitch=pitch, box_width=min(BOX_WIDTH, under), indent=indent, small=scale.small,
            )
        )  # fmt: skip
    return items


@dataclass(slots=True)
class SignaturesItem(Item):
    """Lines to sign on."""

    names: tuple[Lines, ...] = ()
    width: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write names before their lines."""
        signature_lines(pen, self.names, x, top - self.height + 1.0 * MM, self.width)


@sets(Signatures)
def signatures(block: Signatures, setting: Setting, room: Room) -> list[Item]:
    """Lines to sign on, the last for the date."""
    names = [*block.names, setting.label("date_line")]
    share = room.width / len(names)
    set_names = tuple(setting.fold(name, setting.scale.caption, share * 0.5) for name in names)
    height = max(SIGNING, max(name.height for name in set_names) + 5 * MM)
    return [
        SignaturesItem(
            height, 4 * MM, 4 * MM, room.stands, what="signatures", names=set_names, width=room.width
        )
    ]


@dataclass(slots=True)
class RuledItem(Item):
    """Ruled lines."""

    count: int = 0
    width: float = 0.0
    label: Lines = EMPTY

    @property
    def least(self) -> float:
        """The label and two lines."""
        return min(self.height, self.label.height + LEAST_LINES * PITCH)

    def split(self, room: float) -> tuple[Item, Item] | None:
        """Break between two lines."""
        first = int((room - self.label.height) / PITCH)
        if not LEAST_LINES <= first < self.count:
            return None
        return (
            RuledItem(
                self.label.height + first * PITCH, self.above, 0.0, self.stands, count=first,
                width=self.width, label=self.label,
            ),
            RuledItem(
                (self.count - first) * PITCH, 0.0, self.below, self.stands, count=self.count - first,
                width=self.width,
            ),
        )  # fmt: skip

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write the label, draw the lines."""
        if self.label.lines:
            with pen.element("P"):
                write(pen, self.label, x, top)
        for number in range(1, self.count + 1):
            y = top - self.label.height - number * PITCH
            pen.rule(x, y, x + self.width, y, 0.2 * MM)


PITCH, LEAST_LINES = 8 * MM, 2


@sets(WritingLines)
def writing_lines(block: WritingLines, setting: Setting, room: Room) -> list[Item]:
    """Ruled lines to write on."""
    label = setting.fold(strong(block.label), setting.scale.table, room.width) if block.label else EMPTY
    return [
        RuledItem(
            label.height + block.count * PITCH, 3 * MM, 4 * MM, room.stands, what="ruled lines",
            count=block.count, width=room.width, label=label,
        )
    ]  # fmt: skip


@dataclass(slots=True)
class HeadItem(Item):
    """Label, large title, a strip of facts between two rules."""

    label: Lines = EMPTY
    title: Lines = EMPTY
    facts: Sequence[tuple[Lines, Lines]] = ()
    width: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write all."""
        top -= FIRST_LINE
        with pen.element("H2"):
            write(pen, self.label, x, top)
            write(pen, self.title, x, top - self.label.height - 1.0 * MM)
        top -= self.label.height + 1.0 * MM + self.title.height + 2.4 * MM
        pen.rule(x, top, x + self.width, top, HEAD_ABOVE)
        if not self.facts:
            return
        top -= 1.2 * MM
        share = (self.width + 4 * MM) / len(self.facts)
        for number, (name, fact) in enumerate(self.facts):
            with pen.element("P"):
                write(pen, name, x + number * share, top)
                write(pen, fact, x + number * share, top - name.height)
        bottom = top - max(name.height + fact.height for name, fact in self.facts) - 1.2 * MM
        pen.rule(x, bottom, x + self.width, bottom, HEAD_BELOW)


def _fitted(title: Text, setting: Setting, width: float) -> Lines:
    """A title in the largest type that takes no more than two lines."""
    scale = setting.scale
    for style in (scale.package, scale.heading, scale.subheading):
        lines = setting.fold(title, style, width)
        if len(lines.lines) <= TITLE_LINES:
            return lines
    return setting.fold(title, scale.body.faced(Face.STRONG), width)


def _head(  # noqa: PLR0913, PLR0917 - what stands in it, and where
    label: Text,
    title: Text,
    facts: Sequence[tuple[Text, Text]],
    setting: Setting,
    width: float,
    stands: Stands,
) -> HeadItem:
    scale = setting.scale
    share = (width + 4 * MM) / max(1, len(facts)) - 4 * MM
    set_label = setting.fold(label, scale.subheading, width)
    set_title = _fitted(title, setting, width)
    set_facts = [
        (setting.fold(name, scale.label, share), setting.fold(fact, scale.body, share))
        for name, fact in facts
    ]
    height = FIRST_LINE + set_label.height + 1.0 * MM + set_title.height + 2.4 * MM
    if facts:
        height += 2.4 * MM + max(name.height + fact.height for name, fact in set_facts)
    return HeadItem(
        height, 0.0, 4.2 * MM, stands, keeps=True, what=f"{label}", label=set_label, title=set_title,
        facts=set_facts, width=width,
    )  # fmt: skip


@sets(PackageHead)
def package_head(block: PackageHead, setting: Setting, room: Room) -> list[Item]:
    """The head of a work package, on a new sheet with a column for pencil."""
    entry = setting.next_entry()
    turn = setting.turn(sheet(setting.paper, outer=Outer.NOTES))
    there = setting.room()
    stands = Stands.FULL if there.full > there.width else room.stands
    return [turn, marker(entry), _head(block.label, block.title, block.facts, setting, there.full, stands)]


@sets(FormSheet)
def form_sheet(block: FormSheet, setting: Setting, room: Room) -> list[Item]:
    """A sheet to fill in."""
    del room
    entry = setting.next_entry()
    items: list[Item] = [setting.turn(sheet(setting.paper, outer=Outer.NONE)), marker(entry)]
    there = setting.room()
    items.append(_head(block.label, block.title, block.facts, setting, there.width, there.stands))
    if block.instruction:
        lines = setting.fold(block.instruction, setting.scale.body, there.width)
        items.append(text_item(lines, there.stands, 2 * MM, 2 * MM))
    table: Table = block.table
    items.extend(setting.set(table, there))
    if block.signatures:
        items.extend(setting.set(Signatures(block.signatures), there))
    return [item for item in items if not (isinstance(item, Break) and item is not items[0])]
