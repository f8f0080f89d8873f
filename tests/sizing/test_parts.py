"""Parts, cut list and spares, counted by hand from the circuit as it is written."""

import csv
import io

import pytest

from dossier.data.coefficients import coefficient
from dossier.notation import NotAssessed, lines_behind
from dossier.project import load
from dossier.sizing.circuit import circuit
from dossier.sizing.coolant import coolant_study
from dossier.sizing.exhaust import exhaust
from dossier.sizing.heat_loss import heat_loss
from dossier.sizing.parts import parts
from dossier.sizing.parts_csv import cut_list_csv, parts_csv, safe_cell
from dossier.sizing.runs import runs_of
from dossier.sizing.spares_aboard import spares_aboard
from tests.demonstrations import read

BOAT = """
format: 1
document: {{number: T-1, revision: A, date: 2026-11-20}}
zones: [{{id: saloon, floats: true}}]
components:
  P1: {{kind: pump, power: 45 W}}
  B1: {{kind: burner, output: {{max: 5 kW}}}}
  F1: {{kind: fan_coil, zone: saloon, output: 2 kW}}
  F2: {{kind: fan_coil, zone: saloon, output: 2 kW}}
  T2: {{kind: header_tank, volume: 5 l}}
{components}
circuit:
  coolant: {{base: water}}
  ring: {ring}
  {header}
{rest}
"""


def listed(project):
    graph = circuit(project)
    return parts(project, graph, coolant_study(project, graph), exhaust(project, heat_loss(project)))


def boat(folder, ring, *, components="", header="", rest=""):
    text = BOAT.format(ring=ring, components=components, header=header, rest=rest)
    (folder / "boat.yaml").write_text(text, encoding="utf-8")
    return load(folder / "boat.yaml")


def number_of(found, item, size=None):
    return sum(float(row.quantity) for row in found.rows if row.item == item and size in {None, row.size})


def row_of(found, item, size=None):
    (row,) = (row for row in found.rows if row.item == item and size in {None, row.size})
    return row


@pytest.fixture(scope="module")
def cutter():
    return listed(read("lantern_auk"))


def test_pipe_and_hose_of_the_cutter_by_size(cutter):
    # hose 1.6 + 0.8 + 2.0; plastic pipe 3.2 + 3.4 + 4.8 + 5.0 + 9.6 + 9.9 + 4.0 + 4.2
    hose, plastic = cutter.in_group("pipes and hoses")
    assert (hose.size, hose.quantity, hose.longest) == ("hose 22", pytest.approx(4.4), 2.0)
    assert (plastic.size, plastic.quantity, plastic.longest) == ("pex 16x2.0", pytest.approx(44.1), 9.9)


def test_waste_stands_apart_and_comes_on_top(cutter):
    plastic = cutter.in_group("pipes and hoses")[1]
    assert plastic.waste == pytest.approx(44.1 * coefficient("parts.pipe_waste"))
    assert plastic.to_buy == pytest.approx(plastic.quantity + plastic.waste)


def test_lengths_lead_back_to_their_runs(cutter):
    hose = cutter.in_group("pipes and hoses")[0]
    assert hose.runs == ("ring_1", "ring_2", "ring_3")
    assert [line.text for line in lines_behind(hose.quantity)] == ["1.6 m", "0.8 m", "2.0 m"]


def test_fittings_of_the_cutter_counted_from_the_runs(cutter):
    # eight runs of plastic pipe with two ends each, three hoses, the header's tee; valves sit on the manifold
    assert number_of(cutter, "connector, plastic to unit", "pex 16x2.0") == 16
    assert number_of(cutter, "hose tail", "hose 22") == 6
    assert number_of(cutter, "tee") == 1
    assert number_of(cutter, "bend, formed or fitted", "pex 16x2.0") == 48
    # P1–B1, four balancing valves on M1, V9 on both manifolds
    assert number_of(cutter, "threaded joint") == 7


def test_two_clamps_near_the_waterline_one_above_it_or_where_nobody_knows(cutter):
    # B1 at 0.27 m and P1 at 0.22 m have two each; X1 twice and the manifolds are not placed: one each
    row = row_of(cutter, "hose clamp")
    assert row.quantity == 8
    assert row.remark.startswith("4 ends of unknown height")


def test_a_hose_end_high_up_has_one_clamp(tmp_path):
    route = "route: [[0 m, 0 m, 0.1 m], [1 m, 0 m, 0.9 m]]"
    ring = f"[{{unit: P1}}, {{unit: B1}}, {{pipe: {{size: hose 19, {route}}}}}]"
    (cut,) = listed(boat(tmp_path, ring)).cuts
    assert cut.clamps == (2, 1)
    assert cut.heights_known


def test_a_transition_where_hose_and_plastic_pipe_meet(tmp_path):
    hose, plastic = "{pipe: {size: hose 19, length: 1 m}}", "{pipe: {size: pex 16x2.0, length: 4 m}}"
    ring = f"[{{unit: P1}}, {{unit: B1}}, {hose}, {plastic}, {{unit: F1}}, {plastic}, {hose}]"
    found = listed(boat(tmp_path, ring))
    assert number_of(found, "transition", "hose 19 to pex 16x2.0") == 2
    assert number_of(found, "connector, plastic to unit") == 2
    assert number_of(found, "hose tail") == 2
    assert number_of(found, "hose clamp") == 4


def test_reducers_and_joiners_between_runs_of_one_material(tmp_path):
    ring = (
        "[{unit: P1}, {unit: B1}, {pipe: {size: hose 19, length: 1 m}}, {pipe: {size: hose 19, length: 2 m}},"
        " {pipe: {size: hose 25, length: 1 m}}]"
    )
    found = listed(boat(tmp_path, ring))
    assert number_of(found, "joiner", "hose 19") == 1
    assert number_of(found, "reducer", "hose 19 to hose 25") == 1


def test_branches_on_manifolds_need_no_tee(tmp_path):
    ring = (
        "[{unit: P1}, {unit: B1}, {pipe: {size: copper 22x1, length: 1 m}}, {between: [M1, M2], branches: {"
        "one: [{pipe: {size: copper 15x1, length: 2 m}}, {unit: F1}],"
        "two: [{pipe: {size: copper 15x1, length: 3 m}}, {unit: F2}]}},"
        " {pipe: {size: copper 22x1, length: 1 m}}]"
    )
    components = "  M1: {kind: manifold, outlets: 2}\n  M2: {kind: manifold, outlets: 2}"
    found = listed(boat(tmp_path, ring, components=components))
    assert number_of(found, "tee") == 0
    assert number_of(found, "connector, copper to unit", "copper 15x1") == 4
    # P1–B1, and a fan coil straight on M2 in either branch
    assert number_of(found, "threaded joint") == 3


def test_a_link_branches_off_and_comes_back_in_tees_of_the_larger_size(tmp_path):
    ring = (
        "[{unit: P1}, {unit: B1}, {pipe: {size: copper 22x1, length: 1 m}}, {unit: F1},"
        " {pipe: {size: copper 22x1, length: 1 m}}]\n"
        "  links: [{from: B1, to: F1, pipe: {size: copper 15x1, length: 0.5 m}}]"
    )
    found = listed(boat(tmp_path, ring))
    assert number_of(found, "tee", "copper 22x1") == 2
    link = next(cut for cut in found.cuts if cut.tag == "links_1")
    assert (link.start.joint, link.end.joint) == ("tee", "tee")


def test_the_header_joins_in_a_tee(tmp_path):
    ring = "[{unit: P1}, {unit: B1}, {pipe: {size: hose 19, length: 1 m}}]"
    without = listed(boat(tmp_path, ring))
    joined = listed(boat(tmp_path, ring, header="header: {unit: T2, joins_before: P1}"))
    assert (number_of(without, "tee"), number_of(joined, "tee", "hose 19")) == (0, 1)


def test_insulation_clips_vents_and_drains(tmp_path):
    pipe = (
        "size: copper 22x1, length: 2.5 m, insulation: {thickness: 13 mm}, support: 400 mm, bends: 3,"
        " vents: [{kind: manual}], drains: [[0 m, 0 m, 0 m], [1 m, 0 m, 0 m]]"
    )
    found = listed(boat(tmp_path, f"[{{unit: P1}}, {{unit: B1}}, {{pipe: {{{pipe}}}}}]"))
    lagged = row_of(found, "pipe insulation")
    assert (lagged.size, lagged.quantity) == ("13 mm on copper 22x1", 2.5)
    # 2.5 m / 0.4 m = 6.25
    assert number_of(found, "pipe clip") == 7
    assert number_of(found, "vent, manual") == 1
    assert number_of(found, "drain") == 2
    assert number_of(found, "bend, formed or fitted") == 3


def test_a_floor_loop_is_pipe_in_one_length(tmp_path):
    components = "  L1: {kind: floor_loop, zone: saloon, size: pex 16x2.0, length: 40 m}"
    ring = "[{unit: P1}, {unit: B1}, {pipe: {size: pex 16x2.0, length: 2 m}}, {unit: L1}]"
    found = listed(boat(tmp_path, ring, components=components))
    (plastic,) = found.in_group("pipes and hoses")
    assert (plastic.quantity, plastic.longest) == (42, 40)


def test_a_pipe_known_by_its_bore_alone(tmp_path):
    ring = "[{unit: P1}, {unit: B1}, {pipe: {bore: 20 mm, roughness: 0.01 mm, length: 2 m}}]"
    found = listed(boat(tmp_path, ring))
    assert row_of(found, "pipe").size == "bore 20 mm"
    assert number_of(found, "connector, pipe to unit") == 2


def test_cables_out_and_back_fuses_and_lugs_by_size(cutter):
    # burner and pump 4.2 m of 6 mm2, fans 8.5 m of 2.5 mm2, one way
    thick = row_of(cutter, "cable, one conductor", "6 mm2")
    assert (thick.quantity, thick.longest) == (pytest.approx(8.4), 4.2)
    assert row_of(cutter, "cable, one conductor", "2.5 mm2").quantity == pytest.approx(17.0)
    assert {row.size for row in cutter.rows if row.item == "fuse"} == {"20 A", "7.5 A"}
    assert number_of(cutter, "cable lug") == 8


def test_concentrate_and_water_of_the_first_filling(cutter):
    # 14.7 l at 40 %, by the independent calculation made for this boat
    concentrate, water = cutter.in_group("coolant")
    assert concentrate.quantity * 1000 == pytest.approx(0.4 * 14.7, rel=0.05)
    assert water.quantity * 1000 == pytest.approx(0.6 * 14.7, rel=0.05)


def test_exhaust_and_fuel_line_of_the_cutter(cutter):
    assert row_of(cutter, "exhaust pipe").quantity == pytest.approx(1.97, abs=0.01)
    assert row_of(cutter, "fuel line").size == "bore 4 mm, copper"
    assert row_of(cutter, "hull fitting").size == "double wall, stainless steel, isolated from the hull"


def test_what_was_there_before_is_not_bought():
    items = {row.tag for row in listed(read("northern_quill")).in_group("components")}
    assert "G1" not in items
    assert {"B1", "T1", "V8"} <= items


def test_components_bear_the_rating_of_their_plate(cutter):
    rated = {row.tag: row.size for row in cutter.in_group("components")}
    assert (rated["B1"], rated["F2"], rated["T2"], rated["V1"], rated["M1"]) == (
        "12 kW",
        "4.2 kW",
        "8 l",
        "Kv 1.6 m3/h",
        "6 outlets",
    )


def test_a_boat_without_a_circuit_has_components_and_says_what_is_lacking():
    found = listed(read("puddle_wren"))
    assert [row.tag for row in found.in_group("components")] == ["B1"]
    assert found.cuts == ()
    assert any(isinstance(study, NotAssessed) and "circuit.ring" in study.needs for study in found.lacking)


def test_every_run_is_cut_once_and_both_its_ends_meet_something(cutter):
    project = read("lantern_auk")
    runs = runs_of(project, circuit(project))
    assert [cut.tag for cut in cutter.cuts] == list(runs.runs)
    assert all(cut.start.meets and cut.end.meets for cut in cutter.cuts)
    wheelhouse = next(cut for cut in cutter.cuts if cut.tag == "wheelhouse_2")
    assert (wheelhouse.start.meets, wheelhouse.end.meets) == (("F1",), ("M2",))
    total = sum(float(cut.length) for cut in cutter.cuts)
    assert total == pytest.approx(sum(float(r.quantity) for r in cutter.in_group("pipes and hoses")))


def table(text):
    return list(csv.DictReader(io.StringIO(text)))


def test_the_parts_list_as_text_for_a_spreadsheet(cutter):
    rows = table(parts_csv(cutter))
    hose = next(row for row in rows if row["item"] == "hose")
    assert (hose["quantity"], hose["waste"], hose["to buy"], hose["unit"]) == ("4.4", "0.44", "4.84", "m")
    concentrate = next(row for row in rows if row["item"] == "concentrate")
    assert (concentrate["unit"], float(concentrate["quantity"])) == ("l", pytest.approx(5.88, rel=0.05))
    assert len(rows) == len(cutter.rows)


def test_the_cut_list_as_text_for_a_spreadsheet(cutter):
    first = table(cut_list_csv(cutter))[0]
    assert (first["run"], first["length [m]"], first["from"], first["clamps at from"]) == (
        "ring_1",
        "1.6",
        "B1",
        "2",
    )


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "\tx", "  =cmd|'/c calc'!A1", "＝1"])
def test_no_cell_can_become_a_formula(text):
    # OWASP, CSV Injection: cells beginning with =, +, -, @, tab or carriage return; full-width forms too
    assert safe_cell(text) == f"'{text}"


def test_a_name_with_a_formula_in_it_is_written_as_text(tmp_path):
    rest = 'safety: {extinguishers: [{at: "=HYPERLINK(1)", size: 2 kg}]}'
    found = listed(boat(tmp_path, "[{unit: P1}, {unit: B1}]", rest=rest))
    (row,) = (row for row in table(parts_csv(found)) if row["item"] == "fire extinguisher")
    assert row["counted from"] == "'=HYPERLINK(1)"


def test_spares_by_the_sizes_and_ratings_in_use(cutter):
    spares = spares_aboard(read("lantern_auk"), cutter)
    fuses = {(spare.number, spare.size) for spare in spares if spare.item == "Fuses"}
    assert fuses == {("2", "20 A"), ("2", "7.5 A")}
    assert [(s.number, s.size) for s in spares if s.item == "Hose clamps"] == [("4", "hose 22")]
    clamp = next(spare for spare in spares if spare.item == "Exhaust clamp")
    assert clamp.size == "bore 38 mm"
    mixed = next(spare for spare in spares if spare.item.startswith("Mixed coolant"))
    assert mixed.size == "40 % propylene glycol"


def test_spares_of_parts_that_are_not_aboard_stay_ashore(tmp_path):
    project = boat(tmp_path, "[{unit: P1}, {unit: F1}]")
    project = project.model_copy(
        update={"components": {tag: c for tag, c in project.components.items() if tag != "B1"}}
    )
    items = {spare.item for spare in spares_aboard(project, listed(project))}
    assert "Flame sensor" not in items
    assert "Test strips for pH" not in items
    assert "Tags and pencil" in items
