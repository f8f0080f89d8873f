"""Groups of parallel branches, nested to any depth, and the one way from an item to its cell."""

from functools import lru_cache

from dossier.rendering.drawings.cells import Cell, Look, boxes_of, tag_text, unit_cell, wire_of
from dossier.rendering.drawings.circuit import Exhaust, Parallel, Side, SideCircuit, Unit, side_after
from dossier.rendering.drawings.joins import dot
from dossier.rendering.drawings.lettering import descent
from dossier.rendering.drawings.pens import OUTLINE
from dossier.rendering.drawings.placing import Place
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.shapes import WHITE, Group, Rect, Shape
from dossier.rendering.drawings.sides import hangs_on
from dossier.rendering.drawings.signs import sign
from dossier.rendering.drawings.strings import (
    CLEARANCE,
    Setting,
    Strand,
    Surroundings,
    along,
    drawn,
    in_columns,
    reach,
    strand,
)
from dossier.rendering.drawings.wires import Wire

BAR = 1.6  # half the width of a manifold
FAR = 999.0
OVER = 3.0  # how far a manifold stands over its first and last branch
UNEVEN = 1.6  # branches share one pitch unless one needs so much more room than another


def item_cell(item: Unit | Parallel, side: Side | None, setting: Setting) -> Cell:
    """The cell of a unit or of a whole group."""
    if isinstance(item, Parallel):
        return group_cell(item, side or Side.SUPPLY, setting)
    circuits = setting.around.sides.get(item.tag, ())
    return _unit_cell(item, circuits, setting.way, setting.look)


@lru_cache(maxsize=4096)
def _unit_cell(unit: Unit, circuits: tuple[SideCircuit, ...], way: int, look: Look) -> Cell:
    """The cell of a unit; layouts are tried again and again with the same ones."""
    hanging = hangs_on(circuits, unit, way, look)
    raised = any(isinstance(each, Exhaust) for each in circuits)
    return unit_cell(unit, way, look, hanging, raised=raised)


def natural_width(item: Unit | Parallel, side: Side | None, around: Surroundings, look: Look) -> float:
    """Room across that an item needs with everything that hangs on it."""
    cell = item_cell(item, side, Setting(around, 1, look))
    return max(box.right for box in cell.boxes) - min(box.left for box in cell.boxes)


def group_cell(group: Parallel, side: Side, setting: Setting) -> Cell:
    """A group: the first branch on the axis, the others below it, a bus at each end."""
    way, look = setting.way, setting.look
    lines = tuple(strand(branch, side, setting, item_cell) for branch in group.branches)
    first, last = half_width(group.start), half_width(group.end)
    head = max((box.right for box in _head(group.start, look)), default=0.0)
    blocked = (Box(-FAR, -FAR, first + CLEARANCE, FAR), Box(-FAR, OVER, head + CLEARANCE, FAR))
    places = in_columns(lines, setting, first + CLEARANCE, blocked)
    end = last + max(
        max(reach(line, p, way) + CLEARANCE, _outlet(line, p) + look.lead)
        for line, p in zip(lines, places, strict=True)
    )
    end = max(end, _behind_head(group.end, lines[0], places[0], setting))
    rows = []
    for n, (line, p) in enumerate(zip(lines, places, strict=True)):
        ends = (first if _stands(group.start, n) else 0.0, end - (last if _stands(group.end, n) else 0.0))
        rows.append(drawn(line, p, way, ends))
    levels = _levels(rows, look)
    placed = tuple(row.moved(0, y) for row, y in zip(rows, levels, strict=True))
    after = side_after(group, side)
    buses = _bus(group.start, wire_of(side), 0.0, levels, setting)
    buses += _bus(group.end, wire_of(after), way * end, levels, setting)
    boxes = (*(Box.around(list(row.boxes)) for row in placed), *boxes_of(tuple(buses)))
    foot = (way * end, levels[-1] - OVER) if _is_bar(group.end) else None
    return Cell(first + end + last, tuple(buses), boxes, foot, placed).moved(way * first, 0)


def _head(unit: Unit | None, look: Look) -> tuple[Box, ...]:
    """The tag over a bus, about its middle."""
    if unit is None:
        return ()
    top = OVER if unit.kind == "manifold" else sign(unit.kind).box.top
    return boxes_of(tuple(tag_text(unit.tag, 0, top + 0.6 + descent(look.tag), "middle", look)))


def _behind_head(unit: Unit | None, line: Strand, places: list[float], setting: Setting) -> float:
    """How far off the last bus has to stand for its tag to clear what stands over the first branch."""
    return max(
        (
            place + box.right + CLEARANCE - tag.left
            for tag in _head(unit, setting.look)
            for knot, place in zip(line.knots, places, strict=True)
            for box in along(knot.cell.boxes, setting.way)
            if box.bottom < tag.top + CLEARANCE and tag.bottom < box.top + CLEARANCE
        ),
        default=0.0,
    )


def _outlet(line: Strand, places: list[float]) -> float:
    return places[-1] + line.knots[-1].cell.length if places else 0.0


def _is_bar(unit: Unit | None) -> bool:
    return unit is not None and unit.kind == "manifold"


def half_width(unit: Unit | None) -> float:
    """From the middle of a bus to where its pipes begin: a bar, a valve or nothing."""
    if unit is None:
        return 0.0
    return BAR if unit.kind == "manifold" else sign(unit.kind).port("out")[0]


def _stands(unit: Unit | None, row: int) -> bool:
    """Whether a branch begins at the edge of a sign: each at a bar, the first only at a valve."""
    return unit is not None and (unit.kind == "manifold" or row == 0)


def _levels(rows: list[Cell], look: Look) -> list[float]:
    """Height of each branch, none meeting another; one pitch for all where they are alike."""
    drops = [0.0]
    level, placed = 0.0, list(rows[0].boxes)
    levels = [0.0]
    for row in rows[1:]:
        drop = max([look.pitch, *_needed(placed, row.boxes, level, look)])
        level -= drop
        drops.append(drop)
        levels.append(level)
        placed += [box.moved(0, level) for box in row.boxes]
    most = max(drops[1:], default=0.0)
    if len(drops) > 1 and most < UNEVEN * min(drops[1:]):
        return [-most * n for n in range(len(rows))]
    return levels


def _needed(placed: list[Box], boxes: tuple[Box, ...], level: float, look: Look) -> list[float]:
    """How far below ``level`` a row has to lie for each pair of boxes one over the other."""
    top = max((box.top for box in boxes), default=0.0)
    low = [box for box in placed if box.bottom < level + top + look.gap]
    return [
        level - (other.bottom - look.gap - box.top)
        for box in boxes
        for other in low
        if box.left < other.right + CLEARANCE and other.left < box.right + CLEARANCE
    ]


def _bus(unit: Unit | None, kind: str, x: float, levels: list[float], setting: Setting) -> list[Shape]:
    """The upright line or bar at one end of a group."""
    way, look = setting.way, setting.look
    if unit is not None and unit.kind == "manifold":
        return _bar(unit, x, levels, look)
    shapes: list[Shape] = []
    if len(levels) > 1:
        top = sign(unit.kind).port("third")[1] if unit else 0.0
        shapes.append(Wire(((x, top), (x, levels[-1])), kind))
        shapes += [dot((x, y)) for y in levels[:-1] if y or unit is None]
    if unit is None:
        return shapes
    unit_sign = sign(unit.kind)
    shapes.append(unit_sign.placed(Place(x, 0, mirrored=way < 0), unit.tag))
    return shapes + tag_text(unit.tag, x, unit_sign.box.top + 0.6 + descent(look.tag), "middle", look)


def _bar(unit: Unit, x: float, levels: list[float], look: Look) -> list[Shape]:
    """A manifold with its tag over it."""
    low, high = levels[-1] - OVER, OVER
    box = Box(x - BAR, low, x + BAR, high)
    bar = Rect(box.left, low, box.width, box.height, OUTLINE, WHITE)
    tag = tag_text(unit.tag, x, high + 0.6 + descent(look.tag), "middle", look)
    return [Group(unit.tag or "manifold", box, (bar,)), *tag]
