"""Sets hazard panels and hold bars: black frames that no copier loses."""

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.rendering.blocks import HoldBar, Panel, SignalWord, StopRule
from dossier.rendering.layout.item import EMPTY, Item, write
from dossier.rendering.layout.lines import Lines
from dossier.rendering.layout.measures import MM, PANEL, Style
from dossier.rendering.layout.pen import BLACK, WHITE, Colour, Pen, colour
from dossier.rendering.layout.setting import Room, Setting, joined, sets
from dossier.rendering.text import Face, Text, strong

BAR = 7.2 * MM
PADDING = 4.0 * MM
COLOURS = {
    SignalWord.DANGER: colour("9B2423"),
    SignalWord.WARNING: colour("D05D29"),
    SignalWord.CAUTION: colour("F9A900"),
    SignalWord.NOTICE: colour("005387"),
}
WHITE_WORDS = (SignalWord.DANGER, SignalWord.NOTICE)


@dataclass(slots=True)
class PanelItem(Item):
    """A signal word in its bar over the text."""

    word: SignalWord = SignalWord.NOTICE
    label: Lines = EMPTY
    lines: Lines = EMPTY
    width: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw bar and border, write word and text."""
        bottom = top - self.height
        bar = (x, top - PANEL - BAR, self.width, BAR)
        with pen.inked(COLOURS[self.word]):
            pen.box(*bar, filled=True)
        sign = self.word is not SignalWord.NOTICE
        word_x = x + PADDING + (8.4 * MM if sign else 0.0)
        ink, ground = (WHITE, COLOURS[self.word]) if self.word in WHITE_WORDS else (BLACK, WHITE)
        if self.word not in WHITE_WORDS:
            with pen.inked(WHITE):
                pen.box(x, bar[1], word_x - x + self.label.width + PADDING, BAR, filled=True)
        with pen.element("P"):
            with pen.inked(ink):
                if sign:
                    _alert(pen, x + PADDING, bar[1] + 0.75 * MM, BAR - 1.6 * MM, ground)
                write(pen, self.label, word_x, bar[1] + BAR)
            pen.rule(x, bar[1], x + self.width, bar[1], PANEL)
            pen.frame(x, bottom, self.width, self.height, PANEL)
            write(pen, self.lines, x + PADDING, bar[1] - PANEL - 1.3 * MM)


def _alert(pen: Pen, x: float, y: float, high: float, ground: Colour) -> None:
    """The safety alert triangle with its mark of exclamation."""
    wide = high * 1.1547
    inset = high * 0.06
    points = [
        (x + inset, y + inset * 0.6),
        (x + wide - inset, y + inset * 0.6),
        (x + wide / 2, y + high - inset),
    ]
    pen.polygon(points)
    pen.polygon(points, line=inset * 1.6, join=1)
    middle = x + wide / 2
    with pen.inked(ground):
        pen.polygon(
            [
                (middle - 0.075 * high, y + 0.66 * high),
                (middle + 0.075 * high, y + 0.66 * high),
                (middle + 0.04 * high, y + 0.32 * high),
                (middle - 0.04 * high, y + 0.32 * high),
            ]
        )
        pen.circle(middle, y + 0.2 * high, 0.07 * high, filled=True)


@sets(Panel)
def panel(block: Panel, setting: Setting, room: Room) -> list[Item]:
    """A hazard panel."""
    if block.embedded:
        return [_embedded(block, setting, room)]
    label = setting.fold(
        setting.label(f"signal_{block.word.value}"), Style(15, BAR, Face.HEAVY), room.width - 20 * MM
    )
    words = joined(strong(block.hazard), block.consequence, block.avoidance, block.last)
    lines = setting.fold(words, setting.scale.body, room.width - 2 * PADDING)
    height = 2 * PANEL + BAR + 1.3 * MM + lines.height + 1.5 * MM + PANEL
    return [
        PanelItem(
            height, 3.0 * MM, 3.0 * MM, room.stands, what=f"panel {block.word.value}", word=block.word,
            label=label, lines=lines, width=room.width,
        )
    ]  # fmt: skip


STRIPE, LEAST_ROOM = 3.0 * MM, 60 * MM


@dataclass(slots=True)
class EmbeddedItem(Item):
    """The signal word beside its text, or over it where the column is narrow; a stop rule looks the same."""

    word: SignalWord | None = None
    label: Lines = EMPTY
    lines: Lines = EMPTY
    width: float = 0.0
    cell: float = 0.0
    bar: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Fill the cell of the word, draw the frame, write both."""
        bottom, ink = top - self.height, COLOURS[self.word] if self.word else BLACK
        filled = self.word is None or self.word in WHITE_WORDS
        deep = self.bar or self.height
        across = self.width if self.bar else self.cell
        with pen.inked(ink):
            pen.box(x, top - deep, across if filled else STRIPE, deep, filled=True)
        sign = self.word not in {None, SignalWord.NOTICE}
        left = x + (STRIPE if not filled else 0.0) + 2.2 * MM
        high = self.label.style.size * 1.05
        with pen.element("P"):
            with pen.inked(WHITE if filled else BLACK):
                start = top - (deep - self.label.height) / 2
                if sign:
                    _alert(
                        pen, left, start - self.label.height / 2 - high / 2, high, ink if filled else WHITE
                    )
                    left += high * 1.1547 + 1.4 * MM
                write(pen, self.label, left, start)
            if self.bar:
                pen.rule(x, top - deep, x + self.width, top - deep, PANEL)
            else:
                pen.rule(x + self.cell, top, x + self.cell, bottom, PANEL)
            pen.frame(x, bottom, self.width, self.height, PANEL)
            if self.bar:
                write(pen, self.lines, x + 2.6 * MM, top - deep - 1.0 * MM)
            else:
                write(pen, self.lines, x + self.cell + 2.6 * MM, top - (self.height - self.lines.height) / 2)


def _boxed(word: SignalWord | None, label: Text, words: Text, setting: Setting, room: Room) -> EmbeddedItem:
    """A word in its cell and what it says, side by side where that is lower."""
    size = setting.scale.steps.size
    said = setting.fold(label, Style(size, size * 1.25, Face.HEAVY), room.width)
    sign = 0.0 if word in {None, SignalWord.NOTICE} else size * 1.05 * 1.1547 + 1.4 * MM
    stripe = 0.0 if word is None or word in WHITE_WORDS else STRIPE
    cell = stripe + 2.2 * MM + sign + said.width + 2.2 * MM
    body = setting.scale.body
    over = setting.fold(words, body, room.width - 5.2 * MM)
    bar = said.height + 1.0 * MM
    stacked_height = bar + over.height + 2.4 * MM
    beside_height = float("inf")
    beside = over
    if room.width - cell >= LEAST_ROOM:
        beside = setting.fold(words, body, room.width - cell - 5.2 * MM)
        beside_height = max(beside.height, said.height) + 2.8 * MM
    fits = beside_height <= stacked_height
    return EmbeddedItem(
        beside_height if fits else stacked_height, 2.4 * MM, 2.4 * MM, room.stands, keeps=word is not None,
        what="a panel", word=word, label=said, lines=beside if fits else over, width=room.width,
        cell=cell, bar=0.0 if fits else bar,
    )  # fmt: skip


def _embedded(block: Panel, setting: Setting, room: Room) -> EmbeddedItem:
    label = setting.label(f"signal_{block.word.value}")
    words = joined(strong(block.hazard), block.consequence, block.avoidance, block.last)
    return _boxed(block.word, label, words, setting, room)


@sets(StopRule)
def stop_rule(block: StopRule, setting: Setting, room: Room) -> list[Item]:
    """A rule at which everything stops."""
    return [_boxed(None, block.label, strong(block.text), setting, room)]


HOLD_WIDTH = 25.0 * MM


@dataclass(slots=True)
class HoldItem(Item):
    """A bar across the column."""

    label: Lines = EMPTY
    stop: Lines = EMPTY
    lines: Lines = EMPTY
    signatures: tuple[Lines, ...] = ()
    width: float = 0.0
    key: str = ""

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draw the black field and the frame, write who signs."""
        bottom = top - self.height
        pen.box(x, bottom, HOLD_WIDTH, self.height, filled=True)
        pen.frame(x, bottom, self.width, self.height, PANEL)
        block = self.label.height + 0.6 * MM + self.stop.height
        start = top - (self.height - block) / 2
        with pen.element("P"), pen.inked(WHITE):
            write(pen, self.label, x + 3 * MM, start)
            write(pen, self.stop, x + 3 * MM, start - self.label.height - 0.6 * MM)
        left = x + HOLD_WIDTH + 3 * MM
        with pen.element("P"):
            write(pen, self.lines, left, top - 1.9 * MM)
        signature_lines(pen, self.signatures, left, bottom + 2.0 * MM, x + self.width - 3 * MM - left)

    def places(self) -> Iterator[tuple[str, float]]:
        """Its own key."""
        if self.key:
            yield self.key, 0.0


def signature_lines(pen: Pen, names: tuple[Lines, ...], x: float, bottom: float, width: float) -> None:
    """Names in columns, each before a line to sign on."""
    if not names:
        return
    share = (width + 5 * MM) / len(names)
    for number, name in enumerate(names):
        left = x + number * share
        with pen.element("P"):
            write(pen, name, left, bottom + name.height)
        pen.rule(left + name.width + 1.0 * MM, bottom, left + share - 5 * MM, bottom, 0.2 * MM)


@sets(HoldBar)
def hold_bar(block: HoldBar, setting: Setting, room: Room) -> list[Item]:
    """A hold point."""
    scale = setting.scale
    label = setting.fold(block.label, Style(15, 6.2 * MM, Face.HEAVY), HOLD_WIDTH - 4 * MM)
    if len(label.lines) > 1:
        label = setting.fold(block.label, Style(scale.small.size, 3.3 * MM, Face.HEAVY), HOLD_WIDTH - 4 * MM)
    stop = setting.fold(
        setting.label("hold_stop"), Style(scale.small.size, 3.3 * MM, Face.HEAVY), HOLD_WIDTH - 4 * MM
    )
    inner = room.width - HOLD_WIDTH - 6 * MM
    lines = setting.fold(joined(strong(block.when), block.seen), scale.body, inner)
    share = (inner + 5 * MM) / max(1, len(block.signatures)) - 5 * MM
    names = tuple(setting.fold(name, scale.caption, share * 0.6) for name in block.signatures)
    signing = max((name.height for name in names), default=0.0) + 2.2 * MM
    height = max(1.9 * MM + lines.height + 2.2 * MM + signing, label.height + stop.height + 5 * MM)
    return [
        HoldItem(
            height, 4.4 * MM, 3.0 * MM, room.stands, what=f"{block.label}", label=label, stop=stop,
            lines=lines, signatures=names, width=room.width, key=block.key,
        )
    ]  # fmt: skip
