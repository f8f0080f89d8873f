"""Are heavy parts fixed, and does the system lean the boat?"""

from typing import TYPE_CHECKING

from dossier.checking.finding import Finding, Limit, judge, not_assessed
from dossier.checking.judging import at_most, met, not_met, together
from dossier.checking.spaces import plain
from dossier.checking.stated import silent
from dossier.data.catalogue import further_limit
from dossier.notation import NotAssessed
from dossier.sizing.masses import CAN_BE_HEAVY

if TYPE_CHECKING:
    from dossier.sizing.study import Study

LOOSE = {"none", "no", "loose", "not fixed", "unfixed"}


def fixing(study: "Study", limit: Limit) -> Finding:
    """In a knock-down a full buffer becomes a ram."""
    if isinstance(study.masses, NotAssessed):
        return not_assessed(limit, study.masses)
    heavy = further_limit(limit.check, "parts from").limit
    found = []
    for part in study.masses.parts:
        key = f"components.{part.tag}"
        known = part.filled is not None and (part.dry is not None or part.filled >= heavy)
        if not known:
            if part.kind in CAN_BE_HEAVY:
                found.append((part.tag, not_assessed(limit, [f"{key}.mass"])))
        elif part.filled is None or part.filled < heavy:
            continue
        elif not part.fixing:
            found.append((part.tag, not_assessed(limit, [f"{key}.fixing"])))
        elif plain(part.fixing) in LOOSE:
            found.append((part.tag, not_met(limit, part.fixing, "straps and chocks", key=f"{key}.fixing")))
        else:
            found.append((part.tag, met(limit, part.fixing, key=f"{key}.fixing")))
    return together(limit, found, none="no part is heavy enough to be asked for")


def list_and_trim(study: "Study", limit: Limit) -> Finding:
    """A boat that leans wears her gear on one side, and her outlets lie lower on it."""
    keys = ["vessel.moment_per_degree", "vessel.moment_per_cm_trim"]
    if isinstance(study.masses, NotAssessed):
        return not_assessed(limit, [*silent(study.project, keys), *study.masses.needs])
    masses = study.masses
    needs = [*masses.unweighed, *masses.unplaced]
    if masses.filled is None:
        needs.append("circuit.ring")
    trim = further_limit(limit.check, "trim").limit
    for_list, for_trim = silent(study.project, keys[:1]), silent(study.project, [keys[1], "vessel.length"])
    found = [
        ("list", judge(limit, None if needs else masses.list, key=keys[0], missing=[*for_list, *needs])),
        (
            "trim",
            at_most(
                limit, None if needs else masses.trim, trim, "1", key=keys[1], missing=[*for_trim, *needs]
            ),
        ),
    ]
    return together(limit, found, relative=True)
