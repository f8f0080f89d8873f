"""Warming the cold cutter, beside the coupled lumped capacities and their closed form."""

import sys
from functools import cache
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest

from dossier.notation import NotAssessed, lines_behind, named_results
from dossier.physics.warm_up import extra_power
from dossier.physics.warm_up_together import WarmingZone, warm_up_together
from dossier.physics.zones import Path as Way
from dossier.sizing.warm_up import time_reached, warm_up


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


cutter = _beside("cutter").cutter
COLD, OUTSIDE, SEA = 275.15, 263.15, 275.15


@cache
def warmed(*changes):
    boat = cutter(*changes)
    return warm_up(boat.project, boat.heat_loss, boat.ring, boat.coolant)


def lumped():
    """Zones of the cutter and her ring as one more, at its mean once it is hot: another solver."""
    boat = cutter()
    heat = boat.ring.operations["heating"].heat
    zones, ways = {}, []
    for zone in boat.project.zones:
        target = zone.target
        wanted = None if target is None else COLD + 0.8 * (float(target) - COLD)
        zones[zone.id] = WarmingZone(30e3 * float(zone.volume), COLD, wanted=wanted)
    zones["ring"] = WarmingZone(52e3, COLD, heat=12e3, target=345.15)
    known = {"air": OUTSIDE, "sea": SEA}
    for section in boat.heat_loss.shell.sections:
        beyond = str(section.beyond) if section.facing == "zone" else known[section.facing]
        ways.append(Way(section.zone, beyond, float(section.transmittance) * float(section.area)))
    ways += [Way(z.zone, OUTSIDE, 1224 * float(z.air_flow)) for z in boat.heat_loss.zones.values()]
    for emitter in heat.emitters.values():
        over = float(emitter.supply) - float(emitter.room)
        ways.append(Way("ring", emitter.zone, float(emitter.output) / over))
    for pipe in heat.pipes.values():
        air = float(boat.heat_loss.zones[pipe.beside].temperature) if pipe.beside else 288.15
        where = pipe.beside or 288.15
        ways.append(Way("ring", where, float(pipe.loss) / (343.0 - air)))
    return warm_up_together(zones, ways, 8 * 3600.0)


@pytest.mark.parametrize("zone", ["wheelhouse", "saloon", "fore_cabin", "heads"])
def test_zones_warm_as_coupled_capacities_do(zone):
    """Coupled lumped capacities by eigenvalues, the ring as one of them, no fans to wait for: ± 10 %."""
    assert warmed().zones[zone].time == pytest.approx(lumped().times[zone], rel=0.1)


def test_time_at_which_the_curve_passes():
    found = warmed()
    curves = found.curves(10.0)
    for zone in found.zones.values():
        late = curves.time[np.argmax(curves.rooms[zone.zone] >= float(zone.wanted))]
        assert zone.time == pytest.approx(late, abs=10.0)
    assert curves.supply[0] == COLD
    assert curves.supply.max() < 273.15 + 92


def test_four_fifths_of_the_rise_count_as_warm():
    """Common practice, no source: 80 % of the rise from the cold boat to the target."""
    saloon = warmed().zones["saloon"]
    assert saloon.wanted == pytest.approx(COLD + 0.8 * (293.15 - COLD))
    assert saloon.capacity == pytest.approx(30e3 * 34)


def test_power_for_the_time_wanted():
    """Closed form of one lumped capacity; none is asked for where four hours are not stated otherwise."""
    saloon = warmed("unheated_start: 2 degC", "unheated_start: 2 degC, warm_up_within: 1 h").zones["saloon"]
    boat = cutter()
    ways = sum(
        float(s.transmittance) * float(s.area)
        for s in boat.heat_loss.shell.sections
        if s.zone == "saloon" or s.beyond == "saloon"
    )
    ways += 1224 * float(boat.heat_loss.zones["saloon"].air_flow)
    expected = extra_power.function(30e3 * 34, ways, COLD, COLD + 0.8 * 18, 293.15, 3600.0)
    assert saloon.power == pytest.approx(expected, rel=1e-9)
    assert saloon.power > warmed().zones["saloon"].power
    assert warmed().within == 4 * 3600
    assert not warmed().stated


def test_boat_that_is_warm_already():
    found = warmed("unheated_start: 2 degC", "unheated_start: 20 degC")
    assert found.zones["saloon"].time == 0


def test_emitter_too_small_to_get_there():
    """A coil of a sixth of the output cannot warm the saloon at -10 °C: never, however long."""
    found = warmed(
        "zone: saloon, air_from: saloon, output: 4.2 kW", "zone: saloon, air_from: saloon, output: 0.5 kW"
    )
    assert found.zones["saloon"].time is None
    assert found.zones["heads"].time is not None
    names = {result.name for result in named_results(found)}
    assert "warm_up.zone.heads.time" in names
    assert "warm_up.zone.saloon.time" not in names
    assert time_reached(found.record, found.boat.zones["saloon"], 293.15) is None


def test_a_colder_start_takes_longer():
    colder = warmed("unheated_start: 2 degC", "unheated_start: -5 degC")
    for name, zone in warmed().zones.items():
        assert colder.zones[name].time > zone.time


def test_times_rest_on_lines():
    for result in named_results(warmed()):
        assert lines_behind(result.value), result.name


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        (("unheated_start: 2 degC, ", ""), "conditions.unheated_start"),
        (("outside_air: -10 degC, ", ""), "conditions.outside_air"),
        (("output: {max: 12 kW, min: 12 kW}, ", ""), "components.burner.output"),
    ],
)
def test_what_is_missing_is_named(changes, key):
    found = warmed(*changes)
    assert isinstance(found, NotAssessed)
    assert key in found.needs
