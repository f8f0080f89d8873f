"""Newton's method on flows and heads together (global gradient algorithm, Todini and Pilati 1988).

Each step solves one linear system for the heads; the flows follow from the laws' slopes. After the first full
step every node is balanced, and what is left is the minimum of a convex function of the flows round the loops
(its slope along a step is known from the step's end); where a step goes far beyond that minimum it is cut
back. Works on one case or on many at once, by a second axis.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from dossier.notation.records import dataclass
from dossier.physics.network_elimination import System, system
from dossier.physics.network_laws import Drop, Laws

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Mask = NDArray[np.bool_]

SHARP = 1e-9
"""Residuals at which the search ends."""

PROVEN = 1e-8
"""Residuals up to which an answer counts as proven."""

STEPS = 60
SETTLED = 1e-4
"""Largest last change of a flow, over itself: what is left then is the square of it."""

STILL = 1e-9
"""Last change, over the largest flow, that counts as none: what stands still is found to stand still."""

LEAST_STEP = 1e-12
"""Change of a mass flow (kg/s) that counts as none whatever the rest flows."""

LEAST_FLOW = 1e-9
"""Mass flow (kg/s) that counts as none."""

LEAST_PRESSURE = 1e-2
"""Pressure (Pa) below which misses are not reckoned relative to it."""

BEYOND = 0.5
"""A step is cut back where the slope at its end exceeds this share of the slope at its start."""

WORSE = 0.5
"""A step is looked at more closely where it leaves more than this share of the misses before it."""

CUTS = 6
LEAST_SLOPE = 1e-3
"""Least slope of a law (Pa·s/kg) that a step reckons with."""


@dataclass(frozen=True)
class Shape:
    """Open runs and unknown nodes of a circuit, and the pattern of its linear system."""

    start: Index
    end: Index
    unknown: Index
    system: System | None
    at_node: Index
    sign: Array
    starts: Index


class Outcome(NamedTuple):
    """Mass flows (kg/s) and heads (Pa) with the residuals of each case, and each run's share in them."""

    flow: Array
    heads: Array
    steps: int
    flow_residual: Array
    energy_residual: Array
    astray: Array


def shape(start: Index, end: Index, known: Mask, open_runs: Mask, *, many: bool = False) -> Shape:
    """Shape of a circuit whose ``known`` nodes have their head given."""
    unknown = np.flatnonzero(~known)
    count = len(unknown)
    place = np.full(len(known), count, dtype=np.intp)
    place[unknown] = np.arange(count)
    start_at, end_at = place[start], place[end]
    runs = np.arange(len(start))
    node = np.concatenate((start_at, end_at))
    order = np.argsort(node, kind="stable")
    order = order[: int((node < count).sum())]
    nodes = node[order]
    starts = np.flatnonzero(np.concatenate(([True], nodes[1:] != nodes[:-1]))) if count else nodes
    closed = ~open_runs
    start_at[closed] = end_at[closed] = count
    return Shape(
        start=start,
        end=end,
        unknown=unknown,
        system=system(count, start_at, end_at, many=many) if count else None,
        at_node=np.tile(runs, 2)[order],
        sign=np.repeat([-1.0, 1.0], len(start))[order],
        starts=starts,
    )


class _Search:
    """One circuit on its way to its flows."""

    def __init__(
        self, laws: Laws, form: Shape, open_runs: Mask, demand: Array, anchored: Array | None
    ) -> None:
        self.laws, self.form, self.open, self.anchored = laws, form, open_runs, anchored
        wide = open_runs.ndim > 1
        self.all_open = bool(open_runs.all())
        self.demand = demand[form.unknown][:, None] if wide else demand[form.unknown]
        self.sign = form.sign[:, None] if wide else form.sign
        self.least = max(LEAST_FLOW, float(np.abs(demand).max(initial=0.0)))

    def into_nodes(self, flow: Array) -> Array:
        """What the runs carry into each unknown node."""
        if self.form.system is None:
            return np.zeros((0, *flow.shape[1:]))
        carried: Array = np.add.reduceat(flow[self.form.at_node] * self.sign, self.form.starts, axis=0)
        return carried

    def left_over(self, drop: Drop, heads: Array) -> Array:
        """Drop of each open run less the difference of the heads at its ends."""
        left = drop.drop + self.laws.buoyancy - heads[self.form.start] + heads[self.form.end]
        return left if self.all_open else np.where(self.open, left, 0.0)

    def step(self, flow: Array, drop: Drop, left: Array, heads: Array) -> tuple[Array, Array]:
        """Change of every flow that Newton's method asks for, and the heads that go with it."""
        conductance = 1 / np.maximum(drop.slope, LEAST_SLOPE)
        if not self.all_open:
            conductance = np.where(self.open, conductance, 0.0)
        change = np.zeros(heads.shape)
        if self.form.system is not None:
            right = self.into_nodes(flow - conductance * left) - self.demand
            change[self.form.unknown] = self.form.system.solution(conductance, right, self.anchored)
        return conductance * (change[self.form.start] - change[self.form.end] - left), heads + change

    def slope_along(self, step: Array, flow: Array, left: Array) -> Array:
        """Slope of the convex function along a step, runs that a check valve blocks left out."""
        share = left * step
        if self.laws.one_way is not None:
            share = np.where(self.laws.one_way & (flow < 0), 0.0, share)
        slope: Array = share.sum(axis=0)
        return slope

    def cut(self, flow: Array, step: Array, heads: Array, at_end: Array, at_start: Array) -> Array | float:
        """Share of a step that comes near the minimum along it; 1 for cases that need no cut."""
        needs = at_end > BEYOND * at_start
        low, high = np.zeros_like(at_end), np.ones_like(at_end)
        at_low, at_high = -at_start, at_end
        share = np.ones_like(at_end)
        for _ in range(CUTS):
            with np.errstate(divide="ignore", invalid="ignore"):
                crossing = low - at_low * (high - low) / (at_high - at_low)
            margin = 0.05 * (high - low)
            share = np.where(needs, np.clip(crossing, low + margin, high - margin), share)
            here = flow + share * step
            slope = self.slope_along(step, here, self.left_over(self.laws.drop(here), heads))
            if ((np.abs(slope) <= BEYOND * at_start) | ~needs).all():
                break
            above = slope > 0
            high, at_high = np.where(above, share, high), np.where(above, slope, at_high / 2)
            low, at_low = np.where(above, low, share), np.where(above, at_low / 2, slope)
        return share


def search(
    laws: Laws,
    form: Shape,
    open_runs: Mask,
    demand: Array,
    flow: Array,
    heads: Array,
    anchored: Array | None = None,
) -> Outcome:
    """Flows and heads of one case or many, as far as ``STEPS`` steps go; the caller judges the residuals.

    ``flow`` is where to start from, with 0 in closed runs and the held flow in held ones; ``heads`` holds
    the given heads at known nodes.
    """
    way = _Search(laws, form, open_runs, demand, anchored)
    drop = laws.drop(flow)
    left = way.left_over(drop, heads)
    energy: Array | float = np.inf
    number = 0
    while number < STEPS:
        number += 1
        step, heads = way.step(flow, drop, left, heads)
        before, slope = flow, drop.slope
        flow = before + step
        drop = laws.drop(flow)
        left = way.left_over(drop, heads)
        missed = np.abs(left)
        previous, energy = energy, np.maximum.reduce(missed)
        if number > 1 and np.any(energy > WORSE * previous):
            at_start = (np.maximum(slope, LEAST_SLOPE) * step * step * open_runs).sum(axis=0)
            at_end = way.slope_along(step, flow, left)
            if (at_end > BEYOND * at_start).any():
                flow = before + way.cut(before, step, heads, at_end, at_start) * step
                drop = laws.drop(flow)
                left = way.left_over(drop, heads)
                missed = np.abs(left)
                energy = np.maximum.reduce(missed)
        largest = np.maximum(np.maximum.reduce(np.abs(flow)), way.least)
        pressure = np.maximum(np.maximum.reduce(np.abs(drop.drop)), drop.largest)
        energy_residual = energy / np.maximum(pressure, LEAST_PRESSURE)
        if not np.all(energy_residual < SHARP):
            continue
        imbalance = np.maximum.reduce(np.abs(way.into_nodes(flow) - way.demand), initial=0.0)
        settled = np.abs(step) <= SETTLED * np.abs(flow) + STILL * largest + LEAST_STEP
        if settled.all() and np.all(imbalance < SHARP * largest):
            break
    imbalance = np.maximum.reduce(np.abs(way.into_nodes(flow) - way.demand), initial=0.0)
    return Outcome(flow, heads, number, imbalance / largest, energy_residual, missed)
