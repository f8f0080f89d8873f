"""The one place where a kind of component finds its sign and the words of the legend."""

from dossier.rendering.drawings.side_symbols import SIDE_SIGNS
from dossier.rendering.drawings.symbols import UNITS, Sign
from dossier.rendering.drawings.valve_symbols import VALVES

SIGNS: dict[str, Sign] = {each.kind: each for each in (*UNITS, *SIDE_SIGNS, *VALVES)}

WORDS: dict[str, str] = {
    "air_separator": "air separator",
    "balancing_valve": "balancing valve, preset",
    "battery": "battery",
    "buffer": "buffer store",
    "burner": "burner",
    "bypass_valve": "bypass valve",
    "check_valve": "check valve",
    "engine": "engine",
    "fan_coil": "fan coil",
    "floor_loop": "floor loop",
    "fuel_filter": "fuel filter",
    "fuel_shut_off": "fuel shut-off",
    "fuel_tank": "fuel tank",
    "fuse": "fuse",
    "generator": "generator",
    "header_tank": "header tank",
    "isolator": "isolator",
    "manifold": "manifold",
    "membrane_vessel": "membrane vessel",
    "mixing_valve": "mixing valve",
    "motor_valve": "motor valve",
    "off_page": "goes on in another part",
    "pump": "pump",
    "radiator": "radiator",
    "recovery_exchanger": "exchanger, engine side",
    "safety_valve": "safety valve",
    "shut_valve": "shut valve",
    "silencer": "silencer",
    "tap_exchanger": "exchanger, tap water",
    "thermostatic_valve": "thermostatic valve",
    "three_way_valve": "three-way valve",
    "towel_rail": "towel rail",
    "vent": "vent",
    "water_heater": "water heater",
}


def sign(kind: str) -> Sign:
    """The sign of a kind; raises KeyError for a kind that has none."""
    return SIGNS[kind]
