"""Which valve must be set to what, so that every branch gets its share?

The valves of the calling branches are throttled until all of them get the same multiple of the flow their
zones call for; the index branch keeps its valve fully open.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import NotConverged, Real, formula, q
from dossier.physics.network import Network
from dossier.physics.network_solution import Solution
from dossier.physics.valves import SQUARE

CLOSE = 1e-11
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


def balanced(  # noqa: PLR0913, PLR0917 - the state of a network
    network: Network,
    density: NDArray[np.float64],
    viscosity: NDArray[np.float64],
    kv: Mapping[str, float],
    branches: Sequence[Throttled],
    guess: float = 1.0,
) -> Balance:
    """Presets that give all branches the same multiple of their wanted flow, as much as the pump can.

    ``kv`` holds the settings of all other valves. Raises ``NotConverged`` where no multiple can be proven.
    """
    settings = {**kv, **{branch.valve: branch.full_kv for branch in branches}}
    places = [network.run_index[branch.run] for branch in branches]
    near: Solution | None = None

    def spare(share: float) -> tuple[float, NDArray[np.float64], Solution]:
        nonlocal near
        held = {branch.run: share * branch.wanted for branch in branches}
        near = network.solve(density, viscosity, kv=settings, held=held, start=near)
        left = near.surplus[places]
        return float(left.min()), left, near

    top = spare(0.0)[0]
    if top <= 0:
        raise NotConverged("the pump has no head to spare for any branch")
    # What is to spare falls nearly as the square of the share: chords in the square lead there soon.
    low, high = 0.0, float("inf")
    before, at_before = 0.0, top
    square = max(guess, 1e-3) ** 2
    for _ in range(STEPS):
        least, left, found = spare(square**0.5)
        if abs(least) <= CLOSE * top or high - low <= CLOSE * low:
            break
        low, high = (square, high) if least > 0 else (low, square)
        chord = square - least * (square - before) / (least - at_before) if least != at_before else low
        before, at_before = square, least
        if not low < chord < high:
            chord = 4 * low if high == float("inf") else (low + high) / 2
        square = chord
    else:
        raise NotConverged("no share of the wanted flows could be proven for the branches")
    return _presets(network, density, viscosity, kv, branches, left, square**0.5, found)


def _presets(  # noqa: PLR0913, PLR0917 - the state of a network
    network: Network,
    density: NDArray[np.float64],
    viscosity: NDArray[np.float64],
    kv: Mapping[str, float],
    branches: Sequence[Throttled],
    left: NDArray[np.float64],
    share: float,
    held: Solution,
) -> Balance:
    presets = {}
    for branch, surplus in zip(branches, left, strict=True):
        place = network.element_index[branch.valve]
        flow = share * branch.wanted / float(density[place])
        own = float(SQUARE * density[place]) * (flow / branch.full_kv) ** 2
        drop = own + max(float(surplus), 0.0)
        found = flow * float(np.sqrt(SQUARE * density[place] / drop)) if drop > 0 else branch.full_kv
        presets[branch.valve] = branch.full_kv if found > OPEN * branch.full_kv else found
    index = branches[int(np.argmin(left))].valve
    solution = network.solve(density, viscosity, kv={**kv, **presets}, start=held)
    return Balance(presets, share, index, solution)
