"""All that is calculated for one project, in one place for checks and pages.

A calculation that could not be made is a ``NotAssessed`` with the keys it waits for.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dossier.notation import NotAssessed
from dossier.sizing.circuit import Circuit, circuit
from dossier.sizing.cold_start import ColdStart, cold_start
from dossier.sizing.combustion_air import AirStudy, combustion_air
from dossier.sizing.coolant import Coolant, coolant_study
from dossier.sizing.exhaust import ExhaustStudy, exhaust
from dossier.sizing.exhaust_candidates import candidates
from dossier.sizing.expansion import Expansion, expansion
from dossier.sizing.heat_loss import HeatLoss, heat_loss
from dossier.sizing.held import HeldRooms, held_rooms
from dossier.sizing.pressures import Pressures, pressures
from dossier.sizing.ring import Operation, RingStudy, ring_study

if TYPE_CHECKING:
    from dossier.project import Project


@dataclass(frozen=True)
class Study:
    """One project with everything calculated for it."""

    project: "Project"
    heat_loss: HeatLoss | NotAssessed
    circuit: Circuit | NotAssessed
    coolant: Coolant | NotAssessed
    ring: RingStudy | NotAssessed
    pressures: Pressures | NotAssessed
    expansion: Expansion | NotAssessed
    held: HeldRooms | NotAssessed
    cold_start: ColdStart | NotAssessed
    exhaust: ExhaustStudy | NotAssessed
    candidates: Mapping[str, ExhaustStudy]
    air: AirStudy | NotAssessed

    @property
    def operations(self) -> Mapping[str, Operation]:
        """Solved modes by name; none where the circuit could not be solved."""
        return {} if isinstance(self.ring, NotAssessed) else self.ring.operations


def study(project: "Project") -> Study:
    """Calculate everything the file gives enough for."""
    loss = heat_loss(project)
    graph = circuit(project)
    mix = coolant_study(project, graph)
    ring = ring_study(project, graph, loss, mix)
    pressed = pressures(project, ring, mix)
    way_out = exhaust(project, loss)
    return Study(
        project=project,
        heat_loss=loss,
        circuit=graph,
        coolant=mix,
        ring=ring,
        pressures=pressed,
        expansion=expansion(project, ring, mix, pressed),
        held=held_rooms(loss, ring),
        cold_start=cold_start(project, graph, mix, ring),
        exhaust=way_out,
        candidates=candidates(project, loss),
        air=combustion_air(project, way_out),
    )
