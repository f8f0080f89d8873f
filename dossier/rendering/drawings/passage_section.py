"""Where the exhaust passes a bulkhead, in section and to scale: hole, pipe, lagging, sleeve, gap.

Measures in metres; every figure that is printed comes as a text.
"""

from dataclasses import dataclass

from dossier.rendering.drawings.callouts import Board, Callout, set_out
from dossier.rendering.drawings.dimensions import Level, Upright
from dossier.rendering.drawings.hatching import FIBROUS, Hatch
from dossier.rendering.drawings.lettering import CAPITALS, SEMIBOLD, SMALL, ascent, folded, leading
from dossier.rendering.drawings.pens import AXIS, MIDDLE, NARROW
from dossier.rendering.drawings.placing import shifted
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.plate import laid_round
from dossier.rendering.drawings.scales import scale_bar
from dossier.rendering.drawings.shapes import Drawing, Line, Pen, Shape, Text
from dossier.rendering.drawings.sheet import Form

SCALES = ((1, 1), (1, 2), (1, 5), (1, 10), (1, 20))
BOARD = 8.0  # of the bulkhead shown beyond the hole, on paper
PIPE = 18.0  # of the pipe shown on each side of the bulkhead
LEFT, RIGHT = 20.0, 26.0  # for the dimensions
FOOT = 7.0  # under the section, for the thickness
HEAD = 8.0  # over it, for the name
CAPTION = 4.0
SLEEVE = Pen(0.7)
OVERHANG = 5.0  # of a sleeve on each side of the bulkhead
LEAST = 0.8  # a plate is drawn no thinner
OFF = 6.0
GUTTER = 6.0
BAR = 50.0  # longest scale bar


@dataclass(frozen=True, slots=True)
class Passage:
    """One hole: diameters and thickness, the bulkhead's pattern, and what is said of it."""

    name: str
    hole: float
    thickness: float
    bore: float
    outside: float
    pattern: str
    hole_said: tuple[str, str]
    outside_said: tuple[str, str]
    thickness_said: str
    gap_said: str
    material: str = ""
    sleeve: str = ""
    closing: str = ""
    edge: str = ""


def passage_sheets(passages: tuple[Passage, ...], form: Form, caption: str) -> tuple[Drawing, ...]:
    """All passages at one scale, side by side on as many sheets as they need, ``caption`` over each."""
    furniture = laid_round(form, [])
    free = furniture.free
    room = free.height - CAPTION - leading(SMALL)
    ratio = next(
        (each for each in SCALES if all(_fits(passage, each, free.width, room) for passage in passages)),
        SCALES[-1],
    )
    scale = f"{ratio[0]} : {ratio[1]}"
    sheets: list[Drawing] = []
    waiting = list(passages)
    while waiting:
        shapes: list[Shape] = [Text(free.left + 1.2, free.top - 2.6, f"{caption}, {scale}", SMALL, SEMIBOLD)]
        left = free.left
        while waiting and (left == free.left or left + _width(waiting[0], ratio) <= free.right):
            drawing = passage_section(waiting.pop(0), ratio)
            across, up = drawing.size
            shapes += [shifted(shape, left, free.top - CAPTION - up) for shape in drawing.shapes]
            left += across + GUTTER
        frame = furniture.sheet.frame
        at = (frame.left + 6.0, furniture.sheet.block.top - 8.0)
        if furniture.sheet.block.left > frame.left:
            shapes += scale_bar(at, ratio[1] / ratio[0], BAR, fine=True)
        sheets.append(furniture.drawing(shapes, form.title, scale))
    return tuple(sheets)


def _unit(ratio: tuple[int, int]) -> float:
    return 1000.0 * ratio[0] / ratio[1]


def _width(passage: Passage, ratio: tuple[int, int]) -> float:
    return LEFT + 2 * PIPE + max(passage.thickness * _unit(ratio), LEAST) + RIGHT


def _height(passage: Passage, ratio: tuple[int, int]) -> float:
    return max(passage.hole, passage.outside) * _unit(ratio) + 2 * BOARD + FOOT + HEAD


def _fits(passage: Passage, ratio: tuple[int, int], width: float, height: float) -> bool:
    return _width(passage, ratio) <= width and _height(passage, ratio) <= height


def passage_section(passage: Passage, ratio: tuple[int, int]) -> Drawing:
    """One passage, its name over it and the temperature of the hole's edge under it."""
    unit = _unit(ratio)
    wall = max(passage.thickness * unit, LEAST)
    width = _width(passage, ratio)
    lines = [line for said in (passage.edge,) for line in folded(said, width - 2.0, SMALL, most=3)]
    foot = FOOT + len(lines) * leading(SMALL) + 1.0
    half = max(passage.hole, passage.outside) * unit / 2
    middle = foot + BOARD + half
    left = LEFT + PIPE
    top = middle + half + BOARD
    hole = passage.hole * unit / 2
    boards = (Box(left, foot, left + wall, middle - hole), Box(left, middle + hole, left + wall, top))
    shapes: list[Shape] = [Hatch(box, passage.pattern, MIDDLE) for box in boards]
    shapes += _exhaust(passage, unit, (left - PIPE, left + wall + PIPE), middle)
    if passage.sleeve:
        ends = left - OVERHANG, left + wall + OVERHANG
        shapes += [Line((ends[0], y), (ends[1], y), SLEEVE) for y in (middle - hole, middle + hole)]
    shapes += _dimensions(passage, unit, (left, left + wall), middle)
    shapes += Level(foot - 4.6, left, left + wall, passage.thickness_said).shapes()
    height = top + HEAD
    named: list[Shape] = [
        Text(0.0, top + HEAD - 4.0 - n * leading(CAPITALS), line, CAPITALS, SEMIBOLD)
        for n, line in enumerate(folded(passage.name, width, CAPITALS, SEMIBOLD, 1))
    ]
    named += [
        Text(0.0, foot - FOOT - ascent(SMALL) - n * leading(SMALL), line, SMALL)
        for n, line in enumerate(lines)
    ]
    board = Board(Box(0.0, 0.0, width, height))
    board.add([*shapes, *named])
    lettering, _ = set_out(_callouts(passage, unit, (left, left + wall), (middle, foot)), board)
    return Drawing.of(width, height, [*shapes, *named, *lettering], f"{ratio[0]} : {ratio[1]}")


def _exhaust(passage: Passage, unit: float, ends: tuple[float, float], y: float) -> list[Shape]:
    """Pipe along its axis, its lagging in section."""
    left, right = ends
    bore, outside = passage.bore * unit / 2, passage.outside * unit / 2
    shapes: list[Shape] = [Line((left, y), (right, y), AXIS)]
    if outside - bore > LEAST:
        shapes += [
            Hatch(Box(left, y + bore, right, y + outside), FIBROUS, NARROW),
            Hatch(Box(left, y - outside, right, y - bore), FIBROUS, NARROW),
        ]
    return shapes + [Line((left, y + side * bore), (right, y + side * bore), MIDDLE) for side in (1, -1)]


def _dimensions(passage: Passage, unit: float, wall: tuple[float, float], y: float) -> list[Shape]:
    """Outside of the exhaust at the left, the hole at the right."""
    hole, outside = passage.hole * unit / 2, passage.outside * unit / 2
    at_left, at_right = wall[0] - PIPE - OFF, wall[1] + PIPE + OFF
    shapes: list[Shape] = []
    for side in (1, -1):
        shapes.append(
            Line((wall[0] - PIPE - 0.8, y + side * outside), (at_left - 1.5, y + side * outside), NARROW)
        )
        start = wall[1] + (OVERHANG + 0.8 if passage.sleeve else 0.8)
        shapes.append(Line((start, y + side * hole), (at_right + 1.5, y + side * hole), NARROW))
    shapes += Upright(at_left, y - outside, y + outside, *passage.outside_said, side=-1).shapes()
    return [*shapes, *Upright(at_right, y - hole, y + hole, *passage.hole_said).shapes()]


def _callouts(
    passage: Passage, unit: float, wall: tuple[float, float], levels: tuple[float, float]
) -> list[Callout]:
    """Gap, material, sleeve and what closes the gap, each on its leader."""
    middle, foot = levels
    hole, outside = passage.hole * unit / 2, passage.outside * unit / 2
    low = foot + BOARD / 2
    fold = PIPE + RIGHT - 4.0
    gap = ", ".join(said for said in (passage.gap_said, passage.closing) if said)
    named = [Callout((wall[1] - 0.3, middle + (hole + outside) / 2), folded(gap, fold, SMALL), near=False)]
    named.append(Callout((wall[1], low), folded(passage.material, fold, SMALL), near=False, clear=0.4))
    if passage.sleeve:
        named.append(
            Callout(
                (wall[1] + OVERHANG - 1.0, middle - hole), folded(passage.sleeve, fold, SMALL), near=False
            )
        )
    return [callout for callout in named if callout.lines]
