"""What happens aboard on the simulated day: outside air, lower targets at night, showers, engine hours.

No hour of it stands in the project file; the hours are assumed and marked so, the lengths are the file's.
"""

from enum import Enum
from typing import TYPE_CHECKING, Any

import numpy as np

from dossier.data.assumptions import assumed
from dossier.notation import Quantity, Traced, q
from dossier.notation.records import dataclass

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.day_boat import Boat

DAY = 86400.0
FREQUENCY = 2 * np.pi / DAY
ASSUMED = {
    "outside_swing": q("Δθ_e", "K", "daily swing of the outside air"),
    "coldest": q("t", "s", "coldest hour"),
    "setback": q("Δθ_n", "K", "targets lower at night"),
    "setback_from": q("t", "s", "lower targets from"),
    "setback_until": q("t", "s", "lower targets until"),
    "thermostat_band": q("Δθ_i", "K", "band of the room thermostats"),
    "first_shower": q("t", "s", "first shower"),
    "second_shower": q("t", "s", "second shower"),
    "engine_from": q("t", "s", "engine runs from"),
}


class Happening(Enum):
    """What begins or ends at an hour."""

    SETBACK = "lower targets"
    TAP = "shower"
    ENGINE = "engine"


@dataclass(frozen=True)
class Moment:
    """A happening that begins or ends, in seconds since midnight."""

    time: float
    what: Happening
    begins: bool


@dataclass(frozen=True)
class Program:
    """The day's program. Outside air is ``mean`` + Re(``swing``·e^(iωt)), in K."""

    mean: float
    swing: complex
    setback: float
    thermostat_band: float
    moments: tuple[Moment, ...]
    assumptions: tuple[tuple[Quantity, Traced], ...]

    def outside(self, time: Any) -> Any:
        """Outside air (K) at a time (s) or at many."""
        return self.mean + (self.swing * np.exp(1j * FREQUENCY * np.asarray(time))).real

    def upcoming(self, begin: float, end: float) -> list[Moment]:
        """All moments from ``begin`` to ``end`` (s, midnight is 0), the program being the same every day."""
        days = range(int(np.floor(begin / DAY)), int(np.ceil(end / DAY)))
        each = [Moment(m.time + day * DAY, m.what, m.begins) for day in days for m in self.moments]
        return sorted(
            (m for m in each if begin < m.time < end), key=lambda m: (m.time, m.what.value, m.begins)
        )

    def state_at(self, time: float) -> dict[Happening, bool]:
        """What is going on at a time of the day."""
        found = dict.fromkeys(Happening, False)
        for moment in self.upcoming(time - DAY, time + 1e-6):
            found[moment.what] = moment.begins
        return found


def _span(what: Happening, begin: float, end: float) -> list[Moment]:
    return [Moment(begin % DAY, what, begins=True), Moment(end % DAY, what, begins=False)]


def program_of(project: "Project", boat: "Boat", coldest: float) -> Program:
    """Program of a boat whose outside air is ``coldest`` (K) at its coldest hour."""
    used = {name: assumed(f"day.{name}") for name in list(ASSUMED)[:6]}
    half = float(used["outside_swing"]) / 2
    moments = _span(Happening.SETBACK, float(used["setback_from"]), float(used["setback_until"]))
    tap: Any = project.tap_water or None
    if boat.tap is not None and tap is not None and tap.shower is not None:
        for name in ("first_shower", "second_shower"):
            used[name] = assumed(f"day.{name}")
            moments += _span(Happening.TAP, float(used[name]), float(used[name]) + float(tap.shower))
    engine: Any = (project.components or {}).get(boat.recovery.engine) if boat.recovery else None
    if engine is not None and engine.hours_per_day:
        used["engine_from"] = assumed("day.engine_from")
        begin = float(used["engine_from"])
        moments += _span(Happening.ENGINE, begin, begin + min(3600 * float(engine.hours_per_day), DAY - 1))
    turn = np.exp(-1j * FREQUENCY * float(used["coldest"]))
    return Program(
        coldest + half,
        complex(-half * turn),
        float(used["setback"]),
        float(used["thermostat_band"]),
        tuple(sorted(moments, key=lambda m: m.time)),
        tuple((ASSUMED[name], number) for name, number in used.items()),
    )
