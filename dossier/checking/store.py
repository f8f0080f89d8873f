"""Does the burner run long enough, and is its heat carried away?"""

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from dossier.checking.aboard import of_kind
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed, worst_of
from dossier.checking.heat import heat_ratio
from dossier.checking.judging import (
    counted,
    for_a_burner,
    joined,
    met,
    not_met,
    together,
    waits_for,
    with_maker_silent,
)
from dossier.checking.stated import stated
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.project.model.electrics import ElectricCircuit
    from dossier.sizing.store import StoreStudy
    from dossier.sizing.study import Study

NEVER_STOPS = "the burner does not stop in any mode of use: its lowest output is below no load"
SENSOR_TAKEN = "sensor taken to sit at the burner's outlet: not stated"


def _unit(study: "Study", store: "StoreStudy") -> Any:
    return (study.project.components or {})[store.burner]


def _with_sensor(store: "StoreStudy", finding: Finding) -> Finding:
    """The finding, saying so where the place of the sensor is not stated."""
    if store.sensor_stated:
        return finding
    return replace(finding, remark=joined(finding.remark, SENSOR_TAKEN))


@for_a_burner
def run_time(study: "Study", limit: Limit) -> Finding:
    """Short runs burn cold and dirty: soot, tar in the exhaust, a start device worn out."""
    store = study.store
    if isinstance(store, NotAssessed):
        return waits_for(limit, store, "components.burner.output")
    if store.running_time is None:
        return not_applicable(limit, NEVER_STOPS)
    least = _unit(study, store).run_min
    own = limit if least is None else limit.by_maker(least)
    key = f"components.{store.burner}.{'sensor' if least is None else 'run_min'}"
    place = store.shortest.mode if store.shortest else ""
    found = judge(own, store.running_time, place=place, key=key)
    return _with_sensor(store, with_maker_silent(own, found))


@for_a_burner
def starts_hour(study: "Study", limit: Limit) -> Finding:
    """Each start heats the glow pin, fouls the burner and costs the battery its largest current."""
    store = study.store
    if isinstance(store, NotAssessed):
        return waits_for(limit, store, "components.burner.output")
    key = f"components.{store.burner}.band"
    return _with_sensor(store, judge(limit, store.starts_per_hour, key=key))


@for_a_burner
def after_run(study: "Study", limit: Limit) -> Finding:
    """Heat left in a stopped burner boils the water that stands in it."""
    each = []
    for unit in of_kind(study.project, "burner"):
        key = f"components.{unit.tag}.after_run"
        found = judge(limit, unit.after_run, key=key, missing=[key])
        each.append((unit.tag, with_maker_silent(limit, found)))
    if not each:
        return not_assessed(limit, ["components.burner.after_run"])
    circuits = stated(study.project, "electrics.circuits")
    if not circuits:
        return together(limit, [*each, ("feed", not_assessed(limit, ["electrics.circuits"]))])
    running_on = {part.tag for part in of_kind(study.project, "burner", "pump")}
    concerned = [c for c in circuits if c.feeds is None or running_on & set(c.feeds)]
    fed = {tag for circuit in concerned for tag in circuit.feeds or ()}
    each += [(circuit.name, _fed(limit, circuit)) for circuit in concerned]
    if not concerned or not running_on <= fed:
        each.append(("feed", not_assessed(limit, ["electrics.circuits.feeds"])))
    return together(limit, each)


def _fed(limit: Limit, circuit: "ElectricCircuit") -> Finding:
    """Whether the main switch cuts a circuit off."""
    key = f"electrics.circuits.{circuit.name}"
    if circuit.feeds is None:
        return not_assessed(limit, [f"{key}.feeds"])
    key = f"{key}.fed_before_main_switch"
    if circuit.fed_before_main_switch is None:
        return not_assessed(limit, [key])
    if not circuit.fed_before_main_switch:
        return not_met(limit, "behind the main switch", "a feed before the main switch", key=key)
    return met(limit, "fed before the main switch", key=key)


@for_a_burner
def overshoot(study: "Study", limit: Limit) -> Finding:
    """Water that creeps up to the overheat stat locks the burner out in the coldest night."""
    day = study.day
    if isinstance(day, NotAssessed):
        return waits_for(limit, day, "components.burner.output")
    unit = day.control.unit
    key = f"components.{unit.tag}.overheat_stat"
    if unit.overheat_stat is None:
        return not_assessed(limit, [key])
    return judge(limit, day.temperature_peak, value=counted(limit, unit.overheat_stat), key=key)


@for_a_burner
def swing(study: "Study", limit: Limit) -> Finding:
    """A sensor that feels the burner's own rise stops it before the store is warm."""
    store = study.store
    if isinstance(store, NotAssessed):
        return waits_for(limit, store, "components.burner.output")
    key = f"components.{store.burner}.{'sensor' if store.sensor_stated else 'band'}"
    found = worst_of([(name, judge(limit, mode.swing, key=key)) for name, mode in store.modes.items()])
    return _with_sensor(store, found)


@for_a_burner
def mean_output(study: "Study", limit: Limit) -> Finding:
    """A burner that must purge and glow before each start gives less than its plate says."""
    store, loss = study.store, study.heat_loss
    if isinstance(loss, NotAssessed):
        return waits_for(limit, loss, "zones")
    if isinstance(store, NotAssessed):
        return waits_for(limit, store, "components.burner.output")
    if store.mean_output is None:
        return not_applicable(limit, "no zone needs heat on the design night")
    key = f"components.{store.burner}.after_run"
    return _with_sensor(store, judge(limit, heat_ratio(store.mean_output, loss.total), key=key))
