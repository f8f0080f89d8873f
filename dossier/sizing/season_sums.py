"""What a month comes to: heat of ring and taps, what engines spare the burner, its time and its starts."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np

from dossier.data.sources import BURNER_CYCLES, HEAT_BALANCE
from dossier.notation import ARITHMETIC, Real, chosen, formula, q, solved
from dossier.notation.records import dataclass
from dossier.sizing.season_heat import MonthCourse
from dossier.sizing.season_year import YearMonth

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.heat_recovery import Recovery

ENERGY = q("Q_i", "J", "heat of one month", low=0, high=1e13)
RING_HEAT = q("Q_h", "J", "rooms, pipes and stores", low=0, high=1e12)
TAP_HEAT = q("Q_t", "J", "showers", low=0, high=1e12)
RECOVERED = q("Q_r", "J", "taken from engine or generator", low=0, high=1e12)
LEFT = q("s", "1", "share left to the burner", low=0, high=1)
SHOWERS = q("n_s", "1", "showers", low=0, high=1e5)
PLAIN_TIME = q("t_0", "s", "burner, engines left out", low=0, high=2678400)
PLAIN_STARTS = q("n_0", "1", "starts, engines left out", low=0, high=1e6)
TIME_ABOARD = q("t_a", "s", "time aboard", low=0, high=2678400)
HEATED = q("t_h", "s", "time in which the rooms call for heat", low=0, high=2678400)
RATE = q("Φ_r", "W", "heat taken from an engine")


@formula("t_h = s · t_a", ARITHMETIC)
def time_heated(
    share: Annotated[Real, q("s", "1", "share of the time aboard", low=0, high=1)],
    aboard: Annotated[Real, TIME_ABOARD],
) -> Annotated[Real, HEATED]:
    """Time in which the rooms call for heat."""
    return share * aboard


@formula("Q_t = n_s · Q_1", HEAT_BALANCE)
def heat_of_showers(
    count: Annotated[Real, SHOWERS],
    each: Annotated[Real, q("Q_1", "J", "heat of one shower", low=0, high=1e8)],
) -> Annotated[Real, q("Q_t", "J", "showers", low=0)]:
    """Heat that the showers of a month take."""
    return count * each


@formula("Q = Q_h + Q_t", HEAT_BALANCE)
def heat_of_month(
    ring: Annotated[Real, RING_HEAT], tap: Annotated[Real, TAP_HEAT]
) -> Annotated[Real, q("Q", "J", "heat of a month", low=0)]:
    """Heat of a month for rooms, ring and showers."""
    return ring + tap


@formula("Q_r = min(Σ Q_e, Q_h)", HEAT_BALANCE)
def recovered_heat(
    ring: Annotated[Real, RING_HEAT],
    *engines: Annotated[Real, q("Q_e", "J", "taken from one engine", low=0, high=1e12)],
) -> Annotated[Real, RECOVERED]:
    """Heat taken from engines, which is not more than the ring calls for."""
    return np.minimum(sum(engines), ring)


@formula("s = 1 − Q_r/max(Q_h, 1 J)", HEAT_BALANCE)
def share_left(
    recovered: Annotated[Real, RECOVERED], ring: Annotated[Real, RING_HEAT]
) -> Annotated[Real, LEFT]:
    """Share of the ring's heat that engines leave to the burner."""
    return np.maximum(1 - recovered / np.maximum(ring, 1.0), 0.0)


@formula("Q_b = max(Q − Q_r, 0)", HEAT_BALANCE)
def heat_left(
    heat: Annotated[Real, q("Q", "J", "heat of a month", low=0, high=1e13)],
    recovered: Annotated[Real, RECOVERED],
) -> Annotated[Real, q("Q_b", "J", "heat the burner gives", low=0)]:
    """Heat that engines leave to the burner."""
    return np.maximum(heat - recovered, 0.0)


@formula("t = t_0 · s + Q_t/Φ_max", BURNER_CYCLES)
def running_time(
    plain: Annotated[Real, PLAIN_TIME],
    left: Annotated[Real, LEFT],
    tap: Annotated[Real, TAP_HEAT],
    full: Annotated[Real, q("Φ_max", "W", "full output", low=1, high=1e7)],
) -> Annotated[Real, q("t", "s", "burner in a month", low=0)]:
    """Time the burner burns in a month: for the rooms at the output it stops with, for showers at full."""
    return plain * left + tap / full


@formula("n = n_0 · s + n_s · (1 − min(t_h/max(t_a, 1 s), 1))", BURNER_CYCLES)
def starts_of_month(
    plain: Annotated[Real, PLAIN_STARTS],
    left: Annotated[Real, LEFT],
    showers: Annotated[Real, SHOWERS],
    heated: Annotated[Real, HEATED],
    aboard: Annotated[Real, TIME_ABOARD],
) -> Annotated[Real, q("n", "1", "starts in a month", low=0)]:
    """Starts in a month: those of the cycle, and one for each shower while the ring is cold."""
    return plain * left + showers * (1 - np.minimum(heated / np.maximum(aboard, 1.0), 1.0))


@formula("Q = Σ Q_i", HEAT_BALANCE)
def total_energy(*each: Annotated[Real, ENERGY]) -> Annotated[Real, q("Q", "J", "heat of the year", low=0)]:
    """Heat of all months."""
    return sum(each)


@formula("V = Σ V_i", ARITHMETIC)
def total_fuel(
    *each: Annotated[Real, q("V_i", "m3", "fuel of one month", low=0, high=1e4)],
) -> Annotated[Real, q("V", "m3", "fuel of the year", low=0)]:
    """Fuel of all months."""
    return sum(each)


@formula("t = Σ t_i", ARITHMETIC)
def total_time(
    *each: Annotated[Real, q("t_i", "s", "burner in one month", low=0, high=1e10)],
) -> Annotated[Real, q("t", "s", "burner in the year", low=0)]:
    """Running time of all months."""
    return sum(each)


@formula("n = Σ n_i", ARITHMETIC)
def total_starts(
    *each: Annotated[Real, q("n_i", "1", "starts in one month", low=0, high=1e7)],
) -> Annotated[Real, q("n", "1", "starts in the year", low=0)]:
    """Starts of all months."""
    return sum(each)


@dataclass(frozen=True)
class EngineHeat:
    """An engine that heats the ring while it runs: the most it gives in any mode (W)."""

    tag: str
    kind: str
    rate: Annotated[Real, RATE]

    def recovered(self, month: YearMonth, course: MonthCourse, ring_heat: Real) -> Real:
        """Heat it spares the burner in a month; none where its hours are not stated."""
        hours = month.generator if self.kind == "generator" else month.engine
        if hours is None:
            return 0.0
        number = course.recovered_again(float(self.rate), float(hours), float(month.aboard), float(ring_heat))
        return solved(
            number,
            q("Q_e", "J", "taken from one engine"),
            "Σ t·min(Φ_r, Φ) over the samples of the month, times the engine's share of the time aboard",
            HEAT_BALANCE,
            [
                (RATE, self.rate),
                (q("t_e", "s", "engine running"), hours),
                (TIME_ABOARD, month.aboard),
                (RING_HEAT, ring_heat),
            ],
            function=course.recovered_again,
        )


def engines_of(project: "Project", recovery: "Recovery") -> tuple[EngineHeat, ...]:
    """Engines with the most heat that any solved mode takes from them."""
    components: Mapping[str, Any] = project.components or {}
    rates: dict[str, list[Real]] = {}
    for mode in recovery.modes.values():
        for unit in mode.units:
            if float(unit.heat) > 0 and unit.serves in components:
                rates.setdefault(unit.serves, []).append(unit.heat)
    return tuple(
        EngineHeat(
            tag,
            components[tag].kind,
            chosen(max(map(float, each)), RATE, "the most of all modes", HEAT_BALANCE, *each),
        )
        for tag, each in rates.items()
    )
