"""An invented wooden ketch whose exhaust and air meet every check, to be changed key by key."""

from functools import cache

from dossier.checking.run import limit_of, written_checks
from dossier.sizing.combustion_air import combustion_air
from dossier.sizing.exhaust import exhaust
from dossier.sizing.exhaust_candidates import candidates
from dossier.sizing.heat_loss import heat_loss
from tests.calculated import Partly
from tests.written_boat import WrittenBoat

KETCH = """
format: 1
document: {title: Test, number: T-1, revision: A, date: 2026-11-20, prepared_by: The owner}
vessel: {name: Reed Bunting, hull: wood, length: 12 m, heel_angles: [10 deg, 20 deg], trim_angles: [1 deg],
  goes_to_sea: true}
conditions: {outside_air: -5 degC, sea: 4 degC, wind: 8 m/s}
zones:
  - {id: saloon, target: 20 degC, volume: 20 m3, berths: 2,
     sections: [{name: Shell, u_value: 1.5 W/m2K, area: 30 m2, faces: air}]}
  - {id: engine_room, floats: true, volume: 8 m3,
     sections: [{name: Shell, u_value: 3 W/m2K, area: 12 m2, faces: air}]}
components:
  B1: {kind: burner, output: {max: 8 kW}, efficiency: 82 %, exhaust_outlet: 30 mm, air_opening: 100 cm2,
    space_max: 55 degC, back_pressure_max: 400 Pa}
  E1: {kind: engine, air_flow: 200 m3/h}
  F1: {kind: fan_coil, zone: saloon, air_from: saloon}
exhaust:
  bore: 30 mm
  gas_temperature: 350 degC
  lagging: {thickness: 40 mm, conductivity: 0.06 W/m/K, extent: whole}
  route: [[3.0 m, -1.0 m, 0.5 m], [3.0 m, -1.0 m, 1.3 m], [2.0 m, -1.4 m, 1.4 m], [1.8 m, -1.6 m, 1.2 m]]
  drains: [{at: [3.0 m, -1.0 m, 0.5 m], led_to: overboard}]
  joints: 2
  silencer: none
  passes: [{bulkhead: hull side, hole: 175 mm, material: oak, thickness: 50 mm, sleeve: true,
    closing: mineral packing}]
  hull_fitting: {kind: double wall, material: stainless steel, bore: 30 mm}
combustion_air: {from: engine_room, opening: 150 cm2, at: [3.0 m, 1.5 m, 1.6 m], engine_opening: 600 cm2,
  fans: []}
layout:
  compartments:
    engine_room: {from: [1.5 m, -2.0 m, -0.8 m], to: [4.0 m, 2.0 m, 1.8 m], holds: [diesel engine],
      sealed: true}
    saloon: {from: [4.0 m, -2.0 m, -0.5 m], to: [8.0 m, 2.0 m, 1.8 m]}
  canopies: []
  places:
    B1: {at: [2.8 m, -1.2 m, 0.1 m], size: [0.5 m, 0.3 m, 0.3 m]}
    F1: {at: [4.2 m, 1.0 m, 0.0 m], size: [0.4 m, 0.3 m, 0.4 m]}
  openings_complete: true
  openings:
    - {name: Saloon hatch, kind: hatch, at: [6.0 m, 0.0 m, 1.9 m]}
    - {name: Ventilator, kind: ventilator, at: [3.0 m, 1.5 m, 1.6 m]}
    - {name: Filler, kind: fuel, at: [4.0 m, -1.9 m, 1.3 m]}
    - {name: Boarding gate, kind: boarding, at: [5.0 m, -1.9 m, 1.3 m]}
clearances: {exhaust_run: 70 mm, hot_to_fuel: 500 mm}
commissioning: {surface: {compartment_air: 40 degC}}
"""
CIRCUIT_WITHOUT = {
    "components.P1": {"kind": "pump", "curve": [["0 l/min", "30 kPa"], ["20 l/min", "0 kPa"]]},
    "circuit": {"ring": [{"unit": "P1"}]},
}
"""A circuit that is written out and holds no more than a pump."""


def changed(text, changes):
    """The mapping of a file with dotted keys set, or left out where they are set to None."""
    return _boat(text).mapping(changes)


_boat = cache(WrittenBoat)


def project_of(changes=None, text=KETCH):
    return _boat(text).project(changes)


MADE = {
    "heat_loss": lambda study: heat_loss(study.project),
    "exhaust": lambda study: exhaust(study.project, study.heat_loss),
    "candidates": lambda study: candidates(study.project, study.heat_loss),
    "air": lambda study: combustion_air(study.project, study.exhaust),
}


def study_of(changes=None, text=KETCH):
    """Study of the boat with keys changed; what neither exhaust nor air ask for is not calculated."""
    return Partly(project_of(changes, text), MADE)


def finding(check, changes=None, text=KETCH):
    """Finding of one check for the boat with keys changed."""
    study = study_of(changes, text)
    return written_checks()[check](study, limit_of(study, check))
