"""All that is calculated for one project, in one place for checks and pages.

A calculation that could not be made is a ``NotAssessed`` with the keys it waits for.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from dossier.notation import NotAssessed
from dossier.sizing.circuit import Circuit, circuit
from dossier.sizing.heat_loss import HeatLoss, heat_loss

if TYPE_CHECKING:
    from dossier.project import Project


@dataclass(frozen=True)
class Study:
    """One project with everything calculated for it."""

    project: "Project"
    heat_loss: HeatLoss | NotAssessed
    circuit: Circuit | NotAssessed


def study(project: "Project") -> Study:
    """Calculate everything the file gives enough for."""
    return Study(project, heat_loss(project), circuit(project))
