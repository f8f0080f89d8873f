"""A wall with frames takes the method that holds, and says what it is made of."""

import numpy as np
import pytest

from dossier.data.surface_resistances import HeatFlow
from dossier.notation import DossierError, Line, OutOfRange, Traced, lines_behind, workings_behind
from dossier.physics.build_up import Frame, build_up
from dossier.physics.envelope import Layer

STEEL = Layer("steel", 0.006, 50.0)
WOOL = Layer("mineral_wool", 0.05, 0.04)
AIR = Layer("air", 0.02)
PLY = Layer("plywood", 0.009, 0.13)
FRAME = Frame(50.0, 0.5, 0.006, 0.055, 0.05, (PLY,))
ACROSS = HeatFlow.HORIZONTAL


def test_a_wall_without_frames_has_one_resistance():
    wall = build_up((STEEL, WOOL, AIR, PLY), ACROSS, 0.04, 0.13)
    assert wall.upper == wall.lower == sum(wall.resistances)
    assert wall.ratio == 1
    assert wall.fins is None
    assert wall.transmittance == wall.between


def test_metal_frames_add_to_what_lies_between_them():
    wall = build_up((STEEL, WOOL, AIR, PLY), ACROSS, 0.04, 0.13, FRAME)
    assert wall.ratio > 1.5
    assert wall.lower < wall.upper
    assert wall.transmittance == wall.between + wall.fins.addition


def test_wooden_frames_take_the_mean_of_the_limits():
    wood = Frame(0.13, 0.5, 0.04, 0.05, 0.04, (PLY,))
    wall = build_up((PLY, WOOL, PLY), ACROSS, 0.04, 0.13, wood)
    assert 1 < wall.ratio < 1.5
    assert wall.transmittance == 2 / (wall.upper + wall.lower)


def test_samples_on_both_sides_of_the_limit_take_their_own_method():
    conductivities = np.array([0.13, 50.0])
    frame = Frame(conductivities, 0.5, 0.04, 0.05, 0.04, (PLY,))
    wall = build_up((PLY, WOOL, PLY), ACROSS, 0.04, 0.13, frame)
    assert wall.transmittance[0] == 2 / (wall.upper[0] + wall.lower[0])
    assert wall.transmittance[1] == wall.between + wall.fins.addition[1]


def test_the_heat_parts_layer_by_layer_where_the_web_ends():
    """A web that ends in the air crosses a part of it; the rest is as between frames."""
    short = build_up((STEEL, WOOL, AIR, PLY), ACROSS, 0.04, 0.13, Frame(50.0, 0.5, 0.006, 0.05, 0.05))
    longer = build_up((STEEL, WOOL, AIR, PLY), ACROSS, 0.04, 0.13, Frame(50.0, 0.5, 0.006, 0.07, 0.05))
    beyond = build_up((STEEL, WOOL, AIR, PLY), ACROSS, 0.04, 0.13, Frame(50.0, 0.5, 0.006, 0.2, 0.05))
    through_all = build_up((STEEL, WOOL, AIR, PLY), ACROSS, 0.04, 0.13, Frame(50.0, 0.5, 0.006, 0.079, 0.05))
    assert short.lower > longer.lower > beyond.lower
    assert beyond.lower == pytest.approx(through_all.lower)
    assert beyond.upper == pytest.approx(through_all.upper)


def test_a_thicker_cover_warms_the_room():
    bare = build_up((STEEL, WOOL, PLY), ACROSS, 0.04, 0.13, Frame(50.0, 0.5, 0.006, 0.05, 0.05))
    foam = (Layer("foam", 0.02, 0.028), PLY)
    covered = build_up((STEEL, WOOL, PLY), ACROSS, 0.04, 0.13, Frame(50.0, 0.5, 0.006, 0.05, 0.05, foam))
    assert covered.fins.addition < 0.5 * bare.fins.addition
    assert bare.fins.cover == (0.13,)


def test_a_flange_is_as_thick_as_its_web_unless_stated():
    as_web = build_up((STEEL, WOOL, PLY), ACROSS, 0.04, 0.13, Frame(50.0, 0.5, 0.006, 0.05, 0.05))
    stated = Frame(50.0, 0.5, 0.006, 0.05, 0.05, flange_thickness=0.006)
    thin = Frame(50.0, 0.5, 0.006, 0.05, 0.05, flange_thickness=0.001)
    assert build_up((STEEL, WOOL, PLY), ACROSS, 0.04, 0.13, stated).fins.flange == as_web.fins.flange
    assert build_up((STEEL, WOOL, PLY), ACROSS, 0.04, 0.13, thin).fins.flange < as_web.fins.flange


def test_frames_cannot_stand_on_air():
    with pytest.raises(DossierError, match="must not be air"):
        build_up((AIR, WOOL, PLY), ACROSS, 0.04, 0.13, FRAME)


def test_an_air_layer_beyond_the_table_is_refused():
    with pytest.raises(OutOfRange, match="air layer"):
        build_up((STEEL, Layer("air", 0.4), PLY), ACROSS, 0.04, 0.13)


def test_the_result_leads_back_to_what_was_written():
    written = Traced(0.05, Line("build_ups.topsides.layers.1.thickness", "50 mm"))
    wall = build_up((STEEL, Layer("mineral_wool", written, 0.04), PLY), ACROSS, 0.04, 0.13, FRAME)
    assert [line.text for line in lines_behind(wall.transmittance)] == ["50 mm"]
    names = [working.statement.name for working in workings_behind(wall.transmittance)]
    assert names[-1] == "valid_transmittance"
    assert "bridged_resistance" in names
