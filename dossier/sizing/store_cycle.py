"""Run and pause of a burner on a store, wherever its sensor sits: closed forms for numbers and for curves.

In steady cycling what the burner gives in a run is what run and pause draw, so t_off = t_on·(Φ_on − Φ_L)/Φ_L;
that holds where the run is longer by one passage too.
"""

from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from dossier.data.sources import BURNER_CYCLES
from dossier.notation import Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics import store as forms
from dossier.physics.store import HEAT_CAPACITY, LOAD, OUTPUT, SURPLUS, SWING, WAIT

CYCLES = 0.999
"""Share of its output at which a load no longer lets a burner stop."""
LEAST_SWING = 0.5
"""Swing (K) under which no store lengthens the run."""


@formula("t_off = Φ_Δ · t_on/Φ_L", BURNER_CYCLES)
def pause_after(
    run: Annotated[Real, q("t_on", "s", "burner run", low=0, high=1e9)],
    surplus: Annotated[Real, SURPLUS],
    load: Annotated[Real, LOAD],
) -> Annotated[Real, q("t_off", "s", "pause", low=0)]:
    """Pause in which the load draws what a run has stored."""
    return surplus * run / load


@formula(
    "Φ_w = min(Φ_on − Φ_on·K/(K + √(K² + t_V·Φ_on·K)), (K + t_V·Φ_on)/(t_V + t_w), 0.999·Φ_on), "
    "K = C·max(Δθ_s, 0)",
    BURNER_CYCLES,
)
def worst_load_with_passage(
    capacity: Annotated[Real, HEAT_CAPACITY],
    swing: Annotated[Real, SWING],
    output: Annotated[Real, OUTPUT],
    passage: Annotated[Real, q("t_V", "s", "passage of the ring", low=0.1, high=1e6)],
    wait: Annotated[Real, WAIT] = 0.0,
) -> Annotated[Real, q("Φ_w", "W", "load with the most starts", low=0)]:
    """Load with the most starts where each run is one passage longer."""
    stored = capacity * np.maximum(swing, 0.0)
    root = np.sqrt(stored**2 + passage * output * stored)
    free = output - output * stored / np.maximum(stored + root, 1e-9)
    waiting = (stored + passage * output) / (passage + wait)
    return np.minimum(np.minimum(free, waiting), 0.999 * output)


@dataclass(frozen=True)
class Switching:
    """What decides a burner's runs besides store and load.

    ``output`` (W) is given when it stops, ``wait`` (s) the least pause. ``passage`` (s) is that of the ring
    where the sensor sits at the outlet, else None.
    """

    output: Real
    swing: Real
    wait: Real
    passage: Real | None = None

    @property
    def lengthens(self) -> bool:
        """Whether a larger store lengthens the run at all."""
        return float(self.swing) >= LEAST_SWING

    @property
    def bare(self) -> "Switching":
        """The same in plain numbers, which leave no workings: for curves."""
        return Switching(
            float(self.output),
            float(self.swing),
            float(self.wait),
            None if self.passage is None else float(self.passage),
        )

    def cycles_at(self, load: Real) -> bool:
        """Whether a burner stops at a load at all."""
        return 0 < float(load) <= CYCLES * float(self.output)

    def plain_run(self, capacity: Real, load: Real) -> Real:
        """Run over the band alone (s): no restart waits."""
        run = forms.running_time(capacity, self.swing, forms.surplus(self.output, load))
        return run if self.passage is None else forms.run_with_passage(run, self.passage)

    def cycle(self, capacity: Real, load: Real) -> tuple[Real, Real]:
        """Run and pause (s) of steady cycling at a load below the output."""
        spare = forms.surplus(self.output, load)
        if self.passage is None:
            plain = forms.pause(capacity, self.swing, load)
        else:
            plain = pause_after(self.plain_run(capacity, load), spare, load)
        rest = forms.pause_with_restart(plain, self.wait)
        return forms.running_time_after(load, rest, spare), rest

    def worst_load(self, capacity: Real) -> Real:
        """Load (W) with the most starts."""
        if self.passage is None:
            return forms.worst_load(capacity, self.swing, self.output, self.wait)
        return worst_load_with_passage(capacity, self.swing, self.output, self.passage, self.wait)

    def curve(self, capacity: float, loads: NDArray[np.float64]) -> tuple[NDArray[np.float64], ...]:
        """Runs (s) and starts per hour over loads (W); where the load is not below the output, NaN and 0."""
        runs = np.full(loads.shape, np.nan)
        starts = np.zeros(loads.shape)
        cycling = (loads > 0) & (loads <= CYCLES * float(self.output))
        run, rest = self.bare.cycle(capacity, loads[cycling])
        runs[cycling] = run
        starts[cycling] = forms.starts_per_hour(run, rest)
        return runs, starts
