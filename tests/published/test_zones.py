"""Balance of zones against closed forms and SciPy's integration of the warming boat."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from dossier.physics.warm_up import extra_power, time_to_warm, time_with_emitter
from dossier.physics.warm_up_together import WarmingZone, warm_up_together
from dossier.physics.zones import Path, zone_balance

ICE_POINT = 273.15
OUTSIDE = ICE_POINT - 8
PATHS = (
    Path("A", OUTSIDE, 35.0),
    Path("B", OUTSIDE, 22.0),
    Path("E", OUTSIDE, 48.0),
    Path("A", "E", 18.0),
    Path("B", "E", 6.0),
    Path("A", "B", 9.0),
)
ZONES = {"A": ICE_POINT + 20, "B": ICE_POINT + 16, "E": None}


def test_temperature_of_an_unheated_zone_between_two_heated_ones():
    """Closed form: (48·(−8) + 18·20 + 6·16 + 300)/(48 + 18 + 6) = 5.1667 °C."""
    balance = zone_balance(ZONES, PATHS, {"E": 300.0})
    assert balance.temperatures["E"] - ICE_POINT == pytest.approx(5.166667, abs=1e-6)


@pytest.mark.parametrize(("zone", "load"), [("A", 1283.0), ("B", 557.0)])
def test_loads_of_the_heated_zones_beside_it(zone, load):
    """Closed form: Σ H·(θ − θ_neighbour)."""
    assert zone_balance(ZONES, PATHS, {"E": 300.0}).loads[zone] == pytest.approx(load, rel=1e-6)


def test_what_is_put_in_leaves_the_boat():
    """Energy balance of the whole boat: loads and gains less all that goes outward."""
    balance = zone_balance(ZONES, PATHS, {"E": 300.0})
    left = sum(balance.loads.values()) + 300.0 - sum(balance.outward.values())
    assert left == pytest.approx(0, abs=1e-6)
    assert balance.residual < 1e-12


def test_two_floating_zones_are_a_divider():
    """Closed form: three equal conductances in a row from 20 to −10 °C part the difference in three."""
    warm, cold = ICE_POINT + 20, ICE_POINT - 10
    balance = zone_balance(
        {"cabin": warm, "locker": None, "forepeak": None},
        [Path("cabin", "locker", 5.0), Path("forepeak", "locker", 5.0), Path("forepeak", cold, 5.0)],
    )
    assert balance.temperatures["locker"] == pytest.approx(ICE_POINT + 10)
    assert balance.temperatures["forepeak"] == pytest.approx(ICE_POINT)
    assert balance.loads["cabin"] == pytest.approx(50.0)


@pytest.mark.parametrize(("capacity", "seconds"), [(450e3, 2365.442), (900e3, 4730.885)])
def test_warm_up_time_of_one_zone(capacity, seconds):
    """Closed form: τ·ln((θ_∞ − θ_0)/(θ_∞ − θ)); 4 kW, 55 W/K, −5 °C outside, from 4 to 20 °C."""
    case = (capacity, 55.0, 4000.0, ICE_POINT - 5, ICE_POINT + 4, ICE_POINT + 20)
    assert time_to_warm(*case) == pytest.approx(seconds, rel=1e-6)


def test_extra_power_is_what_the_wanted_time_asks_for():
    """The closed form inverted: 4 kW, 55 W/K · 25 K of it the load, warm the zone in 2365.442 s."""
    power = extra_power(450e3, 55.0, ICE_POINT + 4, ICE_POINT + 20, ICE_POINT + 20, 2365.442)
    assert power == pytest.approx(4000 - 55 * 25, rel=1e-6)


def test_warm_up_with_an_emitter_whose_heat_falls_with_the_room():
    """SciPy's solve_ivp (RK45, 1e-10): 3.75 kW at 50 K under the water, to the power 1.3."""
    capacity, conductance, beyond, start, wanted = 450e3, 55.0, ICE_POINT - 5, ICE_POINT + 4, ICE_POINT + 16

    def emitter(room):
        return 3750.0 * ((ICE_POINT + 70 - room) / 50.0) ** 1.3

    def warm(_, state):
        return state[0] - wanted

    warm.terminal = True
    solved = solve_ivp(
        lambda _, state: (emitter(state) - conductance * (state - beyond)) / capacity,
        (0, 1e5),
        [start],
        events=warm,
        rtol=1e-10,
        atol=1e-10,
    )
    found = time_with_emitter(capacity, conductance, beyond, start, wanted, emitter)
    assert found == pytest.approx(solved.t_events[0][0], rel=1e-7)


BOAT = {
    "cabin": WarmingZone(700e3, 275.15, 3000.0, 40.0, None, 289.15),
    "heads": WarmingZone(110e3, 275.15, 900.0, 12.0, None, 290.15),
    "engine_room": WarmingZone(660e3, 275.15),
}
BOAT_PATHS = (
    Path("cabin", 263.15, 60.0),
    Path("heads", 263.15, 12.0),
    Path("engine_room", 271.15, 120.0),
    Path("cabin", "heads", 8.0),
    Path("cabin", "engine_room", 5.0),
)


def derivative(heats):
    """Rates of cabin, heads and engine room, written out by hand."""

    def rates(_, state):
        cabin, heads, engine = state
        return [
            (heats[0](cabin) - 60 * (cabin - 263.15) - 8 * (cabin - heads) - 5 * (cabin - engine)) / 700e3,
            (heats[1](heads) - 12 * (heads - 263.15) - 8 * (heads - cabin)) / 110e3,
            (-120 * (engine - 271.15) - 5 * (engine - cabin)) / 660e3,
        ]

    return rates


def test_three_zones_warm_as_scipy_integrates_them():
    """SciPy's solve_ivp (DOP853, 1e-11)."""
    heats = (lambda t: 3000 - 40 * (t - 275.15), lambda t: 900 - 12 * (t - 275.15))
    course = warm_up_together(BOAT, BOAT_PATHS, 4 * 3600.0)
    solved = solve_ivp(
        derivative(heats), (0, 4 * 3600), [275.15] * 3, "DOP853", course.moments, rtol=1e-11, atol=1e-11
    )
    for name, line in zip(BOAT, solved.y, strict=True):
        assert course.temperatures[name] == pytest.approx(line, abs=1e-6)
    assert np.interp(course.times["cabin"], course.moments, solved.y[0]) == pytest.approx(289.15, abs=2e-3)


def test_a_zone_that_is_warm_is_held_while_the_others_go_on():
    """SciPy's solve_ivp in two pieces: heads throttled at 17 °C from the moment it gets there."""
    zones = {**BOAT, "heads": WarmingZone(110e3, 275.15, 1500.0, 12.0, 290.15, 290.15)}
    course = warm_up_together(zones, BOAT_PATHS, 4 * 3600.0)
    heats = (lambda t: 3000 - 40 * (t - 275.15), lambda t: 1500 - 12 * (t - 275.15))

    def reached(_, state):
        return state[1] - 290.15

    reached.terminal = True
    first = solve_ivp(
        derivative(heats), (0, 4 * 3600), [275.15] * 3, "DOP853", events=reached, rtol=1e-11, atol=1e-11
    )
    moment = first.t_events[0][0]
    assert course.times["heads"] == pytest.approx(moment, abs=2e-3)

    def held(now, state):
        cabin, _, engine = derivative(heats)(now, state)
        return [cabin, 0.0, engine]

    second = solve_ivp(held, (moment, 4 * 3600), first.y[:, -1], "DOP853", rtol=1e-11, atol=1e-11)
    for name, end in zip(zones, second.y[:, -1], strict=True):
        assert course.temperatures[name][-1] == pytest.approx(end, abs=1e-5)
