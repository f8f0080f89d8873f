"""Which sources give heat in a mode, and how each holds the ring: burners and recovery exchangers."""

from enum import Enum
from typing import TYPE_CHECKING, Any

from dossier.data.assumptions import stated_or_assumed
from dossier.notation import Real
from dossier.notation.records import dataclass
from dossier.physics.exchanger import Arrangement, capacity_rate, exchanger_heat
from dossier.physics.fluid import water
from dossier.physics.rated_point import rated_conductance
from dossier.sizing.circuit import Circuit
from dossier.sizing.coolant import mean_of_cycle
from dossier.sizing.modes import ModeState

if TYPE_CHECKING:
    from dossier.project import Project

MODULATING = "modulating"
ABOVE = 1e-6
"""Excess over a temperature (K) that counts as none."""


class Regime(str, Enum):
    """How a source behaves once the balance has settled."""

    STEADY = "steady"
    CYCLING = "cycling"
    FULL = "at full output"
    OFF = "off"

    def __str__(self) -> str:
        return self.value


@dataclass(frozen=True)
class BurnerModel:
    """A burner that holds its setpoint between its lowest and its full output (W); temperatures in K."""

    tag: str
    full: Real
    lowest: Real
    setpoint: Real
    band: Real
    cycle_mean: Real

    def settled(self, regime: Regime, heat: float, entering: float, leaving: float) -> Regime:
        """Regime that follows from the heat it gives (W) and the water it meets (K) in a regime."""
        if regime is Regime.FULL:
            return regime if leaving <= float(self.setpoint) + ABOVE else Regime.STEADY
        if regime is Regime.OFF:
            return regime if entering >= float(self.cycle_mean) - ABOVE else Regime.STEADY
        if heat < 0:
            return Regime.OFF
        if heat > float(self.full):
            return Regime.FULL
        if regime is Regime.STEADY and heat < float(self.lowest):
            return Regime.CYCLING
        return regime

    def temperature(self, regime: Regime) -> float:
        """Temperature it holds at its outlet (K)."""
        return float(self.cycle_mean if regime is Regime.CYCLING else self.setpoint)


@dataclass(frozen=True)
class RecoveryModel:
    """An exchanger that warms the ring from an engine's jacket.

    The engine gives ``jacket_heat`` (W). Its thermostat opens to its own cooler at ``thermostat`` (K);
    the cooler's share grows in a straight line until it takes all at ``jacket_highest`` (K).
    """

    tag: str
    serves: str
    conductance: Real
    engine_rate: Real
    jacket_heat: Real
    thermostat: Real | None
    jacket_highest: Real | None

    def jacket(self, ring_in: float, ring_rate: float) -> float:
        """Temperature at which the jacket settles (K): what it gives the ring and its cooler is its heat."""
        passed = float(
            exchanger_heat(
                Arrangement.COUNTERFLOW,
                float(self.conductance),
                float(self.engine_rate),
                ring_rate,
                301.0,
                300.0,
            )
        )
        heat = float(self.jacket_heat)
        alone = ring_in + heat / passed if passed > 0 else float("inf")
        if self.jacket_highest is None:
            return alone
        highest = float(self.jacket_highest)
        opens = float(self.thermostat) if self.thermostat is not None else highest
        if alone <= opens or highest <= opens:
            return min(alone, highest)
        cooler = heat / (highest - opens)
        return min((heat + passed * ring_in + cooler * opens) / (passed + cooler), highest)

    def heat(self, ring_in: float, ring_rate: float) -> float:
        """Heat given to the ring (W); negative where the ring is hotter than the jacket may get."""
        jacket = self.jacket(ring_in, ring_rate)
        if jacket == float("inf"):
            return 0.0
        return float(
            exchanger_heat(
                Arrangement.COUNTERFLOW,
                float(self.conductance),
                float(self.engine_rate),
                ring_rate,
                jacket,
                ring_in,
            )
        )


def burner_models(circuit: Circuit, state: ModeState) -> dict[str, BurnerModel]:
    """Burners that run in a mode."""
    found = {}
    for place in circuit.of_kind("burner"):
        unit: Any = place.unit
        if place.tag in state.stopped or unit.output is None:
            continue
        found[place.tag] = burner_model(place.tag, unit)
    return found


def burner_model(tag: str, unit: Any) -> BurnerModel:
    """A burner with what is assumed where its plate is silent."""
    key = f"components.{tag}"
    full = unit.output.max
    lowest = unit.output.min if unit.output.min is not None else full
    setpoint = stated_or_assumed(unit.setpoint, "components.burner.setpoint", f"{key}.setpoint")
    band = stated_or_assumed(unit.band, "components.burner.band", f"{key}.band")
    return BurnerModel(tag, full, lowest, setpoint, band, mean_of_cycle(setpoint, band))


def recovery_models(project: "Project", circuit: Circuit, state: ModeState) -> dict[str, RecoveryModel]:
    """Recovery exchangers that take heat in a mode, where their rated point and their engine are known."""
    found = {}
    for place in circuit.of_kind("recovery_exchanger"):
        unit: Any = place.unit
        if place.tag not in state.recovering:
            continue
        model = recovery_model(project, place.tag, unit)
        if model is not None:
            found[place.tag] = model
    return found


def recovery_model(project: "Project", tag: str, unit: Any) -> RecoveryModel | None:
    """A recovery exchanger from its rated point, None where that or the engine's heat is not known."""
    at, engine = unit.at, (project.components or {}).get(unit.serves or "")
    known: Any = engine
    if known is None or known.jacket_heat is None or unit.output is None or at is None:
        return None
    if None in {at.engine_in, at.engine_flow, at.ring_in, at.ring_flow}:
        return None
    liquid = water()
    engine_rate = capacity_rate(
        at.engine_flow, liquid.density(at.engine_in), liquid.specific_heat(at.engine_in)
    )
    ring_rate = capacity_rate(at.ring_flow, liquid.density(at.ring_in), liquid.specific_heat(at.ring_in))
    conductance = rated_conductance(
        Arrangement.COUNTERFLOW, unit.output, engine_rate, ring_rate, at.engine_in, at.ring_in
    )
    return RecoveryModel(
        tag,
        unit.serves,
        conductance,
        engine_rate,
        known.jacket_heat,
        known.thermostat,
        known.jacket_highest,
    )
