"""Is hot tap water safe to touch, and is there enough of it?

What drinking water touches on its way stands in ``drinking_water``.
"""

from typing import TYPE_CHECKING

from dossier.checking.drinking_water import expansion, fill_link, legionella, relief, scale, wall
from dossier.checking.finding import Finding, Limit, Status, judge, not_assessed
from dossier.checking.hot_tap import for_hot_tap, lacking
from dossier.checking.judging import counted, met, not_met, together, waits_for
from dossier.checking.run import limit_of
from dossier.checking.stated import stated
from dossier.data.catalogue import further_limit
from dossier.data.recognised_words import says
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.sizing.study import Study

__all__ = [
    "expansion",
    "fill_link",
    "flow_winter",
    "legionella",
    "mixing_valve",
    "outlet_max",
    "relief",
    "scald_time",
    "scale",
    "source_covers",
    "wall",
]
VALVE = "tap_water.mixing_valve"
OUTLET_MAX = "tap_water.outlet_max"
ANY_OUTLET = "any outlet"
UNWRITTEN_VALVE = "none is written, and what is not written is not aboard"


def _outlets(study: "Study") -> tuple[str, ...]:
    return tuple(stated(study.project, "tap_water.outlets") or ()) or (ANY_OUTLET,)


def _bound(limit: Limit, outlet: str) -> float:
    """Highest temperature at one outlet: laxer where only adults draw at it."""
    if says("galley tap", outlet) and not limit.overridden:
        return float(further_limit(limit.check, "galley tap used by adults").limit)
    return float(limit.value or 0.0)


def _unknown(study: "Study", limit: Limit) -> Finding:
    """Not assessed: nobody says whether a valve is fitted, or how hot it gets without one is not known."""
    tap = study.tap_water
    if isinstance(tap, NotAssessed):
        return waits_for(limit, tap, VALVE)
    return not_assessed(limit, [VALVE]) if tap.valve_fitted is None else lacking(study, limit, "highest")


@for_hot_tap
def outlet_max(study: "Study", limit: Limit) -> Finding:
    """Water that scalds comes out of the tap when somebody draws a trickle while the ring is hot."""
    tap = study.tap_water
    if isinstance(tap, NotAssessed) or tap.outlet_highest is None:
        return _unknown(study, limit)
    outlets = _outlets(study)
    unknown = None if tap.valve_fitted else tap.lacking.get("highest")
    remark = "" if tap.valve_fitted or stated(study.project, VALVE) is not None else UNWRITTEN_VALVE
    each = []
    for outlet in outlets:
        found = judge(limit, tap.outlet_highest, value=_bound(limit, outlet), key=VALVE, remark=remark)
        if found.status is Status.MET and unknown is not None:
            found = waits_for(limit, unknown)
        each.append((outlet, found))
    measured = stated(study.project, "commissioning.tap.highest")
    if measured is not None:
        strictest = min(_bound(limit, outlet) for outlet in outlets)
        each.append(("measured", judge(limit, measured, value=strictest, key="commissioning.tap.highest")))
    return together(limit, each)


@for_hot_tap
def mixing_valve(study: "Study", limit: Limit) -> Finding:
    """Nothing but a valve stands between a primary near boiling and a child under the shower."""
    tap = study.tap_water
    if not isinstance(tap, NotAssessed) and tap.valve_fitted:
        return met(limit, "fitted", key=VALVE)
    if isinstance(tap, NotAssessed) or tap.exchanger_highest is None:
        return _unknown(study, limit)
    allowed = limit_of(study, OUTLET_MAX)
    bound = min(_bound(allowed, outlet) for outlet in _outlets(study))
    if float(tap.exchanger_highest) <= bound:
        if "highest" in tap.lacking:
            return lacking(study, limit, "highest")
        return met(limit, "not needed: the primary is no hotter than the taps may be", key=VALVE)
    if tap.valve_fitted is None:
        return _unknown(study, limit)
    remark = "" if stated(study.project, VALVE) is not None else UNWRITTEN_VALVE
    return not_met(limit, "none", "the valve", key=VALVE, remark=remark)


@for_hot_tap
def scald_time(study: "Study", limit: Limit) -> Finding:
    """A child cannot get out of a hot shower as fast as a grown-up, and burns several times faster."""
    tap = study.tap_water
    if isinstance(tap, NotAssessed) or tap.scald_time is None:
        return _unknown(study, limit)
    return judge(limit, tap.scald_time, key=VALVE, remark="times of adult skin")


@for_hot_tap
def flow_winter(study: "Study", limit: Limit) -> Finding:
    """An exchanger that suits summer water gives a trickle when the tank is near freezing."""
    wanted = stated(study.project, "tap_water.shower_flow")
    winter = None if isinstance(study.tap_water, NotAssessed) else study.tap_water.seasons.get("winter")
    if winter is None or wanted is None:
        return lacking(study, limit, "winter", "tap_water.shower_flow")
    remark = f"in mode {winter.mode}"
    if float(winter.counts.lasting) < float(wanted):
        remark += "; for good the source carries less: see the heat of one shower"
    value = counted(limit, float(wanted))
    return judge(limit, winter.flow, value=value, key="tap_water.shower_flow", remark=remark)


@for_hot_tap
def source_covers(study: "Study", limit: Limit) -> Finding:
    """Where a shower takes more than source and store have, every cabin grows cold for it."""
    heat = None if isinstance(study.tap_water, NotAssessed) else study.tap_water.shower_heat
    if heat is None:
        return lacking(study, limit, "shower", "tap_water.shower")
    remark = f"in mode {heat.mode}, begun at the least favourable moment of the burner's cycle"
    value = counted(limit, float(heat.needed))
    return judge(limit, heat.available, value=value, key="tap_water.shower", remark=remark)
