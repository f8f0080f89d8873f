"""What an exchanger gives the tap: the heat it passes, the flow it holds, and how long a store takes to heat.

A plate exchanger is counterflow; the coil in a store of tap water meets water of one temperature.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import EFFECTIVENESS_NTU, HEAT_BALANCE
from dossier.notation import Real, formula, q
from dossier.physics.exchanger import effectiveness_counterflow
from dossier.physics.root import bracketed_root
from dossier.physics.tap_water import VOLUMETRIC

NEARLY_NONE = 1e-6
"""Share of the greatest capacity rate at which a flow leaves at the temperature of the primary."""

CONDUCTANCE = q("UA", "W/K", "conductance of the exchanger", low=0, high=1e5)
PRIMARY = q("θ_1", "K", "primary entering", low=250, high=420)
PRIMARY_RATE = q("Ċ_1", "W/K", "capacity rate of the primary", low=1e-3, high=1e6)
TAP_RATE = q("Ċ_2", "W/K", "capacity rate of the tap water", low=1e-3, high=1e6)
COLD = q("θ_c", "K", "cold water", low=272, high=318)
REACH = q("Δθ_1", "K", "primary over cold water", low=-100, high=150)
RISE = q("Δθ_2", "K", "rise from cold water to the tap", low=0.1, high=100)
PASSED = q("G", "W/K", "heat passed for each kelvin between primary and cold water", low=0, high=1e6)


@formula("Δθ = θ_1 − θ_2", HEAT_BALANCE)
def fall(
    higher: Annotated[Real, q("θ_1", "K", "one temperature", low=200, high=450)],
    lower: Annotated[Real, q("θ_2", "K", "other temperature", low=200, high=450)],
) -> Annotated[Real, q("Δθ", "K", "difference of temperatures")]:
    """Fall from one temperature to another."""
    return higher - lower


@formula("θ_m = (θ_1 + θ_2)/2", HEAT_BALANCE)
def mean_temperature(
    one: Annotated[Real, q("θ_1", "K", "one temperature", low=200, high=450)],
    other: Annotated[Real, q("θ_2", "K", "other temperature", low=200, high=450)],
) -> Annotated[Real, q("θ_m", "K", "mean of both")]:
    """Mean of two temperatures."""
    return (one + other) / 2


@formula("ρc = ρ · c_p", HEAT_BALANCE)
def volumetric_heat(
    density: Annotated[Real, q("ρ", "kg/m3", "density of the water", low=950, high=1010)],
    specific_heat: Annotated[Real, q("c_p", "J/kgK", "specific heat of the water", low=4170, high=4260)],
) -> Annotated[Real, q("ρc", "J/m3K", "heat capacity of a volume of water")]:
    """Heat capacity of a volume of water."""
    return density * specific_heat


@formula("Ċ_2 = q_V · ρc", HEAT_BALANCE)
def tap_rate(
    flow: Annotated[Real, q("q_V", "m3/s", "flow at the tap", low=1e-8, high=0.1)],
    volumetric: Annotated[Real, VOLUMETRIC],
) -> Annotated[Real, q("Ċ_2", "W/K", "capacity rate of the tap water", low=0)]:
    """Capacity rate of the tap water."""
    return flow * volumetric


@formula("G = ε · min(Ċ_1, Ċ_2), ε of counterflow with UA", EFFECTIVENESS_NTU)
def passed_by_plates(
    conductance: Annotated[Real, CONDUCTANCE],
    primary: Annotated[Real, PRIMARY_RATE],
    tap: Annotated[Real, TAP_RATE],
) -> Annotated[Real, PASSED]:
    """Heat that a counterflow exchanger passes for each kelvin between what enters on both sides."""
    least = np.minimum(primary, tap)
    share = effectiveness_counterflow.function(conductance / least, least / np.maximum(primary, tap))
    return share * least


@formula("G = Ċ_1 · (1 − e^(−UA/Ċ_1))", EFFECTIVENESS_NTU)
def passed_by_coil(
    conductance: Annotated[Real, CONDUCTANCE], primary: Annotated[Real, PRIMARY_RATE]
) -> Annotated[Real, PASSED]:
    """Heat that a coil passes into a store for each kelvin between primary and store."""
    return primary * -np.expm1(-conductance / primary)


@formula("θ_1 = θ_c + Φ/G", HEAT_BALANCE)
def primary_needed(
    cold: Annotated[Real, COLD],
    power: Annotated[Real, q("Φ", "W", "heat of the shower", low=0, high=1e6)],
    passed: Annotated[
        Real, q("G", "W/K", "heat passed for each kelvin between primary and cold water", low=1e-3, high=1e6)
    ],
) -> Annotated[Real, q("θ_1", "K", "primary that just holds the shower")]:
    """Temperature of the primary below which the tap falls short."""
    return cold + power / passed


@formula("θ_0 = θ_1 − Δθ", HEAT_BALANCE)
def ring_needed(
    primary: Annotated[Real, q("θ_1", "K", "primary that just holds the shower", low=0, high=1e9)],
    rise: Annotated[Real, q("Δθ", "K", "rise over the burner before the exchanger", low=0, high=1e5)],
) -> Annotated[Real, q("θ_0", "K", "ring that just holds the shower while the burner burns")]:
    """Temperature of the ring below which the tap falls short though the burner burns."""
    return primary - rise


@formula("q_V = Ċ_2/ρc, Ċ_2 from ε(UA, Ċ_1, Ċ_2) · min(Ċ_1, Ċ_2) · Δθ_1 = Ċ_2 · Δθ_2", EFFECTIVENESS_NTU)
def flow_of_plates(
    conductance: Annotated[Real, CONDUCTANCE],
    primary: Annotated[Real, PRIMARY_RATE],
    reach: Annotated[Real, REACH],
    rise: Annotated[Real, RISE],
    volumetric: Annotated[Real, VOLUMETRIC],
) -> Annotated[Real, q("q_V", "m3/s", "flow at the wanted temperature", low=0)]:
    """Largest tap flow that a counterflow exchanger holds at the wanted temperature; 0 for none.

    The outlet falls as the flow grows, from the primary's temperature at a trickle.
    """

    def surplus(rate: Real) -> Real:
        return passed_by_plates.function(conductance, primary, rate) * reach - rate * rise

    # No exchanger passes more than UA for each kelvin at its entrance.
    most = conductance * np.maximum(reach, 0.0) / rise
    able = (reach > rise) & (most > 0)
    upper = np.where(able, most, 1.0)[()]
    lower = np.where(able, NEARLY_NONE * most, 1.0)[()]
    found: Real = np.where(able, bracketed_root(surplus, lower, upper), 0.0)[()]
    return found / volumetric


@formula(
    "t = C·(θ_x − θ_c)/Φ_s + C/G · ln((θ_1 − θ_x)/Δθ_r), θ_x between θ_c and θ_1 − Δθ_r: θ_1 − Φ_s/G",
    HEAT_BALANCE,
)
def reheating_time(
    capacity: Annotated[Real, q("C", "J/K", "heat capacity of the store", low=1, high=1e9)],
    passed: Annotated[Real, q("G", "W/K", "heat passed by the coil for each kelvin", low=0.01, high=1e6)],
    source: Annotated[Real, q("Φ_s", "W", "heat the source has for it", low=0.01, high=1e6)],
    primary: Annotated[Real, PRIMARY],
    cold: Annotated[Real, COLD],
    rest: Annotated[Real, q("Δθ_r", "K", "primary over the hot store", low=0.05, high=150)],
) -> Annotated[Real, q("t", "s", "from cold to hot", low=0)]:
    """Time a coil takes to heat a mixed store: at the source's heat first, then as the coil lets it."""
    goal = np.maximum(primary - rest, cold)
    parting = np.clip(primary - source / passed, cold, goal)
    fading = np.log(np.maximum((primary - parting) / rest, 1.0))
    return capacity * ((parting - cold) / source + fading / passed)


@formula("Φ = G · max(Δθ, 0)", HEAT_BALANCE)
def heat_passed(
    passed: Annotated[Real, PASSED],
    difference: Annotated[Real, q("Δθ", "K", "primary over what the coil meets", low=-200, high=200)],
) -> Annotated[Real, q("Φ", "W", "heat passed", low=0)]:
    """Heat that a coil gives a store; none where the store is warmer."""
    return passed * np.maximum(difference, 0.0)


@formula("Φ_d = Φ − Φ_s", HEAT_BALANCE)
def heat_short(
    power: Annotated[Real, q("Φ", "W", "heat of the shower", low=0, high=1e6)],
    source: Annotated[Real, q("Φ_s", "W", "heat of the source", low=0, high=1e7)],
) -> Annotated[Real, q("Φ_d", "W", "heat drawn beyond the source")]:
    """What a shower draws beyond its source."""
    return power - source


@formula("q_V = Q/(t · ρc · Δθ)", HEAT_BALANCE)
def flow_of_heat(
    heat: Annotated[Real, q("Q", "J", "heat", low=0, high=1e10)],
    time: Annotated[Real, q("t", "s", "time", low=1, high=1e6)],
    volumetric: Annotated[Real, VOLUMETRIC],
    rise: Annotated[Real, q("Δθ", "K", "rise from cold water to the tap", low=0.1, high=100)],
) -> Annotated[Real, q("q_V", "m3/s", "flow", low=0)]:
    """Flow that a heat warms in a time."""
    return heat / (time * volumetric * rise)


@formula("Q = Φ · t", HEAT_BALANCE)
def heat_over_time(
    power: Annotated[Real, q("Φ", "W", "heat flow", low=0, high=1e6)],
    time: Annotated[Real, q("t", "s", "time", low=0, high=1e6)],
) -> Annotated[Real, q("Q", "J", "heat", low=0)]:
    """Heat of a steady flow over a time."""
    return power * time


@formula("Q = Φ · max(t − t_a, 0)", HEAT_BALANCE)
def heat_after_start(
    power: Annotated[Real, q("Φ", "W", "heat flow once the flame burns", low=0, high=1e6)],
    time: Annotated[Real, q("t", "s", "time", low=0, high=1e6)],
    start: Annotated[Real, q("t_a", "s", "until the flame burns", low=0, high=1e5)],
) -> Annotated[Real, q("Q", "J", "heat", low=0)]:
    """Heat of a burner over a time that begins with its start."""
    return power * np.maximum(time - start, 0.0)


@formula("Q = C · max(θ_0 − θ_1, 0)", HEAT_BALANCE)
def heat_of_ring(
    capacity: Annotated[Real, q("C", "J/K", "heat capacity of ring and stores", low=0, high=1e10)],
    begin: Annotated[Real, q("θ_0", "K", "ring when the shower begins", low=200, high=450)],
    end: Annotated[Real, q("θ_1", "K", "ring below which it is no use", low=-1e9, high=1e9)],
) -> Annotated[Real, q("Q", "J", "heat", low=0)]:
    """Heat that the ring gives a shower before it is too cold for it."""
    return capacity * np.maximum(begin - end, 0.0)


@formula("Q = C · max(Δθ, 0)", HEAT_BALANCE)
def heat_of_fall(
    capacity: Annotated[Real, q("C", "J/K", "heat capacity", low=0, high=1e9)],
    difference: Annotated[Real, q("Δθ", "K", "fall in temperature", low=-200, high=200)],
) -> Annotated[Real, q("Q", "J", "heat", low=0)]:
    """Heat that a store gives while it cools."""
    return capacity * np.maximum(difference, 0.0)


@formula("Q = Q_s + Q_c", HEAT_BALANCE)
def heat_together(
    source: Annotated[Real, q("Q_s", "J", "heat of the source", low=0, high=1e12)],
    store: Annotated[Real, q("Q_c", "J", "heat of ring and stores", low=0, high=1e12)],
) -> Annotated[Real, q("Q", "J", "heat", low=0)]:
    """What source and store give together."""
    return source + store


@formula("C = V · ρc", HEAT_BALANCE)
def capacity_of_water(
    volume: Annotated[Real, q("V", "m3", "water", low=0, high=100)],
    volumetric: Annotated[Real, VOLUMETRIC],
) -> Annotated[Real, q("C", "J/K", "heat capacity", low=0)]:
    """Heat capacity of stored tap water."""
    return volume * volumetric


@formula("Φ = max(Φ_s − Φ_t, 0)", HEAT_BALANCE)
def heat_left(
    source: Annotated[Real, q("Φ_s", "W", "heat its sources can give", low=-1e6, high=1e7)],
    taken: Annotated[Real, q("Φ_t", "W", "heat the ring takes without the tap", low=-1e6, high=1e7)],
) -> Annotated[Real, q("Φ", "W", "heat left for the tap", low=0)]:
    """Heat that the sources of a mode have left for the tap."""
    return np.maximum(source - taken, 0.0)
