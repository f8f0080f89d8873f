"""What a maker's rated point says of an exchanger: the effectiveness it asks for, and its conductance.

    UA = rated_conductance(Arrangement.CROSSFLOW, output, hot_rate, cold_rate, hot_in, cold_in)

A rated point that asks for more than the arrangement can give is refused with its figures: a maker's slip or
a wrong flow. Single numbers raise ``ImpossibleRating``, samples become NaN.
"""

from typing import Annotated, Any

import numpy as np

from dossier.data.sources import EFFECTIVENESS_NTU
from dossier.notation import DossierError, Formula, Line, Real, formula, lines_behind, q
from dossier.physics.exchanger import (
    COLD_IN,
    HOT_IN,
    LEAST_RATE,
    RATIO,
    Arrangement,
    mean_decay,
    rate_ratio,
    smaller_rate,
)
from dossier.physics.root import bracketed_root

ASKED = q("ε", "1", "effectiveness asked for", low=0, high=1)
UNITS = q("NTU", "1", "number of transfer units", low=0)
SMALLEST_RATIO = 1e-9
"""A ratio of capacity rates below which one flow keeps its temperature."""


class ImpossibleRating(DossierError):
    """A rated point asks for an effectiveness that no exchanger, or none of its arrangement, can have.

    ``asked`` is that effectiveness, ``highest`` the limit it must stay below, ``lines`` the lines of the
    project file behind it.
    """

    def __init__(self, figures: str, asked: float, highest: float, lines: tuple[Line, ...] = ()) -> None:
        self.figures, self.asked, self.highest, self.lines = figures, asked, highest, lines
        rests = ", ".join(f"{line.key} (line {line.line})" if line.line else line.key for line in lines[:6])
        super().__init__(
            f"impossible rated point: {figures} asks for an effectiveness of {asked:.3f}, which must be "
            f"below {highest:.3g}; the output is too high, or a flow or temperature is wrong"
            + (f"; it rests on {rests}" if rests else "")
        )

    def __reduce__(self) -> tuple[Any, ...]:
        return (ImpossibleRating, (self.figures, self.asked, self.highest, self.lines))


def _lines(*numbers: Real) -> tuple[Line, ...]:
    return tuple(dict.fromkeys(line for number in numbers for line in lines_behind(number)))


@formula("ε = Φ/(Ċ_min · (θ_h − θ_c))", EFFECTIVENESS_NTU)
def rated_effectiveness(
    output: Annotated[Real, q("Φ", "W", "rated output", low=1, high=1e6)],
    least_rate: Annotated[Real, q("Ċ_min", "W/K", "smaller capacity rate", low=1e-3, high=1e6)],
    hot_in: Annotated[Real, HOT_IN],
    cold_in: Annotated[Real, COLD_IN],
) -> Annotated[Real, ASKED]:
    """Effectiveness that a rated point asks for: its output over all that the smaller flow could carry.

    Raises ``ImpossibleRating`` from 1 on; samples become NaN there.
    """
    most = least_rate * (hot_in - cold_in)
    if isinstance(most, np.ndarray) or isinstance(output, np.ndarray):
        share = output / np.where(most > 0, most, np.nan)
        return np.where(share < 1, share, np.nan)
    if not output < most:
        figures = (
            f"{output:.4g} W from {hot_in - 273.15:.3g} °C to {cold_in - 273.15:.3g} °C "
            f"with {least_rate:.4g} W/K, which carry at most {max(most, 0):.4g} W,"
        )
        asked = output / most if most > 0 else float("inf")
        raise ImpossibleRating(figures, asked, 1.0, _lines(output, least_rate, hot_in, cold_in))
    return output / most


def _refused(arrangement: Arrangement, asked: Any, highest: Real, units: Real) -> Real:
    """Transfer units where the arrangement can be so effective; a fault or NaN where it cannot."""
    possible = asked < highest
    if isinstance(possible, np.ndarray):
        return np.where(possible, units, np.nan)
    if not possible:
        raise ImpossibleRating(arrangement.value, asked, float(highest), _lines(asked))
    return units


@formula("NTU = ln((1 − ε·C_r)/(1 − ε))/(1 − C_r)", EFFECTIVENESS_NTU)
def units_counterflow(asked: Annotated[Real, ASKED], ratio: Annotated[Real, RATIO]) -> Annotated[Real, UNITS]:
    """Transfer units of counterflow behind an effectiveness below 1; ε/(1 − ε) at C_r = 1."""
    with np.errstate(divide="ignore", invalid="ignore"):
        reach = asked / np.where(asked < 1, 1 - asked, np.nan)
        rest = reach * (1 - ratio)
        units = np.where(rest < SMALLEST_RATIO, reach, np.log1p(rest) / np.where(ratio < 1, 1 - ratio, 1.0))
    return _refused(Arrangement.COUNTERFLOW, asked, 1.0, units[()])


@formula("NTU = −ln(1 − ε·(1 + C_r))/(1 + C_r)", EFFECTIVENESS_NTU)
def units_parallel(asked: Annotated[Real, ASKED], ratio: Annotated[Real, RATIO]) -> Annotated[Real, UNITS]:
    """Transfer units of parallel flow behind an effectiveness below 1/(1 + C_r)."""
    highest = 1 / (1 + ratio)
    used = np.where(asked < highest, asked, 0.0)
    return _refused(Arrangement.PARALLEL, asked, highest, (-np.log1p(-used * (1 + ratio)) / (1 + ratio))[()])


@formula("NTU from ε = 1 − exp(NTU^0.22/C_r · (e^(−C_r·NTU^0.78) − 1))", EFFECTIVENESS_NTU)
def units_crossflow(asked: Annotated[Real, ASKED], ratio: Annotated[Real, RATIO]) -> Annotated[Real, UNITS]:
    """Transfer units of crossflow, both flows unmixed, behind an effectiveness below 1; solved."""
    depth: Real = -np.log1p(-np.where(asked < 1, asked, 0.0))[()]

    def excess(units: Real) -> Real:
        return units * mean_decay(ratio * units**0.78) - depth

    # (1 − e^−x)/x lies between 1/(1 + x) and 1, which brackets the root.
    most = np.maximum(2 * depth, (2 * depth * ratio) ** (1 / 0.22))
    return _refused(Arrangement.CROSSFLOW, asked, 1.0, bracketed_root(excess, depth, most))


@formula("NTU = −ln(1 + C_r·ln(1 − ε))/C_r", EFFECTIVENESS_NTU)
def units_crossflow_least_mixed(
    asked: Annotated[Real, ASKED], ratio: Annotated[Real, RATIO]
) -> Annotated[Real, UNITS]:
    """Transfer units of crossflow, smaller rate mixed; ε below 1 − e^(−1/C_r)."""
    small = np.where(ratio > SMALLEST_RATIO, ratio, SMALLEST_RATIO)
    highest = (-np.expm1(-1 / small))[()]
    depth = -np.log1p(-np.where(asked < highest, asked, 0.0))
    return _refused(
        Arrangement.CROSSFLOW_LEAST_MIXED, asked, highest, (-np.log1p(-small * depth) / small)[()]
    )


@formula("NTU = −ln(1 + ln(1 − ε·C_r)/C_r)", EFFECTIVENESS_NTU)
def units_crossflow_greatest_mixed(
    asked: Annotated[Real, ASKED], ratio: Annotated[Real, RATIO]
) -> Annotated[Real, UNITS]:
    """Transfer units of crossflow, greater rate mixed; ε below (1 − e^−C_r)/C_r."""
    small = np.where(ratio > SMALLEST_RATIO, ratio, SMALLEST_RATIO)
    highest = (-np.expm1(-small) / small)[()]
    used = np.where(asked < highest, asked, 0.0)
    units = -np.log1p(np.log1p(-used * small) / small)
    return _refused(Arrangement.CROSSFLOW_GREATEST_MIXED, asked, highest, units[()])


_UNITS: dict[Arrangement, Formula[[Real, Real], Real]] = {
    Arrangement.COUNTERFLOW: units_counterflow,
    Arrangement.PARALLEL: units_parallel,
    Arrangement.CROSSFLOW: units_crossflow,
    Arrangement.CROSSFLOW_LEAST_MIXED: units_crossflow_least_mixed,
    Arrangement.CROSSFLOW_GREATEST_MIXED: units_crossflow_greatest_mixed,
}


def units_asked(arrangement: Arrangement, asked: Real, ratio: Real) -> Real:
    """Number of transfer units behind an effectiveness; the inverse of ``exchanger.effectiveness``."""
    return _UNITS[arrangement](asked, ratio)


@formula("UA = NTU · Ċ_min", EFFECTIVENESS_NTU)
def conductance_of_units(
    units: Annotated[Real, q("NTU", "1", "number of transfer units", low=0, high=1e9)],
    least_rate: Annotated[Real, LEAST_RATE],
) -> Annotated[Real, q("UA", "W/K", "conductance of the exchanger", low=0)]:
    """Conductance from the number of transfer units."""
    return units * least_rate


def rated_conductance(
    arrangement: Arrangement, output: Real, hot_rate: Real, cold_rate: Real, hot_in: Real, cold_in: Real
) -> Real:
    """Conductance UA (W/K) from a rated point: output, both capacity rates, both inlet temperatures.

    Raises ``ImpossibleRating`` where the point asks for more than the arrangement can give.
    """
    least = smaller_rate(hot_rate, cold_rate)
    asked = rated_effectiveness(output, least, hot_in, cold_in)
    return conductance_of_units(units_asked(arrangement, asked, rate_ratio(hot_rate, cold_rate)), least)
