"""Dimension lines: extension lines, arrow heads, the found figure with its limit under it."""

from dataclasses import dataclass

from dossier.rendering.drawings.lettering import (
    CAPITALS,
    REGULAR,
    SEMIBOLD,
    SMALL,
    ascent,
    text_width,
)
from dossier.rendering.drawings.pens import NARROW
from dossier.rendering.drawings.shapes import Arrow, Line, Path, Shape, Text

HEAD = 2.6
SPREAD = 1.4  # breadth of a dimension's arrow head
OVER = 1.5  # how far an extension line runs over the dimension line
GAP = 0.9  # between a line and its figure


@dataclass(frozen=True, slots=True)
class Upright:
    """An upright dimension at ``x`` between two heights, with the found figure and its limit.

    ``side`` (1 right, -1 left) is where the figures go if the line is too short for them.
    """

    x: float
    low: float
    high: float
    found: str
    limit: str = ""
    side: int = 1

    @property
    def is_wide(self) -> bool:
        """Whether figures and heads fit between the ends."""
        return abs(self.high - self.low) >= self._tall + 2 * HEAD + 2.0

    @property
    def _tall(self) -> float:
        return ascent(CAPITALS) + (ascent(SMALL) + 1.4 if self.limit else 0.0) + 2 * GAP

    @property
    def reach(self) -> float:
        """Room taken to the side of the line, in millimetres."""
        width = max(text_width(self.found, CAPITALS, SEMIBOLD), text_width(self.limit, SMALL))
        return width / 2 if self.is_wide else width + 3.0

    def parts(self) -> "list[Path | Text]":
        """The outlines and lettering of the whole dimension."""
        return [part for shape in self.shapes() for part in shape.parts()]

    def shapes(self) -> list[Shape]:
        """Line, heads and figures."""
        low, high = sorted((self.low, self.high))
        if self.is_wide:
            return self._between(low, high)
        return self._outside(low, high)

    def _between(self, low: float, high: float) -> list[Shape]:
        middle, half = (low + high) / 2, self._tall / 2
        base = middle + half - GAP - ascent(CAPITALS)
        shapes: list[Shape] = [
            Line((self.x, low), (self.x, middle - half), NARROW),
            Line((self.x, middle + half), (self.x, high), NARROW),
            Arrow(self.x, low, 270, HEAD, SPREAD),
            Arrow(self.x, high, 90, HEAD, SPREAD),
            Text(self.x, base, self.found, CAPITALS, SEMIBOLD, "middle"),
        ]
        if self.limit:
            under = base - 1.4 - ascent(SMALL)
            shapes.append(Text(self.x, under, self.limit, SMALL, REGULAR, "middle"))
        return shapes

    def _outside(self, low: float, high: float) -> list[Shape]:
        anchor = "start" if self.side > 0 else "end"
        x = self.x + self.side * 2.4
        top = high + 6.0
        shapes: list[Shape] = [
            Line((self.x, high), (self.x, top), NARROW),
            Line((self.x, low - 6.0), (self.x, low), NARROW),
            Arrow(self.x, high, 270, HEAD, SPREAD),
            Arrow(self.x, low, 90, HEAD, SPREAD),
            Text(x, top - 1.0, self.found, CAPITALS, SEMIBOLD, anchor),
        ]
        if self.limit:
            shapes.append(Text(x, top - 2.4 - ascent(SMALL), self.limit, SMALL, REGULAR, anchor))
        return shapes


@dataclass(frozen=True, slots=True)
class Level:
    """A level dimension under a row of layers: oblique ticks at both ends, the figure over the line."""

    y: float
    left: float
    right: float
    found: str

    @property
    def is_wide(self) -> bool:
        """Whether the figure fits between its ticks."""
        return self.right - self.left >= text_width(self.found, SMALL, SEMIBOLD) + 2.0

    def shapes(self) -> list[Shape]:
        """Line, ticks and, where it fits, the figure."""
        shapes: list[Shape] = [Line((self.left, self.y), (self.right, self.y), NARROW)]
        shapes += [
            Line((x - 0.9, self.y - 0.9), (x + 0.9, self.y + 0.9), NARROW) for x in (self.left, self.right)
        ]
        if self.is_wide:
            middle = (self.left + self.right) / 2
            shapes.append(Text(middle, self.y + 1.2, self.found, SMALL, SEMIBOLD, "middle"))
        return shapes
