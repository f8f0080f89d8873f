"""Does a cold ring keep the engine cold? The first hour of an engine at its usual load.

The ring is as cold as the boat at first. It is one mixed volume that loses heat by its pipes alone, since
fans wait for warm water. Until the engine's thermostat opens, all its heat goes into the ring; from then on
its own cooler takes a share that grows in a straight line. Both stretches are exponentials: nothing is
stepped.
"""

from collections.abc import Callable
from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import Real, chosen, formula, q
from dossier.notation.records import dataclass
from dossier.physics.exchanger import Arrangement, exchanger_heat
from dossier.physics.store_warming import settled_temperature, time_to_reach
from dossier.sizing.sources_of_heat import RecoveryModel

HOUR = 3600.0
POINTS = 121
OPENS = q("t", "s", "until the engine's thermostat opens")
CONDUCTANCE = q("G", "W/K", "heat passed for each kelvin between jacket and ring", low=1e-6, high=1e5)


@formula("θ_j = θ_r + Φ_j/G", HEAT_BALANCE)
def jacket_over_ring(
    ring: Annotated[Real, q("θ_r", "K", "ring entering the exchanger", low=220, high=420)],
    heat: Annotated[Real, q("Φ_j", "W", "jacket heat", low=0, high=1e7)],
    passed: Annotated[Real, CONDUCTANCE],
) -> Annotated[Real, q("θ_j", "K", "jacket while the ring takes all its heat")]:
    """Jacket of an engine whose thermostat is shut: as far above the ring as its heat asks for."""
    return ring + heat / passed


@formula("θ_r = θ_th − Φ_j/G", HEAT_BALANCE)
def ring_at_opening(
    thermostat: Annotated[Real, q("θ_th", "K", "thermostat opens", low=273, high=423)],
    heat: Annotated[Real, q("Φ_j", "W", "jacket heat", low=0, high=1e7)],
    passed: Annotated[Real, CONDUCTANCE],
) -> Annotated[Real, q("θ_r", "K", "ring at which the engine's thermostat opens")]:
    """Ring that lets the jacket reach the opening of the engine's thermostat."""
    return thermostat - heat / passed


@dataclass(frozen=True)
class ColdRing:
    """What a ring takes to warm: heat capacity (J/K), loss (W/K) to air (K), and where it begins (K)."""

    capacity: Real
    loss: Real
    air: Real
    start: Real


@dataclass(frozen=True)
class ColdHour:
    """The first hour. ``opens_after`` is None where the thermostat never opens, or its setting is unknown."""

    start: Annotated[Real, q("θ_0", "K", "ring at the start")]
    jacket_at_start: Annotated[Real, q("θ_j", "K", "jacket held down by the cold ring")]
    opens_after: Annotated[Real | None, OPENS]
    times: NDArray[np.float64]
    ring: NDArray[np.float64]
    jacket: NDArray[np.float64]


def heat_per_kelvin(model: RecoveryModel, ring_rate: Real) -> Real:
    """Heat that the exchanger passes for each kelvin between jacket and ring (W/K)."""
    return exchanger_heat(
        Arrangement.COUNTERFLOW, model.conductance, model.engine_rate, ring_rate, 301.0, 300.0
    )


def cold_hour(model: RecoveryModel, ring_rate: Real, cold: ColdRing) -> ColdHour:
    """The first hour from a cold ring at a capacity rate through the exchanger (W/K)."""
    heat, passed = model.jacket_heat, heat_per_kelvin(model, ring_rate)
    opens_after: Real | None = None
    if model.thermostat is not None:
        settled = settled_temperature(cold.air, heat, cold.loss)
        mark = ring_at_opening(model.thermostat, heat, passed)
        if float(cold.start) >= float(mark):
            opens_after = chosen(
                0.0, OPENS, "the ring is warm enough at once", HEAT_BALANCE, cold.start, mark
            )
        elif float(mark) < float(settled):
            opens_after = time_to_reach(settled, cold.start, cold.loss, cold.capacity, mark)
    times = np.linspace(0.0, HOUR, POINTS)
    ring = _ring(model, float(passed), cold)(times)
    jacket = np.array([model.jacket(float(r), float(ring_rate)) for r in ring])
    return ColdHour(cold.start, jacket_over_ring(cold.start, heat, passed), opens_after, times, ring, jacket)


def _ring(
    model: RecoveryModel, passed: float, cold: ColdRing
) -> Callable[[NDArray[np.float64]], NDArray[np.float64]]:
    """Ring temperature (K) over time (s): all the engine's heat at first, then what its cooler leaves."""
    loss, capacity, air = float(cold.loss), float(cold.capacity), float(cold.air)
    start, heat = float(cold.start), float(model.jacket_heat)
    first = air + heat / loss
    parting, shared, level = _beyond_opening(model, passed)
    turns = np.inf
    if start >= parting:
        turns = 0.0
    elif parting < first:
        turns = -np.log1p(-(parting - start) / (first - start)) * capacity / loss
    second = (shared * level + loss * air) / (shared + loss)

    def ring(times: NDArray[np.float64]) -> NDArray[np.float64]:
        before = first + (start - first) * np.exp(-loss / capacity * np.minimum(times, turns))
        after = np.maximum(times - turns, 0.0)
        return second + (before - second) * np.exp(-(shared + loss) / capacity * after)

    return ring


def _beyond_opening(model: RecoveryModel, passed: float) -> tuple[float, float, float]:
    """Ring (K) from which the engine's cooler takes its share, and the heat the ring then gets.

    That heat is told as a conductance (W/K) from a fixed temperature (K) to the ring.
    """
    highest, opens = model.jacket_highest, model.thermostat
    if highest is None:
        return float("inf"), 0.0, 0.0
    lifted = float(model.jacket_heat) / passed
    if opens is None or float(highest) <= float(opens):
        return float(highest) - lifted, passed, float(highest)
    cooler = float(model.jacket_heat) / (float(highest) - float(opens))
    return float(opens) - lifted, passed * cooler / (passed + cooler), float(highest)
