"""Does each branch get its flow? Flow, velocity and pressure drop of every part, each with its working."""

from collections.abc import Iterable, Mapping
from typing import Annotated, Any

from dossier.data.sources import HEAT_BALANCE, TODINI_PILATI
from dossier.notation import ARITHMETIC, Given, Quantity, Real, Statement, Traced, Working, formula, q
from dossier.notation.records import dataclass
from dossier.physics.fittings import fitting_drop, unit_drop
from dossier.physics.pipe import friction_factor, pipe_drop, relative_roughness, reynolds_number, velocity
from dossier.physics.valves import valve_drop
from dossier.sizing.circuit import Circuit, Place
from dossier.sizing.hydraulics import Hydraulics
from dossier.sizing.operation import Outcome
from dossier.sizing.telling import told

FLOW = q("q_V", "m3/s", "flow")
DROP = q("Δp", "Pa", "pressure drop")
MASS_FLOW = q("q_m", "kg/s", "mass flow")
KV = ("K_v", "m3/h")
UNSET = ("pump", "three_way_valve")
"""Kinds that have no flow factor of their own in the circuit."""

STILL = 1e-12
WATER = 1000.0
RISE = q("Δp", "Pa", "pressure rise")
FREE = Statement("solved", "no drop is stated: it passes freely", DROP, ARITHMETIC)
SHUT = Statement("solved", "what stands before a shut valve", DROP, TODINI_PILATI)
ON_CURVE = Statement("solved", "pump curve at its flow", DROP, TODINI_PILATI)
NOTHING_FLOWS = Statement("solved", "nothing flows", DROP, ARITHMETIC)


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
    """Every number of the file that the flows rest on, for their workings.

    ``kv`` holds the flow factors of the valves that do not stand fully open.
    """
    factors = []
    for place in hydraulics.circuit.places.values():
        unit: Any = place.unit
        if place.kind not in UNSET and getattr(unit, "kv", None) is not None:
            factors.append((KV, f"flow factor of {place.tag}", kv.get(place.tag, unit.kv)))
    return (*_fixed_inputs(hydraulics), *_givens(factors))


def _fixed_inputs(hydraulics: Hydraulics) -> tuple[Given, ...]:
    """Inputs that are the same in all modes; kept with the network they belong to."""
    if hydraulics.inputs is None:
        found: list[tuple[tuple[str, str], str, object]] = []
        for tag, pipe in hydraulics.pipes.items():
            found += [
                (("d", "m"), f"bore of {tag}", pipe.bore),
                (("L", "m"), f"length of {tag}", pipe.length),
                (("ΣK", "1"), f"loss factor of {tag}", pipe.loss),
            ]
        for place in hydraulics.circuit.places.values():
            unit: Any = place.unit
            rated = getattr(unit, "pressure_drop", None)
            if rated is not None:
                found.append((("Δp_r", "Pa"), f"rated drop of {place.tag}", rated.value))
                found.append((("q_r", "m3/s"), f"rated flow of {place.tag}", rated.at))
            for point in unit.curve if place.kind == "pump" else ():
                label = f"curve of {place.tag} at {float(point.flow):.3g} m3/s"
                found.append((("Δp", "Pa"), label, point.pressure))
        written = hydraulics.project.circuit
        if written is not None and written.coolant is not None:
            found.append((("x", "1"), "share of glycol", written.coolant.share))
        hydraulics.inputs = _givens(found)
    return hydraulics.inputs


def _givens(numbers: Iterable[tuple[tuple[str, str], str, object]]) -> tuple[Given, ...]:
    """Numbers of the file with symbol, unit and label; those the file does not state are left out."""
    return tuple(
        Given(Quantity(symbol, unit, label), value)
        for (symbol, unit), label, value in numbers
        if isinstance(value, Traced)
    )


def flow_picture(
    hydraulics: Hydraulics, outcome: Outcome, mode: str, kv: Mapping[str, Real], given: tuple[Given, ...]
) -> FlowPicture:
    """Flow, velocity and drop of every part in one mode, with workings.

    ``kv`` holds the flow factors of the valves that do not stand fully open, ``given`` what all rests on.
    """
    circuit = hydraulics.circuit
    edges = _Edges(hydraulics, outcome, mode, kv, given).all()
    branches = {name: _branch(circuit, edges, name, mode) for name in circuit.branches}
    rise = Statement("solved", "pump curve at its flow", RISE, TODINI_PILATI)
    pumps = {}
    for place in circuit.of_kind("pump"):
        edge = edges[place.tag]
        gained = -float(edge.drop)
        beyond = place.tag in outcome.solution.beyond
        pumps[place.tag] = PumpPoint(
            mode, place.tag, edge.flow, Traced(gained, Working(rise, given, gained)), beyond
        )
    return FlowPicture(edges, branches, pumps)


class _Edges:
    """Flow and drop of every part of one mode."""

    def __init__(
        self,
        hydraulics: Hydraulics,
        outcome: Outcome,
        mode: str,
        kv: Mapping[str, Real],
        given: tuple[Given, ...],
    ) -> None:
        self.hydraulics, self.mode, self.kv, self.given = hydraulics, mode, kv, given
        solution = outcome.solution
        self.index = hydraulics.network.element_index
        self.density, self.viscosity = outcome.density.tolist(), outcome.viscosity.tolist()
        self.usual = sum(self.density) / len(self.density) if self.density else WATER
        self.flow, self.drop = solution.volume_flow.tolist(), solution.drop.tolist()
        left = solution.residual
        text = f"continuity and drops solved together; residuals {left.flow:.1e}, {left.energy:.1e}"
        through = Statement("solved", text, MASS_FLOW, TODINI_PILATI)
        self.masses = [Traced(flow, Working(through, given, flow)) for flow in solution.mass_flow.tolist()]

    def all(self) -> dict[str, EdgeFlow]:
        """Every part of the circuit, in its order."""
        return {tag: self._edge(place) for tag, place in self.hydraulics.circuit.places.items()}

    def _edge(self, place: Place) -> EdgeFlow:
        mass = self.masses[self.hydraulics.run_of[place.tag]]
        index = self.index.get(place.tag)
        if index is None:
            return self._made(place, volume_flow(mass, self.usual), Traced(0.0, Working(FREE, (), 0.0)))
        density = self.density[index]
        flow = told(volume_flow, self.flow[index], mass, density)
        if place.pipe is not None or place.kind == "floor_loop":
            return self._pipe(place, flow, density, self.viscosity[index])
        if place.kind == "pump":
            drop = Traced(self.drop[index], Working(ON_CURVE, (Given(FLOW, flow),), self.drop[index]))
            return self._made(place, flow, drop)
        unit: Any = place.unit
        factor = self.kv.get(place.tag, getattr(unit, "kv", None))
        if factor is None:
            return self._made(place, flow, self._rated(place, flow, index))
        if float(factor) > 0 and abs(flow) > STILL:
            return self._made(place, flow, told(valve_drop, self.drop[index], flow, factor, density), factor)
        before = Traced(self.drop[index], Working(SHUT, self.given, self.drop[index]))
        return self._made(place, flow, before, factor)

    def _made(self, place: Place, flow: Real, drop: Real, kv: Real | None = None) -> EdgeFlow:
        return EdgeFlow(self.mode, place.tag, place.kind, place.branch, flow, drop, kv=kv)

    def _rated(self, place: Place, flow: Real, index: int) -> Real:
        unit: Any = place.unit
        element: Any = self.hydraulics.elements[place.tag]
        rated = unit.pressure_drop
        tested = (element.density, element.viscosity, element.exponent)
        liquid = (self.density[index], self.viscosity[index])
        return told(unit_drop, self.drop[index], flow, *liquid, rated.at, rated.value, *tested)

    def _pipe(self, place: Place, flow: Real, density: float, viscosity: float) -> EdgeFlow:
        measure: Any = self.hydraulics.pipes.get(place.tag) or self.hydraulics.elements[place.tag]
        bore = measure.bore
        speed = velocity(flow, bore)
        reynolds = reynolds_number(speed, bore, density, viscosity)
        drops: list[Real] = []
        if float(reynolds) > 0:
            factor = friction_factor(reynolds, relative_roughness(measure.roughness, bore))
            drops.append(pipe_drop(factor, measure.length, bore, density, speed))
            if float(measure.loss):
                drops.append(fitting_drop(measure.loss, density, speed))
        drop = total_drop(*drops) if drops else Traced(0.0, Working(NOTHING_FLOWS, (), 0.0))
        return EdgeFlow(self.mode, place.tag, place.kind, place.branch, flow, drop, speed, reynolds)


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
    path = way_through(circuit, branch.start, branch.end, name)
    return BranchFlow(mode, name, flow, total_drop(*(edges[tag].drop for tag in path)))


@formula("q_V = Σ q_i", HEAT_BALANCE)
def total_flow(
    *flows: Annotated[Real, q("q_i", "m3/s", "flow", low=-10, high=10)],
) -> Annotated[Real, q("q_V", "m3/s", "flow together")]:
    """Flow of several ways side by side."""
    return sum(flows)


def way_through(circuit: Circuit, start: int, end: int, branch: str) -> list[str]:
    """Tags from one end of a branch to the other, through the first of any nested branches."""
    here, tags = start, []
    while here != end:
        place = next(p for p in circuit.places.values() if p.start == here and branch in p.branches)
        tags.append(place.tag)
        here = place.end
    return tags
