"""Valves: flow factor Kv, what it takes from the flow, and how it changes with the valve's position.

``Kv`` is the flow of water (1000 kg/m³) in m³/h at a drop of 1 bar: the one unit here that is not SI. A
position runs from 0 (shut) to 1 (open).
"""

from enum import Enum
from typing import Annotated

import numpy as np

from dossier.data.sources import FLOW_FACTOR, HEAT_BALANCE, MAKERS_TABLE, VALVE_CHARACTERISTIC
from dossier.notation import ARITHMETIC, OutOfRange, Quantity, Real, formula, lines_behind, q
from dossier.physics.pipe import BORE, DENSITY, DROP, FLOW

KV = q("K_v", "m3/h", "flow factor at 1 bar", low=1e-4, high=1e4)
KV_OPEN = q("K_vs", "m3/h", "flow factor fully open", low=0, high=1e4)
POSITION = q("h", "1", "position, 0 shut to 1 open", low=0, high=1)
TEMPERATURE = q("θ", "K", "temperature at the valve", low=230, high=430)

_APART = 1e-9
"""Temperatures nearer than this count as one (K)."""

_SECONDS = 3600.0
_BAR = 1e5
_WATER = 1000.0

SQUARE = _BAR * _SECONDS**2 / _WATER
"""Δp = SQUARE · ρ · (q_V/Kv)² in SI, Kv in m³/h."""


class Characteristic(str, Enum):
    """How the flow factor follows the position."""

    LINEAR = "linear"
    EQUAL_PERCENTAGE = "equal percentage"


@formula("Δp = 1 bar · (q_V/K_v)² · ρ/1000 kg/m³, signed as q_V", FLOW_FACTOR)
def valve_drop(
    flow: Annotated[Real, FLOW],
    kv: Annotated[Real, KV],
    density: Annotated[Real, DENSITY],
) -> Annotated[Real, DROP]:
    """Pressure drop of a valve by its flow factor; negative when the flow is."""
    return SQUARE * density * flow * np.abs(flow) / kv**2


@formula("K_v = |q_V| · √(1 bar/Δp · ρ/1000 kg/m³)", FLOW_FACTOR)
def kv_needed(
    flow: Annotated[Real, FLOW],
    drop: Annotated[Real, q("Δp", "Pa", "pressure drop to take up", low=1e-3, high=1e7)],
    density: Annotated[Real, DENSITY],
) -> Annotated[Real, q("K_v", "m3/h", "flow factor at 1 bar", low=0)]:
    """Flow factor that takes a given drop at a given flow: what a balancing valve is set to."""
    return np.abs(flow) * np.sqrt(SQUARE * density / drop)


@formula("K = 2 · (π/4 · d²)² · 1 bar/(1000 kg/m³)/K_v²", FLOW_FACTOR)
def loss_factor_of_kv(
    kv: Annotated[Real, KV], bore: Annotated[Real, BORE]
) -> Annotated[Real, q("K", "1", "loss factor", low=0)]:
    """Loss factor, on the velocity in a given bore, of a valve known by its flow factor."""
    return 2 * SQUARE * (np.pi / 4 * bore**2) ** 2 / kv**2


@formula("K_v = π/4 · d² · √(2 · 1 bar/(1000 kg/m³)/K)", FLOW_FACTOR)
def kv_of_loss_factor(
    loss: Annotated[Real, q("K", "1", "loss factor", low=1e-6, high=1e9)], bore: Annotated[Real, BORE]
) -> Annotated[Real, q("K_v", "m3/h", "flow factor at 1 bar", low=0)]:
    """Flow factor of a fitting known by its loss factor."""
    return np.pi / 4 * bore**2 * np.sqrt(2 * SQUARE / loss)


@formula("a = Δp_v/Δp_b", ARITHMETIC)
def authority(
    valve: Annotated[Real, q("Δp_v", "Pa", "pressure drop of the valve", low=0, high=1e7)],
    branch: Annotated[
        Real, q("Δp_b", "Pa", "pressure drop of its branch, the valve counted", low=1e-6, high=1e7)
    ],
) -> Annotated[Real, q("a", "1", "authority", low=0)]:
    """Share of a valve in the drop of its branch."""
    return valve / branch


@formula("K_v = K_vs · h", VALVE_CHARACTERISTIC)
def kv_linear(
    kv_open: Annotated[Real, KV_OPEN], position: Annotated[Real, POSITION]
) -> Annotated[Real, q("K_v", "m3/h", "flow factor at 1 bar", low=0)]:
    """Flow factor of a valve with linear characteristic."""
    return kv_open * position


@formula("K_v = K_vs · R^(h − 1); straight to 0 below h = 0.05", VALVE_CHARACTERISTIC)
def kv_equal_percentage(
    kv_open: Annotated[Real, KV_OPEN],
    position: Annotated[Real, POSITION],
    rangeability: Annotated[Real, q("R", "1", "rangeability", low=2, high=200)],
) -> Annotated[Real, q("K_v", "m3/h", "flow factor at 1 bar", low=0)]:
    """Flow factor of a valve with equal-percentage characteristic, which closes tight."""
    closing = np.minimum(position / 0.05, 1)
    return kv_open * closing * rangeability ** (np.maximum(position, 0.05) - 1)


@formula("h = (θ − θ_o)/(θ_f − θ_o), between 0 and 1", VALVE_CHARACTERISTIC)
def thermostatic_position(
    temperature: Annotated[Real, TEMPERATURE],
    opens: Annotated[Real, q("θ_o", "K", "starts to open", low=230, high=430)],
    full: Annotated[Real, q("θ_f", "K", "fully open", low=230, high=430)],
) -> Annotated[Real, q("h", "1", "position, 0 shut to 1 open", low=0, high=1)]:
    """Position of a thermostatic valve that opens (or, with θ_f below θ_o, closes) as it warms."""
    span = full - opens
    step = np.abs(span) <= _APART
    return np.clip((temperature - opens) / np.where(step, _APART, span)[()], 0, 1)


@formula("s = (θ_m − θ_k)/(θ_h − θ_k), between 0 and 1", HEAT_BALANCE)
def hot_share(
    mixed: Annotated[Real, q("θ_m", "K", "temperature wanted of the mix", low=230, high=430)],
    hot: Annotated[Real, q("θ_h", "K", "temperature at the hot port", low=230, high=430)],
    cold: Annotated[Real, q("θ_k", "K", "temperature at the cold port", low=230, high=430)],
) -> Annotated[Real, q("s", "1", "share of the hot port in the flow", low=0, high=1)]:
    """Share a mixing valve takes from its hot port; all of it where even that is not warm enough."""
    apart = hot - cold
    able = np.abs(apart) > _APART
    share = np.clip((mixed - cold) / np.where(able, apart, 1.0), 0, 1)
    return np.where(able, share, 1.0)[()]


def kv_at(
    kv_open: Real,
    position: Real,
    characteristic: Characteristic = Characteristic.LINEAR,
    rangeability: float = 50.0,
) -> Real:
    """Flow factor (m³/h) of a valve at a position, by its characteristic."""
    if characteristic is Characteristic.LINEAR:
        return kv_linear(kv_open, position)
    return kv_equal_percentage(kv_open, position, rangeability)


def three_way(
    kv_open: Real,
    position: Real,
    characteristic: Characteristic = Characteristic.LINEAR,
    rangeability: float = 50.0,
) -> tuple[Real, Real]:
    """Flow factors (m³/h) of both ways of a mixing or diverting valve: one opens as the other closes.

    The first way is open at position 1, the second at 0.
    """
    return (
        kv_at(kv_open, position, characteristic, rangeability),
        kv_at(kv_open, 1 - position, characteristic, rangeability),
    )


def kv_at_setting(setting: float, table: tuple[tuple[float, float], ...]) -> float:
    """Flow factor at a setting of a balancing valve, straight between the points of the maker's table.

    ``table`` holds (setting, Kv), both rising. Raises ``OutOfRange`` outside it.
    """
    settings, kvs = zip(*table, strict=True)
    _inside(setting, q("n", "1", "setting of the valve", low=settings[0], high=settings[-1]))
    return float(np.interp(setting, settings, kvs))


def setting_for_kv(kv: float, table: tuple[tuple[float, float], ...]) -> float:
    """Setting that gives a flow factor, the other way round; raises ``OutOfRange`` outside the table."""
    settings, kvs = zip(*table, strict=True)
    _inside(kv, q("K_v", "m3/h", "flow factor at 1 bar", low=kvs[0], high=kvs[-1]))
    return float(np.interp(kv, kvs, settings))


def _inside(figure: float, quantity: Quantity) -> None:
    if not quantity.low <= figure <= quantity.high:
        raise OutOfRange(
            "maker's table of settings", quantity.symbol, quantity, figure, MAKERS_TABLE, lines_behind(figure)
        )
