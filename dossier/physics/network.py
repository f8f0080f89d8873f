"""Flows and pressures of a circuit: runs of elements between nodes, pumps, valves, heights.

Read beside it ``network_elements`` (what a circuit is made of), ``network_solution`` (what an answer tells),
``network_figures`` and ``network_laws`` (what each element takes), ``network_topology`` (how it hangs
together), ``network_newton`` and ``network_elimination`` (how it is solved), ``network_batch`` (many cases at
once).

The unknown of a run is its mass flow: it passes every element of the run, whatever the temperature there, and
adds up at the nodes. Every answer is proven: what enters a node leaves it, and the drops of each run make
up the difference of its ends, to 1 part in 10⁸ of the largest flow and of the largest pressure.
"""

from collections.abc import Collection, Mapping, Sequence
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from dossier.notation import NotConverged, Real
from dossier.physics.network_elements import CircuitFault, Node, Run
from dossier.physics.network_figures import Elements, gathered
from dossier.physics.network_laws import Laws
from dossier.physics.network_newton import LEAST_FLOW, PROVEN, Outcome, Shape, search, shape
from dossier.physics.network_solution import Solution
from dossier.physics.network_topology import Parts, check_balance, elevations, parts
from dossier.physics.pump import STANDARD_GRAVITY

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

NOTHING: Mapping[str, Any] = MappingProxyType({})


class Network:
    """A circuit, gathered once and solved in as many states as wanted.

    Raises ``CircuitFault`` where names repeat, a run leads nowhere, an element is impossible, or the rises
    round a loop do not close.
    """

    def __init__(self, nodes: Sequence[Node], runs: Sequence[Run]) -> None:
        self.nodes, self.runs = tuple(nodes), tuple(runs)
        if not self.runs:
            raise CircuitFault("a circuit has no runs")
        for run in self.runs:
            if not (0 <= run.start < len(self.nodes) and 0 <= run.end < len(self.nodes)):
                raise CircuitFault("a run leads to a node that does not exist", [run.name])
        self.elements: Elements = gathered(self.runs)
        self.run_index: Mapping[str, int] = _distinct([run.name for run in self.runs], "runs")
        self.node_index: Mapping[str, int] = _distinct([node.name for node in self.nodes], "nodes")
        self.element_index: Mapping[str, int] = _distinct(self.elements.names, "elements")
        rises = np.bincount(self.elements.run, self.elements.rise, len(self.runs))
        self.height = elevations(self.nodes, self.runs, np.asarray(rises, dtype=np.float64))
        self.start = np.array([run.start for run in self.runs], dtype=np.intp)
        self.end = np.array([run.end for run in self.runs], dtype=np.intp)
        self.demand = np.array([node.demand for node in self.nodes])
        self.pressure = np.array([np.nan if n.pressure is None else n.pressure for n in self.nodes])
        self._known = np.flatnonzero(np.isfinite(self.pressure))
        self._shapes: dict[bytes, tuple[Shape, Parts]] = {}

    def solve(
        self,
        density: Real,
        viscosity: Real,
        *,
        shut: Collection[str] = (),
        kv: Mapping[str, float] = NOTHING,
        speed: Mapping[str, float] = NOTHING,
        held: Mapping[str, float] = NOTHING,
        start: Solution | None = None,
    ) -> Solution:
        """Flows and pressures in one state.

        ``density`` (kg/m³) and ``viscosity`` (Pa·s) are one for all or one for each element, in the order of
        ``elements.names``. ``shut`` names runs that are closed; ``kv`` gives flow factors of valves (m³/h; 0
        shuts the run), ``speed`` speeds of pumps over rated, ``held`` mass flows (kg/s) of runs that are held
        whatever it takes (the answer's ``surplus`` tells what). ``start`` is an answer nearby, to start from.

        Raises ``CircuitFault`` where there is no flow to find (a loop without resistance, held flows that
        have no way) and ``NotConverged``, naming the run or node, where no answer could be proven.
        """
        count = len(self.elements.names)
        laws = Laws(
            self.elements,
            len(self.runs),
            _each(density, count, self.elements.names, "density"),
            _each(viscosity, count, self.elements.names, "viscosity"),
            self.settings(kv),
            self.settings(speed),
        )
        open_runs = self.open_runs(shut, kv)
        held_flow = np.zeros(len(self.runs))
        for name, mass_flow in held.items():
            place = _place(self.run_index, name, "run")
            held_flow[place], open_runs[place] = mass_flow, False
        form, found = self.shape(open_runs)
        check_balance(self.nodes, found, self._demand_held(held_flow))
        heads = self.given_heads(float(laws.reference))
        flow: Array = np.where(open_runs, self.elements.usual, held_flow)
        if start is not None:
            flow = np.where(open_runs & (start.mass_flow != 0), start.mass_flow, flow)
            heads = np.where(found.known, heads, start.heads)
        outcome = search(laws, form, open_runs, self.demand, flow, heads)
        self.prove(outcome, open_runs)
        return Solution.of(self, laws, outcome, open_runs, held, found)

    def settings(self, given: Mapping[str, Any]) -> dict[int, Any]:
        """Settings by the place of their element; raises ``CircuitFault`` for an unknown name."""
        return {_place(self.element_index, name, "element"): setting for name, setting in given.items()}

    def open_runs(self, shut: Collection[str], kv: Mapping[str, float]) -> Mask:
        """Runs that are neither named in ``shut`` nor hold a valve whose flow factor is 0."""
        open_runs = np.ones(len(self.runs), dtype=bool)
        for name in shut:
            open_runs[_place(self.run_index, name, "run")] = False
        closed = self.elements.closed.copy()
        for name, setting in kv.items():
            place = _place(self.element_index, name, "element")
            if not self.elements.settable[place]:
                raise CircuitFault("a flow factor is set on what is no valve", [name])
            closed[place] = setting == 0
        open_runs[self.elements.run[closed]] = False
        return open_runs

    def shape(self, open_runs: Mask) -> tuple[Shape, Parts]:
        """Pattern of the open circuit and its parts, kept for the next solution of the same state."""
        key = open_runs.tobytes()
        if key not in self._shapes:
            found = parts(self.nodes, self.runs, np.flatnonzero(open_runs).tolist(), self.elements.bare)
            self._shapes[key] = (shape(self.start, self.end, found.known, open_runs), found)
        return self._shapes[key]

    def given_heads(self, reference: float) -> Array:
        """Known pressures as heads (Pa): each reduced to the level of the first node, the lowest taken off.

        ``reference`` is the density by which heights are reduced; unknown ones are 0.
        """
        heads = np.zeros(len(self.nodes))
        heads[self._known] = self._reduced(reference) - self.datum(reference)
        return heads

    def datum(self, reference: float) -> float:
        """Pressure (Pa) that a head of 0 stands for; NaN where no pressure is known."""
        return float(self._reduced(reference).min()) if len(self._known) else float("nan")

    def _reduced(self, reference: float) -> Array:
        known = self._known
        reduced: Array = self.pressure[known] + reference * STANDARD_GRAVITY * self.height[known]
        return reduced

    def prove(self, outcome: Outcome, open_runs: Mask) -> None:
        """Raise ``NotConverged`` unless both residuals are small enough.

        Raises ``CircuitFault`` where the only way leads against a check valve.
        """
        self.check_one_way(outcome.flow)
        if outcome.flow_residual < PROVEN and outcome.energy_residual < PROVEN:
            return
        astray = np.where(open_runs & np.isfinite(outcome.astray), outcome.astray, 0)
        worst = self.runs[int(np.argmax(astray))].name
        raise NotConverged(
            f"no proven flow after {outcome.steps} steps: the drops of {worst} miss its ends by "
            f"{outcome.energy_residual:.3g} of the largest pressure, the nodes their balance by "
            f"{outcome.flow_residual:.3g} of the largest flow"
        )

    def check_one_way(self, flow: Array) -> None:
        """Raise ``CircuitFault`` where a case has flow against a check valve: nothing else is open to it."""
        if not self.elements.one_way.any():
            return
        limit = PROVEN * np.abs(flow).max(axis=0) + LEAST_FLOW
        against = (flow < -limit) & (
            self.elements.one_way if flow.ndim == 1 else self.elements.one_way[:, None]
        )
        forced = against if flow.ndim == 1 else against.any(axis=1)
        if forced.any():
            names = [self.runs[place].name for place in np.flatnonzero(forced)]
            raise CircuitFault("flow has no way but against a check valve", names)

    def _demand_held(self, held_flow: Array) -> Array:
        """What leaves at each node, held flows counted."""
        demand = self.demand.copy()
        np.add.at(demand, self.start, held_flow)
        np.subtract.at(demand, self.end, held_flow)
        return demand


def _distinct(names: Sequence[str], what: str) -> Mapping[str, int]:
    index = {name: place for place, name in enumerate(names)}
    if len(index) != len(names):
        raise CircuitFault(f"{what} bear the same name", sorted({n for n in names if names.count(n) > 1}))
    return index


def _place(index: Mapping[str, int], name: str, what: str) -> int:
    if name not in index:
        raise CircuitFault(f"the circuit has no {what} of this name", [name])
    return index[name]


def _each(figures: Real, count: int, names: Sequence[str], what: str) -> Array:
    """One figure for each element; raises ``CircuitFault`` for one that is not above nothing."""
    each = np.asarray(figures, dtype=float)
    if each.shape != (count,):
        each = np.broadcast_to(each, (count,))
    if count and not (each.min() > 0 and each.max() < np.inf):
        wrong = [name for name, figure in zip(names, each, strict=True) if not 0 < figure < np.inf]
        raise CircuitFault(f"a {what} is not above nothing", wrong[:4])
    return each
