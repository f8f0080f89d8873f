"""What does the mix cost the pump from the hardest frost to the hottest water?

Flow, pump and index branch with the whole ring at one temperature, all valves as preset, at rated voltage.
The laws are those of the cold start wherever the mix is thicker than the water that units were tested with.
"""

from typing import TYPE_CHECKING, Annotated

from dossier.notation import NotAssessed, NotConverged, OutOfRange, Real, q
from dossier.notation.records import dataclass
from dossier.physics.network_elements import CircuitFault
from dossier.sizing.cold_start import at_one_temperature, index_loss
from dossier.sizing.coolant import Coolant
from dossier.sizing.hydraulics import Case, Hydraulics
from dossier.sizing.modes import valve_settings
from dossier.sizing.operation import operate
from dossier.sizing.ring import Operation, RingStudy

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "What does the mix cost the pump?"
TEMPERATURES = tuple(273.15 + degrees for degrees in (-20, -10, 0, 10, 20, 40, 60, 80))


@dataclass(frozen=True)
class MixPoint:
    """The ring at one temperature; ``why`` says what stood in the way where the flows are None."""

    temperature: Annotated[Real, q("θ", "K", "temperature of the whole ring")]
    viscosity: Annotated[Real | None, q("μ", "Pa*s", "of the mix")] = None
    burner: Annotated[Real | None, q("q_V", "m3/s", "flow through the burner")] = None
    pump: Annotated[Real | None, q("q_V", "m3/s", "flow of the pump")] = None
    pressure_rise: Annotated[Real | None, q("Δp", "Pa", "pressure rise of the pump")] = None
    index: Annotated[Real | None, q("q_V", "m3/s", "flow through the index branch")] = None
    index_loss: Annotated[
        Real | None, q("r", "1", "loss of the index branch at its warm flow, over its warm loss")
    ] = None
    why: str = ""


def mix_curve(
    project: "Project", coolant: Coolant | NotAssessed, ring: RingStudy | NotAssessed
) -> tuple[MixPoint, ...] | NotAssessed:
    """The ring from −20 to 80 °C; below its freezing point it has no flow, and the point says so."""
    if isinstance(coolant, NotAssessed):
        return coolant
    if isinstance(ring, NotAssessed):
        return ring
    design = ring.design
    if design is None:
        return NotAssessed(QUESTION, ("modes.heating",), next(iter(ring.not_solved.values()), ""))
    return tuple(_point(project, coolant, ring, design, t) for t in TEMPERATURES)


def _point(
    project: "Project", coolant: Coolant, ring: RingStudy, design: Operation, temperature: float
) -> MixPoint:
    circuit = ring.hydraulics.circuit
    try:
        viscosity = float(coolant.fluid.viscosity(temperature))
        case = Case(cold=True, viscosity=viscosity, density=float(coolant.fluid.density(temperature)))
        hydraulics = Hydraulics(project, circuit, case)
        presets = {tag: preset.kv for tag, preset in ring.presets.items()}
        kv = valve_settings(circuit, design.state, presets)
        outcome = operate(hydraulics, at_one_temperature(circuit, design, kv, temperature))
    except (OutOfRange, NotConverged, CircuitFault) as reason:
        return MixPoint(temperature, why=str(reason))
    flow = dict(zip(hydraulics.network.elements.names, outcome.solution.volume_flow.tolist(), strict=True))
    drop = outcome.solution.drop
    pump = circuit.of_kind("pump")[0].tag
    burners = [place.tag for place in circuit.of_kind("burner") if place.tag in flow]
    index = [place.tag for place in circuit.in_branch(ring.index) if place.tag in flow] if ring.index else []
    return MixPoint(
        temperature,
        viscosity,
        flow[burners[0]] if burners else None,
        flow[pump],
        -float(drop[hydraulics.network.element_index[pump]]),
        flow[index[0]] if index else None,
        index_loss(circuit, ring, outcome),
    )
