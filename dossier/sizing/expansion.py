"""Where does the hot coolant go, and how far is it from boiling?"""

from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.notation import ARITHMETIC, NotAssessed, OutOfRange, Real, chosen, q
from dossier.notation.records import dataclass
from dossier.physics.boiling import (
    absolute_pressure,
    boiling_margin,
    boiling_point,
    temperature_after_stop,
    vapour_pressure,
)
from dossier.physics.expansion import (
    acceptance_factor,
    coolant_contraction,
    coolant_expansion,
    cushion_pressure,
    final_pressure,
    header_content,
    header_room,
    highest_final_pressure,
    static_pressure,
    vessel_content,
    vessel_needed,
)
from dossier.sizing.coolant import Coolant
from dossier.sizing.header_margins import header_of
from dossier.sizing.pressures import Pressures
from dossier.sizing.ring import RingStudy
from dossier.sizing.store_stop import heat_left, standing_capacity

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "Where does the hot coolant go?"
MARGIN = q("Δθ", "K", "boiling margin")


@dataclass(frozen=True)
class Boiling:
    """Margin to boiling at one part in one mode, or with the pump stopped at the overheat stat."""

    mode: str
    tag: str
    pressure: Annotated[Real, q("p", "Pa", "absolute pressure")]
    temperature: Annotated[Real, q("θ", "K", "temperature")]
    point: Annotated[Real, q("θ_b", "K", "boiling point there")]
    margin: Annotated[Real, MARGIN]


@dataclass(frozen=True)
class Expansion:
    """Expansion of the system, room for it, and the margin to boiling."""

    fill: Annotated[Real, q("θ_f", "K", "fill temperature")]
    hottest: Annotated[Real, q("θ_max", "K", "highest temperature counted")]
    hottest_by: str
    volume: Annotated[
        Real, q("ΔV", "m3", "from fill to the overheat stat's temperature", name="expansion.volume")
    ]
    contraction: Annotated[
        Real | None, q("ΔV", "m3", "from fill to the coldest lay-up", name="expansion.contraction")
    ]
    coldest: Annotated[Real | None, q("θ", "K", "coldest counted")]
    header_capacity: Annotated[
        Real | None,
        q("V", "m3", "between cold level and overflow", name="expansion.header_capacity"),
    ]
    header_content: Annotated[Real | None, q("V", "m3", "coolant in the header when cold")]
    static: Annotated[Real | None, q("p", "Pa", "gauge, at the vessel", name="expansion.static_pressure")]
    reserve: Annotated[Real | None, q("V", "m3", "coolant in the vessel when cold")]
    needed: Annotated[Real | None, q("V", "m3", "membrane vessel", name="expansion.vessel_needed")]
    final: Annotated[
        Real | None,
        q("p", "Pa", "gauge, hot, with the vessel fitted", name="expansion.final_pressure"),
    ]
    least: Annotated[
        Real | None,
        q("Δθ", "K", "least boiling margin of any node and mode", name="expansion.boiling_margin"),
    ]
    least_at: Boiling | None
    at_stat: tuple[Boiling, ...]
    boiling_point: Annotated[
        Real | None,
        q("θ_b", "K", "at the absolute pressure of the hottest high point", name="coolant.boiling_point"),
    ]
    vapour_pressure: Annotated[
        Real | None,
        q("p_v", "Pa", "absolute, at the highest temperature", name="coolant.vapour_pressure"),
    ]
    after_stop: Annotated[
        Real | None, q("θ", "K", "burner after a stop without flow", name="expansion.after_stop")
    ]
    boilings: tuple[Boiling, ...]
    stops: tuple[Boiling, ...]


def expansion(
    project: "Project",
    ring: RingStudy | NotAssessed,
    coolant: Coolant | NotAssessed,
    found: Pressures | NotAssessed,
) -> Expansion | NotAssessed:
    """Expansion, contraction, vessel and boiling of the ring."""
    if isinstance(coolant, NotAssessed):
        return coolant
    if coolant.volume is None:
        return NotAssessed(QUESTION, ("circuit.ring",))
    fill = assumed("conditions.heat_up_start", "conditions.fill")
    hottest, by = _hottest(project, coolant)
    volume = coolant_expansion(coolant.fluid, coolant.volume, fill, hottest)
    contraction, coldest = _contraction(project, coolant, fill)
    boilings = _boilings(ring, coolant, found)
    at_stat = _at_stat(project, coolant, found)
    after = _after_stop(project, coolant)
    parts = project.components or {}
    told = [tag for tag in after if getattr(parts[tag], "heat_after_stop", None) is not None]
    least_at = min(boilings, key=lambda b: float(b.margin), default=None)
    tank: Any = _header(project)
    room = content = None
    if tank is not None and tank.volume is not None and tank.cold_level is not None:
        room = header_room(tank.volume, tank.cold_level)
        content = header_content(tank.volume, tank.cold_level)
    sealed = _sealed(project, coolant, found, volume, tank, room)
    return Expansion(
        fill,
        hottest,
        by,
        volume,
        contraction,
        coldest,
        room,
        content,
        sealed.get("static"),
        sealed.get("reserve"),
        sealed.get("needed"),
        sealed.get("final"),
        None
        if least_at is None
        else chosen(float(least_at.margin), MARGIN, f"least, at {least_at.tag}", ARITHMETIC, least_at.margin),
        least_at,
        at_stat,
        least_at.point if least_at else None,
        vapour_pressure(coolant.fluid, hottest),
        max(after.values(), key=float, default=None),
        boilings,
        tuple(b for tag in told for b in _stopped(coolant, found, tag, after[tag])),
    )


def _header(project: "Project") -> Any:
    """Header tank of the ring: the one that joins it, else the first aboard; None where there is none."""
    tag = header_of(project)
    parts = project.components or {}
    return parts.get(tag) if tag else next((c for c in parts.values() if c.kind == "header_tank"), None)


def _hottest(project: "Project", coolant: Coolant) -> tuple[Real, str]:
    """Highest temperature the coolant may see: the lowest-lying overheat stat, else the table's end."""
    top = coolant.fluid.highest
    for tag, part in (project.components or {}).items():
        burner: Any = part
        if part.kind == "burner" and burner.overheat_stat is not None:
            if float(burner.overheat_stat) <= top:
                return burner.overheat_stat, f"overheat stat of {tag}"
            break
    return top, "end of the coolant's table: no overheat stat is stated, or it is set higher"


def _contraction(project: "Project", coolant: Coolant, fill: Real) -> tuple[Real | None, Real | None]:
    lowest = project.conditions.lay_up_lowest if project.conditions else None
    if lowest is None or coolant.volume is None:
        return None, None
    try:
        return coolant_contraction(coolant.fluid, coolant.volume, fill, lowest), lowest
    except OutOfRange:
        coldest = coolant.fluid.lowest
        return coolant_contraction(coolant.fluid, coolant.volume, fill, coldest), coldest


def _boilings(
    ring: RingStudy | NotAssessed, coolant: Coolant, found: Pressures | NotAssessed
) -> tuple[Boiling, ...]:
    if isinstance(ring, NotAssessed) or isinstance(found, NotAssessed):
        return ()
    seen = []
    for mode, pressures in found.modes.items():
        heat = ring.operations[mode].heat
        if heat is None:
            continue
        for tag, edge in pressures.edges.items():
            hot = heat.outlets.get(tag)
            if hot is not None:
                seen.append(_boiling(coolant, mode, tag, edge.inlet, hot))
        if pressures.lowest_at not in pressures.edges and heat.sources:
            source = max(heat.sources.values(), key=lambda s: float(s.supply))
            pressure = absolute_pressure(pressures.lowest, found.atmosphere)
            seen.append(_boiling(coolant, mode, pressures.lowest_at, pressure, source.supply))
    return tuple(seen)


def _boiling(coolant: Coolant, mode: str, tag: str, pressure: Real, temperature: Real) -> Boiling:
    point = boiling_point(coolant.fluid, pressure)
    return Boiling(mode, tag, pressure, temperature, point, boiling_margin(point, temperature))


def _at_stat(project: "Project", coolant: Coolant, found: Pressures | NotAssessed) -> tuple[Boiling, ...]:
    """Margin at each burner with the pump stopped and the water at the stat's setting."""
    at: list[Boiling] = []
    for tag, part in (project.components or {}).items():
        burner: Any = part
        if part.kind == "burner" and burner.overheat_stat is not None:
            at += _stopped(coolant, found, tag, burner.overheat_stat)
    return tuple(at)


def _stopped(
    coolant: Coolant, found: Pressures | NotAssessed, tag: str, temperature: Real
) -> tuple[Boiling, ...]:
    """Margin at a burner with the pump stopped; none where its height is not known."""
    if isinstance(found, NotAssessed):
        return ()
    gauge = found.stopped_gauge(tag, coolant.density)
    if gauge is None:
        return ()
    pressure = absolute_pressure(gauge, found.atmosphere)
    return (_boiling(coolant, "pump stopped", tag, pressure, temperature),)


def _after_stop(project: "Project", coolant: Coolant) -> dict[str, Real]:
    """Temperature of each burner after a stop without flow; heat its maker does not tell is assumed."""
    found: dict[str, Real] = {}
    for tag, part in (project.components or {}).items():
        burner: Any = part
        if part.kind != "burner" or None in {burner.water_volume, burner.metal, burner.output}:
            continue
        key = f"components.{tag}.heat_after_stop"
        left = burner.heat_after_stop
        if left is None:
            left = heat_left(burner.output.max, assumed("components.burner.heat_after_stop", key))
        setpoint = stated_or_assumed(
            burner.setpoint, "components.burner.setpoint", f"components.{tag}.setpoint"
        )
        capacity = standing_capacity(burner.water_volume, burner.metal, coolant)
        found[tag] = temperature_after_stop(setpoint, left, capacity)
    return found


def _sealed(  # noqa: PLR0913, PLR0917 - the vessel with all that surrounds it
    project: "Project",
    coolant: Coolant,
    found: Pressures | NotAssessed,
    volume: Real,
    tank: Any,
    room: Real | None,
) -> dict[str, Real]:
    """What a vessel or a pressure cap makes of the expansion; nothing in an open ring."""
    vessel: Any = next((c for c in (project.components or {}).values() if c.kind == "membrane_vessel"), None)
    if isinstance(found, NotAssessed):
        return {}
    values: dict[str, Real] = {}
    if vessel is None:
        if tank is not None and tank.cap == "pressure" and room is not None:
            steam = vapour_pressure(coolant.fluid, coolant.working)
            values["final"] = cushion_pressure(
                room, volume, found.atmosphere, assumed("conditions.heat_up_start"), coolant.working, steam
            )
        return values
    stated: Any = project.layout.highest_wetted if project.layout else None
    if stated is not None and stated.at is not None and vessel.tag in _places(project):
        height = stated.at.z - _places(project)[vessel.tag].at.z
        values["static"] = static_pressure(coolant.density, max(float(height), 0.0))
    if vessel.volume is None or vessel.precharge is None:
        return values
    fill = project.circuit.fill_pressure if project.circuit else None
    final = vessel.final if vessel.final is not None else _final_by_valve(project)
    if final is not None and coolant.volume is not None:
        factor = acceptance_factor(vessel.precharge, final, found.atmosphere)
        values["needed"] = vessel_needed(volume, coolant.volume, factor)
    if fill is not None:
        values["reserve"] = vessel_content(vessel.volume, vessel.precharge, fill, found.atmosphere)
        values["final"] = final_pressure(vessel.volume, vessel.precharge, fill, volume, found.atmosphere)
    return values


def _final_by_valve(project: "Project") -> Real | None:
    for part in (project.components or {}).values():
        valve: Any = part
        if part.kind == "safety_valve" and valve.setting is not None:
            return highest_final_pressure(valve.setting)
    return None


def _places(project: "Project") -> Any:
    return project.layout.places if project.layout and project.layout.places else {}
