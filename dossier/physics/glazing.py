"""Windows: panes are layers like any other, with gaps of still air between them.

The pane's centre only: a metal window frame comes on top. One pane takes its outside film from the wind,
which decides half of its loss.
"""

from typing import Annotated

import numpy as np

from dossier.data.glazing import gap_table
from dossier.data.sources import EN_673_GLAZING
from dossier.notation import Real, formula, q


@formula("R_s = table(s)", EN_673_GLAZING)
def gap_resistance(
    gap: Annotated[Real, q("s", "m", "gap between the panes", low=0.004, high=0.024)],
) -> Annotated[Real, q("R_s", "m2K/W", "thermal resistance of the gap", low=0, high=0.2)]:
    """Resistance of an upright gap of air between uncoated panes, straight between the rows of the table."""
    return np.interp(gap, *gap_table())
