"""Figures of all elements of a circuit in one row, gathered once and used by every solution.

An element's drop is one of four laws: friction (pipes), the square of the flow (fittings, valves, units), a
power of it (units whose viscosity exponent is stated), straight pieces (pumps, tables).
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import inf, isfinite, nan, pi
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from dossier.physics.network_elements import (
    CheckValve,
    CircuitFault,
    Element,
    Fitting,
    Pipe,
    Pump,
    Run,
    Unit,
    UnitTable,
    Valve,
)
from dossier.physics.pipe import RELATIVE_ROUGHNESS, Transition, transition
from dossier.physics.valves import SQUARE

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Mask = NDArray[np.bool_]

USUAL_VELOCITY = 0.6
USUAL_DROP = 8000.0
USUAL_DENSITY = 1000.0


@dataclass(frozen=True)
class Pipes:
    """Pipes that have a length: their elements and runs, and what the run's friction is made of.

    ``reynolds`` is Re times viscosity over mass flow, ``straight`` the factor of f·flow² over density. The
    pipes of one run lie together: ``starts`` is the first of each, ``owners`` its run.
    """

    elements: Index
    runs: Index
    reynolds: Array
    straight: Array
    roughness: Array
    ends: Transition
    starts: Index
    owners: Index


class Power(NamedTuple):
    """A unit whose drop follows a power of the flow and of the viscosity."""

    element: int
    run: int
    unit: Unit


class Pieces(NamedTuple):
    """An element whose drop runs in straight pieces over the volume flow: a pump or a table."""

    element: int
    run: int
    flows: list[float]
    drops: list[float]
    density: float
    speed: float


@dataclass(frozen=True)
class Elements:
    """The elements of all runs in one row, and the figures of their laws.

    ``square`` is the factor of flow² over density; ``starts`` and ``owners`` tell which stretch of elements
    each run has. ``usual`` is a mass flow of each run that a solver may start from.
    """

    names: tuple[str, ...]
    run: Index
    starts: Index
    owners: Index
    bore: Array
    rise: Array
    square: Array
    pipes: Pipes
    powers: tuple[Power, ...]
    pieces: tuple[Pieces, ...]
    checks: Mask
    settable: Mask
    closed: Mask
    one_way: Mask
    bare: Mask
    usual: Array


@dataclass
class _Rows:
    """Gathers the figures of the elements, one after the other."""

    bore: list[float] = field(default_factory=list)
    square: list[float] = field(default_factory=list)
    usual: list[float] = field(default_factory=list)
    pipes: list[tuple[int, int, float, float, float]] = field(default_factory=list)
    powers: list[Power] = field(default_factory=list)
    pieces: list[Pieces] = field(default_factory=list)

    def take(self, place: int, run: int, element: Element) -> None:
        """Add one element."""
        bore, square, usual = nan, 0.0, inf
        if isinstance(element, Pipe | Fitting):
            bore = _above_nothing(element.bore, "bore", element)
            area = pi / 4 * bore * bore
            square = element.loss / (2 * area * area)
            usual = USUAL_VELOCITY * area * USUAL_DENSITY
            if isinstance(element, Pipe) and element.length:
                straight = _above_nothing(element.length, "length", element) / (2 * bore * area * area)
                self.pipes.append((place, run, 4 / (pi * bore), straight, element.roughness / bore))
        elif isinstance(element, Valve | CheckValve):
            if element.kv or isinstance(element, CheckValve):
                square = SQUARE / _above_nothing(element.kv, "flow factor", element) ** 2
        elif isinstance(element, Unit):
            usual = _above_nothing(element.flow, "rated flow", element) * element.density
            if element.exponent:
                self.powers.append(Power(place, run, element))
            else:
                square = element.drop / (element.density * element.flow**2)
        else:
            self.pieces.append(_pieces(place, run, element))
            usual = 0.5 * self.pieces[-1].flows[-1] * USUAL_DENSITY
        if not isfinite(square):
            raise CircuitFault("a resistance is no number", [element.name])
        if square > 0:
            usual = min(usual, (USUAL_DROP * USUAL_DENSITY / square) ** 0.5)
        self.bore.append(bore)
        self.square.append(square)
        self.usual.append(usual)


def _above_nothing(figure: float, what: str, element: Element) -> float:
    if not 0 < figure < inf:
        raise CircuitFault(f"a {what} is not above nothing", [element.name])
    return figure


def _pieces(place: int, run: int, element: UnitTable | Pump) -> Pieces:
    if isinstance(element, Pump):
        if not element.speed > 0:
            raise CircuitFault("a pump that stands has no curve: make it a valve, or shut it", [element.name])
        curve = element.curve
        return Pieces(
            place, run, list(curve.flows), [-rise for rise in curve.rises], curve.density, element.speed
        )
    points = [pair for pair in zip(element.flows, element.drops, strict=True) if pair != (0, 0)]
    steps = zip([(0.0, 0.0), *points], points, strict=False)
    if not points or any(after[0] <= before[0] or after[1] <= before[1] for before, after in steps):
        raise CircuitFault("flows and drops of a table do not rise from point to point", [element.name])
    both = [*((-flow, -drop) for flow, drop in reversed(points)), (0.0, 0.0), *points]
    return Pieces(place, run, [flow for flow, _ in both], [drop for _, drop in both], element.density, 1.0)


def gathered(runs: Sequence[Run]) -> Elements:
    """Elements of all runs with the figures of their laws; raises ``CircuitFault`` for impossible ones."""
    found = _Rows()
    elements = [element for run in runs for element in run.elements]
    owner = np.repeat(np.arange(len(runs)), [len(run.elements) for run in runs])
    for place, (number, element) in enumerate(zip(owner.tolist(), elements, strict=True)):
        found.take(place, number, element)
    checks = np.array([isinstance(element, CheckValve) for element in elements], dtype=bool)
    settable = np.array([isinstance(element, Valve) for element in elements], dtype=bool)
    square = np.array(found.square)
    bare, one_way = np.ones(len(runs), dtype=bool), np.zeros(len(runs), dtype=bool)
    bare[owner[(square != 0) | settable]] = False
    for resisting in (
        [pipe[1] for pipe in found.pipes],
        [power.run for power in found.powers],
        [piece.run for piece in found.pieces],
    ):
        bare[resisting] = False
    one_way[owner[checks]] = True
    starts, owners = stretches(owner)
    return Elements(
        names=tuple(element.name for element in elements),
        run=owner,
        starts=starts,
        owners=owners,
        bore=np.array(found.bore),
        rise=np.array([element.rise for element in elements]),
        square=square,
        pipes=_pipes(found.pipes, elements),
        powers=tuple(found.powers),
        pieces=tuple(found.pieces),
        checks=checks,
        settable=settable,
        closed=settable & (square == 0),
        one_way=one_way,
        bare=bare,
        usual=_usual(np.array(found.usual), owner, len(runs)),
    )


def _pipes(found: list[tuple[int, int, float, float, float]], elements: list[Element]) -> Pipes:
    figures = np.array(found).reshape(-1, 5)
    runs, roughness = figures[:, 1].astype(np.intp), figures[:, 4]
    beyond = (roughness < 0) | (roughness > RELATIVE_ROUGHNESS.high) | np.isnan(roughness)
    if beyond.any():
        wrong = [elements[int(place)].name for place in figures[beyond, 0]]
        raise CircuitFault("a roughness lies outside 0 to a twentieth of the bore", wrong[:4])
    starts, owners = stretches(runs)
    return Pipes(
        elements=figures[:, 0].astype(np.intp),
        runs=runs,
        reynolds=figures[:, 2],
        straight=figures[:, 3],
        roughness=roughness,
        ends=transition(roughness),
        starts=starts,
        owners=owners,
    )


def _usual(usual: Array, owner: Index, runs: int) -> Array:
    """Mass flow of each run from which a solver may start: the smallest usual one of its elements."""
    least = np.full(runs, np.inf)
    np.minimum.at(least, owner, usual)
    known = least[np.isfinite(least)]
    return np.where(np.isfinite(least), least, float(np.median(known)) if known.size else USUAL_VELOCITY)


def stretches(owner: Index) -> tuple[Index, Index]:
    """Where each owner's stretch of a sorted list begins, and the owners in order."""
    if not len(owner):
        return np.zeros(0, dtype=np.intp), np.zeros(0, dtype=np.intp)
    starts = np.flatnonzero(np.concatenate(([True], owner[1:] != owner[:-1])))
    return starts, owner[starts]
