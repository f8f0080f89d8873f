"""Tap water: heat for a flow, flow for a heat, the mixing valve's share, how long tank and store last."""

from typing import Annotated

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import Real, formula, q

FLOW = q("q_V", "m3/s", "flow at the tap", low=0, high=0.01)
VOLUMETRIC = q("ρc", "J/m3K", "heat capacity of a volume of water", low=4e6, high=4.3e6)
COLD = q("θ_c", "K", "cold water", low=272, high=310)
TAP = q("θ_t", "K", "water at the tap", low=273, high=373)
HEAT = q("Φ", "W", "heat for the tap", low=0, high=1e7)


@formula("Φ = q_V · ρc · (θ_t − θ_c)", HEAT_BALANCE)
def tap_heat(
    flow: Annotated[Real, FLOW],
    volumetric: Annotated[Real, VOLUMETRIC],
    tap: Annotated[Real, TAP],
    cold: Annotated[Real, COLD],
) -> Annotated[Real, q("Φ", "W", "heat for the tap")]:
    """Heat that a flow at the tap takes."""
    return flow * volumetric * (tap - cold)


@formula("q_V = Φ/(ρc · Δθ)", HEAT_BALANCE)
def tap_flow(
    heat: Annotated[Real, HEAT],
    volumetric: Annotated[Real, VOLUMETRIC],
    rise: Annotated[Real, q("Δθ", "K", "rise from cold to tap", low=0.1, high=100)],
) -> Annotated[Real, q("q_V", "m3/s", "flow at the tap", low=0)]:
    """Flow that a heat keeps at the wanted temperature."""
    return heat / (volumetric * rise)


@formula("x = (θ_t − θ_c)/Δθ_h", HEAT_BALANCE)
def hot_share(
    tap: Annotated[Real, TAP],
    cold: Annotated[Real, COLD],
    hot_over_cold: Annotated[Real, q("Δθ_h", "K", "hot water over cold water", low=0.1, high=100)],
) -> Annotated[Real, q("x", "1", "share of hot water in the mixing valve")]:
    """Share of hot water that a mixing valve lets in; above 1 the hot water is not warm enough."""
    return (tap - cold) / hot_over_cold


@formula("t = V · s/q_V", HEAT_BALANCE)
def tank_time(
    tank: Annotated[Real, q("V", "m3", "fresh water tank", low=0, high=100)],
    share: Annotated[Real, q("s", "1", "share of the tank used", low=0, high=1)],
    flow: Annotated[Real, q("q_V", "m3/s", "flow at the tap", low=1e-7, high=0.01)],
) -> Annotated[Real, q("t", "s", "time until it is used", low=0)]:
    """How long the fresh water lasts at a flow."""
    return tank * share / flow


@formula("t = C · Δθ/Φ_d", HEAT_BALANCE)
def store_time(
    capacity: Annotated[Real, q("C", "J/K", "heat capacity of the store", low=0, high=1e9)],
    drop: Annotated[Real, q("Δθ", "K", "drop of the store", low=0, high=90)],
    deficit: Annotated[Real, q("Φ_d", "W", "heat drawn beyond the source", low=0.1, high=1e6)],
) -> Annotated[Real, q("t", "s", "time the store carries it", low=0)]:
    """How long a store carries what the source cannot."""
    return capacity * drop / deficit
