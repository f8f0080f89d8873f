"""All zones warming together from cold: coupled lumped capacities, solved exactly between events.

    course = warm_up_together(zones, paths, end=6 * 3600)
    course.times["saloon"], course.temperatures["saloon"]

Each zone is one capacity that its emitter warms, and zones lend each other heat. C·dθ/dt = b − H·θ is
linear: its answer is a sum of exponentials, found by eigenvalues, so nothing is stepped. Where a zone
reaches its target its emitter throttles and holds it there; the system is solved anew from that moment.
Moments are found to a millisecond.
"""

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from dossier.notation import DossierError
from dossier.notation.records import dataclass
from dossier.physics.zones import Path

_SEARCH = 400
_PRECISION = 1e-3

Line = NDArray[np.float64]


@dataclass(frozen=True)
class WarmingZone:
    """A zone to be warmed: capacity (J/K), start (K), and its emitter, if it has one.

    The emitter gives ``heat`` (W) at the start temperature and ``falling`` less for each kelvin more (W/K).
    ``target`` (K) is where it throttles, None for a zone that floats; a zone that starts at or above its
    target stays there. ``wanted`` (K) is the temperature to be timed.
    """

    capacity: float
    start: float
    heat: float = 0.0
    falling: float = 0.0
    target: float | None = None
    wanted: float | None = None


@dataclass(frozen=True)
class WarmUpCourse:
    """Temperatures (K) of all zones over moments (s), and when each was warm (s); inf for never."""

    moments: Line
    temperatures: Mapping[str, Line]
    times: Mapping[str, float]


class _Modes:
    """Free zones from one event to the next, as a sum of exponentials; held zones are what lies beyond."""

    def __init__(self, capacities: Line, matrix: Line, source: Line, start: Line) -> None:
        root = np.sqrt(capacities)
        self._rates, vectors = np.linalg.eigh(matrix / np.outer(root, root))
        self._shapes = vectors / root[:, np.newaxis]
        self._start = vectors.T @ (root * start)
        self._drive = vectors.T @ (source / root)

    def at(self, moments: Line) -> Line:
        """Temperatures at moments after the start, shape ``[moments, zones]``."""
        grown = np.outer(moments, self._rates)
        small = np.abs(self._rates) < 1e-15  # noqa: PLR2004 - a mode without any loss grows straight
        rates = np.where(small, 1.0, self._rates)
        share = np.where(small, moments[:, np.newaxis], -np.expm1(-grown) / rates)
        return (np.exp(-grown) * self._start + share * self._drive) @ self._shapes.T


def _system(zones: Mapping[str, WarmingZone], paths: Sequence[Path]) -> tuple[Line, Line]:
    """Matrix of conductances and steady sources of all zones, emitters included."""
    place = {name: k for k, name in enumerate(zones)}
    matrix, source = np.zeros((len(place), len(place))), np.zeros(len(place))
    for path in paths:
        if path.zone not in place or (isinstance(path.beyond, str) and path.beyond not in place):
            raise DossierError(f"a path of the zone {path.zone} leads to or from a zone that is not warmed")
        a, h = place[path.zone], float(path.conductance)
        matrix[a, a] += h
        if isinstance(path.beyond, str):
            b = place[path.beyond]
            matrix[b, b] += h
            matrix[a, b] -= h
            matrix[b, a] -= h
        else:
            source[a] += h * float(path.beyond)
    for name, zone in zones.items():
        matrix[place[name], place[name]] += zone.falling
        source[place[name]] += zone.heat + zone.falling * zone.start
    return matrix, source


def _first_crossing(modes: _Modes, levels: Line, end: float) -> tuple[float, int] | None:
    """Moment and number of the first zone to rise to its level within ``end`` seconds."""
    grid = np.linspace(0.0, end, _SEARCH + 1)
    above = modes.at(grid) >= levels
    rows = np.flatnonzero(above.any(axis=1))
    if not len(rows):
        return None
    if rows[0] == 0:
        return 0.0, int(np.flatnonzero(above[0])[0])
    low, high = grid[rows[0] - 1], grid[rows[0]]
    while high - low > _PRECISION:
        middle = (low + high) / 2
        if (modes.at(np.array([middle])) >= levels).any():
            high = middle
        else:
            low = middle
    return float(high), int(np.flatnonzero((modes.at(np.array([high])) >= levels)[0])[0])


def warm_up_together(
    zones: Mapping[str, WarmingZone], paths: Sequence[Path], end: float, points: int = 241
) -> WarmUpCourse:
    """Course of all zones from the start to ``end`` (s), and when each reaches its wanted temperature.

    Numbers only, no samples. A held zone stays at its target however its neighbours go on. Raises
    ``DossierError`` where a path leads to a zone that is not among ``zones``.
    """
    names = list(zones)
    matrix, source = _system(zones, paths)
    capacities = np.array([zone.capacity for zone in zones.values()])
    targets = np.array([np.inf if z.target is None else z.target for z in zones.values()])
    moments = np.linspace(0.0, end, points)
    course = np.zeros((points, len(names)))
    wanted = np.array([np.inf if z.wanted is None else z.wanted for z in zones.values()])
    times = np.full(len(names), np.inf)
    now, state = 0.0, np.array([float(zone.start) for zone in zones.values()])
    times[state >= wanted] = 0.0
    held = state >= targets
    while True:
        free = np.flatnonzero(~held)
        fixed = np.flatnonzero(held)
        span, reached = end - now, None
        line = np.tile(state, (points, 1))
        here = moments >= now
        if len(free):
            modes = _Modes(
                capacities[free],
                matrix[np.ix_(free, free)],
                source[free] - matrix[np.ix_(free, fixed)] @ state[fixed],
                state[free],
            )
            line[:, free] = modes.at(np.maximum(moments - now, 0.0))
            pending = np.where(np.isinf(times[free]), wanted[free], np.inf)
            reached = _first_crossing(modes, np.minimum(pending, targets[free]), span)
        course[here] = line[here]
        if reached is None:
            break
        step, which = reached
        now, number = now + step, int(free[which])
        state[free] = modes.at(np.array([step]))[0]
        if np.isinf(times[number]) and state[number] >= wanted[number]:
            times[number] = now
        if state[number] >= targets[number]:
            state[number] = targets[number]
            held[number] = True
    return WarmUpCourse(
        moments,
        {name: course[:, k] for k, name in enumerate(names)},
        {name: float(times[k]) for k, name in enumerate(names)},
    )
