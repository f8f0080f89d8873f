"""The coolant: water or a glycol mix, its properties at a temperature, from the tables of one data set.

    mix = coolant("propylene glycol", 0.40)      # inhibited, by volume
    mix.density(343.15)                          # plain number in, plain number out: for solvers
    mix.density(traced_temperature)              # a traced temperature leaves a working
    mix.viscosity(array)                         # samples; NaN outside the table

Every property is interpolated within 0.02 % of the library the tables were drawn from. Below the freezing
point, or beyond the set's ends, a single number raises ``OutOfRange``: nothing is extrapolated.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property, partial
from math import isnan

import numpy as np
from numpy.typing import NDArray

from dossier.data.fluid_tables import FluidSet, fluid_set, fluid_sets, fluid_table
from dossier.notation import (
    Given,
    OutOfRange,
    Quantity,
    Real,
    Source,
    Statement,
    Traced,
    Working,
    lines_behind,
    q,
)
from dossier.physics.glycol_share import counted_alike, share_by
from dossier.physics.property_curves import (
    MixCurves,
    PropertyCurves,
    curves_of,
    freezing_points,
    property_curves,
)

FREEZING_POINT = q("θ_f", "K", "freezing point of the coolant", low=200, high=273.16)
SHARE_STEP = 0.005
"""Distance between the shares whose curves samples stand between: the error is below 1e-4 of the figure."""

_GIVES = (
    ("density", q("ρ", "kg/m3", "density of the coolant", low=900, high=1200)),
    ("specific_heat", q("c_p", "J/kgK", "specific heat of the coolant", low=2500, high=4400)),
    ("conductivity", q("λ", "W/mK", "thermal conductivity of the coolant", low=0.2, high=0.7)),
    ("viscosity", q("μ", "Pa*s", "dynamic viscosity of the coolant", low=1e-4, high=2)),
)
_DENSITY, _SPECIFIC_HEAT, _CONDUCTIVITY, _VISCOSITY = range(4)


@dataclass(frozen=True, eq=False)
class Fluid:
    """A coolant: a data set, and the share as that set counts it (0 for water).

    The share may be samples; every property is then asked with as many temperatures, or with one.
    """

    data_set: FluidSet
    share: Real

    def __post_init__(self) -> None:
        """Refuse a share outside the set."""
        low, high = self.data_set.shares
        if not isinstance(self.share, np.ndarray) and not low <= self.share <= high:
            quantity = self._share_quantity
            lines = lines_behind(self.share)
            raise OutOfRange(self.data_set.label, "share", quantity, self.share, self.source, lines)

    def __str__(self) -> str:
        if not self.data_set.is_mix or isinstance(self.share, np.ndarray):
            return str(self.data_set)
        return f"{100 * self.share:.3g} % {self.data_set}"

    @property
    def source(self) -> Source:
        """The data set, as it is named beside every figure of it."""
        return self.data_set.source

    @property
    def lowest(self) -> Real:
        """Lowest temperature of the table: the freezing point, or the end of the set where that is warmer."""
        return self._mix.lowest if self._curves is None else self._curves.lowest

    @property
    def highest(self) -> float:
        """Highest temperature of the table (K)."""
        return self.data_set.temperatures[1]

    @property
    def freezing_point(self) -> Real:
        """Temperature of the first ice crystals (K); traced, where the share is one number."""
        if not self.data_set.is_mix:
            return self._told(273.15, "freezing_point", FREEZING_POINT, ())
        if isinstance(self.share, np.ndarray):
            return freezing_points(fluid_table(self.data_set.key), self.share)
        found = _freezing_point(self.data_set, self.share)
        again = partial(_freezing_point, self.data_set)
        return self._told(
            found, "freezing_point", FREEZING_POINT, [(self._share_quantity, self.share)], again
        )

    def density(self, temperature: Real) -> Real:
        """Density (kg/m³) at a temperature (K)."""
        return self._found(_DENSITY, temperature)

    def specific_heat(self, temperature: Real) -> Real:
        """Specific heat at constant pressure (J/kgK) at a temperature (K)."""
        return self._found(_SPECIFIC_HEAT, temperature)

    def conductivity(self, temperature: Real) -> Real:
        """Thermal conductivity (W/mK) at a temperature (K)."""
        return self._found(_CONDUCTIVITY, temperature)

    def viscosity(self, temperature: Real) -> Real:
        """Dynamic viscosity (Pa·s) at a temperature (K)."""
        return self._found(_VISCOSITY, temperature)

    def twin(self) -> "Fluid | None":
        """The same mix in the other data set (pure for inhibited and the reverse), where that reaches so far.

        The two sets differ at the same mix by up to 13 % in viscosity and by a seventh in expansion.
        """
        other = fluid_set(self.data_set.base, inhibited=not self.data_set.inhibited)
        if other is self.data_set:
            return None
        try:
            return Fluid(other, counted_alike(self.share, self.data_set, other))
        except OutOfRange:
            return None

    @property
    def _share_quantity(self) -> Quantity:
        by = self.data_set.by
        low, high = self.data_set.shares
        return Quantity("w" if by == "mass" else "x", "1", f"share of glycol by {by}", low, high)

    @property
    def _temperature_quantity(self) -> Quantity:
        return Quantity("θ", "K", "temperature of the coolant", self._mix.lowest, self.highest)

    @cached_property
    def _curves(self) -> PropertyCurves | None:
        """Curves where the share is samples."""
        if not isinstance(self.share, np.ndarray):
            return None
        low, high = self.data_set.shares
        inside = (self.share >= low) & (self.share <= high)
        return property_curves(self.data_set, np.where(inside, self.share, np.nan))

    @cached_property
    def _mix(self) -> MixCurves:
        """Curves where the share is one number."""
        return curves_of(self.data_set, float(self.share))

    def _found(self, place: int, temperature: Real) -> Real:
        if self._curves is not None:
            return self._curves.at(place, np.asarray(temperature, dtype=float))
        if isinstance(temperature, np.ndarray):
            return self._mix.samples(place, temperature)
        found = self._mix.at(place, temperature)
        if isnan(found):
            raise self._beyond(temperature)
        return self._looked_up(place, temperature, found) if type(temperature) is Traced else found

    def _looked_up(self, place: int, temperature: float, found: float) -> Traced:
        name, gives = _GIVES[place]
        share = ((self._share_quantity, self.share),) if self.data_set.is_mix else ()
        given = (*share, (self._temperature_quantity, temperature))
        again = partial(_property, self.data_set, place)
        return self._told(found, name, gives, given, again)

    def _told(
        self,
        found: float,
        name: str,
        gives: Quantity,
        given: Sequence[tuple[Quantity, Real]],
        again: Callable[..., Real] | None = None,
    ) -> Traced:
        inputs = ", ".join(quantity.symbol for quantity, _ in given)
        text = f"{gives.symbol} = {gives.symbol}({inputs}), table {self.data_set.label}"
        doc = f"{gives.label.capitalize()}, interpolated in the table."
        statement = Statement(name, text, gives, self.source, doc, again)
        return Traced(found, Working(statement, tuple(Given(*pair) for pair in given), found))

    def _beyond(self, temperature: float) -> OutOfRange:
        share = f"{100 * float(self.share):.3g} % {self.data_set.base}" if self.data_set.is_mix else "water"
        where = f"{share}, which freezes at {float(self.freezing_point):.2f} K"
        lines = [*lines_behind(temperature), *lines_behind(self.share)]
        return OutOfRange(where, "temperature", self._temperature_quantity, temperature, self.source, lines)


def _property(data_set: FluidSet, place: int, *given: Real) -> Real:
    """A property again from plain numbers, share and temperature (water: temperature); NaN outside.

    Takes samples too; those of the share stand between curves of neighbouring shares.
    """
    share, temperature = given[0] if data_set.is_mix else 0.0, given[-1]
    if isinstance(share, np.ndarray):
        return _between_shares(data_set, place, *np.broadcast_arrays(share, temperature))
    curves = curves_of(data_set, float(share))
    return (
        curves.samples(place, temperature)
        if isinstance(temperature, np.ndarray)
        else (curves.at(place, temperature))
    )


def _between_shares(
    data_set: FluidSet, place: int, shares: NDArray[np.float64], temperatures: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Property of samples of a mix, straight between curves of shares ``SHARE_STEP`` apart."""
    low, high = data_set.shares
    cells = np.where((shares >= low) & (shares <= high), np.floor(shares / SHARE_STEP), -1).astype(int)
    found = np.full(shares.shape, np.nan)
    for cell in np.unique(cells[cells >= 0]).tolist():
        here = cells == cell
        ends = max(cell * SHARE_STEP, low), min((cell + 1) * SHARE_STEP, high)
        lower, upper = (curves_of(data_set, end).samples(place, temperatures[here]) for end in ends)
        part = (shares[here] - ends[0]) / max(ends[1] - ends[0], 1e-12)
        found[here] = lower + part * (upper - lower)
    return found


def _freezing_point(data_set: FluidSet, share: float) -> float:
    return float(freezing_points(fluid_table(data_set.key), np.array([share]))[0])


def coolant(base: str, share: Real = 0.0, *, inhibited: bool = True, by: str = "volume") -> Fluid:
    """A coolant by its base (``water``, ``ethylene glycol``, ``propylene glycol``) and share of glycol.

    ``by`` says how ``share`` (a fraction) was counted, ``volume`` or ``mass``; a share counted otherwise than
    the data set counts is converted. Raises ``ValueError`` for an unknown base, ``OutOfRange`` for a share
    outside the set (inhibited 10 to 60 % by volume, pure 0 to 60 % by mass). For no glycol ask for water.
    """
    data_set = fluid_set(base, inhibited=inhibited)
    if not data_set.is_mix:
        return water()
    return Fluid(data_set, share_by(by, share, data_set))


def water() -> Fluid:
    """Plain water, 0 to 130 °C; above 100 °C at its saturation pressure."""
    return Fluid(fluid_sets()["water"], 0.0)
