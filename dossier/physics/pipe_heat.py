"""Heat a pipe loses to the air round it, bare or lagged, and the temperature of its outside (ISO 12241).

    R   = wall (and lagging) resistance, each by cylinder_resistance, added by layers_resistance
    θ_s = surface_temperature(θ, θ_a, R, outside, ε)       # solved: convection and radiation grow with θ_s
    Ψ   = linear_transmittance(θ, θ_a, θ_s, outside, ε)     # W/mK
    Φ   = pipe_heat(Ψ, length, Ċ, θ_in, θ_a)                # falling temperature along the pipe counted

The water's own film is left out, as the standard does: loss and surface come out a little high, by 4 % where
thick coolant flows laminar in a bare plastic pipe. Horizontal pipes in still air; a draught takes more.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import BLACK_BODY, CYLINDER_CONDUCTION, HEAT_BALANCE, ISO_12241
from dossier.notation import Real, formula, q
from dossier.physics.exchanger import mean_decay
from dossier.physics.root import are_samples, bracketed_root

BOLTZMANN = 5.670374e-8
WATER = q("θ", "K", "water in the pipe", low=230, high=420)
AIR = q("θ_a", "K", "air round the pipe", low=220, high=350)
SURFACE = q("θ_s", "K", "outside of pipe or lagging", low=220, high=900)
OUTSIDE = q("D", "m", "outside diameter of pipe or lagging", low=0.003, high=0.2)
EMISSIVITY = q("ε", "1", "emissivity of the surface", low=0.02, high=1)
RESISTANCE = q("R", "mK/W", "resistance from water to surface", low=0, high=50)
TRANSMITTANCE = q("Ψ", "W/mK", "loss of each metre for each kelvin", low=0, high=100)
RATE = q("Ċ", "W/K", "capacity rate of the water", low=0, high=1e5)
LENGTH = q("L", "m", "length", low=0, high=500)


@formula("R = ln(D/d)/(2π · λ)", CYLINDER_CONDUCTION)
def cylinder_resistance(
    inner: Annotated[Real, q("d", "m", "inner diameter of the layer", low=0.002, high=0.3)],
    outer: Annotated[Real, q("D", "m", "outer diameter of the layer", low=0.002, high=0.5)],
    conductivity: Annotated[Real, q("λ", "W/mK", "thermal conductivity of the layer", low=0.015, high=420)],
) -> Annotated[Real, q("R", "mK/W", "resistance of a cylindrical layer")]:
    """Resistance of a metre of wall or lagging."""
    return np.log(outer / inner) / (2 * np.pi * conductivity)


@formula("R = 1/(h · π · D)", CYLINDER_CONDUCTION)
def cylinder_film_resistance(
    film: Annotated[Real, q("h", "W/m2K", "film, convection and radiation together", low=0.5, high=5000)],
    diameter: Annotated[Real, q("D", "m", "diameter of the surface", low=0.002, high=0.5)],
) -> Annotated[Real, q("R", "mK/W", "resistance of a film")]:
    """Resistance of the film on a metre of cylinder."""
    return 1 / (film * np.pi * diameter)


@formula("R = ΣR_i", CYLINDER_CONDUCTION)
def layers_resistance(
    *layers: Annotated[Real, q("R_i", "mK/W", "resistance of one layer", low=0, high=100)],
) -> Annotated[Real, q("R", "mK/W", "resistance of all layers")]:
    """Resistance of layers one round the other."""
    total: Real = 0.0
    for layer in layers:
        total = total + layer
    return total


@formula("Ψ = 1/(R + 1/(h · π · D))", CYLINDER_CONDUCTION)
def transmittance_with_film(
    resistance: Annotated[Real, RESISTANCE],
    film: Annotated[Real, q("h", "W/m2K", "film, convection and radiation together", low=0.5, high=100)],
    outside: Annotated[Real, OUTSIDE],
) -> Annotated[Real, TRANSMITTANCE]:
    """Loss of each metre for each kelvin, where the film outside is stated."""
    return 1 / (resistance + 1 / (film * np.pi * outside))


@formula("h_c = 1.25 · (|θ_s − θ_a|/D)^0.25", ISO_12241)
def convection_film(
    surface: Annotated[Real, SURFACE], air: Annotated[Real, AIR], outside: Annotated[Real, OUTSIDE]
) -> Annotated[Real, q("h_c", "W/m2K", "film by natural convection", low=0, high=60)]:
    """Natural convection at a horizontal pipe, laminar: all pipes up to 200 mm."""
    return 1.25 * (np.abs(surface - air) / outside) ** 0.25


@formula("h_r = ε · σ · (θ_s² + θ_a²) · (θ_s + θ_a)", BLACK_BODY)
def radiation_film(
    surface: Annotated[Real, SURFACE], air: Annotated[Real, AIR], emissivity: Annotated[Real, EMISSIVITY]
) -> Annotated[Real, q("h_r", "W/m2K", "film by radiation", low=0, high=100)]:
    """Radiation of a surface to surroundings of the air's temperature, as a film."""
    return emissivity * BOLTZMANN * (surface**2 + air**2) * (surface + air)


def _given_off(surface: Real, air: Real, outside: Real, emissivity: Real) -> Real:
    """Heat that a metre gives off at a surface temperature (W/m)."""
    film = convection_film.function(surface, air, outside) + radiation_film.function(surface, air, emissivity)
    return film * np.pi * outside * (surface - air)


@formula("(θ − θ_s)/R = (h_c + h_r) · π · D · (θ_s − θ_a), h_c and h_r at θ_s; ε", ISO_12241)
def surface_temperature(
    water: Annotated[Real, WATER],
    air: Annotated[Real, AIR],
    resistance: Annotated[Real, RESISTANCE],
    outside: Annotated[Real, OUTSIDE],
    emissivity: Annotated[Real, EMISSIVITY],
) -> Annotated[Real, q("θ_s", "K", "outside of pipe or lagging")]:
    """Temperature of the outside of a pipe or its lagging, solved."""

    def surplus(surface: Real) -> Real:
        return water - surface - resistance * _given_off(surface, air, outside, emissivity)

    # Between air and water the surplus falls from θ − θ_a to −R · (heat given off): its signs differ.
    if are_samples(water, air, resistance, outside, emissivity):
        ends = np.broadcast_arrays(water, air, resistance, outside, emissivity)
        return bracketed_root(surplus, ends[1], ends[0])
    return bracketed_root(surplus, air, water)


@formula("Ψ = (h_c + h_r) · π · D · (θ_s − θ_a)/(θ − θ_a), h_c and h_r at θ_s; ε", ISO_12241)
def linear_transmittance(
    water: Annotated[Real, WATER],
    air: Annotated[Real, AIR],
    surface: Annotated[Real, SURFACE],
    outside: Annotated[Real, OUTSIDE],
    emissivity: Annotated[Real, EMISSIVITY],
) -> Annotated[Real, q("Ψ", "W/mK", "loss of each metre for each kelvin")]:
    """Loss of each metre for each kelvin between water and air, at a found surface; 0 between equals."""
    span = np.where(water == air, 1.0, water - air)[()]
    loss: Real = np.where(water == air, 0.0, _given_off(surface, air, outside, emissivity) / span)[()]
    return loss


@formula("θ_out = θ_a + (θ_in − θ_a) · e^(−Ψ·L/Ċ)", ISO_12241)
def pipe_outlet(
    transmittance: Annotated[Real, TRANSMITTANCE],
    length: Annotated[Real, LENGTH],
    rate: Annotated[Real, q("Ċ", "W/K", "capacity rate of the water", low=1e-3, high=1e5)],
    inlet: Annotated[Real, q("θ_in", "K", "water entering the pipe", low=230, high=420)],
    air: Annotated[Real, AIR],
) -> Annotated[Real, q("θ_out", "K", "water leaving the pipe")]:
    """Temperature at the end of a pipe."""
    return air + (inlet - air) * np.exp(-transmittance * length / rate)


@formula("Φ = Ċ · (θ_in − θ_a) · (1 − e^(−Ψ·L/Ċ))", ISO_12241)
def pipe_heat(
    transmittance: Annotated[Real, TRANSMITTANCE],
    length: Annotated[Real, LENGTH],
    rate: Annotated[Real, RATE],
    inlet: Annotated[Real, q("θ_in", "K", "water entering the pipe", low=230, high=420)],
    air: Annotated[Real, AIR],
) -> Annotated[Real, q("Φ", "W", "heat lost by the pipe")]:
    """Heat a pipe loses over its length; 0 once the water stands still and has cooled."""
    moving = np.maximum(rate, 1e-9)
    return transmittance * length * (inlet - air) * mean_decay(transmittance * length / moving)


@formula("Φ = Ψ · L · (θ − θ_a)", HEAT_BALANCE)
def standing_pipe_heat(
    transmittance: Annotated[Real, TRANSMITTANCE],
    length: Annotated[Real, LENGTH],
    water: Annotated[Real, WATER],
    air: Annotated[Real, AIR],
) -> Annotated[Real, q("Φ", "W", "heat lost by the pipe")]:
    """Heat a pipe loses while its water has one temperature."""
    return transmittance * length * (water - air)
