"""Where can the ring draw air or boil? Absolute pressure at every part whose height is known."""

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import stated_or_assumed
from dossier.data.sources import HYDROSTATICS
from dossier.notation import ARITHMETIC, NotAssessed, Real, chosen, formula, q
from dossier.notation.records import dataclass
from dossier.physics.boiling import absolute_pressure, atmospheric_pressure
from dossier.physics.expansion import static_pressure
from dossier.physics.pump import STANDARD_GRAVITY
from dossier.sizing.coolant import Coolant
from dossier.sizing.heights import heights_of, level_in_tank, places_of
from dossier.sizing.hydraulics import ANCHOR, Hydraulics
from dossier.sizing.ring import Operation, RingStudy

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "Where can the ring draw air, or boil?"


@dataclass(frozen=True)
class EdgePressure:
    """Absolute pressure at the inlet of a part."""

    mode: str
    tag: str
    inlet: Annotated[Real, q("p", "Pa", "absolute, at the inlet", name="pressure.{mode}.edge.{tag}.inlet")]
    gauge: Annotated[Real, q("p_g", "Pa", "gauge, at the inlet")]


@dataclass(frozen=True)
class ModePressures:
    """Pressures of one mode; ``lowest_at`` and ``highest_at`` name the parts."""

    mode: str
    edges: Mapping[str, EdgePressure]
    lowest: Annotated[Real, q("p", "Pa", "gauge, lowest point of the ring", name="pressure.{mode}.lowest")]
    lowest_at: str
    highest: Annotated[Real, q("p", "Pa", "gauge, highest anywhere", name="pressure.{mode}.highest")]
    highest_at: str


@dataclass(frozen=True)
class Pressures:
    """Pressures of all modes, and what holds them where the header joins."""

    atmosphere: Annotated[Real, q("p_at", "Pa", "pressure of the atmosphere")]
    join: Annotated[Real, q("p_g", "Pa", "gauge, where header or vessel joins")]
    join_height: Annotated[Real | None, q("z", "m", "height of the joint over the waterline")]
    heights: Mapping[str, Real]
    modes: Mapping[str, ModePressures]
    sealed: bool
    stopped: Annotated[Real | None, q("p_g", "Pa", "gauge, lowest anywhere with the pumps stopped")] = None
    stopped_at: str = ""

    def stopped_gauge(self, tag: str, density: Real) -> Real | None:
        """Gauge pressure at a part with the pump stopped, None where its height is not known."""
        if tag not in self.heights or self.join_height is None:
            return None
        return pressure_at(self.join, 0.0, density, height_over(self.heights[tag], self.join_height))


@formula("Δz = z − z_j", ARITHMETIC)
def height_over(
    height: Annotated[Real, q("z", "m", "height", low=-50, high=100)],
    level: Annotated[Real, q("z_j", "m", "level it is counted from", low=-50, high=100)],
) -> Annotated[Real, q("Δz", "m", "height over the level")]:
    """Height of a part over a level."""
    return height - level


@formula("p_g = p_j + Δp_d − ρ·g·Δz, g = 9.80665 m/s²", HYDROSTATICS)
def pressure_at(
    join: Annotated[Real, q("p_j", "Pa", "gauge, where the header joins", low=-1e6, high=5e6)],
    moving: Annotated[Real, q("Δp_d", "Pa", "by the pump and the drops, from the joint", low=-5e6, high=5e6)],
    density: Annotated[Real, q("ρ", "kg/m3", "density of the coolant", low=800, high=1300)],
    height: Annotated[Real, q("Δz", "m", "height over the joint", low=-50, high=50)],
) -> Annotated[Real, q("p_g", "Pa", "gauge pressure")]:
    """Gauge pressure at a part: at the joint, more by the pump, less by its height."""
    return join + moving - density * 9.80665 * height


def pressures(
    project: "Project", ring: RingStudy | NotAssessed, coolant: Coolant | NotAssessed
) -> Pressures | NotAssessed:
    """Pressures of all modes."""
    if isinstance(ring, NotAssessed):
        return ring
    if isinstance(coolant, NotAssessed):
        return coolant
    circuit = ring.hydraulics.circuit
    if circuit.join is None:
        return NotAssessed(QUESTION, ("circuit.header.joins_before",))
    conditions = project.conditions
    atmosphere = atmospheric_pressure(
        stated_or_assumed(conditions.altitude if conditions else None, "conditions.altitude")
    )
    heights = heights_of(project, circuit)
    join_height = heights.get(circuit.join_before)
    join = _at_join(project, circuit.header, circuit.join_before, join_height, coolant)
    if isinstance(join, NotAssessed):
        return join
    sealed = bool(project.circuit and project.circuit.system == "sealed")
    found = Pressures(atmosphere, join, join_height, heights, {}, sealed)
    wetted = _highest_wetted(project)
    modes = {}
    for mode, operation in ring.operations.items():
        each = _mode(ring.hydraulics, found, operation, coolant, circuit.join_before, wetted)
        if each is not None:
            modes[mode] = each
    stopped, stopped_at = _stopped(found, coolant, circuit.join_before, wetted)
    return replace(found, modes=modes, stopped=stopped, stopped_at=stopped_at)


def _stopped(
    found: Pressures, coolant: Coolant, before: str, wetted: tuple[str, Real] | None
) -> tuple[Real, str]:
    """Lowest gauge pressure of all known heights with the pumps stopped, and where."""
    at: dict[str, Real] = {before: found.join}
    for tag in found.heights:
        gauge = found.stopped_gauge(tag, coolant.density)
        if gauge is not None:
            at[tag] = gauge
    if wetted is not None and found.join_height is not None:
        at[wetted[0]] = pressure_at(
            found.join, 0.0, coolant.density, height_over(wetted[1], found.join_height)
        )
    lowest = min(at, key=lambda tag: float(at[tag]))
    return at[lowest], lowest


def _at_join(
    project: "Project", header: str, before: str, join_height: Real | None, coolant: Coolant
) -> Real | NotAssessed:
    """Gauge pressure where header or vessel joins, cold."""
    unit: Any = (project.components or {}).get(header)
    if unit is not None and unit.kind == "membrane_vessel":
        fill = project.circuit.fill_pressure if project.circuit else None
        return NotAssessed(QUESTION, ("circuit.fill_pressure",)) if fill is None else fill
    place = places_of(project).get(header)
    needs = []
    if not header:
        needs.append("circuit.header.unit")
    elif place is None or place.at is None or place.size is None:
        needs.append(f"layout.places.{header}")
    if join_height is None:
        needs.append(f"layout.places.{before}")
    if needs or place is None:
        return NotAssessed(QUESTION, tuple(needs))
    level = stated_or_assumed(
        unit.cold_level, "components.header_tank.cold_level", f"components.{header}.cold_level"
    )
    surface = level_in_tank(place.at.z, level, place.size.high)
    return static_pressure(coolant.density, height_over(surface, join_height or 0.0))


def _highest_wetted(project: "Project") -> tuple[str, Real] | None:
    stated: Any = project.layout.highest_wetted if project.layout else None
    if stated is None or stated.at is None:
        return None
    return stated.name or "highest wetted point", stated.at.z


def _mode(  # noqa: PLR0913, PLR0917 - a mode with all that holds its pressure
    hydraulics: Hydraulics,
    found: Pressures,
    operation: Operation,
    coolant: Coolant,
    before: str,
    wetted: tuple[str, Real] | None,
) -> ModePressures | None:
    solution = operation.outcome.solution
    index = solution.network.element_index
    edges = {}
    column = float(solution.laws.reference) * STANDARD_GRAVITY * hydraulics.inlet_heights
    pushed_by = (solution.inlet_pressure - ANCHOR + column).tolist()
    moving = {tag: pushed_by[n] for tag, n in index.items()}
    for tag, pushed in moving.items():
        if pushed != pushed:  # noqa: PLR0124 - not a number: nothing holds the pressure there
            continue
        if tag == before:
            gauge: Real = pressure_at(found.join, pushed, coolant.density, 0.0)
        elif tag in found.heights and found.join_height is not None:
            over = height_over(found.heights[tag], found.join_height)
            gauge = pressure_at(found.join, pushed, coolant.density, over)
        else:
            continue
        edges[tag] = EdgePressure(operation.mode, tag, absolute_pressure(gauge, found.atmosphere), gauge)
    if not edges:
        return None
    candidates: dict[str, Real] = {tag: edge.gauge for tag, edge in edges.items()}
    if wetted is not None and found.join_height is not None:
        # The name of the point tells nobody where in the ring it lies, so it is given the lowest pressure
        # that the drops leave anywhere.
        least = min(pushed for pushed in moving.values() if pushed == pushed)  # noqa: PLR0124
        over = height_over(wetted[1], found.join_height)
        candidates[wetted[0]] = pressure_at(found.join, least, coolant.density, over)
    lowest_at = min(candidates, key=lambda tag: float(candidates[tag]))
    highest_at = max(candidates, key=lambda tag: float(candidates[tag]))
    gauge_of = q("p", "Pa", "gauge pressure")
    return ModePressures(
        operation.mode,
        edges,
        chosen(
            float(candidates[lowest_at]),
            gauge_of,
            f"lowest, at {lowest_at}",
            ARITHMETIC,
            candidates[lowest_at],
        ),
        lowest_at,
        chosen(
            float(candidates[highest_at]),
            gauge_of,
            f"highest, at {highest_at}",
            ARITHMETIC,
            candidates[highest_at],
        ),
        highest_at,
    )
