"""Sums and differences of heat in the ring."""

from typing import Annotated

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import Real, formula, q


@formula("Φ = Σ Φ_i", HEAT_BALANCE)
def total_heat(
    *parts: Annotated[Real, q("Φ_i", "W", "heat", low=-1e7, high=1e7)],
) -> Annotated[Real, q("Φ", "W", "heat together")]:
    """Heat of several parts together."""
    return sum(parts)


@formula("ΔΦ = Φ − Φ_HL", HEAT_BALANCE)
def heat_margin(
    output: Annotated[Real, q("Φ", "W", "heat that reaches the zone", low=-1e7, high=1e7)],
    load: Annotated[Real, q("Φ_HL", "W", "load of the zone", low=-1e7, high=1e7)],
) -> Annotated[Real, q("ΔΦ", "W", "margin of heat")]:
    """Heat beyond what a zone needs; negative where it falls short."""
    return output - load


@formula("Δθ = Φ/Ċ", HEAT_BALANCE)
def rise_at_output(
    output: Annotated[Real, q("Φ", "W", "output", low=0, high=1e7)],
    rate: Annotated[Real, q("Ċ", "W/K", "capacity rate of the flow", low=1e-6, high=1e6)],
) -> Annotated[Real, q("Δθ", "K", "rise over the source")]:
    """Rise of the water over a source."""
    return output / rate


@formula("Φ = Ċ·(θ_V − θ_R)", HEAT_BALANCE)
def heat_of_rise(
    rate: Annotated[Real, q("Ċ", "W/K", "capacity rate of the flow", low=0, high=1e6)],
    supply: Annotated[Real, q("θ_V", "K", "leaving", low=200, high=500)],
    back: Annotated[Real, q("θ_R", "K", "entering", low=200, high=500)],
) -> Annotated[Real, q("Φ", "W", "heat given")]:
    """Heat a source gives to the water."""
    return rate * (supply - back)
