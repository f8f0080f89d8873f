"""Lists of the exhaust's package: legs as they are bent and laid, and the holes."""

from collections.abc import Iterator, Sequence

from dossier.data.commissioning import hold_points
from dossier.notation import NotAssessed
from dossier.project.model.entry import Answer
from dossier.rendering.blocks import Align, Block, Column, Note, Span, Table
from dossier.rendering.blocks.tables import Cell
from dossier.rendering.draft import Draft
from dossier.rendering.filling import Filling
from dossier.rendering.numbers import NOT_APPLICABLE, Limits
from dossier.rendering.text import Text, italic, strong, text
from dossier.sizing.exhaust_passages import PassageStudy

NUMBER = Align.NUMBER
CHECK = "length_check"
HOLES = 1
"""Hold point before any hole."""


def holes(draft: Draft) -> Iterator[Block]:
    """Where the exhaust passes bulkheads and hull, and the opening for the burner's air."""
    words, study = draft.words, draft.study.exhaust
    rows: list[Sequence[Cell]] = []
    if not isinstance(study, NotAssessed):
        rows += [_passage(draft, passage) for passage in study.passages]
    if not rows:
        rows.append(_outlet(draft))
    area = Filling(draft)["air_opening"]
    if area:
        space = draft.project.combustion_air.from_ if draft.project.combustion_air else None
        free = words("yard.free_area", area=area)
        through = draft.named(space or "") or NOT_APPLICABLE
        rows.append(
            [
                strong(words("yard.air_opening")),
                through,
                free,
                NOT_APPLICABLE,
                NOT_APPLICABLE,
                _approves(draft),
            ]
        )
    unit = draft.numbers.unit(CHECK)
    yield Table(
        [
            Column(words("yard.column_where"), width=23.0),
            Column(words("yard.column_through"), width=22.0),
            Column(words("yard.column_diameter"), width=20.0),
            Column(words("yard.column_gap"), unit, NUMBER, width=11.0),
            Column(words("yard.column_sleeve"), width=28.0),
            Column(words("yard.column_approves"), width=14.0),
        ],
        rows,
        words("yard.holes_caption"),
        key="table_holes",
        notes=words("yard.holes_notes", hold=HOLES, who=", ".join(hold_points()[HOLES - 1].signed_by)),
        span=Span.FULL,
    )  # fmt: skip


def _outlet(draft: Draft) -> Sequence[Cell]:
    """The hole for the outlet, where no passage is listed."""
    words, height = draft.words, Filling(draft)["outlet_height"]
    at: Text = words("yard.outlet_at", height=height) if height else NOT_APPLICABLE
    fitting = words("yard.by_fitting")
    return [strong(words("yard.outlet")), words("yard.hull"), fitting, NOT_APPLICABLE, at, _approves(draft)]


def _approves(draft: Draft) -> Text:
    return draft.words("yard.approves", hold=HOLES)


def _passage(draft: Draft, passage: PassageStudy) -> Sequence[Cell]:
    words, written = draft.words, passage.written
    known = {None: "sleeve_unknown", True: "sleeve", False: "no_sleeve"}[written.sleeve]
    closing: Text = written.closing if isinstance(written.closing, str) else words("yard.closing_unknown")
    if isinstance(written.closing, Answer):
        closing = words("yard.open_gap")
    material = draft.named(written.material or "") or NOT_APPLICABLE
    through: Text = material
    if written.thickness is not None:
        through = text(material, ", ", draft.said(written.thickness, CHECK))
    gap = NOT_APPLICABLE
    if passage.gap is not None:
        beyond = float(passage.gap) - 1.0
        gap = draft.numbers.judged(float(passage.gap), beyond, CHECK, Limits.MINIMUM, units=False).found
    return [
        strong(draft.capital(passage.name)),
        through,
        strong(draft.numbers.both(written.hole, CHECK)),
        gap,
        text(words(f"yard.{known}"), ", ", closing),
        _approves(draft),
    ]


def legs(draft: Draft) -> Iterator[Block]:
    """Legs of the exhaust, as they are bent and laid."""
    study, words = draft.study.exhaust, draft.words
    if isinstance(study, NotAssessed):
        yield Note(draft.needs(study))
        return
    route = study.route
    if isinstance(route, NotAssessed):
        yield Note(draft.needs(route))
        return
    unit = draft.numbers.unit(CHECK)
    start = [draft.cell(each, CHECK) for each in route.legs[0].start]
    rows: list[Sequence[Cell]] = [["0", *start, "", "", ""]]
    for n, leg in enumerate(route.legs, 1):
        rise = draft.numbers.text(float(leg.rise), CHECK, signed=True)
        end = [draft.cell(each, CHECK) for each in leg.end]
        rows.append(
            [str(n), *end, strong(draft.cell(leg.length, CHECK)), rise, draft.cell(leg.bend, "angle")]
        )
    group = words("yard.ends_at", unit=unit)
    yield Table(
        [
            Column(words("yard.column_leg"), width=7.0, strong=True),
            *[Column(italic(axis), group=group, align=NUMBER, width=11.0) for axis in "xyz"],
            Column(words("survey_exhaust.length"), unit, NUMBER, width=12.0),
            Column(words("survey_exhaust.rise"), unit, NUMBER, width=11.0),
            Column(words("survey_exhaust.bend"), draft.numbers.unit("angle"), NUMBER, width=12.0),
        ],
        rows,
        words("yard.legs_caption"),
        key="table_yard_legs",
        notes=words("survey_exhaust.legs_notes"),
        span=Span.TEXT,
    )
