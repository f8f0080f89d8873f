"""Concentrate and water for a filling, and correcting a share: balances worked by hand."""

import numpy as np
import pytest

from dossier.physics.coolant_mix import (
    concentrate_volume,
    drain_and_refill,
    drain_and_refill_with_water,
    share_after_top_up,
    water_volume,
)

LITRE = 1e-3


@pytest.mark.parametrize(
    ("system", "now", "wanted", "concentrate", "drained"),
    [
        (60, 0.20, 0.40, 1.00, 15),
        (60, 0.00, 0.40, 0.95, 25.26316),
        (35, 0.30, 0.45, 1.00, 7.5),
        (80, 0.33, 0.40, 0.93, 9.333333),
    ],
)
def test_drain_and_refill_raises_the_share(system, now, wanted, concentrate, drained):
    """Closed form V_sys (x_t − x_now)/(x_conc − x_now)."""
    found = drain_and_refill(system * LITRE, now, wanted, concentrate)
    assert found == pytest.approx(drained * LITRE, rel=1e-6)


def test_after_draining_and_refilling_the_share_is_the_wanted_one():
    drained = drain_and_refill(0.06, 0.2, 0.4, 0.95)
    assert share_after_top_up(0.06, 0.2, drained, 0.95) == pytest.approx(0.4)


def test_a_share_high_enough_needs_no_draining():
    assert drain_and_refill(0.06, 0.45, 0.40, 1.0) == 0


def test_water_lowers_a_share_too_high():
    drained = drain_and_refill_with_water(0.06, 0.5, 0.4)
    assert drained == pytest.approx(0.012)
    assert share_after_top_up(0.06, 0.5, drained, 0.0) == pytest.approx(0.4)
    assert drain_and_refill_with_water(0.06, 0.3, 0.4) == 0


def test_a_filling_is_concentrate_and_water():
    concentrate, water = concentrate_volume(0.0147, 0.4, 1.0), water_volume(0.0147, 0.4, 1.0)
    assert concentrate == pytest.approx(0.00588)
    assert concentrate + water == pytest.approx(0.0147)


def test_concentrate_of_a_top_up_of_one_two_and_five_litres():
    litres = np.array([1.0, 2.0, 5.0]) * LITRE
    assert concentrate_volume(litres, 0.4, 0.8) == pytest.approx([0.0005, 0.001, 0.0025])


def test_topping_up_with_water_thins_the_mix():
    assert share_after_top_up(0.02, 0.4, 0.002, 0.0) == pytest.approx(0.36)


def test_more_lost_than_the_system_holds_leaves_what_was_poured_in():
    assert share_after_top_up(0.02, 0.4, 0.03, 0.1) == pytest.approx(0.1)
