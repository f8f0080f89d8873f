"""Section 6.3: where does the heat go?"""

from collections.abc import Iterator, Mapping, Sequence

from dossier.notation import NotAssessed, Real
from dossier.rendering.adding_up import parts_of
from dossier.rendering.bars import Bar, Piece, StackedBars
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Figure, Paragraph, Side, Table
from dossier.rendering.draft import Draft
from dossier.rendering.layout.measures import column_width
from dossier.rendering.patterns import Pattern
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, pattern_box, strong, text
from dossier.sizing.heat_loss import HeatLoss, ZoneLoss
from dossier.sizing.loss_by_way import LossByWay, Way, ZoneWays

NUMBER = Align.NUMBER
PATTERNS = dict(zip(Way, (*Pattern, Pattern.WHITE), strict=True))
MOST_BARS = 14
"""Bars of one figure; the smallest loads beyond stand in the table alone."""


def section(draft: Draft) -> Iterator[Block]:
    """The answer, bars by way, the table of zones, and one table of sections for each zone."""
    loss, ways = draft.study.heat_loss, draft.study.loss_by_way
    if isinstance(loss, NotAssessed):
        yield from missing(draft, "heat_loss", "6.3", loss)
        return
    yield heading(draft, "heat_loss", "6.3")
    yield feeds(draft, ["heat"])
    yield from _answer(draft, loss, {} if isinstance(ways, NotAssessed) else ways.together)
    if not isinstance(ways, NotAssessed) and ways.zones:
        yield from _by_way(draft, ways)
    loads = [zone.load for zone in loss.heated]
    yield grounds(draft, "heat_loss", numbers=loads, chapters=["loss"])
    yield _zones(draft, loss)
    for zone in sorted(loss.zones.values(), key=lambda z: -float(z.load or 0.0)):
        yield _sections(draft, loss, zone)


def _answer(draft: Draft, loss: HeatLoss, ways: Mapping[Way, Real]) -> Iterator[Block]:
    words = draft.words
    answer = words(
        "heat_loss.answer",
        total=draft.said(loss.total, "power_large"),
        outside=draft.said(loss.outside_air, "temperature"),
    )
    gone = sum(map(float, ways.values()))
    two = sorted(ways.items(), key=lambda pair: -float(pair[1]))[:2]
    rest: Text = ""
    if gone > 0 and len(two) == 2:  # noqa: PLR2004 - two ways
        (first, one), (second, other) = two
        rest = words(
            "heat_loss.answer_ways",
            share=draft.said(float(one) / gone, "share"),
            way=words(f"heat_loss.through_{first.value}"),
            other_share=draft.said(float(other) / gone, "share"),
            other_way=words(f"heat_loss.through_{second.value}"),
        )
    yield Answer(draft.worked(loss.total, answer), rest)
    yield Paragraph(words("heat_loss.told"))


def _by_way(draft: Draft, ways: LossByWay) -> Iterator[Block]:
    """Bars in patterns, and in the outer column the table that is their key."""
    words, numbers = draft.words, draft.numbers
    watts, sum_of_ways = parts_of(numbers, list(ways.together.values()), "power", ways.gone)
    gone = float(ways.gone) or 1.0
    shares, whole = parts_of(numbers, [float(flow) / gone for flow in ways.together.values()], "share")
    rows: list[Sequence[Cell]] = [
        [text(pattern_box(PATTERNS[way]), "\u00a0", words(f"heat_loss.way_{way.value}")), flow, share]
        for way, flow, share in zip(ways.together, watts, shares, strict=True)
    ]
    totals: list[Sequence[Cell]] = [
        [strong(words("heat_loss.ways_together")), strong(sum_of_ways), strong(whole)]
    ]
    if float(ways.gained) < 0:
        totals.append([words("heat_loss.gained"), draft.cell(ways.gained, "power"), ""])
    table = Table(
        columns=[
            Column(words("heat_loss.way")),
            Column(words("heat_loss.loss"), numbers.unit("power"), NUMBER),
            Column(words("heat_loss.share"), numbers.unit("share"), NUMBER),
        ],
        rows=rows,
        totals=totals,
        caption=words("heat_loss.ways_caption"),
        key="table_ways",
    )
    shown = ways.zones[:MOST_BARS]
    width = column_width(draft.paper)
    figure = Figure(
        StackedBars(width, [_bar(draft, zone) for zone in shown]),
        words("heat_loss.bars_caption", unit=numbers.unit("power")),
        str(words("heat_loss.bars_alt", zones=", ".join(draft.named(zone.zone) for zone in shown))),
        key="figure_ways",
    )
    yield Side([table])
    yield figure


def _bar(draft: Draft, zone: ZoneWays) -> Bar:
    loss = draft.study.heat_loss
    held = None if isinstance(loss, NotAssessed) else loss.zones[zone.zone].temperature
    said, total = parts_of(draft.numbers, list(zone.ways.values()), "power")
    pieces = [
        Piece(float(flow), PATTERNS[way], word)
        for (way, flow), word in zip(zone.ways.items(), said, strict=True)
    ]
    below = draft.words("heat_loss.bar_held", temperature=draft.said(held, "temperature"))
    return Bar(draft.capital(zone.zone), str(below), pieces, total)


def _zones(draft: Draft, loss: HeatLoss) -> Table:
    """Loss of every zone; floating zones below, with the temperature they settle at."""
    words, numbers = draft.words, draft.numbers
    watts = numbers.unit("power")
    heated, together = parts_of(numbers, [zone.load or 0.0 for zone in loss.heated], "power", loss.total)
    loads = dict(zip((zone.zone for zone in loss.heated), heated, strict=True))
    rows: list[Sequence[Cell]] = [
        [
            strong(draft.capital(zone.zone)),
            draft.cell(zone.temperature, "temperature_fine"),
            draft.cell(zone.air_flow, "air_flow"),
            *_three_ways(draft, zone, loads.get(zone.zone)),
            draft.worked(zone.load, strong(loads[zone.zone])) if zone.heated else words("heat_loss.floats"),
        ]
        for zone in (*loss.heated, *loss.floating)
    ]
    return Table(
        columns=[
            Column(words("heat_loss.zone")),
            Column(words("heat_loss.held_at"), numbers.unit("temperature_fine"), NUMBER),
            Column(words("heat_loss.fresh_air"), numbers.unit("air_flow"), NUMBER),
            Column(words("heat_loss.transmission"), watts, NUMBER),
            Column(words("heat_loss.neighbours"), watts, NUMBER),
            Column(words("heat_loss.ventilation"), watts, NUMBER),
            Column(words("heat_loss.load"), watts, NUMBER),
        ],
        rows=rows,
        totals=[
            [words("heat_loss.together"), "", "", "", "", "", draft.worked(loss.total, strong(together))]
        ],
        caption=words("heat_loss.zones_caption"),
        key="table_zones",
        notes=words("heat_loss.zones_notes"),
    )


def _three_ways(draft: Draft, zone: ZoneLoss, load: str | None) -> list[str]:
    """To outside, to neighbours, with the air: so that they make up the load as it is printed."""
    flows = [zone.transmission, zone.neighbours, zone.ventilation]
    said, total = parts_of(draft.numbers, flows, "power")
    return said if load is None or total == load else [draft.cell(flow, "power") for flow in flows]


def _sections(draft: Draft, loss: HeatLoss, zone: ZoneLoss) -> Table:
    """Sections of one zone, each with its part of what leaves the zone."""
    words, numbers = draft.words, draft.numbers
    flows = [
        *(part.loss for part in zone.sections),
        *(exchange.loss for exchange in zone.exchanges),
        zone.ventilation,
    ]
    gone = sum(max(float(flow), 0.0) for flow in flows)
    shares = [float(flow) / gone if gone > 0 and float(flow) > 0 else None for flow in flows]
    told = iter(parts_of(numbers, [share for share in shares if share is not None], "share")[0])
    printed = [next(told) if share is not None else "—" for share in shares]
    rows: list[Sequence[Cell]] = []
    for part in zone.sections:
        worth = part.worth
        facing = draft.named(str(worth.beyond)) if worth.facing == "zone" else worth.facing
        rows.append(
            [
                part.name,
                draft.named(worth.made_of),
                draft.cell(worth.area, "area"),
                draft.worked(worth.transmittance, draft.cell(worth.transmittance, "transmittance")),
                facing if worth.facing != "temperature" else words("heat_loss.elsewhere"),
                draft.cell(part.beyond, "temperature"),
                draft.worked(part.loss, draft.cell(part.loss, "power_fine")),
                printed[len(rows)],
            ]
        )
    for exchange in zone.exchanges:
        rows.append(
            [
                words(
                    "heat_loss.from_neighbour", section=exchange.name, zone=draft.named(exchange.neighbour)
                ),
                draft.named(exchange.worth.made_of),
                draft.cell(exchange.worth.area, "area"),
                draft.cell(exchange.worth.transmittance, "transmittance"),
                draft.named(exchange.neighbour),
                draft.cell(loss.zones[exchange.neighbour].temperature, "temperature"),
                draft.cell(exchange.loss, "power_fine"),
                printed[len(rows)],
            ]
        )
    rows.append(
        [
            words("heat_loss.outside_air"),
            draft.said(zone.air_flow, "air_flow"),
            "",
            "",
            words("heat_loss.air"),
            draft.cell(loss.outside_air, "temperature"),
            draft.cell(zone.ventilation, "power_fine"),
            printed[len(rows)],
        ]
    )
    return Table(
        columns=[
            Column(words("heat_loss.section")),
            Column(words("heat_loss.made_of")),
            Column(words("heat_loss.area"), numbers.unit("area"), NUMBER),
            Column(words("heat_loss.transmittance"), numbers.unit("transmittance"), NUMBER),
            Column(words("heat_loss.faces")),
            Column(words("heat_loss.beyond"), numbers.unit("temperature"), NUMBER),
            Column(words("heat_loss.loss"), numbers.unit("power_fine"), NUMBER, strong=True),
            Column(words("heat_loss.share"), numbers.unit("share"), NUMBER),
        ],
        rows=rows,
        caption=words(
            "heat_loss.sections_caption" if zone.heated else "heat_loss.sections_caption_floating",
            zone=draft.named(zone.zone),
            temperature=draft.said(zone.temperature, "temperature"),
        ),
        key=f"table_sections_{zone.zone}",
    )
