"""Warming a cold boat: how long from the start temperature, and what power a wanted time asks for.

Lining, furniture and air of a zone are one lumped capacity. An emitter gives a steady heat, or one that
falls in step with the room's temperature, which is the same as a conductance towards its water: add that to
H and its water to what lies beyond, and the closed forms hold. Any other emitter is a function of the room's
temperature.
"""

from collections.abc import Callable
from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from dossier.data.sources import HEAT_BALANCE, LUMPED_CAPACITY
from dossier.notation import PRACTICE, Real, formula, q

_CAPACITY = q("C", "J/K", "heat capacity of the zone", low=1, high=1e12)
_CONDUCTANCE = q("H", "W/K", "conductance to all that lies beyond", low=1e-3, high=1e6)
_START = q("θ_0", "K", "temperature at the start", low=213, high=373)
_TARGET = q("θ_t", "K", "temperature to be held", low=213, high=373)
_BEYOND = q("θ_e", "K", "temperature beyond", low=213, high=373)
_RISE = q("r", "1", "share of the rise from start to target", low=0, high=1)


@formula("C = c_V·V", PRACTICE)
def zone_capacity(
    capacity_by_volume: Annotated[Real, q("c_V", "J/m3K", "heat capacity for each m³", low=1000, high=5e6)],
    volume: Annotated[Real, q("V", "m3", "volume of the zone", low=0, high=2000)],
) -> Annotated[Real, q("C", "J/K", "heat capacity of the zone", low=0)]:
    """Lumped heat capacity of lining, furniture and air."""
    return capacity_by_volume * volume


@formula("θ_w = θ_0 + r·(θ_t − θ_0)", PRACTICE)
def temperature_wanted(
    start: Annotated[Real, _START], target: Annotated[Real, _TARGET], share: Annotated[Real, _RISE]
) -> Annotated[Real, q("θ_w", "K", "temperature that counts as warm")]:
    """Temperature at which a share of the rise is reached."""
    return start + share * (target - start)


@formula("τ = C/H", LUMPED_CAPACITY)
def time_constant(
    capacity: Annotated[Real, _CAPACITY], conductance: Annotated[Real, _CONDUCTANCE]
) -> Annotated[Real, q("τ", "s", "time constant of the zone", low=0)]:
    """Time in which a zone without heating loses 63 % of its difference."""
    return capacity / conductance


@formula("Δθ_∞ = θ_e + Φ/H − θ_0", HEAT_BALANCE)
def settled_rise(
    beyond: Annotated[Real, _BEYOND],
    heat: Annotated[Real, q("Φ", "W", "heat put into the zone", low=-1e6, high=1e6)],
    conductance: Annotated[Real, _CONDUCTANCE],
    start: Annotated[Real, _START],
) -> Annotated[Real, q("Δθ_∞", "K", "rise that would be reached in the end")]:
    """Rise above the start at which the loss equals the heat."""
    return beyond + heat / conductance - start


@formula("x = (θ_w − θ_0)/Δθ_∞", LUMPED_CAPACITY)
def share_of_settled_rise(
    wanted: Annotated[Real, q("θ_w", "K", "temperature that counts as warm", low=213, high=373)],
    start: Annotated[Real, _START],
    settled: Annotated[Real, q("Δθ_∞", "K", "rise that would be reached in the end", low=1e-3, high=1e9)],
) -> Annotated[Real, q("x", "1", "share of the rise that would be reached in the end")]:
    """How much of the way to the settled temperature has to be gone; 1 or more is never reached."""
    return (wanted - start) / settled


@formula("t = −τ·ln(1 − x)", LUMPED_CAPACITY)
def warm_up_time(
    constant: Annotated[Real, q("τ", "s", "time constant of the zone", low=0, high=1e9)],
    share: Annotated[Real, q("x", "1", "share of the rise reached in the end", low=0, high=1 - 1e-9)],
) -> Annotated[Real, q("t", "s", "warm-up time", low=0)]:
    """Time until a share of the settled rise is reached with steady heat."""
    return -constant * np.log1p(-share)


@formula("Φ_RH = H·(θ_0 + (θ_w − θ_0)/(1 − exp(−t/τ)) − θ_t), at least 0, τ = C/H", LUMPED_CAPACITY)
def extra_power(
    capacity: Annotated[Real, _CAPACITY],
    conductance: Annotated[Real, _CONDUCTANCE],
    start: Annotated[Real, _START],
    wanted: Annotated[Real, q("θ_w", "K", "temperature that counts as warm", low=213, high=373)],
    target: Annotated[Real, _TARGET],
    time: Annotated[Real, q("t", "s", "wanted warm-up time", low=60, high=1e6)],
) -> Annotated[Real, q("Φ_RH", "W", "extra power for the wanted warm-up time", low=0)]:
    """Steady power above the load at the target that warms the zone in the wanted time."""
    reached = -np.expm1(-time * conductance / capacity)
    return np.maximum(conductance * (start + (wanted - start) / reached - target), 0.0)


def time_to_warm(
    capacity: float, conductance: float, heat: float, beyond: float, start: float, wanted: float
) -> Real:
    """Warm-up time (s) with steady heat (W); 0 where the zone is warm, infinite where heat is lacking."""
    if wanted <= start:
        return 0.0
    settled = settled_rise(beyond, heat, conductance, start)
    if settled * (1 - 1e-9) <= wanted - start:
        return np.inf
    share = share_of_settled_rise(wanted, start, settled)
    return warm_up_time(time_constant(capacity, conductance), share)


def time_with_emitter(
    capacity: float,
    conductance: float,
    beyond: float,
    start: float,
    wanted: float,
    emitter: Callable[[NDArray[np.float64]], NDArray[np.float64]],
) -> float:
    """Warm-up time (s) with an emitter whose heat depends on the room (K to W, on arrays).

    The heat balance is integrated over temperature by Gauss-Legendre on 64 pieces; infinite where the heat
    ceases to exceed the loss. For an emitter that falls straight the result is exact to 1e-9.
    """
    if wanted <= start:
        return 0.0
    nodes, weights = np.polynomial.legendre.leggauss(8)
    edges = np.linspace(start, wanted, 65)
    half = np.diff(edges)[:, np.newaxis] / 2
    temperatures = (edges[:-1, np.newaxis] + half) + half * nodes
    surplus = emitter(temperatures) - conductance * (temperatures - beyond)
    at_the_end = emitter(np.array([wanted]))[0] - conductance * (wanted - beyond)
    if np.any(surplus <= 0) or at_the_end <= 0:
        return np.inf
    return float(np.sum(capacity / surplus * half * weights))
