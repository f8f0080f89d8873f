"""Does each consumer get its voltage, and may its cable carry the current?

Drops are counted with the resistivity of warm stranded copper; those by the other conventions stand beside,
since an outcome may hang on the choice. How long the battery lasts is asked in ``battery``.
"""

from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.cables import resistivities
from dossier.data.sources import OHM
from dossier.notation import ARITHMETIC, NotAssessed, OutOfRange, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.cable import (
    VOLTAGE,
    ampacity,
    cable_resistance,
    drop_share,
    terminal_voltage,
    voltage_drop,
)
from dossier.sizing.battery import BatteryDay, battery_day, consumers
from dossier.sizing.cable_sections import MEMBER, bundled, largest_current, section_needed

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.project.model.electrics import ElectricCircuit

QUESTION = "Does each consumer get its voltage?"
CONVENTIONS = ("iso", "copper", "abyc")
"""Resistivities beside the usual one."""


@formula("I = Σ I_i", ARITHMETIC)
def total_current(*currents: Annotated[Real, MEMBER]) -> Annotated[Real, q("I", "A", "current", low=0)]:
    """Current of several consumers together."""
    total: Real = 0.0
    for current in currents:
        total = total + current
    return total


@formula("U_0 = s · U", OHM)
def resting_voltage(
    share: Annotated[Real, q("s", "1", "resting voltage over the system voltage", low=0.5, high=1.2)],
    system: Annotated[Real, VOLTAGE],
) -> Annotated[Real, q("U_0", "V", "battery at rest, lowest charge, cold")]:
    """Voltage of a battery at rest, where none is stated."""
    return share * system


@dataclass(frozen=True)
class Drop:
    """Drop of one circuit by another convention of the resistivity."""

    convention: str
    run: Annotated[Real | None, q("ΔU", "V", "running")]
    start: Annotated[Real | None, q("ΔU", "V", "starting")]


@dataclass(frozen=True)
class CircuitStudy:
    """One circuit of the supply; what depends on a missing input is None.

    ``beyond_tables`` says why no ampacity could be found although all inputs are stated.
    """

    name: str
    feeds: tuple[str, ...]
    feeds_burner: bool
    start: Annotated[Real | None, q("I_s", "A", "largest current, at the start")]
    run: Annotated[Real | None, q("I", "A", "current running")]
    largest: Annotated[Real | None, q("I_max", "A", "largest current")]
    resistance: Annotated[Real | None, q("R", "ohm", "cable, out and back")]
    drop_run: Annotated[Real | None, q("ΔU", "V", "running", name="electrics.circuit.{name}.drop_run")]
    drop_start: Annotated[Real | None, q("ΔU", "V", "starting", name="electrics.circuit.{name}.drop_start")]
    share_run: Annotated[Real | None, q("δ", "1", "drop running over system voltage")]
    share_start: Annotated[Real | None, q("δ", "1", "drop starting over system voltage")]
    voltage_start: Annotated[
        Real | None,
        q(
            "U",
            "V",
            "at the consumer's terminals while starting",
            name="electrics.circuit.{name}.voltage_start",
        ),
    ]
    ampacity: Annotated[
        Real | None,
        q(
            "I_z",
            "A",
            "insulation, engine space and bundle counted",
            name="electrics.circuit.{name}.ampacity",
        ),
    ]
    section_needed: Annotated[
        Real | None,
        q(
            "A",
            "m2",
            "smallest cable that keeps drop and ampacity",
            name="electrics.circuit.{name}.section_needed",
        ),
    ]
    others: tuple[Drop, ...]
    beyond_tables: str = ""


@dataclass(frozen=True)
class ElectricsStudy:
    """All circuits, and the battery's day."""

    system: Annotated[Real, VOLTAGE]
    lowest_voltage: Annotated[Real, q("U_0", "V", "battery at rest, lowest charge, cold")]
    battery_resistance: Annotated[Real, q("R_i", "ohm", "resistance of the battery")]
    circuits: tuple[CircuitStudy, ...]
    day: BatteryDay

    @property
    def per_day(self) -> Real | None:
        """Charge on the design day (C)."""
        return self.day.per_day

    @property
    def autonomy(self) -> Real | None:
        """How long the usable charge lasts at the design load (s)."""
        return self.day.autonomy


def electrics(
    project: "Project", burner_share: Real | None, starts: Real | None
) -> ElectricsStudy | NotAssessed:
    """Voltage, ampacity and section of each circuit, and the battery's day.

    ``burner_share`` is the share of the design day the burner runs (0 to 1), ``starts`` the count of its
    starts in that day; without both the charge of the day is not known.
    """
    written = project.electrics
    if written is None or written.system is None:
        return NotAssessed(QUESTION, ("electrics.system",))
    system = written.system
    if written.lowest_voltage is None:
        lowest = resting_voltage(assumed("electrics.lowest_voltage"), system)
    else:
        lowest = written.lowest_voltage
    inner = stated_or_assumed(written.battery_resistance, "electrics.battery_resistance")
    circuits = tuple(_circuit(project, circuit, system, lowest, inner) for circuit in written.circuits or ())
    return ElectricsStudy(system, lowest, inner, circuits, battery_day(project, burner_share, starts))


def current_in(project: "Project", circuit: "ElectricCircuit", moment: str) -> Real | None:
    """Current of a circuit at the ``start`` or in the ``run``: as stated, else the sum of its consumers."""
    stated: Real | None = getattr(circuit, moment)
    if stated is not None or not circuit.feeds:
        return stated
    known = consumers(project)
    each: list[Any] = [getattr(known[tag], moment) if tag in known else None for tag in circuit.feeds]
    return None if None in each else total_current(*each)


def _circuit(
    project: "Project", circuit: "ElectricCircuit", system: Real, lowest: Real, inner: Real
) -> CircuitStudy:
    start, run = current_in(project, circuit, "start"), current_in(project, circuit, "run")
    known = [current for current in (start, run) if current is not None]
    largest = largest_current(*known) if len(known) == 2 else None  # noqa: PLR2004 - start and running
    feeds = circuit.feeds or ()
    feeds_burner = any(_is_burner(project, tag) for tag in feeds)
    resistance = _resistance(circuit, "usual")
    drop_run, drop_start = _drop(run, resistance), _drop(start, resistance)
    voltage = None
    if start is not None and resistance is not None:
        voltage = terminal_voltage(lowest, start, inner, resistance)
    carries, beyond = _ampacity(circuit)
    return CircuitStudy(
        circuit.name,
        feeds,
        feeds_burner,
        start,
        run,
        largest,
        resistance,
        drop_run,
        drop_start,
        None if drop_run is None else drop_share(drop_run, system),
        None if drop_start is None else drop_share(drop_start, system),
        voltage,
        carries,
        section_needed(project, circuit, system, (start, run), feeds_burner=feeds_burner),
        tuple(_by_convention(circuit, name, run, start) for name in CONVENTIONS),
        beyond,
    )


def _is_burner(project: "Project", tag: str) -> bool:
    component = (project.components or {}).get(tag)
    return component is not None and component.kind == "burner"


def _resistance(circuit: "ElectricCircuit", convention: str) -> Real | None:
    if circuit.length is None or circuit.section is None:
        return None
    return cable_resistance(resistivities()[convention], circuit.length, circuit.section)


def _drop(current: Real | None, resistance: Real | None) -> Real | None:
    return None if current is None or resistance is None else voltage_drop(current, resistance)


def _by_convention(circuit: "ElectricCircuit", name: str, run: Real | None, start: Real | None) -> Drop:
    resistance = _resistance(circuit, name)
    return Drop(name, _drop(run, resistance), _drop(start, resistance))


def _ampacity(circuit: "ElectricCircuit") -> tuple[Real | None, str]:
    """Ampacity of the cable where it lies, and why it has none although all inputs are stated."""
    if circuit.section is None or circuit.insulation is None or circuit.engine_space is None:
        return None, ""
    try:
        return (
            ampacity(
                circuit.section,
                circuit.insulation,
                engine_space=circuit.engine_space,
                bundled=bundled(circuit),
            ),
            "",
        )
    except OutOfRange as beyond:
        return None, str(beyond)
