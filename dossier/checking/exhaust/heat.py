"""Lagging, hot surfaces, and what can burn beside the exhaust."""

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from dossier.checking.exhaust.way import of_exhaust, tests_of, way_out
from dossier.checking.finding import Finding, Limit, Status, judge, not_assessed, present
from dossier.checking.judging import counted, together, with_maker_silent
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed
from dossier.project.model.entry import Answer
from dossier.sizing.exhaust_heat import Cover
from dossier.sizing.spaces import burner_of

if TYPE_CHECKING:
    from dossier.sizing.study import Study

EXTENT = ("exhaust.lagging.extent",)
THICKNESS = ("exhaust.lagging.thickness",)
CLEARANCE = "clearances.exhaust_run"


@of_exhaust()
def run_clearance(study: "Study", limit: Limit) -> Finding:
    """Lining, hose, cable and gear that lie near a hot pipe for hours char, melt or take fire."""
    way = way_out(study)
    clearances = study.project.clearances if "route" not in way.own else None
    found = clearances.exhaust_run if clearances else None
    cover = way.heat.cover
    if found is None:
        return not_assessed(limit, (CLEARANCE,) if cover is not Cover.UNKNOWN else (CLEARANCE, *THICKNESS))
    bare = limit.value if limit.overridden else further_limit(limit.check, "bare pipe").limit
    lagged_answer = judge(limit, found, key=CLEARANCE)
    bare_answer = judge(limit, found, value=bare, key=CLEARANCE)
    if cover is Cover.WHOLE:
        return with_maker_silent(limit, lagged_answer)
    if cover in {Cover.BARE, Cover.PART} or bare_answer.status is Status.MET:
        return with_maker_silent(limit, bare_answer)
    if lagged_answer.status is Status.NOT_MET:
        return with_maker_silent(limit, lagged_answer)
    why = "the distance would do for lagged pipe, not for bare pipe"
    return not_assessed(limit, THICKNESS if cover is Cover.UNKNOWN else EXTENT, why)


def _wood(study: "Study", limit: Limit) -> Iterator[tuple[str, Finding]]:
    way = way_out(study)
    missing = way.heat.lacking.get("run_temperature", ())
    yield "along the run", judge(limit, way.heat.run_temperature, key=CLEARANCE, missing=missing)
    if way.run.passes is None:
        yield "passages", not_assessed(limit, ("exhaust.passes",))
    for passage in way.passages:
        if passage.combustible is not False:
            lacking = passage.lacking.get("temperature", ())
            yield passage.name, judge(limit, passage.temperature, key=passage.key, missing=lacking)
    tests = tests_of(study)
    measured = tests.surface.wood if tests and tests.surface else None
    if measured is not None:
        yield "measured", judge(limit, measured, key="commissioning.surface.wood")


@of_exhaust()
def combustible_temperature(study: "Study", limit: Limit) -> Finding:
    """Wood kept hot for months chars, and char takes fire far below the temperature of fresh wood."""
    return together(limit, _wood(study, limit))


@of_exhaust()
def lagging(study: "Study", limit: Limit) -> Finding:
    """A bare end of exhaust is hot enough to light oil, and to burn to the bone."""
    way = way_out(study)
    stated, cover = way.run.lagging, way.heat.cover
    asked = "lagged from burner to hull fitting"
    if isinstance(stated, Answer):
        return present(
            limit, fulfilled=False, found="none", asked=asked, lacking="the lagging", key=way.key("lagging")
        )
    if stated is None or cover is Cover.UNKNOWN or cover is Cover.EXTENT_UNKNOWN:
        thickness = THICKNESS if stated is None or stated.thickness is None else ()
        extent = EXTENT if stated is None or stated.extent is None else ()
        return not_assessed(limit, (*thickness, *extent))
    whole = cover is Cover.WHOLE
    return present(
        limit, whole, stated.extent or "", asked=asked, lacking="lagging on the rest", key=way.key("lagging")
    )


def _is_guarded(study: "Study") -> bool:
    """Whether every compartment the exhaust lies in has a guard, and a sign tells of the heat."""
    way, project = way_out(study), study.project
    spaces = () if isinstance(way.route, NotAssessed) else [name for name, _ in way.route.spaces]
    compartments = (project.layout.compartments if project.layout else None) or {}
    signs = (project.safety.signs if project.safety else None) or ()
    return "exhaust" in signs and bool(spaces) and all(compartments[space].guard is True for space in spaces)


@of_exhaust()
def lagging_touch(study: "Study", limit: Limit) -> Finding:
    """Whoever reaches past the exhaust leans on it before the heat is felt."""
    way = way_out(study)
    remark = ""
    if way.heat.cover in {Cover.PART, Cover.EXTENT_UNKNOWN}:
        remark = "of the lagged part; bare pipe is hotter still"
    missing = way.heat.lacking.get("lagging_temperature", ())
    found = judge(limit, way.heat.lagging_temperature, key=way.key("lagging"), missing=missing, remark=remark)
    tests = tests_of(study)
    measured = tests.surface.lagging if tests and tests.surface else None
    if measured is not None:
        parts = [
            ("computed", found),
            ("measured", judge(limit, measured, key="commissioning.surface.lagging")),
        ]
        found = together(limit, parts)
    if found.status is Status.NOT_MET and _is_guarded(study):
        return present(
            limit,
            fulfilled=True,
            found="guard and sign fitted",
            asked="guard and sign",
            key="layout.compartments",
        )
    return found


@of_exhaust()
def fuel_spray(study: "Study", limit: Limit) -> Finding:
    """Fuel that sprays on metal this hot lights without a flame."""
    way = way_out(study)
    surfaces = [surface.temperature for surface in way.heat.surfaces]
    missing = way.heat.lacking.get("lagging_temperature", ())
    hottest = max(surfaces, key=float) if surfaces else None
    found = judge(limit, hottest, key=way.key("lagging"), missing=missing)
    if found.status is not Status.NOT_MET:
        return found
    clearances = study.project.clearances
    screen = clearances.fuel_screen if clearances else None
    if screen is None:
        why = "parts of the exhaust are hotter, which counts unless a screen stands between"
        return replace(not_assessed(limit, ("clearances.fuel_screen",), why), found=hottest, unit="K")
    if screen:
        return present(
            limit, fulfilled=True, found="screened", asked="screened", key="clearances.fuel_screen"
        )
    return found


@of_exhaust()
def back_pressure(study: "Study", limit: Limit) -> Finding:
    """Gas that cannot leave takes the flame's air away: it soots, and at the worst it comes out inside."""
    way = way_out(study)
    burner = burner_of(study.project)
    allowed = burner.back_pressure_max if burner else None
    key = f"components.{burner.tag if burner else 'burner'}.back_pressure_max"
    found = way.gas.back_pressure
    silent = (key,) if allowed is None and not limit.overridden else ()
    if silent or found is None:
        waiting = not_assessed(limit, (*silent, *way.gas.lacking.get("back_pressure", ())))
        return replace(waiting, found=found, unit="Pa" if found is not None else "")
    return judge(limit, found, value=counted(limit, allowed or 0.0), key=key)
