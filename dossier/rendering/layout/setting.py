"""Turns blocks into items: the styles, words, numbers and references of one document, and one setter a block.

Each module beside this one sets some kinds of block and says so by ``@sets(Kind)``.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from dossier.notation import PageFault
from dossier.rendering.blocks import Block, Imprint
from dossier.rendering.layout.item import Break, Entry, Item, Stack, Stands, stacked
from dossier.rendering.layout.lines import Lines, fold
from dossier.rendering.layout.measures import Scale, Sheet, Style, scale, sheet
from dossier.rendering.layout.numbering import Counters, Numbering
from dossier.rendering.text import Markup, Refers, Run, Text, strong, text
from dossier.rendering.words import Words


@dataclass(frozen=True, slots=True)
class Room:
    """The column that a block is set for; ``full`` is the width over both, the same where there is one."""

    width: float
    full: float
    stands: Stands = Stands.TEXT


@dataclass(frozen=True, slots=True)
class _Kept:
    """Items of a block, the state before and after it was set, and the keys it leads to."""

    before: tuple[object, ...]
    after: tuple[object, ...]
    items: tuple[Item, ...]
    wanted: Mapping[str, None]


class Setting:
    """How the blocks of one document are set."""

    def __init__(self, imprint: Imprint, words: Words, numbering: Numbering, paper: str) -> None:
        self.imprint = imprint
        self.words = words
        self.names = numbering.names
        self.entries: Sequence[Entry] = numbering.entries
        self.paper = paper
        self.pages: Mapping[str, int] = {}
        self.sheets = 0
        self.wanted: dict[str, None] = {}
        self._wanting: dict[str, None] = {}
        self._kept: dict[int, _Kept] = {}
        self.start_pass()
        self._labels: dict[tuple[str, tuple[tuple[str, Any], ...]], Markup] = {}

    def start_pass(self) -> None:
        """Count anew; what was found about pages stays."""
        self.counters, self.entered = Counters(), 0
        self.base = self.sheet = sheet(self.paper)
        self.wanted, self.asks_pages = {}, False

    @property
    def scale(self) -> Scale:
        """The styles of this edition on this paper."""
        return scale(large=self.imprint.large, narrow=self.sheet.narrow, leaf=self.sheet.leaf)

    def turn(self, to: Sheet, *, lasting: bool = False) -> Break:
        """Set what follows for another kind of sheet; if not lasting, a heading goes back to the last one."""
        self.sheet = to
        if lasting:
            self.base = to
        return Break(sheet=to)

    def room(self) -> Room:
        """The text column of the sheet in work."""
        return Room(self.sheet.text_width, self.sheet.full_width)

    def next_entry(self) -> Entry:
        """The entry of the heading in work."""
        self.entered += 1
        return self.entries[self.entered - 1]

    def label(self, name: str, /, **given: Any) -> Markup:
        """A word of the pages themselves."""
        asked = (name, tuple(given.items()))
        if asked not in self._labels:
            self._labels[asked] = self.words(f"pages.{name}", **given)
        return self._labels[asked]

    def said(self, word: str) -> Markup:
        """The word of a result or grade."""
        return self.label(str.__str__(word).replace(" ", "_"))

    def fold(self, words: Text, style: Style, width: float) -> Lines:
        """Set a text into lines."""
        if isinstance(words, Markup):
            for run in words.runs:
                if run.link:
                    self._wanting.setdefault(run.link)
        return fold(words, style, width, self.resolve)

    def resolve(self, run: Run) -> Run:
        """Write what a reference refers to, as far as it is known in this pass."""
        key = run.link
        self._wanting.setdefault(key)
        name = self.names.get(key)
        if run.refers is Refers.NAME:
            if not name:
                raise PageFault(f"a reference wants the name of {key!r}, which has none")
            return replace(run, text=str(name), refers=None, own=False)
        page = self.page(key)
        if run.refers is Refers.PAGE:
            return replace(run, text=page, refers=None, own=False)
        full = self.label("full_reference", name=str(name), page=page) if name else None
        full = full or self.label("page_reference", page=page)
        return replace(run, text=str(full), refers=None, own=False)

    def page(self, key: str) -> str:
        """Number of the sheet of a key, as far as it is known in this pass."""
        self.asks_pages = True
        self._wanting.setdefault(key)
        return str(self.pages.get(key, 10))

    def set(self, block: Block, room: Room) -> list[Item]:
        """Items of a block in a column."""
        return _SETTERS[type(block)](block, self, room)

    def set_all(self, blocks: Sequence[Block]) -> list[Item]:
        """Items of a whole document; blocks that print no page number are set once for all passes."""
        items: list[Item] = []
        asks = False
        for number, block in enumerate(blocks):
            before = self._state()
            kept = self._kept.get(number)
            if kept is None or kept.before != before:
                self.asks_pages, self._wanting = False, {}
                made = self.set(block, self.room())
                kept = _Kept(before, self._state(), tuple(made), self._wanting)
                if not self.asks_pages:
                    self._kept[number] = kept
                asks = asks or self.asks_pages
            else:
                self._restore(kept.after)
            self.wanted.update(kept.wanted)
            items.extend(kept.items)
        self.asks_pages = asks
        return items

    def _state(self) -> tuple[object, ...]:
        return (self.base, self.sheet, self.entered, self.counters.state())

    def _restore(self, state: tuple[Any, ...]) -> None:
        self.base, self.sheet, self.entered, counts = state
        self.counters.restore(counts)

    def stack(self, blocks: Iterable[Block], width: float) -> Stack:
        """Blocks one below the other as one item of the given width."""
        room = Room(width, width)
        items = [item for block in blocks for item in self.set(block, room)]
        return Stack(stacked(items)[1], items=items, width=width, what="a stack of blocks")


Setter = Callable[[Any, Setting, Room], list[Item]]
_SETTERS: dict[type, Setter] = {}
S = TypeVar("S", bound=Setter)


def sets(*kinds: type) -> Callable[[S], S]:
    """Declare a function as the setter of some kinds of block."""

    def declare(setter: S) -> S:
        for kind in kinds:
            _SETTERS[kind] = setter
        return setter

    return declare


def joined(*parts: Text) -> Markup:
    """Texts with a blank between those that are not empty."""
    kept = [text(part) for part in parts if part]
    return text(*(piece for part in kept for piece in (" ", part)[part is kept[0] :]))


def shown_strong(figure: Text) -> Text:
    """A figure that carries the row is strong; markup stays as it was made."""
    return strong(figure) if isinstance(figure, str) else figure
