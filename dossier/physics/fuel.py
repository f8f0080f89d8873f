"""What the burner takes from the tank, and how long the tank lasts."""

from typing import Annotated

import numpy as np

from dossier.data.fuels import DENSITY, HEAT_OF_COMBUSTION
from dossier.data.sources import GEOMETRY, HEAT_BALANCE
from dossier.notation import Real, formula, q

OUTPUT = q("Φ", "W", "output of the burner", low=0, high=1e5)
EFFICIENCY = q("η", "1", "efficiency of the burner", low=0.5, high=1)
HEAT = q("Q", "J", "heat given by the burner", low=0, high=1e13)


@formula("q_f = Φ/(η · H_i · ρ_f)", HEAT_BALANCE)
def fuel_rate(
    output: Annotated[Real, OUTPUT],
    efficiency: Annotated[Real, EFFICIENCY],
    heat_of_combustion: Annotated[Real, HEAT_OF_COMBUSTION],
    density: Annotated[Real, DENSITY],
) -> Annotated[Real, q("q_f", "m3/s", "fuel burnt", low=0, high=1e-5)]:
    """Fuel burnt at an output, by volume."""
    return output / (efficiency * heat_of_combustion * density)


@formula("m_f = Φ/(η · H_i)", HEAT_BALANCE)
def fuel_mass_rate(
    output: Annotated[Real, OUTPUT],
    efficiency: Annotated[Real, EFFICIENCY],
    heat_of_combustion: Annotated[Real, HEAT_OF_COMBUSTION],
) -> Annotated[Real, q("m_f", "kg/s", "fuel burnt", low=0, high=0.01)]:
    """Fuel burnt at an output, by mass."""
    return output / (efficiency * heat_of_combustion)


@formula("V_f = Q/(η · H_i · ρ_f)", HEAT_BALANCE)
def fuel_volume(
    heat: Annotated[Real, HEAT],
    efficiency: Annotated[Real, EFFICIENCY],
    heat_of_combustion: Annotated[Real, HEAT_OF_COMBUSTION],
    density: Annotated[Real, DENSITY],
) -> Annotated[Real, q("V_f", "m3", "fuel burnt", low=0)]:
    """Fuel burnt for a heat: of a day, a night or a year."""
    return heat / (efficiency * heat_of_combustion * density)


@formula("V_u = V_t · s − V_r", GEOMETRY)
def usable_fuel(
    tank: Annotated[Real, q("V_t", "m3", "volume of the tank", low=0, high=100)],
    usable: Annotated[Real, q("s", "1", "usable share of the tank", low=0, high=1)],
    reserve: Annotated[Real, q("V_r", "m3", "kept for the engine", low=0, high=100)] = 0.0,
) -> Annotated[Real, q("V_u", "m3", "fuel for the heating", low=0)]:
    """Fuel that the heating may take; none where the reserve takes it all."""
    return np.maximum(tank * usable - reserve, 0.0)


@formula("t = V_u/q_f", HEAT_BALANCE)
def fuel_autonomy(
    usable: Annotated[Real, q("V_u", "m3", "fuel for the heating", low=0, high=100)],
    rate: Annotated[Real, q("q_f", "m3/s", "fuel burnt", low=1e-12, high=1e-4)],
) -> Annotated[Real, q("t", "s", "time until the usable fuel is burnt", low=0)]:
    """How long the usable fuel lasts at a mean rate."""
    return usable / rate


@formula("Δθ_w = θ_c − θ_p", HEAT_BALANCE)
def plugging_margin(
    coldest: Annotated[Real, q("θ_c", "K", "coldest fuel in tank or line", low=210, high=320)],
    plugging_point: Annotated[Real, q("θ_p", "K", "cold filter plugging point", low=210, high=290)],
) -> Annotated[Real, q("Δθ_w", "K", "margin to the plugging point")]:
    """How far the coldest fuel stays above the point where wax plugs the filter."""
    return coldest - plugging_point
