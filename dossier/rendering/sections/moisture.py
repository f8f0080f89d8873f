"""Section 6.16: where does it get wet?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Note, Span, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.opening import feeds, grounds, heading, missing
from dossier.rendering.text import Text, strong
from dossier.sizing.moisture import Moisture, SectionMoisture

NUMBER = Align.NUMBER


def section(draft: Draft) -> Iterator[Block]:
    """The answer, the air of the rooms, every section round them."""
    found = draft.study.moisture
    if isinstance(found, NotAssessed):
        yield from missing(draft, "moisture", "6.16", found)
        return
    yield heading(draft, "moisture", "6.16")
    yield feeds(draft, ["moisture"])
    yield _answer(draft, found)
    yield _rooms(draft, found)
    numbers = [part.surface_temperature for part in found.sections]
    yield grounds(draft, "moisture", numbers=numbers, chapters=["moisture"])
    yield _sections(draft, found)
    lacking = tuple(dict.fromkeys(key for part in found.sections for key in part.lacking))
    if lacking:
        yield Note(draft.words("moisture.lacking", keys=draft.keys(lacking)))


def _coldest(part: SectionMoisture) -> float:
    """The colder of the surface between frames and the lining over a frame (K)."""
    over = part.flange_temperature
    return min(float(part.surface_temperature), float(over) if over is not None else float("inf"))


def _answer(draft: Draft, found: Moisture) -> Answer:
    words = draft.words
    wet = [
        part
        for part in found.sections
        if part.room in found.rooms and _coldest(part) < float(found.rooms[part.room].dew_point)
    ]
    gathers = [part for part in found.sections if part.condensate is not None and float(part.condensate) > 0]
    rest: Text = words("moisture.gathers", count=str(len(gathers))) if gathers else ""
    if not wet:
        return Answer(words("moisture.answer_dry"), rest)
    worst = min(wet, key=lambda part: _coldest(part) - float(found.rooms[part.room].dew_point))
    answer = words(
        "moisture.answer_wet",
        count=str(len(wet)),
        section=worst.name,
        zone=draft.named(worst.zone),
        surface=draft.said(_coldest(worst), "temperature"),
        dew=draft.said(found.rooms[worst.room].dew_point, "temperature"),
    )
    return Answer(answer, rest)


def _rooms(draft: Draft, found: Moisture) -> Table:
    words, numbers = draft.words, draft.numbers
    rows: list[Sequence[Cell]] = [
        [
            strong(draft.capital(room.zone)),
            draft.cell(room.temperature, "temperature"),
            draft.cell(room.humidity, "share"),
            draft.worked(room.dew_point, strong(draft.cell(room.dew_point, "temperature_fine"))),
        ]
        for room in found.rooms.values()
    ]
    return Table(
        columns=[
            Column(words("moisture.room")),
            Column(words("moisture.air"), numbers.unit("temperature"), NUMBER),
            Column(words("moisture.humidity"), numbers.unit("share"), NUMBER),
            Column(words("moisture.dew_point"), numbers.unit("temperature_fine"), NUMBER),
        ],
        rows=rows,
        caption=words("moisture.rooms_caption"),
        key="table_dew_points",
    )


def _sections(draft: Draft, found: Moisture) -> Table:
    words, numbers = draft.words, draft.numbers
    degrees = numbers.unit("temperature_fine")
    rows: list[Sequence[Cell]] = []
    for part in found.sections:
        dew = float(found.rooms[part.room].dew_point) if part.room in found.rooms else None
        rows.append(
            [
                words("moisture.of_room", room=draft.capital(part.room), section=part.name),
                _against(draft, part.surface_temperature, dew),
                _against(draft, part.flange_temperature, dew),
                draft.worked(part.f_rsi, draft.cell(part.f_rsi, "ratio")),
                draft.worked(part.surface_humidity, draft.cell(part.surface_humidity, "share")),
                draft.worked(part.condensate, draft.cell(part.condensate, "condensate")),
                _dries(draft, part),
            ]
        )
    return Table(
        columns=[
            Column(words("moisture.section")),
            Column(words("moisture.surface"), degrees, NUMBER),
            Column(words("moisture.over_frame"), degrees, NUMBER),
            Column(words("moisture.index"), "", NUMBER),
            Column(words("moisture.surface_humidity"), numbers.unit("share"), NUMBER),
            Column(words("moisture.condensate"), numbers.unit("condensate"), NUMBER),
            Column(words("moisture.dries")),
        ],
        rows=rows,
        caption=words("moisture.sections_caption"),
        key="table_moisture",
        notes=words("moisture.sections_notes"),
        span=Span.TEXT,
    )


def _against(draft: Draft, surface: object, dew: float | None) -> Text:
    """A temperature; set strong where it is under the dew point of the room."""
    if not isinstance(surface, float):
        return "—"
    shown = draft.cell(surface, "temperature_fine")
    return draft.worked(surface, strong(shown) if dew is not None and surface < dew else shown)


def _dries(draft: Draft, part: SectionMoisture) -> Text:
    if part.dries is None or part.condensate is None:
        return "—"
    if float(part.condensate) <= 0:
        return draft.words("moisture.stays_dry")
    return draft.words("moisture.dries_out" if float(part.dries) > 0 else "moisture.stays_wet")
