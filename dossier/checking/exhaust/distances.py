"""From the outlet to openings, fuel points, people, the air intake, and covers over it."""

from collections.abc import Sequence
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
)
from dossier.checking.judging import joined, together
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed
from dossier.physics.boxes import is_inside
from dossier.sizing.exhaust import AIR_INTAKE, OutletDistance
from dossier.sizing.spaces import OUTSIDE, box_between

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.study import Study

INTO_THE_BOAT = ("door", "hatch", "opening window", "opening port", "ventilator", None)
"""Kinds of opening through which gas comes in; one of no stated kind counts as such."""
PEOPLE = ("cockpit", "boarding")
FUEL = ("fuel",)
LISTED = "for those listed"


def _list_is_whole(project: "Project") -> bool:
    return project.layout is not None and project.layout.openings_complete is True


def _listed_remark(project: "Project") -> str:
    return "" if _list_is_whole(project) else LISTED


def _judged(study: "Study", limit: Limit, opening: OutletDistance) -> Finding:
    route = ("exhaust.route",) if isinstance(way_out(study).route, NotAssessed) else ()
    at = (f"{opening.key}.at",) if opening.at is None else ()
    return judge(limit, opening.distance, key=opening.key, missing=(*route, *at))


def _from_list(study: "Study", limit: Limit, kinds: Sequence[str | None], none: str) -> Finding:
    """Least distance to the openings of some kinds; ``none`` says that a whole list holds no such."""
    way = way_out(study)
    layout = study.project.layout
    if layout is None or layout.openings is None:
        route = way.route.needs if isinstance(way.route, NotAssessed) else ()
        return not_assessed(limit, ("layout.openings", *route))
    listed = way.near(*kinds)
    if not listed and _list_is_whole(study.project):
        return not_applicable(limit, none)
    if not listed:
        return not_assessed(limit, ("layout.openings",), f"{none} in the list, which is not said to be whole")
    found = together(limit, [(each.name, _judged(study, limit, each)) for each in listed])
    return replace(found, remark=joined(found.remark, _listed_remark(study.project)))


@of_exhaust()
def openings(study: "Study", limit: Limit) -> Finding:
    """Exhaust gas holds carbon monoxide, and wind carries it back through the nearest opening."""
    found = _from_list(study, limit, INTO_THE_BOAT, "no opening")
    recommended = further_limit("exhaust.openings", "near berths").limit
    near = [
        each.name
        for each in way_out(study).near(*INTO_THE_BOAT)
        if each.distance is not None and float(each.distance) < recommended
    ]
    if not near or found.status is not Status.MET:
        return found
    names = ", ".join(near)
    return replace(
        found,
        remark=joined(f"nearer than recommended where somebody sleeps behind it: {names}", found.remark),
    )


@of_exhaust()
def fuel_points(study: "Study", limit: Limit) -> Finding:
    """Vapour of fuel being taken in, or breathing from the tank, must not meet hot gas."""
    return _from_list(study, limit, FUEL, "no fuel point")


@of_exhaust()
def people(study: "Study", limit: Limit) -> Finding:
    """Hot gas burns whoever steps ashore past the outlet, and what hangs in it."""
    return _from_list(study, limit, PEOPLE, "no cockpit or boarding place")


@of_exhaust()
def air_intake(study: "Study", limit: Limit) -> Finding:
    """A burner that breathes its own gas burns badly, soots, and makes carbon monoxide."""
    way = way_out(study)
    air = study.project.combustion_air
    stated = way.near(AIR_INTAKE)
    if stated:
        return together(limit, [(each.name, _judged(study, limit, each)) for each in stated])
    ventilators = way.near("ventilator")
    if air is None or air.from_ is None or air.from_ == OUTSIDE or not ventilators:
        keys = ("combustion_air.at",) if air and air.from_ else ("combustion_air.from", "combustion_air.at")
        route = way.route.needs if isinstance(way.route, NotAssessed) else ()
        return not_assessed(limit, (*keys, *route))
    found = together(limit, [(each.name, _judged(study, limit, each)) for each in ventilators])
    remark = "the place of the intake is not stated: all ventilators count as such"
    return replace(found, remark=joined(remark, _listed_remark(study.project)))


@of_exhaust()
def canopy(study: "Study", limit: Limit) -> Finding:
    """Under a cover gas gathers round the people who sit there."""
    way = way_out(study)
    layout = study.project.layout
    if layout is None or layout.canopies is None:
        route = way.route.needs if isinstance(way.route, NotAssessed) else ()
        return not_assessed(limit, ("layout.canopies", *route))
    if not layout.canopies:
        return present(
            limit,
            fulfilled=True,
            found="no canopy, cover or tent aboard",
            asked="outside all covers",
            key="layout.canopies",
        )
    if isinstance(way.route, NotAssessed):
        return not_assessed(limit, way.route)
    parts = []
    for n, cover in enumerate(layout.canopies, 1):
        box = box_between(cover.from_, cover.to)
        key = cover.key or f"layout.canopies.{cover.name or n}"
        inside = None if box is None else is_inside(way.route.outlet, box)
        found = present(
            limit,
            None if inside is None else not inside,
            "outlet under it" if inside else "outlet outside it",
            asked="outside all covers",
            lacking="an outlet outside it",
            missing=(f"{key}.from", f"{key}.to"),
            key=key,
        )
        parts.append((cover.name or f"canopy {n}", found))
    return together(limit, parts)
