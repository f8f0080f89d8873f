"""Which other ways out are there, and how do they compare?"""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from dossier.notation import NotAssessed
from dossier.sizing.exhaust import ExhaustStudy, study_of

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.exhaust import Exhaust, ExhaustRun
    from dossier.sizing.heat_loss import HeatLoss

OTHER_WAY = ("route", "length")
"""Keys that lay the way: a candidate that states one of them does not take the other from the exhaust."""


def stated_keys(run: "ExhaustRun") -> frozenset[str]:
    """Keys a candidate states itself."""
    fields = type(run).model_fields
    return frozenset(name for name in fields if name != "name" and getattr(run, name) is not None)


def filled(run: "ExhaustRun", exhaust: "Exhaust") -> "ExhaustRun":
    """A candidate with what it leaves out as in the exhaust."""
    own = stated_keys(run)
    left = type(run).model_fields.keys() - own - {"name"}
    if own & set(OTHER_WAY):
        left -= set(OTHER_WAY)
    return run.model_copy(update={name: getattr(exhaust, name) for name in left})


def candidates(project: "Project", heat_loss: "HeatLoss | NotAssessed") -> Mapping[str, ExhaustStudy]:
    """Study of each candidate by its name, in the order of the file."""
    exhaust = project.exhaust
    if exhaust is None:
        return {}
    return {
        name: study_of(project, heat_loss, filled(run, exhaust), name, stated_keys(run))
        for name, run in (exhaust.candidates or {}).items()
    }
