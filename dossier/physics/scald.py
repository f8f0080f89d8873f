"""How long water of a temperature may run over skin before it burns.

Times of adult skin, scattered by half either way; children and old people burn several times faster. The
logarithm of the time is interpolated between the rows of the table; from its last row, 60 °C, on that row's
time is the most there is.
"""

from typing import Annotated

import numpy as np

from dossier.data.scald import scald_table
from dossier.data.sources import SCALD_TIMES
from dossier.notation import Real, formula, q

COOLEST, COOLEST_DEEP = 317.15, 318.15
HOTTEST = 373.15


@formula(
    "lg t straight in θ between the rows of the table, at most its last from 60 °C on; outer skin lost",
    SCALD_TIMES,
)
def scald_time(
    water: Annotated[Real, q("θ", "K", "water on the skin", low=COOLEST, high=HOTTEST)],
) -> Annotated[Real, q("t", "s", "time to a second degree burn", low=0)]:
    """Time until the outer skin is lost. Below 44 °C ask ``scalds`` first: no burn within six hours."""
    temperatures, times = scald_table("second_degree")
    return np.exp(np.interp(water, temperatures, np.log(times)))


@formula(
    "lg t straight in θ between the rows of the table, at most its last from 60 °C on; whole skin lost",
    SCALD_TIMES,
)
def deep_scald_time(
    water: Annotated[Real, q("θ", "K", "water on the skin", low=COOLEST_DEEP, high=HOTTEST)],
) -> Annotated[Real, q("t", "s", "time to a third degree burn", low=0)]:
    """Time until the skin is lost through its whole thickness."""
    temperatures, times = scald_table("third_degree")
    return np.exp(np.interp(water, temperatures, np.log(times)))


def scalds(water: float) -> bool:
    """Whether water of a temperature (K) burns at all within six hours."""
    return water >= COOLEST
