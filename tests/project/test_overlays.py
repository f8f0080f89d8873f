"""Alternatives and included files: mappings merge key by key, lists are replaced whole, none removes."""

import pickle

import pytest

from dossier.notation import Basis
from dossier.project import NONE
from dossier.project.model import Group, Unit

BOAT = """
defaults: {basis: drawing}
vessel: {name: Marsh Heron, heel_angles: [10 deg, 20 deg]}
tap_water: {at_tap: 40 degC, tank: 450 l}
components:
  B1: {kind: burner, basis: plate, output: {max: 9 kW, min: 3 kW}, band: 12 K}
  P1: {kind: pump}
  M1: {kind: manifold}
  M2: {kind: manifold}
  V1: {kind: balancing_valve, kv: 1.6 m3/h}
  V2: {kind: balancing_valve, kv: 1.6 m3/h}
  T2: {kind: header_tank, volume: 10 l, cap: vented}
circuit:
  system: open
  ring:
    - unit: P1
    - unit: B1
    - between: [M1, M2]
      branches: {saloon: [{unit: V1}], cabin: [{unit: V2}]}
    - pipe: {size: hose 19, length: 2 m}
  header: {unit: T2, joins_before: P1}
modes: {heating: {open: [V1]}}
alternatives:
"""


def alternative(desk, overlay):
    project = desk.read(f"{BOAT}  one: {overlay}\n")
    return project, project.alternative("one")


def test_mappings_merge_key_by_key_and_the_base_stays(desk):
    project, other = alternative(
        desk, "{note: wider band, components: {B1: {band: 18 K, output: {min: 2 kW}}}}"
    )
    assert other.components["B1"].band == 18
    assert other.components["B1"].output.max == 9000
    assert other.components["B1"].output.min == 2000
    assert project.components["B1"].band == 12
    assert project.alternatives["one"].note == "wider band"
    assert project.alternatives["one"].name == "one"
    assert other.alternatives is None


def test_an_alternatives_value_leads_to_its_own_line(desk):
    project, other = alternative(desk, "{components: {B1: {band: 18 K}}}")
    assert project.components["B1"].band.origin.line == 6
    assert other.components["B1"].band.origin.line == 24
    assert other.where("components.B1.output.max").line == 6


def test_a_basis_round_the_base_does_not_reach_an_overlays_value(desk):
    _, other = alternative(desk, "{components: {B1: {band: 18 K}}}")
    assert other.components["B1"].band.origin.basis is Basis.DRAWING
    assert other.components["B1"].output.max.origin.basis is Basis.PLATE
    _, stated = alternative(desk, "{components: {B1: {basis: measured}}}")
    assert stated.components["B1"].output.max.origin.basis is Basis.MEASURED


def test_lists_are_replaced_whole(desk):
    _, other = alternative(desk, "{vessel: {heel_angles: [5 deg]}}")
    assert len(other.vessel.heel_angles) == 1


def test_none_removes_and_stays_an_answer_where_it_is_one(desk):
    _, other = alternative(
        desk, "{modes: {heating: {open: none}}, components: {V2: {kv: none}}, tap_water: none}"
    )
    assert other.components["V2"].kv is None
    assert other.modes["heating"].open is None
    assert other.tap_water is NONE
    _, without = alternative(desk, "{vessel: {heel_angles: none, name: none}}")
    assert without.vessel.heel_angles is NONE
    assert without.vessel.name is None


def test_a_component_taken_out_is_missed_where_it_stood(desk):
    faults = desk.faults(f"{BOAT}  one: {{components: {{V2: none}}}}\n")
    assert [(fault.line, fault.what) for fault in faults] == [
        (19, "alternative one: unit: no component is called 'V2'")
    ]


def test_none_that_removes_nothing_is_a_value_like_any_other(desk):
    assert "alternative one: kv: 'none' is no figure" in desk.fault(
        f"{BOAT}  one: {{components: {{V9: {{kind: bypass_valve, kv: none}}}}}}\n"
    )


def test_another_kind_of_component_starts_anew(desk):
    _, other = alternative(
        desk,
        "{components: {T2: {kind: membrane_vessel, volume: 18 l}}, "
        "circuit: {header: none, expansion: {unit: T2}}}",
    )
    assert other.components["T2"].volume == pytest.approx(0.018)
    assert other.circuit.header is NONE


@pytest.mark.parametrize(
    ("insertion", "tags"),
    [
        ("[{unit: T1, before: P1}]", ["T1", "P1", "B1", "M1", "V1", "V2", "M2"]),
        ("[{unit: T1, after: P1}]", ["P1", "T1", "B1", "M1", "V1", "V2", "M2"]),
        ("[{unit: T1, before: V2}]", ["P1", "B1", "M1", "V1", "T1", "V2", "M2"]),
        (
            "[{unit: T1, before: B1}, {unit: T3, before: B1}]",
            ["P1", "T1", "T3", "B1", "M1", "V1", "V2", "M2"],
        ),
    ],
)
def test_units_are_inserted_into_ring_and_branches(desk, insertion, tags):
    stores = "components: {T1: {kind: buffer, volume: 60 l}, T3: {kind: buffer, volume: 60 l}}"
    project, other = alternative(desk, f"{{{stores}, circuit: {{insert: {insertion}}}}}")
    assert list(other.units()) == tags
    assert "T1" not in list(project.units())


def test_a_pipe_is_inserted_and_counted(desk):
    _, other = alternative(desk, "{circuit: {insert: [{pipe: {size: hose 19, length: 1 m}, after: B1}]}}")
    assert [pipe.id for pipe in other.pipes()] == ["ring_1", "ring_2"]
    assert [pipe.length for pipe in other.pipes()] == [1, 2]


@pytest.mark.parametrize(
    ("overlay", "said"),
    [
        (
            "{circuit: {insert: [{unit: B1, before: P9}]}}",
            "alternative one: no unit of the circuit is called 'P9'; known: P1, B1",
        ),
        (
            "{circuit: {insert: [{unit: B1}]}}",
            "alternative one: an insertion stands before one unit, or after one",
        ),
        (
            "{circuit: {insert: [{unit: T1, befor: P1}]}}",
            "alternative one: unknown key 'befor'; write before",
        ),
        ("{circuit: {insert: {unit: T1}}}", "alternative one: insert is a list"),
        ("{circuit: {insert: [T1]}}", "alternative one: an insertion is a mapping, found T1"),
        ("{components: {B1: {band: 12 degC}}}", "alternative one: band is a difference of temperatures"),
        ("{component: {B1: {band: 12 K}}}", "alternative one: unknown key 'component'; write components"),
        ("{alternatives: {}}", "alternative one: an alternative has no alternatives"),
        ("{notes: x}", "alternative one: unknown key 'notes'"),
        ("[a]", "one is a mapping, found a list"),
    ],
)
def test_faults_of_an_alternative_name_it_and_its_line(desk, overlay, said):
    faults = desk.faults(f"{BOAT}  one: {overlay}\n")
    assert len(faults) == 1, [str(fault) for fault in faults]
    assert f"{faults[0].what}; {faults[0].instead}".startswith(said)
    assert faults[0].line == 24


def test_a_unit_that_is_inserted_though_it_stands_already(desk):
    fault = desk.fault(f"{BOAT}  one: {{circuit: {{insert: [{{unit: B1, before: P1}}]}}}}\n")
    assert fault == "alternative one: B1 stands twice in the circuit; keep it once"


def test_a_fault_of_the_base_is_not_told_again_for_each_alternative(desk):
    text = (
        BOAT.replace("band: 12 K", "band: 12")
        + "  one: {vessel: {name: x}}\n  two: {components: {B1: {output: {max: 8 kW}}}}\n"
    )
    assert desk.fault(text) == "band needs a unit, found '12'; write 12 K"


def test_an_unknown_alternative_leads_to_the_nearest(desk):
    project, _ = alternative(desk, "{note: x}")
    with pytest.raises(KeyError, match="did you mean 'one'"):
        project.alternative("on")


def test_a_project_with_alternatives_can_be_pickled(desk):
    project, other = alternative(desk, "{components: {B1: {band: 18 K}}}")
    again = pickle.loads(pickle.dumps(project))
    assert again == project
    assert again.alternative("one") == other
    assert again.components["B1"].band.origin == project.components["B1"].band.origin
    assert again.files == project.files


def test_included_files_lie_under_the_project(desk):
    desk.put(
        "yard.yaml",
        """
        defaults: {basis: plate}
        materials: {cork_planks: {conductivity: 0.045 W/m/K}}
        components:
          F9: {kind: fan_coil, output: 4 kW, power: 30 W}
          P9: {kind: pump, power: 20 W}
        """,
    )
    project = desk.read(
        """
        include: [yard.yaml]
        defaults: {basis: measured}
        build_ups: {side: {layers: [{material: cork_planks, thickness: 20 mm}]}}
        components: {F9: {power: 25 W}, P9: none}
        """
    )
    coil = project.components["F9"]
    assert (coil.output, coil.power) == (4000, 25)
    assert coil.output.origin.basis is Basis.PLATE
    assert coil.output.origin.file == "yard.yaml"
    assert coil.power.origin.basis is Basis.MEASURED
    assert list(project.components) == ["F9"]
    assert project.include == ("yard.yaml",)
    assert [source.name for source in project.files] == ["boat.yaml", "yard.yaml"]


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (
            "materials: {cork: {conductivity: 0.045}}",
            "yard.yaml:1:34: materials.cork: conductivity needs a unit",
        ),
        ("include: [other.yaml]", "yard.yaml:1:10: an included file has no include"),
        ("- a", "yard.yaml:1: the file is a list"),
        ("materials: {a: b", "yard.yaml:1:12: the { opened here is not closed"),
        ("material: {}", "yard.yaml:1:1: unknown key 'material'; write materials"),
    ],
)
def test_faults_of_an_included_file_name_it(desk, content, said):
    desk.put("yard.yaml", content + "\n")
    faults = desk.faults("include: [yard.yaml]\n")
    assert len(faults) == 1
    assert str(faults[0]).startswith(said)


def test_groups_nest_and_merge_as_lists(desk):
    inner_group = "{between: [T3, T4], branches: {a: [{unit: V2}], b: [{unit: B1}]}}"
    ring = f"[{{unit: P1}}, {{between: [M1, M2], branches: {{near: [{{unit: V1}}], far: [{inner_group}]}}}}]"
    _, other = alternative(
        desk, f"{{components: {{T3: {{kind: manifold}}, T4: {{kind: manifold}}}}, circuit: {{ring: {ring}}}}}"
    )
    outer = other.circuit.ring[1]
    assert isinstance(outer, Group)
    inner = outer.branches["far"][0]
    assert isinstance(inner, Group)
    assert [item.unit for item in inner.branches["a"] if isinstance(item, Unit)] == ["V2"]
    assert list(other.branches()) == ["near", "far", "a", "b"]
