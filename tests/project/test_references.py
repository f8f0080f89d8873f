"""Every reference is followed; names are unique, also as results write them."""

import pytest

HEAD = """
zones:
  - {id: saloon, target: 20 degC, sections: [{name: Side, u_value: 2 W/m2K, area: 5 m2, faces: air}]}
  - {id: engine_room, floats: true}
components:
  B1: {kind: burner}
  P1: {kind: pump}
  V1: {kind: balancing_valve}
  V20: {kind: fuel_shut_off}
  G1: {kind: generator}
build_ups: {side: {layers: [{material: steel, thickness: 5 mm}]}}
"""


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("modes: {heating: {calls: [salon]}}", "calls: no zone is called 'salon'; write saloon"),
        ("modes: {heating: {targets: {salon: 16 degC}}}", "targets: no zone is called 'salon'; write saloon"),
        ("modes: {heating: {set: {V9: 1 m3/h}}}", "set: no component is called 'V9'"),
        (
            "modes: {heating: {shut: [B1]}}",
            "shut: B1 is a burner, not a balancing valve or bypass valve or shut valve; write V1",
        ),
        (
            "modes: {heating: {recovering: [P1]}}",
            "recovering: P1 is a pump, not a recovery exchanger; add a component",
        ),
        (
            "modes: {heating: {reverse_allowed: [ring_9]}}",
            "reverse_allowed: no component or pipe is called 'ring_9'",
        ),
        ("fuel: {shut_off: V1}", "shut_off: V1 is a balancing valve, not a fuel shut off; write V20"),
        ("fuel: {tank_in: engine}", "tank_in: no zone or compartment is called 'engine'"),
        (
            "combustion_air: {from: engineroom}",
            "from: no zone or compartment is called 'engineroom'; write engine_room",
        ),
        ("electrics: {circuits: [{name: a, feeds: [B2]}]}", "feeds: no component is called 'B2'"),
        ("safety: {co_alarms: [{at: saloons}]}", "at: no zone is called 'saloons'; write saloon"),
        (
            "pictures: []\ndeviations: [{check: exhaust.lenght}]",
            "check: no check is called 'exhaust.lenght'; write exhaust.length",
        ),
        (
            "limits: {exhaust.lenght: {at_most: 2 m, source: maker}}",
            "limits: no check is called 'exhaust.lenght'; write exhaust.length",
        ),
        (
            "layout: {reached_without_tools: [V21]}",
            "reached_without_tools: no component or place is called 'V21'",
        ),
        ("commissioning: {flows: {V2: 3 l/min}}", "flows: no component or pipe or branch is called 'V2'"),
        (
            "circuit: {ring: [{unit: B1}, {pipe: {size: hoos 19, length: 1 m}}]}",
            "size: no size of pipe is called 'hoos 19'; write hose 19",
        ),
        (
            "circuit: {ring: [{unit: B1}], header: {joins_before: P1}}",
            "joins_before: P1 stands nowhere in the circuit",
        ),
        (
            "circuit: {ring: [{unit: B1}], header: {unit: B1}}",
            "unit: B1 is a burner, not a header tank or membrane vessel",
        ),
        (
            "circuit: {ring: [{unit: B1}, {pipe: {size: hose 19, length: 1 m, through: cabin}}]}",
            "through: no zone or compartment",
        ),
        (
            "materials: {}\nexhaust: {passes: [{bulkhead: a, material: plywod}]}",
            "material: no material is called 'plywod'; write plywood",
        ),
    ],
)
def test_a_reference_that_leads_nowhere(desk, text, said):
    assert desk.fault(HEAD + text + "\n").startswith(said)


@pytest.mark.parametrize(
    "text",
    [
        "modes: {heating: {calls: [saloon], set: {V1: 1 m3/h}, stopped: [B1]}}",
        "fuel: {shut_off: V20, tank_in: engine_room}",
        "combustion_air: {from: outside}",
        (
            "layout: {reached_without_tools: [V20, the stop switch], compartments: {locker: {}}}\n"
            "fuel: {tank_in: locker}"
        ),
        (
            "circuit: {ring: [{unit: B1}, {pipe: {size: hose 19, length: 1 m}}]}\n"
            "modes: {heating: {reverse_allowed: [ring_1]}}"
        ),
        "limits: {exhaust.length: {at_most: 2.5 m, source: a}, store.run_time: {at_least: 6 min, source: a}}",
        "materials: {cork: {conductivity: 0.045 W/m/K}}",
    ],
)
def test_references_that_lead_somewhere(desk, text):
    assert not desk.read(HEAD + text + "\n").warnings


def test_a_limit_is_read_in_the_unit_of_its_check(desk):
    limits = desk.read(
        """
        limits:
          exhaust.length: {at_most: 98 in, source: maker}
          exhaust.bends: {at_most: 360 deg, source: maker}
          temperature.supply_max: {at_most: 85 degC, source: maker}
          heat.source_reserve: {at_least: 1.2, source: owner}
        """
    ).limits
    assert limits["exhaust.length"].at_most == pytest.approx(2.4892)
    assert limits["exhaust.bends"].at_most == pytest.approx(6.283185307)
    assert limits["temperature.supply_max"].at_most == pytest.approx(358.15)
    assert limits["heat.source_reserve"].at_least == 1.2
    assert limits["exhaust.length"].check == "exhaust.length"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "limits: {exhaust.length: {at_most: 2.5, source: maker}}",
            "at_most needs a unit such as m, found '2.5'",
        ),
        ("limits: {exhaust.length: {at_most: 2.5 kW, source: maker}}", "at_most is a length, found '2.5 kW'"),
        ("limits: {exhaust.length: {source: maker}}", "the limit has no figure"),
    ],
)
def test_a_limit_that_does_not_fit_its_check(desk, text, said):
    assert desk.fault(text + "\n").startswith(said)


def test_a_limit_without_source_is_doubted(desk):
    assert (
        desk.read("limits: {exhaust.length: {at_most: 2.5 m}}\n").warnings[0].what
        == "the limit has no source"
    )


SECTION = "{name: S, u_value: 1 W/m2K, area: 1 m2}"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "zones: [{id: a, floats: true}, {id: a, floats: true}]",
            "the name 'a' is given twice; rename one zone",
        ),
        (
            "zones: [{id: fore cabin, floats: true}, {id: fore_cabin, floats: true}]",
            "the names 'fore cabin' and 'fore_cabin' become one in the results; rename one zone",
        ),
        (
            f"zones: [{{id: a, floats: true, sections: [{SECTION}, {SECTION}]}}]",
            "the name 'S' is given twice",
        ),
        (
            "modes: {tap water only: {}, tap_water_only: {}}",
            "the names 'tap water only' and 'tap_water_only' become one",
        ),
        ("modes: {cold_start: {}}", "cold_start is a mode of our own"),
        ("modes: {'---': {}}", "mode '---' has no letter or digit"),
        (
            "layout: {openings: [{name: Hatch}, {name: Hatch}]}",
            "the name 'Hatch' is given twice; rename one opening",
        ),
        (
            "electrics: {circuits: [{name: fans}, {name: fans}]}",
            "the name 'fans' is given twice; rename one circuit",
        ),
        ("exhaust: {passes: [{bulkhead: a b}, {bulkhead: a-b}]}", "the names 'a b' and 'a-b' become one"),
        ("conditions: {months: [{month: 1}, {month: 1}]}", "the name '1' is given twice; rename one month"),
        (
            "components: {V-1: {kind: isolator}, V_1: {kind: isolator}}",
            "the names 'V-1' and 'V_1' become one",
        ),
        ("modes: {" + "x" * 90 + ": {}}", "the name 'xxxxxxxxxxxxxxxxxxxxxxxxxxxxx…' is too long"),
    ],
)
def test_names_are_unique_in_their_list_and_in_the_results(desk, text, said):
    assert desk.fault(text + "\n").startswith(said)


def test_one_cause_is_one_fault(desk):
    """A misspelt id is not also missed where the zone is named."""
    text = """
    zones:
      - {idd: saloon, floats: true}
      - {id: cabin, floats: true, sections: [{name: a, u_value: 1 W/m2K, area: 1 m2, faces: {zone: saloon}}]}
    modes: {heating: {calls: [saloon]}}
    """
    assert desk.fault(text) == "unknown key 'idd'; write id"


def test_a_zone_that_faces_itself(desk):
    wall = "{name: S, u_value: 1 W/m2K, area: 1 m2, faces: {zone: a}}"
    text = f"zones: [{{id: a, floats: true, sections: [{wall}]}}]\n"
    assert desk.fault(text) == "section S of a faces its own zone; name the zone beyond it"


TWICE = """
zones:
  - {id: a, floats: true, sections: [{name: To b, u_value: 1 W/m2K, area: 5 m2, faces: {zone: b}}]}
  - {id: b, floats: true, sections: [{name: To a, u_value: 1 W/m2K, area: AREA, faces: {zone: a}}]}
"""


def test_an_inner_wall_entered_twice_is_doubted(desk):
    (doubt,) = desk.read(TWICE.replace("AREA", "5 m2")).warnings
    assert doubt.what == "the wall between b and a seems to be entered twice, as To a and as To b"
    assert doubt.line == 4
    assert not desk.read(TWICE.replace("AREA", "2 m2")).warnings


def test_all_faults_come_in_one_go_the_most_important_first(desk):
    faults = desk.faults(
        """
        zones:
          - {id: saloon, target: 20, voluem: 24 m3, sections: [{name: a, area: 1 m2, faces: {zone: gone}}]}
        vessel: {length: 600 m}
        components: {B1: {}}
        """
    )
    assert [fault.rank for fault in faults] == [1, 2, 3, 4, 5, 5]
    assert [fault.line for fault in faults] == [3, 3, 4, 3, 3, 5]
    assert all(fault.file == "boat.yaml" and fault.column and fault.instead for fault in faults)
