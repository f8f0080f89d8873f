"""Section 8: what tonight takes, and what to pour when the coolant is low."""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Block, Cell, Column, Heading, Note, Span, Table
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.sections.coolant import poured
from dossier.rendering.sections.crew import Crew
from dossier.rendering.sections.fuel import whole_days
from dossier.rendering.sections.hazards import hazard_panels
from dossier.rendering.text import Text, strong, text
from dossier.sizing.nights import Night

NUMBER = Align.NUMBER
PANELS = ("ethylene_glycol", "hot_coolant", "coolant_on_skin", "mixed_coolants", "coolant_overboard")


def tonight(crew: Crew) -> Iterator[Block]:
    """Twelve hours at five temperatures outside."""
    words, draft = crew.words, crew.draft
    yield Heading(2, words("aboard.tonight_title"), key="tonight")
    found = draft.study.nights
    if isinstance(found, NotAssessed):
        yield Note(draft.needs(found))
        return
    numbers = draft.numbers
    yield Table(
        [
            Column(words("aboard.outside"), numbers.unit("temperature"), NUMBER, strong=True),
            Column(words("aboard.by_morning"), numbers.unit("volume"), NUMBER),
            Column(words("aboard.charge"), numbers.unit("charge"), NUMBER),
            Column(words("aboard.days_left"), "", NUMBER),
            Column(words("aboard.held")),
        ],
        [_night(crew, night) for night in found.nights],
        words("aboard.tonight_caption"),
        key="table_tonight",
        notes=words("aboard.tonight_notes"),
        span=Span.FULL,
    )
    if found.needs:
        yield Note(words("aboard.charge_needs", keys=draft.keys(found.needs)))
    yield from hazard_panels(draft, ["bunkering"])


def _night(crew: Crew, night: Night) -> Sequence[Cell]:
    draft, words = crew.draft, crew.words
    return [
        draft.cell(night.air, "temperature"),
        strong(draft.cell(night.fuel, "volume")),
        NOT_APPLICABLE if night.charge is None else draft.cell(night.charge, "charge"),
        whole_days(draft, night),
        _rooms(crew, night) if not night.not_solved else crew.not_known(words("aboard.not_known")),
    ]


def _rooms(crew: Crew, night: Night) -> Text:
    """All, or the rooms that stay colder and what they keep."""
    draft, words = crew.draft, crew.words
    rooms = words("aboard.all_held")
    if night.colder:
        colder = [
            str(words("aboard.room_keeps", room=draft.named(room), kept=draft.said(kept, "temperature")))
            for room, kept in night.colder.items()
        ]
        rooms = words("aboard.all_but", rooms=", ".join(colder))
    return text(rooms, words("aboard.falls_short")) if night.falls_short else rooms


def top_up(crew: Crew) -> Iterator[Block]:
    """Concentrate and water for some litres that keep the share."""
    words, draft = crew.words, crew.draft
    yield Heading(2, words("aboard.top_up_title"), key="top_up")
    mix = draft.study.coolant
    if isinstance(mix, NotAssessed):
        yield Note(draft.needs(mix))
        return
    yield from crew.panels(PANELS)
    litres = draft.numbers.unit("volume")
    yield Table(
        [
            Column(words("aboard.short_of"), litres, NUMBER, strong=True),
            Column(words("aboard.concentrate"), litres, NUMBER),
            Column(words("aboard.water"), litres, NUMBER),
        ],
        [poured(draft, each) for each in mix.top_ups],
        words(
            "aboard.top_up_caption",
            base=words.told(mix.fluid.data_set.base),
            share=draft.said(mix.share, "share"),
            freezing=draft.said(mix.freezing_point, "temperature"),
        ),
        key="table_top_up",
        notes=words("aboard.top_up_notes"),
    )
