"""What pressure does the exhaust ask of the burner's fan, and how fast does the gas go?

All at full output and at the temperature of the gas at the burner, which is on the safe side.
"""

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING, Annotated

from dossier.data.assumptions import stated_or_assumed
from dossier.data.coefficients import coefficient
from dossier.data.fuels import fuel
from dossier.notation import ARITHMETIC, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.air import air_density
from dossier.physics.exhaust_gas import (
    exhaust_loss_factor,
    exhaust_pressure_loss,
    gas_mass_flow,
    gas_velocity,
    wind_pressure,
)
from dossier.physics.fuel import fuel_mass_rate
from dossier.project.model.entry import Answer
from dossier.sizing.spaces import burner_of

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.exhaust import ExhaustRun


@dataclass(frozen=True)
class GasFlow:
    """Flow and pressure of the gas. ``lacking`` names, by field, the keys a missing figure waits for."""

    mass_flow: Annotated[Real | None, q("m_g", "kg/s", "mass flow of the gas at full output")]
    velocity: Annotated[Real | None, q("v", "m/s", "velocity of the gas at full output")]
    pressure_loss: Annotated[
        Real | None,
        q("Δp", "Pa", "whole route, silencer and fitting included", name="exhaust.pressure_loss"),
    ]
    wind_pressure: Annotated[Real | None, q("p_w", "Pa", "at the outlet", name="exhaust.wind_pressure")]
    back_pressure: Annotated[Real | None, q("p_b", "Pa", "loss of the route and head wind together")]
    lacking: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@formula("p_b = Δp + p_w", ARITHMETIC)
def pressure_against_burner(
    loss: Annotated[Real, q("Δp", "Pa", "loss of the whole route", low=0, high=1e6)],
    wind: Annotated[Real, q("p_w", "Pa", "wind pressure at the outlet", low=0, high=1e4)],
) -> Annotated[Real, q("p_b", "Pa", "back pressure of the exhaust", low=0)]:
    """Back pressure with the wind straight into the outlet."""
    return loss + wind


def fuel_burnt(project: "Project") -> Real | None:
    """Fuel burnt at full output (kg/s), None where the output is not stated."""
    burner = burner_of(project)
    if burner is None or burner.output is None:
        return None
    key = f"components.{burner.tag or 'burner'}.efficiency"
    efficiency = stated_or_assumed(burner.efficiency, "components.burner.efficiency", key)
    return fuel_mass_rate(burner.output.max, efficiency, fuel().heat_of_combustion)


def _wind(project: "Project") -> Real | None:
    conditions = project.conditions
    if conditions is None or conditions.outside_air is None:
        return None
    wind = stated_or_assumed(conditions.wind, "conditions.wind")
    return wind_pressure(air_density(conditions.outside_air), wind)


def gas_flow(
    project: "Project", run: "ExhaustRun", gas: Real, length: Real | None, bends: Real | None
) -> GasFlow:
    """Gas of one run; ``length`` (m) and ``bends`` (rad) are those of its route, None where not known."""
    burnt, wind = fuel_burnt(project), _wind(project)
    silencer: Real | None = 0.0 if isinstance(run.silencer, Answer) else run.silencer
    output = () if burnt is not None else ("components.burner.output.max",)
    bore = () if run.bore is not None else ("exhaust.bore",)
    route = () if length is not None and bends is not None else ("exhaust.route",)
    muffled = () if silencer is not None else ("exhaust.silencer",)
    lacking: dict[str, tuple[str, ...]] = {}
    mass = speed = loss = None
    if burnt is None:
        lacking["mass_flow"] = output
    else:
        mass = gas_mass_flow(burnt, fuel().air, coefficient("burner.excess_air"))
    if mass is None or run.bore is None:
        lacking["velocity"] = (*output, *bore)
    else:
        speed = gas_velocity(mass, gas, run.bore)
    if mass is None or run.bore is None or length is None or bends is None or silencer is None:
        lacking["pressure_loss"] = (*route, *bore, *muffled, *output)
    else:
        factor = exhaust_loss_factor(
            bends, coefficient("exhaust.bend_loss"), coefficient("exhaust.outlet_loss")
        )
        roughness = coefficient("exhaust.roughness")
        loss = exhaust_pressure_loss(mass, gas, run.bore, length, roughness, factor, silencer)
    if wind is None:
        lacking["wind_pressure"] = ("conditions.outside_air",)
    together = None if loss is None or wind is None else pressure_against_burner(loss, wind)
    if together is None:
        lacking["back_pressure"] = (
            *lacking.get("pressure_loss", ()),
            *lacking.get("wind_pressure", ()),
        )
    return GasFlow(mass, speed, loss, wind, together, lacking)
