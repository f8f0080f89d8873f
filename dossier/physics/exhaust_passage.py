"""How hot wood gets beside the exhaust: at the edge of a hole it passes, and along the run.

Passage: the gas heats the outside of lagging or pipe through its resistance; from there heat crosses the gap
to the edge of the hole, which the board carries off and gives to the air at both faces (annular fin). In an
air gap it crosses by convection in the closed ring and by radiation; in a packed one by conduction alone.
Along the run: a face of wood takes radiation by the view factor of the pipe and conduction through the air
between, and loses to still air at that face only.

On the safe side: steady after hours, no draught through the gap, no cooling by a metal sleeve, insulated
back of the wood along the run. Not counted, so keep a margin: a pipe out of the middle or touching, wood
straight above a bare pipe in its plume, a sleeve that carries heat in from a longer run, lined faces.
"""

from typing import Annotated, Any

import numpy as np

from dossier.data.sources import ANNULUS_CONVECTION, CYLINDER_CONDUCTION, PLANE_TO_CYLINDER
from dossier.notation import Real, formula, q
from dossier.physics.air import air_conductivity, air_density, air_viscosity
from dossier.physics.exhaust_heat import GAS, OUTSIDE, RESISTANCE, SURROUNDINGS
from dossier.physics.pipe_heat import BOLTZMANN
from dossier.physics.root import are_samples, bracketed_root

HOLE = q("d_h", "m", "hole in the bulkhead", low=0.01, high=0.6)
THICKNESS = q("t", "m", "thickness of the bulkhead", low=0.0005, high=0.2)
EDGE = q("G", "W/K", "heat from the edge of the hole for each kelvin", low=1e-5, high=1e4)
EMISSIVITY = q("ε", "1", "emissivity of both surfaces", low=0.05, high=1)
EDGE_TEMPERATURE = q("θ_e", "K", "edge of the hole")
PRANDTL = 0.7
GRAVITY = 9.80665


@formula(
    "λ_e = λ · max(1, 0.386 · (Pr/(0.861 + Pr) · Ra)^0.25), "
    "Ra = g · β · |θ_1 − θ_2| · s³/(ν · a) · ln(d_h/D)⁴/(s³ · (D^−0.6 + d_h^−0.6)⁵)",
    ANNULUS_CONVECTION,
)
def annulus_conductivity(
    hot: Annotated[Real, q("θ_1", "K", "inner surface", low=200, high=1300)],
    cold: Annotated[Real, q("θ_2", "K", "outer surface", low=200, high=1300)],
    inner: Annotated[Real, OUTSIDE],
    outer: Annotated[Real, HOLE],
) -> Annotated[Real, q("λ_e", "W/mK", "conductivity of the air ring, convection counted", low=0)]:
    """Conductivity that stands for the air between two cylinders, its natural convection counted."""
    mean = (hot + cold) / 2
    conductivity = air_conductivity.function(mean)
    kinematic = air_viscosity.function(mean) / air_density.function(mean)
    ring = np.log(np.maximum(outer / inner, 1.0)) ** 4 / (inner**-0.6 + outer**-0.6) ** 5
    rayleigh = GRAVITY / mean * np.abs(hot - cold) * PRANDTL / kinematic**2 * ring
    stirred: Real = np.maximum(1.0, 0.386 * (PRANDTL / (0.861 + PRANDTL) * rayleigh) ** 0.25)
    return conductivity * stirred


def _highest_excess(gas: Any, surroundings: Any, resistance: Any, thickness: Any, edge: Any) -> Any:
    """Edge over its surroundings without any gap, a rounding higher: no gap can make it hotter."""
    return (1 + 1e-9) * (gas - surroundings) / (1 + resistance * edge / thickness)


@formula(
    "t · (θ_g − θ_1)/R = t · (2π · λ_e/ln(d_h/D) + h_r · π · D) · (θ_1 − θ_e) = G · (θ_e − θ_a), "
    "h_r of radiation with ε between the surfaces",
    ANNULUS_CONVECTION,
)
def edge_temperature_air(
    gas: Annotated[Real, GAS],
    surroundings: Annotated[Real, SURROUNDINGS],
    resistance: Annotated[Real, RESISTANCE],
    outside: Annotated[Real, OUTSIDE],
    hole: Annotated[Real, HOLE],
    thickness: Annotated[Real, THICKNESS],
    edge: Annotated[Real, EDGE],
    emissivity: Annotated[Real, EMISSIVITY],
) -> Annotated[Real, EDGE_TEMPERATURE]:
    """Temperature of the edge of a hole round an exhaust with an air gap, solved.

    Where the hole is smaller than the exhaust, as if they touched all round.
    """
    ring = np.log(np.maximum(hole / outside, 1.0)) / (2 * np.pi)
    between = 1 / (1 / emissivity + outside / np.maximum(hole, outside) * (1 / emissivity - 1))

    def shortfall(excess: Real) -> Real:
        flow = edge * excess / thickness
        lagging, wood = gas - flow * resistance, surroundings + excess
        air = annulus_conductivity.function(lagging, wood, outside, hole)
        radiation = between * BOLTZMANN * (lagging**2 + wood**2) * (lagging + wood) * np.pi * outside
        return flow * ring / (air + radiation * ring) - (lagging - wood)

    highest = _highest_excess(gas, surroundings, resistance, thickness, edge)
    if are_samples(outside, hole, emissivity):
        highest = highest + np.zeros_like(ring * between)
    return surroundings + bracketed_root(shortfall, 0.0, highest)


@formula(
    "θ_e = θ_a + (θ_g − θ_a)/(1 + G/t · (R + ln(d_h/D)/(2π · λ)))",
    CYLINDER_CONDUCTION,
)
def edge_temperature_packed(
    gas: Annotated[Real, GAS],
    surroundings: Annotated[Real, SURROUNDINGS],
    resistance: Annotated[Real, RESISTANCE],
    outside: Annotated[Real, OUTSIDE],
    hole: Annotated[Real, HOLE],
    thickness: Annotated[Real, THICKNESS],
    edge: Annotated[Real, EDGE],
    filling: Annotated[Real, q("λ", "W/mK", "conductivity of the packing", low=0.02, high=5)],
) -> Annotated[Real, EDGE_TEMPERATURE]:
    """Temperature of the edge of a hole round an exhaust whose gap is packed: conduction all the way."""
    packing = np.log(np.maximum(hole / outside, 1.0)) / (2 * np.pi * filling)
    return surroundings + (gas - surroundings) / (1 + edge / thickness * (resistance + packing))


@formula(
    "F · ε · σ · (θ_s⁴ − θ_w⁴) + λ/s · (θ_s − θ_w) = (1 − F) · ε · σ · (θ_w⁴ − θ_a⁴) + h · (θ_w − θ_a), "
    "F = D/(D + 2 · s)",
    PLANE_TO_CYLINDER,
)
def combustible_temperature(
    surface: Annotated[Real, q("θ_s", "K", "outside of lagging or pipe", low=233, high=1100)],
    surroundings: Annotated[Real, SURROUNDINGS],
    outside: Annotated[Real, OUTSIDE],
    distance: Annotated[Real, q("s", "m", "distance from the outside to the wood", low=1e-3, high=5)],
    emissivity: Annotated[Real, EMISSIVITY],
    film: Annotated[Real, q("h", "W/m2K", "convection of still air at the wood", low=0.5, high=20)],
) -> Annotated[Real, q("θ_w", "K", "nearest wood along the run")]:
    """Temperature of a face of wood beside the run, solved."""
    view = outside / (outside + 2 * distance)

    def surplus(wood: Real) -> Real:
        air = air_conductivity.function((surface + wood) / 2) / distance
        gained = view * emissivity * BOLTZMANN * (surface**4 - wood**4) + air * (surface - wood)
        lost = (1 - view) * emissivity * BOLTZMANN * (wood**4 - surroundings**4)
        return gained - lost - film * (wood - surroundings)

    if are_samples(surface, surroundings, outside, distance, emissivity, film):
        low, high, _ = np.broadcast_arrays(surroundings, surface, view * emissivity * film)
        return bracketed_root(surplus, low, high)
    return bracketed_root(surplus, surroundings, surface)
