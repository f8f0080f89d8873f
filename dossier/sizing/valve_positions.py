"""Where do valves stand that find their own position? Thermostatic and three-way valves in the balance.

The flow factor of a thermostatic valve follows the water at the valve; a three-way valve moves until the
water where its ways come together has the temperature it is set to, or stands at an end. Each is found by
bracketing, in turn until none moves any more.
"""

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import Any, Protocol, TypeVar

from dossier.notation import NotConverged
from dossier.notation.records import dataclass
from dossier.physics.valves import kv_linear, thermostatic_position
from dossier.sizing.circuit import Circuit
from dossier.sizing.modes import ModeState

CLOSE = 1e-7
"""Miss of a position (share of its travel), or of a temperature (K), that counts as none."""

NARROW = 1e-10
"""Width of a bracket that counts as a point."""

BETWEEN = (0.5, 0.25, 0.75, 0.1, 0.9)
"""Positions tried where both ends of its travel miss to the same side."""

STEPS = 80
TURNS = 40


@dataclass(frozen=True)
class Felt:
    """Temperatures (K) that valves feel: of the water entering a part, and of a node of the circuit."""

    entering: Callable[[str], float]
    node: Callable[[int], float]


class Control(Protocol):
    """A valve that finds its own position, from 0 to 1."""

    @property
    def tag(self) -> str:
        """Tag of the valve."""
        ...

    def kv(self, position: float) -> Mapping[str, float]:
        """Flow factors (m³/h) at a position."""
        ...

    def miss(self, position: float, felt: Felt) -> float:
        """How far the position is from where the valve would go; 0 where it stays."""
        ...


@dataclass(frozen=True)
class Thermostatic:
    """A thermostatic valve; temperatures in K, the flow factor fully open in m³/h."""

    tag: str
    kv_open: float
    opens: float
    full: float

    def kv(self, position: float) -> Mapping[str, float]:
        """Flow factor at a position."""
        return {self.tag: float(kv_linear.function(self.kv_open, position))}

    def miss(self, position: float, felt: Felt) -> float:
        """Position it would take at the water it feels, less the one it has."""
        return (
            float(thermostatic_position.function(felt.entering(self.tag), self.opens, self.full)) - position
        )


@dataclass(frozen=True)
class Mixing:
    """A three-way valve: its ways (tags of their places), where they come together, and its setting (K)."""

    tag: str
    ways: tuple[str, str]
    kv_open: float
    setting: float
    meets: int

    def kv(self, position: float) -> Mapping[str, float]:
        """Flow factors of both ways: the first opens as the second closes."""
        first, second = self.ways
        return {
            first: float(kv_linear.function(self.kv_open, position)),
            second: float(kv_linear.function(self.kv_open, 1 - position)),
        }

    def miss(self, _position: float, felt: Felt) -> float:
        """Temperature where its ways come together, less its setting."""
        return felt.node(self.meets) - self.setting


def controls_of(circuit: Circuit, state: ModeState) -> tuple[Control, ...]:
    """Valves that find their own position in a mode: those it neither sets, opens nor shuts."""
    fixed = state.kv.keys() | state.opened
    found: list[Control] = []
    for place in circuit.of_kind("thermostatic_valve"):
        unit: Any = place.unit
        if place.tag not in fixed:
            found.append(Thermostatic(place.tag, float(unit.kv), float(unit.opens), float(unit.full)))
    for three in circuit.three_ways:
        valve: Any = circuit.places[three.tag].unit
        if three.tag not in fixed:
            found.append(Mixing(three.tag, three.ways, float(valve.kv), float(valve.setting), three.meets))
    return tuple(found)


Answer = TypeVar("Answer")
Solve = Callable[[Mapping[str, float]], tuple[Answer, Felt]]
"""Answer of a mode with flow factors set, and what valves feel in it."""


class _Positions:
    """Positions of all valves on the way to where they stay."""

    def __init__(self, controls: Sequence[Control], solve: "Solve[Any]") -> None:
        self.controls, self.solve = controls, solve
        self.at = {control.tag: 1.0 for control in controls}
        self.answer, self.felt = solve(self.kv())

    def kv(self) -> dict[str, float]:
        return {tag: kv for c in self.controls for tag, kv in c.kv(self.at[c.tag]).items()}

    def miss(self, control: Control, position: float) -> float:
        """Miss of one valve at a position, the others where they are."""
        if self.at[control.tag] != position:
            self.at[control.tag] = position
            self.answer, self.felt = self.solve(self.kv())
        return control.miss(position, self.felt)

    def settle(self, control: Control) -> float:
        """Move one valve to where it stays; how far it went."""
        before = self.at[control.tag]
        if abs(self.miss(control, before)) <= CLOSE:
            return 0.0
        found = self._ends(control)
        if isinstance(found, float):
            self.miss(control, found)
        elif not any(self._bracket(control, *bracket) for bracket in found):
            raise NotConverged(
                f"{control.tag} finds no steady position: near {self.at[control.tag]:.3g} of its travel it "
                "jumps from one side to the other"
            )
        return abs(self.at[control.tag] - before)

    def _ends(self, control: Control) -> "float | list[tuple[tuple[float, float], tuple[float, float]]]":
        """Pairs of positions, with their misses, between which the valve may stay; or the end it stands at.

        Where both ends miss to the same side, positions between are tried: a burner that changes its regime
        on the way may bend what the valve feels.
        """
        seen = [(0.0, self.miss(control, 0.0)), (1.0, self.miss(control, 1.0))]
        for between in (None, *BETWEEN):
            if between is not None:
                seen.append((between, self.miss(control, between)))
            seen.sort()
            stays = [position for position, missed in seen if abs(missed) <= CLOSE]
            if stays:
                return stays[0]
            between_them = [(one, other) for one, other in pairwise(seen) if one[1] * other[1] < 0]
            if between_them:
                return sorted(between_them, key=lambda pair: abs(pair[0][1]) + abs(pair[1][1]))
        return min((0.0, 1.0), key=lambda end: abs(dict(seen)[end]))

    def _bracket(self, control: Control, one: tuple[float, float], other: tuple[float, float]) -> bool:
        """Regula falsi with the end that stays halved (Illinois); False where the valve jumps instead."""
        (low, at_low), (high, at_high) = one, other
        for _ in range(STEPS):
            here = low - at_low * (high - low) / (at_high - at_low)
            missed = self.miss(control, here)
            if abs(missed) <= CLOSE:
                return True
            if missed * at_high < 0:
                low, at_low = high, at_high
            else:
                at_low /= 2
            high, at_high = here, missed
            if abs(high - low) < NARROW:
                break
        return False


def positioned(controls: Sequence[Control], solve: "Solve[Answer]") -> tuple[Answer, Mapping[str, float]]:
    """Answer with every valve where it stays, and the positions.

    Raises ``NotConverged`` naming the valve that finds none.
    """
    positions = _Positions(controls, solve)
    moved: dict[str, float] = {}
    for _ in range(TURNS):
        moved = {control.tag: positions.settle(control) for control in controls}
        if max(moved.values(), default=0.0) <= CLOSE or len(controls) == 1:
            return positions.answer, positions.at
    restless = max(moved, key=lambda tag: moved[tag])
    raise NotConverged(f"{restless} finds no steady position beside the other valves that work by themselves")
