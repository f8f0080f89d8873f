"""What fittings and units take from the flow: loss factors, equivalent lengths, units known by one point.

A loss factor ``K`` counts velocity heads of the pipe it sits in; it may be negative (see ``tees``). Valves
known by their flow factor Kv stand in ``valves``.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import BENDS_ANGLE, CRANE_K, DARCY_WEISBACH, SUDDEN_CHANGE, UNIT_SIMILARITY
from dossier.notation import ARITHMETIC, Real, formula, q
from dossier.physics.pipe import BORE, DENSITY, DROP, FLOW, VELOCITY, VISCOSITY

LOSS = q("K", "1", "loss factor", low=-10, high=1e6)
FRICTION_ROUGH = q("f_T", "1", "friction factor, fully turbulent", low=0, high=0.1)
RATED_FLOW = q("q_r", "m3/s", "rated flow", low=1e-7, high=1)
RATED_DROP = q("Δp_r", "Pa", "pressure drop at the rated flow", low=0, high=1e6)
RATED_DENSITY = q("ρ_r", "kg/m3", "density of the test liquid", low=500, high=1500)
RATED_VISCOSITY = q("μ_r", "Pa*s", "dynamic viscosity of the test liquid", low=1e-5, high=1)
EXPONENT = q("n", "1", "viscosity exponent", low=0, high=1)
SMALL_BORE = q("d", "m", "smaller bore", low=1e-3, high=2)
LARGE_BORE = q("D", "m", "larger bore", low=1e-3, high=2)


@formula("Δp = K · ρ · v · |v|/2", DARCY_WEISBACH)
def fitting_drop(
    loss: Annotated[Real, LOSS],
    density: Annotated[Real, DENSITY],
    velocity: Annotated[Real, VELOCITY],
) -> Annotated[Real, DROP]:
    """Pressure drop of fittings by their loss factor; negative when the flow is."""
    return loss * density * velocity * np.abs(velocity) / 2


@formula("K = n · f_T", CRANE_K)
def loss_factor(
    multiple: Annotated[Real, q("n", "1", "multiple of the friction factor", low=0, high=2000)],
    friction_factor: Annotated[Real, FRICTION_ROUGH],
) -> Annotated[Real, q("K", "1", "loss factor", low=0)]:
    """Loss factor of a fitting given as a multiple of the fully turbulent friction factor of its pipe."""
    return multiple * friction_factor


@formula("K = (α/90° − 1) · (π/4 · f_T · r/d + K_90/2) + K_90", BENDS_ANGLE)
def loss_factor_of_bend(
    angle: Annotated[Real, q("α", "rad", "angle the bend turns through", low=np.pi / 2, high=40 * np.pi)],
    right_angle: Annotated[Real, q("K_90", "1", "loss factor of the 90° bend", low=0, high=100)],
    radius_ratio: Annotated[Real, q("r/d", "1", "radius of the bend over the bore", low=0.5, high=100)],
    friction_factor: Annotated[Real, FRICTION_ROUGH],
) -> Annotated[Real, q("K", "1", "loss factor", low=0)]:
    """Loss factor of a coil or bend that turns through a right angle or more."""
    more = angle / (np.pi / 2) - 1
    return more * (np.pi / 4 * friction_factor * radius_ratio + right_angle / 2) + right_angle


@formula("L_e = K · d/f", DARCY_WEISBACH)
def equivalent_length(
    loss: Annotated[Real, LOSS],
    bore: Annotated[Real, BORE],
    friction_factor: Annotated[Real, q("f", "1", "friction factor (Darcy)", low=1e-4, high=1e3)],
) -> Annotated[Real, q("L_e", "m", "equivalent length of straight pipe")]:
    """Length of straight pipe that takes as much as the fittings."""
    return loss * bore / friction_factor


@formula("K = f · L_e/d", DARCY_WEISBACH)
def loss_factor_of_length(
    length: Annotated[Real, q("L_e", "m", "equivalent length of straight pipe", low=0, high=5000)],
    bore: Annotated[Real, BORE],
    friction_factor: Annotated[Real, q("f", "1", "friction factor (Darcy)", low=0, high=1e3)],
) -> Annotated[Real, q("K", "1", "loss factor", low=0)]:
    """Loss factor of a fitting given by its equivalent length."""
    return friction_factor * length / bore


@formula("K = (1 − (d/D)²)²", SUDDEN_CHANGE)
def loss_factor_of_expansion(
    small: Annotated[Real, SMALL_BORE], large: Annotated[Real, LARGE_BORE]
) -> Annotated[Real, q("K", "1", "loss factor, on the smaller bore", low=0)]:
    """Sudden expansion, on the velocity before it (Borda-Carnot)."""
    return (1 - np.minimum(small / large, 1) ** 2) ** 2


@formula(
    "K = 0.0696 · (1 − β⁵) · λ² + (λ − 1)², λ = 1 + 0.622 · (1 − 0.215β² − 0.785β⁵), β = d/D", SUDDEN_CHANGE
)
def loss_factor_of_contraction(
    small: Annotated[Real, SMALL_BORE], large: Annotated[Real, LARGE_BORE]
) -> Annotated[Real, q("K", "1", "loss factor, on the smaller bore", low=0)]:
    """Sudden contraction, on the velocity after it."""
    ratio = np.minimum(small / large, 1)
    jet = 1 + 0.622 * (1 - 0.215 * ratio**2 - 0.785 * ratio**5)
    return 0.0696 * (1 - ratio**5) * jet**2 + (jet - 1) ** 2


@formula("ΣK = K₁ + K₂ + …", ARITHMETIC)
def total_loss_factor(
    *losses: Annotated[Real, q("K", "1", "loss factor", low=-10, high=1e6)],
) -> Annotated[Real, q("ΣK", "1", "loss factors of the run")]:
    """Loss factors of one run together."""
    return sum(losses, 0.0)


@formula("Δp = Δp_r · ρ/ρ_r · |q_V/q_r|^(1−n) · q_V/q_r · (μ/μ_r)^n", UNIT_SIMILARITY)
def unit_drop(
    flow: Annotated[Real, FLOW],
    density: Annotated[Real, DENSITY],
    viscosity: Annotated[Real, VISCOSITY],
    rated_flow: Annotated[Real, RATED_FLOW],
    rated_drop: Annotated[Real, RATED_DROP],
    rated_density: Annotated[Real, RATED_DENSITY],
    rated_viscosity: Annotated[Real, RATED_VISCOSITY],
    exponent: Annotated[Real, EXPONENT],
) -> Annotated[Real, DROP]:
    """Pressure drop of a unit known by one point; ``n`` = 0 is the square law, 1 is laminar flow."""
    ratio = flow / rated_flow
    return (
        rated_drop
        * (density / rated_density)
        * np.abs(ratio) ** (1 - exponent)
        * ratio
        * (viscosity / rated_viscosity) ** exponent
    )


@formula("Δp = Δp(|q_V|) · ρ/ρ_r, straight between the points of the table", UNIT_SIMILARITY)
def unit_drop_from_table(
    flow: Annotated[Real, FLOW],
    drop: Annotated[Real, q("Δp(|q_V|)", "Pa", "pressure drop read from the table", low=0, high=1e6)],
    density: Annotated[Real, DENSITY],
    rated_density: Annotated[Real, RATED_DENSITY],
) -> Annotated[Real, DROP]:
    """Pressure drop of a unit known by a table for its test liquid; negative when the flow is."""
    return np.sign(flow) * drop * density / rated_density
