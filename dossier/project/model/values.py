"""Values made of several numbers or words: rated pairs, points, points of a curve, dates."""

import calendar
import datetime as dt
from dataclasses import dataclass
from typing import Annotated, NamedTuple

from dossier.notation import Quantity, q
from dossier.project.model.entry import NUMBER, Likely


class Rated(NamedTuple):
    """A rated value and the flow it is rated at (``8 kPa at 25 l/min``), both in SI."""

    value: float
    at: float


@dataclass(frozen=True, slots=True)
class At:
    """Quantity of the second number of a rated pair."""

    quantity: Quantity


FLOW = q("q_V", "m3/s", "flow", low=1e-9, high=0.1)


class Point(NamedTuple):
    """A place in the boat: x forward from the aft end, y to port, z up from the loaded waterline."""

    x: Annotated[float, q("x", "m", "distance forward from the aft end", low=-50, high=250), Likely(-5, 60)]
    y: Annotated[float, q("y", "m", "distance to port", low=-30, high=30), Likely(-6, 6)]
    z: Annotated[float, q("z", "m", "height over the waterline", low=-20, high=60), Likely(-5, 15)]


class Size(NamedTuple):
    """Size of a box along the boat, across it and upward."""

    long: Annotated[float, q("l", "m", "size along the boat", low=0.001, high=50), Likely(0.02, 4)]
    wide: Annotated[float, q("b", "m", "size across the boat", low=0.001, high=20), Likely(0.02, 4)]
    high: Annotated[float, q("h", "m", "height", low=0.001, high=20), Likely(0.02, 4)]


class CurvePoint(NamedTuple):
    """A point of a pump's curve."""

    flow: Annotated[float, q("q_V", "m3/s", "flow", low=0, high=0.1), Likely(0, 0.005)]
    pressure: Annotated[float, q("Δp", "Pa", "pressure rise", low=0, high=2e6), Likely(0, 5e5)]


class ValveSetting(NamedTuple):
    """Flow factor of a balancing valve at a number of turns."""

    turns: Annotated[float, q("n", "1", "turns", low=0, high=50), NUMBER]
    kv: Annotated[float, q("K_v", "m3/h", "flow factor", low=0, high=1000), Likely(0, 50)]


@dataclass(frozen=True, slots=True)
class Date:
    """A day (``2026-11-20``) or a month (``2033-06``), printed as written."""

    year: int
    month: int
    day: int | None = None

    @property
    def first(self) -> dt.date:
        """The day, or the first of the month."""
        return dt.date(self.year, self.month, self.day or 1)

    @property
    def last(self) -> dt.date:
        """The day, or the last of the month."""
        return dt.date(self.year, self.month, self.day or calendar.monthrange(self.year, self.month)[1])

    def __str__(self) -> str:
        day = f"-{self.day:02d}" if self.day else ""
        return f"{self.year:04d}-{self.month:02d}{day}"
