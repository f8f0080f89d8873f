"""Squared paper to sketch on aboard: 5 mm squares, every tenth line heavier, named along its edges."""

from dossier.rendering.drawings.shapes import Arrow, Drawing, Line, Pen, Rect, Shape, Text

SQUARE, HEAVY = 5.0, 10
FINE, THICK, FRAME = Pen(0.25, ink="8C8C8C"), Pen(0.35), Pen(0.5)
WATER = Pen(0.5, (6.0, 1.5))
HEAD, FOOT = 6.0, 6.0
ARROW = 14.0


def sketch_grid(
    squares: tuple[int, int], title: str, forward: str, scale: str, water: tuple[str, int] | None = None
) -> Drawing:
    """A grid of so many squares across and up, under its title.

    ``forward`` stands at an arrow to the right, ``scale`` at the foot with room to write; ``water`` is the
    name of the waterline and the square it lies on.
    """
    across, up = squares
    width, height = across * SQUARE, up * SQUARE
    upright = [_ruled((n * SQUARE, FOOT), (n * SQUARE, FOOT + height), n) for n in range(across + 1)]
    level = [_ruled((0.0, FOOT + n * SQUARE), (width, FOOT + n * SQUARE), n) for n in range(up + 1)]
    shapes: list[Shape] = [*upright, *level]
    shapes.append(Rect(0.0, FOOT, width, height, FRAME))
    top = FOOT + height + 1.6
    shapes.append(Text(0.0, top, title))
    shapes.append(Line((width - ARROW, top + 1.0), (width - 2.8, top + 1.0), THICK))
    shapes.append(Arrow(width, top + 1.0, 0.0))
    shapes.append(Text(width - ARROW - 1.5, top, forward, anchor="end"))
    shapes.append(Text(0.0, 1.4, scale))
    if water is not None:
        name, square = water
        y = FOOT + square * SQUARE
        shapes += [Line((0.0, y), (width, y), WATER), Text(1.5, y + 1.0, name, ground=True)]
    return Drawing.of(width, HEAD + FOOT + height, shapes, title)


def _ruled(start: tuple[float, float], end: tuple[float, float], number: int) -> Line:
    return Line(start, end, THICK if number % HEAVY == 0 else FINE)
