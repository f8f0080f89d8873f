"""Dry air, and combustion gas that is mostly air: density, conductivity, viscosity at a temperature."""

from typing import Annotated

from dossier.data.sources import AIR_ATMOSPHERE
from dossier.notation import Real, formula, q

NORMAL_PRESSURE = 101325.0
"""Standard atmosphere (Pa)."""
TEMPERATURE = q("θ", "K", "temperature of the air or gas", low=200, high=1300)


@formula("ρ = p/(287.05 · θ)", AIR_ATMOSPHERE)
def air_density(
    temperature: Annotated[Real, TEMPERATURE],
    pressure: Annotated[Real, q("p", "Pa", "absolute pressure", low=5e4, high=1.2e5)] = NORMAL_PRESSURE,
) -> Annotated[Real, q("ρ", "kg/m3", "density of the air or gas", low=0.1, high=3)]:
    """Density of dry air as an ideal gas; combustion gas with excess air is within 1 % of it."""
    return pressure / (287.05 * temperature)


@formula("λ = 2.64638e-3 · θ^1.5/(θ + 245.4 · 10^(−12/θ))", AIR_ATMOSPHERE)
def air_conductivity(
    temperature: Annotated[Real, TEMPERATURE],
) -> Annotated[Real, q("λ", "W/mK", "thermal conductivity of air", low=0.01, high=0.1)]:
    """Thermal conductivity of air."""
    return 2.64638e-3 * temperature**1.5 / (temperature + 245.4 * 10 ** (-12 / temperature))


@formula("μ = 1.458e-6 · θ^1.5/(θ + 110.4)", AIR_ATMOSPHERE)
def air_viscosity(
    temperature: Annotated[Real, TEMPERATURE],
) -> Annotated[Real, q("μ", "Pa*s", "dynamic viscosity of air", low=1e-5, high=1e-4)]:
    """Dynamic viscosity of air (Sutherland)."""
    return 1.458e-6 * temperature**1.5 / (temperature + 110.4)
