"""Spread and ranking against the Guide to the Expression of Uncertainty and functions with known indices.

JCGM 100:2008 (GUM): H.1, calibration of an end gauge; 4.3.7 and 4.3.9, uniform and triangular quantities;
5.1, sums and products. Ishigami and Homma (1990): a function whose indices are known in closed form.
"""

import numpy as np
import pytest
from scipy import stats

from dossier.physics.sensitivity import (
    first_order_index,
    latin_hypercube,
    percentiles,
    total_index,
    triangular,
    variance,
)

SAMPLES = 10_000


def indices(function, quantiles, seed=1):
    """First-order and total indices of a function of shares, one quantile function for each input."""

    def results(shares):
        return function(*(quantile(row) for quantile, row in zip(quantiles, shares, strict=True)))

    one, other = (latin_hypercube(seed + k, SAMPLES, len(quantiles)) for k in (0, 1))
    base, second = results(one), results(other)
    spread = variance(base, second)
    found = []
    for place in range(len(quantiles)):
        mixed = one.copy()
        mixed[place] = other[place]
        moved = results(mixed)
        found.append((first_order_index(base, second, moved, spread), total_index(base, moved, spread)))
    return found


def ishigami(x1, x2, x3):
    return np.sin(x1) + 7 * np.sin(x2) ** 2 + 0.1 * x3**4 * np.sin(x1)


ROUND = [lambda share: np.pi * (2 * share - 1)] * 3


def test_mean_and_variance_of_the_ishigami_function():
    """Analytic: a/2 = 3.5; variance 13.84459."""
    values = ishigami(*(q(s) for q, s in zip(ROUND, latin_hypercube(1, SAMPLES, 3), strict=True)))
    assert values.mean() == pytest.approx(3.5, abs=0.1)
    assert variance(values) == pytest.approx(13.84459, abs=0.3)


@pytest.mark.parametrize("seed", [1, 20, 300])
def test_indices_of_the_ishigami_function(seed):
    """Analytic: the third input does nothing by itself, and a quarter together with the first."""
    found = indices(ishigami, ROUND, seed)
    first, total = zip(*found, strict=True)
    assert first == pytest.approx((0.3139052, 0.4424111, 0.0), abs=0.03)
    assert total == pytest.approx((0.5575889, 0.4424111, 0.2436837), abs=0.03)


def test_indices_of_a_linear_sum_are_its_shares_of_variance():
    """Coefficients 3, 2, 1 and standard deviations 1, 1, 2: (c·s)² over their sum."""
    normal = [stats.norm(scale=s).ppf for s in (1, 1, 2)]
    found = indices(lambda a, b, c: 3 * a + 2 * b + c, normal)
    for (first, total), expected in zip(found, (0.5294118, 0.2352941, 0.2352941), strict=True):
        assert total == pytest.approx(expected, abs=0.02)
        assert first == pytest.approx(expected, abs=0.03)


GAUGE = {
    # value and standard uncertainty; lengths in nm, expansion in 1/K, temperatures in K
    "standard": (50_000_623.0, 25.0),
    "difference": (215.0, 9.7),
    "expansion": (11.5e-6, 1.2e-6),
    "expansion_apart": (0.0, 0.58e-6),
    "temperature": (-0.1, 0.41),
    "temperature_apart": (0.0, 0.029),
}


def gauge(standard, difference, expansion, *apart):
    expansion_apart, temperature, temperature_apart = apart
    return standard + difference - standard * (expansion_apart * temperature + expansion * temperature_apart)


def gauge_samples(**kept):
    shares = latin_hypercube(4, 20_000, len(GAUGE))
    inputs = [stats.norm(*figures).ppf(row) for figures, row in zip(GAUGE.values(), shares, strict=True)]
    return gauge(
        *(np.full(len(x), kept[name]) if name in kept else x for name, x in zip(GAUGE, inputs, strict=True))
    )


def test_length_of_the_end_gauge_of_the_guide():
    """GUM H.1: 50 000 838 nm; first order 31.7 nm (printed 32), with second order 34 nm (H.1.7)."""
    whole = gauge_samples()
    assert whole.mean() == pytest.approx(50_000_838, abs=0.5)
    assert whole.std() == pytest.approx(34, abs=0.6)
    linear = gauge_samples(expansion=11.5e-6, temperature=-0.1)
    assert linear.std() == pytest.approx(31.71061, rel=0.02)


def test_two_inputs_of_the_end_gauge_act_only_together_with_others():
    """GUM H.1: expansion and temperature have no sensitivity at the estimates, yet a total index.

    In closed form each acts by the product of its own and its partner's standard uncertainty.
    """
    found = indices(gauge, [stats.norm(*figures).ppf for figures in GAUGE.values()])
    length = GAUGE["standard"][0]
    pairs = [length * 1.2e-6 * 0.029, length * 0.58e-6 * 0.41]
    whole = 31.71061**2 + sum(pair**2 for pair in pairs)
    for place, pair in zip((2, 4), pairs, strict=True):
        first, total = found[place]
        assert first == pytest.approx(0, abs=0.02)
        assert total == pytest.approx(pair**2 / whole, rel=0.1)


@pytest.mark.parametrize(("share", "expected"), [(0.1, 0.9095445), (0.5, 1.05359), (0.9, 1.245081)])
def test_percentiles_of_a_triangular_quantity(share, expected):
    """Low 0.8, likeliest 1, high 1.4: inverse of the triangular distribution."""
    assert triangular(share, 0.8, 1.0, 1.4) == pytest.approx(expected, rel=1e-6)
    samples = triangular(latin_hypercube(2, SAMPLES, 1)[0], 0.8, 1.0, 1.4)
    assert percentiles(samples, (share,))[0] == pytest.approx(expected, abs=0.01)


def test_standard_uncertainty_of_a_triangular_quantity():
    """GUM 4.3.9: a/√6 for a symmetric triangle of half-width a."""
    samples = triangular(latin_hypercube(2, SAMPLES, 1)[0], 14.0, 20.0, 26.0)
    assert np.sqrt(variance(samples)) == pytest.approx(6 / np.sqrt(6), rel=1e-3)


@pytest.mark.parametrize(("share", "expected"), [(0.1, 4231.069), (0.5, 5000), (0.9, 5768.931)])
def test_percentiles_of_a_normal_load(share, expected):
    """Mean 5,000 W, standard deviation 600 W: μ + z·σ."""
    samples = stats.norm(5000, 600).ppf(latin_hypercube(3, SAMPLES, 1)[0])
    assert percentiles(samples, (share,))[0] == pytest.approx(expected, abs=25)


def test_relative_uncertainty_of_a_product():
    """GUM 5.1.6: U·A·Δθ with 10, 3 and 5 % gives 11.576 %."""
    shares = latin_hypercube(5, 20_000, 3)
    one, two, three = (stats.norm(1, u).ppf(row) for u, row in zip((0.1, 0.03, 0.05), shares, strict=True))
    assert np.sqrt(variance(one * two * three)) == pytest.approx(0.1157584, rel=0.01)


def test_uncertainty_of_a_sum_of_three_loads():
    """GUM 5.1.2: 120, 80 and 40 W give 149.666 W."""
    shares = latin_hypercube(6, 20_000, 3)
    loads = sum(stats.norm(1000, u).ppf(row) for u, row in zip((120, 80, 40), shares, strict=True))
    assert np.sqrt(variance(loads)) == pytest.approx(149.6663, rel=0.01)
