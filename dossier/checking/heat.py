"""Does the heat suffice: source, emitters, rooms, frames, air."""

from typing import TYPE_CHECKING, Any

from dossier.checking.aboard import circuit_is_written, lacks, of_kind
from dossier.checking.fans import fan_speed, fan_start, rated_point
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed, worst_of
from dossier.checking.judging import together
from dossier.checking.load_spread import load_spread
from dossier.checking.ratios import air_for_each, heat_ratio
from dossier.checking.solved_modes import design_of
from dossier.checking.source_output import full_output, to_cover
from dossier.checking.warm_up import warm_up
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed
from dossier.sizing.ring_results import total_heat

if TYPE_CHECKING:
    from dossier.sizing.study import Study

__all__ = [
    "emitter_covers",
    "fan_speed",
    "fan_start",
    "frame_method",
    "fresh_air",
    "heat_ratio",
    "load_spread",
    "rated_point",
    "room_held",
    "source_covers",
    "source_not_oversize",
    "source_reserve",
    "unheated_frost",
    "warm_up",
]

NO_BURNER = "no burner is aboard"
NO_SOURCE = "no source of heat runs in the design mode"


def _covering(study: "Study", limit: Limit) -> Finding:
    burners = of_kind(study.project, "burner")
    if not burners:
        if circuit_is_written(study.project):
            return not_applicable(limit, NO_BURNER)
        return not_assessed(limit, ["components.burner"])
    need, output = to_cover(study), full_output(study)
    key = f"components.{burners[0].tag}.output"
    if isinstance(need, NotAssessed):
        return not_assessed(limit, need)
    if output is None:
        return not_assessed(limit, [key])
    if float(need) <= 0:
        return not_applicable(limit, "no zone needs heat on the design night")
    remark = "" if circuit_is_written(study.project) else "what pipes lose outside the rooms is not counted"
    return judge(limit, heat_ratio(output, need), key=key, remark=remark)


def source_covers(study: "Study", limit: Limit) -> Finding:
    """A source smaller than the load lets every cabin grow cold together."""
    return _covering(study, limit)


def source_reserve(study: "Study", limit: Limit) -> Finding:
    """A fouled exchanger or a colder night takes what is not in hand."""
    return _covering(study, limit)


def source_not_oversize(study: "Study", limit: Limit) -> Finding:
    """A burner far larger than the load runs in short bursts, soots and wears out its start device."""
    burners = [b for b in of_kind(study.project, "burner") if b.output is not None]
    if not burners:
        return not_applicable(limit, NO_BURNER) if lacks(study.project, "burner") else not_assessed(limit, [])
    loss = study.heat_loss
    if isinstance(loss, NotAssessed):
        return not_assessed(limit, loss)
    if float(loss.total) <= 0:
        return not_applicable(limit, "no zone needs heat on the design night")
    full = total_heat(*(burner.output.max for burner in burners))
    lowest = min((b.output.min if b.output.min is not None else b.output.max for b in burners), key=float)
    key = f"components.{burners[0].tag}.output"
    steady = further_limit(limit.check, "lowest steady output")
    return worst_of(
        [
            ("full output over the load", judge(limit, heat_ratio(full, loss.total), key=key)),
            (
                "lowest output over the load",
                judge(limit, heat_ratio(lowest, loss.total), value=steady.limit, key=key),
            ),
        ],
        relative=True,
    )


def emitter_covers(study: "Study", limit: Limit) -> Finding:
    """A coil that suits the cabin on paper may fall short at the flow and water it really gets."""
    if isinstance(study.heat_loss, NotAssessed):
        return not_assessed(limit, study.heat_loss)
    design = design_of(study, limit)
    if isinstance(design, Finding) or isinstance(study.ring, NotAssessed):
        return design if isinstance(design, Finding) else not_assessed(limit, [])
    if design.heat is None:
        return not_assessed(limit, ["components.burner.output"], NO_SOURCE)
    each = []
    for zone in study.heat_loss.heated:
        found = design.heat.zones.get(zone.zone)
        key = f"zones.{zone.zone}"
        lacking = [n for tag, n in study.ring.lacking.items() if _zone_of(study, tag) == zone.zone]
        if zone.zone not in design.state.calls or zone.load is None or float(zone.load) <= 0:
            continue
        if lacking:
            each.append((zone.zone, not_assessed(limit, lacking[0])))
        elif found is None:
            none = judge(limit, 0.0, key=key, remark="no emitter of the ring heats it")
            each.append((zone.zone, none))
        else:
            each.append((zone.zone, judge(limit, heat_ratio(found.output, found.load), key=key)))
    return together(limit, each, none="no zone calls for heat")


def _zone_of(study: "Study", tag: str) -> str | None:
    unit: Any = (study.project.components or {}).get(tag)
    return getattr(unit, "zone", None)


def room_held(study: "Study", limit: Limit) -> Finding:
    """What the table calls a target is only a wish where the emitters cannot hold it."""
    if isinstance(study.heat_loss, NotAssessed):
        return not_assessed(limit, study.heat_loss)
    held = study.held
    if isinstance(held, NotAssessed):
        return not_assessed(limit, held)
    each = [
        (
            zone.zone,
            judge(
                limit,
                held.rooms[zone.zone].temperature,
                value=float(zone.temperature) + (limit.value or 0.0) if not limit.overridden else limit.value,
                key=f"zones.{zone.zone}.target",
            ),
        )
        for zone in study.heat_loss.heated
        if zone.zone in held.rooms
    ]
    return worst_of(each) if each else not_applicable(limit, "no zone is heated")


def fresh_air(study: "Study", limit: Limit) -> Finding:
    """A boat calculated as if sealed gets wet inside, and its alarms matter more."""
    zones = [zone for zone in study.project.zones or () if zone.people]
    if not zones:
        return not_assessed(limit, ["zones.people"])
    if isinstance(study.heat_loss, NotAssessed):
        return not_assessed(limit, study.heat_loss)
    each = []
    for zone in zones:
        if zone.volume is None:
            each.append((zone.id, not_assessed(limit, [f"zones.{zone.id}.volume"])))
            continue
        found = study.heat_loss.zones[zone.id]
        air = air_for_each(found.air_by_changes, zone.people or 1.0)
        each.append((zone.id, judge(limit, air, key=f"zones.{zone.id}.air_changes")))
    return worst_of(each)


def frame_method(study: "Study", limit: Limit) -> Finding:
    """Where metal frames bridge the insulation, the usual averaging is no answer."""
    loss = study.heat_loss
    if isinstance(loss, NotAssessed):
        return not_assessed(limit, loss)
    framed = {name: wall for name, wall in loss.shell.build_ups.items() if wall.frame is not None}
    if not framed:
        return not_applicable(limit, "no build-up has frames through its insulation")
    return worst_of(
        [(name, judge(limit, wall.ratio, key=f"build_ups.{name}.frames")) for name, wall in framed.items()]
    )


def unheated_frost(study: "Study", limit: Limit) -> Finding:
    """Fresh water freezes in a space nobody heats while the boat is lived in."""
    zones = [zone for zone in study.project.zones or () if zone.floats]
    if not zones:
        return not_applicable(limit, "every zone is heated")
    wet = [zone for zone in zones if zone.fresh_water]
    if not wet:
        if all(zone.fresh_water is False for zone in zones):
            return not_applicable(limit, "no unheated zone holds fresh water")
        unknown = next(zone for zone in zones if zone.fresh_water is None)
        return not_assessed(limit, [f"zones.{unknown.id}.fresh_water"])
    loss = study.heat_loss
    if isinstance(loss, NotAssessed):
        return not_assessed(limit, loss)
    return worst_of(
        [
            (zone.id, judge(limit, loss.zones[zone.id].temperature, key=f"zones.{zone.id}.fresh_water"))
            for zone in wet
        ]
    )
