"""Temperature of a store or ring that is heated, drawn and loses to its surroundings, exact at any time.

One lumped heat capacity C with heat Φ and loss H settles at θ_a + Φ/H by e^(−H·t/C).
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import HEAT_BALANCE, LUMPED_CAPACITY
from dossier.notation import OutOfRange, Quantity, Real, formula, lines_behind, q
from dossier.physics.root import are_samples

LOSS = q("H", "W/K", "loss for each kelvin", low=1e-3, high=1e5)
HEAT_CAPACITY = q("C", "J/K", "heat capacity", low=1, high=1e9)
START = q("θ_0", "K", "temperature at the start", low=220, high=420)
SETTLED = q("θ_∞", "K", "temperature where heat and loss balance", low=-1e5, high=1e5)


@formula("θ_∞ = θ_a + Φ/H", HEAT_BALANCE)
def settled_temperature(
    surroundings: Annotated[Real, q("θ_a", "K", "surroundings", low=220, high=350)],
    heat: Annotated[Real, q("Φ", "W", "heat in, less heat drawn", low=-1e5, high=1e5)],
    loss: Annotated[Real, LOSS],
) -> Annotated[Real, q("θ_∞", "K", "temperature where heat and loss balance")]:
    """Temperature at which losses balance a heat: of a ring that engine heat warms while nobody calls."""
    return surroundings + heat / loss


@formula("θ = θ_∞ + (θ_0 − θ_∞) · e^(−H · t/C)", LUMPED_CAPACITY)
def store_temperature(
    settled: Annotated[Real, SETTLED],
    start: Annotated[Real, START],
    loss: Annotated[Real, LOSS],
    capacity: Annotated[Real, HEAT_CAPACITY],
    time: Annotated[Real, q("t", "s", "time since", low=0, high=1e8)],
) -> Annotated[Real, q("θ", "K", "temperature after that time")]:
    """Temperature of a store after a time."""
    return settled + (start - settled) * np.exp(-loss * time / capacity)


@formula("t = C/H · ln((θ_∞ − θ_0)/(θ_∞ − θ))", LUMPED_CAPACITY)
def time_to_reach(
    settled: Annotated[Real, SETTLED],
    start: Annotated[Real, START],
    loss: Annotated[Real, LOSS],
    capacity: Annotated[Real, HEAT_CAPACITY],
    goal: Annotated[Real, q("θ", "K", "temperature to reach", low=220, high=420)],
) -> Annotated[Real, q("t", "s", "time to reach it", low=0)]:
    """Time until a store reaches a temperature.

    Raises ``OutOfRange`` where it never does: the goal must lie between start and settling; samples: NaN.
    """
    share = (goal - start) / np.where(settled == start, np.nan, settled - start)
    reached = (goal == start) | ((share >= 0) & (share < 1))
    if not are_samples(share) and not reached:
        low, high = sorted((float(start), float(settled)))
        told = Quantity("θ", "K", "temperature to reach", low, high)
        raise OutOfRange("warming of a store", "goal", told, float(goal), LUMPED_CAPACITY, lines_behind(goal))
    part = np.where(reached & (goal != start), share, 0.0)
    time: Real = np.where(reached, -np.log1p(-part) * capacity / loss, np.nan)[()]
    return time
