"""Section 6.3: where does the heat go?"""

from collections.abc import Iterator

from dossier.notation import NotAssessed, quantities
from dossier.rendering.blocks import (
    Align,
    Answer,
    Block,
    Column,
    Heading,
    Note,
    Paragraph,
    Side,
    SideNote,
    Table,
)
from dossier.rendering.draft import Draft
from dossier.rendering.text import strong
from dossier.sizing.heat_loss import HeatLoss, ZoneLoss

NUMBER = Align.NUMBER
ZONE = quantities(ZoneLoss)


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the table of zones, and one table of sections for each zone."""
    words = draft.words
    yield Heading(
        2, words("heat_loss.title"), key="heat_loss", number="6.3", question=words("heat_loss.question")
    )
    loss = draft.study.heat_loss
    if isinstance(loss, NotAssessed):
        yield Note(draft.needs(loss))
        return
    yield from _answer(draft, loss)
    yield _zones(draft, loss)
    for zone in sorted(loss.zones.values(), key=lambda z: -float(z.load or 0.0)):
        yield _sections(draft, zone)


def _answer(draft: Draft, loss: HeatLoss) -> Iterator[Block]:
    words, total = draft.words, float(loss.total)
    air = sum(float(zone.ventilation) for zone in loss.heated)
    yield Answer(
        words(
            "heat_loss.answer",
            total=draft.said(total, "power_large"),
            outside=draft.said(loss.outside_air, "temperature"),
        ),
        words("heat_loss.answer_air", share=draft.said(air / total if total else 0.0, "share")),
    )
    yield Side([SideNote(words("heat_loss.feeds_title"), words("heat_loss.feeds"))])
    yield Paragraph(words("heat_loss.method"))


def _zones(draft: Draft, loss: HeatLoss) -> Table:
    """Loss of every zone by way; floating zones below, with the temperature they settle at."""
    words = draft.words
    watts = draft.numbers.unit("power")
    rows = [
        [
            strong(draft.capital(zone.zone)),
            draft.cell(zone.temperature, "temperature_fine"),
            draft.cell(zone.transmission, "power"),
            draft.cell(zone.neighbours, "power"),
            draft.cell(zone.ventilation, "power"),
            strong(draft.cell(zone.load, "power")) if zone.heated else words("heat_loss.floats"),
        ]
        for zone in (*loss.heated, *loss.floating)
    ]
    return Table(
        columns=[
            Column(words("heat_loss.zone")),
            Column(words("heat_loss.held_at"), draft.numbers.unit("temperature_fine"), NUMBER),
            Column(words("heat_loss.transmission"), watts, NUMBER),
            Column(words("heat_loss.neighbours"), watts, NUMBER),
            Column(words("heat_loss.ventilation"), watts, NUMBER),
            Column(words("heat_loss.load"), watts, NUMBER),
        ],
        rows=rows,
        totals=[[words("heat_loss.together"), "", "", "", "", strong(draft.cell(loss.total, "power"))]],
        caption=words("heat_loss.zones_caption"),
        key="table_zones",
        notes=words("heat_loss.zones_notes"),
    )


def _sections(draft: Draft, zone: ZoneLoss) -> Table:
    """Sections of one zone, each with its part of what leaves the zone."""
    words = draft.words
    gone = sum(max(float(part.loss), 0.0) for part in (*zone.sections, *zone.exchanges))
    gone += max(float(zone.ventilation), 0.0)
    rows = []
    for part in zone.sections:
        worth = part.worth
        facing = draft.named(str(worth.beyond)) if worth.facing == "zone" else worth.facing
        rows.append(
            [
                part.name,
                draft.named(worth.made_of),
                draft.cell(worth.area, "area"),
                draft.cell(worth.transmittance, "transmittance"),
                facing,
                draft.cell(part.beyond, "temperature"),
                draft.cell(part.loss, "power_fine"),
                _share(draft, float(part.loss), gone),
            ]
        )
    rows += [
        [
            words("heat_loss.from_neighbour", section=exchange.name, zone=draft.named(exchange.neighbour)),
            draft.named(exchange.worth.made_of),
            draft.cell(exchange.worth.area, "area"),
            draft.cell(exchange.worth.transmittance, "transmittance"),
            draft.named(exchange.neighbour),
            "",
            draft.cell(exchange.loss, "power_fine"),
            _share(draft, float(exchange.loss), gone),
        ]
        for exchange in zone.exchanges
    ]
    rows.append(
        [
            words("heat_loss.outside_air"),
            words("heat_loss.air_flow", flow=draft.said(zone.air_flow, "air_flow")),
            "",
            "",
            words("heat_loss.air"),
            draft.cell(draft.study.heat_loss.outside_air, "temperature"),
            draft.cell(zone.ventilation, "power_fine"),
            _share(draft, float(zone.ventilation), gone),
        ]
    )
    numbers = draft.numbers
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
            "heat_loss.sections_caption",
            zone=draft.named(zone.zone),
            temperature=draft.said(zone.temperature, "temperature"),
        ),
        key=f"table_sections_{zone.zone}",
    )


def _share(draft: Draft, loss: float, gone: float) -> str:
    return draft.numbers.text(loss / gone if gone > 0 and loss > 0 else None, "share")
