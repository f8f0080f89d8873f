"""Side circuits drawn about the sign they belong to: fuel, electric, tap, engine side, exhaust."""

from typing import TypeAlias

from dossier.rendering.drawings import wires
from dossier.rendering.drawings.cells import Look, boxes_of, lettered_down, lettering_of, tag_text
from dossier.rendering.drawings.circuit import EngineSide, Exhaust, Fuel, Power, SideCircuit, Tap, Unit
from dossier.rendering.drawings.lettering import (
    REGULAR,
    SEMIBOLD,
    SMALL,
    ascent,
    descent,
    folded,
    leading,
    text_width,
)
from dossier.rendering.drawings.pens import FRAME, NARROW, OUTLINE
from dossier.rendering.drawings.placing import Place, shifted
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.shapes import WHITE, Arrow, Circle, Group, Line, Rect, Shape, Text
from dossier.rendering.drawings.signs import sign
from dossier.rendering.drawings.symbols import Sign
from dossier.rendering.drawings.wires import Wire

Hanging: TypeAlias = Fuel | Power | Tap | EngineSide

STEP = 4.5  # least distance from sign to sign on a side line
LONGEST_STEP = 9.0
HEAD = 2.4  # arrow heads of side lines
BREATH = 2.5  # between two side circuits that hang on one sign


def hangs_on(circuits: tuple[SideCircuit, ...], unit: Unit, way: int, look: Look) -> tuple[Shape, ...]:
    """All side circuits of a unit, about the centre of its sign."""
    unit_sign = sign(unit.kind)
    shapes: list[Shape] = []
    below: list[Hanging] = [each for each in circuits if not isinstance(each, Exhaust)]
    right = -1e9
    for n, hanging in enumerate(below):
        block = _hanging(hanging, look)
        port = _port(hanging, unit_sign, (n, len(below)))
        left = min(box.left for box in boxes_of(block))
        axis = max(port[0], right + BREATH - left) if n else port[0]
        drop = 2.0 * (len(below) - n) if axis > port[0] else 0.0
        shapes += _led(hanging, port, axis, drop)
        shapes += [shifted(shape, axis, port[1] - drop) for shape in block]
        right = axis + max(box.right for box in boxes_of(block))
    for each in circuits:
        if isinstance(each, Exhaust):
            shapes += _exhaust(each, unit_sign, way, look)
    return tuple(shapes)


def _port(circuit: Hanging, unit_sign: Sign, place: tuple[int, int]) -> Point:
    """Where a side circuit leaves: between the two ports of a pair, else under the right part of the sign."""
    if isinstance(circuit, (Tap, EngineSide)):
        x, y = unit_sign.port("first")
        return x + 2.5, y
    n, count = place
    names = dict(unit_sign.ports)
    x, y = names.get("fuel", names.get("electric", (0.0, unit_sign.box.bottom)))
    return x - 2.5 * (count - 1 - n), y


def _led(circuit: Hanging, port: Point, axis: float, drop: float) -> list[Shape]:
    if not drop:
        return []
    kind = {Fuel: wires.FUEL, Power: wires.ELECTRIC, Tap: wires.TAP}.get(type(circuit), wires.ENGINE)
    level = port[1] - drop
    offsets = (-2.5, 2.5) if isinstance(circuit, (Tap, EngineSide)) else (0.0,)
    return [Wire(((port[0] + o, port[1]), (port[0] + o, level), (axis + o, level)), kind) for o in offsets]


def _hanging(circuit: Hanging, look: Look) -> tuple[Shape, ...]:
    """A side circuit below the point (0, 0)."""
    if isinstance(circuit, Tap):
        return tuple(_tap(circuit, look))
    if isinstance(circuit, EngineSide):
        return tuple(_engine_side(circuit, look))
    kind = wires.FUEL if isinstance(circuit, Fuel) else wires.ELECTRIC
    return tuple(_chain(circuit.units, kind, look))


def _chain(units: tuple[Unit, ...], kind: str, look: Look) -> list[Shape]:
    """Parts one under the other, what they carry flowing up."""
    shapes: list[Shape] = []
    step = min(max(STEP, look.lead), LONGEST_STEP)
    y = 0.0
    for n, unit in enumerate(units):
        below = y - step - (2.5 if n == 0 else 0.0)
        shapes.append(Wire(((0, y), (0, below)), kind))
        if n == 0 and kind == wires.FUEL:
            shapes.append(Arrow(0, y - 1.6, 90, HEAD, 1.7))
        unit_shapes, y = _in_column(unit, (0, below), 1, look)
        shapes += unit_shapes
    return shapes


def _in_column(
    unit: Unit, at: Point, side: int, look: Look, *, rising: bool = True
) -> tuple[list[Shape], float]:
    """A part in an upright line below ``at``, lettered to the right (side 1) or left (-1), and its foot."""
    x, top = at
    unit_sign = sign(unit.kind)
    if "in" not in dict(unit_sign.ports):
        return _at_the_end(unit, x, top, look), top + unit_sign.box.bottom
    low, high = unit_sign.port("in")[0], unit_sign.port("out")[0]
    y = top - high
    placed = unit_sign.placed(Place(x, y, quarters=1 if rising else 3), unit.tag)
    edge = (placed.box.right if side > 0 else placed.box.left) + side * 1.0
    return [placed, *_lettered_beside(unit, edge, y, side, look)], y + low


def _lettered_beside(unit: Unit, x: float, y: float, side: int, look: Look) -> list[Shape]:
    """Tag and data beside a sign whose centre is at height y."""
    anchor = "start" if side > 0 else "end"
    lines = lettering_of(unit, look)
    if not unit.tag:
        return lettered_down(lines, x, y + len(lines) * leading(SMALL) / 2, anchor)
    shapes = tag_text(unit.tag, x, y - ascent(look.tag) / 2, anchor, look)
    return shapes + lettered_down(lines, x, y - ascent(look.tag) / 2 - descent(look.tag) - 0.3, anchor)


def _at_the_end(unit: Unit, x: float, top: float, look: Look) -> list[Shape]:
    """What a side line ends in: a tank with its lettering inside, else a sign lettered beside it."""
    unit_sign = sign(unit.kind)
    if unit.kind != "fuel_tank":
        placed = unit_sign.placed(Place(x, top), unit.tag)
        return [placed, *_lettered_beside(unit, placed.box.right + 1.0, top - 2.5, 1, look)]
    lines = [(unit.tag, SEMIBOLD)] if unit.tag else []
    lines += lettering_of(unit, look)
    width = max([20.0, *(text_width(t, SMALL, w) + 3.0 for t, w in lines)])
    height = max(10.0, len(lines) * leading(SMALL) + 2.4)
    box = Box(x - width / 2, top - height, x + width / 2, top)
    first = box.middle[1] + len(lines) * leading(SMALL) / 2 - 0.3
    inside = lettered_down(lines, x, first, "middle")
    return [
        Group(
            unit.tag or unit.name, box, (Rect(box.left, box.bottom, width, height, OUTLINE, WHITE), *inside)
        )
    ]


def _lettered_wire(x: float, span: tuple[float, float], kind: str, letter: str) -> list[Shape]:
    """An upright line with a letter in its middle."""
    top, bottom = span
    middle = (top + bottom) / 2
    return [
        Wire(((x, top), (x, middle + 1.5)), kind),
        Text(x, middle - 0.8, letter, SMALL, SEMIBOLD, "middle"),
        Wire(((x, middle - 1.7), (x, bottom)), kind),
    ]


def _tap(tap: Tap, look: Look) -> list[Shape]:
    """Cold water rises on the left, hot water falls on the right, mixed where there is a valve."""
    left, right, tee = -2.5, 2.5, -13.0
    shapes: list[Shape] = [*_lettered_wire(left, (0, -7.0), wires.TAP, "C")]
    shapes += _lettered_wire(right, (0, -7.0), wires.TAP, "H")
    shapes.append(Arrow(right, -9.6, 270, HEAD, 1.7))
    if tap.mixing:
        valve, below = _in_column_down(tap.mixing, right, tee + 2.5, look)
        shapes += [Wire(((right, -7.0), (right, tee + 2.5)), wires.TAP), *valve]
        shapes += [Wire(((left, tee), (0, tee)), wires.TAP), Circle(left, tee, 0.75, None, "000000")]
        shapes += _lettered_wire(right, (below, below - 7.0), wires.TAP, "M")
        foot = below - 11.0
        shapes += [Wire(((right, below - 7.0), (right, foot)), wires.TAP), Arrow(right, foot, 270, HEAD, 1.7)]
    else:
        foot = -13.0
        shapes += [Wire(((right, -7.0), (right, foot)), wires.TAP)]
    shapes += [
        Wire(((left, -7.0), (left, tee - 2.5 if tap.mixing else foot)), wires.TAP),
        Arrow(left, -7.3, 90, HEAD, 1.7),
    ]
    y = tee - 2.5 if tap.mixing else foot
    for unit in tap.cold:
        below_shapes, under = _in_column(unit, (left, y), -1, look)
        shapes += [*below_shapes, Wire(((left, under), (left, under - STEP)), wires.TAP)]
        y = under - STEP
    if y > foot:
        shapes.append(Wire(((left, y), (left, foot)), wires.TAP))
    return shapes + _ends(tap, (left, min(y, foot)), (right, foot))


def _ends(tap: Tap, cold: Point, taps: Point) -> list[Shape]:
    """The words under the ends of the two tap lines, right and left of the space between them."""
    return [
        Text(cold[0] + 1.7, cold[1] - 0.6 - ascent(SMALL), tap.from_text, SMALL, REGULAR, "end"),
        Text(taps[0] - 1.2, taps[1] - 0.6 - ascent(SMALL), tap.to_text, SMALL, REGULAR, "start"),
    ]


def _in_column_down(unit: Unit, x: float, top: float, look: Look) -> tuple[list[Shape], float]:
    """A part in a line that flows down, its third way to the left."""
    unit_sign = sign(unit.kind)
    y = top - 2.5
    placed = unit_sign.placed(Place(x, y, quarters=3), unit.tag)
    return [placed, *_lettered_beside(unit, placed.box.right + 1.0, y, 1, look)], y - 2.5


def _engine_side(circuit: EngineSide, look: Look) -> list[Shape]:
    """Hot coolant rises from the engine on the left and falls back on the right."""
    shapes: list[Shape] = []
    ends = []
    for x, units, side in ((-2.5, circuit.towards, -1), (2.5, circuit.back, 1)):
        y = -8.0
        shapes.append(Wire(((x, 0), (x, y)), wires.ENGINE))
        shapes.append(Arrow(x, -3.0 if side < 0 else -5.4, 90 if side < 0 else 270, HEAD, 1.7))
        for unit in units:
            unit_shapes, under = _in_column(unit, (x, y), side, look, rising=side < 0)
            shapes += [*unit_shapes, Wire(((x, under), (x, under - STEP)), wires.ENGINE)]
            y = under - STEP
        ends.append((x, y))
    foot = min(y for _, y in ends)
    shapes += [Wire(((x, y), (x, foot)), wires.ENGINE) for x, y in ends if y > foot]
    engine = sign(circuit.engine.kind)
    placed = engine.placed(Place(0, foot - engine.port("first")[1]), circuit.engine.tag)
    tag = tag_text(
        circuit.engine.tag, placed.box.left, placed.box.bottom - 0.6 - ascent(look.tag), "start", look
    )
    under = placed.box.bottom - 1.0 - ascent(look.tag) - descent(look.tag)
    return [
        *shapes,
        placed,
        *tag,
        *lettered_down(lettering_of(circuit.engine, look), placed.box.left, under, "start"),
    ]


def _exhaust(exhaust: Exhaust, unit_sign: Sign, way: int, look: Look) -> list[Shape]:
    """Up from the burner and out through the shell against the direction of the row, text over the pipe."""
    x, y = dict(unit_sign.ports).get("exhaust", (0.0, unit_sign.box.top))
    lines = folded(exhaust.text, 1.6 * look.name, SMALL)
    words = max([text_width(line, SMALL) for line in lines] or [0.0])
    level = y + 8.0
    end = x - way * max(words + 3.0, 16.0)
    pipe: tuple[Point, ...] = ((x, y), (x, level), (end, level))
    shapes: list[Shape] = []
    if exhaust.silencer:
        silencer = sign(exhaust.silencer.kind)
        middle = x - way * 9.0
        shapes += [Wire(((x, y), (x, level), (middle + way * 5.0, level)), wires.EXHAUST)]
        pipe = ((middle - way * 5.0, level), (end, level))
        shapes.append(silencer.placed(Place(middle, level), exhaust.silencer.tag or "silencer"))
        if exhaust.silencer.tag:
            shapes += tag_text(exhaust.silencer.tag, middle, level - 3.2 - ascent(look.tag), "middle", look)
    outside = end - way * 5.2
    shapes.append(Wire((*pipe, (outside, level)), wires.EXHAUST))
    shapes += _shell(end - way * 1.3, level)
    shapes.append(
        Text(outside - way * 0.8, level - 0.9, exhaust.outside, SMALL, REGULAR, "end" if way > 0 else "start")
    )
    top = level + 3.4 if exhaust.silencer else level + 1.8
    last = len(lines) - 1
    for n, line in enumerate(lines):
        left = x if way < 0 else x - words
        base = top + (last - n) * leading(SMALL)
        shapes.append(Text(left, base, line, SMALL, REGULAR, "start"))
    return shapes


def _shell(x: float, y: float) -> list[Shape]:
    """The hull cut open above and below a pipe."""
    shapes: list[Shape] = []
    for low in (1.3, -7.3):
        base = y + low
        hatch = [Line((x - 1.3, base + h), (x + 1.3, base + h + 1.6), NARROW) for h in (0.2, 1.4, 2.6, 3.8)]
        sides = [Line((x + s, base), (x + s, base + 6.0), FRAME) for s in (-1.3, 1.3)]
        box = Box(x - 1.5, base, x + 1.5, base + 6.0)
        shapes.append(Group("shell", box, (*hatch, *sides)))
    return shapes
