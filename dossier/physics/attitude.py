"""Where a point of the boat lies above the water when she heels or trims.

Heel turns about the fore-and-aft line through the middle of the loaded waterline (y = 0, z = 0), trim about
the athwartships line through half her length in that plane (x = L/2, z = 0). Sinkage is left out: with the
wedges alike on both sides the waterline stays in place. The low side, or the low end, counts always.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import GEOMETRY
from dossier.notation import Real, formula, q

X = q("x", "m", "forward of the aft end", low=-100, high=500)
Y = q("y", "m", "to port", low=-50, high=50)
Z = q("z", "m", "above the waterline, upright", low=-50, high=50)
HEEL = q("φ", "rad", "angle of heel", low=0, high=np.pi / 2)
TRIM = q("τ", "rad", "angle of trim", low=0, high=np.pi / 4)
HEIGHT = q("z'", "m", "above the water")
HEAD = q("Δz", "m", "upper point over the lower one, upright", low=-50, high=50)


@formula("z' = z · cos(φ) − |y| · sin(φ)", GEOMETRY)
def heeled_height(
    y: Annotated[Real, Y], z: Annotated[Real, Z], heel: Annotated[Real, HEEL]
) -> Annotated[Real, HEIGHT]:
    """Height of a point above the water when heeled to its own side."""
    height: Real = z * np.cos(heel) - np.abs(y) * np.sin(heel)
    return height


@formula("z' = z · cos(τ) − |x − L/2| · sin(τ)", GEOMETRY)
def trimmed_height(
    x: Annotated[Real, X],
    z: Annotated[Real, Z],
    length: Annotated[Real, q("L", "m", "length of the boat", low=1, high=400)],
    trim: Annotated[Real, TRIM],
) -> Annotated[Real, HEIGHT]:
    """Height of a point above the water when trimmed towards its own end."""
    height: Real = z * np.cos(trim) - np.abs(x - length / 2) * np.sin(trim)
    return height


@formula("z_l = z' − d/2", GEOMETRY)
def lower_edge(
    axis: Annotated[Real, q("z'", "m", "axis above the water", low=-50, high=50)],
    bore: Annotated[Real, q("d", "m", "bore", low=0, high=1)],
) -> Annotated[Real, q("z_l", "m", "lower edge above the water")]:
    """Height of the lower edge of an outlet whose axis is given."""
    return axis - bore / 2


@formula("φ_w = atan(z/|y|) − asin(d/2/√(y² + z²))", GEOMETRY)
def angle_under_water(
    y: Annotated[Real, Y],
    z: Annotated[Real, Z],
    bore: Annotated[Real, q("d", "m", "bore; 0 for a point", low=0, high=1)] = 0.0,
) -> Annotated[Real, q("φ_w", "rad", "angle of heel at which it meets the water", low=-np.pi, high=np.pi)]:
    """Heel at which the lower edge of an outlet meets the water; negative where it lies under it upright."""
    reach = np.maximum(np.sqrt(y**2 + z**2), np.finfo(float).tiny)
    return np.arctan2(z, np.abs(y)) - np.arcsin(np.minimum(bore / 2 / reach, 1.0))


@formula("Δz' = Δz · cos(φ) − |Δy| · sin(φ)", GEOMETRY)
def heeled_head(
    head: Annotated[Real, HEAD],
    across: Annotated[Real, q("Δy", "m", "distance athwartships", low=-50, high=50)],
    heel: Annotated[Real, HEEL],
) -> Annotated[Real, q("Δz'", "m", "upper point over the lower one, heeled")]:
    """Height of one point over another when heeled to the worse side."""
    height: Real = head * np.cos(heel) - np.abs(across) * np.sin(heel)
    return height


@formula("Δz' = Δz · cos(τ) − |Δx| · sin(τ)", GEOMETRY)
def trimmed_head(
    head: Annotated[Real, HEAD],
    along: Annotated[Real, q("Δx", "m", "distance along the boat", low=-400, high=400)],
    trim: Annotated[Real, TRIM],
) -> Annotated[Real, q("Δz'", "m", "upper point over the lower one, trimmed")]:
    """Height of one point over another when trimmed to the worse end."""
    height: Real = head * np.cos(trim) - np.abs(along) * np.sin(trim)
    return height


@formula("Δ = b − a", GEOMETRY)
def offset(
    start: Annotated[Real, q("a", "m", "coordinate of the first point", low=-500, high=500)],
    end: Annotated[Real, q("b", "m", "coordinate of the second point", low=-500, high=500)],
) -> Annotated[Real, q("Δ", "m", "difference of the coordinates")]:
    """From one coordinate to another."""
    return end - start


@formula("m = (a + b)/2", GEOMETRY)
def middle(
    low: Annotated[Real, q("a", "m", "one end", low=-500, high=500)],
    high: Annotated[Real, q("b", "m", "other end", low=-500, high=500)],
) -> Annotated[Real, q("m", "m", "middle")]:
    """Middle of a box along one axis."""
    return (low + high) / 2
