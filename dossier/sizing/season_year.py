"""What year does the boat see? Air, sea, wind and time aboard, by months or by the hours of a weather file.

Months or hours are samples, each with the time that people are aboard in it; so both go the same way through
the same formulas. A month of the table stands for itself: its mean says nothing of its colder nights, and the
mild months come out a little low. Hours have no such fault.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np
from numpy.typing import NDArray

from dossier.data.assumptions import assumed
from dossier.notation import ARITHMETIC, NotAssessed, Real, formula, q, solved
from dossier.notation.records import dataclass

if TYPE_CHECKING:
    from dossier.project import Project

Array = NDArray[np.float64]

QUESTION = "What does a year take?"
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
HOUR = 3600.0
DAY = 86400.0
LEAP_YEAR = 8784
FEBRUARY = 2
OUTSIDE = q("θ_e", "K", "mean outside air", low=203, high=333)
SEA = q("θ_w", "K", "mean sea", low=268, high=313)
ABOARD = q("t_a", "s", "time aboard", low=0, high=2678400)


@formula("t_a = min(t, t_m)", ARITHMETIC)
def time_aboard(
    stated: Annotated[Real, q("t", "s", "hours aboard as stated", low=0, high=2678400)],
    month: Annotated[Real, q("t_m", "s", "length of the month", low=0, high=2678400)],
) -> Annotated[Real, ABOARD]:
    """Time aboard in a month, which is no longer than the month."""
    return np.minimum(stated, month)


@formula("t_a = s · t_m", ARITHMETIC)
def share_of_month(
    share: Annotated[Real, q("s", "1", "share of the time aboard", low=0, high=1)],
    month: Annotated[Real, q("t_m", "s", "length of the month", low=0, high=2678400)],
) -> Annotated[Real, ABOARD]:
    """Time aboard in a month of which only a share is known."""
    return share * month


@dataclass(frozen=True)
class YearMonth:
    """One month; ``engine`` and ``generator`` are running hours (s), None where the file is silent."""

    number: int
    outside: Annotated[Real, OUTSIDE]
    sea: Annotated[Real | None, SEA]
    aboard: Annotated[Real, ABOARD]
    engine: Annotated[Real | None, q("t_e", "s", "engine running")]
    generator: Annotated[Real | None, q("t_e", "s", "generator running")]


@dataclass(frozen=True)
class Year:
    """Months and the samples they are made of.

    ``place`` is the place of each sample's month in ``months``, ``aboard`` the time (s) it stands for.
    Temperatures in K; ``sea`` is None where no part of the boat faces it.
    """

    months: tuple[YearMonth, ...]
    place: NDArray[np.intp]
    outside: Array
    sea: Array | None
    wind: Real
    aboard: Array
    hourly: bool

    def in_month(self, place: int) -> NDArray[np.bool_]:
        """Mask of the samples of a month."""
        found: NDArray[np.bool_] = self.place == place
        return found


def faces_sea(project: "Project") -> bool:
    """Whether any section of the boat lies in the water."""
    return any(section.faces == "sea" for zone in project.zones or () for section in zone.sections or ())


def year_of(project: "Project") -> Year | NotAssessed:
    """The year by the hours of the weather file, else by the table of months.

    With a weather file the table gives the sea, the hours aboard and the engine's hours; months that it does
    not name are then not counted, as they are not without the file.
    """
    conditions = project.conditions
    rows = {int(row.month): row for row in (conditions.months if conditions else None) or ()}
    weather = conditions.weather if conditions else None
    if weather is None and not rows:
        return NotAssessed(QUESTION, ("conditions.months",))
    numbers = sorted(rows) or list(range(1, 13))
    lacking = []
    if weather is None and any(row.outside_air is None for row in rows.values()):
        lacking.append("conditions.months.outside_air")
    if faces_sea(project) and any(n not in rows or rows[n].sea is None for n in numbers):
        lacking.append("conditions.months.sea")
    if lacking:
        return NotAssessed(QUESTION, tuple(lacking))
    if weather is None:
        return _by_months(project, rows, numbers)
    return _by_hours(project, rows, numbers, weather)


def _month(row: Any, number: int, outside: Real, days: float) -> YearMonth:
    """One month; where no hours aboard are stated somebody is aboard all the time."""
    stated = getattr(row, "hours_aboard", None)
    if stated is None:
        share = assumed("conditions.months.hours_aboard", f"conditions.months.{number}.hours_aboard")
        aboard = share_of_month(share, days * DAY)
    else:
        aboard = time_aboard(stated, days * DAY)
    engine, generator = (getattr(row, f"{kind}_hours", None) for kind in ("engine", "generator"))
    return YearMonth(number, outside, getattr(row, "sea", None), aboard, engine, generator)


def _seas(project: "Project", months: tuple[YearMonth, ...]) -> Array | None:
    return np.array([float(month.sea or 0.0) for month in months]) if faces_sea(project) else None


def _by_months(project: "Project", rows: Mapping[int, Any], numbers: list[int]) -> Year:
    months = tuple(
        _month(rows[number], number, rows[number].outside_air, DAYS[number - 1]) for number in numbers
    )
    return Year(
        months,
        np.arange(len(months)),
        np.array([float(month.outside) for month in months]),
        _seas(project, months),
        assumed("conditions.wind", "conditions.months.wind"),
        np.array([float(month.aboard) for month in months]),
        hourly=False,
    )


def _by_hours(project: "Project", rows: Mapping[int, Any], numbers: list[int], weather: Any) -> Year:
    """Hours of a year that begins in January; each stands for the share of its month spent aboard."""
    leap = len(weather.outside_air) == LEAP_YEAR
    days = np.array(DAYS) + (np.arange(1, 13) == FEBRUARY) * leap
    of_month = np.repeat(np.arange(1, 13), days * 24)
    counted = np.isin(of_month, numbers)
    air, wind = np.array(weather.outside_air)[counted], np.array(weather.wind)[counted]
    place = np.searchsorted(numbers, of_month[counted])
    months = []
    for k, number in enumerate(numbers):
        mean = solved(
            float(air[place == k].mean()), OUTSIDE, "mean of the hours of the weather file", ARITHMETIC
        )
        months.append(_month(rows.get(number), number, mean, float(days[number - 1])))
    made = tuple(months)
    each = np.array([float(m.aboard) / (days[m.number - 1] * 24) for m in made])
    sea = _seas(project, made)
    return Year(made, place, air, None if sea is None else sea[place], wind, each[place], hourly=True)
