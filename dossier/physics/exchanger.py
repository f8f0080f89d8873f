"""How much heat passes between two flows: effectiveness and number of transfer units.

    NTU = transfer_units(UA, Ċ_min)
    ε = effectiveness(arrangement, NTU, C_r)
    Φ = exchanged_heat(ε, C_min, hot_in, cold_in)

Effectivenesses are written with φ(x) = (1 − e^−x)/x, so that C_r = 0 and C_r = 1 are ordinary places. The
crossflow of two unmixed flows is the usual approximation: up to NTU 6 it is within 0.011 of the exact series
(worst near NTU 0.5 and C_r 1); beyond, at a trickle of water, it falls short, by 0.02 at NTU 10. The
conductance behind a maker's rated point stands in ``rated_point``.
"""

from enum import Enum
from math import expm1
from typing import Annotated

import numpy as np

from dossier.data.sources import EFFECTIVENESS_NTU, HEAT_BALANCE, LOG_MEAN_DIFFERENCE
from dossier.notation import Formula, Real, formula, q

NTU = q("NTU", "1", "number of transfer units", low=0, high=1e12)
RATIO = q("C_r", "1", "ratio of the capacity rates", low=0, high=1)
EFFECTIVENESS = q("ε", "1", "effectiveness", low=0, high=1)
CAPACITY_RATE = q("Ċ", "W/K", "heat capacity rate", low=0, high=1e6)
LEAST_RATE = q("Ċ_min", "W/K", "smaller capacity rate", low=0, high=1e6)
CONDUCTANCE = q("UA", "W/K", "conductance of the exchanger", low=0, high=1e5)
HOT_IN = q("θ_h", "K", "hot flow entering", low=200, high=1000)
COLD_IN = q("θ_c", "K", "cold flow entering", low=200, high=1000)
HEAT = q("Φ", "W", "heat exchanged", low=-1e6, high=1e6)
INLET = q("θ_in", "K", "entering", low=200, high=1000)
STANDSTILL = 1e-6
"""Capacity rate (W/K) below which a flow counts as standing still."""


class Arrangement(str, Enum):
    """How two flows pass each other; in crossflow, which of them is mixed."""

    COUNTERFLOW = "counterflow"
    PARALLEL = "parallel"
    CROSSFLOW = "crossflow, both unmixed"
    CROSSFLOW_LEAST_MIXED = "crossflow, smaller capacity rate mixed"
    CROSSFLOW_GREATEST_MIXED = "crossflow, greater capacity rate mixed"


def mean_decay(exponent: Real) -> Real:
    """Mean of e^−x from 0 to the exponent: (1 − e^−x)/x, 1 at 0."""
    if not isinstance(exponent, np.ndarray):
        return -expm1(-exponent) / exponent if exponent else 1.0
    safe = np.where(exponent == 0, 1.0, exponent)
    return np.where(exponent == 0, 1.0, -np.expm1(-safe) / safe)


@formula("Ċ = q_V · ρ · c_p", HEAT_BALANCE)
def capacity_rate(
    flow: Annotated[Real, q("q_V", "m3/s", "volume flow", low=0, high=10)],
    density: Annotated[Real, q("ρ", "kg/m3", "density", low=0.1, high=1500)],
    specific_heat: Annotated[Real, q("c_p", "J/kgK", "specific heat", low=500, high=5000)],
) -> Annotated[Real, q("Ċ", "W/K", "heat capacity rate", low=0)]:
    """Heat a flow carries for each kelvin."""
    return flow * density * specific_heat


@formula("Ċ_min = min(Ċ_1, Ċ_2)", EFFECTIVENESS_NTU)
def smaller_rate(
    one: Annotated[Real, q("Ċ_1", "W/K", "capacity rate of one flow", low=0, high=1e6)],
    other: Annotated[Real, q("Ċ_2", "W/K", "capacity rate of the other flow", low=0, high=1e6)],
) -> Annotated[Real, LEAST_RATE]:
    """Smaller of two capacity rates: its flow changes its temperature most."""
    return np.minimum(one, other)


@formula("C_r = min(Ċ_1, Ċ_2)/max(Ċ_1, Ċ_2)", EFFECTIVENESS_NTU)
def rate_ratio(
    one: Annotated[Real, q("Ċ_1", "W/K", "capacity rate of one flow", low=0, high=1e6)],
    other: Annotated[Real, q("Ċ_2", "W/K", "capacity rate of the other flow", low=0, high=1e6)],
) -> Annotated[Real, RATIO]:
    """Ratio of two capacity rates; 0 where both flows stand still."""
    greater = np.maximum(one, other)
    return np.minimum(one, other) / np.maximum(greater, np.finfo(float).tiny)


@formula("NTU = UA/Ċ_min", EFFECTIVENESS_NTU)
def transfer_units(
    conductance: Annotated[Real, CONDUCTANCE],
    least_rate: Annotated[Real, q("Ċ_min", "W/K", "smaller capacity rate", low=STANDSTILL, high=1e6)],
) -> Annotated[Real, q("NTU", "1", "number of transfer units", low=0)]:
    """Size of an exchanger against the flow through it."""
    return conductance / least_rate


@formula("ε = (1 − e^(−NTU·(1 − C_r)))/(1 − C_r·e^(−NTU·(1 − C_r)))", EFFECTIVENESS_NTU)
def effectiveness_counterflow(
    units: Annotated[Real, NTU], ratio: Annotated[Real, RATIO]
) -> Annotated[Real, EFFECTIVENESS]:
    """Effectiveness of counterflow, the best there is: plate exchangers."""
    reach = units * mean_decay(units * (1 - ratio))
    return np.minimum(reach / (1 + ratio * reach), 1.0)  # rounding may pass 1


@formula("ε = (1 − e^(−NTU·(1 + C_r)))/(1 + C_r)", EFFECTIVENESS_NTU)
def effectiveness_parallel(
    units: Annotated[Real, NTU], ratio: Annotated[Real, RATIO]
) -> Annotated[Real, EFFECTIVENESS]:
    """Effectiveness of flows in the same direction, the worst there is."""
    return -np.expm1(-units * (1 + ratio)) / (1 + ratio)


@formula("ε = 1 − exp(NTU^0.22/C_r · (e^(−C_r·NTU^0.78) − 1))", EFFECTIVENESS_NTU)
def effectiveness_crossflow(
    units: Annotated[Real, NTU], ratio: Annotated[Real, RATIO]
) -> Annotated[Real, EFFECTIVENESS]:
    """Effectiveness of crossflow, both flows unmixed (approximation, within 0.011 up to NTU 6): fan coils."""
    return -np.expm1(-units * mean_decay(ratio * units**0.78))


@formula("ε = 1 − exp(−(1 − e^(−C_r·NTU))/C_r)", EFFECTIVENESS_NTU)
def effectiveness_crossflow_least_mixed(
    units: Annotated[Real, NTU], ratio: Annotated[Real, RATIO]
) -> Annotated[Real, EFFECTIVENESS]:
    """Effectiveness of crossflow, the flow of the smaller capacity rate mixed."""
    return -np.expm1(-units * mean_decay(ratio * units))


@formula("ε = (1 − exp(−C_r·(1 − e^(−NTU))))/C_r", EFFECTIVENESS_NTU)
def effectiveness_crossflow_greatest_mixed(
    units: Annotated[Real, NTU], ratio: Annotated[Real, RATIO]
) -> Annotated[Real, EFFECTIVENESS]:
    """Effectiveness of crossflow, the flow of the greater capacity rate mixed."""
    alone = -np.expm1(-units)
    return np.minimum(alone * mean_decay(ratio * alone), 1.0)  # rounding may pass 1


_EFFECTIVENESS: dict[Arrangement, Formula[[Real, Real], Real]] = {
    Arrangement.COUNTERFLOW: effectiveness_counterflow,
    Arrangement.PARALLEL: effectiveness_parallel,
    Arrangement.CROSSFLOW: effectiveness_crossflow,
    Arrangement.CROSSFLOW_LEAST_MIXED: effectiveness_crossflow_least_mixed,
    Arrangement.CROSSFLOW_GREATEST_MIXED: effectiveness_crossflow_greatest_mixed,
}


def effectiveness(arrangement: Arrangement, units: Real, ratio: Real) -> Real:
    """Effectiveness of an exchanger of ``units`` transfer units at a ``ratio`` of capacity rates."""
    return _EFFECTIVENESS[arrangement](units, ratio)


@formula("Φ = ε · Ċ_min · (θ_h − θ_c)", EFFECTIVENESS_NTU)
def exchanged_heat(
    effectiveness: Annotated[Real, EFFECTIVENESS],
    least_rate: Annotated[Real, LEAST_RATE],
    hot_in: Annotated[Real, HOT_IN],
    cold_in: Annotated[Real, COLD_IN],
) -> Annotated[Real, q("Φ", "W", "heat exchanged")]:
    """Heat from the hot to the cold flow; negative where the hot one enters colder."""
    return effectiveness * least_rate * (hot_in - cold_in)


def exchanger_heat(
    arrangement: Arrangement, conductance: Real, hot_rate: Real, cold_rate: Real, hot_in: Real, cold_in: Real
) -> Real:
    """Heat (W) that an exchanger of known conductance passes at given capacity rates and inlets.

    No heat passes where a flow stands still.
    """
    least = smaller_rate(hot_rate, cold_rate)
    if not isinstance(least, np.ndarray) and least < STANDSTILL:
        return exchanged_heat(0.0, least, hot_in, cold_in)
    moving = np.maximum(least, STANDSTILL) if isinstance(least, np.ndarray) else least
    units = transfer_units(conductance, moving)
    share = effectiveness(arrangement, units, rate_ratio(hot_rate, cold_rate))
    return exchanged_heat(share, least, hot_in, cold_in)


@formula("θ_out = θ_in − Φ/Ċ", HEAT_BALANCE)
def cooled_outlet(
    inlet: Annotated[Real, INLET],
    heat: Annotated[Real, HEAT],
    rate: Annotated[Real, q("Ċ", "W/K", "heat capacity rate", low=1e-3, high=1e6)],
) -> Annotated[Real, q("θ_out", "K", "leaving")]:
    """Temperature of a flow that has given heat."""
    return inlet - heat / rate


@formula("θ_out = θ_in + Φ/Ċ", HEAT_BALANCE)
def warmed_outlet(
    inlet: Annotated[Real, INLET],
    heat: Annotated[Real, HEAT],
    rate: Annotated[Real, q("Ċ", "W/K", "heat capacity rate", low=1e-3, high=1e6)],
) -> Annotated[Real, q("θ_out", "K", "leaving")]:
    """Temperature of a flow that has taken heat."""
    return inlet + heat / rate


@formula("Δθ_m = (Δθ_1 − Δθ_2)/ln(Δθ_1/Δθ_2)", LOG_MEAN_DIFFERENCE)
def log_mean_difference(
    one: Annotated[Real, q("Δθ_1", "K", "difference at one end", low=0, high=1000)],
    other: Annotated[Real, q("Δθ_2", "K", "difference at the other end", low=0, high=1000)],
) -> Annotated[Real, q("Δθ_m", "K", "logarithmic mean difference", low=0, high=1000)]:
    """Logarithmic mean of two end differences; their mean where they are equal, 0 where one is 0."""
    small, great = np.minimum(one, other), np.maximum(one, other)
    # With r = ln(great/small) the mean is great · (1 − e^−r)/r, which has no gap at r = 0.
    decades = np.log(np.where(small > 0, great, 1.0) / np.where(small > 0, small, 1.0))
    return np.where(small > 0, great * mean_decay(decades), 0.0)[()]


@formula("UA = UA_n · (Ċ/Ċ_n)^m", EFFECTIVENESS_NTU)
def conductance_at_rate(
    rated: Annotated[Real, q("UA_n", "W/K", "conductance at the rated point", low=0, high=1e4)],
    rate: Annotated[Real, q("Ċ", "W/K", "capacity rate of one flow", low=0, high=1e5)],
    rated_rate: Annotated[Real, q("Ċ_n", "W/K", "its capacity rate at the rated point", low=1e-3, high=1e5)],
    exponent: Annotated[Real, q("m", "1", "exponent of the flow", low=0, high=1)],
) -> Annotated[Real, q("UA", "W/K", "conductance of the exchanger", low=0)]:
    """Conductance once one flow differs from its rated one; exponent 0 leaves it."""
    return rated * (rate / rated_rate) ** exponent
