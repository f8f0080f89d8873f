"""Length, bends, bore, water traps and loop of the exhaust, and the spaces it runs through."""

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from dossier.checking.exhaust.way import of_exhaust, way_out
from dossier.checking.finding import (
    Finding,
    Limit,
    Status,
    judge,
    not_applicable,
    not_assessed,
    present,
    worst_of,
)
from dossier.checking.judging import at_least, counted, joined, together, with_maker_silent
from dossier.data.catalogue import further_limit
from dossier.data.recognised_words import says
from dossier.notation import NotAssessed
from dossier.project.model.entry import Answer
from dossier.sizing.exhaust import ExhaustStudy
from dossier.sizing.exhaust_route import LowPoint, heel_angles
from dossier.sizing.spaces import burner_of, is_accommodation

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.exhaust import ExhaustRun
    from dossier.sizing.study import Study

ROUNDING = 1e-9
"""Length (m) by which sums of legs may differ."""


@of_exhaust()
def length(study: "Study", limit: Limit) -> Finding:
    """The burner's fan pushes the gas only so far; beyond that it smokes, soots and stops."""
    way = way_out(study)
    key = way.key("length" if isinstance(way.route, NotAssessed) else "route")
    found = judge(limit, way.length, key=key, missing=("exhaust.length", "exhaust.route"))
    return with_maker_silent(limit, found)


@of_exhaust()
def bends(study: "Study", limit: Limit) -> Finding:
    """Every change of direction costs pressure that the burner's fan does not have."""
    way = way_out(study)
    if isinstance(way.route, NotAssessed):
        return not_assessed(limit, way.route)
    worth_a_look = further_limit("exhaust.bends", "attention from").limit
    many = not limit.overridden and float(way.route.bends) > worth_a_look
    remark = "so many bends that the route deserves a second look" if many else ""
    return with_maker_silent(limit, judge(limit, way.route.bends, key=way.key("route"), remark=remark))


@of_exhaust()
def bore(study: "Study", limit: Limit) -> Finding:
    """One narrow place holds back the gas of the whole exhaust."""
    way = way_out(study)
    burner = burner_of(study.project)
    key = f"components.{burner.tag}.exhaust_outlet" if burner else "components.burner.exhaust_outlet"
    outlet = burner.exhaust_outlet if burner else None
    if outlet is None and not limit.overridden:
        return not_assessed(limit, (key, *(() if way.run.bore is not None else ("exhaust.bore",))))
    least = counted(limit, outlet or 0.0)
    parts = [
        ("exhaust", judge(limit, way.run.bore, value=least, key=way.key("bore"), missing=("exhaust.bore",)))
    ]
    fitting = way.run.hull_fitting
    if fitting is not None and not isinstance(fitting, Answer) and fitting.bore is not None:
        found = judge(limit, fitting.bore, value=least, key=way.key("hull_fitting.bore"))
        return worst_of([*parts, ("hull fitting", found)])
    remark = "the bore of the hull fitting is not stated apart and counts as that of the exhaust"
    return judge(
        limit,
        way.run.bore,
        value=least,
        key=way.key("bore"),
        missing=("exhaust.bore",),
        remark=remark,
    )


def _is_drained(run: "ExhaustRun", low: LowPoint) -> bool | None:
    """Whether a low point has a drain; None where the file does not tell.

    A sag is seen in the route itself: where no drain is written at it, water stays in it.
    """
    if low.drain is not None:
        return True
    if run.drains is None:
        return False if low.is_sag else None
    return None if any(drain.at is None for drain in run.drains) else False


def _silent(run: "ExhaustRun") -> tuple[str, ...]:
    return ("exhaust.drains",) if run.drains is None else ("exhaust.drains.at",)


def _place(low: LowPoint) -> str:
    return "low point in the run" if low.is_sag else "burner's end"


@of_exhaust()
def fall(study: "Study", limit: Limit) -> Finding:
    """Water that lies in a sag narrows the pipe, freezes, and rusts it through from inside."""
    way = way_out(study)
    if isinstance(way.route, NotAssessed):
        return not_assessed(limit, way.route)
    parts = []
    for low in way.route.low:
        found = present(
            limit,
            _is_drained(way.run, low),
            "drained" if low.drain else "low point without a drain",
            asked="drained",
            lacking="a drain",
            missing=_silent(way.run),
            key=way.key("drains" if low.drain else "route"),
        )
        parts.append((_place(low), found))
    if way.route.least_fall is not None:
        parts.append(("flattest fall", judge(limit, way.route.least_fall, key=way.key("route"))))
    return worst_of(parts)


def _leads_away(project: "Project", led_to: str) -> bool | None:
    """Whether a drain leads overboard or to a space where nobody lives, as far as its words tell."""
    words = led_to.replace("_", " ").casefold()
    named = [zone.id for zone in project.zones or () if zone.id.replace("_", " ").casefold() in words]
    lived_in = [is_accommodation(project, space) for space in named]
    if True in lived_in:
        return False
    return True if False in lived_in else says("drained away", words)


def _drained(study: "Study", limit: Limit, low: LowPoint) -> Finding:
    way = way_out(study)
    fitted = _is_drained(way.run, low)
    if not fitted or low.drain is None:
        return present(
            limit,
            fitted,
            "none",
            asked="a drain led out",
            lacking="a drain",
            missing=_silent(way.run),
            key=way.key("drains" if way.run.drains else "route"),
        )
    if low.drain.led_to is None:
        return not_assessed(limit, ("exhaust.drains.led_to",))
    away = _leads_away(study.project, low.drain.led_to)
    return present(
        limit,
        away,
        f"led to: {low.drain.led_to}",
        asked="led out of the accommodation",
        lacking="a lead out of the accommodation",
        missing=("exhaust.drains.led_to",),
        key=way.key("drains"),
    )


@of_exhaust()
def drain(study: "Study", limit: Limit) -> Finding:
    """Condensate must leave at every low point, but a drain that ends inside lets gas into the boat."""
    way = way_out(study)
    if isinstance(way.route, NotAssessed):
        return not_assessed(limit, ("exhaust.route", *limit.row.inputs))
    if not way.route.low:
        return not_applicable(limit, "the run falls all the way to the outlet")
    return together(limit, [(_place(low), _drained(study, limit, low)) for low in way.route.low])


def _loop_parts(study: "Study", limit: Limit, way: ExhaustStudy) -> Iterator[tuple[str, Finding]]:
    if isinstance(way.loop, NotAssessed):
        return
    key = way.key("route")
    if not way.loop.is_loop:
        none = "none: the outlet is the highest point"
        yield "loop", present(limit, fulfilled=False, found=none, asked="a loop", lacking="a loop", key=key)
    yield "upright", judge(limit, way.loop.upright, key=key)
    heeled = further_limit("exhaust.high_loop", "heeled").limit
    for attitude in way.loop.heeled:
        yield f"heel {attitude.degrees}°", at_least(limit, attitude.height, heeled, "m", key=key)
    if heel_angles(study.project) is None:
        yield "heeled", not_assessed(limit, ("vessel.heel_angles",))


@of_exhaust()
def high_loop(study: "Study", limit: Limit) -> Finding:
    """A wave that runs into the outlet must find a crest it cannot pass before it finds the burner."""
    way = way_out(study)
    if isinstance(way.loop, NotAssessed):
        return not_assessed(limit, way.loop)
    return together(limit, _loop_parts(study, limit, way))


@of_exhaust()
def inside_run(study: "Study", limit: Limit) -> Finding:
    """A joint that weeps in a cabin gives its gas to whoever sleeps there."""
    way = way_out(study)
    if isinstance(way.route, NotAssessed):
        return not_assessed(limit, way.route)
    layout = study.project.layout
    if layout is None or layout.compartments is None:
        return not_assessed(limit, ("layout.compartments",))
    parts = []
    for space, _ in way.route.spaces:
        lived_in = is_accommodation(study.project, space)
        found = present(
            limit,
            None if lived_in is None else not lived_in,
            "runs through accommodation" if lived_in else "outside the accommodation",
            asked="outside the accommodation",
            lacking="another route, or one pipe without joints in a ventilated casing",
            missing=(f"layout.compartments.{space}.holds",),
            key=way.key("route"),
        )
        parts.append((space, found))
    if not parts:
        return not_assessed(
            limit, ("layout.compartments",), "the run lies in none of the compartments listed"
        )
    found = together(limit, parts)
    within = sum(float(inside) for _, inside in way.route.spaces)
    if found.status is Status.MET and within < float(way.route.length) - ROUNDING:
        return replace(found, remark=joined(found.remark, "part of the run lies in no compartment listed"))
    return found
