"""What the drawings of the exhaust are made from: the route as calculated, figures as in the tables."""

from collections.abc import Iterable, Iterator
from math import hypot

from dossier.notation import NotAssessed, Real
from dossier.project.model.entry import Answer as No
from dossier.rendering.blocks import Figure, Span
from dossier.rendering.draft import Draft
from dossier.rendering.drawings.exhaust import (
    DECK,
    SIDE,
    TRANSOM,
    Condition,
    ExhaustRoute,
    Height,
    Mark,
    Opening,
)
from dossier.rendering.drawings.exhaust_elevation import exhaust_elevation
from dossier.rendering.drawings.exhaust_plan import exhaust_plan
from dossier.rendering.drawings.exhaust_plan_fit import Words as PlanWords
from dossier.rendering.drawings.space import PORT, STARBOARD, Cuboid, Place3
from dossier.rendering.layout.measures import column_width
from dossier.rendering.sections.survey_outlet import distances, height_of, without_unit
from dossier.rendering.text import Text, text
from dossier.sizing.exhaust import ExhaustStudy
from dossier.sizing.placement import boxes_of, compartments_of
from dossier.sizing.spaces import burner_of

CHECK = "length_check"
NOMINAL = 0.3
"""Edge of the box drawn for a burner whose place is not stated (m)."""
HEIGHT, PLAN = 78.0, (98.0, 84.0)


def _place(point: Iterable[Real]) -> Place3:
    x, y, z = (float(c) for c in point)
    return x, y, z


def burner_box(draft: Draft, start: Place3) -> tuple[Cuboid, bool]:
    """Box of the burner the exhaust leaves, and whether its place is stated."""
    burner = burner_of(draft.project)
    tag = burner.tag if burner else str(draft.words("survey_exhaust.burner"))
    box = boxes_of(draft.project).get(tag)
    if box is not None:
        return Cuboid(tag, _place(box.low), _place(box.high)), True
    x, y, z = start
    half = NOMINAL / 2
    return Cuboid(tag, (x - half, y - half, z - NOMINAL), (x + half, y + half, z)), False


def drawn_route(draft: Draft, study: ExhaustStudy) -> ExhaustRoute | None:
    """The route to draw; None where there is none, or no bore."""
    bore = study.run.bore
    if isinstance(study.route, NotAssessed) or bore is None:
        return None
    points = tuple(_place(point) for point in study.route.points)
    run, words = study.run, draft.words
    lagging = run.lagging.thickness if run.lagging and not isinstance(run.lagging, No) else None
    burner, _ = burner_box(draft, points[0])
    return ExhaustRoute(
        points=points,
        bore=float(bore),
        burner=burner,
        lagging=float(lagging or 0.0),
        lagging_text=str(words("survey_exhaust.lagging", thickness=draft.cell(lagging, CHECK)))
        if lagging is not None
        else "",
        fitting=_fitting(draft, study),
        drains=tuple(
            Mark(_place(low.at), str(words("survey_exhaust.drain")))
            for low in study.route.low
            if low.drain is not None
        ),
        openings=tuple(
            Opening(near.name, _place(near.at), found, limit, near.kind == "fuel")
            for near, found, limit, _ in distances(draft, study)
            if near.at is not None
        ),
        compartments=tuple(
            Cuboid(draft.named(name), _place(box.low), _place(box.high))
            for name, box in compartments_of(draft.project).items()
        ),
        face=_face(draft, points),
    )


def _face(draft: Draft, points: tuple[Place3, ...]) -> str:
    """Part of the shell the outlet lies in: the nearer of side and aft end, or the deck it rises through.

    Empty where the beam is not stated: then the direction of the last leg tells.
    """
    vessel = draft.project.vessel
    if vessel is None or vessel.beam is None or len(points) == 1:
        return ""
    x, y, z = points[-1]
    across, up = hypot(x - points[-2][0], y - points[-2][1]), z - points[-2][2]
    if up > across:
        return DECK
    return TRANSOM if abs(x) < abs(float(vessel.beam) / 2 - abs(y)) else SIDE


def _fitting(draft: Draft, study: ExhaustStudy) -> str:
    fitting = study.run.hull_fitting
    if fitting is None or isinstance(fitting, No) or fitting.kind is None:
        return ""
    isolated = bool(fitting.isolated)
    return str(draft.words("survey_exhaust.fitting", kind=fitting.kind, isolated=isolated))


def conditions(draft: Draft, study: ExhaustStudy) -> tuple[Condition, ...]:
    """Upright, and heeled to the largest stated angle towards the outlet's side."""
    if isinstance(study.outlet, NotAssessed) or isinstance(study.route, NotAssessed):
        return ()
    return tuple(_conditions(draft, study))


def _conditions(draft: Draft, study: ExhaustStudy) -> Iterator[Condition]:
    words = draft.words
    outlet, loop, route = study.outlet, study.loop, study.route
    if isinstance(outlet, NotAssessed) or isinstance(loop, NotAssessed) or isinstance(route, NotAssessed):
        return
    upright = height_of(draft, study, None)
    top = Height(without_unit(draft, loop.upright)) if loop.is_loop else None
    yield Condition(
        str(words("survey_exhaust.view_upright")), str(words("survey_exhaust.view_waterline")),
        loop=top, outlet=Height(*upright),
    )  # fmt: skip
    if not outlet.heeled:
        return
    furthest = max(outlet.heeled, key=lambda attitude: float(attitude.angle))
    crest = next((each for each in loop.heeled if each.degrees == furthest.degrees), None)
    side = PORT if float(route.outlet[1]) > 0 else STARBOARD
    yield Condition(
        str(words("survey_exhaust.view_heeled", angle=draft.said(furthest.angle, "angle"))),
        str(words(f"survey_exhaust.view_to_{side}")),
        angle=float(furthest.degrees),
        side=side,
        loop=Height(without_unit(draft, crest.height)) if crest is not None and loop.is_loop else None,
        outlet=Height(*height_of(draft, study, furthest.degrees)),
    )


def elevation(draft: Draft, study: ExhaustStudy) -> Figure | None:
    """Elevation upright and heeled over the whole width; None where there is no route."""
    route, seen = drawn_route(draft, study), conditions(draft, study)
    if route is None or not seen:
        return None
    drawing = exhaust_elevation(route, seen, column_width(draft.paper, Span.FULL), HEIGHT)
    words = draft.words
    side = words(f"survey_exhaust.{PORT if route.outlet[1] > 0 else STARBOARD}")
    looking = "to_port" if route.is_seen_from_the_side else "forward"
    return Figure(
        drawing,
        words(
            f"survey_exhaust.elevation_{looking}", scale=drawing.title, side=words(f"survey_exhaust.{side}")
        ),
        str(words("survey_exhaust.elevation_alt", side=words(f"survey_exhaust.{side}"))),
        key="figure_exhaust_elevation",
        span=Span.FULL,
        notes=_notes(draft, route),
    )


def _notes(draft: Draft, route: ExhaustRoute) -> Text:
    unit = draft.numbers.unit(CHECK)
    notes = draft.words("survey_exhaust.elevation_notes", unit=unit)
    if burner_box(draft, route.points[0])[1]:
        return notes
    return text(notes, " ", draft.words("survey_exhaust.burner_nominal"))


def plan_words(draft: Draft) -> PlanWords:
    """The few words of the plan."""
    names = ("outlet", "shell", "transom", "centreline", "forward", "not_drawn")
    return PlanWords(**{name: str(draft.words(f"survey_exhaust.plan_{name}")) for name in names})


def plan(draft: Draft, study: ExhaustStudy) -> Figure | None:
    """Plan with the distances to what is listed; None where nothing is listed or no route is known."""
    route = drawn_route(draft, study)
    if route is None or not route.openings:
        return None
    words = draft.words
    width = min(PLAN[0], column_width(draft.paper, Span.FULL))
    drawing = exhaust_plan(route, width, PLAN[1], plan_words(draft))
    caption = words("survey_exhaust.plan", scale=drawing.title, unit=draft.numbers.unit(CHECK))
    alt = str(words("survey_exhaust.plan_alt", openings=len(route.openings)))
    return Figure(drawing, caption, alt, key="figure_exhaust_plan")
