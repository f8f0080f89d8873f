"""What moves in a mode of use: coolant and metal that a burner's run warms, and what stores lose.

Parts in shut branches do not count, nor do header and vessel; of a store only the share that mixes.
"""

from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.coefficients import coefficient
from dossier.data.sources import GEOMETRY, HEAT_BALANCE
from dossier.notation import NotAssessed, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.store import fluid_heat_capacity, heat_capacity, total_heat_capacity
from dossier.sizing.coolant import Coolant, total_volume
from dossier.sizing.ring_results import total_heat

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.ring import Operation

QUESTION = "How long does the burner run?"
APART = ("header_tank", "membrane_vessel")


@formula("H = U · 6·V^(2/3)", GEOMETRY)
def store_conductance(
    transmittance: Annotated[Real, q("U", "W/m2K", "transmittance of its lagging", low=0.05, high=20)],
    volume: Annotated[Real, q("V", "m3", "volume of the store", low=0, high=20)],
) -> Annotated[Real, q("H", "W/K", "loss for each kelvin", low=0)]:
    """Loss of a store as that of a cube of its volume."""
    return transmittance * 6 * volume ** (2 / 3)


@formula("Φ = H·(θ − θ_a)", HEAT_BALANCE)
def standing_loss(
    conductance: Annotated[Real, q("H", "W/K", "loss for each kelvin", low=0, high=1e4)],
    inside: Annotated[Real, q("θ", "K", "mean temperature of the store", low=250, high=420)],
    surroundings: Annotated[Real, q("θ_a", "K", "surroundings", low=220, high=350)],
) -> Annotated[Real, q("Φ", "W", "standing loss of a store")]:
    """Heat a store loses through its lagging."""
    return conductance * (inside - surroundings)


@dataclass(frozen=True)
class MovingPart:
    """Heat capacity of one part that moves: its coolant, its metal."""

    tag: str
    kind: str
    volume: Annotated[Real, q("V", "m3", "coolant that moves")]
    fluid: Annotated[Real, q("C_i", "J/K", "heat capacity of its coolant")]
    metal: Annotated[Real | None, q("C_i", "J/K", "heat capacity of its metal")]


@dataclass(frozen=True)
class MovingParts:
    """All that moves in one mode; ``passing`` is the volume outside the stores."""

    parts: tuple[MovingPart, ...]
    heat_capacity: Annotated[Real, q("C", "J/K", "fluid and metal of the moving volume")]
    passing: Annotated[Real, q("V", "m3", "coolant that moves, stores aside")]
    store_losses: tuple[Real, ...]

    @property
    def stores(self) -> tuple[str, ...]:
        """Stores that the water passes."""
        return tuple(part.tag for part in self.parts if part.kind == "buffer")


def waiting(question: str, *found: object) -> NotAssessed:
    """What a question waits for: the first of the studies it rests on that was not made."""
    first = next(study for study in found if isinstance(study, NotAssessed))
    return NotAssessed(question, first.needs, first.why)


def mixing_share(unit: Any) -> Real:
    """Share of a store that takes part in a cycle."""
    return stated_or_assumed(unit.mixing, "components.buffer.mixing", f"components.{unit.tag}.mixing")


def metal_of(unit: Any) -> Real | None:
    """Metal of a unit that warms with the coolant (kg); of a burner what is assumed where none is stated."""
    stated: Real | None = unit.metal
    if stated is None and unit.kind == "burner":
        return assumed("components.burner.metal", f"components.{unit.tag}.metal")
    return stated


def store_conductance_of(unit: Any, volume: Real) -> Real:
    """Loss of a store for each kelvin (W/K)."""
    return store_conductance(
        assumed("components.buffer.transmittance", f"components.{unit.tag}.transmittance"), volume
    )


def missing_volumes(project: "Project", ring_tags: frozenset[str]) -> NotAssessed | None:
    """Keys of stores in the ring whose volume is not stated; None where nothing is missing."""
    needs = tuple(
        f"components.{tag}.volume"
        for tag, unit in (project.components or {}).items()
        if unit.kind == "buffer"
        and tag in ring_tags
        and unit.volume is None  # type: ignore[attr-defined]  # a buffer
        and unit.water_volume is None
    )
    return NotAssessed(QUESTION, needs) if needs else None


def moving_parts(project: "Project", coolant: Coolant, operation: "Operation", level: Real) -> MovingParts:
    """What moves in a mode; ``level`` (K) is the mean temperature its stores are kept at."""
    components: Any = project.components or {}
    still = frozenset(operation.standing_still)
    parts, losses = [], []
    for content in coolant.contents:
        if content.kind in APART or content.tag in still or content.tag not in operation.flows.edges:
            continue
        unit = components.get(content.tag)
        if content.kind == "buffer":
            share = mixing_share(unit)
            fluid = fluid_heat_capacity(content.volume, coolant.density, coolant.specific_heat, share)
            air = assumed("circuit.surroundings", f"components.{content.tag}.where")
            losses.append(standing_loss(store_conductance_of(unit, content.volume), level, air))
        else:
            fluid = fluid_heat_capacity(content.volume, coolant.density, coolant.specific_heat)
        mass = metal_of(unit) if unit is not None else None
        metal = None if mass is None else heat_capacity(mass, coefficient("store.metal_specific_heat"))
        parts.append(MovingPart(content.tag, content.kind, content.volume, fluid, metal))
    capacities = [part.fluid for part in parts]
    capacities += [part.metal for part in parts if part.metal is not None]
    return MovingParts(
        tuple(parts),
        total_heat_capacity(*capacities),
        total_volume(*(part.volume for part in parts if part.kind != "buffer")),
        tuple(losses),
    )


def load_with_stores(load: Real, parts: MovingParts) -> Real:
    """What a burner must give in a mode, the standing loss of the stores added."""
    return total_heat(load, *parts.store_losses) if parts.store_losses else load
