"""Does the heat suffice: source, emitters, rooms, frames, air."""

from typing import TYPE_CHECKING, Annotated, Any

from dossier.checking.aboard import circuit_is_written, lacks, of_kind
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed, worst_of
from dossier.data.catalogue import further_limit
from dossier.notation import ARITHMETIC, NotAssessed, Real, formula, q
from dossier.physics.zones import total_heat_flow
from dossier.sizing.ring_results import total_heat

if TYPE_CHECKING:
    from dossier.sizing.study import Study

NO_BURNER = "no burner is aboard"


@formula("r = Φ_1/Φ_2", ARITHMETIC)
def heat_ratio(
    one: Annotated[Real, q("Φ_1", "W", "heat", low=-1e7, high=1e7)],
    other: Annotated[Real, q("Φ_2", "W", "heat it is compared with", low=1e-6, high=1e7)],
) -> Annotated[Real, q("r", "1", "one over the other")]:
    """One heat flow over another."""
    return one / other


@formula("q_p = q_V/N", ARITHMETIC)
def air_for_each(
    flow: Annotated[Real, q("q_V", "m3/s", "outside air", low=0, high=50)],
    people: Annotated[Real, q("N", "1", "people", low=1, high=500)],
) -> Annotated[Real, q("q_p", "m3/s", "outside air for one person")]:
    """Outside air for each person."""
    return flow / people


def _full_output(study: "Study") -> Real | None:
    """Full output of all burners that run in the design mode, recovered heat of that mode added."""
    stopped = frozenset[str]()
    ring = study.ring
    if not isinstance(ring, NotAssessed) and ring.design is not None:
        stopped = ring.design.state.stopped
    burners = [b for b in of_kind(study.project, "burner") if b.tag not in stopped and b.output is not None]
    if not burners:
        return None
    parts: list[Real] = [burner.output.max for burner in burners]
    if not isinstance(ring, NotAssessed) and ring.design is not None and ring.design.heat is not None:
        parts += [s.output for s in ring.design.heat.sources.values() if s.kind == "recovery_exchanger"]
    return total_heat(*parts) if len(parts) > 1 else parts[0]


def _to_cover(study: "Study") -> Real | NotAssessed:
    """Design load and what pipes lose outside the heated zones."""
    loss = study.heat_loss
    if isinstance(loss, NotAssessed):
        return loss
    design = None if isinstance(study.ring, NotAssessed) else study.ring.design
    if design is None or design.heat is None:
        return loss.total
    return total_heat_flow(loss.total, design.heat.outside)


def _covering(study: "Study", limit: Limit) -> Finding:
    if not of_kind(study.project, "burner"):
        if circuit_is_written(study.project):
            return not_applicable(limit, NO_BURNER)
        return not_assessed(limit, ["components.burner"])
    need, output = _to_cover(study), _full_output(study)
    if isinstance(need, NotAssessed):
        return not_assessed(limit, need)
    if output is None:
        return not_assessed(limit, [f"components.{of_kind(study.project, 'burner')[0].tag}.output"])
    if float(need) <= 0:
        return not_applicable(limit, "no zone needs heat on the design night")
    burner = of_kind(study.project, "burner")[0]
    return judge(limit, heat_ratio(output, need), key=f"components.{burner.tag}.output")


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
    ring = study.ring
    if isinstance(study.heat_loss, NotAssessed):
        return not_assessed(limit, study.heat_loss)
    if isinstance(ring, NotAssessed):
        return not_assessed(limit, ring)
    if ring.design is None or ring.design.heat is None:
        return not_assessed(limit, ["components.burner.output"], "no source of heat runs in the design mode")
    zones = ring.design.heat.zones
    each = []
    for zone in study.heat_loss.heated:
        found = zones.get(zone.zone)
        key = f"zones.{zone.zone}"
        if found is not None and float(found.load) > 0:
            each.append((zone.zone, judge(limit, heat_ratio(found.output, found.load), key=key)))
        elif found is None and zone.zone in ring.design.state.calls:
            lacking = [n for tag, n in ring.lacking.items() if _zone_of(study, tag) == zone.zone]
            needs = lacking[0].needs if lacking else (f"components (an emitter with zone: {zone.zone})",)
            each.append((zone.zone, not_assessed(limit, needs)))
    if not each:
        return not_applicable(limit, "no zone calls for heat")
    return worst_of(each)


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
    ring = study.ring
    if isinstance(study.heat_loss, NotAssessed):
        return not_assessed(limit, study.heat_loss)
    if isinstance(ring, NotAssessed):
        return not_assessed(limit, ring)
    coils = [e for e in ring.emitters.values() if e.kind == "fan_coil"]
    if not coils:
        return not_applicable(limit, "no fan coil is in the ring")
    heat = ring.design.heat if ring.design else None
    if heat is None:
        return not_assessed(limit, ["components.burner.output"])
    each = []
    for coil in coils:
        state = heat.emitters.get(coil.tag)
        load = study.heat_loss.zones[coil.zone].load if coil.zone in study.heat_loss.zones else None
        if state is None or state.quiet is None or load is None or float(load) <= 0:
            each.append((coil.tag, not_assessed(limit, [f"components.{coil.tag}.quiet_air_flow"])))
        else:
            key = f"components.{coil.tag}.quiet_air_flow"
            each.append((coil.tag, judge(limit, heat_ratio(state.quiet, load), key=key)))
    return worst_of(each)


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
