"""What surrounds a schematic on its sheet: legend, notes, heading of a part, and the room they leave free."""

from dataclasses import dataclass

from dossier.rendering.drawings import wires
from dossier.rendering.drawings.circuit import (
    Exhaust,
    Fuel,
    Item,
    Join,
    Parallel,
    Power,
    Run,
    Side,
    SideCircuit,
    Tap,
    Unit,
    units_of,
)
from dossier.rendering.drawings.legend import COLUMN, Entry, drawn, entries, entry_of, shared_out
from dossier.rendering.drawings.lettering import CAPITALS, SEMIBOLD, SMALL
from dossier.rendering.drawings.links import connector_sample
from dossier.rendering.drawings.pieces import Piece
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.shapes import Shape, Text
from dossier.rendering.drawings.sheet import Form, Sheet, TitleBlock, framed, noted, title_block
from dossier.rendering.drawings.wires import Wire

INSET = 5.0  # from the frame to what is drawn
GUTTER = 4.0
HEADING = 5.0
STEP = 2.0
CENTRING_MARK = 6.0  # how far the mark at the foot reaches into the frame
SELF_NAMED = frozenset({"fuel_tank"})  # lettered inside wherever it stands


@dataclass(frozen=True, slots=True)
class Furniture:
    """Everything on the sheet but the circuit, and the room left free for it."""

    sheet: Sheet
    free: Box
    shapes: tuple[Shape, ...]

    def drawn(self, title: TitleBlock) -> list[Shape]:
        """Legend and notes, frame and title block."""
        return [*self.shapes, *framed(self.sheet), *title_block(self.sheet, title)]


def furnished(piece: Piece, form: Form, *, lettered: bool = False) -> Furniture:
    """The furniture of a part, its legend as low as it goes; ``lettered`` explains the ends of links."""
    sheet = Sheet(form.paper)
    found = _found(piece, form.words)
    if lettered:
        found.append(entry_of(connector_sample(), form.word("connector", "goes on at the same letter")))
    lines = sum(any(isinstance(shape, Wire) for shape in entry.shapes) for entry in found)
    frame, block = sheet.frame, sheet.block
    notes, over_notes = noted(sheet, form)
    over = over_notes - block.top
    extra = over
    columns = _columns(sheet, extra, over)
    shares = shared_out(found, columns, lines)
    while shares is None and extra < frame.height / 2:
        extra += STEP
        columns = _columns(sheet, extra, over)
        shares = shared_out(found, columns, lines)
    top = block.top + extra
    shapes: list[Shape] = list(notes)
    if found and shares:
        word = form.word("legend", "Lines and symbols on this sheet")
        shapes.append(Text(frame.left + INSET, top - 2.6, word, SMALL, SEMIBOLD))
        shapes += drawn(shares, columns)
    free = Box(frame.left + INSET, top + 3.0, frame.right - INSET, frame.top - INSET)
    if piece.name:
        text = f"{form.word('Part', 'Part')} {piece.name}"
        shapes.append(Text(free.left, free.top - 2.6, text, CAPITALS, SEMIBOLD))
        free = Box(free.left, free.bottom, free.right, free.top - HEADING - 1.0)
    return Furniture(sheet, free, tuple(shapes))


def _columns(sheet: Sheet, extra: float, over: float) -> list[Box]:
    """Columns beside the title block, then those over it above the notes."""
    frame, block = sheet.frame, sheet.block
    top = block.top + extra - HEADING
    columns: list[Box] = []
    left = frame.left + INSET
    while left + COLUMN <= block.left - 1.0:
        over_mark = left < sheet.size[0] / 2 < left + COLUMN
        foot = frame.bottom + (CENTRING_MARK if over_mark else 2.0)
        columns.append(Box(left, foot, left + COLUMN, top))
        left += COLUMN
    left = max(left, frame.left + INSET)
    while left + COLUMN <= frame.right - 1.0:
        columns.append(Box(left, block.top + over + 1.0, left + COLUMN, top))
        left += COLUMN
    return [column for column in columns if column.height > 0]


def _found(piece: Piece, words: dict[str, str]) -> list[Entry]:
    """The legend's entries for what stands in a part."""
    items = tuple(item for _, item in piece.sequence.steps)
    units = units_of(items)
    tags = {unit.tag for unit in units}
    sides = [side for tag in sorted(tags) for side in piece.around.sides.get(tag, ())]
    joins = _joins(piece, tags)
    kinds = {unit.kind for unit in units} | {unit.kind for side in sides for unit in _units(side)}
    kinds |= {join.unit.kind for join in joins}
    lines = {_line(side) for side in sides} | {wires.HEADER for _ in joins}
    lines |= {run.value for run in _sides(piece)}
    joined = bool(joins) or _has_tee(items) or any(isinstance(side, Tap) and side.mixing for side in sides)
    worst = any(unit.worst for unit in units)
    return entries(kinds - SELF_NAMED, lines, words, joined=joined, worst=worst)


def _joins(piece: Piece, tags: set[str]) -> list[Join]:
    around = piece.around
    return [
        join for tag in sorted(tags) for join in (*around.before.get(tag, ()), *around.after.get(tag, ()))
    ]


def _units(side: SideCircuit) -> tuple[Unit, ...]:
    """The units of a side circuit."""
    if isinstance(side, (Fuel, Power)):
        return side.units
    if isinstance(side, Exhaust):
        return (side.silencer,) if side.silencer else ()
    if isinstance(side, Tap):
        return (*side.cold, *((side.mixing,) if side.mixing else ()))
    return (side.engine, *side.towards, *side.back)


def _line(side: SideCircuit) -> str:
    kinds = {Fuel: wires.FUEL, Power: wires.ELECTRIC, Exhaust: wires.EXHAUST, Tap: wires.TAP}
    return kinds.get(type(side), wires.ENGINE)


def _sides(piece: Piece) -> set[Side]:
    """Which of supply and return run in a part."""
    found: set[Side] = set()

    def look(items: tuple[Item, ...]) -> None:
        for item in items:
            if isinstance(item, Run) and item.side:
                found.add(item.side)
            elif isinstance(item, Parallel):
                for branch in item.branches:
                    look(branch.items)

    look(tuple(each for step in piece.sequence.steps for each in step))
    return found or {Side.SUPPLY}


def _has_tee(items: tuple[Item, ...]) -> bool:
    for item in items:
        if isinstance(item, Parallel):
            if len(item.branches) > 1 and (item.start is None or item.end is None):
                return True
            if any(_has_tee(branch.items) for branch in item.branches):
                return True
    return False
