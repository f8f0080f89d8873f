"""What does shutting one emitter do to the others? Opening and closing them one at a time."""

from collections.abc import Mapping
from typing import Annotated

import numpy as np

from dossier.notation import NotAssessed, NotConverged, Real, q
from dossier.notation.records import dataclass
from dossier.physics.network_batch import solve_batch
from dossier.physics.network_elements import CircuitFault
from dossier.sizing.ring import RingStudy

QUESTION = "What does shutting one emitter do to the others?"


@dataclass(frozen=True)
class Influenced:
    """Flow through an emitter or a bypass when another is shut, over its flow with all open."""

    tag: str
    flow: Annotated[Real, q("q_V", "m3/s", "flow with the other shut")]
    ratio: Annotated[Real, q("r", "1", "flow over its flow with all open")]


@dataclass(frozen=True)
class Interaction:
    """One emitter shut in the design mode: what the others and the burner get."""

    shut: str
    others: Mapping[str, Influenced]
    burner: Mapping[str, Influenced]


def interaction(ring: RingStudy | NotAssessed) -> tuple[Interaction, ...] | NotAssessed:
    """Each emitter of the design mode shut in turn, liquid and presets as in that mode.

    The flows are those right after it shuts: the temperatures of the others follow slowly.
    """
    if isinstance(ring, NotAssessed):
        return ring
    design = ring.design
    if design is None:
        return NotAssessed(QUESTION, ("modes.heating",), next(iter(ring.not_solved.values()), ""))
    hydraulics, outcome = ring.hydraulics, design.outcome
    network = hydraulics.network
    moving = [tag for tag in ring.emitters if float(design.flows.edges[tag].flow) > 0]
    if not moving:
        return NotAssessed(QUESTION, ("components.fan_coil",), "no emitter has flow in the design mode")
    base = network.open_runs(design.setting.shut, outcome.kv)
    open_runs = np.repeat(base[:, None], len(moving), axis=1)
    for case, tag in enumerate(moving):
        open_runs[hydraulics.run_of[tag], case] = False
    try:
        batch = solve_batch(
            network,
            outcome.density,
            outcome.viscosity,
            open_runs,
            kv={tag: kv for tag, kv in outcome.kv.items() if kv > 0},
        )
    except (NotConverged, CircuitFault) as reason:
        return NotAssessed(QUESTION, (), str(reason))
    watched = [*moving, *(place.tag for place in hydraulics.circuit.of_kind("bypass_valve"))]
    burners = [place.tag for place in hydraulics.circuit.of_kind("burner")]
    rows = []
    for case, shut in enumerate(moving):

        def influenced(tag: str, case: int = case) -> Influenced:
            run = hydraulics.run_of[tag]
            flow = float(batch.mass_flow[run, case])
            before = float(outcome.solution.mass_flow[run])
            ratio = flow / before if before else 0.0
            return Influenced(tag, ratio * float(design.flows.edges[tag].flow), ratio)

        rows.append(
            Interaction(
                shut,
                {tag: influenced(tag) for tag in watched if tag != shut},
                {tag: influenced(tag) for tag in burners},
            )
        )
    return tuple(rows)
