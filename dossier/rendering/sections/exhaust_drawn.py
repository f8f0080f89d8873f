"""Drawing 3: the exhaust, elevations upright and heeled and the plan, on one sheet or two."""

from dossier.notation import NotAssessed
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.exhaust_sheet import exhaust_sheets
from dossier.rendering.sections.exhaust_figures import conditions, drawn_route, plan_words
from dossier.rendering.sections.sheets_drawn import Subject, sheets_of


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed:
    """The sheets of the exhaust; what they wait for where no route is known."""
    words, study = draft.words, draft.study.exhaust
    if isinstance(study, NotAssessed):
        return study
    route, seen = drawn_route(draft, study), conditions(draft, study)
    if route is None or not seen:
        return NotAssessed(str(words("drawings.exhaust_title")), ("exhaust.route", "exhaust.bore"))
    notes = (str(words("drawings.exhaust_note", unit=draft.numbers.unit("length_check"))),)
    said = plan_words(draft)
    return sheets_of(
        draft,
        Subject(
            3,
            "exhaust",
            lambda form: exhaust_sheets(route, seen, form, said),
            notes=notes,
            tags=(route.burner.name,),
        ),
    )
