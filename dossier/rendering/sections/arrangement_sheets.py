"""Drawing 2: where everything stands, in plan and elevation, with the room kept free for service."""

from collections.abc import Iterator
from dataclasses import fields, replace

from dossier.notation import NotAssessed
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft, Extent
from dossier.rendering.drawings.arrangement import Arrangement, Part, Service
from dossier.rendering.drawings.arrangement_sheet import Words, arrangement_sheets
from dossier.rendering.drawings.scales import ratio_of
from dossier.rendering.drawings.space import Cuboid
from dossier.rendering.drawings.tag_list import tag_list
from dossier.rendering.sections.sheets_drawn import Subject, place_of, sheets_of, tags_shown
from dossier.sizing.placement import PlacedPart, Placement, compartments_of
from dossier.sizing.placement import SideSpace as Space

CHECK = "length_check"
COARSER = 1.5
"""How many times smaller the boat may be drawn on upright sheets, if that takes fewer of them."""


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed:
    """The sheets of the arrangement; what they wait for where no place is written."""
    words, placed = draft.words, draft.study.placement
    if isinstance(placed, NotAssessed):
        return placed
    if not placed.parts:
        return NotAssessed(str(words("drawings.arrangement_title")), ("layout.places",))
    arrangement = arranged(draft, placed)
    said = Words(**{each.name: str(words(f"drawings.arrangement_{each.name}")) for each in fields(Words)})
    subject = Subject(
        2,
        "arrangement",
        lambda form: arrangement_sheets(
            arrangement, form, said, tags_shown(draft), details=draft.extent("drawings") is Extent.WHOLE
        ),
        notes=tuple(_notes(draft, placed)),
        words={"legend": said.legend},
    )
    lying, upright = sheets_of(draft, subject), sheets_of(draft, replace(subject, is_landscape=False))
    large_enough = ratio_of(str(upright[0].scale)) <= COARSER * ratio_of(str(lying[0].scale))
    return upright if len(upright) < len(lying) and large_enough else lying


def _notes(draft: Draft, placed: Placement) -> Iterator[str]:
    words = draft.words
    yield str(words("drawings.arrangement_note", unit=draft.numbers.unit(CHECK)))
    missing = [tag for tag in draft.project.components or {} if tag not in placed.parts]
    if missing:
        yield str(words("drawings.arrangement_missing", tags=tag_list(missing)))


def arranged(draft: Draft, placed: Placement) -> Arrangement:
    """The boat as she is laid out, every depth of service room as a text."""
    spaces = tuple(
        Cuboid(draft.named(name), place_of(box.low), place_of(box.high))
        for name, box in compartments_of(draft.project).items()
    )
    route = draft.project.exhaust.route if draft.project.exhaust else None
    pipes = tuple(
        tuple(place_of(point) for point in pipe.route) for pipe in draft.project.pipes() if pipe.route
    )
    parts = tuple(_part(draft, part) for part in placed.parts.values())
    return Arrangement(spaces, parts, tuple(place_of(point) for point in route or ()), pipes)


def _part(draft: Draft, part: PlacedPart) -> Part:
    box = Cuboid(draft.named(part.tag), place_of(part.box.low), place_of(part.box.high))
    return Part(box, tuple(_service(draft, space) for space in part.spaces if space.asked is not None))


def _service(draft: Draft, space: Space) -> Service:
    asked = float(space.asked or 0.0)
    said = draft.cell(space.asked, CHECK)
    if space.free is None or float(space.free) >= asked:
        return Service(space.side, asked, said)
    free = draft.cell(space.free, CHECK)
    return Service(
        space.side, asked, said, str(draft.words("drawings.arrangement_free", free=free, asked=said))
    )
