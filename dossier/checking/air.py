"""The burner's air, and the space it stands in."""

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from dossier.checking.aboard import lacks, of_kind
from dossier.checking.finding import Finding, Limit, Status, judge, not_applicable, not_assessed, present
from dossier.checking.judging import at_least, joined, together, with_maker_silent
from dossier.data.recognised_words import says
from dossier.notation import NotAssessed
from dossier.sizing.combustion_air import AirStudy
from dossier.sizing.spaces import (
    OUTSIDE,
    burner_of,
    burner_space,
    holds,
    is_accommodation,
    neighbours,
    space_of,
)

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.components import FanCoil
    from dossier.sizing.study import Study

NO_BURNER = "no burner is aboard"
DUCTED = "the burner's air is led to it from outside"
DRAUGHT = "commissioning.co.suction"
SPACE_AIR = "commissioning.surface.compartment_air"


def _air(study: "Study") -> AirStudy | None:
    return None if isinstance(study.air, NotAssessed) else study.air


def _burner_tag(project: "Project") -> str:
    burner = burner_of(project)
    return burner.tag if burner else "burner"


def _space_keys(project: "Project") -> tuple[str, ...]:
    """Keys that tell in which space the burner stands."""
    return (f"layout.places.{_burner_tag(project)}", "combustion_air.from")


def source(study: "Study", limit: Limit) -> Finding:
    """A burner that breathes the cabin's air competes with the people in it, and pulls gas in."""
    project = study.project
    if lacks(project, "burner"):
        return not_applicable(limit, NO_BURNER)
    air = project.combustion_air
    if air is None or air.from_ is None:
        return not_assessed(limit, ("combustion_air.from",))
    key, asked = "combustion_air.from", "air from outside, or from a space open to the outside"
    if air.from_ == OUTSIDE:
        return present(limit, fulfilled=True, found=OUTSIDE, asked=asked, key=key)
    lived_in = is_accommodation(project, air.from_)
    if lived_in is None:
        return not_assessed(limit, (f"layout.compartments.{air.from_}.holds",))
    if lived_in:
        return present(
            limit,
            fulfilled=False,
            found=f"from the accommodation: {air.from_}",
            asked=asked,
            lacking="an intake from outside",
            key=key,
        )
    return present(
        limit,
        None if air.opening is None else air.opening > 0,
        f"from {air.from_}",
        asked=asked,
        lacking="an opening of that space to the outside",
        missing=("combustion_air.opening",),
        key=key if air.opening else "combustion_air.opening",
    )


def _area(study: "Study", limit: Limit) -> Iterator[tuple[str, Finding]]:
    """Free area against the maker's, where the maker gives one."""
    burner, air = burner_of(study.project), study.project.combustion_air
    asked = burner.air_opening if burner else None
    if asked is not None:
        by_maker = limit.by_maker(asked)
        opening = air.opening if air else None
        missing = ("combustion_air.opening",)
        yield "free area", at_least(by_maker, opening, asked, "m2", key=missing[0], missing=missing)


def opening(study: "Study", limit: Limit) -> Finding:
    """A flame short of air soots, smokes and makes carbon monoxide."""
    project, air = study.project, _air(study)
    if lacks(project, "burner"):
        return not_applicable(limit, NO_BURNER)
    written = project.combustion_air
    stated = written.opening if written else None
    if air is not None and air.is_ducted and stated is None:
        return not_applicable(limit, DUCTED)
    key = "combustion_air.opening"
    if stated is not None and stated <= 0:
        return present(
            limit, fulfilled=False, found="no free opening", asked="a free opening", lacking="it", key=key
        )
    lacking = air.lacking.get("velocity", ()) if air is not None else ()
    found = judge(limit, air.velocity if air else None, key=key, missing=lacking or (key,))
    unknown = air is not None and not air.is_ducted and air.engines is None
    if unknown and written is not None and written.engine_opening is None:
        found = replace(found, remark="for the burner alone: what air the engine draws is not stated")
    areas = list(_area(study, limit))
    if not areas:
        return with_maker_silent(limit, found)
    return together(limit, [("air needed", found), *areas], relative=True)


def suction(study: "Study", limit: Limit) -> Finding:
    """An engine or fan that draws harder than its openings allow pulls the burner's gas back inside."""
    project, air = study.project, _air(study)
    if lacks(project, "burner"):
        return not_applicable(limit, NO_BURNER)
    if air is not None and air.is_ducted:
        return not_applicable(limit, DUCTED)
    tests = project.commissioning
    measured = tests.co.suction if tests and tests.co else None
    key = "combustion_air.opening"
    lacking = air.lacking.get("suction", ()) if air is not None else ()
    found = judge(limit, air.suction if air else None, key=key, missing=lacking or (key,))
    written = project.combustion_air
    own_silent = written is None or written.engine_opening is None
    if found.status is Status.NOT_MET and own_silent:
        why = "too much for the burner's opening alone; that of engine and fans is not stated"
        found = not_assessed(limit, ("combustion_air.engine_opening",), why)
    if measured is None:
        return found
    by_test = judge(limit, measured, key=DRAUGHT)
    if found.status is Status.NOT_ASSESSED:
        return replace(by_test, remark="measured")
    return together(limit, [("computed", found), ("measured", by_test)])


def compartment_temperature(study: "Study", limit: Limit) -> Finding:
    """The burner's control ages fast in heat, and in the end fails with the flame on."""
    project = study.project
    if lacks(project, "burner"):
        return not_applicable(limit, NO_BURNER)
    burner = burner_of(project)
    highest = burner.space_max if burner else None
    by = limit if highest is None else limit.by_maker(highest)
    tests = project.commissioning
    measured = tests.surface.compartment_air if tests and tests.surface else None
    if measured is not None:
        return with_maker_silent(by, judge(by, measured, key=SPACE_AIR, remark="measured"))
    space = burner_space(project)
    if space is None:
        return not_assessed(by, (*_space_keys(project), SPACE_AIR))
    zones = {} if isinstance(study.heat_loss, NotAssessed) else study.heat_loss.zones
    if space in zones:
        at_night = judge(by, zones[space].temperature, place=space, key=f"zones.{space}")
        if at_night.status is Status.NOT_MET:
            return with_maker_silent(by, at_night)
    why = "the design night is not the hot case: it shows on a test run at full output"
    return not_assessed(by, (SPACE_AIR,), why)


def _vapour_in(limit: Limit, space: str, kept: tuple[str, ...]) -> Finding:
    sources = [words for words in kept if says("vapour", words)]
    return present(
        limit,
        not sources,
        ", ".join(sources or kept) or "nothing",
        asked="no source of vapour",
        lacking="another place for it",
        key=f"layout.compartments.{space}.holds",
    )


def vapour(study: "Study", limit: Limit) -> Finding:
    """Vapour of petrol, gas or paint finds the flame, and the space takes fire at once."""
    project = study.project
    if lacks(project, "burner"):
        return not_applicable(limit, NO_BURNER)
    space = burner_space(project)
    if space is None:
        return not_assessed(limit, _space_keys(project))
    kept = holds(project, space)
    if kept is None:
        return not_assessed(limit, (f"layout.compartments.{space}.holds",))
    parts = [(space, _vapour_in(limit, space, kept))]
    compartments = (project.layout.compartments if project.layout else None) or {}
    for beside in neighbours(project, space):
        theirs = _vapour_in(limit, beside, holds(project, beside) or ())
        if theirs.status is Status.MET or compartments[beside].sealed:
            continue
        if compartments[beside].sealed is None:
            why = f"{beside} holds {theirs.found} and touches the burner's space"
            theirs = not_assessed(limit, (f"layout.compartments.{beside}.sealed",), why)
        parts.append((beside, theirs))
    return together(limit, parts)


def space_sealed(study: "Study", limit: Limit) -> Finding:
    """Gas from a leaking joint goes the easiest way, and that may end at a berth."""
    project = study.project
    if lacks(project, "burner"):
        return not_applicable(limit, NO_BURNER)
    space = burner_space(project)
    spaces = [space] if space else []
    if not isinstance(study.exhaust, NotAssessed) and not isinstance(study.exhaust.route, NotAssessed):
        spaces += [name for name, _ in study.exhaust.route.spaces if not is_accommodation(project, name)]
    if space is None:
        return not_assessed(limit, (*_space_keys(project), *limit.row.inputs))
    compartments = (project.layout.compartments if project.layout else None) or {}
    parts = []
    for name in dict.fromkeys(spaces):
        compartment = compartments.get(name)
        key = f"layout.compartments.{name}.sealed"
        sealed = compartment.sealed if compartment else None
        parts.append(
            (
                name,
                present(
                    limit,
                    sealed,
                    "sealed" if sealed else "not sealed",
                    asked="gas-tight against the cabins",
                    lacking="a seal against the cabins",
                    missing=(key,),
                    key=key,
                ),
            )
        )
    return together(limit, parts)


def _return_air(study: "Study", limit: Limit, coil: "FanCoil") -> Finding:
    """Where one fan coil takes its air from, and whether it stands where nobody lives."""
    project = study.project
    key = f"components.{coil.tag}.air_from"
    asked = "air from a cabin or from outside"
    if coil.air_from is None:
        return not_assessed(limit, (key,))
    stands_in = space_of(project, coil.tag)
    if stands_in is not None and is_accommodation(project, stands_in) is False:
        return present(
            limit,
            fulfilled=False,
            found=f"stands in {stands_in}",
            asked=asked,
            lacking="a place in the cabin it heats",
            key=f"layout.places.{coil.tag}",
        )
    cabin = coil.air_from == OUTSIDE or is_accommodation(project, coil.air_from)
    return present(
        limit,
        cabin,
        f"from {coil.air_from}",
        asked=asked,
        lacking="return air from a cabin",
        missing=(f"layout.compartments.{coil.air_from}.holds",),
        key=key,
    )


def fan_coil_return(study: "Study", limit: Limit) -> Finding:
    """A fan that draws from the engine's or burner's space blows their fumes into the cabin."""
    project = study.project
    if lacks(project, "fan_coil"):
        return not_applicable(limit, "no fan coil is aboard")
    coils = of_kind(project, "fan_coil")
    if not coils:
        return not_assessed(limit, ("components.fan_coil.air_from",))
    found = together(limit, [(coil.tag, _return_air(study, limit, coil)) for coil in coils])
    unplaced = [coil.tag for coil in coils if space_of(project, coil.tag) is None]
    if found.status is not Status.MET or not unplaced:
        return found
    remark = f"by where they take their air from; not placed in the layout: {', '.join(unplaced)}"
    return replace(found, remark=joined(found.remark, remark))
