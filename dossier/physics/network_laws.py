"""Drop and slope of every run against its mass flow, for all runs and all cases at once.

Arrays have a row for each run or element; a second axis, where there is one, holds cases that are solved
together. Below a creeping flow the square law gives way to a straight line, as real flow does, so that every
law has a slope at standstill.
"""

from bisect import bisect_right
from collections.abc import Mapping
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from dossier.physics.network_figures import Elements, Pieces
from dossier.physics.pipe import Transition, friction
from dossier.physics.pump import STANDARD_GRAVITY
from dossier.physics.valves import SQUARE

Array = NDArray[np.float64]

CREEPING = 1e-6
"""Mass flow (kg/s) below which the square law gives way to a straight line."""

HARDLY = 0.1
"""Resistance (Pa·s/kg) of a run that has none, so that a solver can tell its ends apart."""

BLOCKED = 1e15
"""Resistance (Pa·s/kg) of a check valve against its direction."""


class Drop(NamedTuple):
    """Drop of each run (Pa), its slope (Pa·s/kg), and the largest pressure a pump or table makes (Pa)."""

    drop: Array
    slope: Array
    largest: float | Array


class Laws:
    """The laws of a circuit's runs, bound to the density and viscosity of each element.

    ``kv`` gives the flow factors of valves by their element, ``speed`` the speeds of pumps; either may be an
    array of cases where ``density`` has cases.
    """

    def __init__(
        self,
        elements: Elements,
        runs: int,
        density: Array,
        viscosity: Array,
        kv: Mapping[int, float | Array],
        speed: Mapping[int, float | Array],
    ) -> None:
        self.elements, self.density, self.speed = elements, density, speed
        self._wide, self._runs, pipes = density.ndim > 1, runs, elements.pipes
        self.closed = elements.closed
        self.factor = self._square(kv) / density
        self.square = self.by_run(self.factor)
        self.reference = density.mean(axis=0)
        self.buoyancy: Array | float = 0.0
        if elements.rise.any():
            weight = (density - self.reference) * self._tall(elements.rise) * STANDARD_GRAVITY
            self.buoyancy = self.by_run(weight)
        self.reynolds_per_flow = self._tall(pipes.reynolds) / viscosity[pipes.elements]
        self.friction_per_flow = self._tall(pipes.straight) / (
            density[pipes.elements] * self.reynolds_per_flow
        )
        self._roughness = self._tall(pipes.roughness)
        self._ends = Transition(self._tall(pipes.ends.factor), self._tall(pipes.ends.slope))
        self._powers = [
            self._power(density[law.element], viscosity[law.element], law.unit) for law in elements.powers
        ]
        self.one_way = self._tall(elements.one_way) if elements.one_way.any() else None
        self._hardly = HARDLY * self._tall(elements.bare) if elements.bare.any() else None

    def _tall(self, figures: Any) -> Any:
        """Figures of the elements beside the cases."""
        return figures[:, None] if self._wide else figures

    def _square(self, kv: Mapping[int, float | Array]) -> Array:
        square: Array = self._tall(self.elements.square)
        if not kv:
            return square
        square = np.broadcast_to(square, self.density.shape).copy()
        self.closed = self.closed.copy()
        for place, setting in kv.items():
            factor = np.asarray(setting, dtype=float)
            square[place] = SQUARE / np.where(factor > 0, factor, np.inf) ** 2
            self.closed[place] = not factor.any()
        return square

    @staticmethod
    def _power(density: Array, viscosity: Array, unit: Any) -> Any:
        """Factor of flow^(2 − n) of a unit."""
        return (
            unit.drop
            * (density / unit.density)
            * (viscosity / unit.viscosity) ** unit.exponent
            / (density * unit.flow) ** (2 - unit.exponent)
        )

    def by_run(self, figures: Array) -> Array:
        """Sum of the elements' figures by run."""
        if not self._wide:
            summed = np.bincount(self.elements.run, figures, self._runs)
            return np.asarray(summed, dtype=np.float64)
        total = np.zeros((self._runs, *figures.shape[1:]))
        if len(self.elements.owners):
            total[self.elements.owners] = np.add.reduceat(figures, self.elements.starts, axis=0)
        return total

    def drop(self, flow: Array) -> Drop:
        """Drop of each run at a mass flow (kg/s), without what the difference in height weighs."""
        given = flow
        if self.one_way is not None:
            flow = np.where(self.one_way & (flow < 0), 0.0, flow)
        squared = flow * flow
        size = np.sqrt(squared + CREEPING * CREEPING)
        drop = self.square * flow * size
        slope = self.square * (size + squared / size)
        if self._hardly is not None:
            drop += self._hardly * flow
            slope += self._hardly
        self._add_friction(flow, drop, slope)
        for law, factor in zip(self.elements.powers, self._powers, strict=True):
            n, run = law.unit.exponent, law.run
            drop[run] += factor * flow[run] * size[run] ** (1 - n)
            slope[run] += factor * size[run] ** (1 - n) * (1 + (1 - n) * squared[run] / size[run] ** 2)
        largest: float | Array = 0.0
        for piece in self.elements.pieces:
            more, steepness = self.pieces_drop(piece, flow[piece.run])
            drop[piece.run] += more
            slope[piece.run] += steepness
            largest = np.maximum(largest, abs(more)) if self._wide else max(largest, abs(more))
        if self.one_way is not None:
            against = self.one_way & (given < 0)
            drop = np.where(against, drop + BLOCKED * given, drop)
            slope = np.where(against, BLOCKED, slope)
        return Drop(drop, slope, largest)

    def _add_friction(self, flow: Array, drop: Array, slope: Array) -> None:
        pipes = self.elements.pipes
        if not len(pipes.owners):
            return
        here = flow[pipes.runs]
        number, rising = friction(np.abs(here) * self.reynolds_per_flow, self._roughness, self._ends)
        drop[pipes.owners] += np.add.reduceat(self.friction_per_flow * number * here, pipes.starts, axis=0)
        slope[pipes.owners] += np.add.reduceat(self.friction_per_flow * rising, pipes.starts, axis=0)

    def pieces_drop(self, piece: Pieces, flow: Any) -> tuple[Any, Any]:
        """Drop (negative: a rise) of a pump or a table at a mass flow, and its slope."""
        density = self.density[piece.element]
        speed = self.speed.get(piece.element, piece.speed)
        at = flow / (density * speed)
        flows: Any = piece.flows
        drops: Any = piece.drops
        last = len(flows) - 2
        place: Any
        if self._wide:
            flows, drops = np.array(flows), np.array(drops)
            place = np.clip(np.searchsorted(flows, at, side="right") - 1, 0, last)
        else:
            place = min(max(bisect_right(flows, at) - 1, 0), last)
        low, first = flows[place], drops[place]
        steepness = (drops[place + 1] - first) / (flows[place + 1] - low)
        scale = density / piece.density * speed**2
        return (first + steepness * (at - low)) * scale, steepness * speed / piece.density

    def element_drops(self, flow: Array) -> Array:
        """Drop of each element (Pa) at the mass flow of each run; a pump's is negative."""
        here = flow[self.elements.run]
        size = np.sqrt(here * here + CREEPING * CREEPING)
        drop = self.factor * here * size
        pipes = self.elements.pipes
        through = here[pipes.elements]
        number, _ = friction(np.abs(through) * self.reynolds_per_flow, self._roughness, self._ends)
        drop[pipes.elements] += self.friction_per_flow * number * through
        for law, factor in zip(self.elements.powers, self._powers, strict=True):
            place = law.element
            drop[place] += factor * here[place] * size[place] ** (1 - law.unit.exponent)
        for piece in self.elements.pieces:
            drop[piece.element] += self.pieces_drop(piece, here[piece.element])[0]
        return drop
