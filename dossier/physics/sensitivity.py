"""Samples of what is not known, their percentiles, and which input moves a result most.

    shares = latin_hypercube(seed, samples=10_000, inputs=3)
    lengths = triangular(shares[0], 1.8, 2.0, 2.4)
    p10, p50, p90 = percentiles(result, (0.1, 0.5, 0.9))

Ranking: two sets of samples A and B, and for each input a set that is A but for this one input, taken from
B. The first-order index is the share of the variance that goes when this input alone is known; the total
index is what stays when all others are known. An input that acts only together with others has a total
index but no first-order one, so the ranking goes by the total index.

Arrays of samples hold NaN where a sample left the range of a formula: those are left out and counted, never
clipped.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from dossier.notation import Real

Samples = NDArray[np.float64]


def latin_hypercube(seed: int, samples: int, inputs: int) -> Samples:
    """Shares between 0 and 1, of shape ``[inputs, samples]``: each input visits each of its strata once.

    The same seed, a whole number of any size from 0, gives the same shares.
    """
    draw = np.random.Generator(np.random.PCG64(seed))
    strata = np.broadcast_to(np.arange(samples, dtype=float), (inputs, samples))
    return (draw.permuted(strata, axis=1) + draw.random((inputs, samples))) / samples


def triangular(shares: Real, low: float, likeliest: float, high: float) -> Real:
    """Value below which a triangular quantity lies with a probability; elementwise.

    Density rises from ``low`` to ``likeliest`` and falls to ``high``; ``likeliest`` may be either end. Where
    the ends meet, the value itself.
    """
    width = high - low
    if width <= 0:
        return likeliest + 0.0 * shares
    rising = low + np.sqrt(shares * (width * (likeliest - low)))
    falling = high - np.sqrt((1 - shares) * (width * (high - likeliest)))
    return np.where(np.asarray(shares) * width < likeliest - low, rising, falling)[()]


def counted_out(samples: Samples) -> int:
    """How many samples left the range of a formula."""
    return int(np.count_nonzero(np.isnan(samples)))


def percentiles(samples: Samples, shares: Sequence[float]) -> tuple[float, ...]:
    """Values below which shares of the samples lie, straight between neighbours; NaN where none is left."""
    inside = samples[~np.isnan(samples)]
    if not inside.size:
        return tuple(float("nan") for _ in shares)
    return tuple(float(value) for value in np.quantile(inside, shares))


def _mean_square(one: Samples, other: Samples) -> float:
    """Mean square of differences, pairs with NaN left out."""
    difference = one - other
    difference = difference[~np.isnan(difference)]
    return float(np.mean(difference**2)) if difference.size else float("nan")


def _mean(*sets: Samples) -> float:
    """Mean of all samples of several sets together, NaN left out; the sets hold some."""
    return float(np.nanmean(np.concatenate(sets)))


def variance(*sets: Samples) -> float:
    """Variance of all samples of several sets together, NaN left out."""
    together = np.concatenate(sets)
    together = together[~np.isnan(together)]
    return float(np.var(together)) if together.size else float("nan")


def total_index(base: Samples, moved: Samples, spread: float) -> float:
    """Total-order index of an input: share of the variance that stays when all others are known.

    ``base`` are results of set A, ``moved`` those of A with this one input from B, ``spread`` the variance.
    Estimator of Jansen (1999); 0 where nothing varies.
    """
    return _mean_square(base, moved) / (2 * spread) if spread > 0 else 0.0


def first_order_index(base: Samples, other: Samples, moved: Samples, spread: float) -> float:
    """First-order index of an input: share of the variance that goes when this one is known.

    ``base`` are results of set A, ``other`` those of B, ``moved`` those of A with this one input from B.
    Estimator of Saltelli and others (2010), about the mean; sampling may leave it a little below 0 where the
    input does nothing by itself.
    """
    products = (other - _mean(base, other)) * (moved - base)
    products = products[~np.isnan(products)]
    return float(np.mean(products)) / spread if spread > 0 and products.size else 0.0
