"""What the simulated day leaves behind: every stretch between two events, exact at any moment of it."""

from collections.abc import Mapping, Sequence
from typing import Annotated, NamedTuple

import numpy as np
from numpy.typing import NDArray

from dossier.notation import Real, q
from dossier.notation.records import dataclass
from dossier.sizing.day_burner import FLAMES, Burning
from dossier.sizing.day_linear import Course

Vector = NDArray[np.float64]


class Stretch(NamedTuple):
    """From one event to the next: the course of all temperatures, what the burner does, the current (A)."""

    begin: float
    span: float
    course: Course
    burner: Burning
    current: float
    called: tuple[bool, ...]


@dataclass(frozen=True)
class HeatOfDay:
    """Heat of the day (J): what came in, what went out, what is stored more at its end than at its beginning.

    ``residual`` is what these leave over, over the largest of them.
    """

    burner: Annotated[Real, q("Q_B", "J", "given by the burner")]
    recovered: Annotated[Real, q("Q_R", "J", "recovered from an engine")]
    tap: Annotated[Real, q("Q_T", "J", "taken by the tap water")]
    air: Annotated[Real, q("Q_e", "J", "lost to the outside air")]
    sea: Annotated[Real, q("Q_w", "J", "lost to the water round the boat")]
    elsewhere: Annotated[Real, q("Q_a", "J", "lost to other surroundings")]
    stored: Annotated[Real, q("ΔQ", "J", "stored more at the end")]
    residual: float


@dataclass(frozen=True)
class DayCourse:
    """The day at equal steps, for figures: all arrays of the shape of ``time`` (s since midnight).

    ``ring`` holds supply, return, sensor and, where there is one, the store (K); ``rooms`` all zones (K);
    ``output`` is in W, ``current`` in A.
    """

    time: Vector
    ring: Mapping[str, Vector]
    rooms: Mapping[str, Vector]
    outside: Vector
    burner: tuple[Burning, ...]
    output: Vector
    current: Vector


class DayRecord:
    """All stretches of a day; temperatures can be read at any moment."""

    def __init__(self, stretches: Sequence[Stretch]) -> None:
        self.stretches = tuple(stretches)
        self.begins = np.array([stretch.begin for stretch in self.stretches])

    def __len__(self) -> int:
        return len(self.stretches)

    def at(self, times: Vector) -> tuple[Vector, list[Stretch]]:
        """Temperatures (K), shape ``[times, capacities]``, and the stretch each moment (s) lies in."""
        places = np.clip(np.searchsorted(self.begins, times, side="right") - 1, 0, len(self) - 1)
        found = [self.stretches[place] for place in places]
        states = [
            stretch.course.state(float(time) - stretch.course.begin)
            for time, stretch in zip(times, found, strict=True)
        ]
        return np.array(states), found

    def runs(self) -> list[tuple[float, float]]:
        """Begin and length (s) of every run of the flame, cut off where the day is."""
        found: list[tuple[float, float]] = []
        for stretch in self.stretches:
            if stretch.burner not in FLAMES:
                continue
            if found and abs(found[-1][0] + found[-1][1] - stretch.begin) < 1e-6:  # noqa: PLR2004 - one run goes on
                found[-1] = (found[-1][0], found[-1][1] + stretch.span)
            else:
                found.append((stretch.begin, stretch.span))
        return found
