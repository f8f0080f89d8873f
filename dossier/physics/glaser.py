"""Water inside a build-up, month by month: where vapour condenses in winter and whether it dries in summer.

    year = glaser_year(parts, months)            # parts from outside to inside, films kept apart
    year.peak, year.dries, year.faces

The vapour pressure is a string pulled tight under the saturation line between outside and inside air; where
it touches, water gathers at the rate by which its slope breaks. A face that holds water keeps its saturation
pressure until it is dry, and a month is parted at that moment. Steady months, no liquid flow, no stored
vapour: a comparison of build-ups rather than a forecast (ISO 13788:2012, clause 6).
"""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil
from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from dossier.data.sources import ISO_13788_GLASER
from dossier.notation import Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.moisture import saturation_pressure

_DAY = 86400.0
_THICKEST_PART = 0.25
"""The standard parts layers of more than this resistance, m2K/W."""

Line = NDArray[np.float64]


@formula("s_d = μ·d", ISO_13788_GLASER)
def vapour_thickness(
    vapour_factor: Annotated[Real, q("μ", "1", "water vapour resistance factor", low=1, high=1e6)],
    thickness: Annotated[Real, q("d", "m", "thickness of the layer", low=0, high=2)],
) -> Annotated[Real, q("s_d", "m", "diffusion-equivalent thickness of air", low=0)]:
    """Thickness of still air that resists vapour as the layer does."""
    return vapour_factor * thickness


@formula("g = 2e-10·(p_1 − p_2)/s_d", ISO_13788_GLASER)
def diffusion_rate(
    from_pressure: Annotated[Real, q("p_1", "Pa", "vapour pressure on the one side", low=0, high=1e5)],
    to_pressure: Annotated[Real, q("p_2", "Pa", "vapour pressure on the other side", low=0, high=1e5)],
    vapour_thickness: Annotated[Real, q("s_d", "m", "diffusion-equivalent thickness", low=1e-4, high=1e7)],
) -> Annotated[Real, q("g", "kg/m2s", "vapour that diffuses")]:
    """Vapour that diffuses through layers, for each square metre; on tight plating all of it condenses."""
    return 2e-10 * (from_pressure - to_pressure) / vapour_thickness


@dataclass(frozen=True)
class Part:
    """One layer of a build-up as vapour and heat meet it: resistance (m2K/W) and s_d (m)."""

    name: str
    resistance: float
    vapour_thickness: float


@dataclass(frozen=True)
class Month:
    """One month: mean temperatures (K), relative humidities, and its length in days."""

    inside: float
    outside: float
    humidity_inside: float
    humidity_outside: float
    days: float


@dataclass(frozen=True)
class WetFace:
    """A face that gets wet, between two layers or inside one, and its water at each month's end (kg/m2)."""

    outer: str
    inner: str
    water: tuple[float, ...]


@dataclass(frozen=True)
class GlaserYear:
    """A year of condensing and drying, told in calendar order of the months given.

    ``water`` is what the whole build-up holds at each month's end, ``peak`` the most of it (kg/m2). ``dries``
    says whether all of it has gone again before the next winter. ``faces`` names every face that gets wet.
    """

    water: tuple[float, ...]
    peak: float
    dries: bool
    faces: tuple[WetFace, ...]


def parted(parts: Sequence[Part]) -> list[Part]:
    """The same build-up with thick insulation parted, so that the saturation line bends as it should."""
    finer = []
    for part in parts:
        count = max(1, ceil(part.resistance / _THICKEST_PART - 1e-9))
        finer += [Part(part.name, part.resistance / count, part.vapour_thickness / count)] * count
    return finer


def _hull(places: Line, pressures: Line) -> list[int]:
    """Points that a string pulled tight from below touches, first and last included."""
    touched: list[int] = []
    for k in range(len(places)):
        while len(touched) > 1:
            a, b = touched[-2:]
            slope = (pressures[k] - pressures[a]) / (places[k] - places[a])
            if pressures[b] < pressures[a] + slope * (places[b] - places[a]):
                break
            touched.pop()
        touched.append(k)
    return touched


def condensing_rates(places: Line, limits: Line, wet: Sequence[int]) -> Line:
    """Rate at which water gathers at each face, kg/m2s; negative where a wet face dries.

    ``places`` holds s_d from outside to every face (m), rising; ``limits`` the vapour pressure of the outside
    air, the saturation pressure at each face within, and the vapour pressure of the inside air (Pa). ``wet``
    names the faces that already hold water.
    """
    stops = [0, *sorted(wet), len(places) - 1]
    touched = [0]
    for first, last in pairwise(stops):
        touched += [first + k for k in _hull(places[first : last + 1], limits[first : last + 1])[1:]]
    slopes = np.diff(limits[touched]) / np.diff(places[touched])
    rates = np.zeros(len(places))
    rates[touched[1:-1]] = 2e-10 * np.diff(slopes)
    return rates


def _month_line(parts: Sequence[Part], films: tuple[float, float], month: Month) -> Line:
    """Limits of the vapour pressure at every face in one month (Pa): the air's own at dry outer faces."""
    outside_film, inside_film = films
    steps = np.cumsum([outside_film, *(part.resistance for part in parts)])
    shares = steps / (steps[-1] + inside_film)
    saturated = saturation_pressure.function(month.outside + (month.inside - month.outside) * shares)
    limits = np.array(saturated, dtype=float)
    outside = month.humidity_outside * saturation_pressure.function(month.outside)
    inside = month.humidity_inside * saturation_pressure.function(month.inside)
    limits[0], limits[-1] = min(limits[0], outside), min(limits[-1], inside)
    return limits


def _after(month: Month, places: Line, limits: Line, water: Line) -> Line:
    """Water at each face after a month, the month parted wherever a face falls dry."""
    water, left = water.copy(), month.days * _DAY
    while left > 0:
        rates = condensing_rates(places, limits, [int(k) for k in np.flatnonzero(water > 0)])
        drying = np.flatnonzero((rates < 0) & (water > 0))
        spans = water[drying] / -rates[drying]
        span = min(left, float(np.min(spans, initial=left)))
        water += rates * span
        water[drying[spans <= span]] = 0.0
        left -= span
    return water


def glaser_year(parts: Sequence[Part], months: Sequence[Month], films: tuple[float, float]) -> GlaserYear:
    """A year of months in calendar order, begun with the first month that condenses after one that does not.

    ``parts`` runs from outside to inside, each with some s_d; ``films`` is R_se and R_si (m2K/W). Where every
    month condenses the year begins with the first and nothing dries.
    """
    finer = parted(parts)
    places = np.concatenate([[0.0], np.cumsum([part.vapour_thickness for part in finer])])
    lines = [_month_line(finer, films, month) for month in months]
    count = len(months)
    condenses = [bool(np.any(condensing_rates(places, line, []) > 0)) for line in lines]
    starts = [k for k in range(count) if condenses[k] and not condenses[k - 1]]
    first = starts[0] if starts else 0
    water = np.zeros(len(places))
    course = np.zeros((count, len(places)))
    for k in (*range(first, count), *range(first)):
        water = _after(months[k], places, lines[k], water)
        course[k] = water
    faces = tuple(
        WetFace(finer[face - 1].name, finer[face].name, tuple(float(w) for w in course[:, face]))
        for face in range(1, len(places) - 1)
        if course[:, face].any()
    )
    held = course.sum(axis=1)
    return GlaserYear(
        tuple(float(w) for w in held), float(held.max()), bool(not course[first - 1].any()), faces
    )
