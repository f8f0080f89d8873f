"""Heat given to a room: fan coils, radiators and towel rails, floor loops by the same call.

Every emitter answers ``output(water_in, water_rate, air_in)``: heat (W) at an entering water temperature (K),
the capacity rate of its water (W/K) and the temperature of the air it meets (K), for single numbers or
samples. It is negative where the water enters colder than the air, and 0 where the water stands still.

A fan coil is a crossflow exchanger from its rated point, so its heat grows with the temperature difference; a
radiator follows Φ ∝ Δθ^n (EN 442) with the logarithmic mean, which stays right at small flow, where the
arithmetic mean would let water leave colder than the room.
"""

import math
from typing import Annotated, Any, Protocol

import numpy as np

from dossier.data.sources import EFFECTIVENESS_NTU, EN_442, HEAT_BALANCE
from dossier.notation import PRACTICE, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.exchanger import (
    Arrangement,
    conductance_at_rate,
    exchanger_heat,
    log_mean_difference,
)
from dossier.physics.rated_point import rated_conductance
from dossier.physics.root import are_samples

WATER_IN = q("θ_V", "K", "water entering", low=230, high=420)
WATER_OUT = q("θ_R", "K", "water leaving", low=230, high=420)
ROOM = q("θ_i", "K", "air of the room", low=220, high=340)
RATE = q("Ċ", "W/K", "capacity rate of the water", low=0, high=1e5)
RATED_OUTPUT = q("Φ_n", "W", "rated output", low=1, high=1e5)
RATED_EXCESS = q("Δθ_n", "K", "excess temperature at the rated point", low=1, high=100)
EXPONENT = q("n", "1", "exponent of the radiator", low=1, high=1.6)
SHARP = 1e-15
STEPS = 40
STANDS = 1e-9
"""Capacity rate (W/K) up to which water counts as standing."""


class Emitter(Protocol):
    """What gives heat to a room."""

    def output(self, water_in: Real, water_rate: Real, air_in: Real) -> Real:
        """Heat (W) given to the air."""
        ...


@formula("UA = UA_n · (q_A/q_A,n)^m_A", EFFECTIVENESS_NTU)
def fan_coil_conductance(
    rated: Annotated[Real, q("UA_n", "W/K", "conductance at the rated point", low=0, high=1e4)],
    air_flow: Annotated[Real, q("q_A", "m3/s", "air flow", low=0, high=2)],
    rated_air_flow: Annotated[Real, q("q_A,n", "m3/s", "air flow at the rated point", low=1e-3, high=2)],
    air_exponent: Annotated[Real, q("m_A", "1", "exponent of the air flow", low=0, high=1)],
) -> Annotated[Real, q("UA", "W/K", "conductance of the fan coil", low=0)]:
    """Conductance of a fan coil at another fan speed or behind a duct."""
    return rated * (air_flow / rated_air_flow) ** air_exponent


@formula("q_A = q_A,n · (1 − s)", PRACTICE)
def ducted_air_flow(
    air_flow: Annotated[Real, q("q_A,n", "m3/s", "air flow without a duct", low=0, high=2)],
    share: Annotated[Real, q("s", "1", "share that the duct takes", low=0, high=0.9)],
) -> Annotated[Real, q("q_A", "m3/s", "air flow", low=0, high=2)]:
    """Air flow of a fan coil that blows into a duct."""
    return air_flow * (1 - share)


@formula("Φ_0 = s · Φ", PRACTICE)
def stopped_output(
    output: Annotated[Real, q("Φ", "W", "output with the fan running", low=-1e5, high=1e5)],
    share: Annotated[Real, q("s", "1", "share still given with the fan stopped", low=0, high=1)],
) -> Annotated[Real, q("Φ_0", "W", "output with the fan stopped")]:
    """Heat a fan coil still gives when its fan stands."""
    return output * share


@dataclass(frozen=True)
class FanCoil:
    """A fan coil at one fan speed: conductance (W/K) and capacity rate of the air (W/K).

    ``rated_water_rate`` and ``water_exponent`` let the conductance follow the water flow; 0 leaves it.
    """

    conductance: Real
    air_rate: Real
    rated_water_rate: Real = 1.0
    water_exponent: Real = 0.0

    @staticmethod
    def rated(output: Real, water_rate: Real, air_rate: Real, water_in: Real, air_in: Real) -> "FanCoil":
        """Fan coil from its rated point; raises ``ImpossibleRating`` where that asks too much."""
        found = rated_conductance(Arrangement.CROSSFLOW, output, water_rate, air_rate, water_in, air_in)
        return FanCoil(found, air_rate, water_rate)

    def output(self, water_in: Real, water_rate: Real, air_in: Real) -> Real:
        """Heat (W) given to the air."""
        conductance = self.conductance
        if are_samples(self.water_exponent) or self.water_exponent > 0:
            conductance = conductance_at_rate(
                conductance, water_rate, self.rated_water_rate, self.water_exponent
            )
        return exchanger_heat(Arrangement.CROSSFLOW, conductance, water_rate, self.air_rate, water_in, air_in)


@formula("Δθ = (θ_V + θ_R)/2 − θ_i", EN_442)
def arithmetic_excess(
    water_in: Annotated[Real, WATER_IN], water_out: Annotated[Real, WATER_OUT], room: Annotated[Real, ROOM]
) -> Annotated[Real, q("Δθ", "K", "excess temperature, arithmetic")]:
    """Excess temperature as makers state it: 50 K at 75/65/20 °C."""
    return (water_in + water_out) / 2 - room


def logarithmic_excess(water_in: Real, water_out: Real, room: Real) -> Real:
    """Excess temperature (K) by the logarithmic mean; right at small flow too."""
    return log_mean_difference(water_in - room, water_out - room)


@formula("Φ = Φ_n · (Δθ/Δθ_n)^n", EN_442)
def radiator_output(
    rated: Annotated[Real, RATED_OUTPUT],
    excess: Annotated[Real, q("Δθ", "K", "excess temperature", low=0, high=150)],
    rated_excess: Annotated[Real, RATED_EXCESS],
    exponent: Annotated[Real, EXPONENT],
) -> Annotated[Real, q("Φ", "W", "output", low=0)]:
    """Output of a radiator or towel rail at another excess temperature of the same mean."""
    return rated * (excess / rated_excess) ** exponent


def _log_end_ratio(size: Any, exponent: Any) -> Any:
    """L = ln of the end differences' ratio, from L^n/(1 − e^−L)^(n − 1) = size.

    In ln L the equation is rising and convex, so Newton's steps from the right end go straight to the root.
    """
    lib: Any = np if are_samples(size, exponent) else math
    goal = lib.log(size)
    place = np.minimum(goal, goal / exponent) if lib is np else min(goal, goal / exponent)
    for _ in range(STEPS):
        depth = lib.exp(place)
        part = -lib.expm1(-depth)
        excess = exponent * place - (exponent - 1) * lib.log(part) - goal
        step = excess / (exponent - (exponent - 1) * depth * lib.exp(-depth) / part)
        place = place - step
        if np.all(abs(step) <= SHARP * (1 + abs(place))):
            break
    return lib.exp(place)


@formula("Ċ · (θ_V − θ_R) = Φ_n · (Δθ_m/Δθ_n)^n, Δθ_m = (θ_V − θ_R)/ln((θ_V − θ_i)/(θ_R − θ_i))", EN_442)
def radiator_heat(
    rated: Annotated[Real, RATED_OUTPUT],
    rated_excess: Annotated[Real, q("Δθ_n", "K", "excess at the rated point, logarithmic", low=1, high=100)],
    exponent: Annotated[Real, EXPONENT],
    water_in: Annotated[Real, WATER_IN],
    water_rate: Annotated[Real, RATE],
    room: Annotated[Real, ROOM],
) -> Annotated[Real, q("Φ", "W", "output")]:
    """Output of a radiator or towel rail at its actual flow, its return temperature solved for."""
    span = water_in - room
    if are_samples(rated, rated_excess, exponent, span, water_rate):
        moving = (water_rate > STANDS) & (span != 0)
        size = rated / rated_excess**exponent * np.abs(np.where(moving, span, 1.0)) ** (exponent - 1)
        size = size / np.where(moving, water_rate, 1.0)
        return np.where(moving, water_rate * span * -np.expm1(-_log_end_ratio(size, exponent)), 0.0)
    if water_rate <= STANDS or span == 0:
        return 0.0
    size = rated / rated_excess**exponent * np.abs(span) ** (exponent - 1) / water_rate
    return water_rate * span * float(-math.expm1(-_log_end_ratio(size, exponent)))


@dataclass(frozen=True)
class Radiator:
    """A radiator or towel rail: rated output (W), logarithmic rated excess (K), exponent."""

    rated: Real
    rated_excess: Real
    exponent: Real

    @staticmethod
    def rated_at(output: Real, water_in: Real, water_out: Real, room: Real, exponent: Real) -> "Radiator":
        """Radiator from its rated point, such as 75/65/20 °C."""
        return Radiator(output, logarithmic_excess(water_in, water_out, room), exponent)

    def output(self, water_in: Real, water_rate: Real, air_in: Real) -> Real:
        """Heat (W) given to the room."""
        return radiator_heat(self.rated, self.rated_excess, self.exponent, water_in, water_rate, air_in)


@formula("θ_i = (G · θ_V + H · θ_e)/(G + H)", HEAT_BALANCE)
def room_temperature_held(
    emission: Annotated[Real, q("G", "W/K", "heat of the emitter for each kelvin", low=0, high=1e5)],
    loss: Annotated[Real, q("H", "W/K", "loss of the room for each kelvin", low=1e-3, high=1e5)],
    water_in: Annotated[Real, WATER_IN],
    outside: Annotated[Real, q("θ_e", "K", "temperature beyond", low=213, high=340)],
) -> Annotated[Real, q("θ_i", "K", "room temperature held")]:
    """Room temperature at which a linear emitter balances the room's loss."""
    return (emission * water_in + loss * outside) / (emission + loss)
