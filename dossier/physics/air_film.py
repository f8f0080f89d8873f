"""The films of air and sea on the outside of the hull: how well wind, sky and water take the heat away.

Wind and radiation together, never wind alone: at 4 m/s that would give 0.05 where the standard has 0.04
m2K/W, and in still air 0.25 instead of 0.12. Under water the film is the liquid's own, twenty times thinner:
behind insulation it hardly counts, on bare plating it decides.
"""

from typing import Annotated

from dossier.data.sources import BLACK_BODY, ISO_6946_LAYERS, ISO_6946_WIND
from dossier.notation import Real, formula, q


@formula("h_r0 = 4·σ·T_m³", BLACK_BODY)
def black_body_coefficient(
    mean_temperature: Annotated[Real, q("T_m", "K", "mean temperature of the surfaces", low=200, high=400)],
) -> Annotated[Real, q("h_r0", "W/m2K", "radiative coefficient of a black body", low=0)]:
    """Radiative coefficient between black surfaces of nearly equal temperature."""
    return 4 * 5.670374e-8 * mean_temperature**3


@formula("R_se = 1/(4 + 4·v + ε·4·σ·T_m³)", ISO_6946_WIND)
def outside_surface_resistance(
    wind: Annotated[Real, q("v", "m/s", "wind speed at the surface", low=0, high=60)],
    emissivity: Annotated[Real, q("ε", "1", "emissivity of the surface", low=0, high=1)],
    outside: Annotated[Real, q("T_m", "K", "outside air", low=213, high=333)],
) -> Annotated[Real, q("R_se", "m2K/W", "outside surface resistance", low=0)]:
    """Resistance of the outside air film: convection by wind and radiation side by side."""
    return 1 / (4 + 4 * wind + emissivity * black_body_coefficient.function(outside))


@formula("R = 1/h", ISO_6946_LAYERS)
def film_resistance(
    film: Annotated[Real, q("h", "W/m2K", "film coefficient", low=0.5, high=20000)],
) -> Annotated[Real, q("R", "m2K/W", "surface resistance", low=0)]:
    """Resistance of a film whose coefficient is known, as of sea water."""
    return 1 / film


@formula("h = 1/R", ISO_6946_LAYERS)
def film_coefficient(
    resistance: Annotated[
        Real, q("R", "m2K/W", "resistance between metal and air or water", low=5e-5, high=50)
    ],
) -> Annotated[Real, q("h", "W/m2K", "film coefficient", low=0)]:
    """Film coefficient that stands for a film and the cover before it."""
    return 1 / resistance
