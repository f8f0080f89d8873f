"""The circuit in all its modes: balanced once, then flow and temperature for each."""

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import (
    Given,
    NotAssessed,
    NotConverged,
    OutOfRange,
    ProjectFaults,
    Quantity,
    Real,
    q,
    solved,
)
from dossier.notation.records import dataclass
from dossier.physics.network_elements import CircuitFault
from dossier.sizing.balancing import Throttled
from dossier.sizing.circuit import QUESTION, Circuit, fault_at
from dossier.sizing.circuit_faults import of_network, refuse
from dossier.sizing.coolant import Coolant
from dossier.sizing.emitters import EmitterModel, emitter_models
from dossier.sizing.flows import FlowPicture, flow_picture, network_inputs
from dossier.sizing.heat_loss import HeatLoss
from dossier.sizing.hydraulics import Hydraulics, missing_figures
from dossier.sizing.mode_settings import ModeSettings
from dossier.sizing.modes import DESIGN, ModeState, mode_states, valve_settings
from dossier.sizing.open_paths import OpenPaths, open_paths
from dossier.sizing.operation import Outcome, Setting, operate
from dossier.sizing.presets import Preset, presets_of
from dossier.sizing.pump_needed import PumpNeed, pump_needs
from dossier.sizing.ring_results import ModeHeat, mode_heat
from dossier.sizing.sources_of_heat import BurnerModel, burner_models
from dossier.sizing.standing import Standing, beyond_curve, standing_parts, unusable, way_out
from dossier.sizing.wanted import WantedFlow, design_drop, wanted_flows

if TYPE_CHECKING:
    from dossier.project import Project

PRESET = q("K_v", "m3/h", "flow factor")
RESIDUAL = q("–", "1", "residual")


@dataclass(frozen=True)
class Operation:
    """One mode, solved. ``standing`` names the parts whose coolant stands still, and why."""

    mode: str
    state: ModeState
    setting: Setting
    flows: FlowPicture
    heat: ModeHeat | None
    outcome: Outcome
    standing: tuple[Standing, ...]
    reversed_edges: tuple[str, ...]
    pump_needs: Mapping[str, PumpNeed]

    @property
    def standing_still(self) -> tuple[str, ...]:
        """Tags of the parts whose coolant stands still."""
        return tuple(part.tag for part in self.standing)


@dataclass(frozen=True)
class RingStudy:
    """The circuit in all its modes.

    ``not_solved`` says for each mode that has no answer why. ``share`` is the multiple of the wanted flows
    that every balanced branch gets, ``index`` the branch whose valve stays open. ``open_paths`` has the modes
    that could not be solved as well.
    """

    hydraulics: Hydraulics
    states: Mapping[str, ModeState]
    operations: Mapping[str, Operation]
    not_solved: Mapping[str, str]
    wanted: Mapping[str, WantedFlow]
    presets: Mapping[str, Preset]
    share: float | None
    index: str
    burners: Mapping[str, BurnerModel]
    emitters: Mapping[str, EmitterModel]
    lacking: Mapping[str, NotAssessed]
    open_paths: Mapping[str, OpenPaths]
    flow_residual: Annotated[
        Real | None, q("–", "1", "largest imbalance over the largest flow", name="network.residual.flow")
    ]
    heat_residual: Annotated[
        Real | None,
        q("–", "1", "largest imbalance over the largest heat flow", name="network.residual.heat"),
    ]

    @property
    def design(self) -> Operation | None:
        """The design mode; None where it could not be solved."""
        return self.operations.get(DESIGN)


def ring_study(
    project: "Project",
    circuit: Circuit | NotAssessed,
    loss: HeatLoss | NotAssessed,
    coolant: Coolant | NotAssessed,
) -> RingStudy | NotAssessed:
    """Solve the circuit in every mode; raises ``ProjectFaults`` where it cannot work at all."""
    if isinstance(circuit, NotAssessed):
        return circuit
    refuse(project, circuit)
    lacking = missing_figures(project, circuit)
    if lacking is not None:
        return lacking
    alone = [tag for tag, place in circuit.places.items() if place.start == place.end]
    if alone:
        return NotAssessed(QUESTION, ("circuit.ring",), f"{alone[0]} stands alone in its ring")
    if isinstance(coolant, NotAssessed):
        return coolant
    try:
        return _Solving(project, circuit, loss, coolant).study()
    except CircuitFault as fault:
        raise of_network(project, circuit, fault, "circuit.ring") from fault


class _Solving:
    """The steps of the study, with what they share."""

    def __init__(
        self, project: "Project", circuit: Circuit, loss: HeatLoss | NotAssessed, coolant: Coolant
    ) -> None:
        self.project, self.circuit, self.coolant = project, circuit, coolant
        self.hydraulics = Hydraulics(project, circuit)
        self.emitters, self.lacking = emitter_models(circuit)
        self.settings = ModeSettings(project, self.hydraulics, self.emitters, loss, coolant)
        self.states = mode_states(project)
        self.loads = self.settings.loads(self.states[DESIGN])
        self.operations: dict[str, Operation] = {}
        self.not_solved: dict[str, str] = {}

    def study(self) -> RingStudy:
        """All modes, the design mode first: the others stand on its presets."""
        design = self.states[DESIGN]
        presets: dict[str, Real] = {}
        outcome = self._solve(design, {}, self.settings.throttled(design, self.loads))
        if outcome is not None and outcome.balance is not None:
            presets = self._traced(outcome.balance.presets, "all branches at one multiple of their flows")
        if outcome is not None:
            self.operations[DESIGN] = self._operation(design, outcome, presets)
        paths = {DESIGN: self._paths(design, presets)}
        for name, state in self.states.items():
            if name == DESIGN:
                continue
            if outcome is None:
                self.not_solved[name] = f"waits for the presets of {DESIGN}: {self.not_solved[DESIGN]}"
            else:
                found = self._solve(state, presets, ())
                if found is not None:
                    self.operations[name] = self._operation(state, found, presets)
            paths[name] = self._paths(state, presets)
        return self._gathered(outcome, presets, {n: p for n, p in paths.items() if p is not None})

    def _solve(
        self, state: ModeState, presets: Mapping[str, Real], throttled: tuple[Throttled, ...]
    ) -> Outcome | None:
        """One mode, or the reason why it has no answer."""
        setting = self.settings.setting(state, valve_settings(self.circuit, state, presets), throttled)
        try:
            outcome = operate(self.hydraulics, setting, self._nearby())
            reason = unusable(self.hydraulics, setting, outcome)
            beyond = beyond_curve(self.hydraulics, setting, outcome)
        except CircuitFault as fault:
            if state.name == DESIGN:
                raise of_network(self.project, self.circuit, fault, state.key) from fault
            reason = str(fault)
        except (NotConverged, OutOfRange) as why:
            self.not_solved[state.name] = str(why)
            return None
        if reason and state.name == DESIGN:
            what = f"mode {state.name} cannot work: {reason}"
            raise ProjectFaults([fault_at(self.project, state.key, what, way_out(reason))])
        if reason or beyond:
            self.not_solved[state.name] = reason or beyond
            return None
        return outcome

    def _nearby(self) -> Outcome | None:
        """An answer to start from: that of the design mode."""
        design = self.operations.get(DESIGN)
        return design.outcome if design else None

    def _traced(self, kv: Mapping[str, float], text: str) -> dict[str, Real]:
        given = self._rests()
        return {tag: solved(factor, PRESET, text, HEAT_BALANCE, given) for tag, factor in kv.items()}

    def _rests(self) -> list[tuple[Quantity, Any]]:
        """What all flows rest on, with every valve fully open."""
        return [(g.quantity, g.value) for g in network_inputs(self.hydraulics, {}) if g.quantity is not None]

    def _operation(self, state: ModeState, outcome: Outcome, presets: Mapping[str, Real]) -> Operation:
        kv = valve_settings(self.circuit, state, presets)
        own = {tag: factor for tag, factor in outcome.kv.items() if tag not in kv}
        kv |= self._traced(own, "position at which the valve stays, in the balance of the whole mode")
        given: tuple[Given, ...] = network_inputs(self.hydraulics, kv)
        setting = self.settings.setting(state, kv)
        flows = flow_picture(self.hydraulics, outcome, state.name, kv, given)
        heat = None
        if outcome.temperatures is not None:
            loss = self.settings.loss_in(state)
            heat = mode_heat(self.circuit, setting, outcome, flows, given, loss)
        free = self.settings.throttled(state, self.loads) if state.name == DESIGN else ()
        needs = pump_needs(
            self.hydraulics, replace(setting, throttled=free), outcome, self._wanted_by_run(state), given
        )
        return Operation(
            state.name,
            state,
            setting,
            flows,
            heat,
            outcome,
            standing_parts(self.hydraulics, setting, outcome),
            tuple(tag for tag, edge in flows.edges.items() if float(edge.flow) < 0),
            needs,
        )

    def _wanted_by_run(self, state: ModeState) -> dict[str, float]:
        """Mass flow that the loads of a mode call for, by run (kg/s)."""
        carried = float(self.coolant.specific_heat) * float(design_drop(self.project))
        found: dict[str, float] = {}
        for tag, load in self.settings.loads(state).items():
            run = self.circuit.chain_of(tag).name
            found[run] = found.get(run, 0.0) + float(load) / carried
        return found

    def _paths(self, state: ModeState, presets: Mapping[str, Real]) -> OpenPaths | None:
        own = self.operations.get(state.name)
        solved_as = own or self.operations.get(DESIGN)
        kv = {tag: float(v) for tag, v in valve_settings(self.circuit, state, presets).items()}
        count = len(self.hydraulics.network.elements.names)
        if solved_as is not None:
            liquid = solved_as.outcome.density, solved_as.outcome.viscosity
        else:
            liquid = (
                np.full(count, float(self.coolant.density)),
                np.full(count, float(self.coolant.viscosity)),
            )
        return open_paths(
            self.hydraulics,
            state,
            kv,
            self.settings.setting(state, kv).shut,
            liquid,
            network_inputs(self.hydraulics, kv),
            self.not_solved.get(state.name, "")
            if own is None
            else {p.tag: float(own.flows.edges[p.tag].flow) for p in self.circuit.of_kind("burner")},
        )

    def _gathered(
        self, outcome: Outcome | None, presets: Mapping[str, Real], paths: Mapping[str, OpenPaths]
    ) -> RingStudy:
        design = self.operations.get(DESIGN)
        balance = outcome.balance if outcome else None
        made = self.operations.values()
        flows = [o.outcome.solution.residual.flow for o in made]
        heats = [o.outcome.temperatures.residual for o in made if o.outcome.temperatures]
        stated = self.states[DESIGN].kv
        running = replace(self.states[DESIGN], stopped=frozenset())
        text = "largest of all modes"
        return RingStudy(
            self.hydraulics,
            self.states,
            self.operations,
            self.not_solved,
            wanted_flows(self.circuit, self.loads, self.coolant, design_drop(self.project)),
            presets_of(self.circuit, stated, presets, design.flows, design.heat) if design else {},
            balance.share if balance else None,
            self.circuit.places[balance.index].branch if balance else "",
            burner_models(self.circuit, running),
            self.emitters,
            self.lacking,
            paths,
            solved(max(flows), RESIDUAL, text, HEAT_BALANCE, self._rests()) if flows else None,
            solved(max(heats), RESIDUAL, text, HEAT_BALANCE, self._rests()) if heats else None,
        )
