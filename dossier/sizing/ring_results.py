"""Does each cabin get its heat? Temperatures and outputs of one mode, each with its working."""

from collections.abc import Mapping
from typing import Annotated

import numpy as np

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import (
    Given,
    NotAssessed,
    Real,
    Statement,
    Traced,
    Working,
    chosen,
    q,
)
from dossier.notation.records import dataclass
from dossier.physics.exchanger import capacity_rate, cooled_outlet
from dossier.physics.pipe_heat import pipe_heat
from dossier.sizing.circuit import Circuit
from dossier.sizing.flows import FlowPicture
from dossier.sizing.heat_loss import HeatLoss
from dossier.sizing.heat_sums import heat_margin, heat_of_rise, rise_at_output, total_heat
from dossier.sizing.operation import Outcome, Setting
from dossier.sizing.sources_of_heat import Regime

__all__ = [
    "EmitterState",
    "ModeHeat",
    "PipeState",
    "SourceState",
    "ZoneHeat",
    "mode_heat",
    "rise_at_output",
    "total_heat",
]

SUPPLY = q("θ_V", "K", "entering water")
RETURN = q("θ_R", "K", "leaving water")
OUTPUT = q("Φ", "W", "heat given")


@dataclass(frozen=True)
class SourceState:
    """A source in one mode. ``rise_at_full`` is the rise its full output would make at this flow."""

    mode: str
    tag: str
    kind: str
    regime: Regime
    supply: Annotated[Real, q("θ_V", "K", "leaving a source", name="supply.{mode}.{tag}")]
    back: Annotated[Real, q("θ_R", "K", "entering a source", name="return.{mode}.{tag}")]
    output: Annotated[Real, q("Φ", "W", "heat given by a source", name="output.{mode}.{tag}")]
    full: Annotated[Real, q("Φ_max", "W", "full output")]
    lowest: Annotated[Real, q("Φ_min", "W", "lowest output")]
    rise_at_full: Annotated[Real, q("Δθ", "K", "rise at full output")]


@dataclass(frozen=True)
class EmitterState:
    """An emitter in one mode, as long as it runs; ``given`` is what its room's thermostat takes of it."""

    mode: str
    tag: str
    zone: str
    kind: str
    fan_runs: bool
    room: Annotated[Real, q("θ_i", "K", "air it meets")]
    supply: Annotated[Real, q("θ_V", "K", "entering an emitter", name="supply.{mode}.{tag}")]
    back: Annotated[Real, q("θ_R", "K", "leaving an emitter", name="return.{mode}.{tag}")]
    output: Annotated[Real, q("Φ", "W", "heat given by an emitter", name="output.{mode}.{tag}")]
    given: Annotated[Real, q("Φ", "W", "heat given on the mean")]
    quiet: Annotated[
        Real | None,
        q("Φ", "W", "at its quiet speed, ducts counted", name="output_quiet.{mode}.{tag}"),
    ] = None


@dataclass(frozen=True)
class ZoneHeat:
    """Heat that reaches a zone, against its load."""

    mode: str
    zone: str
    output: Annotated[Real, q("Φ", "W", "heat of its emitters and pipes")]
    load: Annotated[Real, q("Φ_HL", "W", "load of the zone")]
    margin: Annotated[
        Real, q("ΔΦ", "W", "emitter output less the zone's load", name="zone_margin.{mode}.{zone}")
    ]


@dataclass(frozen=True)
class PipeState:
    """A pipe in one mode."""

    mode: str
    tag: str
    through: str
    beside: str
    loss: Annotated[Real, q("Φ", "W", "heat lost by a pipe", name="pipe_loss.{mode}.edge.{tag}")]
    surface: Annotated[
        Real,
        q("θ_s", "K", "outside of pipe or lagging", name="surface_temperature.{mode}.edge.{tag}"),
    ]


@dataclass(frozen=True)
class ModeHeat:
    """Temperatures and heat of one mode."""

    mode: str
    sources: Mapping[str, SourceState]
    emitters: Mapping[str, EmitterState]
    zones: Mapping[str, ZoneHeat]
    pipes: Mapping[str, PipeState]
    outside: Annotated[
        Real,
        q("Φ", "W", "lost by pipes outside the heated zones", name="pipe_loss.{mode}.outside"),
    ]
    inlets: Mapping[str, Real]
    outlets: Mapping[str, Real]


def mode_heat(  # noqa: PLR0913, PLR0917 - a mode with all that it was found from
    circuit: Circuit,
    setting: Setting,
    outcome: Outcome,
    flows: FlowPicture,
    given: tuple[Given, ...],
    loss: HeatLoss | NotAssessed,
) -> ModeHeat:
    """Temperatures and outputs of one mode with their workings."""
    found = outcome.temperatures
    if found is None:
        raise ValueError(f"mode {setting.state.name} has no temperatures")
    mode = setting.state.name
    rests = (*given, *_heat_inputs(setting))
    text = f"heat of all parts in balance; residual {found.residual:.1e} after {found.steps} steps"
    entering, leaving = (Statement("solved", text, quantity, HEAT_BALANCE) for quantity in (SUPPLY, RETURN))
    inlets = {tag: Traced(t, Working(entering, rests, t)) for tag, t in found.inlet.items()}
    outlets = {tag: Traced(t, Working(leaving, rests, t)) for tag, t in found.outlet.items()}
    wanted = (
        setting.emitters.keys() | setting.pipes.keys() | setting.burners.keys() | setting.recoveries.keys()
    )
    rates = {
        tag: _rate(flows.edges[tag].flow, _density(outcome, tag, setting), outcome.specific_heat)
        for tag in inlets
        if tag in wanted
    }
    emitters = {
        tag: _emitter(mode, tag, setting, outcome, inlets[tag], rates[tag])
        for tag in setting.emitters
        if tag in inlets
    }
    pipes = _pipes(mode, setting, inlets, rates)
    heated = set() if isinstance(loss, NotAssessed) else {zone.zone for zone in loss.heated}
    outside = total_heat(*(p.loss for p in pipes.values() if not {p.through, p.beside} & heated))
    return ModeHeat(
        mode,
        {
            tag: _source(circuit, setting, outcome, tag, inlets, outlets, rates)
            for tag in (*setting.burners, *setting.recoveries)
            if tag in inlets
        },
        emitters,
        _zones(mode, setting, emitters, pipes, loss),
        pipes,
        outside,
        inlets,
        outlets,
    )


def _rate(flow: Real, density: float, specific_heat: float) -> Real:
    """Capacity rate of a flow, whichever way it goes."""
    return capacity_rate(abs(float(flow)) if float(flow) < 0 else flow, density, specific_heat)


def _pipes(
    mode: str, setting: Setting, inlets: Mapping[str, Real], rates: Mapping[str, Real]
) -> dict[str, PipeState]:
    """Loss and outside of every pipe that water passes."""
    water = np.array([float(inlets.get(tag, setting.usual)) for tag in setting.pipe_losses.tags])
    surfaces = setting.pipe_losses.surfaces(water).tolist() if len(water) else []
    pipes = {}
    for (tag, pipe), found in zip(setting.pipes.items(), surfaces, strict=True):
        if tag in inlets:
            outside = pipe.surface(inlets[tag], found)
            transmittance = pipe.transmittance(inlets[tag], outside)
            lost = pipe_heat(transmittance, pipe.length, rates[tag], inlets[tag], pipe.air)
            pipes[tag] = PipeState(mode, tag, pipe.through, pipe.beside, lost, outside)
    return pipes


def _density(outcome: Outcome, tag: str, setting: Setting) -> float:
    index = outcome.solution.network.element_index.get(tag)
    if index is not None:
        return float(outcome.density[index])
    return (
        float(outcome.density.mean()) if len(outcome.density) else float(setting.fluid.density(setting.usual))
    )


def _heat_inputs(setting: Setting) -> tuple[Given, ...]:
    """Numbers of sources and emitters that the temperatures rest on."""
    found = []
    for burner in setting.burners.values():
        found += [
            Given(q("θ_set", "K", f"setpoint of {burner.tag}"), burner.setpoint),
            Given(q("Δθ_sw", "K", f"band of {burner.tag}"), burner.band),
            Given(q("Φ_max", "W", f"full output of {burner.tag}"), burner.full),
        ]
    for recovery in setting.recoveries.values():
        found.append(Given(q("UA", "W/K", f"conductance of {recovery.tag}"), recovery.conductance))
        found.append(Given(q("Φ", "W", f"jacket heat of {recovery.serves}"), recovery.jacket_heat))
    found += [
        Given(q("Φ_n", "W", f"rated output of {e.tag}"), e.rated_output) for e in setting.emitters.values()
    ]
    return tuple(found)


def _emitter(  # noqa: PLR0913, PLR0917 - one emitter with all that surrounds it
    mode: str, tag: str, setting: Setting, outcome: Outcome, supply: Real, rate: Real
) -> EmitterState:
    model = setting.emitters[tag]
    room = setting.rooms[tag]
    runs = tag in setting.running
    output = model.output(supply, rate, room, fan_runs=runs)
    quiet = None
    if model.quiet is not None:
        quiet = model.quiet.output(supply, rate, room)
    back = cooled_outlet(supply, output, rate)
    load = outcome.loads.get(tag)
    given = output
    if load is not None and load < float(output):
        given = chosen(
            load, OUTPUT, "the thermostat holds it at what the room still needs", HEAT_BALANCE, output
        )
    return EmitterState(mode, tag, model.zone, model.kind, runs, room, supply, back, output, given, quiet)


def _source(  # noqa: PLR0913, PLR0917 - one source with all that surrounds it
    circuit: Circuit,
    setting: Setting,
    outcome: Outcome,
    tag: str,
    inlets: Mapping[str, Real],
    outlets: Mapping[str, Real],
    rates: Mapping[str, Real],
) -> SourceState:
    burner = setting.burners.get(tag)
    full = burner.full if burner else setting.recoveries[tag].jacket_heat
    lowest = burner.lowest if burner else 0.0
    output = heat_of_rise(rates[tag], outlets[tag], inlets[tag])
    return SourceState(
        setting.state.name,
        tag,
        circuit.places[tag].kind,
        outcome.regimes.get(tag, Regime.STEADY),
        outlets[tag],
        inlets[tag],
        output,
        full,
        lowest,
        rise_at_output(full, rates[tag]),
    )


def _zones(
    mode: str,
    setting: Setting,
    emitters: Mapping[str, EmitterState],
    pipes: Mapping[str, PipeState],
    loss: HeatLoss | NotAssessed,
) -> dict[str, ZoneHeat]:
    if isinstance(loss, NotAssessed):
        return {}
    found = {}
    for zone in loss.heated:
        parts = [e.output for e in emitters.values() if e.zone == zone.zone]
        parts += [p.loss for p in pipes.values() if p.through == zone.zone]
        if zone.zone in setting.state.calls and zone.load is not None and parts:
            output = total_heat(*parts)
            found[zone.zone] = ZoneHeat(mode, zone.zone, output, zone.load, heat_margin(output, zone.load))
    return found
