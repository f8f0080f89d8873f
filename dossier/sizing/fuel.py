"""What does the burner take from the tank, and how long does the tank last?"""

from functools import reduce
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np

from dossier.data.assumptions import stated_or_assumed
from dossier.data.fuels import Fuel
from dossier.data.fuels import fuel as fuel_named
from dossier.data.sources import HEAT_BALANCE
from dossier.notation import ARITHMETIC, NotAssessed, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.fuel import EFFICIENCY, fuel_autonomy, fuel_rate, fuel_volume, usable_fuel

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "How long does the fuel last?"
DAY = 86400.0


@formula("Q = Φ · 86400 s", HEAT_BALANCE)
def heat_of_a_day(
    flow: Annotated[Real, q("Φ", "W", "heat the burner gives, mean of the day", low=0, high=1e5)],
) -> Annotated[Real, q("Q", "J", "heat of a day", low=0)]:
    """Heat given in a day."""
    return flow * DAY


@formula("t = n · 86400 s", ARITHMETIC)
def time_of_days(
    count: Annotated[Real, q("n", "1", "number of days", low=0, high=1000)],
) -> Annotated[Real, q("t", "s", "time of these days", low=0)]:
    """Time of a number of days."""
    return count * DAY


@formula("q_V = Σ q_f", ARITHMETIC)
def total_rate(
    *rates: Annotated[Real, q("q_f", "m3/s", "fuel of one burner", low=0, high=1e-4)],
) -> Annotated[Real, q("q_V", "m3/s", "fuel of all burners", low=0)]:
    """Fuel burnt by all burners together."""
    total: Real = 0.0
    for rate in rates:
        total = total + rate
    return total


@formula("η = min(η_i)", ARITHMETIC)
def least_efficiency(*each: Annotated[Real, EFFICIENCY]) -> Annotated[Real, EFFICIENCY]:
    """Least efficiency of several burners."""
    return reduce(np.minimum, each)


@dataclass(frozen=True)
class BurnerFuel:
    """What one burner takes."""

    tag: str
    efficiency: Annotated[Real, EFFICIENCY]
    rate: Annotated[Real, q("q_f", "m3/s", "at full output")]
    rate_low: Annotated[Real | None, q("q_f", "m3/s", "at the lowest output")]


@dataclass(frozen=True)
class FuelStudy:
    """Fuel at full output and on the design day; what depends on a missing input is None."""

    fuel: Fuel
    burners: tuple[BurnerFuel, ...]
    efficiency: Annotated[Real, EFFICIENCY]
    rate: Annotated[Real, q("q_V", "m3/s", "at full output", name="fuel.rate")]
    heat_at_burner: Annotated[Real | None, q("Φ", "W", "heat the burner gives, mean of the design day")]
    per_day: Annotated[Real | None, q("V", "m3", "on the design day", name="fuel.per_day")]
    mean_rate: Annotated[Real | None, q("q_f", "m3/s", "mean of the design day")]
    usable: Annotated[Real | None, q("V_u", "m3", "fuel for the heating, the engine's reserve kept")]
    autonomy: Annotated[Real | None, q("t", "s", "usable fuel at the design load", name="fuel.autonomy")]


def fuel(project: "Project", heat_at_burner: Real | None) -> FuelStudy | NotAssessed:
    """Fuel at full output, on the design day, and how long the tank lasts.

    ``heat_at_burner`` is the mean heat flow (W) the burners must give on the design day: the design load,
    and what the pipes lose outside the cabins; None where it is not known. The fuel is gas oil. Where
    several burners share the day, the least efficiency counts.
    """
    burners: list[Any] = [c for c in (project.components or {}).values() if c.kind == "burner"]
    needs = [f"components.{burner.tag}.output.max" for burner in burners if burner.output is None]
    if not burners or needs:
        return NotAssessed(QUESTION, tuple(needs) or ("components.burner.output",))
    burnt = fuel_named()
    each = tuple(_burner_fuel(burner, burnt) for burner in burners)
    efficiency = each[0].efficiency if len(each) == 1 else least_efficiency(*(b.efficiency for b in each))
    rate = each[0].rate if len(each) == 1 else total_rate(*(b.rate for b in each))
    per_day = mean_rate = autonomy = None
    if heat_at_burner is not None and np.any(np.asarray(heat_at_burner) > 0):
        per_day = fuel_volume(
            heat_of_a_day(heat_at_burner), efficiency, burnt.heat_of_combustion, burnt.density
        )
        mean_rate = fuel_rate(heat_at_burner, efficiency, burnt.heat_of_combustion, burnt.density)
    usable = usable_in_tank(project)
    if usable is not None and mean_rate is not None:
        autonomy = fuel_autonomy(usable, mean_rate)
    return FuelStudy(burnt, each, efficiency, rate, heat_at_burner, per_day, mean_rate, usable, autonomy)


def usable_in_tank(project: "Project") -> Real | None:
    """Fuel for the heating (m³): the usable share of the tank less the engine's reserve, where stated."""
    written = project.fuel
    if written is None or written.tank is None:
        return None
    share = stated_or_assumed(written.usable, "fuel.usable")
    if written.reserve_for_engine is None:
        return usable_fuel(written.tank, share)
    return usable_fuel(written.tank, share, written.reserve_for_engine)


def _burner_fuel(burner: Any, burnt: Fuel) -> BurnerFuel:
    place = f"components.{burner.tag}"
    efficiency = stated_or_assumed(burner.efficiency, "components.burner.efficiency", f"{place}.efficiency")
    figures = (efficiency, burnt.heat_of_combustion, burnt.density)
    low = None if burner.output.min is None else fuel_rate(burner.output.min, *figures)
    return BurnerFuel(burner.tag, efficiency, fuel_rate(burner.output.max, *figures), low)
