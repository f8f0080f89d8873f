"""Section 5.1: can the sea run in, and can the gas come back?"""

from collections.abc import Iterator

from dossier.data.procedures import cautions
from dossier.notation import Basis, NotAssessed
from dossier.rendering.blocks import (
    Align,
    Answer,
    Block,
    Column,
    Note,
    Panel,
    Side,
    SideNote,
    SignalWord,
    Span,
    Table,
)
from dossier.rendering.draft import Draft
from dossier.rendering.numbers import MINUS
from dossier.rendering.sections.exhaust_figures import elevation, plan
from dossier.rendering.sections.finding_words import FindingWords
from dossier.rendering.sections.survey_outlet import beside, rounded_down
from dossier.rendering.sections.survey_ways import passages, ways
from dossier.rendering.text import Text, italic, own, text
from dossier.sizing.exhaust import ExhaustStudy
from dossier.sizing.exhaust_route import ExhaustRoute, OutletHeights, heel_angles

NUMBER = Align.NUMBER
CHECK, ANGLE = "length_check", "angle_fine"


def exhaust_pages(said: FindingWords) -> Iterator[Block]:
    """Panel, answer, route, heights, distances, passages, other ways out."""
    draft = said.draft
    study = draft.study.exhaust
    if not isinstance(study, NotAssessed):
        yield Side([SideNote(draft.words("survey_exhaust.basis_title"), _basis(draft, study))])
    yield exhaust_panel(draft)
    if isinstance(study, NotAssessed):
        yield Answer(
            draft.words("survey_exhaust.nothing"),
            draft.words("survey_exhaust.nothing_rest", keys=draft.keys(study.needs)),
        )
        return
    yield _answer(draft, study)
    yield from _legs(draft, study)
    drawn = elevation(draft, study)
    if drawn is not None:
        yield drawn
    yield from beside(draft, study, plan(draft, study))
    yield from passages(said, study)
    yield from ways(said)


def exhaust_panel(draft: Draft) -> Panel:
    """The hazard of the exhaust: gas that nobody smells."""
    caution = cautions()["carbon_monoxide"]
    return Panel(
        SignalWord(caution.signal_word.lower()),
        caution.hazard,
        caution.consequence,
        caution.avoidance,
        draft.words("safety.panel_foot"),
    )


def _answer(draft: Draft, study: ExhaustStudy) -> Answer:
    """Heel at which the outlet meets the water, and what lies nearest to it."""
    if isinstance(study.outlet, NotAssessed):
        return Answer(
            draft.words("survey_exhaust.nothing"),
            draft.words("survey_exhaust.nothing_rest", keys=draft.keys(study.outlet.needs)),
        )
    name, given = _case(draft, study.outlet)
    rest: list[Text] = []
    if draft.words.has(f"survey_exhaust.{name}_rest"):
        rest.append(draft.words(f"survey_exhaust.{name}_rest"))
    nearest = study.nearest
    if nearest is not None and nearest.distance is not None:
        kind = CHECK if float(nearest.distance) < 1 else "length"
        distance = rounded_down(draft, nearest.distance, kind)
        rest.append(draft.words("survey_exhaust.nearest", name=nearest.name, distance=distance))
    joined = text(*(piece for n, part in enumerate(rest) for piece in ((own(" "), part) if n else (part,))))
    return Answer(draft.words(f"survey_exhaust.{name}", **given), joined)


def _case(draft: Draft, outlet: OutletHeights) -> tuple[str, dict[str, str]]:
    """Which sentence fits the heights, and its figures."""
    upright, under = float(outlet.upright), rounded_down(draft, outlet.angle_under_water, ANGLE)
    if upright < 0:
        return "under_upright", {"depth": rounded_down(draft, upright, CHECK).lstrip(MINUS)}
    if not outlet.heeled:
        given = {"height": rounded_down(draft, upright, CHECK)}
        if heel_angles(draft.project) == ():
            return "cannot_list", given
        return "upright_only", given | {"under": under}
    furthest = max(outlet.heeled, key=lambda attitude: float(attitude.angle))
    height = rounded_down(draft, furthest.height, CHECK)
    largest = draft.said(furthest.angle, "angle")
    if float(furthest.height) < 0:
        return "goes_under", {"under": under, "largest": largest, "depth": height.lstrip(MINUS)}
    return "clear_to", {"under": under, "largest": largest, "height": height}


def _basis(draft: Draft, study: ExhaustStudy) -> Text:
    """On what the route rests, how she was loaded, and whether the list of openings is whole."""
    words, project = draft.words, draft.project
    parts: list[Text] = []
    if isinstance(study.route, NotAssessed):
        parts.append(words("survey_exhaust.basis_no_route"))
    else:
        line = project.where(study.key("route"))
        basis = words(f"pages.basis_{line.basis.value}")
        parts.append(words("survey_exhaust.basis_route", basis=basis, line=str(line.line or "")))
        if line.basis is not Basis.MEASURED:
            parts.append(words("survey_exhaust.basis_to_measure"))
    heights = project.commissioning.heights if project.commissioning else None
    loading = (heights.loading if heights else None) or (
        project.inspection.loading if project.inspection else None
    )
    parts.append(
        words("survey_exhaust.basis_loading", loading=loading)
        if loading
        else words("survey_exhaust.basis_loading_unknown")
    )
    if study.distances:
        whole = project.layout is not None and project.layout.openings_complete is True
        parts.append(words(f"survey_exhaust.basis_openings{'_whole' if whole else ''}"))
    return text(*(piece for n, part in enumerate(parts) for piece in ((own(" "), part) if n else (part,))))


def _legs(draft: Draft, study: ExhaustStudy) -> Iterator[Block]:
    words, route = draft.words, study.route
    if isinstance(route, NotAssessed):
        if study.length is not None:
            length = draft.said(study.length, "length")
            yield Note(words("survey_exhaust.legs_length_only", length=length))
        yield Note(draft.needs(route))
        return
    unit = draft.numbers.unit(CHECK)
    where = [(words(f"survey_exhaust.{side}", unit=unit), axis) for side in ("from", "to") for axis in "xyz"]
    columns = [
        Column(words("survey_exhaust.leg"), strong=True),
        *[Column(italic(axis), group=group, align=NUMBER, wide_only=True) for group, axis in where],
        Column(words("survey_exhaust.length"), unit, NUMBER),
        Column(words("survey_exhaust.rise"), unit, NUMBER),
        Column(words("survey_exhaust.bend"), draft.numbers.unit("angle"), NUMBER),
        Column(words("survey_exhaust.bends"), draft.numbers.unit("angle"), NUMBER),
    ]
    rows = [
        [
            str(n),
            *(draft.cell(coordinate, CHECK) for point in (leg.start, leg.end) for coordinate in point),
            draft.cell(leg.length, CHECK),
            draft.numbers.text(float(leg.rise), CHECK, signed=True),
            draft.cell(leg.bend, "angle"),
            draft.cell(leg.bends if leg.bends is not None else route.bends, "angle"),
        ]
        for n, leg in enumerate(route.legs, 1)
    ]
    rise = float(route.points[-1][2]) - float(route.points[0][2])
    total = [
        draft.cell(route.length, CHECK),
        draft.numbers.text(rise, CHECK, signed=True),
        "",
        draft.cell(route.bends, "angle"),
    ]
    yield Table(
        columns,
        rows,
        words("survey_exhaust.legs"),
        key="table_legs",
        totals=[[words("survey_exhaust.together"), *[""] * len(where), *total]],
        notes=_legs_notes(draft, route),
        span=Span.FULL,
    )


def _legs_notes(draft: Draft, route: ExhaustRoute) -> Text:
    words = draft.words
    notes = words("survey_exhaust.legs_notes")
    if not route.spaces:
        return notes
    named = [
        str(words("survey_exhaust.space", length=draft.said(inside, "length"), space=draft.named(space)))
        for space, inside in route.spaces
    ]
    return text(notes, " ", words("survey_exhaust.legs_spaces", spaces=", ".join(named)))
