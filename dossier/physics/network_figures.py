"""Figures of all elements of a circuit in one row, gathered once and used by every solution.

An element's drop is one of four laws: friction (pipes), the square of the flow (fittings, valves, units), a
power of it (units whose viscosity exponent is stated), straight pieces (pumps, tables).
"""

from collections.abc import Sequence
from math import inf, pi
from operator import attrgetter
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from dossier.notation.records import dataclass
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


class _Table:
    """The elements of a circuit, kind by kind, on the way to the figures of their laws."""

    def __init__(self, elements: list[Element]) -> None:
        self.elements = elements
        self._places: dict[type, list[int]] = {}
        for place, element in enumerate(elements):
            self._places.setdefault(type(element), []).append(place)
        self.bore = np.full(len(elements), np.nan)
        self.square = np.zeros(len(elements))
        self.usual = np.full(len(elements), np.inf)

    def places(self, kind: type) -> Index:
        """Where the elements of a kind stand."""
        return np.array(self._places.get(kind, ()), dtype=np.intp)

    def marked(self, kind: type) -> Mask:
        """Elements of a kind among all."""
        mask = np.zeros(len(self.elements), dtype=bool)
        mask[self.places(kind)] = True
        return mask

    def columns(self, kind: type, *names: str) -> list[Array]:
        """Fields of all elements of a kind."""
        each = attrgetter(*names)
        found = [each(self.elements[place]) for place in self._places.get(kind, ())]
        return list(np.array(found, dtype=float).reshape(-1, len(names)).T)

    def check(self, kind: type, fits: Mask, what: str) -> None:
        """Raise ``CircuitFault`` for the elements of a kind whose figure does not fit."""
        if not fits.all():
            wrong = self.places(kind)[~fits][:4].tolist()
            raise CircuitFault(what, [self.elements[place].name for place in wrong])

    def take_losses(self, kind: type) -> None:
        """Loss factors of pipes or fittings on their own bore."""
        places = self.places(kind)
        bore, loss = self.columns(kind, "bore", "loss")
        self.check(kind, (bore > 0) & (bore < inf), "a bore is not above nothing")
        self.check(kind, np.isfinite(loss), "a loss factor is no number")
        area = pi / 4 * bore * bore
        self.bore[places], self.square[places] = bore, loss / (2 * area * area)
        self.usual[places] = USUAL_VELOCITY * area * USUAL_DENSITY

    def take_valves(self, kind: type, *, may_shut: bool) -> None:
        """Flow factors of valves."""
        (kv,) = self.columns(kind, "kv")
        fits = (kv > 0) & (kv < inf)
        self.check(kind, fits | (may_shut & (kv == 0)), "a flow factor is not above nothing")
        self.square[self.places(kind)] = np.where(fits, SQUARE / np.where(fits, kv, 1.0) ** 2, 0.0)

    def take_units(self, owner: Index) -> tuple[Power, ...]:
        """Units: those of the square law into their column, the rest given back."""
        flow, drop, density, viscosity, exponent = self.columns(
            Unit, "flow", "drop", "density", "viscosity", "exponent"
        )
        self.check(Unit, (flow > 0) & (flow < inf), "a rated flow is not above nothing")
        self.check(Unit, (drop >= 0) & (drop < inf), "a rated drop is below nothing")
        self.check(Unit, (density > 0) & (viscosity > 0), "a test liquid is impossible")
        self.check(Unit, (exponent >= 0) & (exponent <= 1), "a viscosity exponent lies outside 0 to 1")
        places = self.places(Unit)
        self.usual[places] = flow * density
        self.square[places] = np.where(exponent == 0, drop / (density * flow**2), 0.0)
        return tuple(
            Power(place, int(owner[place]), unit)
            for place in places[exponent != 0].tolist()
            if isinstance(unit := self.elements[place], Unit)
        )

    def take_pieces(self, owner: Index) -> tuple[Pieces, ...]:
        """Pumps and tables."""
        found = []
        for place in [*self._places.get(Pump, ()), *self._places.get(UnitTable, ())]:
            element = self.elements[place]
            if isinstance(element, Pump | UnitTable):
                found.append(_pieces(place, int(owner[place]), element))
                self.usual[place] = 0.5 * found[-1].flows[-1] * USUAL_DENSITY
        return tuple(found)

    def pipes(self, owner: Index) -> Pipes:
        """Friction of the pipes that have a length."""
        bore, length, roughness = self.columns(Pipe, "bore", "length", "roughness")
        relative = roughness / bore
        self.check(Pipe, (length >= 0) & (length < inf), "a length is below nothing")
        fits = (relative >= 0) & (relative <= RELATIVE_ROUGHNESS.high)
        self.check(Pipe, fits, "a roughness lies outside 0 to a twentieth of the bore")
        long = length > 0
        places, bore, length, relative = self.places(Pipe)[long], bore[long], length[long], relative[long]
        starts, owners = stretches(owner[places])
        area = pi / 4 * bore * bore
        return Pipes(
            elements=places,
            runs=owner[places],
            reynolds=4 / (pi * bore),
            straight=length / (2 * bore * area * area),
            roughness=relative,
            ends=transition(relative),
            starts=starts,
            owners=owners,
        )


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
    elements = [element for run in runs for element in run.elements]
    owner = np.repeat(np.arange(len(runs)), [len(run.elements) for run in runs])
    table = _Table(elements)
    table.take_losses(Pipe)
    table.take_losses(Fitting)
    table.take_valves(Valve, may_shut=True)
    table.take_valves(CheckValve, may_shut=False)
    powers, pieces, pipes = table.take_units(owner), table.take_pieces(owner), table.pipes(owner)
    square, checks, settable = table.square, table.marked(CheckValve), table.marked(Valve)
    bare, one_way = np.ones(len(runs), dtype=bool), np.zeros(len(runs), dtype=bool)
    bare[owner[(square != 0) | settable]] = False
    for resisting in (pipes.runs, [power.run for power in powers], [piece.run for piece in pieces]):
        bare[resisting] = False
    one_way[owner[checks]] = True
    starts, owners = stretches(owner)
    resists = square > 0
    usual = np.where(resists, np.sqrt(USUAL_DROP * USUAL_DENSITY / np.where(resists, square, 1.0)), np.inf)
    return Elements(
        names=tuple(element.name for element in elements),
        run=owner,
        starts=starts,
        owners=owners,
        bore=table.bore,
        rise=np.array([element.rise for element in elements], dtype=float),
        square=square,
        pipes=pipes,
        powers=powers,
        pieces=pieces,
        checks=checks,
        settable=settable,
        closed=settable & (square == 0),
        one_way=one_way,
        bare=bare,
        usual=_usual(np.minimum(table.usual, usual), owner, len(runs)),
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
