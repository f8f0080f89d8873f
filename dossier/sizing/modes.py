"""What is open, set, stopped and called for in each mode of use."""

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING, Any

from dossier.notation import Real
from dossier.notation.records import dataclass
from dossier.sizing.circuit import Circuit
from dossier.sizing.hydraulics import VALVES

if TYPE_CHECKING:
    from dossier.project import Project

DESIGN = "heating"
COLD_START = "cold_start"


@dataclass(frozen=True)
class ModeState:
    """One mode as the calculation takes it.

    ``kv`` holds the flow factors that are set, 0 for shut valves; a valve not in it stands fully open.
    ``opened`` are the valves the mode opens by name. ``calls`` names the zones that want heat.
    """

    name: str
    kv: Mapping[str, Real] = field(default_factory=dict)
    opened: frozenset[str] = frozenset()
    shut: frozenset[str] = frozenset()
    stopped: frozenset[str] = frozenset()
    recovering: tuple[str, ...] = ()
    calls: frozenset[str] = frozenset()
    targets: Mapping[str, Real] = field(default_factory=dict)
    outside_air: Real | None = None
    reverse_allowed: frozenset[str] = frozenset()
    key: str = "modes"


def heated_zones(project: "Project") -> dict[str, Real]:
    """Targets of the heated zones."""
    return {zone.id: zone.target for zone in project.zones or () if zone.target is not None}


def mode_states(project: "Project") -> dict[str, ModeState]:
    """All modes, the design mode first; without modes it stands alone with all valves open."""
    heated = frozenset(heated_zones(project))
    states = {DESIGN: ModeState(DESIGN, calls=heated)}
    for name, written in (project.modes or {}).items():
        mode: Any = written
        shut = frozenset(mode.shut or ())
        kv: dict[str, Real] = dict(mode.set or {})
        kv.update(dict.fromkeys(shut, 0.0))
        calls = heated if mode.calls is None else frozenset(mode.calls or ()) & heated
        states[name] = ModeState(
            name,
            kv,
            frozenset(mode.open or ()),
            shut,
            frozenset(mode.stopped or ()),
            tuple(mode.recovering or ()),
            calls,
            dict(mode.targets or {}),
            mode.outside_air,
            frozenset(mode.reverse_allowed or ()),
            f"modes.{name}",
        )
    return states


def valve_settings(circuit: Circuit, state: ModeState, presets: Mapping[str, Real]) -> dict[str, Real]:
    """Flow factor of every valve that does not stand fully open: set or shut by the mode, else preset."""
    settings: dict[str, Real] = {}
    for place in circuit.of_kind(*VALVES, "way"):
        tag = place.way_of or place.tag
        if place.kind == "three_way_valve":
            continue
        if tag in state.kv:
            settings[place.tag] = state.kv[tag]
        elif tag not in state.opened and tag in presets:
            settings[place.tag] = presets[tag]
    return settings
