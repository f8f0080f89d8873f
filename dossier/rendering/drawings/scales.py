"""Scales, scale bars and the arrow to the bow. Prints get re-sized, so every drawing to scale bears a bar."""

from dataclasses import dataclass
from math import floor, log10

from dossier.rendering.drawings.lettering import CAPITALS, SEMIBOLD, SMALL
from dossier.rendering.drawings.pens import MIDDLE, NARROW
from dossier.rendering.drawings.plane import Box, Point
from dossier.rendering.drawings.shapes import BLACK, Arrow, Line, Rect, Shape, Text

SCALES = (5, 10, 20, 25, 40, 50, 100, 200)  # one to so many


@dataclass(frozen=True, slots=True)
class Window:
    """A view on paper: metres times ``unit`` from ``origin`` give millimetres on the sheet."""

    ratio: int
    origin: Point

    @property
    def unit(self) -> float:
        """Millimetres on paper for a metre aboard."""
        return 1000.0 / self.ratio

    def paper(self, at: Point) -> Point:
        """A projected point on the sheet."""
        return self.origin[0] + at[0] * self.unit, self.origin[1] + at[1] * self.unit

    def box(self, low: Point, high: Point) -> Box:
        """A projected rectangle on the sheet."""
        return Box(*self.paper(low), *self.paper(high))


def scale_for(width: float, height: float, room: Point, scales: tuple[int, ...] = SCALES) -> int:
    """The largest standard scale at which so many metres fit the room (millimetres); else the smallest."""
    for ratio in scales:
        if width * 1000 / ratio <= room[0] and height * 1000 / ratio <= room[1]:
            return ratio
    return scales[-1]


def scale_words(ratio: int) -> str:
    """A scale as it is written: 1 : 20."""
    return f"1 : {ratio}"


def ratio_of(words: str) -> int:
    """How many times smaller a scale as it is written draws things."""
    return int(words.rpartition(":")[2])


def scale_bar(at: Point, ratio: float, room: float, *, fine: bool = False, decimal: str = ".") -> list[Shape]:
    """A bar of whole steps no longer than ``room`` millimetres, its figures under it in metres.

    ``ratio`` is how many times smaller things are drawn than they are; ``fine`` gives the figures in
    millimetres; ``decimal`` is the mark before their decimals.
    """
    metres = _round_length(room * ratio / 1000)
    parts = 4
    step = metres / parts * 1000 / ratio
    x, y = at
    shapes: list[Shape] = [
        Rect(x + n * step, y, step, 1.1, NARROW, BLACK if n % 2 == 0 else None) for n in range(parts)
    ]
    whole, unit = (metres * 1000, "mm") if fine else (metres, "m")
    for n, text in ((0, "0"), (2, _short(whole / 2, decimal)), (4, _short(whole, decimal))):
        shapes.append(Text(x + n * step, y - 3.2, text, SMALL, anchor="middle"))
    shapes.append(Text(x + parts * step + 1.6, y - 0.4, unit, SMALL))
    return shapes


def _round_length(most: float) -> float:
    """The largest of 1, 2, 4 times a power of ten that is not longer."""
    power = 10.0 ** floor(log10(most))
    return float(max(f * power for f in (1.0, 2.0, 4.0) if f * power <= most))


def _short(number: float, decimal: str) -> str:
    return f"{number:.2f}".rstrip("0").rstrip(".").replace(".", decimal)


def forward_arrow(at: Point, word: str = "FWD") -> list[Shape]:
    """The arrow to the bow, its tip 20 mm right of where the word starts."""
    x, y = at
    text = Text(x, y, word, CAPITALS, SEMIBOLD)
    start = x + text.width + 1.6
    return [text, Line((start, y + 1.2), (start + 9.0, y + 1.2), MIDDLE), Arrow(start + 11.0, y + 1.2, 0)]
