"""Drawing 3: the exhaust, elevations upright and heeled, the plan, and its passages in section."""

from dossier.notation import NotAssessed
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.exhaust_sheet import exhaust_sheets
from dossier.rendering.drawings.passage_section import passage_sheets
from dossier.rendering.drawings.shapes import Drawing
from dossier.rendering.drawings.sheet import Form
from dossier.rendering.sections.exhaust_figures import conditions, drawn_route, plan_words
from dossier.rendering.sections.passages_drawn import passages_drawn
from dossier.rendering.sections.sheets_drawn import Subject, sheets_of


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed:
    """The sheets of the exhaust; what they wait for where no route is known."""
    words, study = draft.words, draft.study.exhaust
    if isinstance(study, NotAssessed):
        return study
    route, seen = drawn_route(draft, study), conditions(draft, study)
    if route is None or not seen:
        return NotAssessed(str(words("drawings.exhaust_title")), ("exhaust.route", "exhaust.bore"))
    passages, left_out = passages_drawn(draft, study)
    notes = [str(words("drawings.exhaust_note", unit=draft.numbers.unit("length_check")))]
    if left_out:
        notes.append(str(words("drawings.passage_missing", names=", ".join(left_out))))
    said, caption = plan_words(draft), str(words("drawings.passage_caption"))

    def made(form: Form) -> tuple[Drawing, ...]:
        sections = passage_sheets(passages, form, caption)
        return (*exhaust_sheets(route, seen, form, said), *sections)

    return sheets_of(draft, Subject(3, "exhaust", made, tuple(notes), (route.burner.name,)))
