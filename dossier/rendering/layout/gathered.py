"""Sets blocks close together: narrow tables and notes in two columns, what is wider over the whole width."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from dossier.rendering.blocks import (
    Answer,
    Block,
    Bullets,
    Figure,
    Gathered,
    Heading,
    Note,
    Pair,
    Paragraph,
    Side,
    SideNote,
    Span,
    Table,
    Together,
)
from dossier.rendering.layout.figures import LEAST_COLUMN
from dossier.rendering.layout.item import Item, Stands
from dossier.rendering.layout.measures import MM
from dossier.rendering.layout.narrowness import least_width, narrowest
from dossier.rendering.layout.rows import RowsItem
from dossier.rendering.layout.setting import Room, Setting, sets
from dossier.rendering.layout.two_columns import column_of, in_columns
from dossier.rendering.text import strong, text

WHOLE = 6
"""Tables of less than twice as many rows are not broken over the two columns."""
BESIDE = 10 * MM
"""Between a figure and what stands beside it."""


@sets(Gathered)
def gathered(block: Gathered, setting: Setting, room: Room) -> list[Item]:
    """The answer first, then runs of narrow blocks in two columns, wide ones between them."""
    if setting.sheet.narrow:
        return [item for inner in block.blocks for item in setting.set(inner, room)]
    width = column_of(room)
    stands = Stands.FULL if room.full > room.width else room.stands
    within, whole = Room(width, width), Room(room.full, room.full, stands)
    items: list[Item] = []
    for run in _runs(_answered(block.blocks), setting, room):
        if isinstance(run, list) and all(isinstance(each, Paragraph | Note) for each in run):
            items += [item for inner in run for item in setting.set(inner, room)]
        elif isinstance(run, list):
            narrow = [item for inner in run for item in setting.set(_run_in(inner), within)]
            for item in narrow:
                if isinstance(item, RowsItem):
                    item.together = max(item.together, WHOLE)
            items += in_columns(narrow, setting, room)
        else:
            is_wide = isinstance(run, Answer | Figure) or (
                isinstance(run, Table) and run.span is not Span.TEXT
            )
            items += setting.set(run, whole if is_wide else room)
    return items


def _runs(blocks: Sequence[Block], setting: Setting, room: Room) -> Iterator[Block | list[Block]]:
    """Wide blocks, and lists of narrow ones, in their order."""
    run: list[Block] = []
    beside: list[Block] = []
    for block in _opened(blocks):
        if isinstance(block, Side):
            beside += block.blocks
        elif _is_narrow(block, setting, column_of(room)):
            run += [*beside, block]
            beside = []
        elif isinstance(block, Figure) and beside and _leaves_room(block, beside, setting, room):
            if run:
                yield run
            yield Pair([block], beside, left_width=block.drawing.width / MM)
            run, beside = [], []
        elif isinstance(block, Table) and beside and narrowest(block, setting, room.width) <= room.width:
            if run:
                yield run
            yield Side(beside)
            yield replace(block, span=Span.TEXT)
            run, beside = [], []
        else:
            run += beside
            if run:
                yield run
            yield block
            run, beside = [], []
    run += beside
    if run:
        yield run


def _run_in(block: Block) -> Block:
    """A note for the outer column as a small paragraph, its title before its words."""
    return Note(text(strong(block.title), "  ", block.text)) if isinstance(block, SideNote) else block


def _answered(blocks: Sequence[Block]) -> Sequence[Block]:
    """The blocks, the first answer right behind the heading."""
    answers = [number for number, block in enumerate(blocks) if isinstance(block, Answer)]
    if not answers or not isinstance(blocks[0], Heading):
        return blocks
    first = answers[0]
    return [blocks[0], blocks[first], *blocks[1:first], *blocks[first + 1 :]]


def _opened(blocks: Sequence[Block]) -> Iterator[Block]:
    """Blocks that are held together only to stay on one sheet, one by one."""
    for block in blocks:
        if isinstance(block, Together):
            yield from block.blocks
        else:
            yield block


def _leaves_room(figure: Figure, beside: Sequence[Block], setting: Setting, room: Room) -> bool:
    """Whether what stands beside a figure has room there, no number of its tables broken."""
    left = room.full - figure.drawing.width - BESIDE
    tables = (block for block in beside if isinstance(block, Table))
    needed = max((least_width(table, setting, left) for table in tables), default=0.0)
    return left >= max(LEAST_COLUMN * 0.8, needed)


def _is_narrow(block: Block, setting: Setting, width: float) -> bool:
    if isinstance(block, Table):
        return narrowest(block, setting, width) <= width
    if isinstance(block, Figure):
        return block.drawing.width <= width
    if isinstance(block, Heading):
        return block.level > 2  # noqa: PLR2004 - below a sub-section
    return isinstance(block, Note | Paragraph | SideNote | Bullets) and not isinstance(block, Answer)
