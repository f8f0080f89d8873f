"""The signs of valves: two triangles tip to tip, and above them what moves them."""

from dossier.rendering.drawings.lettering import LEAST, SEMIBOLD
from dossier.rendering.drawings.pens import MIDDLE, NARROW, OUTLINE
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.shapes import (
    BLACK,
    WHITE,
    Arrow,
    Circle,
    Line,
    Polygon,
    Polyline,
    Shape,
    Text,
)
from dossier.rendering.drawings.symbols import Sign, through


def _wedge(*points: Point, fill: str = WHITE) -> Polygon:
    return Polygon(points, MIDDLE, fill)


def _body(fill: str = WHITE) -> list[Shape]:
    return [
        _wedge((-2.5, 2.0), (-2.5, -2.0), (0.0, 0.0)),
        _wedge((2.5, 2.0), (2.5, -2.0), (0.0, 0.0), fill=fill),
    ]


def _stem(height: float = 2.8) -> Line:
    return Line((0.0, 0.0), (0.0, height), NARROW)


def _valve(kind: str, top: float, *above: Shape, fill: str = WHITE) -> Sign:
    return through(kind, Box(-2.5, -2.0, 2.5, top), [*_body(fill), *above])


def _lettered(letter: str) -> tuple[Shape, ...]:
    return (
        _stem(2.3),
        Circle(0, 3.7, 1.5, NARROW, WHITE),
        Text(0, 2.95, letter, LEAST, SEMIBOLD, "middle"),
    )


def _spring() -> Polyline:
    points = ((0.0, 0.0), (0.0, 1.6), (-1.0, 2.1), (1.0, 2.8), (-1.0, 3.5), (1.0, 4.2), (0.0, 4.6))
    return Polyline(points, NARROW)


def _three_way(kind: str, *above: Shape) -> Sign:
    third = _wedge((-2.0, -2.5), (2.0, -2.5), (0.0, 0.0))
    box = Box(-2.5, -2.5, 2.5, 5.2 if above else 2.0)
    return through(kind, box, [*_body(), third, *above], ("third", (0.0, -2.5)))


def _safety() -> Sign:
    shapes = (
        _wedge((-2.0, 0.0), (2.0, 0.0), (0.0, 2.5)),
        _wedge((2.5, 0.5), (2.5, 4.5), (0.0, 2.5)),
        Polyline(((0.0, 2.5), (0.0, 4.1), (-1.0, 4.6), (1.0, 5.3), (-1.0, 6.0), (0.0, 6.5)), NARROW),
    )
    ports = (("join", (0.0, 0.0)), ("led", (2.5, 2.5)))
    return Sign("safety_valve", Box(-2.0, 0.0, 2.5, 6.5), ports, shapes)


def _check() -> Sign:
    shapes: list[Shape] = [
        _wedge((-2.5, 2.0), (-2.5, -2.0), (2.3, 0.0), fill=BLACK),
        Line((2.4, -2.0), (2.4, 2.0), OUTLINE),
    ]
    return through("check_valve", Box(-2.5, -2.0, 2.6, 2.0), shapes)


def _balancing() -> Sign:
    slant = (Line((-2.7, -2.7), (2.2, 2.2), NARROW), Arrow(3.0, 3.0, 45, 1.6, 1.2))
    ports = (("in", (-2.5, 0.0)), ("out", (2.5, 0.0)))
    return Sign("balancing_valve", Box(-2.7, -2.7, 3.0, 3.0), ports, (*_body(), *slant))


def _handle() -> tuple[Shape, ...]:
    return (_stem(3.0), Line((-1.5, 3.0), (1.5, 3.0), NARROW))


def _ring() -> tuple[Shape, ...]:
    return (_stem(2.6), Circle(0, 3.5, 0.9, OUTLINE, WHITE))


VALVES: tuple[Sign, ...] = (
    _balancing(),
    _valve("bypass_valve", 4.6, _spring()),
    _valve("shut_valve", 3.1, *_handle()),
    _check(),
    _valve("thermostatic_valve", 5.2, *_lettered("T")),
    _valve("motor_valve", 5.2, *_lettered("M")),
    _valve("fuel_shut_off", 4.5, *_ring(), fill=BLACK),
    _three_way("three_way_valve"),
    _three_way("mixing_valve", *_lettered("T")),
    _safety(),
)
