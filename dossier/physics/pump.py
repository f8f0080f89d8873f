"""Pumps: a curve of points, straight between them; speed and voltage; suction; power.

A curve holds for the liquid it was measured with (water at 20 °C unless stated), at rated speed. Between its
points the rise falls in straight lines: no shape is invented. Beyond the last point the last line goes on,
through zero and below it, so that a solver can find its way; whoever uses the answer is told that it lies
outside the curve. The head of a pump does not ask for the density, its pressure does.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from dossier.data.sources import AFFINITY, HYDROSTATICS, NPSH
from dossier.notation import ARITHMETIC, DossierError, Real, formula, q
from dossier.physics.pipe import DENSITY, FLOW

RISE = q("Δp", "Pa", "pressure rise", low=-1e7, high=1e7)
HEAD = q("H", "m", "head", low=-1000, high=1000)
SPEED_RATIO = q("r", "1", "speed over rated speed", low=0, high=2)
ABSOLUTE = q("p", "Pa", "absolute pressure at the inlet", low=0, high=2e6)
VAPOUR = q("p_v", "Pa", "vapour pressure", low=0, high=2e6)
STANDARD_GRAVITY = 9.80665

WATER_DENSITY = 998.2
"""Density of the liquid curves are measured with: water at 20 °C (kg/m³)."""


@formula("H = Δp/(ρ · g)", HYDROSTATICS)
def head(
    rise: Annotated[Real, RISE], density: Annotated[Real, DENSITY]
) -> Annotated[Real, q("H", "m", "head")]:
    """Head of a pressure rise, in metres of the liquid itself."""
    return rise / (density * STANDARD_GRAVITY)


@formula("Δp = ρ · g · H", HYDROSTATICS)
def pressure_of_head(
    head: Annotated[Real, HEAD], density: Annotated[Real, DENSITY]
) -> Annotated[Real, q("Δp", "Pa", "pressure")]:
    """Pressure of a column of the liquid, of a pump's head or of a static head."""
    return density * STANDARD_GRAVITY * head


@formula("q_V = r · q_V1", AFFINITY)
def flow_at_speed(
    flow: Annotated[Real, q("q_V1", "m3/s", "volume flow at rated speed", low=-5, high=5)],
    ratio: Annotated[Real, SPEED_RATIO],
) -> Annotated[Real, q("q_V", "m3/s", "volume flow")]:
    """Flow of a point of the curve at another speed."""
    return ratio * flow


@formula("Δp = r² · Δp_1", AFFINITY)
def rise_at_speed(
    rise: Annotated[Real, q("Δp_1", "Pa", "pressure rise at rated speed", low=-1e7, high=1e7)],
    ratio: Annotated[Real, SPEED_RATIO],
) -> Annotated[Real, q("Δp", "Pa", "pressure rise")]:
    """Pressure rise of a point of the curve at another speed."""
    return ratio**2 * rise


@formula("P = r³ · P_1", AFFINITY)
def power_at_speed(
    power: Annotated[Real, q("P_1", "W", "shaft power at rated speed", low=0, high=1e6)],
    ratio: Annotated[Real, SPEED_RATIO],
) -> Annotated[Real, q("P", "W", "shaft power", low=0)]:
    """Shaft power at another speed."""
    return ratio**3 * power


@formula("r = U/U_r", AFFINITY)
def speed_at_voltage(
    voltage: Annotated[Real, q("U", "V", "voltage at the motor", low=0, high=100)],
    rated: Annotated[Real, q("U_r", "V", "voltage the curve was measured at", low=1, high=100)],
) -> Annotated[Real, q("r", "1", "speed over rated speed", low=0)]:
    """Speed of an unregulated direct-current motor; a regulated one keeps its speed."""
    return voltage / rated


@formula("P = q_V · Δp", ARITHMETIC)
def hydraulic_power(
    flow: Annotated[Real, FLOW], rise: Annotated[Real, RISE]
) -> Annotated[Real, q("P", "W", "hydraulic power")]:
    """Power that the pump leaves in the liquid."""
    return flow * rise


@formula("P = q_V · Δp/η", ARITHMETIC)
def shaft_power(
    flow: Annotated[Real, FLOW],
    rise: Annotated[Real, RISE],
    efficiency: Annotated[Real, q("η", "1", "efficiency of the pump", low=0.01, high=1)],
) -> Annotated[Real, q("P", "W", "shaft power")]:
    """Power the pump takes."""
    return flow * rise / efficiency


@formula("NPSH = (p − p_v)/(ρ · g) + v²/(2g)", NPSH)
def suction_head(
    pressure: Annotated[Real, ABSOLUTE],
    vapour_pressure: Annotated[Real, VAPOUR],
    density: Annotated[Real, DENSITY],
    velocity: Annotated[Real, q("v", "m/s", "mean velocity at the inlet", low=0, high=20)],
) -> Annotated[Real, q("NPSH", "m", "net positive suction head available")]:
    """Net positive suction head available at a pump's inlet; negative where the liquid boils already."""
    return (pressure - vapour_pressure) / (density * STANDARD_GRAVITY) + velocity**2 / (2 * STANDARD_GRAVITY)


@formula("Δp_s = p − p_v − Δp_n", NPSH)
def suction_margin(
    pressure: Annotated[Real, ABSOLUTE],
    vapour_pressure: Annotated[Real, VAPOUR],
    needed: Annotated[Real, q("Δp_n", "Pa", "needed above the vapour pressure", low=0, high=1e6)],
) -> Annotated[Real, q("Δp_s", "Pa", "suction margin")]:
    """Pressure at the inlet beyond what the pump needs above the vapour pressure; negative: it cavitates."""
    return pressure - vapour_pressure - needed


class CurveFault(DossierError):
    """Points that are no pump curve."""


@dataclass(frozen=True)
class PumpCurve:
    """Points of a pump curve: volume flows (m³/s, rising) and pressure rises (Pa, never rising).

    ``density`` is that of the liquid it was measured with. Raises ``CurveFault`` for points out of order.
    """

    flows: tuple[float, ...]
    rises: tuple[float, ...]
    density: float = WATER_DENSITY

    def __post_init__(self) -> None:
        steps = list(zip(self.flows, self.flows[1:], strict=False))
        if len(self.flows) != len(self.rises) or not steps:
            raise CurveFault("a pump curve has two points or more, each a flow and a pressure rise")
        if self.flows[0] < 0 or any(after <= before for before, after in steps):
            raise CurveFault("the flows of a pump curve rise from point to point, from 0 or above")
        if any(after > before for before, after in zip(self.rises, self.rises[1:], strict=False)):
            raise CurveFault("the pressure rise of a pump curve falls from point to point")

    def rise(self, flow: Real, ratio: Real = 1.0, density: float | None = None) -> Real:
        """Pressure rise (Pa) at a flow (m³/s), a speed ratio and a density (its own where none is given)."""
        flows, rises = np.asarray(self.flows), np.asarray(self.rises)
        at = np.asarray(flow) / ratio
        piece = np.clip(np.searchsorted(flows, at, side="right") - 1, 0, len(flows) - 2)
        slope = (rises[piece + 1] - rises[piece]) / (flows[piece + 1] - flows[piece])
        scale = 1.0 if density is None else density / self.density
        risen: Real = (rises[piece] + slope * (at - flows[piece])) * ratio**2 * scale
        return risen

    def holds(self, flow: float, ratio: float = 1.0) -> bool:
        """Whether a flow lies between the first and the last point."""
        return self.flows[0] * ratio <= flow <= self.flows[-1] * ratio

    def corrected(
        self, flow_factor: float, head_factors: Sequence[float] | NDArray[np.float64]
    ) -> "PumpCurve":
        """Curve with every flow and every rise multiplied, as a viscous liquid does."""
        rises = tuple(float(rise * factor) for rise, factor in zip(self.rises, head_factors, strict=True))
        return PumpCurve(tuple(flow * flow_factor for flow in self.flows), rises, self.density)
