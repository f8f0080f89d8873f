"""The circuit in one mode, small: what flows drawn heavily, what stands thin, what is shut by its word.

The same layout as the schematic's, without its figures and side circuits, so that one reads the modes against
each other.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from dossier.rendering.drawings.circuit import Branch, Circuit, Item, Parallel, Run, Side, Unit, strands
from dossier.rendering.drawings.pieces import Piece
from dossier.rendering.drawings.placing import shifted
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.ring import last_side, sequence_of
from dossier.rendering.drawings.schematic import fitted, surroundings
from dossier.rendering.drawings.shapes import Drawing

EDGE = 1.0


def mode_schematic(circuit: Circuit, width: float, height: float) -> Drawing | None:
    """The circuit in no more than ``width`` by ``height`` millimetres; None where it does not fit."""
    piece = Piece("", sequence_of(circuit.ring), surroundings(circuit))
    layout = fitted(piece, circuit.links, Box(0.0, 0.0, width - 2 * EDGE, height - 2 * EDGE))
    if layout is None:
        return None
    dx = EDGE + (width - 2 * EDGE - layout.box.width) / 2 - layout.box.left
    shapes = [shifted(shape, dx, EDGE - layout.box.bottom) for shape in layout.shapes]
    return Drawing.of(width, layout.box.height + 2 * EDGE, shapes)


@dataclass(frozen=True, slots=True)
class Mode:
    """How the circuit stands in a mode: tags of parts whose water stands, words under parts, names beside."""

    standing: frozenset[str]
    states: Mapping[str, str]
    names: Mapping[str, str]

    def stands(self, item: Unit | Parallel) -> bool:
        """Whether the water of a unit stands, or that of every branch of a group."""
        if isinstance(item, Unit):
            return item.tag in self.standing
        return all(
            any(self.stands(each) for each in branch.items if not isinstance(each, Run))
            for branch in item.branches
        )

    def unit(self, unit: Unit) -> Unit:
        """A unit with its tag, name and state alone."""
        return Unit(unit.tag, unit.kind, self.names.get(unit.tag, ""), state=self.states.get(unit.tag, ""))

    def items(self, items: tuple[Item, ...], side: Side) -> tuple[Item, ...]:
        """Units and runs in flow order; a run stands where what it leads from or to stands."""
        found: list[Item] = []
        before: Unit | Parallel | None = None
        for run, item in strands(items, side):
            stands = any(self.stands(each) for each in (before, item) if each is not None)
            found.append(Run(Side.STILL if stands else run.side))
            if isinstance(item, Parallel):
                found.append(self._group(item, run.side or side))
            elif item is not None:
                found.append(self.unit(item))
            before = item
        return tuple(found)

    def _group(self, group: Parallel, side: Side) -> Parallel:
        branches = tuple(Branch(self.items(branch.items, side), branch.name) for branch in group.branches)
        start, end = (None if unit is None else self.unit(unit) for unit in (group.start, group.end))
        return Parallel(branches, start, end)


def in_mode(circuit: Circuit, mode: Mode) -> Circuit:
    """The circuit without figures and side circuits, what stands told from what flows."""
    links = tuple(
        replace(link, text="", side=Side.STILL if {link.start, link.end} & mode.standing else link.side)
        for link in circuit.links
    )
    return Circuit(mode.items(circuit.ring, last_side(circuit.ring)), links=links)
