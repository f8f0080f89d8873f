"""Rooms on the proof: to scale, with their areas and neighbours."""

from collections.abc import Iterator, Sequence
from math import sqrt

from dossier.checking.guesses import basis_of
from dossier.notation import Basis
from dossier.rendering.blocks import Align, Block, Column, Figure, Heading, Note, Span, Table
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.rooms import HullDrawn, RoomDrawn, rooms_drawn
from dossier.rendering.layout.measures import column_width
from dossier.rendering.numbers import NOT_APPLICABLE
from dossier.rendering.text import Markup, Text, own, strong, text
from dossier.sizing.common_sense import HEADROOM, RoomSize, room_sizes

NUMBER = Align.NUMBER
ALIKE = 0.25
"""Share by which a room and the box of its compartment may differ without a word."""


def rooms(draft: Draft) -> Iterator[Block]:
    """Plan and table."""
    words, found = draft.words, room_sizes(draft.project)
    yield Heading(3, words("proof.rooms"))
    if not found:
        yield Note(words("proof.no_rooms", keys=draft.keys(("zones",))))
        return
    yield _plan(draft, found)
    volume, area = draft.numbers.unit("volume_room"), draft.numbers.unit("area")
    yield Table(
        [
            Column(words("proof.column_number"), width=8.0, strong=True),
            Column(words("proof.column_room"), width=30.0),
            Column(words("proof.column_kept"), draft.numbers.unit("temperature"), NUMBER, width=14.0),
            Column(words("proof.column_volume"), volume, NUMBER, width=16.0),
            Column(words("proof.column_box"), volume, NUMBER, width=27.0),
            Column(words("proof.column_shell"), area, NUMBER, width=16.0),
            Column(words("proof.column_glass"), area, NUMBER, width=14.0),
            Column(words("proof.column_neighbours"), width=35.0),
        ],
        [_row(draft, number, room) for number, room in enumerate(found, 1)],
        words("proof.rooms_caption"),
        key="table_proof_rooms",
        notes=words("proof.rooms_notes"),
        span=Span.FULL,
    )


def _plan(draft: Draft, found: Sequence[RoomSize]) -> Figure:
    words, vessel = draft.words, draft.project.vessel
    hull = None
    if vessel is not None and vessel.length is not None and vessel.beam is not None:
        hull = HullDrawn(float(vessel.length), float(vessel.beam))
    drawn = [_drawn(draft, number, room) for number, room in enumerate(found, 1)]
    drawing = rooms_drawn(drawn, hull, column_width(draft.paper, Span.FULL), str(words("proof.forward")))
    loose = any(room.corner is None for room in drawn)
    caption = words("proof.plan_caption", scale=drawing.title)
    notes = words("proof.plan_loose", headroom=draft.said(HEADROOM, "length_long")) if loose else ""
    alt = str(words("proof.plan_alt", count=len(drawn)))
    return Figure(drawing, caption, alt, key="figure_proof_rooms", span=Span.FULL, notes=notes)


def _drawn(draft: Draft, number: int, room: RoomSize) -> RoomDrawn:
    name = draft.capital(room.zone.id)
    if room.box is not None:
        low, high = room.box
        return RoomDrawn(str(number), name, high[0] - low[0], high[1] - low[1], (low[0], low[1]))
    side = sqrt(max(float(room.zone.volume or 0.0), 0.1) / HEADROOM)
    return RoomDrawn(str(number), name, side, side)


def _row(draft: Draft, number: int, room: RoomSize) -> Sequence[Cell]:
    zone, words = room.zone, draft.words
    name: Text = draft.capital(zone.id)
    if basis_of(zone) is Basis.ASSUMED:
        name = text(name, " ", words("proof.guessed"))
    kept = draft.cell(zone.target, "temperature") if zone.target is not None else words("proof.floats")
    box: Text = draft.cell(room.box_volume, "volume_room")
    stated, drawn = zone.volume, room.box_volume
    if stated is not None and drawn is not None and abs(float(stated) - drawn) > ALIKE * drawn:
        box = text(strong(box), " ", words("proof.unlike"))
    return [
        str(number),
        name,
        kept,
        draft.cell(stated, "volume_room"),
        box,
        draft.cell(room.outside, "area"),
        draft.cell(room.glazed, "area") if room.glazed else NOT_APPLICABLE,
        _neighbours(draft, room),
    ]


def _neighbours(draft: Draft, room: RoomSize) -> Markup | str:
    if not room.neighbours:
        return NOT_APPLICABLE
    parts: list[Text] = []
    for name, area in room.neighbours:
        parts += [own(", ") if parts else "", draft.named(name), " ", draft.said(area, "area")]
    return text(*parts)
