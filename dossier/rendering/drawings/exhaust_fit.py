"""How large the elevation of an exhaust may be drawn, and what room its dimension lines take."""

from dataclasses import dataclass

from dossier.rendering.drawings.dimensions import Upright
from dossier.rendering.drawings.exhaust import Height
from dossier.rendering.drawings.exhaust_view import View
from dossier.rendering.drawings.plane import Point
from dossier.rendering.drawings.scales import SCALES

HEADING = 8.0  # over the views, for their names
FOOT = 9.0  # under them, for the scale bar
BESIDE = 6.0  # from what is drawn to a dimension line
OUTBOARD = 10.0  # from the shell to the outlet's dimension line
WATER = 20.0  # of open water shown outside the shell
MARGIN = 3.0
OUTSIDE = 8.0  # over and under a dimension whose figures stand outside it
MARKS = 6.5  # room for what stands across the pipe or is led down from it
DEEP = 5.0  # of water shown
SIGN = 6.0  # room for the sign of the water
BETWEEN = 6.0


@dataclass(frozen=True, slots=True)
class Figures:
    """The two heights of a view at one scale: how they stand and what room they take."""

    view: View
    unit: float

    @property
    def loop(self) -> Upright | None:
        """The dimension of the loop over the water, at x = 0."""
        return self._upright(self.view.condition.loop, self.view.highest)

    @property
    def outlet(self) -> Upright | None:
        """The dimension of the outlet's lower edge over the water, at x = 0."""
        return self._upright(self.view.condition.outlet, self.view.rim)

    def _upright(self, height: Height | None, point: Point) -> Upright | None:
        return Upright(0.0, 0.0, point[1] * self.unit, height.found, height.limit) if height else None

    @property
    def inboard(self) -> float:
        """From what is drawn to the loop's dimension line."""
        named = not self.view.condition.angle and (self.view.route.passages or self.view.route.drains)
        return _off(self.loop, BESIDE) + (MARKS if named else 0.0)

    @property
    def outboard(self) -> float:
        """From what is drawn to the outlet's dimension line."""
        named = not self.view.condition.angle and self.view.route.passages
        return _off(self.outlet, OUTBOARD) + (MARKS if named else 0.0)

    @property
    def beside(self) -> tuple[float, float]:
        """Room left and right of the view for its dimension lines and the open water."""
        inboard = self.inboard + (self.loop.reach + 2.0 if self.loop else 0.0)
        outboard = max(WATER, self.outboard + (self.outlet.reach if self.outlet else 0.0) + SIGN)
        return (inboard, outboard) if self.view.out > 0 else (outboard, inboard)

    @property
    def span(self) -> tuple[float, float]:
        """Lowest and highest paper height over the water, figures that stand outside their lines included."""
        low, high = self.view.extent.bottom * self.unit, self.view.extent.top * self.unit
        for each in (self.loop, self.outlet):
            if each and not each.is_wide:
                low = min(low, min(0.0, each.high) - OUTSIDE)
                high = max(high, max(0.0, each.high) + OUTSIDE)
        return min(low, -DEEP), high


def _off(dimension: Upright | None, least: float) -> float:
    """A dimension line stands so far off that its figures clear what is drawn."""
    return max(least, dimension.reach + 2.0) if dimension and dimension.is_wide else least


@dataclass(frozen=True, slots=True)
class Fit:
    """A scale with the room each view then takes, on paper."""

    ratio: int
    views: tuple[View, ...]

    @property
    def unit(self) -> float:
        """Millimetres for a metre."""
        return 1000.0 / self.ratio

    @property
    def low(self) -> float:
        """The lowest drawn height over the water, on paper."""
        return min(Figures(view, self.unit).span[0] for view in self.views)

    @property
    def height(self) -> float:
        """Height of the whole figure."""
        high = max(Figures(view, self.unit).span[1] for view in self.views)
        return high - self.low + HEADING + FOOT + 2 * MARGIN

    def width(self, view: View) -> float:
        """Width of one view with its dimensions."""
        return view.extent.width * self.unit + sum(Figures(view, self.unit).beside)

    @property
    def total(self) -> float:
        """Width of all views."""
        return sum(self.width(view) for view in self.views) + BETWEEN * (len(self.views) - 1)

    def is_within(self, width: float, height: float) -> bool:
        """Whether the figure is no larger than that, in millimetres."""
        return self.total <= width and self.height <= height


def fit_for(views: tuple[View, ...], width: float, height: float) -> Fit:
    """The largest scale at which the views fit side by side; the smallest of all where none does."""
    fits = (Fit(ratio, views) for ratio in SCALES)
    return next((each for each in fits if each.is_within(width, height)), Fit(SCALES[-1], views))
