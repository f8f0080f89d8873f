"""What takes pressure in the circuit: every unit and pipe of the file as an element of the network."""

from collections.abc import Mapping
from functools import cached_property
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np
from numpy.typing import NDArray

from dossier.data.assumptions import stated_or_assumed
from dossier.data.coefficients import coefficient
from dossier.data.pipes import PipeSize, pipe_size
from dossier.notation import PRACTICE, Given, NotAssessed, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics import network_elements as elements
from dossier.physics.fluid import coolant, water
from dossier.physics.network import Network
from dossier.physics.network_elements import Element, Node, Run
from dossier.physics.pump import PumpCurve
from dossier.physics.pump_viscosity import viscous_curve
from dossier.physics.route import developed_length
from dossier.sizing.circuit import QUESTION, Circuit, Place
from dossier.sizing.heights import rises_of

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.circuit import Pipe

ANCHOR = 101325.0
"""Absolute pressure (Pa) that the network has where the header joins; the true one is counted from it."""

VALVES = (
    "balancing_valve",
    "bypass_valve",
    "shut_valve",
    "motor_valve",
    "thermostatic_valve",
    "three_way_valve",
)
WITH_RATED_DROP = (
    "burner",
    "fan_coil",
    "radiator",
    "towel_rail",
    "tap_exchanger",
    "recovery_exchanger",
    "water_heater",
)
NEEDS = {
    **dict.fromkeys((*VALVES, "check_valve"), ("kv",)),
    "thermostatic_valve": ("kv", "opens", "full"),
    "three_way_valve": ("kv", "setting", "ways"),
    "floor_loop": ("size", "length"),
}
"""What the flow through a unit cannot be found without, by its kind."""

COLD_UNITS = ("burner", "fan_coil", "tap_exchanger", "recovery_exchanger", "water_heater")


@dataclass(frozen=True)
class PipeMeasure:
    """Measures of one pipe as the calculation takes them, SI."""

    bore: Real
    outside: Real
    wall_conductivity: Real | None
    roughness: Real
    length: Real
    loss: Real
    material: str

    @cached_property
    def figures(self) -> tuple[float, float, float, float]:
        """Bore, length, roughness and loss factor as plain numbers."""
        return float(self.bore), float(self.length), float(self.roughness), float(self.loss)


@formula("ΣK = n·K_b", PRACTICE)
def bends_loss(
    bends: Annotated[Real, q("n", "1", "plain bends", low=0, high=1000)],
    each: Annotated[Real, q("K_b", "1", "loss factor of a plain bend", low=0, high=10)],
) -> Annotated[Real, q("ΣK", "1", "loss factor of the bends")]:
    """Loss factor of the bends of a run."""
    return bends * each


def pipe_measure(pipe: "Pipe") -> PipeMeasure:
    """Measures of a pipe: from its size, or its bore where the size is its own."""
    length = pipe.length if pipe.length is not None else developed_length(pipe.route or ())
    loss: Real = 0.0
    if pipe.k is not None:
        loss = pipe.k
    elif pipe.bends is not None:
        loss = bends_loss(pipe.bends, coefficient("pipe.bend_loss"))
    size: PipeSize | None = pipe_size(pipe.size) if pipe.size else None
    bore = pipe.bore if pipe.bore is not None else size.bore if size else 0.0
    roughness = pipe.roughness if pipe.roughness is not None else size.roughness if size else 0.0
    return PipeMeasure(
        bore,
        size.outside if size else bore,
        size.conductivity if size else None,
        roughness,
        length,
        loss,
        size.material if size else "",
    )


@dataclass(frozen=True)
class Case:
    """What differs from one network to the next: the viscosity exponent of units, the curves of pumps."""

    cold: bool = False
    viscosity: float = 0.0
    density: float = 1000.0


class Hydraulics:
    """The circuit as a network of elements; every mode sets its valves on the same one.

    ``elements`` holds the parts that take or give pressure; the others let the flow pass freely. ``inputs``
    keeps the numbers of the file that all answers rest on, once they were gathered.
    """

    def __init__(self, project: "Project", circuit: Circuit, case: Case | None = None) -> None:
        self.project, self.circuit, self.case = project, circuit, case or Case()
        self.pipes: Mapping[str, PipeMeasure] = {
            place.tag: pipe_measure(place.pipe) for place in circuit.places.values() if place.pipe is not None
        }
        self.inputs: tuple[Given, ...] | None = None
        self.curves: dict[str, PumpCurve] = {}
        self.viscous: dict[str, Any] = {}
        bare = [tag for tag, place in circuit.places.items() if not _resists(place)]
        rises = rises_of(project, circuit, bare)
        found = {
            place.tag: self._element(place, rises.get(place.tag, 0.0))
            for place in circuit.places.values()
            if _resists(place)
        }
        self.elements: Mapping[str, Element] = found
        names = [f"node {number + 1}" for number in range(circuit.nodes)]
        nodes = [Node(name, ANCHOR if n == circuit.join else None) for n, name in enumerate(names)]
        used = sorted({end for chain in circuit.chains for end in (chain.start, chain.end)})
        self.node_of = {node: place for place, node in enumerate(used)}
        runs = [
            Run(
                chain.name,
                self.node_of[chain.start],
                self.node_of[chain.end],
                tuple(found[tag] for tag in chain.tags if tag in found),
            )
            for chain in circuit.chains
        ]
        self.network = Network([nodes[n] for n in used], runs)

    @cached_property
    def inlet_heights(self) -> NDArray[np.float64]:
        """Height of the inlet of each element over the node where the header joins (m)."""
        parts = self.network.elements
        total = np.cumsum(parts.rise) - parts.rise
        first = np.searchsorted(parts.run, parts.run, side="left")
        join = self.node_of.get(-1 if self.circuit.join is None else self.circuit.join, 0)
        begins = self.network.height[self.network.start[parts.run]] - self.network.height[join]
        inlets: NDArray[np.float64] = begins + total - total[first]
        return inlets

    @cached_property
    def run_of(self) -> Mapping[str, int]:
        """Index of the run each unit and pipe lies in."""
        return {tag: n for n, chain in enumerate(self.circuit.chains) for tag in chain.tags}

    def _element(self, place: Place, rise: float) -> Element:
        tag = place.tag
        if place.pipe is not None:
            bore, length, roughness, loss = self.pipes[tag].figures
            return elements.Pipe(tag, bore, length, roughness, loss, rise)
        unit: Any = place.unit
        if place.kind == "pump":
            return self._pump(tag, unit, rise)
        if place.kind == "check_valve":
            return elements.CheckValve(tag, float(unit.kv), rise)
        if place.kind == "floor_loop":
            size = pipe_size(unit.size)
            return elements.Pipe(tag, float(size.bore), float(unit.length), float(size.roughness), rise=rise)
        if getattr(unit, "kv", None) is not None:
            return elements.Valve(tag, float(unit.kv), rise)
        rated = unit.pressure_drop
        density, viscosity = self._test_liquid(unit)
        exponent = self._exponent(place.kind, unit, viscosity)
        return elements.Unit(tag, float(rated.at), float(rated.value), density, viscosity, exponent, rise)

    def _exponent(self, kind: str, unit: Any, tested: float) -> float:
        """Exponent of the viscosity: in the cold, where the mix is thicker than the test liquid."""
        if not self.case.cold or self.case.viscosity <= tested:
            return 0.0
        if unit.viscosity_exponent is not None:
            return float(unit.viscosity_exponent)
        return float(coefficient("unit.cold_exponent")) if kind in COLD_UNITS else 0.0

    def _test_liquid(self, unit: Any) -> tuple[float, float]:
        """Density and viscosity of the liquid a drop was rated with: water, or the ring's own mix."""
        at = float(coefficient("unit.test_temperature"))
        mix = self.project.circuit.coolant if self.project.circuit else None
        words = (unit.test_liquid or "water").casefold()
        if "glycol" in words and mix is not None and mix.share:
            liquid = coolant(mix.base or "water", float(mix.share), by=mix.by or "volume")
        else:
            liquid = water()
        return float(liquid.density(at)), float(liquid.viscosity(at))

    def _pump(self, tag: str, unit: Any, rise: float) -> Element:
        curve = PumpCurve(
            tuple(float(p.flow) for p in unit.curve), tuple(float(p.pressure) for p in unit.curve)
        )
        self.curves[tag] = curve
        if self.case.cold:
            best = float(unit.best_point) if unit.best_point is not None else _best_point(curve)
            speed = float(stated_or_assumed(unit.speed, "components.pump.speed", f"components.{tag}.speed"))
            found = viscous_curve(curve, self.case.viscosity / self.case.density, best, speed)
            self.viscous[tag] = found
            curve = found.curve
        return elements.Pump(tag, curve, rise=rise)


def _resists(place: Place) -> bool:
    """Whether a part takes or gives pressure; a three-way valve does so in its two ways."""
    unit: Any = place.unit
    if place.pipe is not None or place.kind in {"pump", "floor_loop"}:
        return True
    if place.kind == "three_way_valve":
        return False
    return getattr(unit, "kv", None) is not None or getattr(unit, "pressure_drop", None) is not None


def _best_point(curve: PumpCurve) -> float:
    """Flow of the point at which the pump gives most hydraulic power: its best, where none is stated."""
    return max(zip(curve.flows, curve.rises, strict=True), key=lambda point: point[0] * point[1])[0]


def missing_figures(project: "Project", circuit: Circuit) -> NotAssessed | None:
    """Keys without which no flow can be found, None where nothing is missing."""
    needs = []
    for place in circuit.places.values():
        unit: Any = place.unit
        key = f"components.{place.tag}"
        if place.pipe is not None:
            if place.pipe.bore is None and place.pipe.size is None:
                needs.append(f"{place.key}.size")
        elif place.kind == "pump" and not unit.curve:
            needs.append(f"{key}.curve")
        elif place.kind in NEEDS:
            needs += [f"{key}.{name}" for name in NEEDS[place.kind] if getattr(unit, name) is None]
        elif place.kind in WITH_RATED_DROP and unit.pressure_drop is None:
            needs.append(f"{key}.pressure_drop")
    coolant_of = project.circuit.coolant if project.circuit else None
    if coolant_of is None or coolant_of.base is None:
        needs.append("circuit.coolant.base")
    elif coolant_of.base != "water" and coolant_of.share is None:
        needs.append("circuit.coolant.share")
    return NotAssessed(QUESTION, tuple(needs)) if needs else None
