"""The schematic of a small circuit: what stands where, and what the legend and the lines say."""

import re
from itertools import combinations, pairwise

import pytest

from dossier.notation.faults import PageFault
from dossier.rendering.drawings.circuit import Branch, Circuit, Join, Link, Parallel, Run, Side, Unit
from dossier.rendering.drawings.record import record
from dossier.rendering.drawings.schematic import schematic
from dossier.rendering.drawings.sheet import Form, Sheet, TitleBlock
from dossier.rendering.drawings.wires import PENS, Wire, crossing_of

FORM = Form(
    TitleBlock(title="Heating circuit", boat="Marsh Heron", scale="not to scale"), "A4", ("Mode heating.",)
)


def branch(number, emitter="fan_coil", *, worst=False):
    return Branch(
        (
            Unit(f"V{number}", "balancing_valve", state=f"Kv 0.{number}0"),
            Run(Side.SUPPLY, f"{number}.2 l/min", f"{70 + number} °C"),
            Unit(f"F{number}", emitter, name=f"Cabin {number}", worst=worst),
            Run(Side.RETURN, "", f"{60 + number} °C"),
        )
    )


def ring_of(branches):
    return (
        Unit("B1", "burner", facts=("12 kW",)),
        Run(Side.SUPPLY, "", "79 °C"),
        Parallel(branches, Unit("M1", "manifold"), Unit("M2", "manifold")),
        Run(Side.RETURN),
        Unit("P1", "pump", flow="15.4 l/min"),
        Run(Side.SUPPLY),
    )


THREE = Circuit(ring_of((branch(1), branch(2, worst=True), Branch((Unit("V9", "bypass_valve"),), "Bypass"))))


def test_flow_stands_above_its_line_and_temperature_below_always_at_the_same_place():
    [drawing] = schematic(THREE, FORM)
    seen = record(drawing)
    for number in (1, 2):
        axis = seen.sign(f"F{number}").box.middle[1]
        flow, temperature = seen.label(f"{number}.2 l/min").box, seen.label(f"{70 + number} °C").box
        assert flow.bottom > axis > temperature.top
        assert flow.middle[0] == pytest.approx(temperature.middle[0])
    columns = [seen.label(f"{number}.2 l/min").box.middle[0] for number in (1, 2)]
    assert columns[0] == pytest.approx(columns[1])


def test_branches_stand_one_under_the_other_at_one_pitch_with_the_preset_under_its_valve():
    [drawing] = schematic(THREE, FORM)
    seen = record(drawing)
    heights = [seen.sign(tag).box.middle[1] for tag in ("F1", "F2")]
    bypass = seen.label("Bypass").box.middle[1]
    assert heights[0] > heights[1] > bypass
    valve, preset = seen.sign("V1").box, seen.label("Kv 0.10").box
    assert preset.top < valve.bottom
    assert valve.left < preset.middle[0] < valve.right


def test_the_worst_branch_bears_a_boxed_w():
    [drawing] = schematic(THREE, FORM)
    seen = record(drawing)
    marks = [sign.box for sign in seen.signs if sign.name == "worst branch"]
    emitter = seen.sign("F2").box
    assert any(abs(mark.right - emitter.left) < 5 and abs(mark.middle[1] - emitter.top) < 3 for mark in marks)
    assert "worst branch" in seen.texts


def test_supply_and_return_differ_in_width_and_dash_not_only_in_ink():
    [drawing] = schematic(THREE, FORM)
    pens = {wire.kind: PENS[wire.kind] for wire in drawing.shapes if isinstance(wire, Wire)}
    assert pens["supply"].width == pytest.approx(0.7)
    assert not pens["supply"].dashes
    assert pens["return"].width == pytest.approx(0.5)
    assert pens["return"].dashes


def test_pipes_run_level_or_upright_and_never_cross():
    [drawing] = schematic(THREE, FORM)
    wires = [wire for wire in drawing.shapes if isinstance(wire, Wire)]
    pieces = [piece for wire in wires for piece in pairwise(wire.points)]
    assert all(a[0] == b[0] or a[1] == b[1] for a, b in pieces)
    assert not any(crossing_of(one, other) for one, other in combinations(pieces, 2))


def test_the_return_is_the_lowest_pipe():
    [drawing] = schematic(THREE, FORM)
    lowest = min(
        (min(y for _, y in w.points), w.kind)
        for w in drawing.shapes
        if isinstance(w, Wire) and w.points[0][0] > Sheet("A4").block.left
    )
    assert lowest[1] == "return"


def test_the_legend_explains_what_is_on_the_sheet_and_nothing_else():
    [drawing] = schematic(THREE, FORM)
    texts = record(drawing).texts
    for word in ("supply", "return", "burner", "pump", "fan coil", "manifold", "bypass valve"):
        assert texts.count(word) == 1
    for word in ("fuel", "radiator", "exhaust, hot", "header tank"):
        assert word not in texts


def test_forty_branches_are_split_at_the_manifolds_and_each_part_names_the_other():
    kinds = ("fan_coil", "radiator", "floor_loop", "towel_rail")
    circuit = Circuit(ring_of(tuple(branch(n, kinds[n % 4]) for n in range(1, 41))))
    sheets = tuple(f"{n} of 40" for n in range(20, 40))
    drawings = schematic(circuit, Form(FORM.title, "A4", sheets=sheets))
    seen = [record(drawing) for drawing in drawings]
    tags = [text for each in seen for text in each.texts if re.fullmatch(r"F\d+", text)]
    assert sorted(tags) == sorted(f"F{n}" for n in range(1, 41))
    assert {sign.name for sign in seen[0].signs} >= {"M1", "M2", "part A"}
    assert {sign.name for sign in seen[1].signs} >= {"M1", "M2", "main part"}
    assert "Part A" in seen[1].texts
    assert [sheets[n] in each.texts for n, each in enumerate(seen)] == [True] * len(seen)


def test_a_link_outside_the_tree_is_broken_where_it_crosses_the_ring():
    circuit = Circuit(THREE.ring, links=(Link("V1", "V2"),))
    [drawing] = schematic(circuit, FORM)
    wires = [wire for wire in drawing.shapes if isinstance(wire, Wire)]
    crossings = [
        (one.standing, other.standing)
        for one, other in combinations(wires, 2)
        for a in pairwise(one.points)
        for b in pairwise(other.points)
        if crossing_of(a, b)
    ]
    assert crossings == []
    assert any(wire.rank for wire in wires) or "goes on at the same letter" in record(drawing).texts


@pytest.mark.parametrize("start", range(6))
def test_where_the_list_of_the_ring_starts_makes_no_difference(start):
    turned = Circuit((*THREE.ring[start:], *THREE.ring[:start]))
    [drawing], [ours] = schematic(turned, FORM), schematic(THREE, FORM)
    assert record(drawing).texts == record(ours).texts


def test_the_header_joins_before_the_pump_and_its_notes_stand_by_its_line():
    join = Join(
        Unit("T2", "header_tank"), before="P1", notes=("no valve",), vent="open vent", levels=("hot", "cold")
    )
    [drawing] = schematic(Circuit(THREE.ring, joins=(join,)), FORM)
    seen = record(drawing)
    assert {"T2", "no valve", "open vent", "hot", "cold", "header, no flow", "joined"} <= set(seen.texts)
    assert seen.sign("T2").box.bottom > seen.sign("P1").box.top
    assert seen.sign("T2").box.right < seen.sign("P1").box.left


def test_words_of_another_language_replace_ours():
    words = {"supply": "Vorlauf", "legend": "Linien und Zeichen", "fan_coil": "Luftheizer"}
    [drawing] = schematic(THREE, Form(FORM.title, words=words))
    texts = record(drawing).texts
    assert set(words.values()) <= set(texts)
    assert "supply" not in texts


def test_a_unit_larger_than_the_paper_is_a_page_fault():
    tall = Unit("T1", "buffer", facts=tuple(f"fact {n}" for n in range(60)))
    with pytest.raises(PageFault, match="larger paper"):
        schematic(Circuit((tall,)), FORM)
