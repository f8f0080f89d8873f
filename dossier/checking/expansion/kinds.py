"""What the checks of expansion share: is the ring open or sealed, and which headers are aboard?"""

from functools import wraps
from typing import TYPE_CHECKING, Any

from dossier.checking.aboard import is_sealed, of_kind
from dossier.checking.finding import Finding, Limit, not_applicable, not_assessed
from dossier.checking.judging import Check

if TYPE_CHECKING:
    from dossier.sizing.study import Study

SEALED = "the ring is sealed"
OPEN = "the ring is open"


def for_an_open_ring(check: Check) -> Check:
    """The check, not applicable to a sealed ring; not assessed where nobody says which it is."""

    @wraps(check)
    def guarded(study: "Study", limit: Limit) -> Finding:
        sealed = is_sealed(study.project)
        if sealed:
            return not_applicable(limit, SEALED)
        if sealed is None and not headers(study):
            return not_assessed(limit, ["circuit.system"])
        return check(study, limit)

    return guarded


def for_a_sealed_ring(check: Check) -> Check:
    """The check, not applicable to an open ring; not assessed where nobody says which it is."""

    @wraps(check)
    def guarded(study: "Study", limit: Limit) -> Finding:
        sealed = is_sealed(study.project)
        if sealed is None:
            return not_assessed(limit, ["circuit.system"])
        return check(study, limit) if sealed else not_applicable(limit, OPEN)

    return guarded


def headers(study: "Study") -> tuple[Any, ...]:
    """Header tanks aboard, the one that joins the ring first."""
    written = study.project.circuit
    joined: Any = written.header if written is not None else None
    tag = joined.unit if joined else None
    return tuple(sorted(of_kind(study.project, "header_tank"), key=lambda tank: tank.tag != tag))
