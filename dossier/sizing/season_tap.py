"""What do the showers of a year take? Counted by the day aboard, each as the file describes it."""

from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import assumed
from dossier.data.sources import HEAT_BALANCE
from dossier.notation import ARITHMETIC, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.tap_exchanger import heat_over_time
from dossier.physics.tap_water import tap_heat
from dossier.sizing.tap_exchanger import heat_of_water

if TYPE_CHECKING:
    from dossier.project import Project

DAY = 86400.0
COLD = q("θ_c", "K", "cold water", low=272, high=310)


@formula("n_s = n_d · t_a/86400 s", ARITHMETIC)
def showers_in(
    a_day: Annotated[Real, q("n_d", "1", "showers in a day aboard", low=0, high=100)],
    aboard: Annotated[Real, q("t_a", "s", "time aboard", low=0, high=2678400)],
) -> Annotated[Real, q("n_s", "1", "showers", low=0)]:
    """Showers in a time aboard."""
    return a_day * aboard / DAY


@formula("θ_c = (θ_1 + θ_2)/2", HEAT_BALANCE)
def mean_cold(
    winter: Annotated[Real, q("θ_1", "K", "cold water in winter", low=272, high=310)],
    summer: Annotated[Real, q("θ_2", "K", "cold water in summer", low=272, high=310)],
) -> Annotated[Real, COLD]:
    """Cold water, mean of the year."""
    return (winter + summer) / 2


@dataclass(frozen=True)
class Showers:
    """Showers of the year: how many in a day aboard, and the heat of one."""

    a_day: Annotated[Real, q("n_d", "1", "showers in a day aboard")]
    cold: Annotated[Real, COLD]
    heat: Annotated[Real, q("Q_1", "J", "heat of one shower")]

    def count(self, aboard: Real) -> Real:
        """Showers in a time aboard (s)."""
        return showers_in(self.a_day, aboard)


def showers_of(project: "Project") -> Showers | None:
    """Showers that the ring warms; None where none is described, or nothing aboard warms tap water."""
    tap: Any = project.tap_water or None
    kinds = {component.kind for component in (project.components or {}).values()}
    if tap is None or not kinds & {"tap_exchanger", "water_heater"}:
        return None
    cold = tap.cold
    winter, summer = (cold.winter, cold.summer) if cold else (None, None)
    if winter is None or tap.at_tap is None or tap.shower_flow is None or tap.shower is None:
        return None
    mean = winter if summer is None else mean_cold(winter, summer)
    power = tap_heat(tap.shower_flow, heat_of_water(mean, tap.at_tap), tap.at_tap, mean)
    return Showers(assumed("tap_water.showers_a_day"), mean, heat_over_time(power, tap.shower))
