"""How hot the outside of an exhaust gets, lagged or bare, after hours of running.

Gas, its film, lagging and outer film stand in series round the pipe (cylinders); the thin metal wall is left
out. Films are figures of the trade with convection and radiation in one. What stands near the outside is
asked in ``exhaust_passage``.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import CYLINDER_CONDUCTION, GEOMETRY
from dossier.notation import PRACTICE, Real, formula, q
from dossier.physics.root import are_samples, bracketed_root

GAS = q("θ_g", "K", "gas", low=373.15, high=1300)
SURROUNDINGS = q("θ_a", "K", "air round the exhaust", low=233, high=373)
BORE = q("d", "m", "bore of the exhaust", low=0.01, high=0.2)
OUTSIDE = q("D", "m", "outside diameter of pipe or lagging", low=0.01, high=0.5)
PIPE = q("D_p", "m", "outside diameter of the pipe", low=0.01, high=0.25)
LAGGING = q("s", "m", "thickness of the lagging", low=0, high=0.2)
FILM_INSIDE = q("h_i", "W/m2K", "film between gas and pipe", low=2, high=200)
FILM_OUTSIDE = q("h_e", "W/m2K", "film outside, convection and radiation together", low=2, high=60)
RESISTANCE = q("R", "mK/W", "resistance from gas to the outside", low=1e-3, high=100)


@formula("D = d + 2 · (w + s)", GEOMETRY)
def lagged_diameter(
    bore: Annotated[Real, BORE],
    wall: Annotated[Real, q("w", "m", "wall of the exhaust", low=0, high=0.01)],
    lagging: Annotated[Real, LAGGING],
) -> Annotated[Real, q("D", "m", "outside diameter of pipe or lagging")]:
    """Outside diameter of the exhaust with its lagging; without any, of the pipe."""
    return bore + 2 * (wall + lagging)


@formula("R = 1/(h_i · π · d) + ln((D_p + 2 · s)/D_p)/(2π · λ)", CYLINDER_CONDUCTION)
def lagged_resistance(
    bore: Annotated[Real, BORE],
    pipe: Annotated[Real, PIPE],
    lagging: Annotated[Real, LAGGING],
    conductivity: Annotated[Real, q("λ", "W/mK", "conductivity of the lagging", low=0.02, high=2)],
    film_inside: Annotated[Real, FILM_INSIDE],
) -> Annotated[Real, q("R", "mK/W", "resistance from gas to the outside")]:
    """Resistance of a metre from the gas to the outside of the lagging."""
    around = np.log((pipe + 2 * lagging) / pipe)
    return 1 / (film_inside * np.pi * bore) + around / (2 * np.pi * conductivity)


@formula("R = 1/(h_i · π · d)", CYLINDER_CONDUCTION)
def bare_resistance(
    bore: Annotated[Real, BORE], film_inside: Annotated[Real, FILM_INSIDE]
) -> Annotated[Real, q("R", "mK/W", "resistance from gas to the outside")]:
    """Resistance of a metre from the gas to the outside of a bare pipe."""
    return 1 / (film_inside * np.pi * bore)


@formula("θ_s = θ_a + (θ_g − θ_a)/(1 + R · h_e · π · D)", CYLINDER_CONDUCTION)
def outside_temperature(
    gas: Annotated[Real, GAS],
    surroundings: Annotated[Real, SURROUNDINGS],
    resistance: Annotated[Real, RESISTANCE],
    outside: Annotated[Real, OUTSIDE],
    film_outside: Annotated[Real, FILM_OUTSIDE],
) -> Annotated[Real, q("θ_s", "K", "outside of the exhaust")]:
    """Surface temperature of the lagging, or of a bare pipe."""
    return surroundings + (gas - surroundings) / (1 + resistance * film_outside * np.pi * outside)


@formula("λ = λ_n · (1 + β · (θ_m − θ_n))", PRACTICE)
def conductivity_at(
    stated: Annotated[Real, q("λ_n", "W/mK", "conductivity of the lagging as stated", low=0.02, high=2)],
    stated_at: Annotated[Real, q("θ_n", "K", "mean temperature it is stated for", low=273, high=900)],
    rise: Annotated[Real, q("β", "1/K", "relative rise of the conductivity", low=0, high=0.006)],
    mean: Annotated[Real, q("θ_m", "K", "mean temperature of the lagging", low=233, high=1300)],
) -> Annotated[Real, q("λ", "W/mK", "conductivity of the lagging")]:
    """Conductivity of mineral lagging at another mean temperature than it is stated for."""
    return stated * (1 + rise * (mean - stated_at))


@formula(
    "θ_m = (θ_1 + θ_s)/2, with θ_1 under and θ_s on the lagging at λ = λ_n · (1 + β · (θ_m − θ_n)); "
    "θ_g, θ_a, d, D_p, s, h_i, h_e",
    CYLINDER_CONDUCTION,
)
def lagging_mean_temperature(
    gas: Annotated[Real, GAS],
    surroundings: Annotated[Real, SURROUNDINGS],
    bore: Annotated[Real, BORE],
    pipe: Annotated[Real, PIPE],
    lagging: Annotated[Real, LAGGING],
    film_inside: Annotated[Real, FILM_INSIDE],
    film_outside: Annotated[Real, FILM_OUTSIDE],
    stated: Annotated[Real, q("λ_n", "W/mK", "conductivity of the lagging as stated", low=0.02, high=2)],
    stated_at: Annotated[Real, q("θ_n", "K", "mean temperature it is stated for", low=273, high=900)],
    rise: Annotated[Real, q("β", "1/K", "relative rise of the conductivity", low=0, high=0.006)],
) -> Annotated[Real, q("θ_m", "K", "mean temperature of the lagging")]:
    """Mean temperature of the lagging, solved together with its conductivity at that temperature."""
    outside = pipe + 2 * lagging
    inner, outer = 1 / (film_inside * np.pi * bore), 1 / (film_outside * np.pi * outside)

    def excess(mean: Real) -> Real:
        # A conductivity that would fall to nothing far below its stated temperature keeps a tenth.
        conductivity = stated * np.maximum(1 + rise * (mean - stated_at), 0.1)
        between = np.log(outside / pipe) / (2 * np.pi * conductivity)
        flow = (gas - surroundings) / (inner + between + outer)
        return mean - (gas - flow * inner + surroundings + flow * outer) / 2

    if are_samples(gas, surroundings, inner, outer, pipe, stated, stated_at, rise):
        ends = np.broadcast_arrays(gas, surroundings, inner, outer, pipe, stated, stated_at, rise)
        return bracketed_root(excess, np.minimum(ends[0], ends[1]), np.maximum(ends[0], ends[1]))
    return bracketed_root(excess, min(gas, surroundings), max(gas, surroundings))


@formula("s = (d_h − D)/2", GEOMETRY)
def passage_gap(
    hole: Annotated[Real, q("d_h", "m", "hole in the bulkhead", low=0.01, high=0.6)],
    outside: Annotated[Real, OUTSIDE],
) -> Annotated[Real, q("s", "m", "gap between exhaust and the hole's edge")]:
    """Gap round the exhaust in a hole, centred; negative where it does not pass."""
    return (hole - outside) / 2
