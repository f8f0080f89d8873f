"""What does a heater with a store of tap water give? Its temperature, its shower, how long it takes to heat.

All of the store is at one temperature until cold water has pushed it out. The coil heats at the mean of cold
water and store, and never takes more than the source has left.
"""

from typing import Annotated, Any

from dossier.data.assumptions import assumed
from dossier.data.sources import HEAT_BALANCE
from dossier.notation import NotAssessed, Real, chosen, q
from dossier.notation.records import dataclass
from dossier.physics.tap_exchanger import (
    capacity_of_water,
    fall,
    flow_of_heat,
    heat_of_fall,
    heat_over_time,
    heat_passed,
    heat_short,
    heat_together,
    mean_temperature,
    reheating_time,
    tap_rate,
)
from dossier.physics.tap_water import store_time, tap_flow, tap_heat
from dossier.sizing.extremes import least_of
from dossier.sizing.store_parts import standing_loss, store_conductance_of
from dossier.sizing.tap_exchanger import TapExchanger, heat_of_water
from dossier.sizing.tap_modes import TapMode
from dossier.sizing.tap_shower import ENDLESS, FLOW, TIME, Showering, Wish

COIL = q("Φ", "W", "heat of the coil")
LEAST_REST = 0.1
"""Kelvin by which the store must stay under the primary for a heating time to mean anything."""


@dataclass(frozen=True)
class Store:
    """Tap water kept hot.

    ``kept_at`` is its setpoint, or the primary where that is colder or nothing is stated. ``reheating`` is
    None where the store has no place for a rise or nothing is left to heat it.
    """

    tag: str
    volume: Annotated[Real, q("V", "m3", "tap water stored")]
    kept_at: Annotated[Real, q("θ_s", "K", "of stored tap water", name="tap_water.store_temperature")]
    loss: Annotated[Real, q("Φ", "W", "standing loss")]
    reheating: Annotated[Real | None, q("t", "s", "from cold to hot")]


def store_of(unit: Any, coil: TapExchanger | NotAssessed, mode: TapMode, cold: Real | None) -> Store:
    """The store of a heater in a mode; its volume must be stated."""
    label = q("θ_s", "K", "temperature of the store")
    if unit.setpoint is None:
        kept = chosen(float(mode.primary), label, "as warm as the primary", HEAT_BALANCE, mode.primary)
    else:
        kept = least_of(label, "setpoint or primary, the lesser", unit.setpoint, mode.primary)
    air = assumed("circuit.surroundings", f"components.{unit.tag}.where")
    loss = standing_loss(store_conductance_of(unit, unit.volume), kept, air)
    reheating = None
    if cold is not None and not isinstance(coil, NotAssessed):
        reheating = _reheating(unit.volume, kept, coil, mode, cold)
    return Store(unit.tag, unit.volume, kept, loss, reheating)


def _reheating(volume: Real, kept: Real, coil: TapExchanger, mode: TapMode, cold: Real) -> Real | None:
    """From cold to hot; up to a tenth of a kelvin under the primary where the store follows it."""
    left = mode.left(heats_rooms=False)
    if float(left) <= 0 or float(kept) <= float(cold):
        return None
    content = capacity_of_water(volume, heat_of_water(cold, kept))
    rest = fall(mode.primary, kept)
    if float(rest) < LEAST_REST:
        rest = chosen(
            LEAST_REST, q("Δθ_r", "K", "primary over the hot store"), "at least", HEAT_BALANCE, rest
        )
    return reheating_time(content, coil.passed(mode.rate, mode.rate), left, mode.primary, cold, rest)


def showering_from_store(
    coil: TapExchanger, mode: TapMode, wish: Wish, store: Store, *, heats_rooms: bool
) -> Showering:
    """A shower out of stored tap water."""
    volumetric = heat_of_water(wish.cold, wish.wanted)
    power = tap_heat(wish.flow, volumetric, wish.wanted, wish.cold)
    left = mode.left(heats_rooms=heats_rooms)
    passed = coil.passed(mode.rate, tap_rate(wish.flow, volumetric))
    able = heat_passed(passed, fall(mode.primary, mean_temperature(wish.cold, store.kept_at)))
    by_coil = least_of(COIL, "coil or source, the lesser", able, left)
    rise = fall(wish.wanted, wish.cold)
    content = capacity_of_water(store.volume, heat_of_water(wish.cold, store.kept_at))
    over_cold = fall(store.kept_at, wish.cold)
    kept = heat_of_fall(content, over_cold)
    endless: Real = ENDLESS if wish.tank_time is None else wish.tank_time
    held: Real
    warm = float(store.kept_at) >= float(wish.wanted)
    if not warm:
        held = chosen(0.0, TIME, "the store is not warm enough", HEAT_BALANCE, store.kept_at)
    elif float(by_coil) >= float(power):
        held = chosen(
            float(endless), TIME, "the coil carries it until the tank is empty", HEAT_BALANCE, endless
        )
    else:
        lasts = store_time(content, over_cold, heat_short(power, by_coil))
        held = least_of(TIME, "until the store is cold or the tank empty", lasts, endless)
    none = chosen(0.0, FLOW, "the store is not warm enough", HEAT_BALANCE, store.kept_at)
    lasting = tap_flow(by_coil, volumetric, rise) if warm else none
    flow, needed, source, available = lasting, None, None, None
    if wish.length is not None:
        needed = heat_over_time(power, wish.length)
        source = heat_over_time(by_coil, wish.length)
        available = heat_together(source, kept)
        flow = flow_of_heat(available, wish.length, volumetric, rise) if warm else none
    return Showering(
        mode, flow, lasting, power, left, wish.wanted, held, needed, source, kept, available, None
    )
