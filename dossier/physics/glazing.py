"""Transmittance of windows: one pane, or two with a gap, by material and thickness.

The pane's centre only: a metal window frame comes on top. One pane takes its outside film from the wind,
which decides half of its loss.
"""

from typing import Annotated

import numpy as np

from dossier.data.glazing import gap_table
from dossier.data.sources import EN_673_GLAZING, ISO_6946_LAYERS
from dossier.notation import Real, formula, q


@formula("R_s = table(s)", EN_673_GLAZING)
def gap_resistance(
    gap: Annotated[Real, q("s", "m", "gap between the panes", low=0.004, high=0.024)],
) -> Annotated[Real, q("R_s", "m2K/W", "thermal resistance of the gap", low=0, high=0.2)]:
    """Resistance of an upright gap of air between uncoated panes, straight between the rows of the table."""
    return np.interp(gap, *gap_table())


@formula("U = 1/(R_si + d/λ + R_se)", ISO_6946_LAYERS)
def single_pane_transmittance(
    thickness: Annotated[Real, q("d", "m", "thickness of the pane", low=0.001, high=0.1)],
    conductivity: Annotated[Real, q("λ", "W/mK", "thermal conductivity of the pane", low=0.05, high=5)],
    inside_film: Annotated[Real, q("R_si", "m2K/W", "inside surface resistance", low=0.01, high=1)],
    outside_film: Annotated[Real, q("R_se", "m2K/W", "outside surface resistance", low=0, high=1)],
) -> Annotated[Real, q("U", "W/m2K", "thermal transmittance of one pane", low=0)]:
    """Transmittance of one pane between two films."""
    return 1 / (inside_film + thickness / conductivity + outside_film)


@formula("U = 1/(R_si + 2·d/λ + R_s + R_se)", EN_673_GLAZING)
def double_pane_transmittance(
    thickness: Annotated[Real, q("d", "m", "thickness of each pane", low=0.001, high=0.1)],
    conductivity: Annotated[Real, q("λ", "W/mK", "thermal conductivity of the panes", low=0.05, high=5)],
    gap: Annotated[Real, q("R_s", "m2K/W", "thermal resistance of the gap", low=0.01, high=1)],
    inside_film: Annotated[Real, q("R_si", "m2K/W", "inside surface resistance", low=0.01, high=1)],
    outside_film: Annotated[Real, q("R_se", "m2K/W", "outside surface resistance", low=0, high=1)],
) -> Annotated[Real, q("U", "W/m2K", "thermal transmittance of two panes", low=0)]:
    """Transmittance of two equal panes with a gap between two films."""
    return 1 / (inside_film + 2 * thickness / conductivity + gap + outside_film)
