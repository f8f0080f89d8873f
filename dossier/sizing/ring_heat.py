"""Where do the temperatures of the ring settle? Mixing, pipes, emitters and sources in one balance.

Every part of the circuit turns the temperature of the water entering into that of the water leaving; along a
straight line, which is exact for pipes and fan coils and found again at every step for the others. So all
junctions are solved together, whatever the shape of the circuit.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import exp

import numpy as np
from numpy.typing import NDArray

from dossier.notation import NotConverged

CLOSE = 1e-9
STEPS = 100
NUDGE = 0.05


@dataclass(frozen=True)
class Way:
    """One chain of parts that water passes, in flow order, from one junction to another."""

    start: int
    end: int
    mass_flow: float
    tags: tuple[str, ...]


@dataclass(frozen=True)
class Held:
    """A source that holds the temperature of the water leaving it (K)."""

    temperature: float


@dataclass(frozen=True)
class Giving:
    """A source that gives a fixed heat (W); negative takes it."""

    heat: float


@dataclass(frozen=True)
class Losing:
    """A pipe: loss (W/K) to air of a temperature (K)."""

    conductance: float
    air: float


@dataclass(frozen=True)
class Emitting:
    """An emitter: heat given (W) at a temperature of the water entering (K) and its capacity rate (W/K).

    ``straight`` where the heat grows in a straight line with the entering temperature.
    """

    heat: Callable[[float, float], float]
    straight: bool = False


Part = Held | Giving | Losing | Emitting


@dataclass(frozen=True)
class Ring:
    """The ring in one state: ways of the water, parts that change its temperature, specific heat (J/kgK).

    One specific heat for the whole ring, so that heat is conserved exactly.
    """

    ways: Sequence[Way]
    parts: Mapping[str, Part]
    specific_heat: float


@dataclass(frozen=True)
class Temperatures:
    """Temperatures entering and leaving every part that water passes (K), and the heat it gives off (W).

    ``heat`` is negative where a part puts heat into the water. ``residual`` is what all parts together leave
    over, over the largest heat.
    """

    inlet: Mapping[str, float]
    outlet: Mapping[str, float]
    heat: Mapping[str, float]
    steps: int
    residual: float


def _line(part: Part | None, inlet: float, rate: float) -> tuple[float, float]:
    """Slope and start of the straight line from entering to leaving temperature, at an entering one."""
    if part is None:
        return 1.0, 0.0
    if isinstance(part, Held):
        return 0.0, part.temperature
    if isinstance(part, Giving):
        return 1.0, part.heat / rate
    if isinstance(part, Losing):
        kept = exp(-part.conductance / rate)
        return kept, part.air * (1 - kept)
    here = float(part.heat(inlet, rate))
    beside = float(part.heat(inlet + NUDGE, rate))
    slope = 1 - (beside - here) / (NUDGE * rate)
    return slope, inlet - here / rate - slope * inlet


def ring_temperatures(ring: Ring, start: Mapping[str, float], usual: float) -> Temperatures:
    """Steady temperatures of all parts that water passes.

    ``start`` holds entering temperatures to begin with, ``usual`` (K) serves where it has none. Raises
    ``NotConverged`` where nothing holds a temperature, or the balance does not settle.
    """
    inlet = dict(start)
    outlet: dict[str, float] = {}
    rates = [way.mass_flow * ring.specific_heat for way in ring.ways]
    ways = list(zip(ring.ways, rates, strict=True))
    nodes = 1 + max((max(way.start, way.end) for way in ring.ways), default=0)
    lines: dict[str, tuple[float, float]] = {}
    moved, steps = 0.0, 0
    while steps < STEPS:
        steps += 1
        bent = _lines(ring, ways, inlet, usual, lines)
        found = _junctions(ways, nodes, lines, usual)
        moved = 0.0
        for way, _ in ways:
            here = float(found[way.start])
            for tag in way.tags:
                slope, offset = lines[tag]
                if tag in bent:
                    moved = max(moved, abs(here - inlet.get(tag, usual)))
                inlet[tag] = here
                here = slope * here + offset
                outlet[tag] = here
        if moved < CLOSE * usual:
            break
    else:
        raise NotConverged(f"the temperatures of the ring still move by {moved:.3g} K after {STEPS} steps")
    heat = {tag: rate * (inlet[tag] - outlet[tag]) for way, rate in ways for tag in way.tags}
    largest = max((abs(part) for part in heat.values()), default=0.0)
    left = abs(sum(heat.values())) / largest if largest else 0.0
    return Temperatures(inlet, outlet, heat, steps, left)


def _lines(
    ring: Ring,
    ways: Sequence[tuple[Way, float]],
    inlet: Mapping[str, float],
    usual: float,
    lines: dict[str, tuple[float, float]],
) -> set[str]:
    """Put the line of every part into ``lines``; the parts whose line bends and must be found again."""
    bent = set()
    for way, rate in ways:
        for tag in way.tags:
            part = ring.parts.get(tag)
            bends = isinstance(part, Emitting) and not part.straight
            if bends:
                bent.add(tag)
            if bends or tag not in lines:
                lines[tag] = _line(part, inlet.get(tag, usual), rate)
    return bent


def _junctions(
    ways: Sequence[tuple[Way, float]], nodes: int, lines: Mapping[str, tuple[float, float]], usual: float
) -> NDArray[np.float64]:
    """Temperature of every junction: what arrives mixes; one that nothing reaches keeps the usual."""
    matrix, source = np.zeros((nodes, nodes)), np.zeros(nodes)
    for way, rate in ways:
        slope, offset = 1.0, 0.0
        for tag in way.tags:
            a, b = lines[tag]
            slope, offset = a * slope, a * offset + b
        matrix[way.end, way.end] += rate
        matrix[way.end, way.start] -= rate * slope
        source[way.end] += rate * offset
    idle = ~matrix.any(axis=1)
    matrix[idle, idle] = 1.0
    source[idle] = usual
    try:
        found: NDArray[np.float64] = np.linalg.solve(matrix, source)
    except np.linalg.LinAlgError as error:
        raise NotConverged("the ring has no source or loss that holds its temperature") from error
    return found
