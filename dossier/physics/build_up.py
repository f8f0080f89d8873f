"""What a build-up is worth: between its frames, with them, and by which of the two methods.

    wall = build_up(layers, HeatFlow.HORIZONTAL, outside_film, inside_film, frame)
    wall.transmittance, wall.ratio, wall.fins.addition

The combined method and the chain of fins are both computed wherever there are frames; the fins count where
the limits of the combined method lie further apart than it allows, as they do with every metal frame.
"""

from collections.abc import Sequence
from typing import Annotated

import numpy as np

from dossier.data.coefficients import coefficient
from dossier.data.sources import ISO_6946_COMBINED, ISO_6946_LAYERS
from dossier.data.surface_resistances import HeatFlow
from dossier.notation import DossierError, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.air_film import film_coefficient
from dossier.physics.envelope import (
    Layer,
    bridged_resistance,
    combined_resistance,
    layer_resistance,
    layer_resistances,
    limits_ratio,
    total_resistance,
    transmittance,
)
from dossier.physics.frames import (
    bridged_conductivity,
    crossed_thickness,
    frame_addition,
    frame_share,
    frame_transmittance,
    framed_transmittance,
    strip_conductance,
    web_conductance,
    wing_length,
)


@dataclass(frozen=True)
class Frame:
    """Frames of one kind: a web of ``depth`` on the plate, with a flange towards the room.

    ``cover`` runs from the flange to the room, air layers included. ``flange_thickness`` is None where the
    flange is as thick as the web. Lengths in m, conductivity in W/mK.
    """

    conductivity: Real
    spacing: Real
    web: Real
    depth: Real
    flange: Real
    cover: tuple[Layer, ...] = ()
    flange_thickness: Real | None = None


@dataclass(frozen=True)
class FinChain:
    """A metre of frame as flange, web and plate in series (W/mK), and what that adds to U (W/m2K).

    ``cover`` holds the resistances from the flange to the inside film, the film last; ``cover_resistance`` is
    their sum (m2K/W).
    """

    cover: tuple[Real, ...]
    cover_resistance: Real
    flange: Real
    web: Real
    plate: Real
    frame: Real
    addition: Real


@dataclass(frozen=True)
class BuildUp:
    """A build-up between two films: resistances from the outside film to the inside film, and U with frames.

    Without frames both limits are the resistance itself, the ratio is 1 and ``fins`` is None.
    """

    resistances: tuple[Real, ...]
    between: Real
    upper: Real
    lower: Real
    ratio: Real
    fins: FinChain | None
    transmittance: Real


@formula("λ_g = d/R_g", ISO_6946_COMBINED)
def equivalent_conductivity(
    thickness: Annotated[Real, q("d", "m", "thickness of the layer", low=0, high=2)],
    resistance: Annotated[Real, q("R_g", "m2K/W", "thermal resistance of the layer", low=1e-7, high=100)],
) -> Annotated[Real, q("λ_g", "W/mK", "conductivity that stands for an air layer", low=0)]:
    """Conductivity of a solid that would resist as the air layer does: asked for where frames cross it."""
    return thickness / resistance


@formula("d_r = d − d_c", ISO_6946_LAYERS)
def rest_of_layer(
    thickness: Annotated[Real, q("d", "m", "thickness of the layer", low=0, high=2)],
    crossed: Annotated[Real, q("d_c", "m", "part of the layer that the frame crosses", low=0, high=2)],
) -> Annotated[Real, q("d_r", "m", "part of the layer beyond the frame")]:
    """What the frame leaves of a layer."""
    return thickness - crossed


@formula("s = Σ d", ISO_6946_LAYERS)
def total_thickness(
    *thicknesses: Annotated[Real, q("d", "m", "thickness of a layer", low=0, high=2)],
) -> Annotated[Real, q("s", "m", "thickness of layers together", low=0)]:
    """Thickness of layers one behind the other."""
    return sum(thicknesses)


@formula("U = U_f where r > r_max, else 1/R_T", ISO_6946_COMBINED)
def valid_transmittance(
    ratio: Annotated[Real, q("r", "1", "ratio of the limits of resistance", low=0, high=1e6)],
    limit: Annotated[Real, q("r_max", "1", "largest ratio of the combined method", low=1, high=10)],
    with_fins: Annotated[Real, q("U_f", "W/m2K", "transmittance, frames as fins", low=0, high=1e6)],
    combined: Annotated[Real, q("R_T", "m2K/W", "resistance by the combined method", low=0.001, high=200)],
) -> Annotated[Real, q("U", "W/m2K", "thermal transmittance, frames included", low=0)]:
    """Transmittance by the method that holds: fins where the limits lie too far apart, else their mean."""
    return np.where(np.asarray(ratio) > limit, with_fins, 1 / combined)[()]


def _limits(
    layers: Sequence[Layer], resistances: Sequence[Real], frame: Frame, films: tuple[Real, Real]
) -> tuple[Real, Real]:
    """Upper and lower limit of resistance: each layer is parted where the web ends.

    The upper limit sets the ways between and through the frames side by side; the lower lets heat spread
    freely at every face between.
    """
    share = frame_share(frame.web, frame.spacing)
    outside_film, inside_film = films
    through: list[Real] = [outside_film, resistances[0]]
    mixed: list[Real] = [outside_film, resistances[0]]
    nearer: list[Real] = []
    for layer, resistance in zip(layers[1:], resistances[1:], strict=True):
        conductivity = layer.conductivity
        if conductivity is None:
            conductivity = equivalent_conductivity(layer.thickness, resistance)
        crossed = crossed_thickness(frame.depth, total_thickness(*nearer), layer.thickness)
        rest = layer_resistance(rest_of_layer(layer.thickness, crossed), conductivity)
        bridged = bridged_conductivity(share, conductivity, frame.conductivity)
        through += [layer_resistance(crossed, frame.conductivity), rest]
        mixed += [layer_resistance(crossed, bridged), rest]
        nearer.append(layer.thickness)
    between = total_resistance(outside_film, *resistances, inside_film)
    upper = bridged_resistance(share, between, total_resistance(*through, inside_film))
    return upper, total_resistance(*mixed, inside_film)


def fin_chain(
    plate: Layer, frame: Frame, direction: HeatFlow, outside_film: Real, inside_film: Real
) -> FinChain:
    """Flange, web and plate of a frame in series; ``DossierError`` where the outermost layer is air."""
    if plate.conductivity is None:
        raise DossierError("frames stand on the outermost layer of a build-up, which must not be air")
    cover = (*layer_resistances(frame.cover, direction), inside_film)
    cover_resistance = total_resistance(*cover)
    thickness = frame.web if frame.flange_thickness is None else frame.flange_thickness
    flange = strip_conductance(
        film_coefficient(cover_resistance), frame.conductivity, thickness, wing_length(frame.flange)
    )
    web = web_conductance(frame.conductivity, frame.web, frame.depth)
    outer = strip_conductance(
        film_coefficient(outside_film), plate.conductivity, plate.thickness, wing_length(frame.spacing)
    )
    psi = frame_transmittance(flange, web, outer)
    return FinChain(cover, cover_resistance, flange, web, outer, psi, frame_addition(psi, frame.spacing))


def build_up(
    layers: Sequence[Layer],
    direction: HeatFlow,
    outside_film: Real,
    inside_film: Real,
    frame: Frame | None = None,
) -> BuildUp:
    """All that a build-up is worth between two films (m2K/W), layers from outside to inside.

    Raises ``OutOfRange`` where an air layer is thicker than the table, ``DossierError`` where frames stand on
    air.
    """
    resistances = layer_resistances(layers, direction)
    total = total_resistance(outside_film, *resistances, inside_film)
    between = transmittance(total)
    chain = (outside_film, *resistances, inside_film)
    if frame is None:
        return BuildUp(chain, between, total, total, limits_ratio(total, total), None, between)
    fins = fin_chain(layers[0], frame, direction, outside_film, inside_film)
    upper, lower = _limits(layers, resistances, frame, (outside_film, inside_film))
    ratio = limits_ratio(upper, lower)
    worth = valid_transmittance(
        ratio,
        coefficient("envelope.frame_method_ratio"),
        framed_transmittance(between, fins.addition),
        combined_resistance(upper, lower),
    )
    return BuildUp(chain, between, upper, lower, ratio, fins, worth)
