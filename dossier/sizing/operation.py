"""What happens in one mode? Flow and temperature found together, until neither moves any more.

The properties of the coolant follow its temperature, so flow and temperature are found in turn. The design
mode is balanced on the way: its presets hold for all other modes. Valves that work by themselves are moved
round it all, until they stay.
"""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from dossier.notation import NotConverged
from dossier.notation.records import dataclass
from dossier.physics.network_solution import Solution
from dossier.sizing.balancing import Balance, Balancing
from dossier.sizing.hydraulics import Hydraulics
from dossier.sizing.regimes import Warmth, settled
from dossier.sizing.ring_heat import CLOSE as SHARP
from dossier.sizing.ring_heat import Temperatures
from dossier.sizing.setting import Setting, properties, ways_of
from dossier.sizing.sources_of_heat import Regime
from dossier.sizing.valve_positions import Felt, positioned

__all__ = ["Outcome", "Setting", "operate", "ways_of"]

ROUNDS = 60
FLOW_CLOSE = 3e-7
"""Last move of a flow, over the largest, that counts as none: the next would be a fiftieth of it."""

TEMPERATURE_CLOSE = 1e-5
"""Last move of a temperature (K) that counts as none."""

ROUGH = 0.05
"""Step of a temperature (K) that is close enough while the flows are still far off."""


@dataclass(frozen=True)
class Outcome:
    """Flow and temperatures of a mode in plain numbers; ``warmth`` is None where no source runs.

    ``kv`` holds the flow factors of all valves that do not stand fully open, ``positions`` those of the
    valves that work by themselves, from 0 shut to 1 open.
    """

    solution: Solution
    warmth: Warmth | None
    balance: Balance | None
    density: NDArray[np.float64]
    viscosity: NDArray[np.float64]
    kv: Mapping[str, float]
    positions: Mapping[str, float]
    rounds: int

    @property
    def temperatures(self) -> Temperatures | None:
        """Temperatures of the ring; None where no source runs."""
        return self.warmth.temperatures if self.warmth else None

    @property
    def regimes(self) -> Mapping[str, Regime]:
        """Regime of each burner that runs."""
        return self.warmth.regimes if self.warmth else {}

    @property
    def specific_heat(self) -> float:
        """Specific heat of the coolant that the balance was made with (J/kgK)."""
        return self.warmth.specific_heat if self.warmth else 0.0

    @property
    def transmittances(self) -> Mapping[str, float]:
        """Loss of each pipe for each kelvin (W/K)."""
        return self.warmth.transmittances if self.warmth else {}

    @property
    def loads(self) -> Mapping[str, float]:
        """Heat at which each thermostat holds its emitter (W)."""
        return self.warmth.loads if self.warmth else {}


def operate(hydraulics: Hydraulics, setting: Setting, start: Outcome | None = None) -> Outcome:
    """Joint answer of flow, temperature and valves in one mode; ``start`` is an answer nearby.

    Raises ``NotConverged`` where they do not settle, ``CircuitFault`` where there is no flow to find.
    """
    if not setting.controls:
        return _joint(hydraulics, setting, setting.kv, start)
    latest = start

    def solve(positions: Mapping[str, float]) -> tuple[Outcome, Felt]:
        nonlocal latest
        latest = _joint(hydraulics, setting, {**setting.kv, **positions}, latest)
        return latest, _felt(hydraulics, setting, latest)

    outcome, positions = positioned(setting.controls, solve)
    return Outcome(
        outcome.solution,
        outcome.warmth,
        outcome.balance,
        outcome.density,
        outcome.viscosity,
        outcome.kv,
        positions,
        outcome.rounds,
    )


def _felt(hydraulics: Hydraulics, setting: Setting, outcome: Outcome) -> Felt:
    """Temperatures that valves feel: where nothing flows, those of the water that stands before them."""
    found = outcome.temperatures

    def node(number: int) -> float:
        place = hydraulics.node_of.get(number)
        at = found.junctions[place] if found and place is not None else float("nan")
        return setting.usual if at != at else at  # noqa: PLR0124 - not a number: nothing arrives

    def entering(tag: str) -> float:
        if found and tag in found.inlet:
            return found.inlet[tag]
        return node(hydraulics.circuit.chain_of(tag).start)

    return Felt(entering, node)


def _joint(
    hydraulics: Hydraulics, setting: Setting, kv: Mapping[str, float], start: Outcome | None
) -> Outcome:
    """Joint answer of flow and temperature with every valve where ``kv`` has it."""
    network, names = hydraulics.network, hydraulics.network.elements.names
    warmth = start.warmth if start and setting.is_heated else None
    solution = start.solution if start else None
    at = _means(warmth, names, setting.usual)
    open_runs = network.open_runs(setting.shut, kv)
    free = tuple(branch for branch in setting.throttled if open_runs[network.run_index[branch.run]])
    balancing = Balancing(network, kv, free, setting.shut) if free else None
    flows = np.zeros(len(network.runs))
    moved, drift, close = float("inf"), float("inf"), ROUGH
    for rounds in range(1, ROUNDS + 1):
        density, viscosity = properties(setting.fluid, at)
        if balancing is None:
            solution = network.solve(
                density, viscosity, kv=kv, speed=setting.speed, shut=setting.shut, start=solution
            )
        elif rounds == 1:
            solution = balancing.begin(density, viscosity)
        else:
            solution = balancing.go_on(density, viscosity)
        largest = float(np.max(np.abs(solution.mass_flow)))
        moved = float(np.max(np.abs(solution.mass_flow - flows)))
        flows = solution.mass_flow
        is_close = balancing is None or balancing.is_close
        if not setting.is_heated or largest == 0:
            if not is_close:
                continue
            warmth = None
        else:
            before = warmth
            close = min(max(moved / largest, SHARP), close)
            warmth = settled(hydraulics, setting, solution, before, afresh=before is None, close=close)
            drift = _drift(warmth, before)
            at = _means(warmth, names, setting.usual)
            if moved > FLOW_CLOSE * largest or drift > TEMPERATURE_CLOSE or not is_close:
                continue
            other = _other_regimes(hydraulics, setting, solution, warmth)
            if other is not None:
                warmth = other
                continue
        balance = balancing.finished(density, viscosity) if balancing else None
        return Outcome(
            balance.solution if balance else solution,
            warmth,
            balance,
            density,
            viscosity,
            {**kv, **(balance.presets if balance else {})},
            {},
            rounds,
        )
    raise NotConverged(_unsettled(setting, solution, flows, moved, drift, balancing))


def _other_regimes(
    hydraulics: Hydraulics, setting: Setting, solution: Solution, warmth: Warmth
) -> Warmth | None:
    """The ring with regimes found afresh, where they are others than it settled in.

    Where every burner is steady there is nothing to find: that is what the search begins with.
    """
    if all(regime is Regime.STEADY for regime in warmth.regimes.values()):
        return None
    for close in (ROUGH, SHARP):
        again = settled(hydraulics, setting, solution, warmth, afresh=True, close=close)
        if again.regimes == warmth.regimes:
            return None
    return again


def _unsettled(  # noqa: PLR0913, PLR0917 - all that is still moving
    setting: Setting,
    solution: Solution | None,
    flows: NDArray[np.float64],
    moved: float,
    drift: float,
    balancing: Balancing | None,
) -> str:
    text = (
        f"flow and temperature of mode {setting.state.name} do not settle: after {ROUNDS} rounds flows still "
        f"move by {moved:.3g} kg/s, temperatures by {drift:.3g} K"
    )
    if balancing is not None and not balancing.is_close:
        worst = balancing.branches[int(np.argmin(balancing.left))].valve
        return f"{text}, and the branch of {worst} keeps {float(balancing.left.min()):.3g} Pa"
    if solution is None:
        return text
    return f"{text}; most flows through {solution.network.runs[int(np.argmax(np.abs(flows)))].name}"


def _means(warmth: Warmth | None, names: tuple[str, ...], usual: float) -> NDArray[np.float64]:
    """Mean temperature of the water in each element."""
    if warmth is None:
        return np.full(len(names), usual)
    found = warmth.temperatures
    return np.array(
        [(found.inlet[tag] + found.outlet[tag]) / 2 if tag in found.inlet else usual for tag in names]
    )


def _drift(warmth: Warmth, before: Warmth | None) -> float:
    if before is None:
        return float("inf")
    was = before.temperatures.inlet
    return max(
        (abs(t - was.get(tag, float("inf"))) for tag, t in warmth.temperatures.inlet.items()), default=0.0
    )
