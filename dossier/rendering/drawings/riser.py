"""The riser at the left of the sheet: the way back up, with the pump and what joins before it."""

from dataclasses import dataclass

from dossier.rendering.drawings.cells import (
    Cell,
    Look,
    boxes_of,
    flow_arrow,
    lettered_down,
    lettering_of,
    tag_text,
    wire_of,
)
from dossier.rendering.drawings.circuit import Join, Side, Unit
from dossier.rendering.drawings.joins import joined_left
from dossier.rendering.drawings.lettering import ascent, descent
from dossier.rendering.drawings.placing import Place, shifted
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.ring import Step
from dossier.rendering.drawings.shapes import Shape
from dossier.rendering.drawings.signs import sign
from dossier.rendering.drawings.strings import CLEARANCE, Surroundings
from dossier.rendering.drawings.wires import Wire

FIRST_JOIN = 8.0  # from the return line up to the first join
PUMP_OVER_JOIN = 8.0
STRIDE = 1.0
NEAR = 60.0  # only what stands this near can be met
HEADROOM = 8.0
ROOM_FOR_ARROW = 6.0


@dataclass(frozen=True, slots=True)
class Riser:
    """What stands on the riser: a pump with the joins before it, or nothing."""

    step: Step | None
    around: Surroundings
    look: Look

    @property
    def pump(self) -> Unit | None:
        """The pump, if there is one."""
        item = self.step[1] if self.step else None
        return item if isinstance(item, Unit) else None

    @property
    def joins(self) -> tuple[Join, ...]:
        """What joins before the pump."""
        return self.around.before.get(self.pump.tag, ()) if self.pump else ()


def left_room(riser: Riser) -> float:
    """Room needed left of the riser."""
    reaches = [-min(box.left for box in joined_left(join, riser.look).boxes) for join in riser.joins]
    return max([*reaches, 4.5])


def risen(riser: Riser, taken: tuple[Box, ...], bottom: float, after: Side | None) -> list[Shape] | None:
    """The riser from the lowest line to the first axis; None where its pump finds no free place.

    ``taken`` are the boxes of the rows, ``after`` is the side of the pipe beyond the pump.
    """
    before = riser.step[0].side if riser.step else after
    if riser.pump is None:
        shapes: list[Shape] = [Wire(((0, bottom), (0, 0)), wire_of(before))]
        return [*shapes, flow_arrow(0, bottom / 2, 90, before)]
    shapes = []
    boxes = [box for box in taken if box.left < NEAR]
    floor = bottom + FIRST_JOIN
    last_join = None
    for join in riser.joins:
        cell = joined_left(join, riser.look)
        level = _free(cell.boxes, boxes, floor)
        if level is None:
            return None
        cell = _as_high_as_it_goes(join, riser.look, level, boxes)
        shapes += cell.shapes(0, level)
        boxes += cell.moved(0, level).boxes
        last_join = level
        floor = level + 4.0
    pump = _pump(riser.pump, riser.look)
    start = max(floor + PUMP_OVER_JOIN - 4.0, bottom * (0.5 if last_join is None else 0.6))
    middle = _free(boxes_of(tuple(pump)), boxes, start)
    if middle is None:
        middle = _free(boxes_of(tuple(pump)), boxes, max(floor + 4.5, bottom + 6.0))
    if middle is None:
        return None
    shapes += [shifted(shape, 0, middle) for shape in pump]
    half = sign("pump").port("out")[0]
    shapes.append(Wire(((0, bottom), (0, middle - half)), wire_of(before)))
    shapes.append(Wire(((0, middle + half), (0, 0)), wire_of(after)))
    shapes.append(flow_arrow(0, (middle + half) / 2, 90, after))
    low = last_join if last_join is not None else middle - half
    if low - bottom > ROOM_FOR_ARROW:
        shapes.append(flow_arrow(0, (bottom + low) / 2, 90, before))
    return shapes


def _as_high_as_it_goes(join: Join, look: Look, level: float, taken: list[Box]) -> Cell:
    """A header is drawn high, everything else where its line is shortest."""
    rise = -level if join.unit.kind == "header_tank" else 0.0
    while rise > 0.0:
        cell = joined_left(join, look, rise)
        boxes = [box.moved(0, level).grown(CLEARANCE) for box in cell.boxes]
        if max(box.top for box in boxes) < 0.0 and not any(b.meets(other) for b in boxes for other in taken):
            return cell
        rise -= 4.0
    return joined_left(join, look)


def _free(boxes: tuple[Box, ...], taken: list[Box], floor: float) -> float | None:
    """The lowest level over ``floor`` where the boxes meet nothing and stay below the first axis."""
    level = floor
    right = max((box.right for box in boxes), default=0.0) + CLEARANCE
    taken = [other for other in taken if other.left < right]
    while level < -HEADROOM:
        moved = [box.moved(0, level).grown(CLEARANCE) for box in boxes]
        if not any(box.meets(other) for other in taken for box in moved):
            return level
        level += STRIDE
    return None


def _pump(pump: Unit, look: Look) -> list[Shape]:
    """The pump upright about its centre, lettered to the right."""
    placed = sign("pump").placed(Place(0, 0, quarters=1), pump.tag)
    x = placed.box.right + 2.0
    top = ascent(look.tag) / 2 + 0.6
    shapes: list[Shape] = [placed, *tag_text(pump.tag, x, top - ascent(look.tag), "start", look)]
    under = top - ascent(look.tag) - descent(look.tag) - 0.4
    return shapes + lettered_down(lettering_of(pump, look), x, under, "start")
