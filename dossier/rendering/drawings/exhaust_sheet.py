"""The exhaust on a drawing sheet of its own: elevations and plan under one frame and title block."""

from dossier.rendering.drawings.exhaust import Condition, ExhaustRoute
from dossier.rendering.drawings.exhaust_elevation import exhaust_elevation
from dossier.rendering.drawings.exhaust_plan import exhaust_plan
from dossier.rendering.drawings.exhaust_plan_fit import fitted
from dossier.rendering.drawings.lettering import SEMIBOLD, SMALL
from dossier.rendering.drawings.placing import shifted
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.shapes import Drawing, Shape, Text
from dossier.rendering.drawings.sheet import Form, Sheet, framed, noted, title_block

INSET = 5.0
GUTTER = 8.0
SHARES = (0.5, 0.55, 0.6, 0.65, 0.7, 0.75)  # of the sheet that the elevations may have
CAPTION = 6.0
FIRST = 1.5  # the elevation's scale matters more
UNDRAWN = 10.0  # an opening left out weighs as much as so many steps of the scale


def exhaust_sheet(route: ExhaustRoute, conditions: tuple[Condition, ...], form: Form) -> Drawing:
    """Elevations and plan side by side over the title block, one over the other on an upright sheet."""
    sheet = Sheet(form.paper)
    notes, top = noted(sheet, form)
    frame = sheet.frame
    room = Box(frame.left + INSET, top + 2.0, frame.right - INSET, frame.top - INSET)
    pairs = [_pair(route, conditions, boxes) for boxes in _divisions(room)]
    elevation, plan, first, second, _ = min(pairs, key=_coarseness)
    shapes: list[Shape] = []
    for drawing, box, word in (
        (elevation, first, form.word("elevation", "Elevation")),
        (plan, second, form.word("plan", "Plan")),
    ):
        shapes.append(Text(box.left, box.top - 2.6, f"{word}, {drawing.title}", SMALL, SEMIBOLD))
        y = box.top - CAPTION - drawing.size[1]
        shapes += [shifted(shape, box.left, y) for shape in drawing.shapes]
    shapes += [*notes, *framed(sheet), *title_block(sheet, form.title)]
    return Drawing.of(*sheet.size, shapes, form.title.title)


def _divisions(room: Box) -> list[tuple[Box, Box]]:
    """Ways to divide the sheet: side by side, or one over the other."""
    half = GUTTER / 2
    ways: list[tuple[Box, Box]] = []
    for share in SHARES:
        x = room.left + share * room.width
        left = Box(room.left, room.bottom, x - half, room.top)
        ways.append((left, Box(x + half, room.bottom, room.right, room.top)))
        y = room.top - share * room.height
        over = Box(room.left, y + half, room.right, room.top)
        ways.append((over, Box(room.left, room.bottom, room.right, y - half)))
    return ways


Pair = tuple[Drawing, Drawing, Box, Box, int]


def _pair(route: ExhaustRoute, conditions: tuple[Condition, ...], boxes: tuple[Box, Box]) -> Pair:
    """Both drawings in their places."""
    first, second = boxes
    elevation = exhaust_elevation(route, conditions, first.width, first.height - CAPTION)
    plan = exhaust_plan(route, second.width, second.height - CAPTION)
    far = len(fitted(route, (second.width, second.height - CAPTION), numbered=False).far)
    return elevation, plan, first, second, far


def _coarseness(pair: Pair) -> tuple[bool, float]:
    """What does not fit is worst, then openings that are not drawn and small scales."""
    elevation, plan, first, _, far = pair
    fits = elevation.size[0] <= first.width + 0.01 and elevation.size[1] <= first.height - CAPTION + 0.01
    coarse = FIRST * _ratio(elevation) + _ratio(plan)
    return not fits, coarse + UNDRAWN * far


def _ratio(drawing: Drawing) -> float:
    return float(drawing.title.removeprefix("1 : "))
