"""Which cable does a circuit need: the smallest on sale that keeps its drops and carries its current."""

from collections.abc import Callable
from functools import reduce
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np

from dossier.data.assumptions import stated_or_assumed
from dossier.data.cables import resistivities
from dossier.data.catalogue import catalogue, further_limit
from dossier.data.sources import OHM
from dossier.notation import ARITHMETIC, Real, formula, q
from dossier.physics.cable import DROP, NEEDED, VOLTAGE, section_for_drop, smallest_section

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.electrics import ElectricCircuit

MEMBER = q("I_i", "A", "current of one consumer", low=0, high=1000)


@formula("I = max(I_i)", ARITHMETIC)
def largest_current(*currents: Annotated[Real, MEMBER]) -> Annotated[Real, q("I", "A", "largest current")]:
    """Largest of several currents."""
    return reduce(np.maximum, currents)


@formula("A = max(A_i)", ARITHMETIC)
def largest_section(
    *sections: Annotated[Real, q("A_i", "m2", "section for one drop", low=0, high=1)],
) -> Annotated[Real, NEEDED]:
    """Largest of several sections."""
    return reduce(np.maximum, sections)


@formula("ΔU = δ · U", OHM)
def allowed_drop(
    share: Annotated[Real, q("δ", "1", "voltage drop allowed, share of the system voltage", low=0, high=1)],
    system: Annotated[Real, VOLTAGE],
) -> Annotated[Real, DROP]:
    """Voltage a cable may take."""
    return share * system


def bundled(circuit: "ElectricCircuit") -> int:
    """Current-carrying conductors in the bundle: as stated, else the circuit's own pair."""
    return round(
        stated_or_assumed(
            circuit.bundled, "electrics.circuits.bundled", f"electrics.circuits.{circuit.name}.bundled"
        )
    )


def _share_allowed(project: "Project", check: str, figure: Callable[[], float | None]) -> float | None:
    """Drop allowed as a share: the project's own limit of the check, else the catalogue's figure."""
    own: Any = (project.limits or {}).get(check)
    return own.at_most if own is not None and own.at_most is not None else figure()


def drop_allowed(project: "Project", circuit: "ElectricCircuit") -> float | None:
    """Drop allowed in running, as a share of the system voltage."""
    if circuit.vital:
        return _share_allowed(
            project, "electrics.drop_run", lambda: further_limit("electrics.drop_run", "vital circuit").limit
        )
    return _share_allowed(project, "electrics.drop_run", lambda: catalogue()["electrics.drop_run"].limit)


def section_needed(
    project: "Project",
    circuit: "ElectricCircuit",
    system: Real,
    currents: tuple[Real | None, Real | None],
    *,
    feeds_burner: bool,
) -> Real | None:
    """Smallest section on sale that keeps the drops asked for and carries the largest current."""
    start, run = currents
    share = drop_allowed(project, circuit)
    if (
        start is None
        or run is None
        or share is None
        or circuit.length is None
        or circuit.insulation is None
        or circuit.engine_space is None
    ):
        return None
    resistivity = resistivities()["usual"]
    needed = [section_for_drop(resistivity, run, circuit.length, allowed_drop(share, system))]
    if feeds_burner:
        at_start = further_limit("electrics.drop_start", "drop in the cable").limit
        needed.append(section_for_drop(resistivity, start, circuit.length, allowed_drop(at_start, system)))
    largest: Any = largest_current(start, run)
    return smallest_section(
        largest,
        largest_section(*needed),
        circuit.insulation,
        engine_space=circuit.engine_space,
        bundled=bundled(circuit),
    )
