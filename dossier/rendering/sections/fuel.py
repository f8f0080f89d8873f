"""Section 6.14: litres and hours, on the design day, tonight, and through the year."""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.adding_up import parts_of
from dossier.rendering.bars import Piece, Upright, UprightBars
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Figure, Heading, Note, Table
from dossier.rendering.draft import Draft
from dossier.rendering.layout.measures import figure_width
from dossier.rendering.numbers import Limits
from dossier.rendering.patterns import Pattern
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong
from dossier.sizing.fuel import FuelStudy
from dossier.sizing.nights import Night, Nights
from dossier.sizing.season import Season

NUMBER = Align.NUMBER


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the burners, five nights, twelve months."""
    burnt = draft.study.fuel
    if isinstance(burnt, NotAssessed):
        yield from missing(draft, "fuel", "6.14", burnt)
        return
    yield heading(draft, "fuel", "6.14")
    yield feeds(draft, ["fuel"])
    yield _answer(draft, burnt)
    yield _burners(draft, burnt)
    yield grounds(draft, "fuel", numbers=[burnt.rate, burnt.per_day, burnt.autonomy], chapters=["fuel"])
    nights = draft.study.nights
    if not isinstance(nights, NotAssessed) and nights.nights:
        yield _nights(draft, nights)
    yield from _season(draft)


def _answer(draft: Draft, burnt: FuelStudy) -> Answer:
    words = draft.words
    if burnt.per_day is None:
        return Answer(words("fuel.answer_rate", rate=draft.said(burnt.rate, "fuel_rate")))
    answer = words("fuel.answer", volume=draft.said(burnt.per_day, "volume"))
    rest: Text = ""
    if burnt.autonomy is not None and burnt.usable is not None:
        rest = words(
            "fuel.answer_lasts",
            usable=draft.said(burnt.usable, "volume_whole"),
            days=draft.said(burnt.autonomy, "time_days"),
        )
    return Answer(draft.worked(burnt.per_day, answer), rest)


def _burners(draft: Draft, burnt: FuelStudy) -> Table:
    words, numbers = draft.words, draft.numbers
    rate = numbers.unit("fuel_rate")
    rows: list[Sequence[Cell]] = [
        [
            strong(burner.tag),
            draft.cell(burner.efficiency, "share"),
            draft.worked(burner.rate, draft.cell(burner.rate, "fuel_rate")),
            draft.cell(burner.rate_low, "fuel_rate"),
        ]
        for burner in burnt.burners
    ]
    return Table(
        columns=[
            Column(words("fuel.burner")),
            Column(words("fuel.efficiency"), numbers.unit("share"), NUMBER),
            Column(words("fuel.at_full"), rate, NUMBER),
            Column(words("fuel.at_lowest"), rate, NUMBER),
        ],
        rows=rows,
        caption=words("fuel.burners_caption"),
        key="table_fuel",
        notes=words(
            "fuel.burners_notes",
            value=draft.said(burnt.fuel.heat_of_combustion, "heating_value"),
            density=draft.said(burnt.fuel.density, "density"),
            heat=draft.said(burnt.heat_at_burner, "power"),
        ),
    )


def _nights(draft: Draft, nights: Nights) -> Table:
    words, numbers = draft.words, draft.numbers
    return Table(
        columns=[
            Column(words("fuel.outside"), numbers.unit("temperature"), NUMBER),
            Column(words("fuel.load"), numbers.unit("power"), NUMBER),
            Column(words("fuel.by_morning"), numbers.unit("volume"), NUMBER),
            Column(words("fuel.charge"), numbers.unit("charge"), NUMBER),
            Column(words("fuel.days_left"), "", NUMBER),
            Column(words("fuel.rooms")),
        ],
        rows=[_night(draft, night) for night in nights.nights],
        caption=words("fuel.nights_caption"),
        key="table_nights",
        notes=words("fuel.nights_notes"),
    )


def _night(draft: Draft, night: Night) -> Sequence[Cell]:
    words = draft.words
    if night.not_solved:
        rooms: Text = night.not_solved
    elif night.colder:
        rooms = ", ".join(
            f"{draft.named(zone)} {draft.said(warm, 'temperature')}" for zone, warm in night.colder.items()
        )
    else:
        rooms = words("fuel.all_held")
    return [
        strong(draft.cell(night.air, "temperature")),
        draft.cell(night.load, "power"),
        draft.worked(night.fuel, strong(draft.cell(night.fuel, "volume"))),
        draft.cell(night.charge, "charge"),
        whole_days(draft, night),
        rooms,
    ]


def whole_days(draft: Draft, night: Night) -> str:
    """Days the fuel lasts, never rounded up; a dash where they are not known."""
    if night.days_left is None:
        return draft.cell(None, "count")
    days = float(night.days_left)
    return draft.numbers.judged(days, days - 1.0, "count", Limits.MINIMUM).found


def _season(draft: Draft) -> Iterator[Block]:
    words, season = draft.words, draft.study.season
    yield Heading(3, words("fuel.season"), key="season", numbered=False)
    if isinstance(season, NotAssessed):
        yield Note(draft.needs(season))
        return
    yield _bars(draft, season)
    yield _months(draft, season)


def _bars(draft: Draft, season: Season) -> Figure:
    """Fuel month by month; what engines save stands on top."""
    words, numbers = draft.words, draft.numbers
    bars = [
        Upright(
            str(words(f"fuel.month_{month.month}")),
            [
                Piece(float(month.fuel), Pattern.STROKES),
                *([Piece(float(month.fuel_saved), Pattern.WHITE)] if float(month.fuel_saved) > 0 else []),
            ],
            draft.cell(month.fuel, "volume_whole"),
        )
        for month in season.months
    ]
    width = figure_width(draft.paper)
    return Figure(
        UprightBars(width, 46, bars, str(words("fuel.bars_title", unit=numbers.unit("volume_whole")))),
        words("fuel.bars_caption"),
        str(words("fuel.bars_alt")),
        key="figure_season",
    )


def _months(draft: Draft, season: Season) -> Table:
    words, numbers = draft.words, draft.numbers
    degrees = numbers.unit("temperature")
    heat, heat_sum = parts_of(numbers, [month.heat for month in season.months], "energy", season.heat)
    fuel, fuel_sum = parts_of(numbers, [month.fuel for month in season.months], "volume_whole", season.fuel)
    hours, hours_sum = parts_of(
        numbers, [month.running_time for month in season.months], "time_hours_whole", season.running_time
    )
    counted = [month.starts for month in season.months if month.starts is not None]
    starts, starts_sum = ["—"] * len(season.months), "—"
    if season.starts is not None and len(counted) == len(season.months):
        starts, starts_sum = parts_of(numbers, counted, "count", season.starts)
    rows: list[Sequence[Cell]] = [
        [
            words(f"fuel.month_{month.month}"),
            draft.cell(month.outside, "temperature"),
            draft.cell(month.sea, "temperature"),
            heat[n],
            draft.worked(month.fuel, strong(fuel[n])),
            hours[n],
            starts[n],
        ]
        for n, month in enumerate(season.months)
    ]
    together = draft.worked(season.fuel, strong(fuel_sum))
    return Table(
        columns=[
            Column(words("fuel.month")),
            Column(words("fuel.outside"), degrees, NUMBER),
            Column(words("fuel.sea"), degrees, NUMBER),
            Column(words("fuel.heat"), numbers.unit("energy"), NUMBER),
            Column(words("fuel.fuel"), numbers.unit("volume_whole"), NUMBER),
            Column(words("fuel.hours"), numbers.unit("time_hours_whole"), NUMBER),
            Column(words("fuel.starts"), "", NUMBER),
        ],
        rows=rows,
        totals=[
            [words("fuel.year"), "", "", strong(heat_sum), together, strong(hours_sum), strong(starts_sum)]
        ],
        caption=words("fuel.months_caption"),
        key="table_season",
        notes=words(
            "fuel.months_hourly" if season.hourly else "fuel.months_monthly",
            gains=draft.said(season.gains, "power"),
        ),
    )
