"""Section 6.11: how long does a hot shower last, and how hot can the tap get?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Paragraph, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong
from dossier.sizing.tap_water import TapSeason, TapWater

NUMBER = Align.NUMBER
LONG = 120.0  # seconds, from which minutes say more


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the seasons, every mode of a season, the hottest tap."""
    tap = draft.study.tap_water
    if isinstance(tap, NotAssessed):
        yield from missing(draft, "tap_water", "6.11", tap)
        return
    yield heading(draft, "tap_water", "6.11")
    yield feeds(draft, ["tap_water"])
    yield _answer(draft, tap)
    yield grounds(
        draft,
        "tap_water",
        numbers=[tap.outlet_highest, *(season.shower_time for season in tap.seasons.values())],
        chapters=["tap_water"],
    )
    if tap.seasons:
        yield _seasons(draft, tap)
        yield _modes(draft, tap)
    for gap in tap.lacking.values():
        yield Note(draft.needs(gap))
    hottest = _hottest(draft, tap)
    if hottest:
        yield Paragraph(hottest)
    yield from _standing(draft, tap)


def _answer(draft: Draft, tap: TapWater) -> Answer:
    words = draft.words
    rest: Text = ""
    if tap.outlet_highest is not None:
        rest = words("tap_water.hottest", temperature=draft.said(tap.outlet_highest, "temperature"))
    winter = tap.seasons.get("winter") or next(iter(tap.seasons.values()), None)
    if winter is None:
        return Answer(words("tap_water.answer_unknown"), rest)
    if winter.shower_time is None:
        answer = words(
            "tap_water.answer_flow",
            season=winter.season,
            flow=draft.said(winter.flow, "flow"),
            cold=draft.said(winter.cold, "temperature"),
        )
        return Answer(answer, rest)
    answer = words(
        "tap_water.answer", season=winter.season, time=draft.said(winter.shower_time, "time_minutes")
    )
    return Answer(draft.worked(winter.shower_time, answer), rest)


def _seasons(draft: Draft, tap: TapWater) -> Table:
    words, numbers = draft.words, draft.numbers

    def row(season: TapSeason) -> Sequence[Cell]:
        return [
            strong(season.season),
            season.mode,
            draft.cell(season.cold, "temperature"),
            draft.worked(season.flow, draft.cell(season.flow, "flow")),
            draft.worked(season.shower_time, strong(draft.cell(season.shower_time, "time_minutes"))),
            draft.worked(season.power, draft.cell(season.power, "power")),
        ]

    return Table(
        columns=[
            Column(words("tap_water.season")),
            Column(words("tap_water.mode")),
            Column(words("tap_water.cold"), numbers.unit("temperature"), NUMBER),
            Column(words("tap_water.flow"), numbers.unit("flow"), NUMBER),
            Column(words("tap_water.lasts"), numbers.unit("time_minutes"), NUMBER),
            Column(words("tap_water.power"), numbers.unit("power"), NUMBER),
        ],
        rows=[row(season) for season in tap.seasons.values()],
        caption=words("tap_water.seasons_caption"),
        key="table_tap_seasons",
        notes=words("tap_water.seasons_notes"),
    )


def _modes(draft: Draft, tap: TapWater) -> Table:
    """Every mode that warms the tap, in each season."""
    words, numbers = draft.words, draft.numbers
    rows: list[Sequence[Cell]] = [
        [
            strong(shower.mode.mode),
            season.season,
            draft.cell(shower.mode.primary, "temperature"),
            draft.cell(shower.flow, "flow"),
            draft.cell(shower.lasting, "flow"),
            draft.cell(shower.left, "power"),
            draft.cell(shower.held, "time_minutes"),
        ]
        for season in tap.seasons.values()
        for shower in season.modes
    ]
    return Table(
        columns=[
            Column(words("tap_water.mode")),
            Column(words("tap_water.season")),
            Column(words("tap_water.primary"), numbers.unit("temperature"), NUMBER),
            Column(words("tap_water.flow"), numbers.unit("flow"), NUMBER),
            Column(words("tap_water.lasting"), numbers.unit("flow"), NUMBER),
            Column(words("tap_water.left"), numbers.unit("power"), NUMBER),
            Column(words("tap_water.holds"), numbers.unit("time_minutes"), NUMBER),
        ],
        rows=rows,
        caption=words("tap_water.modes_caption"),
        key="table_tap_modes",
        notes=words("tap_water.modes_notes"),
    )


def _hottest(draft: Draft, tap: TapWater) -> Text:
    words = draft.words
    if tap.outlet_highest is None or tap.exchanger_highest is None:
        return ""
    name = {True: "with_valve", False: "without_valve", None: "valve_not_stated"}[tap.valve_fitted]
    said = words(
        f"tap_water.{name}",
        exchanger=draft.said(tap.exchanger_highest, "temperature"),
        outlet=draft.said(tap.outlet_highest, "temperature"),
    )
    if tap.scald_time is None:
        return said
    return (
        said
        + " "
        + words(
            "tap_water.scalds",
            time=draft.said(
                tap.scald_time, "time_minutes" if float(tap.scald_time) > LONG else "time_seconds"
            ),
        )
    )


def _standing(draft: Draft, tap: TapWater) -> Iterator[Block]:
    words = draft.words
    heat = tap.shower_heat
    if heat is not None:
        yield Paragraph(
            words(
                "tap_water.shower_heat",
                needed=draft.said(heat.needed, "energy_fine"),
                available=draft.said(heat.available, "energy_fine"),
                mode=heat.mode,
            )
        )
    if tap.tank_time is not None:
        yield Paragraph(words("tap_water.tank", time=draft.said(tap.tank_time, "time_minutes")))
    if tap.store is not None:
        yield Paragraph(
            words(
                "tap_water.store",
                tag=tap.store.tag,
                volume=draft.said(tap.store.volume, "volume_whole"),
                temperature=draft.said(tap.store.kept_at, "temperature"),
            )
        )
    if tap.standby is not None:
        yield Paragraph(
            words(
                "tap_water.standby",
                mode=tap.standby.mode,
                loss=draft.said(tap.standby.loss, "power"),
            )
        )
