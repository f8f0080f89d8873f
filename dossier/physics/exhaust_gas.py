"""Combustion gas in the exhaust: how hot, how much, how fast, and the pressure it needs.

Everything is counted at the gas temperature at the burner: the gas cools on its way, so velocity and loss
come out a little high. Buoyancy, a few pascals that help, is left out.
"""

from typing import Annotated

import numpy as np

from dossier.data.fuels import AIR_RATIO, HEAT_OF_COMBUSTION
from dossier.data.sources import COMBUSTION, DARCY_WEISBACH, DEFINITION, HEAT_BALANCE
from dossier.notation import ARITHMETIC, PRACTICE, Real, formula, q
from dossier.physics.air import air_density, air_viscosity
from dossier.physics.combustion_air import EXCESS, FUEL_RATE
from dossier.physics.fittings import fitting_drop
from dossier.physics.fuel import EFFICIENCY
from dossier.physics.pipe import friction_factor, pipe_drop, relative_roughness, reynolds_number, velocity

GAS = q("θ_g", "K", "gas at the burner outlet", low=273, high=1300)
BENDS = q("Σα", "rad", "sum of all changes of direction", low=0, high=50)


@formula("θ_g = θ_L + (1 − η) · H_i/((L_0 · λ + 1) · c_p)", HEAT_BALANCE)
def gas_temperature(
    air: Annotated[Real, q("θ_L", "K", "air at the burner", low=220, high=340)],
    efficiency: Annotated[Real, EFFICIENCY],
    heat_of_combustion: Annotated[Real, HEAT_OF_COMBUSTION],
    stoichiometric: Annotated[Real, AIR_RATIO],
    excess: Annotated[Real, EXCESS],
    specific_heat: Annotated[Real, q("c_p", "J/kgK", "specific heat of the gas", low=950, high=1300)],
) -> Annotated[Real, q("θ_g", "K", "gas at the burner outlet")]:
    """Gas temperature from the efficiency: all that is lost leaves with the gas (casing losses left out)."""
    return air + (1 - efficiency) * heat_of_combustion / ((stoichiometric * excess + 1) * specific_heat)


@formula("θ_g' = θ_g + Δθ_f", PRACTICE)
def fouled_gas_temperature(
    clean: Annotated[Real, GAS],
    rise: Annotated[Real, q("Δθ_f", "K", "rise with a fouled heat exchanger", low=0, high=300)],
) -> Annotated[Real, q("θ_g'", "K", "gas at the burner outlet, heat exchanger fouled")]:
    """Gas temperature once soot lies on the heat exchanger."""
    return clean + rise


@formula("m_g = m_f · (1 + L_0 · λ)", COMBUSTION)
def gas_mass_flow(
    fuel_rate: Annotated[Real, FUEL_RATE],
    stoichiometric: Annotated[Real, AIR_RATIO],
    excess: Annotated[Real, EXCESS],
) -> Annotated[Real, q("m_g", "kg/s", "mass flow of the gas", low=0)]:
    """Mass flow of combustion gas: fuel and air."""
    return fuel_rate * (1 + stoichiometric * excess)


@formula("q_V = m_g/ρ", DEFINITION)
def gas_volume_flow(
    mass_flow: Annotated[Real, q("m_g", "kg/s", "mass flow of the gas", low=0, high=1)],
    density: Annotated[Real, q("ρ", "kg/m3", "density of the gas", low=0.1, high=3)],
) -> Annotated[Real, q("q_V", "m3/s", "volume flow of the gas", low=0)]:
    """Volume flow of gas at its temperature."""
    return mass_flow / density


@formula("K = K_90 · Σα/(π/2) + K_o", DARCY_WEISBACH)
def exhaust_loss_factor(
    bends: Annotated[Real, BENDS],
    right_angle: Annotated[Real, q("K_90", "1", "loss factor of a right angle", low=0, high=5)],
    outlet: Annotated[Real, q("K_o", "1", "loss factor of the outlet", low=0, high=20)],
) -> Annotated[Real, q("K", "1", "loss factor of bends and outlet", low=0)]:
    """Loss factor of the bends, in right angles, and of the hull fitting with the jet."""
    return right_angle * bends / (np.pi / 2) + outlet


@formula("Δp = Δp_f + Δp_K + Δp_s", ARITHMETIC)
def total_pressure_loss(
    friction: Annotated[Real, q("Δp_f", "Pa", "friction along the pipe", low=0, high=1e5)],
    fittings: Annotated[Real, q("Δp_K", "Pa", "bends and outlet", low=0, high=1e5)],
    silencer: Annotated[Real, q("Δp_s", "Pa", "silencer at full output", low=0, high=1e4)],
) -> Annotated[Real, q("Δp", "Pa", "pressure loss of the exhaust", low=0)]:
    """Pressure that the burner's fan must put up for the exhaust."""
    return friction + fittings + silencer


@formula("p_w = ρ/2 · v²", DEFINITION)
def wind_pressure(
    density: Annotated[Real, q("ρ", "kg/m3", "density of the outside air", low=0.8, high=1.6)],
    wind: Annotated[Real, q("v", "m/s", "wind", low=0, high=60)],
) -> Annotated[Real, q("p_w", "Pa", "wind pressure at the outlet", low=0)]:
    """Pressure of wind that blows straight into the outlet."""
    return density / 2 * wind**2


def exhaust_pressure_loss(
    mass_flow: Real,
    gas: Real,
    bore: Real,
    length: Real,
    roughness: Real,
    loss_factor: Real,
    silencer: Real = 0.0,
) -> Real:
    """Pressure loss (Pa) of a whole exhaust at the gas temperature ``gas`` (K).

    ``mass_flow`` kg/s, ``bore``, ``length``, ``roughness`` m, ``silencer`` Pa at full output.
    """
    density = air_density(gas)
    speed = gas_velocity(mass_flow, gas, bore)
    reynolds = reynolds_number(speed, bore, density, air_viscosity(gas))
    factor = friction_factor(reynolds, relative_roughness(roughness, bore))
    friction = pipe_drop(factor, length, bore, density, speed)
    return total_pressure_loss(friction, fitting_drop(loss_factor, density, speed), silencer)


def gas_velocity(mass_flow: Real, gas: Real, bore: Real) -> Real:
    """Velocity (m/s) of gas of a temperature (K) in the exhaust."""
    return velocity(gas_volume_flow(mass_flow, air_density(gas)), bore)
