"""Whether hot tap water is aboard at all, and what its study waits for."""

from collections.abc import Callable
from functools import wraps
from typing import TYPE_CHECKING

from dossier.checking.aboard import circuit_is_written, of_kind
from dossier.checking.finding import Finding, Limit, not_applicable, not_assessed
from dossier.checking.judging import waits_for
from dossier.notation import NotAssessed
from dossier.project import NONE

if TYPE_CHECKING:
    from dossier.sizing.study import Study

HEATERS = ("tap_exchanger", "water_heater")
NO_TAP = "the file says there is no hot tap water"
NO_HEATER = "nothing in the circuit heats tap water"
Check = Callable[["Study", Limit], Finding]


def elsewhere(study: "Study", limit: Limit) -> Finding | None:
    """Why a check of hot tap water is not made, None where something aboard heats it."""
    project = study.project
    if of_kind(project, *HEATERS):
        return None
    if project.tap_water is NONE:
        return not_applicable(limit, NO_TAP)
    if circuit_is_written(project):
        return not_applicable(limit, NO_HEATER)
    return not_assessed(limit, ["tap_water"])


def for_hot_tap(check: Check) -> Check:
    """The check, made where something aboard heats tap water."""

    @wraps(check)
    def guarded(study: "Study", limit: Limit) -> Finding:
        return elsewhere(study, limit) or check(study, limit)

    return guarded


def lacking(study: "Study", limit: Limit, what: str, *keys: str) -> Finding:
    """Not assessed, with what the study waits for under a head."""
    tap = study.tap_water
    if isinstance(tap, NotAssessed):
        return waits_for(limit, tap, *keys)
    return waits_for(limit, tap.lacking.get(what), *keys)
