"""An invented steel cutter, written out to the last key: every check of her groups is met.

``finding(check, {"fuel.lift": "1.01 m"})`` asks one check of her with keys changed; None leaves a key out, a
number in the way counts in a list (``electrics.circuits.0.fuse``).
"""

from functools import cache

from dossier.checking.run import limit_of, written_checks
from dossier.notation import NotAssessed
from dossier.sizing.circuit import circuit
from dossier.sizing.coolant import coolant_study
from dossier.sizing.electrics import electrics
from dossier.sizing.fuel import fuel
from dossier.sizing.header_margins import header_margins
from dossier.sizing.heat_loss import heat_loss
from dossier.sizing.masses import masses
from dossier.sizing.placement import placement
from tests.calculated import Partly
from tests.written_boat import WrittenBoat

BURNER_SHARE, STARTS = 0.5, 24.0
"""What the burner does on her design day."""

CUTTER = """
format: 1
document: {title: Test, number: T-1, revision: B, date: 2026-11-20, prepared_by: The owner,
  approved_by: The surveyor, status_wished: as built, local_rules: ["Harbour: no discharge."],
  revisions: [{mark: A, date: 2026-09-02, by: The owner, what: First issue},
    {mark: B, date: 2026-11-20, by: The owner, what: As built}]}
defaults: {basis: measured}
vessel: {name: Curlew Sedge, hull: steel, length: 12 m, heel_angles: [10 deg, 20 deg], trim_angles: [1 deg],
  moment_per_degree: 1.0 kN*m, moment_per_cm_trim: 0.8 kN*m}
conditions: {outside_air: -8 degC, sea: 3 degC, lay_up_lowest: -12 degC}
zones:
  - {id: saloon, target: 20 degC, volume: 20 m3, people: 2, berths: 2, air_changes: 1 1/h,
     sections: [{name: Shell, u_value: 1.5 W/m2K, area: 30 m2, faces: air}]}
  - {id: engine_room, floats: true, volume: 8 m3, berths: 0, air_changes: 1 1/h,
     sections: [{name: Shell, u_value: 3 W/m2K, area: 12 m2, faces: sea},
       {name: Fore bulkhead, u_value: 2 W/m2K, area: 4 m2, faces: {zone: saloon}}]}
components:
  B1: {kind: burner, output: {max: 4 kW, min: 1.5 kW}, efficiency: 80 %, overheat_stat: 95 degC,
    flame_sensor: true, start_time: 90 s, current: {start: 10 A, run: 2 A}, voltage_max: 30 V,
    exhaust_outlet: 30 mm, mass: 14 kg, fixing: bolted, wetted: [aluminium], basis: plate}
  P1: {kind: pump, curve: [[0 l/min, 30 kPa], [10 l/min, 20 kPa], [20 l/min, 0 kPa]], power: 24 W,
    voltage_max: 32 V, wetted: [stainless steel], basis: plate}
  F1: {kind: fan_coil, zone: saloon, air_from: saloon, output: 3 kW,
    at: {water_in: 80 degC, air_in: 18 degC, flow: 8 l/min}, air_flow: 230 m3/h, power: 12 W,
    voltage_max: 32 V, water_volume: 0.5 l, mass: 5 kg, wetted: [copper], basis: plate}
  T2: {kind: header_tank, volume: 6 l, cold_level: 30 %, cap: vented, mass: 2 kg}
  V20: {kind: fuel_shut_off, at_tank: true, operated_from: saloon step}
  V21: {kind: fuel_shut_off, at_tank: false, where: engine room}
  Q1: {kind: isolator, where: saloon console}
  K1: {kind: battery}
  K2: {kind: fuel_tank}
  K3: {kind: fuel_filter}
circuit:
  coolant: {base: propylene glycol, share: 40 %, by: volume,
    inhibitor: {metals: [aluminium, steel, copper], food_grade: true}}
  system: open
  ring: [{unit: P1}, {unit: B1}, {pipe: {size: hose 19, length: 2 m}}, {unit: F1},
    {pipe: {size: hose 19, length: 2 m}}]
  header: {unit: T2, joins_before: P1, valves_to_burner: none}
exhaust:
  bore: 30 mm
  lagging: {thickness: 30 mm, conductivity: 0.06 W/m/K, extent: whole}
  route: [[2.5 m, -1.0 m, 0.4 m], [2.5 m, -1.0 m, 1.2 m], [2.5 m, -2.0 m, 1.1 m]]
  passes: [{bulkhead: hull side, hole: 150 mm, material: steel, thickness: 5 mm, sleeve: true}]
  hull_fitting: {kind: double wall, material: stainless steel, isolated: true}
fuel: {tank: 300 l, usable: 80 %, tank_in: saloon, tank_top: -0.30 m, lift: 0.6 m,
  line: {bore: 4 mm, suction: 1.0 m, length: 3.0 m, material: copper, support: 250 mm,
    route: [[5.0 m, 1.0 m, 0.0 m], [3.5 m, 0.5 m, 0.1 m], [2.9 m, -0.8 m, 0.1 m]]},
  pick_up: {heating: 120 mm, engine: 40 mm}, reserve_for_engine: 60 l, shut_off: V20, shut_off_space: V21,
  anti_siphon: true, cfpp: -20 degC, vent: {led_to: coaming, flame_screen: true}, days_wanted: 10}
electrics:
  system: 24 V
  battery: 300 Ah
  usable: 50 %
  other_loads: 20 Ah
  battery_resistance: 6 mohm
  lowest_voltage: 23.5 V
  charge_highest: 29 V
  circuits:
    - {name: burner, feeds: [B1, P1], length: 4 m, section: 6 mm2, fuse: 20 A, fuse_distance: 150 mm,
      sheathed: false, start: 11 A, run: 3 A, insulation: 105 degC, engine_space: true, bundled: 2,
      two_wire: true, fed_before_main_switch: true, isolator: Q1, cut_out: none, vital: false}
    - {name: fans, feeds: [F1], length: 6 m, section: 2.5 mm2, fuse: 5 A, fuse_distance: 150 mm,
      sheathed: false, start: 0.5 A, run: 0.5 A, insulation: 105 degC, engine_space: false, bundled: 2,
      two_wire: true, fed_before_main_switch: false, isolator: none, cut_out: none, vital: true}
layout:
  compartments:
    engine_room: {from: [1.0 m, -2.2 m, -0.8 m], to: [4.0 m, 2.2 m, 1.5 m], stowage: true, guard: true}
    saloon: {from: [4.0 m, -2.2 m, -0.8 m], to: [8.0 m, 2.2 m, 2.2 m]}
  places:
    B1: {at: [2.3 m, -1.15 m, 0.0 m], size: [0.5 m, 0.3 m, 0.3 m], keep_free: {port: 300 mm, top: 150 mm}}
    P1: {at: [3.2 m, -1.2 m, 0.0 m], size: [0.2 m, 0.15 m, 0.15 m]}
    F1: {at: [4.5 m, 1.0 m, 0.0 m], size: [0.4 m, 0.3 m, 0.4 m]}
    T2: {at: [4.2 m, -0.1 m, 1.6 m], size: [0.25 m, 0.2 m, 0.25 m]}
    K1: {at: [1.2 m, 1.5 m, -0.5 m], size: [0.5 m, 0.4 m, 0.3 m]}
    K2: {at: [5.0 m, 1.0 m, -0.7 m], size: [1.0 m, 0.6 m, 0.4 m]}
    K3: {at: [3.6 m, 1.0 m, 0.0 m], size: [0.1 m, 0.1 m, 0.2 m]}
  highest_wetted: {name: F1 vent, at: [4.6 m, 1.2 m, 0.5 m]}
  flooding_level: -0.60 m
  reached_without_tools: [V20, Q1, T2]
clearances: {exhaust_run: 70 mm, burner: 150 mm, hot_to_fuel: 600 mm, fuel_screen: false}
safety:
  co_alarms: [{at: saloon, replace_by: 2033-06, tested: 2026-11-01, from_source: 2 m, standard: EN 50291-2}]
  stop: {at: saloon console, reach: on the way out}
  extinguishers: [{at: saloon step, size: 2 kg, from_entry: 1.5 m, replace_by: 2031-01}]
  fire_port: {at: saloon sole, bore: 50 mm}
  smoke_alarms: [{at: saloon, replace_by: 2033-06}]
  fixed_system: {stops_burner: true}
  signs: [stop, fuel shut-off, isolator, header, exhaust, co alarm]
commissioning:
  date: 2026-11-10
  coolant: {share: 39 %, pH: 8.2}
  exhaust_leak: {cold: none, hot: none}
  co: {outside: 1 ppm, highest_inside: 1 ppm}
  overheat: {trips_at: 94 degC, hand_reset: true}
  tags_seen: [B1, P1, F1, T2, V20, V21, Q1, K1, K2, K3]
  signed: {H1: yes, H2: yes, H3: yes, H4: yes, H5: yes, H6: yes, H7: yes, H8: yes}
records:
  service: [{date: 2026-09-01, hours: 100 h, by: The technician, what: nozzle and seals}]
deviations:
  - {check: clearance.service, found: "60 mm", reason: floor beam, instead: slides out on a tray,
    by: The owner, with: The surveyor, date: 2026-11-05, until: 2031-11-05}
"""
NO_BURNER = {
    "components": {"P1": {"kind": "pump", "curve": [["0 l/min", "30 kPa"], ["20 l/min", "0 kPa"]]}},
    "circuit": {"ring": [{"unit": "P1"}]},
    **dict.fromkeys(["fuel", "electrics", "layout", "exhaust", "deviations", "commissioning", "records"]),
}
"""The same boat with a circuit that holds no more than a pump."""


def changed(text, changes):
    """The mapping of a file with dotted keys set, or left out where they are set to None."""
    return _boat(text).mapping(changes)


_boat = cache(WrittenBoat)


def project_of(changes=None, text=CUTTER):
    """The project with keys changed, read as from its file."""
    return _boat(text).project(changes)


def _coolant(study):
    return coolant_study(study.project, circuit(study.project))


def _fuel(study):
    loss = study.heat_loss
    return fuel(study.project, None if isinstance(loss, NotAssessed) else loss.total)


def _masses(study):
    mix = study.coolant
    return masses(
        study.project, None if isinstance(mix, NotAssessed) else {c.tag: c.volume for c in mix.contents}
    )


def _placement(study):
    project = study.project
    return placement(project, project.exhaust.route if project.exhaust else None)


MADE = {
    "heat_loss": lambda study: heat_loss(study.project),
    "coolant": _coolant,
    "fuel": _fuel,
    "electrics": lambda study: electrics(study.project, BURNER_SHARE, STARTS),
    "placement": _placement,
    "header_margins": lambda study: header_margins(study.project),
    "masses": _masses,
}


def study_of(changes=None, text=CUTTER, **others):
    """Study of the boat; flows and temperatures of the ring, which no check here asks for, are left out."""
    return Partly(project_of(changes, text), MADE, **others)


def finding(check, changes=None, text=CUTTER, **others):
    """Finding of one check for the boat with keys changed."""
    study = study_of(changes, text, **others)
    return written_checks()[check](study, limit_of(study, check))
