"""Mixing the coolant: concentrate for a filling, correcting a share, topping up.

Shares are fractions by volume. Volumes are added as they are poured: the mix shrinks by about half a per
cent, which is left out. ``concentrate`` is the share of what is poured in: 1 for undiluted glycol, less for
a concentrate that holds water already.
"""

from typing import Annotated

import numpy as np

from dossier.data.sources import MIXING_BALANCE
from dossier.notation import Real, formula, q

SYSTEM = q("V_sys", "m3", "coolant in the whole system", low=0, high=5)
WANTED = q("x_t", "1", "share wanted", low=0, high=0.6)
NOW = q("x_now", "1", "share now", low=0, high=0.6)
CONCENTRATE = q("x_c", "1", "share of the concentrate", low=0.65, high=1)


@formula("V_c = V · x_t/x_c", MIXING_BALANCE)
def concentrate_volume(
    volume: Annotated[Real, q("V", "m3", "coolant to mix", low=0, high=5)],
    wanted: Annotated[Real, WANTED],
    concentrate: Annotated[Real, CONCENTRATE],
) -> Annotated[Real, q("V_c", "m3", "concentrate", low=0, high=5)]:
    """Concentrate in a filling, or in a top-up of the share wanted."""
    return volume * wanted / concentrate


@formula("V_w = V · (1 − x_t/x_c)", MIXING_BALANCE)
def water_volume(
    volume: Annotated[Real, q("V", "m3", "coolant to mix", low=0, high=5)],
    wanted: Annotated[Real, WANTED],
    concentrate: Annotated[Real, CONCENTRATE],
) -> Annotated[Real, q("V_w", "m3", "water", low=0, high=5)]:
    """Water in a filling, or in a top-up of the share wanted."""
    return volume * (1 - wanted / concentrate)


@formula("V_d = V_sys · max(x_t − x_now, 0)/(x_c − x_now)", MIXING_BALANCE)
def drain_and_refill(
    system: Annotated[Real, SYSTEM],
    now: Annotated[Real, NOW],
    wanted: Annotated[Real, WANTED],
    concentrate: Annotated[Real, CONCENTRATE],
) -> Annotated[Real, q("V_d", "m3", "to drain and replace by concentrate", low=0, high=5)]:
    """Coolant to drain and replace by concentrate, to raise the share; 0 if it is high enough."""
    return system * np.maximum(wanted - now, 0) / (concentrate - now)


@formula("V_d = V_sys · max(x_now − x_t, 0)/x_now", MIXING_BALANCE)
def drain_and_refill_with_water(
    system: Annotated[Real, SYSTEM],
    now: Annotated[Real, q("x_now", "1", "share now", low=0.001, high=0.6)],
    wanted: Annotated[Real, WANTED],
) -> Annotated[Real, q("V_d", "m3", "to drain and replace by water", low=0, high=5)]:
    """Coolant to drain and replace by water, to lower the share; 0 if low enough."""
    return system * np.maximum(now - wanted, 0) / now


@formula("x = x_in + (x_now − x_in) · max(1 − V_t/V_sys, 0)", MIXING_BALANCE)
def share_after_top_up(
    system: Annotated[Real, q("V_sys", "m3", "coolant in the whole system", low=0.001, high=5)],
    now: Annotated[Real, NOW],
    top_up: Annotated[Real, q("V_t", "m3", "coolant lost and replaced", low=0, high=5)],
    poured: Annotated[Real, q("x_in", "1", "share of what was poured in", low=0, high=1)],
) -> Annotated[Real, q("x", "1", "share after topping up", low=0, high=1)]:
    """Share once lost coolant is replaced: plain water (0) thins the mix each time."""
    return poured + (now - poured) * np.maximum(1 - top_up / system, 0)
