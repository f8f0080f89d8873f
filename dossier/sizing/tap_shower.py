"""How does a shower go in one mode of use? What exchanger, source and ring give for it.

The shower begins at the least favourable moment of the burner's cycle: the ring at the bottom of its band,
the burner still to start. Where a burner burns all the time in a mode, it begins with the ring as it is.
"""

from typing import Annotated

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import Real, q, solved
from dossier.notation.records import dataclass
from dossier.physics.tap_exchanger import (
    fall,
    heat_after_start,
    heat_of_ring,
    heat_over_time,
    heat_together,
    primary_needed,
    ring_needed,
    tap_rate,
)
from dossier.physics.tap_water import tap_flow, tap_heat
from dossier.sizing.extremes import greatest_of, least_of
from dossier.sizing.tap_draw import Draw, Shower, shower
from dossier.sizing.tap_exchanger import TapExchanger, heat_of_water
from dossier.sizing.tap_modes import TapMode

ENDLESS = 7200.0
"""Seconds for which a shower is followed where no tank ends it."""
BEYOND = 1.0
"""Seconds beyond the end of the tank, so that it is the tank that ends a shower which nothing else does."""
TIME = q("t", "s", "until the temperature cannot be held")
HEAT = q("Q", "J", "heat")
FLOW = q("q_V", "m3/s", "flow at the wanted temperature")


@dataclass(frozen=True)
class Wish:
    """What the crew wants of a shower in one season; ``length`` and ``tank_time`` may be None."""

    cold: Annotated[Real, q("θ_c", "K", "cold water")]
    wanted: Annotated[Real, q("θ_t", "K", "wanted at the tap")]
    flow: Annotated[Real, q("q_V", "m3/s", "shower flow wanted")]
    length: Annotated[Real | None, q("t", "s", "length of a shower")]
    tank_time: Annotated[Real | None, q("t", "s", "until the tank is empty")]


@dataclass(frozen=True)
class Showering:
    """A shower in one mode of use.

    ``flow`` is what the exchanger holds with the primary of the mode, ``lasting`` what the heat left for the
    tap carries for good. ``held`` is when the temperature first falls short, ``needed`` and ``available`` are
    heat over the length of a shower; None where that or the store of heat is not known.
    """

    mode: TapMode
    flow: Annotated[Real, FLOW]
    lasting: Annotated[Real, q("q_V", "m3/s", "flow that the source carries for good")]
    power: Annotated[Real, q("Φ", "W", "heat of the shower flow wanted")]
    left: Annotated[Real, q("Φ", "W", "heat left for the tap")]
    least: Annotated[Real, q("θ_1", "K", "primary that just holds the shower")]
    held: Annotated[Real | None, TIME]
    needed: Annotated[Real | None, q("Q", "J", "heat of one shower")]
    from_source: Annotated[Real | None, q("Q", "J", "of the source, over the shower")]
    from_store: Annotated[Real | None, q("Q", "J", "of ring and stores, over the shower")]
    available: Annotated[Real | None, q("Q", "J", "source and store over the shower")]
    course: Shower | None


def showering(
    exchanger: TapExchanger, mode: TapMode, wish: Wish, capacity: Real | None, *, heats_rooms: bool
) -> Showering:
    """A shower through an exchanger; ``capacity`` (J/K) is that of ring and stores, None where not known."""
    volumetric = heat_of_water(wish.cold, wish.wanted)
    power = tap_heat(wish.flow, volumetric, wish.wanted, wish.cold)
    tap = tap_rate(wish.flow, volumetric)
    passed = exchanger.passed(mode.rate, tap)
    left = mode.left(heats_rooms=heats_rooms)
    least = primary_needed(wish.cold, power, passed)
    flow = exchanger.held_flow(mode.rate, mode.primary, wish.cold, wish.wanted)
    carried = tap_flow(left, volumetric, fall(wish.wanted, wish.cold))
    lasting = least_of(FLOW, "exchanger or source, the lesser", flow, carried)
    begin, lights = _start(mode, heats_rooms=heats_rooms)
    course = held = None
    if capacity is not None:
        course = _drawn(mode, wish, capacity, passed, tap, heats_rooms=heats_rooms)
        given = [
            (q("C", "J/K", "ring and stores"), capacity),
            (q("Φ", "W", "heat left for the tap"), left),
            (q("Φ", "W", "heat of the shower"), power),
            (q("θ_1", "K", "primary that just holds it"), least),
            (q("θ_0", "K", "ring at the start"), begin),
            (q("t_a", "s", "until the burner burns"), lights),
        ]
        held = solved(course.held, TIME, "followed from event to event", HEAT_BALANCE, given)
        if wish.tank_time is not None:
            held = least_of(TIME, "until it falls short or the tank is empty", held, wish.tank_time)
    needed = source = store = available = None
    if wish.length is not None:
        needed = heat_over_time(power, wish.length)
        source = heat_after_start(left, wish.length, lights)
        if capacity is not None:
            store = heat_of_ring(capacity, begin, _lowest(mode, least, heats_rooms=heats_rooms))
            available = heat_together(source, store)
    return Showering(mode, flow, lasting, power, left, least, held, needed, source, store, available, course)


def _start(mode: TapMode, *, heats_rooms: bool) -> tuple[Real, Real]:
    """Ring when the shower begins (K), and time until the flame burns (s)."""
    if not mode.rests or (mode.lit and heats_rooms):
        return mode.back, 0.0
    return mode.bottom, mode.start_time


def _lowest(mode: TapMode, least: Real, *, heats_rooms: bool) -> Real:
    """Ring below which the tap falls short though the burner burns, or the fans stop."""
    end = ring_needed(least, mode.rise)
    if heats_rooms and mode.fan_stop is not None and float(mode.fans) > 0:
        floor = q("θ", "K", "lowest ring for tap and fans")
        return greatest_of(floor, "the higher of both", end, mode.fan_stop)
    return end


def _drawn(  # noqa: PLR0913 - the ring with all that draws on it
    mode: TapMode, wish: Wish, capacity: Real, passed: Real, tap: Real, *, heats_rooms: bool
) -> Shower:
    begin, lights = _start(mode, heats_rooms=heats_rooms)
    fans = float(mode.fans) if heats_rooms else 0.0
    standing = float(mode.taken) - fans if heats_rooms else float(mode.pipes)
    draw = Draw(
        capacity=float(capacity),
        start=float(begin),
        lights=float(lights),
        flame=float(mode.flame),
        rise=float(mode.rise),
        steady=float(mode.recovered),
        standing=standing,
        fans=fans,
        fan_stop=float(mode.fan_stop) if mode.fan_stop is not None else 0.0,
        top=float(mode.top),
        passed=float(passed),
        tap=float(tap),
        cold=float(wish.cold),
        wanted=float(wish.wanted),
    )
    horizon = ENDLESS if wish.tank_time is None else float(wish.tank_time) + BEYOND
    return shower(draw, horizon if wish.length is None else float(wish.length), horizon)
