"""Header and heights on a sheet: the boat upright and heeled on one waterline, and the table of margins."""

from dataclasses import dataclass

from dossier.rendering.drawings.heights import Heights
from dossier.rendering.drawings.heights_view import BESIDE, HEAD, OUTSIDE, View, dimension_of, heights_view
from dossier.rendering.drawings.legend import Entry, entry_of
from dossier.rendering.drawings.pens import AXIS, HIDDEN, NARROW, OUTLINE
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.plate import laid_round
from dossier.rendering.drawings.scales import Window, scale_bar, scale_words
from dossier.rendering.drawings.shapes import BLACK, WHITE, Circle, Drawing, Line, Rect, Shape
from dossier.rendering.drawings.sheet import Form
from dossier.rendering.drawings.small_table import Column, SmallTable

SCALES = (10, 20, 25, 40, 50, 75, 100, 200)
EDGE = 6.0  # kept round what is drawn, for lettering
LETTERED = 16.0  # beside what is drawn, for names
FOOT = 9.0
GUTTER = 6.0


@dataclass(frozen=True, slots=True)
class Words:
    """The few words of the sheet."""

    condition: str = "Boat"
    point: str = "Point that counts"
    margin: str = "Header over it"
    limit: str = "Limit"
    wet: str = "wet point of the ring"
    level: str = "bottom of the header, level"
    part: str = "part of the ring"
    header: str = "header tank"
    water: str = "loaded waterline"
    legend: str = "Lines on this sheet"


def heights_sheet(heights: Heights, form: Form, words: Words | None = None) -> Drawing:
    """One sheet with all conditions side by side and the table under them."""
    words = words or Words()
    furniture = laid_round(form, _legend(heights, words))
    free = furniture.free
    table = SmallTable(
        [
            Column(words.condition),
            Column(words.point),
            Column(words.margin, is_figure=True),
            Column(words.limit, is_figure=True),
        ],
        heights.rows,
        widest=26.0,
    )
    room = Box(free.left, free.bottom + max(FOOT, table.height + 2.0), free.right, free.top)
    views = tuple(View(heights, stance) for stance in heights.stances)
    ratio, frames, windows = _placed(views, room)
    shapes: list[Shape] = []
    for view, window, frame in zip(views, windows, frames, strict=True):
        shapes += heights_view(view, window, frame)
    shapes += table.drawn(free.right - table.width, free.bottom + table.height)
    shapes += scale_bar((free.left + 1.0, free.bottom + 4.2), ratio, 60.0)
    return furniture.drawing(shapes, form.title, scale_words(ratio))


def _placed(views: tuple[View, ...], room: Box) -> tuple[int, list[Box], list[Window]]:
    """Scale, frames and windows: side by side on one waterline, as large as it goes."""
    for ratio in SCALES:
        unit = 1000.0 / ratio
        widths = [_width(view, unit) for view in views]
        low, high = _span(views, unit)
        total = sum(widths) + GUTTER * (len(views) - 1)
        fits = total <= room.width and high - low + HEAD + 2 * EDGE <= room.height
        if fits or ratio == SCALES[-1]:
            break
    share = max(0.0, room.width - total) / len(views)
    spare = max(0.0, room.height - HEAD - 2 * EDGE - (high - low))
    water = room.bottom + EDGE + spare / 2 - low
    frames, windows, left = [], [], room.left
    for view, width in zip(views, widths, strict=True):
        frame = Box(left, room.bottom, left + width + share, room.top)
        x = frame.left + LETTERED + share / 2 - view.extent.left * unit
        frames.append(frame)
        windows.append(Window(ratio, (x, water)))
        left = frame.right + GUTTER
    return ratio, frames, windows


def _width(view: View, unit: float) -> float:
    """Width of one view with names left and right and the dimension."""
    window = Window(round(1000.0 / unit), (0.0, 0.0))
    dimension = dimension_of(view, window, Box(0.0, 0.0, 0.0, 0.0))
    figures = dimension.reach * (2 if dimension.is_wide else 1)
    return view.extent.width * unit + 2 * LETTERED + BESIDE + figures


def _span(views: tuple[View, ...], unit: float) -> tuple[float, float]:
    """Lowest and highest paper height over the water, figures that stand outside their lines included."""
    lows, highs = [], []
    window = Window(round(1000.0 / unit), (0.0, 0.0))
    for view in views:
        dimension = dimension_of(view, window, Box(0.0, 0.0, 0.0, 0.0))
        more = 0.0 if dimension.is_wide else OUTSIDE
        ends = (dimension.low, dimension.high)
        lows.append(min(view.extent.bottom * unit, min(ends) - more))
        highs.append(max(view.extent.top * unit, max(ends) + more))
    return min(lows), max(highs)


def _legend(heights: Heights, words: Words) -> list[Entry]:
    found = [
        entry_of((Rect(-2.5, -1.6, 5.0, 3.2, OUTLINE, WHITE),), words.header),
        entry_of((Circle(0.0, 0.0, 0.8, None, BLACK),), words.wet),
        entry_of((Line((-5.5, 0.0), (5.5, 0.0), HIDDEN),), words.level),
    ]
    if heights.parts:
        found.append(entry_of((Rect(-2.5, -1.6, 5.0, 3.2, NARROW, WHITE),), words.part))
    return [*found, entry_of((Line((-5.5, 0.0), (5.5, 0.0), AXIS),), words.water)]
