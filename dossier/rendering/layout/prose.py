"""Sets headings, sentences, notes and lists."""

from dataclasses import dataclass, replace

from dossier.rendering.blocks import (
    Anchor,
    Answer,
    Bullets,
    DocumentTitle,
    Heading,
    Note,
    Paragraph,
    SideNote,
    Steps,
)
from dossier.rendering.layout.item import EMPTY, Entry, Item, Marker, Stands, text_item, write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.measures import HEAD_BELOW, MM, Style, sheet
from dossier.rendering.layout.pen import Pen
from dossier.rendering.layout.setting import Room, Setting, joined, sets
from dossier.rendering.text import strong

FIRST_LINE = 1.6 * MM  # from the top margin to the first heading of a sheet


@dataclass(slots=True)
class HeadingItem(Item):
    """Number, title and question of a heading, the number standing out."""

    role: str = "H1"
    number: Lines = EMPTY
    title: Lines = EMPTY
    question: Lines = EMPTY
    indent: float = 0.0
    lead: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Write number and title, the question below."""
        top -= self.lead
        with pen.element(self.role):
            write(pen, self.number, x, top)
            write(pen, self.title, x + self.indent, top)
        if self.question.lines:
            with pen.element("P"):
                write(pen, self.question, x + self.indent, top - self.title.height)


def marker(entry: Entry, stands: Stands = Stands.TEXT) -> Marker:
    """The place of a heading."""
    return Marker(entry=entry, keys=(entry.key,), stands=stands)


@sets(Heading)
def heading(block: Heading, setting: Setting, room: Room) -> list[Item]:
    """A heading on this sheet or a new one, with its entry."""
    number, entry = setting.counters.heading(block), setting.next_entry()
    opens = block.new_sheet if block.new_sheet is not None else block.level == 1
    items: list[Item] = []
    if block.level == 1:
        setting.base = sheet(setting.paper)
    if opens or setting.sheet is not setting.base:
        items.append(setting.turn(setting.base))
        room = setting.room()
    scale = setting.scale
    style = (scale.heading, scale.subheading, scale.minor)[block.level - 1]
    if block.question:
        style = scale.heading
    numbered = setting.fold(number, style, room.width) if number else EMPTY
    indent = numbered.width + style.size * 1.05 if number else 0.0
    title = setting.fold(block.text, style, room.width - indent)
    question = EMPTY
    if block.question:
        question = setting.fold(block.question, scale.question, room.width - indent)
    large = style is scale.heading
    stands = room.stands
    if block.question and stands is Stands.TEXT and room.full > room.width:
        stands = Stands.FULL  # what stands in the outer column above belongs to what went before
    lead = FIRST_LINE if opens else 0.0
    height = lead + title.height + question.height
    items.append(marker(entry, stands))
    items.append(
        HeadingItem(
            height,
            above=(9.0, 7.0, 5.0)[block.level - 1] * MM if not large else 9 * MM,
            below=(4.4 if block.question else 2.3 if large else 1.4) * MM,
            stands=stands,
            keeps=True,
            role=f"H{block.level}",
            number=numbered,
            title=title,
            question=question,
            indent=indent,
            lead=lead,
        )
    )
    return items


@sets(Anchor)
def anchor(block: Anchor, setting: Setting, room: Room) -> list[Item]:
    """A place without words."""
    del setting
    return [Marker(keys=(block.key,), stands=room.stands)]


@sets(Answer)
def answer(block: Answer, setting: Setting, room: Room) -> list[Item]:
    """The answer sentence; it stays with what bears it out."""
    lines = setting.fold(joined(strong(block.strong), block.rest), setting.scale.answer, room.width)
    return [text_item(lines, room.stands, 4 * MM, 3.2 * MM, keeps=True, whole=True)]


@sets(Paragraph)
def paragraph(block: Paragraph, setting: Setting, room: Room) -> list[Item]:
    """Running text."""
    style = setting.scale.table if room.stands is Stands.OUTER else setting.scale.body
    lines = setting.fold(block.text, style, room.width)
    return [text_item(lines, room.stands, 2.1 * MM, 2.1 * MM)]


@sets(Note)
def note(block: Note, setting: Setting, room: Room) -> list[Item]:
    """Small text."""
    lines = setting.fold(block.text, setting.scale.small, room.width)
    return [text_item(lines, room.stands, 1.8 * MM, 2.1 * MM, hugs=True)]


@dataclass(slots=True)
class SideNoteItem(Item):
    """A rule, a title, lines."""

    title: Lines = EMPTY
    lines: Lines = EMPTY
    width: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw the rule, write title and text."""
        pen.rule(x, top, x + self.width, top, HEAD_BELOW)
        top -= SIDE_LEAD
        with pen.element("P"):
            write(pen, self.title, x, top)
        with pen.element("P"):
            write(pen, self.lines, x, top - self.title.height)


SIDE_LEAD = 1.2 * MM
MOST_BESIDE = 40  # lines of a note beside the text


@sets(SideNote)
def side_note(block: SideNote, setting: Setting, room: Room) -> list[Item]:
    """A titled note under a rule."""
    style: Style = setting.scale.table
    title = setting.fold(strong(block.title), style, room.width)
    lines = setting.fold(block.text, style, room.width)
    if len(lines.lines) > MOST_BESIDE:
        lines = Lines(style, (*lines.lines[: MOST_BESIDE - 1], *setting.fold("…", style, room.width).lines))
    height = SIDE_LEAD + title.height + lines.height
    return [
        SideNoteItem(
            height, 3.4 * MM, 3.4 * MM, room.stands, title=title, lines=lines, width=room.width, what="a note"
        )
    ]


LONG = 6  # lines of an item that is not broken


@dataclass(slots=True)
class ListItem(Item):
    """One item of a list: what stands before it, and its lines."""

    label: Lines = EMPTY
    label_x: float = 0.0
    lines: Lines = EMPTY
    indent: float = 0.0
    ticked: float = 0.0
    field: str = ""
    again: object = None

    @property
    def least(self) -> float:
        """Three lines."""
        return 3 * self.lines.style.leading if len(self.lines.lines) > LONG else self.height

    def split(self, room: float) -> tuple[Item, Item] | None:
        """Break a long item between its lines."""
        leading, count = self.lines.style.leading, len(self.lines.lines)
        first = min(int(room / leading + 1e-6), count - 2)
        if count <= LONG or first < LONG // 2:
            return None
        upper, lower = self.lines.part(0, first), self.lines.part(first)
        return (
            replace(self, lines=upper, height=upper.height, below=0.0),
            replace(self, lines=lower, height=lower.height, above=0.0, label=EMPTY, ticked=0.0, field=""),
        )

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw box, number and text."""
        if self.ticked:
            leading = self.lines.style.leading
            top -= max(0.0, (self.ticked - leading) / 2) + TICK_EDGE
            middle = top - leading / 2
            area = (x, middle - self.ticked / 2, self.ticked, self.ticked)
            pen.frame(*area, 0.3 * MM)
            pen.field(self.field, area, tick=True)
        with pen.element("L", again=self.again), pen.element("LI"):
            with pen.element("Lbl"):
                write(pen, self.label, x + self.label_x, top)
            with pen.element("LBody"):
                write(pen, self.lines, x + self.indent, top)


@sets(Bullets)
def bullets(block: Bullets, setting: Setting, room: Room) -> list[Item]:
    """A list without order."""
    style = setting.scale.table if room.stands is Stands.OUTER else setting.scale.body
    indent, again = 4.4 * MM, object()
    items: list[Item] = []
    for entry in block.items:
        lines = setting.fold(entry, style, room.width - indent)
        items.append(
            ListItem(
                lines.height, 0.7 * MM, 0.7 * MM, room.stands, lines=lines, indent=indent, again=again,
                label=setting.fold("•", style, indent), label_x=0.9 * MM, what="an item of a list",
            )
        )  # fmt: skip
    return _spaced(items)


BOX = 4.6 * MM
TICK_EDGE = 0.2 * MM


@sets(Steps)
def steps(block: Steps, setting: Setting, room: Room) -> list[Item]:
    """Numbered acts."""
    style = setting.scale.steps if block.large else setting.scale.body
    box = BOX if block.checkbox else 0.0
    count = block.start + len(block.items) - 1
    number_width = setting.fold(strong(str(count)), style, 1e4).width
    number_right = (box + 4.0 * MM if box else 0.0) + max(number_width, style.size * 0.55)
    indent, again = number_right + 2.6 * MM, object()
    items: list[Item] = []
    fields = [*block.fields, *[""] * len(block.items)]
    for number, (entry, field) in enumerate(zip(block.items, fields, strict=False), block.start):
        lines = setting.fold(entry, style, room.width - indent)
        label = setting.fold(strong(str(number)), style, 1e4)
        height = lines.height
        if box:
            lead = max(0.0, (box - style.leading) / 2) + TICK_EDGE
            height = max(lead + lines.height, box + 2 * TICK_EDGE)
        between = (0.9 if box else 1.3 if block.large else 0.8) * MM
        items.append(
            ListItem(
                height, between, between, room.stands, lines=lines, indent=indent, again=again,
                label=label, label_x=number_right - label.width, ticked=box, field=field, what="a step",
            )
        )  # fmt: skip
    return _spaced(items)


def _spaced(items: list[Item]) -> list[Item]:
    """A list with the space of a paragraph round it, its first two items together."""
    if items:
        items[0].above = items[-1].below = 2.1 * MM
        items[0].keeps = len(items) > 1
    return items


@sets(DocumentTitle)
def document_title(block: DocumentTitle, setting: Setting, room: Room) -> list[Item]:
    """The title of the document."""
    scale = setting.scale
    parts: list[Item] = []
    for words, style, below in (
        (block.above, scale.subheading, 1.5),
        (block.title, scale.title, 1.5),
        (block.below, scale.answer, 8.0),
    ):
        if words:
            lines = setting.fold(words, style, room.full)
            role = "H1" if style is scale.title else "P"
            parts.append(text_item(lines, Stands.FULL, 0.0, below * MM, role=role, keeps=True, whole=True))
    return parts
