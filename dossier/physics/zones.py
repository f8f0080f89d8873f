"""Heat balance of all zones together: loads of the heated ones, temperatures of those that float.

    balance = zone_balance(
        {"saloon": 293.15, "engine_room": None},                  # None floats
        [Path("saloon", 263.15, 35.0), Path("saloon", "engine_room", 6.0), Path("engine_room", 275.15, 90.0)],
        gains={"engine_room": 120.0},
    )
    balance.temperatures["engine_room"], balance.loads["saloon"]

A path leads from a zone to a temperature (air, sea, ground, a tank, the water of an emitter) or to another
zone, and is written once, by either. All numbers may be samples: their axes come first and broadcast against
each other.
"""

from collections.abc import Iterable, Mapping, Sequence
from functools import partial
from typing import Annotated

import numpy as np

from dossier.data.sources import HEAT_BALANCE
from dossier.notation import DossierError, Quantity, Real, formula, q, solved
from dossier.notation.records import dataclass

_GIVES = q("θ_i", "K", "temperature of a zone that floats")
_CONDUCTANCE = q("H", "W/K", "conductance")
_BEYOND = q("θ_b", "K", "temperature beyond")
_GAIN = q("Φ_g", "W", "heat put into the zone")


@formula("Φ = H·(θ_i − θ_b)", HEAT_BALANCE)
def path_loss(
    conductance: Annotated[Real, q("H", "W/K", "conductance", low=0, high=1e7)],
    inside: Annotated[Real, q("θ_i", "K", "temperature of the zone", low=150, high=500)],
    beyond: Annotated[Real, q("θ_b", "K", "temperature beyond", low=150, high=500)],
) -> Annotated[Real, q("Φ", "W", "heat flow along a path")]:
    """Heat that leaves a zone along one path; negative when it comes in."""
    return conductance * (inside - beyond)


@formula("Φ = Σ Φ_j", HEAT_BALANCE)
def total_heat_flow(
    *flows: Annotated[Real, q("Φ_j", "W", "heat flow")],
) -> Annotated[Real, q("Φ", "W", "sum of heat flows")]:
    """Sum of heat flows."""
    return sum(flows)


@formula("Φ_HL = Φ_o + Φ_N − Φ_g", HEAT_BALANCE)
def zone_load(
    outward: Annotated[Real, q("Φ_o", "W", "to air, sea and ground")],
    neighbours: Annotated[Real, q("Φ_N", "W", "to other zones")],
    gain: Annotated[Real, q("Φ_g", "W", "heat put into the zone")],
) -> Annotated[Real, q("Φ_HL", "W", "load of a zone")]:
    """Heat that a held zone needs; negative where it would have to be cooled."""
    return outward + neighbours - gain


@dataclass(frozen=True)
class Path:
    """A way for heat from ``zone`` to ``beyond``: the name of another zone, or a temperature (K)."""

    zone: str
    beyond: "str | Real"
    conductance: Real


@dataclass(frozen=True)
class ZoneBalance:
    """Balance of all zones: temperatures (K), heat lost outward and to neighbours, loads (W).

    ``loads`` is what heating must give to the zones that are held, negative where one would have to be
    cooled. ``residual`` is the largest imbalance of a floating zone over the largest heat flow, of all
    samples.
    """

    temperatures: Mapping[str, Real]
    outward: Mapping[str, Real]
    neighbours: Mapping[str, Real]
    loads: Mapping[str, Real]
    residual: float


def _floating_without_path(zones: Mapping[str, Real | None], paths: Sequence[Path]) -> list[str]:
    """Floating zones from which no path leads to a temperature that is known."""
    reached = {name for name, target in zones.items() if target is not None}
    open_paths = [p for p in paths if np.all(np.asarray(p.conductance) > 0)]
    reached |= {p.zone for p in open_paths if not isinstance(p.beyond, str)}
    spread = True
    while spread:
        spread = False
        for path in open_paths:
            if isinstance(path.beyond, str) and (path.zone in reached) != (path.beyond in reached):
                reached |= {path.zone, path.beyond}
                spread = True
    return [name for name in zones if name not in reached]


def _refuse(zones: Mapping[str, Real | None], paths: Sequence[Path], gains: Mapping[str, Real]) -> None:
    for name in gains:
        if name not in zones:
            raise DossierError(f"heat is put into the zone {name}, which is not among the zones")
    for path in paths:
        for end in (path.zone, path.beyond):
            if isinstance(end, str) and end not in zones:
                raise DossierError(f"a path leads to the zone {end}, which is not among the zones")
        if isinstance(path.beyond, str) and path.zone == path.beyond:
            raise DossierError(f"a path leads from the zone {path.zone} to itself")
        if np.any(np.asarray(path.conductance) < 0):
            raise DossierError(f"a path of the zone {path.zone} has a negative conductance")
    lost = _floating_without_path(zones, paths)
    if lost:
        raise DossierError(
            f"the temperature of {', '.join(lost)} cannot be found: no section or outside air joins "
            f"{'it' if len(lost) == 1 else 'them'} to a known temperature"
        )


def zone_balance(
    zones: Mapping[str, Real | None], paths: Iterable[Path], gains: Mapping[str, Real] | None = None
) -> ZoneBalance:
    """Steady balance of all zones; those with None for a target float and are solved together.

    ``gains`` is heat put into a zone by pipes, engine or people (W). Raises ``DossierError`` naming the zone
    where a floating zone has no path to a known temperature, or a path leads to an unknown zone.
    """
    paths, gains = tuple(paths), gains or {}
    _refuse(zones, paths, gains)
    temperatures = {name: target for name, target in zones.items() if target is not None}
    floating = [name for name, target in zones.items() if target is None]
    if floating:
        temperatures |= _floating_temperatures(floating, temperatures, paths, gains)
    temperatures = {name: temperatures[name] for name in zones}
    outward: dict[str, list[Real]] = {name: [] for name in zones}
    neighbours: dict[str, list[Real]] = {name: [] for name in zones}
    for path in paths:
        inside = temperatures[path.zone]
        if isinstance(path.beyond, str):
            beyond = temperatures[path.beyond]
            neighbours[path.zone].append(path_loss(path.conductance, inside, beyond))
            neighbours[path.beyond].append(path_loss(path.conductance, beyond, inside))
        else:
            outward[path.zone].append(path_loss(path.conductance, inside, path.beyond))
    out = {name: total_heat_flow(*flows) for name, flows in outward.items()}
    across = {name: total_heat_flow(*flows) for name, flows in neighbours.items()}
    left = {name: zone_load(out[name], across[name], gains.get(name, 0.0)) for name in zones}
    largest = max(
        (np.abs(flow) for flows in (*outward.values(), *neighbours.values()) for flow in flows),
        key=np.max,
        default=0.0,
    )
    return ZoneBalance(
        temperatures=temperatures,
        outward=out,
        neighbours=across,
        loads={name: load for name, load in left.items() if name not in floating},
        residual=_residual(floating, left, largest),
    )


def _residual(floating: Sequence[str], left: Mapping[str, Real], largest: Real) -> float:
    """Largest heat left over in a zone that floats, over the largest heat flow of all paths and samples."""
    worst = max((float(np.max(np.abs(left[name]))) for name in floating), default=0.0)
    scale = float(np.max(largest))
    return worst / scale if scale else worst


def _floating_temperatures(
    floating: Sequence[str], held: Mapping[str, Real], paths: Sequence[Path], gains: Mapping[str, Real]
) -> dict[str, Real]:
    """Temperatures of the zones that float, by name: numbers with a working, or samples."""
    place = {name: k for k, name in enumerate(floating)}
    ends = [(path, path.zone, path.beyond) for path in paths]
    ends += [(path, path.beyond, path.zone) for path in paths if isinstance(path.beyond, str)]
    here = [(path.conductance, str(zone), beyond) for path, zone, beyond in ends if zone in place]
    numbers = [*(h for h, _, _ in here), *(held.get(b, 0.0) if isinstance(b, str) else b for _, _, b in here)]
    numbers += [gains.get(name, 0.0) for name in floating]
    shape = np.broadcast_shapes(*(np.shape(number) for number in numbers))
    matrix = np.zeros((*shape, len(floating), len(floating)))
    source = np.zeros((*shape, len(floating)))
    for name, k in place.items():
        source[..., k] = gains.get(name, 0.0)
    for conductance, zone, beyond in here:
        k = place[zone]
        matrix[..., k, k] += conductance
        if isinstance(beyond, str) and beyond in place:
            matrix[..., k, place[beyond]] -= conductance
        else:
            source[..., k] += conductance * (held[beyond] if isinstance(beyond, str) else beyond)
    found = np.linalg.solve(matrix, source[..., np.newaxis])[..., 0]
    if shape:
        return {name: found[..., k] for name, k in place.items()}
    floats = {name: float(found[k]) for name, k in place.items()}
    return {name: _with_working(name, floats, paths, held, gains) for name in place}


def _joined(name: str, floating: Mapping[str, float], paths: Sequence[Path]) -> tuple[str, ...]:
    """Zones that float together with one, through paths between them: itself first."""
    found = [name]
    for zone in found:
        for path in paths:
            for one, other in ((path.zone, path.beyond), (path.beyond, path.zone)):
                if one == zone and isinstance(other, str) and other in floating and other not in found:
                    found.append(other)
    return tuple(found)


def _with_working(
    name: str,
    floats: Mapping[str, float],
    paths: Sequence[Path],
    held: Mapping[str, Real],
    gains: Mapping[str, Real],
) -> Real:
    """The temperature found, with the paths and known temperatures of all zones that float together."""
    place = {zone: k for k, zone in enumerate(_joined(name, floats, paths))}
    warmed = tuple(place[zone] for zone in place if zone in gains)
    given: list[tuple[Quantity, object]] = [(_GAIN, gains[zone]) for zone in place if zone in gains]
    ways: list[tuple[int, int | None]] = []
    for path in paths:
        for zone, beyond in ((path.zone, path.beyond), (path.beyond, path.zone)):
            if not isinstance(zone, str) or zone not in place:
                continue
            given.append((_CONDUCTANCE, path.conductance))
            known = held.get(beyond) if isinstance(beyond, str) else beyond
            ways.append((place[zone], place[str(beyond)] if known is None else None))
            if known is None:
                break
            given.append((_BEYOND, known))
    text = "Σ H·(θ_i − θ_b) = Φ_g, all floating zones together"
    again = partial(_balanced, warmed, tuple(ways), len(place))
    return solved(floats[name], _GIVES, text, HEAT_BALANCE, given, function=again)


def _balanced(
    warmed: tuple[int, ...], ways: tuple[tuple[int, int | None], ...], size: int, *given: Real
) -> Real:
    """Temperature of the first of some zones that float together, again from its working's numbers."""
    numbers = iter(given)
    source: list[Real] = [0.0] * size
    matrix: list[list[Real]] = [[0.0] * size for _ in range(size)]
    for zone in warmed:
        source[zone] = source[zone] + next(numbers)
    for zone, other in ways:
        conductance = next(numbers)
        matrix[zone][zone] = matrix[zone][zone] + conductance
        if other is None:
            source[zone] = source[zone] + conductance * next(numbers)
        else:
            matrix[other][other] = matrix[other][other] + conductance
            matrix[zone][other] = matrix[zone][other] - conductance
            matrix[other][zone] = matrix[other][zone] - conductance
    if size == 1:
        return source[0] / matrix[0][0]
    shape = np.broadcast_shapes(*(np.shape(number) for number in given))
    left = np.stack([np.stack([np.broadcast_to(h, shape) for h in row], axis=-1) for row in matrix], axis=-2)
    right = np.stack([np.broadcast_to(heat, shape) for heat in source], axis=-1)
    return np.linalg.solve(left, right[..., np.newaxis])[..., 0, 0][()]
