"""How starts and runs follow store volume and load, for each place of the sensor."""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from dossier.notation.records import dataclass
from dossier.physics import store as forms
from dossier.sizing.store_cycle import Switching

ADDED = (0.0, 0.03, 0.06, 0.12, 0.24)
"""Volumes added to the ring for the curves over load (m³)."""
LOADS = 60
LARGEST = 0.3
VOLUMES = 61


@dataclass(frozen=True)
class StartsCurve:
    """Runs (s) and starts per hour over loads (W) with a store of ``added`` (m³) more than there is."""

    sensor: str
    added: float
    loads: NDArray[np.float64]
    runs: NDArray[np.float64]
    starts: NDArray[np.float64]


@dataclass(frozen=True)
class VolumeCurve:
    """Run (s) at the smallest load and most starts per hour over volumes added to the ring (m³)."""

    sensor: str
    added: NDArray[np.float64]
    runs: NDArray[np.float64]
    most_starts: NDArray[np.float64]


def starts_curves(
    places: Mapping[str, Switching], capacity: float, by_volume: float
) -> tuple[StartsCurve, ...]:
    """Curves over load; ``by_volume`` is what a m³ of store adds to the heat capacity (J/m³K)."""
    found = []
    for sensor, switching in places.items():
        loads = np.linspace(0.0, float(switching.output), LOADS + 1)[1:-1]
        for added in ADDED:
            runs, starts = switching.curve(capacity + added * by_volume, loads)
            found.append(StartsCurve(sensor, added, loads, runs, starts))
    return tuple(found)


def volume_curves(
    places: Mapping[str, Switching], capacities: tuple[float, float], by_volume: float, smallest: float
) -> tuple[VolumeCurve, ...]:
    """Curves over volume; ``capacities`` (J/K) are those at the smallest load and of the design mode."""
    added = np.linspace(0.0, LARGEST, VOLUMES)
    found = []
    for sensor, switching in places.items():
        bare = switching.bare
        runs = np.full(VOLUMES, np.nan)
        if bare.cycles_at(smallest):
            runs = np.asarray(bare.cycle(capacities[0] + added * by_volume, smallest)[0])
        held = capacities[1] + added * by_volume
        run, rest = bare.cycle(held, bare.worst_load(held))
        found.append(VolumeCurve(sensor, added, runs, np.asarray(forms.starts_per_hour(run, rest))))
    return tuple(found)
