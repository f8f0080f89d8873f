"""The signs of the schematic, one for every kind of component, each with named ports on a 5 mm module.

Simple figures in the manner of ISO 14617 and ISO 10628, own outlines. A sign lies about its centre with
the flow from left to right through ``in`` and ``out``; off-line signs hang on ``join``.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from dossier.rendering.drawings.pens import FRAME, NARROW, OUTLINE
from dossier.rendering.drawings.placing import Place
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.shapes import (
    BLACK,
    WHITE,
    Circle,
    Group,
    Line,
    Path,
    Pen,
    Polygon,
    Polyline,
    Rect,
    Shape,
)


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign about its own centre: outline box, ports by name, shapes."""

    kind: str
    box: Box
    ports: tuple[tuple[str, Point], ...]
    shapes: tuple[Shape, ...]

    def port(self, name: str) -> Point:
        """Where a line of that name starts."""
        return dict(self.ports)[name]

    def placed(self, place: Place, name: str = "") -> Group:
        """The sign on the sheet."""
        shapes = tuple(moved for shape in self.shapes for moved in place.shape(shape))
        return Group(name or self.kind, place.box(self.box), shapes)


def through(kind: str, box: Box, shapes: Iterable[Shape], *more: tuple[str, Point]) -> Sign:
    """A sign in a line: ports in and out lie left and right on its axis."""
    ports = (("in", (box.left, 0.0)), ("out", (box.right, 0.0)), *more)
    return Sign(kind, box, ports, tuple(shapes))


def zigzag(reach: float, rise: float) -> Polyline:
    """The line of a heat exchanger through the middle of its sign, end to end."""
    r = reach
    points = ((-r, 0.0), (-0.5 * r, 0.0), (-0.22 * r, rise), (0.22 * r, -rise), (0.5 * r, 0.0), (r, 0.0))
    return Polyline(points, NARROW)


def _burner() -> Sign:
    flame = Path(
        (
            ("M", ((0.2, 4.2),)),
            ("C", ((0.4, 2.0), (2.7, 1.2), (2.7, -1.2))),
            ("C", ((2.7, -3.0), (1.4, -4.0), (0.0, -4.0))),
            ("C", ((-1.4, -4.0), (-2.7, -3.0), (-2.7, -1.4))),
            ("C", ((-2.7, 0.0), (-1.9, 0.7), (-1.4, 1.6))),
            ("C", ((-1.2, 0.9), (-0.9, 0.6), (-0.5, 0.5))),
            ("C", ((-0.5, 1.8), (-0.4, 3.0), (0.2, 4.2))),
            ("Z", ()),
        ),
        OUTLINE,
    )
    box = Box(-7.5, -6.25, 7.5, 6.25)
    ports = (("exhaust", (0.0, 6.25)), ("fuel", (5.0, -6.25)), ("electric", (2.5, -6.25)))
    return through("burner", box, [Rect(-7.5, -6.25, 15, 12.5, FRAME, WHITE), flame], *ports)


def _pump() -> Sign:
    triangle = Polygon(((3.75, 0.0), (-1.875, 3.2), (-1.875, -3.2)), None, BLACK)
    box = Box(-3.75, -3.75, 3.75, 3.75)
    return through("pump", box, [Circle(0, 0, 3.75, OUTLINE, WHITE), triangle], ("electric", (0.0, -3.75)))


def emitter(kind: str, *inside: Shape) -> Sign:
    """A sign of something that warms a cabin: a box with its own filling."""
    box = Box(-6.25, -3.75, 6.25, 3.75)
    return through(kind, box, [Rect(-6.25, -3.75, 12.5, 7.5, OUTLINE, WHITE), *inside])


def _fan_coil() -> Sign:
    blade = Path(
        (
            ("M", ((0.0, 0.0),)),
            ("C", ((-1.6, 0.9), (-1.4, 2.5), (0.0, 2.5))),
            ("C", ((1.4, 2.5), (1.6, 0.9), (0.0, 0.0))),
            ("Z", ()),
        ),
        None,
        BLACK,
    )
    lower = Place(0, 0, quarters=2).shape(blade)
    return emitter("fan_coil", Circle(0, 0, 2.75, NARROW), blade, *lower)


def _radiator() -> Sign:
    bars = [Line((x, -2.5), (x, 2.5), NARROW) for x in (-4.5, -2.7, -0.9, 0.9, 2.7, 4.5)]
    return emitter("radiator", *bars)


def _towel_rail() -> Sign:
    uprights = [Line((x, -2.8), (x, 2.8), OUTLINE) for x in (-4.0, 4.0)]
    rungs = [Line((-4.0, y), (4.0, y), NARROW) for y in (-2.1, -0.7, 0.7, 2.1)]
    return emitter("towel_rail", *uprights, *rungs)


def _floor_loop() -> Sign:
    points: list[Point] = [(-6.25, 0.0), (-4.8, 0.0), (-4.8, -2.4)]
    for n, x in enumerate((-2.4, 0.0, 2.4)):
        low, high = ((x - 2.4, -2.4), (x, -2.4)) if n % 2 == 0 else ((x - 2.4, 2.4), (x, 2.4))
        points += [low, high, (x, 2.4 if n % 2 == 0 else -2.4)]
    points += [(4.8, 2.4), (4.8, 0.0), (6.25, 0.0)]
    return emitter("floor_loop", Polyline(tuple(points), NARROW))


def _tap_exchanger() -> Sign:
    box = Box(-6.25, -6.25, 6.25, 6.25)
    shapes: list[Shape] = [Circle(0, 0, 6.25, OUTLINE, WHITE), zigzag(6.25, 3.0)]
    low = -((6.25**2 - 2.5**2) ** 0.5)
    return through("tap_exchanger", box, shapes, ("first", (-2.5, low)), ("second", (2.5, low)))


def _recovery_exchanger() -> Sign:
    box = Box(-6.25, -5.0, 6.25, 5.0)
    shapes: list[Shape] = [
        Rect(-6.25, -5, 12.5, 10, OUTLINE, WHITE),
        zigzag(6.25, 2.6),
        Line((-6.25, -5.0), (6.25, 5.0), NARROW),
    ]
    return through("recovery_exchanger", box, shapes, ("first", (-2.5, -5.0)), ("second", (2.5, -5.0)))


def vessel(width: float, low: float, high: float, pen: Pen = OUTLINE) -> Path:
    """An upright vessel with rounded ends."""
    w, bow = width / 2, width * 0.22
    return Path(
        (
            ("M", ((-w, low + bow),)),
            ("L", ((-w, high - bow),)),
            ("C", ((-w, high), (w, high), (w, high - bow))),
            ("L", ((w, low + bow),)),
            ("C", ((w, low), (-w, low), (-w, low + bow))),
            ("Z", ()),
        ),
        pen,
        WHITE,
    )


def _water_heater() -> Sign:
    coil = (
        (-6.25, 0.0),
        (-3.5, 0.0),
        (-2.1, 2.2),
        (-0.7, -2.2),
        (0.7, 2.2),
        (2.1, -2.2),
        (3.5, 0.0),
        (6.25, 0.0),
    )
    box = Box(-6.25, -5.0, 6.25, 10.0)
    shapes: list[Shape] = [
        vessel(12.5, -5, 10),
        Polyline(coil, NARROW),
        Line((-6.25, 5.2), (6.25, 5.2), NARROW),
    ]
    return through("water_heater", box, shapes, ("first", (-2.5, -4.55)), ("second", (2.5, -4.55)))


def _buffer() -> Sign:
    box = Box(-5, -7.5, 5, 7.5)
    shapes: list[Shape] = [vessel(10, -7.5, 7.5), *(Line((-5, y), (5, y), NARROW) for y in (-3.0, 3.0))]
    return through("buffer", box, shapes)


def _header_tank() -> Sign:
    box = Box(-6.25, 0, 6.25, 12.5)
    levels: list[Shape] = [Line((-6.25, y), (6.25, y), NARROW) for y in (1.2, 2.4, 3.6)]
    shapes: list[Shape] = [
        Rect(-6.25, 0, 12.5, 12.5, OUTLINE, WHITE),
        *levels,
        Line((-6.25, 4.8), (6.25, 4.8), NARROW),
    ]
    return Sign("header_tank", box, (("join", (0.0, 0.0)), ("vent", (0.0, 12.5))), tuple(shapes))


def _membrane_vessel() -> Sign:
    membrane = Path((("M", ((-5.0, 5.0),)), ("C", ((-2.5, 2.6), (2.5, 7.4), (5.0, 5.0)))), NARROW)
    shapes = (Circle(0, 5, 5, OUTLINE, WHITE), membrane)
    return Sign("membrane_vessel", Box(-5, 0, 5, 10), (("join", (0.0, 0.0)),), shapes)


def _manifold() -> Sign:
    box = Box(-1.6, -3.75, 1.6, 3.75)
    return through("manifold", box, [Rect(-1.6, -3.75, 3.2, 7.5, OUTLINE, WHITE)])


def _air_separator() -> Sign:
    bubbles: list[Shape] = [Circle(x, y, 0.45, NARROW) for x, y in ((-1.0, -1.2), (0.9, -0.2), (-0.4, 1.0))]
    vent = Polygon(((0.0, 3.75), (-1.1, 5.6), (1.1, 5.6)), NARROW, WHITE)
    shapes: list[Shape] = [Circle(0, 0, 3.75, OUTLINE, WHITE), *bubbles, vent]
    return through("air_separator", Box(-3.75, -3.75, 3.75, 5.6), shapes)


UNITS: tuple[Sign, ...] = (
    _burner(),
    _pump(),
    _fan_coil(),
    _radiator(),
    _towel_rail(),
    _floor_loop(),
    _tap_exchanger(),
    _recovery_exchanger(),
    _water_heater(),
    _buffer(),
    _header_tank(),
    _membrane_vessel(),
    _manifold(),
    _air_separator(),
)
