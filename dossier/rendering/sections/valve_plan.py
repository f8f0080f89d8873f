"""How every valve stands in every mode: what the drawing, the crew's leaf and the tags are made from."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

from dossier.notation import NotAssessed, Real
from dossier.rendering.draft import Draft
from dossier.sizing.circuit import Circuit
from dossier.sizing.circuit_graph import Place
from dossier.sizing.modes import ModeState, mode_states
from dossier.sizing.presets import Preset
from dossier.sizing.ring import RingStudy

VALVES = (
    "balancing_valve",
    "bypass_valve",
    "shut_valve",
    "motor_valve",
    "three_way_valve",
    "thermostatic_valve",
)
BY_ITSELF = frozenset({"three_way_valve", "thermostatic_valve"})
UNITS = ("burner", "recovery_exchanger", "pump")


class Stand(str, Enum):
    """How a part stands in a mode; a valve is open, shut, set, or moves by itself."""

    OPEN = "open"
    SHUT = "shut"
    SET = "set"
    BY_ITSELF = "by itself"
    UNKNOWN = "not known"
    RUNS = "runs"
    OFF = "off"


@dataclass(frozen=True)
class Position:
    """How one part stands in one mode, and the words for it: ``Kv 0.45, 2.1 turns``."""

    stand: Stand
    said: str


@dataclass(frozen=True)
class PlanRow:
    """One part in every mode; ``where`` is the branch it lies in, empty on the ring."""

    tag: str
    kind: str
    where: str
    positions: tuple[Position, ...]


@dataclass(frozen=True)
class ValvePlan:
    """Every valve, then the burners and pumps that a mode stops, in every mode of the file."""

    modes: tuple[str, ...]
    rows: tuple[PlanRow, ...]


def valve_plan(draft: Draft) -> ValvePlan | NotAssessed:
    """The plan; what it waits for where no circuit is written."""
    circuit = draft.study.circuit
    if isinstance(circuit, NotAssessed):
        return circuit
    states = mode_states(draft.project)
    plan = _Plan(draft, states)
    return ValvePlan(tuple(states), (*plan.valves(circuit), *plan.units(circuit)))


class _Plan:
    """The rows, with what they share."""

    def __init__(self, draft: Draft, states: Mapping[str, ModeState]) -> None:
        self.draft, self.words, self.states = draft, draft.words, states
        ring = draft.study.ring
        self.ring: RingStudy | None = None if isinstance(ring, NotAssessed) else ring
        self.presets: Mapping[str, Preset] = self.ring.presets if self.ring else {}

    def valves(self, circuit: Circuit) -> Iterator[PlanRow]:
        """One row a valve, in the order of the circuit."""
        for place in circuit.of_kind(*VALVES):
            positions = tuple(self._position(place, state) for state in self.states.values())
            yield PlanRow(place.tag, place.kind, place.branch, positions)

    def units(self, circuit: Circuit) -> Iterator[PlanRow]:
        """One row for each burner, exchanger or pump that stands in one mode and runs in another."""
        for place in circuit.of_kind(*UNITS):
            runs = [self._runs(place, state) for state in self.states.values()]
            if len(set(runs)) > 1:
                positions = tuple(self._plain(Stand.RUNS if run else Stand.OFF) for run in runs)
                yield PlanRow(place.tag, place.kind, place.branch, positions)

    def _runs(self, place: Place, state: ModeState) -> bool:
        if place.kind == "recovery_exchanger":
            return place.tag in state.recovering
        return place.tag not in state.stopped

    def _said(self, stand: Stand) -> str:
        return str(self.words(f"valve_plan.{stand.name.lower()}"))

    def _position(self, place: Place, state: ModeState) -> Position:
        """As the mode says, else by itself, else as it was preset, else open."""
        tag, preset = place.tag, self.presets.get(place.tag)
        if tag in state.shut:
            return self._plain(Stand.SHUT)
        if tag in state.kv:
            return Position(Stand.SET, self._set(state.kv[tag], preset))
        if tag not in state.opened:
            if place.kind in BY_ITSELF:
                return Position(Stand.BY_ITSELF, self._moving(tag, state))
            if preset is not None and not preset.is_open:
                return Position(Stand.SET, self._set(preset.kv, preset))
            if place.kind == "balancing_valve" and not self.is_balanced:
                return self._plain(Stand.UNKNOWN)
        return self._plain(Stand.OPEN)

    def _plain(self, stand: Stand) -> Position:
        return Position(stand, self._said(stand))

    @property
    def is_balanced(self) -> bool:
        """Whether the presets are known."""
        return self.ring is not None and self.ring.design is not None

    def _set(self, kv: Real, preset: Preset | None) -> str:
        """A flow factor, with the turns where the maker's table gives them for it."""
        said = self.draft.cell(kv, "flow_factor")
        if preset is None or preset.turns is None or float(preset.kv) != float(kv):
            return str(self.words("valve_plan.set", kv=said))
        return str(self.words("valve_plan.set_turns", kv=said, turns=self.draft.cell(preset.turns, "tenths")))

    def _moving(self, tag: str, state: ModeState) -> str:
        """A valve that finds its own position: how far it stands open, where the mode is solved."""
        operation = self.ring.operations.get(state.name) if self.ring else None
        position = operation.outcome.positions.get(tag) if operation else None
        if position is None:
            return self._said(Stand.BY_ITSELF)
        return str(self.words("valve_plan.moves", share=self.draft.said(position, "share")))
