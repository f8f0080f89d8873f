"""The circuit's grammar: series lists and groups that nest, pipes with their ids, links."""

import pytest

from dossier.project.model import Group, Pipe, Unit

PARTS = """
components:
  B1: {kind: burner}
  P1: {kind: pump}
  X1: {kind: tap_exchanger}
  T1: {kind: buffer}
  T2: {kind: header_tank}
  T3: {kind: membrane_vessel}
  M1: {kind: manifold}
  M2: {kind: manifold}
  M3: {kind: manifold}
  M4: {kind: manifold}
  V1: {kind: balancing_valve}
  V2: {kind: balancing_valve}
  V3: {kind: balancing_valve}
  V9: {kind: bypass_valve}
  V12: {kind: three_way_valve, ways: [near, far]}
"""
RING = """
circuit:
  ring:
    - unit: P1
    - pipe: {size: hose 19, length: 1.2 m, bends: 2}
    - unit: B1
    - between: [M1, M2]
      branches:
        near: [{unit: V1}, {pipe: {size: pex 16x2.0, length: 3 m}},
               {pipe: {id: H4, size: pex 16x2.0, length: 4 m}},
               {pipe: {size: pex 16x2.0, length: 5 m}}]
        far:
          - between: [M3, M4]
            branches: {fore: [{unit: V2}], aft: [{unit: V3}, {pipe: {size: pex 16x2.0, length: 6 m}}]}
    - pipe: {bore: 19 mm, roughness: 0.01 mm, route: [[2.1 m, 0.4 m, 0.2 m], [3.0 m, 0.4 m, 0.5 m]]}
  links: [{from: X1, to: T1, pipe: {size: hose 19, length: 1.5 m}}]
"""


def test_items_come_in_flow_order_and_groups_nest(desk):
    project = desk.read(PARTS + RING.replace("- unit: B1", "- unit: B1\n    - unit: X1\n    - unit: T1"))
    ring = project.circuit.ring
    assert [type(item) for item in ring] == [Unit, Pipe, Unit, Unit, Unit, Group, Pipe]
    assert ring[5].between == ("M1", "M2")
    assert list(project.branches()) == ["near", "far", "fore", "aft"]
    assert list(project.units()) == ["P1", "B1", "X1", "T1", "M1", "V1", "M3", "V2", "V3", "M4", "M2"]


def test_pipes_are_named_by_their_list_and_their_number_in_it(desk):
    project = desk.read(PARTS + RING.replace("- unit: B1", "- unit: B1\n    - unit: X1\n    - unit: T1"))
    pipes = list(project.pipes())
    assert [pipe.id for pipe in pipes] == ["ring_1", "ring_2", "near_1", "H4", "near_3", "aft_1", "links_1"]
    assert pipes[0].key == "circuit.ring.ring_1"
    assert pipes[0].length.origin.key == "circuit.ring.ring_1.length"
    assert pipes[3].length.origin.key == "circuit.branches.near.H4.length"
    assert pipes[6].length.origin.key == "circuit.links.links_1.length"
    assert pipes[1].route[1].z == 0.5
    assert project.where("circuit.ring.ring_1").line == 22
    link = project.circuit.links[0]
    assert (link.from_, link.to) == ("X1", "T1")


@pytest.mark.parametrize(
    ("ring", "said"),
    [
        ("[]", "ring has nothing in it"),
        ("[{unt: P1}]", "unknown key 'unt'; write unit"),
        ("[[P1]]", "an item of ring is a unit, a pipe or a group, found a list"),
        ("[{unit: P1, length: 3 m}]", "unknown key 'length'"),
        ("[{unit: [P1]}]", "unit is a text, found a list"),
        ("[{unit: P1}, {unit: P1}]", "P1 stands twice in the circuit; keep it once"),
        ("[{pipe: hose 19}]", "pipe is a mapping, found 'hose 19'"),
        ("[{pipe: {length: 1 m}}]", "the pipe has no size; write size: hose 19, or bore: 19 mm"),
        ("[{pipe: {size: hose 19}}]", "the pipe has no length"),
        ("[{pipe: {size: hose 19, length: 1 m}, bends: 3}]", "unknown key 'bends'"),
        (
            "[{pipe: {id: a, size: hose 19, length: 1 m}}, {pipe: {id: a, size: hose 19, length: 1 m}}]",
            "the name 'a' is given twice",
        ),
        (
            "[{pipe: {id: P1, size: hose 19, length: 1 m}}]",
            "pipe 'P1' and component 'P1' become one in the results",
        ),
        ("[{between: [M1, M2]}]", "the group has no branches"),
        ("[{between: [M1, M2], branches: {}}]", "the group has no branches"),
        ("[{between: [M1, M2], branches: {a: []}}]", "branch a has nothing in it"),
        (
            "[{between: M1, branches: {a: [{unit: V1}]}}]",
            "between names the two units where branches part and meet again, found M1",
        ),
        (
            "[{between: [M1, M2, M3], branches: {a: [{unit: V1}]}}]",
            "between names the two units where branches part and meet again, found 3",
        ),
        ("[{between: [M1, M2], branchs: {a: [{unit: V1}]}}]", "unknown key 'branchs'; write branches"),
        ("[{between: [M1, M2], branches: [{unit: V1}]}]", "branches is a mapping, found a list"),
        (
            (
                "[{between: [M1, M2], branches: {a: [{unit: V1}]}}, "
                "{between: [M3, M4], branches: {a: [{unit: V2}]}}]"
            ),
            "the name 'a' is given twice; rename one branch",
        ),
    ],
)
def test_a_ring_that_cannot_be_followed(desk, ring, said):
    parts = PARTS.replace(", ways: [near, far]", "")
    faults = desk.faults(f"{parts}circuit: {{ring: {ring}}}\n")
    assert f"{faults[0].what}; {faults[0].instead}".startswith(said)
    assert len(faults) == 1 + ("branchs" in ring)


def test_a_header_is_a_header_tank(desk):
    parts = PARTS.replace(", ways: [near, far]", "")
    fault = desk.fault(f"{parts}circuit: {{ring: [{{unit: P1}}], header: {{unit: T3, joins_before: P1}}}}\n")
    assert fault == "header: a membrane vessel is no header tank; write expansion: {unit: …}"


def test_insert_belongs_in_an_alternative(desk):
    parts = PARTS.replace(", ways: [near, far]", "")
    assert desk.fault(f"{parts}circuit: {{ring: [{{unit: P1}}], insert: []}}\n").startswith(
        "unknown key 'insert'"
    )


def test_a_point_has_three_lengths(desk):
    text = "exhaust: {route: [[2,1 m, -1,2 m], [1 m, 1 m, 1 m]]}\n"
    assert desk.fault(text) == "a point has three lengths; this has four items; write 2.1 m"
    assert "a point has three lengths; this has two items" in desk.fault("combustion_air: {at: [1 m, 2 m]}\n")
    assert "z of at needs a unit" in desk.fault("combustion_air: {at: [1 m, 2 m, 3]}\n")


def test_a_decimal_comma_in_braces_is_one_fault(desk):
    assert (
        desk.fault("fuel: {lift: 0,6 m, tank: 400 l}\n")
        == "lift is torn by its comma, found '0,6 m'; write lift: 0.6 m"
    )
    text = PARTS.replace(", ways: [near, far]", "") + "commissioning: {flows: {V1: 4,3 l/min}}\n"
    assert desk.fault(text) == "V1 is torn by its comma, found '4,3 l/min'; write V1: 4.3 l/min"
