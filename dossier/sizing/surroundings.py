"""What air is round a pipe, and what does it lose to it?"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated

from dossier.data.assumptions import assumed
from dossier.data.coefficients import coefficient
from dossier.data.sources import GEOMETRY
from dossier.notation import NotAssessed, Real, formula, q
from dossier.physics.pipe_heat import (
    cylinder_resistance,
    layers_resistance,
    linear_transmittance,
    surface_temperature,
)
from dossier.sizing.circuit import Place
from dossier.sizing.hydraulics import PipeMeasure

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.heat_loss import HeatLoss


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

    def surface(self, water: Real) -> Real:
        """Temperature of the outside (K)."""
        return surface_temperature(
            water, self.air, self.resistance, self.outside, coefficient("pipe.emissivity")
        )

    def transmittance(self, water: Real) -> Real:
        """Loss of each metre for each kelvin (W/mK)."""
        emissivity = coefficient("pipe.emissivity")
        return linear_transmittance(water, self.air, self.surface(water), self.outside, emissivity)

    def plain_transmittance(self, water: float) -> float:
        """The same for a plain number, without a working: for solvers."""
        air, resistance, outside = float(self.air), float(self.resistance), float(self.outside)
        emissivity = float(coefficient("pipe.emissivity"))
        surface = surface_temperature.function(water, air, resistance, outside, emissivity)
        return float(linear_transmittance.function(water, air, surface, outside, emissivity))


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
    insulation = pipe.insulation or None
    if insulation is not None and insulation.thickness is not None:
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
