"""What an answer tells: flows, pressures, drops, and what stands still, is blocked or beyond its curve."""

from collections.abc import Mapping
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from dossier.notation.records import dataclass
from dossier.physics.network_laws import Laws
from dossier.physics.network_newton import LEAST_FLOW, Outcome
from dossier.physics.network_topology import Parts
from dossier.physics.pump import STANDARD_GRAVITY

if TYPE_CHECKING:
    from dossier.physics.network import Network

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

STANDS_STILL = 1e-9
"""Share of the largest flow up to which a run counts as standing still."""

AT_THE_END = 1e-9
"""Share of its last point by which a flow may pass the end of a curve and still count as on it."""


@dataclass(frozen=True)
class Residual:
    """How far an answer is from exact: ``flow`` over the largest, ``energy`` over the largest pressure."""

    flow: float
    energy: float


@dataclass(frozen=True)
class Solution:
    """Flows and pressures of a circuit in one state; arrays follow the order of its runs, nodes, elements.

    ``mass_flow`` (kg/s, by run) is negative against the run's direction.
    """

    network: "Network"
    laws: Laws
    mass_flow: Array
    heads: Array
    open_runs: Mask
    held: Mapping[str, float]
    iterations: int
    residual: Residual
    still: Mask
    shut_by_flow: Mask
    parts: Parts

    @classmethod
    def of(
        cls,
        network: "Network",
        laws: Laws,
        outcome: Outcome,
        open_runs: Mask,
        held: Mapping[str, float],
        found: Parts,
    ) -> "Solution":
        """Answer of a search, with what stands still set to nothing."""
        flow = outcome.flow
        size = np.abs(flow)
        still = (size <= max(STANDS_STILL * float(size.max()), LEAST_FLOW)) & open_runs
        return cls(
            network=network,
            laws=laws,
            mass_flow=np.where(still, 0.0, flow),
            heads=outcome.heads,
            open_runs=open_runs,
            held=held,
            iterations=outcome.steps,
            residual=Residual(float(outcome.flow_residual), float(outcome.energy_residual)),
            still=still,
            shut_by_flow=laws.elements.one_way & still & (flow < 0),
            parts=found,
        )

    @cached_property
    def standing_still(self) -> tuple[str, ...]:
        """Open runs without flow, by name; those that a check valve blocks are not among them."""
        return self._names(self.still & ~self.shut_by_flow)

    @cached_property
    def blocked(self) -> tuple[str, ...]:
        """Runs that a check valve closes against the flow, by name."""
        return self._names(self.shut_by_flow)

    @cached_property
    def closed(self) -> tuple[str, ...]:
        """Runs that are shut, by name."""
        return tuple(name for name in self._names(~self.open_runs) if name not in self.held)

    @cached_property
    def adrift(self) -> tuple[tuple[str, ...], ...]:
        """Parts of the circuit whose pressure nothing holds, each by the names of its nodes."""
        nodes = self.network.nodes
        return tuple(tuple(nodes[place].name for place in part) for part in self.parts.adrift)

    def _names(self, runs: Mask) -> tuple[str, ...]:
        return tuple(self.network.runs[place].name for place in np.flatnonzero(runs))

    @cached_property
    def volume_flow(self) -> Array:
        """Volume flow through each element at its own density (m³/s)."""
        flow: Array = self.mass_flow[self.laws.elements.run] / self.laws.density
        return flow

    @cached_property
    def velocity(self) -> Array:
        """Mean velocity in each pipe or fitting (m/s); NaN where an element has no bore."""
        return self.volume_flow / (np.pi / 4 * self.laws.elements.bore**2)

    @cached_property
    def reynolds(self) -> Array:
        """Reynolds number in each pipe; NaN elsewhere."""
        number = np.full(len(self.laws.elements.names), np.nan)
        pipes = self.laws.elements.pipes
        number[pipes.elements] = np.abs(self.mass_flow[pipes.runs]) * self.laws.reynolds_per_flow
        return number

    @cached_property
    def drop(self) -> Array:
        """Drop over each element, without its height (Pa); negative for a pump that lifts.

        In a run that is closed or blocked, the valve that does it takes what stands between its ends.
        """
        drops = self.laws.element_drops(self.mass_flow)
        for run in np.flatnonzero(self._shutting):
            drops[self._shutter(int(run))] += self.surplus[run]
        return drops

    @cached_property
    def run_drop(self) -> Array:
        """Drop over each run (Pa): what its elements take less what its pumps give, without its height."""
        return self.laws.by_run(self.laws.element_drops(self.mass_flow))

    @cached_property
    def surplus(self) -> Array:
        """What stands between the ends of each run beyond its own drops (Pa).

        In a held run: what its valve has to take up, negative where the pumps fall short by so much. In a
        closed run: the difference across what closes it. In an open one: nothing, but for the residual.
        """
        heads = self.heads
        between: Array = heads[self.network.start] - heads[self.network.end] - self.laws.buoyancy
        return between - self.run_drop

    @cached_property
    def pressure(self) -> Array:
        """Absolute pressure at each node (Pa); NaN where nothing holds it."""
        reference = float(self.laws.reference)
        level = self.network.datum(reference)
        absolute: Array = self.heads + level - reference * STANDARD_GRAVITY * self.network.height
        loose = [self.network.node_index[name] for part in self.adrift for name in part]
        absolute[loose] = np.nan
        return absolute

    @cached_property
    def inlet_pressure(self) -> Array:
        """Absolute pressure at the inlet of each element (Pa), the side its run comes from."""
        elements = self.laws.elements
        falls = self.drop + self.laws.density * elements.rise * STANDARD_GRAVITY
        total = np.cumsum(falls) - falls
        first = np.searchsorted(elements.run, elements.run, side="left")
        inlet: Array = self.pressure[self.network.start[elements.run]] - (total - total[first])
        return inlet

    @cached_property
    def beyond(self) -> tuple[str, ...]:
        """Pumps and tables whose flow lies outside their points."""
        found = []
        for piece in self.laws.elements.pieces:
            name = self.laws.elements.names[piece.element]
            speed = float(self.laws.speed.get(piece.element, piece.speed))
            flow = float(self.volume_flow[piece.element]) / speed
            slack = AT_THE_END * float(piece.flows[-1])
            if not piece.flows[0] - slack <= flow <= piece.flows[-1] + slack:
                found.append(name)
        return tuple(found)

    @property
    def _shutting(self) -> Mask:
        """Runs that something closes: shut or blocked, but not held."""
        held = [self.network.run_index[name] for name in self.held]
        closed = ~self.open_runs
        closed[held] = False
        return closed | self.shut_by_flow

    def _shutter(self, run: int) -> int:
        """Element that closes a run: its shut valve, else its check valve, else its last element."""
        elements = self.laws.elements
        own = np.flatnonzero(elements.run == run)
        shut = own[self.laws.closed[own]]
        check = own[elements.checks[own]]
        return int((shut if len(shut) else check if len(check) else own)[-1])
