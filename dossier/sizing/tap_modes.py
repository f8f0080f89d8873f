"""What does each mode of use bring to the tap? Primary, heat left for it, ring when a shower begins."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import stated_or_assumed
from dossier.data.sources import HEAT_BALANCE
from dossier.notation import Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.exchanger import capacity_rate
from dossier.physics.tap_exchanger import heat_left
from dossier.sizing.circuit import Circuit
from dossier.sizing.coolant import Coolant
from dossier.sizing.extremes import greatest_of, least_of
from dossier.sizing.ring import Operation, RingStudy
from dossier.sizing.ring_results import SourceState, rise_at_output, total_heat
from dossier.sizing.sources_of_heat import Regime
from dossier.sizing.store_modes import OUTLET, Control, control_of

if TYPE_CHECKING:
    from dossier.project import Project

DAMPING = ("buffer", "water_heater")
"""Kinds whose content stands between a burner's rise and what follows."""
HOTTEST = q("θ_max", "K", "hottest water that reaches the exchanger")


@formula("θ_0 = θ_set − Δθ_sw", HEAT_BALANCE)
def cycle_bottom(
    setpoint: Annotated[Real, q("θ_set", "K", "setpoint", low=273, high=423)],
    band: Annotated[Real, q("Δθ_sw", "K", "switching band", low=0, high=80)],
) -> Annotated[Real, q("θ_0", "K", "ring when the burner starts")]:
    """Coldest the ring gets between two runs of the burner."""
    return setpoint - band


@formula("θ_max = θ_set + Δθ", HEAT_BALANCE)
def cycle_top(
    setpoint: Annotated[Real, q("θ_set", "K", "setpoint", low=273, high=423)],
    rise: Annotated[Real, q("Δθ", "K", "rise over the burner when it stops", low=0, high=150)],
) -> Annotated[Real, HOTTEST]:
    """Hottest water of a cycle: the sensor feels the setpoint, the burner adds its rise behind it."""
    return setpoint + rise


@dataclass(frozen=True)
class TapMode:
    """One mode as an exchanger for tap water meets it.

    ``lit`` where a burner burns already when a shower begins; else it must start first. ``rise`` is what its
    full output adds to the water before that reaches the exchanger, 0 where a store lies between or no
    burner stands before it.
    """

    mode: str
    tag: str
    primary: Annotated[Real, q("θ_1", "K", "primary entering, mean")]
    flow: Annotated[Real, q("q_1", "m3/s", "flow of the primary")]
    rate: Annotated[Real, q("Ċ_1", "W/K", "capacity rate of the primary")]
    flame: Annotated[Real, q("Φ_s", "W", "full output of its burners")]
    recovered: Annotated[Real, q("Φ_r", "W", "heat from engines, all of it where no burner runs")]
    taken: Annotated[Real, q("Φ_t", "W", "heat the ring takes without the tap")]
    fans: Annotated[Real, q("Φ_f", "W", "part of it that fans take")]
    pipes: Annotated[Real, q("Φ_p", "W", "part of it that pipes lose")]
    fan_stop: Annotated[Real | None, q("θ_f", "K", "ring at which the fans stop")]
    start_time: Annotated[Real, q("t_a", "s", "until a burner burns")]
    bottom: Annotated[Real, q("θ_0", "K", "ring when a burner starts")]
    back: Annotated[Real, q("θ_R", "K", "ring where it comes back to the source")]
    top: Annotated[Real, q("θ_set", "K", "ring at which the flame ends")]
    rise: Annotated[Real, q("Δθ", "K", "rise before the exchanger, at full output")]
    hottest: Annotated[Real, HOTTEST]
    lit: bool
    rests: bool

    def left(self, *, heats_rooms: bool) -> Real:
        """Heat left for the tap (W), with the rooms heated or with the pipes' loss alone."""
        return heat_left(total_heat(self.flame, self.recovered), self.taken if heats_rooms else self.pipes)


def tap_modes(
    project: "Project", ring: RingStudy, coolant: Coolant, tag: str, jackets: Mapping[str, Real]
) -> tuple[TapMode, ...]:
    """All solved modes in which warm water passes an exchanger, in the order of the file.

    ``jackets`` holds the highest temperature (K) to which an engine may bring the ring, by mode.
    """
    found = []
    for operation in ring.operations.values():
        heat = operation.heat
        if heat is None or tag not in heat.inlets or float(operation.flows.edges[tag].flow) <= 0:
            continue
        found.append(_mode(project, ring.hydraulics.circuit, coolant, operation, tag, jackets))
    return tuple(found)


def _mode(  # noqa: PLR0913, PLR0917 - one mode with all that surrounds it
    project: "Project",
    circuit: Circuit,
    coolant: Coolant,
    operation: Operation,
    tag: str,
    jackets: Mapping[str, Real],
) -> TapMode:
    heat: Any = operation.heat
    sources: Mapping[str, SourceState] = heat.sources
    burners = {name: state for name, state in sources.items() if state.kind == "burner"}
    engines = [
        state.output if burners else state.full for name, state in sources.items() if name not in burners
    ]
    entering, flow = heat.inlets[tag], operation.flows.edges[tag].flow
    rate = capacity_rate(flow, coolant.fluid.density(entering), coolant.fluid.specific_heat(entering))
    fans = {name: e for name, e in heat.emitters.items() if e.kind == "fan_coil" and e.fan_runs}
    stops = [
        stated_or_assumed(
            getattr((project.components or {})[name], "start_stat", None),
            "components.fan_coil.start_stat",
            f"components.{name}.start_stat",
        )
        for name in fans
    ]
    main = next(iter(burners.values()), next(iter(sources.values())))
    control = control_of((project.components or {})[main.tag]) if burners else None
    before = _burner_before(circuit, tag, burners)
    top: Real = control.setpoint if control else jackets.get(operation.mode, entering)
    return TapMode(
        operation.mode,
        tag,
        entering,
        flow,
        rate,
        total_heat(*(state.full for state in burners.values())) if burners else 0.0,
        total_heat(*engines) if engines else 0.0,
        total_heat(*(state.output for state in sources.values())),
        total_heat(*(e.given for e in fans.values())) if fans else 0.0,
        total_heat(*(pipe.loss for pipe in heat.pipes.values())) if heat.pipes else 0.0,
        max(stops, key=float) if stops else None,
        control.start_time if control else 0.0,
        cycle_bottom(control.setpoint, control.band) if control else main.back,
        main.back,
        top,
        burners[before].rise_at_full if before else 0.0,
        _hottest(control, main, before, operation, circuit, jackets),
        lit=main.regime not in {Regime.CYCLING, Regime.OFF},
        rests=bool(burners),
    )


def _hottest(  # noqa: PLR0913, PLR0917 - one source with all that surrounds it
    control: Control | None,
    main: SourceState,
    before: str,
    operation: Operation,
    circuit: Circuit,
    jackets: Mapping[str, Real],
) -> Real:
    """Hottest water that reaches the exchanger: at the top of the burner's cycle, or an engine's."""
    found: list[Real] = [main.supply]
    if control is not None:
        stores = [place.tag for place in circuit.of_kind("buffer")]
        rise: Real = 0.0
        if before == main.tag and control.sensor(stores) != OUTLET and float(main.rise_at_full) > 0:
            rise = rise_at_output(control.output, rise_rate(main.full, main.rise_at_full))
        peak = cycle_top(control.setpoint, rise)
        stat = control.unit.overheat_stat
        found.append(peak if stat is None else least_of(HOTTEST, "the stat stops it", peak, stat))
    if operation.mode in jackets:
        found.append(jackets[operation.mode])
    return greatest_of(HOTTEST, f"hottest in mode {operation.mode}", *found)


@formula("Ċ = Φ/Δθ", HEAT_BALANCE)
def rise_rate(
    output: Annotated[Real, q("Φ", "W", "output", low=1, high=1e7)],
    rise: Annotated[Real, q("Δθ", "K", "rise it makes", low=1e-6, high=1e4)],
) -> Annotated[Real, q("Ċ", "W/K", "capacity rate of the flow")]:
    """Capacity rate of the flow over a burner, from the rise its output makes."""
    return output / rise


def _burner_before(circuit: Circuit, tag: str, burners: Mapping[str, object]) -> str:
    """Burner whose water reaches the exchanger unmixed; empty where a store or a junction lies between."""
    here, seen = circuit.places[tag].start, set[str]()
    while True:
        arriving = [place for place in circuit.places.values() if place.end == here]
        if len(arriving) != 1 or arriving[0].tag in seen or arriving[0].kind in DAMPING:
            return ""
        place = arriving[0]
        if place.tag in burners:
            return place.tag
        seen.add(place.tag)
        here = place.start
