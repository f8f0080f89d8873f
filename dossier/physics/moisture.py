"""Does the inside get wet: dew point of the room, temperature and humidity of surfaces.

Surfaces are judged with the resistance for condensation and mould (0.25 m2K/W), never with that of the heat
loss: behind furniture the air stands still.
"""

from typing import Annotated, Any

import numpy as np

from dossier.data.sources import ISO_6946_LAYERS, ISO_13788_SATURATION, ISO_13788_SURFACE
from dossier.notation import Real, formula, q

_ICE_POINT = 273.15
_AT_ICE_POINT = 610.5
_INSIDE = q("θ_i", "K", "inside temperature", low=213, high=373)
_OVER_WATER, _OVER_ICE = (17.269, 237.3), (21.875, 265.5)


def _steep_and_shift(thawed: Any) -> tuple[Any, Any]:
    """Constants of the curve over water, or over ice; a month of a section asks for dozens of single ones."""
    if isinstance(thawed, np.ndarray):
        steep, shift = (np.where(thawed, *pair) for pair in zip(_OVER_WATER, _OVER_ICE, strict=True))
        return steep, shift
    return _OVER_WATER if thawed else _OVER_ICE


@formula(
    "p_sat = 610.5·exp(17.269·θ/(237.3 + θ)), below 0 °C 610.5·exp(21.875·θ/(265.5 + θ)), θ in °C",
    ISO_13788_SATURATION,
)
def saturation_pressure(
    temperature: Annotated[Real, q("θ", "K", "temperature", low=213, high=373.15)],
) -> Annotated[Real, q("p_sat", "Pa", "saturation pressure of water vapour", low=0)]:
    """Saturation pressure over water, below 0 °C over ice."""
    celsius = temperature - _ICE_POINT
    steep, shift = _steep_and_shift(celsius >= 0)
    pressure: Real = _AT_ICE_POINT * np.exp(steep * celsius / (shift + celsius))
    return pressure


@formula("p_v = φ·p_sat(θ_i)", ISO_13788_SATURATION)
def vapour_pressure(
    humidity: Annotated[Real, q("φ", "1", "relative humidity", low=0, high=1)],
    temperature: Annotated[Real, _INSIDE],
) -> Annotated[Real, q("p_v", "Pa", "vapour pressure", low=0)]:
    """Pressure of the water vapour in air."""
    return humidity * saturation_pressure.function(temperature)


@formula("θ_d: p_sat(θ_d) = p_v", ISO_13788_SATURATION)
def dew_point(
    pressure: Annotated[Real, q("p_v", "Pa", "vapour pressure", low=1, high=1e5)],
) -> Annotated[Real, q("θ_d", "K", "dew point")]:
    """Temperature at which vapour of this pressure begins to condense: the saturation formula inverted."""
    step = np.log(pressure / _AT_ICE_POINT)
    steep, shift = _steep_and_shift(step >= 0)
    temperature: Real = _ICE_POINT + shift * step / (steep - step)
    return temperature


@formula("θ_min: p_sat(θ_min) = p_v/φ_max", ISO_13788_SURFACE)
def lowest_surface_temperature(
    pressure: Annotated[Real, q("p_v", "Pa", "vapour pressure of the room", low=1, high=1e5)],
    humidity: Annotated[Real, q("φ_max", "1", "highest humidity at the surface", low=0.1, high=1)],
) -> Annotated[Real, q("θ_min", "K", "lowest temperature of the inner surface")]:
    """Surface temperature under which the air at the surface is more humid than it may be."""
    return dew_point.function(pressure / humidity)


@formula("U_m = 1/(1/U − R_si + R_m)", ISO_13788_SURFACE)
def surface_transmittance(
    transmittance: Annotated[Real, q("U", "W/m2K", "thermal transmittance", low=0.001, high=1000)],
    inside_film: Annotated[Real, q("R_si", "m2K/W", "inside surface resistance in U", low=0, high=1)],
    mould_film: Annotated[Real, q("R_m", "m2K/W", "inside surface resistance for mould", low=0.05, high=1)],
) -> Annotated[Real, q("U_m", "W/m2K", "transmittance with the film for mould", low=0)]:
    """Transmittance of the same build-up with the film of a surface behind furniture."""
    return 1 / (np.maximum(1 / transmittance - inside_film, 0.0) + mould_film)


@formula("θ_si = θ_i − U·R_si·(θ_i − θ_e)", ISO_6946_LAYERS)
def surface_temperature(
    transmittance: Annotated[Real, q("U", "W/m2K", "transmittance with this film", low=0, high=1000)],
    inside_film: Annotated[Real, q("R_si", "m2K/W", "inside surface resistance", low=0, high=1)],
    inside: Annotated[Real, _INSIDE],
    outside: Annotated[Real, q("θ_e", "K", "temperature beyond", low=213, high=373)],
) -> Annotated[Real, q("θ_si", "K", "inner surface")]:
    """Temperature of the inner surface between frames."""
    return inside - transmittance * inside_film * (inside - outside)


@formula("f_Rsi = 1 − U·R_si", ISO_13788_SURFACE)
def temperature_factor(
    transmittance: Annotated[Real, q("U", "W/m2K", "transmittance with this film", low=0, high=1000)],
    inside_film: Annotated[Real, q("R_si", "m2K/W", "inside surface resistance", low=0, high=1)],
) -> Annotated[Real, q("f_Rsi", "1", "index of surface temperature")]:
    """Share of the way from outside to inside at which the inner surface lies."""
    return 1 - transmittance * inside_film


@formula("f_Rsi = 1 − (θ_i − θ_si)/Δθ", ISO_13788_SURFACE)
def temperature_factor_of_surface(
    surface: Annotated[Real, q("θ_si", "K", "inner surface", low=213, high=373)],
    inside: Annotated[Real, _INSIDE],
    difference: Annotated[Real, q("Δθ", "K", "inside less outside", low=0.1, high=100)],
) -> Annotated[Real, q("f_Rsi", "1", "index of surface temperature")]:
    """The same index from temperatures: of a surface, or with the lowest allowed the index asked for."""
    return 1 - (inside - surface) / difference


@formula("φ_si = p_v/p_sat(θ_si)", ISO_13788_SURFACE)
def surface_humidity(
    pressure: Annotated[Real, q("p_v", "Pa", "vapour pressure of the room", low=0, high=1e5)],
    surface: Annotated[Real, q("θ_si", "K", "inner surface", low=213, high=373)],
) -> Annotated[Real, q("φ_si", "1", "relative humidity at the inner surface", low=0)]:
    """Relative humidity of the air at the surface; above 1 it runs with water."""
    return pressure / saturation_pressure.function(surface)
