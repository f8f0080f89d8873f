"""What happens in one mode? Flow and temperature found together, until neither moves any more.

The properties of the coolant follow its temperature, so flow and temperature are found in turn. The design
mode is balanced on the way: its presets hold for all other modes.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from dossier.notation import NotConverged
from dossier.physics.fluid import Fluid
from dossier.physics.network_solution import Solution
from dossier.sizing.balancing import Balance, Throttled, balanced
from dossier.sizing.emitters import EmitterModel
from dossier.sizing.hydraulics import Hydraulics
from dossier.sizing.modes import ModeState
from dossier.sizing.ring_heat import (
    Emitting,
    Giving,
    Held,
    Losing,
    Part,
    Ring,
    Temperatures,
    Way,
    ring_temperatures,
)
from dossier.sizing.sources_of_heat import BurnerModel, RecoveryModel, Regime

if TYPE_CHECKING:
    from dossier.sizing.surroundings import PipeLoss

ROUNDS = 40
FLOW_CLOSE = 1e-9
TEMPERATURE_CLOSE = 1e-6
REGIMES = 20


@dataclass(frozen=True)
class Setting:
    """All that a mode is solved from, besides the network.

    ``shut`` names the runs that nothing passes: a pump that stands closes its own. ``rooms`` holds the air temperature (K) each emitter meets, ``running`` the emitters whose fans run,
    ``loads`` the heat (W) at which the room's thermostat holds an emitter, ``usual`` the temperature (K) of
    coolant that nothing warms.
    """

    state: ModeState
    kv: Mapping[str, float]
    fluid: Fluid
    burners: Mapping[str, BurnerModel]
    recoveries: Mapping[str, RecoveryModel]
    emitters: Mapping[str, EmitterModel]
    rooms: Mapping[str, float]
    running: frozenset[str]
    loads: Mapping[str, float]
    pipes: "Mapping[str, PipeLoss]"
    usual: float
    throttled: tuple[Throttled, ...] = ()
    speed: Mapping[str, float] = field(default_factory=dict)
    heated: bool = True
    shut: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Outcome:
    """Flow and temperatures of a mode in plain numbers; ``temperatures`` is None where no source runs."""

    solution: Solution
    temperatures: Temperatures | None
    regimes: Mapping[str, Regime]
    balance: Balance | None
    density: NDArray[np.float64]
    viscosity: NDArray[np.float64]
    specific_heat: float
    transmittances: Mapping[str, float]
    loads: Mapping[str, float]
    rounds: int


def operate(hydraulics: Hydraulics, setting: Setting) -> Outcome:
    """Joint answer of flow and temperature in one mode.

    Raises ``NotConverged`` where the two do not settle, ``CircuitFault`` where there is no flow to find.
    """
    network = hydraulics.network
    names = network.elements.names
    fluid = setting.fluid
    at = np.full(len(names), setting.usual)
    flows = np.zeros(len(network.runs))
    balance: Balance | None = None
    inlets: Mapping[str, float] = {}
    heat: tuple[Temperatures, dict[str, Regime], float, dict[str, float]] | None = None
    start: Solution | None = None
    for rounds in range(1, ROUNDS + 1):
        density, viscosity = _properties(fluid, at)
        if setting.throttled:
            guess = balance.share if balance else 1.0
            balance = balanced(network, density, viscosity, setting.kv, setting.throttled, guess)
            solution = balance.solution
        else:
            solution = network.solve(
                density, viscosity, kv=setting.kv, speed=setting.speed, shut=setting.shut, start=start
            )
        start = solution
        moved = float(np.max(np.abs(solution.mass_flow - flows))) if len(flows) else 0.0
        largest = float(np.max(np.abs(solution.mass_flow)))
        flows = solution.mass_flow
        if not setting.heated or not (setting.burners or setting.recoveries) or largest == 0:
            return Outcome(solution, None, {}, balance, density, viscosity, 0.0, {}, {}, rounds)
        heat = _settled(hydraulics, setting, solution, heat[0] if heat else None)
        drift = _drift(heat[0], inlets, setting.usual)
        inlets = heat[0].inlet
        at = np.array([_mean(heat[0], name, setting.usual) for name in names])
        if moved <= FLOW_CLOSE * largest and drift <= TEMPERATURE_CLOSE:
            temperatures, regimes, specific_heat, losses = heat
            return Outcome(
                solution,
                temperatures,
                regimes,
                balance,
                density,
                viscosity,
                specific_heat,
                losses,
                _loads_left(setting, temperatures),
                rounds,
            )
    raise NotConverged(
        f"flow and temperature of mode {setting.state.name} do not settle: after {ROUNDS} rounds flows still "
        f"move by {moved:.3g} kg/s, temperatures by {drift:.3g} K"
    )


def _properties(fluid: Fluid, at: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Density and viscosity at the temperature of each element; raises ``OutOfRange`` beyond the table."""
    density, viscosity = np.asarray(fluid.density(at)), np.asarray(fluid.viscosity(at))
    if np.isnan(density).any():
        fluid.density(float(at[int(np.argmax(np.isnan(density)))]))
    return density, viscosity


def _mean(found: Temperatures, tag: str, usual: float) -> float:
    return (found.inlet[tag] + found.outlet[tag]) / 2 if tag in found.inlet else usual


def _drift(found: Temperatures, before: Mapping[str, float], usual: float) -> float:
    return max((abs(t - before.get(tag, usual)) for tag, t in found.inlet.items()), default=0.0)


def ways_of(hydraulics: Hydraulics, solution: Solution) -> list[Way]:
    """Chains that water passes, in its direction."""
    ways = []
    for number, chain in enumerate(hydraulics.circuit.chains):
        flow = float(solution.mass_flow[number])
        start, end = hydraulics.node_of[chain.start], hydraulics.node_of[chain.end]
        if flow > 0:
            ways.append(Way(start, end, flow, chain.tags))
        elif flow < 0:
            ways.append(Way(end, start, -flow, chain.tags[::-1]))
    return ways


def _settled(
    hydraulics: Hydraulics, setting: Setting, solution: Solution, before: Temperatures | None
) -> tuple[Temperatures, dict[str, Regime], float, dict[str, float]]:
    """Temperatures with every source in the regime that its own heat asks for."""
    ways = ways_of(hydraulics, solution)
    inlets = before.inlet if before else {}
    level = max((float(b.setpoint) for b in setting.burners.values()), default=setting.usual)
    mean = float(np.mean(list(inlets.values()))) if inlets else level
    specific_heat = float(setting.fluid.specific_heat(mean))
    losses = {
        tag: pipe.plain_transmittance(inlets.get(tag, level)) * float(pipe.length)
        for tag, pipe in setting.pipes.items()
    }
    parts: dict[str, Part] = {
        tag: Losing(losses[tag], float(pipe.air)) for tag, pipe in setting.pipes.items()
    }
    loads = _loads_left(setting, before)
    for tag, emitter in setting.emitters.items():
        runs, load = tag in setting.running, loads.get(tag)
        heat = _heat_of(emitter, setting.rooms[tag], load, fan_runs=runs)
        parts[tag] = Emitting(heat, straight=emitter.kind == "fan_coil" and load is None)
    for tag, recovery in setting.recoveries.items():
        parts[tag] = Emitting(_heat_from(recovery))
    regimes = dict.fromkeys(setting.burners, Regime.STEADY)
    passed = {tag for way in ways for tag in way.tags}
    for _ in range(REGIMES):
        for tag, burner in setting.burners.items():
            parts[tag] = _held(burner, regimes[tag])
        found = ring_temperatures(Ring(ways, parts, specific_heat), inlets, level)
        wanted = {
            tag: burner.settled(regimes[tag], -found.heat[tag])
            if regimes[tag] in {Regime.STEADY, Regime.CYCLING}
            else regimes[tag]
            for tag, burner in setting.burners.items()
            if tag in passed
        }
        if all(regimes[tag] is regime for tag, regime in wanted.items()):
            return found, regimes, specific_heat, losses
        regimes.update(wanted)
    raise NotConverged(f"the burners of mode {setting.state.name} find no steady regime")


def _loads_left(setting: Setting, before: Temperatures | None) -> dict[str, float]:
    """Heat at which each thermostat holds its emitter, once the pipes in its room have given theirs."""
    if before is None:
        return dict(setting.loads)
    by_pipes: dict[str, float] = {}
    for tag, pipe in setting.pipes.items():
        zone = pipe.through or pipe.beside
        by_pipes[zone] = by_pipes.get(zone, 0.0) + before.heat.get(tag, 0.0)
    together: dict[str, float] = {}
    for tag, load in setting.loads.items():
        zone = setting.emitters[tag].zone
        together[zone] = together.get(zone, 0.0) + load
    left = {}
    for tag, load in setting.loads.items():
        zone = setting.emitters[tag].zone
        whole = together[zone]
        left[tag] = load * max(whole - by_pipes.get(zone, 0.0), 0.0) / whole if whole > 0 else 0.0
    return left


def _heat_of(
    emitter: EmitterModel, room: float, load: float | None, *, fan_runs: bool
) -> Callable[[float, float], float]:
    """Heat of an emitter on the mean: all it can give, or what the room's thermostat lets it give."""
    bare = emitter.plain

    def heat(inlet: float, rate: float) -> float:
        able = float(bare.output(inlet, rate, room, fan_runs=fan_runs))
        return able if load is None else min(able, load)

    return heat


def _heat_from(recovery: RecoveryModel) -> Callable[[float, float], float]:
    def heat(inlet: float, rate: float) -> float:
        return -recovery.heat(inlet, rate)

    return heat


def _held(burner: BurnerModel, regime: Regime) -> Part:
    if regime is Regime.FULL:
        return Giving(float(burner.full))
    if regime is Regime.OFF:
        return Giving(0.0)
    return Held(burner.temperature(regime))
