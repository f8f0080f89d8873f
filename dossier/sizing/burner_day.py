"""What does the burner do in a day at a steady load? Its share of the time, and its starts."""

from typing import TYPE_CHECKING, Annotated

import numpy as np

from dossier.data.sources import BURNER_CYCLES
from dossier.notation import ARITHMETIC, NotAssessed, Real, formula, q, solved

if TYPE_CHECKING:
    from dossier.sizing.store import StoreStudy

GIVEN = q("Φ_b", "W", "heat the burner gives, mean of the day", low=0, high=1e6)
AN_HOUR = q("n_h", "1/h", "starts per hour", low=0, high=200)


@formula("s = min(Φ_b/Φ_on, 1)", BURNER_CYCLES)
def share_burning(
    given: Annotated[Real, GIVEN],
    output: Annotated[Real, q("Φ_on", "W", "output when it stops", low=1, high=1e6)],
) -> Annotated[Real, q("s", "1", "share of the time the burner burns", low=0, high=1)]:
    """Share of the time the burner burns at the output it stops with; all of it where that is too little."""
    return np.minimum(given / output, 1.0)


@formula("n = n_h · 24", ARITHMETIC)
def starts_a_day(
    an_hour: Annotated[Real, AN_HOUR],
) -> Annotated[Real, q("n", "1", "starts in a day", low=0)]:
    """Starts in a day at a steady load."""
    return an_hour * 24


def burner_day(store: "StoreStudy | NotAssessed", given: Real | None) -> tuple[Real | None, Real | None]:
    """Share of the day the burner burns, and its starts, at a mean heat (W); None where it is not known."""
    if isinstance(store, NotAssessed) or given is None or float(given) < 0:
        return None, None
    output = store.control.output
    an_hour = solved(
        float(store.starts_at(float(given))),
        AN_HOUR,
        "3600/(t_on + t_off) at the mean heat; none where the burner runs on",
        BURNER_CYCLES,
        [
            (GIVEN, given),
            (q("C", "J/K", "fluid and metal of the moving volume"), store.heat_capacity),
            (q("Φ_on", "W", "output when it stops"), output),
        ],
    )
    return share_burning(given, output), starts_a_day(an_hour)
