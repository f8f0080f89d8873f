"""What a cold boat needs to get warm, and what happens when the heat does not suffice."""

import numpy as np
import pytest

from dossier.notation import DossierError, OutOfRange
from dossier.physics.warm_up import (
    extra_power,
    share_of_settled_rise,
    temperature_wanted,
    time_to_warm,
    time_with_emitter,
    warm_up_time,
    zone_capacity,
)
from dossier.physics.warm_up_together import WarmingZone, warm_up_together
from dossier.physics.zones import Path

CABIN = (450e3, 55.0)


def test_four_fifths_of_the_rise_count_as_warm():
    assert temperature_wanted(275.15, 293.15, 0.8) == pytest.approx(289.55)


def test_capacity_goes_with_the_volume():
    """30 kJ/K for each cubic metre, common practice, no source."""
    assert zone_capacity(30000.0, 24.0) == 720000.0


def test_too_little_heat_never_warms():
    assert time_to_warm(*CABIN, 1000.0, 268.15, 277.15, 293.15) == np.inf
    assert (
        time_with_emitter(*CABIN, 268.15, 277.15, 293.15, lambda room: np.full(room.shape, 1000.0)) == np.inf
    )


def test_what_is_warm_already_needs_no_time():
    assert time_to_warm(*CABIN, 4000.0, 268.15, 293.15, 290.15) == 0
    assert time_with_emitter(*CABIN, 268.15, 293.15, 290.15, lambda room: 0 * room) == 0


def test_the_whole_of_the_settled_rise_is_out_of_range():
    with pytest.raises(OutOfRange, match="share of the rise"):
        warm_up_time(8000.0, share_of_settled_rise(293.15, 277.15, 16.0))


def test_steady_heat_is_an_emitter_too():
    """Closed form against integration."""
    closed = time_to_warm(*CABIN, 4000.0, 268.15, 277.15, 293.15)
    summed = time_with_emitter(*CABIN, 268.15, 277.15, 293.15, lambda room: np.full(room.shape, 4000.0))
    assert summed == pytest.approx(closed, rel=1e-9)


def test_a_longer_wait_asks_for_less_power():
    powers = extra_power(*CABIN, 277.15, 290.0, 293.15, np.array([1800.0, 3600.0, 7200.0, 1e5]))
    assert np.all(np.diff(powers) <= 0)
    assert powers[-1] == 0


def test_a_zone_alone_warms_as_the_closed_form_says():
    zone = WarmingZone(*CABIN[:1], 277.15, 4000.0, wanted=293.15)
    course = warm_up_together({"cabin": zone}, [Path("cabin", 268.15, CABIN[1])], 7200.0)
    assert course.times["cabin"] == pytest.approx(
        time_to_warm(*CABIN, 4000.0, 268.15, 277.15, 293.15), abs=2e-3
    )


def test_a_zone_that_loses_nothing_warms_straight_on():
    course = warm_up_together({"store": WarmingZone(1e5, 280.0, 500.0, wanted=290.0)}, [], 4000.0)
    assert course.times["store"] == pytest.approx(2000.0, abs=2e-3)
    assert course.temperatures["store"][-1] == pytest.approx(300.0)


def test_a_held_zone_stays_at_its_target():
    zone = WarmingZone(450e3, 277.15, 4000.0, target=291.15, wanted=288.15)
    course = warm_up_together({"cabin": zone}, [Path("cabin", 268.15, 55.0)], 20000.0)
    assert np.all(course.temperatures["cabin"] <= 291.15)
    assert course.temperatures["cabin"][-1] == 291.15
    assert 0 < course.times["cabin"] < 4000


def test_a_zone_that_never_gets_there_says_so():
    zone = WarmingZone(450e3, 277.15, 500.0, target=293.15, wanted=290.15)
    course = warm_up_together({"cabin": zone}, [Path("cabin", 268.15, 55.0)], 1e6)
    assert course.times["cabin"] == np.inf
    assert course.temperatures["cabin"][-1] == pytest.approx(268.15 + 500 / 55)


def test_a_path_to_a_zone_that_is_not_warmed_is_refused():
    with pytest.raises(DossierError, match="not warmed"):
        warm_up_together({"cabin": WarmingZone(1e5, 280.0)}, [Path("cabin", "locker", 1.0)], 100.0)
