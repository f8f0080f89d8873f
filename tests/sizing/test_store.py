"""How long the burner runs: closed forms of the invented cutter, and what they must agree with."""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest

from dossier.notation import NotAssessed, lines_behind, named_results
from dossier.sizing.store import store_study
from dossier.sizing.store_cycle import Switching
from dossier.sizing.store_stop import pump_stop


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


cutter = _beside("cutter").cutter


def store(*changes, alternative=""):
    boat = cutter(*changes, alternative=alternative)
    return store_study(boat.project, boat.ring, boat.coolant, boat.heat_loss)


STORES = ("", "buffer_60", "buffer_60_wide_band", "buffer_120")


@pytest.mark.parametrize(
    ("alternative", "load", "minutes", "starts"),
    [
        ("", 1000.0, 0.9, 5.3),
        ("", 2000.0, 1.0, 9.7),
        ("", 5100.0, 3.1, 8.1),
        ("buffer_60", 1000.0, 5.3, 0.9),
        ("buffer_60", 2000.0, 5.8, 1.7),
        ("buffer_60", 5100.0, 8.5, 3.0),
        ("buffer_60_wide_band", 1000.0, 8.8, 0.6),
        ("buffer_60_wide_band", 2000.0, 9.7, 1.0),
        ("buffer_60_wide_band", 5100.0, 14.1, 1.8),
        ("buffer_120", 1000.0, 14.4, 0.3),
        ("buffer_120", 2000.0, 15.8, 0.6),
        ("buffer_120", 5100.0, 23.0, 1.1),
    ],
)
def test_runs_and_starts_over_the_load(alternative, load, minutes, starts):
    """Independent quick calculation of the invented boat A, ± 15 % and half a digit."""
    found = store(alternative=alternative)
    assert found.run_at(load) / 60 == pytest.approx(minutes, rel=0.15)
    assert found.starts_at(load) == pytest.approx(starts, abs=0.05 + 0.15 * starts)


@pytest.mark.parametrize(
    ("alternative", "capacity", "starts"),
    [
        ("", 52e3, 11.2),
        ("buffer_60", 291e3, 3.1),
        ("buffer_60_wide_band", 291e3, 1.85),
        ("buffer_120", 527e3, 1.1),
    ],
)
def test_heat_that_moves_and_most_starts(alternative, capacity, starts):
    """Independent quick calculation of the invented boat A, ± 15 %."""
    found = store(alternative=alternative)
    assert found.heat_capacity == pytest.approx(capacity, rel=0.15)
    assert found.starts_per_hour == pytest.approx(starts, rel=0.15)


def test_worst_load_and_short_cycles():
    """Independent quick calculation of boat A: worst at 2.4 kW; 3.1 of 5.1 kW; 0.3 min in tap water only."""
    found = store()
    assert found.worst_load == pytest.approx(2400, rel=0.15)
    assert found.mean_output == pytest.approx(3100, rel=0.15)
    assert found.shortest.mode == "tap water only"
    assert found.running_time / 60 == pytest.approx(0.3, abs=0.05)
    assert found.standby.mode == "tap water only"


def test_a_store_in_the_return_cures_it():
    """Independent quick calculation of boat A with 120 l: shortest run 11 min."""
    found = store(alternative="buffer_120")
    assert found.running_time / 60 == pytest.approx(11, rel=0.15)
    assert found.mean_output == pytest.approx(float(cutter().heat_loss.total), rel=0.02)
    assert found.volume_needed == 0


def test_only_what_moves_counts():
    """By hand: hose 22 of 4.4 m (0.38 l/m), burner 1.6 l, exchanger 0.4 l; 9 kg of steel at 480 J/kgK."""
    found = store()
    heating, standby = found.modes["heating"], found.modes["tap water only"]
    litres = 4.4 * 0.25 * np.pi * 0.22**2 * 10 + 1.6 + 0.4
    expected = litres * 1.0035 * 3873.0 + 9 * 480
    assert standby.parts.heat_capacity == pytest.approx(expected, rel=0.01)
    assert heating.parts.heat_capacity > 2.5 * standby.parts.heat_capacity
    assert "T2" not in {part.tag for part in heating.parts.parts}


def test_of_a_store_the_share_that_mixes():
    boat = cutter(alternative="buffer_60")
    whole = 0.060 * float(boat.coolant.density) * float(boat.coolant.specific_heat)
    part = next(p for p in store(alternative="buffer_60").modes["heating"].parts.parts if p.tag == "T1")
    assert part.fluid == pytest.approx(0.9 * whole)


def test_sensor_at_the_outlet_feels_the_burners_own_rise():
    """Balance of heat by hand: 12 kW at the mode's flow, ρc of the mix; band 12 K."""
    boat = cutter("sensor: return", "sensor: outlet")
    found = store("sensor: return", "sensor: outlet")
    flow = float(boat.ring.operations["heating"].flows.edges["B1"].flow)
    rise = 12e3 / (flow * float(boat.coolant.density) * float(boat.coolant.specific_heat))
    assert found.modes["heating"].swing == pytest.approx(12 - rise, abs=1e-9)
    assert store().modes["heating"].swing == 12


def test_no_volume_will_do_where_the_rise_fills_the_band():
    found = store("sensor: return", "sensor: outlet")
    assert found.volume_needed is None
    assert found.sentence.startswith("No volume will do")
    outlet = next(curve for curve in found.volumes if curve.sensor == "outlet")
    other = next(curve for curve in found.volumes if curve.sensor != "outlet")
    assert np.ptp(outlet.runs) < 0.02 * outlet.runs.max()
    assert other.runs[-1] > 10 * other.runs[0]


def test_the_sensor_is_taken_to_sit_at_the_outlet_unless_stated():
    found = store("sensor: return, ", "")
    assert (found.sensor, found.sensor_stated) == ("outlet", False)


def test_store_of_the_volume_needed_gives_the_run():
    """The volume told is put into the file as a store: its shortest run is the least asked for."""
    need = float(store("sensor: return", "sensor: store").volume_needed)
    found = store("volume: 60 l, metal: 18 kg", f"volume: {need * 1000:.4f} l", alternative="buffer_60")
    assert found.running_time == pytest.approx(600, rel=0.02)


def test_without_modes_a_fifth_of_the_load_is_the_smallest():
    """Common practice, no source: 20 % of the design load."""
    text = cutter().project.files[0].text
    modes = text[text.index("modes:\n") : text.index("tap_water:")]
    found = store(modes, "")
    assert found.smallest_load == pytest.approx(0.2 * float(cutter().heat_loss.total))
    assert found.shortest.mode == "smallest load"


def test_a_burner_that_goes_low_enough_never_stops():
    found = store("min: 12 kW}, stages: 1", "min: 0.2 kW}, stages: modulating")
    assert found.running_time is None
    assert "does not stop" in found.sentence
    assert found.mean_output == 12e3


def test_results_bear_their_names_and_rest_on_lines():
    found = {result.name: result for result in named_results(store())}
    assert {
        "store.heat_capacity",
        "store.smallest_load",
        "store.running_time",
        "store.pause",
        "store.starts_per_hour",
        "store.swing.tap_water_only",
        "store.mean_output",
        "store.volume_needed",
    } <= set(found)
    for result in found.values():
        assert lines_behind(result.value), result.name


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        (("output: {max: 12 kW, min: 12 kW}, ", ""), "components.B1.output"),
        (("volume: 60 l, metal: 18 kg", "metal: 18 kg"), "components.T1.volume"),
        (("base: propylene glycol, share: 40 %", "base: propylene glycol"), "circuit.coolant.share"),
    ],
)
def test_what_is_missing_is_named(changes, key):
    found = store(*changes, alternative="buffer_60")
    assert isinstance(found, NotAssessed)
    assert key in found.needs


def first_run_of_parcels(output, band, load, volume, flow):
    """First run (s) on a ring of parcels that never mix, all alike at first, sensor at the burner's outlet.

    Written for this test alone: one parcel passes the burner at each tick, the load is drawn alike all round.
    """
    parcels, heat_of_litre, top = 400, 3.9e3, 75.0
    ring = np.full(parcels, top - band)
    tick = volume / flow / parcels
    each = volume / parcels * heat_of_litre
    number = 0
    while True:
        ring -= load * tick / (each * parcels)
        ring[number % parcels] += output * tick / each
        if ring[number % parcels] >= top:
            return number * tick
        number += 1


@pytest.mark.parametrize(("band", "load"), [(40.0, 500.0), (30.0, 1500.0), (23.0, 1000.0), (11.0, 1000.0)])
def test_run_on_a_ring_of_parcels_lies_within_one_passage(band, load):
    """Brute force: in a ring that was mixed, the run lies between the closed form and one passage more."""
    output, litres, flow = 9e3, 30.0, 15.0 / 60
    capacity, rate = litres * 3.9e3, flow * 3.9e3
    swing = band - output / rate
    shorter = Switching(output, swing, 0.0).plain_run(capacity, load)
    longer = Switching(output, swing, 0.0, litres / flow).plain_run(capacity, load)
    run = first_run_of_parcels(output, band, load, litres, flow)
    assert longer - shorter == pytest.approx(litres / flow)
    assert shorter - 0.02 * longer <= run <= 1.02 * longer


def test_most_starts_with_a_passage():
    """Search over the load: the worst load where each run is one passage longer."""
    loads = np.linspace(20.0, 11980.0, 60001)
    for swing, wait in ((6.0, 255.0), (6.0, 0.0), (-2.0, 255.0)):
        switching = Switching(12e3, swing, wait, 50.0)
        starts = switching.curve(485e3, loads)[1]
        worst = float(switching.worst_load(485e3))
        assert switching.curve(485e3, np.array([worst]))[1][0] == pytest.approx(starts.max(), rel=1e-4)


@pytest.mark.parametrize("passage", [None, 60.0])
def test_what_a_run_gives_is_what_the_cycle_draws(passage):
    """Balance of heat, identity: Φ_on·t_on = Φ_L·(t_on + t_off)."""
    for load in (200.0, 3000.0, 9000.0):
        run, pause = Switching(12e3, 5.0, 255.0, passage).cycle(100e3, load)
        assert 12e3 * run == pytest.approx(load * (run + pause))


def test_curves_follow_the_closed_forms():
    found = store()
    curve = next(c for c in found.curves if c.added == 0 and c.sensor != "outlet")
    assert np.nanmax(curve.starts) == pytest.approx(float(found.starts_per_hour), rel=0.05)
    larger = next(c for c in found.curves if c.added == 0.12 and c.sensor != "outlet")
    assert np.all(larger.starts <= curve.starts)
    assert {c.sensor for c in found.curves} == {"outlet", "store or return"}


def test_pump_that_stops():
    """Balance of heat by hand: 1.6 l and 9 kg, from 78 to 98 °C with 12 kW, then 30 s of it more."""
    found = store().stop
    capacity = 1.6 * 1.0035 * 3873 + 9 * 480
    assert found.by_stat
    assert found.time == pytest.approx(capacity * 20 / 12e3, rel=1e-3)
    assert found.peak == pytest.approx(371.15 + 12e3 * 30 / capacity, abs=0.1)


def test_sensor_in_the_burner_stops_the_flame_at_once():
    boat = cutter()
    unit = boat.project.components["B1"]
    found = pump_stop(unit, boat.coolant, "outlet", unit.setpoint)
    assert not found.by_stat
    assert found.time == 0
    assert found.stops_at == unit.setpoint
