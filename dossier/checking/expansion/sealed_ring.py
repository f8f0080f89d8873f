"""A sealed ring: vessel, pre-charge, safety valve, gauge."""

from typing import TYPE_CHECKING, Any

from dossier.checking.aboard import circuit_is_written, of_kind
from dossier.checking.expansion.kinds import for_a_sealed_ring, headers
from dossier.checking.finding import Finding, Limit, Status, judge, not_applicable, not_assessed, present
from dossier.checking.judging import at_least, at_most, met, not_met, together
from dossier.checking.ratios import volume_ratio
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.sizing.study import Study

BELOW = "below every rating"


@for_a_sealed_ring
def vessel(study: "Study", limit: Limit) -> Finding:
    """A vessel too small lifts the safety valve at every heating-up."""
    vessels = of_kind(study.project, "membrane_vessel")
    if not vessels:
        return not_applicable(limit, "the ring expands into a header with a pressure cap")
    found, first = study.expansion, vessels[0]
    if isinstance(found, NotAssessed):
        return not_assessed(limit, found)
    key = f"components.{first.tag}"
    if found.needed is None:
        needs = [f"{key}.{n}" for n in ("volume", "precharge", "final") if getattr(first, n) is None]
        if not needs and isinstance(study.pressures, NotAssessed):
            return not_assessed(limit, study.pressures)
        return not_assessed(limit, needs)
    each = [("volume", judge(limit, volume_ratio(first.volume, found.needed), key=f"{key}.volume"))]
    valves = [v for v in of_kind(study.project, "safety_valve") if v.setting is not None]
    if not valves:
        each.append(("final pressure", not_assessed(limit, ["components.safety_valve.setting"])))
    elif found.final is None:
        each.append(("final pressure", not_assessed(limit, ["circuit.fill_pressure"])))
    else:
        lowest = min(valves, key=lambda valve: float(valve.setting))
        most = float(lowest.setting) + float(further_limit(limit.check, "final pressure").limit)
        key = f"components.{lowest.tag}.setting"
        each.append(("final pressure", at_most(limit, found.final, most, "Pa", key=key)))
    return together(limit, each, relative=True)


@for_a_sealed_ring
def precharge(study: "Study", limit: Limit) -> Finding:
    """A vessel with too little gas holds no coolant in reserve."""
    vessels = of_kind(study.project, "membrane_vessel")
    if not vessels:
        return not_applicable(limit, "no membrane vessel is aboard")
    found, first = study.expansion, vessels[0]
    key = f"components.{first.tag}.precharge"
    if first.precharge is None:
        return not_assessed(limit, [key])
    least = float(further_limit(limit.check, "least").limit)
    each = [("least in any boat", at_least(limit, first.precharge, least, "Pa", key=key))]
    if isinstance(found, NotAssessed) or found.static is None:
        keys = ["layout.highest_wetted", f"layout.places.{first.tag}"]
        each.append(("over static", not_assessed(limit, keys)))
    else:
        over = float(limit.value or 0.0) + (0.0 if limit.overridden else float(found.static))
        each.append(("over static", at_least(limit, first.precharge, over, "Pa", key=key)))
    return together(limit, each)


@for_a_sealed_ring
def safety_valve(study: "Study", limit: Limit) -> Finding:
    """Something must open before a part bursts."""
    valves = of_kind(study.project, "safety_valve")
    if not valves:
        return _pressure_cap(study, limit)
    each = [_valve(study, limit, valve) for valve in valves]
    return max(each, key=lambda finding: list(Status).index(finding.status))


def _ratings(study: "Study") -> tuple[float | None, list[str]]:
    """Lowest rated pressure stated (Pa), and the burners whose rating is missing."""
    parts = (study.project.components or {}).values()
    stated = [float(part.pressure_rating) for part in parts if part.pressure_rating is not None]
    stated += [float(p.pressure_rating) for p in study.project.pipes() if p.pressure_rating is not None]
    burners = of_kind(study.project, "burner")
    missing = [f"components.{b.tag}.pressure_rating" for b in burners if b.pressure_rating is None]
    return min(stated, default=None), missing


def _output(study: "Study") -> tuple[float, list[str]]:
    """Output of burners and recovered heat together (W), and what is missing for it."""
    burners = of_kind(study.project, "burner")
    missing = [f"components.{b.tag}.output" for b in burners if b.output is None]
    total = sum(float(b.output.max) for b in burners if b.output is not None)
    for exchanger in of_kind(study.project, "recovery_exchanger"):
        engine: Any = (study.project.components or {}).get(exchanger.serves or "")
        if engine is not None and engine.jacket_heat is not None:
            total += float(engine.jacket_heat)
        else:
            missing.append(f"components.{exchanger.serves or exchanger.tag}.jacket_heat")
    return total, missing


def _valve(study: "Study", limit: Limit, valve: Any) -> Finding:
    key = f"components.{valve.tag}"
    lowest, unrated = _ratings(study)
    output, unknown = _output(study)
    if valve.setting is not None and lowest is not None and float(valve.setting) > lowest:
        found = f"opens at {float(valve.setting) / 1e5:.2g} bar, weakest part {lowest / 1e5:.2g} bar"
        return not_met(limit, found, "a lower setting", key=f"{key}.setting", place=valve.tag)
    if valve.capacity is not None and float(valve.capacity) < output:
        found = f"relieves {float(valve.capacity) / 1000:.3g} kW of {output / 1000:.3g} kW"
        return not_met(limit, found, "a larger valve", key=f"{key}.capacity", place=valve.tag)
    needs = [f"{key}.{n}" for n in ("setting", "capacity", "led_to") if getattr(valve, n) is None]
    if needs or unrated or unknown:
        return not_assessed(limit, [*needs, *unrated, *unknown])
    found = f"opens at {float(valve.setting) / 1e5:.2g} bar, led to {valve.led_to}"
    return present(limit, fulfilled=True, found=found, asked=BELOW, key=f"{key}.setting", place=valve.tag)


def _pressure_cap(study: "Study", limit: Limit) -> Finding:
    """A header with a pressure cap: the cap is the safety valve."""
    caps = [tank for tank in headers(study) if tank.cap == "pressure"]
    if not caps:
        if circuit_is_written(study.project):
            return not_met(limit, "none", "a safety valve", key="circuit.system")
        return not_assessed(limit, ["components (a safety_valve)"])
    key = f"components.{caps[0].tag}.cap_pressure"
    setting = caps[0].cap_pressure
    lowest, unrated = _ratings(study)
    if setting is not None and lowest is not None and float(setting) > lowest:
        found = f"cap opens at {float(setting) / 1e5:.2g} bar, weakest part {lowest / 1e5:.2g} bar"
        return not_met(limit, found, "a lower cap", key=key)
    if setting is None or unrated:
        return not_assessed(limit, [*([key] if setting is None else []), *unrated])
    found = f"cap opens at {float(setting) / 1e5:.2g} bar"
    return present(limit, fulfilled=True, found=found, asked=BELOW, key=key)


@for_a_sealed_ring
def gauge(study: "Study", limit: Limit) -> Finding:
    """Nobody can restore a pressure that nobody sees."""
    ring = study.project.circuit
    words = {"gauge": "gauge", "fill_valve": "fill valve"}
    stated = {name: getattr(ring, name) if ring is not None else None for name in words}
    lacking = [words[name] for name, there in stated.items() if there is False]
    if lacking:
        return not_met(limit, f"no {' nor '.join(lacking)}", ", ".join(lacking), key="circuit.gauge")
    missing = [f"circuit.{name}" for name, there in stated.items() if there is None]
    if missing:
        return not_assessed(limit, missing)
    return met(limit, "gauge and fill valve", key="circuit.gauge")
