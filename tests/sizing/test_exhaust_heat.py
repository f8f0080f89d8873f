"""Temperatures and pressure of the exhaust against closed forms and general-purpose libraries."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from math import log, pi, radians, sqrt
from pathlib import Path

import pytest
from fluids.friction import friction_factor
from scipy.special import k0, k1

from dossier.notation import lines_behind, origin_of
from dossier.sizing.exhaust_heat import Cover


def _beside(name):
    if name not in sys.modules:
        place = Path(__file__).parents[1] / "checking" / f"{name}.py"
        spec = spec_from_file_location(name, place)
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("exhaust_boat")
CELSIUS = 273.15
GAS, AIR = CELSIUS + 350, CELSIUS + 35
PIPE, LAGGED = 0.033, 0.113


def heat(changes=None):
    return boat.study_of(changes).exhaust.heat


def resistance(lagging=0.04, conductivity=0.06):
    """Gas film of 35 W/m²K and lagging round a pipe of 30 mm bore with walls of 1.5 mm."""
    return 1 / (35 * pi * 0.03) + log((PIPE + 2 * lagging) / PIPE) / (2 * pi * conductivity)


def test_the_surface_of_the_lagging_is_that_of_cylinders_in_series():
    found = heat()
    expected = AIR + (GAS - AIR) / (1 + resistance() * 10 * pi * LAGGED)
    assert float(found.lagging_temperature) == pytest.approx(expected, rel=1e-9)
    assert float(found.lagged.outside) == pytest.approx(LAGGED)


def test_the_cutter_and_the_barge_of_the_worked_figures():
    """About 60 °C with 35 °C round it, and 127 °C with 20 °C round it: within 15 % of the rise."""
    cutter = heat({"exhaust.bore": "38 mm"})
    assert float(cutter.lagging_temperature) - AIR == pytest.approx(60 - 35, rel=0.15)
    barge = heat({"exhaust.lagging": {"thickness": "8 mm", "conductivity": "0.06 W/m/K", "extent": "part"}})
    share = (127 - 20) / (350 - 20)
    assert (float(barge.lagging_temperature) - AIR) / (GAS - AIR) == pytest.approx(share, rel=0.01)


@pytest.mark.parametrize(
    ("lagging", "cover"),
    [
        ({"thickness": "40 mm", "extent": "whole"}, Cover.WHOLE),
        ({"thickness": "40 mm", "extent": "to the partition"}, Cover.PART),
        ({"thickness": "40 mm"}, Cover.EXTENT_UNKNOWN),
        ("none", Cover.BARE),
        ({"extent": "whole"}, Cover.UNKNOWN),
        (None, Cover.UNKNOWN),
    ],
)
def test_how_far_an_exhaust_is_lagged(lagging, cover):
    assert heat({"exhaust.lagging": lagging}).cover is cover


def test_the_wood_beside_a_partly_lagged_exhaust_is_that_beside_bare_pipe():
    bare = heat({"exhaust.lagging": "none"}).run_temperature
    part = heat({"exhaust.lagging.extent": "to the partition"}).run_temperature
    whole = heat().run_temperature
    assert float(part) == float(bare) > float(whole)


def test_what_was_chosen_as_the_hottest_is_found_again_from_what_it_was_chosen_from():
    part = heat({"exhaust.lagging.extent": "to the partition"}).run_temperature
    working = origin_of(part)
    given = [float(each.value) for each in working.given]
    assert len(given) == 2
    assert working.statement.function(*given) == max(given) == float(part)


def test_gas_is_as_stated_else_by_the_efficiency_and_soot_else_assumed():
    assert float(heat().gas) == GAS
    by_efficiency = heat({"exhaust.gas_temperature": None}).gas
    # (1 − η) · H_i/((14.5 · λ + 1) · c_p) above the air, and 100 K for a fouled heat exchanger
    expected = AIR + (1 - 0.82) * 42.6e6 / ((14.5 * 1.5 + 1) * 1100) + 100
    assert float(by_efficiency) == pytest.approx(expected, rel=1e-9)
    silent = {"exhaust.gas_temperature": None, "components.B1.efficiency": None}
    assert float(heat(silent).gas) == CELSIUS + 350
    assert [line.key for line in lines_behind(heat(silent).gas)] == ["exhaust.gas_temperature"]


def test_of_several_burners_the_largest_counts():
    twin = {"kind": "burner", "output": {"max": "9 kW"}, "efficiency": "90 %"}
    found = heat({"exhaust.gas_temperature": None, "components.B2": twin}).gas
    assert float(found) == pytest.approx(AIR + 0.10 * 42.6e6 / (22.75 * 1100) + 100, rel=1e-9)


def test_the_surroundings_are_what_is_assumed_unless_the_space_is_hotter():
    assert float(heat().surroundings) == AIR  # the engine room of the design night is colder
    zones = boat.changed(boat.KETCH, {})["zones"]
    zones[1] |= {"target": "45 degC"}
    del zones[1]["floats"]
    assert float(heat({"zones": zones}).surroundings) == pytest.approx(CELSIUS + 45)


def board(thickness=0.05, conductivity=0.18, hole=0.175):
    """Heat the edge of a hole in oak gives off: G = 2π · λ · t · x · K1(x)/K0(x), films of 7.7 W/m²K."""
    x = hole / 2 * sqrt(2 * 7.7 / (conductivity * thickness))
    return 2 * pi * conductivity * thickness * x * k1(x) / k0(x)


def test_the_edge_of_a_packed_hole_is_conduction_all_the_way():
    passage = boat.study_of().exhaust.passages[0]
    packing = log(0.175 / LAGGED) / (2 * pi * 0.06)
    expected = AIR + (GAS - AIR) / (1 + board() / 0.05 * (resistance() + packing))
    assert passage.packed is True
    assert float(passage.temperature) == pytest.approx(expected, abs=0.01)
    assert float(passage.gap) == pytest.approx((0.175 - LAGGED) / 2)


def test_a_closing_nobody_tells_of_counts_by_the_hotter_of_air_and_packing():
    def edge(closing):
        keys = {"bulkhead": "b", "hole": "175 mm", "material": "oak", "thickness": "50 mm"}
        keys |= {"closing": closing} if closing else {}
        return boat.study_of({"exhaust.passes": [keys]}).exhaust.passages[0]

    open_gap, packed, silent, plates = edge("none"), edge("mineral wool"), edge(None), edge("steel plates")
    assert (open_gap.packed, packed.packed, silent.packed, plates.packed) == (False, True, None, None)
    hotter = max(float(open_gap.temperature), float(packed.temperature))
    assert float(silent.temperature) == float(plates.temperature) == hotter
    assert float(open_gap.temperature) != float(packed.temperature)


def test_lagging_that_does_not_pass_a_plate_of_metal_ends_there():
    plate = {"bulkhead": "plate", "hole": "60 mm", "material": "steel", "thickness": "6 mm"}
    passage = boat.study_of({"exhaust.passes": [plate]}).exhaust.passages[0]
    assert float(passage.outside) == pytest.approx(PIPE)
    assert float(passage.gap) == pytest.approx((0.060 - PIPE) / 2)
    assert passage.temperature is None
    wide = boat.study_of({"exhaust.passes": [plate | {"hole": "150 mm"}]}).exhaust.passages[0]
    assert float(wide.outside) == pytest.approx(LAGGED)


def test_the_pressure_loss_is_friction_bends_and_outlet():
    """Friction by the general-purpose library ``fluids`` (Colebrook), gas as air at its temperature."""
    study = boat.study_of()
    flow = study.exhaust.gas
    mass = 8000 / (0.82 * 42.6e6) * (1 + 14.5 * 1.5)
    density = 101325 / (287.05 * GAS)
    viscosity = 1.458e-6 * GAS**1.5 / (GAS + 110.4)
    speed = mass / density / (pi * 0.03**2 / 4)
    assert float(flow.velocity) == pytest.approx(speed, rel=1e-9)
    friction = friction_factor(Re=density * speed * 0.03 / viscosity, eD=0.001 / 0.03)
    length, bends = float(study.exhaust.length), float(study.exhaust.route.bends)
    factor = friction * length / 0.03 + 0.9 * bends / radians(90) + 1
    assert float(flow.pressure_loss) == pytest.approx(factor * density * speed**2 / 2, rel=0.005)


def test_a_head_wind_stands_against_the_burner():
    study = boat.study_of({"exhaust.silencer": "60 Pa"})
    plain = boat.study_of()
    wind = 101325 / (287.05 * 268.15) / 2 * 8**2
    assert float(study.exhaust.gas.wind_pressure) == pytest.approx(wind, rel=1e-9)
    assert float(study.exhaust.gas.pressure_loss) == pytest.approx(
        float(plain.exhaust.gas.pressure_loss) + 60
    )
    both = float(study.exhaust.gas.pressure_loss) + wind
    assert float(study.exhaust.gas.back_pressure) == pytest.approx(both, rel=1e-9)


def test_wind_is_assumed_where_it_is_not_stated():
    study = boat.study_of({"conditions.wind": None})
    expected = 101325 / (287.05 * 268.15) / 2 * 4**2  # ISO 6946: 4 m/s
    assert float(study.exhaust.gas.wind_pressure) == pytest.approx(expected, rel=1e-9)
