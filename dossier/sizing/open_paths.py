"""Does the pump ever push against closed valves? Every state that valves working by themselves can reach.

Up to ten such valves all combinations are tried; beyond that every one open and shut alone, every pair shut
alone, and as many drawn at random as make the thousand full.
"""

from collections.abc import Callable, Mapping, Sequence
from itertools import combinations
from typing import Annotated, Any

import numpy as np
from numpy.typing import NDArray

from dossier.data.sources import TODINI_PILATI
from dossier.notation import ARITHMETIC, Given, NotConverged, Real, q, solved
from dossier.notation.records import dataclass
from dossier.physics.network_batch import solve_batch
from dossier.physics.network_elements import CircuitFault
from dossier.sizing.circuit import Circuit
from dossier.sizing.hydraulics import Hydraulics
from dossier.sizing.modes import ModeState

ALL = 10
"""Up to so many valves every combination is tried."""

TRIED = 1024
AUTOMATIC = ("thermostatic_valve", "motor_valve", "three_way_valve")
PATHS = q("n", "1", "open paths")
FLOW = q("q_V", "m3/s", "flow through the burner")

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]


@dataclass(frozen=True)
class OpenPaths:
    """Paths left open in one mode, in the worst state of the valves that work by themselves.

    ``shut`` names those that are shut in the state with fewest paths, ``least_shut`` those in the state with
    least flow through the running burner ``burner``; ``least`` is None where no burner runs, or ``why`` says
    what stood in the way.
    """

    mode: str
    automatic: tuple[str, ...]
    states: int
    is_complete: bool
    paths: Annotated[
        Real,
        q(
            "n",
            "1",
            "fewest open paths from burner outlet to burner inlet, all reachable valve states",
            name="open_paths.{mode}",
        ),
    ]
    shut: tuple[str, ...]
    burner: str
    least: Annotated[Real | None, q("q_V", "m3/s", "least flow through the burner, all reachable states")]
    least_shut: tuple[str, ...]
    why: str = ""


def automatic_valves(circuit: Circuit, state: ModeState) -> tuple[str, ...]:
    """Valves that open and shut by themselves in a mode; those it shuts or opens by name stay."""
    fixed = state.shut | state.opened
    return tuple(
        place.tag
        for place in circuit.places.values()
        if place.tag not in fixed and _works_by_itself(place.kind, place.unit)
    )


def _works_by_itself(kind: str, unit: Any) -> bool:
    if kind in AUTOMATIC:
        return getattr(unit, "automatic", None) is not False
    return kind.endswith("_valve") and kind != "check_valve" and bool(getattr(unit, "automatic", None))


def states_of(count: int) -> Mask:
    """States to try, a row each: True where a valve is shut. The first has all open."""
    if count <= ALL:
        numbers = np.arange(2**count)
        every: Mask = (numbers[:, None] >> np.arange(count)[None, :]) & 1 == 1
        return every
    rows = [np.zeros(count, dtype=bool), np.ones(count, dtype=bool)]
    for several in (1, 2):
        for chosen in combinations(range(count), several):
            shut = np.zeros(count, dtype=bool)
            shut[list(chosen)] = True
            rows.append(shut)
            if several == 1:
                rows.append(~shut)
    rows = rows[:TRIED]
    draw = np.random.default_rng(0)
    rows += list(draw.random((TRIED - len(rows), count)) < 0.5)  # noqa: PLR2004 - open or shut alike
    return np.unique(np.array(rows), axis=0)


def open_paths(  # noqa: PLR0913, PLR0917 - a mode, its liquid, and what the answer rests on
    hydraulics: Hydraulics,
    state: ModeState,
    kv: Mapping[str, float],
    shut_runs: frozenset[str],
    liquid: tuple[Array, Array],
    given: tuple[Given, ...],
    as_solved: "Mapping[str, float] | str",
) -> OpenPaths | None:
    """Fewest open paths and least flow through the burner in a mode; None where no burner is in the ring.

    ``kv`` holds the flow factors of valves that do not stand fully open, ``liquid`` density and viscosity in
    each element, ``as_solved`` the volume flow (m³/s) through each burner of a solved mode, else why it
    is not.
    """
    circuit = hydraulics.circuit
    burners = [place.tag for place in circuit.of_kind("burner")]
    if not burners:
        return None
    valves = automatic_valves(circuit, state)
    states = states_of(len(valves))
    factors = _factors(circuit, kv, valves, states)
    open_runs = _open_runs(hydraulics, kv, shut_runs, factors, len(states))
    counted = [(paths_round(hydraulics, tag, open_runs), tag) for tag in burners]
    fewest, _ = min(counted, key=lambda pair: float(pair[0].min()))
    worst = int(np.argmin(fewest))
    running = [tag for tag in burners if tag not in state.stopped]
    least: float | None
    if not valves and running:
        burner, least_at = running[0], 0
        if isinstance(as_solved, str):
            least, why = None, as_solved
        else:
            burner = min(running, key=lambda tag: as_solved[tag])
            least, why = as_solved[burner], ""
    else:
        least, least_at, burner, why = _least(hydraulics, running, open_runs, {**kv, **factors}, liquid)
    names = _named(valves, states)
    rests = [(g.quantity, g.value) for g in given if g.quantity is not None]
    return OpenPaths(
        state.name,
        valves,
        len(states),
        len(states) == 2 ** len(valves),
        solved(
            float(fewest[worst]),
            PATHS,
            "runs left open from burner outlet to burner inlet",
            ARITHMETIC,
            rests,
        ),
        names(worst),
        burner,
        None
        if least is None
        else solved(
            least,
            FLOW,
            f"least of {len(states)} states of the valves that work by themselves",
            TODINI_PILATI,
            rests,
        ),
        names(least_at),
        why,
    )


def _named(valves: Sequence[str], states: Mask) -> Callable[[int], tuple[str, ...]]:
    def names(state: int) -> tuple[str, ...]:
        return tuple(tag for tag, shut in zip(valves, states[state], strict=True) if shut)

    return names


def _factors(
    circuit: Circuit, kv: Mapping[str, float], valves: Sequence[str], states: Mask
) -> dict[str, Array]:
    """Flow factor of each automatic valve in each state; a three-way valve stands at one end or the other."""
    three = {valve.tag: valve.ways for valve in circuit.three_ways}
    factors = {}
    for number, tag in enumerate(valves):
        unit: Any = circuit.places[tag].unit
        shut = states[:, number]
        if tag in three:
            first, second = three[tag]
            factors[first] = np.where(shut, 0.0, float(unit.kv))
            factors[second] = np.where(shut, float(unit.kv), 0.0)
        else:
            factors[tag] = np.where(shut, 0.0, kv.get(tag, float(unit.kv)) or float(unit.kv))
    return factors


def _open_runs(
    hydraulics: Hydraulics,
    kv: Mapping[str, float],
    shut_runs: frozenset[str],
    factors: Mapping[str, Array],
    states: int,
) -> Mask:
    """Open runs, a row each, in each state."""
    network = hydraulics.network
    fixed = {tag: factor for tag, factor in kv.items() if tag not in factors}
    open_runs = np.repeat(network.open_runs(shut_runs, fixed)[:, None], states, axis=1)
    for tag, factor in factors.items():
        open_runs[hydraulics.run_of[tag]] &= factor > 0
    return open_runs


def paths_round(hydraulics: Hydraulics, burner: str, open_runs: Mask) -> Array:
    """Paths from the outlet of a burner round to its inlet along the direction of flow, in each state.

    Where cross-connections make a loop of their own, a state that has any path counts as having one.
    """
    circuit, node_of = hydraulics.circuit, hydraulics.node_of
    own = hydraulics.run_of[burner]
    ends = [(node_of[chain.start], node_of[chain.end]) for chain in circuit.chains]
    goal, begin = ends[own]
    others = [run for run in range(len(ends)) if run != own]
    order = _in_order(ends, others, len(hydraulics.network.nodes))
    if begin == goal:
        alone: Array = open_runs[own].astype(float)
        return alone
    counted = np.zeros((len(hydraulics.network.nodes), open_runs.shape[1]))
    counted[begin] = open_runs[own]
    if order is not None:
        for run in order:
            start, end = ends[run]
            counted[end] += counted[start] * open_runs[run]
        paths: Array = counted[goal]
        return paths
    before = counted.copy()
    while True:
        for run in others:
            start, end = ends[run]
            counted[end] = np.maximum(counted[end], counted[start] * open_runs[run])
        if np.array_equal(counted, before):
            any_path: Array = counted[goal]
            return any_path
        before = counted.copy()


def _in_order(ends: Sequence[tuple[int, int]], runs: Sequence[int], nodes: int) -> list[int] | None:
    """Runs so that every one comes after all that lead to its start; None where they go round."""
    arriving = [0] * nodes
    leaving: list[list[int]] = [[] for _ in range(nodes)]
    for run in runs:
        leaving[ends[run][0]].append(run)
        arriving[ends[run][1]] += 1
    free = [node for node, count in enumerate(arriving) if not count]
    order = []
    for node in free:
        for run in leaving[node]:
            order.append(run)
            arriving[ends[run][1]] -= 1
            if not arriving[ends[run][1]]:
                free.append(ends[run][1])
    return order if len(order) == len(runs) else None


def _least(
    hydraulics: Hydraulics,
    running: Sequence[str],
    open_runs: Mask,
    kv: Mapping[str, Real],
    liquid: tuple[Array, Array],
) -> tuple[float | None, int, str, str]:
    """Least flow through a running burner, the state it comes in, the burner, and why there is none."""
    if not running:
        return None, 0, "", ""
    density, viscosity = liquid
    network = hydraulics.network
    try:
        batch = solve_batch(network, density, viscosity, open_runs, kv=kv)
    except (NotConverged, CircuitFault) as reason:
        return None, 0, running[0], str(reason)
    flows = []
    for tag in running:
        place = network.element_index.get(tag)
        at = float(density[place]) if place is not None else float(density.mean())
        each = batch.mass_flow[hydraulics.run_of[tag]] / at
        flows.append((float(each.min()), int(np.argmin(each)), tag))
    least, state, burner = min(flows)
    beyond = _beyond(hydraulics, batch.mass_flow[:, state], density)
    return (None if beyond else least), state, burner, beyond


def _beyond(hydraulics: Hydraulics, mass_flow: Array, density: Array) -> str:
    """Which pump would work beyond the last point of its curve; empty where none does."""
    for tag, curve in hydraulics.curves.items():
        place = hydraulics.network.element_index[tag]
        flow = float(mass_flow[hydraulics.run_of[tag]]) / float(density[place])
        if flow > curve.flows[-1]:
            return f"{tag} would work beyond the last point of its curve"
    return ""
