"""How large must a store be, and what can no store do?"""

from typing import TYPE_CHECKING, Annotated, Any

import numpy as np

from dossier.data.catalogue import catalogue
from dossier.data.sources import BURNER_CYCLES
from dossier.notation import ARITHMETIC, Real, formula, q
from dossier.physics import store as forms
from dossier.sizing.store_modes import ModeCycle

if TYPE_CHECKING:
    from dossier.project import Project

RUN_CHECK = "store.run_time"


@formula("ρc = ρ · c_p", ARITHMETIC)
def heat_by_volume(
    density: Annotated[Real, q("ρ", "kg/m3", "density of the fluid", low=700, high=1200)],
    specific_heat: Annotated[Real, q("c_p", "J/kgK", "specific heat of the fluid", low=1500, high=4500)],
) -> Annotated[Real, q("ρc", "J/m3K", "heat capacity of a volume of fluid")]:
    """Heat capacity of a volume of coolant."""
    return density * specific_heat


@formula("t = max(t_on − t_V, 0)", BURNER_CYCLES)
def run_left_to_store(
    run: Annotated[Real, q("t_on", "s", "least running time", low=0, high=1e5)],
    passage: Annotated[Real, q("t_V", "s", "passage of the ring", low=0, high=1e6)],
) -> Annotated[Real, q("t", "s", "run that the store must give")]:
    """Least running time less the passage that each run has anyway."""
    return np.maximum(run - passage, 0.0)


def least_run(project: "Project", unit: Any) -> Real:
    """Least running time: the project's own limit, the maker's, else that of the catalogue."""
    own = (project.limits or {}).get(RUN_CHECK)
    stated: Real | None = own.at_least if own is not None else None
    if stated is None:
        stated = unit.run_min
    return catalogue()[RUN_CHECK].limit or 0.0 if stated is None else stated


def store_to_add(
    shortest: ModeCycle | None, wanted: Real, by_volume: Real, share: Real
) -> tuple[Real | None, str]:
    """Volume to add for the least running time, and in words what a store can do."""
    if shortest is None:
        return None, "No store is needed: the burner does not stop in any mode of use."
    switching = shortest.switching
    if not switching.lengthens:
        return None, (
            "No volume will do: the burner's own rise fills the band, so that the sensor at its outlet stops "
            "it before the store is warm. Move the sensor to the store, widen the band, use a lower stage or "
            "raise the flow."
        )
    run = wanted if switching.passage is None else run_left_to_store(wanted, switching.passage)
    spare = forms.surplus(switching.output, shortest.load)
    volume = forms.store_volume_needed(
        run, spare, switching.swing, by_volume, shortest.parts.heat_capacity, share
    )
    if float(volume) <= 0:
        return volume, "The ring holds enough for the least running time."
    return volume, "A store of this volume, beyond what the ring holds, gives the least running time."
