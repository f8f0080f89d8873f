"""What a viscous mix leaves of a pump curve that was measured with water (ANSI/HI 9.6.7).

The formulas are from memory and from open code: the standard itself was not seen. It was made for pumps much
larger than those aboard, of conventional hydraulic design; small circulators lie at its edge. So show the
uncorrected curve beside the corrected one.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import ANSI_HI_9_6_7
from dossier.notation import Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.pump import STANDARD_GRAVITY, PumpCurve

LEAST = 1.0
"""Below this B water and liquid give the same curve."""

GREATEST = 40.0
"""From this B on the method says nothing."""

PARAMETER = q("B", "1", "performance parameter", low=0, high=GREATEST)
FLOW_FACTOR_GIVEN = q("C_Q", "1", "correction of flow", low=0.01, high=1)


@formula(
    "B = 16.5 · ν^0.5 · H^0.0625/(Q^0.375 · N^0.25), ν in mm²/s, H in m, Q in m³/h, N in 1/min", ANSI_HI_9_6_7
)
def performance_parameter(
    viscosity: Annotated[Real, q("ν", "m2/s", "kinematic viscosity", low=1e-8, high=4e-3)],
    head: Annotated[Real, q("H", "m", "head at the best point, water", low=0.01, high=500)],
    flow: Annotated[Real, q("Q", "m3/s", "flow at the best point, water", low=1e-6, high=1)],
    speed: Annotated[Real, q("N", "1/s", "speed", low=1, high=500)],
) -> Annotated[Real, q("B", "1", "performance parameter", low=0)]:
    """Parameter B: how much the viscosity counts for a pump of this size and speed."""
    return 16.5 * (viscosity * 1e6) ** 0.5 * head**0.0625 / ((flow * 3600) ** 0.375 * (speed * 60) ** 0.25)


@formula("C_Q = e^(−0.165 · (log10 B)^3.15), 1 up to B = 1", ANSI_HI_9_6_7)
def flow_correction(
    parameter: Annotated[Real, PARAMETER],
) -> Annotated[Real, q("C_Q", "1", "correction of flow", low=0, high=1)]:
    """Factor on every flow of the curve; at the best point on the head as well."""
    return np.exp(-0.165 * np.log10(np.maximum(parameter, LEAST)) ** 3.15)


@formula("C_H = 1 − (1 − C_Q) · (Q/Q_b)^0.75", ANSI_HI_9_6_7)
def head_correction(
    flow_correction: Annotated[Real, FLOW_FACTOR_GIVEN],
    share: Annotated[Real, q("Q/Q_b", "1", "flow over the flow at the best point, water", low=0, high=3)],
) -> Annotated[Real, q("C_H", "1", "correction of head", low=-2, high=1)]:
    """Factor on the head at a point of the curve; none at shut-off."""
    return 1 - (1 - flow_correction) * share**0.75


@formula("C_η = B^(−0.0547 · B^0.69), 1 up to B = 1", ANSI_HI_9_6_7)
def efficiency_correction(
    parameter: Annotated[Real, PARAMETER],
) -> Annotated[Real, q("C_η", "1", "correction of efficiency", low=0, high=1)]:
    """Factor on the efficiency."""
    bounded = np.maximum(parameter, LEAST)
    return bounded ** (-0.0547 * bounded**0.69)


@dataclass(frozen=True)
class ViscousCurve:
    """A curve as a viscous liquid leaves it, with the factors that made it."""

    curve: PumpCurve
    parameter: Real
    flow_correction: Real
    efficiency_correction: Real


def viscous_curve(curve: PumpCurve, viscosity: Real, best_flow: float, speed: float) -> ViscousCurve:
    """Pump curve in a liquid of a kinematic viscosity (m²/s).

    ``best_flow`` is the flow of best efficiency with water (m³/s), ``speed`` in revolutions a second. Raises
    ``OutOfRange`` from B = 40 on, where the method says nothing.
    """
    best_head = float(curve.rise(best_flow)) / (curve.density * STANDARD_GRAVITY)
    parameter = performance_parameter(viscosity, best_head, best_flow, speed)
    factor = flow_correction(parameter)
    shares = np.asarray(curve.flows) / best_flow
    factors = head_correction.function(float(factor), shares)
    return ViscousCurve(
        curve.corrected(float(factor), np.asarray(factors)),
        parameter,
        factor,
        efficiency_correction(parameter),
    )
