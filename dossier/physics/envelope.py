"""Resistance and transmittance of hull, deck and bulkhead, layer by layer, and the heat that crosses them.

    layers = (Layer("steel", 0.006, 50.0), Layer("mineral_wool", 0.05, 0.04), Layer("air", 0.02), ...)
    resistances = layer_resistances(layers, HeatFlow.HORIZONTAL)
    U = transmittance(total_resistance(R_se, *resistances, R_si))

Layers run from outside to inside. Edition: air layers from the table of ISO 6946:2007; the 2017 edition
computes them and agrees with its forerunner's table within 0.005 m2K/W.
"""

from collections.abc import Sequence
from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from dossier.data.air_layers import air_layer_table
from dossier.data.coefficients import coefficient
from dossier.data.sources import HEAT_BALANCE, ISO_6946_AIR_LAYERS, ISO_6946_COMBINED, ISO_6946_LAYERS
from dossier.data.surface_resistances import HeatFlow
from dossier.notation import PRACTICE, Real, formula, q
from dossier.notation.records import dataclass


@dataclass(frozen=True)
class Layer:
    """One layer: a solid with its conductivity, or still air, which has none.

    ``vapour_factor`` is that of the layer as the moisture check takes it; still air has none either.
    """

    name: str
    thickness: Real
    conductivity: Real | None = None
    vapour_factor: Real | None = None
    fibrous: bool = False

    @property
    def is_air(self) -> bool:
        """Whether the layer is an unventilated air layer."""
        return self.conductivity is None


@formula("R = d/λ", ISO_6946_LAYERS)
def layer_resistance(
    thickness: Annotated[Real, q("d", "m", "thickness", low=0, high=2)],
    conductivity: Annotated[Real, q("λ", "W/mK", "thermal conductivity", low=0.01, high=500)],
) -> Annotated[Real, q("R", "m2K/W", "thermal resistance of a layer", low=0)]:
    """Resistance of a homogeneous layer."""
    return thickness / conductivity


@formula("R_g = table(d, direction of heat flow)", ISO_6946_AIR_LAYERS)
def air_layer_resistance(
    thickness: Annotated[Real, q("d", "m", "thickness of the air layer", low=0, high=0.3)],
    direction: HeatFlow,
) -> Annotated[Real, q("R_g", "m2K/W", "thermal resistance of an air layer", low=0, high=0.23)]:
    """Resistance of an unventilated air layer between ordinary faces; straight between the table's rows."""
    return np.interp(thickness, *air_layer_table(direction))


@formula("λ_m = f·λ", PRACTICE)
def moist_conductivity(
    conductivity: Annotated[Real, q("λ", "W/mK", "thermal conductivity, dry", low=0.01, high=500)],
    factor: Annotated[Real, q("f", "1", "factor for moist insulation", low=1, high=5)],
) -> Annotated[Real, q("λ_m", "W/mK", "thermal conductivity, moist", low=0)]:
    """Conductivity of fibrous insulation that takes up water on cold plating."""
    return factor * conductivity


@formula("R_T = Σ R", ISO_6946_LAYERS)
def total_resistance(
    *resistances: Annotated[Real, q("R", "m2K/W", "thermal resistance", low=0, high=100)],
) -> Annotated[Real, q("R_T", "m2K/W", "total thermal resistance", low=0)]:
    """Resistance of films and layers one behind the other."""
    return sum(resistances)


@formula("U = 1/R_T", ISO_6946_LAYERS)
def transmittance(
    resistance: Annotated[Real, q("R_T", "m2K/W", "total thermal resistance", low=0.001, high=200)],
) -> Annotated[Real, q("U", "W/m2K", "thermal transmittance", low=0)]:
    """Thermal transmittance of a build-up."""
    return 1 / resistance


@formula("R = 1/((1 − f)/R_a + f/R_b)", ISO_6946_COMBINED)
def bridged_resistance(
    share: Annotated[Real, q("f", "1", "share of the area that the frames take", low=0, high=1)],
    between: Annotated[Real, q("R_a", "m2K/W", "resistance between the frames", low=1e-7, high=100)],
    through: Annotated[Real, q("R_b", "m2K/W", "resistance through a frame", low=1e-7, high=100)],
) -> Annotated[Real, q("R", "m2K/W", "resistance side by side", low=0)]:
    """Resistance of two ways side by side: a bridged layer, or the whole build-up with and without frame."""
    return 1 / ((1 - share) / between + share / through)


@formula("R_T = (R' + R'')/2", ISO_6946_COMBINED)
def combined_resistance(
    upper: Annotated[Real, q("R'", "m2K/W", "upper limit of resistance", low=0, high=100)],
    lower: Annotated[Real, q("R''", "m2K/W", "lower limit of resistance", low=0, high=100)],
) -> Annotated[Real, q("R_T", "m2K/W", "total thermal resistance", low=0)]:
    """Resistance of an inhomogeneous build-up; an answer only where the limits lie close together."""
    return (upper + lower) / 2


@formula("r = R'/R''", ISO_6946_COMBINED)
def limits_ratio(
    upper: Annotated[Real, q("R'", "m2K/W", "upper limit of resistance", low=0, high=100)],
    lower: Annotated[Real, q("R''", "m2K/W", "lower limit of resistance", low=0.001, high=100)],
) -> Annotated[Real, q("r", "1", "ratio of the limits of resistance", low=0)]:
    """Validity of the combined method: above 1.5 the mean of the limits is no answer."""
    return upper / lower


@formula("H = U·A", HEAT_BALANCE)
def section_conductance(
    transmittance: Annotated[Real, q("U", "W/m2K", "thermal transmittance", low=0, high=1000)],
    area: Annotated[Real, q("A", "m2", "area", low=0, high=2000)],
) -> Annotated[Real, q("H", "W/K", "conductance of a section", low=0)]:
    """Heat that a section lets through for each kelvin."""
    return transmittance * area


@formula("Φ_T = U·A·(θ_i − θ_e)", HEAT_BALANCE)
def transmission_loss(
    transmittance: Annotated[Real, q("U", "W/m2K", "thermal transmittance", low=0, high=1000)],
    area: Annotated[Real, q("A", "m2", "area", low=0, high=2000)],
    inside: Annotated[Real, q("θ_i", "K", "inside temperature", low=213, high=373)],
    outside: Annotated[Real, q("θ_e", "K", "temperature beyond", low=213, high=373)],
) -> Annotated[Real, q("Φ_T", "W", "transmission loss")]:
    """Heat flow through one section of the envelope; negative when heat comes in."""
    return transmittance * area * (inside - outside)


def resistance_of(layer: Layer, direction: HeatFlow) -> Real:
    """Resistance of a layer, m2K/W, solid or air."""
    if layer.conductivity is None:
        return air_layer_resistance(layer.thickness, HeatFlow(direction))
    return layer_resistance(layer.thickness, layer.conductivity)


def layer_resistances(layers: Sequence[Layer], direction: HeatFlow) -> tuple[Real, ...]:
    """Resistances of all layers from outside to inside, m2K/W."""
    return tuple(resistance_of(layer, direction) for layer in layers)


def gets_moist(layers: Sequence[Layer], *, is_vapour_tight: bool) -> bool:
    """Whether fibrous insulation lies straight on plating that holds back vapour, open to the room's air.

    Rule of this dossier: plating is what has a vapour factor of a metal or a glass-fibre laminate; a
    vapour-tight inner face keeps the insulation dry.
    """
    if is_vapour_tight or len(layers) == 1 or layers[0].vapour_factor is None:
        return False
    plating = bool(np.all(layers[0].vapour_factor >= coefficient("envelope.plating_vapour_factor")))
    return plating and layers[1].fibrous


def temperatures_through(inside: Real, outside: Real, resistances: Sequence[Real]) -> NDArray[np.float64]:
    """Temperatures from the outside air to the inside air, at every face between (K).

    ``resistances`` runs from the outside film to the inside film, m2K/W. The result has the samples' axes
    first and then ``len(resistances) + 1`` points: outside air, outer face, …, inner face, inside air.
    """
    parts = np.stack(np.broadcast_arrays(*(np.asarray(r, dtype=float) for r in resistances)), axis=-1)
    shares = np.cumsum(parts, axis=-1) / np.sum(parts, axis=-1, keepdims=True)
    start, rise = np.asarray(outside, dtype=float), np.asarray(inside, dtype=float) - np.asarray(outside)
    line = start[..., np.newaxis] + rise[..., np.newaxis] * shares
    return np.concatenate([np.broadcast_to(start[..., np.newaxis], (*line.shape[:-1], 1)), line], axis=-1)
