"""Does the coolant move as it should: flow, velocity, pressure, air, valves."""

from typing import TYPE_CHECKING, Annotated, Any

from dossier.checking.aboard import lacks, of_kind
from dossier.checking.finding import (
    Finding,
    Limit,
    Status,
    judge,
    not_applicable,
    not_assessed,
    worst_of,
)
from dossier.data.catalogue import further_limit
from dossier.notation import ARITHMETIC, NotAssessed, Real, formula, q
from dossier.physics.pump import suction_margin

if TYPE_CHECKING:
    from dossier.sizing.circuit import Place
    from dossier.sizing.study import Study

NO_BURNER = "no burner is aboard"
STILL = 1e-9


@formula("r = q_1/q_2", ARITHMETIC)
def flow_ratio(
    one: Annotated[Real, q("q_1", "m3/s", "flow", low=-10, high=10)],
    other: Annotated[Real, q("q_2", "m3/s", "flow it is compared with", low=1e-12, high=10)],
) -> Annotated[Real, q("r", "1", "one over the other")]:
    """One flow over another."""
    return one / other


@formula("d = |q_1/q_2 − 1|", ARITHMETIC)
def flow_deviation(
    one: Annotated[Real, q("q_1", "m3/s", "flow measured", low=0, high=10)],
    other: Annotated[Real, q("q_2", "m3/s", "flow expected", low=1e-12, high=10)],
) -> Annotated[Real, q("d", "1", "deviation")]:
    """How far a measured flow is off the expected one."""
    return abs(one / other - 1)


def _solved(study: "Study", limit: Limit) -> Finding | None:
    """Why no flow was found, None where flows stand."""
    if isinstance(study.ring, NotAssessed):
        return not_assessed(limit, study.ring)
    if study.ring.not_solved:
        mode, why = next(iter(study.ring.not_solved.items()))
        return not_assessed(limit, [f"modes.{mode}"], why)
    return None


def burner_min(study: "Study", limit: Limit) -> Finding:
    """Without enough flow the water in the burner boils before the stat can act."""
    if lacks(study.project, "burner"):
        return not_applicable(limit, NO_BURNER)
    lacking = _solved(study, limit)
    if lacking is not None:
        return lacking
    each = []
    for mode, operation in study.operations.items():
        for burner in of_kind(study.project, "burner"):
            if burner.tag in operation.state.stopped or burner.tag not in operation.flows.edges:
                continue
            each.append((f"{burner.tag}, {mode}", _burner_flow(study, limit, burner, mode)))
    return worst_of(each) if each else not_applicable(limit, "no burner runs in any mode")


def _burner_flow(study: "Study", limit: Limit, burner: Any, mode: str) -> Finding:
    operation = study.operations[mode]
    flow = operation.flows.edges[burner.tag].flow
    key = f"components.{burner.tag}.flow_min"
    if burner.flow_min is not None or limit.overridden:
        own = limit if limit.overridden else limit.by_maker(burner.flow_min)
        return judge(own, flow, key=key)
    source = operation.heat.sources.get(burner.tag) if operation.heat else None
    if source is None:
        return not_assessed(limit, [key], "neither the maker's least flow nor the rise is known")
    rise = further_limit(limit.check, "rise without the maker's figure")
    margin = float(rise.limit) - float(source.rise_at_full)
    status = Status.MET if margin >= 0 else Status.NOT_MET
    return Finding(
        limit,
        status,
        source.rise_at_full,
        rise.limit,
        margin,
        rise.unit,
        key=key,
        remark="maker's figure not supplied: judged by the rise at full output",
    )


def cold_start(study: "Study", limit: Limit) -> Finding:
    """The mix is at its thickest and the battery at its weakest when the burner is needed most."""
    if lacks(study.project, "burner"):
        return not_applicable(limit, NO_BURNER)
    cold = study.cold_start
    if isinstance(cold, NotAssessed):
        return not_assessed(limit, cold)
    each = []
    for burner in of_kind(study.project, "burner"):
        edge = cold.flows.edges.get(burner.tag)
        key = f"components.{burner.tag}.flow_min"
        if edge is None:
            continue
        if burner.flow_min is None and not limit.overridden:
            each.append((burner.tag, not_assessed(limit, [key])))
        else:
            own = limit if limit.overridden else limit.by_maker(burner.flow_min)
            each.append((burner.tag, judge(own, edge.flow, key=key)))
    return worst_of(each) if each else not_assessed(limit, ["circuit.ring"])


def velocity_max(study: "Study", limit: Limit) -> Finding:
    """Fast water hums at night and wears the pipe at its bends."""
    lacking = _solved(study, limit)
    if lacking is not None:
        return lacking
    copper = further_limit(limit.check, "copper in accommodation")
    each = []
    for mode, operation in study.operations.items():
        for tag, edge in operation.flows.edges.items():
            if edge.velocity is None:
                continue
            place = study.ring.hydraulics.circuit.places[tag]
            is_copper = place.pipe is not None and (place.pipe.size or "").startswith("copper")
            value = float(copper.limit) if is_copper and not limit.overridden else None
            found = judge(limit, abs(float(edge.velocity)), value=value, key=place.key)
            each.append((f"{tag}, {mode}", found))
    if not each:
        return not_applicable(limit, "no pipe is in the ring")
    worst = worst_of(each)
    most = {item.what: item for item in worst.items}
    keep = sorted(most.values(), key=lambda item: float(item.margin or 0.0))[:12]  # type: ignore[arg-type]  # numbers here
    return Finding(**{**_fields(worst), "items": tuple(keep)})


def _fields(finding: Finding) -> dict[str, Any]:
    return {name: getattr(finding, name) for name in Finding.__dataclass_fields__}


def branch_flow(study: "Study", limit: Limit) -> Finding:
    """The far cabin stays cold where the near ones take its share."""
    lacking = _solved(study, limit)
    if lacking is not None:
        return lacking
    design = study.operations.get("heating")
    wanted = study.ring.wanted
    if design is None or not wanted:
        return not_assessed(limit, ["zones"], "no wanted flow: the loads of the zones are not known")
    each = []
    for name, want in wanted.items():
        flow = design.flows.branches[name].flow
        key = study.ring.hydraulics.circuit.branches[name].key
        each.append((name, judge(limit, flow_ratio(flow, want.flow), key=key)))
    return worst_of(each)


def preset_range(study: "Study", limit: Limit) -> Finding:
    """Near its ends a balancing valve cannot be set to what the table asks."""
    lacking = _solved(study, limit)
    if lacking is not None:
        return lacking
    presets = {t: p for t, p in study.ring.presets.items() if not p.is_open}
    if not presets:
        if lacks(study.project, "balancing_valve"):
            return not_applicable(limit, "no balancing valve is in the ring")
        return not_assessed(limit, ["zones"], "nothing to preset: the loads of the zones are not known")
    return worst_of(
        [
            (tag, judge(limit, kv_ratio(p.kv, p.full_kv), key=f"components.{tag}.kv"))
            for tag, p in presets.items()
        ]
    )


@formula("r = K_v/K_vs", ARITHMETIC)
def kv_ratio(
    preset: Annotated[Real, q("K_v", "m3/h", "preset", low=0, high=1000)],
    full: Annotated[Real, q("K_vs", "m3/h", "fully open", low=1e-9, high=1000)],
) -> Annotated[Real, q("r", "1", "share of the full flow factor")]:
    """Preset over the full flow factor."""
    return preset / full


def measured(study: "Study", limit: Limit) -> Finding:
    """What the meter read at commissioning tells whether the table is true aboard."""
    commissioning = study.project.commissioning
    readings = commissioning.flows if commissioning else None
    if not readings:
        return not_assessed(limit, ["commissioning.flows"])
    lacking = _solved(study, limit)
    if lacking is not None:
        return lacking
    design = study.operations.get("heating")
    each = []
    for tag, reading in readings.items():
        edge = design.flows.edges.get(tag) if design else None
        if edge is None or abs(float(edge.flow)) < STILL:
            continue
        found = judge(limit, flow_deviation(reading, edge.flow), key=f"commissioning.flows.{tag}")
        each.append((tag, found))
    return worst_of(each) if each else not_assessed(limit, ["commissioning.flows"])


def suction(study: "Study", limit: Limit) -> Finding:
    """A pump whose inlet boils or sucks air stops pumping."""
    lacking = _solved(study, limit)
    if lacking is not None:
        return lacking
    if isinstance(study.pressures, NotAssessed):
        return not_assessed(limit, study.pressures)
    if isinstance(study.expansion, NotAssessed):
        return not_assessed(limit, study.expansion)
    vapour = study.expansion.vapour_pressure
    each = []
    for mode, pressures in study.pressures.modes.items():
        for pump in of_kind(study.project, "pump"):
            edge = pressures.edges.get(pump.tag)
            key = f"components.{pump.tag}.npsh"
            if edge is None or vapour is None:
                continue
            own = limit.by_maker(pump.npsh) if pump.npsh is not None else limit
            each.append((f"{pump.tag}, {mode}", judge(own, suction_margin(edge.inlet, vapour, 0.0), key=key)))
    return worst_of(each) if each else not_assessed(limit, ["layout.places"])


def no_suction_in(study: "Study", limit: Limit) -> Finding:
    """Below outside pressure a weak joint lets air in and no water out, so nobody sees it."""
    lacking = _solved(study, limit)
    if lacking is not None:
        return lacking
    if isinstance(study.pressures, NotAssessed):
        return not_assessed(limit, study.pressures)
    each = [
        (f"{p.lowest_at}, {mode}", judge(limit, p.lowest, key="circuit.header.joins_before"))
        for mode, p in study.pressures.modes.items()
    ]
    vents = further_limit(limit.check, "automatic vents")
    for place in _pipes(study):
        for vent in place.pipe.vents or () if place.pipe else ():
            if vent.kind != "automatic" or vent.at is None:
                continue
            for mode, p in study.pressures.modes.items():
                gauge = _gauge_at(study, place.tag, float(vent.at.z), mode)
                if gauge is not None:
                    found = judge(limit, gauge, value=float(vents.limit), key=f"{place.key}.vents")
                    each.append((f"vent in {place.tag}, {mode}", found))
                del p
    return worst_of(each) if each else not_assessed(limit, ["layout.places"])


def _gauge_at(study: "Study", tag: str, height: float, mode: str) -> float | None:
    if isinstance(study.pressures, NotAssessed) or isinstance(study.coolant, NotAssessed):
        return None
    edge = study.pressures.modes[mode].edges.get(tag)
    if edge is None or tag not in study.pressures.heights:
        return None
    over = height - float(study.pressures.heights[tag])
    return float(edge.gauge) - float(study.coolant.density) * 9.80665 * over


def pressure_rating(study: "Study", limit: Limit) -> Finding:
    """The weakest hose sets the pressure the whole ring may have."""
    lacking = _solved(study, limit)
    if lacking is not None:
        return lacking
    ratings: list[tuple[float, str, str]] = [
        (c.pressure_rating, tag, f"components.{tag}.pressure_rating")
        for tag, c in (study.project.components or {}).items()
        if c.pressure_rating is not None
    ]
    ratings += [
        (p.pipe.pressure_rating, p.tag, f"{p.key}.pressure_rating")
        for p in _pipes(study)
        if p.pipe is not None and p.pipe.pressure_rating is not None
    ]
    if isinstance(study.pressures, NotAssessed):
        return not_assessed(limit, study.pressures)
    highest = max((p.highest for p in study.pressures.modes.values()), key=float, default=None)
    if highest is None:
        return not_assessed(limit, ["layout.places"])
    if not ratings and not limit.overridden:
        burner = of_kind(study.project, "burner")
        return not_assessed(limit, [f"components.{burner[0].tag if burner else 'burner'}.pressure_rating"])
    if limit.overridden:
        return judge(limit, highest)
    rating, tag, key = min(ratings)
    return judge(limit.by_maker(rating), highest, key=key, place=tag, remark="for the ratings stated")


def temperature_rating(study: "Study", limit: Limit) -> Finding:
    """A plastic pipe softens where the water gets hotter than it was made for."""
    lacking = _solved(study, limit)
    if lacking is not None:
        return lacking
    heats = {mode: o.heat for mode, o in study.operations.items() if o.heat is not None}
    if not heats:
        return not_assessed(limit, ["components.burner.output"])
    plastic = further_limit(limit.check, "plastic heating pipe, working")
    each = []
    for place in study.ring.hydraulics.circuit.places.values():
        hottest = max(
            (float(h.inlets[place.tag]) for h in heats.values() if place.tag in h.inlets), default=None
        )
        if hottest is None:
            continue
        holder: Any = place.pipe if place.pipe is not None else place.unit
        key = (
            f"{place.key}.temperature_rating" if place.pipe else f"components.{place.tag}.temperature_rating"
        )
        rating = holder.temperature_rating
        is_plastic = place.pipe is not None and (place.pipe.size or "").startswith("pex")
        if rating is None and is_plastic:
            rating = plastic.limit
        if rating is not None:
            each.append((place.tag, judge(limit, rating, value=hottest, key=key)))
        elif place.pipe is not None:
            each.append((place.tag, not_assessed(limit, [key])))
    return worst_of(each) if each else not_assessed(limit, ["circuit.ring"])


def _pipes(study: "Study") -> "tuple[Place, ...]":
    if isinstance(study.circuit, NotAssessed):
        return ()
    return tuple(place for place in study.circuit.places.values() if place.pipe is not None)
