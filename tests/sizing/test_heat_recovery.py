"""Heat from an engine against the library ht, SciPy's integrator, closed forms and a yacht's yardsticks."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest
from ht import effectiveness_from_NTU
from scipy.integrate import solve_ivp

from dossier.data.fuels import fuel
from dossier.notation import NotAssessed, named_results, origin_of
from dossier.physics.fuel import fuel_rate
from dossier.project.model.entry import Answer
from dossier.sizing.cold_jacket import ColdRing, cold_hour, heat_per_kelvin
from dossier.sizing.heat_recovery import recovery_study
from dossier.sizing.heat_recovery_limits import highest_ring
from dossier.sizing.sources_of_heat import RecoveryModel
from tests.demonstrations import studied


def _hot_boat():
    if "hot_boat" not in sys.modules:
        spec = spec_from_file_location("hot_boat", Path(__file__).parents[1] / "hot_boat.py")
        sys.modules["hot_boat"] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules["hot_boat"])
    return sys.modules["hot_boat"]


boat = _hot_boat()
ICE_POINT = 273.15
RUNNING = "generator running"


def model(**figures):
    """An exchanger and its engine, in K and W."""
    known = {
        "tag": "X2",
        "serves": "G1",
        "conductance": 515.0,
        "engine_rate": 1225.0,
        "jacket_heat": 7500.0,
        "thermostat": ICE_POINT + 70,
        "jacket_highest": ICE_POINT + 88,
    }
    return RecoveryModel(**(known | figures))


def test_a_jacket_exchanger_passes_what_the_library_says():
    """Library ht 1.2.0: UA 810, 900 and 1125 W/K, 35 K: 15639.67 W; ring out 67.37741 °C."""
    passed = float(heat_per_kelvin(model(conductance=810.0, engine_rate=1125.0), 900.0))
    assert passed * 35 == pytest.approx(15639.67, rel=1e-6)
    assert 50 + passed * 35 / 900 == pytest.approx(67.37741, rel=1e-6)
    again = effectiveness_from_NTU(810 / 900, 900 / 1125, subtype="counterflow") * 900
    assert passed == pytest.approx(again, rel=1e-9)


def test_a_ring_without_demand_climbs_to_where_its_pipes_lose_all_heat():
    """Closed form θ_a + Φ/H: 6000 W over 95 W/K from 18 °C is 81.15789 °C."""
    found = highest_ring(model(jacket_heat=6000.0), 95.0, ICE_POINT + 18)
    assert float(found) - ICE_POINT == pytest.approx(81.15789, abs=1e-5)


def test_it_climbs_to_the_highest_jacket_at_most():
    """Yardstick of the yacht: no demand, 88 °C at most."""
    assert float(highest_ring(model(), 6.0, ICE_POINT + 15)) - ICE_POINT == pytest.approx(88)
    assert highest_ring(model(jacket_highest=None), 6.0, ICE_POINT + 15) is None


def test_the_yachts_generator_with_three_kilowatts_of_demand():
    """Yardstick, 15 %: jacket 80 °C, ring 73 °C in and 75 °C out; here the ring entering is solved for."""
    engine = model()
    ring = next(
        t for t in np.arange(ICE_POINT + 40, ICE_POINT + 88, 0.01) if engine.heat(float(t), 1090.0) <= 3000
    )
    assert float(ring) - ICE_POINT == pytest.approx(73, rel=0.05)
    assert float(ring) - ICE_POINT + 3000 / 1090 == pytest.approx(75, rel=0.05)
    assert engine.jacket(float(ring), 1090.0) - ICE_POINT == pytest.approx(80, rel=0.05)


def test_the_yachts_generator_alone_on_the_design_night():
    """Yardstick, 15 %: a ring of 53 °C on the mean takes all 7.5 kW, the jacket settles at 68 °C."""
    engine = model()
    entering = ICE_POINT + 53 - 7500 / 1090 / 2
    assert engine.jacket(entering, 1090.0) - ICE_POINT == pytest.approx(68, rel=0.15)
    assert engine.heat(entering, 1090.0) == pytest.approx(7500, rel=0.05)


def test_below_its_thermostat_the_jacket_stands_over_the_ring_by_its_heat():
    """θ_r + Φ/G, arithmetic."""
    passed = float(heat_per_kelvin(model(), 1090.0))
    assert model().jacket(ICE_POINT + 40, 1090.0) - ICE_POINT == pytest.approx(40 + 7500 / passed)


def test_what_the_boats_generator_gives_is_what_her_ring_takes():
    study = boat.study_of()
    mode = study.recovery.modes[RUNNING]
    unit = mode.units[0]
    taken = [e.given for e in study.operations[RUNNING].heat.emitters.values()]
    taken += [p.loss for p in study.operations[RUNNING].heat.pipes.values()]
    assert float(mode.heat) == pytest.approx(sum(map(float, taken)), rel=1e-4)
    assert float(unit.uplift) == pytest.approx(float(unit.ring_out) - float(unit.ring_in))
    assert float(mode.ring_highest) - ICE_POINT == pytest.approx(85)


def test_the_jacket_parts_its_heat_between_ring_and_cooler():
    """Balance: G·(θ_j − θ_r) + Φ_j·(θ_j − θ_th)/(θ_max − θ_th) = Φ_j, with her figures."""
    unit = boat.study_of().recovery.modes[RUNNING].units[0]
    jacket = float(unit.jacket) - ICE_POINT
    cooler = 7000 * (jacket - 60) / (85 - 60)
    assert float(unit.heat) + cooler == pytest.approx(7000, rel=2e-3)


def test_an_engine_hour_saves_the_fuel_of_its_heat():
    """Φ/(η · 42.6 MJ/kg · 840 kg/m³); three hours a day: arithmetic."""
    mode = boat.study_of().recovery.modes[RUNNING]
    saved = float(mode.heat) / (0.8 * 42.6e6 * 840)
    assert float(mode.fuel_saved) == pytest.approx(saved)
    assert float(mode.saved_per_day) == pytest.approx(saved * 3 * 3600)


def test_seven_kilowatts_save_eight_tenths_of_a_litre_an_hour():
    """Yardstick of the yacht, 15 %: 7 kW at 86 %."""
    saved = fuel_rate(7000.0, 0.86, fuel().heat_of_combustion, fuel().density)
    assert float(saved) * 3.6e6 == pytest.approx(0.8, rel=0.15)


@pytest.mark.parametrize(
    ("changes", "thermostat"),
    [
        ({}, 60.0),
        ({"thermostat": None}, None),
        ({"jacket_highest": None}, 60.0),
        ({"thermostat": ICE_POINT + 88}, 88.0),
    ],
)
def test_the_first_hour_goes_as_a_second_integrator_says(changes, thermostat):
    """SciPy's solve_ivp on C·dθ/dt = heat(θ) − H·(θ − θ_a) with the jacket of the ring's own model."""
    engine = model(**({"thermostat": ICE_POINT + 60} | changes))
    cold = ColdRing(120e3, 15.0, ICE_POINT + 5, ICE_POINT - 5)
    found = cold_hour(engine, 900.0, cold)

    def slope(_, ring):
        return [(engine.heat(float(ring[0]), 900.0) - 15.0 * (ring[0] - ICE_POINT - 5)) / 120e3]

    times = np.linspace(0, 3600, 13)
    again = solve_ivp(slope, (0, 3600), [ICE_POINT - 5], t_eval=times, rtol=1e-8, atol=1e-8, max_step=20)
    assert np.interp(times, found.times, found.ring) == pytest.approx(again.y[0], abs=0.02)
    assert found.jacket[0] == pytest.approx(float(found.jacket_at_start))
    if thermostat is None:
        assert found.opens_after is None
    else:
        jacket = np.interp(float(found.opens_after), found.times, found.jacket)
        assert jacket - ICE_POINT == pytest.approx(thermostat, abs=0.3)


def test_a_ring_that_is_warm_at_the_start_opens_the_thermostat_at_once():
    found = cold_hour(model(), 900.0, ColdRing(120e3, 15.0, ICE_POINT + 5, ICE_POINT + 65))
    assert float(found.opens_after) == 0


def test_an_engine_too_small_for_the_ring_never_opens_its_thermostat():
    found = cold_hour(model(jacket_heat=300.0), 900.0, ColdRing(120e3, 15.0, ICE_POINT + 5, ICE_POINT - 5))
    assert found.opens_after is None
    assert found.ring[-1] < ICE_POINT + 25


def test_without_the_cold_boats_temperature_the_first_hour_is_not_told():
    study = boat.study_of({"conditions.unheated_start": None})
    assert study.recovery.modes[RUNNING].units[0].cold is None
    cold = boat.study_of().recovery.modes[RUNNING].units[0].cold
    assert float(cold.start) - ICE_POINT == pytest.approx(2)
    assert float(cold.jacket_at_start) < ICE_POINT + 60


def test_without_a_burner_no_fuel_is_saved():
    study = boat.study_of()
    components = {tag: c for tag, c in study.project.components.items() if tag != "B1"}
    project = study.project.model_copy(update={"components": components})
    found = recovery_study(project, study.ring, study.coolant, study.heat_loss)
    assert found.modes[RUNNING].fuel_saved is None


def test_a_boat_that_says_recovery_none_is_told_so():
    study = studied("lantern_auk")
    for said, why in ((None, ""), (Answer.NONE, "recovery: none")):
        project = study.project.model_copy(update={"recovery": said})
        found = recovery_study(project, study.ring, study.coolant, study.heat_loss)
        assert (found.needs, found.why) == (("recovery",), why)


def test_every_named_result_has_a_working():
    results = list(named_results(boat.study_of().recovery))
    assert {r.name for r in results} == {
        f"recovery.generator_running.{what}"
        for what in ("heat", "engine_temperature", "ring_highest", "fuel_saved")
    }
    assert all(origin_of(r.value) is not None for r in results)


@pytest.mark.parametrize(
    ("changes", "needs"),
    [
        (boat.BARE, ("recovery",)),
        ({"modes.generator running": None}, ("modes.recovering",)),
        ({"components.P1.curve": None}, ("components.P1.curve",)),
    ],
)
def test_silence_is_told_with_its_keys(changes, needs):
    found = boat.study_of(changes).recovery
    assert isinstance(found, NotAssessed)
    assert found.needs == needs


def test_a_mode_whose_figures_are_missing_is_told_by_name():
    found = boat.study_of({"components.G1.jacket_heat": None}).recovery
    assert found.modes == {}
    assert found.lacking[RUNNING].needs == ("components.G1.jacket_heat",)


def test_the_yacht_herself():
    """Yardsticks, 15 %: ring near 53 °C on the mean, jacket 68 °C, 88 °C without demand, 0.8 l an hour."""
    mode = studied("northern_quill").recovery.modes[RUNNING]
    unit = mode.units[0]
    mean = (float(unit.ring_in) + float(unit.ring_out)) / 2 - ICE_POINT
    assert mean == pytest.approx(53, rel=0.15)
    assert float(mode.engine_temperature) - ICE_POINT == pytest.approx(68, rel=0.15)
    assert float(mode.ring_highest) - ICE_POINT == pytest.approx(88)
    assert float(mode.fuel_saved) * 3.6e6 == pytest.approx(0.8, rel=0.15)
    assert float(mode.saved_per_day) * 1000 == pytest.approx(2.5, rel=0.15)
