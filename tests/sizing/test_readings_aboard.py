"""What a person reads aboard on the design night: the supply wanders over the band, the air leaves warmer."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.sizing.readings_aboard import air_of_coils


def _boat():
    if "ring_boat" not in sys.modules:
        spec = spec_from_file_location("ring_boat", Path(__file__).parents[1] / "ring_boat.py")
        sys.modules["ring_boat"] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules["ring_boat"])
    return sys.modules["ring_boat"]


boat = _boat()
UNSOLVED = {"components.P1.curve": [["0 l/min", "24 kPa"], ["1 l/min", "23 kPa"], ["2 l/min", "22 kPa"]]}
AIR_OF_20_DEGREES = 1.204 * 1006
"""Heat capacity of a cubic metre (J/m³K): 1.204 kg/m³ and 1006 J/kgK, dry air at 101325 Pa, from memory."""


def test_air_takes_up_what_the_coil_gives():
    """300 and 170 m³/h as the file has them; the density at the coil may lie some per cent off."""
    ring = boat.study_of().ring
    found, emitters = air_of_coils(ring), ring.design.heat.emitters
    assert found.keys() == {"F1", "F2"}
    for tag, flow in (("F1", 300 / 3600), ("F2", 170 / 3600)):
        rise = float(emitters[tag].output) / (flow * AIR_OF_20_DEGREES)
        assert float(found[tag]) - float(emitters[tag].room) == pytest.approx(rise, rel=0.03)
        assert rise > 5


def test_without_flows_no_coil_has_an_outlet_temperature():
    assert air_of_coils(boat.study_of(UNSOLVED).ring) == {}
    assert air_of_coils(boat.study_of({"components.P1.curve": None}).ring) == {}
