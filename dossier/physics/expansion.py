"""What coolant does when it warms and cools: expansion, header room, membrane vessel, air cushion.

Pressures are gauge or absolute as each quantity says; ``atmosphere`` is always absolute. The metal round
the coolant is taken as rigid, which is the safe side.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import (
    EN_12828_VESSEL,
    FIXED_GAS,
    HYDROSTATICS,
    LARGER_OF_BOTH_SETS,
    MASS_BALANCE,
)
from dossier.notation import ARITHMETIC, OutOfRange, Quantity, Real, formula, q, solved
from dossier.physics.fluid import Fluid

SYSTEM = q("V_sys", "m3", "coolant in the whole system, at fill temperature", low=0, high=5)
EXPANSION = q("ΔV", "m3", "expansion from fill to the highest temperature", low=-2, high=2)
CONTRACTION = q("ΔV_c", "m3", "contraction from fill to the coldest lay-up", low=-2, high=2)
ATMOSPHERE = q("p_at", "Pa", "pressure of the atmosphere", low=4e4, high=1.1e5)
PRECHARGE = q("p_0", "Pa", "pre-charge of the vessel, gauge", low=0, high=5e5)
FILL = q("p_a", "Pa", "pressure at the vessel when filled cold, gauge", low=-2e4, high=8e5)
FINAL = q("p_e", "Pa", "final pressure, gauge", low=0, high=1e6)
VESSEL = q("V_N", "m3", "vessel, nominal volume", low=0.0005, high=5)
HEADER = q("V_h", "m3", "header tank, volume to the overflow", low=0, high=2)
COLD_LEVEL = q("a", "1", "cold level, share of the header", low=0, high=1)

LEAST_GAS = 0.01
"""Share of its cold gas that a full vessel or header is taken to keep."""

LEAST_RESERVE = 0.003
"""Least reserve of a larger vessel (EN 12828:2012, from memory) (m³)."""

SMALL_VESSEL_RESERVE = 0.2
"""Reserve of a small vessel as a share of itself (EN 12828:2012, from memory)."""

STANDARD_GRAVITY = 9.80665

SMALL_VESSEL = 0.015
"""Largest vessel whose reserve is a share of itself (EN 12828:2012, from memory) (m³)."""


@formula("ΔV = V_sys · (ρ_c/ρ_h − 1)", MASS_BALANCE)
def expansion_volume(
    system: Annotated[Real, SYSTEM],
    cold: Annotated[Real, q("ρ_c", "kg/m3", "density at fill temperature", low=900, high=1200)],
    hot: Annotated[Real, q("ρ_h", "kg/m3", "density at the highest temperature", low=900, high=1200)],
) -> Annotated[Real, EXPANSION]:
    """Room the coolant asks for between filling and its highest temperature."""
    return system * (cold / hot - 1)


@formula("ΔV_c = V_sys · (1 − ρ_c/ρ_l)", MASS_BALANCE)
def contraction_volume(
    system: Annotated[Real, SYSTEM],
    fill: Annotated[Real, q("ρ_c", "kg/m3", "density at fill temperature", low=900, high=1200)],
    coldest: Annotated[Real, q("ρ_l", "kg/m3", "density at the coldest lay-up", low=900, high=1200)],
) -> Annotated[Real, CONTRACTION]:
    """Room the coolant gives up when the boat lies cold; negative where it grows (water below 4 °C)."""
    return system * (1 - fill / coldest)


def coolant_expansion(fluid: Fluid, system: Real, cold: Real, hot: Real) -> Real:
    """Expansion (m³) of a system from fill to highest temperature (K), the larger of both data sets.

    Pure and inhibited mixes differ by a seventh in expansion, and nobody reads on a can where its content
    lies. Where the other set does not reach, the coolant's own stands alone. Raises ``OutOfRange`` where
    that ends.
    """
    found = expansion_volume(system, fluid.density(cold), fluid.density(hot))
    twin = fluid.twin()
    if twin is None:
        return found
    try:
        other = expansion_volume(system, twin.density(cold), twin.density(hot))
    except OutOfRange:
        return found
    return _larger(found, other, EXPANSION)


def coolant_contraction(fluid: Fluid, system: Real, fill: Real, coldest: Real) -> Real:
    """Contraction (m³) of a system from fill to the coldest lay-up (K), the larger of both data sets.

    Raises ``OutOfRange`` where the coolant freezes first.
    """
    found = contraction_volume(system, fluid.density(fill), fluid.density(coldest))
    twin = fluid.twin()
    if twin is None:
        return found
    try:
        other = contraction_volume(system, twin.density(fill), twin.density(coldest))
    except OutOfRange:
        return found
    return _larger(found, other, CONTRACTION)


def _larger(found: Real, other: Real, gives: Quantity) -> Real:
    if isinstance(found, np.ndarray) or isinstance(other, np.ndarray):
        return np.fmax(found, other)
    text = f"{gives.symbol} = larger of both data sets"
    both = [(gives, found), (gives, other)]
    return solved(max(found, other), gives, text, LARGER_OF_BOTH_SETS, both, function=max)


@formula("V_r = V_h · (1 − a)", ARITHMETIC)
def header_room(
    header: Annotated[Real, HEADER], cold_level: Annotated[Real, COLD_LEVEL]
) -> Annotated[Real, q("V_r", "m3", "header, room between cold level and overflow", low=0, high=2)]:
    """Room above the cold level: for expansion if open, for the air cushion under a pressure cap."""
    return header * (1 - cold_level)


@formula("V_c = V_h · a", ARITHMETIC)
def header_content(
    header: Annotated[Real, HEADER], cold_level: Annotated[Real, COLD_LEVEL]
) -> Annotated[Real, q("V_c", "m3", "coolant in the header at its cold level", low=0, high=2)]:
    """Coolant in the header when cold: what contraction may take before the ring draws air."""
    return header * cold_level


@formula("p_st = ρ · g · h", HYDROSTATICS)
def static_pressure(
    density: Annotated[Real, q("ρ", "kg/m3", "density of the coolant", low=900, high=1200)],
    height: Annotated[Real, q("h", "m", "highest coolant above the point", low=-20, high=50)],
) -> Annotated[Real, q("p_st", "Pa", "static pressure, gauge")]:
    """Gauge pressure of the coolant standing above a point; cold coolant gives the larger."""
    return density * STANDARD_GRAVITY * height


@formula("p_e = p_sv − max(50 kPa, 0.1 · p_sv)", EN_12828_VESSEL)
def highest_final_pressure(
    setting: Annotated[Real, q("p_sv", "Pa", "setting of the safety valve, gauge", low=6e4, high=1e6)],
) -> Annotated[Real, q("p_e", "Pa", "final pressure, gauge", low=0, high=1e6)]:
    """Highest working pressure a safety valve leaves: half a bar below its setting, a tenth above 5 bar."""
    return setting - np.maximum(5e4, 0.1 * setting)


@formula("f = (p_e − p_0)/(p_e + p_at)", EN_12828_VESSEL)
def acceptance_factor(
    precharge: Annotated[Real, PRECHARGE],
    final: Annotated[Real, FINAL],
    atmosphere: Annotated[Real, ATMOSPHERE],
) -> Annotated[Real, q("f", "1", "share of the vessel that takes coolant", high=1)]:
    """Share of a vessel that fills between pre-charge and final pressure; 0 or less where none does."""
    return (final - precharge) / (final + atmosphere)


@formula("V_WR = 0.2 · V_N up to 15 l, else max(0.005 · V_sys, 3 l)", EN_12828_VESSEL)
def water_reserve(
    vessel: Annotated[Real, VESSEL], system: Annotated[Real, SYSTEM]
) -> Annotated[Real, q("V_WR", "m3", "coolant held in reserve", low=0, high=1)]:
    """Coolant a vessel should hold when cold, against small losses.

    For a vessel up to 15 l the share is of the vessel; some read it as a share of the expansion, which is
    less. The larger is taken.
    """
    return np.where(
        vessel <= SMALL_VESSEL, SMALL_VESSEL_RESERVE * vessel, np.maximum(0.005 * system, LEAST_RESERVE)
    )[()]


@formula("V_N = ΔV/(f − 0.2) up to 15 l, else (ΔV + max(0.005 · V_sys, 3 l))/f", EN_12828_VESSEL)
def vessel_needed(
    expansion: Annotated[Real, EXPANSION],
    system: Annotated[Real, SYSTEM],
    acceptance: Annotated[Real, q("f", "1", "share of the vessel that takes coolant", low=0.02, high=0.96)],
) -> Annotated[Real, q("V_N", "m3", "membrane vessel needed", low=0, high=200)]:
    """Nominal volume of the vessel that takes expansion and reserve; the reserve as in ``water_reserve``."""
    taken = np.maximum(expansion, 0)
    small = taken / np.maximum(acceptance - SMALL_VESSEL_RESERVE, 1e-9)
    large = (taken + np.maximum(0.005 * system, LEAST_RESERVE)) / acceptance
    return np.where(small <= SMALL_VESSEL, small, large)[()]


@formula("V_a = V_N · max(1 − (p_0 + p_at)/(p_a + p_at), 0)", FIXED_GAS)
def vessel_content(
    vessel: Annotated[Real, VESSEL],
    precharge: Annotated[Real, PRECHARGE],
    pressure: Annotated[Real, FILL],
    atmosphere: Annotated[Real, ATMOSPHERE],
) -> Annotated[Real, q("V_a", "m3", "coolant in the vessel", low=0, high=5)]:
    """Coolant in a vessel at a gauge pressure: the reserve when cold, none below the pre-charge."""
    return vessel * np.maximum(1 - (precharge + atmosphere) / (pressure + atmosphere), 0)


@formula(
    "p_e = p · V_g/max(V_g − ΔV, 0.01 V_g) − p_at, p = max(p_a, p_0) + p_at, V_g = V_N · (p_0 + p_at)/p",
    FIXED_GAS,
)
def final_pressure(
    vessel: Annotated[Real, VESSEL],
    precharge: Annotated[Real, PRECHARGE],
    fill: Annotated[Real, FILL],
    expansion: Annotated[Real, EXPANSION],
    atmosphere: Annotated[Real, ATMOSPHERE],
) -> Annotated[Real, q("p_e", "Pa", "final pressure, gauge")]:
    """Pressure when hot with the vessel fitted, from the pressure at which the cold system was filled.

    The gas keeps its temperature. Where the expansion would fill the vessel, a hundredth of the gas is left:
    the pressure told then stands for one that opens the safety valve.
    """
    cold = np.maximum(fill, precharge) + atmosphere
    gas = vessel * (precharge + atmosphere) / cold
    return cold * gas / np.maximum(gas - expansion, LEAST_GAS * gas) - atmosphere


@formula("p_e = p_at · V_r/max(V_r − ΔV, 0.01 V_r) · θ_a/θ_c + p_v − p_at", FIXED_GAS)
def cushion_pressure(
    room: Annotated[Real, q("V_r", "m3", "air in the header when it is closed", low=1e-5, high=2)],
    expansion: Annotated[Real, EXPANSION],
    atmosphere: Annotated[Real, ATMOSPHERE],
    closed_at: Annotated[Real, q("θ_c", "K", "air in the header when it is closed", low=230, high=350)],
    hot: Annotated[Real, q("θ_a", "K", "air in the header when hot", low=230, high=405)],
    vapour: Annotated[Real, q("p_v", "Pa", "vapour pressure in the header when hot", low=0, high=3e5)],
) -> Annotated[Real, q("p_e", "Pa", "final pressure, gauge")]:
    """Pressure in a header closed cold with a cap, as long as the cap does not open.

    Air is squeezed, warmed, and joined by vapour. For the plain law of a cushion give one temperature twice
    and no vapour.
    """
    squeezed = atmosphere * room / np.maximum(room - expansion, LEAST_GAS * room)
    return squeezed * hot / closed_at + vapour - atmosphere
