"""Roots of equations that cannot be solved for the unknown, one or as many as there are samples."""

from collections.abc import Callable
from math import copysign, isnan, nan
from typing import Any

import numpy as np
from numpy.typing import NDArray

from dossier.notation import NotConverged, Real

STEPS = 200
"""More than bisection needs for any bracket of floats met here."""

SHARP = 4 * float(np.finfo(float).eps)
"""Relative width of a bracket that counts as a point."""


def are_samples(*numbers: Real) -> bool:
    """Whether any of the numbers stands for many."""
    return any(isinstance(number, np.ndarray) for number in numbers)


def bracketed_root(function: Callable[[Any], Any], low: Real, high: Real) -> Real:
    """Root of a continuous function that changes its sign between ``low`` and ``high``.

    Inverse quadratic steps where they can be trusted, halving of the bracket elsewhere (Chandrupatla, A new
    hybrid quadratic/bisection algorithm, 1997, from memory). With plain numbers the answer is a float, and
    ``NotConverged`` is raised where the signs at the ends agree; with arrays such samples give NaN.
    """
    if are_samples(low, high):
        return _roots(function, np.asarray(low, dtype=float), np.asarray(high, dtype=float))
    return _root(function, float(low), float(high))


def _root(function: Callable[[float], float], low: float, high: float) -> float:
    older, here, fore = high, low, high
    at_here, at_fore = float(function(here)), float(function(fore))
    at_older = at_fore
    if isnan(at_here) or isnan(at_fore):
        return nan
    if at_here == 0 or low == high:
        return here
    if at_fore == 0:
        return fore
    if copysign(1, at_here) == copysign(1, at_fore):
        raise NotConverged(f"no root between {low:g} and {high:g}: ends {at_here:g} and {at_fore:g}")
    share = 0.5
    for _ in range(STEPS):
        new = here + share * (fore - here)
        at_new = float(function(new))
        if copysign(1, at_new) == copysign(1, at_here):
            older, at_older = here, at_here
        else:
            older, at_older = fore, at_fore
            fore, at_fore = here, at_here
        here, at_here = new, at_new
        best, at_best = (here, at_here) if abs(at_here) < abs(at_fore) else (fore, at_fore)
        least = SHARP * abs(best) / abs(fore - here) if fore != here else 1.0
        if least > 0.5 or at_best == 0:  # noqa: PLR2004 - half the bracket
            return best
        share = min(max(_step(here, fore, older, at_here, at_fore, at_older), least), 1 - least)
    raise NotConverged(f"no root proven between {low:g} and {high:g}: {at_best:g} left at {best:g}")


def _step(here: float, fore: float, older: float, at_here: float, at_fore: float, at_older: float) -> float:
    """Share of the bracket to go: by inverse quadratic interpolation if that is safe, else a half."""
    place = (here - fore) / (older - fore)
    level = (at_here - at_fore) / (at_older - at_fore)
    if not (level**2 < place and (1 - level) ** 2 < 1 - place):
        return 0.5
    return float(_quadratic(here, fore, older, at_here, at_fore, at_older))


def _quadratic(here: Any, fore: Any, older: Any, at_here: Any, at_fore: Any, at_older: Any) -> Any:
    first = at_here / (at_fore - at_here) * at_older / (at_fore - at_older)
    second = at_here / (at_older - at_here) * at_fore / (at_older - at_fore)
    return first + (older - here) / (fore - here) * second


def _roots(function: Callable[[Any], Any], low: Any, high: Any) -> NDArray[np.float64]:
    low, high = (np.array(end) for end in np.broadcast_arrays(low, high))
    with np.errstate(all="ignore"):
        at_low, at_high = (np.asarray(function(end), dtype=float) + 0.0 * end for end in (low, high))
        at_end = (at_low == 0) | (at_high == 0) | (low == high)
        astray = ~(at_end | (np.sign(at_low) * np.sign(at_high) < 0))
        fore, at_fore, here, at_here = high, at_high, low, at_low
        share = np.full(low.shape, 0.5)
        best = low
        for _ in range(STEPS):
            new = here + share * (fore - here)
            at_new = np.asarray(function(new), dtype=float)
            same = np.signbit(at_new) == np.signbit(at_here)
            older, at_older = np.where(same, here, fore), np.where(same, at_here, at_fore)
            fore, at_fore = np.where(same, fore, here), np.where(same, at_fore, at_here)
            here, at_here = new, at_new
            nearer = np.abs(at_here) < np.abs(at_fore)
            best = np.where(nearer, here, fore)
            least = np.abs(SHARP * best / (fore - here))
            open_still = ~(astray | at_end | (np.minimum(np.abs(at_here), np.abs(at_fore)) == 0))
            open_still &= least <= 0.5  # noqa: PLR2004 - half the bracket
            if not open_still.any():
                break
            share = np.where(open_still, _steps(here, fore, older, at_here, at_fore, at_older), 0.5)
            share = np.clip(share, np.minimum(least, 0.5), 1 - np.minimum(least, 0.5))
            share = np.where(np.isfinite(share), share, 0.5)
        else:
            astray |= open_still
        best = np.where((at_low == 0) | (low == high), low, np.where(at_high == 0, high, best))
    return np.where(astray, np.nan, best)


def _steps(here: Any, fore: Any, older: Any, at_here: Any, at_fore: Any, at_older: Any) -> Any:
    """As ``_step``, for samples."""
    place = (here - fore) / (older - fore)
    level = (at_here - at_fore) / (at_older - at_fore)
    trusted = (level**2 < place) & ((1 - level) ** 2 < 1 - place)
    return np.where(trusted, _quadratic(here, fore, older, at_here, at_fore, at_older), 0.5)
