"""An open ring: does its header stand high enough, hold enough, and stay open?"""

from typing import TYPE_CHECKING, Any

from dossier.checking.aboard import is_sealed, lacks
from dossier.checking.expansion.kinds import for_an_open_ring, headers
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed, present
from dossier.checking.judging import met, not_met, together
from dossier.checking.ratios import volume_ratio
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.sizing.study import Study

A_TANK = "components (a header_tank)"


@for_an_open_ring
def highest(study: "Study", limit: Limit) -> Finding:
    """A ring with a part above its header never fills and vents by itself."""
    margins = study.header_margins
    if isinstance(margins, NotAssessed):
        return not_assessed(limit, margins)
    margin, good = margins.upright.margin, further_limit(limit.check, "good practice")
    remark = ""
    if not limit.overridden and float(margin) < float(good.limit):
        remark = f"less than the {float(good.limit) * 1000:.0f} mm of good practice"
    return judge(limit, margin, key="layout.highest_wetted", place=margins.upright.over, remark=remark)


@for_an_open_ring
def highest_heeled(study: "Study", limit: Limit) -> Finding:
    """A pump draws air where a part rises above the header as the boat lies over."""
    margins = study.header_margins
    vessel = study.project.vessel
    if isinstance(margins, NotAssessed):
        return not_assessed(limit, margins)
    each = []
    for word, found in (("heel_angles", margins.heeled), ("trim_angles", margins.trimmed)):
        key = f"vessel.{word}"
        if vessel is None or getattr(vessel, word) is None:
            each.append((word, not_assessed(limit, [key])))
        each += [(f"{at.condition}°", judge(limit, at.margin, key=key)) for at in found]
    return together(limit, each, none="the file says why she can neither heel nor trim")


@for_an_open_ring
def capacity(study: "Study", limit: Limit) -> Finding:
    """A header too small spills hot coolant, and is short of it when the ring is cold again."""
    tanks = headers(study)
    if not tanks:
        return not_assessed(limit, [A_TANK])
    found = study.expansion
    if isinstance(found, NotAssessed):
        return not_assessed(limit, found)
    key = f"components.{tanks[0].tag}"
    if found.header_capacity is None:
        missing = [f"{key}.{n}" for n in ("volume", "cold_level") if getattr(tanks[0], n) is None]
        return not_assessed(limit, missing)
    ratio = volume_ratio(found.header_capacity, found.volume)
    return judge(limit, ratio, key=f"{key}.volume", remark=found.hottest_by)


@for_an_open_ring
def open_vent(study: "Study", limit: Limit) -> Finding:
    """A vent that can be closed turns an open ring into a boiler without a safety valve."""
    tanks = headers(study)
    if not tanks:
        return not_assessed(limit, [A_TANK])
    return together(limit, [(tank.tag, _vent(limit, tank)) for tank in tanks])


def _vent(limit: Limit, tank: Any) -> Finding:
    key, vent = f"components.{tank.tag}.vent", tank.vent
    if tank.cap is None:
        return not_assessed(limit, [f"components.{tank.tag}.cap"])
    if vent is None:
        return not_assessed(limit, [key])
    if not vent:
        return not_met(limit, "no vent", "an open vent", key=key)
    if vent.valve:
        return not_met(limit, f"can be closed: {vent.valve}", "a vent without it", key=f"{key}.valve")
    bore = judge(limit, vent.bore, key=f"{key}.bore", missing=[f"{key}.bore"])
    if vent.valve is None:
        return together(limit, [("valve", not_assessed(limit, [f"{key}.valve"])), ("bore", bore)])
    return bore


@for_an_open_ring
def vent_led(study: "Study", limit: Limit) -> Finding:
    """What boils over lands on somebody, or on the battery."""
    tanks = headers(study)
    if not tanks:
        return not_assessed(limit, [A_TANK])
    each = []
    for tank in tanks:
        key = f"components.{tank.tag}.vent.led_to"
        if tank.vent is not None and not tank.vent:
            found = not_met(limit, "no vent", "a vent led out of harm's way", key=key)
        elif tank.vent is None or tank.vent.led_to is None:
            found = not_assessed(limit, [key])
        else:
            found = present(limit, fulfilled=True, found=tank.vent.led_to, key=key)
        each.append((tank.tag, found))
    return together(limit, each)


def level_seen(study: "Study", limit: Limit) -> Finding:
    """A slow leak is found by the glance that costs nothing."""
    tanks = headers(study)
    if not tanks:
        if lacks(study.project, "header_tank"):
            return not_applicable(limit, "no header tank is aboard")
        return not_assessed(limit, [A_TANK])
    each = []
    for tank in tanks:
        key = f"components.{tank.tag}.sight_glass"
        if tank.sight_glass or tank.low_level_alarm:
            seen = "sight glass" if tank.sight_glass else "alarm for low level"
            found = met(limit, seen, key=key)
        elif tank.sight_glass is None:
            found = not_assessed(limit, [key])
        else:
            found = not_met(limit, "level not seen", "a sight glass", key=key)
        each.append((tank.tag, found))
    return together(limit, each)


def cold_level(study: "Study", limit: Limit) -> Finding:
    """A header that empties in the cold lets the pump draw air at the first start."""
    found = study.expansion
    if isinstance(found, NotAssessed):
        return not_assessed(limit, found)
    if found.contraction is None:
        return not_assessed(limit, ["conditions.lay_up_lowest"])
    if float(found.contraction) <= 0:
        return not_applicable(limit, "the coolant does not shrink below its fill temperature")
    tanks = headers(study)
    if tanks:
        held, keys = found.header_content, [f"components.{tanks[0].tag}.cold_level"]
    elif is_sealed(study.project):
        held, keys = found.reserve, ["circuit.fill_pressure", "components.membrane_vessel.precharge"]
    else:
        return not_assessed(limit, [A_TANK])
    if held is None:
        return not_assessed(limit, keys)
    return judge(limit, volume_ratio(held, found.contraction), key=keys[0])
