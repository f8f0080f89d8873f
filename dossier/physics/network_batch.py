"""Many cases of one circuit at once: every combination of open and shut runs, or samples of its liquid.

The cases lie beside each other as columns and take their steps together, so a thousand of them cost little
more than their arithmetic.
"""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from dossier.notation import NotConverged, Real
from dossier.notation.records import dataclass
from dossier.physics.network import NOTHING, Network
from dossier.physics.network_elements import CircuitFault
from dossier.physics.network_laws import Laws
from dossier.physics.network_newton import LEAST_FLOW, PROVEN, Outcome, search, shape
from dossier.physics.network_solution import STANDS_STILL
from dossier.physics.network_topology import loop_without_resistance

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

AT_ONCE = 256
"""Cases that go side by side: more do not fit the cache of a processor."""

ANCHOR = 1e-3
"""Conductance (kg/s per Pa) by which one node of a part without known pressure is held."""


@dataclass(frozen=True)
class Batch:
    """Answers of many cases, a column each.

    ``mass_flow`` (kg/s) by run, 0 where it stands still or is shut; ``drop`` (Pa) by run; ``steps`` the most
    any case took; ``flow_residual`` and ``energy_residual`` as ``Residual`` has them.
    """

    mass_flow: Array
    drop: Array
    steps: int
    flow_residual: Array
    energy_residual: Array


def solve_batch(
    network: Network,
    density: Real,
    viscosity: Real,
    open_runs: Mask,
    *,
    kv: Mapping[str, Real] = NOTHING,
    speed: Mapping[str, Real] = NOTHING,
) -> Batch:
    """Flows of all cases: ``open_runs`` has a row for each run and a column for each case.

    ``density`` (kg/m³) and ``viscosity`` (Pa·s) are one for all, one for each element, or a row for each
    element with a column for each case; ``kv`` and ``speed`` one for all cases or one for each. Valves that
    are shut as given shut their run in every case, unless ``kv`` says otherwise. Raises ``CircuitFault`` and
    ``NotConverged`` as ``Network.solve`` does, if any case does.
    """
    runs, cases = open_runs.shape
    if runs != len(network.runs):
        raise CircuitFault(f"{runs} rows of open runs for a circuit of {len(network.runs)} runs")
    count = len(network.elements.names)
    liquid = [_columns(figures, count, cases) for figures in (density, viscosity)]
    valves, pumps = (
        {place: np.broadcast_to(setting, (cases,)) for place, setting in network.settings(given).items()}
        for given in (kv, speed)
    )
    shut = network.elements.closed.copy()
    shut[list(valves)] = False
    open_runs = open_runs.copy()
    open_runs[network.elements.run[shut]] = False
    for place, setting in valves.items():
        open_runs[network.elements.run[place]] &= setting > 0
    for pattern in (
        np.unique(open_runs[network.elements.bare], axis=1).T if network.elements.bare.any() else ()
    ):
        loop_without_resistance(network.nodes, network.runs, np.flatnonzero(network.elements.bare)[pattern])
    found = []
    for first in range(0, cases, AT_ONCE):
        part = slice(first, min(first + AT_ONCE, cases))
        laws = Laws(
            network.elements,
            runs,
            np.ascontiguousarray(liquid[0][:, part]),
            np.ascontiguousarray(liquid[1][:, part]),
            {place: setting[part] for place, setting in valves.items()},
            {place: ratio[part] for place, ratio in pumps.items()},
        )
        found.append(_cases(network, laws, open_runs[:, part], first))
    return Batch(
        mass_flow=np.concatenate([flow for _, flow, _ in found], axis=1),
        drop=np.concatenate([drop for _, _, drop in found], axis=1),
        steps=max(outcome.steps for outcome, _, _ in found),
        flow_residual=np.concatenate([outcome.flow_residual for outcome, _, _ in found]),
        energy_residual=np.concatenate([outcome.energy_residual for outcome, _, _ in found]),
    )


def _columns(figures: Real, count: int, cases: int) -> Array:
    """Figures by element and case."""
    given = np.asarray(figures, dtype=float)
    if not (given > 0).all() or not np.isfinite(given).all():
        raise CircuitFault("a density or viscosity is not above nothing")
    return np.broadcast_to(given[:, None] if given.ndim == 1 else given, (count, cases))


def _cases(network: Network, laws: Laws, open_runs: Mask, first: int) -> tuple[Outcome, Array, Array]:
    """Answers of the cases that go side by side, the first of them being case ``first``."""
    cases = open_runs.shape[1]
    known = np.isfinite(network.pressure)
    form = shape(network.start, network.end, known, np.ones(len(network.runs), dtype=bool), many=True)
    reference = np.asarray(laws.reference)
    heads = np.stack([network.given_heads(float(each)) for each in np.unique(reference)], axis=1)
    heads = heads[:, np.searchsorted(np.unique(reference), reference)]
    anchored: Array = np.where(_anchors(network, open_runs, known)[form.unknown], ANCHOR, 0.0)
    flow = np.where(open_runs, network.elements.usual[:, None], 0.0)
    outcome = search(laws, form, open_runs, network.demand, flow, heads, anchored)
    network.check_one_way(outcome.flow)
    unproven = ~((outcome.flow_residual < PROVEN) & (outcome.energy_residual < PROVEN))
    if unproven.any():
        case = int(np.flatnonzero(unproven)[0])
        worst = network.runs[int(np.argmax(np.nan_to_num(outcome.astray[:, case])))].name
        raise NotConverged(
            f"no proven flow of case {first + case} after {outcome.steps} steps: the drops of {worst} miss "
            f"its ends by {outcome.energy_residual[case]:.3g} of the largest pressure"
        )
    size = np.abs(outcome.flow)
    still = size <= np.maximum(STANDS_STILL * size.max(axis=0), LEAST_FLOW)
    moving = np.where(still, 0.0, outcome.flow)
    return outcome, moving, np.broadcast_to(laws.drop(moving).drop, (len(network.runs), cases))


def _anchors(network: Network, open_runs: Mask, known: Mask) -> Mask:
    """The first node of each part that no known pressure holds, for each case."""
    count, cases = len(network.nodes), open_runs.shape[1]
    own = np.arange(1, count + 1)[:, None]
    label = np.where(known[:, None], 0, np.broadcast_to(own, (count, cases)))
    ends = list(zip(network.start.tolist(), network.end.tolist(), strict=True))
    changed = True
    while changed:
        before = label.copy()
        for order in (range(len(ends)), reversed(range(len(ends)))):
            for run in order:
                start, end = ends[run]
                least = np.where(open_runs[run], np.minimum(label[start], label[end]), count + 1)
                np.minimum(label[start], least, out=label[start])
                np.minimum(label[end], least, out=label[end])
        changed = not np.array_equal(label, before)
    anchors: Mask = (label == own) & ~known[:, None]
    return anchors
