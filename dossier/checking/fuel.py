"""Can the fuel be stopped, does the line stand fire and cold, does the tank last?"""

from typing import TYPE_CHECKING

from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed, present
from dossier.checking.judging import (
    at_least,
    at_most,
    counted,
    for_a_burner,
    met,
    not_met,
    together,
    waits_for,
    with_maker_silent,
)
from dossier.checking.spaces import burner_place_keys, burner_spaces, lies_in, names_of_spaces
from dossier.checking.stated import silent, stated
from dossier.data.catalogue import further_limit
from dossier.data.fuel_lines import fuel_line_kinds
from dossier.notation import NotAssessed
from dossier.physics.attitude import heeled_head, offset
from dossier.sizing.fuel import time_of_days

if TYPE_CHECKING:
    from dossier.sizing.study import Study

DOUBT = {"no", "not", "without", "unknown", "perhaps"}
"""Words that take back what stands beside them."""


def _tank_is_lower(study: "Study") -> bool | None:
    """Whether the top of the tank, and so any fuel level, lies below every burner."""
    top = stated(study.project, "fuel.tank_top")
    if top is None or isinstance(study.placement, NotAssessed):
        return None
    burners = study.placement.of_kind("burner")
    return all(float(top) < float(part.box.low[2]) for part in burners) if burners else None


def _tank_stays_lower(study: "Study") -> bool:
    """Whether the tank's top lies below every burner at every stated heel, as far as both are placed."""
    angles = stated(study.project, "vessel.heel_angles")
    if angles is None or not _tank_is_lower(study) or isinstance(study.placement, NotAssessed):
        return False
    top, tanks = stated(study.project, "fuel.tank_top"), study.placement.of_kind("fuel_tank")
    heads = [
        heeled_head(offset(top, burner.box.low[2]), across, angle)
        for burner in study.placement.of_kind("burner")
        for tank in tanks
        for across in (
            offset(tank.box.low[1], burner.box.high[1]),
            offset(tank.box.high[1], burner.box.low[1]),
        )
        for angle in angles or ()
    ]
    return bool(tanks) and all(float(head) > 0 for head in heads)


@for_a_burner
def shut_off(study: "Study", limit: Limit) -> Finding:
    """A line that breaks feeds a fire for as long as nobody can stop the fuel at the tank."""
    if _tank_stays_lower(study) and stated(study.project, "fuel.anti_siphon"):
        return met(limit, "tank lower than the burner, guarded against siphoning", key="fuel.tank_top")
    tag = stated(study.project, "fuel.shut_off")
    if tag is None:
        return not_assessed(limit, ["fuel.shut_off"])
    if not tag:
        return not_met(limit, "none", "the valve", key="fuel.shut_off")
    key = f"components.{tag}"
    at_tank = stated(study.project, f"{key}.at_tank")
    if at_tank is False:
        return not_met(limit, f"{tag}, not at the tank", "a valve at the tank", key=f"{key}.at_tank")
    worked_from = stated(study.project, f"{key}.operated_from")
    reached = tag in (stated(study.project, "layout.reached_without_tools") or ())
    if at_tank is None or not (worked_from or reached):
        return not_assessed(limit, silent(study.project, [f"{key}.at_tank", f"{key}.operated_from"]))
    how = f"worked from {worked_from}" if worked_from else "reached without tools"
    return met(limit, f"{tag} at the tank, {how}", key=key)


@for_a_burner
def shut_off_remote(study: "Study", limit: Limit) -> Finding:
    """Whoever must open a burning space to shut the valve feeds the fire with air and breathes its smoke."""
    tag = stated(study.project, "fuel.shut_off")
    if tag is None:
        return not_assessed(limit, ["fuel.shut_off"])
    if not tag:
        return not_met(limit, "no valve", "the valve", key="fuel.shut_off")
    key = f"components.{tag}.operated_from"
    worked_from = stated(study.project, key)
    spaces = burner_spaces(study)
    if not worked_from or not spaces:
        return not_assessed(limit, burner_place_keys(study.project) if worked_from else [key])
    inside = [lies_in(worked_from, space) for space in spaces]
    if None in inside and True not in inside:
        why = f"“{worked_from}” bears the name of the burner's space: say whether it lies outside"
        return not_assessed(limit, [key], why)
    if True in inside:
        return not_met(limit, f"worked from {worked_from}", "a way to work it from outside", key=key)
    return met(limit, f"worked from {worked_from}", key=key)


@for_a_burner
def shut_off_space(study: "Study", limit: Limit) -> Finding:
    """Who services the burner stops the fuel beside it, without a walk to a tank in another space."""
    tag, tank_in = (stated(study.project, f"fuel.{key}") for key in ("shut_off_space", "tank_in"))
    spaces = burner_spaces(study)
    if tank_in is not None and tank_in in spaces:
        return not_applicable(limit, "the tank stands in the burner's own space")
    if tag:
        return met(limit, tag, key="fuel.shut_off_space")
    needs = silent(study.project, ["fuel.shut_off_space", "fuel.tank_in"])
    if not needs and not spaces:
        needs = [*burner_place_keys(study.project)]
    if needs:
        return not_assessed(limit, needs)
    return not_met(limit, "none, tank in another space", "the valve", key="fuel.shut_off_space")


@for_a_burner
def line_material(study: "Study", limit: Limit) -> Finding:
    """A line that melts pours the tank into the fire."""
    key = "fuel.line.material"
    material = stated(study.project, key)
    if not material:
        return not_assessed(limit, [key])
    kinds, told = fuel_line_kinds(material), material.casefold()
    plastic = "plastic" in kinds and "coated" not in told
    if plastic and "maker" not in told:
        return not_met(limit, material, "a line of metal or of marked hose", key=key)
    why = ""
    if plastic and DOUBT & set(told.split()):
        why = "whether the burner's maker permits it"
    elif "hose" in kinds and "marked hose" not in kinds:
        why = "whether the hose is marked ISO 7840"
    elif not kinds:
        why = "not known as metal, marked hose or plastic"
    if why:
        return not_assessed(limit, [key], f"“{material}”: {why}")
    return met(limit, material, key=key, remark="only as short as the maker permits" if plastic else "")


@for_a_burner
def lift(study: "Study", limit: Limit) -> Finding:
    """A pump that must lift too far starves the flame as the tank runs low."""
    found = stated(study.project, "fuel.lift")
    return with_maker_silent(limit, judge(limit, found, key="fuel.lift", missing=["fuel.lift"]))


@for_a_burner
def line_length(study: "Study", limit: Limit) -> Finding:
    """A long line costs the pump its prime, and air in it puts the flame out."""
    suction, length = (stated(study.project, f"fuel.line.{key}") for key in ("suction", "length"))
    longest = 0.0 if limit.value is None else limit.value
    delivery = further_limit(limit.check, "delivery").limit
    if suction is None and length is not None and length <= longest:
        before = at_most(limit, length, longest, "m", key="fuel.line.length", remark="the whole line")
    else:
        key = "fuel.line.suction"
        before = at_most(limit, suction, longest, "m", key=key, missing=[key])
    after = at_most(limit, length, delivery, "m", key="fuel.line.length", missing=["fuel.line.length"])
    both = together(limit, [("suction", before), ("delivery", after)], relative=True)
    return with_maker_silent(limit, both)


@for_a_burner
def siphon(study: "Study", limit: Limit) -> Finding:
    """Fuel above the burner runs out of a broken line by itself until the tank is empty."""
    guarded, lower = stated(study.project, "fuel.anti_siphon"), _tank_is_lower(study)
    if guarded:
        return met(limit, "anti-siphon valve at the tank", key="fuel.anti_siphon")
    if lower:
        return met(limit, "tank lower than the burner", key="fuel.tank_top")
    needs = silent(study.project, ["fuel.anti_siphon", *(["fuel.tank_top"] if lower is None else [])])
    if not needs and lower is None:
        needs = [*burner_place_keys(study.project)]
    if needs:
        return not_assessed(limit, needs)
    return not_met(limit, "fuel above the burner, no valve", "the valve", key="fuel.anti_siphon")


@for_a_burner
def pick_up(study: "Study", limit: Limit) -> Finding:
    """A heating that drinks the tank dry takes the engine with it."""
    keys = ["fuel.pick_up.heating", "fuel.pick_up.engine"]
    own, engine = (stated(study.project, key) for key in keys)
    if own is None or engine is None:
        height = not_assessed(limit, silent(study.project, keys))
    elif own == engine:
        height = not_met(limit, "as deep as the engine's", "height over it", key="fuel.pick_up")
    else:
        height = at_least(limit, offset(engine, own), 0.0, "m", key="fuel.pick_up")
    key = "fuel.reserve_for_engine"
    kept = stated(study.project, key)
    reserve = present(
        limit,
        None if kept is None else kept > 0,
        "stated" if kept else "none",
        asked="stated",
        lacking="the reserve",
        missing=[key],
        key=key,
    )
    return together(
        limit, [("height over the engine's pick-up", height), ("reserve for the engine", reserve)]
    )


@for_a_burner
def route(study: "Study", limit: Limit) -> Finding:
    """Fuel that drips or sprays on the exhaust catches fire."""
    key = "fuel.line.route"
    needs = silent(study.project, [key, "exhaust.route"]) or ["exhaust.bore"]
    hot = None if isinstance(study.placement, NotAssessed) else study.placement.hot
    near = hot.line_to_exhaust if hot is not None else None
    above = hot.line_above_exhaust if hot is not None else None
    crossing = present(
        limit,
        None if above is None else not above,
        "above it" if above else "not above it",
        asked="never above it",
        lacking="a way below it",
        missing=needs,
        key=key,
    )
    supports = stated(study.project, "fuel.line.support")
    apart = further_limit(limit.check, "supports").limit
    asked = 0.0 if limit.value is None else limit.value
    found = [
        ("distance to the exhaust", at_least(limit, near, asked, "m", key=key, missing=needs)),
        ("where it crosses the exhaust", crossing),
        (
            "distance of the supports",
            at_most(limit, supports, apart, "m", key="fuel.line.support", missing=["fuel.line.support"]),
        ),
    ]
    return together(limit, found, relative=True)


@for_a_burner
def tank_vent(study: "Study", limit: Limit) -> Finding:
    """A tank that breathes into the boat fills it with vapour at every filling."""
    if stated(study.project, "fuel.vent") is not None and not stated(study.project, "fuel.vent"):
        return not_met(limit, "no vent", "the vent", key="fuel.vent")
    keys = ["fuel.vent.led_to", "fuel.vent.flame_screen"]
    led_to, screen = (stated(study.project, key) for key in keys)
    if led_to and any(lies_in(led_to, space) is not False for space in names_of_spaces(study.project)):
        return not_met(limit, f"led to {led_to}", "a way outside", key="fuel.vent.led_to")
    if screen is False:
        return not_met(limit, "no flame screen", "the flame screen", key="fuel.vent.flame_screen")
    if not led_to or screen is None:
        return not_assessed(limit, silent(study.project, keys))
    return met(limit, f"led to {led_to}, with flame screen", key="fuel.vent")


@for_a_burner
def autonomy(study: "Study", limit: Limit) -> Finding:
    """A tank that empties in a cold spell leaves the boat cold, or the engine dry."""
    if isinstance(study.fuel, NotAssessed):
        return not_assessed(limit, study.fuel)
    if study.fuel.usable is None:
        return not_assessed(limit, ["fuel.tank"])
    if study.fuel.heat_at_burner is None:
        return waits_for(limit, study.heat_loss, "zones")
    if study.fuel.autonomy is None:
        return not_applicable(limit, "no zone needs heat on the design night")
    wanted = stated(study.project, "fuel.days_wanted")
    bound = limit.value if wanted is None or limit.overridden else float(time_of_days(wanted))
    return judge(limit, study.fuel.autonomy, value=bound, key="fuel.tank")


@for_a_burner
def winter(study: "Study", limit: Limit) -> Finding:
    """Wax in the filter puts the burner out on the coldest night."""
    keys = ["fuel.cfpp", "conditions.lay_up_lowest"]
    plugs, laid_up = (stated(study.project, key) for key in keys)
    if plugs is None or laid_up is None:
        return not_assessed(limit, silent(study.project, keys))
    outside = stated(study.project, "conditions.outside_air")
    coldest = laid_up if outside is None else min(laid_up, outside)
    return judge(limit, plugs, value=counted(limit, coldest), key="fuel.cfpp")
