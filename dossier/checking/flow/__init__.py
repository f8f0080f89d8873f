"""Does the coolant move as it should?

``burner`` (its least flow in every mode and in the cold), ``branches`` (balancing, measurements, the pump's
reserve), ``speeds`` (fast, slow, backward, ring difference), ``pressure`` (suction, ratings), ``air`` (vents,
drains, air separator), ``pipes`` (oxygen, supports, valves to take parts out).
"""

from dossier.checking.flow.air import air_separator, high_points, low_points
from dossier.checking.flow.branches import branch_flow, measured, preset_range, pump_reserve
from dossier.checking.flow.burner import burner_min, cold_start, never_shut
from dossier.checking.flow.pipes import hose_support, oxygen_barrier, shut_valves
from dossier.checking.flow.pressure import no_suction_in, pressure_rating, suction, temperature_rating
from dossier.checking.flow.speeds import reverse, ring_difference, velocity_air, velocity_max

__all__ = [
    "air_separator",
    "branch_flow",
    "burner_min",
    "cold_start",
    "high_points",
    "hose_support",
    "low_points",
    "measured",
    "never_shut",
    "no_suction_in",
    "oxygen_barrier",
    "preset_range",
    "pressure_rating",
    "pump_reserve",
    "reverse",
    "ring_difference",
    "shut_valves",
    "suction",
    "temperature_rating",
    "velocity_air",
    "velocity_max",
]
