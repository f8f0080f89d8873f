"""Which valve must be set to what, so that every branch gets its share?

The valves of the calling branches are throttled until all of them get the same multiple of the flow their
zones call for; the index branch keeps its valve fully open.
"""

from collections.abc import Mapping, Sequence
from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import NotConverged, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.network import Network
from dossier.physics.network_solution import Solution
from dossier.physics.valves import SQUARE

Array = NDArray[np.float64]

CLOSE = 1e-7
"""Spare pressure of the index branch that counts as none, over what there is at no flow."""

NEAR = 2e-2
STEPS = 80
OPEN = 0.999
"""Share of its full flow factor from which a valve counts as fully open."""


@formula("q_V = Φ/(ρ·c_p·Δθ)", HEAT_BALANCE)
def wanted_flow(
    load: Annotated[Real, q("Φ", "W", "heat to bring", low=0, high=1e6)],
    density: Annotated[Real, q("ρ", "kg/m3", "density of the coolant", low=800, high=1300)],
    specific_heat: Annotated[Real, q("c_p", "J/kgK", "specific heat of the coolant", low=2000, high=5000)],
    drop: Annotated[Real, q("Δθ", "K", "cooling of the water", low=0.5, high=80)],
) -> Annotated[Real, q("q_V", "m3/s", "flow called for")]:
    """Flow that brings a load at a given cooling of the water."""
    return load / (density * specific_heat * drop)


@dataclass(frozen=True)
class Throttled:
    """A branch to be balanced: its run, its valve, and the mass flow its load calls for (kg/s)."""

    run: str
    valve: str
    full_kv: float
    wanted: float


@dataclass(frozen=True)
class Balance:
    """Flow factors found (m³/h), by valve; the multiple of the wanted flows that all branches get.

    ``index`` names the valve that stays open: that of the least favoured branch.
    """

    presets: Mapping[str, float]
    share: float
    index: str
    solution: Solution


class Balancing:
    """Balancing on the way, beside flow and temperature that are still being found.

    What the index branch has to spare falls nearly as the square of the common share, so each turn takes
    one solution and corrects the square by its slope.
    """

    def __init__(
        self, network: Network, kv: Mapping[str, float], branches: Sequence[Throttled], shut: frozenset[str]
    ) -> None:
        self.network, self.branches, self.shut = network, branches, shut
        self.kv = {**kv, **{branch.valve: branch.full_kv for branch in branches}}
        self.places = [network.run_index[branch.run] for branch in branches]
        self.square, self.slope, self.top = 1.0, 0.0, 0.0
        self.left = np.zeros(len(branches))
        self.solution: Solution | None = None

    @property
    def share(self) -> float:
        """Multiple of the wanted flows that all branches get."""
        return float(np.sqrt(self.square))

    @property
    def is_close(self) -> bool:
        """Whether the index branch has nothing to spare."""
        return abs(float(self.left.min())) <= CLOSE * self.top

    def solve(self, density: Array, viscosity: Array, square: float) -> float:
        """Flows with the branches held at a share; what the index branch has to spare (Pa)."""
        self.square = square
        held = {branch.run: self.share * branch.wanted for branch in self.branches}
        self.solution = self.network.solve(
            density, viscosity, kv=self.kv, held=held, shut=self.shut, start=self.solution
        )
        self.left = self.solution.surplus[self.places]
        return float(self.left.min())

    def begin(self, density: Array, viscosity: Array) -> Solution:
        """A share near the right one; raises ``NotConverged`` where there is none."""
        self.top = self.solve(density, viscosity, 0.0)
        if self.top <= 0:
            raise NotConverged(
                "the pump has no head to spare for the branches of "
                + ", ".join(branch.valve for branch in self.branches)
            )
        low, at_low, high = 0.0, self.top, float("inf")
        square = 1.0
        for _ in range(STEPS):
            least = self.solve(density, viscosity, square)
            self.slope = (least - at_low) / (square - low)
            if abs(least) <= NEAR * self.top:
                return self._now()
            if least > 0:
                low, at_low = square, least
            else:
                high = square
            chord = square - least / self.slope
            if not low < chord < high:
                chord = 4 * square if high == float("inf") else (low + high) / 2
            square = min(chord, 16 * square)
        raise NotConverged(
            "no share of the wanted flows could be proven for the branches of "
            + ", ".join(branch.valve for branch in self.branches)
        )

    def go_on(self, density: Array, viscosity: Array) -> Solution:
        """One turn: the share corrected by what was left over, and its flows."""
        square, left = self.square, float(self.left.min())
        better = square - left / self.slope
        least = self.solve(density, viscosity, better if better > 0 else square / 4)
        if abs(self.square - square) > 1e-7 * square and (least - left) * (self.square - square) < 0:
            self.slope = (least - left) / (self.square - square)
        return self._now()

    def _now(self) -> Solution:
        if self.solution is None:
            raise NotConverged("nothing was balanced yet")
        return self.solution

    def finished(self, density: Array, viscosity: Array) -> Balance:
        """The presets, and the flows with every valve set to its own."""
        presets = {}
        for branch, surplus in zip(self.branches, self.left, strict=True):
            place = self.network.element_index[branch.valve]
            flow = self.share * branch.wanted / float(density[place])
            own = float(SQUARE * density[place]) * (flow / branch.full_kv) ** 2
            drop = own + max(float(surplus), 0.0)
            found = flow * float(np.sqrt(SQUARE * density[place] / drop)) if drop > 0 else branch.full_kv
            presets[branch.valve] = branch.full_kv if found > OPEN * branch.full_kv else found
        index = self.branches[int(np.argmin(self.left))].valve
        solution = self.network.solve(
            density, viscosity, kv={**self.kv, **presets}, shut=self.shut, start=self.solution
        )
        return Balance(presets, self.share, index, solution)
