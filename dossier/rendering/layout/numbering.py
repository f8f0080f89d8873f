"""Numbers of sections, tables and figures, given in the order of the document, and the names they make."""

from collections.abc import Iterable, Iterator, Mapping

from dossier.notation import PageFault
from dossier.rendering.blocks import (
    Anchor,
    Block,
    Card,
    ChecksTable,
    DrawingSheet,
    Figure,
    FindingsTable,
    FormSheet,
    FormulaLine,
    Gathered,
    Heading,
    HoldBar,
    Listing,
    PackageHead,
    Pair,
    Side,
    Table,
    Together,
    TwoColumns,
    Wide,
)
from dossier.rendering.layout.item import Entry
from dossier.rendering.text import Markup, Text, text
from dossier.rendering.words import Words

_NAMED_BY: Mapping[type, str] = {
    Anchor: "name",
    Listing: "caption",
    FormSheet: "label",
    PackageHead: "label",
    HoldBar: "label",
    DrawingSheet: "title",
    Card: "title",
    FormulaLine: "label",
}
NUMBERED = 2  # levels of headings that bear a number


class Counters:
    """Counts sections, tables and figures; the same walk gives the same numbers."""

    def __init__(self) -> None:
        self.section: list[int] = []
        self.tables = 0
        self.figures = 0
        self.headings = 0

    def state(self) -> tuple[object, ...]:
        """All counts, to come back to."""
        return (tuple(self.section), self.tables, self.figures, self.headings)

    def restore(self, state: tuple[object, ...]) -> None:
        """Go on from counts that ``state`` gave."""
        section, self.tables, self.figures, self.headings = state  # type: ignore[assignment]  # as made above
        self.section = list(section)  # type: ignore[call-overload]  # a tuple of numbers

    def heading(self, block: Heading) -> str:
        """Number of a heading, empty where it has none."""
        self.headings += 1
        if block.number:
            parts = block.number.split(".")
            if all(part.isdigit() for part in parts):
                self.section = [int(part) for part in parts]
            return block.number
        if not block.numbered or block.level > NUMBERED:
            return ""
        del self.section[block.level :]
        while len(self.section) < block.level:
            self.section.append(0)
        self.section[block.level - 1] += 1
        return ".".join(str(number) for number in self.section)

    def table(self) -> int:
        """Number of the next table."""
        self.tables += 1
        return self.tables

    def figure(self) -> int:
        """Number of the next figure."""
        self.figures += 1
        return self.figures


def within(block: Block) -> Iterable[Block]:
    """Blocks that a block holds."""
    if isinstance(block, Gathered | Side | Together | TwoColumns | Wide):
        return block.blocks
    if isinstance(block, Pair):
        return (*block.left, *block.right)
    if isinstance(block, FormSheet):
        return (block.table,)
    return ()


def walk(blocks: Iterable[Block]) -> Iterator[Block]:
    """All blocks in the order in which they are set."""
    for block in blocks:
        yield block
        yield from walk(within(block))


class Numbering:
    """What a first walk through the document finds: names by key, and the entries of the contents."""

    def __init__(self, blocks: Iterable[Block], words: Words) -> None:
        self._words = words
        self.names: dict[str, Text] = {}
        self.entries: list[Entry] = []
        counters, running = Counters(), Markup()
        for block in walk(blocks):
            if isinstance(block, Heading):
                number = counters.heading(block)
                if block.level == 1 or not running:
                    running = text(f"{number} " if number else "", block.text)
                key = block.key or f"heading {counters.headings}"
                self._name(key, self._section(number, block.text))
                self.entries.append(
                    Entry(block.level, number, str(block.text), key, block.running or running)
                )
            else:
                entry = self._entry(block, running)
                if entry is not None:
                    counters.headings += 1
                    self.entries.append(entry)
                self._count(block, counters)

    def _section(self, number: str, title: Text) -> Text:
        return self._words("pages.section_name", number=number) if number else title

    def _entry(self, block: Block, running: Markup) -> Entry | None:
        """Entry of a block that opens a sheet of its own."""
        if isinstance(block, FormSheet | PackageHead):
            return Entry(2, str(block.label), str(block.title), block.key, running)
        if isinstance(block, DrawingSheet) and block.part == 1:
            title = text(f"{block.kind}: {block.title}")
            if block.parts > 1:
                title = self._words("pages.sheets_of_drawing", title=title, count=str(block.parts))
            return Entry(2, "", str(title), block.key, running)
        if isinstance(block, Card):
            return Entry(1 if block.number else 2, block.number, str(block.title), block.key, running)
        return None

    def _count(self, block: Block, counters: Counters) -> None:
        """Count tables and figures, and note what each place is called."""
        if isinstance(block, Table) and block.plain:
            self._name(block.key, block.caption)
        elif isinstance(block, Table | FindingsTable | ChecksTable):
            self._name(block.key, self._words("pages.table_name", number=counters.table()))
        elif isinstance(block, Figure):
            self._name(block.key, self._words("pages.figure_name", number=counters.figure()))
        elif type(block) in _NAMED_BY:
            self._name(block.key, getattr(block, _NAMED_BY[type(block)]))  # type: ignore[union-attr]  # those have keys
        if isinstance(block, FindingsTable):
            for finding in block.findings:
                self._name(finding.key, finding.title)

    def _name(self, key: str, name: Text) -> None:
        if not key:
            return
        if key in self.names:
            raise PageFault(f"two places of the document bear the key {key!r}")
        self.names[key] = name
