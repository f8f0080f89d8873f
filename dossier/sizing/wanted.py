"""How much flow does each branch call for?"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated

from dossier.data.assumptions import stated_or_assumed
from dossier.data.sources import HEAT_BALANCE
from dossier.notation import Real, formula, q
from dossier.notation.records import dataclass
from dossier.sizing.balancing import wanted_flow
from dossier.sizing.circuit import Circuit
from dossier.sizing.coolant import Coolant
from dossier.sizing.emitters import EmitterModel
from dossier.sizing.heat_loss import HeatLoss

if TYPE_CHECKING:
    from dossier.project import Project


@dataclass(frozen=True)
class WantedFlow:
    """Flow that a branch's zones call for."""

    name: str
    load: Annotated[Real, q("Φ", "W", "heat its zones call for")]
    flow: Annotated[Real, q("q_V", "m3/s", "called for by the zone's load", name="flow_wanted.branch.{name}")]


@formula("Φ = Φ_z·Φ_n/Σ Φ_n", HEAT_BALANCE)
def share_of_load(
    load: Annotated[Real, q("Φ_z", "W", "load of the zone", low=-1e6, high=1e6)],
    own: Annotated[Real, q("Φ_n", "W", "rated output of the emitter", low=0, high=1e6)],
    together: Annotated[
        Real, q("Σ Φ_n", "W", "rated output of all emitters of the zone", low=1e-9, high=1e7)
    ],
) -> Annotated[Real, q("Φ", "W", "part of the load an emitter takes")]:
    """Load of a zone parted among its emitters by their rated output."""
    return load * own / together


@formula("Φ = Σ Φ_i", HEAT_BALANCE)
def total_load(
    *loads: Annotated[Real, q("Φ_i", "W", "part of a load", low=-1e6, high=1e6)],
) -> Annotated[Real, q("Φ", "W", "load together")]:
    """Loads of several emitters together."""
    return sum(loads)


def loads_by_emitter(
    emitters: Mapping[str, EmitterModel], loss: HeatLoss, calls: frozenset[str]
) -> dict[str, Real]:
    """Part of its zone's load that each emitter takes; none where the zone does not call or needs no heat."""
    found: dict[str, Real] = {}
    for zone in loss.heated:
        own = {tag: e for tag, e in emitters.items() if e.zone == zone.zone}
        if zone.zone not in calls or not own or zone.load is None or float(zone.load) <= 0:
            continue
        rated = {tag: e.rated_output if float(e.rated_output) > 0 else 1.0 for tag, e in own.items()}
        together = total_load(*rated.values())
        for tag in own:
            found[tag] = share_of_load(zone.load, rated[tag], together)
    return found


def design_drop(project: "Project") -> Real:
    """Cooling of the water at the emitters that the wanted flows are counted from."""
    stated = project.circuit.design_drop if project.circuit else None
    return stated_or_assumed(stated, "circuit.design_drop")


def wanted_flows(
    circuit: Circuit, loads: Mapping[str, Real], coolant: Coolant, drop: Real
) -> dict[str, WantedFlow]:
    """Flows that the branches call for, those of nested branches counted in the outer ones."""
    found = {}
    for name in circuit.branches:
        own = [loads[place.tag] for place in circuit.in_branch(name) if place.tag in loads]
        if own:
            load = total_load(*own)
            found[name] = WantedFlow(
                name, load, wanted_flow(load, coolant.density, coolant.specific_heat, drop)
            )
    return found
