"""Layers, temperatures through them, and when insulation counts as moist."""

import numpy as np
import pytest

from dossier.data.assumptions import assumed
from dossier.data.materials import material, materials
from dossier.data.surface_resistances import HeatFlow, inside_surface_resistance
from dossier.notation import OutOfRange, Traced
from dossier.physics.envelope import (
    Layer,
    air_layer_resistance,
    gets_moist,
    layer_resistance,
    layer_resistances,
    moist_conductivity,
    temperatures_through,
    total_resistance,
)


def layer_of(name, thickness):
    made_of = material(name)
    return Layer(name, thickness, made_of.conductivity, made_of.vapour_factor, made_of.fibrous)


PLATE, WOOL, FOAM = layer_of("steel", 0.006), layer_of("mineral_wool", 0.05), layer_of("sprayed_foam", 0.05)
PLANK, LINING, AIR = layer_of("oak", 0.05), layer_of("plywood", 0.009), Layer("air", 0.02)


def test_an_air_layer_has_no_conductivity_and_a_solid_has():
    assert AIR.is_air
    assert not WOOL.is_air


def test_air_resists_by_the_way_the_heat_goes():
    up, down = (layer_resistances((Layer("air", 0.1),), flow)[0] for flow in (HeatFlow.UP, HeatFlow.DOWN))
    assert (up, down) == (0.16, 0.22)


def test_a_direction_may_be_written_as_a_word():
    assert inside_surface_resistance("down") == inside_surface_resistance(HeatFlow.DOWN)
    assert layer_resistances((AIR,), "up") == layer_resistances((AIR,), HeatFlow.UP)
    with pytest.raises(ValueError, match="sideways"):
        inside_surface_resistance("sideways")


def test_air_layers_between_rows_are_straight():
    assert air_layer_resistance(0.020, HeatFlow.HORIZONTAL) == pytest.approx(0.175)


def test_samples_out_of_the_table_are_marked():
    found = air_layer_resistance(np.array([0.01, 0.5]), HeatFlow.UP)
    assert found[0] == 0.15
    assert np.isnan(found[1])


def test_a_conductivity_that_no_material_has_is_refused():
    with pytest.raises(OutOfRange, match="thermal conductivity"):
        layer_resistance(0.01, 6500.0)


def test_wool_on_plating_gets_moist_unless_the_inner_face_is_tight():
    assert gets_moist((PLATE, WOOL, LINING), is_vapour_tight=False)
    assert not gets_moist((PLATE, WOOL, LINING), is_vapour_tight=True)


@pytest.mark.parametrize(
    "layers",
    [(PLATE, FOAM, LINING), (PLATE, AIR, WOOL, LINING), (PLANK, WOOL, LINING), (PLATE,), (AIR, WOOL)],
    ids=["foam", "air behind the wool", "planking", "bare plate", "no plating"],
)
def test_what_stays_dry(layers):
    assert not gets_moist(layers, is_vapour_tight=False)


def test_wool_on_a_glass_fibre_hull_gets_moist():
    assert gets_moist((layer_of("grp", 0.012), WOOL), is_vapour_tight=False)


def test_moist_wool_conducts_half_as_much_again():
    """1.5, common practice, no source."""
    assert moist_conductivity(0.040, assumed("build_ups.moist_factor")) == pytest.approx(0.060)


def test_temperatures_fall_with_the_resistances():
    line = temperatures_through(293.15, 263.15, (0.04, 0.0, 1.25, 0.15, 0.07, 0.13))
    assert line.shape == (7,)
    assert line[0] == 263.15
    assert line[-1] == pytest.approx(293.15)
    assert line[1] == line[2] == pytest.approx(263.15 + 30 * 0.04 / 1.64)
    assert line[-2] == pytest.approx(293.15 - 30 * 0.13 / 1.64)


def test_temperatures_of_samples_come_with_their_axis_first():
    line = temperatures_through(np.array([293.15, 283.15]), 263.15, (0.04, np.array([1.0, 2.0]), 0.13))
    assert line.shape == (2, 4)
    assert line[1] == pytest.approx(temperatures_through(283.15, 263.15, (0.04, 2.0, 0.13)))


def test_films_and_layers_add_up():
    assert total_resistance(0.04, 1.25, 0.13) == pytest.approx(1.42)


def test_every_figure_of_the_table_knows_its_row():
    for known in materials().values():
        assert isinstance(known.conductivity, Traced)
        assert known.conductivity.origin.row == known.name
        assert known.conductivity.origin.source == known.source
