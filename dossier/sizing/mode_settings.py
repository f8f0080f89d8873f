"""What does each mode start from? Loads, rooms, valves and sources of every mode, made once each."""

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from dossier.data.assumptions import assumed
from dossier.notation import NotAssessed, Real
from dossier.sizing.balancing import Throttled
from dossier.sizing.circuit import Circuit, Place
from dossier.sizing.coolant import Coolant
from dossier.sizing.emitters import EmitterModel
from dossier.sizing.heat_loss import HeatLoss, loss_in_mode
from dossier.sizing.hydraulics import Hydraulics
from dossier.sizing.modes import ModeState
from dossier.sizing.setting import Setting
from dossier.sizing.sources_of_heat import burner_models, recovery_models
from dossier.sizing.surroundings import PipeLoss, PipeLosses, pipe_loss
from dossier.sizing.valve_positions import controls_of
from dossier.sizing.wanted import design_drop, loads_by_emitter

if TYPE_CHECKING:
    from dossier.project import Project


class ModeSettings:
    """Settings of all modes of one project."""

    def __init__(
        self,
        project: "Project",
        hydraulics: Hydraulics,
        emitters: Mapping[str, EmitterModel],
        loss: HeatLoss | NotAssessed,
        coolant: Coolant,
    ) -> None:
        self.project, self.emitters, self.loss, self.coolant = project, emitters, loss, coolant
        self.circuit: Circuit = hydraulics.circuit
        self._losses: dict[str, HeatLoss] = {}
        self._bases: dict[str, Setting] = {}
        self.pipes: dict[str, PipeLoss] = {}
        for place in self.circuit.places.values():
            measure = hydraulics.pipes.get(place.tag)
            if measure is not None:
                lost = pipe_loss(project, place, measure, loss, self._beside(place))
                if lost is not None:
                    self.pipes[place.tag] = lost

    def setting(
        self, state: ModeState, kv: Mapping[str, Real], throttled: tuple[Throttled, ...] = ()
    ) -> Setting:
        """All that a mode is solved from."""
        if state.name not in self._bases:
            self._bases[state.name] = self._base(state)
        plain = {tag: float(factor) for tag, factor in kv.items()}
        return replace(self._bases[state.name], kv=plain, throttled=throttled)

    def _base(self, state: ModeState) -> Setting:
        rooms, running = {}, set()
        for tag, emitter in self.emitters.items():
            rooms[tag] = float(self._room(emitter, state))
            if emitter.zone in state.calls and tag not in state.stopped:
                running.add(tag)
        return Setting(
            state,
            {},
            self.coolant.fluid,
            burner_models(self.circuit, state),
            recovery_models(self.project, self.circuit, state),
            self.emitters,
            rooms,
            frozenset(running),
            {tag: float(load) for tag, load in self.loads(state).items()},
            self.pipes,
            PipeLosses(self.pipes),
            float(self.coolant.working),
            controls=controls_of(self.circuit, state),
            shut=self._shut(state),
        )

    def _shut(self, state: ModeState) -> frozenset[str]:
        """Runs that a standing pump or a shut check valve closes."""
        closed = [p.tag for p in self.circuit.of_kind("pump") if p.tag in state.stopped]
        closed += [p.tag for p in self.circuit.of_kind("check_valve") if p.tag in state.shut]
        return frozenset(self.circuit.chain_of(tag).name for tag in closed)

    def _beside(self, place: Place) -> str:
        """Zone that a branch heats; there its pipes are taken to lie where the file does not say."""
        for other in self.circuit.in_branch(place.branch) if place.branch else ():
            if other.tag in self.emitters:
                return self.emitters[other.tag].zone
        return ""

    def loss_in(self, state: ModeState) -> HeatLoss | NotAssessed:
        """Loads in a mode: zones that do not call float, targets and outside air as the mode has them."""
        if isinstance(self.loss, NotAssessed):
            return self.loss
        if state.name not in self._losses:
            self._losses[state.name] = loss_in_mode(self.project, self.loss, state)
        return self._losses[state.name]

    def loads(self, state: ModeState) -> Mapping[str, Real]:
        """Heat at which thermostats hold the emitters of the zones that call."""
        loss = self.loss_in(state)
        if isinstance(loss, NotAssessed):
            return {}
        return loads_by_emitter(self.emitters, loss, state.calls)

    def throttled(self, state: ModeState, loads: Mapping[str, Real]) -> tuple[Throttled, ...]:
        """Branches that can be balanced: a balancing valve not set by the mode, and a load to bring."""
        found = []
        drop = float(design_drop(self.project))
        for place in self.circuit.of_kind("balancing_valve"):
            chain = self.circuit.chain_of(place.tag)
            own = [loads[tag] for tag in chain.tags if tag in loads]
            several = [t for t in chain.tags if self.circuit.places[t].kind == "balancing_valve"]
            if place.tag in state.kv or place.tag in state.opened or not own or several[0] != place.tag:
                continue
            unit: Any = place.unit
            mass = sum(float(load) for load in own) / (float(self.coolant.specific_heat) * drop)
            found.append(Throttled(chain.name, place.tag, float(unit.kv), mass))
        return tuple(found)

    def _room(self, emitter: EmitterModel, state: ModeState) -> Real:
        """Air that an emitter meets: of its zone at target, or of the place it draws from."""
        where = emitter.air_from or emitter.zone
        if where == "outside" and self.project.conditions is not None:
            outside = state.outside_air or self.project.conditions.outside_air
            if outside is not None:
                return outside
        loss = self.loss_in(state)
        if not isinstance(loss, NotAssessed) and where in loss.zones:
            return loss.zones[where].temperature
        if where in state.targets:
            return state.targets[where]
        targets = {zone.id: zone.target for zone in self.project.zones or () if zone.target is not None}
        return targets.get(where) or assumed("circuit.surroundings", f"components.{emitter.tag}.air_from")
