"""Does the burner get its air, and does nothing pull gas back into its space?

The burner's own air carries heat out of its space as well, so cooling adds only what that air does not carry.
Counted is the heat of the exhaust in the space, where its lagging is known; that of burner and engine casings
is not known.
"""

from collections.abc import Iterator, Mapping
from dataclasses import field
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np

from dossier.data.catalogue import catalogue
from dossier.data.coefficients import coefficient
from dossier.data.fuels import fuel
from dossier.data.recognised_words import says
from dossier.data.sources import CYLINDER_CONDUCTION, HEAT_BALANCE
from dossier.notation import NotAssessed, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.air import air_density
from dossier.physics.combustion_air import (
    AREA,
    air_need,
    combustion_air_flow,
    cooling_air_flow,
    opening_suction,
    opening_velocity,
    openings_together,
)
from dossier.sizing.exhaust import ExhaustStudy
from dossier.sizing.exhaust_gas import fuel_burnt
from dossier.sizing.exhaust_heat import Surface
from dossier.sizing.spaces import OUTSIDE, burner_of, burner_space, holds, space_of

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "Does the burner get its air?"
FLOW = q("q_V", "m3/s", "air flow", low=0, high=10)
ENGINES = ("engine", "generator")
LEAST_RISE = 0.5


@formula("Φ = L · (θ_g − θ_s)/R", CYLINDER_CONDUCTION)
def exhaust_heat_given(
    length: Annotated[Real, q("L", "m", "length of the exhaust in the space", low=0, high=100)],
    gas: Annotated[Real, q("θ_g", "K", "gas", low=273, high=1300)],
    surface: Annotated[Real, q("θ_s", "K", "outside of the exhaust", low=233, high=1300)],
    resistance: Annotated[Real, q("R", "mK/W", "resistance from gas to the outside", low=1e-3, high=100)],
) -> Annotated[Real, q("Φ", "W", "heat of the exhaust given to the space")]:
    """Heat that the exhaust gives to the space it lies in."""
    return length * (gas - surface) / resistance


@formula("Δθ = θ_max − θ_e", HEAT_BALANCE)
def rise_allowed(
    highest: Annotated[Real, q("θ_max", "K", "highest temperature of the space", low=223, high=423)],
    outside: Annotated[Real, q("θ_e", "K", "outside air on a hot day", low=223, high=333)],
) -> Annotated[Real, q("Δθ", "K", "rise of the air on its way through the space")]:
    """By how much the air may warm up on its way through the space."""
    return highest - outside


@formula("q_k = max(q_c − q_b, 0)", HEAT_BALANCE)
def further_cooling(
    cooling: Annotated[Real, q("q_c", "m3/s", "air that carries the heat off", low=0, high=10)],
    combustion: Annotated[Real, q("q_b", "m3/s", "air the burner draws through the space", low=0, high=10)],
) -> Annotated[Real, q("q_k", "m3/s", "air for cooling beyond the burner's own", low=0)]:
    """Air for cooling that the burner's own air does not make good."""
    return np.maximum(cooling - combustion, 0.0)


@dataclass(frozen=True)
class AirStudy:
    """Air of the burner and of the space it stands in.

    ``is_ducted`` tells that the burner's air is led to it from outside. ``engines`` is None where it is not
    known what air engines in the space draw. ``lacking`` names, by field, the keys a figure waits for.
    """

    source: str | None
    space: str | None
    is_ducted: bool
    combustion: Annotated[Real | None, q("q_b", "m3/s", "air the burner draws at full output")]
    cooling: Annotated[Real | None, q("q_k", "m3/s", "air for cooling beyond the burner's own")]
    engines: Annotated[Real | None, q("q_e", "m3/s", "air of engines in the burner's space")]
    fans: Annotated[Real | None, q("q_f", "m3/s", "air of fans in the burner's space")]
    need: Annotated[Real | None, q("q_V", "m3/s", "combustion, engine and cooling together", name="air.need")]
    velocity: Annotated[Real | None, q("v", "m/s", "through the free opening", name="air.velocity")]
    suction: Annotated[
        Real | None,
        q("Δp", "Pa", "depression of the burner's space, engine and fans running", name="air.suction"),
    ]
    lacking: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def _combustion(project: "Project", density: Real) -> Real | None:
    burnt = fuel_burnt(project)
    if burnt is None:
        return None
    return combustion_air_flow(burnt, fuel().air, coefficient("burner.excess_air"), density)


def _surface(exhaust: ExhaustStudy) -> Surface | None:
    """Outside of the exhaust; None where part of it is bare and nobody tells how much."""
    surfaces = exhaust.heat.surfaces
    return surfaces[0] if len(surfaces) == 1 else None


def _length_in(exhaust: ExhaustStudy, space: str | None) -> Real | None:
    """Length of the exhaust in a space; all of it where its route or the space is not known."""
    if space is None or isinstance(exhaust.route, NotAssessed):
        return exhaust.length
    return dict(exhaust.route.spaces).get(space, exhaust.length)


def _cooling(
    project: "Project",
    exhaust: ExhaustStudy | NotAssessed,
    space: str | None,
    combustion: Real,
    density: Real,
) -> Real | None:
    """Air for cooling beyond the burner's own; None where what the exhaust gives off is not known."""
    if isinstance(exhaust, NotAssessed):
        return None
    surface, length = _surface(exhaust), _length_in(exhaust, space)
    burner = burner_of(project)
    stated = burner.space_max if burner else None
    highest = catalogue()["air.compartment_temperature"].limit if stated is None else stated
    if surface is None or length is None or highest is None:
        return None
    outside = coefficient("combustion_air.outside")
    if highest - outside < LEAST_RISE:
        return None
    heat = exhaust_heat_given(length, exhaust.heat.gas, surface.temperature, surface.resistance)
    rise = rise_allowed(highest, outside)
    flow = cooling_air_flow(heat, density, coefficient("air.specific_heat"), rise)
    return further_cooling(flow, combustion)


def _kinds_held(project: "Project", space: str | None) -> tuple[str, ...] | None:
    """Kinds of engine the file says stand in a space; None where it is silent."""
    kept = holds(project, space) if space else None
    if kept is None:
        return None
    return tuple(kind for kind in ENGINES if any(says(kind, words) for words in kept))


def _engines_in(project: "Project", space: str | None) -> Iterator[Any]:
    """Engines of the file that stand in the burner's space, or may: those not placed elsewhere."""
    for component in (project.components or {}).values():
        if component.kind in ENGINES and space_of(project, component.tag) in {None, space}:
            yield component


def _engine_air(project: "Project", space: str | None) -> tuple[Real | None, tuple[str, ...]]:
    """Air of the engines in a space, and the keys it waits for."""
    engines = list(_engines_in(project, space))
    missing = [f"components.{engine.tag}.air_flow" for engine in engines if engine.air_flow is None]
    held = _kinds_held(project, space)
    if held is None and not engines:
        missing.append("components.engine.air_flow")
    missing += [
        f"components.{kind}.air_flow" for kind in held or () if all(engine.kind != kind for engine in engines)
    ]
    if missing:
        return None, tuple(missing)
    return air_need(*(engine.air_flow for engine in engines)), ()


def _fan_air(project: "Project") -> tuple[Real | None, tuple[str, ...]]:
    fans = project.combustion_air.fans if project.combustion_air else None
    if fans is None:
        return None, ("combustion_air.fans",)
    missing = tuple("combustion_air.fans.air_flow" for fan in fans if fan.air_flow is None)[:1]
    return (None, missing) if missing else (air_need(*(fan.air_flow for fan in fans if fan.air_flow)), ())


def combustion_air(project: "Project", exhaust: ExhaustStudy | NotAssessed) -> AirStudy | NotAssessed:
    """Air of the burner at full output, as far as the file gives enough for it."""
    written = project.combustion_air
    density = air_density(coefficient("combustion_air.outside"))
    combustion = _combustion(project, density)
    if written is None and combustion is None:
        return NotAssessed(QUESTION, ("combustion_air.from", "components.burner.output.max"))
    source = written.from_ if written else None
    space = burner_space(project)
    is_ducted = source == OUTSIDE
    opening = written.opening if written else None
    own_opening = written.engine_opening if written else None
    output = ("components.burner.output.max",) if combustion is None else ()
    area = ("combustion_air.opening",) if opening is None else ()
    engines, engine_keys = _engine_air(project, space)
    fans, fan_keys = _fan_air(project)
    lacking: dict[str, tuple[str, ...]] = {"engines": engine_keys, "fans": fan_keys}
    need = velocity = suction = cooling = None
    if combustion is None:
        lacking["need"] = output
    else:
        cooling = None if is_ducted else _cooling(project, exhaust, space, combustion, density)
        burners = (combustion, *(() if cooling is None else (cooling,)))
        drawn = () if engines is None or is_ducted else (engines,)
        need = air_need(*burners, *drawn)
        if opening is not None and opening >= AREA.low:
            velocity = opening_velocity(need if own_opening is None else air_need(*burners), opening)
    if velocity is None:
        lacking["velocity"] = (*output, *area)
    whole = [area for area in (opening, own_opening) if area is not None and area >= AREA.low]
    if is_ducted or combustion is None or engines is None or fans is None or opening is None or not whole:
        lacking["suction"] = (*area, *engine_keys, *fan_keys, *output)
    else:
        flow = air_need(combustion, engines, fans)
        discharge = coefficient("combustion_air.discharge")
        suction = opening_suction(flow, openings_together(*whole), density, discharge)
    return AirStudy(
        source, space, is_ducted, combustion, cooling, engines, fans, need, velocity, suction, lacking
    )
