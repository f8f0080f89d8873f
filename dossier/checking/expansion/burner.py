"""The burner: can anything cut it off from expansion, and how far is its water from boiling?"""

from typing import TYPE_CHECKING

from dossier.checking.aboard import circuit_is_written, of_kind
from dossier.checking.finding import Finding, Limit, judge, not_assessed, present
from dossier.checking.judging import at_least, for_a_burner, not_met, together
from dossier.checking.solved_modes import unsolved
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.sizing.study import Study

NOTHING = "nothing that closes"


@for_a_burner
def no_valve(study: "Study", limit: Limit) -> Finding:
    """What cuts a fired burner off from its expansion bursts it."""
    if not circuit_is_written(study.project):
        return not_assessed(limit, ["circuit.ring"])
    ways = study.expansion_ways
    if isinstance(ways, NotAssessed):
        return not_assessed(limit, ways)
    if ways.closing:
        return not_met(limit, ", ".join(ways.closing), "a free way", key=ways.key, remark=_told(ways.stated))
    if ways.stated is None:
        return not_assessed(limit, [ways.key], "by the circuit the way is free; the line itself is not told")
    beside = ", ".join(ways.beside)
    remark = f"the way to {beside} as the owner states it: the circuit does not show it" if beside else ""
    return present(limit, fulfilled=True, found=NOTHING, asked=NOTHING, key=ways.key, remark=remark)


def _told(stated: tuple[str, ...] | None) -> str:
    """How the owner's words stand to a circuit that shows something closing."""
    if stated is None:
        return "by the circuit"
    return "the owner states none: the circuit shows otherwise" if not stated else "as the owner states"


@for_a_burner
def boiling(study: "Study", limit: Limit) -> Finding:
    """Coolant that boils drives itself out of the ring and leaves the burner dry."""
    found = study.expansion
    if isinstance(found, NotAssessed):
        return not_assessed(limit, found)
    if isinstance(study.ring, NotAssessed):
        return not_assessed(limit, study.ring)
    if isinstance(study.pressures, NotAssessed):
        return not_assessed(limit, study.pressures)
    each = unsolved(study.ring, limit)
    if found.least_at is None:
        each.append(("running", not_assessed(limit, ["layout.places"])))
    else:
        what = f"{found.least_at.tag}, {found.least_at.mode}"
        each.append((what, judge(limit, found.least, key="layout.places")))
    stopped = float(further_limit(limit.check, "at the overheat stat, pump stopped").limit)
    for burner in of_kind(study.project, "burner"):
        at_stat = next((b for b in found.at_stat if b.tag == burner.tag), None)
        key = f"components.{burner.tag}.overheat_stat"
        what = f"{burner.tag} at its stat, pump stopped"
        if at_stat is not None:
            each.append((what, at_least(limit, at_stat.margin, stopped, "K", key=key)))
        else:
            place = f"layout.places.{burner.tag}"
            each.append((what, not_assessed(limit, [key if burner.overheat_stat is None else place])))
    return together(limit, each)


@for_a_burner
def after_stop(study: "Study", limit: Limit) -> Finding:
    """The heat left in a burner boils its water when the pump dies."""
    found = study.expansion
    if isinstance(found, NotAssessed):
        return not_assessed(limit, found)
    each = []
    for burner in of_kind(study.project, "burner"):
        key = f"components.{burner.tag}"
        stop = next((b for b in found.stops if b.tag == burner.tag), None)
        if stop is not None:
            bound = float(limit.value or 0.0) + (0.0 if limit.overridden else float(stop.point))
            found_at = judge(limit, stop.temperature, value=bound, key=f"{key}.heat_after_stop")
            each.append((burner.tag, found_at))
            continue
        names = ("heat_after_stop", "water_volume", "metal")
        needs = [f"{key}.{name}" for name in names if getattr(burner, name) is None]
        if not needs and isinstance(study.pressures, NotAssessed):
            needs = list(study.pressures.needs)
        each.append((burner.tag, not_assessed(limit, needs or [f"layout.places.{burner.tag}"])))
    return together(limit, each)
