"""Drawing 7: every build-up in section, to scale, with the temperature through it."""

from dossier.notation import NotAssessed
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.build_up_sheet import Section, build_up_sheets, section_width
from dossier.rendering.drawings.shapes import Drawing
from dossier.rendering.drawings.sheet import Form
from dossier.rendering.sections.build_up_figure import picture_of
from dossier.rendering.sections.sheets_drawn import Subject, sheets_of
from dossier.sizing.wall_temperatures import WallTemperatures

HIGH = 0.66
"""Height of a section on a sheet, over that of one that stands in the text."""


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed:
    """The sheets of the build-ups; what they wait for where none is written."""
    words, walls = draft.words, draft.study.wall_temperatures
    if isinstance(walls, NotAssessed):
        return walls
    if not walls:
        return NotAssessed(str(words("drawings.build_up_title")), ("build_ups",))
    found = tuple(walls.values())

    def made(form: Form) -> tuple[Drawing, ...]:
        width = section_width(form)
        return build_up_sheets(tuple(_section(draft, wall, width) for wall in found), form)

    notes = (str(words("drawings.build_up_note")),)
    return sheets_of(draft, Subject(7, "build_up", made, notes, is_landscape=False))


def _section(draft: Draft, wall: WallTemperatures, width: float) -> Section:
    worth = draft.words(
        "drawings.build_up_worth", worth=draft.said(wall.worth.wall.transmittance, "transmittance"),
        room=draft.named(wall.room), section=wall.section,
    )  # fmt: skip
    return Section(draft.capital(wall.build_up), str(worth), picture_of(draft, wall, width, HIGH))
