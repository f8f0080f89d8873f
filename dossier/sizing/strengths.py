"""What does each strength of the mix do? Frost, flow and head, from water to 60 % of glycol."""

from typing import TYPE_CHECKING, Annotated

import numpy as np

from dossier.notation import NotAssessed, OutOfRange, Real, q
from dossier.notation.records import dataclass
from dossier.physics.fluid import Fluid, coolant, water
from dossier.physics.network_laws import Laws
from dossier.sizing.coolant import Coolant
from dossier.sizing.index_profile import index_profile
from dossier.sizing.ring import RingStudy

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "What does each strength of the mix do?"
SHARES = (0.0, 0.1, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6)


@dataclass(frozen=True)
class Strength:
    """One strength of the mix beside water.

    ``flow`` is the volume flow for the same heat over that of water, ``head`` the drop of the index circuit
    at the same flow over that with water, both at the working temperature; ``cold_head`` the same at the
    start in the cold. None where the mix is frozen or beyond its table.
    """

    share: Annotated[Real, q("x", "1", "share of glycol")]
    freezing_point: Annotated[Real, q("θ_f", "K", "of the mix")]
    density: Annotated[Real | None, q("ρ", "kg/m3", "at the working temperature")] = None
    specific_heat: Annotated[Real | None, q("c_p", "J/kgK", "at the working temperature")] = None
    viscosity: Annotated[Real | None, q("μ", "Pa*s", "at the working temperature")] = None
    cold_viscosity: Annotated[Real | None, q("μ_0", "Pa*s", "at the start in the cold")] = None
    flow: Annotated[Real | None, q("r_q", "1", "flow for the same heat, over water")] = None
    head: Annotated[Real | None, q("r_H", "1", "head for the same flow, over water")] = None
    cold_head: Annotated[
        Real | None, q("r_0", "1", "head in the cold for the same flow, over water warm")
    ] = None


def strengths(
    project: "Project", mix: Coolant | NotAssessed, ring: RingStudy | NotAssessed
) -> tuple[Strength, ...] | NotAssessed:
    """Strengths of the project's own glycol; plain water alone where it has none."""
    if isinstance(mix, NotAssessed):
        return mix
    start = project.conditions.unheated_start if project.conditions else None
    written = project.circuit.coolant if project.circuit else None
    base = (written.base if written else None) or "water"
    drops = None if isinstance(ring, NotAssessed) else _Drops.of(ring)
    working = float(mix.working)
    thin = drops.with_fluid(water(), working) if drops else None
    found = []
    for share in SHARES if base != "water" else SHARES[:1]:
        try:
            fluid = coolant(base, share, inhibited=mix.fluid.data_set.inhibited) if share else water()
        except OutOfRange:
            continue
        found.append(_strength(share, fluid, working, None if start is None else float(start), drops, thin))
    return tuple(found)


def _strength(  # noqa: PLR0913, PLR0917 - a mix beside water, warm and cold
    share: float,
    fluid: Fluid,
    working: float,
    start: float | None,
    drops: "_Drops | None",
    thin: float | None,
) -> Strength:
    try:
        density, heat = float(fluid.density(working)), float(fluid.specific_heat(working))
        viscosity = float(fluid.viscosity(working))
    except OutOfRange:
        return Strength(share, fluid.freezing_point)
    cold = cold_head = None
    if start is not None and start > float(fluid.lowest):
        cold = float(fluid.viscosity(start))
        cold_head = drops.with_fluid(fluid, start) / thin if drops and thin else None
    carried = float(water().density(working)) * float(water().specific_heat(working))
    return Strength(
        share,
        fluid.freezing_point,
        density,
        heat,
        viscosity,
        cold,
        carried / (density * heat),
        drops.with_fluid(fluid, working) / thin if drops and thin else None,
        cold_head,
    )


class _Drops:
    """Drop of the index circuit at its design flow, with any fluid at one temperature."""

    def __init__(self, ring: RingStudy, tags: tuple[str, ...]) -> None:
        self.network = ring.hydraulics.network
        design = ring.operations["heating"]
        self.kv = self.network.settings(design.outcome.kv)
        self.flow = design.outcome.solution.mass_flow / float(design.outcome.density.mean())
        self.places = [self.network.element_index[tag] for tag in tags]

    @classmethod
    def of(cls, ring: RingStudy) -> "_Drops | None":
        """The index circuit of the design mode, pumps left out; None where there is none."""
        profile = index_profile(ring)
        if isinstance(profile, NotAssessed):
            return None
        known = ring.hydraulics.network.element_index
        return cls(ring, tuple(p.tag for p in profile if p.kind != "pump" and p.tag in known))

    def with_fluid(self, fluid: Fluid, temperature: float) -> float:
        """Drop (Pa) with a fluid at a temperature (K)."""
        density, viscosity = float(fluid.density(temperature)), float(fluid.viscosity(temperature))
        count = len(self.network.elements.names)
        laws = Laws(
            self.network.elements,
            len(self.network.runs),
            np.full(count, density),
            np.full(count, viscosity),
            self.kv,
            {},
        )
        return float(laws.element_drops(self.flow * density)[self.places].sum())
