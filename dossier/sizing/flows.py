"""Does each branch get its flow? Flow, velocity and pressure drop of every part, each with its working."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from dossier.data.sources import HEAT_BALANCE, TODINI_PILATI
from dossier.notation import ARITHMETIC, Given, Quantity, Real, Statement, Traced, Working, formula, q
from dossier.physics.fittings import fitting_drop, unit_drop
from dossier.physics.pipe import friction_factor, pipe_drop, relative_roughness, reynolds_number, velocity
from dossier.physics.valves import valve_drop
from dossier.sizing.circuit import Circuit, Place
from dossier.sizing.hydraulics import Hydraulics
from dossier.sizing.operation import Outcome

FLOW = q("q_V", "m3/s", "flow")
DROP = q("Δp", "Pa", "pressure drop")
MASS_FLOW = q("q_m", "kg/s", "mass flow")
STILL = 1e-12


@formula("Δp = Σ Δp_i", ARITHMETIC)
def total_drop(
    *drops: Annotated[Real, q("Δp_i", "Pa", "pressure drop", low=-1e8, high=1e8)],
) -> Annotated[Real, q("Δp", "Pa", "pressure drop together")]:
    """Drop of several parts in series."""
    return sum(drops)


@formula("q_V = q_m/ρ", ARITHMETIC)
def volume_flow(
    mass_flow: Annotated[Real, q("q_m", "kg/s", "mass flow", low=-1000, high=1000)],
    density: Annotated[Real, q("ρ", "kg/m3", "density at its temperature", low=800, high=1300)],
) -> Annotated[Real, q("q_V", "m3/s", "flow")]:
    """Volume flow of a mass flow."""
    return mass_flow / density


@dataclass(frozen=True)
class EdgeFlow:
    """What passes one unit, pipe or valve, and what it costs."""

    mode: str
    tag: str
    kind: str
    branch: str
    flow: Annotated[
        Real,
        q("q_V", "m3/s", "through a unit, pipe or valve", name="flow.{mode}.edge.{tag}"),
    ]
    drop: Annotated[Real, q("Δp", "Pa", "pressure drop", name="pressure_drop.{mode}.edge.{tag}")]
    velocity: Annotated[Real | None, q("v", "m/s", "mean velocity", name="velocity.{mode}.edge.{tag}")] = None
    reynolds: Annotated[Real | None, q("Re", "1", "Reynolds number", name="reynolds.{mode}.edge.{tag}")] = (
        None
    )
    kv: Annotated[Real | None, q("K_v", "m3/h", "flow factor it stands at")] = None


@dataclass(frozen=True)
class BranchFlow:
    """Flow and drop of one branch between its manifolds."""

    mode: str
    name: str
    flow: Annotated[Real, q("q_V", "m3/s", "through a branch", name="flow.{mode}.branch.{name}")]
    drop: Annotated[Real, q("Δp", "Pa", "over a branch", name="pressure_drop.{mode}.branch.{name}")]


@dataclass(frozen=True)
class PumpPoint:
    """Where a pump works."""

    mode: str
    tag: str
    flow: Annotated[Real, q("q_V", "m3/s", "operating point", name="pump.{mode}.{tag}.flow")]
    pressure_rise: Annotated[Real, q("Δp", "Pa", "operating point", name="pump.{mode}.{tag}.pressure_rise")]
    beyond_curve: bool


@dataclass(frozen=True)
class FlowPicture:
    """Flows of a mode."""

    edges: Mapping[str, EdgeFlow]
    branches: Mapping[str, BranchFlow]
    pumps: Mapping[str, PumpPoint]


def network_inputs(hydraulics: Hydraulics, kv: Mapping[str, Real]) -> tuple[Given, ...]:
    """Every number of the file that the flows rest on, for their workings."""
    given: list[Given] = []

    def add(symbol: str, unit: str, label: str, value: object) -> None:
        if isinstance(value, Traced):
            given.append(Given(Quantity(symbol, unit, label), value))

    for tag, pipe in hydraulics.pipes.items():
        add("d", "m", f"bore of {tag}", pipe.bore)
        add("L", "m", f"length of {tag}", pipe.length)
        add("ΣK", "1", f"loss factor of {tag}", pipe.loss)
    for place in hydraulics.circuit.places.values():
        unit: Any = place.unit
        rated = getattr(unit, "pressure_drop", None)
        if rated is not None:
            add("Δp_r", "Pa", f"rated drop of {place.tag}", rated.value)
            add("q_r", "m3/s", f"rated flow of {place.tag}", rated.at)
        if place.kind == "pump":
            for point in unit.curve:
                add("Δp", "Pa", f"curve of {place.tag} at {float(point.flow):.3g} m3/s", point.pressure)
        elif getattr(unit, "kv", None) is not None:
            add("K_v", "m3/h", f"flow factor of {place.tag}", kv.get(place.tag, unit.kv))
    mix = hydraulics.project.circuit.coolant if hydraulics.project.circuit else None
    if mix is not None:
        add("x", "1", "share of glycol", mix.share)
    return tuple(given)


def _found(number: float, quantity: Quantity, text: str, given: tuple[Given, ...]) -> Traced:
    return Traced(number, Working(Statement("solved", text, quantity, TODINI_PILATI), given, number))


def flow_picture(
    hydraulics: Hydraulics, outcome: Outcome, mode: str, kv: Mapping[str, Real], given: tuple[Given, ...]
) -> FlowPicture:
    """Flow, velocity and drop of every part in one mode, with workings."""
    circuit = hydraulics.circuit
    solution = outcome.solution
    left = solution.residual
    residual = f"continuity and drops solved together; residuals {left.flow:.1e}, {left.energy:.1e}"
    masses = [_found(float(flow), MASS_FLOW, residual, given) for flow in solution.mass_flow]
    usual = float(outcome.density.mean()) if len(outcome.density) else 1000.0
    edges = {}
    for place in circuit.places.values():
        mass = masses[hydraulics.run_of[place.tag]]
        edges[place.tag] = _edge(hydraulics, outcome, place, mode, mass, kv, usual)
    branches = {name: _branch(circuit, edges, name, mode) for name in circuit.branches}
    pumps = {
        place.tag: PumpPoint(
            mode,
            place.tag,
            edges[place.tag].flow,
            _found(
                -float(edges[place.tag].drop), q("Δp", "Pa", "pressure rise"), "pump curve at its flow", given
            ),
            place.tag in solution.beyond,
        )
        for place in circuit.of_kind("pump")
    }
    return FlowPicture(edges, branches, pumps)


def _edge(  # noqa: PLR0913, PLR0917 - one part with all that surrounds it
    hydraulics: Hydraulics,
    outcome: Outcome,
    place: Place,
    mode: str,
    mass: Traced,
    kv: Mapping[str, Real],
    usual: float,
) -> EdgeFlow:
    index = hydraulics.network.element_index.get(place.tag)
    if index is None:
        free = _found(0.0, DROP, "no drop is stated: it passes freely", ())
        return EdgeFlow(mode, place.tag, place.kind, place.branch, volume_flow(mass, usual), free)
    density, viscosity = float(outcome.density[index]), float(outcome.viscosity[index])
    flow = volume_flow(mass, density)
    unit: Any = place.unit
    if place.pipe is not None or place.kind == "floor_loop":
        return _pipe_edge(hydraulics, place, mode, flow, density, viscosity)
    solved_drop = float(outcome.solution.drop[index])
    if place.kind == "pump":
        drop: Real = _found(solved_drop, DROP, "pump curve at its flow", (Given(FLOW, flow),))
        return EdgeFlow(mode, place.tag, place.kind, place.branch, flow, drop)
    factor = kv.get(place.tag, getattr(unit, "kv", None))
    if factor is not None:
        if float(factor) > 0 and abs(float(flow)) > STILL:
            drop = valve_drop(flow, factor, density)
        else:
            drop = _found(solved_drop, DROP, "what stands before a shut valve", ())
        return EdgeFlow(mode, place.tag, place.kind, place.branch, flow, drop, kv=factor)
    element: Any = hydraulics.elements[place.tag]
    drop = unit_drop(
        flow,
        density,
        viscosity,
        unit.pressure_drop.at,
        unit.pressure_drop.value,
        element.density,
        element.viscosity,
        element.exponent,
    )
    return EdgeFlow(mode, place.tag, place.kind, place.branch, flow, drop)


def _pipe_edge(  # noqa: PLR0913, PLR0917 - one pipe with all that surrounds it
    hydraulics: Hydraulics, place: Place, mode: str, flow: Real, density: float, viscosity: float
) -> EdgeFlow:
    measure = hydraulics.pipes.get(place.tag)
    if measure is None:
        element: Any = hydraulics.elements[place.tag]
        bore, length, roughness, loss = element.bore, element.length, element.roughness, element.loss
    else:
        bore, length, roughness, loss = measure.bore, measure.length, measure.roughness, measure.loss
    speed = velocity(flow, bore)
    reynolds = reynolds_number(speed, bore, density, viscosity)
    drops: list[Real] = []
    if float(reynolds) > 0:
        factor = friction_factor(reynolds, relative_roughness(roughness, bore))
        drops.append(pipe_drop(factor, length, bore, density, speed))
        if float(loss):
            drops.append(fitting_drop(loss, density, speed))
    return EdgeFlow(
        mode,
        place.tag,
        place.kind,
        place.branch,
        flow,
        total_drop(*drops) if drops else _found(0.0, DROP, "nothing flows", ()),
        speed,
        reynolds,
    )


def _branch(circuit: Circuit, edges: Mapping[str, EdgeFlow], name: str, mode: str) -> BranchFlow:
    """Flow of a branch at its first part, and the drop of the parts that are its own, nested ones aside."""
    branch = circuit.branches[name]
    own = [place for place in circuit.places.values() if place.branches[-1:] == (name,)]
    first = next((place for place in own if place.start == branch.start), None)
    if first is None:
        inner = [place for place in circuit.in_branch(name) if place.start == branch.start]
        flow = total_flow(*(edges[place.tag].flow for place in inner))
    else:
        flow = edges[first.tag].flow
    path = _path(circuit, branch.start, branch.end, name)
    return BranchFlow(mode, name, flow, total_drop(*(edges[tag].drop for tag in path)))


@formula("q_V = Σ q_i", HEAT_BALANCE)
def total_flow(
    *flows: Annotated[Real, q("q_i", "m3/s", "flow", low=-10, high=10)],
) -> Annotated[Real, q("q_V", "m3/s", "flow together")]:
    """Flow of several ways side by side."""
    return sum(flows)


def _path(circuit: Circuit, start: int, end: int, branch: str) -> list[str]:
    """Tags from one end of a branch to the other, through the first of any nested branches."""
    here, tags = start, []
    while here != end:
        place = next(p for p in circuit.places.values() if p.start == here and branch in p.branches)
        tags.append(place.tag)
        here = place.end
    return tags
