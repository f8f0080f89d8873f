"""What can each emitter give? Fan coils, radiators and floor loops from their rated points."""

from dataclasses import fields, replace
from functools import cached_property
from typing import Annotated, Any

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.coefficients import coefficient
from dossier.data.pipes import pipe_size
from dossier.notation import NotAssessed, Real, q
from dossier.notation.records import dataclass
from dossier.physics.air import air_density
from dossier.physics.emitter import (
    Emitter,
    FanCoil,
    Radiator,
    ducted_air_flow,
    fan_coil_conductance,
    stopped_output,
)
from dossier.physics.exchanger import capacity_rate, smaller_rate
from dossier.physics.floor_loop import FloorLoop, floor_resistance
from dossier.physics.fluid import water
from dossier.physics.rated_point import rated_effectiveness
from dossier.sizing.circuit import Circuit, Place

EMITTERS = ("fan_coil", "radiator", "towel_rail", "floor_loop")
QUESTION = "What can each emitter give?"


@dataclass(frozen=True)
class EmitterModel:
    """An emitter as it stands in the ring: what it gives, which zone it heats, whose air it takes."""

    tag: str
    kind: str
    zone: str
    air_from: str
    emitter: Emitter
    effectiveness: Annotated[
        Real | None, q("ε", "1", "asked for by the rated point", name="effectiveness.{tag}")
    ] = None
    quiet: Emitter | None = None
    rated_output: Annotated[Real, q("Φ_n", "W", "rated output")] = 0.0

    def output(self, water_in: Real, water_rate: Real, air_in: Real, *, fan_runs: bool = True) -> Real:
        """Heat given (W); with its fan stopped a fan coil still gives a share."""
        full = self.emitter.output(water_in, water_rate, air_in)
        if fan_runs or self.kind != "fan_coil":
            return full
        return stopped_output(full, assumed("components.fan_coil.stopped_share", f"components.{self.tag}"))

    @cached_property
    def plain(self) -> "EmitterModel":
        """The same emitter in plain numbers, which leaves no workings: for solvers."""
        figures = {
            field.name: float(value)
            if isinstance(value := getattr(self.emitter, field.name), float)
            else value
            for field in fields(self.emitter)  # type: ignore[arg-type]  # every emitter is a dataclass
        }
        return replace(self, emitter=type(self.emitter)(**figures), quiet=None)


def emitter_models(circuit: Circuit) -> tuple[dict[str, EmitterModel], dict[str, NotAssessed]]:
    """Models of all emitters in the ring, and what is missing for the others, by tag."""
    models: dict[str, EmitterModel] = {}
    lacking: dict[str, NotAssessed] = {}
    for place in circuit.of_kind(*EMITTERS):
        found = _model(place)
        if isinstance(found, NotAssessed):
            lacking[place.tag] = found
        else:
            models[place.tag] = found
    return models, lacking


def _missing(place: Place, *names: str) -> NotAssessed | None:
    unit: Any = place.unit
    needs = []
    for name in names:
        holder, _, inner = name.partition(".")
        part = getattr(unit, holder)
        if part is None or (inner and getattr(part, inner) is None):
            needs.append(f"components.{place.tag}.{name}")
    return NotAssessed(QUESTION, tuple(needs)) if needs else None


def _model(place: Place) -> EmitterModel | NotAssessed:
    if place.kind == "fan_coil":
        return _fan_coil(place)
    if place.kind == "floor_loop":
        return _floor_loop(place)
    return _radiator(place)


def _fan_coil(place: Place) -> EmitterModel | NotAssessed:
    lacking = _missing(place, "zone", "output", "at.water_in", "at.air_in", "at.flow", "air_flow")
    if lacking:
        return lacking
    unit: Any = place.unit
    at, liquid = unit.at, water()
    water_rate = capacity_rate(at.flow, liquid.density(at.water_in), liquid.specific_heat(at.water_in))
    specific_heat = coefficient("air.specific_heat")
    air_rate = capacity_rate(unit.air_flow, air_density(at.air_in), specific_heat)
    asked = rated_effectiveness(unit.output, smaller_rate(water_rate, air_rate), at.water_in, at.air_in)
    rated = FanCoil.rated(unit.output, water_rate, air_rate, at.water_in, at.air_in)
    full = _at_air_flow(rated, unit.air_flow, unit.air_flow, at.air_in, ducted=bool(unit.ducted))
    quiet = None
    if unit.quiet_air_flow is not None:
        quiet = _at_air_flow(rated, unit.quiet_air_flow, unit.air_flow, at.air_in, ducted=bool(unit.ducted))
    return EmitterModel(
        place.tag, place.kind, unit.zone, unit.air_from or unit.zone, full, asked, quiet, unit.output
    )


def _at_air_flow(rated: FanCoil, air_flow: Real, rated_flow: Real, air_in: Real, *, ducted: bool) -> FanCoil:
    """The fan coil at another air flow; the duct takes its share."""
    if ducted:
        air_flow = ducted_air_flow(air_flow, coefficient("fan_coil.duct_share"))
    if air_flow is rated_flow:
        return rated
    conductance = fan_coil_conductance(
        rated.conductance, air_flow, rated_flow, coefficient("fan_coil.air_exponent")
    )
    rate = capacity_rate(air_flow, air_density(air_in), coefficient("air.specific_heat"))
    return FanCoil(conductance, rate, rated.rated_water_rate)


def _radiator(place: Place) -> EmitterModel | NotAssessed:
    lacking = _missing(place, "zone", "output", "at.water_in", "at.water_out", "at.air_in")
    if lacking:
        return lacking
    unit: Any = place.unit
    exponent = stated_or_assumed(
        unit.exponent, "components.radiator.exponent", f"components.{place.tag}.exponent"
    )
    at = unit.at
    radiator = Radiator.rated_at(unit.output, at.water_in, at.water_out, at.air_in, exponent)
    return EmitterModel(place.tag, place.kind, unit.zone, unit.zone, radiator, rated_output=unit.output)


def _floor_loop(place: Place) -> EmitterModel | NotAssessed:
    lacking = _missing(place, "zone", "area", "size", "spacing")
    if lacking:
        return lacking
    unit: Any = place.unit
    size = pipe_size(unit.size)
    resistance = floor_resistance(
        unit.covering if unit.covering is not None else 0.0,
        unit.spacing,
        size.outside,
        size.bore,
        coefficient("floor_loop.bed_conductivity"),
        size.conductivity,
    )
    loop = FloorLoop(unit.area, resistance)
    return EmitterModel(place.tag, place.kind, unit.zone, unit.zone, loop)
