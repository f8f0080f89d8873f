"""What a pipe takes from the flow: velocity, Reynolds number, friction factor, drop.

``f`` is Darcy's friction factor (four times Fanning's), ``ε`` the roughness of the wall and ``k = ε/d``.
Laminar flow up to Re 2000 has 64/Re, turbulent flow from 4000 on the root of Colebrook and White's formula
(to 2 parts in 10⁸, see ``_turbulent``). Between them runs a cubic with the values and slopes of both at its
ends, in the form Dunlop gave for another turbulent factor and EPANET uses; so the drop and its slope are
continuous, and the drop rises with the flow throughout. Real flow between 2000 and 4000 may be either: no
formula knows.
"""

from typing import Annotated, NamedTuple

import numpy as np

from dossier.data.sources import COLEBROOK_WHITE, DARCY_WEISBACH, DEFINITION, TRANSITION_CUBIC
from dossier.notation import Real, formula, q

FLOW = q("q_V", "m3/s", "volume flow", low=-5, high=5)
VELOCITY = q("v", "m/s", "mean velocity", low=-60, high=60)
BORE = q("d", "m", "bore", low=1e-3, high=2)
LENGTH = q("L", "m", "length", low=0, high=5000)
ROUGHNESS = q("ε", "m", "roughness of the wall", low=0, high=0.01)
RELATIVE_ROUGHNESS = q("k", "1", "relative roughness", low=0, high=0.05)
REYNOLDS = q("Re", "1", "Reynolds number", low=1e-9, high=1e8)
FRICTION = q("f", "1", "friction factor (Darcy)", low=0, high=1e11)
DENSITY = q("ρ", "kg/m3", "density", low=0.1, high=2000)
VISCOSITY = q("μ", "Pa*s", "dynamic viscosity", low=5e-6, high=20)
DROP = q("Δp", "Pa", "pressure drop")

LAMINAR_END = 2000.0
TURBULENT_START = 4000.0
_SPAN = TURBULENT_START - LAMINAR_END

_C = 2 / np.log(10.0)
"""Natural logarithm in Colebrook and White's formula: 2·log10(x) = _C·ln(x)."""


class Transition(NamedTuple):
    """Upper end of the cubic: friction factor at Re 4000, and its slope over the span of the cubic."""

    factor: Real
    slope: Real


@formula("v = 4 · q_V/(π · d²)", DEFINITION)
def velocity(
    flow: Annotated[Real, FLOW], bore: Annotated[Real, BORE]
) -> Annotated[Real, q("v", "m/s", "mean velocity")]:
    """Mean velocity in a round pipe; negative against its direction."""
    return 4 * flow / (np.pi * bore**2)


@formula("Re = ρ · |v| · d/μ", DEFINITION)
def reynolds_number(
    velocity: Annotated[Real, VELOCITY],
    bore: Annotated[Real, BORE],
    density: Annotated[Real, DENSITY],
    viscosity: Annotated[Real, VISCOSITY],
) -> Annotated[Real, q("Re", "1", "Reynolds number", low=0)]:
    """Reynolds number of flow in a round pipe."""
    return density * np.abs(velocity) * bore / viscosity


@formula("k = ε/d", DEFINITION)
def relative_roughness(
    roughness: Annotated[Real, ROUGHNESS], bore: Annotated[Real, BORE]
) -> Annotated[Real, q("k", "1", "relative roughness", low=0)]:
    """Roughness of the wall over the bore."""
    return roughness / bore


@formula(
    "f = 64/Re up to Re 2000; 1/√f = −2 · log10(k/3.7 + 2.51/(Re · √f)) from Re 4000; cubic between",
    TRANSITION_CUBIC,
)
def friction_factor(
    reynolds: Annotated[Real, REYNOLDS],
    roughness: Annotated[Real, RELATIVE_ROUGHNESS],
) -> Annotated[Real, FRICTION]:
    """Darcy friction factor of a round pipe, laminar, in transition or turbulent."""
    return friction(reynolds, roughness, transition(roughness))[0] / reynolds


@formula("f_T = 0.25/(log10(k/3.7))²", COLEBROOK_WHITE)
def friction_factor_rough(
    roughness: Annotated[Real, q("k", "1", "relative roughness", low=1e-8, high=0.05)],
) -> Annotated[Real, q("f_T", "1", "friction factor, fully turbulent", low=0, high=0.1)]:
    """Friction factor of a rough pipe at so high a Reynolds number that it does not count any more."""
    return 0.25 / np.log10(roughness / 3.7) ** 2


@formula("Δp = f · L/d · ρ · v · |v|/2", DARCY_WEISBACH)
def pipe_drop(
    friction_factor: Annotated[Real, FRICTION],
    length: Annotated[Real, LENGTH],
    bore: Annotated[Real, BORE],
    density: Annotated[Real, DENSITY],
    velocity: Annotated[Real, VELOCITY],
) -> Annotated[Real, DROP]:
    """Friction drop of a straight pipe; negative when the flow is."""
    return friction_factor * length / bore * density * velocity * np.abs(velocity) / 2


@formula("R_p = f/d · ρ · v²/2", DARCY_WEISBACH)
def drop_per_metre(
    friction_factor: Annotated[Real, FRICTION],
    bore: Annotated[Real, BORE],
    density: Annotated[Real, DENSITY],
    velocity: Annotated[Real, VELOCITY],
) -> Annotated[Real, q("R_p", "Pa/m", "pressure drop per metre", low=0)]:
    """Friction drop of one metre of straight pipe."""
    return friction_factor / bore * density * velocity**2 / 2


def transition(roughness: Real) -> Transition:
    """Upper end of the cubic for pipes of these relative roughnesses."""
    number, slope = _turbulent(np.float64(TURBULENT_START), roughness)
    factor = number / TURBULENT_START
    return Transition(factor, (slope / TURBULENT_START - 2 * factor) * _SPAN / TURBULENT_START)


def friction(reynolds: Real, roughness: Real, end: Transition) -> tuple[Real, Real]:
    """``f·Re``, and the slope d(f·Re²)/dRe by which a solver sees the drop rise with the flow.

    Both are finite down to standstill, where f itself is not. ``reynolds`` may have more axes than
    ``roughness`` and ``end``, which then broadcast.
    """
    number, slope = _turbulent(np.maximum(reynolds, TURBULENT_START), roughness)
    if (np.asarray(reynolds) < TURBULENT_START).any():
        share = np.clip((reynolds - LAMINAR_END) / _SPAN, 0, 1)
        factor, tilt = _cubic(share, end)
        below = reynolds < TURBULENT_START
        laminar = reynolds <= LAMINAR_END
        number = np.where(laminar, 64.0, np.where(below, factor * reynolds, number))[()]
        slope = np.where(
            laminar, 64.0, np.where(below, reynolds * (2 * factor + tilt * reynolds / _SPAN), slope)
        )[()]
    return number, slope


def _turbulent(reynolds: Real, roughness: Real) -> tuple[Real, Real]:
    """``f·Re`` and d(f·Re²)/dRe of turbulent flow.

    x = 1/√f by two rounds of Colebrook and White's formula from a rough start and one step of Halley's
    method; the slope by differentiating the formula, before that last step (4 digits).
    """
    per = 2.51 / reynolds
    wall = roughness / 3.7
    x = -_C * np.log(wall + per * (-_C * np.log(wall + 12 / reynolds)))
    inside = wall + per * x
    ratio = _C * per / inside
    step = (x + _C * np.log(inside)) / (1 + ratio)
    x = x - step / (1 + step * ratio * ratio / (2 * _C * (1 + ratio)))
    number = reynolds / (x * x)
    return number, 2 * number / (1 + ratio)


def _cubic(share: Real, end: Transition) -> tuple[Real, Real]:
    """Friction factor at a share of the way from Re 2000 to 4000, and its slope over that way."""
    first, tilt = 64 / LAMINAR_END, -64 / LAMINAR_END**2 * _SPAN
    rise = end.factor - first
    second = 3 * rise - 2 * tilt - end.slope
    third = tilt + end.slope - 2 * rise
    factor = first + share * (tilt + share * (second + share * third))
    return factor, tilt + share * (2 * second + 3 * share * third)
