"""Where do the temperatures of the ring settle? Mixing, pipes, emitters and sources in one balance.

Every part of the circuit turns the temperature of the water entering into that of the water leaving; along a
straight line, which is exact for sources and fan coils and found again at every step for the others. So all
junctions are solved together, whatever the shape of the circuit.
"""

from collections.abc import Callable, Mapping, Sequence
from math import exp
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from dossier.notation import NotConverged
from dossier.notation.records import dataclass

CLOSE = 3e-7
"""Largest last step of a temperature (K)."""

STEPS = 200
NUDGE = 0.05
BEYOND = 5000.0
"""Temperature (K) that no ring has: where it is found, next to nothing holds the ring's temperature."""

UNHELD = "the ring has no source or loss that holds its temperature"


@dataclass(frozen=True)
class Way:
    """One chain of parts that water passes, in flow order, from one junction to another."""

    start: int
    end: int
    mass_flow: float
    tags: tuple[str, ...]


class Part(Protocol):
    """What changes the temperature of the water; ``bends`` where it does so along no straight line."""

    @property
    def bends(self) -> bool:
        """Whether its line must be found again at another temperature."""
        ...

    def line(self, inlet: float, rate: float) -> tuple[float, float]:
        """Slope and start of the line from entering to leaving temperature (K), at an entering one.

        ``rate`` is the capacity rate of the water (W/K).
        """
        ...


@dataclass(frozen=True)
class Held:
    """A source that holds the temperature of the water leaving it (K)."""

    temperature: float
    bends: bool = False

    def line(self, _inlet: float, _rate: float) -> tuple[float, float]:
        """It leaves at one temperature, whatever enters."""
        return 0.0, self.temperature


@dataclass(frozen=True)
class Giving:
    """A source that gives a fixed heat (W); negative takes it."""

    heat: float
    bends: bool = False

    def line(self, _inlet: float, rate: float) -> tuple[float, float]:
        """It leaves warmer by its heat over the capacity rate."""
        return 1.0, self.heat / rate


@dataclass(frozen=True)
class Losing:
    """A pipe: loss (W/K) to air of a temperature (K)."""

    conductance: float
    air: float
    bends: bool = False

    def line(self, _inlet: float, rate: float) -> tuple[float, float]:
        """What is left of the excess at the pipe's end."""
        kept = exp(-self.conductance / rate)
        return kept, self.air * (1 - kept)


@dataclass(frozen=True)
class Coil:
    """A fan coil: heat (W) for each kelvin of the entering water over the air, up to a ``most``."""

    each: float
    air: float
    most: float = float("inf")

    @property
    def bends(self) -> bool:
        """It bends where it reaches its most."""
        return self.most != float("inf")

    def line(self, inlet: float, rate: float) -> tuple[float, float]:
        """Straight below its most, and at its most."""
        if self.each * (inlet - self.air) > self.most:
            return 1.0, -self.most / rate
        return 1 - self.each / rate, self.each / rate * self.air


@dataclass(frozen=True)
class Emitting:
    """A part that gives ``heat(inlet, rate)`` (W), up to a ``most``; negative takes it."""

    heat: Callable[[float, float], float]
    most: float = float("inf")
    bends: bool = True

    def line(self, inlet: float, rate: float) -> tuple[float, float]:
        """The line through its heat here and close by."""
        here = float(self.heat(inlet, rate))
        if here > self.most:
            return 1.0, -self.most / rate
        slope = 1 - (float(self.heat(inlet + NUDGE, rate)) - here) / (NUDGE * rate)
        return slope, inlet - here / rate - slope * inlet


@dataclass(frozen=True)
class Ring:
    """The ring in one state: ways of the water, parts that change its temperature, specific heat (J/kgK).

    One specific heat for the whole ring, so that heat is conserved exactly.
    """

    ways: Sequence[Way]
    parts: Mapping[str, Part]
    specific_heat: float
    nodes: int


Followed = Callable[[Mapping[str, float], Mapping[str, float]], Mapping[str, Part]]
"""Parts as they are at the temperatures entering and the heats found last: pipes, thermostats."""


@dataclass(frozen=True)
class Temperatures:
    """Temperatures entering and leaving every part that water passes (K), and the heat it gives off (W).

    ``heat`` is negative where a part puts heat into the water. ``junctions`` holds the temperature of each
    junction, NaN where no water arrives. ``residual`` is what all parts together leave over, over the
    largest heat.
    """

    inlet: Mapping[str, float]
    outlet: Mapping[str, float]
    heat: Mapping[str, float]
    junctions: Sequence[float]
    steps: int
    residual: float


def ring_temperatures(
    ring: Ring,
    start: Mapping[str, float],
    usual: float,
    followed: Followed | None = None,
    close: float = CLOSE,
) -> Temperatures:
    """Steady temperatures of all parts that water passes.

    ``start`` holds entering temperatures to begin with, ``usual`` (K) serves where it has none; ``followed``
    gives at every step the parts that change with what is found. ``close`` is the last step (K) that ends
    the search. Raises ``NotConverged`` where nothing holds a temperature, or the balance does not settle.
    """
    inlet = {tag: start.get(tag, usual) for way in ring.ways for tag in way.tags}
    outlet = dict(inlet)
    heat = dict.fromkeys(inlet, 0.0)
    ways = [(way, way.mass_flow * ring.specific_heat) for way in ring.ways]
    parts = dict(ring.parts)
    lines = _lines(ways, parts, inlet, {})
    moved, worst, steps = 0.0, "", 0
    while steps < STEPS:
        steps += 1
        again = {tag for tag in inlet if tag in parts and parts[tag].bends}
        if followed is not None:
            changed = followed(inlet, heat if steps > 1 else {})
            parts.update(changed)
            again |= changed.keys() & inlet.keys()
        lines = _lines(ways, parts, inlet, lines, again)
        found = _junctions(ways, ring.nodes, lines)
        moved = 0.0
        for way, rate in ways:
            here = found[way.start]
            for tag in way.tags:
                slope, offset = lines[tag]
                step = abs(here - inlet[tag])
                if step > moved:
                    moved, worst = step, tag
                inlet[tag] = here
                here = slope * here + offset
                outlet[tag] = here
                heat[tag] = rate * (inlet[tag] - here)
        if moved < close:
            break
    else:
        raise NotConverged(
            f"the temperature entering {worst} still moves by {moved:.3g} K after {STEPS} steps"
        )
    largest = max((abs(part) for part in heat.values()), default=0.0)
    left = abs(sum(heat.values())) / largest if largest else 0.0
    return Temperatures(inlet, outlet, heat, found, steps, left)


def _lines(
    ways: Sequence[tuple[Way, float]],
    parts: Mapping[str, Part],
    inlet: Mapping[str, float],
    before: Mapping[str, tuple[float, float]],
    again: "set[str] | None" = None,
) -> dict[str, tuple[float, float]]:
    """Line of every part; those not named in ``again`` keep the one they had."""
    lines = dict(before)
    for way, rate in ways:
        for tag in way.tags:
            if again is None or tag in again:
                part = parts.get(tag)
                lines[tag] = (1.0, 0.0) if part is None else part.line(inlet[tag], rate)
    return lines


def _junctions(
    ways: Sequence[tuple[Way, float]], nodes: int, lines: Mapping[str, tuple[float, float]]
) -> list[float]:
    """Temperature of every junction: what arrives mixes; NaN where nothing does."""
    matrix = [[0.0] * nodes for _ in range(nodes)]
    source = [0.0] * nodes
    for way, rate in ways:
        slope, offset = 1.0, 0.0
        for tag in way.tags:
            a, b = lines[tag]
            slope, offset = a * slope, a * offset + b
        matrix[way.end][way.end] += rate
        matrix[way.end][way.start] -= rate * slope
        source[way.end] += rate * offset
    idle = [node for node, row in enumerate(matrix) if not any(row)]
    for node in idle:
        matrix[node][node], source[node] = 1.0, float("nan")
    wet = [node for node in range(nodes) if node not in idle]
    square: NDArray[np.float64] = np.array([[matrix[row][column] for column in wet] for row in wet])
    try:
        solved = np.linalg.solve(square, np.array([source[row] for row in wet])).tolist()
    except np.linalg.LinAlgError as error:
        raise NotConverged(UNHELD) from error
    if any(abs(temperature) > BEYOND for temperature in solved):
        raise NotConverged(UNHELD)
    found = [float("nan")] * nodes
    for node, temperature in zip(wet, solved, strict=True):
        found[node] = temperature
    return found
