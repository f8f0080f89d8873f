"""What does an engine hour save, how warm does its jacket stay, and how hot may it make the ring?

The jacket settles where what it gives the ring and its own cooler is the engine's heat. With all zones shut
the ring climbs until its pipes lose as much, or until the engine's cooler holds the jacket at its highest.
From cold, the ring draws the jacket down with it: how far, and for how long, is told for an engine that runs
at its usual load from the first minute.
"""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import stated_or_assumed
from dossier.data.fuels import fuel
from dossier.data.sources import HEAT_BALANCE
from dossier.notation import NotAssessed, Real, chosen, formula, q, solved
from dossier.notation.records import dataclass
from dossier.physics.exchanger import capacity_rate
from dossier.physics.fuel import fuel_rate
from dossier.physics.tap_exchanger import fall
from dossier.sizing.cold_jacket import ColdHour, ColdRing, cold_hour
from dossier.sizing.coolant import Coolant
from dossier.sizing.extremes import greatest_of, least_of
from dossier.sizing.heat_loss import HeatLoss
from dossier.sizing.heat_recovery_limits import (
    RING,
    highest_ring,
    recovering_modes,
    ring_loss,
    unknown_jackets,
)
from dossier.sizing.ring import Operation, RingStudy
from dossier.sizing.ring_results import total_heat
from dossier.sizing.sources_of_heat import RecoveryModel, recovery_model
from dossier.sizing.store_parts import moving_parts

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "What does an engine hour save?"
HOUR = 3600.0
HEAT = q("Φ", "W", "heat taken from an engine")
JACKET = q("θ_j", "K", "jacket, settled")


@formula("V = q_f · n · 3600 s", HEAT_BALANCE)
def saved_in_a_day(
    rate: Annotated[Real, q("q_f", "m3/s", "fuel saved while the engine runs", low=0, high=1e-4)],
    hours: Annotated[Real, q("n", "1", "hours a day that it runs", low=0, high=24)],
) -> Annotated[Real, q("V", "m3", "fuel saved in a day", low=0)]:
    """Burner fuel that an engine's hours save in a day."""
    return rate * hours * HOUR


@dataclass(frozen=True)
class RecoveringUnit:
    """One exchanger in one mode: what it gives the ring, and how its engine fares.

    ``highest`` is None where nothing is known that ends the climb of the ring. ``cold`` is None where the
    temperature of the cold boat is not stated.
    """

    tag: str
    serves: str
    heat: Annotated[Real, HEAT]
    jacket: Annotated[Real, JACKET]
    ring_in: Annotated[Real, q("θ_R", "K", "ring entering")]
    ring_out: Annotated[Real, q("θ_V", "K", "ring leaving")]
    uplift: Annotated[Real, q("Δθ", "K", "uplift of the return")]
    highest: Annotated[Real | None, RING]
    thermostat: Annotated[Real | None, q("θ_th", "K", "its engine's thermostat opens")]
    cold: ColdHour | None


@dataclass(frozen=True)
class RecoveringMode:
    """A mode in which heat is taken from an engine or generator; the coldest engine and the hottest ring."""

    mode: str
    units: tuple[RecoveringUnit, ...]
    burner_runs: bool
    heat: Annotated[Real, q("Φ", "W", "taken from engine or generator", name="recovery.{mode}.heat")]
    engine_temperature: Annotated[
        Real, q("θ_j", "K", "jacket, settled", name="recovery.{mode}.engine_temperature")
    ]
    ring_highest: Annotated[
        Real | None,
        q(
            "θ_r",
            "K",
            "ring where losses balance the recovered heat, zones shut",
            name="recovery.{mode}.ring_highest",
        ),
    ]
    fuel_saved: Annotated[
        Real | None, q("q_f", "m3/s", "burner fuel saved", name="recovery.{mode}.fuel_saved")
    ]
    saved_per_day: Annotated[Real | None, q("V", "m3", "burner fuel saved in a day")]


@dataclass(frozen=True)
class Recovery:
    """All recovering modes that were solved; ``lacking`` holds what the others wait for."""

    modes: Mapping[str, RecoveringMode]
    lacking: Mapping[str, NotAssessed]


def recovery_study(
    project: "Project",
    ring: RingStudy | NotAssessed,
    coolant: Coolant | NotAssessed,
    heat_loss: HeatLoss | NotAssessed,
) -> Recovery | NotAssessed:
    """Recovered heat, jacket, hottest ring and saved fuel of every recovering mode."""
    components: Mapping[str, Any] = project.components or {}
    exchangers = [tag for tag, c in components.items() if c.kind == "recovery_exchanger"]
    if not exchangers:
        return NotAssessed(QUESTION, ("recovery",), "" if project.recovery is None else "recovery: none")
    if isinstance(ring, NotAssessed):
        return NotAssessed(QUESTION, ring.needs, ring.why)
    if isinstance(coolant, NotAssessed):
        return NotAssessed(QUESTION, coolant.needs, coolant.why)
    recovering = recovering_modes(project)
    if not recovering:
        return NotAssessed(QUESTION, ("modes.recovering",), "no mode takes heat from an engine")
    modes: dict[str, RecoveringMode] = {}
    lacking: dict[str, NotAssessed] = {}
    for name, tags in recovering.items():
        needs = [key for tag in tags for key in missing_figures(components, tag)]
        if name not in ring.operations:
            needs += unknown_jackets(project, tags)
            lacking[name] = NotAssessed(QUESTION, tuple(needs), ring.not_solved.get(name, ""))
            continue
        found = None if needs else _mode(project, ring, coolant, heat_loss, ring.operations[name])
        if found is None:
            why = "" if needs else "no water passes the exchanger"
            lacking[name] = NotAssessed(QUESTION, tuple(dict.fromkeys(needs)), why)
        else:
            modes[name] = found
    return Recovery(modes, lacking)


def missing_figures(components: Mapping[str, Any], tag: str) -> list[str]:
    """Keys without which the heat of an exchanger cannot be found."""
    key, unit = f"components.{tag}", components[tag]
    needs = [f"{key}.{name}" for name in ("serves", "output") if getattr(unit, name) is None]
    needs += [
        f"{key}.at.{name}"
        for name in ("engine_in", "engine_flow", "ring_in", "ring_flow")
        if unit.at is None or getattr(unit.at, name) is None
    ]
    engine = components.get(unit.serves or "")
    if engine is not None and engine.jacket_heat is None:
        needs.append(f"components.{engine.tag}.jacket_heat")
    return needs


def _mode(
    project: "Project",
    ring: RingStudy,
    coolant: Coolant,
    heat_loss: HeatLoss | NotAssessed,
    operation: Operation,
) -> RecoveringMode | None:
    """One mode, None where no water passes its exchangers."""
    units = [
        unit
        for tag in operation.state.recovering
        if (unit := _unit(project, ring, coolant, heat_loss, operation, tag)) is not None
    ]
    if not units or operation.heat is None:
        return None
    heat = total_heat(*(unit.heat for unit in units))
    ends = [unit.highest for unit in units if unit.highest is not None]
    hottest = None
    if len(ends) == len(units):
        hottest = greatest_of(RING, "hottest of its engines", *ends)
    saved, a_day = _saved(project, heat, units)
    return RecoveringMode(
        operation.mode,
        tuple(units),
        any(source.kind == "burner" for source in operation.heat.sources.values()),
        heat,
        least_of(JACKET, "coldest of its engines", *(unit.jacket for unit in units)),
        hottest,
        saved,
        a_day,
    )


def _saved(
    project: "Project", heat: Real, units: Sequence[RecoveringUnit]
) -> tuple[Real | None, Real | None]:
    """Burner fuel that the heat saves, at once and in a day; none without a burner."""
    components: Mapping[str, Any] = project.components or {}
    burner: Any = next((c for c in components.values() if c.kind == "burner"), None)
    if burner is None:
        return None, None
    key = f"components.{burner.tag}.efficiency"
    efficiency = stated_or_assumed(burner.efficiency, "components.burner.efficiency", key)
    useful = heat
    if float(heat) < 0:
        useful = chosen(0.0, HEAT, "the ring warms the engine", HEAT_BALANCE, heat)
    saved = fuel_rate(useful, efficiency, fuel().heat_of_combustion, fuel().density)
    hours = [components[unit.serves].hours_per_day for unit in units if unit.serves in components]
    known = [each for each in hours if each is not None]
    return saved, saved_in_a_day(saved, min(known, key=float)) if known else None


def _unit(  # noqa: PLR0913, PLR0917 - one exchanger with all that surrounds it
    project: "Project",
    ring: RingStudy,
    coolant: Coolant,
    heat_loss: HeatLoss | NotAssessed,
    operation: Operation,
    tag: str,
) -> RecoveringUnit | None:
    unit: Any = (project.components or {})[tag]
    model = recovery_model(project, tag, unit)
    heat = operation.heat
    if model is None or heat is None or tag not in heat.sources:
        return None
    source = heat.sources[tag]
    flow = operation.flows.edges[tag].flow
    rate = capacity_rate(flow, coolant.fluid.density(source.back), coolant.fluid.specific_heat(source.back))
    loss, air = ring_loss(project, ring, heat_loss, model)
    return RecoveringUnit(
        tag,
        model.serves,
        source.output,
        _settled_jacket(model, source.back, rate),
        source.back,
        source.supply,
        fall(source.supply, source.back),
        highest_ring(model, loss, air),
        model.thermostat,
        _cold(project, coolant, operation, model, (rate, loss, air)),
    )


def _settled_jacket(model: RecoveryModel, ring_in: Real, rate: Real) -> Real:
    """Jacket in a mode (K): its heat parted between ring and cooler."""
    given: list[tuple[Any, Real]] = [
        (q("UA", "W/K", f"conductance of {model.tag}"), model.conductance),
        (q("Φ_j", "W", f"jacket heat of {model.serves}"), model.jacket_heat),
        (q("θ_R", "K", "ring entering"), ring_in),
        (q("Ċ", "W/K", "capacity rate of the ring"), rate),
    ]
    if model.thermostat is not None:
        given.append((q("θ_th", "K", "thermostat opens"), model.thermostat))
    if model.jacket_highest is not None:
        given.append((q("θ_max", "K", "highest jacket"), model.jacket_highest))
    text = "jacket heat = heat to the ring + heat to its own cooler"
    return solved(model.jacket(float(ring_in), float(rate)), JACKET, text, HEAT_BALANCE, given)


def _cold(
    project: "Project",
    coolant: Coolant,
    operation: Operation,
    model: RecoveryModel,
    found: tuple[Real, Real, Real],
) -> ColdHour | None:
    """The first hour from a cold boat; None where its temperature is not stated or no pipe loses heat."""
    rate, loss, air = found
    start = project.conditions.unheated_start if project.conditions else None
    if start is None or float(loss) <= 0:
        return None
    capacity = moving_parts(project, coolant, operation, start).heat_capacity
    return cold_hour(model, rate, ColdRing(capacity, loss, air, start))
