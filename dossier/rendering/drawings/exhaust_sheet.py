"""The exhaust on drawing sheets: elevations and plan on one, or on one each where they are large."""

from dataclasses import dataclass

from dossier.rendering.drawings.exhaust import Condition, ExhaustRoute
from dossier.rendering.drawings.exhaust_elevation import exhaust_elevation
from dossier.rendering.drawings.exhaust_fit import fit_for
from dossier.rendering.drawings.exhaust_plan import exhaust_plan
from dossier.rendering.drawings.exhaust_plan_fit import Words, fitted
from dossier.rendering.drawings.exhaust_view import View
from dossier.rendering.drawings.lettering import SEMIBOLD, SMALL
from dossier.rendering.drawings.placing import shifted
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.plate import Furniture, laid_round
from dossier.rendering.drawings.shapes import Drawing, Shape, Text
from dossier.rendering.drawings.sheet import Form

GUTTER = 8.0
SHARES = (0.5, 0.55, 0.6, 0.65, 0.7, 0.75)  # of the sheet that the elevations may have
CAPTION = 6.0
FIRST = 1.5  # the elevation's scale matters more
UNDRAWN = 10.0  # an opening left out weighs as much as so many steps of the scale
WELL = 25  # one to so many, or larger: both on one sheet are well to read


@dataclass(frozen=True, slots=True)
class Division:
    """Room for elevation and plan, with the scales they then have and how many openings are left out."""

    elevation: Box
    plan: Box
    scales: tuple[int, int]
    undrawn: int
    fits: bool

    @property
    def coarseness(self) -> tuple[bool, float]:
        """What does not fit is worst, then openings that are not drawn and small scales."""
        return not self.fits, FIRST * self.scales[0] + self.scales[1] + UNDRAWN * self.undrawn


def exhaust_sheets(
    route: ExhaustRoute, conditions: tuple[Condition, ...], form: Form, words: Words | None = None
) -> tuple[Drawing, ...]:
    """Both on one sheet where they are well to read there, else one after the other on two."""
    furniture = laid_round(form, [])
    views = tuple(View(route, condition) for condition in conditions)
    room = furniture.free
    together = min((_division(views, *boxes) for boxes in _divisions(room)), key=lambda d: d.coarseness)
    apart = _division(views, room, room)
    both = _Figures(route, conditions, words or Words(), furniture, form)
    if together.undrawn == 0 and max(together.scales) <= WELL:
        return (both.sheet(together, elevation=True, plan=True),)
    if together.coarseness <= apart.coarseness:
        return (both.sheet(together, elevation=True, plan=True),)
    return both.sheet(apart, elevation=True), both.sheet(apart, plan=True)


def _division(views: tuple[View, ...], elevation: Box, plan: Box) -> Division:
    fit = fit_for(views, elevation.width, elevation.height - CAPTION)
    level = fitted(views[0].route, (plan.width, plan.height - CAPTION), numbered=False)
    fits = fit.is_within(elevation.width, elevation.height - CAPTION)
    return Division(elevation, plan, (fit.ratio, level.window.ratio), len(level.far), fits)


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


@dataclass(frozen=True, slots=True)
class _Figures:
    """The two figures, and the sheet they come on."""

    route: ExhaustRoute
    conditions: tuple[Condition, ...]
    words: Words
    furniture: Furniture
    form: Form

    def sheet(self, division: Division, *, elevation: bool = False, plan: bool = False) -> Drawing:
        """One sheet with one figure or both."""
        shapes: list[Shape] = []
        scales: list[str] = []
        if elevation:
            box = division.elevation
            figure = exhaust_elevation(self.route, self.conditions, box.width, box.height - CAPTION)
            shapes += _captioned(figure, box, self.form.word("elevation", "Elevation"))
            scales.append(figure.title)
        if plan:
            box = division.plan
            figure = exhaust_plan(self.route, box.width, box.height - CAPTION, self.words)
            shapes += _captioned(figure, box, self.form.word("plan", "Plan"))
            scales.append(figure.title)
        return self.furniture.drawing(shapes, self.form.title, ", ".join(dict.fromkeys(scales)))


def _captioned(figure: Drawing, box: Box, word: str) -> list[Shape]:
    """A figure under its caption, from the top of its room."""
    below = box.top - CAPTION - figure.size[1]
    caption = Text(box.left, box.top - 2.6, f"{word}, {figure.title}", SMALL, SEMIBOLD)
    return [caption, *(shifted(shape, box.left, below) for shape in figure.shapes)]
