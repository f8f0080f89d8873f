"""What surrounds a schematic on its sheet: the legend of what stands in it."""

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
    units_beside,
    units_of,
)
from dossier.rendering.drawings.legend import Entry, entries, entry_of
from dossier.rendering.drawings.links import connector_sample
from dossier.rendering.drawings.pieces import Piece
from dossier.rendering.drawings.plate import Furniture, laid_round
from dossier.rendering.drawings.sheet import Form
from dossier.rendering.drawings.wires import Wire

SELF_NAMED = frozenset({"fuel_tank"})  # lettered inside wherever it stands


def furnished(piece: Piece, form: Form, *, lettered: bool = False) -> Furniture:
    """The furniture of a part of the schematic; ``lettered`` explains the ends of links."""
    found = _found(piece, form.words)
    if lettered:
        found.append(entry_of(connector_sample(), form.word("connector", "goes on at the same letter")))
    lines = sum(any(isinstance(shape, Wire) for shape in entry.shapes) for entry in found)
    part = f"{form.word('Part', 'Part')} {piece.name}" if piece.name else ""
    return laid_round(form, found, lines, part)


def _found(piece: Piece, words: dict[str, str]) -> list[Entry]:
    """The legend's entries for what stands in a part."""
    items = tuple(item for _, item in piece.sequence.steps)
    units = units_of(items)
    tags = {unit.tag for unit in units}
    sides = [side for tag in sorted(tags) for side in piece.around.sides.get(tag, ())]
    joins = _joins(piece, tags)
    kinds = {unit.kind for unit in units} | {unit.kind for side in sides for unit in units_beside(side)}
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
