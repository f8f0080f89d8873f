"""Heat that the edge of a hole gives to the plate or board round it, which cools at both faces.

    G = λ · t · 2π · x · K1(x)/K0(x),  x = r · √(2h/(λ · t))

for a plate of infinite extent, thin against what its faces can cool. K0 and K1 are modified Bessel functions,
by the polynomials of Abramowitz and Stegun 9.8.1 to 9.8.8 (within 1e-6 of the ratio).
"""

from typing import Annotated, Any

import numpy as np

from dossier.data.sources import ANNULAR_FIN
from dossier.notation import Real, formula, q

_I0 = (1.0, 3.5156229, 3.0899424, 1.2067492, 0.2659732, 0.0360768, 0.0045813)
_I1 = (0.5, 0.87890594, 0.51498869, 0.15084934, 0.02658733, 0.00301532, 0.00032411)
_K0_NEAR = (-0.57721566, 0.42278420, 0.23069756, 0.03488590, 0.00262698, 0.00010750, 0.00000740)
_K1_NEAR = (1.0, 0.15443144, -0.67278579, -0.18156897, -0.01919402, -0.00110404, -0.00004686)
_K0_FAR = (1.25331414, -0.07832358, 0.02189568, -0.01062446, 0.00587872, -0.00251540, 0.00053208)
_K1_FAR = (1.25331414, 0.23498619, -0.03655620, 0.01504268, -0.00780353, 0.00325614, -0.00068245)
_CHANGE = 2.0


def _sum(coefficients: tuple[float, ...], x: Any) -> Any:
    total = 0.0 * x
    for coefficient in reversed(coefficients):
        total = total * x + coefficient
    return total


def bessel_quotient(x: Real) -> Real:
    """K1(x)/K0(x) for positive x: 1 far out, growing without limit towards 0."""
    near = np.minimum(x, _CHANGE)
    square, quarter, log_half = (near / 3.75) ** 2, (near / 2) ** 2, np.log(near / 2)
    k0 = -log_half * _sum(_I0, square) + _sum(_K0_NEAR, quarter)
    k1 = log_half * near * _sum(_I1, square) + _sum(_K1_NEAR, quarter) / near
    inverse = _CHANGE / np.maximum(x, _CHANGE)
    far = _sum(_K1_FAR, inverse) / _sum(_K0_FAR, inverse)
    quotient: Real = np.where(x <= _CHANGE, k1 / k0, far)[()]
    return quotient


@formula("G = 2π · λ · t · x · K1(x)/K0(x), x = d/2 · √(2 · h/(λ · t))", ANNULAR_FIN)
def edge_conductance(
    hole: Annotated[Real, q("d", "m", "diameter of the hole", low=0.01, high=0.6)],
    thickness: Annotated[Real, q("t", "m", "thickness of the bulkhead", low=0.0005, high=0.2)],
    conductivity: Annotated[Real, q("λ", "W/mK", "conductivity of the bulkhead", low=0.03, high=400)],
    film: Annotated[Real, q("h", "W/m2K", "film on each face", low=1, high=50)],
) -> Annotated[Real, q("G", "W/K", "heat from the edge of the hole for each kelvin", low=0)]:
    """Heat that leaves the edge of a hole through the board, for each kelvin above the surroundings."""
    x = hole / 2 * np.sqrt(2 * film / (conductivity * thickness))
    return 2 * np.pi * conductivity * thickness * x * bessel_quotient(x)
