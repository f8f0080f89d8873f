"""What if the pump stops while the burner burns?

The water in the burner stands. Where the sensor sits in the burner it stops the flame at the setpoint; in
return or store it feels nothing, and the overheat stat must. Then the heat left in the burner follows.
"""

from typing import Annotated, Any

import numpy as np

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.coefficients import coefficient
from dossier.data.sources import LUMPED_CAPACITY
from dossier.notation import PRACTICE, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.boiling import temperature_after_stop
from dossier.physics.store import fluid_heat_capacity, heat_capacity, total_heat_capacity
from dossier.sizing.coolant import Coolant
from dossier.sizing.store_parts import metal_of

STANDING = q("C_b", "J/K", "heat capacity of burner and its water", low=100, high=1e7)


@formula("t = C_b · max(θ_s − θ_0, 0)/Φ_on", LUMPED_CAPACITY)
def time_until_stopped(
    capacity: Annotated[Real, STANDING],
    stops: Annotated[Real, q("θ_s", "K", "temperature at which the flame stops", low=270, high=480)],
    before: Annotated[Real, q("θ_0", "K", "burner when the pump stops", low=250, high=480)],
    output: Annotated[Real, q("Φ_on", "W", "output of the burner", low=1, high=1e6)],
) -> Annotated[Real, q("t", "s", "from the pump's stop to the flame's", low=0)]:
    """How long the flame burns on without flow."""
    return capacity * np.maximum(stops - before, 0.0) / output


@formula("Q = Φ_on · t_h", PRACTICE)
def heat_left(
    output: Annotated[Real, q("Φ_on", "W", "full output", low=1, high=1e6)],
    time: Annotated[Real, q("t_h", "s", "time of full output left in it", low=0, high=600)],
) -> Annotated[Real, q("Q", "J", "heat left in the burner")]:
    """Heat left in a burner that stops, where its maker does not tell."""
    return output * time


@dataclass(frozen=True)
class PumpStop:
    """The burner after its pump has stopped, flame on full."""

    by_stat: bool
    stops_at: Annotated[Real, q("θ_s", "K", "temperature at which the flame stops")]
    time: Annotated[Real, q("t", "s", "from the pump's stop to the flame's")]
    peak: Annotated[Real, q("θ", "K", "burner after the stop")]


def standing_capacity(water: Real, metal: Real, coolant: Coolant) -> Real:
    """Heat capacity (J/K) of a burner's water (m³) and metal (kg) while nothing flows."""
    return total_heat_capacity(
        fluid_heat_capacity(water, coolant.density, coolant.specific_heat),
        heat_capacity(metal, coefficient("store.metal_specific_heat")),
    )


def pump_stop(unit: Any, coolant: Coolant, sensor: str, setpoint: Real) -> PumpStop:
    """What happens when the pump stops with the flame on full and the burner at its setpoint (K)."""
    key = f"components.{unit.tag}"
    water = stated_or_assumed(unit.water_volume, "components.burner.water_volume", f"{key}.water_volume")
    metal = metal_of(unit)
    capacity = standing_capacity(water, 0.0 if metal is None else metal, coolant)
    by_stat = sensor != "outlet"
    stops = setpoint
    if by_stat:
        stops = stated_or_assumed(
            unit.overheat_stat, "components.burner.overheat_stat", f"{key}.overheat_stat"
        )
    left = unit.heat_after_stop
    if left is None:
        left = heat_left(
            unit.output.max, assumed("components.burner.heat_after_stop", f"{key}.heat_after_stop")
        )
    return PumpStop(
        by_stat,
        stops,
        time_until_stopped(capacity, stops, setpoint, unit.output.max),
        temperature_after_stop(stops, left, capacity),
    )
