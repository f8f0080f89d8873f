"""Rooms that the emitters cannot hold, their neighbours, and the circuit that goes with them.

The answer must balance: in every room that falls short, what emitters and pipes give is what the room loses
at the temperature found; and a single room settles where two straight lines meet.
"""

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from dossier.notation import NotAssessed
from dossier.sizing.held import _Rooms


def _beside(name):
    if name not in sys.modules:
        spec = spec_from_file_location(name, Path(__file__).parents[1] / f"{name}.py")
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


boat = _beside("ring_boat")
WEAK = {"components.F1.output": "1.4 kW", "components.F1.air_flow": "150 m3/h"}
BULKHEAD = {
    "zones.0.sections": [
        {"name": "Shell", "u_value": "1.6 W/m2K", "area": "30 m2", "faces": "air"},
        {"name": "Bulkhead", "u_value": "2 W/m2K", "area": "5 m2", "faces": {"zone": "cabin"}},
        {"name": "Aft", "u_value": "2 W/m2K", "area": "4 m2", "faces": {"zone": "engine_room"}},
    ]
}


def held(changes=None):
    return boat.study_of(changes).held


def settled(changes):
    """The rooms with the circuit as it is in the end."""
    study = boat.study_of(changes)
    rooms = _Rooms(study.heat_loss, study.ring, study.ring.design)
    return rooms.settled(), rooms, study


def loss_of(study, rooms, zone):
    """Heat that leaves a zone at the temperatures found (W), path by path."""
    total = 0.0
    for path in study.heat_loss.paths:
        beyond = rooms.at[path.beyond] if isinstance(path.beyond, str) else float(path.beyond)
        if path.zone == zone:
            total += float(path.conductance) * (rooms.at[zone] - beyond)
        elif path.beyond == zone:
            total += float(path.conductance) * (rooms.at[zone] - rooms.at[path.zone])
    return total


def given_to(rooms, zone, *, beside):
    """Heat of the emitters and pipes of a zone; of the pipes beside it where its thermostat counts them."""
    heat = rooms.outcome.temperatures.heat
    given = sum(heat[tag] for tag, model in rooms.setting.emitters.items() if model.zone == zone)
    zones = {tag: {p.through, p.beside if beside else ""} for tag, p in rooms.setting.pipes.items()}
    return given + sum(heat[tag] for tag in zones if zone in zones[tag])


def test_rooms_whose_emitters_suffice_stay_at_their_target():
    found = held()
    assert {zone: round(float(room.temperature) - 273.15, 6) for zone, room in found.rooms.items()} == {
        "saloon": 20,
        "cabin": 18,
        "heads": 20,
    }
    assert not any(room.falls_short for room in found.rooms.values())


def test_a_room_alone_settles_where_two_lines_meet():
    """H·(θ − θ_e) of the room and G·(θ_V − θ) of its coil: θ = (G·θ_V + H·θ_e)/(G + H)."""
    found, rooms, study = settled(WEAK)
    room = float(found.rooms["saloon"].temperature)
    heat = rooms.outcome.temperatures
    each = heat.heat["F1"] / (heat.inlet["F1"] - room)
    loss = sum(float(p.conductance) for p in study.heat_loss.paths if p.zone == "saloon")
    outside = float(study.heat_loss.outside_air)
    assert room == pytest.approx((each * heat.inlet["F1"] + loss * outside) / (each + loss), abs=1e-3)
    assert found.rooms["saloon"].falls_short
    assert room < 293.15


def test_in_a_room_that_falls_short_heat_given_is_heat_lost():
    _, rooms, study = settled({**WEAK, **BULKHEAD})
    assert given_to(rooms, "saloon", beside=False) == pytest.approx(loss_of(study, rooms, "saloon"), rel=1e-4)
    assert given_to(rooms, "cabin", beside=True) == pytest.approx(loss_of(study, rooms, "cabin"), rel=1e-3)


def test_the_neighbour_of_a_cold_room_needs_more():
    _, rooms, study = settled({**WEAK, **BULKHEAD})
    assert rooms.loads["cabin"] > float(study.heat_loss.zones["cabin"].load) + 10
    assert rooms.outcome.temperatures.heat["F2"] > study.ring.design.outcome.temperatures.heat["F2"] + 10


def test_an_unheated_neighbour_follows_and_the_pipes_warm_it():
    warm, cold = held(BULKHEAD), held({**WEAK, **BULKHEAD})
    assert float(cold.beside["engine_room"]) < float(warm.beside["engine_room"]) - 0.1
    floating = boat.study_of(BULKHEAD).heat_loss.zones["engine_room"].temperature
    assert float(warm.beside["engine_room"]) > float(floating) + 0.2


def test_a_burner_too_small_leaves_all_rooms_cold_and_gives_all_it_has():
    found, rooms, study = settled({"components.B1.output": {"max": "1.6 kW", "min": "1 kW"}})
    assert all(room.falls_short for room in found.rooms.values())
    lost = sum(loss_of(study, rooms, zone) for zone in ("saloon", "cabin", "heads"))
    pipes = sum(
        rooms.outcome.temperatures.heat[tag]
        for tag, pipe in rooms.setting.pipes.items()
        if pipe.through not in {"saloon", "cabin", "heads"}
    )
    assert lost + pipes == pytest.approx(1600, rel=1e-3)


def test_a_zone_that_calls_without_an_emitter_grows_cold():
    found = held({"components.R3.zone": "cabin"})
    assert found.rooms["heads"].falls_short
    outside = float(boat.study_of().heat_loss.outside_air)
    assert float(found.rooms["heads"].temperature) == pytest.approx(outside, abs=0.5)


def test_rooms_wait_for_their_circuit():
    assert isinstance(held({"components.P1.curve": None}), NotAssessed)
    assert isinstance(held({"conditions.outside_air": None}), NotAssessed)
    found = held({"components.P1.curve": [["0 l/min", "24 kPa"], ["1 l/min", "23 kPa"]]})
    assert "beyond the last point" in found.why
    assert isinstance(held({"components.B1.output": None}), NotAssessed)
