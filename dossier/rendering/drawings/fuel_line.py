"""The fuel from tank to burner: pick-ups, shut-offs, filter, pump, and the heights between; not to scale.

The line leaves the tank at its top, runs by its fittings to the pump, which stands over the lowest usable
level or under it, and on to the burner.
"""

from dataclasses import dataclass

from dossier.rendering.drawings.dimensions import OVER, Upright
from dossier.rendering.drawings.legend import Entry, entry_of, sign_entry
from dossier.rendering.drawings.lettering import CAPITALS, REGULAR, SEMIBOLD, SMALL, ascent, folded, leading
from dossier.rendering.drawings.pens import FUEL, HIDDEN, NARROW, OUTLINE
from dossier.rendering.drawings.placing import Place
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.plate import laid_round
from dossier.rendering.drawings.shapes import WHITE, Arrow, Drawing, Line, Pen, Polyline, Rect, Shape, Text
from dossier.rendering.drawings.sheet import Form
from dossier.rendering.drawings.signs import WORDS as SIGN_WORDS
from dossier.rendering.drawings.signs import sign

TANK = (70.0, 40.0)  # width and height of the tank on paper
LEVEL = 12.0  # lowest usable level over the tank's bottom
DEEP = 5.0  # end of the engine's pick-up over the tank's bottom
HEATING, ENGINE = 12.0, 28.0  # pick-ups, from the tank's right side
RISE = 16.0  # from the tank's top to the line
FIRST, APART = 26.0, 27.0  # from the tank to the first fitting, and from one to the next
PUMP, BURNER = 46.0, 16.0  # from the right edge
UPWARD, DOWNWARD = 22.0, 16.0  # of the pump from the level, where it stands over or under it
SAID = 38.0  # for the words over the line, before the pump
UNDER = 12.0  # for the words under the tank
WIDEST = 25.0  # to which words of a fitting fold
PIPE = Pen(0.5)


@dataclass(frozen=True, slots=True)
class Fitting:
    """A valve or filter in the line: the kind of its sign, its tag, and words under it."""

    kind: str
    tag: str
    said: str = ""


@dataclass(frozen=True, slots=True)
class FuelWay:
    """The whole way of the fuel, every figure as a text; what is empty is not drawn.

    ``is_over`` tells whether the pump stands over the lowest usable level; None where the lift is not known.
    """

    tank: tuple[str, ...]
    burner: str
    fittings: tuple[Fitting, ...]
    vent: str = ""
    top: str = ""
    heating: str = ""
    engine: str = ""
    lift: str = ""
    is_over: bool | None = None
    before: str = ""
    after: str = ""


@dataclass(frozen=True, slots=True)
class Words:
    """The few words of the sheet."""

    pump: str = "fuel pump"
    level: str = "lowest usable level"
    engine: str = "to the engine"
    legend: str = "Lines and symbols on this sheet"
    line: str = "fuel"
    tank: str = "fuel tank"


def fuel_sheet(way: FuelWay, form: Form, words: Words | None = None) -> Drawing:
    """One sheet with the tank at the left and the burner at the right."""
    words = words or Words()
    furniture = laid_round(form, _legend(way, words, form.words))
    free = furniture.free
    return furniture.drawing(_drawn(way, words, free), form.title)


def _legend(way: FuelWay, words: Words, named: dict[str, str]) -> list[Entry]:
    found = [entry_of((Line((-5.5, 0.0), (5.5, 0.0), FUEL),), words.line)]
    kinds = dict.fromkeys([*(fitting.kind for fitting in way.fittings), "pump", "burner"])
    for kind in [*kinds, *(["vent"] if way.vent else [])]:
        ours = words.pump if kind == "pump" else SIGN_WORDS[kind]
        found.append(sign_entry(kind, named.get(kind, ours)))
    return found


@dataclass(frozen=True, slots=True)
class _Heights:
    """Where things stand on the sheet."""

    tank: Box
    line: float
    level: float
    pump: float


def _heights(way: FuelWay, free: Box) -> _Heights:
    width, height = TANK
    bottom = free.bottom + UNDER + (free.height - UNDER - height - RISE - 14.0) / 2
    left = free.left + 18.0
    tank = Box(left, bottom, left + width, bottom + height)
    level = bottom + LEVEL
    pump = level + (UPWARD if way.is_over or way.is_over is None else -DOWNWARD)
    return _Heights(tank, tank.top + RISE, level, pump)


def _drawn(way: FuelWay, words: Words, free: Box) -> list[Shape]:
    at = _heights(way, free)
    tank = at.tank
    shapes: list[Shape] = [Rect(tank.left, tank.bottom, tank.width, tank.height, OUTLINE, WHITE)]
    lines = [line for said in way.tank for line in folded(said, 34.0, SMALL)]
    shapes += _down(lines, tank.left + 2.0, tank.top - 2.0)
    shapes += _pick_ups(way, words, at)
    shapes += _level(way, words, at, free)
    shapes += _vent(way, tank)
    shapes += _line(way, words, at, free)
    return shapes


def _down(lines: list[str], x: float, top: float, anchor: str = "start") -> list[Shape]:
    first = top - ascent(SMALL)
    return [Text(x, first - n * leading(SMALL), line, SMALL, REGULAR, anchor) for n, line in enumerate(lines)]


def _pick_ups(way: FuelWay, words: Words, at: _Heights) -> list[Shape]:
    """The heating's pick-up ends at the level, the engine's under it; their heights stand under the tank."""
    tank = at.tank
    heating, engine = tank.right - HEATING, tank.right - ENGINE
    shapes: list[Shape] = [Line((heating, at.level), (heating, tank.top), PIPE)]
    if way.engine:
        shapes.append(Line((engine, tank.bottom + DEEP), (engine, tank.top + 6.0), NARROW))
        shapes.append(Arrow(engine, tank.top + 8.5, 90, 2.2, 1.6))
        shapes.append(Text(engine - 1.8, tank.top + 3.0, words.engine, SMALL, anchor="end"))
    under = [line for said in (way.heating, way.engine, way.top) for line in folded(said, tank.width, SMALL)]
    return shapes + _down(under, tank.left, tank.bottom - 1.2)


def _level(way: FuelWay, words: Words, at: _Heights, free: Box) -> list[Shape]:
    """The lowest usable level, and how far over it or under it the pump stands."""
    pump = free.right - PUMP
    end = pump - 16.0 if way.lift else at.tank.right + 40.0
    shapes: list[Shape] = [
        Line((at.tank.left, at.level), (end + (OVER if way.lift else 0.0), at.level), HIDDEN)
    ]
    shapes.append(Text(at.tank.right + 3.0, at.level + 1.2, words.level, SMALL))
    if way.lift:
        shapes.append(Line((end - OVER, at.pump), (pump - 4.6, at.pump), NARROW))
        shapes += Upright(end, at.level, at.pump, way.lift, side=-1).shapes()
    return shapes


def _vent(way: FuelWay, tank: Box) -> list[Shape]:
    """The vent of the tank, with where it leads."""
    if not way.vent:
        return []
    x, high = tank.left + 6.0, tank.top + 16.0
    shapes: list[Shape] = [Line((x, tank.top), (x, high), NARROW), sign("vent").placed(Place(x, high))]
    return shapes + _down(
        list(folded(way.vent, tank.width - ENGINE - 10.0, SMALL, most=3)), x + 3.0, high + 4.0
    )


def _line(way: FuelWay, words: Words, at: _Heights, free: Box) -> list[Shape]:
    """The line by its fittings to the pump and the burner."""
    start, pump_x, burner_x = at.tank.right - HEATING, free.right - PUMP, free.right - BURNER
    shapes: list[Shape] = []
    stops = [start]
    room = pump_x - 6.0 - (SAID if way.before else 6.0) - (start + FIRST)
    apart = min(APART, room / max(1, len(way.fittings)))
    for n, fitting in enumerate(way.fittings):
        x = start + FIRST + n * apart
        drawn = sign(fitting.kind)
        shapes.append(drawn.placed(Place(x, at.line), fitting.tag or fitting.kind))
        tag = folded(fitting.tag, apart - 2.0, CAPITALS, SEMIBOLD, 1)
        shapes += [Text(x, at.line + 6.0, line, CAPITALS, SEMIBOLD, "middle") for line in tag]
        shapes += _down(
            list(folded(fitting.said, min(WIDEST, apart - 2.0), SMALL, most=5)), x, at.line - 3.6, "middle"
        )
        stops += [x + drawn.port("in")[0], x + drawn.port("out")[0]]
    pump = sign("pump")
    lower, top = at.pump + 3.75, at.line
    shapes.append(
        Polyline(((start, at.tank.top), (start, top), (stops[1] if len(stops) > 1 else pump_x, top)), FUEL)
    )
    shapes += [
        Line((a, top), (b, top), FUEL)
        for a, b in zip(stops[2::2], [*stops[3::2], pump_x], strict=False)
        if b > a
    ]
    shapes.append(Line((pump_x, top), (pump_x, lower), FUEL))
    shapes.append(pump.placed(Place(pump_x, at.pump), words.pump))
    shapes += _down(list(folded(words.pump, 24.0, SMALL)), pump_x, at.pump - 4.6, "middle")
    burner = sign("burner")
    shapes.append(burner.placed(Place(burner_x + 3.0, at.pump), way.burner))
    shapes.append(Line((pump_x + 3.75, at.pump), (burner_x + 3.0 - 7.5, at.pump), FUEL))
    tag = folded(way.burner, 26.0, CAPITALS, SEMIBOLD, 1)
    shapes += [Text(burner_x + 3.0, at.pump + 7.6, line, CAPITALS, SEMIBOLD, "middle") for line in tag]
    before, after = (list(folded(said, SAID, SMALL, most=3)) for said in (way.before, way.after))
    shapes += _down(before, pump_x - 2.0, top + 2.0 + leading(SMALL) * len(before), "end")
    shapes += _down(after, free.right - 2.0, at.pump - 9.0 - leading(SMALL), "end")
    return shapes
