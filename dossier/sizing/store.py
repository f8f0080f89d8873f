"""How long does the burner run, and how often does it start?

Closed forms for every mode of use, with only what moves in that mode. The swing of the store is not the band
of the sensor: at the burner's outlet the burner's own rise takes its part of the band, and where it takes all
of it no store lengthens the run.
"""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np

from dossier.data.assumptions import assumed
from dossier.data.sources import BURNER_CYCLES, HEAT_BALANCE
from dossier.notation import (
    PRACTICE,
    NotAssessed,
    Quantity,
    Real,
    Source,
    formula,
    q,
    solved,
)
from dossier.notation.records import dataclass
from dossier.physics import store as forms
from dossier.sizing.coolant import Coolant
from dossier.sizing.heat_loss import HeatLoss
from dossier.sizing.ring import RingStudy
from dossier.sizing.store_curves import StartsCurve, VolumeCurve, starts_curves, volume_curves
from dossier.sizing.store_modes import (
    LOAD,
    OUTLET,
    RETURN,
    RUN,
    Control,
    ModeCycle,
    control_of,
    mode_cycle,
    switching_at,
)
from dossier.sizing.store_parts import QUESTION, missing_volumes, mixing_share, waiting
from dossier.sizing.store_stop import PumpStop, pump_stop
from dossier.sizing.store_volume import heat_by_volume, least_run, store_to_add

if TYPE_CHECKING:
    from dossier.project import Project

SMALLEST = "smallest load"
"""Name of the case that stands in for the modes where the file gives the design mode only."""
EITHER = "store or return"


@formula("Φ_L = s · Φ_HL", PRACTICE)
def share_of_design_load(
    share: Annotated[Real, q("s", "1", "smallest load over design load", low=0, high=1)],
    design: Annotated[Real, q("Φ_HL", "W", "design load", low=0, high=1e6)],
) -> Annotated[Real, q("Φ_L", "W", "smallest load")]:
    """Smallest load where no mode of use but the design mode is described."""
    return share * design


@dataclass(frozen=True)
class StoreStudy:
    """Runs and starts of the burner in all modes.

    ``sensor`` is where it sits, or is taken to sit where ``sensor_stated`` is false. ``volume_needed`` is
    what must be added to the ring, None where no volume will do; ``sentence`` says either in words.
    """

    burner: str
    control: Control
    sensor: str
    sensor_stated: bool
    modes: Mapping[str, ModeCycle]
    shortest: ModeCycle | None
    heat_capacity: Annotated[
        Real, q("C", "J/K", "fluid and metal of the moving volume", name="store.heat_capacity")
    ]
    smallest_load: Annotated[
        Real | None, q("Φ_L", "W", "smallest load of any mode", name="store.smallest_load")
    ]
    running_time: Annotated[
        Real | None,
        q("t_on", "s", "shortest burner run: smallest load of any mode", name="store.running_time"),
    ]
    pause: Annotated[Real | None, q("t_off", "s", "pause at the smallest load", name="store.pause")]
    worst_load: Annotated[Real, q("Φ_w", "W", "load with the most starts")]
    starts_per_hour: Annotated[Real, q("n", "1/h", "at the worst load", name="store.starts_per_hour")]
    mean_output: Annotated[
        Real | None,
        q("Φ_m", "W", "over a cycle of the plain band, restart delay counted", name="store.mean_output"),
    ]
    least_run: Annotated[Real, q("t", "s", "least running time asked for")]
    volume_needed: Annotated[
        Real | None, q("V", "m3", "for the least running time", name="store.volume_needed")
    ]
    sentence: str
    curves: tuple[StartsCurve, ...]
    volumes: tuple[VolumeCurve, ...]
    stop: PumpStop

    def starts_at(self, load: Real) -> Real:
        """Starts per hour in the design mode at a load (W), number or samples; 0 where it does not cycle."""
        return self._at(load)[1]

    def run_at(self, load: Real) -> Real:
        """Burner run (s) in the design mode at a load (W), number or samples; NaN where it does not cycle."""
        return self._at(load)[0]

    def _at(self, load: Real) -> tuple[Real, Real]:
        design = next(iter(self.modes.values()))
        loads = np.atleast_1d(np.asarray(load, dtype=float))
        runs, starts = design.switching.curve(float(self.heat_capacity), loads)
        return (runs, starts) if isinstance(load, np.ndarray) else (float(runs[0]), float(starts[0]))

    @property
    def standby(self) -> ModeCycle | None:
        """The mode in which no emitter gets water: summer standby of pipes and store."""
        return next((mode for mode in self.modes.values() if not mode.emits), None)


def store_study(
    project: "Project",
    ring: RingStudy | NotAssessed,
    coolant: Coolant | NotAssessed,
    heat_loss: HeatLoss | NotAssessed,
) -> StoreStudy | NotAssessed:
    """Runs, pauses and starts of the burner in all modes, and what a store would do about them."""
    if isinstance(ring, NotAssessed) or isinstance(coolant, NotAssessed):
        return waiting(QUESTION, ring, coolant)
    places = ring.hydraulics.circuit.places
    burners: list[Any] = [place.unit for place in places.values() if place.kind == "burner"]
    if not burners:
        return NotAssessed(QUESTION, ("components.burner",), "no burner is in the ring")
    lacking = tuple(f"components.{unit.tag}.output" for unit in burners if unit.output is None)
    missing = NotAssessed(QUESTION, lacking) if lacking else missing_volumes(project, frozenset(places))
    if missing is not None:
        return missing
    for unit in burners:
        control = control_of(unit)
        modes = {
            name: mode_cycle(project, coolant, control, operation)
            for name, operation in ring.operations.items()
            if operation.heat is not None and unit.tag in operation.heat.sources
        }
        if modes:
            flow = ring.operations[next(iter(modes))].flows.edges[unit.tag].flow
            return _study(project, coolant, heat_loss, control, modes, flow)
    return NotAssessed(QUESTION, ("modes",), "no burner runs in any mode that could be solved")


def _study(  # noqa: PLR0913, PLR0917 - one burner with all that surrounds it
    project: "Project",
    coolant: Coolant,
    loss: HeatLoss | NotAssessed,
    control: Control,
    modes: Mapping[str, ModeCycle],
    flow: Real,
) -> StoreStudy:
    """The study of one burner; ``flow`` (m³/s) is that through it in the first of the modes."""
    design = next(iter(modes.values()))
    cases = _cases(project, loss, modes)
    smallest = min(cases, key=lambda case: float(case.load), default=None)
    cycling = [case for case in cases if case.run is not None]
    shortest = min(cycling, key=lambda case: float(case.run or 0.0), default=None)
    worst = design.switching.worst_load(design.parts.heat_capacity)
    wanted = least_run(project, control.unit)
    share = _mixing(project, design)
    by_volume = heat_by_volume(coolant.density, coolant.specific_heat)
    volume, sentence = store_to_add(shortest, wanted, by_volume, share)
    sensor = control.sensor(design.parts.stores)
    places = {
        EITHER if place == RETURN else place: switching_at(control, coolant, design.parts, flow, place)
        for place in (RETURN, OUTLET)
    }
    more = float(by_volume) * float(share)
    at_once = design.parts.heat_capacity
    curves: tuple[VolumeCurve, ...] = ()
    if smallest is not None:
        held = (float(smallest.parts.heat_capacity), float(at_once))
        curves = volume_curves(places, held, more, float(smallest.load))
    return StoreStudy(
        burner=control.unit.tag,
        control=control,
        sensor=sensor,
        sensor_stated=control.unit.sensor is not None,
        modes=modes,
        shortest=shortest,
        heat_capacity=at_once,
        smallest_load=_least(cases, "load", LOAD, HEAT_BALANCE),
        running_time=_least(cycling, "run", RUN, BURNER_CYCLES),
        pause=smallest.pause if smallest else None,
        worst_load=worst,
        starts_per_hour=forms.starts_per_hour(*design.switching.cycle(at_once, worst)),
        mean_output=_mean_output(loss, control, design),
        least_run=wanted,
        volume_needed=volume,
        sentence=sentence,
        curves=starts_curves(places, float(at_once), more),
        volumes=curves,
        stop=pump_stop(control.unit, coolant, sensor, control.setpoint),
    )


def _cases(
    project: "Project", loss: HeatLoss | NotAssessed, modes: Mapping[str, ModeCycle]
) -> list[ModeCycle]:
    """Modes whose loads count for the shortest run; a share of the design load where there is one only."""
    cases = [mode for mode in modes.values() if float(mode.load) > 0]
    if len(project.modes or {}) > 1 or isinstance(loss, NotAssessed) or float(loss.total) <= 0:
        return cases
    share = assumed("store.smallest_load", "modes")
    return [next(iter(modes.values())).with_load(SMALLEST, share_of_design_load(share, loss.total))]


def _least(cases: Sequence[ModeCycle], what: str, gives: Quantity, source: Source) -> Real | None:
    """The least load or run of several cases, with all of them in its working."""
    pairs = [(case.mode, getattr(case, what)) for case in cases]
    if not pairs:
        return None
    name, number = min(pairs, key=lambda pair: float(pair[1]))
    given = [(gives, each) for _, each in pairs]
    return solved(float(number), gives, f"least of all modes: {name}", source, given, function=_smallest)


def _smallest(*numbers: float) -> float:
    return min(numbers)


def _mixing(project: "Project", design: ModeCycle) -> Real:
    """Share that mixes: of the first store in the ring, else what is assumed of one to be added."""
    if design.parts.stores:
        return mixing_share((project.components or {})[design.parts.stores[0]])
    return assumed("components.buffer.mixing")


def _mean_output(loss: HeatLoss | NotAssessed, control: Control, design: ModeCycle) -> Real | None:
    """Mean output at the design load over the plain band; all it has where it does not stop."""
    if isinstance(loss, NotAssessed) or float(loss.total) <= 0:
        return None
    if not design.switching.cycles_at(loss.total):
        full: Real = control.unit.output.max
        return full
    switching, capacity = design.switching, design.parts.heat_capacity
    rest = switching.cycle(capacity, loss.total)[1]
    return forms.mean_output(control.output, switching.plain_run(capacity, loss.total), rest)
