"""Many boxes at once, as plain numbers: free space before every side, and which reach into each other.

The same rule as ``boxes.free_space``, for layouts of hundreds of parts; workings are left to that function,
which is then asked about the nearest obstacle alone.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from operator import attrgetter
from typing import TypeAlias

import numpy as np

from dossier.physics.boxes import Box, Side

NOTHING = -1
AXES = range(3)
Numbers: TypeAlias = "np.ndarray[tuple[int, ...], np.dtype[np.float64]]"
Rows: TypeAlias = "np.ndarray[tuple[int, ...], np.dtype[np.int64]]"


@dataclass(frozen=True)
class FreeSpaces:
    """Free space before each side (m), a row for each box and a column for each ``Side`` in its order.

    ``space`` is NaN where nothing bounds it; ``nearest`` is the row of the obstacle before the side, -1 where
    there is none.
    """

    space: Numbers
    nearest: Rows


@dataclass(frozen=True)
class BoxField:
    """Corners of all boxes, a row each (m)."""

    low: Numbers
    high: Numbers

    @staticmethod
    def of(boxes: Sequence[Box]) -> "BoxField":
        """The field of some boxes, in their order."""
        low, high = ([float(end) for box in boxes for end in corner(box)] for corner in (_low, _high))
        return BoxField(np.array(low).reshape(-1, 3), np.array(high).reshape(-1, 3))

    @cached_property
    def shared(self) -> tuple[Numbers, ...]:
        """Length that two boxes share along each axis, negative by their gap; none with themselves."""
        found = []
        for axis in AXES:
            low, high = self.low[:, axis], self.high[:, axis]
            length = np.minimum(high[:, None], high) - np.maximum(low[:, None], low)
            np.fill_diagonal(length, -np.inf)
            found.append(length)
        return tuple(found)

    def free_spaces(self, rooms: Sequence[Box | None]) -> FreeSpaces:
        """Free space before all sides of all boxes, each in its room (None: no walls)."""
        nowhere = Box((-np.inf,) * 3, (np.inf,) * 3)
        walls = BoxField.of([room or nowhere for room in rooms])
        count = len(self.low)
        space, nearest = np.full((count, len(Side)), np.nan), np.full((count, len(Side)), NOTHING)
        for column, side in enumerate(Side):
            axis = side.axis
            facing = np.logical_and(*(self.shared[other] > 0 for other in AXES if other != axis))
            low, high = self.low[:, axis], self.high[:, axis]
            if side.is_upper:
                distance, wall = low - high[:, None], walls.high[:, axis] - high
                facing &= high > high[:, None]
            else:
                distance, wall = low[:, None] - high, low - walls.low[:, axis]
                facing &= low < low[:, None]
            distance[~facing] = np.inf
            at = distance.argmin(axis=1) if count else np.zeros(0, dtype=int)
            least = distance[np.arange(count), at]
            nearest[:, column] = np.where(np.isfinite(least), at, NOTHING)
            bound = np.minimum(least, wall)
            space[:, column] = np.where(np.isfinite(bound), bound, np.nan)
        return FreeSpaces(space, nearest)

    def clashes(self, least: float = 0.0) -> list[tuple[int, int]]:
        """Pairs of boxes, by their rows, that share more than ``least`` (m) along every axis.

        Boxes that touch do not clash, nor does one that lies wholly inside another: it is built into it.
        """
        both = np.logical_and.reduce([length > least for length in self.shared])
        pairs = zip(*(places.tolist() for places in np.nonzero(np.triu(both, 1))), strict=True)
        return [(one, other) for one, other in pairs if not self._built_in(one, other, least)]

    def _built_in(self, one: int, other: int, least: float) -> bool:
        return any(
            bool(np.all(self.low[inner] >= self.low[outer] - least))
            and bool(np.all(self.high[inner] <= self.high[outer] + least))
            for inner, outer in ((one, other), (other, one))
        )


_low, _high = attrgetter("low"), attrgetter("high")
