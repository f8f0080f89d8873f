"""Does each branch get its flow, can it be set, and was it measured?"""

from typing import TYPE_CHECKING

from dossier.checking.aboard import lacks
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed
from dossier.checking.judging import between, together
from dossier.checking.ratios import flow_deviation, flow_ratio, kv_ratio, pressure_ratio
from dossier.checking.solved_modes import design_of
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.sizing.study import Study

STILL = 1e-9
NO_LOADS = "no flow is called for: the loads of the zones are not known"


def branch_flow(study: "Study", limit: Limit) -> Finding:
    """The far cabin stays cold where the near ones take its share."""
    design = design_of(study, limit)
    if isinstance(design, Finding) or isinstance(study.ring, NotAssessed):
        return design if isinstance(design, Finding) else not_assessed(limit, [])
    branches = study.ring.hydraulics.circuit.branches
    if not branches:
        return not_applicable(limit, "the ring has no branches")
    if not study.ring.wanted:
        return not_assessed(limit, ["zones"], NO_LOADS)
    return together(
        limit,
        [
            (
                name,
                judge(limit, flow_ratio(design.flows.branches[name].flow, want.flow), key=branches[name].key),
            )
            for name, want in study.ring.wanted.items()
        ],
    )


def preset_range(study: "Study", limit: Limit) -> Finding:
    """Near its ends a balancing valve cannot be set to what the table asks."""
    design = design_of(study, limit)
    if isinstance(design, Finding) or isinstance(study.ring, NotAssessed):
        return design if isinstance(design, Finding) else not_assessed(limit, [])
    presets = {tag: preset for tag, preset in study.ring.presets.items() if not preset.is_open}
    if not presets:
        if lacks(study.project, "balancing_valve", "bypass_valve"):
            return not_applicable(limit, "no balancing valve is in the ring")
        if study.ring.presets:
            return not_applicable(limit, "every balancing valve stands fully open")
        return not_assessed(limit, ["zones"], NO_LOADS)
    return together(
        limit,
        [
            (tag, judge(limit, kv_ratio(preset.kv, preset.full_kv), key=f"components.{tag}.kv"))
            for tag, preset in presets.items()
        ],
    )


def measured(study: "Study", limit: Limit) -> Finding:
    """What the meter read at commissioning tells whether the table is true aboard."""
    commissioning = study.project.commissioning
    readings = commissioning.flows if commissioning else None
    if not readings:
        return not_assessed(limit, ["commissioning.flows"])
    design = design_of(study, limit)
    if isinstance(design, Finding):
        return design
    each = []
    for tag, reading in readings.items():
        key = f"commissioning.flows.{tag}"
        edge = design.flows.edges.get(tag)
        if edge is None or abs(float(edge.flow)) < STILL:
            why = f"no flow is expected through {tag} in the design mode"
            each.append((tag, not_assessed(limit, [key], why)))
            continue
        deviation = flow_deviation(reading, abs(float(edge.flow)) if float(edge.flow) < 0 else edge.flow)
        each.append((tag, between(limit, deviation, limit.value, limit.upper, limit.row.unit, key=key)))
    return together(limit, each)


def pump_reserve(study: "Study", limit: Limit) -> Finding:
    """A pump at the end of its strength leaves nothing for dirt, air or a kinked hose."""
    design = design_of(study, limit)
    if isinstance(design, Finding):
        return design
    if isinstance(study.ring, NotAssessed) or not design.pump_needs:
        if isinstance(study.ring, NotAssessed) or not study.ring.wanted:
            return not_assessed(limit, ["zones"], NO_LOADS)
        return not_assessed(limit, ["components.pump.curve"], "no speed of the pump gives the wanted flows")
    return together(
        limit,
        [
            (tag, judge(limit, pressure_ratio(need.available, need.needed), key=f"components.{tag}.curve"))
            for tag, need in design.pump_needs.items()
            if float(need.needed) > 0
        ],
        none="the pump has nothing to lift",
    )
