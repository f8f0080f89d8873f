"""Frames through the insulation: what the combined method needs, and the frame as a chain of fins.

A metal web carries hundreds of times what the insulation beside it does. The combined method of ISO 6946 then
has limits several times apart and its mean is no answer. What the heat really does, for each metre of frame:
the flange gathers it from the room through its cover, the web conducts it, the plate spreads it to the
outside. Three conductances in series, the two outer ones fins. Not counted: heat that the web takes up
through the insulation beside it, and the insulation that the frame takes away.
"""

from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from dossier.data.sources import FIN, HEAT_BALANCE, ISO_6946_COMBINED
from dossier.notation import Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.envelope import temperatures_through

_FILM = q("h", "W/m2K", "film coefficient", low=0.01, high=20000)
_CONDUCTIVITY = q("λ", "W/mK", "thermal conductivity", low=0.01, high=500)
_STRIP = q("G", "W/mK", "conductance for each metre of frame", low=0)
_INSIDE = q("θ_i", "K", "inside temperature", low=213, high=373)
_OUTSIDE = q("θ_e", "K", "temperature beyond", low=213, high=373)
_FLANGE = q("G_f", "W/mK", "conductance of the flange", low=1e-6, high=1e5)
_WEB = q("G_w", "W/mK", "conductance of the web", low=1e-6, high=1e6)
_PLATE = q("G_p", "W/mK", "conductance of the plate", low=1e-6, high=1e6)
_PSI = q("ψ", "W/mK", "loss of a frame for each metre and kelvin", low=0, high=1e5)


@formula("f = t/s", ISO_6946_COMBINED)
def frame_share(
    web: Annotated[Real, q("t", "m", "thickness of the web", low=0.0005, high=0.5)],
    spacing: Annotated[Real, q("s", "m", "spacing of the frames", low=0.05, high=5)],
) -> Annotated[Real, q("f", "1", "share of the area that the frames take", low=0)]:
    """Share of the insulation that is web."""
    return web / spacing


@formula("λ_j = (1 − f)·λ_a + f·λ_b", ISO_6946_COMBINED)
def bridged_conductivity(
    share: Annotated[Real, q("f", "1", "share of the area that the frames take", low=0, high=1)],
    between: Annotated[Real, q("λ_a", "W/mK", "conductivity between the frames", low=0, high=500)],
    frame: Annotated[Real, q("λ_b", "W/mK", "conductivity of the frame", low=0.01, high=500)],
) -> Annotated[Real, q("λ_j", "W/mK", "conductivity of the bridged layer", low=0)]:
    """Conductivity of a layer that frames cross; an air layer counts as a solid of d/R_g."""
    return (1 - share) * between + share * frame


@formula("d_c = min(max(D − s, 0), d)", ISO_6946_COMBINED)
def crossed_thickness(
    depth: Annotated[Real, q("D", "m", "depth of the frame", low=0, high=2)],
    nearer: Annotated[Real, q("s", "m", "thickness of the layers nearer to the plate", low=0, high=10)],
    thickness: Annotated[Real, q("d", "m", "thickness of the layer", low=0, high=2)],
) -> Annotated[Real, q("d_c", "m", "part of the layer that the frame crosses", low=0)]:
    """How far the frame reaches into a layer."""
    return np.minimum(np.maximum(depth - nearer, 0.0), thickness)


@formula("m = √(h·P/(λ·A))", FIN)
def fin_parameter(
    film: Annotated[Real, _FILM],
    perimeter: Annotated[Real, q("P", "m", "wetted perimeter", low=1e-4, high=10)],
    conductivity: Annotated[Real, _CONDUCTIVITY],
    area: Annotated[Real, q("A", "m2", "cross-section", low=1e-8, high=10)],
) -> Annotated[Real, q("m", "1/m", "fin parameter", low=0)]:
    """How fast the temperature of a fin falls from its root."""
    return np.sqrt(film * perimeter / (conductivity * area))


@formula("G = √(h·P·λ·A)·tanh(m·L), m = √(h·P/(λ·A))", FIN)
def fin_conductance(
    film: Annotated[Real, _FILM],
    perimeter: Annotated[Real, q("P", "m", "wetted perimeter", low=1e-4, high=10)],
    conductivity: Annotated[Real, _CONDUCTIVITY],
    area: Annotated[Real, q("A", "m2", "cross-section", low=1e-8, high=10)],
    length: Annotated[Real, q("L", "m", "length of the fin", low=0, high=10)],
) -> Annotated[Real, q("G", "W/K", "conductance of a fin", low=0)]:
    """Heat of a straight fin with adiabatic tip for each kelvin between its root and its surroundings."""
    root = fin_parameter.function(film, perimeter, conductivity, area)
    return np.sqrt(film * perimeter * conductivity * area) * np.tanh(root * length)


@formula("G = 2·√(h·λ·t)·tanh(L·√(h/(λ·t)))", FIN)
def strip_conductance(
    film: Annotated[Real, _FILM],
    conductivity: Annotated[Real, _CONDUCTIVITY],
    thickness: Annotated[Real, q("t", "m", "thickness of the strip", low=1e-4, high=0.5)],
    length: Annotated[Real, q("L", "m", "length of one wing", low=0, high=5)],
) -> Annotated[Real, _STRIP]:
    """Both wings of a flange or of the plate for each metre of frame: fins that give off heat on one face."""
    return 2 * fin_conductance.function(film, 1.0, conductivity, thickness, length)


@formula("L = b/2", FIN)
def wing_length(
    breadth: Annotated[Real, q("b", "m", "breadth of the flange, or spacing of the frames", low=0, high=10)],
) -> Annotated[Real, q("L", "m", "length of one wing", low=0)]:
    """Length of one wing: the web stands in the middle."""
    return breadth / 2


@formula("G_w = λ·t/D", FIN)
def web_conductance(
    conductivity: Annotated[Real, _CONDUCTIVITY],
    thickness: Annotated[Real, q("t", "m", "thickness of the web", low=1e-4, high=0.5)],
    depth: Annotated[Real, q("D", "m", "depth of the frame", low=0.001, high=2)],
) -> Annotated[Real, q("G_w", "W/mK", "conductance of the web", low=0)]:
    """Conduction from flange to plate for each metre of frame."""
    return conductivity * thickness / depth


@formula("ψ = 1/(1/G_f + 1/G_w + 1/G_p)", HEAT_BALANCE)
def frame_transmittance(
    flange: Annotated[Real, _FLANGE], web: Annotated[Real, _WEB], plate: Annotated[Real, _PLATE]
) -> Annotated[Real, _PSI]:
    """Loss of one metre of frame for each kelvin: flange, web and plate one behind the other."""
    return 1 / (1 / flange + 1 / web + 1 / plate)


@formula("ΔU = ψ/s", HEAT_BALANCE)
def frame_addition(
    frame: Annotated[Real, _PSI],
    spacing: Annotated[Real, q("s", "m", "spacing of the frames", low=0.05, high=5)],
) -> Annotated[Real, q("ΔU", "W/m2K", "added by the frames", low=0)]:
    """What the frames add to the transmittance between them."""
    return frame / spacing


@formula("U = U_0 + ΔU", HEAT_BALANCE)
def framed_transmittance(
    between: Annotated[Real, q("U_0", "W/m2K", "transmittance between frames", low=0, high=1000)],
    addition: Annotated[Real, q("ΔU", "W/m2K", "added by the frames", low=0, high=1e6)],
) -> Annotated[Real, q("U", "W/m2K", "thermal transmittance, frames included", low=0)]:
    """Transmittance of a build-up with its frames."""
    return between + addition


@formula("θ_f = θ_i − ψ/G_f·(θ_i − θ_e)", HEAT_BALANCE)
def flange_temperature(
    frame: Annotated[Real, _PSI],
    flange: Annotated[Real, _FLANGE],
    inside: Annotated[Real, _INSIDE],
    outside: Annotated[Real, _OUTSIDE],
) -> Annotated[Real, q("θ_f", "K", "temperature of the flange at the web")]:
    """Temperature of the metal under the cover, where the web meets it: the coldest place."""
    return inside - frame / flange * (inside - outside)


@formula("θ_si = θ_i − R_si/R_c·(θ_i − θ_f)", HEAT_BALANCE)
def surface_over_flange(
    inside_film: Annotated[Real, q("R_si", "m2K/W", "inside surface resistance", low=0.01, high=1)],
    cover: Annotated[
        Real, q("R_c", "m2K/W", "resistance from room to flange, film included", low=0.01, high=50)
    ],
    inside: Annotated[Real, _INSIDE],
    flange: Annotated[Real, q("θ_f", "K", "temperature of the flange at the web", low=213, high=373)],
) -> Annotated[Real, q("θ_si", "K", "inner surface over a frame")]:
    """Temperature of the lining over a frame; the flange's own where it has no cover."""
    return inside - inside_film / cover * (inside - flange)


@formula("θ_p = θ_e + ψ/G_p·(θ_i − θ_e)", HEAT_BALANCE)
def plate_temperature(
    frame: Annotated[Real, _PSI],
    plate: Annotated[Real, _PLATE],
    inside: Annotated[Real, _INSIDE],
    outside: Annotated[Real, _OUTSIDE],
) -> Annotated[Real, q("θ_p", "K", "temperature of the plate at the web's foot")]:
    """Temperature of the plate where a frame stands on it."""
    return outside + frame / plate * (inside - outside)


@dataclass(frozen=True)
class StripLine:
    """Temperatures along one wing of flange or plate, from the web outwards; arrays of equal length."""

    distances: NDArray[np.float64]
    temperatures: NDArray[np.float64]


def strip_temperatures(
    root: float,
    surroundings: float,
    film: float,
    conductivity: float,
    thickness: float,
    length: float,
    points: int = 41,
) -> StripLine:
    """Temperatures along a wing (K) over the distance from the web (m), for drawing."""
    steepness = fin_parameter.function(film, 1.0, conductivity, thickness)
    distances = np.linspace(0.0, length, points)
    far = np.exp(-steepness * (2 * length - distances))
    shape = (np.exp(-steepness * distances) + far) / (1 + np.exp(-2 * steepness * length))
    return StripLine(distances, surroundings + (root - surroundings) * shape)


def temperatures_along_frame(
    inside: Real, outside: Real, plate: Real, flange: Real, cover: tuple[Real, ...]
) -> NDArray[np.float64]:
    """Temperatures through a frame from outside air to inside air (K), samples' axes first.

    Points: outside air, plate at the web's foot, flange, every face of the cover, inside air. ``cover`` runs
    from the flange to the inside film, m2K/W.
    """
    inner = temperatures_through(inside, flange, cover)
    outer = np.stack(np.broadcast_arrays(outside, plate), axis=-1).astype(float)
    outer = np.broadcast_to(outer, (*inner.shape[:-1], 2))
    return np.concatenate([outer, inner], axis=-1)
