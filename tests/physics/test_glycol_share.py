"""Shares of glycol by mass, volume and moles, and across the data sets."""

import numpy as np
import pytest

from dossier.data.fluid_tables import fluid_set
from dossier.notation import Basis, Influence, Line, OutOfRange, Traced, lines_behind
from dossier.physics.glycol_share import (
    counted_alike,
    glycol_mass_share,
    mass_share,
    share_by,
    volume_share,
    water_mole_fraction,
)


def test_half_and_half_by_weight_of_equal_densities_is_half_by_volume():
    assert volume_share(0.5, 1000.0, 1000.0) == 0.5


def test_there_and_back_is_the_same_share():
    shares = np.linspace(0, 1, 11)
    assert mass_share(volume_share(shares, 1113.5, 998.2), 1113.5, 998.2) == pytest.approx(shares)


def test_a_heavier_glycol_has_more_share_by_mass_than_by_volume():
    assert mass_share(0.4, 1113.5, 998.2) == pytest.approx(0.4 * 1113.5 / (0.4 * 1113.5 + 0.6 * 998.2))


def test_mole_fraction_of_water_in_equal_weights():
    """Worked by hand: 1/0.018015 against 1/0.062068 mol."""
    assert water_mole_fraction(0.5, 0.062068, 0.018015) == pytest.approx(
        55.5093 / (55.5093 + 16.1114), rel=1e-5
    )


def test_a_share_counted_as_the_set_counts_is_left_alone():
    assert share_by("volume", 0.4, fluid_set("propylene glycol")) == 0.4
    assert share_by("mass", 0.4, fluid_set("propylene glycol", inhibited=False)) == 0.4


def test_a_pure_mix_poured_by_volume_is_weighed():
    pure = fluid_set("propylene glycol", inhibited=False)
    assert share_by("volume", 0.4, pure) == pytest.approx(mass_share(0.4, 1036.1, 998.2))


def test_a_share_is_counted_by_mass_or_volume_only():
    with pytest.raises(ValueError, match="by mass or by volume"):
        share_by("moles", 0.4, fluid_set("propylene glycol"))


def test_samples_beyond_the_pairs_are_no_numbers():
    found = share_by("mass", np.array([0.4, 0.7]), fluid_set("ethylene glycol"))
    assert found[0] == pytest.approx(0.375)
    assert np.isnan(found[1])


def test_a_share_beyond_the_pairs_is_refused():
    with pytest.raises(OutOfRange, match="ASHRAE"):
        share_by("mass", 0.7, fluid_set("ethylene glycol"))


def test_a_converted_share_remembers_its_line():
    line = Line("circuit.coolant.share", "35 %", Basis.MEASURED, "boat.yaml", 9, 3)
    found = share_by("mass", Traced(0.35, line), fluid_set("ethylene glycol"))
    assert lines_behind(found) == [line]
    assert Influence().moves(found)[line] == pytest.approx(0.35 * 0.98, rel=0.02)


def test_water_holds_no_glycol():
    assert glycol_mass_share(0.0, fluid_set("water")) == 0


def test_the_same_mix_in_both_sets():
    inhibited, pure = fluid_set("propylene glycol"), fluid_set("propylene glycol", inhibited=False)
    assert counted_alike(0.396, inhibited, pure) == pytest.approx(0.40)
    assert counted_alike(0.40, pure, inhibited) == pytest.approx(0.396)
