"""An invented steel cutter whose ring meets every check of flow, expansion, heat and temperature.

``finding("flow.burner_min", {"components.B1.flow_min": "30 l/min"})`` asks one check of her with keys
changed; None leaves a key out, a number in the way counts in a list.
"""

from functools import cache
from json import dumps, loads

from dossier.checking.run import limit_of, written_checks
from tests.calculated import Calculated
from tests.written_boat import WrittenBoat

CUTTER = """
format: 1
document: {title: Test, number: T-1, revision: A, date: 2026-11-20, prepared_by: The owner}
defaults: {basis: measured}
vessel: {name: Ruff Sedge, hull: steel, length: 12 m, heel_angles: [10 deg, 20 deg], trim_angles: [1 deg]}
conditions: {outside_air: -8 degC, sea: 3 degC, unheated_start: 2 degC, lay_up_lowest: -12 degC}
zones:
  - {id: saloon, target: 20 degC, volume: 20 m3, people: 1, air_changes: 1 1/h,
     sections: [{name: Shell, u_value: 1.6 W/m2K, area: 30 m2, faces: air}]}
  - {id: cabin, target: 18 degC, volume: 16 m3, people: 1, air_changes: 1 1/h,
     sections: [{name: Shell, u_value: 1.4 W/m2K, area: 20 m2, faces: air}]}
  - {id: heads, target: 20 degC, volume: 4 m3, air_changes: 2 1/h,
     sections: [{name: Shell, u_value: 1.5 W/m2K, area: 6 m2, faces: air}]}
  - {id: engine_room, floats: true, volume: 8 m3, fresh_water: false, air_changes: 1 1/h,
     sections: [{name: Shell, u_value: 3 W/m2K, area: 12 m2, faces: sea}]}
components:
  B1: {kind: burner, output: {max: 5 kW, min: 2 kW}, stages: modulating, efficiency: 82 %, setpoint: 76 degC,
    band: 10 K, sensor: outlet, supply_max: 90 degC, return_min: 40 degC, flow_min: 6 l/min,
    water_volume: 1.5 l, metal: 9 kg, pressure_drop: 6 kPa at 20 l/min, overheat_stat: 98 degC,
    heat_after_stop: 150 kJ, pressure_rating: 2.5 bar, temperature_rating: 110 degC}
  P1: {kind: pump, curve: [[0 l/min, 24 kPa], [6 l/min, 22 kPa], [12 l/min, 17 kPa], [18 l/min, 9 kPa],
    [22 l/min, 0 kPa]], npsh: 15 kPa, speed: 4000 rpm}
  F1: {kind: fan_coil, zone: saloon, air_from: saloon, output: 4 kW,
    at: {water_in: 80 degC, air_in: 18 degC, flow: 9 l/min}, air_flow: 300 m3/h, quiet_air_flow: 200 m3/h,
    start_stat: 42 degC, pressure_drop: 6 kPa at 9 l/min, water_volume: 0.6 l}
  F2: {kind: fan_coil, zone: cabin, air_from: cabin, output: 2.6 kW,
    at: {water_in: 80 degC, air_in: 18 degC, flow: 6 l/min}, air_flow: 170 m3/h, quiet_air_flow: 110 m3/h,
    start_stat: 42 degC, pressure_drop: 4 kPa at 6 l/min, water_volume: 0.5 l}
  R3: {kind: towel_rail, zone: heads, output: 1 kW,
    at: {water_in: 75 degC, water_out: 65 degC, air_in: 20 degC}, exponent: 1.3,
    pressure_drop: 2 kPa at 4 l/min, water_volume: 2 l}
  X1: {kind: tap_exchanger, walls: 2, output: 14 kW, pressure_drop: 4 kPa at 16 l/min, water_volume: 0.4 l,
    at: {primary_in: 75 degC, primary_flow: 16 l/min, tap_in: 10 degC, tap_flow: 5 l/min}}
  T2: {kind: header_tank, volume: 8 l, cold_level: 30 %, cap: vented, sight_glass: true,
    vent: {bore: 16 mm, led_to: catch bottle, valve: none}}
  M1: {kind: manifold, outlets: 4}
  M2: {kind: manifold, outlets: 4}
  V1: {kind: balancing_valve, kv: 1.6 m3/h}
  V2: {kind: balancing_valve, kv: 1.6 m3/h}
  V3: {kind: balancing_valve, kv: 0.8 m3/h}
  V9: {kind: bypass_valve, kv: 2.5 m3/h}
  V11: {kind: air_separator, kv: 10 m3/h}
  V30: {kind: shut_valve, kv: 12 m3/h}
  V31: {kind: shut_valve, kv: 12 m3/h}
  V32: {kind: shut_valve, kv: 12 m3/h}
  V33: {kind: shut_valve, kv: 12 m3/h}
circuit:
  coolant: {base: propylene glycol, share: 40 %, by: volume, inhibitor: {metals: [steel], food_grade: true}}
  system: open
  design_drop: 10 K
  ring:
    - unit: V30
    - unit: P1
    - unit: V31
    - unit: B1
    - pipe: {size: hose 22, length: 1.2 m, bends: 2, route: [[3 m, -1 m, 0.2 m], [4 m, -1 m, 0.35 m]],
        through: engine_room, within_reach: false, support: 400 mm, sleeved: true,
        temperature_rating: 110 degC, pressure_rating: 3 bar}
    - unit: V32
    - unit: X1
    - unit: V33
    - unit: V11
    - pipe: {size: hose 22, length: 1.0 m, bends: 1, route: [[4 m, -1 m, 0.35 m], [5 m, -1 m, 0.4 m]],
        through: engine_room, within_reach: false, support: 400 mm, sleeved: true,
        temperature_rating: 110 degC}
    - between: [M1, M2]
      branches:
        saloon:
          - unit: V1
          - pipe: {size: pex 16x2.0, length: 4.8 m, bends: 5, route: [[5 m, -1 m, 0.4 m], [7 m, 1 m, 0.7 m]],
              within_reach: false, oxygen_tight: true, support: 300 mm, sleeved: true}
          - unit: F1
          - pipe: {size: pex 16x2.0, length: 5.0 m, bends: 5, route: [[7 m, 1 m, 0.7 m], [5 m, -1 m, 0.3 m]],
              vents: [{at: [7 m, 1 m, 0.7 m], kind: manual, reachable: true}], within_reach: false,
              oxygen_tight: true, support: 300 mm, sleeved: true}
        cabin:
          - unit: V2
          - pipe: {size: pex 16x2.0, length: 8.0 m, bends: 6, route: [[5 m, -1 m, 0.4 m], [10 m, 1 m, 0.6 m]],
              within_reach: false, oxygen_tight: true, support: 300 mm, sleeved: true}
          - unit: F2
          - pipe: {size: pex 16x2.0, length: 8.2 m, bends: 6, route: [[10 m, 1 m, 0.6 m], [5 m, -1 m, 0.3 m]],
              vents: [{at: [10 m, 1 m, 0.6 m], kind: manual, reachable: true}], within_reach: false,
              oxygen_tight: true, support: 300 mm, sleeved: true}
        heads:
          - unit: V3
          - pipe: {size: pex 16x2.0, length: 3.0 m, bends: 4, route: [[5 m, -1 m, 0.4 m], [6 m, 1 m, 0.9 m]],
              within_reach: false, oxygen_tight: true, support: 300 mm, sleeved: true}
          - unit: R3
          - pipe: {size: pex 16x2.0, length: 3.2 m, bends: 4, route: [[6 m, 1 m, 0.9 m], [5 m, -1 m, 0.3 m]],
              vents: [{at: [6 m, 1 m, 0.9 m], kind: manual, reachable: true}], within_reach: false,
              oxygen_tight: true, support: 300 mm, sleeved: true}
        bypass: [{unit: V9}]
    - pipe: {size: hose 19, length: 2.2 m, bends: 3, route: [[5 m, -1 m, 0.3 m], [3 m, -1 m, 0.1 m]],
        drains: [[3 m, -1 m, 0.1 m]], through: engine_room, within_reach: false, support: 400 mm,
        sleeved: true, temperature_rating: 110 degC}
  header: {unit: T2, joins_before: B1, valves_to_burner: none}
  fill_connection: none
modes:
  heating: {set: {V9: 0.5 m3/h}}
  night: {set: {V9: 0.5 m3/h}, calls: [cabin], targets: {cabin: 16 degC}}
  tap water only: {open: [V9], shut: [V1, V2, V3], calls: none}
electrics: {system: 24 V, battery: 200 Ah}
layout:
  places:
    B1: {at: [2.8 m, -1.2 m, 0.1 m], size: [0.5 m, 0.3 m, 0.3 m]}
    P1: {at: [2.6 m, -1.2 m, 0.05 m], size: [0.2 m, 0.1 m, 0.1 m]}
    T2: {at: [3.0 m, -0.1 m, 3.0 m], size: [0.25 m, 0.2 m, 0.25 m]}
    V11: {at: [4.2 m, -1.0 m, 0.3 m], size: [0.1 m, 0.1 m, 0.1 m]}
  highest_wetted: {name: R3 vent, at: [6 m, 1 m, 0.9 m]}
"""
RING = {"ring_1": "circuit.ring.4.pipe", "ring_2": "circuit.ring.9.pipe", "ring_3": "circuit.ring.11.pipe"}
BRANCH = "circuit.ring.10.branches"
SEALED = {
    "circuit.system": "sealed",
    "circuit.header": None,
    "circuit.expansion": {"unit": "T3", "joins_before": "B1", "valves_to_burner": "none"},
    "circuit.fill_pressure": "1.1 bar",
    "circuit.gauge": "true",
    "circuit.fill_valve": "true",
    "components.T2": None,
    "components.T3": {
        "kind": "membrane_vessel",
        "volume": "12 l",
        "precharge": "0.8 bar",
        "final": "2.0 bar",
    },
    "components.V8": {
        "kind": "safety_valve",
        "setting": "2.5 bar",
        "capacity": "20 kW",
        "led_to": "catch bottle",
    },
    "layout.places.T2": None,
    "layout.places.T3": {"at": ["3 m", "1 m", "0.3 m"], "size": ["0.3 m", "0.3 m", "0.4 m"]},
}
"""What makes her ring a sealed one."""


HERSELF = WrittenBoat(CUTTER)


def changed(changes, boat=HERSELF):
    """The mapping of her file with dotted keys set, or left out where they are set to None."""
    return boat.mapping(changes)


def project_of(changes=None):
    """Project of the cutter with keys changed."""
    return HERSELF.project(changes)


def study_of(changes=None):
    """All of the cutter that her ring is calculated from, with keys changed."""
    return _study(dumps(changes or {}))


@cache
def _study(changes):
    return study_of_project(project_of(loads(changes)))


def study_of_project(project):
    """All that follows for a project, each part when it is asked for."""
    return Calculated(project)


def finding(check, changes=None):
    """Finding of one check for the cutter with keys changed."""
    return finding_in(study_of(changes), check)


def finding_in(study, check):
    """Finding of one check in a study."""
    return written_checks()[check](study, limit_of(study, check))
