"""Where does the pump meet the circuit: warm, on a cold morning, and with plain water?

The circuit's own curve is found by running the pump faster and slower: each answer of the network is a point
of it, whatever branches and valves there are.
"""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np
from numpy.typing import NDArray

from dossier.data.sources import TODINI_PILATI
from dossier.notation import ARITHMETIC, NotAssessed, NotConverged, OutOfRange, Real, formula, q, solved
from dossier.notation.records import dataclass
from dossier.physics.fluid import water
from dossier.physics.network_solution import Solution
from dossier.physics.pump import PumpCurve
from dossier.sizing.coolant import Coolant
from dossier.sizing.flows import FLOW, RISE
from dossier.sizing.hydraulics import Case, Hydraulics
from dossier.sizing.ring import Operation, RingStudy

if TYPE_CHECKING:
    from dossier.sizing.cold_start import ColdStart

Array = NDArray[np.float64]

QUESTION = "Where does the pump meet the circuit?"
WARM, COLD, WATER = "warm", "cold", "water"
SPEEDS = tuple(float(r) for r in np.linspace(0.1, 1.3, 12))
"""Speeds over rated at which the circuit's curve is found."""

LINE = 40


@dataclass(frozen=True)
class SystemCurve:
    """Pressure the circuit takes (Pa) over the flow through the pump (m³/s), the liquid at a temperature."""

    case: str
    temperature: Annotated[Real, q("θ", "K", "temperature of the liquid")]
    flows: Array
    heads: Array


@dataclass(frozen=True)
class PumpLine:
    """Pressure rise of the pump (Pa) over its flow (m³/s) at a voltage (V; None where it is not known)."""

    case: str
    voltage: Real | None
    flows: Array
    rises: Array


@dataclass(frozen=True)
class Meeting:
    """Where pump and circuit meet in one case; ``margin`` is what the burner gets beyond its least flow."""

    case: str
    flow: Annotated[Real, q("q_V", "m3/s", "through the pump")]
    rise: Annotated[Real, q("Δp", "Pa", "pressure rise")]
    at_burner: Annotated[Real | None, q("q_V", "m3/s", "through the burner")]
    margin: Annotated[Real | None, q("Δq", "m3/s", "flow at the burner beyond its least flow")]


@dataclass(frozen=True)
class SystemCurves:
    """The pump's lines, the circuit's curves and where they meet; ``least`` is the burner's least flow."""

    pump: str
    burner: str
    least: Annotated[Real | None, q("q_min", "m3/s", "least flow of the burner")]
    lines: tuple[PumpLine, ...]
    curves: tuple[SystemCurve, ...]
    meetings: tuple[Meeting, ...]


@formula("Δq = q_V − q_min", ARITHMETIC)
def flow_in_hand(
    flow: Annotated[Real, q("q_V", "m3/s", "flow", low=-10, high=10)],
    least: Annotated[Real, q("q_min", "m3/s", "least flow", low=0, high=10)],
) -> Annotated[Real, q("Δq", "m3/s", "flow beyond the least")]:
    """What a part gets beyond its least flow."""
    return flow - least


def system_curves(
    ring: RingStudy | NotAssessed, coolant: Coolant | NotAssessed, cold: "ColdStart | NotAssessed"
) -> SystemCurves | NotAssessed:
    """Curves of the design mode; those of the cold start only where it could be found."""
    if isinstance(ring, NotAssessed):
        return ring
    if isinstance(coolant, NotAssessed):
        return coolant
    design = ring.design
    if design is None:
        return NotAssessed(QUESTION, ("modes.heating",), "the design mode could not be solved")
    pump = next((tag for tag in design.flows.pumps if tag not in design.state.stopped), None)
    if pump is None:
        return NotAssessed(QUESTION, ("components.pump",), "no pump runs in the design mode")
    return _Meetings(ring, design, coolant, cold, pump).all()


class _Meetings:
    """The steps of the study, with what they share."""

    def __init__(
        self,
        ring: RingStudy,
        design: Operation,
        coolant: Coolant,
        cold: "ColdStart | NotAssessed",
        pump: str,
    ) -> None:
        self.ring, self.design, self.coolant, self.cold, self.pump = ring, design, coolant, cold, pump
        burners = ring.hydraulics.circuit.of_kind("burner")
        unit: Any = burners[0].unit if burners else None
        self.burner = unit.tag if unit else ""
        self.least: Real | None = unit.flow_min if unit else None
        self.running = [tag for tag in design.flows.pumps if tag not in design.state.stopped]

    def all(self) -> SystemCurves:
        """Lines, curves and meetings of all cases that can be found."""
        outcome, point = self.design.outcome, self.design.flows.pumps[self.pump]
        liquid = outcome.density, outcome.viscosity
        lines = [self._line(WARM, None, self._curve_of(self.ring.hydraulics), 1.0, liquid)]
        curves = [self._curve(WARM, self.coolant.working, outcome.solution, liquid, outcome.kv)]
        meetings = [self._meeting(WARM, point.flow, point.pressure_rise, self._at_burner())]
        cold = self.cold
        if not isinstance(cold, NotAssessed):
            found = cold.outcome
            liquid = found.density, found.viscosity
            case = Case(cold=True, viscosity=float(cold.viscosity), density=float(liquid[0].mean()))
            hydraulics = Hydraulics(self.ring.hydraulics.project, self.ring.hydraulics.circuit, case)
            curve = hydraulics.viscous[self.pump].curve
            regulated = getattr(self.ring.hydraulics.circuit.places[self.pump].unit, "regulated", None)
            speed = 1.0 if regulated else float(cold.speed)
            voltage = None if regulated else cold.voltage
            lines.append(self._line(COLD, voltage, curve, speed, liquid))
            curves.append(self._curve(COLD, cold.temperature, found.solution, liquid, found.kv))
            cold_point = cold.flows.pumps[self.pump]
            at_burner = cold.flows.edges[self.burner].flow if self.burner else None
            meetings.append(self._meeting(COLD, cold_point.flow, cold_point.pressure_rise, at_burner))
        wet = self._with_water()
        if wet is not None:
            curve_of_water, met = wet
            curves.append(curve_of_water)
            meetings.append(met)
        lines = [line for line in lines if len(line.flows)]
        return SystemCurves(self.pump, self.burner, self.least, tuple(lines), tuple(curves), tuple(meetings))

    def _curve_of(self, hydraulics: Hydraulics) -> PumpCurve:
        return hydraulics.curves[self.pump]

    def _at_burner(self) -> Real | None:
        return self.design.flows.edges[self.burner].flow if self.burner else None

    def _meeting(self, case: str, flow: Real, rise: Real, at_burner: Real | None) -> Meeting:
        known = self.least is not None and at_burner is not None
        margin = flow_in_hand(at_burner, self.least) if known else None  # type: ignore[arg-type]  # both known
        return Meeting(case, flow, rise, at_burner, margin)

    def _line(
        self, case: str, voltage: Real | None, curve: PumpCurve, speed: float, liquid: tuple[Array, Array]
    ) -> PumpLine:
        """The pump's curve in its liquid, at a speed."""
        place = self.ring.hydraulics.network.element_index[self.pump]
        flows = np.linspace(curve.flows[0], curve.flows[-1], LINE) * speed
        rises = np.asarray(curve.rise(flows, speed, float(liquid[0][place])))
        return PumpLine(case, voltage, flows, rises)

    def _curve(
        self,
        case: str,
        temperature: Real,
        near: Solution,
        liquid: tuple[Array, Array],
        kv: Mapping[str, float],
    ) -> SystemCurve:
        points = sorted(self._points(near, liquid, kv))
        flows, heads = (np.array([point[n] for point in points]) for n in (0, 1))
        return SystemCurve(case, temperature, flows, heads)

    def _points(
        self, near: Solution, liquid: tuple[Array, Array], kv: Mapping[str, float]
    ) -> Iterator[tuple[float, float]]:
        """Flow and rise of the pump at each of the speeds that has an answer."""
        network = near.network
        place = network.element_index[self.pump]
        yield 0.0, 0.0
        for speed in reversed(SPEEDS):
            try:
                near = network.solve(
                    *liquid,
                    kv=kv,
                    speed=dict.fromkeys(self.running, speed),
                    shut=self.design.setting.shut,
                    start=near,
                )
            except NotConverged:
                continue
            flow = float(near.volume_flow[place])
            if flow > 0:
                yield flow, -float(near.drop[place])

    def _with_water(self) -> tuple[SystemCurve, Meeting] | None:
        """The circuit filled with plain water at the working temperature; None beyond water's table."""
        outcome, plain = self.design.outcome, water()
        try:
            density, viscosity = plain.density(self.coolant.working), plain.viscosity(self.coolant.working)
        except OutOfRange:
            return None
        count = len(outcome.density)
        liquid = np.full(count, float(density)), np.full(count, float(viscosity))
        curve = self._curve(WATER, self.coolant.working, outcome.solution, liquid, outcome.kv)
        try:
            met = outcome.solution.network.solve(
                *liquid, kv=outcome.kv, shut=self.design.setting.shut, start=outcome.solution
            )
        except NotConverged:
            return None
        index = met.network.element_index
        text = "continuity and drops solved together, with plain water and the presets of the mix"
        given = [
            (q("ρ", "kg/m3", "density of water"), density),
            (q("μ", "Pa*s", "viscosity of water"), viscosity),
        ]
        flow = solved(float(met.volume_flow[index[self.pump]]), FLOW, text, TODINI_PILATI, given)
        rise = solved(-float(met.drop[index[self.pump]]), RISE, text, TODINI_PILATI, given)
        run = self.ring.hydraulics.run_of.get(self.burner)
        at_burner: Real | None = None
        if run is not None:
            at_burner = solved(float(met.mass_flow[run]) / float(density), FLOW, text, TODINI_PILATI, given)
        return curve, self._meeting(WATER, flow, rise, at_burner)
