"""Bars: in pieces by pattern, upright by month, or to both sides of a middle. Drawn at their own size.

Numbers come as strings made by ``numbers``; the lengths of the bars come as numbers in any one unit.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from dossier.rendering import fonts
from dossier.rendering.patterns import MM, Pattern, fill

SIZE, SMALL, FIGURE = 10.5, 7.7, 8.5
BAR, PITCH = 9 * MM, 12.6 * MM
THINNEST = 0.1  # points; what is thinner is not drawn
LEAST_PIECE = 9.8 * MM  # a number stands only in a piece wider than this


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of a bar: how long, in which pattern, and the number in it."""

    length: float
    pattern: Pattern
    said: str = ""


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar: its name, a small line under the name, its pieces, and the number at its end."""

    name: str
    below: str
    pieces: Sequence[Piece]
    total: str


def write(  # noqa: PLR0913, PLR0917 - what, where, how
    canvas: Any, x: float, y: float, said: str, size: float, font: str = fonts.REGULAR, align: str = "left"
) -> None:
    """Write a text on the canvas, its baseline at y."""
    shown = fonts.shown(said)
    wide = fonts.width(shown, font, size)
    canvas.setFillColorRGB(0, 0, 0)
    canvas.setFont(font, size)
    canvas.drawString(x - (wide if align == "right" else wide / 2 if align == "centre" else 0), y, shown)


def boxed_number(canvas: Any, x: float, y: float, said: str, size: float = FIGURE) -> None:
    """A number about x on a white ground, so that no pattern runs through it."""
    wide = fonts.width(fonts.shown(said), fonts.STRONG, size)
    canvas.setFillColorRGB(1, 1, 1)
    canvas.rect(x - wide / 2 - 1.8, y - 2.2, wide + 3.6, size + 1.2, stroke=0, fill=1)
    write(canvas, x, y, said, size, fonts.STRONG, "centre")


@dataclass(frozen=True, slots=True)
class StackedBars:
    """Bars to one scale, each in pieces of the same order; width in millimetres."""

    width_mm: float
    bars: Sequence[Bar]

    @property
    def width(self) -> float:
        """Width in points."""
        return self.width_mm * MM

    @property
    def height(self) -> float:
        """Height in points."""
        return (len(self.bars) - 1) * PITCH + BAR + 4 * MM if self.bars else 0.0

    def draw(self, canvas: Any, x: float, y: float) -> None:
        """Draw with the lower left corner at (x, y)."""
        if not self.bars:
            return
        names = min(
            max(fonts.width(fonts.shown(b.name), fonts.STRONG, SIZE) for b in self.bars), self.width / 3
        )
        below = max(fonts.width(fonts.shown(b.below), fonts.REGULAR, SMALL) for b in self.bars)
        start = x + min(max(names, below), self.width / 3) + 4 * MM
        ends = max(fonts.width(fonts.shown(b.total), fonts.STRONG, SIZE) for b in self.bars) + 3 * MM
        longest = max(sum(piece.length for piece in bar.pieces) for bar in self.bars) or 1.0
        scale = (x + self.width - ends - start) / longest
        top = y + self.height - 2 * MM
        for number, bar in enumerate(self.bars):
            bottom = top - number * PITCH - BAR
            self._bar(canvas, bar, (x, start), bottom, scale)
        canvas.setLineWidth(0.5 * MM)
        canvas.line(start, y, start, y + self.height)

    def _bar(self, canvas: Any, bar: Bar, edges: tuple[float, float], bottom: float, scale: float) -> None:
        x, start = edges
        room = start - x - 2 * MM
        name = fonts.cut(fonts.shown(bar.name), fonts.STRONG, SIZE, room)
        write(canvas, x, bottom + BAR / 2 + (0.4 * MM if bar.below else -SIZE / 3), name, SIZE, fonts.STRONG)
        write(
            canvas,
            x,
            bottom + BAR / 2 - 3.4 * MM,
            fonts.cut(fonts.shown(bar.below), fonts.REGULAR, SMALL, room),
            SMALL,
        )
        at = start
        for piece in bar.pieces:
            wide = piece.length * scale
            if wide <= 0:
                continue
            fill(canvas, piece.pattern, (at, bottom, wide, BAR))
            if piece.said and wide > max(LEAST_PIECE, fonts.width(piece.said, fonts.STRONG, FIGURE) + 3 * MM):
                boxed_number(canvas, at + wide / 2, bottom + BAR / 2 - FIGURE / 3, piece.said)
            at += wide
        write(canvas, at + 1.6 * MM, bottom + BAR / 2 - SIZE / 3, bar.total, SIZE, fonts.STRONG)


@dataclass(frozen=True, slots=True)
class Upright:
    """One upright bar, of one or more pieces from the foot up, with its name below and its number above."""

    name: str
    pieces: Sequence[Piece]
    total: str


def _unnamed(bars: "Sequence[Upright]", number: int) -> int:
    """How many bars a name may stand under: its own and half of those without a name to both sides."""
    clear = 0
    while all(0 <= at < len(bars) and not bars[at].name for at in (number - clear - 1, number + clear + 1)):
        clear += 1
    return 1 + clear


@dataclass(frozen=True, slots=True)
class UprightBars:
    """Bars beside one another, as for the months of a year; ``title`` holds the unit, sizes are mm."""

    width_mm: float
    height_mm: float
    bars: Sequence[Upright]
    title: str

    @property
    def width(self) -> float:
        """Width in points."""
        return self.width_mm * MM

    @property
    def height(self) -> float:
        """Height in points."""
        return self.height_mm * MM

    def draw(self, canvas: Any, x: float, y: float) -> None:
        """Draw with the lower left corner at (x, y)."""
        write(canvas, x, y + self.height - 8, self.title, 8)
        if not self.bars:
            return
        foot, head = y + 5 * MM, y + self.height - 11 * MM
        longest = max(sum(piece.length for piece in bar.pieces) for bar in self.bars) or 1.0
        pitch = self.width / len(self.bars)
        wide = min(pitch * 0.62, 12 * MM)
        for number, bar in enumerate(self.bars):
            middle, at = x + (number + 0.5) * pitch, foot
            for piece in bar.pieces:
                high = max(piece.length, 0.0) / longest * (head - foot)
                if high > 0:
                    fill(canvas, piece.pattern, (middle - wide / 2, at, wide, high))
                    at += high
            write(canvas, middle, at + 1.2 * MM, bar.total, 8, fonts.STRONG, "centre")
            write(
                canvas,
                middle,
                y + 1.4 * MM,
                fonts.cut(fonts.shown(bar.name), fonts.REGULAR, 8, pitch * _unnamed(self.bars, number) - 2),
                8,
                align="centre",
            )
        canvas.setLineWidth(0.5)
        canvas.line(x, foot, x + self.width, foot)


@dataclass(frozen=True, slots=True)
class Swing:
    """What one input moves: the result at its low and at its high end, as numbers and as printed."""

    name: str
    low: float
    high: float
    low_said: str
    high_said: str


@dataclass(frozen=True, slots=True)
class SwingBars:
    """Bars to both sides of a middle: white where the input is low, striped where it is high."""

    width_mm: float
    swings: Sequence[Swing]
    middle: float
    middle_said: str

    @property
    def width(self) -> float:
        """Width in points."""
        return self.width_mm * MM

    @property
    def height(self) -> float:
        """Height in points."""
        return len(self.swings) * 7.2 * MM + 6 * MM

    def draw(self, canvas: Any, x: float, y: float) -> None:
        """Draw with the lower left corner at (x, y)."""
        if not self.swings:
            return
        names = max(fonts.width(fonts.shown(swing.name), fonts.REGULAR, FIGURE) for swing in self.swings)
        start = x + min(names, self.width * 0.42) + 3 * MM
        numbers = max(
            fonts.width(fonts.shown(said), fonts.REGULAR, 8)
            for s in self.swings
            for said in (s.low_said, s.high_said)
        )
        low = min([self.middle, *(n for s in self.swings for n in (s.low, s.high))])
        high = max([self.middle, *(n for s in self.swings for n in (s.low, s.high))])
        left, right = start + numbers + 2 * MM, x + self.width - numbers - 2 * MM
        scale = (right - left) / ((high - low) or 1.0)
        axis = left + (self.middle - low) * scale
        for number, swing in enumerate(self.swings):
            bottom = y + self.height - 6 * MM - (number + 1) * 7.2 * MM + 1.2 * MM
            name = fonts.cut(fonts.shown(swing.name), fonts.REGULAR, FIGURE, start - x - 2 * MM)
            write(canvas, x, bottom + 1.5 * MM, name, FIGURE)
            for end, said, pattern in (
                (swing.low, swing.low_said, Pattern.WHITE),
                (swing.high, swing.high_said, Pattern.STROKES),
            ):
                at = left + (end - low) * scale
                if abs(at - axis) > THINNEST:
                    fill(canvas, pattern, (min(at, axis), bottom, abs(at - axis), 5 * MM))
                rightwards = at > axis or (at == axis and end is swing.high)
                write(
                    canvas, at + (1.2 * MM if rightwards else -1.2 * MM), bottom + 1.5 * MM, said, 8,
                    align="left" if rightwards else "right",
                )  # fmt: skip
        canvas.setLineWidth(0.8)
        canvas.line(axis, y, axis, y + self.height - 5 * MM)
        write(canvas, axis, y + self.height - 3.6 * MM, self.middle_said, FIGURE, fonts.STRONG, "centre")
