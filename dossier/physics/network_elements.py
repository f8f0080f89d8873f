"""What a run of the circuit is made of, and what may be wrong with a circuit.

A run is a chain of elements between two junctions; the same mass flow passes them all. Every element may
``rise`` (metres, from its inlet to its outlet). Names are carried along for messages and must differ.
"""

from collections.abc import Iterable
from typing import Any, TypeAlias

from dossier.notation import DossierError
from dossier.notation.records import dataclass
from dossier.physics.pump import PumpCurve


class CircuitFault(DossierError):
    """A circuit that has no flow to find: ``what`` is wrong with it, and at which ``edges`` (their names)."""

    def __init__(self, what: str, edges: Iterable[str] = ()) -> None:
        self.what, self.edges = what, tuple(edges)
        super().__init__(f"{what}: {', '.join(self.edges)}" if self.edges else what)

    def __reduce__(self) -> tuple[Any, ...]:
        return (CircuitFault, (self.what, self.edges))


@dataclass(frozen=True)
class Pipe:
    """A round pipe or hose; ``loss`` is the sum of the loss factors of its bends and fittings."""

    name: str
    bore: float
    length: float
    roughness: float = 0.0
    loss: float = 0.0
    rise: float = 0.0


@dataclass(frozen=True)
class Fitting:
    """A loss factor on the velocity in a bore; it may be negative, as at a tee."""

    name: str
    bore: float
    loss: float
    rise: float = 0.0


@dataclass(frozen=True)
class Valve:
    """A valve by its flow factor (m³/h at 1 bar) in its present position; 0 shuts the run."""

    name: str
    kv: float
    rise: float = 0.0


@dataclass(frozen=True)
class CheckValve:
    """A valve that lets nothing through against the direction of its run."""

    name: str
    kv: float
    rise: float = 0.0


@dataclass(frozen=True)
class Unit:
    """A unit by one point, measured with a test liquid; ``exponent`` n as in ``fittings.unit_drop``."""

    name: str
    flow: float
    drop: float
    density: float
    viscosity: float
    exponent: float = 0.0
    rise: float = 0.0


@dataclass(frozen=True)
class UnitTable:
    """A unit by a table of volume flows and drops, measured with a liquid of ``density``.

    Straight between the points and from nothing to the first; beyond the last the last line goes on and the
    answer says so.
    """

    name: str
    flows: tuple[float, ...]
    drops: tuple[float, ...]
    density: float
    rise: float = 0.0


@dataclass(frozen=True)
class Pump:
    """A pump that turns, by its curve; ``speed`` over rated speed. One that stands is a ``Valve`` or shut."""

    name: str
    curve: PumpCurve
    speed: float = 1.0
    rise: float = 0.0


Element: TypeAlias = Pipe | Fitting | Valve | CheckValve | Unit | UnitTable | Pump


@dataclass(frozen=True)
class Node:
    """A junction. ``pressure`` (Pa, absolute) where it is known, as where the header joins.

    ``demand`` is the mass flow that leaves the circuit here (kg/s), nothing in a closed one.
    """

    name: str
    pressure: float | None = None
    demand: float = 0.0


@dataclass(frozen=True)
class Run:
    """Elements in series from one node to another (their indices)."""

    name: str
    start: int
    end: int
    elements: tuple[Element, ...]
