"""Is the pump at the end of its strength? The rise it would need for the wanted flows alone.

All pumps are slowed down together, until the least favoured branch gets no more than its zones call for.
"""

from collections.abc import Mapping
from math import sqrt
from typing import Annotated

from dossier.data.sources import AFFINITY
from dossier.notation import Given, NotConverged, Real, Statement, Traced, Working, q
from dossier.notation.records import dataclass
from dossier.physics.network_solution import Solution
from dossier.sizing.hydraulics import Hydraulics
from dossier.sizing.operation import Outcome
from dossier.sizing.setting import Setting

RISE = q("Δp", "Pa", "pressure rise of the pump")
CLOSE = 1e-5
STEPS = 60
FARTHEST = 400.0
"""Square of the speed (over rated) beyond which no pump is looked for."""


@dataclass(frozen=True)
class PumpNeed:
    """Rise a pump needs at the wanted flows, and the one it has at that flow."""

    mode: str
    tag: str
    needed: Annotated[Real, q("Δp", "Pa", "rise needed at the wanted flows", name="pump.{mode}.{tag}.needed")]
    available: Annotated[Real, q("Δp", "Pa", "rise it has at that flow")]
    flow: Annotated[Real, q("q_V", "m3/s", "its flow at the wanted flows")]


def pump_needs(
    hydraulics: Hydraulics,
    setting: Setting,
    outcome: Outcome,
    wanted: Mapping[str, float],
    given: tuple[Given, ...],
) -> dict[str, PumpNeed]:
    """Needs of all running pumps in a mode; ``wanted`` holds the mass flow each run calls for (kg/s).

    None where no run calls for flow, or no speed up to twenty times the rated one gives it.
    """
    pumps = [p.tag for p in hydraulics.circuit.of_kind("pump") if p.tag not in setting.state.stopped]
    if not wanted or not pumps:
        return {}
    search = _Search(hydraulics, setting, outcome, wanted, pumps)
    try:
        found = search.slowest()
    except NotConverged:
        return {}
    text = "all pumps slowed down until the least favoured branch has just its wanted flow"
    needs = {}
    for tag in pumps:
        place = hydraulics.network.element_index[tag]
        flow = float(found.volume_flow[place])
        density = float(outcome.density[place])
        available = float(hydraulics.curves[tag].rise(flow, density=density))
        needs[tag] = PumpNeed(
            setting.state.name,
            tag,
            _traced(-float(found.drop[place]), text, given),
            _traced(available, "pump curve at that flow", given),
            flow,
        )
    return needs


def _traced(number: float, text: str, given: tuple[Given, ...]) -> Traced:
    return Traced(number, Working(Statement("solved", text, RISE, AFFINITY), given, number))


class _Search:
    """Speed of the pumps at which the least favoured run has just what it calls for."""

    def __init__(
        self,
        hydraulics: Hydraulics,
        setting: Setting,
        outcome: Outcome,
        wanted: Mapping[str, float],
        pumps: list[str],
    ) -> None:
        self.network, self.setting, self.outcome = hydraulics.network, setting, outcome
        self.wanted, self.pumps = wanted, pumps
        free = {branch.run: branch for branch in setting.throttled}
        self.held = {name: wanted[name] for name in wanted if name in free}
        opened = {free[name].valve: free[name].full_kv for name in self.held}
        self.kv = {**outcome.kv, **opened}
        self.solution = outcome.solution
        self.top = max(float(hydraulics.curves[tag].rises[0]) for tag in pumps)

    def least(self, square: float) -> float:
        """What the least favoured run has beyond its need at a square of the speed; it grows with it."""
        network = self.network
        self.solution = network.solve(
            self.outcome.density,
            self.outcome.viscosity,
            kv=self.kv,
            speed=dict.fromkeys(self.pumps, sqrt(square)),
            held=self.held,
            shut=self.setting.shut,
            start=self.solution,
        )
        surplus, flow = self.solution.surplus, self.solution.mass_flow
        beyond = []
        for name, mass in self.wanted.items():
            run = network.run_index[name]
            if name in self.held:
                beyond.append(float(surplus[run]) / self.top)
            else:
                beyond.append(float(flow[run]) * abs(float(flow[run])) / mass**2 - 1)
        return min(beyond)

    def slowest(self) -> Solution:
        """Flows at the lowest speed that suffices; raises ``NotConverged`` where none does."""
        flow = self.outcome.solution.mass_flow
        share = min(float(flow[self.network.run_index[name]]) / mass for name, mass in self.wanted.items())
        here = 1 / max(share, 1 / sqrt(FARTHEST)) ** 2
        at_here = self.least(here)
        other, at_other = 0.0, 0.0
        low, high = 0.0, float("inf")
        for _ in range(STEPS):
            if abs(at_here) <= CLOSE:
                return self.solution
            low, high = (low, min(high, here)) if at_here > 0 else (max(low, here), high)
            if other:
                slope = (at_here - at_other) / (here - other)
                better = here - at_here / slope if slope > 0 else -1.0
            else:
                better = here * (0.8 if at_here > 0 else 1.25)
            if not low < better < high:
                better = 2 * here if high == float("inf") else (low + high) / 2
            if better > FARTHEST:
                break
            other, at_other = here, at_here
            here, at_here = better, self.least(better)
        raise NotConverged("no speed of the pumps gives every branch its wanted flow")
