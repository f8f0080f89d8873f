"""Units strung on lines: columns shared by parallel branches, groups nested to any depth.

Sizes come from the bottom up, and what is placed keeps clear of everything placed before on the same line,
so that nothing can meet or cross. Lengths along a line are measured with the flow.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TypeAlias

from dossier.rendering.drawings.cells import (
    ARROW,
    EMITTERS,
    Cell,
    Look,
    flow_arrow,
    label_cell,
    name_cell,
    wire_of,
)
from dossier.rendering.drawings.circuit import (
    Branch,
    Join,
    Parallel,
    Run,
    Side,
    SideCircuit,
    Unit,
    strands,
)
from dossier.rendering.drawings.joins import dot, joined_above
from dossier.rendering.drawings.placing import Anchor
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.shapes import Shape
from dossier.rendering.drawings.wires import Wire

CLEARANCE = 0.7  # between the boxes of neighbours
NEAR_LABEL = 1.2  # least distance from a run's lettering to what comes next on the line
LONG = 90.0  # a run that has two arrows
SHARE_OF_LABEL = 0.4  # of the lead, where there is room


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What hangs on the tree: side circuits, joins and link ends by the tag they belong to."""

    sides: dict[str, tuple[SideCircuit, ...]] = field(default_factory=dict)
    before: dict[str, tuple[Join, ...]] = field(default_factory=dict)
    after: dict[str, tuple[Join, ...]] = field(default_factory=dict)
    link_starts: dict[str, tuple[int, ...]] = field(default_factory=dict)
    link_ends: dict[str, tuple[int, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Setting:
    """How a line is set: what hangs on it, which way it flows (1 right, -1 left), how densely it is drawn."""

    around: Surroundings
    way: int
    look: Look


CellMaker: TypeAlias = Callable[[Unit | Parallel, Side | None, Setting], Cell]


@dataclass(frozen=True, slots=True)
class Knot:
    """A cell on a line with the column it belongs to; ``passes`` says that the pipe runs on through it."""

    key: tuple[int, int, int]
    cell: Cell
    passes: bool = False
    labelled: bool = False


@dataclass(frozen=True, slots=True)
class Strand:
    """Everything on one line, in flow order, with the side of the run in front of each unit and the last."""

    knots: tuple[Knot, ...]
    sides: tuple[Side | None, ...]


def tags_of(item: Unit | Parallel | None, *, entering: bool) -> str:
    """The tag at which an item is entered or left."""
    if isinstance(item, Parallel):
        end = item.start if entering else item.end
        return end.tag if end else ""
    return item.tag if item else ""


def strand(branch: Branch, side: Side, setting: Setting, item_cell: CellMaker) -> Strand:
    """The knots of a branch, each in its column.

    Columns: what stands before the main unit (the first emitter or group), the main unit, what follows it.
    """
    runs = strands(branch.items, side)
    main = next(
        (n for n, (_, item) in enumerate(runs) if isinstance(item, Parallel) or _is_emitter(item)), None
    )
    knots: list[Knot] = []
    for n, (run, item) in enumerate(runs):
        column = _column(n, main, is_last=item is None)
        knots += _on_run(run, runs[n - 1][1] if n else None, item, (column, setting))
        if item is not None:
            knots.append(Knot((*column, 50), item_cell(item, run.side, setting)))
    if main is None and branch.name:
        knots.append(Knot((2, 0, 0), name_cell(branch.name, setting.way, setting.look), passes=True))
    return Strand(tuple(knots), tuple(run.side for run, _ in runs))


def _is_emitter(item: Unit | Parallel | None) -> bool:
    return isinstance(item, Unit) and item.kind in EMITTERS


def _column(n: int, main: int | None, *, is_last: bool) -> tuple[int, int]:
    if main is None:
        return (1, 0) if is_last else (0, n)
    if n < main:
        return (0, n)
    return (1, 0) if n == main else (2, n - main)


def _on_run(
    run: Run,
    left: Unit | Parallel | None,
    right: Unit | Parallel | None,
    where: tuple[tuple[int, int], Setting],
) -> list[Knot]:
    """What stands on a run: joins behind the item it leaves, lettering, joins before the item it enters."""
    column, setting = where
    around, look = setting.around, setting.look
    leaving, entering = tags_of(left, entering=False), tags_of(right, entering=True)
    knots: list[Knot] = []
    for n, join in enumerate(around.after.get(leaving, ())):
        knots.append(Knot((*column, 1 + n), joined_above(join, look), passes=True))
    for n, number in enumerate(around.link_starts.get(leaving, ())):
        knots.append(Knot((*column, 10 + n), _link_point(f"start {number}"), passes=True))
    label = label_cell(run, setting.way)
    if label:
        knots.append(Knot((*column, 20), label, passes=True, labelled=True))
    for n, number in enumerate(around.link_ends.get(entering, ())):
        knots.append(Knot((*column, 30 + n), _link_point(f"end {number}"), passes=True))
    for n, join in enumerate(around.before.get(entering, ())):
        knots.append(Knot((*column, 40 + n), joined_above(join, look), passes=True))
    return knots


def _link_point(name: str) -> Cell:
    """Room on a run for the end of a link."""
    return Cell(0.0, (Anchor(name, 0.0, 0.0), dot((0.0, 0.0))), (Box(-2.0, -1.0, 2.0, 6.0),))


def along(boxes: tuple[Box, ...], way: int) -> tuple[Box, ...]:
    """Boxes measured with the flow."""
    if way > 0:
        return boxes
    return tuple(Box(-b.right, b.bottom, -b.left, b.top) for b in boxes)


def in_columns(
    lines: tuple[Strand, ...], setting: Setting, start: float, blocked: tuple[Box, ...] = ()
) -> list[list[float]]:
    """Distance of each knot's inlet from the start of its line; knots of one column share their middle.

    Nothing reaches back before ``start``, or only into what ``blocked`` leaves free.
    """
    places: list[list[float]] = [[] for _ in lines]
    taken: list[list[Box]] = [list(blocked or (Box(-999.0, -999.0, start, 999.0),)) for _ in lines]
    ends = [(0.0, start, False)] * len(lines)
    at = [0] * len(lines)
    for key in sorted({knot.key for line in lines for knot in line.knots}):
        rows = [n for n, line in enumerate(lines) if at[n] < len(line.knots) and line.knots[at[n]].key == key]
        cells = {n: lines[n].knots[at[n]] for n in rows}
        boxes = {n: along(cells[n].cell.boxes, setting.way) for n in rows}
        middle = max(
            _least(ends[n], cells[n], boxes[n], taken[n], setting.look.lead) + cells[n].cell.length / 2
            for n in rows
        )
        for n in rows:
            place = middle - cells[n].cell.length / 2
            places[n].append(place)
            taken[n] += [box.moved(place, 0) for box in boxes[n]]
            ends[n] = (place, place + cells[n].cell.length, cells[n].passes)
            at[n] += 1
    return places


def _least(
    end: tuple[float, float, bool], knot: Knot, boxes: tuple[Box, ...], taken: list[Box], most: float
) -> float:
    """The nearest place behind everything on the line, clear of every box."""
    _, outlet, passed = end
    lead = max(NEAR_LABEL, SHARE_OF_LABEL * most) if passed or knot.passes else most
    place = outlet + lead
    leftmost = min((box.left for box in boxes), default=0.0)
    near = [other for other in taken if other.right + CLEARANCE > place + leftmost]
    for box in boxes:
        for other in near:
            if box.bottom < other.top + CLEARANCE and other.bottom < box.top + CLEARANCE:
                place = max(place, other.right + CLEARANCE - box.left)
    return place


def reach(line: Strand, places: list[float], way: int) -> float:
    """How far along its line a strand reaches with all its boxes."""
    ends = [0.0]
    for knot, place in zip(line.knots, places, strict=True):
        ends.append(place + knot.cell.length)
        ends += [place + box.right for box in along(knot.cell.boxes, way)]
    return max(ends)


def drawn(line: Strand, places: list[float], way: int, ends: tuple[float, float]) -> Cell:
    """Cells in their places and the pipe between them, from ``ends[0]`` to ``ends[1]`` along the line."""
    shapes: list[Shape] = []
    cells = tuple(knot.cell.moved(way * place, 0) for knot, place in zip(line.knots, places, strict=True))
    stops, labelled, number = [ends[0]], False, 0
    for knot, place in zip(line.knots, places, strict=True):
        if knot.passes:
            labelled |= knot.labelled
            stops += [place, place + knot.cell.length]
            continue
        shapes += _pipe(line.sides[number], way, [*stops, place], labelled=labelled)
        stops, labelled, number = [place + knot.cell.length], False, number + 1
    shapes += _pipe(line.sides[number], way, [*stops, ends[1]], labelled=labelled)
    axis = Box(min(way * ends[0], way * ends[1]), -1.0, max(way * ends[0], way * ends[1]), 1.0)
    boxes = (axis, *(box for cell in cells for box in cell.boxes))
    return Cell(ends[1], tuple(shapes), boxes, within=cells)


def _pipe(side: Side | None, way: int, stops: list[float], *, labelled: bool) -> list[Shape]:
    """One run with its arrow in the longest free stretch, unless its lettering already has one."""
    if stops[-1] <= stops[0]:
        return []
    shapes: list[Shape] = [Wire(((way * stops[0], 0), (way * stops[-1], 0)), wire_of(side))]
    room, first = max((b - a, a) for a, b in pairwise(stops))
    if labelled or room < ARROW + 0.6:
        return shapes
    at = (0.3, 0.7) if room > LONG else (0.5,)
    shapes += [flow_arrow(way * (first + room * part), 0, 0 if way > 0 else 180, side) for part in at]
    return shapes
