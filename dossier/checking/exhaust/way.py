"""What all checks of the exhaust share: when they apply, and the way out they look at."""

from collections.abc import Callable
from functools import wraps
from typing import TYPE_CHECKING, TypeAlias

from dossier.checking.aboard import lacks
from dossier.checking.finding import Finding, Limit, not_applicable, not_assessed
from dossier.notation import NotAssessed
from dossier.project.model.entry import Answer
from dossier.sizing.exhaust import ExhaustStudy

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.commissioning import Commissioning
    from dossier.sizing.study import Study

Check: TypeAlias = Callable[["Study", Limit], Finding]
Rule: TypeAlias = Callable[["Project"], str]
"""Why a check does not apply to a project; empty where it does."""


def no_burner(project: "Project") -> str:
    """A circuit that is written out without a burner has no exhaust."""
    return "no burner is aboard" if lacks(project, "burner") else ""


def cannot_list(project: "Project") -> str:
    """A boat that cannot list is not looked at heeled."""
    angles = project.vessel.heel_angles if project.vessel else None
    return "the file says that she cannot list" if isinstance(angles, Answer) else ""


def stays_inshore(project: "Project") -> str:
    """A boat that meets no waves needs no freeboard for them."""
    at_sea = project.vessel.goes_to_sea if project.vessel else None
    return "the boat does not go to sea" if at_sea is False else ""


def of_exhaust(*rules: Rule) -> Callable[[Check], Check]:
    """A check of the exhaust: not applicable by a rule, not assessed where the file says nothing of it."""

    def wrapped(check: Check) -> Check:
        @wraps(check)
        def checked(study: "Study", limit: Limit) -> Finding:
            for rule in (no_burner, *rules):
                if why := rule(study.project):
                    return not_applicable(limit, why)
            if isinstance(study.exhaust, NotAssessed):
                asked = tuple(key for key in limit.row.inputs if key.startswith("exhaust."))
                return not_assessed(limit, asked or study.exhaust.needs)
            return check(study, limit)

        return checked

    return wrapped


def way_out(study: "Study") -> ExhaustStudy:
    """The way out that is looked at: the exhaust, or a candidate in its place."""
    if isinstance(study.exhaust, NotAssessed):
        raise TypeError(str(study.exhaust))
    return study.exhaust


def tests_of(study: "Study") -> "Commissioning | None":
    """Results of the tests; none for a candidate, which nobody has built."""
    return None if way_out(study).candidate else study.project.commissioning
