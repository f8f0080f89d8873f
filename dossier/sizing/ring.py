"""The circuit in all its modes: balanced once, then flow and temperature for each."""

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.sources import HEAT_BALANCE
from dossier.notation import (
    Fault,
    Given,
    NotAssessed,
    NotConverged,
    OutOfRange,
    ProjectFaults,
    Real,
    chosen,
    formula,
    q,
    solved,
)
from dossier.physics.network_elements import CircuitFault
from dossier.physics.valves import authority, setting_for_kv
from dossier.sizing.balancing import OPEN, Throttled, wanted_flow
from dossier.sizing.circuit import Circuit, Place
from dossier.sizing.coolant import Coolant
from dossier.sizing.emitters import EmitterModel, emitter_models
from dossier.sizing.flows import FlowPicture, flow_picture, network_inputs
from dossier.sizing.heat_loss import HeatLoss, loss_in_mode
from dossier.sizing.hydraulics import Hydraulics, missing_figures
from dossier.sizing.modes import DESIGN, ModeState, mode_states, valve_settings
from dossier.sizing.operation import Outcome, Setting, operate
from dossier.sizing.ring_results import ModeHeat, mode_heat
from dossier.sizing.sources_of_heat import burner_models, recovery_models
from dossier.sizing.surroundings import pipe_loss

if TYPE_CHECKING:
    from dossier.project import Project


@dataclass(frozen=True)
class WantedFlow:
    """Flow that a branch's zones call for."""

    name: str
    load: Annotated[Real, q("Φ", "W", "heat its zones call for")]
    flow: Annotated[Real, q("q_V", "m3/s", "called for by the zone's load", name="flow_wanted.branch.{name}")]


@dataclass(frozen=True)
class Preset:
    """What a balancing valve is to be set to."""

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


@dataclass(frozen=True)
class Operation:
    """One mode, solved."""

    mode: str
    state: ModeState
    flows: FlowPicture
    heat: ModeHeat | None
    outcome: Outcome
    standing_still: tuple[str, ...]
    reversed_edges: tuple[str, ...]


@dataclass(frozen=True)
class RingStudy:
    """The circuit in all its modes.

    ``share`` is the multiple of the wanted flows that every balanced branch gets, ``index`` the branch whose
    valve stays open.
    """

    hydraulics: Hydraulics
    operations: Mapping[str, Operation]
    not_solved: Mapping[str, str]
    wanted: Mapping[str, WantedFlow]
    presets: Mapping[str, Preset]
    share: float | None
    index: str
    emitters: Mapping[str, EmitterModel]
    lacking: Mapping[str, NotAssessed]
    flow_residual: Annotated[
        Real, q("–", "1", "largest imbalance over the largest flow", name="network.residual.flow")
    ]
    heat_residual: Annotated[
        Real | None,
        q("–", "1", "largest imbalance over the largest heat flow", name="network.residual.heat"),
    ]

    @property
    def design(self) -> Operation | None:
        """The design mode."""
        return self.operations.get(DESIGN)


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


def ring_study(
    project: "Project",
    circuit: Circuit | NotAssessed,
    loss: HeatLoss | NotAssessed,
    coolant: Coolant | NotAssessed,
) -> RingStudy | NotAssessed:
    """Solve the circuit in every mode; raises ``ProjectFaults`` where it cannot work at all."""
    if isinstance(circuit, NotAssessed):
        return circuit
    lacking = missing_figures(project, circuit)
    if lacking is not None:
        return lacking
    if isinstance(coolant, NotAssessed):
        return coolant
    if not circuit.of_kind("pump"):
        raise _faults(
            project, "circuit.ring", "the circuit has no pump", "list the pump among the units of the ring"
        )
    try:
        return _Solving(project, circuit, loss, coolant).study()
    except CircuitFault as fault:
        key = (
            circuit.places[fault.edges[0]].key
            if fault.edges and fault.edges[0] in circuit.places
            else "circuit.ring"
        )
        raise _faults(project, key, str(fault), "look at the units and pipes named") from fault


def _faults(project: "Project", key: str, what: str, instead: str) -> ProjectFaults:
    line = project.where(key)
    return ProjectFaults([Fault(what, instead, line.file, line.line or 0, line.column or 0, 5)])


class _Solving:
    """The steps of the study, with what they share."""

    def __init__(
        self, project: "Project", circuit: Circuit, loss: HeatLoss | NotAssessed, coolant: Coolant
    ) -> None:
        self.project, self.circuit, self.loss, self.coolant = project, circuit, loss, coolant
        self.losses: dict[str, HeatLoss] = {}
        self.hydraulics = Hydraulics(project, circuit)
        self.emitters, self.lacking = emitter_models(circuit)
        self.pipes = {
            place.tag: found
            for place in circuit.places.values()
            if place.pipe is not None
            and (
                found := pipe_loss(
                    project, place, self.hydraulics.pipes[place.tag], loss, self._beside(place)
                )
            )
            is not None
        }
        self.states = mode_states(project)
        self.loads = (
            {}
            if isinstance(loss, NotAssessed)
            else loads_by_emitter(self.emitters, loss, self.states[DESIGN].calls)
        )

    def _beside(self, place: Place) -> str:
        """Zone that a branch heats; there its pipes are taken to lie where the file does not say."""
        for other in self.circuit.in_branch(place.branch) if place.branch else ():
            if other.tag in self.emitters:
                return self.emitters[other.tag].zone
        return ""

    def study(self) -> RingStudy:
        """All modes, the design mode first."""
        state = self.states[DESIGN]
        settings = valve_settings(self.circuit, state, {})
        throttled = self._throttled(state)
        outcome = operate(self.hydraulics, self._setting(state, settings, throttled))
        found = outcome.balance.presets if outcome.balance else {}
        given = network_inputs(self.hydraulics, settings)
        presets: dict[str, Real] = {
            tag: solved(
                kv,
                q("K_v", "m3/h", "preset"),
                "all branches at one multiple of their wanted flow",
                HEAT_BALANCE,
                [(g.quantity, g.value) for g in given if g.quantity is not None],
            )
            for tag, kv in found.items()
        }
        operations, not_solved = {}, {}
        for name, each in self.states.items():
            try:
                if name == DESIGN:
                    operations[name] = self._operation(each, outcome, {**settings, **presets})
                else:
                    kv = valve_settings(self.circuit, each, presets)
                    operations[name] = self._operation(
                        each, operate(self.hydraulics, self._setting(each, kv)), kv
                    )
            except (NotConverged, OutOfRange) as reason:
                not_solved[name] = str(reason)
        return self._gathered(operations, not_solved, presets, outcome)

    def _gathered(
        self,
        operations: Mapping[str, Operation],
        not_solved: Mapping[str, str],
        presets: Mapping[str, Real],
        outcome: Outcome,
    ) -> RingStudy:
        design = operations.get(DESIGN)
        index = outcome.balance.index if outcome.balance else ""
        flow_left = max(o.outcome.solution.residual.flow for o in operations.values()) if operations else 0.0
        heats = [o.outcome.temperatures.residual for o in operations.values() if o.outcome.temperatures]
        residual = q("–", "1", "residual")
        return RingStudy(
            self.hydraulics,
            operations,
            not_solved,
            self._wanted(),
            self._presets(design, presets) if design else {},
            outcome.balance.share if outcome.balance else None,
            self.circuit.places[index].branch if index else "",
            self.emitters,
            self.lacking,
            solved(flow_left, residual, "largest of all modes", HEAT_BALANCE),
            solved(max(heats), residual, "largest of all modes", HEAT_BALANCE) if heats else None,
        )

    def _throttled(self, state: ModeState) -> tuple[Throttled, ...]:
        """Branches that can be balanced: a balancing valve not set by the mode, and a load to bring."""
        found = []
        drop = self._design_drop()
        for place in self.circuit.of_kind("balancing_valve"):
            chain = self.circuit.chain_of(place.tag)
            loads = [self.loads[tag] for tag in chain.tags if tag in self.loads]
            several = [t for t in chain.tags if self.circuit.places[t].kind == "balancing_valve"]
            if place.tag in state.kv or not loads or several[0] != place.tag:
                continue
            unit: Any = place.unit
            mass = sum(float(load) for load in loads) / (float(self.coolant.specific_heat) * float(drop))
            found.append(Throttled(chain.name, place.tag, float(unit.kv), mass))
        return tuple(found)

    def _design_drop(self) -> Real:
        stated = self.project.circuit.design_drop if self.project.circuit else None
        return stated_or_assumed(stated, "circuit.design_drop")

    def _wanted(self) -> dict[str, WantedFlow]:
        found = {}
        for name in self.circuit.branches:
            loads = [self.loads[p.tag] for p in self.circuit.in_branch(name) if p.tag in self.loads]
            if loads:
                load = total_load(*loads)
                flow = wanted_flow(
                    load, self.coolant.density, self.coolant.specific_heat, self._design_drop()
                )
                found[name] = WantedFlow(name, load, flow)
        return found

    def _setting(
        self, state: ModeState, kv: Mapping[str, Real], throttled: tuple[Throttled, ...] = ()
    ) -> Setting:
        standing = {place.tag for place in self.circuit.of_kind("pump") if place.tag in state.stopped}
        rooms, running = {}, set()
        for tag, emitter in self.emitters.items():
            rooms[tag] = float(self._room(emitter, state))
            if emitter.zone in state.calls and tag not in state.stopped:
                running.add(tag)
        return Setting(
            state,
            {tag: float(value) for tag, value in kv.items()},
            self.coolant.fluid,
            burner_models(self.circuit, state),
            recovery_models(self.project, self.circuit, state),
            self.emitters,
            rooms,
            frozenset(running),
            self._held_at(state),
            self.pipes,
            float(self.coolant.working),
            throttled,
            shut=frozenset(self.circuit.chain_of(tag).name for tag in standing),
        )

    def _loss(self, state: ModeState) -> HeatLoss | NotAssessed:
        """Loads in a mode: zones that do not call float, targets and outside air as the mode has them."""
        if isinstance(self.loss, NotAssessed):
            return self.loss
        if state.name not in self.losses:
            self.losses[state.name] = loss_in_mode(self.project, self.loss, state)
        return self.losses[state.name]

    def _held_at(self, state: ModeState) -> dict[str, float]:
        """Heat at which thermostats hold the emitters of the zones that call."""
        loss = self._loss(state)
        if isinstance(loss, NotAssessed):
            return {}
        return {tag: float(load) for tag, load in loads_by_emitter(self.emitters, loss, state.calls).items()}

    def _room(self, emitter: EmitterModel, state: ModeState) -> Real:
        """Air that an emitter meets: of its zone at target, or of the place it draws from."""
        where = emitter.air_from or emitter.zone
        if where == "outside" and self.project.conditions is not None:
            outside = state.outside_air or self.project.conditions.outside_air
            if outside is not None:
                return outside
        loss = self._loss(state)
        if not isinstance(loss, NotAssessed) and where in loss.zones:
            return loss.zones[where].temperature
        if where in state.targets:
            return state.targets[where]
        targets = {zone.id: zone.target for zone in self.project.zones or () if zone.target is not None}
        return targets.get(where) or assumed("circuit.surroundings", f"components.{emitter.tag}.air_from")

    def _operation(self, state: ModeState, outcome: Outcome, kv: Mapping[str, Real]) -> Operation:
        given: tuple[Given, ...] = network_inputs(self.hydraulics, kv)
        flows = flow_picture(self.hydraulics, outcome, state.name, kv, given)
        setting = self._setting(state, kv)
        heat = None
        if outcome.temperatures is not None:
            heat = mode_heat(self.circuit, setting, outcome, flows, given, self._loss(state))
        still = tuple(tag for tag, edge in flows.edges.items() if float(edge.flow) == 0)
        back = tuple(tag for tag, edge in flows.edges.items() if float(edge.flow) < 0)
        return Operation(state.name, state, flows, heat, outcome, still, back)

    def _presets(self, design: Operation, presets: Mapping[str, Real]) -> dict[str, Preset]:
        """Settings of all valves that are preset, found by balancing or stated by the design mode."""
        found = {}
        for place in self.circuit.of_kind("balancing_valve", "bypass_valve"):
            unit: Any = place.unit
            stated = design.state.kv.get(place.tag)
            kv = presets.get(place.tag, stated)
            if kv is None or float(kv) == 0:
                continue
            edge = design.flows.edges[place.tag]
            branch = design.flows.branches.get(place.branch)
            share = (
                authority(edge.drop, branch.drop)
                if branch is not None and float(branch.drop) > 0 and float(edge.drop) >= 0
                else chosen(1.0, q("a", "1", "authority"), "no branch round it", HEAT_BALANCE)
            )
            is_open = float(kv) > OPEN * float(unit.kv)
            turns = None
            settings = getattr(unit, "settings", None)
            if settings:
                table = tuple((float(point.turns), float(point.kv)) for point in settings)
                with suppress(ValueError):
                    turns = setting_for_kv(float(kv), table)
            found[place.tag] = Preset(
                place.tag, place.branch, kv, unit.kv, edge.flow, share, is_open, turns, stated is not None
            )
        return found
