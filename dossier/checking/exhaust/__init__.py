"""Does the exhaust carry the gas out, clear of water, openings, people and wood?

``line`` (length, bends, water traps, loop), ``outlet`` (heights above the water), ``distances`` (openings,
fuel, people, covers), ``passages`` (bulkheads and hull), ``heat`` (lagging, wood, pressure); what they share
stands in ``way``.
"""

from dossier.checking.exhaust.distances import air_intake, canopy, fuel_points, openings, people
from dossier.checking.exhaust.heat import (
    back_pressure,
    combustible_temperature,
    fuel_spray,
    lagging,
    lagging_touch,
    run_clearance,
)
from dossier.checking.exhaust.line import bends, bore, drain, fall, high_loop, inside_run, length
from dossier.checking.exhaust.outlet import angle_under_water, outlet_freeboard, outlet_heeled, outlet_height
from dossier.checking.exhaust.passages import bulkhead_gap, bulkhead_sleeve, hull_fitting

__all__ = [
    "air_intake",
    "angle_under_water",
    "back_pressure",
    "bends",
    "bore",
    "bulkhead_gap",
    "bulkhead_sleeve",
    "canopy",
    "combustible_temperature",
    "drain",
    "fall",
    "fuel_points",
    "fuel_spray",
    "high_loop",
    "hull_fitting",
    "inside_run",
    "lagging",
    "lagging_touch",
    "length",
    "openings",
    "outlet_freeboard",
    "outlet_heeled",
    "outlet_height",
    "people",
    "run_clearance",
]
