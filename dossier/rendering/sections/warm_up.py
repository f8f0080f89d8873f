"""Section 6.4: how long from a cold boat to a warm one?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Figure, Note, Table
from dossier.rendering.charts import Dash, Level, Line, LineChart
from dossier.rendering.draft import Draft
from dossier.rendering.layout.measures import figure_width
from dossier.rendering.plotted import plotted
from dossier.rendering.sections.opening import grounds, heading, missing
from dossier.rendering.text import Text, strong
from dossier.sizing.warm_up import WarmUp

NUMBER = Align.NUMBER
DASHES = (Dash.SOLID, Dash.LONG, Dash.SHORT, Dash.DASH_DOT, Dash.DOTTED)
STEP = 120.0  # seconds
POINTS = 150


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the table of zones, the course of temperatures."""
    warm = draft.study.warm_up
    if isinstance(warm, NotAssessed):
        yield from missing(draft, "warm_up", "6.4", warm)
        return
    yield heading(draft, "warm_up", "6.4")
    yield _answer(draft, warm)
    yield grounds(draft, "warm_up", numbers=[zone.time for zone in warm.zones.values()], chapters=["warm_up"])
    yield _table(draft, warm)
    figure = _figure(draft, warm)
    if figure is not None:
        yield figure
    if warm.lacking:
        yield Note(draft.words("warm_up.lacking", keys=draft.keys(warm.lacking)))


def _answer(draft: Draft, warm: WarmUp) -> Block:
    words = draft.words
    times = {name: zone.time for name, zone in warm.zones.items()}
    never = [draft.named(name) for name, time in times.items() if time is None]
    known = {name: time for name, time in times.items() if time is not None}
    wanted: Text = words("warm_up.wanted", wanted=draft.said(warm.within, "time_hours"))
    if not known:
        return Answer(words("warm_up.never", zones=", ".join(never)), wanted)
    slowest = max(known, key=lambda name: float(known[name]))
    answer = words("warm_up.answer", zone=draft.named(slowest), time=draft.said(known[slowest], "time_hours"))
    return Answer(
        draft.worked(known[slowest], answer),
        words("warm_up.but_never", zones=", ".join(never)) if never else wanted,
    )


def _table(draft: Draft, warm: WarmUp) -> Table:
    words, numbers = draft.words, draft.numbers
    rows: list[Sequence[Cell]] = [
        [
            strong(draft.capital(name)),
            draft.cell(zone.start, "temperature"),
            draft.cell(zone.wanted, "temperature_fine"),
            draft.cell(zone.capacity, "heat_capacity"),
            words("warm_up.not_reached")
            if zone.time is None
            else draft.worked(zone.time, strong(draft.cell(zone.time, "time_hours"))),
            draft.cell(zone.power, "power") if zone.power is not None else "—",
        ]
        for name, zone in warm.zones.items()
    ]
    return Table(
        columns=[
            Column(words("warm_up.zone")),
            Column(words("warm_up.start"), numbers.unit("temperature"), NUMBER),
            Column(words("warm_up.counts_as_warm"), numbers.unit("temperature_fine"), NUMBER),
            Column(words("warm_up.capacity"), numbers.unit("heat_capacity"), NUMBER),
            Column(words("warm_up.time"), numbers.unit("time_hours"), NUMBER),
            Column(words("warm_up.power"), numbers.unit("power"), NUMBER),
        ],
        rows=rows,
        caption=words("warm_up.caption"),
        key="table_warm_up",
        notes=words("warm_up.notes"),
    )


def _figure(draft: Draft, warm: WarmUp) -> Figure | None:
    """Temperatures of the rooms over the hours since the start."""
    words, numbers = draft.words, draft.numbers
    last = warm.record.stretches[-1]
    curves = warm.curves(max(STEP, (last.begin + last.span) / POINTS))
    if len(curves.time) < 2:  # noqa: PLR2004 - a curve has two points
        return None
    x = plotted(numbers, curves.time, "time_hours")
    lines = [
        Line(x, plotted(numbers, curves.rooms[name], "temperature_fine"), draft.named(name), dash)
        for name, dash in zip(warm.zones, DASHES * len(warm.zones), strict=False)
    ]
    width = figure_width(draft.paper)
    chart = LineChart(
        width,
        min(70, width * 0.7),
        lines,
        str(words("warm_up.x_title", unit=numbers.unit("time_hours"))),
        str(words("warm_up.y_title", unit=numbers.unit("temperature_fine"))),
        levels=[Level(plotted(numbers, [warm.within], "time_hours")[0], str(words("warm_up.level")))],
    )
    return Figure(chart, words("warm_up.figure"), str(words("warm_up.figure_alt")), key="figure_warm_up")
