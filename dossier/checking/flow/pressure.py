"""Does any part see too little pressure, or too much pressure or heat?"""

from typing import TYPE_CHECKING, Annotated, Any

from dossier.checking.aboard import is_sealed, of_kind
from dossier.checking.finding import Finding, Limit, judge, not_assessed
from dossier.checking.judging import at_least, together
from dossier.checking.solved_modes import ring_of, unsolved
from dossier.data.catalogue import further_limit
from dossier.data.pipes import pipe_size
from dossier.notation import ARITHMETIC, NotAssessed, Real, formula, q
from dossier.physics.pump import suction_margin
from dossier.sizing.pressures import height_over, pressure_at

if TYPE_CHECKING:
    from dossier.sizing.circuit import Place
    from dossier.sizing.pressures import Pressures
    from dossier.sizing.ring import RingStudy
    from dossier.sizing.study import Study

STAT = "overheat stat"


def suction(study: "Study", limit: Limit) -> Finding:
    """A pump whose inlet boils or sucks air stops pumping."""
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    if isinstance(study.pressures, NotAssessed):
        return not_assessed(limit, study.pressures)
    if isinstance(study.expansion, NotAssessed) or study.expansion.vapour_pressure is None:
        lacking = study.expansion if isinstance(study.expansion, NotAssessed) else ["circuit.coolant"]
        return not_assessed(limit, lacking)
    vapour = study.expansion.vapour_pressure
    each = unsolved(ring, limit)
    for mode, operation in ring.operations.items():
        pressures = study.pressures.modes.get(mode)
        for place in ring.hydraulics.circuit.of_kind("pump"):
            if place.tag in operation.state.stopped:
                continue
            edge = pressures.edges.get(place.tag) if pressures else None
            if edge is None:
                found = not_assessed(limit, [f"layout.places.{place.tag}"])
            else:
                pump: Any = place.unit
                own = limit.by_maker(pump.npsh) if pump.npsh is not None else limit
                key = f"components.{place.tag}.npsh"
                found = judge(own, suction_margin(edge.inlet, vapour, 0.0), key=key)
            each.append((f"{place.tag}, {mode}", found))
    return together(limit, each, none="no pump runs in any mode")


def no_suction_in(study: "Study", limit: Limit) -> Finding:
    """Below outside pressure a weak joint lets air in and no water out, so nobody sees it."""
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    pressures = study.pressures
    if isinstance(pressures, NotAssessed):
        return not_assessed(limit, pressures)
    each = unsolved(ring, limit)
    each += [
        (f"{p.lowest_at}, {mode}", judge(limit, p.lowest, key="circuit.header.joins_before"))
        for mode, p in pressures.modes.items()
    ]
    if pressures.stopped is not None:
        stopped = judge(limit, pressures.stopped, key="circuit.header.joins_before")
        each.append((f"{pressures.stopped_at}, pump stopped", stopped))
    each += _vents(study, ring, pressures, limit)
    return together(limit, each) if each else not_assessed(limit, ["layout.places"])


def _vents(
    study: "Study", ring: "RingStudy", pressures: "Pressures", limit: Limit
) -> list[tuple[str, Finding]]:
    """Automatic vents: the lowest pressure at each, pump running and stopped."""
    if isinstance(study.coolant, NotAssessed):
        return []
    density = study.coolant.density
    least = float(further_limit(limit.check, "automatic vents").limit)
    found = []
    for place in ring.hydraulics.circuit.places.values():
        for vent in (place.pipe.vents or ()) if place.pipe is not None else ():
            if vent.kind != "automatic":
                continue
            what, key = f"automatic vent in {place.tag}", f"{place.key}.vents"
            known = vent.at is not None and place.tag in pressures.heights
            if vent.at is None or not known or pressures.join_height is None:
                found.append((what, not_assessed(limit, [f"{key}.at", f"{place.key}.route"])))
                continue
            over = height_over(vent.at.z, pressures.heights[place.tag])
            at_vent: list[Real] = [
                pressure_at(p.edges[place.tag].gauge, 0.0, density, over)
                for p in pressures.modes.values()
                if place.tag in p.edges
            ]
            above = height_over(vent.at.z, pressures.join_height)
            at_vent.append(pressure_at(pressures.join, 0.0, density, above))
            lowest = min(at_vent, key=float)
            found.append((what, at_least(limit, lowest, least, limit.row.unit, key=key)))
    return found


@formula("p = p_h + p_f − p_j", ARITHMETIC)
def hot_pressure(
    highest: Annotated[Real, q("p_h", "Pa", "gauge, highest in the ring when filled", low=-1e6, high=5e6)],
    final: Annotated[Real, q("p_f", "Pa", "gauge, at the vessel when hot", low=-1e6, high=5e6)],
    join: Annotated[Real, q("p_j", "Pa", "gauge, at the vessel when filled", low=-1e6, high=5e6)],
) -> Annotated[Real, q("p", "Pa", "gauge, highest in the ring when hot")]:
    """Highest pressure once the vessel has taken the expansion."""
    return highest + final - join


def pressure_rating(study: "Study", limit: Limit) -> Finding:
    """The weakest hose sets the pressure the whole ring may have."""
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    if isinstance(study.pressures, NotAssessed):
        return not_assessed(limit, study.pressures)
    highest = _highest(study, study.pressures, limit)
    if isinstance(highest, Finding):
        return highest
    each = unsolved(ring, limit)
    if limit.overridden:
        return together(limit, [("the ring", judge(limit, highest)), *each])
    ratings = _pressure_ratings(ring)
    if not ratings:
        burners = of_kind(study.project, "burner")
        tag = burners[0].tag if burners else "burner"
        return not_assessed(limit, [f"components.{tag}.pressure_rating"])
    rating, tag, key = min(ratings)
    weakest = judge(limit.by_maker(rating), highest, key=key, place=tag, remark="for the ratings stated")
    return together(limit, [(tag, weakest), *each])


def _highest(study: "Study", pressures: "Pressures", limit: Limit) -> Real | Finding:
    """Highest gauge pressure of all modes, hot where the ring is sealed."""
    highest: Real | None = max((p.highest for p in pressures.modes.values()), key=float, default=None)
    if highest is None:
        return not_assessed(limit, ["layout.places"])
    if not is_sealed(study.project):
        return highest
    hot = None if isinstance(study.expansion, NotAssessed) else study.expansion.final
    if hot is None:
        return not_assessed(limit, ["components.membrane_vessel.volume", "circuit.fill_pressure"])
    return hot_pressure(highest, hot, pressures.join)


def _pressure_ratings(ring: "RingStudy") -> list[tuple[float, str, str]]:
    found = []
    for place in ring.hydraulics.circuit.places.values():
        holder, key = _holder(place)
        if holder.pressure_rating is not None:
            found.append((holder.pressure_rating, place.tag, f"{key}.pressure_rating"))
    return found


def _holder(place: "Place") -> tuple[Any, str]:
    """What bears a part's ratings, and its key in the file."""
    if place.pipe is not None:
        return place.pipe, place.key
    return place.unit, f"components.{place.way_of or place.tag}"


def temperature_rating(study: "Study", limit: Limit) -> Finding:
    """A plastic pipe softens where the water gets hotter than it was made for."""
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    heats = [o.heat for o in ring.operations.values() if o.heat is not None]
    if not heats:
        return not_assessed(limit, ["components.burner.output"], "no source of heat runs in any mode")
    each = unsolved(ring, limit)
    stats = [b.overheat_stat for b in of_kind(study.project, "burner")]
    stat = None if None in stats or not stats else max(stats)
    if stats and stat is None:
        each.append((STAT, not_assessed(limit, ["components.burner.overheat_stat"])))
    for place in ring.hydraulics.circuit.places.values():
        met_by = [float(t) for h in heats for t in (h.inlets.get(place.tag), h.outlets.get(place.tag)) if t]
        if met_by:
            each += _rated(limit, place, max(met_by), None if stat is None else float(stat))
    return together(limit, each)


def _rated(limit: Limit, place: "Place", hottest: float, stat: float | None) -> list[tuple[str, Finding]]:
    """Rating of one part against the hottest water and the stat; a unit without one is not asked for it."""
    holder, key = _holder(place)
    key = f"{key}.temperature_rating"
    working = shortly = holder.temperature_rating
    if working is None and place.pipe is not None and _is_plastic(place):
        working = further_limit(limit.check, "plastic heating pipe, working").limit
        shortly = further_limit(limit.check, "plastic heating pipe, malfunction").limit
    if working is None:
        return [(place.tag, not_assessed(limit, [key]))] if place.pipe is not None else []
    found = [(place.tag, judge(limit, working, value=hottest, key=key))]
    if stat is not None:
        found.append((f"{place.tag}, {STAT}", judge(limit, shortly, value=stat, key=key)))
    return found


def _is_plastic(place: "Place") -> bool:
    pipe = place.pipe
    return pipe is not None and bool(pipe.size) and pipe_size(pipe.size or "").material == "plastic"
