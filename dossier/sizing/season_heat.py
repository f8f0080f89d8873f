"""What heat do the rooms call for through the year, and what must the burner give for it?

The balance of all zones of the design night, once more with every sample of the year's air and sea. Each room
counts for itself: one that would have to be cooled takes nothing from the others. Of the sum, people, lamps
and cooking bring their part; the sun is left out.
"""

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from dossier.notation import NotConverged, Real
from dossier.notation.records import dataclass
from dossier.sizing.envelope import shell
from dossier.sizing.heat_loss import HeatLoss, loss_at
from dossier.sizing.season_year import Array, Year

if TYPE_CHECKING:
    from dossier.project import Project

STEP = 1.0
"""Step (K) in which the slopes of the load are taken: it is straight but where a room drops out."""


def load_of_rooms(project: "Project", loss: HeatLoss, outside: Array, sea: Array | None, wind: Real) -> Array:
    """Load of all heated rooms at their targets (W), for each sample of air, sea (K) and wind (m/s).

    Raises ``NotConverged`` where a sample leaves the range of a formula.
    """
    weather = {"outside_air": outside, "sea": sea, "wind": wind}
    conditions: Any = project.conditions
    there = project.model_copy(update={"conditions": conditions.model_copy(update=weather)})
    targets = {name: zone.temperature if zone.heated else None for name, zone in loss.zones.items()}
    found = loss_at(there, shell(there), targets, outside)
    total = np.zeros(len(outside))
    for zone in found.heated:
        total = total + np.maximum(zone.load if zone.load is not None else 0.0, 0.0)
    if np.isnan(total).any():
        raise NotConverged(
            "the load of the rooms cannot be found for all of the year: air, sea or wind leaves the range "
            "of its formula"
        )
    return total


@dataclass(frozen=True)
class MonthCourse:
    """The samples of one month: load of the rooms (W), its slopes by air and sea (W/K), time aboard (s).

    ``standing`` is what pipes and stores lose while the ring is warm, ``full`` the burner's full output (W).
    """

    load: Array
    by_air: Array
    by_sea: Array
    aboard: Array
    outside: float
    sea: float
    total: float
    gains: float
    standing: float
    full: float

    def given(self) -> Array:
        """Heat the source gives in each sample (W): rooms less gains, pipes, stores; at most full output."""
        need = self.load - self.gains
        return np.where(need > 0, np.minimum(need + self.standing, self.full), 0.0)

    def heat(self) -> float:
        """Heat the source gives in the month (J)."""
        return float(self.given() @ self.aboard)

    def share_heated(self) -> float:
        """Share of the time aboard in which the rooms call for heat."""
        whole = float(self.aboard.sum())
        return float(self.aboard[self.load > self.gains].sum()) / whole if whole else 0.0

    def share_short(self) -> float:
        """Share of the time aboard in which full output is not enough."""
        whole = float(self.aboard.sum())
        short = (self.load > self.gains) & (self.load - self.gains + self.standing > self.full)
        return float(self.aboard[short].sum()) / whole if whole else 0.0

    def heat_again(self, *numbers: float) -> float:
        """The month's heat (J) from design load, gains, standing losses, full output, time, air and sea."""
        total, gains, standing, full, time, *weather = numbers
        load = self.load
        if weather:
            load = load + self.by_air * (weather[0] - self.outside)
        if len(weather) > 1:
            load = load + self.by_sea * (weather[1] - self.sea)
        whole = float(self.aboard.sum())
        again = replace(
            self,
            load=load * total / self.total,
            aboard=self.aboard * (time / whole) if whole else self.aboard,
            gains=gains,
            standing=standing,
            full=full,
        )
        return again.heat()

    def recovered_again(self, rate: float, running: float, time: float, heat: float) -> float:
        """Heat (J) an engine spares the burner while it runs, at most what the ring calls for meanwhile."""
        share = min(running / time, 1.0) if time else 0.0
        return float(np.minimum(rate, self._given_of(heat)) @ self.aboard) * share

    def running_again(self, output: float, heat: float) -> float:
        """Time (s) the burner burns at the output it stops with, all the time where that is too little."""
        return float(np.minimum(self._given_of(heat) / output, 1.0) @ self.aboard)

    def _given_of(self, heat: float) -> Array:
        """Heat the source gives in each sample (W), where the month's is another (J)."""
        whole = self.heat()
        return self.given() * (heat / whole) if whole else self.given()


def courses_of(  # noqa: PLR0913, PLR0917 - a year with all that it rests on
    project: "Project", loss: HeatLoss, year: Year, gains: Real, standing: Real, full: Real
) -> tuple[MonthCourse, ...]:
    """Samples of each month with the load of the rooms."""
    load, by_air, by_sea = _sloping(project, loss, year)
    found = []
    for place, month in enumerate(year.months):
        mine = year.in_month(place)
        found.append(
            MonthCourse(
                load[mine],
                by_air[mine],
                by_sea[mine],
                year.aboard[mine],
                float(month.outside),
                0.0 if month.sea is None else float(month.sea),
                float(loss.total),
                float(gains),
                float(standing),
                float(full),
            )
        )
    return tuple(found)


def _sloping(project: "Project", loss: HeatLoss, year: Year) -> tuple[Array, Array, Array]:
    """Load of the rooms (W) and its slopes by air and sea (W/K), all in one balance; hours need no slopes."""
    air, sea = year.outside, year.sea
    level = np.zeros(len(air))
    if year.hourly:
        return load_of_rooms(project, loss, air, sea, year.wind), level, level
    cases = 2 if sea is None else 3
    airs = np.concatenate([air, air + STEP, air][:cases])
    seas = None if sea is None else np.concatenate([sea, sea, sea + STEP])
    each = load_of_rooms(project, loss, airs, seas, year.wind).reshape(cases, -1)
    return each[0], (each[1] - each[0]) / STEP, level if sea is None else (each[2] - each[0]) / STEP
