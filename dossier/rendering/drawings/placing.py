"""Shapes turned, mirrored and moved: how a sign drawn about its own centre comes to its place."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.shapes import Group, Path, Shape, Text
from dossier.rendering.drawings.wires import Wire

QUARTERS = ((1, 0), (0, 1), (-1, 0), (0, -1))


@dataclass(frozen=True, slots=True)
class Place:
    """Where a sign stands: centre, quarter turns counter-clockwise, mirrored left to right before turning."""

    x: float
    y: float
    quarters: int = 0
    mirrored: bool = False

    def point(self, at: Point) -> Point:
        """A point of the sign, on the sheet."""
        c, s = QUARTERS[self.quarters % 4]
        x = -at[0] if self.mirrored else at[0]
        return self.x + c * x - s * at[1], self.y + s * x + c * at[1]

    def box(self, box: Box) -> Box:
        """A box of the sign, on the sheet."""
        (x0, y0), (x1, y1) = self.point((box.left, box.bottom)), self.point((box.right, box.top))
        return Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))

    def shape(self, shape: Shape) -> tuple[Shape, ...]:
        """A shape of the sign, on the sheet; lettering keeps upright and centred where it stood."""
        return tuple(self._part(part) for part in shape.parts())

    def _part(self, part: Path | Text) -> Shape:
        if isinstance(part, Text):
            middle_x, middle_y = part.box.middle
            rise = part.y - middle_y
            x, y = self.point((middle_x, middle_y))
            return replace(part, x=x, y=y + rise, anchor="middle")
        return replace(
            part, steps=tuple((mark, tuple(self.point(p) for p in points)) for mark, points in part.steps)
        )


def shifted(shape: Shape, dx: float, dy: float) -> Shape:
    """The same shape elsewhere; a group stays a group."""
    if isinstance(shape, Wire | Anchor):
        return shape.moved(dx, dy)
    if isinstance(shape, Group):
        shapes = tuple(shifted(each, dx, dy) for each in shape.shapes)
        return Group(shape.name, shape.box.moved(dx, dy), shapes)
    if isinstance(shape, Text):
        return replace(shape, x=shape.x + dx, y=shape.y + dy)
    if isinstance(shape, Path):
        steps = tuple((mark, tuple((x + dx, y + dy) for x, y in points)) for mark, points in shape.steps)
        return Path(steps, shape.pen, shape.fill)
    parts = tuple(shifted(part, dx, dy) for part in shape.parts())
    return parts[0] if len(parts) == 1 else Bundle(parts)


@dataclass(frozen=True, slots=True)
class Bundle:
    """Shapes that are drawn one after the other and are no sign."""

    shapes: tuple[Shape, ...]

    def parts(self) -> Iterator[Path | Text]:
        """The parts of all its shapes."""
        for shape in self.shapes:
            yield from shape.parts()


@dataclass(frozen=True, slots=True)
class Anchor:
    """A named point that draws nothing: where a line is to be led once everything stands."""

    name: str
    x: float
    y: float

    def moved(self, dx: float, dy: float) -> "Anchor":
        """The same point elsewhere."""
        return Anchor(self.name, self.x + dx, self.y + dy)

    def parts(self) -> Iterator[Path | Text]:
        """Nothing."""
        return iter(())
