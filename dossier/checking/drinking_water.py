"""What does drinking water touch on its way to the tap, and where does it stand warm?"""

from typing import TYPE_CHECKING, Any

from dossier.checking.aboard import of_kind
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed
from dossier.checking.hot_tap import HEATERS, elsewhere, for_hot_tap, lacking
from dossier.checking.judging import at_most, met, not_met, together
from dossier.checking.stated import silent, stated
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed
from dossier.project import NONE

if TYPE_CHECKING:
    from dossier.sizing.study import Study

NO_STORE = "no heater with a store of tap water is aboard"
IN_FLOW = "tap water is heated as it flows, and none is stored"


@for_hot_tap
def wall(study: "Study", limit: Limit) -> Finding:
    """What is in the ring reaches the cup through the first pinhole in a plate."""
    each = [(heater.tag, _wall(study, limit, heater)) for heater in of_kind(study.project, *HEATERS)]
    return together(limit, each)


def _wall(study: "Study", limit: Limit, heater: Any) -> Finding:
    key = f"components.{heater.tag}.walls"
    if heater.walls is not None and float(heater.walls) > 1:
        return met(limit, "double wall", key=key, remark="its leak path must be seen from outside")
    harmless, words, grade = _coolant(study)
    if harmless:
        return met(limit, words, key=grade)
    needs = [grade] if harmless is None else []
    if heater.walls is None:
        needs.append(key)
    if needs:
        return not_assessed(limit, needs)
    return not_met(limit, f"{words}, one wall", "a double wall", key=key)


def _coolant(study: "Study") -> tuple[bool | None, str, str]:
    """Whether a single wall will do for the coolant, the coolant in words, and the key that decides."""
    base = stated(study.project, "circuit.coolant.base")
    if base != "propylene glycol":
        return None if base is None else False, str(base), "circuit.coolant.base"
    key = "circuit.coolant.inhibitor.food_grade"
    if stated(study.project, "circuit.coolant.inhibitor") is NONE:
        return False, "propylene glycol without an approved inhibitor", key
    approved = stated(study.project, key)
    return approved, f"propylene glycol, inhibitor {'' if approved else 'not '}approved for food plants", key


def fill_link(study: "Study", limit: Limit) -> Finding:
    """A hose left on its tap lets the ring empty itself into the drinking water."""
    key = "circuit.fill_connection"
    link = stated(study.project, key)
    if link is None:
        return _unlinked(study, limit, key)
    if link is NONE:
        return met(limit, "no link", key=key)
    if link.backflow_preventer is False:
        return not_met(limit, "a link without backflow preventer", "the preventer", key=key)
    if link.hose_kept_off is False:
        return not_met(limit, "a hose that stays on", "the hose taken off", key=key)
    needs = silent(study.project, [f"{key}.backflow_preventer", f"{key}.hose_kept_off"])
    if needs:
        return not_assessed(limit, needs)
    return met(limit, "backflow preventer, hose taken off", key=key)


def _unlinked(study: "Study", limit: Limit, key: str) -> Finding:
    """A link that nobody writes of: no matter only where the file says there is no hot tap water."""
    other = elsewhere(study, limit)
    if study.project.tap_water is NONE and other is not None:
        return other
    return not_assessed(limit, [key])


@for_hot_tap
def legionella(study: "Study", limit: Limit) -> Finding:
    """Warm water that stands breeds germs that kill by way of the spray of a shower."""
    project, tap = study.project, study.tap_water
    exempt = further_limit(limit.check, "exempt volume")
    large = [
        unit
        for unit in of_kind(project, "tap_exchanger")
        if unit.water_volume is not None and float(unit.water_volume) > float(exempt.limit)
    ]
    heaters = of_kind(project, "water_heater")
    if not heaters and not large:
        return not_applicable(limit, IN_FLOW)
    each = []
    for unit in (*heaters, *large):
        key = f"components.{unit.tag}"
        store = None if isinstance(tap, NotAssessed) else tap.store
        if store is not None and store.tag == unit.tag:
            remark = "a thermometer must show how fast it reaches the taps, before any mixing valve"
            each.append((unit.tag, judge(limit, store.kept_at, key=f"{key}.setpoint", remark=remark)))
        elif unit.kind == "water_heater" and unit.volume is None:
            each.append((unit.tag, not_assessed(limit, [f"{key}.volume"])))
        elif isinstance(tap, NotAssessed) or not tap.modes:
            each.append((unit.tag, lacking(study, limit, "highest", f"{key}.setpoint")))
        else:
            coldest = min(
                (mode.primary for mode in tap.modes if mode.tag == unit.tag), key=float, default=None
            )
            each.append((unit.tag, judge(limit, coldest, key=key, missing=[f"{key}.setpoint"])))
    return together(limit, each)


@for_hot_tap
def relief(study: "Study", limit: Limit) -> Finding:
    """A store that boils with every way out shut bursts like a bomb."""
    heaters = of_kind(study.project, "water_heater")
    if not heaters:
        return not_applicable(limit, NO_STORE)
    each = []
    for heater in heaters:
        key, valve = f"components.{heater.tag}.relief_valve", heater.relief_valve
        if valve is None:
            found = not_assessed(limit, [key])
        elif valve is NONE:
            found = not_met(limit, "none", "the relief valve", key=key)
        elif not valve.led_to:
            found = not_assessed(limit, [f"{key}.led_to"])
        else:
            found = met(limit, f"fitted, led to {valve.led_to}", key=key)
        each.append((heater.tag, found))
    return together(limit, each)


@for_hot_tap
def scale(study: "Study", limit: Limit) -> Finding:
    """Hard water furs hot plates until nothing passes, and salt eats the copper that holds them."""
    each = []
    for heater in of_kind(study.project, *HEATERS):
        each.append((f"{heater.tag}, hardness", _hardness(study, limit, heater)))
        each.append((f"{heater.tag}, chloride", _chloride(study, limit, heater)))
    return together(limit, each)


def _hardness(study: "Study", limit: Limit, heater: Any) -> Finding:
    key = "tap_water.hardness"
    hardness = stated(study.project, key)
    hard = further_limit(limit.check, "hard water from")
    if hardness is None:
        return not_assessed(limit, [key])
    if float(hardness) <= float(hard.limit):
        return met(limit, "water that is not hard", key=key)
    tap = study.tap_water
    modes = () if isinstance(tap, NotAssessed) else tap.modes
    hottest = max((mode.primary for mode in modes if mode.tag == heater.tag), key=float, default=None)
    if hottest is None:
        return lacking(study, limit, "highest", key)
    remark = "hard water: plan a yearly descaling where the primary is hotter"
    return at_most(limit, hottest, float(limit.value or 0.0), limit.row.unit, key=key, remark=remark)


def _chloride(study: "Study", limit: Limit, heater: Any) -> Finding:
    key, wetted = "tap_water.chloride", f"components.{heater.tag}.wetted"
    chloride = stated(study.project, key)
    salty = further_limit(limit.check, "salty water from")
    if heater.wetted and not any("copper" in metal.casefold() for metal in heater.wetted):
        return met(limit, "no copper touches the water", key=wetted)
    if chloride is None:
        return not_assessed(limit, [key])
    if float(chloride) <= float(salty.limit):
        return met(limit, "water that is not salty", key=key)
    if not heater.wetted:
        return not_assessed(limit, [wetted])
    return not_met(limit, "copper in salty water", "plates without copper", key=wetted)


@for_hot_tap
def expansion(study: "Study", limit: Limit) -> Finding:
    """Water heated between a shut tap and a check valve finds no room and breaks what is weakest."""
    project = study.project
    heaters = of_kind(project, "water_heater")
    check, room = stated(project, "tap_water.check_valve"), stated(project, "tap_water.accumulator")
    if check is None:
        return not_assessed(limit, ["tap_water.check_valve"])
    if not check:
        return met(limit, "no check valve: it expands back to the tank", key="tap_water.check_valve")
    if room:
        return met(limit, "accumulator on the hot side", key="tap_water.accumulator")
    if heaters and all(heater.relief_valve for heater in heaters) and not of_kind(project, "tap_exchanger"):
        return met(limit, "relief valve on the hot side", key=f"components.{heaters[0].tag}.relief_valve")
    if room is None:
        return not_assessed(limit, ["tap_water.accumulator"])
    return not_met(limit, "neither", "an accumulator or a relief", key="tap_water.accumulator")
