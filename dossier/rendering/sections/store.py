"""Section 6.10: how long does the burner run, and how often does it start?"""

from collections.abc import Iterator, Sequence
from math import ceil, floor

from dossier.notation import NotAssessed
from dossier.rendering.bars import Piece, Upright, UprightBars
from dossier.rendering.blocks import (
    Align,
    Answer,
    Block,
    Cell,
    Column,
    Figure,
    Heading,
    Note,
    Paragraph,
    Span,
    Table,
)
from dossier.rendering.charts import Dash, Level, Line, LineChart
from dossier.rendering.draft import Draft
from dossier.rendering.layout.measures import figure_width
from dossier.rendering.patterns import Pattern
from dossier.rendering.plotted import plotted
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong
from dossier.sizing.day import DayStudy
from dossier.sizing.day_hours import burner_hours
from dossier.sizing.store import StoreStudy
from dossier.sizing.store_modes import ModeCycle

NUMBER = Align.NUMBER
DASHES = (Dash.SOLID, Dash.LONG, Dash.SHORT, Dash.DASH_DOT, Dash.DOTTED)
SHOWN = (0.0, 0.03, 0.06, 0.12)
TEN_MINUTES = 600.0
HOUR = 3600.0
EVERY, FIVE = 3, 5


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the modes, starts against load, what a store would do, then the simulated day."""
    store = draft.study.store
    if isinstance(store, NotAssessed):
        yield from missing(draft, "store", "6.10", store)
        return
    yield heading(draft, "store", "6.10")
    yield feeds(draft, ["store"])
    yield _answer(draft, store)
    if store.volume_needed is not None and float(store.volume_needed) > 0:
        yield Paragraph(draft.words("store.to_add", volume=draft.said(store.volume_needed, "volume_whole")))
    else:
        yield Paragraph(store.sentence)
    yield _modes(draft, store)
    yield grounds(draft, "store", numbers=[store.heat_capacity, store.starts_per_hour], chapters=["store"])
    figure = _starts(draft, store)
    if figure is not None:
        yield figure
    yield Paragraph(_stop(draft, store))
    yield from _day(draft)


def _answer(draft: Draft, store: StoreStudy) -> Answer:
    words = draft.words
    most = words(
        "store.most",
        starts=draft.said(store.starts_per_hour, "per_hour"),
        load=draft.said(store.worst_load, "power"),
    )
    if store.running_time is None:
        return Answer(words("store.answer_steady"), most)
    answer = words(
        "store.answer",
        run=draft.said(store.running_time, "time_minutes"),
        load=draft.said(store.shortest.load if store.shortest else store.smallest_load, "power"),
        wanted=draft.said(store.least_run, "time_minutes"),
    )
    return Answer(draft.worked(store.running_time, answer), draft.worked(store.starts_per_hour, most))


def _modes(draft: Draft, store: StoreStudy) -> Table:
    words, numbers = draft.words, draft.numbers
    minutes = numbers.unit("time_minutes")
    cycles: list[ModeCycle] = list(store.modes.values())
    if store.shortest is not None and all(store.shortest.mode != cycle.mode for cycle in cycles):
        cycles.append(store.shortest)
    rows: list[Sequence[Cell]] = [
        [
            strong(cycle.mode),
            draft.cell(cycle.load, "power"),
            draft.cell(cycle.swing, "temperature_difference_fine"),
            draft.worked(cycle.run, draft.cell(cycle.run, "time_minutes")),
            draft.worked(cycle.pause, draft.cell(cycle.pause, "time_minutes")),
            draft.worked(cycle.starts, draft.cell(cycle.starts, "per_hour")),
            cycle.steady,
        ]
        for cycle in cycles
    ]
    volume = draft.said(store.volume_needed, "volume_whole") if store.volume_needed is not None else "—"
    return Table(
        columns=[
            Column(words("store.mode")),
            Column(words("store.load"), numbers.unit("power"), NUMBER),
            Column(words("store.swing"), numbers.unit("temperature_difference_fine"), NUMBER),
            Column(words("store.on"), minutes, NUMBER),
            Column(words("store.off"), minutes, NUMBER),
            Column(words("store.starts"), numbers.unit("per_hour"), NUMBER),
            Column(words("store.remark")),
        ],
        rows=rows,
        caption=words("store.modes_caption", burner=store.burner),
        key="table_cycles",
        notes=words(
            "store.modes_notes",
            capacity=draft.said(store.heat_capacity, "heat_capacity"),
            sensor=store.sensor,
            volume=volume,
        ),
        span=Span.TEXT,
    )


def _starts(draft: Draft, store: StoreStudy) -> Figure | None:
    """Starts per hour over the load, as the ring is and with a store added, for the sensor's own place."""
    words, numbers = draft.words, draft.numbers
    own = [curve for curve in store.curves if store.sensor in curve.sensor]
    shown = [curve for curve in own or store.curves if any(abs(curve.added - v) < 1e-9 for v in SHOWN)]  # noqa: PLR2004 - litres are whole
    lines = [
        Line(
            plotted(numbers, curve.loads, "power_large"),
            [float(starts) for starts in curve.starts],
            str(
                words("store.with_store", volume=draft.said(curve.added, "volume_whole"))
                if curve.added
                else words("store.as_it_is")
            ),
            dash,
            bold=not curve.added,
        )
        for curve, dash in zip(shown[: len(SHOWN)], DASHES, strict=False)
        if any(curve.starts)
    ]
    if not lines:
        return None
    width = figure_width(draft.paper)
    levels = []
    if store.smallest_load is not None:
        at = plotted(numbers, [store.smallest_load], "power_large")[0]
        levels = [Level(at, str(words("store.smallest")))]
    chart = LineChart(
        width,
        min(62, width * 0.7),
        lines,
        str(words("store.x_title", unit=numbers.unit("power_large"))),
        str(words("store.y_title")),
        levels=levels,
    )
    return Figure(chart, words("store.figure"), str(words("store.figure_alt")), key="figure_starts")


def _stop(draft: Draft, store: StoreStudy) -> Text:
    stop = store.stop
    by_sensor = "store.stop_by_sensor" if float(stop.time) else "store.stop_at_once"
    return draft.words(
        "store.stop_by_stat" if stop.by_stat else by_sensor,
        time=draft.said(stop.time, "time_seconds"),
        stops=draft.said(stop.stops_at, "temperature"),
        peak=draft.said(stop.peak, "temperature"),
    )


def _day(draft: Draft) -> Iterator[Block]:
    """The simulated day: what was counted, the burner by hours, the rooms."""
    words, day = draft.words, draft.study.day
    yield Heading(3, words("store.day"), key="day", numbered=False)
    if isinstance(day, NotAssessed):
        yield Note(draft.needs(day))
        return
    rows: list[Sequence[Cell]] = [
        [words("store.day_starts"), draft.worked(day.starts, draft.said(day.starts, "count"))],
        [
            words("store.day_running"),
            draft.worked(day.running_time, draft.said(day.running_time, "time_hours")),
        ],
        [words("store.day_fuel"), draft.worked(day.fuel, draft.said(day.fuel, "volume"))],
        [words("store.day_charge"), draft.worked(day.charge, draft.said(day.charge, "charge"))],
        [words("store.day_shortest"), draft.said(day.shortest_run, "time_minutes")],
        [words("store.day_peak"), draft.said(day.temperature_peak, "temperature")],
    ]
    yield Table(
        columns=[Column(words("store.counted")), Column(words("store.value"), align=NUMBER)],
        rows=rows,
        caption=words("store.day_caption", mode=day.mode),
        key="table_day",
    )
    yield _hours(draft, day)
    yield _rooms(draft, day)


def _hours(draft: Draft, day: DayStudy) -> Figure:
    """How long the flame burns in each hour; its starts above each bar."""
    words = draft.words
    bars = [
        Upright(
            str(hour.hour) if hour.hour % EVERY == 0 else "",
            [Piece(float(hour.burning), Pattern.STROKES)],
            draft.numbers.text(hour.starts, "count") if hour.starts else "",
        )
        for hour in burner_hours(day.record)
    ]
    width = figure_width(draft.paper)
    return Figure(
        UprightBars(width, 38, bars, str(words("store.hours_title"))),
        words("store.hours_figure"),
        str(words("store.hours_alt")),
        key="figure_hours",
    )


def _rooms(draft: Draft, day: DayStudy) -> Figure:
    words, numbers = draft.words, draft.numbers
    course = day.course(TEN_MINUTES)
    x = [float(moment) / HOUR for moment in course.time]
    rooms = [name for name in course.rooms if _is_heated(draft, name)]
    lines = [
        Line(x, plotted(numbers, course.rooms[name], "temperature_fine"), draft.named(name), dash)
        for name, dash in zip(rooms, DASHES * len(rooms), strict=False)
    ]
    width = figure_width(draft.paper)
    seen = [t for line in lines for t in line.y]
    chart = LineChart(
        width,
        min(58, width * 0.7),
        lines,
        str(words("store.hour_of_day")),
        str(words("store.room_title", unit=numbers.unit("temperature_fine"))),
        x_range=(0.0, 24.0),
        y_range=(floor(min(seen, default=0.0) / FIVE) * FIVE, ceil(max(seen, default=FIVE) / FIVE) * FIVE),
        x_ticks=[(hour, str(hour)) for hour in range(0, 25, EVERY)],
    )
    return Figure(chart, words("store.rooms_figure"), str(words("store.rooms_alt")), key="figure_day")


def _is_heated(draft: Draft, zone: str) -> bool:
    loss = draft.study.heat_loss
    return not isinstance(loss, NotAssessed) and zone in loss.zones and loss.zones[zone].heated
