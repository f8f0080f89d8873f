"""The signs of what stands on side circuits: engines, fuel and electric parts, marks of other sheets."""

from dossier.rendering.drawings.pens import FRAME, NARROW, OUTLINE
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.shapes import BLACK, WHITE, Arc, Circle, Line, Path, Polygon, Rect, Shape
from dossier.rendering.drawings.symbols import Sign, through


def _engine_body() -> list[Shape]:
    cylinders = [Rect(x, 1.8, 3.2, 3.2, NARROW) for x in (-6.4, -1.6, 3.2)]
    return [Rect(-10, -5, 20, 10, FRAME, WHITE), *cylinders, Line((-10, -2.6), (10, -2.6), NARROW)]


def _engine() -> Sign:
    ports = (("first", (-2.5, 5.0)), ("second", (2.5, 5.0)))
    return Sign("engine", Box(-10, -5, 10, 5), ports, tuple(_engine_body()))


def _generator() -> Sign:
    winding = Path(
        (("M", ((11.2, 0.0),)), ("C", ((12.4, 2.6), (13.6, -2.6), (14.8, 0.0)))),
        NARROW,
    )
    shapes = (*_engine_body(), Circle(13.0, 0, 3.0, OUTLINE, WHITE), winding)
    ports = (("first", (-2.5, 5.0)), ("second", (2.5, 5.0)))
    return Sign("generator", Box(-10, -5, 16, 5), ports, shapes)


def _fuel_filter() -> Sign:
    body = Polygon(((-2.5, 0.0), (0.0, 2.5), (2.5, 0.0), (0.0, -2.5)), OUTLINE, WHITE)
    cloth = Line((0.0, -2.5), (0.0, 2.5), NARROW)
    return through("fuel_filter", Box(-2.5, -2.5, 2.5, 2.5), [body, cloth])


def _fuel_tank() -> Sign:
    shapes = (Rect(-10, -10, 20, 10, OUTLINE, WHITE),)
    return Sign("fuel_tank", Box(-10, -10, 10, 0), (("join", (0.0, 0.0)),), shapes)


def _battery() -> Sign:
    cells: list[Shape] = [Rect(-5, -7.5, 10, 7.5, OUTLINE, WHITE)]
    for x in (-2.0, 1.0):
        cells += [Line((x, -6.0), (x, -1.5), NARROW), Line((x + 1.0, -4.8), (x + 1.0, -2.7), FRAME)]
    return Sign("battery", Box(-5, -7.5, 5, 0), (("join", (0.0, 0.0)),), tuple(cells))


def _isolator() -> Sign:
    shapes: list[Shape] = [
        Circle(-2.0, 0, 0.5, NARROW, WHITE),
        Circle(2.0, 0, 0.5, NARROW, WHITE),
        Line((-1.55, 0.2), (1.6, 2.2), OUTLINE),
    ]
    return through("isolator", Box(-2.5, -1.0, 2.5, 2.5), shapes)


def _silencer() -> Sign:
    holes: list[Shape] = [Circle(x, y, 0.3, None, BLACK) for x in (-3, -1, 1, 3) for y in (-1.2, 1.2)]
    return through("silencer", Box(-5, -2.5, 5, 2.5), [Rect(-5, -2.5, 10, 5, OUTLINE, WHITE), *holes])


def _fuse() -> Sign:
    shapes: list[Shape] = [Rect(-2.5, -1, 5, 2, OUTLINE, WHITE), Line((-2.5, 0.0), (2.5, 0.0), NARROW)]
    return through("fuse", Box(-2.5, -1, 2.5, 1), shapes)


def _vent() -> Sign:
    shapes = (Line((0.0, 0.0), (0.0, 2.0), NARROW), Arc(0, 2.8, 0.8, -90, 360, NARROW))
    return Sign("vent", Box(-0.8, 0, 0.8, 3.6), (("join", (0.0, 0.0)),), shapes)


def _off_page() -> Sign:
    points = ((-11.0, 3.0), (8.0, 3.0), (11.0, 0.0), (8.0, -3.0), (-11.0, -3.0))
    return through("off_page", Box(-11, -3, 11, 3), [Polygon(points, OUTLINE, WHITE)])


SIDE_SIGNS: tuple[Sign, ...] = (
    _engine(),
    _generator(),
    _fuel_filter(),
    _fuel_tank(),
    _battery(),
    _isolator(),
    _silencer(),
    _fuse(),
    _vent(),
    _off_page(),
)
