"""Drawing 9: tags for every part, and signs for what must be found in a hurry, to print and cut out."""

from collections.abc import Iterator
from typing import Any

from dossier.notation import NotAssessed
from dossier.project.model.entry import Answer as No
from dossier.rendering.blocks import DrawingSheet
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.tag_sheet import Label, tag_sheets
from dossier.rendering.sections.overview import rating
from dossier.rendering.sections.sheets_drawn import Subject, sheets_of, tags_shown
from dossier.rendering.sections.valve_plan import UNITS, valve_plan
from dossier.sizing.header_margins import header_of
from dossier.sizing.spaces import space_of

PICTOGRAMS = {
    "co_alarm": "carbon_monoxide", "exhaust": "hot_surface", "extinguisher": "extinguisher",
    "fire_port": "extinguisher", "fuel": "no_flame", "header": "hot_surface", "stop": "emergency_stop",
}  # fmt: skip
"""Which pictogram stands on which sign."""


def sheets(draft: Draft) -> list[DrawingSheet] | NotAssessed:
    """The sheets of tags; what they wait for where no part is written."""
    words, parts = draft.words, dict(draft.project.components or {})
    if not parts:
        return NotAssessed(str(words("drawings.tags_title")), ("components",))
    labels = (*_signs(draft, parts), *(_tag(draft, tag, part) for tag, part in parts.items()))
    notes, scale = (str(words("drawings.tags_note")),), str(words("drawings.tags_full_size"))
    subject = Subject(
        9,
        "tags",
        lambda form: tag_sheets(labels, form, scale, tags_shown(draft)),
        notes,
        is_landscape=False,
    )
    return sheets_of(draft, subject)


def _tag(draft: Draft, tag: str, part: Any) -> Label:
    """Tag, what the part is and serves, and the figure it is known by."""
    words = draft.words
    name = f"overview.kind_{part.kind}"
    kind = str(words(name)) if words.has(name) else draft.named(part.kind)
    return Label(
        tag, kind, ", ".join(said for said in (_where(draft, tag, part), _fact(draft, tag, part)) if said)
    )


def _where(draft: Draft, tag: str, part: Any) -> str:
    """Branch or zone a part serves, else the space it stands in; nothing that its kind says already."""
    circuit = draft.study.circuit
    place = None if isinstance(circuit, NotAssessed) else circuit.places.get(tag)
    where = getattr(part, "zone", None) or (place.branch if place else "") or part.where
    where = where or space_of(draft.project, tag) or ""
    return "" if where in part.kind else draft.named(where)


def _fact(draft: Draft, tag: str, part: Any) -> str:
    """How a valve stands, in all modes or in the first; of other parts the rating."""
    plan = valve_plan(draft)
    row = None if isinstance(plan, NotAssessed) else next((r for r in plan.rows if r.tag == tag), None)
    if row is None or row.kind in UNITS or isinstance(plan, NotAssessed):
        return str(rating(draft, part))
    first = row.positions[0].said
    if len({position.said for position in row.positions}) == 1:
        return str(draft.words("drawings.tags_always", stands=first))
    return str(draft.words("drawings.tags_in", stands=first, mode=plan.modes[0]))


def _signs(draft: Draft, parts: dict[str, Any]) -> Iterator[Label]:
    """Signs for stop, fuel, isolator, header, exhaust and alarms, of those that are aboard."""
    project, words = draft.project, draft.words
    safety = project.safety
    stop = safety.stop if safety else None
    if stop is not None and not isinstance(stop, No):
        yield _sign(draft, "stop", stop.at)
    for tag, part in parts.items():
        if part.kind == "fuel_shut_off":
            place = part.operated_from or part.where
            yield _sign(
                draft,
                "fuel",
                tag,
                str(words("drawings.fuel_worked", place=draft.named(place))) if place else "",
            )
        elif part.kind == "isolator":
            yield _sign(draft, "isolator", tag, part.where)
    header = header_of(project)
    if header is not None:
        yield _sign(draft, "header", header)
    if project.exhaust is not None:
        yield _sign(draft, "exhaust")
    for extinguisher in (safety.extinguishers if safety else None) or ():
        yield _sign(draft, "extinguisher", extinguisher.at)
    port = safety.fire_port if safety else None
    if port is not None and not isinstance(port, No):
        yield _sign(draft, "fire_port", port.at)
    for alarm in (safety.co_alarms if safety else None) or ():
        yield _sign(draft, "co_alarm", alarm.at)


def _sign(draft: Draft, name: str, where: str | None = None, said: str | None = None) -> Label:
    """One sign: what it is in capitals, where or which, and what to do or not to do."""
    words = draft.words
    return Label(
        str(words(f"drawings.tags_sign_{name}")),
        draft.capital(where or ""),
        draft.named(said) if said else str(words(f"drawings.tags_do_{name}")),
        is_sign=True,
        pictogram=PICTOGRAMS.get(name, ""),
    )
