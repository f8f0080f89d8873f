"""The burner's cycle in one mode of use: its control, what it must give, its run and pause."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import stated_or_assumed
from dossier.notation import Real, q
from dossier.notation.records import dataclass
from dossier.physics import store as forms
from dossier.physics.exchanger import capacity_rate
from dossier.sizing.coolant import Coolant, mean_of_cycle
from dossier.sizing.store_cycle import Switching
from dossier.sizing.store_parts import MovingParts, load_with_stores, moving_parts

if TYPE_CHECKING:
    from dossier.project import Project
    from dossier.sizing.ring import Operation

OUTLET, RETURN, STORE = "outlet", "return", "store"
LOAD = q("Φ_L", "W", "what the burner must give")
RUN = q("t_on", "s", "burner run")


@dataclass(frozen=True)
class Control:
    """How a burner switches; what its file leaves out is assumed.

    ``output`` is what it gives at the moment it stops.
    """

    unit: Any
    setpoint: Annotated[Real, q("θ_set", "K", "temperature at which it stops")]
    band: Annotated[Real, q("Δθ_sw", "K", "switching band")]
    output: Annotated[Real, q("Φ_on", "W", "output when it stops")]
    after_run: Annotated[Real, q("t_n", "s", "after-run")]
    start_time: Annotated[Real, q("t_a", "s", "start time")]
    wait: Annotated[Real, q("t_w", "s", "least pause: after-run and start time")]

    @property
    def level(self) -> Real:
        """Mean temperature over a cycle (K)."""
        return mean_of_cycle(self.setpoint, self.band)

    def sensor(self, stores: Sequence[str]) -> str:
        """Where its sensor sits: at the outlet unless stated; a store's, without a store, in the return."""
        if self.unit.sensor == STORE and not stores:
            return RETURN
        return self.unit.sensor or OUTLET


def control_of(unit: Any) -> Control:
    """Control of a burner whose output is stated."""
    key = f"components.{unit.tag}"
    after_run = stated_or_assumed(unit.after_run, "components.burner.after_run", f"{key}.after_run")
    start_time = stated_or_assumed(unit.start_time, "components.burner.start_time", f"{key}.start_time")
    return Control(
        unit,
        stated_or_assumed(unit.setpoint, "components.burner.setpoint", f"{key}.setpoint"),
        stated_or_assumed(unit.band, "components.burner.band", f"{key}.band"),
        unit.output.max if has_one_output(unit) else unit.output.min,
        after_run,
        start_time,
        forms.restart_wait(after_run, start_time),
    )


def has_one_output(unit: Any) -> bool:
    """Whether a burner knows full output only; else its control goes to the lowest before it stops."""
    one_stage = unit.stages is not None and not isinstance(unit.stages, str) and float(unit.stages) <= 1
    return unit.output.min is None or one_stage or float(unit.output.min) == float(unit.output.max)


@dataclass(frozen=True)
class ModeCycle:
    """The burner's cycle in one mode of use.

    ``run``, ``pause`` and ``starts`` are None where it does not cycle; ``steady`` then says why. ``emits``
    tells whether any emitter gets water: where none does the mode is a standby of pipes and store.
    """

    mode: str
    emits: bool
    parts: MovingParts
    switching: Switching
    load: Annotated[Real, LOAD]
    swing: Annotated[Real, q("Δθ_s", "K", "swing of the store, not of the sensor", name="store.swing.{mode}")]
    run: Annotated[Real | None, RUN]
    pause: Annotated[Real | None, q("t_off", "s", "pause")]
    starts: Annotated[Real | None, q("n", "1/h", "starts per hour")]
    steady: str = ""

    def with_load(self, name: str, load: Real) -> "ModeCycle":
        """The cycle of the same parts at another load."""
        return replace(self, mode=name, load=load, **_cycling(self.switching, self.parts, load))


def mode_cycle(project: "Project", coolant: Coolant, control: Control, operation: "Operation") -> ModeCycle:
    """The burner's cycle in a mode in which it runs, at what the mode asks of it."""
    tag = control.unit.tag
    parts = moving_parts(project, coolant, operation, control.level)
    flow = operation.flows.edges[tag].flow
    switching = switching_at(control, coolant, parts, flow, control.sensor(parts.stores))
    heat = operation.heat
    load = load_with_stores(heat.sources[tag].output, parts) if heat else 0.0
    return ModeCycle(
        operation.mode,
        bool(heat and heat.emitters),
        parts,
        switching,
        load,
        switching.swing,
        **_cycling(switching, parts, load),
    )


def switching_at(
    control: Control, coolant: Coolant, parts: MovingParts, flow: Real, sensor: str
) -> Switching:
    """Swing and passage of a burner at a flow (m³/s) with its sensor at a place."""
    if sensor != OUTLET:
        return Switching(control.output, control.band, control.wait)
    rate = capacity_rate(flow, coolant.density, coolant.specific_heat)
    swing = forms.outlet_swing(control.band, control.output, rate)
    return Switching(control.output, swing, control.wait, forms.passage_time(parts.passing, flow))


def _cycling(switching: Switching, parts: MovingParts, load: Real) -> dict[str, Any]:
    """Run, pause and starts at a load, or why there are none."""
    steady = ""
    if float(load) <= 0:
        steady = "the burner is not needed"
    elif not switching.cycles_at(load):
        steady = "it runs on: the load is not below its lowest output"
    if steady:
        return {"run": None, "pause": None, "starts": None, "steady": steady}
    run, pause = switching.cycle(parts.heat_capacity, load)
    return {"run": run, "pause": pause, "starts": forms.starts_per_hour(run, pause), "steady": ""}
