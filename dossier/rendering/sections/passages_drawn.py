"""The passages of the exhaust as they are drawn: those whose hole, bulkhead and pipe are stated."""

from dossier.data.materials import materials
from dossier.project.model.entry import Answer as No
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.hatching import METAL, PLASTIC, WOOD
from dossier.rendering.drawings.passage_section import Passage
from dossier.sizing.exhaust import ExhaustStudy
from dossier.sizing.exhaust_passages import PassageStudy

CHECK = "length_check"
CONDUCTS = 5.0
"""Conductivity (W/mK) from which a bulkhead is drawn as metal."""

EDGE = "exhaust.combustible_temperature"


def passages_drawn(draft: Draft, study: ExhaustStudy) -> tuple[tuple[Passage, ...], tuple[str, ...]]:
    """What can be drawn, and the names of what cannot."""
    drawn, left_out = [], []
    for passage in study.passages:
        found = _passage(draft, study, passage)
        if found is None:
            left_out.append(passage.name)
        else:
            drawn.append(found)
    return tuple(drawn), tuple(left_out)


def _passage(draft: Draft, study: ExhaustStudy, passage: PassageStudy) -> Passage | None:
    written, words, bore = passage.written, draft.words, study.run.bore
    hole, thickness, outside = written.hole, written.thickness, passage.outside
    if hole is None or thickness is None or outside is None or bore is None:
        return None
    lagged = float(outside) > 1.5 * float(bore)
    return Passage(
        name=draft.capital(passage.name),
        hole=float(hole),
        thickness=float(thickness),
        bore=float(bore),
        outside=float(outside),
        pattern=_pattern(written.material),
        hole_said=(draft.cell(hole, CHECK), str(words("drawings.passage_hole"))),
        outside_said=(
            draft.cell(outside, CHECK),
            str(words(f"drawings.passage_{'lagging' if lagged else 'pipe'}")),
        ),
        thickness_said=draft.cell(thickness, CHECK),
        gap_said=""
        if passage.gap is None
        else str(words("drawings.passage_gap", gap=draft.cell(passage.gap, CHECK))),
        material=", ".join((draft.named(written.material or "—"), draft.cell(thickness, CHECK))),
        sleeve=str(words("drawings.passage_sleeve")) if written.sleeve else "",
        closing=_closing(draft, passage),
        edge=_edge(draft, passage),
    )


def _pattern(name: str | None) -> str:
    known = materials().get(name or "")
    if known is None or known.conductivity is None:
        return PLASTIC
    if float(known.conductivity) >= CONDUCTS:
        return METAL
    return WOOD if known.combustible else PLASTIC


def _closing(draft: Draft, passage: PassageStudy) -> str:
    closing = passage.written.closing
    if isinstance(closing, No):
        return str(draft.words("survey_exhaust.open_gap"))
    return closing or ""


def _edge(draft: Draft, passage: PassageStudy) -> str:
    """Temperature of the hole's edge beside its limit, where it can burn."""
    if passage.temperature is None:
        return ""
    limit = next((f.limit.value for f in draft.assessment.findings if f.check == EDGE), None)
    found = draft.said(passage.temperature, "temperature")
    if limit is None:
        return str(draft.words("drawings.passage_edge", found=found))
    return str(
        draft.words("drawings.passage_edge_limit", found=found, limit=draft.said(limit, "temperature"))
    )
