"""Heat that leaves with the air: through chinks and vents, or because people must breathe.

The load counts the larger of what the boat lets through and what the people aboard need. Convention: 0.34
Wh/m3K, 1 % more than dry air of 20 °C has.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import EN_12831_VENTILATION
from dossier.notation import PRACTICE, Real, formula, q


@formula("q_a = n·V", EN_12831_VENTILATION)
def air_change_flow(
    changes: Annotated[Real, q("n", "1/s", "air changes", low=0, high=0.02)],
    volume: Annotated[Real, q("V", "m3", "volume of the zone", low=0, high=2000)],
) -> Annotated[Real, q("q_a", "m3/s", "outside air by air changes", low=0)]:
    """Outside air that the zone lets through."""
    return changes * volume


@formula("q_h = N·q_p", PRACTICE)
def breathing_air_flow(
    people: Annotated[Real, q("N", "1", "people", low=0, high=500)],
    air_per_person: Annotated[Real, q("q_p", "m3/s", "outside air for one person", low=0, high=0.05)],
) -> Annotated[Real, q("q_h", "m3/s", "outside air for the people aboard", low=0)]:
    """Outside air that the people in the zone need."""
    return people * air_per_person


@formula("q_V = max(q_a, q_h)", EN_12831_VENTILATION)
def outside_air_flow(
    by_changes: Annotated[Real, q("q_a", "m3/s", "outside air by air changes", low=0, high=50)],
    by_people: Annotated[Real, q("q_h", "m3/s", "outside air for the people aboard", low=0, high=50)],
) -> Annotated[Real, q("q_V", "m3/s", "outside air counted in the load", low=0)]:
    """Outside air that has to be warmed: the larger of both."""
    return np.maximum(by_changes, by_people)


@formula("H_V = ρc·q_V", EN_12831_VENTILATION)
def ventilation_conductance(
    heat_capacity: Annotated[Real, q("ρc", "J/m3K", "heat capacity of a volume of air", low=500, high=2000)],
    flow: Annotated[Real, q("q_V", "m3/s", "outside air", low=0, high=50)],
) -> Annotated[Real, q("H_V", "W/K", "conductance by ventilation", low=0)]:
    """Heat that the outside air takes for each kelvin."""
    return heat_capacity * flow


@formula("Φ_V = ρc·q_V·(θ_i − θ_e)", EN_12831_VENTILATION)
def ventilation_loss(
    heat_capacity: Annotated[Real, q("ρc", "J/m3K", "heat capacity of a volume of air", low=500, high=2000)],
    flow: Annotated[Real, q("q_V", "m3/s", "outside air", low=0, high=50)],
    inside: Annotated[Real, q("θ_i", "K", "inside temperature", low=213, high=373)],
    outside: Annotated[Real, q("θ_e", "K", "outside air", low=213, high=373)],
) -> Annotated[Real, q("Φ_V", "W", "ventilation loss")]:
    """Heat that leaves with the air; negative when warmer air comes in."""
    return heat_capacity * flow * (inside - outside)
