"""Lagging, hot surfaces, wood beside the exhaust and back pressure.

Surface temperatures follow from the cylinder formula, written out here once more: gas, film of 35 W/m²K,
lagging, film of 10 W/m²K, surroundings of 35 °C.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from math import log, pi
from pathlib import Path

import pytest

from dossier.checking.finding import Status


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


finding = _beside("exhaust_boat").finding
CELSIUS = 273.15


def surface(lagging, conductivity=0.06, gas=350.0, bore=0.03):
    """Outside of the lagging in °C, gas in °C, lengths in metres."""
    pipe = bore + 0.003
    outside = pipe + 2 * lagging
    inner = 1 / (35 * pi * bore) + log(outside / pipe) / (2 * pi * conductivity)
    outer = 1 / (10 * pi * outside)
    return 35 + (gas - 35) * outer / (inner + outer)


@pytest.mark.parametrize(
    ("changes", "bound", "status"),
    [
        ({"clearances.exhaust_run": "50.1 mm"}, 0.05, "met"),
        ({"clearances.exhaust_run": "49.9 mm"}, 0.05, "not met"),
        ({"clearances.exhaust_run": "150.1 mm", "exhaust.lagging": "none"}, 0.15, "met"),
        ({"clearances.exhaust_run": "149.9 mm", "exhaust.lagging": "none"}, 0.15, "not met"),
        ({"clearances.exhaust_run": "149 mm", "exhaust.lagging.extent": "to the bulkhead"}, 0.15, "not met"),
        ({"clearances.exhaust_run": "151 mm", "exhaust.lagging": None}, 0.15, "met"),
        ({"clearances.exhaust_run": "49 mm", "exhaust.lagging": None}, 0.05, "not met"),
    ],
)
def test_what_burns_keeps_its_distance_along_the_run(changes, bound, status):
    found = finding("exhaust.run_clearance", changes)
    assert (found.status.value, found.bound) == (status, bound)


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"clearances": None}, ("clearances.exhaust_run",)),
        (
            {"clearances": None, "exhaust.lagging": None},
            ("clearances.exhaust_run", "exhaust.lagging.thickness"),
        ),
        ({"clearances.exhaust_run": "90 mm", "exhaust.lagging": None}, ("exhaust.lagging.thickness",)),
        ({"clearances.exhaust_run": "90 mm", "exhaust.lagging.extent": None}, ("exhaust.lagging.extent",)),
    ],
)
def test_what_the_clearance_waits_for_is_named(changes, missing):
    found = finding("exhaust.run_clearance", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


def test_the_makers_clearance_stands_above_both():
    limits = {"limits": {"exhaust.run_clearance": {"at_least": "75 mm", "source": "burner instructions"}}}
    assert finding("exhaust.run_clearance", limits).status is Status.NOT_MET
    bare = limits | {"exhaust.lagging": "none", "clearances.exhaust_run": "80 mm"}
    assert finding("exhaust.run_clearance", bare).status is Status.MET


def test_wood_that_touches_is_as_hot_as_what_it_touches():
    steel = [{"bulkhead": "plate", "material": "steel", "hole": "60 mm", "thickness": "5 mm"}]
    changes = {"clearances.exhaust_run": "0 mm", "exhaust.passes": steel}
    found = finding("exhaust.combustible_temperature", changes)
    assert float(found.found) == pytest.approx(surface(0.04) + CELSIUS, abs=1e-6)
    assert (found.status, found.place) == (Status.MET, "along the run")


def test_wood_stays_below_eighty_degrees_beside_lagging_and_chars_beside_bare_pipe():
    steel = [{"bulkhead": "plate", "material": "steel", "hole": "60 mm", "thickness": "5 mm"}]
    touching = {"clearances.exhaust_run": "0 mm", "exhaust.passes": steel}
    # Lagging whose outside has just under and just over 80 °C, by the formula above: 21.5 mm and 21.4 mm.
    inside, outside = 0.0215, 0.0214
    assert surface(inside) < 80 < surface(outside)
    for thickness, status in ((inside, "met"), (outside, "not met")):
        lagging = {"exhaust.lagging.thickness": f"{thickness} m"}
        found = finding("exhaust.combustible_temperature", touching | lagging)
        assert (found.status.value, float(found.bound)) == (status, pytest.approx(80 + CELSIUS))
    found = finding("exhaust.combustible_temperature", {"exhaust.lagging": "none"})
    assert found.status is Status.NOT_MET


def test_wood_farther_off_is_cooler():
    near, far = (
        finding("exhaust.combustible_temperature", {"clearances.exhaust_run": clearance}).items[0].found
        for clearance in ("30 mm", "120 mm")
    )
    assert CELSIUS + 35 < float(far) < float(near) < CELSIUS + surface(0.04)


def test_the_wood_that_was_measured_hotter_counts():
    found = finding("exhaust.combustible_temperature", {"commissioning.surface.wood": "81 degC"})
    assert (found.status, found.place) == (Status.NOT_MET, "measured")


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"clearances": None}, ("clearances.exhaust_run",)),
        ({"exhaust.passes": None}, ("exhaust.passes",)),
        ({"exhaust.bore": None}, ("exhaust.bore",)),
        ({"exhaust.lagging": None}, ("exhaust.lagging.thickness",)),
    ],
)
def test_what_the_temperature_of_wood_waits_for_is_named(changes, missing):
    found = finding("exhaust.combustible_temperature", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


@pytest.mark.parametrize(
    ("lagging", "status"),
    [
        ({"thickness": "40 mm", "extent": "whole"}, "met"),
        ({"thickness": "40 mm", "extent": "whole but for the last foot"}, "not met"),
        ({"thickness": "40 mm", "extent": "to the partition"}, "not met"),
        ("none", "not met"),
    ],
)
def test_the_exhaust_is_lagged_from_burner_to_hull_fitting(lagging, status):
    assert finding("exhaust.lagging", {"exhaust.lagging": lagging}).status.value == status


@pytest.mark.parametrize(
    ("lagging", "missing"),
    [
        (None, ("exhaust.lagging.thickness", "exhaust.lagging.extent")),
        ({"extent": "whole"}, ("exhaust.lagging.thickness",)),
        ({"thickness": "40 mm"}, ("exhaust.lagging.extent",)),
    ],
)
def test_what_the_lagging_waits_for_is_named(lagging, missing):
    found = finding("exhaust.lagging", {"exhaust.lagging": lagging})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)


@pytest.mark.parametrize(("thickness", "status"), [(0.0275, "met"), (0.0273, "not met")])
def test_lagging_may_be_touched_up_to_seventy_degrees(thickness, status):
    assert (surface(thickness) < 70) is (status == "met")
    found = finding("exhaust.lagging_touch", {"exhaust.lagging.thickness": f"{thickness} m"})
    assert found.status.value == status
    assert float(found.found) - CELSIUS == pytest.approx(surface(thickness), abs=1e-6)


def test_hot_lagging_behind_a_guard_with_a_sign_may_be():
    hot = {"exhaust.lagging.thickness": "10 mm"}
    guarded = {"layout.compartments.engine_room.guard": "true", "safety": {"signs": ["exhaust"]}}
    assert finding("exhaust.lagging_touch", hot).status is Status.NOT_MET
    for one in guarded.items():
        assert finding("exhaust.lagging_touch", hot | dict([one])).status is Status.NOT_MET
    assert finding("exhaust.lagging_touch", hot | guarded).status is Status.MET


def test_the_lagging_that_was_measured_hotter_counts():
    found = finding("exhaust.lagging_touch", {"commissioning.surface.lagging": "71 degC"})
    assert (found.status, found.place) == (Status.NOT_MET, "measured")


@pytest.mark.parametrize("check", ["exhaust.lagging_touch", "exhaust.fuel_spray"])
def test_a_surface_waits_for_bore_and_lagging(check):
    for changes, missing in (
        ({"exhaust.bore": None}, "exhaust.bore"),
        ({"exhaust.lagging": None}, "exhaust.lagging.thickness"),
    ):
        found = finding(check, changes)
        assert (found.status, found.missing) == (Status.NOT_ASSESSED, (missing,))


@pytest.mark.parametrize(("gas", "status"), [(278, "met"), (279, "not met")])
def test_bare_metal_that_fuel_can_reach_stays_below_two_hundred_and_twenty_degrees(gas, status):
    # SOLAS II-2, reg. 4.2.2.6.1: 220 °C, from memory
    assert (surface(0.0, gas=gas) < 220) is (status == "met")
    changes = {
        "exhaust.lagging": "none",
        "exhaust.gas_temperature": f"{gas} degC",
        "clearances.fuel_screen": "false",
    }
    found = finding("exhaust.fuel_spray", changes)
    assert found.status.value == status
    assert float(found.found) - CELSIUS == pytest.approx(surface(0.0, gas=gas), abs=1e-6)


def test_a_screen_between_hot_metal_and_fuel_will_do_and_must_be_told_of():
    bare = {"exhaust.lagging.extent": "to the partition"}
    assert finding("exhaust.fuel_spray", bare | {"clearances.fuel_screen": "true"}).status is Status.MET
    assert finding("exhaust.fuel_spray", bare | {"clearances.fuel_screen": "false"}).status is Status.NOT_MET
    found = finding("exhaust.fuel_spray", bare)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("clearances.fuel_screen",))


@pytest.mark.parametrize(("below", "status"), [(-1, "met"), (1, "not met")])
def test_back_pressure_stays_below_the_makers_figure(below, status):
    plain = finding("exhaust.back_pressure")
    silencer = float(plain.margin) + below
    found = finding("exhaust.back_pressure", {"exhaust.silencer": f"{silencer} Pa"})
    assert (found.status.value, found.bound) == (status, 400.0)
    assert float(found.margin) == pytest.approx(-below, abs=1e-9)


def test_without_a_makers_figure_the_number_is_shown_and_not_judged():
    found = finding("exhaust.back_pressure", {"components.B1.back_pressure_max": None})
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, ("components.B1.back_pressure_max",))
    assert float(found.found) == float(finding("exhaust.back_pressure").found)


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"exhaust.silencer": None}, ("exhaust.silencer",)),
        ({"exhaust.route": None, "exhaust.length": "2 m"}, ("exhaust.route",)),
        ({"exhaust.bore": None}, ("exhaust.bore",)),
        ({"components.B1.output": None}, ("components.burner.output.max",)),
    ],
)
def test_what_the_back_pressure_waits_for_is_named(changes, missing):
    found = finding("exhaust.back_pressure", changes)
    assert (found.status, found.missing) == (Status.NOT_ASSESSED, missing)
