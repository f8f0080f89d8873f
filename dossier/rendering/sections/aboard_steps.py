"""Section 8: procedures, one act a step, a box to tick, the hazard right before the step it belongs to."""

from collections.abc import Iterator

from dossier.data.procedures import Procedure, Step, procedures
from dossier.data.wording import places_in
from dossier.rendering.blocks import Block, Heading, Note, Paragraph, Signatures, Steps
from dossier.rendering.sections.crew import Crew
from dossier.rendering.text import Text

CONTROLLER = frozenset({"to_start", "to_stop"})


def before_season(crew: Crew) -> Iterator[Block]:
    """What is done in autumn before the first use."""
    yield from procedure(crew, "before_season")


def through_the_year(crew: Crew) -> Iterator[Block]:
    """Before any work, summer, frost, damage."""
    yield from procedure(crew, "before_work")
    if crew.has("tap_exchanger or water_heater"):
        yield from procedure(crew, "summer", new_sheet=crew.narrow)
    yield from procedure(crew, "lay_up")
    yield from procedure(crew, "after_damage")


def procedure(crew: Crew, name: str, *, new_sheet: bool = True) -> Iterator[Block]:
    """A page of steps with boxes, and a line for date and name."""
    found = procedures()[name]
    words = crew.words
    key = f"procedure_{name}"
    title, when = words.told(found.title), words.told(found.when)
    yield Heading(2, title, key=key, question=when, new_sheet=new_sheet, running=title)
    yield Paragraph(words("maintenance.procedure_head"))
    yield from steps(crew, found, checkbox=True)
    yield Signatures([words("maintenance.procedure_signed")])
    if any("Test " in step.action for step in found.steps) and crew.draft.edition == "aboard":
        yield Note(words("aboard.tests_elsewhere"))


def steps(crew: Crew, found: Procedure, *, checkbox: bool) -> Iterator[Block]:
    """Steps of what is aboard; a panel stands before its step, once a page."""
    pending: list[Text] = []
    number, warned = 1, set[str]()
    for step in found.steps:
        if not crew.has(step.needs):
            continue
        panels = crew.panels([step.caution]) if step.caution and step.caution not in warned else []
        if panels:
            if pending:
                yield Steps(pending, number, checkbox=checkbox, large=True)
            number, pending = number + len(pending), []
            warned.add(step.caution)
            yield from panels
        pending += _acts(crew, step)
    if pending:
        yield Steps(pending, number, checkbox=checkbox, large=True)


def _acts(crew: Crew, step: Step) -> list[Text]:
    """One act; a step that follows the controller is as many acts as are written down for it."""
    controls = crew.draft.project.controls
    for name in CONTROLLER & set(places_in(step.action)):
        return list((getattr(controls, name) if controls else None) or ())
    return [crew.said(step.action)]
