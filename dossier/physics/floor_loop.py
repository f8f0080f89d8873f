"""Heat of a floor loop: EN 1264's surface curve, behind the resistance from water to surface.

The flux from floor to room is 8.92 · (θ_F − θ_i)^1.1 W/m². Water, pipe wall, bed and covering stand before it
as resistances (ISO 11855-2, resistance method). Heat to below is not counted: insulate under the bed.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import EN_1264_FLOOR, HEAT_BALANCE, ISO_11855_RESISTANCE
from dossier.notation import Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.emitter import RATE, ROOM, WATER_IN
from dossier.physics.exchanger import mean_decay
from dossier.physics.root import bracketed_root

SPACING = q("T", "m", "spacing of the pipes", low=0.03, high=0.6)
OUTSIDE = q("d_a", "m", "outside diameter of the pipe", low=0.005, high=0.03)
NO_FLUX = 1e-12  # W/m²; less than this is none, and numbers still smaller lose their digits
RESISTANCE = q("R", "m2K/W", "resistance from water to floor surface", low=0.005, high=5)


@formula("q = 8.92 · (θ_F − θ_i)^1.1", EN_1264_FLOOR)
def floor_flux(
    surface: Annotated[Real, q("θ_F", "K", "surface of the floor", low=220, high=350)],
    room: Annotated[Real, ROOM],
) -> Annotated[Real, q("q", "W/m2", "heat flux of the floor")]:
    """Flux from a heated floor to the room: 100 W/m² at 9 K, 175 W/m² at 15 K; negative from a cold floor."""
    excess = surface - room
    return np.sign(excess) * 8.92 * np.abs(excess) ** 1.1


@formula("R = R_B + T · (ln(T/(π · d_a))/(2π · λ_E) + ln(d_a/d_i)/(2π · λ_R))", ISO_11855_RESISTANCE)
def floor_resistance(
    covering: Annotated[Real, q("R_B", "m2K/W", "resistance of the covering", low=0, high=1)],
    spacing: Annotated[Real, SPACING],
    outside: Annotated[Real, OUTSIDE],
    bore: Annotated[Real, q("d_i", "m", "bore of the pipe", low=0.004, high=0.029)],
    bed: Annotated[Real, q("λ_E", "W/mK", "conductivity of the bed", low=0.1, high=250)],
    wall: Annotated[Real, q("λ_R", "W/mK", "conductivity of the pipe", low=0.1, high=400)],
) -> Annotated[Real, q("R", "m2K/W", "resistance from water to floor surface")]:
    """Resistance from water to floor surface, for each square metre of floor."""
    around = np.log(spacing / (np.pi * outside)) / (2 * np.pi * bed)
    return covering + spacing * (around + np.log(outside / bore) / (2 * np.pi * wall))


@formula(
    "Φ = A · q, q = 8.92 · (θ_m − R · q − θ_i)^1.1, θ_m of water from θ_V to θ_V − Φ/Ċ (logarithmic)",
    EN_1264_FLOOR,
)
def floor_heat(
    area: Annotated[Real, q("A", "m2", "floor over the loop", low=0.05, high=100)],
    resistance: Annotated[Real, RESISTANCE],
    water_in: Annotated[Real, WATER_IN],
    water_rate: Annotated[Real, RATE],
    room: Annotated[Real, ROOM],
) -> Annotated[Real, q("Φ", "W", "output of the floor loop")]:
    """Output of a floor loop at its actual flow; negative where the water enters colder than the room."""
    span = np.abs(water_in - room)
    most = water_rate * span / area
    most = np.where(most < NO_FLUX, 0.0, most)[()]

    def short(flux: Real) -> Real:
        # The mean excess that the water has, less the excess that the flux needs.
        used = np.minimum(flux / np.maximum(most, np.finfo(float).tiny), 1.0)
        with np.errstate(divide="ignore"):
            depth = -np.log1p(-used)
        has = np.where(used < 1, span * mean_decay(np.minimum(depth, 1e3)), 0.0)
        short_of: Real = (has - resistance * flux - (flux / 8.92) ** (1 / 1.1))[()]
        return short_of

    flux = bracketed_root(short, 0.0, most)
    return np.sign(water_in - room) * area * flux


@formula("θ_F = θ_i + (q/8.92)^(1/1.1)", EN_1264_FLOOR)
def floor_surface(
    flux: Annotated[Real, q("q", "W/m2", "heat flux of the floor", low=0, high=1000)],
    room: Annotated[Real, ROOM],
) -> Annotated[Real, q("θ_F", "K", "surface of the floor")]:
    """Mean surface temperature of a floor that gives a flux."""
    return room + (flux / 8.92) ** (1 / 1.1)


@formula("q = Φ/A", HEAT_BALANCE)
def heat_flux(
    heat: Annotated[Real, q("Φ", "W", "output of the floor loop", low=0, high=1e5)],
    area: Annotated[Real, q("A", "m2", "floor over the loop", low=0.05, high=100)],
) -> Annotated[Real, q("q", "W/m2", "heat flux of the floor")]:
    """Heat given by each square metre of floor."""
    return heat / area


@dataclass(frozen=True)
class FloorLoop:
    """A floor loop: floor over it (m²) and resistance from water to surface (m²K/W)."""

    area: Real
    resistance: Real

    def output(self, water_in: Real, water_rate: Real, air_in: Real) -> Real:
        """Heat (W) given to the room."""
        return floor_heat(self.area, self.resistance, water_in, water_rate, air_in)
