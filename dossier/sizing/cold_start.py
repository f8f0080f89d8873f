"""Does the burner get its flow on a cold morning?

The thickest mix, a tired battery, the presets of the design mode.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import assumed
from dossier.data.sources import TODINI_PILATI
from dossier.notation import (
    Given,
    NotAssessed,
    NotConverged,
    OutOfRange,
    Real,
    Statement,
    Traced,
    Working,
    q,
    solved,
)
from dossier.notation.records import dataclass
from dossier.physics.network_elements import CircuitFault
from dossier.physics.pump import speed_at_voltage
from dossier.sizing.circuit import Circuit, ThreeWay
from dossier.sizing.coolant import Coolant
from dossier.sizing.flows import FLOW, FlowPicture, flow_picture, network_inputs
from dossier.sizing.hydraulics import Case, Hydraulics
from dossier.sizing.modes import COLD_START, valve_settings
from dossier.sizing.operation import Outcome, Setting, operate
from dossier.sizing.ring import Operation, RingStudy
from dossier.sizing.surroundings import PipeLosses

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "Does the burner get its flow on a cold morning?"


@dataclass(frozen=True)
class ColdStart:
    """The design mode at the temperature of a cold start.

    ``flows`` are at the lowest voltage, ``rated`` holds the flow through each part at the rated one.
    ``index_loss`` is the loss of the index branch over its loss when warm, at equal flow.
    """

    temperature: Annotated[Real, q("θ_0", "K", "coolant at the start")]
    viscosity: Annotated[Real, q("μ", "Pa*s", "of the mix at the start")]
    speed: Annotated[Real, q("r", "1", "speed of the pump over rated")]
    voltage: Annotated[Real | None, q("U", "V", "lowest voltage at rest")]
    flows: FlowPicture
    rated: Mapping[str, Real]
    outcome: Outcome
    corrected: bool
    index_loss: Annotated[Real | None, q("r", "1", "loss of the index branch, cold over warm")]


def cold_start(
    project: "Project",
    coolant: Coolant | NotAssessed,
    ring: RingStudy | NotAssessed,
) -> ColdStart | NotAssessed:
    """Flow at the first start in the cold."""
    start = project.conditions.unheated_start if project.conditions else None
    if isinstance(ring, NotAssessed):
        return ring
    if isinstance(coolant, NotAssessed):
        return coolant
    if ring.design is None:
        return NotAssessed(QUESTION, ("modes.heating",), next(iter(ring.not_solved.values()), ""))
    if start is None:
        return NotAssessed(QUESTION, ("conditions.unheated_start",))
    try:
        return _started(project, coolant, ring, ring.design, start)
    except (OutOfRange, NotConverged, CircuitFault) as reason:
        return NotAssessed(QUESTION, ("conditions.unheated_start",), str(reason))


def _started(
    project: "Project", coolant: Coolant, ring: RingStudy, design: Operation, start: Real
) -> ColdStart:
    circuit = ring.hydraulics.circuit
    viscosity, density = coolant.fluid.viscosity(start), coolant.fluid.density(start)
    case = Case(cold=True, viscosity=float(viscosity), density=float(density))
    hydraulics = Hydraulics(project, circuit, case)
    presets = {tag: preset.kv for tag, preset in ring.presets.items()}
    kv = valve_settings(circuit, design.state, presets)
    speeds, voltage = _speeds(project, circuit)
    setting = at_one_temperature(circuit, design, kv, float(start))
    slow = {tag: float(ratio) for tag, ratio in speeds.items()}
    rated = operate(hydraulics, setting)
    low = operate(hydraulics, replace(setting, speed=slow), rated)
    given = network_inputs(hydraulics, kv)
    flows = flow_picture(hydraulics, low, COLD_START, {**low.kv, **kv}, given)
    return ColdStart(
        start,
        viscosity,
        min(speeds.values(), key=float, default=1.0),
        voltage,
        flows,
        _flows_of(hydraulics, rated, given),
        low,
        bool(hydraulics.viscous),
        index_loss(circuit, ring, low),
    )


def _flows_of(hydraulics: Hydraulics, outcome: Outcome, given: tuple[Given, ...]) -> dict[str, Real]:
    """Volume flow through every part that takes or gives pressure."""
    flows = outcome.solution.volume_flow.tolist()
    statement = Statement("solved", "continuity and drops solved together", FLOW, TODINI_PILATI)
    return {
        tag: Traced(flows[n], Working(statement, given, flows[n]))
        for tag, n in hydraulics.network.element_index.items()
    }


def at_one_temperature(
    circuit: Circuit, design: Operation, kv: Mapping[str, Real], temperature: float
) -> Setting:
    """The design mode with the whole ring at one temperature, and no source.

    Thermostatic valves stand where that temperature puts them; three-way valves ask for heat, so they stand
    open to the way that is the hotter one in the design mode.
    """
    plain = {tag: float(factor) for tag, factor in kv.items()}
    controls = []
    for control in design.setting.controls:
        three = next((valve for valve in circuit.three_ways if valve.tag == control.tag), None)
        if three is None:
            controls.append(control)
            continue
        plain.update(control.kv(1.0 if _hotter(circuit, design, three) == three.ways[0] else 0.0))
    return replace(
        design.setting,
        kv=plain,
        burners={},
        recoveries={},
        emitters={},
        rooms={},
        running=frozenset(),
        loads={},
        pipes={},
        pipe_losses=PipeLosses({}),
        usual=temperature,
        controls=tuple(controls),
    )


def _hotter(circuit: Circuit, design: Operation, three: ThreeWay) -> str:
    """The hotter way of a three-way valve; where water passes one alone, the one without an emitter."""
    found = design.outcome.temperatures
    inlets = found.inlet if found else {}
    if all(way in inlets for way in three.ways):
        return max(three.ways, key=lambda way: inlets[way])
    cools = {
        way: any(p.tag in design.setting.emitters for p in circuit.in_branch(circuit.places[way].branch))
        for way in three.ways
    }
    return min(three.ways, key=lambda way: cools[way])


def _speeds(project: "Project", circuit: Circuit) -> tuple[dict[str, Real], Real | None]:
    """Speed of each pump over rated at the lowest voltage; a regulated one keeps its own."""
    electrics: Any = project.electrics
    if electrics is None or electrics.system is None:
        return {}, None
    lowest = electrics.lowest_voltage
    if lowest is None:
        key = "electrics.lowest_voltage_24" if float(electrics.system) > 18 else "electrics.lowest_voltage_12"  # noqa: PLR2004 - between both systems
        lowest = assumed(key, "electrics.lowest_voltage")
    speeds = {}
    for place in circuit.of_kind("pump"):
        unit: Any = place.unit
        if not unit.regulated:
            speeds[place.tag] = speed_at_voltage(lowest, electrics.system)
    return speeds, lowest


def index_loss(circuit: Circuit, ring: RingStudy, cold: Outcome) -> Real | None:
    """Loss of the index branch without its valve at the flow it has when warm, cold over warm.

    None where no branch was balanced.
    """
    if not ring.index or ring.design is None:
        return None
    warm = ring.design.outcome.solution
    names = [p.tag for p in circuit.in_branch(ring.index) if p.kind != "balancing_valve"]
    places = [warm.network.element_index[tag] for tag in names if tag in warm.network.element_index]
    thin = float(warm.drop[places].sum())
    if thin <= 0:
        return None
    thick = float(cold.solution.laws.element_drops(warm.mass_flow)[places].sum())
    text = "drops of the index branch at the warm flow, with the mix cold and warm"
    return solved(thick / thin, q("r", "1", "cold over warm"), text, TODINI_PILATI)
