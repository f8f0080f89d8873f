"""Air of burner, engine and cooling, against the elements of combustion and a balance of heat."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from math import log, pi
from pathlib import Path

import pytest

from dossier.notation import NotAssessed, named_results


def _beside(name):
    if name not in sys.modules:
        place = Path(__file__).parents[1] / "checking" / f"{name}.py"
        spec = spec_from_file_location(name, place)
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("exhaust_boat")
DENSITY = 101325 / (287.05 * 298.15)
BURNER = 8000 / (0.82 * 42.6e6) * 14.5 * 1.5 / DENSITY


def air(changes=None):
    return boat.study_of(changes).air


def test_the_burner_draws_the_air_of_its_fuel_and_half_as_much_again():
    assert float(air().combustion) == pytest.approx(BURNER, rel=1e-9)


def test_air_of_two_burners_of_the_worked_figures():
    """12 kW at 84 % through 120 cm² and 11 kW at 86 % through 180 cm²: about half and a third of 1 m/s."""
    for output, efficiency, opening, velocity in ((12, 84, 120, 0.51), (11, 86, 180, 0.31)):
        changes = {
            "components.B1.output": {"max": f"{output} kW"},
            "components.B1.efficiency": f"{efficiency} %",
            "combustion_air.opening": f"{opening} cm2",
            "exhaust": None,
        }
        assert float(air(changes).velocity) == pytest.approx(velocity, rel=0.02)


def test_an_efficiency_that_is_not_stated_is_assumed():
    found = air({"components.B1.efficiency": None})
    assert float(found.combustion) == pytest.approx(BURNER * 0.82 / 0.80, rel=1e-9)


def exhaust_heat(length, lagging=0.04):
    """Heat of a lagged exhaust of 30 mm bore to air of 35 °C, gas of 350 °C (W)."""
    outside = 0.033 + 2 * lagging
    inner = 1 / (35 * pi * 0.03) + log(outside / 0.033) / (2 * pi * 0.06)
    return length * (350 - 35) / (inner + 1 / (10 * pi * outside))


def test_cooling_adds_what_the_burners_own_air_does_not_carry():
    study = boat.study_of()
    inside = float(dict(study.exhaust.route.spaces)["engine_room"])
    needed = exhaust_heat(inside) / (DENSITY * 1006 * (55 - 25))  # the maker's 55 °C, a day of 25 °C
    assert float(study.air.cooling) == pytest.approx(needed - BURNER, rel=1e-6)
    assert float(study.air.need) == pytest.approx(needed + 200 / 3600, rel=1e-6)
    strong = boat.study_of({"components.B1.output": {"max": "11 kW"}})
    assert float(strong.air.cooling) == 0
    assert float(strong.air.need) == pytest.approx(BURNER * 11 / 8 + 200 / 3600, rel=1e-9)


@pytest.mark.parametrize(
    "changes",
    [
        {"exhaust": None},
        {"exhaust.lagging": None},
        {"exhaust.lagging.extent": "to the partition"},
        {"components.B1.space_max": "25 degC"},
    ],
)
def test_cooling_is_left_out_where_the_heat_or_the_rise_is_not_known(changes):
    found = air(changes)
    assert found.cooling is None
    assert float(found.need) == pytest.approx(BURNER + 200 / 3600, rel=1e-9)


def test_need_velocity_and_suction_are_results():
    names = {result.name for result in named_results(air())}
    assert names == {"air.need", "air.velocity", "air.suction"}


def test_ducted_air_needs_no_opening_and_makes_no_draught():
    found = air({"combustion_air": {"from": "outside", "opening": "60 cm2"}})
    assert (found.is_ducted, found.suction) == (True, None)
    assert float(found.velocity) == pytest.approx(BURNER / 0.006, rel=1e-9)


def test_nothing_said_of_air_and_burner_is_not_assessed():
    found = air({"combustion_air": None, "components.B1.output": None})
    assert isinstance(found, NotAssessed)
    assert found.needs == ("combustion_air.from", "components.burner.output.max")
    assert float(air({"combustion_air": None}).need) > 0
