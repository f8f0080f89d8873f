"""Line charts as the dossier draws them: named at the curves' ends, told apart by dashes, no legend.

A chart is told what it shows; where its labels go is worked out here, so that none covers another.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import Enum
from math import ceil, floor, log10
from typing import Any

from dossier.rendering.curves import Curve
from dossier.rendering.labels import BOTTOM, LABEL, LEFT, RIGHT, TOP, place_labels
from dossier.rendering.layout.measures import MM


class Dash(str, Enum):
    """Patterns that survive a copy."""

    SOLID = "solid"
    LONG = "long"
    SHORT = "short"
    DASH_DOT = "dash-dot"
    DOTTED = "dotted"


PATTERNS: dict[Dash, tuple[float, ...]] = {
    Dash.LONG: (8.5, 2.6),
    Dash.SHORT: (2.8, 2.0),
    Dash.DASH_DOT: (8.0, 2.2, 1.2, 2.2),
    Dash.DOTTED: (1.0, 1.8),
}


@dataclass(frozen=True, slots=True)
class Line:
    """One curve: its points, its name, how it is drawn."""

    x: Sequence[float]
    y: Sequence[float]
    label: str
    dash: Dash = Dash.SOLID
    bold: bool = False
    thin: bool = False


@dataclass(frozen=True, slots=True)
class Point:
    """A point with its letter; full for the design, open for others."""

    x: float
    y: float
    label: str
    full: bool = False


@dataclass(frozen=True, slots=True)
class Level:
    """A dotted line at a limit, upright at an x or level at a y, with its words at the axis."""

    at: float
    label: str
    upright: bool = True


@dataclass(frozen=True, slots=True)
class LineChart:
    """A chart of curves. Sizes in millimetres; axis titles hold the unit: ``Flow [l/min]``."""

    width_mm: float
    height_mm: float
    lines: Sequence[Line]
    x_title: str
    y_title: str
    points: Sequence[Point] = ()
    levels: Sequence[Level] = ()
    x_range: tuple[float, float] | None = None
    y_range: tuple[float, float] | None = None
    x_ticks: Sequence[tuple[float, str]] = ()
    _curve: Curve = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Prepare the drawing; nothing is imported or drawn yet."""
        object.__setattr__(self, "_curve", Curve(self.width_mm, self.height_mm, self._plot))

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
        self._curve.draw(canvas, x, y)

    def ranges(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """What both axes span."""
        return self.x_range or _range(self.lines, 0), self.y_range or _range(self.lines, 1)

    def levels_within(self) -> list[Level]:
        """The limits that lie within the axes; one beyond them would be drawn beside the figure."""
        spans = self.ranges()
        return [
            level
            for level in self.levels
            if spans[not level.upright][0] <= level.at <= spans[not level.upright][1]
        ]

    def _plot(self, figure: Any) -> None:
        x_range, y_range = self.ranges()
        area = (LEFT, BOTTOM, self.width - LEFT - RIGHT, self.height - BOTTOM - TOP)
        axes = figure.add_axes(
            (area[0] / self.width, area[1] / self.height, area[2] / self.width, area[3] / self.height)
        )
        axes.set_xlim(*x_range)
        axes.set_ylim(*y_range)
        _dress(axes, self)
        _draw_lines(axes, self)
        paths = [
            [
                (LEFT + (x - x_range[0]) / (x_range[1] - x_range[0]) * area[2],
                 BOTTOM + (y - y_range[0]) / (y_range[1] - y_range[0]) * area[3])
                for x, y in zip(line.x, line.y, strict=True)
            ]
            for line in (*self.lines, *(Line((p.x,), (p.y,), p.label) for p in self.points))
        ]  # fmt: skip
        for label in place_labels(self, paths, area):
            axes.annotate(
                label.words, (0, 0), (label.x, label.y), xycoords="figure points", textcoords="figure points",
                fontsize=LABEL, annotation_clip=False, fontweight="bold" if label.bold else "normal",
            )  # fmt: skip


def _range(lines: Sequence[Line], axis: int) -> tuple[float, float]:
    """The range of all curves, from zero where that is near."""
    ends = [number for line in lines for number in (line.x, line.y)[axis]]
    low, high = min(ends), max(ends)
    if 0 < low < 0.5 * high:
        low = 0.0
    if high <= low:
        low, high = low - 1.0, high + 1.0
    if axis == 0:
        return low, high
    step = tick_step(high - low)
    return floor(low / step + 1e-9) * step, ceil(high / step - 1e-9) * step


def tick_step(span: float) -> float:
    """Distance of hairlines that gives some four to seven of them.

    >>> [tick_step(span) for span in (7, 33, 0.9)]
    [1.0, 5.0, 0.2]
    """
    power = 10.0 ** floor(log10(span / 6))
    return next(step * power for step in (1.0, 2.0, 2.5, 5.0, 10.0) if step * power >= span / 7)


def _dress(axes: Any, chart: LineChart) -> None:
    """Axes without a box: a base line, hairlines across, titles where the reader starts."""
    from matplotlib.ticker import FuncFormatter, MaxNLocator  # noqa: PLC0415 - as in curves

    for side in ("top", "right", "left"):
        axes.spines[side].set_visible(False)
    axes.grid(visible=True, axis="y")
    axes.set_axisbelow(True)
    steps = [1, 2, 2.5, 5, 10]
    axes.yaxis.set_major_locator(MaxNLocator(7, steps=steps))
    axes.yaxis.set_major_formatter(FuncFormatter(tick_text))
    if chart.x_ticks:
        axes.set_xticks([at for at, _ in chart.x_ticks], [label for _, label in chart.x_ticks])
    else:
        axes.xaxis.set_major_locator(MaxNLocator(8, steps=steps))
        axes.xaxis.set_major_formatter(FuncFormatter(tick_text))
    for level in chart.levels_within():
        draw = axes.axvline if level.upright else axes.axhline
        draw(level.at, color="black", linewidth=0.6, linestyle=(0, (1.6, 3.2)))


def _draw_lines(axes: Any, chart: LineChart) -> None:
    for line in chart.lines:
        width = 1.9 if line.bold else 0.9 if line.thin else 1.35
        style = "-" if line.dash is Dash.SOLID else (0, tuple(v / width for v in PATTERNS[line.dash]))
        axes.plot(line.x, line.y, color="black", linewidth=width, linestyle=style)
    for point in chart.points:
        axes.plot(
            [point.x], [point.y], marker="o", markersize=5.5, color="black", markeredgewidth=1.0,
            markerfacecolor="black" if point.full else "white", linestyle="none", clip_on=False, zorder=5,
        )  # fmt: skip


def tick_text(number: float, place: int | None = None) -> str:
    """A number at an axis: minus sign, comma for thousands, no digits that say nothing.

    >>> tick_text(-0.0), tick_text(-2.5), tick_text(12000)
    ('0', '−2.5', '12,000')
    """
    del place
    said = f"{number:,.6f}".rstrip("0").rstrip(".")
    return "0" if said in {"-0", "0"} else said.replace("-", "−")
