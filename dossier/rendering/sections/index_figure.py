"""The pressure along the index circuit as a figure: where the pump's head goes, part by part."""

from collections.abc import Sequence

from dossier.rendering.blocks import Figure
from dossier.rendering.charts import Line, LineChart, Point
from dossier.rendering.draft import Draft
from dossier.rendering.layout.measures import figure_width
from dossier.rendering.plotted import plotted
from dossier.sizing.index_profile import ProfilePoint

NAMED = 0.06
"""Share of the pump's head from which a part bears its tag in the figure."""
HEADROOM = 1.12
TALL = 66.0
MARGIN = 0.06
"""Room before the pump, for tags beside it, as a share of the length."""


def index_figure(draft: Draft, points: Sequence[ProfilePoint], branch: str) -> Figure | None:
    """Pressure over the length of pipe from the pump; none where the circuit has no length."""
    words, numbers = draft.words, draft.numbers
    if not any(float(point.length) > 0 for point in points):
        return None
    course = [
        place
        for point in points
        for place in ((point.begins, point.before), (point.begins + point.length, after(point)))
    ]
    tags = [point for point in points if is_named(point, points)]
    ends = zip(
        plotted(numbers, [point.begins + point.length for point in tags], "length_long"),
        plotted(numbers, [after(point) for point in tags], "pressure"),
        strict=True,
    )
    high = plotted(numbers, [pressure for _, pressure in course], "pressure")
    ways = plotted(numbers, [way for way, _ in course], "length_long")
    width = figure_width(draft.paper)
    chart = LineChart(
        width,
        min(TALL, width * 0.7),
        [Line(ways, high, "", bold=True)],
        str(words("flow.index_x_title", unit=numbers.unit("length_long"))),
        str(words("flow.index_y_title", unit=numbers.unit("pressure"))),
        [
            Point(x, y, point.tag.replace("_", " "), full=float(point.drop) < 0)
            for (x, y), point in zip(ends, tags, strict=True)
        ],
        x_range=(-MARGIN * ways[-1], (1 + MARGIN / 2) * ways[-1]),
        y_range=(min(0.0, *high), max(high) * HEADROOM),
    )
    return Figure(
        chart,
        words("flow.index_figure", branch=branch),
        str(words("flow.index_figure_alt", branch=branch)),
        key="figure_index",
    )


def after(point: ProfilePoint) -> float:
    """Pressure behind a part, over that at the pump's inlet."""
    return float(point.before) - float(point.drop)


def is_named(point: ProfilePoint, points: Sequence[ProfilePoint]) -> bool:
    """Whether a part that is no pipe adds or takes enough to bear its tag."""
    head = max(abs(float(each.before)) for each in points)
    return float(point.length) <= 0 and abs(float(point.drop)) >= NAMED * head
