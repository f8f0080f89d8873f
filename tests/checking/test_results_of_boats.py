"""Results that no demonstration project states enough for stand under their names once a file does."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.notation import named_results

HERE = Path(__file__).parent


def boat(place):
    name = Path(place).stem
    if name not in sys.modules:
        spec = spec_from_file_location(name, HERE / f"{place}.py")
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


@pytest.mark.parametrize(
    ("place", "first"),
    [
        ("whole_boat", "mass.dry"),
        ("whole_boat", "mass.filled"),
        ("whole_boat", "mass.list"),
        ("whole_boat", "mass.trim"),
        ("whole_boat", "clearance.flooding.B1"),
        ("whole_boat", "clearance.hot_to_fuel"),
        ("whole_boat", "clearance.hot_to_battery"),
        ("exhaust_boat", "exhaust.pressure_loss"),
        ("exhaust_boat", "air.suction"),
    ],
)
def test_a_result_that_is_stated_enough_for_bears_its_name(place, first):
    assert first in {result.name for result in named_results(boat(place).study_of())}


def test_stored_tap_water_has_its_temperature():
    hot = boat("../hot_boat")
    found = {result.name: result for result in named_results(hot.study_of(hot.HEATER).tap_water)}
    assert found["tap_water.store_temperature"].value == pytest.approx(65 + 273.15)
