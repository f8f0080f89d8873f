"""Drawing 3: the exhaust, elevations upright and heeled and the plan, on one sheet."""

from functools import partial

from dossier.notation import NotAssessed
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.exhaust import Condition, ExhaustRoute
from dossier.rendering.drawings.exhaust_sheet import exhaust_sheet
from dossier.rendering.drawings.shapes import Drawing
from dossier.rendering.sections.exhaust_figures import conditions, drawn_route
from dossier.rendering.sections.sheets_drawn import drawing_paper, form_of


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed:
    """The sheet of the exhaust; what it waits for where no route is known."""
    words, study = draft.words, draft.study.exhaust
    if isinstance(study, NotAssessed):
        return study
    route, seen = drawn_route(draft, study), conditions(draft, study)
    if route is None or not seen:
        return NotAssessed(str(words("drawings.exhaust_title")), ("exhaust.route", "exhaust.bore"))
    return [
        DrawingSheet(
            title=words("drawings.exhaust_title"),
            kind=words("drawings.exhaust_kind"),
            alt=str(words("drawings.exhaust_alt")),
            key="drawing 3",
            whole=partial(_sheet, draft, route, seen),
            scale=words("drawings.as_drawn"),
            paper=drawing_paper(draft),
        )
    ]


def _sheet(draft: Draft, route: ExhaustRoute, seen: tuple[Condition, ...], number: str) -> Drawing:
    words = draft.words
    form = form_of(
        draft,
        title=str(words("drawings.exhaust_title")),
        kind=str(words("drawings.exhaust_kind")),
        scale=str(words("drawings.as_drawn")),
        sheet=number,
        notes=(str(words("drawings.exhaust_note", unit=draft.numbers.unit("length_check"))),),
    )
    return exhaust_sheet(route, seen, form)
