"""Can heat be taken from an engine without harm to engine, ring or cabins?"""

from collections.abc import Callable, Mapping
from functools import wraps
from typing import TYPE_CHECKING, Any

from dossier.checking import temperature
from dossier.checking.aboard import circuit_is_written, of_kind
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed
from dossier.checking.judging import at_most, counted, joined, met, not_met, together, waits_for
from dossier.checking.run import limit_of
from dossier.checking.stated import stated
from dossier.notation import NotAssessed, Real
from dossier.project import NONE

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.heat_recovery import RecoveringMode
    from dossier.sizing.study import Study

NO_RECOVERY = "the file says no heat is taken from an engine"
NO_EXCHANGER = "no recovery exchanger is in the circuit"
BURNER_RUNS = "a burner, and the pump with it, runs in every mode that takes heat from an engine"
ENGINE_VALVES = 2
"""Valves at the engine, its way out and its way back; the catalogue says so in words."""
SUPPLY_MAX = "temperature.supply_max"
Check = Callable[["Study", Limit], Finding]


def _elsewhere(study: "Study", limit: Limit) -> Finding | None:
    """Why a check of recovery is not made, None where an exchanger or an engine in the ring is aboard."""
    project = study.project
    if of_kind(project, "recovery_exchanger"):
        return None
    if project.recovery is NONE:
        return not_applicable(limit, NO_RECOVERY)
    if circuit_is_written(project):
        return not_applicable(limit, NO_EXCHANGER)
    return not_assessed(limit, ["recovery"])


def for_recovery(check: Check) -> Check:
    """The check, made where a recovery exchanger is aboard."""

    @wraps(check)
    def guarded(study: "Study", limit: Limit) -> Finding:
        return _elsewhere(study, limit) or check(study, limit)

    return guarded


def _exchangers(study: "Study") -> tuple[Any, ...]:
    return of_kind(study.project, "recovery_exchanger")


def _engine(project: "Project", exchanger: Any) -> Any:
    return (project.components or {}).get(exchanger.serves or "")


def _for_each(
    study: "Study", limit: Limit, judged: Callable[[Any, Any], Finding], *, engine: bool = True
) -> Finding:
    """All exchangers, each with its engine; not assessed where nobody says which engine it serves."""
    each = []
    for exchanger in _exchangers(study):
        served = _engine(study.project, exchanger)
        if engine and served is None:
            each.append((exchanger.tag, not_assessed(limit, [f"components.{exchanger.tag}.serves"])))
        else:
            each.append((exchanger.tag, judged(exchanger, served)))
    return together(limit, each)


def _modes(study: "Study", limit: Limit) -> "Mapping[str, RecoveringMode] | Finding":
    """Recovering modes that were solved, or what they wait for."""
    found = study.recovery
    if isinstance(found, NotAssessed):
        return waits_for(limit, found, "modes.recovering")
    if not found.modes:
        first = next(iter(found.lacking.values()), None)
        return waits_for(limit, first, "modes.recovering")
    return found.modes


def two_coolants(study: "Study", limit: Limit) -> Finding:
    """A hose that bursts in a cabin empties the engine, and the engine's soot and oil reach every cabin."""
    units = set(study.project.units())
    plumbed = [engine for engine in of_kind(study.project, "engine", "generator") if engine.tag in units]
    if plumbed:
        found = f"{plumbed[0].tag} stands in the ring itself"
        return not_met(limit, found, "an exchanger", key=f"components.{plumbed[0].tag}")

    def judged(exchanger: Any, _: Any) -> Finding:
        key = f"components.{exchanger.tag}.engine_side"
        if exchanger.engine_side is None:
            return not_assessed(limit, [key])
        if exchanger.engine_side == "jacket":
            return met(limit, "a wall between, jacket coolant on the engine side", key=key)
        return not_met(limit, f"{exchanger.engine_side} on the engine side", "jacket coolant", key=key)

    return _elsewhere(study, limit) or _for_each(study, limit, judged, engine=False)


@for_recovery
def ring_overheat(study: "Study", limit: Limit) -> Finding:
    """An engine goes on heating the ring when every cabin has shut its valve."""
    modes = _modes(study, limit)
    if isinstance(modes, Finding):
        return modes
    warmest = temperature.supply_max(study, limit_of(study, SUPPLY_MAX)).bound
    boiling = None if isinstance(study.expansion, NotAssessed) else study.expansion.boiling_point
    each = []
    for name, mode in modes.items():
        if mode.ring_highest is None:
            keys = [f"components.{unit.serves}.jacket_highest" for unit in mode.units if unit.highest is None]
            each.append((name, not_assessed(limit, keys)))
            continue
        each += _against_both(study, limit, (name, mode.ring_highest), warmest, boiling)
    each += [(name, waits_for(limit, lacks, "modes")) for name, lacks in _lacking(study).items()]
    return together(limit, each)


def _against_both(
    study: "Study", limit: Limit, found: tuple[str, Real], warmest: float | str | None, boiling: Real | None
) -> list[tuple[str, Finding]]:
    """The hottest ring of a mode against the limit of hot water and against boiling."""
    name, ring = found
    each = []
    if isinstance(warmest, int | float):
        hot = at_most(limit, ring, float(warmest), limit.row.unit, key=f"modes.{name}")
        each.append((f"{name}, hottest water", hot))
    if boiling is not None or limit.overridden:
        value = counted(limit, float(boiling) if boiling is not None else 0.0)
        each.append((f"{name}, boiling", judge(limit, ring, value=value, key=f"modes.{name}")))
    else:
        each.append((f"{name}, boiling", waits_for(limit, study.pressures, "layout.places")))
    return each


def _lacking(study: "Study") -> Mapping[str, NotAssessed]:
    return {} if isinstance(study.recovery, NotAssessed) else study.recovery.lacking


@for_recovery
def engine_cooling(study: "Study", limit: Limit) -> Finding:
    """An engine cooled by the cabins alone seizes on the first warm day."""

    def judged(_: Any, engine: Any) -> Finding:
        key = f"components.{engine.tag}.own_cooler"
        if engine.own_cooler is None:
            return not_assessed(limit, [key])
        if engine.own_cooler:
            return met(limit, "its own cooler carries all heat", key=key)
        return not_met(limit, "cooled by the heating", "a cooler of its own", key=key)

    return _for_each(study, limit, judged)


@for_recovery
def overcool(study: "Study", limit: Limit) -> Finding:
    """An engine kept cold wears fast, soots and thins its oil with fuel."""
    modes = _modes(study, limit)
    if isinstance(modes, Finding):
        return modes
    each = []
    for name, mode in modes.items():
        for unit in mode.units:
            key = f"components.{unit.serves}.thermostat"
            if unit.thermostat is None:
                each.append((f"{unit.serves}, {name}", not_assessed(limit, [key])))
                continue
            value = counted(limit, float(unit.thermostat))
            slow = unit.cold is not None and unit.cold.opens_after is None
            remark = "from cold its thermostat never opens" if slow else ""
            found = judge(limit, unit.jacket, value=value, key=key, remark=remark)
            each.append((f"{unit.serves}, {name}", found))
    each += [(name, waits_for(limit, lacks, "modes")) for name, lacks in _lacking(study).items()]
    return together(limit, each)


@for_recovery
def valves(study: "Study", limit: Limit) -> Finding:
    """With two valves at the engine a burst exchanger hose costs a bucket of coolant, not the engine."""

    def judged(exchanger: Any, _: Any) -> Finding:
        key = f"components.{exchanger.tag}.engine_valves"
        if exchanger.engine_valves is None:
            return not_assessed(limit, [key])
        count = round(float(exchanger.engine_valves))
        if count >= ENGINE_VALVES:
            return met(limit, f"{count} valves", key=key, remark="see that they are in reach and tagged")
        return not_met(limit, "one valve" if count else "none", "a valve in each hose", key=key)

    return _for_each(study, limit, judged, engine=False)


@for_recovery
def exchanger_height(study: "Study", limit: Limit) -> Finding:
    """Air that gathers above the engine's filler stops its coolant, and the engine overheats."""

    def judged(exchanger: Any, engine: Any) -> Finding:
        vent, place = f"components.{exchanger.tag}.vented", f"layout.places.{exchanger.tag}"
        if exchanger.vented:
            return met(limit, "vented", key=vent)
        box = stated(study.project, place)
        at, size = (box.at, box.size) if box else (None, None)
        filler = f"components.{engine.tag}.filler_level"
        needs = [place] if at is None or size is None else []
        needs += [filler] if engine.filler_level is None else []
        if at is None or size is None or needs:
            return not_assessed(limit, [*needs, *([vent] if exchanger.vented is None else [])])
        if float(at.z) + float(size.high) < float(engine.filler_level):
            remark = "its hoses must stay below the filler too"
            return met(limit, "exchanger below the filler", key=filler, remark=remark)
        if exchanger.vented is None:
            return not_assessed(limit, [vent], "it stands higher than the engine's filler")
        return not_met(limit, "exchanger above the filler, no vent", "a vent", key=vent)

    return _for_each(study, limit, judged)


@for_recovery
def pump_runs(study: "Study", limit: Limit) -> Finding:
    """A pump that only the burner can start leaves the engine's heat where it is."""
    written = study.project.modes or {}
    recovering = {name: mode for name, mode in written.items() if mode.recovering}
    if not recovering:
        return not_assessed(limit, ["modes.recovering"])
    burners = {burner.tag for burner in of_kind(study.project, "burner")}
    alone = {name: mode for name, mode in recovering.items() if burners <= set(mode.stopped or ())}
    if not alone:
        return not_applicable(limit, BURNER_RUNS)
    each = []
    for name, mode in alone.items():
        pumps = [p for p in of_kind(study.project, "pump") if p.tag not in (mode.stopped or ())]
        each.append((name, _some_pump(limit, pumps)))
    return together(limit, each)


def _some_pump(limit: Limit, pumps: list[Any]) -> Finding:
    """Whether one of the pumps that run in a mode has a switch or stat of its own."""
    own = next((pump for pump in pumps if pump.runs_without_burner), None)
    if own is not None:
        key = f"components.{own.tag}.runs_without_burner"
        return met(limit, f"{own.tag} has a switch or stat of its own", key=key)
    unknown = [f"components.{p.tag}.runs_without_burner" for p in pumps if p.runs_without_burner is None]
    if unknown or not pumps:
        return not_assessed(limit, unknown or ["components.pump.runs_without_burner"])
    key = f"components.{pumps[0].tag}.runs_without_burner"
    return not_met(limit, f"{pumps[0].tag} runs with the burner only", "a relay or stat", key=key)


@for_recovery
def leak_way(study: "Study", limit: Limit) -> Finding:
    """Whoever knows which level must rise or fall sees a leaking plate before the engine is dry."""

    def judged(exchanger: Any, engine: Any) -> Finding:
        key = f"components.{engine.tag}.cap_pressure"
        if engine.cap_pressure is None:
            return not_assessed(limit, [key])
        ring = _ring_pressure(study, exchanger.tag)
        if ring is None:
            return waits_for(limit, study.pressures, f"layout.places.{exchanger.tag}")
        inward = float(engine.cap_pressure) > float(ring)
        way = "from the engine into the ring" if inward else "from the ring into the engine"
        seen = "the engine's level falls, the ring's rises" if inward else "the ring's level falls"
        tanks = of_kind(study.project, "header_tank")
        alarm = not inward and any(tank.low_level_alarm for tank in tanks)
        return met(limit, way, key=key, remark=joined(seen, "a low level sounds an alarm" if alarm else ""))

    return _for_each(study, limit, judged)


def _ring_pressure(study: "Study", tag: str) -> Real | None:
    """Highest gauge pressure of the ring at an exchanger in the modes in which it takes heat."""
    if isinstance(study.pressures, NotAssessed):
        return None
    gauges = [
        pressures.edges[tag].gauge
        for name, pressures in study.pressures.modes.items()
        if tag in pressures.edges and tag in study.operations[name].state.recovering
    ]
    return max(gauges, key=float, default=None)
