"""Showers of invented boats: against SciPy's integrator, arithmetic, and the steel cutter's yardsticks."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from dossier.notation import NotAssessed, named_results, origin_of
from dossier.sizing.tap_draw import Draw, shower
from dossier.sizing.tap_water import tap_water_study
from tests.demonstrations import studied


def _hot_boat():
    if "hot_boat" not in sys.modules:
        spec = spec_from_file_location("hot_boat", Path(__file__).parents[1] / "hot_boat.py")
        sys.modules["hot_boat"] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules["hot_boat"])
    return sys.modules["hot_boat"]


boat = _hot_boat()
ICE_POINT = 273.15
NO_ENGINE = {"modes.generator running": None}
RING = {
    "capacity": 52e3,
    "start": ICE_POINT + 66,
    "lights": 75.0,
    "flame": 12e3,
    "rise": 12.0,
    "steady": 0.0,
    "standing": 260.0,
    "fans": 0.0,
    "fan_stop": ICE_POINT + 40,
    "top": ICE_POINT + 78,
    "passed": 262.0,
    "tap": 348.0,
    "cold": ICE_POINT + 4,
    "wanted": ICE_POINT + 40,
}
"""A ring of twelve litres with a burner of 12 kW."""


def cutter(alternative=None):
    """Tap water of the steel cutter, or of one of her alternatives."""
    study = studied("lantern_auk")
    if alternative is None:
        return study.tap_water
    return boat.study_of_project(study.project.alternative(alternative)).tap_water


def integrated(draw, until):
    """Ring temperature at times by SciPy's solve_ivp, from one event to the next of its own finding."""
    times, temperatures = [0.0], [draw.start]
    for begin, end, burning in ((0.0, draw.lights, False), (draw.lights, until, True)):
        if end <= begin:
            continue

        def slope(_, ring, burning=burning):
            at = ring[0]
            heat = draw.steady + (draw.flame if burning else 0.0)
            # Fans and setpoint act over a hundredth of a kelvin here, so that there is no jump to step over.
            fans = draw.fans * min(max((at - draw.fan_stop) / 0.01 + 1, 0.0), 1.0)
            left = heat - draw.standing - fans - draw.drawn(at, burning=burning)
            if left > 0:
                left *= min(max((draw.top - at) / 0.01, 0.0), 1.0)
            return [left / draw.capacity]

        found = solve_ivp(
            slope,
            (begin, min(end, until)),
            [temperatures[-1]],
            method="LSODA",
            rtol=1e-9,
            atol=1e-9,
            max_step=1.0,
        )
        times += list(found.t[1:])
        temperatures += list(found.y[0][1:])
    return np.array(times), np.array(temperatures)


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"standing": 500.0, "fans": 4900.0},
        {"cold": ICE_POINT + 18},
        {"capacity": 227e3, "start": ICE_POINT + 73.7, "lights": 0.0, "fans": 6700.0, "standing": 500.0},
        {"flame": 0.0, "rise": 0.0, "steady": 7000.0},
        {"capacity": 48e3, "flame": 8e3, "passed": 190.0, "tap": 278.0},
    ],
)
def test_a_ring_cools_under_the_shower_as_a_second_integrator_says(changes):
    draw = Draw(**(RING | changes))
    found = shower(draw, 360.0, 1200.0)
    times, temperatures = integrated(draw, 1200.0)
    course = found.course(1200.0, 1201)
    assert course.ring == pytest.approx(np.interp(course.times, times, temperatures), abs=0.02)


def test_a_shower_is_held_until_the_ring_has_fallen_to_what_the_plates_need():
    """C·(θ_0 − θ_min)/(Φ + Φ_p): no flame burns before, by arithmetic."""
    draw = Draw(**RING)
    least = 4 + 348 * 36 / 262
    held = 52e3 * (66 - least) / (348 * 36 + 260)
    found = shower(draw, 360.0, 3600.0)
    assert found.held == pytest.approx(held, rel=1e-12)
    assert found.coldest < draw.wanted


def test_a_shower_that_source_and_plates_carry_is_held_to_the_end():
    found = shower(Draw(**(RING | {"cold": ICE_POINT + 18})), 360.0, 7200.0)
    assert (found.held, found.coldest) == (7200.0, RING["wanted"])


def test_a_shower_the_source_cannot_carry_ends_at_what_the_source_gives():
    """In the end the tap's heat is what the flame leaves: 4 °C + (12000 − 260)/348, arithmetic."""
    found = shower(Draw(**RING), 360.0, 20000.0)
    assert found.settled - ICE_POINT == pytest.approx(4 + (12000 - 260) / 348, abs=1e-3)


@given(
    st.fixed_dictionaries(
        {
            "capacity": st.floats(1e4, 1e6),
            "start": st.floats(280, 360),
            "lights": st.floats(0, 200),
            "flame": st.floats(0, 4e4),
            "rise": st.floats(0, 40),
            "steady": st.floats(0, 1e4),
            "standing": st.floats(0, 5e3),
            "fans": st.floats(0, 1e4),
            "fan_stop": st.floats(300, 330),
            "top": st.floats(320, 365),
            "passed": st.floats(1, 2000),
            "tap": st.floats(1, 1500),
        }
    )
)
def test_whatever_the_ring_the_phases_follow_each_other_and_the_tap_stays_between_cold_and_wanted(figures):
    draw = Draw(**(RING | figures))
    found = shower(draw, 360.0, 3600.0)
    assert found.phases[0].begins == 0
    assert found.phases[-1].ends == 3600
    for before, after in zip(found.phases, found.phases[1:], strict=False):
        assert before.ends == after.begins
        assert before.at(before.ends) == pytest.approx(after.ring, abs=1e-6)
    assert draw.cold <= found.coldest <= draw.wanted + 1e-9
    assert 0 <= found.held <= 3600


def test_the_steel_cutter_asks_12_kw_for_her_shower_and_her_plates_hold_nine_litres():
    """Yardstick of an independent quick calculation, 15 % either way: 12.4 kW, 9 l/min, 72 °C on the mean."""
    tap = cutter()
    winter = tap.seasons["winter"]
    assert float(winter.power) == pytest.approx(12400, rel=0.15)
    assert float(winter.flow) * 6e4 == pytest.approx(9, rel=0.15)
    primary = float(winter.counts.mode.primary) - ICE_POINT
    assert primary == pytest.approx(72, rel=0.15)
    assert float(tap.tank_time) == pytest.approx(600 / 5 * 60)


def test_her_source_falls_short_by_half_a_kilowatt_with_the_rooms_shut():
    """Same yardstick: 12 kW against 12.4 kW without a store."""
    alone = next(s for s in cutter().seasons["winter"].modes if s.mode.mode == "tap water only")
    assert float(alone.power) > 12000
    assert float(alone.lasting) * 6e4 == pytest.approx(5 * 12.0 / 12.4, rel=0.15)
    assert float(alone.course.settled) - ICE_POINT == pytest.approx(4 + 36 * 12.0 / 12.4, abs=2)


def test_the_hottest_water_at_her_plates_is_the_top_of_the_cycle_and_the_burners_rise():
    """Sensor in the return, off at 78 °C; 12 kW in 15.3 l/min of 3.9 MJ/m³K is 12 K more: arithmetic."""
    tap = cutter()
    rise = 12000 / (float(tap.modes[-1].flow) * 3.84e6)
    assert float(tap.exchanger_highest) - ICE_POINT == pytest.approx(78 + rise, abs=0.5)
    assert float(tap.outlet_highest) - ICE_POINT == pytest.approx(46)


def test_a_store_of_120_litres_carries_her_shower():
    heat = [cutter(name).shower_heat for name in (None, "buffer_120")]
    assert float(heat[0].available) < float(heat[0].needed)
    assert float(heat[1].available) > float(heat[1].needed)


def test_every_named_result_has_a_working():
    results = list(named_results(cutter()))
    assert {r.name for r in results} == {
        *(f"tap_water.{s}.{what}" for s in ("winter", "summer") for what in ("flow", "power", "shower_time")),
        "tap_water.exchanger_highest",
        "tap_water.outlet_highest",
        "tap_water.scald_time",
        "tap_water.shower_heat.needed",
        "tap_water.shower_heat.available",
    }
    assert all(origin_of(r.value) is not None for r in results)


def test_a_shower_in_the_design_mode_leaves_the_rooms_their_heat():
    """Heat left = full output less what the ring takes; arithmetic on the solved mode."""
    study = boat.study_of()
    counts = study.tap_water.seasons["winter"].counts
    taken = sum(float(s.output) for s in study.operations["heating"].heat.sources.values())
    assert float(counts.left) == pytest.approx(12000 - taken)
    alone = study.tap_water.seasons["summer"]
    pipes = sum(float(p.loss) for p in study.operations["tap only"].heat.pipes.values())
    assert (alone.mode, float(alone.counts.left)) == ("tap only", pytest.approx(12000 - pipes))


RETURN = {**NO_ENGINE, "components.B1.sensor": "return"}


@pytest.mark.parametrize(
    ("changes", "hottest"),
    [(NO_ENGINE, 80.0), ({**RETURN, "components.B1.overheat_stat": "85 degC"}, 85.0), ({}, 85.0)],
)
def test_the_hottest_moment_of_any_mode_is_told(changes, hottest):
    """80 °C at the outlet's sensor; the overheat stat of 85 °C; the engine's jacket of 85 °C."""
    highest = float(boat.study_of(changes).tap_water.exchanger_highest)
    assert highest - ICE_POINT == pytest.approx(hottest, abs=0.01)


def test_a_sensor_in_the_return_lets_the_burner_add_its_rise():
    """80 °C come back when it stops; 12 kW in the least flow of 3.84 MJ/m³K stand on top, arithmetic."""
    tap = boat.study_of(RETURN).tap_water
    rise = max(12000 / (float(mode.flow) * 3.84e6) for mode in tap.modes)
    assert float(tap.exchanger_highest) - ICE_POINT == pytest.approx(80 + rise, abs=0.3)


def test_a_store_between_burner_and_plates_takes_the_rise_away():
    ring = boat.project_of().circuit.ring
    units = [getattr(item, "unit", None) for item in ring]
    assert units.index("B1") < units.index("X1") < units.index("T1")
    between = [{"unit": "P1"}, {"unit": "X2"}, {"unit": "B1"}, {"unit": "T1"}, {"unit": "X1"}]
    changes = {
        **NO_ENGINE,
        "circuit.ring": [*between, {"pipe": {"size": "hose 22", "length": "4 m"}}, {"unit": "F1"}],
        "components.B1.sensor": "store",
        "modes": None,
    }
    tap = boat.study_of(changes).tap_water
    assert float(tap.modes[0].rise) == 0
    assert float(tap.exchanger_highest) - ICE_POINT == pytest.approx(80, abs=0.01)


def test_a_heater_with_a_store_is_drawn_empty_and_heated_again():
    """60 l at 65 °C over water of 4 °C; the coil carries the rest: arithmetic."""
    tap = boat.study_of(boat.HEATER).tap_water
    winter = tap.seasons["winter"].counts
    assert float(tap.store.kept_at) - ICE_POINT == pytest.approx(65)
    kept = 0.060 * 4.15e6 * 61
    assert float(winter.from_store) == pytest.approx(kept, rel=0.01)
    coil = float(winter.from_source) / 360
    assert 0 < coil <= float(winter.left) + 1e-9
    assert float(winter.held) == pytest.approx(kept / (float(winter.power) - coil), rel=0.01)
    assert float(winter.flow) == pytest.approx((kept / 360 + coil) / (4.17e6 * 36), rel=0.01)
    # All of 15 MJ at the 11.8 kW or less that the source has left
    assert float(tap.store.reheating) > kept / 12000
    assert float(tap.store.loss) == pytest.approx(1.0 * 6 * 0.06 ** (2 / 3) * (65 - 15), rel=1e-6)


def test_a_store_that_works_by_itself_is_no_hotter_than_its_setpoint():
    tap = boat.study_of(boat.HEATER | {"components.X1.automatic": "true"}).tap_water
    assert float(tap.exchanger_highest) - ICE_POINT == pytest.approx(65)
    assert float(boat.study_of(boat.HEATER).tap_water.exchanger_highest) - ICE_POINT == pytest.approx(85)


def test_lukewarm_stored_water_gives_no_shower():
    tap = boat.study_of(boat.HEATER | {"components.X1.setpoint": "38 degC"}).tap_water
    assert (float(tap.seasons["winter"].flow), float(tap.seasons["winter"].shower_time)) == (0, 0)


def test_a_ring_too_cold_for_the_tap_gives_none():
    tap = boat.study_of({**NO_ENGINE, "components.B1.setpoint": "42 degC"}).tap_water
    assert float(tap.seasons["winter"].flow) == 0


def test_silence_is_told_with_its_keys():
    study = boat.study_of(boat.BARE).tap_water
    assert isinstance(study, NotAssessed)
    assert study.needs == ("tap_water",)
    half = boat.study_of({"tap_water.cold": {"winter": "4 degC"}}).tap_water
    assert set(half.seasons) == {"winter"}
    assert half.lacking["summer"].needs == ("tap_water.cold.summer",)


def test_without_the_heat_of_the_ring_the_showers_length_is_not_known():
    study = boat.study_of()
    tap = tap_water_study(study.project, study.ring, study.coolant, None)
    assert tap.shower_heat is None
    assert tap.seasons["winter"].shower_time is None
    assert float(tap.seasons["winter"].flow) == float(study.tap_water.seasons["winter"].flow)


def test_a_ring_kept_hot_for_the_tap_alone_burns_fuel():
    """Loss/(η · 42.6 MJ/kg · 840 kg/m³), arithmetic."""
    standby = boat.study_of().tap_water.standby
    assert standby.mode == "tap only"
    assert float(standby.fuel) == pytest.approx(float(standby.loss) / (0.8 * 42.6e6 * 840))


def test_the_barges_taps_scald_without_a_valve():
    """Planted: 69 °C, the mean of the burner's cycle in summer; at its hottest more, 75 °C and a rise."""
    tap = studied("barley_moth_a").tap_water
    alone = next(mode for mode in tap.modes if mode.mode == "tap water only")
    assert float(alone.primary) - ICE_POINT == pytest.approx(69, rel=0.02)
    rise = 4000 / (float(alone.flow) * 3.83e6)
    assert float(tap.outlet_highest) - ICE_POINT == pytest.approx(75 + rise, abs=0.5)


def test_a_tank_that_is_empty_ends_the_shower():
    tap = boat.study_of({"tap_water.tank": "12 l", "tap_water.cold.winter": "20 degC"}).tap_water
    assert float(tap.seasons["winter"].shower_time) == pytest.approx(12 / 5 * 60)
