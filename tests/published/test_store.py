"""Burner cycles, stores and tap water: closed forms and the invented boats."""

from itertools import pairwise

import numpy as np
import pytest

from dossier.physics.store import (
    mean_output,
    most_starts,
    outlet_swing,
    passage_time,
    pause,
    pause_with_restart,
    restart_wait,
    run_with_passage,
    running_time,
    running_time_after,
    starts_per_hour,
    store_volume_needed,
    surplus,
    swing_of_pause,
    worst_load,
)
from dossier.physics.store_warming import settled_temperature, store_temperature, time_to_reach
from dossier.physics.tap_water import hot_share, store_time, tank_time, tap_flow, tap_heat

KELVIN = 273.15


@pytest.mark.parametrize(
    ("capacity", "band", "output", "load", "on", "off", "starts"),
    [
        (180e3, 12.0, 2200.0, 900.0, 1661.538, 2400, 0.8863636),
        (180e3, 12.0, 2200.0, 300.0, 1136.842, 7200, 0.4318182),
        (90e3, 10.0, 4000.0, 1500.0, 360, 600, 3.75),
        (300e3, 15.0, 2200.0, 2000.0, 22500, 2250, 0.1454545),
    ],
)
def test_cycle_of_a_store(capacity, band, output, load, on, off, starts):  # noqa: PLR0913, PLR0917 - one case
    """Closed forms C·Δθ/(P − P_load), C·Δθ/P_load, 3600/(t_on + t_off)."""
    run = running_time(capacity, band, surplus(output, load))
    rest = pause(capacity, band, load)
    assert run == pytest.approx(on, rel=1e-6)
    assert rest == pytest.approx(off, rel=1e-6)
    assert starts_per_hour(run, rest) == pytest.approx(starts, rel=1e-6)


def test_volume_for_a_run_of_ten_minutes():
    """Closed form t·(P − P_load)/(Δθ·ρ·c_p): 20.88452 l."""
    found = store_volume_needed(600.0, surplus(2200.0, 500.0), 12.0, 4.07e6)
    assert found * 1e3 == pytest.approx(20.88452, rel=1e-6)


@pytest.mark.parametrize(
    ("time", "celsius"), [(60.0, 16.59899), (600.0, 30.18058), (1800.0, 55.71086), (7200.0, 118.862)]
)
def test_store_warms(time, celsius):
    """Closed form with 180 kJ/K, 5 kW, 35 W/K to 10 °C, from 15 °C."""
    settled = settled_temperature(10 + KELVIN, 5000.0, 35.0)
    assert store_temperature(settled, 15 + KELVIN, 35.0, 180e3, time) - KELVIN == pytest.approx(
        celsius, abs=1e-4
    )


def test_time_to_75_degrees():
    """Inverse of the exponential: 2938.332 s."""
    settled = settled_temperature(10 + KELVIN, 5000.0, 35.0)
    assert time_to_reach(settled, 15 + KELVIN, 35.0, 180e3, 75 + KELVIN) == pytest.approx(2938.332, rel=1e-6)


def test_store_cools_overnight():
    """Closed form, 180 kJ/K, 1.5 W/K, 8 °C, from 75 °C: 54.74431 °C after 12 h."""
    found = store_temperature(8 + KELVIN, 75 + KELVIN, 1.5, 180e3, 12 * 3600.0)
    assert found - KELVIN == pytest.approx(54.74431, abs=1e-5)


def test_ring_where_engine_heat_meets_only_losses():
    """Closed form 18 °C + 6000 W/(95 W/K): 81.15789 °C."""
    assert settled_temperature(18 + KELVIN, 6000.0, 95.0) - KELVIN == pytest.approx(81.15789, abs=1e-5)


@pytest.mark.parametrize(
    ("heat", "cold", "tap", "litres"),
    [(14000.0, 10, 40, 6.698565), (14000.0, 4, 40, 5.582137), (9000.0, 18, 42, 5.382775)],
)
def test_tap_flow_of_a_heat(heat, cold, tap, litres):
    """Closed form P/(ρ·c_p·Δθ) with 4.18 MJ/m³K, litres a minute."""
    flow = tap_flow(heat, 4.18e6, float(tap - cold))
    assert flow * 6e4 == pytest.approx(litres, rel=1e-6)
    assert tap_heat(flow, 4.18e6, tap + KELVIN, cold + KELVIN) == pytest.approx(heat, rel=1e-9)


def test_shower_in_winter_on_the_cutter():
    """Independent calculation of the invented boat A: 12.4 kW for 5 l/min from 4 to 40 °C, ± 15 %."""
    assert tap_heat(5 / 6e4, 4.18e6, 40 + KELVIN, 4 + KELVIN) == pytest.approx(12.4e3, rel=0.02)


def test_share_of_hot_water_in_a_mixing_valve():
    """Closed form: 65, 8, 42 °C: 0.5964912."""
    assert hot_share(42 + KELVIN, 8 + KELVIN, 57.0) == pytest.approx(0.5964912, rel=1e-6)


def test_minutes_of_shower_and_of_store():
    """Closed forms: 450 l, 40 %, 5 l/min: 36 min; 125 kJ/K, 25 K, 5 kW short: 10.41667 min."""
    assert tank_time(0.450, 0.40, 5 / 6e4) / 60 == pytest.approx(36)
    assert store_time(125e3, 25.0, 5000.0) / 60 == pytest.approx(10.41667, rel=1e-6)


def cycle(capacity, band, output, load, wait):
    """Run, pause and starts with a restart that must wait."""
    rest = pause_with_restart(pause(capacity, band, load), wait)
    run = running_time_after(load, rest, surplus(output, load))
    return run, rest, starts_per_hour(run, rest)


CUTTER_WAIT = 180.0 + 75.0


@pytest.mark.parametrize(
    ("store", "capacity", "band", "load", "minutes", "starts"),
    [
        ("base", 52e3, 12.0, 1000.0, 0.9, 5.3),
        ("base", 52e3, 12.0, 2000.0, 1.0, 9.7),
        ("base", 52e3, 12.0, 5100.0, 3.1, 8.1),
        ("60 l", 291e3, 12.0, 1000.0, 5.3, 0.9),
        ("60 l", 291e3, 12.0, 2000.0, 5.8, 1.7),
        ("60 l", 291e3, 12.0, 5100.0, 8.5, 3.0),
        ("60 l, wide band", 291e3, 20.0, 1000.0, 8.8, 0.6),
        ("60 l, wide band", 291e3, 20.0, 2000.0, 9.7, 1.0),
        ("60 l, wide band", 291e3, 20.0, 5100.0, 14.1, 1.8),
        ("120 l", 527e3, 18.0, 1000.0, 14.4, 0.3),
        ("120 l", 527e3, 18.0, 2000.0, 15.8, 0.6),
        ("120 l", 527e3, 18.0, 5100.0, 23.0, 1.1),
    ],
)
def test_runs_and_starts_of_the_cutter(store, capacity, band, load, minutes, starts):  # noqa: PLR0913, PLR0917 - one case
    """Independent calculation of the invented boat A, 12 kW, restart after 255 s; ± 15 % or half a digit."""
    assert restart_wait(180.0, 75.0) == CUTTER_WAIT
    run, _, found = cycle(capacity, band, 12e3, load, CUTTER_WAIT)
    assert run / 60 == pytest.approx(minutes, rel=0.15), store
    assert found == pytest.approx(starts, rel=0.15, abs=0.05), store


@pytest.mark.parametrize(
    ("capacity", "band", "starts"),
    [(52e3, 12.0, 11.2), (291e3, 12.0, 3.1), (291e3, 20.0, 1.85), (527e3, 18.0, 1.1)],
)
def test_worst_load_of_the_cutter(capacity, band, starts):
    """Independent calculation of the invented boat A: base 11.2/h at 2.4 kW."""
    assert most_starts(capacity, band, 12e3, CUTTER_WAIT) == pytest.approx(starts, rel=0.05)
    if capacity < 60e3:
        assert worst_load(capacity, band, 12e3, CUTTER_WAIT) == pytest.approx(2400, abs=60)


def test_short_cycles_of_the_cutter_do_not_carry_the_load():
    """Independent calculation: 3.1 of 5.1 kW over the plain band; waiting cools the ring by 25 K."""
    run = running_time(52e3, 12.0, surplus(12e3, 5130.0))
    rest = pause_with_restart(pause(52e3, 12.0, 5130.0), CUTTER_WAIT)
    assert mean_output(12e3, run, rest) == pytest.approx(3100, rel=0.03)
    assert swing_of_pause(5130.0, rest, 52e3) == pytest.approx(25, abs=0.5)


@pytest.mark.parametrize(
    ("load", "minutes", "starts"),
    [(500.0, 2.7, 2.8), (1000.0, 3.2, 4.7), (2000.0, 4.8, 6.3)],
)
def test_runs_and_starts_of_the_barge(load, minutes, starts):
    """Independent calculation of the invented boat C, low stage 4 kW, 48 kJ/K, band 12 K."""
    run, _, found = cycle(48e3, 12.0, 4e3, load, 0.0)
    assert run / 60 == pytest.approx(minutes, rel=0.03)
    assert found == pytest.approx(starts, rel=0.03)


def test_barge_at_3500_watts():
    """Independent calculation: 19 min, 2.8/h; repaired with its restart of 260 s: 30 min, 1.7/h."""
    run, _, starts = cycle(48e3, 12.0, 4e3, 3500.0, 0.0)
    assert (run / 60, starts) == (pytest.approx(19, abs=0.5), pytest.approx(2.8, rel=0.03))
    run, _, starts = cycle(48e3, 12.0, 4e3, 3500.0, 260.0)
    assert (run / 60, starts) == (pytest.approx(30, abs=0.5), pytest.approx(1.7, rel=0.03))


@pytest.mark.parametrize(
    ("load", "minutes", "starts"), [(1000.0, 22.7, 0.9), (1500.0, 30.0, 1.0), (2000.0, 45.0, 0.9)]
)
def test_runs_and_starts_of_the_yacht(load, minutes, starts):
    """Independent calculation of the invented boat B, least output 3 kW, 227 kJ/K, band 12 K."""
    run, _, found = cycle(227e3, 12.0, 3e3, load, 250.0)
    assert run / 60 == pytest.approx(minutes, rel=0.01)
    assert found == pytest.approx(starts, abs=0.05)


def switched(capacity, band, output, load, rise):
    """Lengths of the runs of a mixed store whose sensor shows its temperature plus the burner's rise."""
    top, step, store, burning, began, runs = 75.0, 0.1, 60.0, True, 0.0, []
    for tick in range(int(5 * 3600 / step)):
        sensor = store + (rise if burning else 0.0)
        if burning and sensor >= top:
            burning = False
            runs.append(tick * step - began)
        elif not burning and sensor <= top - band:
            burning, began = True, tick * step
        store += ((output if burning else 0.0) - load) * step / capacity
    return runs


@pytest.mark.parametrize("rise", [0.0, 5.0, 9.0])
def test_sensor_at_the_outlet_stops_the_burner_early(rise):
    """Stepped simulation of a mixed store: its swing is the band less the burner's own rise."""
    runs = switched(527e3, 18.0, 12e3, 4000.0, rise)[1:]
    swing = 18.0 if rise == 0 else outlet_swing(18.0, 12e3, 12e3 / rise)
    assert runs == pytest.approx([running_time(527e3, swing, 8e3)] * len(runs), rel=2e-3)
    assert len(runs) > 2


def test_rise_that_fills_the_band_leaves_one_passage():
    """Balance of heat: with 18 K of rise in a band of 12 K no store is large enough."""
    swing = outlet_swing(12.0, 12e3, 12e3 / 18)
    assert swing < 0
    for capacity in (50e3, 5e6):
        run = run_with_passage(running_time(capacity, swing, 11e3), passage_time(0.0135, 13.5 / 6e4))
        assert run == pytest.approx(60)


def test_worst_load_is_where_the_starts_peak():
    """Search over the load: the closed form of the worst load and its starts."""
    loads = np.linspace(20.0, 11980.0, 40001)
    for capacity, wait in ((52e3, 255.0), (52e3, 0.0), (527e3, 255.0)):
        starts = cycle(capacity, 12.0, 12e3, loads, wait)[2]
        assert most_starts(capacity, 12.0, 12e3, wait) == pytest.approx(starts.max(), rel=1e-4)
        assert worst_load(capacity, 12.0, 12e3, wait) == pytest.approx(loads[starts.argmax()], rel=2e-3)


def test_longer_bands_run_longer():
    """Closed form: in proportion, with nothing drawn the shortest."""
    runs = [running_time(52e3, band, surplus(12e3, 0.0)) for band in (6.0, 12.0, 24.0)]
    assert [after / before for before, after in pairwise(runs)] == pytest.approx([2, 2])
    assert runs[1] / 60 == pytest.approx(0.87, abs=0.01)
