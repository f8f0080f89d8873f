"""Where do the temperatures settle at given flows? Every source in the regime that its own heat asks for.

A burner whose demand lies under its lowest output cycles, and the water sees the mean of the cycle; one whose
demand lies over its full output gives that, and the supply temperature falls.
"""

from collections.abc import Callable, Mapping

import numpy as np

from dossier.notation import NotConverged
from dossier.notation.records import dataclass
from dossier.physics.emitter import Radiator, radiator_heat
from dossier.physics.network_solution import Solution
from dossier.sizing.emitters import EmitterModel
from dossier.sizing.hydraulics import Hydraulics
from dossier.sizing.ring_heat import (
    CLOSE,
    Coil,
    Emitting,
    Giving,
    Held,
    Losing,
    Part,
    Ring,
    Temperatures,
    ring_temperatures,
)
from dossier.sizing.setting import Setting, ways_of
from dossier.sizing.sources_of_heat import BurnerModel, RecoveryModel, Regime

REGIMES = 20
UNHELD = float("inf")


@dataclass(frozen=True)
class Warmth:
    """Temperatures of the ring at given flows, with the regime of each burner.

    ``transmittances`` holds the loss of each pipe for each kelvin (W/K), ``loads`` what each thermostat lets
    its emitter give (W).
    """

    temperatures: Temperatures
    regimes: Mapping[str, Regime]
    specific_heat: float
    transmittances: Mapping[str, float]
    loads: Mapping[str, float]


class _Parts:
    """Parts of the ring at given flows, and those that follow the temperatures: pipes and thermostats."""

    def __init__(self, setting: Setting, rates: Mapping[str, float], warmth: Warmth | None) -> None:
        self.setting, self.rates = setting, rates
        self.losses = dict(warmth.transmittances) if warmth else {}
        self.loads = dict(warmth.loads) if warmth else dict(setting.loads)
        self.emitters = {
            tag: _emitter(
                setting.emitters[tag], setting.rooms[tag], rates[tag], fan_runs=tag in setting.running
            )
            for tag in setting.emitters
            if tag in rates
        }
        self.sharing = _sharing(setting)

    def all(self) -> dict[str, Part]:
        """Parts to begin with, burners aside."""
        parts: dict[str, Part] = {
            tag: Emitting(_heat_from(recovery)) for tag, recovery in self.setting.recoveries.items()
        }
        return parts | self._held()

    def follow(self, inlet: Mapping[str, float], heat: Mapping[str, float]) -> Mapping[str, Part]:
        """Pipes and emitters at the temperatures and heats found last."""
        pipes = self.setting.pipe_losses
        level = self.setting.warmest
        water = np.array([inlet.get(tag, level) for tag in pipes.tags])
        self.losses = dict(zip(pipes.tags, pipes.conductances(water).tolist(), strict=True))
        if heat:
            self.loads = _loads_left(self.setting.loads, self.sharing, heat)
        parts: dict[str, Part] = {
            tag: Losing(lost, air)
            for (tag, lost), air in zip(self.losses.items(), pipes.air.tolist(), strict=True)
        }
        return parts | self._held()

    def _held(self) -> dict[str, Part]:
        return {tag: emitter(self.loads.get(tag, UNHELD)) for tag, emitter in self.emitters.items()}


def _sharing(setting: Setting) -> dict[str, tuple[float, tuple[str, ...]]]:
    """Load of the zone of each held emitter (W), and the pipes that warm that zone."""
    pipes: dict[str, list[str]] = {}
    for tag, pipe in setting.pipes.items():
        pipes.setdefault(pipe.through or pipe.beside, []).append(tag)
    whole: dict[str, float] = {}
    for tag, load in setting.loads.items():
        zone = setting.emitters[tag].zone
        whole[zone] = whole.get(zone, 0.0) + load
    return {
        tag: (whole[zone], tuple(pipes.get(zone, ())))
        for tag in setting.loads
        for zone in (setting.emitters[tag].zone,)
    }


def _loads_left(
    loads: Mapping[str, float],
    sharing: Mapping[str, tuple[float, tuple[str, ...]]],
    heat: Mapping[str, float],
) -> dict[str, float]:
    """Heat at which each thermostat holds its emitter, once the pipes in its room have given theirs."""
    left = {}
    for tag, load in loads.items():
        whole, pipes = sharing[tag]
        given = sum(heat.get(pipe, 0.0) for pipe in pipes)
        left[tag] = load * max(whole - given, 0.0) / whole if whole > 0 else 0.0
    return left


def _emitter(model: EmitterModel, room: float, rate: float, *, fan_runs: bool) -> Callable[[float], Part]:
    """The emitter at a flow, up to what a thermostat lets it give."""
    bare = model.plain
    if model.kind == "fan_coil":
        each = float(bare.output(room + 1.0, rate, room, fan_runs=fan_runs))
        return lambda most: Coil(each, room, most)

    if isinstance(bare.emitter, Radiator):
        plate = bare.emitter
        bound = (plate.rated, plate.rated_excess, plate.exponent)
        return lambda most: Emitting(
            lambda inlet, at: float(radiator_heat.function(*bound, inlet, at, room)), most
        )

    def heat(inlet: float, at: float) -> float:
        return float(bare.output(inlet, at, room))

    return lambda most: Emitting(heat, most)


def _heat_from(recovery: RecoveryModel) -> Callable[[float, float], float]:
    def heat(inlet: float, rate: float) -> float:
        return -recovery.heat(inlet, rate)

    return heat


def _burning(burner: BurnerModel, regime: Regime) -> Part:
    if regime is Regime.FULL:
        return Giving(float(burner.full))
    if regime is Regime.OFF:
        return Giving(0.0)
    return Held(burner.temperature(regime))


def settled(  # noqa: PLR0913 - flows, an answer close by, and how exact the new one is to be
    hydraulics: Hydraulics,
    setting: Setting,
    solution: Solution,
    before: Warmth | None,
    *,
    afresh: bool,
    close: float = CLOSE,
) -> Warmth:
    """Temperatures at the flows of ``solution``; ``before`` is an answer close by.

    Regimes are taken from ``before``, or found ``afresh``. ``close`` is the last step (K) that ends the
    search for the temperatures. Raises ``NotConverged`` where no regime holds.
    """
    ways = ways_of(hydraulics, solution)
    inlets = before.temperatures.inlet if before else {}
    level = setting.warmest
    mean = sum(inlets.values()) / len(inlets) if inlets else level
    specific_heat = float(setting.fluid.specific_heat(mean))
    rates = {tag: way.mass_flow * specific_heat for way in ways for tag in way.tags}
    moving = _Parts(setting, rates, before)
    parts = moving.all()
    burners = {tag: burner for tag, burner in setting.burners.items() if tag in rates}
    regimes = dict.fromkeys(setting.burners, Regime.STEADY)
    if before and not afresh:
        regimes |= before.regimes
    for _ in range(REGIMES):
        for tag, burner in burners.items():
            parts[tag] = _burning(burner, regimes[tag])
        ring = Ring(ways, parts, specific_heat, len(hydraulics.network.nodes))
        found = ring_temperatures(ring, inlets, level, moving.follow, close)
        wanted = {
            tag: burner.settled(regimes[tag], -found.heat[tag], found.inlet[tag], found.outlet[tag])
            for tag, burner in burners.items()
        }
        if all(regimes[tag] is regime for tag, regime in wanted.items()):
            return Warmth(found, regimes, specific_heat, moving.losses, moving.loads)
        regimes.update(wanted)
        inlets = found.inlet
    unsteady = ", ".join(burners)
    raise NotConverged(f"{unsteady} of mode {setting.state.name} finds no steady regime")
