"""Flow and temperature of one mode, where the answer can be had otherwise: closed forms, and other solvers.

Expected figures come from the formulas of the trade written out here, or from SciPy's root finder on the
whole set of equations; none from the program.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from math import exp, log
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import brentq

from dossier.notation import NotConverged
from dossier.physics.pipe_heat import linear_transmittance, surface_temperature
from dossier.sizing.ring_heat import Coil, Emitting, Giving, Held, Losing, Ring, Way, ring_temperatures
from dossier.sizing.sources_of_heat import Regime
from dossier.sizing.surroundings import PipeLoss, PipeLosses


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).parents[1] / f"{name}.py")
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("ring_boat")
HEAT = 4000.0
"""Specific heat in the small rings here (J/kgK)."""


def solved(ways, parts, nodes=2, start=None):
    return ring_temperatures(Ring(ways, parts, HEAT, nodes), start or {}, 340.0)


def loop(mass_flow, *tags):
    """One ring of two halves, source first."""
    return [Way(0, 1, mass_flow, tags[:1]), Way(1, 0, mass_flow, tags[1:])]


# Small rings by hand


def test_a_pipe_cools_by_its_exponential():
    found = solved(loop(0.1, "B", "pipe"), {"B": Held(350.0), "pipe": Losing(20.0, 290.0)})
    assert found.outlet["pipe"] == pytest.approx(290 + 60 * exp(-20 / 400), rel=1e-12)
    assert found.residual < 1e-12


def test_a_fixed_source_settles_where_the_coil_gives_its_heat():
    """1200 W through a coil of 30 W/K: entering water 40 K over the air."""
    found = solved(loop(0.1, "B", "coil"), {"B": Giving(1200.0), "coil": Coil(30.0, 293.15)})
    assert found.inlet["coil"] == pytest.approx(333.15, abs=1e-9)
    assert found.inlet["B"] == pytest.approx(333.15 - 3.0, abs=1e-9)


def test_a_coil_gives_no_more_than_its_thermostat_lets_it():
    found = solved(loop(0.1, "B", "coil"), {"B": Held(350.0), "coil": Coil(30.0, 293.15, 900.0)})
    assert found.heat["coil"] == pytest.approx(900, abs=1e-9)
    assert found.outlet["coil"] == pytest.approx(350 - 900 / 400, abs=1e-9)


def test_a_radiator_by_scipy():
    """Φ ∝ Δθ^1.3 of the mean water: the root of one equation, by Brent's method."""

    def heat(inlet, rate):
        def left(outlet):
            mean = max((inlet + outlet) / 2 - 293.15, 0)
            return rate * (inlet - outlet) - 20 * mean**1.3

        return rate * (inlet - brentq(left, 293.15, inlet, xtol=1e-12))

    found = solved(loop(0.05, "B", "rad"), {"B": Held(350.0), "rad": Emitting(heat)})
    assert found.heat["rad"] == pytest.approx(heat(350.0, 200.0), rel=1e-6)


def test_water_mixes_by_its_flows():
    """0.03 kg/s at 340 K and 0.07 kg/s at 300 K make 312 K."""
    ways = [
        Way(0, 1, 0.1, ("B",)),
        Way(1, 2, 0.03, ("hot",)),
        Way(1, 2, 0.07, ("cold",)),
        Way(2, 0, 0.1, ("x",)),
    ]
    parts = {"B": Held(340.0), "cold": Emitting(lambda inlet, rate: rate * (inlet - 300.0))}
    found = solved(ways, parts, nodes=3)
    assert found.inlet["x"] == pytest.approx(312.0, abs=1e-6)
    assert found.junctions[2] == pytest.approx(312.0, abs=1e-6)


def test_a_ring_that_nothing_holds_has_no_temperature():
    with pytest.raises(NotConverged, match="holds its temperature"):
        solved(loop(0.1, "B", "x"), {"B": Giving(100.0)})


def test_a_junction_without_water_has_no_temperature():
    found = solved(loop(0.1, "B", "pipe"), {"B": Held(350.0), "pipe": Losing(20.0, 290.0)}, nodes=3)
    assert np.isnan(found.junctions[2])


def test_random_rings_by_scipy():
    """Ladders of coils and pipes: all temperatures as the solution of one set of linear equations."""
    draw = np.random.default_rng(3)
    for _ in range(20):
        count = int(draw.integers(2, 6))
        flows, each = draw.uniform(0.01, 0.1, count), draw.uniform(5, 40, count)
        lost, airs = draw.uniform(0, 10, count), draw.uniform(275, 295, count)
        ways = [Way(0, 1, float(flows.sum()), ("B",))]
        parts = {"B": Giving(3000.0)}
        for n in range(count):
            ways.append(Way(1, 0, float(flows[n]), (f"p{n}", f"c{n}")))
            parts[f"p{n}"] = Losing(float(lost[n]), float(airs[n]))
            parts[f"c{n}"] = Coil(float(each[n]), float(airs[n]))
        found = solved(ways, parts)
        kept = np.exp(-lost / (flows * HEAT))
        share = kept * (1 - each / (flows * HEAT))
        start = (1 - kept) * airs * (1 - each / (flows * HEAT)) + each / (flows * HEAT) * airs
        weights = flows / flows.sum()
        supply = ((weights * start).sum() + 3000 / (flows.sum() * HEAT)) / (1 - (weights * share).sum())
        assert found.outlet["B"] == pytest.approx(supply, rel=1e-9)


# Pipes


def test_losses_of_many_pipes_agree_with_the_formula_of_one():
    """The surface of each by Newton's method, against the bracketed root of ISO 12241's balance."""
    draw = np.random.default_rng(5)
    pipes, water = {}, []
    for n in range(60):
        air = float(draw.uniform(255, 300))
        resistance = float(draw.choice([0.0, 1e-4, draw.uniform(0.01, 2.0)]))
        pipes[f"p{n}"] = PipeLoss(
            f"p{n}", "", "", air, float(draw.uniform(0.2, 10)), resistance, float(draw.uniform(0.01, 0.08))
        )
        water.append(float(draw.uniform(275, 365)))
    losses = PipeLosses(pipes)
    surfaces, found = losses.surfaces(np.array(water)), losses.conductances(np.array(water))
    for n, pipe in enumerate(pipes.values()):
        surface = surface_temperature(water[n], pipe.air, pipe.resistance, pipe.outside, 0.9)
        assert surfaces[n] == pytest.approx(surface, abs=1e-7)
        psi = linear_transmittance(water[n], pipe.air, surface, pipe.outside, 0.9)
        assert found[n] == pytest.approx(psi * pipe.length, rel=1e-6)


# Whole rings


def test_burner_under_its_lowest_output_cycles_round_its_mean():
    """Setpoint 76 °C less half the band of 10 K, as long as the rooms take less than 2 kW."""
    mild = {"conditions.outside_air": "10 degC", "conditions.sea": "10 degC"}
    source = boat.study_of(mild).ring.design.heat.sources["B1"]
    assert source.regime is Regime.CYCLING
    assert float(source.supply) == pytest.approx(344.15, abs=1e-6)
    assert float(source.output) < 2000


def test_steady_burner_holds_its_setpoint():
    source = boat.study_of().ring.design.heat.sources["B1"]
    assert source.regime is Regime.STEADY
    assert float(source.supply) == pytest.approx(349.15, abs=1e-6)
    assert 2000 < float(source.output) < 5000


def test_burner_too_small_gives_its_full_output_and_the_supply_falls():
    small = {"components.B1.output": {"max": "1.6 kW", "min": "1 kW"}}
    heat = boat.study_of(small).ring.design.heat
    source = heat.sources["B1"]
    assert source.regime is Regime.FULL
    assert float(source.output) == pytest.approx(1600, rel=1e-6)
    assert float(source.supply) < 349.15
    taken = sum(float(e.given) for e in heat.emitters.values())
    assert taken + sum(float(p.loss) for p in heat.pipes.values()) == pytest.approx(1600, rel=1e-5)


def test_output_of_an_emitter_at_the_flow_and_water_it_gets():
    """Crossflow ε-NTU (both unmixed, the usual approximation) from the rated point, written out here."""
    study = boat.study_of()
    state = study.ring.design.heat.emitters["F1"]
    air_rate = 300 / 3600 * 1.2 * 1006
    water_rated = 9 / 60000 * 971.8 * 4198  # water at 80 °C
    flow = float(study.ring.design.flows.edges["F1"].flow)
    water = flow * float(study.coolant.density) * float(study.coolant.specific_heat)

    def effectiveness(units, ratio):
        return 1 - exp(units**0.22 / ratio * (exp(-ratio * units**0.78) - 1))

    asked = 4000 / (air_rate * 62)
    units = brentq(lambda n: effectiveness(n, air_rate / water_rated) - asked, 0.01, 20)
    expected = effectiveness(units, air_rate / water) * air_rate * (float(state.supply) - 293.15)
    assert float(state.output) == pytest.approx(expected, rel=0.02)


def test_cooling_over_an_emitter_is_its_heat_over_its_flow():
    study = boat.study_of()
    state = study.ring.design.heat.emitters["R3"]
    rate = float(study.ring.design.flows.edges["R3"].flow) * 1003 * 3850
    assert float(state.supply) - float(state.back) == pytest.approx(float(state.output) / rate, rel=0.02)


def test_pipe_loss_of_the_common_run():
    """Hose of 30 mm outside in air of 8 °C, water 76 °C: film of some 11 W/m²K behind 0.2 mK/W of wall."""
    study = boat.study_of()
    pipe = study.ring.design.heat.pipes["ring_1"]
    air = float(study.heat_loss.zones["engine_room"].temperature)
    wall = log(30 / 22) / (2 * np.pi * 0.25)
    outside = brentq(
        lambda surface: (
            (349.15 - surface) / wall
            - (
                1.25 * (abs(surface - air) / 0.03) ** 0.25
                + 0.9 * 5.670374e-8 * (surface**2 + air**2) * (surface + air)
            )
            * np.pi
            * 0.03
            * (surface - air)
        ),
        air,
        349.15,
    )
    assert float(pipe.surface) == pytest.approx(outside, abs=0.05)
    assert float(pipe.loss) == pytest.approx((349.15 - outside) / wall * 1.2, rel=0.01)


def test_thermostats_hold_each_room_at_what_it_still_needs():
    heat = boat.study_of().ring.design.heat
    for zone in ("saloon", "cabin", "heads"):
        given = sum(float(e.given) for e in heat.emitters.values() if e.zone == zone)
        pipes = sum(float(p.loss) for p in heat.pipes.values() if zone in {p.through, p.beside})
        assert given + pipes == pytest.approx(float(heat.zones[zone].load), rel=1e-5)


def test_a_mode_with_the_burner_off_has_flows_and_no_temperatures():
    ring = boat.study_of({"modes.circulating": {"stopped": ["B1"]}}).ring
    operation = ring.operations["circulating"]
    assert operation.heat is None
    assert float(operation.flows.edges["B1"].flow) > 0


def test_a_mode_with_pump_and_burner_off_stands_still():
    ring = boat.study_of({"modes.off": {"stopped": ["P1", "B1"]}}).ring
    operation = ring.operations["off"]
    assert {float(edge.flow) for edge in operation.flows.edges.values()} == {0.0}
    assert {part.why for part in operation.standing} >= {"P1 stands", "nothing drives it"}


def test_dead_legs_are_named_with_what_shuts_them():
    standing = boat.study_of().ring.operations["tap water only"].standing
    saloon = {part.tag: part.why for part in standing if part.branch == "saloon"}
    assert saloon == dict.fromkeys(("V1", "saloon_1", "F1", "saloon_2"), "V1 is shut")


def test_warm_water_rises_where_the_pump_is_weak():
    """Buoyancy: the towel rail 0.6 m over the main gets a little more flow than one on its level."""
    key = f"{boat.BRANCH}.heads"
    weak = {"components.P1.curve": [["0 l/min", "1.2 kPa"], ["4 l/min", "0.9 kPa"], ["12 l/min", "0 kPa"]]}
    level = {f"{key}.{n}.pipe.{word}": None for n in (1, 3) for word in ("route", "vents", "drains")}
    high = float(boat.study_of(weak).ring.design.flows.edges["V3"].flow)
    flat = float(boat.study_of({**weak, **level}).ring.design.flows.edges["V3"].flow)
    assert high > flat
