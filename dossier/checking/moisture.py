"""Do linings, frames and the inside of the shell stay dry?"""

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from dossier.checking.finding import Finding, Limit, Status, judge, not_applicable, not_assessed
from dossier.checking.judging import counted, together, waits_for
from dossier.checking.stated import stated
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.sizing.moisture import Moisture, SectionMoisture
    from dossier.sizing.study import Study

HUMIDITY = "conditions.humidity_inside"
ONLY_GLASS = "all that closes off the heated rooms is glass"
LAYERS_KNOWN = "for the sections whose layers are written"
DRY = "dry within the year"


def _place(section: "SectionMoisture") -> str:
    return f"{section.zone}, {section.name}"


def _key(section: "SectionMoisture") -> str:
    return f"zones.{section.zone}.sections.{section.name}"


def _moisture(study: "Study", limit: Limit) -> "Moisture | Finding":
    """The study, or why the check cannot be made: a humidity that nobody states is no evidence."""
    if isinstance(study.moisture, NotAssessed):
        return waits_for(limit, study.moisture, "zones")
    if stated(study.project, HUMIDITY) is None:
        return not_assessed(limit, [HUMIDITY])
    return study.moisture


def _each(
    limit: Limit,
    sections: "list[SectionMoisture]",
    judged: "Callable[[SectionMoisture], Finding]",
) -> Finding:
    return together(limit, [(_place(section), judged(section)) for section in sections], none=ONLY_GLASS)


def surface_dew(study: "Study", limit: Limit) -> Finding:
    """A surface colder than the dew point of the room runs with water, and what hangs on it rots."""
    found = _moisture(study, limit)
    if isinstance(found, Finding):
        return found

    def judged(section: "SectionMoisture") -> Finding:
        dew = float(found.rooms[section.room].dew_point)
        return judge(limit, section.surface_temperature, value=counted(limit, dew), key=_key(section))

    return _each(limit, [s for s in found.sections if not s.glazed], judged)


def mould(study: "Study", limit: Limit) -> Finding:
    """Mould needs no water on the wall: air that stays damp at the surface for weeks is enough."""
    found = _moisture(study, limit)
    if isinstance(found, Finding):
        return found

    def judged(section: "SectionMoisture") -> Finding:
        return judge(limit, section.surface_humidity, key=_key(section), missing=section.lacking)

    return _each(limit, [s for s in found.sections if not s.glazed], judged)


def frames(study: "Study", limit: Limit) -> Finding:
    """A metal frame carries the cold through the insulation and drips where nobody sees it."""
    found = _moisture(study, limit)
    if isinstance(found, Finding):
        return found
    framed = [section for section in found.sections if section.flange_temperature is not None]
    if not framed:
        if any(section.has_layers for section in found.sections):
            return not_applicable(limit, "no build-up round a heated room has frames")
        return not_assessed(limit, [f"{_key(section)}.build_up" for section in found.sections[:1]])

    def judged(section: "SectionMoisture") -> Finding:
        dew = float(found.rooms[section.room].dew_point)
        return judge(limit, section.flange_temperature, value=counted(limit, dew), key=_key(section))

    return _each(limit, framed, judged)


def inside_layers(study: "Study", limit: Limit) -> Finding:
    """Water that gathers behind a lining and never dries rusts plating and rots wood from within."""
    found = _moisture(study, limit)
    if isinstance(found, Finding):
        return found
    layered = [section for section in found.sections if section.has_layers]
    if not layered:
        return not_assessed(limit, [f"{_key(section)}.build_up" for section in found.sections[:1]])

    def judged(section: "SectionMoisture") -> Finding:
        water = section.condensation
        if water is None:
            return not_assessed(limit, section.lacking)
        outer, others = water.cups
        cups = f"vapour factors: outermost layer {outer} cup, others {others} cup"
        if not water.year.dries:
            left = min(water.year.water)
            return Finding(
                limit,
                Status.NOT_MET,
                section.condensate,
                DRY,
                -left,
                limit.row.unit,
                key=_key(section),
                remark=f"{cups}; the margin is the water left at the driest",
            )
        return judge(limit, section.condensate, key=_key(section), remark=cups)

    whole = _each(limit, layered, judged)
    if len(layered) == len(found.sections) or whole.status is Status.NOT_ASSESSED:
        return whole
    return replace(whole, remark="; ".join(part for part in (whole.remark, LAYERS_KNOWN) if part))
