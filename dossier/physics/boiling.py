"""When the coolant boils: saturation of water, of the mix, and the atmosphere at the boat's altitude.

The mix is taken as ideal: its vapour is that of its water, by the mole fraction of water (Raoult); the
glycol's own vapour is left out. Against the published boiling points of 10 to 60 % by mass (ASHRAE, from
memory) that lies between 1.3 K too low and 0.3 K too high for ethylene glycol, and up to 1.3 K too high for
propylene glycol. So an allowance (0.5 K and 1.5 K, ``fluids/glycols.csv``) is taken off, and the answer is
never below water's own boiling point: the safe side throughout.
"""

from typing import Annotated

import numpy as np

from dossier.data.fluid_tables import glycol
from dossier.data.sources import HEAT_BALANCE, IAPWS_IF97_SATURATION, ISA_PRESSURE, RAOULT
from dossier.notation import ARITHMETIC, Real, formula, q
from dossier.physics.fluid import Fluid
from dossier.physics.glycol_share import glycol_mass_share, water_mole_fraction

PRESSURE = q("p", "Pa", "absolute pressure", low=2000, high=1e6)
TEMPERATURE = q("θ", "K", "temperature of the coolant", low=273.15, high=453.15)
WATER_FRACTION = q("y_w", "1", "mole fraction of water", low=0.5, high=1)
ALLOWANCE = q("Δθ_a", "K", "allowance for the ideal mixture", low=0, high=5)

_N = (
    0.11670521452767e4,
    -0.72421316703206e6,
    -0.17073846940092e2,
    0.12020824702470e5,
    -0.32325550322333e7,
    0.14915108613530e2,
    -0.48232657361591e4,
    0.40511340542057e6,
    -0.23855557567849,
    0.65017534844798e3,
)
"""Coefficients of region 4 of the IAPWS Industrial Formulation 1997."""

_REFERENCE_PRESSURE = 1e6


@formula("p_s = (2C/(−B + √(B² − 4AC)))⁴ · 1 MPa, with A, B, C of θ", IAPWS_IF97_SATURATION)
def saturation_pressure(
    temperature: Annotated[Real, q("θ", "K", "temperature of water", low=273.15, high=647.096)],
) -> Annotated[Real, q("p_s", "Pa", "vapour pressure of water", low=600, high=2.3e7)]:
    """Absolute pressure at which water boils at a temperature."""
    n = _N
    v = temperature + n[8] / (temperature - n[9])
    a = v * v + n[0] * v + n[1]
    b = n[2] * v * v + n[3] * v + n[4]
    c = n[5] * v * v + n[6] * v + n[7]
    root: Real = 2 * c / (-b + np.sqrt(b * b - 4 * a * c))
    return _REFERENCE_PRESSURE * root**4


@formula("θ_s = (n₁₀ + D − √((n₁₀ + D)² − 4(n₉ + n₁₀ · D)))/2, with D of p", IAPWS_IF97_SATURATION)
def saturation_temperature(
    pressure: Annotated[Real, q("p", "Pa", "absolute pressure", low=611.2, high=2.2064e7)],
) -> Annotated[Real, q("θ_s", "K", "boiling point of water", low=273.1, high=647.1)]:
    """Temperature at which water boils at an absolute pressure."""
    n = _N
    v = (pressure / _REFERENCE_PRESSURE) ** 0.25
    e = v * v + n[2] * v + n[5]
    f = n[0] * v * v + n[3] * v + n[6]
    g = n[1] * v * v + n[4] * v + n[7]
    d = 2 * g / (-f - np.sqrt(f * f - 4 * e * g))
    found: Real = (n[9] + d - np.sqrt((n[9] + d) ** 2 - 4 * (n[8] + n[9] * d))) / 2
    return found


@formula("p_at = 101325 Pa · (1 − 0.0065 K/m · z/288.15 K)^5.25588", ISA_PRESSURE)
def atmospheric_pressure(
    altitude: Annotated[Real, q("z", "m", "altitude above the sea", low=-450, high=6000)],
) -> Annotated[Real, q("p_at", "Pa", "pressure of the atmosphere", low=4e4, high=1.1e5)]:
    """Pressure of the standard atmosphere; weather moves it by some 3 %, a kelvin of boiling."""
    base: Real = 1 - 0.0065 * altitude / 288.15
    return 101325 * base**5.25588


@formula("p = p_g + p_at", ARITHMETIC)
def absolute_pressure(
    gauge: Annotated[Real, q("p_g", "Pa", "gauge pressure", low=-1e5, high=1e6)],
    atmosphere: Annotated[Real, q("p_at", "Pa", "pressure of the atmosphere", low=4e4, high=1.1e5)],
) -> Annotated[Real, q("p", "Pa", "absolute pressure")]:
    """Absolute pressure from a gauge reading."""
    return gauge + atmosphere


@formula("θ_b = max(θ_s(p/y_w) − Δθ_a, θ_s(p))", RAOULT)
def mixture_boiling_point(
    pressure: Annotated[Real, PRESSURE],
    water_fraction: Annotated[Real, WATER_FRACTION],
    allowance: Annotated[Real, ALLOWANCE],
) -> Annotated[Real, q("θ_b", "K", "boiling point of the coolant", low=273.15, high=500)]:
    """Boiling point of an ideal mix less an allowance, and never below that of water."""
    mix = saturation_temperature.function(pressure / water_fraction) - allowance
    return np.maximum(mix, saturation_temperature.function(pressure))


@formula("p_v = min(y_w · p_s(θ + Δθ_a), p_s(θ))", RAOULT)
def mixture_vapour_pressure(
    temperature: Annotated[Real, TEMPERATURE],
    water_fraction: Annotated[Real, WATER_FRACTION],
    allowance: Annotated[Real, ALLOWANCE],
) -> Annotated[Real, q("p_v", "Pa", "vapour pressure of the coolant", low=300, high=1.1e6)]:
    """Pressure under which the mix boils: the boiling point read the other way round."""
    mix = water_fraction * saturation_pressure.function(temperature + allowance)
    return np.minimum(mix, saturation_pressure.function(temperature))


@formula("Δθ = θ_b − θ", ARITHMETIC)
def boiling_margin(
    boiling: Annotated[Real, q("θ_b", "K", "boiling point of the coolant", low=250, high=500)],
    temperature: Annotated[Real, q("θ", "K", "temperature of the coolant", low=230, high=500)],
) -> Annotated[Real, q("Δθ", "K", "boiling margin")]:
    """How far the coolant is from boiling; negative where it boils."""
    return boiling - temperature


@formula("θ = θ_0 + Q/C", HEAT_BALANCE)
def temperature_after_stop(
    before: Annotated[Real, q("θ_0", "K", "burner at the stop", low=270, high=420)],
    heat_left: Annotated[Real, q("Q", "J", "heat left in the burner", low=0, high=5e6)],
    capacity: Annotated[Real, q("C", "J/K", "heat capacity of burner and its water", low=500, high=1e6)],
) -> Annotated[Real, q("θ", "K", "burner after a stop without flow")]:
    """Temperature a burner coasts up to when its flow stops: no heat is taken to leave it."""
    return before + heat_left / capacity


def boiling_point(fluid: Fluid, pressure: Real) -> Real:
    """Boiling point (K) of a coolant at an absolute pressure (Pa), on the safe side as the head says."""
    if not fluid.data_set.is_mix:
        return saturation_temperature(pressure)
    return mixture_boiling_point(pressure, _water_fraction(fluid), _allowance(fluid))


def vapour_pressure(fluid: Fluid, temperature: Real) -> Real:
    """Absolute pressure (Pa) under which a coolant boils at a temperature (K), on the safe side."""
    if not fluid.data_set.is_mix:
        return saturation_pressure(temperature)
    return mixture_vapour_pressure(temperature, _water_fraction(fluid), _allowance(fluid))


def _water_fraction(fluid: Fluid) -> Real:
    by_mass = glycol_mass_share(fluid.share, fluid.data_set)
    return water_mole_fraction(by_mass, glycol(fluid.data_set.base).molar_mass, glycol("water").molar_mass)


def _allowance(fluid: Fluid) -> float:
    return glycol(fluid.data_set.base).boiling_allowance
