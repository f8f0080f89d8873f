"""Loss factors of 90° tees, on the velocity of the leg that carries the whole flow.

A branch that joins a much faster run is drawn in by it: its loss factor is then negative, and no solver may
take a root of it. ``share`` is the branch's share of the whole flow.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import CRANE_TEES
from dossier.notation import Real, formula, q

SHARE = q("s", "1", "share of the flow in the branch", low=0, high=1)
RATIO = q("β", "1", "bore of the branch over that of the run", low=0.2, high=1)
SMALL_AREA = 0.35
"""Ratio of areas up to which a joining branch is taken as a jet."""

SMALL_AREA_RUN = 0.4
"""Ratio of areas up to which a leaving branch leaves the run alone."""

SMALL_SHARE = 0.4
"""Share up to which a joining branch hardly disturbs the run."""

HALF = 0.5

LOSS_BRANCH = q("K_b", "1", "loss factor of the branch, on the whole flow")
LOSS_RUN = q("K_r", "1", "loss factor of the run, on the whole flow")


@formula(
    "K_b = C · (1 + (s/β²)² − 2 · (1 − s)²), C = 1 if β² ≤ 0.35, else 0.9 · (1 − s) if s ≤ 0.4, else 0.55",
    CRANE_TEES,
)
def converging_branch(
    share: Annotated[Real, SHARE], bore_ratio: Annotated[Real, RATIO]
) -> Annotated[Real, LOSS_BRANCH]:
    """Branch that joins the run; negative at small shares."""
    area = bore_ratio**2
    factor = np.where(area <= SMALL_AREA, 1.0, np.where(share <= SMALL_SHARE, 0.9 * (1 - share), 0.55))[()]
    return factor * (1 + (share / area) ** 2 - 2 * (1 - share) ** 2)


@formula("K_r = 1.55 · s − s²", CRANE_TEES)
def converging_run(share: Annotated[Real, SHARE]) -> Annotated[Real, LOSS_RUN]:
    """Run that a branch joins."""
    return 1.55 * share - share**2


@formula(
    "K_b = G · (1 + H · (s/β²)²), G = 1 if β² ≤ 2/3, else 1 + 0.3 · s²; H = 1 if β ≤ 2/3, else 0.3",
    CRANE_TEES,
)
def diverging_branch(
    share: Annotated[Real, SHARE], bore_ratio: Annotated[Real, RATIO]
) -> Annotated[Real, LOSS_BRANCH]:
    """Branch that leaves the run."""
    area = bore_ratio**2
    factor = np.where(area <= 2 / 3, 1.0, 1 + 0.3 * share**2)[()]
    weight = np.where(bore_ratio <= 2 / 3, 1.0, 0.3)[()]
    return factor * (1 + weight * (share / area) ** 2)


@formula("K_r = M · s², M = 0.4 if β² ≤ 0.4, else 2 · (2s − 1) if s ≤ 0.5, else 0.3 · (2s − 1)", CRANE_TEES)
def diverging_run(
    share: Annotated[Real, SHARE], bore_ratio: Annotated[Real, RATIO]
) -> Annotated[Real, LOSS_RUN]:
    """Run that a branch leaves; negative at small shares from an equal tee."""
    over = 2 * share - 1
    factor = np.where(bore_ratio**2 <= SMALL_AREA_RUN, 0.4, np.where(share <= HALF, 2 * over, 0.3 * over))[()]
    return factor * share**2
