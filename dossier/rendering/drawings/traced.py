"""Shapes out of whatever draws itself on a canvas: curves and bars become a drawing like any other.

``shapes_of(drawable)`` runs ``draw`` on a canvas that keeps what is drawn. It knows the part of the canvas
that our figures use; what it does not know is a fault, never left out in silence.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import cos, radians, sin
from typing import Any

from dossier.notation import PageFault
from dossier.rendering.drawings.lettering import FACES, POINT
from dossier.rendering.drawings.plane import Point
from dossier.rendering.drawings.shapes import BLACK, Circle, Drawing, Path, Pen, Shape, Step, Text

STRAIGHT = 2
"""Steps of a line from one point to another."""
Area = tuple[float, float, float, float]
WEIGHTS = {font: weight for weight, font in FACES.items()}


@dataclass(frozen=True)
class _State:
    """What the canvas is set to; lengths in points, the place as a shift and a turn."""

    shift: Point = (0.0, 0.0)
    turn: float = 0.0
    width: float = 1.0
    stroke: str = BLACK
    fill: str = BLACK
    dashes: tuple[float, ...] = ()
    font: tuple[str, float] = ("", 0.0)
    clip: Area | None = None


class _Outline:
    """A path on the way; steps in points as they are given."""

    def __init__(self) -> None:
        self.steps: list[Step] = []

    def moveTo(self, x: float, y: float) -> None:  # noqa: N802 - the canvas's name
        self.steps.append(("M", ((x, y),)))

    def lineTo(self, x: float, y: float) -> None:  # noqa: N802 - the canvas's name
        self.steps.append(("L", ((x, y),)))

    def curveTo(self, *ends: float) -> None:  # noqa: N802 - the canvas's name
        self.steps.append(("C", tuple(zip(ends[::2], ends[1::2], strict=True))))

    def close(self) -> None:
        self.steps.append(("Z", ()))

    def rect(self, x: float, y: float, width: float, height: float) -> None:
        self.moveTo(x, y)
        for corner in ((x + width, y), (x + width, y + height), (x, y + height)):
            self.lineTo(*corner)
        self.close()

    def circle(self, x: float, y: float, radius: float) -> None:
        (part,) = Circle(x, y, radius).parts()
        self.steps += part.steps if isinstance(part, Path) else ()


class _Canvas:
    """Keeps what is drawn, as shapes in millimetres."""

    def __init__(self) -> None:
        self.shapes: list[Shape] = []
        self.state = _State()
        self.kept: list[_State] = []

    def __getattr__(self, name: str) -> Any:
        raise PageFault(f"a figure uses {name} of the canvas, which only a PDF has: draw it as pdf")

    def set(self, **changed: Any) -> None:
        self.state = replace(self.state, **changed)

    def saveState(self) -> None:  # noqa: N802 - the canvas's name
        self.kept.append(self.state)

    def restoreState(self) -> None:  # noqa: N802 - the canvas's name
        self.state = self.kept.pop()

    def translate(self, x: float, y: float) -> None:
        self.set(shift=self.placed((x, y)))

    def rotate(self, angle: float) -> None:
        self.set(turn=self.state.turn + angle)

    def setLineWidth(self, width: float) -> None:  # noqa: N802 - the canvas's name
        self.set(width=width)

    def setStrokeColorRGB(self, *rgb: float) -> None:  # noqa: N802 - the canvas's name
        self.set(stroke=_hex(rgb))

    def setFillColorRGB(self, *rgb: float) -> None:  # noqa: N802 - the canvas's name
        self.set(fill=_hex(rgb))

    def setDash(self, *dashes: Any) -> None:  # noqa: N802 - the canvas's name
        lengths = dashes[0] if dashes and isinstance(dashes[0], list | tuple) else dashes
        self.set(dashes=tuple(float(length) * POINT for length in lengths))

    def setLineCap(self, cap: int) -> None:  # noqa: N802 - the canvas's name
        del cap  # ends of lines are butt in all our drawings

    def setLineJoin(self, join: int) -> None:  # noqa: N802 - the canvas's name
        del join

    def setFont(self, name: str, size: float) -> None:  # noqa: N802 - the canvas's name
        self.set(font=(name, size))

    def drawString(self, x: float, y: float, text: str) -> None:  # noqa: N802 - the canvas's name
        if self.state.turn:
            raise PageFault("a figure has turned lettering, which only a PDF shows: draw it as pdf")
        name, size = self.state.font
        across, up = self.placed((x, y))
        self.shapes.append(Text(across * POINT, up * POINT, text, size, WEIGHTS[name], ink=self.state.fill))

    def line(self, x1: float, y1: float, x2: float, y2: float) -> None:
        outline = _Outline()
        outline.moveTo(x1, y1)
        outline.lineTo(x2, y2)
        self.drawPath(outline, stroke=1, fill=0)

    def rect(self, *area: float, stroke: int = 1, fill: int = 0) -> None:
        outline = _Outline()
        outline.rect(*area)
        self.drawPath(outline, stroke=stroke, fill=fill)

    def beginPath(self) -> _Outline:  # noqa: N802 - the canvas's name
        return _Outline()

    def clipPath(self, outline: _Outline, **kept: int) -> None:  # noqa: N802 - the canvas's name
        del kept
        corners = [self.placed(point) for _, points in outline.steps for point in points]
        across, up = zip(*corners, strict=True)
        self.set(clip=(min(across), min(up), max(across), max(up)))

    def drawPath(self, outline: _Outline, stroke: int = 1, fill: int = 0) -> None:  # noqa: N802 - the canvas's name
        steps: list[Step] = [
            (mark, tuple(self.placed(point) for point in points)) for mark, points in outline.steps
        ]
        if self.state.clip is not None and not fill:
            steps = list(_clipped(steps, self.state.clip))
        if not steps:
            return
        state = self.state
        pen = Pen(state.width * POINT, state.dashes, state.stroke) if stroke else None
        if pen is not None and pen.dashes and len(steps) > STRAIGHT:
            steps = list(_bending(steps))
        in_mm = tuple((mark, tuple((x * POINT, y * POINT) for x, y in points)) for mark, points in steps)
        self.shapes.append(Path(in_mm, pen, state.fill if fill else None))

    def placed(self, point: Point) -> Point:
        """A point where it comes to lie."""
        angle = radians(self.state.turn)
        x = self.state.shift[0] + point[0] * cos(angle) - point[1] * sin(angle)
        return x, self.state.shift[1] + point[0] * sin(angle) + point[1] * cos(angle)


def _bending(steps: list[Step]) -> Iterator[Step]:
    """Straight pieces as curves that do not bend, along which dashes run on from piece to piece."""
    here: Point = (0.0, 0.0)
    for mark, points in steps:
        yield ("C", (here, points[0], points[0])) if mark == "L" else (mark, points)
        here = points[-1] if points else here


def _hex(rgb: tuple[float, ...]) -> str:
    return "".join(f"{round(255 * float(part)):02X}" for part in rgb[:3])


def _clipped(steps: list[Step], area: Area) -> Iterator[Step]:
    """Straight pieces cut at the sides of an area; curves stay whole if they begin in it."""
    first = here = (0.0, 0.0)
    shown = (0.0, 0.0)
    drawn = False
    for mark, points in steps:
        if mark == "M":
            first = here = points[0]
            drawn = False
            continue
        there = first if mark == "Z" else points[-1]
        inside = _begins_in(here, there, area) if mark == "C" else _cut(here, there, area)
        if inside is not None:
            if not drawn or shown != inside[0]:
                yield "M", (inside[0],)
            yield ("C", points) if mark == "C" else ("L", (inside[1],))
            shown, drawn = inside[1], True
        here = there


def _begins_in(start: Point, end: Point, area: Area) -> tuple[Point, Point] | None:
    inside = area[0] <= start[0] <= area[2] and area[1] <= start[1] <= area[3]
    return (start, end) if inside else None


def _cut(start: Point, end: Point, area: Area) -> tuple[Point, Point] | None:
    """The part of a straight piece that lies in an area, None where none does (Liang and Barsky's way)."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    low, high = 0.0, 1.0
    sides = (
        (-dx, start[0] - area[0]),
        (dx, area[2] - start[0]),
        (-dy, start[1] - area[1]),
        (dy, area[3] - start[1]),
    )
    for along, room in sides:
        if along == 0:
            if room < 0:
                return None
            continue
        share = room / along
        if along < 0:
            low = max(low, share)
        else:
            high = min(high, share)
    if low > high:
        return None
    return (start[0] + low * dx, start[1] + low * dy), (start[0] + high * dx, start[1] + high * dy)


def shapes_of(drawable: Any, title: str = "") -> Drawing:
    """A drawing with all that a figure draws. Raises PageFault where it draws what only a PDF can hold."""
    if isinstance(drawable, Drawing):
        return drawable
    canvas = _Canvas()
    drawable.draw(canvas, 0.0, 0.0)
    return Drawing(drawable.width, drawable.height, tuple(canvas.shapes), title)
