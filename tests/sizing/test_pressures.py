"""Pressures of the ring, and what its expansion makes of them: hand calculations in metres of coolant.

EN 12828:2012, annex D (from memory) for the vessel; ρ·g·h and Boyle's law elsewhere.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.notation import NotAssessed


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).parents[1] / f"{name}.py")
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("ring_boat")
G = 9.80665


def weight():
    """Pressure of a metre of the coolant (Pa)."""
    return float(boat.study_of().coolant.density) * G


def test_header_holds_the_pressure_where_it_joins():
    """Level 3.0 m + 30 % of 0.25 m, joined at the middle of the burner, 0.25 m."""
    found = boat.study_of().pressures
    assert float(found.join) == pytest.approx(weight() * (3.075 - 0.25))
    burner = found.modes["heating"].edges["B1"]
    assert float(burner.gauge) == pytest.approx(float(found.join), abs=1)
    assert float(burner.inlet) == pytest.approx(float(found.join) + 101325, abs=1)


def test_pump_inlet_has_what_the_drops_leave():
    """From the joint through the burner round: all drops but those of pump and V31, and 0.15 m up."""
    study = boat.study_of()
    flows = study.ring.design.flows.edges
    common = ("B1", "ring_1", "V32", "X1", "V33", "V11", "ring_2", "ring_3", "V30")
    branch = float(study.ring.design.flows.branches["saloon"].drop)
    drops = sum(float(flows[tag].drop) for tag in common) + branch
    expected = float(study.pressures.join) - drops + weight() * 0.15
    assert float(study.pressures.modes["heating"].edges["P1"].gauge) == pytest.approx(expected, abs=60)


def test_lowest_is_at_the_highest_point_and_counts_every_drop():
    study = boat.study_of()
    found = study.pressures.modes["heating"]
    assert found.lowest_at == "R3 vent"
    most = float(study.ring.design.flows.pumps["P1"].pressure_rise)
    expected = float(study.pressures.join) - most - weight() * (0.9 - 0.25)
    assert expected - 100 < float(found.lowest) < expected + 2500


def test_stopped_ring_has_the_weight_of_its_coolant_alone():
    found = boat.study_of().pressures
    assert found.stopped_at in {"R3 vent", "heads_2"}
    assert float(found.stopped) == pytest.approx(float(found.join) - weight() * (0.9 - 0.25))


def test_pressures_wait_for_heights():
    for key in ("layout.places.T2", "layout.places.B1", "circuit.header.joins_before"):
        found = boat.study_of({key: None}).pressures
        assert isinstance(found, NotAssessed)
        assert found.needs
    sealed = boat.study_of({**boat.SEALED, "circuit.fill_pressure": None}).pressures
    assert sealed.needs == ("circuit.fill_pressure",)


def test_heights_do_not_change_the_flow_but_by_the_lift_of_warm_water():
    """A pump of 20 kPa beside 17 Pa of lift: less than a per cent."""
    flat = {"layout.places.B1": None, "layout.places.P1": None, "layout.places.V11": None}
    for key in (
        *boat.RING.values(),
        *(f"{boat.BRANCH}.{n}.{p}.pipe" for n in ("saloon", "cabin", "heads") for p in (1, 3)),
    ):
        flat |= {f"{key}.{word}": None for word in ("route", "vents", "drains")}
    high, level = (boat.study_of(c).ring.design.flows.edges["B1"].flow for c in ({}, flat))
    assert float(high) == pytest.approx(float(level), rel=0.01)
    assert float(high) != float(level)


# Expansion


def test_expansion_from_fill_to_the_stat():
    """V·(ρ_10/ρ_98 − 1), the larger of both data sets: 40 % of propylene glycol grows by some 6 %."""
    study = boat.study_of()
    grown = []
    for fluid in (study.coolant.fluid, study.coolant.fluid.twin()):
        share = float(fluid.density(283.15)) / float(fluid.density(371.15)) - 1
        assert share == pytest.approx(0.06, abs=0.005)
        grown.append(float(study.coolant.volume) * share)
    assert float(study.expansion.volume) == pytest.approx(max(grown), rel=1e-6)
    assert study.expansion.hottest_by == "overheat stat of B1"
    assert (
        "end of the coolant's table"
        in boat.study_of({"components.B1.overheat_stat": None}).expansion.hottest_by
    )


def test_room_and_content_of_the_header():
    found = boat.study_of().expansion
    assert float(found.header_capacity) == pytest.approx(0.7 * 0.008)
    assert float(found.header_content) == pytest.approx(0.3 * 0.008)


def test_vessel_by_annex_d():
    """Up to 15 l a fifth of the vessel is reserve: V = V_e/(f − 0.2), f = (p_e − p_0)/(p_e + p_at)."""
    found = boat.study_of(boat.SEALED).expansion
    factor = (200e3 - 80e3) / (200e3 + 101325)
    assert float(found.needed) == pytest.approx(float(found.volume) / (factor - 0.2), rel=1e-6)


def test_gas_of_the_vessel_by_boyle():
    found = boat.study_of(boat.SEALED).expansion
    gas = 0.012 * (80e3 + 101325) / (110e3 + 101325)
    assert float(found.reserve) == pytest.approx(0.012 - gas, rel=1e-6)
    hot = (110e3 + 101325) * gas / (gas - float(found.volume)) - 101325
    assert float(found.final) == pytest.approx(hot, rel=1e-6)


def test_static_pressure_at_the_vessel():
    """From 0.3 m to the highest wetted point at 0.9 m."""
    assert float(boat.study_of(boat.SEALED).expansion.static) == pytest.approx(weight() * 0.6)


def test_pressure_cap_holds_a_cushion():
    cap = {
        "components.T2.cap": "pressure",
        "components.T2.cap_pressure": "0.5 bar",
        "circuit.system": "sealed",
    }
    found = boat.study_of(cap).expansion
    assert float(found.final) > 0
    assert found.needed is None


def test_coldest_lay_up_or_the_freezing_point():
    """At −60 °C nothing is told of the mix: the contraction counts to where it freezes."""
    study = boat.study_of({"conditions.lay_up_lowest": "-60 degC"})
    assert float(study.expansion.coldest) == pytest.approx(float(study.coolant.freezing_point), abs=0.1)


def test_burner_after_a_stop():
    """150 kJ into 1.5 l of mix and 9 kg of metal at 480 J/kgK, from 76 °C."""
    study = boat.study_of()
    capacity = 0.0015 * float(study.coolant.density) * float(study.coolant.specific_heat) + 9 * 480
    assert float(study.expansion.after_stop) == pytest.approx(349.15 + 150e3 / capacity, rel=1e-4)


def test_heat_left_in_a_burner_whose_maker_tells_none_is_that_of_half_a_minute():
    """Full output for 30 s (common practice, no source); the check still waits for the maker's figure."""
    study = boat.study_of({"components.B1.heat_after_stop": None})
    capacity = 0.0015 * float(study.coolant.density) * float(study.coolant.specific_heat) + 9 * 480
    full = float(study.project.components["B1"].output.max)
    assert float(study.expansion.after_stop) == pytest.approx(349.15 + full * 30 / capacity, rel=1e-4)
    assert study.expansion.stops == ()
