"""In one mode the runs that flow are drawn heavily; those that stand are thin and bear no arrow."""

from dossier.rendering.drawings.circuit import Branch, Circuit, Parallel, Run, Side, Unit
from dossier.rendering.drawings.mode_schematic import Mode, in_mode, mode_schematic
from dossier.rendering.drawings.pens import STILL
from dossier.rendering.drawings.record import misfits, record
from dossier.rendering.drawings.wires import Wire

LONG = "starboard quarter berth and oilskin locker under the side deck"


def branch(number, *, emitter=True):
    valve = Unit(f"V{number}", "balancing_valve", state="Kv 0.98")
    if not emitter:
        return Branch((Run(Side.SUPPLY), valve, Run()), "Bypass")
    unit = Unit(f"F{number}", "fan_coil", name="Saloon · 2.0 kW")
    return Branch((Run(Side.SUPPLY, "4.2 l/min", "72 °C"), valve, Run(), unit, Run(Side.RETURN)))


def circuit(count=2):
    ends = (Unit("M1", "manifold"), Unit("M2", "manifold"))
    group = Parallel((*(branch(n) for n in range(1, count + 1)), branch(9, emitter=False)), *ends)
    return Circuit((Unit("P1", "pump"), Run(Side.RETURN), Unit("B1", "burner"), Run(Side.SUPPLY), group))


TAP_ONLY = Mode(frozenset({"V1", "F1", "V2", "F2"}), {"V1": "shut", "V2": "shut"}, {"F1": "Saloon"})


def wires(shapes, kind):
    return [shape for shape in shapes if isinstance(shape, Wire) and shape.kind == kind]


def test_the_runs_of_shut_branches_stand_and_the_ring_flows():
    drawing = mode_schematic(in_mode(circuit(), TAP_ONLY), 175, 90)
    still, flowing = wires(drawing.shapes, "still"), wires(drawing.shapes, "supply")
    assert len(still) == 6  # before, between and behind the valve and the emitter of two branches
    assert flowing
    assert all(part.pen.width == STILL.width for wire in still for part in wire.parts())
    assert min(part.pen.width for wire in flowing for part in wire.parts()) > 2 * STILL.width


def test_only_what_the_mode_shuts_is_told_and_no_figure_of_another_mode():
    texts = record(mode_schematic(in_mode(circuit(), TAP_ONLY), 175, 90)).texts
    assert texts.count("shut") == 2
    assert "Saloon" in texts
    assert not {"Kv 0.98", "4.2 l/min", "72 °C", "Saloon · 2.0 kW"} & set(texts)


def test_twelve_emitters_with_long_names_keep_apart_or_are_not_drawn():
    names = {f"F{n}": LONG for n in range(1, 13)}
    small = mode_schematic(in_mode(circuit(12), Mode(frozenset(), {}, names)), 175, 40)
    large = mode_schematic(in_mode(circuit(12), Mode(frozenset(), {}, names)), 175, 200)
    assert small is None
    assert misfits(large) == ()
