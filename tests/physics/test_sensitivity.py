"""Samples, percentiles and indices against SciPy's own and against closed forms."""

import numpy as np
import pytest
from scipy import stats

from dossier.physics.sensitivity import (
    counted_out,
    first_order_index,
    latin_hypercube,
    percentiles,
    total_index,
    triangular,
    variance,
)


def test_every_input_visits_each_of_its_strata_once():
    shares = latin_hypercube(7, samples=250, inputs=4)
    assert shares.shape == (4, 250)
    for row in shares:
        assert sorted(np.floor(row * 250).astype(int).tolist()) == list(range(250))


def test_the_same_seed_gives_the_same_samples_and_another_seed_others():
    one, same, other = (latin_hypercube(seed, 100, 3) for seed in (2**64 - 1, 2**64 - 1, 5))
    assert np.array_equal(one, same)
    assert not np.any(one == other)


def test_inputs_are_drawn_independently_of_each_other():
    """Rank correlation of independent samples: normal about 0 with 1/√(n − 1)."""
    shares = latin_hypercube(3, 10_000, 6)
    off = np.abs(stats.spearmanr(shares.T).statistic - np.eye(6))
    assert off.max() < 4 / np.sqrt(9_999)


def test_strata_spread_more_evenly_than_chance():
    """Centred discrepancy by SciPy, against that of plain random numbers."""
    ours = stats.qmc.discrepancy(latin_hypercube(11, 512, 2).T)
    chance = np.mean(
        [stats.qmc.discrepancy(np.random.default_rng(seed).random((512, 2))) for seed in range(5)]
    )
    assert ours < chance


@pytest.mark.parametrize(
    ("low", "likeliest", "high"), [(0.8, 1.0, 1.4), (2.0, 2.0, 5.0), (-4.0, 3.0, 3.0), (180.0, 500.0, 2800.0)]
)
def test_the_triangular_inverse_is_that_of_scipy(low, likeliest, high):
    shares = np.linspace(0, 1, 101)
    expected = stats.triang((likeliest - low) / (high - low), low, high - low).ppf(shares)
    assert triangular(shares, low, likeliest, high) == pytest.approx(expected, abs=1e-12 * (high - low))
    assert triangular(0.25, low, likeliest, high) == pytest.approx(float(expected[25]))


def test_where_the_ends_meet_the_value_is_known():
    assert np.array_equal(triangular(np.linspace(0, 1, 5), 3.0, 3.0, 3.0), np.full(5, 3.0))


def test_samples_outside_a_range_are_counted_and_left_out():
    samples = np.array([1.0, np.nan, 2.0, 3.0, np.nan])
    assert counted_out(samples) == 2
    assert percentiles(samples, (0.0, 0.5, 1.0)) == (1.0, 2.0, 3.0)
    assert variance(samples) == pytest.approx(2 / 3)
    assert total_index(samples, samples + np.array([1, 1, 1, 1, 1]), 2 / 3) == pytest.approx(0.75)


def test_no_sample_left_gives_no_percentile():
    assert np.isnan(percentiles(np.full(4, np.nan), (0.1, 0.9))).all()
    assert np.isnan(variance(np.full(4, np.nan)))


def test_where_nothing_varies_nothing_ranks():
    still = np.full(10, 4.0)
    assert total_index(still, still, variance(still)) == 0
    assert first_order_index(still, still, still, variance(still)) == 0


def test_indices_are_those_of_scipy_for_a_product():
    """U·A·Δθ with spreads of 10, 3 and 5 %: SciPy's estimators on a quasi-random sequence beside ours.

    A mean of 4,096 squares that scatter as much as they are large is sure within 0.016: thrice that.
    """
    ranges = [(0.9, 1.1), (0.97, 1.03), (0.95, 1.05)]

    def product(shares):
        return np.prod(
            [low + s * (high - low) for s, (low, high) in zip(shares, ranges, strict=True)], axis=0
        )

    ours = latin_hypercube(1, 4096, 3), latin_hypercube(2, 4096, 3)
    results = [product(each) for each in ours]
    spread = variance(*results)
    theirs = stats.sobol_indices(
        func=product, n=4096, dists=[stats.uniform()] * 3, rng=np.random.default_rng(1)
    )
    for place in range(3):
        mixed = ours[0].copy()
        mixed[place] = ours[1][place]
        moved = product(mixed)
        assert total_index(results[0], moved, spread) == pytest.approx(theirs.total_order[place], abs=0.048)
        assert first_order_index(*results, moved, spread) == pytest.approx(
            theirs.first_order[place], abs=0.048
        )
