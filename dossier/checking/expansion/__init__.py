"""Where the hot coolant goes.

``open_ring`` (header and vent), ``sealed_ring`` (vessel, safety valve, gauge), ``burner`` (its way to
expansion, boiling); what they share stands in ``kinds``.
"""

from dossier.checking.expansion.burner import after_stop, boiling, no_valve
from dossier.checking.expansion.open_ring import (
    capacity,
    cold_level,
    highest,
    highest_heeled,
    level_seen,
    open_vent,
    vent_led,
)
from dossier.checking.expansion.sealed_ring import gauge, precharge, safety_valve, vessel

__all__ = [
    "after_stop",
    "boiling",
    "capacity",
    "cold_level",
    "gauge",
    "highest",
    "highest_heeled",
    "level_seen",
    "no_valve",
    "open_vent",
    "precharge",
    "safety_valve",
    "vent_led",
    "vessel",
]
