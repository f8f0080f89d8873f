"""How hot are the gas, the outside of the exhaust and the wood beside it, after hours of running?

Lagging of unknown or partial extent leaves open where the pipe is bare: the wood is then found for both, and
the hotter counts.
"""

from collections.abc import Mapping
from dataclasses import field, replace
from enum import Enum
from typing import TYPE_CHECKING, Annotated

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.coefficients import coefficient
from dossier.data.fuels import fuel
from dossier.notation import PRACTICE, NotAssessed, Quantity, Real, q, solved
from dossier.notation.records import dataclass
from dossier.physics.exhaust_gas import fouled_gas_temperature, gas_temperature
from dossier.physics.exhaust_heat import (
    bare_resistance,
    lagged_diameter,
    lagged_resistance,
    outside_temperature,
)
from dossier.physics.exhaust_passage import combustible_temperature
from dossier.project.model.entry import Answer
from dossier.sizing.spaces import burner_of

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.exhaust import ExhaustRun
    from dossier.sizing.heat_loss import HeatLoss

TOUCHING = 1e-3
"""Distance (m) below which wood counts as touching."""
SURROUNDINGS = q("θ_a", "K", "air round the exhaust")
WOOD = q("θ_w", "K", "nearest wood along the run")


class Cover(str, Enum):
    """How far the exhaust is lagged."""

    WHOLE = "whole"
    PART = "part"
    EXTENT_UNKNOWN = "extent unknown"
    BARE = "bare"
    UNKNOWN = "unknown"

    @property
    def may_be_bare(self) -> bool:
        """Whether bare pipe is there, or may be."""
        return self is not Cover.WHOLE

    @property
    def may_be_lagged(self) -> bool:
        """Whether lagging is there."""
        return self in {Cover.WHOLE, Cover.PART, Cover.EXTENT_UNKNOWN}


@dataclass(frozen=True)
class Surface:
    """Outside of the exhaust, lagged or bare."""

    outside: Annotated[Real, q("D", "m", "outside diameter of pipe or lagging")]
    resistance: Annotated[Real, q("R", "mK/W", "resistance from gas to the outside")]
    temperature: Annotated[Real, q("θ_s", "K", "outside of the exhaust")]


@dataclass(frozen=True)
class ExhaustHeat:
    """Temperatures of the exhaust. ``lacking`` names, by field, the keys a missing temperature waits for.

    ``bare`` is None where the bore is not stated, ``lagged`` where the exhaust is bare or nobody tells.
    """

    cover: Cover
    gas: Annotated[Real, q("θ_g", "K", "gas at the burner, heat exchanger fouled unless stated")]
    surroundings: Annotated[Real, SURROUNDINGS]
    bare: Surface | None
    lagged: Surface | None
    lagging_temperature: Annotated[
        Real | None,
        q("θ_s", "K", "surface of the lagging, or of the bare pipe", name="exhaust.lagging_temperature"),
    ]
    run_temperature: Annotated[
        Real | None, q("θ_w", "K", "nearest combustible along the run", name="exhaust.run_temperature")
    ]
    lacking: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def surfaces(self) -> tuple[Surface, ...]:
        """Surfaces the exhaust has, or may have where the extent of the lagging is not told."""
        if self.cover is Cover.UNKNOWN:
            return ()
        lagged = (self.lagged,) if self.cover.may_be_lagged else ()
        bare = (self.bare,) if self.cover.may_be_bare else ()
        return tuple(surface for surface in (*lagged, *bare) if surface is not None)


def cover_of(run: "ExhaustRun") -> Cover:
    """How far an exhaust is lagged, as the file says it."""
    lagging = run.lagging
    if isinstance(lagging, Answer):
        return Cover.BARE
    if lagging is None or lagging.thickness is None:
        return Cover.UNKNOWN
    if lagging.extent is None:
        return Cover.EXTENT_UNKNOWN
    return Cover.WHOLE if lagging.extent.strip().casefold() == "whole" else Cover.PART


def surroundings_of(loss: "HeatLoss | NotAssessed", spaces: tuple[str, ...]) -> Real:
    """Air round the exhaust: what is assumed for the hot case, or the hottest zone it lies in if hotter.

    The design night is not the hot case, so a cold engine room of that night does not count.
    """
    taken = assumed("exhaust.surroundings")
    if isinstance(loss, NotAssessed):
        return taken
    zones = [loss.zones[name].temperature for name in spaces if name in loss.zones]
    if all(temperature <= taken for temperature in zones):
        return taken
    return hottest(
        SURROUNDINGS, "θ_a = hottest of the zones it lies in and of what is assumed", taken, *zones
    )


def gas_of(project: "Project", run: "ExhaustRun", air: Real) -> Real:
    """Gas at the burner: stated, else by the efficiency with a fouled heat exchanger, else assumed."""
    if run.gas_temperature is not None:
        return run.gas_temperature
    burner = burner_of(project)
    efficiency = burner.efficiency if burner else None
    if efficiency is None:
        return assumed("exhaust.gas_temperature")
    oil = fuel()
    clean = gas_temperature(
        air,
        efficiency,
        oil.heat_of_combustion,
        oil.air,
        coefficient("burner.excess_air"),
        coefficient("exhaust.gas_specific_heat"),
    )
    return fouled_gas_temperature(clean, coefficient("exhaust.fouling"))


def _surface(outside: Real, resistance: Real, gas: Real, air: Real) -> Surface:
    film = coefficient("exhaust.film_outside")
    return Surface(outside, resistance, outside_temperature(gas, air, resistance, outside, film))


def _surfaces(run: "ExhaustRun", cover: Cover, gas: Real, air: Real) -> tuple[Surface | None, Surface | None]:
    """Bare and lagged outside, as far as they can be found."""
    if run.bore is None:
        return None, None
    wall, inside = coefficient("exhaust.wall"), coefficient("exhaust.film_inside")
    pipe = lagged_diameter(run.bore, wall, 0.0)
    bare = _surface(pipe, bare_resistance(run.bore, inside), gas, air)
    lagging = run.lagging
    if not cover.may_be_lagged or lagging is None or isinstance(lagging, Answer) or lagging.thickness is None:
        return bare, None
    conductivity = stated_or_assumed(lagging.conductivity, "exhaust.lagging.conductivity")
    resistance = lagged_resistance(run.bore, pipe, lagging.thickness, conductivity, inside)
    return bare, _surface(lagged_diameter(run.bore, wall, lagging.thickness), resistance, gas, air)


def _beside(surface: Surface, air: Real, distance: Real) -> Real:
    """Wood at a distance from the outside; wood that touches is as hot as the outside."""
    if distance < TOUCHING:
        return surface.temperature
    return combustible_temperature(
        surface.temperature,
        air,
        surface.outside,
        distance,
        coefficient("exhaust.emissivity"),
        coefficient("exhaust.still_air_film"),
    )


def hottest(gives: Quantity, text: str, *temperatures: Real) -> Real:
    """Highest of several temperatures, with what it was chosen from."""
    if len(temperatures) == 1:
        return temperatures[0]
    given = [(gives, temperature) for temperature in temperatures]
    return solved(max(float(t) for t in temperatures), gives, text, PRACTICE, given, function=max)


def exhaust_heat(
    project: "Project",
    loss: "HeatLoss | NotAssessed",
    run: "ExhaustRun",
    spaces: tuple[str, ...],
    clearance: Real | None,
) -> ExhaustHeat:
    """Temperatures of one run.

    ``spaces`` are the compartments it lies in; ``clearance`` (m) is the distance to the nearest combustible.
    """
    cover = cover_of(run)
    air = surroundings_of(loss, spaces)
    gas = gas_of(project, run, air)
    bare, lagged = _surfaces(run, cover, gas, air)
    lacking: dict[str, tuple[str, ...]] = {}
    bore = () if run.bore is not None else ("exhaust.bore",)
    thickness = ("exhaust.lagging.thickness",) if cover is Cover.UNKNOWN else ()
    shown = lagged if cover.may_be_lagged else bare if cover is Cover.BARE else None
    if shown is None:
        lacking["lagging_temperature"] = (*bore, *thickness)
    found = ExhaustHeat(cover, gas, air, bare, lagged, shown.temperature if shown else None, None, lacking)
    distance = ("clearances.exhaust_run",) if clearance is None else ()
    if clearance is None or not found.surfaces:
        lacking["run_temperature"] = (*distance, *bore, *thickness)
        return found
    woods = [_beside(surface, air, clearance) for surface in found.surfaces]
    return replace(found, run_temperature=hottest(WOOD, "θ_w = hotter of lagged and bare pipe", *woods))
