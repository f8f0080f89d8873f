"""Valves in their positions, and the workings that the laws of pipes and fittings leave behind."""

import numpy as np
import pytest

from dossier.data.pipes import pipe_size
from dossier.notation import OutOfRange, Traced, Working, lines_behind, origin_of, workings_behind
from dossier.notation.origin import Line
from dossier.physics.fittings import unit_drop
from dossier.physics.pipe import (
    drop_per_metre,
    friction_factor,
    pipe_drop,
    relative_roughness,
    reynolds_number,
    velocity,
)
from dossier.physics.valves import (
    Characteristic,
    authority,
    hot_share,
    kv_at,
    kv_at_setting,
    kv_needed,
    setting_for_kv,
    thermostatic_position,
    three_way,
    valve_drop,
)

MAKER = ((1.0, 0.2), (3.0, 0.9), (5.0, 1.6))


def test_linear_valve_follows_its_position():
    assert kv_at(2.5, np.array([0.0, 0.4, 1.0])) == pytest.approx([0, 1.0, 2.5])


def test_equal_percentage_valve_gains_the_same_share_with_every_step():
    """IEC 60534-2-4, from memory: R^(h − 1), R = 50."""
    kv = kv_at(2.5, np.array([0.25, 0.5, 0.75, 1.0]), Characteristic.EQUAL_PERCENTAGE)
    assert kv[1:] / kv[:-1] == pytest.approx(np.full(3, 50**0.25))
    assert kv_at(2.5, 0.0, Characteristic.EQUAL_PERCENTAGE) == 0


def test_one_way_of_a_three_way_valve_opens_as_the_other_closes():
    first, second = three_way(4.0, 0.25)
    assert (first, second) == (pytest.approx(1.0), pytest.approx(3.0))
    assert three_way(4.0, 1.0) == (pytest.approx(4.0), 0)


@pytest.mark.parametrize(("celsius", "position"), [(40, 0), (45, 0), (50, 0.5), (55, 1), (70, 1)])
def test_thermostatic_valve_opens_between_its_temperatures(celsius, position):
    assert thermostatic_position(celsius + 273.15, 318.15, 328.15) == pytest.approx(position)


def test_thermostatic_valve_may_close_as_it_warms():
    assert thermostatic_position(320.65, 328.15, 318.15) == pytest.approx(0.75)


@pytest.mark.parametrize(
    ("mixed", "hot", "cold", "share"), [(55, 75, 35, 0.5), (55, 50, 35, 1), (55, 75, 60, 0), (55, 60, 60, 1)]
)
def test_mixing_valve_takes_what_it_needs_from_its_hot_port(mixed, hot, cold, share):
    """Balance of heat with equal specific heats."""
    assert hot_share(mixed + 273.15, hot + 273.15, cold + 273.15) == pytest.approx(share)


def test_setting_of_a_balancing_valve_is_read_both_ways():
    assert kv_at_setting(4.0, MAKER) == pytest.approx(1.25)
    assert setting_for_kv(1.25, MAKER) == pytest.approx(4.0)


def test_setting_outside_the_makers_table_is_refused():
    with pytest.raises(OutOfRange, match="outside 1 "):
        kv_at_setting(0.5, MAKER)
    with pytest.raises(OutOfRange, match="flow factor at 1 bar"):
        setting_for_kv(2.0, MAKER)


def test_flow_factor_needed_takes_just_the_drop():
    kv = kv_needed(1e-4, 9e3, 1030.0)
    assert valve_drop(1e-4, kv, 1030.0) == pytest.approx(9e3)


def test_authority_is_the_share_of_the_valve():
    assert authority(4e3, 1e4) == pytest.approx(0.4)


def test_working_of_a_drop_leads_back_to_the_line_and_the_table():
    size = pipe_size("pex 16x2.0")
    length = Traced(6.5, Line("circuit.ring.wheelhouse_1.length", "6.5 m"))
    speed = velocity(1e-4, size.bore)
    reynolds = reynolds_number(speed, size.bore, 985.0, 4.7e-4)
    friction = friction_factor(reynolds, relative_roughness(size.roughness, size.bore))
    drop = pipe_drop(friction, length, size.bore, 985.0, speed)
    assert isinstance(origin_of(drop), Working)
    names = {working.statement.name for working in workings_behind(drop)}
    assert names == {"velocity", "reynolds_number", "relative_roughness", "friction_factor", "pipe_drop"}
    assert [line.key for line in lines_behind(drop)] == ["circuit.ring.wheelhouse_1.length"]
    assert drop == pytest.approx(6.5 * drop_per_metre(friction, size.bore, 985.0, speed))


def test_formula_gives_samples_what_it_gives_one():
    flows = np.array([-2e-4, 0.0, 1e-5, 1e-4])
    each = [unit_drop(float(flow), 1030.0, 3e-3, 1e-4, 5e3, 998.0, 1e-3, 0.2) for flow in flows]
    assert unit_drop(flows, 1030.0, 3e-3, 1e-4, 5e3, 998.0, 1e-3, 0.2) == pytest.approx(each)
    reynolds = np.array([1.0, 1999.0, 2500.0, 4001.0, 1e6])
    assert friction_factor(reynolds, 1e-3) == pytest.approx(
        [friction_factor(float(r), 1e-3) for r in reynolds]
    )


def test_roughness_beyond_the_formula_is_refused():
    with pytest.raises(OutOfRange, match="relative roughness"):
        friction_factor(1e5, 0.06)
