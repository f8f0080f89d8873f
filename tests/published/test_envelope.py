"""Films, layers, air layers, combined method and glazing, against ISO 6946, EN 673 and worked examples."""

import numpy as np
import pytest

from dossier.data.materials import material
from dossier.data.surface_resistances import HeatFlow, inside_surface_resistance, mould_surface_resistance
from dossier.physics.air_film import black_body_coefficient, film_resistance, outside_surface_resistance
from dossier.physics.build_up import Frame, build_up
from dossier.physics.envelope import (
    Layer,
    air_layer_resistance,
    layer_resistance,
    section_conductance,
    total_resistance,
    transmission_loss,
    transmittance,
)
from dossier.physics.glazing import gap_resistance
from dossier.physics.moisture import temperature_factor

ICE_POINT = 273.15


@pytest.mark.parametrize(
    ("direction", "resistance"),
    [("up", 0.10), ("horizontal", 0.13), ("down", 0.17)],
)
def test_inside_surface_resistance_of_iso_6946_2007_table_1(direction, resistance):
    assert inside_surface_resistance(direction) == resistance


def test_surface_resistance_for_mould_of_iso_13788_is_not_that_of_the_heat_loss():
    assert mould_surface_resistance() == 0.25


@pytest.mark.parametrize(
    ("celsius", "coefficient"),
    [(-10, 4.1), (0, 4.6), (10, 5.1), (20, 5.7), (30, 6.3)],
)
def test_black_body_coefficient_of_iso_6946_2007_table_a1_from_memory(celsius, coefficient):
    assert black_body_coefficient(ICE_POINT + celsius) == pytest.approx(coefficient, abs=0.06)


@pytest.mark.parametrize(
    ("celsius", "coefficient"),
    [(-10, 4.133156), (0, 4.622483), (10, 5.148982), (20, 5.714015)],
)
def test_black_body_coefficient_is_the_derivative_of_stefan_and_boltzmann(celsius, coefficient):
    assert black_body_coefficient(ICE_POINT + celsius) == pytest.approx(coefficient, rel=1e-6)


@pytest.mark.parametrize(
    ("wind", "resistance"),
    [(1, 0.08), (2, 0.06), (3, 0.05), (4, 0.04), (5, 0.04), (7, 0.03), (10, 0.02)],
)
def test_outside_surface_resistance_of_iso_6946_2007_table_a2_from_memory(wind, resistance):
    assert outside_surface_resistance(wind, 0.9, ICE_POINT) == pytest.approx(resistance, abs=0.005)


@pytest.mark.parametrize(
    ("wind", "resistance"),
    [
        (0, 0.1225455),
        (1, 0.08223526),
        (2, 0.06188029),
        (4, 0.04139033),
        (5, 0.03551107),
        (7, 0.02765469),
        (10, 0.02076402),
        (15, 0.01467131),
        (20, 0.01134298),
    ],
)
def test_outside_surface_resistance_counts_radiation_beside_wind(wind, resistance):
    """Arithmetic on the form of ISO 6946: wind alone would give 0.25 in still air, 0.05 at 4 m/s."""
    assert outside_surface_resistance(wind, 0.9, ICE_POINT) == pytest.approx(resistance, rel=1e-6)


def test_sea_film_of_500_is_two_thousandths_common_practice_no_source():
    assert film_resistance(500.0) == 0.002


TABLE_2 = {
    0: (0, 0, 0),
    5: (0.11, 0.11, 0.11),
    7: (0.13, 0.13, 0.13),
    10: (0.15, 0.15, 0.15),
    15: (0.16, 0.17, 0.17),
    25: (0.16, 0.18, 0.19),
    50: (0.16, 0.18, 0.21),
    100: (0.16, 0.18, 0.22),
    300: (0.16, 0.18, 0.23),
}


@pytest.mark.parametrize(
    "column", range(3), ids=[flow.value for flow in (HeatFlow.UP, HeatFlow.HORIZONTAL, HeatFlow.DOWN)]
)
@pytest.mark.parametrize("thickness", TABLE_2)
def test_air_layers_of_iso_6946_2007_table_2(thickness, column):
    direction = (HeatFlow.UP, HeatFlow.HORIZONTAL, HeatFlow.DOWN)[column]
    assert air_layer_resistance(thickness / 1000, direction) == TABLE_2[thickness][column]


def air_layer_of_2017(thickness, direction):
    """1/(h_a + h_r): h_a = max(1.95 up, 1.25 across, 0.12·d^-0.44 down; 0.025/d), h_r = 5.1/(2/0.9 - 1)."""
    moving = {HeatFlow.UP: 1.95, HeatFlow.HORIZONTAL: 1.25, HeatFlow.DOWN: 0.12 * thickness**-0.44}[direction]
    return 1 / (max(moving, 0.025 / thickness) + 5.1 / (2 / 0.9 - 1))


@pytest.mark.parametrize("thickness", [0.005, 0.007, 0.010, 0.015, 0.025, 0.050, 0.100, 0.300])
@pytest.mark.parametrize("direction", list(HeatFlow))
def test_air_layers_of_the_table_agree_with_the_formula_of_iso_6946_2017(thickness, direction):
    computed = air_layer_of_2017(thickness, direction)
    assert air_layer_resistance(thickness, direction) == pytest.approx(computed, abs=0.005)


@pytest.mark.parametrize("thickness", [0.006, 0.008, 0.012, 0.020, 0.035, 0.070, 0.200])
@pytest.mark.parametrize("direction", list(HeatFlow))
def test_air_layers_between_the_rows_lie_within_one_hundredth_of_that_formula(thickness, direction):
    """Straight between the rows of the table cuts the knee of the formula near 20 mm."""
    computed = air_layer_of_2017(thickness, direction)
    assert air_layer_resistance(thickness, direction) == pytest.approx(computed, abs=0.01)


EXAMPLE_A = ([0.11, 0.01, 0.03, 0.03, 0.01], [0.69, 0.41, 0.037, 0.44, 0.57])
EXAMPLE_B = ([0.03, 0.02, 0.05, 0.14, 0.015], [3.5, 1.3, 0.034, 0.432, 0.3])


def resistance_of_example(example, inside_film=0.13):
    layers = [layer_resistance(d, k) for d, k in zip(*example, strict=True)]
    return total_resistance(0.04, *layers, inside_film)


def test_total_resistance_of_a_printed_wall():
    """Open example data with printed results after the Spanish building code CTE DB-HE (ISO 6946)."""
    assert resistance_of_example(EXAMPLE_A) == pytest.approx(1.25, abs=0.005)


@pytest.mark.parametrize(("example", "printed"), [(EXAMPLE_A, 0.80), (EXAMPLE_B, 0.49)])
def test_transmittance_of_a_printed_wall(example, printed):
    """The same example data."""
    assert transmittance(resistance_of_example(example)) == pytest.approx(printed, abs=0.005)


@pytest.mark.parametrize(("example", "printed"), [(EXAMPLE_A, 0.80), (EXAMPLE_B, 0.88)])
def test_temperature_factor_of_a_printed_wall(example, printed):
    """The same example data: f_Rsi = 1 - 0.25·U with the U of the heat loss, as that code has it."""
    factor = temperature_factor(transmittance(resistance_of_example(example)), 0.25)
    assert factor == pytest.approx(printed, abs=0.005)


PLYWOOD = Layer("plywood", 0.009, 0.13)
TIMBERED = (PLYWOOD, Layer("mineral_wool", 0.05, 0.040), PLYWOOD), Frame(0.13, 0.5, 0.05, 0.05, 0.05)
STEEL = (
    (Layer("steel", 0.005, 50.0), Layer("mineral_wool", 0.06, 0.040), PLYWOOD),
    Frame(50.0, 0.5, 0.005, 0.06, 0.05),
)
ALUMINIUM = (
    (Layer("aluminium", 0.005, 160.0), Layer("foam", 0.06, 0.028), PLYWOOD),
    Frame(160.0, 0.5, 0.005, 0.06, 0.05),
)


@pytest.mark.parametrize(
    ("wall", "upper", "lower"),
    [
        (TIMBERED, 1.38547, 1.32887),
        (STEEL, 1.637307, 0.3505242),
        (ALUMINIUM, 2.186623, 0.2761234),
    ],
    ids=["timber 10 %", "steel web 1 %", "aluminium web 1 %"],
)
def test_limits_of_the_combined_method(wall, upper, lower):
    """Arithmetic on the combined method of ISO 6946, R_si 0.13 and R_se 0.04."""
    layers, frame = wall
    found = build_up(layers, HeatFlow.HORIZONTAL, 0.04, 0.13, frame)
    assert found.upper == pytest.approx(upper, rel=1e-6)
    assert found.lower == pytest.approx(lower, rel=1e-6)
    assert found.ratio == pytest.approx(upper / lower, rel=1e-6)


def test_timber_frames_take_the_mean_of_the_limits():
    """Arithmetic on the combined method of ISO 6946."""
    layers, frame = TIMBERED
    assert build_up(layers, HeatFlow.HORIZONTAL, 0.04, 0.13, frame).transmittance == pytest.approx(
        0.7368274, rel=1e-6
    )


def test_metal_frames_do_not_take_the_mean_of_the_limits():
    """ISO 6946: at 4.7 times the mean of the limits, 1.006 W/m2K here, is no answer."""
    layers, frame = STEEL
    found = build_up(layers, HeatFlow.HORIZONTAL, 0.04, 0.13, frame)
    assert found.transmittance == pytest.approx(found.between + found.fins.addition)
    assert found.transmittance != pytest.approx(1.006122, rel=0.01)


@pytest.mark.parametrize(
    ("layers", "films", "total", "printed"),
    [
        (
            (
                Layer("grp", 0.010, 0.40),
                Layer("xps", 0.030, 0.035),
                Layer("air", 0.015),
                Layer("ply", 0.006, 0.13),
            ),
            (0.04, 0.13),
            1.268297,
            0.788459,
        ),
        (
            (Layer("steel", 0.006, 50.0), Layer("nitrile", 0.019, 0.036), Layer("ply", 0.012, 0.13)),
            (0.002, 0.17),
            0.7922055,
            1.262299,
        ),
    ],
    ids=["glass-fibre hull", "steel in the sea"],
)
def test_transmittance_of_hulls_without_frames(layers, films, total, printed):
    """Arithmetic on ISO 6946."""
    found = build_up(layers, HeatFlow.HORIZONTAL, *films)
    assert found.upper == found.lower == pytest.approx(total, rel=1e-6)
    assert found.transmittance == pytest.approx(printed, rel=1e-6)


@pytest.mark.parametrize(
    ("name", "thickness", "printed"),
    [
        ("glass", 0.006, 5.681818),
        ("glass", 0.008, 5.617978),
        ("acrylic", 0.010, 4.433498),
        ("polycarbonate", 0.008, 4.761905),
    ],
)
def test_transmittance_of_one_pane(name, thickness, printed):
    """Arithmetic on ISO 6946 with the conductivities of EN 12524, R_si 0.13, R_se 0.04."""
    pane = layer_resistance(thickness, material(name).conductivity)
    assert transmittance(total_resistance(0.04, pane, 0.13)) == pytest.approx(printed, rel=1e-6)


def test_one_pane_of_4_mm_has_the_usual_value_of_en_673_from_memory():
    pane = layer_resistance(0.004, material("glass").conductivity)
    assert transmittance(total_resistance(0.04, pane, 0.13)) == pytest.approx(5.8, abs=0.15)


@pytest.mark.parametrize(
    ("gap", "printed"), [(0.006, 3.3), (0.008, 3.1), (0.012, 2.9), (0.016, 2.7), (0.020, 2.7)]
)
def test_two_panes_of_4_mm_have_the_usual_values_of_en_673_from_memory(gap, printed):
    pane = layer_resistance(0.004, material("glass").conductivity)
    found = transmittance(total_resistance(0.04, pane, gap_resistance(gap), pane, 0.13))
    assert found == pytest.approx(printed, abs=0.15)


def test_transmission_loss_is_the_definition_of_transmittance():
    """ISO 7345, definition of U: 2 W/m2K, 10 m2, 30 K."""
    assert transmission_loss(2.0, 10.0, 293.15, 263.15) == pytest.approx(600.0)
    assert section_conductance(2.0, 10.0) * 30 == pytest.approx(600.0)


def test_samples_give_what_single_numbers_give():
    """Identity: the same wall one by one and all at once."""
    spacings = np.array([0.3, 0.5, 0.8])
    layers = STEEL[0]
    at_once = build_up(
        layers, HeatFlow.HORIZONTAL, 0.04, 0.13, Frame(50.0, spacings, 0.005, 0.06, 0.05)
    ).transmittance
    singly = [
        build_up(layers, HeatFlow.HORIZONTAL, 0.04, 0.13, Frame(50.0, s, 0.005, 0.06, 0.05)).transmittance
        for s in spacings
    ]
    assert at_once == pytest.approx(singly)
