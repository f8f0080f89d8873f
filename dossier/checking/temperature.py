"""Is the water hot enough, cold enough, and nowhere too hot to touch?"""

from typing import TYPE_CHECKING, Any

from dossier.checking.finding import Finding, Limit, judge, not_assessed
from dossier.checking.judging import counted, for_a_burner, together, with_maker_silent
from dossier.checking.solved_modes import design_of, ring_of, unsolved
from dossier.notation import NotAssessed, Real

if TYPE_CHECKING:
    from dossier.sizing.ring import RingStudy
    from dossier.sizing.ring_results import ModeHeat
    from dossier.sizing.study import Study

NO_SOURCE = "no source of heat runs in any mode"


def _heats(ring: "RingStudy") -> "dict[str, ModeHeat]":
    return {mode: o.heat for mode, o in ring.operations.items() if o.heat is not None}


@for_a_burner
def return_min(study: "Study", limit: Limit) -> Finding:
    """Cold return water makes the burner's gas side wet, sooty and short-lived."""
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    each = unsolved(ring, limit)
    for mode, heat in _heats(ring).items():
        for tag, source in heat.sources.items():
            if source.kind == "burner":
                unit: Any = ring.hydraulics.circuit.places[tag].unit
                own = limit.by_maker(unit.return_min) if unit.return_min is not None else limit
                found = judge(own, source.back, key=f"components.{tag}.return_min")
                each.append((f"{tag}, {mode}", with_maker_silent(limit if own is limit else own, found)))
    return together(limit, each) if each else not_assessed(limit, ["components.burner.output"], NO_SOURCE)


def supply_max(study: "Study", limit: Limit) -> Finding:
    """Coolant, hose and burner each stand only so much heat."""
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    key = ""
    ratings = _ratings(ring)
    if ratings and not limit.overridden:
        lowest, key = min(ratings)
        limit = limit.by_maker(lowest)
    each = unsolved(ring, limit)
    hottest: dict[tuple[str, str], Real] = {
        (tag, mode): source.supply
        for mode, heat in _heats(ring).items()
        for tag, source in heat.sources.items()
    }
    each += [
        (f"{tag}, {mode}", judge(limit, supply, key=key or f"components.{tag}.setpoint"))
        for (tag, mode), supply in hottest.items()
    ]
    each += _recovered(study, limit, key)
    return together(limit, each) if each else not_assessed(limit, ["components.burner.output"], NO_SOURCE)


def _recovered(study: "Study", limit: Limit, key: str) -> list[tuple[str, Finding]]:
    """Ring of each recovering mode with all zones shut, where an engine warms it on."""
    if isinstance(study.recovery, NotAssessed):
        return []
    found = []
    for name, mode in study.recovery.modes.items():
        for unit in mode.units:
            engine = f"components.{unit.serves}.jacket_highest"
            what = f"{unit.tag}, {name}, zones shut"
            if unit.highest is None:
                found.append((what, not_assessed(limit, [engine])))
            else:
                found.append((what, judge(limit, unit.highest, key=key or engine)))
    return found


def _ratings(ring: "RingStudy") -> list[tuple[float, str]]:
    """Highest temperatures that parts of the ring may see, with the keys they are stated under."""
    found = []
    for place in ring.hydraulics.circuit.places.values():
        holder: Any = place.pipe if place.pipe is not None else place.unit
        key = place.key if place.pipe is not None else f"components.{place.way_of or place.tag}"
        names = ("temperature_rating", "supply_max") if place.kind == "burner" else ("temperature_rating",)
        found += [(getattr(holder, n), f"{key}.{n}") for n in names if getattr(holder, n) is not None]
    return found


@for_a_burner
def supply_reached(study: "Study", limit: Limit) -> Finding:
    """Where demand exceeds the source, the water never gets as hot as the coils were rated for."""
    design = design_of(study, limit)
    if isinstance(design, Finding):
        return design
    if design.heat is None or isinstance(study.ring, NotAssessed):
        return not_assessed(limit, ["components.burner.output"], "no source of heat runs in the design mode")
    each = []
    for tag, model in study.ring.burners.items():
        source = design.heat.sources.get(tag)
        if source is not None:
            lowest = float(model.setpoint) - float(model.band)
            found = judge(
                limit, source.supply, value=counted(limit, lowest), key=f"components.{tag}.setpoint"
            )
            each.append((tag, found))
    return together(limit, each, none="no burner runs in the design mode")


def touch(study: "Study", limit: Limit) -> Finding:
    """Bare hot metal burns a hand in seconds."""
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    heats = _heats(ring).values()
    each = []
    for place in ring.hydraulics.circuit.places.values():
        if place.pipe is None or place.pipe.within_reach is False:
            continue
        key = f"{place.key}.within_reach"
        if place.pipe.within_reach is None:
            each.append((place.tag, not_assessed(limit, [key])))
            continue
        surfaces = [heat.pipes[place.tag].surface for heat in heats if place.tag in heat.pipes]
        if surfaces:
            each.append((place.tag, judge(limit, max(surfaces, key=float), key=key)))
        else:
            each.append((place.tag, not_assessed(limit, ["components.burner.output"], NO_SOURCE)))
    return together(limit, [*each, *unsolved(ring, limit)], none="no pipe is within reach")
