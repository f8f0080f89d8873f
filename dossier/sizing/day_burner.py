"""The burner of the simulated day: purge, ignition, low, high, after-run, lock-out.

A burner with one output burns full until it stops. One with several starts again on its lowest, and goes up
where the water falls on below its starting mark; then it holds the upper quarter of its band, in stages (each
kept for a minute at least) or without steps, until the load is below its lowest output and it stops.
"""

from enum import Enum
from math import inf
from typing import Any

from dossier.data.assumptions import stated_or_assumed
from dossier.notation.records import dataclass
from dossier.sizing.sources_of_heat import MODULATING
from dossier.sizing.store_modes import Control, has_one_output

QUARTER = 0.25
"""Share of the band held under load, and fallen through before a burner goes up."""
PURGE = 1 / 3
"""Share of the start time that is purge; ignition takes the rest."""
STAGE = 60.0
"""Seconds for which a stage is kept before the other, unless the burner must stop."""
APART = 0.02
"""Kelvin between changing over and back where the output itself does not jump."""
CLOSE = 1e-6
"""Kelvin within which a mark counts as reached."""


class Burning(str, Enum):
    """What the burner is doing."""

    IDLE = "idle"
    PURGE = "purge"
    IGNITION = "ignition"
    LOW = "low"
    BETWEEN = "between low and high"
    HIGH = "high"
    AFTER_RUN = "after-run"
    LOCKED_OUT = "locked out"

    def __str__(self) -> str:
        return self.value


FLAMES = frozenset({Burning.LOW, Burning.BETWEEN, Burning.HIGH})
STARTING = frozenset({Burning.PURGE, Burning.IGNITION})


@dataclass(frozen=True)
class BurnerLaw:
    """Marks (K), outputs (W) and times (s) of a burner."""

    stops: float
    band: float
    full: float
    lowest: float
    modulating: bool
    after_run: float
    start_time: float
    stat: float

    @property
    def starts(self) -> float:
        """Temperature at which it starts again."""
        return self.stops - self.band

    @property
    def holds(self) -> float:
        """Temperature under which it gives all it has, once it has gone up."""
        return self.stops - QUARTER * self.band

    @property
    def gain(self) -> float:
        """Output for each kelvin under the stopping mark (W/K) while it modulates."""
        return (self.full - self.lowest) / (QUARTER * self.band)


def burner_law(control: Control) -> BurnerLaw:
    """Law of a burner; an overheat stat that is not stated is assumed."""
    unit: Any = control.unit
    full = float(unit.output.max)
    stat = stated_or_assumed(
        unit.overheat_stat, "components.burner.overheat_stat", f"components.{unit.tag}.overheat_stat"
    )
    return BurnerLaw(
        float(control.setpoint),
        float(control.band),
        full,
        full if has_one_output(unit) else float(unit.output.min),
        unit.stages == MODULATING and not has_one_output(unit),
        float(control.after_run),
        float(control.start_time),
        float(stat),
    )


class Burner:
    """A burner at work: what it does, until when, and how often its overheat stat has tripped."""

    def __init__(self, law: BurnerLaw) -> None:
        self.law = law
        self.does = Burning.IDLE
        self.until = inf
        self.gone_up = False
        self.keeps = False
        self.lock_outs = 0

    @property
    def output(self) -> float:
        """Constant output (W); while it modulates its output at the stopping mark."""
        if self.does is Burning.HIGH:
            return self.law.full
        return self.law.lowest if self.does in FLAMES else 0.0

    @property
    def marks(self) -> tuple[float, float]:
        """Sensor temperatures (K) below and above which it does something else."""
        law, one = self.law, self.law.lowest >= self.law.full
        up = law.stops - 2 * QUARTER * law.band if self.gone_up else law.starts - QUARTER * law.band
        marks = {
            Burning.IDLE: (law.starts, inf),
            Burning.PURGE: (-inf, law.stops),
            Burning.IGNITION: (-inf, law.stops),
            Burning.LOW: (up, law.stops),
            Burning.BETWEEN: (law.holds - APART, law.stops),
            Burning.HIGH: (-inf, law.stops if one else law.holds),
        }
        if self.keeps:
            return -inf, law.stops
        return marks.get(self.does, (-inf, inf))

    def feels(self, now: float, sensor: float, outlet: float) -> bool:
        """Let it react to its sensor and its outlet (K); whether it changed."""
        before = self.does
        low, high = self.marks
        if outlet >= self.law.stat - CLOSE and before in FLAMES:
            self._goes(Burning.LOCKED_OUT)
            self.lock_outs += 1
        elif sensor <= low + CLOSE:
            self._falls(now)
        elif sensor >= high - CLOSE:
            self._rises(now, sensor)
        return self.does is not before

    def _falls(self, now: float) -> None:
        if self.does is Burning.IDLE:
            self._goes(Burning.PURGE, now + PURGE * self.law.start_time)
            self.gone_up = False
        else:
            self.gone_up = True
            self._keeps(Burning.HIGH, now)

    def _rises(self, now: float, sensor: float) -> None:
        law = self.law
        if self.does is not Burning.HIGH or sensor >= law.stops - CLOSE:
            self._goes(Burning.AFTER_RUN, now + law.after_run)
        elif law.modulating:
            self._goes(Burning.BETWEEN)
        else:
            self._keeps(Burning.LOW, now)

    def _goes(self, does: Burning, until: float = inf) -> None:
        self.does, self.until, self.keeps = does, until, False

    def _keeps(self, stage: Burning, now: float) -> None:
        """Go to a stage and keep it for its least time; without steps there is none to keep."""
        self._goes(stage, inf if self.law.modulating else now + STAGE)
        self.keeps = not self.law.modulating

    def waits_out(self, now: float) -> bool:
        """What follows when the time of a state has passed; whether the flame has lit."""
        if self.does is Burning.PURGE:
            self._goes(Burning.IGNITION, now + (1 - PURGE) * self.law.start_time)
        elif self.does is Burning.IGNITION:
            self._goes(Burning.HIGH if self.law.lowest >= self.law.full else Burning.LOW)
            return True
        elif self.does is Burning.AFTER_RUN:
            self._goes(Burning.IDLE)
        else:
            self._goes(self.does)
        return False
