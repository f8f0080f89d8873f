"""An invented steel cutter whose hot water, engine heat and shell meet every check, to be changed key by key.

``finding(check, {"tap_water.mixing_valve": "49 degC"})`` asks one check of her; None leaves a key out, a
number in the way counts in a list.
"""

from functools import cache
from json import dumps, loads

from dossier.checking import moisture as moisture_checks
from dossier.checking import recovery as recovery_checks
from dossier.checking import tap_water as tap_checks
from dossier.checking.run import limit_of
from tests.calculated import Calculated
from tests.written_boat import WrittenBoat

CHECKS = {"tap_water": tap_checks, "recovery": recovery_checks, "moisture": moisture_checks}
CUTTER = """
format: 1
document: {title: Test, number: T-1, revision: A, date: 2026-11-20, prepared_by: The owner}
defaults: {basis: measured}
vessel: {name: Teal Sedge, hull: steel, length: 12 m}
conditions:
  outside_air: -8 degC
  sea: 3 degC
  wind: 4 m/s
  humidity_inside: 50 %
  unheated_start: 2 degC
  months: [{month: 1, outside_air: 2 degC, sea: 5 degC}, {month: 4, outside_air: 8 degC, sea: 7 degC},
    {month: 7, outside_air: 17 degC, sea: 16 degC}, {month: 10, outside_air: 10 degC, sea: 12 degC}]
build_ups:
  planking:
    layers: [{material: oak, thickness: 50 mm}, {material: eps, thickness: 100 mm},
      {material: epoxy_laminate, thickness: 4 mm}]
    frames: {material: oak, spacing: 500 mm, web: 50 mm, depth: 60 mm, flange: 60 mm,
      covered_by: [{material: eps, thickness: 40 mm}, {material: plywood, thickness: 9 mm}]}
zones:
  - {id: saloon, target: 20 degC, volume: 20 m3, air_changes: 1 1/h, sections: [
      {name: Sides, build_up: planking, area: 20 m2, faces: air},
      {name: Windows, glazing: single 6 mm, area: 2 m2, faces: air}]}
  - {id: engine_room, floats: true, volume: 8 m3, sections: [
      {name: Shell, u_value: 3 W/m2K, area: 10 m2, faces: sea}]}
components:
  B1: {kind: burner, output: {max: 12 kW, min: 12 kW}, stages: 1, efficiency: 80 %, setpoint: 80 degC,
    band: 10 K, sensor: outlet, start_time: 60 s, pressure_drop: 5 kPa at 16 l/min, water_volume: 1 l,
    supply_max: 90 degC}
  P1: {kind: pump, curve: [[0 l/min, 40 kPa], [16 l/min, 25 kPa], [30 l/min, 0 kPa]],
    runs_without_burner: true}
  F1: {kind: fan_coil, zone: saloon, air_from: saloon, output: 3 kW,
    at: {water_in: 80 degC, air_in: 18 degC, flow: 8 l/min}, air_flow: 200 m3/h,
    pressure_drop: 5 kPa at 8 l/min, start_stat: 40 degC}
  X1: {kind: tap_exchanger, walls: 1, output: 20 kW, wetted: [copper],
    at: {primary_in: 75 degC, primary_flow: 16 l/min, tap_in: 10 degC, tap_flow: 7 l/min},
    pressure_drop: 4 kPa at 16 l/min}
  X2: {kind: recovery_exchanger, serves: G1, engine_side: jacket, engine_valves: 2, vented: false,
    output: 9 kW, at: {engine_in: 82 degC, engine_flow: 18 l/min, ring_in: 60 degC, ring_flow: 18 l/min},
    pressure_drop: 4 kPa at 18 l/min}
  G1: {kind: generator, jacket_heat: 7 kW, thermostat: 60 degC, jacket_highest: 85 degC, own_cooler: true,
    filler_level: 0.6 m, cap_pressure: 0.9 bar, hours_per_day: 3}
  T1: {kind: buffer, volume: 60 l}
  T2: {kind: header_tank, volume: 8 l, cold_level: 30 %, cap: vented, low_level_alarm: true}
  M1: {kind: manifold}
  M2: {kind: manifold}
  V1: {kind: balancing_valve, kv: 1.6 m3/h}
  V9: {kind: bypass_valve, kv: 2.5 m3/h}
circuit:
  coolant: {base: propylene glycol, share: 40 %, inhibitor: {metals: [steel], food_grade: true}}
  system: open
  ring:
    - unit: P1
    - unit: X2
    - unit: B1
    - pipe: {size: hose 22, length: 2 m, bends: 2, through: engine_room}
    - unit: X1
    - between: [M1, M2]
      branches:
        saloon: [{unit: V1}, {pipe: {size: pex 16x2.0, length: 4 m, bends: 4}}, {unit: F1}]
        bypass: [{unit: V9}]
    - pipe: {size: hose 22, length: 2 m, bends: 2, through: engine_room}
    - unit: T1
  header: {unit: T2, joins_before: P1, valves_to_burner: none}
  fill_connection: none
modes:
  heating: {set: {V9: 0.6 m3/h}}
  tap only: {open: [V9], shut: [V1], calls: none}
  generator running: {set: {V9: 0.6 m3/h}, stopped: [B1], recovering: [X2]}
tap_water: {cold: {winter: 4 degC, summer: 18 degC}, at_tap: 40 degC, shower_flow: 5 l/min, shower: 6 min,
  tank: 400 l, mixing_valve: 45 degC, outlets: [shower, galley], hardness: 1 mmol/l, chloride: 50 mg/l,
  check_valve: true, accumulator: true}
layout:
  places:
    P1: {at: [3 m, -1 m, 0.0 m], size: [0.2 m, 0.2 m, 0.2 m]}
    B1: {at: [2 m, -1 m, 0.0 m], size: [0.5 m, 0.3 m, 0.3 m]}
    X2: {at: [2 m, 0 m, 0.0 m], size: [0.3 m, 0.2 m, 0.4 m]}
    T2: {at: [2 m, 0 m, 2.0 m], size: [0.2 m, 0.2 m, 0.3 m]}
"""
HEATER = {
    "components.X1": {
        "kind": "water_heater",
        "walls": "2",
        "volume": "60 l",
        "setpoint": "65 degC",
        "output": "10 kW",
        "at": {
            "primary_in": "75 degC",
            "primary_flow": "12 l/min",
            "tap_in": "10 degC",
            "tap_flow": "4 l/min",
        },
        "pressure_drop": "4 kPa at 16 l/min",
        "relief_valve": {"setting": "6 bar", "led_to": "bilge well"},
    }
}
"""A heater with a store in the place of the plate exchanger."""
BARE = {
    "circuit": None,
    "modes": None,
    "components": {"B1": {"kind": "burner", "output": {"max": "5 kW"}}},
    "tap_water": None,
    "layout": None,
}
"""Nothing is said of a circuit, of tap water or of engines."""
WITHOUT_HEAT_FROM_TAP_OR_ENGINE = {
    "circuit.ring": [{"unit": "P1"}, {"pipe": {"size": "hose 22", "length": "2 m"}}],
    "components": {"P1": {"kind": "pump", "curve": [["0 l/min", "30 kPa"], ["20 l/min", "0 kPa"]]}},
    "circuit.header": None,
    "modes": None,
    "layout": None,
}
"""A circuit that is written out and holds no more than a pump."""


HERSELF = WrittenBoat(CUTTER)


def project_of(changes=None):
    """Project of the cutter with keys changed."""
    return HERSELF.project(changes)


def study_of(changes=None):
    """All of the boat that hot water, engine heat and moisture ask for, with keys changed."""
    return _study(dumps(changes or {}))


@cache
def _study(changes):
    return study_of_project(project_of(loads(changes)))


def study_of_project(project):
    """All that follows for a project, each part when it is asked for."""
    return Calculated(project)


def finding(check, changes=None):
    """Finding of one check, as ``tap_water.wall``, for the boat with keys changed."""
    return finding_in(study_of(changes), check)


def finding_in(study, check):
    """Finding of one check in a study."""
    group, _, name = check.partition(".")
    return getattr(CHECKS[group], name)(study, limit_of(study, check))
