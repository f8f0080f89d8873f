"""The share of glycol in a mix: by mass, by volume, by moles.

Pure mixes are counted by mass, inhibited ones by volume. Volumes are those poured together, before they mix.
"""

from functools import partial
from typing import Annotated

import numpy as np

from dossier.data.fluid_tables import FluidSet, glycol, share_pairs
from dossier.data.sources import ASHRAE_GLYCOL_SHARES
from dossier.notation import (
    ARITHMETIC,
    Given,
    OutOfRange,
    Quantity,
    Real,
    Statement,
    Traced,
    Working,
    formula,
    lines_behind,
    q,
)

BY_MASS = q("w", "1", "share of glycol by mass", low=0, high=1)
BY_VOLUME = q("x", "1", "share of glycol by volume", low=0, high=1)


@formula("w = x · ρ_g/(x · ρ_g + (1 − x) · ρ_w)", ARITHMETIC)
def mass_share(
    by_volume: Annotated[Real, BY_VOLUME],
    glycol_density: Annotated[Real, q("ρ_g", "kg/m3", "density of the glycol at 20 °C", low=900, high=1300)],
    water_density: Annotated[Real, q("ρ_w", "kg/m3", "density of water at 20 °C", low=950, high=1010)],
) -> Annotated[Real, BY_MASS]:
    """Share by mass of a mix poured together by volume."""
    heavy = by_volume * glycol_density
    return heavy / (heavy + (1 - by_volume) * water_density)


@formula("x = (w/ρ_g)/(w/ρ_g + (1 − w)/ρ_w)", ARITHMETIC)
def volume_share(
    by_mass: Annotated[Real, BY_MASS],
    glycol_density: Annotated[Real, q("ρ_g", "kg/m3", "density of the glycol at 20 °C", low=900, high=1300)],
    water_density: Annotated[Real, q("ρ_w", "kg/m3", "density of water at 20 °C", low=950, high=1010)],
) -> Annotated[Real, BY_VOLUME]:
    """Share by volume, before mixing, of a mix weighed together."""
    bulk = by_mass / glycol_density
    return bulk / (bulk + (1 - by_mass) / water_density)


@formula("y_w = ((1 − w)/M_w)/((1 − w)/M_w + w/M_g)", ARITHMETIC)
def water_mole_fraction(
    by_mass: Annotated[Real, q("w", "1", "share of glycol by mass", low=0, high=0.7)],
    glycol_molar_mass: Annotated[Real, q("M_g", "kg/mol", "molar mass of the glycol", low=0.05, high=0.2)],
    water_molar_mass: Annotated[Real, q("M_w", "kg/mol", "molar mass of water", low=0.018, high=0.0181)],
) -> Annotated[Real, q("y_w", "1", "mole fraction of water", low=0, high=1)]:
    """Share of the molecules that are water."""
    water = (1 - by_mass) / water_molar_mass
    return water / (water + by_mass / glycol_molar_mass)


def _read_across(share: Real, base: str, *, to_mass: bool) -> Real:
    """The other way of counting an inhibited mix, from the table of pairs; straight between its rows."""
    by_mass, by_volume = share_pairs(base)
    nodes, others = (by_volume, by_mass) if to_mass else (by_mass, by_volume)
    told, gives = (BY_VOLUME, BY_MASS) if to_mass else (BY_MASS, BY_VOLUME)
    low, high = float(nodes[0]), float(nodes[-1])
    if isinstance(share, np.ndarray):
        inside = (share >= low) & (share <= high)
        return np.where(inside, np.interp(share, nodes, others), np.nan)
    ranged = Quantity(told.symbol, told.unit, told.label, low, high)
    if not low <= share <= high:
        where = f"the shares of inhibited {base} by mass and volume"
        raise OutOfRange(where, "share", ranged, share, ASHRAE_GLYCOL_SHARES, lines_behind(share))
    found = float(np.interp(share, nodes, others))
    if type(share) is not Traced:
        return found
    text = f"{gives.symbol} = {gives.symbol}({told.symbol}), table of the shares of inhibited {base}"
    doc = "The same mix counted otherwise."
    again = partial(np.interp, xp=nodes, fp=others)
    statement = Statement("share_read_across", text, gives, ASHRAE_GLYCOL_SHARES, doc, again)
    return Traced(found, Working(statement, (Given(ranged, share),), found))


def share_by(counted: str, share: Real, data_set: FluidSet) -> Real:
    """A share told by ``mass`` or ``volume``, as the data set counts it.

    An inhibited mix is read across in the published table of pairs; a pure one is worked out from the
    densities of its parts. Raises ``OutOfRange`` beyond the table, ``ValueError`` for another word.
    """
    if counted not in {"mass", "volume"}:
        raise ValueError(f"a share is counted by mass or by volume, not by {counted!r}")
    if not data_set.is_mix or counted == data_set.by:
        return share
    if data_set.inhibited:
        return _read_across(share, data_set.base, to_mass=data_set.by == "mass")
    densities = glycol(data_set.base).density, glycol("water").density
    return mass_share(share, *densities) if data_set.by == "mass" else volume_share(share, *densities)


def glycol_mass_share(share: Real, data_set: FluidSet) -> Real:
    """Share by mass of a mix whose share is counted as its data set counts; 0 for water."""
    if not data_set.is_mix:
        return 0.0
    return share if data_set.by == "mass" else _read_across(share, data_set.base, to_mass=True)


def counted_alike(share: Real, told_in: FluidSet, other: FluidSet) -> Real:
    """Share of the same mix as another set counts it; NaN or ``OutOfRange`` beyond the pairs."""
    by_mass = glycol_mass_share(share, told_in)
    return by_mass if other.by == "mass" else _read_across(by_mass, other.base, to_mass=False)
