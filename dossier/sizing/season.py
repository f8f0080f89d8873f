"""What does a year take: heat, fuel, running hours and starts of the burner, month by month?

Rooms are at their targets while somebody is aboard, and unheated else. While they call for heat the ring is
warm and loses what it loses on the design night. Showers are counted; the warming of a cold ring for one is
not, nor is the heat that starts cost.
"""

from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import stated_or_assumed
from dossier.data.sources import BURNER_CYCLES, HEAT_BALANCE
from dossier.notation import NotAssessed, NotConverged, OutOfRange, Quantity, Real, q, solved
from dossier.notation.records import dataclass
from dossier.physics.fuel import fuel_volume
from dossier.physics.zones import total_heat_flow
from dossier.sizing import season_sums as sums
from dossier.sizing.fuel import FuelStudy
from dossier.sizing.heat_loss import HeatLoss
from dossier.sizing.heat_recovery import Recovery
from dossier.sizing.modes import DESIGN
from dossier.sizing.ring import RingStudy
from dossier.sizing.season_heat import MonthCourse, courses_of
from dossier.sizing.season_tap import Showers, showers_of
from dossier.sizing.season_year import ABOARD, OUTSIDE, QUESTION, SEA, Year, YearMonth, year_of
from dossier.sizing.store import StoreStudy

if TYPE_CHECKING:
    from dossier.project import Project

HOUR = 3600.0
GAINS = q("Φ_g", "W", "heat of people, lamps and cooking")
STANDING = q("Φ_p", "W", "pipes outside the rooms, and stores")


@dataclass(frozen=True)
class SeasonMonth:
    """One month. ``heat`` is what rooms, ring and showers take, ``burner_heat`` what engines leave of it.

    ``starts`` is None where the burner's switching is not known. ``falls_short`` is the time in which the
    full output is not enough.
    """

    month: int
    outside: Annotated[Real, OUTSIDE]
    sea: Annotated[Real | None, SEA]
    aboard: Annotated[Real, ABOARD]
    heated: Annotated[Real, q("t_h", "s", "time in which the rooms call for heat")]
    falls_short: float
    ring_heat: Annotated[Real, q("Q_h", "J", "rooms, pipes and stores")]
    tap_heat: Annotated[Real, q("Q_t", "J", "showers")]
    heat: Annotated[Real, q("Q", "J", "heat of a month", name="season.month.{month}.heat")]
    recovered: Annotated[
        Real, q("Q_r", "J", "taken from engine or generator", name="season.month.{month}.recovered")
    ]
    burner_heat: Annotated[Real, q("Q_b", "J", "heat the burner gives")]
    fuel: Annotated[Real, q("V", "m3", "fuel of a month", name="season.month.{month}.fuel")]
    fuel_saved: Annotated[
        Real, q("V", "m3", "burner fuel saved by engines", name="season.month.{month}.fuel_saved")
    ]
    running_time: Annotated[
        Real, q("t", "s", "of the burner in a month", name="season.month.{month}.running_hours")
    ]
    starts: Annotated[
        Real | None, q("n", "1", "of the burner in a month", name="season.month.{month}.starts")
    ]


@dataclass(frozen=True)
class Season:
    """A year of the heating; ``hourly`` tells whether it was reckoned by the hour or by the month."""

    months: tuple[SeasonMonth, ...]
    hourly: bool
    gains: Annotated[Real, GAINS]
    wind: Real
    standing: Annotated[Real, STANDING]
    showers: Showers | None
    heat: Annotated[Real, q("Q", "J", "of the year", name="season.heat")]
    recovered: Annotated[Real, q("Q_r", "J", "taken from engines in the year", name="season.recovered")]
    fuel: Annotated[Real, q("V", "m3", "of the year", name="season.fuel")]
    fuel_saved: Annotated[
        Real, q("V", "m3", "burner fuel saved by engines in the year", name="season.fuel_saved")
    ]
    running_time: Annotated[
        Real, q("t", "s", "of the burner in the year; pages print h", name="season.running_hours")
    ]
    starts: Annotated[Real | None, q("n", "1", "of the burner in the year", name="season.starts")]


def season(  # noqa: PLR0913, PLR0917 - the studies it rests on
    project: "Project",
    loss: HeatLoss | NotAssessed,
    burnt: FuelStudy | NotAssessed,
    ring: RingStudy | NotAssessed,
    store: StoreStudy | NotAssessed,
    recovery: Recovery | NotAssessed,
) -> Season | NotAssessed:
    """The year, month by month; without circuit or store what they tell is left out."""
    if isinstance(loss, NotAssessed):
        return NotAssessed(QUESTION, loss.needs, loss.why)
    if isinstance(burnt, NotAssessed):
        return NotAssessed(QUESTION, burnt.needs, burnt.why)
    if float(loss.total) <= 0:
        return NotAssessed(QUESTION, (), "no zone needs heat on the design night")
    year = year_of(project)
    if isinstance(year, NotAssessed):
        return year
    try:
        return _Reckoning(project, loss, burnt, ring, store, recovery).season(year)
    except (OutOfRange, NotConverged) as why:
        key = "conditions.weather" if year.hourly else "conditions.months"
        return NotAssessed(QUESTION, (key,), str(why))


class _Reckoning:
    """A year with all that its months share."""

    def __init__(  # noqa: PLR0913, PLR0917 - the studies it rests on
        self,
        project: "Project",
        loss: HeatLoss,
        burnt: FuelStudy,
        ring: RingStudy | NotAssessed,
        store: StoreStudy | NotAssessed,
        recovery: Recovery | NotAssessed,
    ) -> None:
        self.project, self.loss, self.burnt = project, loss, burnt
        self.store = None if isinstance(store, NotAssessed) else store
        burners: list[Any] = [c for c in (project.components or {}).values() if c.kind == "burner"]
        self.full = total_heat_flow(*(burner.output.max for burner in burners))
        conditions: Any = project.conditions
        self.gains = stated_or_assumed(conditions.inner_gains, "conditions.inner_gains")
        self.standing = standing_losses(ring, store)
        self.output = self.store.control.output if self.store else lowest_output(burners[0])
        self.showers = showers_of(project)
        self.engines = () if isinstance(recovery, NotAssessed) else sums.engines_of(project, recovery)

    def season(self, year: Year) -> Season:
        """All months, and their sums."""
        courses = courses_of(self.project, self.loss, year, self.gains, self.standing, self.full)
        months = tuple(
            self._month(month, course, hourly=year.hourly)
            for month, course in zip(year.months, courses, strict=True)
        )
        starts = [month.starts for month in months if month.starts is not None]
        return Season(
            months,
            year.hourly,
            self.gains,
            year.wind,
            self.standing,
            self.showers,
            heat=sums.total_energy(*(month.heat for month in months)),
            recovered=sums.total_energy(*(month.recovered for month in months)),
            fuel=sums.total_fuel(*(month.fuel for month in months)),
            fuel_saved=sums.total_fuel(*(month.fuel_saved for month in months)),
            running_time=sums.total_time(*(month.running_time for month in months)),
            starts=sums.total_starts(*starts) if len(starts) == len(months) else None,
        )

    def _month(self, month: YearMonth, course: MonthCourse, *, hourly: bool) -> SeasonMonth:
        ring_heat = self._ring_heat(month, course, hourly=hourly)
        heated = sums.time_heated(course.share_heated(), month.aboard)
        count = self.showers.count(month.aboard) if self.showers else 0.0
        tap = sums.heat_of_showers(count, self.showers.heat) if self.showers else 0.0
        heat = sums.heat_of_month(ring_heat, tap)
        recovered = sums.recovered_heat(
            ring_heat, *(engine.recovered(month, course, ring_heat) for engine in self.engines)
        )
        left = sums.share_left(recovered, ring_heat)
        by_burner = sums.heat_left(heat, recovered)
        plain = solved(
            course.running_again(float(self.output), float(ring_heat)),
            sums.PLAIN_TIME,
            "Σ t·min(Φ/Φ_on, 1) over the samples of the month",
            BURNER_CYCLES,
            [(q("Φ_on", "W", "output when it stops"), self.output), (sums.RING_HEAT, ring_heat)],
            function=course.running_again,
        )
        return SeasonMonth(
            month=month.number,
            outside=month.outside,
            sea=month.sea,
            aboard=month.aboard,
            heated=heated,
            falls_short=float(month.aboard) * course.share_short(),
            ring_heat=ring_heat,
            tap_heat=tap,
            heat=heat,
            recovered=recovered,
            burner_heat=by_burner,
            fuel=self._fuel(by_burner),
            fuel_saved=self._fuel(recovered),
            running_time=sums.running_time(plain, left, tap, self.full),
            starts=self._starts(month, course, ring_heat, left, count, heated),
        )

    def _fuel(self, heat: Real) -> Real:
        fuel = self.burnt.fuel
        return fuel_volume(heat, self.burnt.efficiency, fuel.heat_of_combustion, fuel.density)

    def _ring_heat(self, month: YearMonth, course: MonthCourse, *, hourly: bool) -> Real:
        given: list[tuple[Quantity, Real]] = [
            (q("Φ_HL", "W", "design load"), self.loss.total),
            (GAINS, self.gains),
            (STANDING, self.standing),
            (q("Φ_max", "W", "full output"), self.full),
            (ABOARD, month.aboard),
        ]
        if not hourly:
            given.append((OUTSIDE, month.outside))
            if month.sea is not None:
                given.append((SEA, month.sea))
        text = f"Σ t·min(Φ_HL(θ_e, θ_w) − Φ_g + Φ_p, Φ_max) over {len(course.load)} samples, where Φ_HL > Φ_g"
        return solved(course.heat(), sums.RING_HEAT, text, HEAT_BALANCE, given, function=course.heat_again)

    def _starts(  # noqa: PLR0913, PLR0917 - a month with all that it rests on
        self,
        month: YearMonth,
        course: MonthCourse,
        ring_heat: Real,
        left: Real,
        count: Real,
        heated: Real,
    ) -> Real | None:
        """Starts at the loads of the month, and one for each shower while the ring is cold."""
        if self.store is None:
            return None
        each = float(self.store.starts_at(course.given()) @ course.aboard) / HOUR
        plain = solved(
            each,
            sums.PLAIN_STARTS,
            "Σ t·n(Φ) over the samples of the month",
            BURNER_CYCLES,
            [
                (q("Q_h", "J", "heat of rooms and ring"), ring_heat),
                (q("C", "J/K", "fluid and metal of the moving volume"), self.store.heat_capacity),
                (q("Φ_on", "W", "output when it stops"), self.output),
            ],
        )
        return sums.starts_of_month(plain, left, count, heated, month.aboard)


def standing_losses(ring: RingStudy | NotAssessed, store: StoreStudy | NotAssessed) -> Real:
    """What pipes outside the heated zones and stores lose in the design mode (W); 0 where it is not known."""
    losses: list[Real] = []
    if not isinstance(ring, NotAssessed) and ring.design is not None and ring.design.heat is not None:
        losses.append(ring.design.heat.outside)
    if not isinstance(store, NotAssessed) and DESIGN in store.modes:
        losses += store.modes[DESIGN].parts.store_losses
    return total_heat_flow(*losses) if losses else 0.0


def lowest_output(burner: Any) -> Real:
    """Output of a burner when it stops (W): its lowest, where it has one."""
    output: Real = burner.output.max if burner.output.min is None else burner.output.min
    return output
