"""Curves through the nodes of a table: they meet the nodes, their slope is continuous."""

import numpy as np
import pytest

from dossier.data.fluid_tables import PROPERTIES, fluid_set, fluid_table
from dossier.physics.property_curves import curves_of, interpolated


def test_a_cubic_is_met_exactly_by_four_nodes():
    """Identity: a cubic through four nodes of a cubic is that cubic."""
    nodes = np.array([0.0, 0.7, 1.0, 2.5, 3.0])
    cubic = 2 - nodes + 3 * nodes**2 - 0.5 * nodes**3
    at = np.linspace(0, 3, 31)
    found = interpolated(nodes, cubic[None, :], at)[0]
    assert found == pytest.approx(2 - at + 3 * at**2 - 0.5 * at**3)


def test_nothing_is_extrapolated():
    nodes = np.array([1.0, 2.0, 3.0])
    assert np.isnan(interpolated(nodes, nodes[None, :], np.array([0.9, 3.1]))).all()


def test_the_table_stands_on_the_curve():
    mix = fluid_set("propylene glycol")
    curves = curves_of(mix, 0.4)
    for isotherm in fluid_table(mix.key).isotherms:
        column = np.flatnonzero(np.isclose(isotherm.nodes, 0.4))
        if isotherm.temperature > curves.lowest + 0.5 and column.size:
            for place, _ in enumerate(PROPERTIES):
                expected = isotherm.columns[place, column[0]]
                assert curves.at(place, isotherm.temperature) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("place", range(len(PROPERTIES)))
def test_the_slope_has_no_step_at_a_node(place):
    curves = curves_of(fluid_set("ethylene glycol"), 0.41)
    tiny = 1e-4
    for node in np.arange(263.15, 368.15, 5.0):
        before = curves.at(place, node) - curves.at(place, node - tiny)
        after = curves.at(place, node + tiny) - curves.at(place, node)
        assert after == pytest.approx(before, rel=2e-3, abs=1e-9)


def test_viscosity_falls_and_density_falls_with_temperature_all_along():
    for share in (0.1, 0.25, 0.4, 0.5, 0.6):
        curves = curves_of(fluid_set("propylene glycol"), share)
        temperatures = np.linspace(curves.lowest, curves.highest, 400)
        assert (np.diff(curves.samples(PROPERTIES.index("viscosity"), temperatures)) < 0).all()
        assert (np.diff(curves.samples(PROPERTIES.index("density"), temperatures)) < 0).all()
