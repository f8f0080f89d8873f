"""The boat as heat capacities and conductances: cells of the ring in flow order, and zones.

Each pipe and unit the water passes is one mixed cell (or several alike, for a check of what that costs), each
zone one capacity of lining, furniture and air. Flows are those of the design mode. Emitters, pipes and
exchangers are straight lines through their state in that mode, which for fan coils is exact.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]
OUTSIDE = "outside"


@dataclass(frozen=True)
class Term:
    """What a part that comes and goes adds to the heat balance: matrix and outside air, both W/K."""

    matrix: Vector
    outside: Vector


@dataclass(frozen=True)
class Emission:
    """An emitter: heat (W/K) by what its water, at ``inlet``, is warmer than its air.

    ``stopped`` is the share it gives while its thermostat or the cold water holds it off. ``starts`` (K) is
    the water temperature at which its fan starts, None for what has no fan.
    """

    tag: str
    zone: str
    conductance: float
    inlet: Vector
    stopped: float
    starts: float | None
    term: Term


@dataclass(frozen=True)
class Recovery:
    """Heat from an engine: all its jacket heat (W) until the ring reaches ``bends`` (K), then falling.

    Beyond, it is ``slope`` (W/K) times what the ring is under ``ends`` (K): the engine's own cooler takes the
    rest.
    """

    tag: str
    engine: str
    heat: float
    bends: float
    slope: float
    ends: float
    cell: int
    inlet: Vector


@dataclass(frozen=True)
class Tap:
    """The exchanger of the tap water: it gives at most ``conductance`` (W/K) times water over cold water."""

    tag: str
    conductance: float
    cold: float
    demand: float
    cell: int
    inlet: Vector


@dataclass(frozen=True)
class Boat:
    """All capacities (J/K) by name and the heat balance C·x' = G·x + s + h·θ_out, in W and K."""

    names: tuple[str, ...]
    capacities: Vector
    matrix: Vector
    source: Vector
    outside: Vector
    fixed: Mapping[str, tuple[Vector, Vector]]
    emissions: tuple[Emission, ...]
    zones: Mapping[str, int]
    burner: int
    sensor: Vector
    back: Vector
    start: Vector
    store: int | None = None
    recovery: Recovery | None = None
    tap: Tap | None = None

    def row(self, place: int) -> Vector:
        """Row that reads one temperature."""
        return unit_row(len(self.names), place)


def unit_row(count: int, place: int) -> Vector:
    """Row of zeros with a one."""
    row = np.zeros(count)
    row[place] = 1.0
    return row


@dataclass
class Assembly:
    """Gathers capacities and conductances into a boat's balance."""

    names: list[str] = field(default_factory=list)
    capacities: list[float] = field(default_factory=list)
    starts: list[float] = field(default_factory=list)
    exchanges: list[tuple[int, int, float]] = field(default_factory=list)
    borders: list[tuple[int, float, float, str]] = field(default_factory=list)
    open_air: list[tuple[int, float]] = field(default_factory=list)
    flows: list[tuple[int, float]] = field(default_factory=list)

    def capacity(self, name: str, size: float, start: float) -> int:
        """Add a capacity (J/K) at a temperature (K) and give its place."""
        self.names.append(name)
        self.capacities.append(size)
        self.starts.append(start)
        return len(self.names) - 1

    def between(self, one: int, other: int, conductance: float) -> None:
        """Let two capacities exchange heat."""
        self.exchanges.append((one, other, conductance))

    def beyond(self, place: int, conductance: float, temperature: float, what: str) -> None:
        """Let a capacity lose heat to a constant temperature (K)."""
        self.borders.append((place, conductance, temperature, what))

    def to_outside(self, place: int, conductance: float) -> None:
        """Let a capacity lose heat to the outside air."""
        self.open_air.append((place, conductance))

    def balance(
        self, inlets: Mapping[int, Vector], rates: Mapping[int, float]
    ) -> tuple[Vector, Vector, Vector, dict[str, tuple[Vector, Vector]]]:
        """Matrix, source and outside of the whole, and what leads to each constant temperature."""
        count = len(self.names)
        matrix, source, outside = np.zeros((count, count)), np.zeros(count), np.zeros(count)
        fixed: dict[str, tuple[Vector, Vector]] = {}
        for one, other, conductance in self.exchanges:
            matrix[one, one] -= conductance
            matrix[one, other] += conductance
            matrix[other, other] -= conductance
            matrix[other, one] += conductance
        for place, conductance, temperature, what in self.borders:
            matrix[place, place] -= conductance
            source[place] += conductance * temperature
            lost, gained = fixed.setdefault(what, (np.zeros(count), np.zeros(count)))
            lost[place] += conductance
            gained[place] += conductance * temperature
        for place, conductance in self.open_air:
            matrix[place, place] -= conductance
            outside[place] += conductance
        for place, row in inlets.items():
            matrix[place] += rates[place] * row
            matrix[place, place] -= rates[place]
        return matrix, source, outside, fixed


def emission_term(  # noqa: PLR0913, PLR0917 - an emitter with all that surrounds it
    count: int, cells: Sequence[int], zone: int, inlet: Vector, air: int | str, conductance: float
) -> Term:
    """What an emitter adds while it runs: it takes heat from its cells alike and puts it into its zone."""
    matrix, outside = np.zeros((count, count)), np.zeros(count)
    for place, share in [*((cell, -1.0 / len(cells)) for cell in cells), (zone, 1.0)]:
        matrix[place] += share * conductance * inlet
        if isinstance(air, str):
            outside[place] -= share * conductance
        else:
            matrix[place, air] -= share * conductance
    return Term(matrix, outside)
