"""Do the fan coils do in the cabin what their plates promise: at night, at the start, at all?"""

from typing import TYPE_CHECKING, Any

from dossier.checking.aboard import lacks, of_kind
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed, worst_of
from dossier.checking.judging import together
from dossier.checking.ratios import heat_ratio
from dossier.checking.solved_modes import ring_of
from dossier.notation import NotAssessed
from dossier.sizing.heat_sums import total_heat
from dossier.sizing.modes import DESIGN

if TYPE_CHECKING:
    from dossier.sizing.ring import RingStudy
    from dossier.sizing.study import Study

NO_SOURCE = "no source of heat runs in this mode"


def fan_start(study: "Study", limit: Limit) -> Finding:
    """A fan that runs before the water is warm blows cold air at the crew."""
    coils = of_kind(study.project, "fan_coil")
    if not coils:
        if lacks(study.project, "fan_coil"):
            return not_applicable(limit, "no fan coil is aboard")
        return not_assessed(limit, ["components.fan_coil"])
    each = [
        (
            coil.tag,
            judge(
                limit,
                coil.start_stat,
                key=f"components.{coil.tag}.start_stat",
                missing=[f"components.{coil.tag}.start_stat"],
            ),
        )
        for coil in coils
    ]
    return worst_of(each)


def fan_speed(study: "Study", limit: Limit) -> Finding:
    """People sleep with the fan at its quiet speed; the rating is for full speed."""
    if isinstance(study.heat_loss, NotAssessed):
        return not_assessed(limit, study.heat_loss)
    ring = ring_of(study, limit)
    if isinstance(ring, Finding):
        return ring
    coils = [e for e in ring.emitters.values() if e.kind == "fan_coil"]
    if not coils:
        return not_applicable(limit, "no fan coil is in the ring")
    each = []
    for coil in coils:
        key = f"components.{coil.tag}.quiet_air_flow"
        if coil.quiet is None:
            each.append((coil.tag, not_assessed(limit, [key])))
            continue
        each += [
            (f"{coil.tag}, {name}", _quiet(ring, limit, coil.tag, coil.zone, name))
            for name in _nights(ring, coil.zone)
        ]
    return together(limit, each, none="no zone with a fan coil calls for heat")


def _nights(ring: "RingStudy", zone: str) -> list[str]:
    """Modes in which a zone is slept in: those with a target of their own for it, else the design mode."""
    calling = [name for name, state in ring.states.items() if zone in state.calls]
    own = [name for name in calling if zone in ring.states[name].targets]
    return own or [name for name in calling if name == DESIGN]


def _quiet(ring: "RingStudy", limit: Limit, tag: str, zone: str, mode: str) -> Finding:
    """Quiet output of one coil against the load of its zone in one mode."""
    key = f"components.{tag}.quiet_air_flow"
    operation = ring.operations.get(mode)
    if operation is None:
        return not_assessed(limit, [f"modes.{mode}"], ring.not_solved.get(mode, ""))
    heat = operation.heat
    if heat is None or tag not in heat.emitters or zone not in heat.zones:
        return not_assessed(limit, ["components.burner.output"], NO_SOURCE)
    quiet, load = heat.emitters[tag].quiet, heat.zones[zone].load
    if quiet is None:
        return not_assessed(limit, [key])
    if float(load) <= 0:
        return not_applicable(limit, "the zone needs no heat")
    others = [e.output for e in heat.emitters.values() if e.zone == zone and e.tag != tag]
    given = total_heat(quiet, *others) if others else quiet
    return judge(limit, heat_ratio(given, load), key=key)


def rated_point(study: "Study", limit: Limit) -> Finding:
    """A coil cannot give what its maker's figures ask of it where they ask nearly everything."""
    ring = study.ring
    if isinstance(ring, NotAssessed):
        return not_assessed(limit, ring)
    coils = [e for e in ring.emitters.values() if e.effectiveness is not None]
    lacking = {tag: n for tag, n in ring.lacking.items() if _kind_of(study, tag) == "fan_coil"}
    if not coils and not lacking:
        return not_applicable(limit, "no fan coil is in the ring")
    each = [(e.tag, judge(limit, e.effectiveness, key=f"components.{e.tag}.output")) for e in coils]
    each += [(tag, not_assessed(limit, reason)) for tag, reason in lacking.items()]
    return worst_of(each)


def _kind_of(study: "Study", tag: str) -> str:
    unit: Any = (study.project.components or {}).get(tag)
    return unit.kind if unit is not None else ""
