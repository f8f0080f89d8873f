"""The frozen shapes every drawing is made of, in exact millimetres, origin at the lower left.

Each shape breaks down into ``parts()``: outlines (``Path``) and lettering (``Text``). Back ends
(``paint.py`` for the canvas, ``svg.py``) and the recorder (``record.py``) know these two only.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import cos, pi, radians, sin, tan
from typing import Any, Protocol, TypeAlias

from dossier.rendering.drawings.lettering import (
    POINT,
    REGULAR,
    SMALL,
    ascent,
    descent,
    text_width,
)
from dossier.rendering.drawings.plane import Box, Point, beside

Step: TypeAlias = tuple[str, tuple[Point, ...]]  # M one point, L one point, C three points, Z none

BLACK = "000000"
WHITE = "FFFFFF"


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line looks: width and dash lengths in millimetres, ink as six hex digits.

    ``dashes`` alternate stroke and gap; on straight runs they are fitted so that a stroke ends each run.
    """

    width: float = 0.35
    dashes: tuple[float, ...] = ()
    ink: str = BLACK
    double: float = 0.0


class Shape(Protocol):
    """Anything that breaks down into outlines and lettering."""

    def parts(self) -> "Iterator[Path | Text]":
        """Outlines and lettering, in the order they are drawn."""
        ...


@dataclass(frozen=True, slots=True)
class Path:
    """An outline of straight and curved steps."""

    steps: tuple[Step, ...]
    pen: Pen | None = None
    fill: str | None = None

    def parts(self) -> "Iterator[Path | Text]":
        """Itself."""
        yield self


def _straight(points: tuple[Point, ...], *, closed: bool = False) -> tuple[Step, ...]:
    steps: list[Step] = [("M", (points[0],))]
    steps += [("L", (p,)) for p in points[1:]]
    return (*steps, ("Z", ())) if closed else tuple(steps)


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    pen: Pen = Pen()

    def parts(self) -> "Iterator[Path | Text]":
        """One outline."""
        yield Path(_straight((self.start, self.end)), self.pen)


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight lines from point to point; a double pen draws two parallel lines instead of one."""

    points: tuple[Point, ...]
    pen: Pen = Pen()

    def parts(self) -> "Iterator[Path | Text]":
        """One outline, two for a double pen."""
        if self.pen.double:
            single = Pen(self.pen.width, self.pen.dashes, self.pen.ink)
            for side in (0.5, -0.5):
                yield Path(_straight(beside(self.points, side * self.pen.double)), single)
        else:
            yield Path(_straight(self.points), self.pen)


@dataclass(frozen=True, slots=True)
class Polygon:
    """A closed figure."""

    points: tuple[Point, ...]
    pen: Pen | None = Pen()
    fill: str | None = None

    def parts(self) -> "Iterator[Path | Text]":
        """One outline."""
        yield Path(_straight(self.points, closed=True), self.pen, self.fill)


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle from its lower left corner."""

    x: float
    y: float
    width: float
    height: float
    pen: Pen | None = Pen()
    fill: str | None = None

    @property
    def corners(self) -> tuple[Point, ...]:
        """The four corners, counter-clockwise from the lower left."""
        right, top = self.x + self.width, self.y + self.height
        return ((self.x, self.y), (right, self.y), (right, top), (self.x, top))

    def parts(self) -> "Iterator[Path | Text]":
        """One outline."""
        yield Path(_straight(self.corners, closed=True), self.pen, self.fill)


@dataclass(frozen=True, slots=True)
class Arc:
    """A part of a circle; angles in degrees, counter-clockwise from the right."""

    x: float
    y: float
    radius: float
    start: float
    extent: float
    pen: Pen | None = Pen()

    def parts(self) -> "Iterator[Path | Text]":
        """One outline of cubic curves, a quarter circle each at most."""
        yield Path(_arc_steps(self.x, self.y, self.radius, (self.start, self.extent)), self.pen)


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    x: float
    y: float
    radius: float
    pen: Pen | None = Pen()
    fill: str | None = None

    def parts(self) -> "Iterator[Path | Text]":
        """One outline of four cubic curves."""
        steps = _arc_steps(self.x, self.y, self.radius, (0.0, 360.0))
        yield Path((*steps, ("Z", ())), self.pen, self.fill)


def _arc_steps(x: float, y: float, radius: float, sweep: tuple[float, float]) -> tuple[Step, ...]:
    start, extent = radians(sweep[0]), radians(sweep[1])
    pieces = max(1, round(abs(extent) / (pi / 2) + 0.499))
    part = extent / pieces
    reach = 4 / 3 * tan(part / 4) * radius
    steps: list[Step] = [("M", ((x + radius * cos(start), y + radius * sin(start)),))]
    for n in range(pieces):
        a, b = start + n * part, start + (n + 1) * part
        steps.append(
            (
                "C",
                (
                    (x + radius * cos(a) - reach * sin(a), y + radius * sin(a) + reach * cos(a)),
                    (x + radius * cos(b) + reach * sin(b), y + radius * sin(b) - reach * cos(b)),
                    (x + radius * cos(b), y + radius * sin(b)),
                ),
            )
        )
    return tuple(steps)


@dataclass(frozen=True, slots=True)
class Arrow:
    """A filled arrow head with its tip at x, y; the direction in degrees, 0 to the right."""

    x: float
    y: float
    direction: float
    length: float = 2.8
    breadth: float = 1.9
    ink: str = BLACK

    def parts(self) -> "Iterator[Path | Text]":
        """One filled triangle."""
        c, s = cos(radians(self.direction)), sin(radians(self.direction))
        back = (self.x - self.length * c, self.y - self.length * s)
        half = self.breadth / 2
        points = (
            (self.x, self.y),
            (back[0] - half * s, back[1] + half * c),
            (back[0] + half * s, back[1] - half * c),
        )
        yield Path(_straight(points, closed=True), None, self.ink)


@dataclass(frozen=True, slots=True)
class Text:
    """A horizontal line of lettering; ``y`` is its baseline, ``size`` in points.

    ``anchor`` is start, middle or end. With ``ground`` a white field is laid under it (over hatching only).
    """

    x: float
    y: float
    text: str
    size: float = SMALL
    weight: str = REGULAR
    anchor: str = "start"
    ground: bool = False
    ink: str = BLACK

    @property
    def left(self) -> float:
        """Where the lettering starts."""
        return self.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * self.width

    @property
    def width(self) -> float:
        """Extent across in millimetres."""
        return text_width(self.text, self.size, self.weight)

    @property
    def box(self) -> Box:
        """Room taken from descender to ascender."""
        return Box(self.left, self.y - descent(self.size), self.left + self.width, self.y + ascent(self.size))

    def parts(self) -> "Iterator[Path | Text]":
        """Itself."""
        yield self


@dataclass(frozen=True, slots=True)
class Group:
    """Shapes that belong together: a sign on the schematic, a burner; ``box`` is kept free of lettering."""

    name: str
    box: Box
    shapes: tuple[Shape, ...]

    def parts(self) -> "Iterator[Path | Text]":
        """The parts of all its shapes."""
        for shape in self.shapes:
            yield from shape.parts()


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished drawing: shapes in millimetres, ``width`` and ``height`` in points as a page wants them.

    ``scale`` is what a sheet bears in its title block.
    """

    width: float
    height: float
    shapes: tuple[Shape, ...] = field(repr=False)
    title: str = ""
    scale: str = ""

    @staticmethod
    def of(across: float, up: float, shapes: "list[Shape] | tuple[Shape, ...]", title: str = "") -> "Drawing":
        """A drawing whose size is given in millimetres."""
        return Drawing(across / POINT, up / POINT, tuple(shapes), title)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in millimetres."""
        return self.width * POINT, self.height * POINT

    def parts(self) -> Iterator[Path | Text]:
        """Outlines and lettering of all shapes, in order."""
        for shape in self.shapes:
            yield from shape.parts()

    def draw(self, canvas: Any, x: float = 0.0, y: float = 0.0) -> None:
        """Draw on a reportlab canvas with the lower left corner at x, y (points)."""
        from dossier.rendering.drawings.paint import paint  # noqa: PLC0415 - the back end knows the shapes

        paint(self, canvas, (x, y))

    def to_svg(self) -> str:
        """The drawing as an SVG document with text as text."""
        from dossier.rendering.drawings.svg import svg  # noqa: PLC0415 - the back end knows the shapes

        return svg(self)
