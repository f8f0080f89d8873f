"""Checks of the burner's runs and of the warm-up, each tried just inside and just outside its limit.

Limits are common practice, no source: 10 min, 3 starts per hour, 3 min of after-run, 5 K under the overheat
stat, 5 K of swing, 0.99 of the load, 4 h of warm-up. Results come from the invented cutter and are moved to
either side of the limit.
"""

import sys
from dataclasses import replace
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import SimpleNamespace

import pytest

from dossier.checking import store, warm_up
from dossier.checking.finding import Status
from dossier.checking.limits import limits_of
from dossier.data.catalogue import LimitBasis, catalogue
from dossier.notation import NotAssessed
from dossier.sizing.day import day
from dossier.sizing.store import store_study
from dossier.sizing.warm_up import warm_up as warming

SIZING = Path(__file__).parents[1] / "sizing"
MET, NOT_MET, NOT_ASSESSED = Status.MET, Status.NOT_MET, Status.NOT_ASSESSED


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, SIZING / f"{name}.py")
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


cutter = _beside("cutter").cutter


def studied(*changes):
    """What the checks look at; each calculation is made when it is asked for."""

    class Studied(SimpleNamespace):
        def __getattr__(self, name):
            made = {
                "store": lambda: store_study(b.project, b.ring, b.coolant, b.heat_loss),
                "day": lambda: day(b.project, b.ring, b.coolant, b.heat_loss),
                "warm_up": lambda: warming(b.project, b.heat_loss, b.ring, b.coolant),
            }
            if name not in made:
                raise AttributeError(name)
            setattr(self, name, made[name]())
            return getattr(self, name)

    b = cutter(*changes)
    return Studied(project=b.project, ring=b.ring, coolant=b.coolant, heat_loss=b.heat_loss)


def limit_of(name, stated=()):
    return limits_of({name: catalogue()[name]}, dict(stated))[name]


def moved(study, part, **changes):
    setattr(study, part, replace(getattr(study, part), **changes))
    return study


@pytest.mark.parametrize(("run", "status"), [(600.0, MET), (599.9, NOT_MET), (19.0, NOT_MET)])
def test_shortest_run(run, status):
    found = store.run_time(moved(studied(), "store", running_time=run), limit_of("store.run_time"))
    assert found.status is status
    assert found.place == "tap water only"
    assert "not supplied" in found.remark


@pytest.mark.parametrize(("run", "status"), [(300.0, MET), (299.9, NOT_MET)])
def test_shortest_run_by_the_maker(run, status):
    study = moved(studied("band: 12 K, ", "band: 12 K, run_min: 5 min, "), "store", running_time=run)
    found = store.run_time(study, limit_of("store.run_time"))
    assert found.status is status
    assert found.limit.basis is LimitBasis.MAKER
    assert found.bound == 300


def test_burner_that_never_stops():
    study = moved(studied(), "store", running_time=None)
    assert store.run_time(study, limit_of("store.run_time")).status is Status.NOT_APPLICABLE


def test_sensor_that_is_not_stated_is_told():
    study = studied("sensor: return, ", "")
    for check in ("run_time", "starts_hour", "swing", "mean_output"):
        assert store.SENSOR_TAKEN in getattr(store, check)(study, limit_of(f"store.{check}")).remark


@pytest.mark.parametrize(("starts", "status"), [(3.0, MET), (3.01, NOT_MET)])
def test_starts_per_hour(starts, status):
    study = moved(studied(), "store", starts_per_hour=starts)
    assert store.starts_hour(study, limit_of("store.starts_hour")).status is status


def test_starts_by_a_rule_of_the_project():
    stated = {"store.starts_hour": (12.0, None, "burner instructions, p. 9")}
    assert store.starts_hour(studied(), limit_of("store.starts_hour", stated)).status is MET


FED = ("name: burner and pump, ", "name: burner and pump, fed_before_main_switch: true, ")
CUT = ("name: burner and pump, ", "name: burner and pump, fed_before_main_switch: false, ")


@pytest.mark.parametrize(
    ("changes", "status"),
    [
        (FED, MET),
        ((*FED, "after_run: 3 min", "after_run: 179 s"), NOT_MET),
        (CUT, NOT_MET),
        ((), NOT_ASSESSED),
        ((*FED, "after_run: 3 min, ", ""), NOT_ASSESSED),
        ((*FED, "feeds: [B1, P1]", "feeds: [B1]"), NOT_ASSESSED),
    ],
)
def test_pump_carries_the_heat_away(changes, status):
    assert store.after_run(studied(*changes), limit_of("store.after_run")).status is status


def test_what_the_after_run_waits_for():
    limit = limit_of("store.after_run")
    assert store.after_run(studied(), limit).missing == (
        "electrics.circuits.burner and pump.fed_before_main_switch",
    )
    found = store.after_run(studied(*FED, "after_run: 3 min, ", ""), limit)
    assert found.missing == ("components.B1.after_run",)


@pytest.mark.parametrize(("peak", "status"), [(371.15 - 5, MET), (371.15 - 4.9, NOT_MET)])
def test_water_stays_under_the_stat(peak, status):
    study = moved(studied(), "day", temperature_peak=peak)
    assert store.overshoot(study, limit_of("store.overshoot")).status is status


def test_stat_that_is_not_stated():
    found = store.overshoot(studied("overheat_stat: 98 degC, ", ""), limit_of("store.overshoot"))
    assert found.status is NOT_ASSESSED
    assert found.missing == ("components.B1.overheat_stat",)


@pytest.mark.parametrize(("band", "status"), [("5 K", MET), ("4.9 K", NOT_MET)])
def test_swing_with_the_sensor_in_the_return(band, status):
    study = studied("band: 12 K, sensor: return", f"band: {band}, sensor: return")
    assert store.swing(study, limit_of("store.swing")).status is status


@pytest.mark.parametrize(("band", "status"), [("17.2 K", MET), ("16.9 K", NOT_MET), ("12 K", NOT_MET)])
def test_swing_with_the_sensor_at_the_outlet(band, status):
    """By hand: the rise is 12.0 to 12.1 K in all modes."""
    study = studied("band: 12 K, sensor: return", f"band: {band}, sensor: outlet")
    found = store.swing(study, limit_of("store.swing"))
    assert found.status is status
    assert {item.what for item in found.items} == {"heating", "anchor night", "tap water only"}


@pytest.mark.parametrize(("share", "status"), [(0.991, MET), (0.989, NOT_MET)])
def test_short_cycles_carry_the_load(share, status):
    study = studied()
    moved(study, "store", mean_output=share * float(study.heat_loss.total))
    assert store.mean_output(study, limit_of("store.mean_output")).status is status


def test_short_cycles_of_the_cutter():
    """Independent quick calculation of boat A: 3.1 of 5.1 kW, ± 15 %."""
    found = store.mean_output(studied(), limit_of("store.mean_output"))
    assert found.status is NOT_MET
    assert found.found == pytest.approx(3.1 / 5.1, rel=0.15)


@pytest.mark.parametrize("check", ["run_time", "starts_hour", "swing", "mean_output", "overshoot"])
def test_silence_is_not_assessed(check):
    found = getattr(store, check)(
        studied("output: {max: 12 kW, min: 12 kW}, ", ""), limit_of(f"store.{check}")
    )
    assert found.status is NOT_ASSESSED
    assert found.missing[0] in {"components.B1.output", "components.burner.output"}


@pytest.mark.parametrize(
    "check", ["run_time", "starts_hour", "after_run", "overshoot", "swing", "mean_output"]
)
def test_boat_without_a_burner(check):
    """A circuit that is written out is complete: what is not in it is not aboard."""
    project = cutter().project
    bare = project.model_copy(
        update={"components": {tag: part for tag, part in project.components.items() if tag != "B1"}}
    )
    study = SimpleNamespace(project=bare, store=None, day=None, heat_loss=None)
    assert getattr(store, check)(study, limit_of(f"store.{check}")).status is Status.NOT_APPLICABLE


def _with_times(study, **times):
    zones = {name: replace(zone, **times) for name, zone in study.warm_up.zones.items()}
    return moved(study, "warm_up", zones=zones)


@pytest.mark.parametrize(("time", "status"), [(14400.0, MET), (14401.0, NOT_MET), (None, NOT_MET)])
def test_warm_in_four_hours(time, status):
    found = warm_up.warm_up(_with_times(studied(), time=time), limit_of("heat.warm_up"))
    assert found.status is status
    assert found.bound == 14400
    if time is None:
        assert found.found == warm_up.NEVER


@pytest.mark.parametrize(("time", "status"), [(7200.0, MET), (7201.0, NOT_MET)])
def test_warm_in_the_time_wanted(time, status):
    study = studied("unheated_start: 2 degC", "unheated_start: 2 degC, warm_up_within: 2 h")
    found = warm_up.warm_up(_with_times(study, time=time), limit_of("heat.warm_up"))
    assert found.status is status
    assert found.bound == 7200


def test_warm_up_without_a_start():
    found = warm_up.warm_up(studied("unheated_start: 2 degC, ", ""), limit_of("heat.warm_up"))
    assert found.status is NOT_ASSESSED
    assert found.missing == ("conditions.unheated_start",)


def test_zone_that_nothing_heats():
    study = moved(studied(), "warm_up", lacking=("heads",))
    found = warm_up.warm_up(study, limit_of("heat.warm_up"))
    assert found.status is NOT_ASSESSED
    assert "zone: heads" in found.missing[0]


def test_calculation_that_was_not_made():
    waiting = NotAssessed("How long?", ("circuit.ring",))
    study = SimpleNamespace(
        project=cutter().project, store=waiting, day=waiting, warm_up=waiting, heat_loss=waiting
    )
    for check in ("run_time", "starts_hour", "overshoot", "swing", "mean_output"):
        assert getattr(store, check)(study, limit_of(f"store.{check}")).missing == ("circuit.ring",)
    assert warm_up.warm_up(study, limit_of("heat.warm_up")).missing == ("circuit.ring",)
