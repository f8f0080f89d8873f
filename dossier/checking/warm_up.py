"""Does a cold boat get warm in time?"""

from typing import TYPE_CHECKING

from dossier.checking.finding import Finding, Limit, Status, judge, not_applicable, not_assessed
from dossier.checking.judging import for_a_burner, together, waits_for
from dossier.notation import NotAssessed

if TYPE_CHECKING:
    from dossier.sizing.study import Study
    from dossier.sizing.warm_up import ZoneWarmUp

NEVER = "not warm within a day"


@for_a_burner
def warm_up(study: "Study", limit: Limit) -> Finding:
    """A boat that takes all evening to get warm is left cold, or left heated with nobody aboard."""
    found = study.warm_up
    if isinstance(found, NotAssessed):
        return waits_for(limit, found, "conditions.unheated_start")
    wanted = found.stated and not limit.overridden
    bound = float(found.within) if wanted else limit.value
    each = [(name, _zone(limit, zone, bound)) for name, zone in found.zones.items()]
    each += [
        (name, not_assessed(limit, [f"components (an emitter with zone: {name})"])) for name in found.lacking
    ]
    if not each:
        return not_applicable(limit, "no zone calls for heat")
    return together(limit, each)


def _zone(limit: Limit, zone: "ZoneWarmUp", bound: float | None) -> Finding:
    key = f"zones.{zone.zone}"
    if zone.time is None:
        lacking = "more output asked for"
        return Finding(limit, Status.NOT_MET, NEVER, bound, lacking, limit.row.unit, key=key)
    return judge(limit, zone.time, value=bound, key=key)
