"""Where the hot coolant goes: header, vent, vessel, safety valve, boiling."""

from typing import TYPE_CHECKING, Any

from dossier.checking.aboard import circuit_is_written, is_sealed, lacks, of_kind
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed, present, worst_of
from dossier.checking.volume_ratio import volume_ratio
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.sizing.study import Study

SEALED = "the ring is sealed"
OPEN = "the ring is open"


def _open_ring(study: "Study", limit: Limit) -> Finding | None:
    """Why a check of the open header is not made, None where it is."""
    sealed = is_sealed(study.project)
    if sealed:
        return not_applicable(limit, SEALED)
    if sealed is None and not of_kind(study.project, "header_tank"):
        return not_assessed(limit, ["circuit.system"])
    return None


def _sealed_ring(study: "Study", limit: Limit) -> Finding | None:
    sealed = is_sealed(study.project)
    if sealed is None:
        return not_assessed(limit, ["circuit.system"])
    return None if sealed else not_applicable(limit, OPEN)


def _headers(study: "Study") -> tuple[Any, ...]:
    return of_kind(study.project, "header_tank")


def highest(study: "Study", limit: Limit) -> Finding:
    """A ring with a part above its header never fills and vents by itself."""
    other = _open_ring(study, limit)
    if other is not None:
        return other
    margins = study.header_margins
    if isinstance(margins, NotAssessed):
        return not_assessed(limit, margins)
    good = further_limit(limit.check, "good practice")
    found = judge(limit, margins.upright.margin, key="layout.highest_wetted")
    if 0 <= float(margins.upright.margin) < float(good.limit):
        return judge(
            limit,
            margins.upright.margin,
            key="layout.highest_wetted",
            remark=f"less than the {float(good.limit) * 1000:.0f} mm of good practice",
        )
    return found


def highest_heeled(study: "Study", limit: Limit) -> Finding:
    """A pump draws air where a part rises above the header as the boat lies over."""
    other = _open_ring(study, limit)
    if other is not None:
        return other
    margins = study.header_margins
    if isinstance(margins, NotAssessed):
        return not_assessed(limit, margins)
    each = [(a.condition, judge(limit, a.margin, key="vessel.heel_angles")) for a in margins.heeled]
    each += [(a.condition, judge(limit, a.margin, key="vessel.trim_angles")) for a in margins.trimmed]
    vessel = study.project.vessel
    if vessel is None or vessel.heel_angles is None:
        return not_assessed(limit, ["vessel.heel_angles"])
    return worst_of(each) if each else not_applicable(limit, "the file says why she cannot list")


def capacity(study: "Study", limit: Limit) -> Finding:
    """A header too small spills hot coolant, and is short of it when the ring is cold again."""
    other = _open_ring(study, limit)
    if other is not None:
        return other
    found = study.expansion
    if isinstance(found, NotAssessed):
        return not_assessed(limit, found)
    tank = next(iter(_headers(study)), None)
    if found.header_capacity is None:
        tag = tank.tag if tank is not None else "header_tank"
        missing = "cold_level" if tank is not None and tank.volume is not None else "volume"
        return not_assessed(limit, [f"components.{tag}.{missing}"])
    key = f"components.{tank.tag}.volume" if tank is not None else ""
    return judge(limit, volume_ratio(found.header_capacity, found.volume), key=key, remark=found.hottest_by)


def open_vent(study: "Study", limit: Limit) -> Finding:
    """A vent that can be closed turns an open ring into a boiler without a safety valve."""
    other = _open_ring(study, limit)
    if other is not None:
        return other
    tanks = _headers(study)
    if not tanks:
        return not_assessed(limit, ["components (a header_tank)"])
    each = []
    for tank in tanks:
        key = f"components.{tank.tag}.vent"
        vent = tank.vent
        if tank.cap is None:
            each.append((tank.tag, not_assessed(limit, [f"components.{tank.tag}.cap"])))
        elif vent is None:
            each.append((tank.tag, not_assessed(limit, [key])))
        elif not vent:
            each.append(
                (tank.tag, present(limit, fulfilled=False, found="no vent", asked="open vent", key=key))
            )
        elif vent.valve is None:
            each.append((tank.tag, not_assessed(limit, [f"{key}.valve"])))
        elif vent.valve:
            found = present(
                limit,
                fulfilled=False,
                found=f"can be closed: {vent.valve}",
                asked="no valve",
                lacking="valve to remove",
                key=f"{key}.valve",
            )
            each.append((tank.tag, found))
        else:
            each.append(
                (tank.tag, judge(limit, vent.bore, key=f"{key}.bore", missing=[f"{key}.bore"], unit="m"))
            )
    return worst_of(each)


def vent_led(study: "Study", limit: Limit) -> Finding:
    """What boils over lands on somebody, or on the battery."""
    other = _open_ring(study, limit)
    if other is not None:
        return other
    tanks = _headers(study)
    if not tanks:
        return not_assessed(limit, ["components (a header_tank)"])
    each = []
    for tank in tanks:
        key = f"components.{tank.tag}.vent.led_to"
        where = tank.vent.led_to if tank.vent else None
        each.append(
            (
                tank.tag,
                present(
                    limit,
                    None if where is None else True,
                    where or "",
                    asked="a safe place",
                    missing=[key],
                    key=key,
                ),
            )
        )
    return worst_of(each)


def boiling(study: "Study", limit: Limit) -> Finding:
    """Coolant that boils drives itself out of the ring and leaves the burner dry."""
    if lacks(study.project, "burner"):
        return not_applicable(limit, "no burner is aboard")
    found = study.expansion
    if isinstance(found, NotAssessed):
        return not_assessed(limit, found)
    if found.least is None or found.least_at is None:
        if isinstance(study.pressures, NotAssessed):
            return not_assessed(limit, study.pressures)
        return not_assessed(limit, ["layout.places"])
    burners = of_kind(study.project, "burner")
    each = [(f"{found.least_at.tag}, {found.least_at.mode}", judge(limit, found.least, key="layout.places"))]
    stopped = further_limit(limit.check, "at the overheat stat, pump stopped")
    if found.at_stat is not None:
        key = f"components.{found.at_stat.tag}.overheat_stat"
        each.append(
            (
                f"{found.at_stat.tag}, pump stopped",
                judge(limit, found.at_stat.margin, value=float(stopped.limit), key=key),
            )
        )
    else:
        stat = [f"components.{b.tag}.overheat_stat" for b in burners if b.overheat_stat is None]
        each.append(("at the stat", not_assessed(limit, stat or ["layout.places"])))
    return worst_of(each)


def level_seen(study: "Study", limit: Limit) -> Finding:
    """A slow leak is found by the glance that costs nothing."""
    tanks = _headers(study)
    if not tanks:
        if lacks(study.project, "header_tank"):
            return not_applicable(limit, "no header tank is aboard")
        return not_assessed(limit, ["components (a header_tank)"])
    each = []
    for tank in tanks:
        key = f"components.{tank.tag}.sight_glass"
        seen = tank.sight_glass or tank.low_level_alarm
        fulfilled = True if seen else None if tank.sight_glass is None else False
        words = "sight glass" if tank.sight_glass else "alarm" if tank.low_level_alarm else "level not seen"
        each.append(
            (tank.tag, present(limit, fulfilled, words, asked="level in view", missing=[key], key=key))
        )
    return worst_of(each)


def vessel(study: "Study", limit: Limit) -> Finding:
    """A vessel too small lifts the safety valve at every heating-up."""
    other = _sealed_ring(study, limit)
    if other is not None:
        return other
    vessels = of_kind(study.project, "membrane_vessel")
    if not vessels:
        return not_applicable(limit, "the ring expands into a header with a pressure cap")
    found = study.expansion
    if isinstance(found, NotAssessed):
        return not_assessed(limit, found)
    tag = vessels[0].tag
    key = f"components.{tag}.volume"
    if found.needed is None:
        needs = [
            f"components.{tag}.{n}"
            for n in ("volume", "precharge", "final")
            if getattr(vessels[0], n) is None
        ]
        return not_assessed(limit, needs or ["layout.places", "circuit.header"])
    each = [("volume", judge(limit, volume_ratio(vessels[0].volume, found.needed), key=key))]
    valve = next((v for v in of_kind(study.project, "safety_valve") if v.setting is not None), None)
    if valve is None:
        each.append(("final pressure", not_assessed(limit, ["components (a safety_valve with its setting)"])))
    elif found.final is not None:
        allowed = further_limit(limit.check, "final pressure")
        most = float(valve.setting) + float(allowed.limit)
        final = judge(
            _at_most(limit), found.final, value=most, unit="Pa", key=f"components.{valve.tag}.setting"
        )
        each.append(("final pressure", final))
    return worst_of(each, relative=True)


def _at_most(limit: Limit) -> Limit:
    from dataclasses import replace  # noqa: PLC0415 - one use

    from dossier.data.catalogue import CheckKind  # noqa: PLC0415 - one use

    return replace(limit, row=replace(limit.row, kind=CheckKind.MAXIMUM))


def precharge(study: "Study", limit: Limit) -> Finding:
    """A vessel with too little gas holds no coolant in reserve."""
    other = _sealed_ring(study, limit)
    if other is not None:
        return other
    vessels = of_kind(study.project, "membrane_vessel")
    if not vessels:
        return not_applicable(limit, "no membrane vessel is aboard")
    found = study.expansion
    key = f"components.{vessels[0].tag}.precharge"
    if vessels[0].precharge is None:
        return not_assessed(limit, [key])
    least = further_limit(limit.check, "least")
    each = [("least in any boat", judge(limit, vessels[0].precharge, value=float(least.limit), key=key))]
    if isinstance(found, NotAssessed) or found.static is None:
        each.append(
            ("over static", not_assessed(limit, ["layout.highest_wetted", f"layout.places.{vessels[0].tag}"]))
        )
    else:
        over = float(found.static) + float(limit.value or 0.0)
        each.append(("over static", judge(limit, vessels[0].precharge, value=over, key=key)))
    return worst_of(each)


def safety_valve(study: "Study", limit: Limit) -> Finding:
    """Something must open before a part bursts."""
    other = _sealed_ring(study, limit)
    if other is not None:
        return other
    valves = of_kind(study.project, "safety_valve")
    if not valves:
        return _pressure_cap(study, limit)
    valve = valves[0]
    key = f"components.{valve.tag}"
    needs = [f"{key}.{n}" for n in ("setting", "capacity", "led_to") if getattr(valve, n) is None]
    burners = of_kind(study.project, "burner")
    needs += [f"components.{b.tag}.pressure_rating" for b in burners if b.pressure_rating is None]
    lowest = min(
        (
            c.pressure_rating
            for c in (study.project.components or {}).values()
            if c.pressure_rating is not None
        ),
        default=None,
    )
    if valve.setting is not None and lowest is not None and float(valve.setting) > float(lowest):
        found = f"opens at {float(valve.setting) / 1e5:.1f} bar, weakest part {float(lowest) / 1e5:.1f} bar"
        return present(
            limit,
            fulfilled=False,
            found=found,
            asked="below every rating",
            lacking="a lower setting",
            key=f"{key}.setting",
        )
    output = sum(float(b.output.max) for b in burners if b.output is not None)
    output += sum(
        float(e.jacket_heat)
        for e in of_kind(study.project, "engine", "generator")
        if e.jacket_heat is not None and of_kind(study.project, "recovery_exchanger")
    )
    if valve.capacity is not None and float(valve.capacity) < output:
        found = f"relieves {float(valve.capacity) / 1000:.0f} kW of {output / 1000:.0f} kW"
        return present(
            limit,
            fulfilled=False,
            found=found,
            asked="full output",
            lacking="a larger valve",
            key=f"{key}.capacity",
        )
    if needs:
        return not_assessed(limit, needs)
    return present(
        limit,
        fulfilled=True,
        found=f"opens at {float(valve.setting) / 1e5:.1f} bar",
        asked="below every rating",
        key=f"{key}.setting",
    )


def _pressure_cap(study: "Study", limit: Limit) -> Finding:
    """A header with a pressure cap: the cap is the safety valve."""
    caps = [t for t in _headers(study) if t.cap == "pressure"]
    if not caps:
        if circuit_is_written(study.project):
            return present(
                limit, fulfilled=False, found="none", lacking="a safety valve", key="circuit.system"
            )
        return not_assessed(limit, ["components (a safety_valve)"])
    tank = caps[0]
    key = f"components.{tank.tag}.cap_pressure"
    if tank.cap_pressure is None:
        return not_assessed(limit, [key])
    burners = of_kind(study.project, "burner")
    unrated = [f"components.{b.tag}.pressure_rating" for b in burners if b.pressure_rating is None]
    if unrated:
        return not_assessed(limit, unrated)
    lowest = min(
        float(c.pressure_rating)
        for c in (study.project.components or {}).values()
        if c.pressure_rating is not None
    )
    fulfilled = float(tank.cap_pressure) <= lowest
    return present(
        limit,
        fulfilled,
        f"cap opens at {float(tank.cap_pressure) / 1e5:.1f} bar",
        asked="below every rating",
        lacking="a lower cap",
        key=key,
    )


def gauge(study: "Study", limit: Limit) -> Finding:
    """Nobody can restore a pressure that nobody sees."""
    other = _sealed_ring(study, limit)
    if other is not None:
        return other
    ring = study.project.circuit
    missing = [f"circuit.{n}" for n in ("gauge", "fill_valve") if ring is None or getattr(ring, n) is None]
    if missing or ring is None:
        return not_assessed(limit, missing)
    lacking = [w for n, w in (("gauge", "gauge"), ("fill_valve", "fill valve")) if not getattr(ring, n)]
    return present(
        limit,
        not lacking,
        "gauge and fill valve" if not lacking else "no " + " nor ".join(lacking),
        lacking=", ".join(lacking),
        key="circuit.gauge",
    )


def cold_level(study: "Study", limit: Limit) -> Finding:
    """A header that empties in the cold lets the pump draw air at the first start."""
    found = study.expansion
    if isinstance(found, NotAssessed):
        return not_assessed(limit, found)
    if found.contraction is None:
        return not_assessed(limit, ["conditions.lay_up_lowest"])
    if float(found.contraction) <= 0:
        return not_applicable(limit, "the coolant does not shrink below its fill temperature")
    held = found.reserve if is_sealed(study.project) else found.header_content
    if held is None:
        if is_sealed(study.project):
            return not_assessed(limit, ["circuit.fill_pressure"])
        tank = next(iter(_headers(study)), None)
        return not_assessed(limit, [f"components.{tank.tag if tank else 'header_tank'}.cold_level"])
    tank = next(iter(_headers(study)), None)
    key = f"components.{tank.tag}.cold_level" if tank is not None else "circuit.fill_pressure"
    return judge(limit, volume_ratio(held, found.contraction), key=key)


def after_stop(study: "Study", limit: Limit) -> Finding:
    """The heat left in a burner boils its water when the pump dies."""
    if lacks(study.project, "burner"):
        return not_applicable(limit, "no burner is aboard")
    found = study.expansion
    if isinstance(found, NotAssessed):
        return not_assessed(limit, found)
    burners = of_kind(study.project, "burner")
    if found.after_stop is None:
        names = ("heat_after_stop", "water_volume", "metal", "setpoint")
        needs = [f"components.{b.tag}.{n}" for b in burners for n in names if getattr(b, n) is None]
        return not_assessed(limit, needs or ["components.burner.heat_after_stop"])
    if found.at_stat is None:
        return not_assessed(
            limit,
            study.pressures
            if isinstance(study.pressures, NotAssessed)
            else [f"components.{burners[0].tag}.overheat_stat"],
        )
    value = float(found.at_stat.point) + float(limit.value or 0.0)
    return judge(limit, found.after_stop, value=value, key=f"components.{burners[0].tag}.heat_after_stop")
