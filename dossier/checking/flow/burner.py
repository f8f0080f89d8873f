"""Does the burner get its flow: in every mode, in every state of the valves, at the start in the cold?"""

from typing import TYPE_CHECKING, Any

from dossier.checking.aboard import of_kind
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed
from dossier.checking.judging import at_least, at_most, for_a_burner, together
from dossier.checking.solved_modes import ring_of, unsolved
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed, Real
from dossier.physics.exchanger import capacity_rate
from dossier.sizing.heat_sums import rise_at_output

if TYPE_CHECKING:
    from dossier.sizing.open_paths import OpenPaths
    from dossier.sizing.study import Study

RISE = "rise without the maker's figure"
BY_RISE = "maker's figure not supplied: judged by the rise at full output"
BURNER_MIN = "flow.burner_min"


@for_a_burner
def burner_min(study: "Study", limit: Limit) -> Finding:
    """Without enough flow the water in the burner boils before the stat can act."""
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    each = unsolved(ring, limit)
    for mode, operation in ring.operations.items():
        for burner in of_kind(study.project, "burner"):
            edge = operation.flows.edges.get(burner.tag)
            if burner.tag not in operation.state.stopped and edge is not None:
                each.append((f"{burner.tag}, {mode}", _enough(study, limit, burner, edge.flow)))
    return together(limit, each, none="no burner runs in any mode")


def _enough(study: "Study", limit: Limit, burner: Any, flow: Real) -> Finding:
    """A flow through a burner against its maker's least flow, else by the rise at full output."""
    key = f"components.{burner.tag}.flow_min"
    if limit.overridden and limit.check == BURNER_MIN:
        return judge(limit, flow, key=key)
    if burner.flow_min is not None:
        return at_least(limit.by_maker(burner.flow_min), flow, float(burner.flow_min), "m3/s", key=key)
    if burner.output is None or isinstance(study.coolant, NotAssessed):
        return not_assessed(limit, [key], "neither the maker's least flow nor the rise is known")
    bound = further_limit(BURNER_MIN, RISE)
    if float(flow) <= 0:
        return at_least(limit, flow, 1e-6, "m3/s", key=key, remark="nothing passes the burner")
    rate = capacity_rate(flow, study.coolant.density, study.coolant.specific_heat)
    rise = rise_at_output(burner.output.max, rate)
    return at_most(limit, rise, float(bound.limit), bound.unit, key=key, remark=BY_RISE)


@for_a_burner
def never_shut(study: "Study", limit: Limit) -> Finding:
    """A pump that pushes against closed valves leaves the burner without flow, whoever closed them."""
    ring = study.ring
    if isinstance(ring, NotAssessed):
        return not_assessed(limit, ring)
    each = []
    for mode, paths in ring.open_paths.items():
        state = ring.states[mode]
        pumps = ring.hydraulics.circuit.of_kind("pump")
        if all(pump.tag in state.stopped for pump in pumps):
            continue
        key = f"modes.{mode}"
        bound = 1.0 if limit.value is None else float(limit.value)
        shut = f" with {', '.join(paths.shut)} shut" if paths.shut else ""
        found = at_least(limit, paths.paths, bound, "1", key=key, remark=_tried(paths))
        each.append((f"{mode}{shut}", found))
        if paths.paths >= 1:
            each += _least_flow(study, limit, mode, paths)
    return together(limit, each, none="no pump runs in any mode")


def _tried(paths: "OpenPaths") -> str:
    """What was tried, where valves work by themselves."""
    if not paths.automatic:
        return ""
    how = "all" if paths.is_complete else "a sample of the"
    return f"{how} combinations of {', '.join(paths.automatic)} tried: {paths.states}"


def _least_flow(study: "Study", limit: Limit, mode: str, paths: "OpenPaths") -> list[tuple[str, Finding]]:
    burner: Any = (study.project.components or {}).get(paths.burner)
    if burner is None:
        return []
    shut = f" with {', '.join(paths.least_shut)} shut" if paths.least_shut else ""
    what = f"{paths.burner}, {mode}{shut}"
    if paths.least is None:
        return [(what, not_assessed(limit, [f"modes.{mode}"], paths.why))]
    return [(what, _enough(study, limit, burner, paths.least))]


@for_a_burner
def cold_start(study: "Study", limit: Limit) -> Finding:
    """The mix is at its thickest and the battery at its weakest when the burner is needed most."""
    cold = study.cold_start
    if isinstance(cold, NotAssessed):
        return not_assessed(limit, cold)
    unregulated = [p.tag for p in of_kind(study.project, "pump") if not p.regulated]
    each = []
    for burner in of_kind(study.project, "burner"):
        edge = cold.flows.edges.get(burner.tag)
        key = f"components.{burner.tag}.flow_min"
        if edge is None:
            continue
        if limit.overridden:
            found = judge(limit, edge.flow, key=key)
        else:
            found = _enough(study, limit, burner, edge.flow)
        each.append((burner.tag, found))
        if cold.voltage is None and unregulated:
            why = f"the speed of {', '.join(unregulated)} on a tired battery is not known"
            each.append(
                (f"{burner.tag} at the lowest voltage", not_assessed(limit, ["electrics.system"], why))
            )
    return together(limit, each) if each else not_applicable(limit, "the burner stands outside the circuit")
