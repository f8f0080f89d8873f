"""What air is round a pipe, and what does it lose to it?"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated

import numpy as np
from numpy.typing import NDArray

from dossier.data.assumptions import assumed
from dossier.data.coefficients import coefficient
from dossier.data.sources import GEOMETRY
from dossier.notation import NotAssessed, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.pipe_heat import (
    BOLTZMANN,
    convection_film,
    cylinder_resistance,
    layers_resistance,
    linear_transmittance,
    radiation_film,
    surface_temperature,
)
from dossier.project.model.circuit import Insulation
from dossier.sizing.circuit import Place
from dossier.sizing.hydraulics import PipeMeasure
from dossier.sizing.telling import told

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.heat_loss import HeatLoss


Array = NDArray[np.float64]


@formula("D = d_o + 2·s", GEOMETRY)
def insulated_diameter(
    outside: Annotated[Real, q("d_o", "m", "outside diameter of the pipe", low=0.002, high=1)],
    thickness: Annotated[Real, q("s", "m", "thickness of the insulation", low=0, high=0.5)],
) -> Annotated[Real, q("D", "m", "outside diameter of the insulation")]:
    """Diameter over the insulation."""
    return outside + 2 * thickness


@dataclass(frozen=True)
class PipeLoss:
    """Loss of a pipe to the air round it, found at one temperature of the water."""

    tag: str
    through: str
    beside: str
    air: Annotated[Real, q("θ_a", "K", "air round the pipe")]
    length: Annotated[Real, q("L", "m", "length")]
    resistance: Annotated[Real, q("R", "mK/W", "resistance from water to surface")]
    outside: Annotated[Real, q("D", "m", "outside diameter of pipe or insulation")]

    def surface(self, water: Real, found: float | None = None) -> Real:
        """Temperature of the outside (K) at a temperature of the water; ``found`` where a solver has it."""
        given = (water, self.air, self.resistance, self.outside, coefficient("pipe.emissivity"))
        return surface_temperature(*given) if found is None else told(surface_temperature, found, *given)

    def transmittance(self, water: Real, surface: Real | None = None) -> Real:
        """Loss of each metre for each kelvin (W/mK); ``surface`` where it was found already."""
        outside = self.surface(water) if surface is None else surface
        return linear_transmittance(water, self.air, outside, self.outside, coefficient("pipe.emissivity"))


class PipeLosses:
    """Losses of many pipes at once in plain numbers, for solvers; it remembers the surfaces it found last.

    The surface of each pipe is where what comes through its wall is what it gives off, found by Newton's
    method: what is given off rises with the surface's temperature and bends but little.
    """

    STEPS = 30
    CLOSE = 1e-4
    """Step (K) after which the next one would be less than 1e-9 K."""

    def __init__(self, pipes: Mapping[str, PipeLoss]) -> None:
        self.tags = tuple(pipes)
        self.air = np.array([float(pipe.air) for pipe in pipes.values()])
        self._resistance = np.array([float(pipe.resistance) for pipe in pipes.values()])
        self._outside = np.array([float(pipe.outside) for pipe in pipes.values()])
        self._length = np.array([float(pipe.length) for pipe in pipes.values()])
        self._emissivity = float(coefficient("pipe.emissivity"))
        self._surface: Array | None = None

    def conductances(self, water: Array) -> Array:
        """Loss of each pipe for each kelvin (W/K) at the temperature of its water (K)."""
        if not self.tags:
            return np.zeros(0)
        film = self._film(self.surfaces(water))
        losing: Array = self._length / (self._resistance + 1 / film)
        return losing

    def surfaces(self, water: Array) -> Array:
        """Temperature of the outside of each pipe (K)."""
        air, outside = self.air, self._outside
        surface = water - 0.1 * (water - air) if self._surface is None else self._surface
        round_it = np.pi * outside
        for _ in range(self.STEPS):
            excess = surface - air
            convected = convection_film.function(surface, air, outside)
            radiated = radiation_film.function(surface, air, self._emissivity)
            film = (convected + radiated) * round_it
            bend = (
                0.25 * convected
                + self._emissivity * BOLTZMANN * (3 * surface**2 + 2 * surface * air + air**2) * excess
            )
            left = water - surface - self._resistance * film * excess
            step = left / (1 + self._resistance * (film + bend * round_it))
            surface = surface + step
            if np.max(np.abs(step)) < self.CLOSE:
                break
        self._surface = surface
        return surface

    def _film(self, surface: Array) -> Array:
        """What a metre of each pipe gives off for each kelvin (W/mK)."""
        convected = convection_film.function(surface, self.air, self._outside)
        radiated = radiation_film.function(surface, self.air, self._emissivity)
        film: Array = (convected + radiated) * np.pi * self._outside
        return film


def air_round(
    project: "Project", through: str | None, loss: "HeatLoss | NotAssessed", beside: str, key: str
) -> Real:
    """Air round a pipe: of the zone it passes, the outside air, of the zone beside, else what is assumed."""
    conditions = project.conditions
    if through == "outside" and conditions is not None and conditions.outside_air is not None:
        return conditions.outside_air
    if through and not isinstance(loss, NotAssessed) and through in loss.zones:
        return loss.zones[through].temperature
    if through is None and beside and not isinstance(loss, NotAssessed) and beside in loss.zones:
        return loss.zones[beside].temperature
    return assumed("circuit.surroundings", f"{key}.through")


def pipe_loss(
    project: "Project", place: Place, measure: PipeMeasure, loss: "HeatLoss | NotAssessed", beside: str
) -> PipeLoss | None:
    """What a pipe loses to the air round it.

    Where the file does not say what a pipe of a branch runs through, it is taken to lie in the zone
    ``beside``, which the branch heats: its heat is then neither lost nor credited to that zone.
    """
    pipe = place.pipe
    if pipe is None:
        return None
    air = air_round(project, pipe.through, loss, beside, place.key)
    layers: list[Real] = []
    outside = measure.outside
    if measure.wall_conductivity is not None and float(measure.outside) > float(measure.bore):
        layers.append(cylinder_resistance(measure.bore, measure.outside, measure.wall_conductivity))
    insulation = pipe.insulation
    if isinstance(insulation, Insulation) and insulation.thickness is not None:
        conductivity = insulation.conductivity
        if conductivity is None:
            conductivity = assumed("circuit.insulation", f"{place.key}.insulation.conductivity")
        thick = insulated_diameter(outside, insulation.thickness)
        layers.append(cylinder_resistance(outside, thick, conductivity))
        outside = thick
    return PipeLoss(
        place.tag,
        pipe.through or "",
        beside if pipe.through is None else "",
        air,
        measure.length,
        layers_resistance(*layers) if layers else 0.0,
        outside,
    )
