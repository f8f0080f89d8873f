"""What is a mode solved from? Valves, coolant, sources, emitters, rooms, pipes: in plain numbers."""

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from dossier.notation.records import dataclass
from dossier.physics.fluid import Fluid
from dossier.physics.network_solution import Solution
from dossier.sizing.balancing import Throttled
from dossier.sizing.emitters import EmitterModel
from dossier.sizing.hydraulics import Hydraulics
from dossier.sizing.modes import ModeState
from dossier.sizing.ring_heat import Way
from dossier.sizing.sources_of_heat import BurnerModel, RecoveryModel
from dossier.sizing.surroundings import PipeLoss, PipeLosses
from dossier.sizing.valve_positions import Control

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Setting:
    """All that a mode is solved from, besides the network.

    ``kv`` holds the flow factors of valves that are set (0 shut), ``controls`` the valves that find their
    own position, ``shut`` the runs that nothing passes: a pump that stands closes its own. ``rooms`` holds
    the air temperature (K) each emitter meets, ``running`` the emitters whose fans run, ``loads`` the heat
    (W) at which the room's thermostat holds an emitter, ``usual`` the temperature (K) of coolant that
    nothing warms.
    """

    state: ModeState
    kv: Mapping[str, float]
    fluid: Fluid
    burners: Mapping[str, BurnerModel]
    recoveries: Mapping[str, RecoveryModel]
    emitters: Mapping[str, EmitterModel]
    rooms: Mapping[str, float]
    running: frozenset[str]
    loads: Mapping[str, float]
    pipes: Mapping[str, PipeLoss]
    pipe_losses: PipeLosses
    usual: float
    throttled: tuple[Throttled, ...] = ()
    controls: tuple[Control, ...] = ()
    speed: Mapping[str, float] = field(default_factory=dict)
    shut: frozenset[str] = frozenset()

    @property
    def is_heated(self) -> bool:
        """Whether a source runs."""
        return bool(self.burners or self.recoveries)

    @cached_property
    def warmest(self) -> float:
        """Temperature to begin with where water was not met yet (K)."""
        return max((float(burner.setpoint) for burner in self.burners.values()), default=self.usual)


def ways_of(hydraulics: Hydraulics, solution: Solution) -> list[Way]:
    """Chains that water passes, in its direction."""
    ways = []
    for number, chain in enumerate(hydraulics.circuit.chains):
        flow = float(solution.mass_flow[number])
        start, end = hydraulics.node_of[chain.start], hydraulics.node_of[chain.end]
        if flow > 0:
            ways.append(Way(start, end, flow, chain.tags))
        elif flow < 0:
            ways.append(Way(end, start, -flow, chain.tags[::-1]))
    return ways


def properties(fluid: Fluid, at: Array) -> tuple[Array, Array]:
    """Density and viscosity at the temperature of each element; raises ``OutOfRange`` beyond the table."""
    density, viscosity = np.asarray(fluid.density(at)), np.asarray(fluid.viscosity(at))
    if np.isnan(density).any():
        fluid.density(float(at[int(np.argmax(np.isnan(density)))]))
    return density, viscosity
