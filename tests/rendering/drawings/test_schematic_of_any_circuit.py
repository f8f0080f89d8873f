"""The schematic of any circuit keeps every label, sign and line apart and inside the frame."""

from collections import Counter

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from dossier.rendering.drawings.circuit import units_of
from dossier.rendering.drawings.record import misfits, record
from dossier.rendering.drawings.schematic import schematic
from dossier.rendering.drawings.sheet import Form, Sheet, TitleBlock
from tests.rendering.drawings.any_circuit import any_circuit

FORM = Form(
    TitleBlock(title="Heating circuit", boat="Marsh Heron", scale="not to scale"), "A4", ("Mode heating.",)
)


@settings(max_examples=8, deadline=None, derandomize=True, phases=[Phase.generate])
@given(st.integers(0, 10**9), st.sampled_from(["A4", "A3", "letter"]))
def test_no_label_meets_anything_on_the_schematic_of_any_circuit(seed, paper):
    sheet = Sheet(paper)
    for drawing in schematic(any_circuit(seed), Form(FORM.title, paper, FORM.notes)):
        assert misfits(drawing, sheet.frame.grown(8.0)) == ()


@settings(max_examples=4, deadline=None, derandomize=True, phases=[Phase.generate])
@given(st.integers(0, 10**9))
def test_every_unit_is_drawn_once_though_the_circuit_takes_several_sheets(seed):
    circuit = any_circuit(seed)
    drawn = Counter(sign.name for drawing in schematic(circuit, FORM) for sign in record(drawing).signs)
    for unit in units_of(circuit.ring):
        if unit.kind == "manifold":
            assert drawn[unit.tag] >= 1
        else:
            assert drawn[unit.tag] >= 1 if unit.kind == "three_way_valve" else drawn[unit.tag] == 1
