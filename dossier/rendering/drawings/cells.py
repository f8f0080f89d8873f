"""A unit with its lettering as a cell that can be strung on a line.

A cell is drawn about its inlet at (0, 0); its outlet lies ``length`` further on. ``way`` is 1 where the flow
goes right and -1 where it goes left. Boxes are what must be kept clear of everything else.
"""

from dataclasses import dataclass, replace

from dossier.rendering.drawings.circuit import Run, Side, Unit
from dossier.rendering.drawings.lettering import (
    BOLD,
    CAPITALS,
    REGULAR,
    SEMIBOLD,
    SMALL,
    ascent,
    descent,
    folded,
    leading,
    text_width,
)
from dossier.rendering.drawings.pens import MIDDLE, RETURN_INK, SUPPLY_INK
from dossier.rendering.drawings.placing import Bundle, Place, shifted
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.record import chords
from dossier.rendering.drawings.shapes import WHITE, Arrow, Group, Rect, Shape, Text
from dossier.rendering.drawings.signs import sign
from dossier.rendering.drawings.symbols import Sign

EMITTERS = frozenset({"fan_coil", "radiator", "towel_rail", "floor_loop"})
ABOVE_LINE = 1.8  # baseline of what stands over a line, clear of the arrow
BELOW_LINE = -3.2  # baseline of what stands under it
ARROW = 2.8


@dataclass(frozen=True, slots=True)
class Look:
    """How densely a schematic is drawn: lettering of tags in points, the rest in millimetres."""

    tag: float
    lead: float
    name: float
    gap: float
    pitch: float


LOOKS = (
    Look(CAPITALS, 8.0, 38.0, 5.0, 20.5),
    Look(CAPITALS, 7.0, 34.0, 3.0, 17.0),
    Look(CAPITALS, 5.5, 30.0, 1.6, 14.0),
    Look(SMALL, 5.0, 26.0, 1.2, 0.0),
    Look(SMALL, 3.6, 22.0, 0.3, 0.0),
)


@dataclass(frozen=True, slots=True)
class Cell:
    """Something on a line: shapes of its own, cells within it, the boxes it takes.

    ``foot`` is the lower end of a manifold, from which a pipe may go down instead of on. Moving a cell
    moves its boxes; its shapes are moved only when they are asked for.
    """

    length: float
    own: tuple[Shape, ...] = ()
    boxes: tuple[Box, ...] = ()
    foot: Point | None = None
    within: "tuple[Cell, ...]" = ()
    offset: Point = (0.0, 0.0)

    def moved(self, dx: float, dy: float) -> "Cell":
        """The same cell elsewhere."""
        return replace(
            self,
            boxes=tuple(box.moved(dx, dy) for box in self.boxes),
            foot=(self.foot[0] + dx, self.foot[1] + dy) if self.foot else None,
            offset=(self.offset[0] + dx, self.offset[1] + dy),
        )

    def shapes(self, dx: float = 0.0, dy: float = 0.0) -> list[Shape]:
        """Everything to be drawn, moved once."""
        x, y = self.offset[0] + dx, self.offset[1] + dy
        own = [shifted(shape, x, y) for shape in self.own]
        return own + [shape for cell in self.within for shape in cell.shapes(x, y)]


def boxes_of(shapes: tuple[Shape, ...]) -> tuple[Box, ...]:
    """Room taken by shapes: a sign as a whole, each text, each straight piece of a line."""
    boxes: list[Box] = []
    for shape in shapes:
        if isinstance(shape, Group):
            boxes.append(shape.box)
            continue
        for part in shape.parts():
            if isinstance(part, Text):
                boxes.append(part.box)
                continue
            for (x0, y0), (x1, y1) in chords(part):
                boxes.append(Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)).grown(0.2))
    return tuple(boxes)


def cell_of(length: float, shapes: list[Shape]) -> Cell:
    """A cell whose boxes are those of its shapes."""
    return Cell(length, tuple(shapes), boxes_of(tuple(shapes)))


def wire_of(side: Side | None) -> str:
    """The line kind of a side."""
    return (side or Side.SUPPLY).value


def ink_of(side: Side | None) -> str:
    """The ink of a side's arrows."""
    return RETURN_INK if side is Side.RETURN else SUPPLY_INK


def flow_arrow(x: float, y: float, direction: float, side: Side | None) -> Shape:
    """An arrow head whose middle stands at x, y; nothing where the water stands."""
    if side is Side.STILL:
        return Bundle(())
    dx, dy = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[round(direction)]
    half = ARROW / 2
    return Arrow(x + half * dx, y + half * dy, direction, ARROW, ink=ink_of(side))


def label_cell(run: Run, way: int) -> Cell | None:
    """The lettering of a run with its arrow, as a cell of its own width; None where nothing is said."""
    if not run.flow and not run.temperature:
        return None
    width = max(text_width(run.flow, SMALL, SEMIBOLD), text_width(run.temperature, SMALL), ARROW)
    middle = way * width / 2
    shapes: list[Shape] = [flow_arrow(middle, 0, 0 if way > 0 else 180, run.side)]
    if run.flow:
        shapes.append(Text(middle, ABOVE_LINE, run.flow, SMALL, SEMIBOLD, "middle"))
    if run.temperature:
        shapes.append(Text(middle, BELOW_LINE, run.temperature, SMALL, REGULAR, "middle"))
    return cell_of(width, shapes)


def name_cell(name: str, way: int, look: Look) -> Cell:
    """The name of a branch over its line."""
    lines = folded(name, look.name, SMALL)
    width = max(text_width(line, SMALL) for line in lines)
    return cell_of(width, list(_stacked_up(lines, way * width / 2, "middle")))


def _stacked_up(lines: tuple[str, ...], x: float, anchor: str) -> list[Text]:
    """Lines over a pipe, the last one nearest to it."""
    last = len(lines) - 1
    return [
        Text(x, ABOVE_LINE + (last - n) * leading(SMALL), line, SMALL, REGULAR, anchor)
        for n, line in enumerate(lines)
    ]


def centred(unit_sign: Sign, way: int) -> float:
    """Where the centre of a sign stands behind its inlet."""
    return -way * unit_sign.port("in")[0]


def span(unit_sign: Sign) -> float:
    """From inlet to outlet."""
    return unit_sign.port("out")[0] - unit_sign.port("in")[0]


def lettering_of(unit: Unit, look: Look) -> list[tuple[str, str]]:
    """Text and weight of the data of a unit, folded to the width of names."""
    lines: list[tuple[str, str]] = []
    if unit.name and unit.kind not in EMITTERS:
        lines += [(line, REGULAR) for line in folded(unit.name, look.name, SMALL)]
    if unit.flow:
        lines += [(line, SEMIBOLD) for line in folded(unit.flow, look.name, SMALL, SEMIBOLD, 1)]
    for fact in (*unit.facts, *((unit.state,) if unit.state else ())):
        lines += [(line, REGULAR) for line in folded(fact, look.name, SMALL)]
    return lines


def lettered_down(lines: list[tuple[str, str]], x: float, top: float, anchor: str) -> list[Shape]:
    """Data lines from ``top`` downwards."""
    first = top - ascent(SMALL)
    return [
        Text(x, first - n * leading(SMALL), text, SMALL, weight, anchor)
        for n, (text, weight) in enumerate(lines)
    ]


def tag_text(tag: str, x: float, y: float, anchor: str, look: Look) -> list[Shape]:
    """The tag of a unit, shortened if somebody wrote a sentence; nothing where there is none."""
    lines = folded(tag, look.name, look.tag, SEMIBOLD, 1)
    return [Text(x, y, line, look.tag, SEMIBOLD, anchor) for line in lines]


def unit_cell(
    unit: Unit, way: int, look: Look, hanging: tuple[Shape, ...] = (), *, raised: bool = False
) -> Cell:
    """A unit with tag and data; ``hanging`` are its side circuits about the sign's centre.

    ``raised`` says that something leaves upwards, so that the tag has to stand below.
    """
    unit_sign = sign(unit.kind)
    x = centred(unit_sign, way)
    if unit.kind == "off_page":
        inside = Text(-way, -0.95, unit.tag, SMALL, SEMIBOLD, "middle")
        mark = unit_sign.placed(Place(0, 0, mirrored=way < 0), unit.tag)
        mark = Group(mark.name, mark.box, (*mark.shapes, inside))
        under = _below(lettering_of(unit, look), unit_sign, [])
        return cell_of(span(unit_sign), [shifted(shape, x, 0) for shape in (mark, *under)])
    shapes: list[Shape] = [unit_sign.placed(Place(0, 0, mirrored=way < 0), unit.tag)]
    shapes += hanging
    low = [box for box in boxes_of(hanging) if box.bottom < unit_sign.box.bottom]
    if unit.kind in EMITTERS:
        shapes += _beside(unit, way, look)
        shapes += _below(lettering_of(unit, look), unit_sign, low)
    elif raised:
        shapes += _all_below(unit, unit_sign, low, look)
    else:
        shapes += tag_text(unit.tag, 0, unit_sign.box.top + 0.4 + descent(look.tag), "middle", look)
        shapes += _below(lettering_of(unit, look), unit_sign, low)
    if unit.worst:
        shapes += worst_mark(way * (unit_sign.port("in")[0] - 3.3), 3.2)
    return cell_of(span(unit_sign), [shifted(shape, x, 0) for shape in shapes])


def _beside(unit: Unit, way: int, look: Look) -> list[Shape]:
    """Tag and name of an emitter over the line that leaves it."""
    anchor = "start" if way > 0 else "end"
    x = way * (sign(unit.kind).port("out")[0] + 2.0)
    shapes = tag_text(unit.tag, x, ABOVE_LINE, anchor, look)
    if unit.name:
        if shapes:
            x += way * (text_width(str(unit.tag), look.tag, SEMIBOLD) + 2.0)
        shapes += _stacked_up(folded(unit.name, look.name, SMALL), x, anchor)
    return shapes


def _below(lines: list[tuple[str, str]], unit_sign: Sign, low: list[Box]) -> list[Shape]:
    """Data under a sign; left of what hangs there."""
    top = unit_sign.box.bottom - 0.5
    if low:
        return lettered_down(lines, min(box.left for box in low) - 1.0, top, "end")
    return lettered_down(lines, 0, top, "middle")


def _all_below(unit: Unit, unit_sign: Sign, low: list[Box], look: Look) -> list[Shape]:
    """Tag and data under the left part of a sign."""
    lines = lettering_of(unit, look)
    limit = min([box.left for box in low] or [unit_sign.box.right]) - 1.0
    width = max([text_width(unit.tag, look.tag, SEMIBOLD), *(text_width(t, SMALL, w) for t, w in lines)])
    fits = unit_sign.box.left + width <= limit
    x, anchor = (unit_sign.box.left, "start") if fits else (limit, "end")
    top = unit_sign.box.bottom - 1.2
    shapes = tag_text(unit.tag, x, top - ascent(look.tag), anchor, look)
    under = top - ascent(look.tag) - descent(look.tag) - 0.4 if unit.tag else top
    return shapes + lettered_down(lines, x, under, anchor)


def worst_mark(x: float, y: float) -> list[Shape]:
    """A boxed W about its centre."""
    box = Box(x - 1.75, y - 1.75, x + 1.75, y + 1.75)
    letter = Text(x, y - 0.9, "W", SMALL, BOLD, "middle")
    return [Group("worst branch", box, (Rect(x - 1.75, y - 1.75, 3.5, 3.5, MIDDLE, WHITE), letter))]
