"""What are the balancing valves to be set to, and what is then to be measured?"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import OutOfRange, Real, chosen, formula, q
from dossier.notation.records import dataclass
from dossier.physics.valves import authority, setting_for_kv
from dossier.sizing.balancing import OPEN
from dossier.sizing.circuit import Circuit

if TYPE_CHECKING:
    from dossier.sizing.flows import FlowPicture
    from dossier.sizing.ring_results import ModeHeat


@dataclass(frozen=True)
class Preset:
    """What a balancing valve is to be set to.

    ``turns`` is None where its maker's table is not given or does not reach so far; ``stated`` tells that
    the design mode itself sets it. ``drop`` is the cooling of the water at the emitters of its branch while
    they run with it: what two thermometers show when the flow is right.
    """

    tag: str
    branch: str
    kv: Annotated[Real, q("K_v", "m3/h", "preset, at 1 bar", name="balancing.{tag}.kv")]
    full_kv: Annotated[Real, q("K_vs", "m3/h", "fully open")]
    flow: Annotated[Real, q("q_V", "m3/s", "flow to set", name="balancing.{tag}.flow")]
    authority: Annotated[
        Real,
        q("a", "1", "drop of the valve over the drop of its branch", name="balancing.{tag}.authority"),
    ]
    is_open: bool
    turns: Annotated[Real | None, q("n", "1", "turns open")] = None
    stated: bool = False
    drop: Annotated[Real | None, q("Δθ", "K", "cooling of the water in its branch")] = None


@formula("Δθ = θ_V − θ_R", HEAT_BALANCE)
def cooling(
    supply: Annotated[Real, q("θ_V", "K", "entering", low=200, high=500)],
    back: Annotated[Real, q("θ_R", "K", "leaving", low=200, high=500)],
) -> Annotated[Real, q("Δθ", "K", "cooling of the water")]:
    """How much water cools from one thermometer to the other."""
    return supply - back


def presets_of(
    circuit: Circuit,
    stated: Mapping[str, Real],
    found: Mapping[str, Real],
    flows: "FlowPicture",
    heat: "ModeHeat | None",
) -> dict[str, Preset]:
    """Settings of all valves that are preset, found by balancing or stated by the design mode."""
    presets = {}
    for place in circuit.of_kind("balancing_valve", "bypass_valve"):
        unit: Any = place.unit
        kv = found.get(place.tag, stated.get(place.tag))
        if kv is None or float(kv) == 0:
            continue
        edge = flows.edges[place.tag]
        branch = flows.branches.get(place.branch)
        share = (
            authority(edge.drop, branch.drop)
            if branch is not None and float(branch.drop) > 0 and float(edge.drop) >= 0
            else chosen(1.0, q("a", "1", "authority"), "no branch round it", HEAT_BALANCE)
        )
        presets[place.tag] = Preset(
            place.tag,
            place.branch,
            kv,
            unit.kv,
            edge.flow,
            share,
            float(kv) > OPEN * float(unit.kv),
            _turns(unit, float(kv)),
            place.tag in stated,
            _drop(circuit, place.tag, heat),
        )
    return presets


def _turns(unit: Any, kv: float) -> Real | None:
    """Turns open by the maker's table; None where there is none, or it does not reach so far."""
    settings = getattr(unit, "settings", None)
    if not settings:
        return None
    try:
        return setting_for_kv(kv, tuple((float(point.turns), float(point.kv)) for point in settings))
    except OutOfRange:
        return None


def _drop(circuit: Circuit, tag: str, heat: "ModeHeat | None") -> Real | None:
    """Cooling over the emitters in the same line as a valve, the first to the last."""
    if heat is None:
        return None
    line = [heat.emitters[t] for t in circuit.chain_of(tag).tags if t in heat.emitters]
    return cooling(line[0].supply, line[-1].back) if line else None
