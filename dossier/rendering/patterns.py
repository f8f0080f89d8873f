"""Six ways to fill an area that a copier keeps apart: no colour, no grey, told apart by their lines."""

from enum import Enum
from typing import Any

MM = 72 / 25.4
FRAME = 0.25 * MM


class Pattern(str, Enum):
    """Patterns in the order in which they are given out."""

    WHITE = "white"
    BLACK = "black"
    STROKES = "strokes"
    CROSSED = "crossed"
    LINES = "lines"
    DOTS = "dots"


def _slanted(path: Any, area: tuple[float, float, float, float], pitch: float, *, falling: bool) -> None:
    """Lines at 45 degrees, at the same places whatever the area, so that neighbours join."""
    x, y, wide, high = area
    step = pitch * 2**0.5
    start = (x + y if falling else x - y) // step * step
    end = x + wide + (y + high if falling else -y)
    at = start - high
    while at < end:
        if falling:
            path.moveTo(at - y, y)
            path.lineTo(at - y - high, y + high)
        else:
            path.moveTo(at + y, y)
            path.lineTo(at + y + high, y + high)
        at += step


def fill(canvas: Any, pattern: Pattern, area: tuple[float, float, float, float]) -> None:
    """Fill and frame a rectangle (left, bottom, width, height) on a reportlab canvas."""
    x, y, wide, high = area
    canvas.saveState()
    canvas.setStrokeColorRGB(0, 0, 0)
    canvas.setFillColorRGB(*((0, 0, 0) if pattern is Pattern.BLACK else (1, 1, 1)))
    canvas.rect(x, y, wide, high, stroke=0, fill=1)
    canvas.setFillColorRGB(0, 0, 0)
    clip = canvas.beginPath()
    clip.rect(x, y, wide, high)
    canvas.clipPath(clip, stroke=0, fill=0)
    path = canvas.beginPath()
    if pattern is Pattern.STROKES:
        canvas.setLineWidth(0.3 * MM)
        _slanted(path, area, 1.7 * MM, falling=False)
    elif pattern is Pattern.CROSSED:
        canvas.setLineWidth(0.16 * MM)
        _slanted(path, area, 1.5 * MM, falling=False)
        _slanted(path, area, 1.5 * MM, falling=True)
    elif pattern is Pattern.LINES:
        canvas.setLineWidth(0.2 * MM)
        for number in range(1, int(high / MM) + 1):
            path.moveTo(x, y + number * MM)
            path.lineTo(x + wide, y + number * MM)
    elif pattern is Pattern.DOTS:
        _dots(path, area)
    canvas.drawPath(path, stroke=int(pattern is not Pattern.DOTS), fill=int(pattern is Pattern.DOTS))
    canvas.restoreState()
    canvas.saveState()
    canvas.setLineWidth(FRAME)
    canvas.setStrokeColorRGB(0, 0, 0)
    canvas.rect(x, y, wide, high, stroke=1, fill=0)
    canvas.restoreState()


def _dots(path: Any, area: tuple[float, float, float, float]) -> None:
    """Dots on a slanting grid."""
    x, y, wide, high = area
    pitch, radius = 1.25 * MM, 0.2 * MM
    row, up = 0, pitch / 2
    while up < high:
        across = pitch / 2 if row % 2 == 0 else pitch
        while across < wide:
            path.circle(x + across, y + up, radius)
            across += pitch
        up += pitch
        row += 1
