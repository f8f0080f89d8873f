"""How hot may an engine make the ring? Loss of its pipes with all zones shut, highest jackets."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import assumed
from dossier.data.sources import HEAT_BALANCE
from dossier.notation import NotAssessed, Real, chosen, formula, q, solved
from dossier.physics.store_warming import settled_temperature
from dossier.sizing.extremes import least_of
from dossier.sizing.heat_loss import HeatLoss
from dossier.sizing.ring import RingStudy
from dossier.sizing.sources_of_heat import RecoveryModel
from dossier.sizing.surroundings import pipe_loss

if TYPE_CHECKING:
    from dossier.project import Project

RING = q("θ_r", "K", "ring with all zones shut")


@formula("H = Σ U_L·L", HEAT_BALANCE)
def pipes_conductance(
    *parts: Annotated[Real, q("U_L·L", "W/K", "loss of one pipe for each kelvin", low=0, high=1e4)],
) -> Annotated[Real, q("H", "W/K", "loss of the pipes for each kelvin", low=0)]:
    """Loss of several pipes for each kelvin."""
    return sum(parts)


@formula("H = U_L·L", HEAT_BALANCE)
def pipe_conductance(
    transmittance: Annotated[Real, q("U_L", "W/mK", "loss of each metre for each kelvin", low=0, high=100)],
    length: Annotated[Real, q("L", "m", "length", low=0, high=2000)],
) -> Annotated[Real, q("H", "W/K", "loss of one pipe for each kelvin", low=0)]:
    """Loss of one pipe for each kelvin."""
    return transmittance * length


def ring_loss(
    project: "Project", ring: RingStudy, heat_loss: HeatLoss | NotAssessed, model: RecoveryModel
) -> tuple[Real, Real]:
    """Loss (W/K) of the pipes that keep their flow with all zones shut, and the air round them (K)."""
    circuit = ring.hydraulics.circuit
    served = {place.branch for place in circuit.places.values() if place.tag in ring.emitters}
    hot = model.jacket_highest if model.jacket_highest is not None else assumed("circuit.working_temperature")
    losses, airs = [], []
    for place in circuit.places.values():
        if place.pipe is None or (place.branch and place.branch in served):
            continue
        pipe = pipe_loss(project, place, ring.hydraulics.pipes[place.tag], heat_loss, "")
        if pipe is not None:
            losses.append(pipe_conductance(pipe.transmittance(hot), pipe.length))
            airs.append(pipe.air)
    if not losses:
        return 0.0, assumed("circuit.surroundings")
    whole = pipes_conductance(*losses)
    mean = sum(float(h) * float(t) for h, t in zip(losses, airs, strict=True)) / float(whole)
    label = q("θ_a", "K", "air round the pipes")
    air = solved(
        mean, label, "mean, weighed by the loss of each pipe", HEAT_BALANCE, [(label, t) for t in airs]
    )
    return whole, air


def highest_ring(model: RecoveryModel, loss: Real, air: Real) -> Real | None:
    """Ring with all zones shut: where its pipes lose all the engine's heat, at most the highest jacket.

    None where the highest jacket is not stated: nothing known would end the climb.
    """
    highest = model.jacket_highest
    if highest is None:
        return None
    if float(loss) <= 0:
        return chosen(float(highest), RING, "at most the highest jacket", HEAT_BALANCE, highest)
    balance = settled_temperature(air, model.jacket_heat, loss)
    return least_of(RING, "where pipes lose all its heat, at most the highest jacket", balance, highest)


def recovering_modes(project: "Project") -> dict[str, tuple[str, ...]]:
    """Exchangers that take heat from an engine, by mode, as the file writes them."""
    return {name: tuple(mode.recovering) for name, mode in (project.modes or {}).items() if mode.recovering}


def unknown_jackets(project: "Project", tags: Sequence[str]) -> tuple[str, ...]:
    """Keys of highest jackets that nobody states, of the engines some exchangers serve."""
    components: Mapping[str, Any] = project.components or {}
    needs = []
    for tag in tags:
        engine = components.get(components[tag].serves or "")
        if engine is None:
            needs.append(f"components.{tag}.serves")
        elif engine.jacket_highest is None:
            needs.append(f"components.{engine.tag}.jacket_highest")
    return tuple(dict.fromkeys(needs))


def highest_jackets(project: "Project") -> tuple[dict[str, Real], tuple[str, ...]]:
    """Highest jacket (K) of the engines each mode takes heat from, and the keys of those not stated."""
    components: Mapping[str, Any] = project.components or {}
    known: dict[str, Real] = {}
    unknown: list[str] = []
    for name, tags in recovering_modes(project).items():
        engines = [components.get(components[tag].serves or "") for tag in tags]
        stated = [e.jacket_highest for e in engines if e is not None and e.jacket_highest is not None]
        if stated:
            known[name] = max(stated, key=float)
        unknown += unknown_jackets(project, tags)
    return known, tuple(dict.fromkeys(unknown))
