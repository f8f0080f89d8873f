"""What coolant, how much of it, and what does the mix do?"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any

from dossier.data.assumptions import assumed, stated_or_assumed
from dossier.data.pipes import pipe_size
from dossier.data.sources import GEOMETRY, HEAT_BALANCE
from dossier.notation import ARITHMETIC, NotAssessed, Real, formula, q
from dossier.notation.records import dataclass
from dossier.physics.boiling import atmospheric_pressure
from dossier.physics.coolant_mix import concentrate_volume, drain_and_refill, water_volume
from dossier.physics.expansion import header_content, vessel_content
from dossier.physics.fluid import Fluid, coolant, water
from dossier.sizing.circuit import Circuit
from dossier.sizing.hydraulics import PipeMeasure, pipe_measure

if TYPE_CHECKING:
    from dossier.project import Project

QUESTION = "Which coolant, and how much of it?"
TOP_UPS = (0.001, 0.002, 0.005)
CONTENT_ASSUMED = {
    "burner": "components.burner.water_volume",
    "fan_coil": "components.fan_coil.water_volume",
    "radiator": "components.radiator.water_volume",
    "towel_rail": "components.radiator.water_volume",
    "tap_exchanger": "components.exchanger.water_volume",
    "recovery_exchanger": "components.exchanger.water_volume",
    "water_heater": "components.exchanger.water_volume",
}


@formula("V = π/4·d²·L", GEOMETRY)
def pipe_content(
    bore: Annotated[Real, q("d", "m", "bore", low=0.001, high=1)],
    length: Annotated[Real, q("L", "m", "length", low=0, high=2000)],
) -> Annotated[Real, q("V", "m3", "content of a pipe")]:
    """Coolant in a run of pipe."""
    return 0.7853981633974483 * bore**2 * length


@formula("V = Σ V_i", ARITHMETIC)
def total_volume(
    *volumes: Annotated[Real, q("V_i", "m3", "content", low=0, high=100)],
) -> Annotated[Real, q("V", "m3", "content together")]:
    """Content of several parts together."""
    return sum(volumes)


@formula("θ_m = θ_set − Δθ_sw/2", HEAT_BALANCE)
def mean_of_cycle(
    setpoint: Annotated[Real, q("θ_set", "K", "setpoint", low=273, high=423)],
    band: Annotated[Real, q("Δθ_sw", "K", "switching band", low=0, high=80)],
) -> Annotated[Real, q("θ_m", "K", "mean supply temperature over a cycle of the burner")]:
    """Supply temperature that the emitters see on the mean of a cycle."""
    return setpoint - band / 2


@dataclass(frozen=True)
class Content:
    """Coolant in one part."""

    tag: str
    kind: str
    volume: Annotated[Real, q("V", "m3", "coolant in it")]
    length: Annotated[Real | None, q("L", "m", "length of the pipe")] = None
    size: str = ""
    branch: str = ""


@dataclass(frozen=True)
class TopUp:
    """Concentrate in a top-up that keeps the share."""

    litres: str
    volume: Annotated[Real, q("V", "m3", "top-up")]
    concentrate: Annotated[
        Real, q("V", "m3", "concentrate in the top-up", name="coolant.top_up.{litres}.concentrate")
    ]
    water: Annotated[Real, q("V_w", "m3", "water in the top-up")]


@dataclass(frozen=True)
class Coolant:
    """The coolant with its properties at the working temperature, and the content of the system."""

    fluid: Fluid
    share: Annotated[Real, q("x", "1", "share of glycol")]
    working: Annotated[Real, q("θ", "K", "working temperature")]
    density: Annotated[Real, q("ρ", "kg/m3", "at the working temperature", name="coolant.density")]
    specific_heat: Annotated[
        Real, q("c_p", "J/kgK", "at the working temperature", name="coolant.specific_heat")
    ]
    conductivity: Annotated[Real, q("λ", "W/mK", "at the working temperature", name="coolant.conductivity")]
    viscosity: Annotated[Real, q("μ", "Pa*s", "at the working temperature", name="coolant.viscosity")]
    freezing_point: Annotated[Real, q("θ_f", "K", "of the mix", name="coolant.freezing_point")]
    contents: tuple[Content, ...]
    volume: Annotated[
        Real | None,
        q("V_sys", "m3", "coolant in the whole system, header's cold level included", name="coolant.volume"),
    ]
    concentrate: Annotated[
        Real | None, q("V", "m3", "concentrate to buy for the first filling", name="coolant.concentrate")
    ]
    measured_share: Annotated[Real | None, q("x", "1", "share measured last")]
    drain_and_refill: Annotated[
        Real | None,
        q("V", "m3", "to drain and replace for the wanted share", name="coolant.drain_and_refill"),
    ]
    top_ups: tuple[TopUp, ...]
    water: Annotated[Real | None, q("V_w", "m3", "water for the first filling")] = None

    @property
    def is_mix(self) -> bool:
        """Whether there is glycol in it."""
        return self.fluid.data_set.is_mix


def fluid_of(project: "Project") -> Fluid | NotAssessed:
    """The coolant of the ring, or what is missing to name it."""
    mix = project.circuit.coolant if project.circuit else None
    if mix is None or mix.base is None:
        return NotAssessed(QUESTION, ("circuit.coolant.base",))
    if mix.base == "water":
        return water()
    if mix.share is None:
        return NotAssessed(QUESTION, ("circuit.coolant.share",))
    pure = mix.inhibitor is not None and not mix.inhibitor
    return coolant(mix.base, mix.share, inhibited=not pure, by=mix.by or "volume")


def supply_wanted(project: "Project") -> Real:
    """Supply temperature of the design mode: the mean of the first burner's cycle."""
    for tag, burner in (project.components or {}).items():
        if burner.kind == "burner":
            place = f"components.{tag}"
            setpoint = stated_or_assumed(
                burner.setpoint,  # type: ignore[attr-defined]  # a burner
                "components.burner.setpoint",
                f"{place}.setpoint",
            )
            band = stated_or_assumed(burner.band, "components.burner.band", f"{place}.band")  # type: ignore[attr-defined]
            return mean_of_cycle(setpoint, band)
    return assumed("circuit.working_temperature")


def contents_of(project: "Project", circuit: Circuit) -> tuple[Content, ...]:
    """Coolant in every part of the system, pipes first, header or vessel last."""
    pipes, units = [], []
    for place in circuit.places.values():
        unit: Any = place.unit
        if place.pipe is not None:
            measure: PipeMeasure = pipe_measure(place.pipe)
            volume = pipe_content(measure.bore, measure.length)
            size = place.pipe.size or ""
            pipes.append(Content(place.tag, "pipe", volume, measure.length, size, place.branch))
        elif place.kind == "floor_loop" and unit.size and unit.length is not None:
            volume = pipe_content(pipe_size(unit.size).bore, unit.length)
            pipes.append(Content(place.tag, place.kind, volume, unit.length, unit.size, place.branch))
        else:
            content = _unit_content(place.tag, place.kind, unit)
            if content is not None:
                units.append(Content(place.tag, place.kind, content, branch=place.branch))
    return (*pipes, *units, *_expansion_content(project))


def _unit_content(tag: str, kind: str, unit: Any) -> Real | None:
    if kind == "buffer":
        stated = unit.volume if unit.volume is not None else unit.water_volume
    else:
        stated = unit.water_volume
    if stated is not None:
        found: Real = stated
        return found
    key = CONTENT_ASSUMED.get(kind)
    return assumed(key, f"components.{tag}.water_volume") if key else None


def _expansion_content(project: "Project") -> list[Content]:
    found = []
    for tag, part in (project.components or {}).items():
        unit: Any = part
        if part.kind == "header_tank" and unit.volume is not None:
            level = stated_or_assumed(
                unit.cold_level, "components.header_tank.cold_level", f"components.{tag}.cold_level"
            )
            found.append(Content(tag, part.kind, header_content(unit.volume, level)))
        elif part.kind == "membrane_vessel":
            fill = project.circuit.fill_pressure if project.circuit else None
            if unit.volume is not None and unit.precharge is not None and fill is not None:
                altitude = stated_or_assumed(
                    project.conditions.altitude if project.conditions else None, "conditions.altitude"
                )
                held = vessel_content(unit.volume, unit.precharge, fill, atmospheric_pressure(altitude))
                found.append(Content(tag, part.kind, held))
    return found


def _measured_share(project: "Project") -> Real | None:
    """Share measured last: in the records, else at commissioning."""
    kept = project.records.coolant if project.records else None
    for reading in reversed(kept or ()):
        if reading.share is not None:
            return reading.share
    filled = project.commissioning.coolant if project.commissioning else None
    return filled.share if filled else None


def coolant_study(project: "Project", circuit: Circuit | NotAssessed) -> Coolant | NotAssessed:
    """Properties of the coolant at its working temperature, content of the system, and what to buy."""
    fluid = fluid_of(project)
    if isinstance(fluid, NotAssessed):
        return fluid
    working = supply_wanted(project)
    contents: tuple[Content, ...] = ()
    volume: Real | None = None
    if not isinstance(circuit, NotAssessed):
        contents = contents_of(project, circuit)
        volume = total_volume(*(content.volume for content in contents))
    mix = fluid.data_set.is_mix
    share = fluid.share
    measured = _measured_share(project)
    refill = None
    if mix and volume is not None and measured is not None and measured < share:
        refill = drain_and_refill(volume, measured, share, 1.0)
    return Coolant(
        fluid,
        share,
        working,
        fluid.density(working),
        fluid.specific_heat(working),
        fluid.conductivity(working),
        fluid.viscosity(working),
        fluid.freezing_point,
        contents,
        volume,
        concentrate_volume(volume, share, 1.0) if mix and volume is not None else None,
        measured,
        refill,
        _top_ups(share) if mix else (),
        water_volume(volume, share, 1.0) if mix and volume is not None else None,
    )


def _top_ups(share: Real) -> tuple[TopUp, ...]:
    return tuple(
        TopUp(
            f"{litres * 1000:g}",
            litres,
            concentrate_volume(litres, share, 1.0),
            water_volume(litres, share, 1.0),
        )
        for litres in TOP_UPS
    )


def by_kind(contents: tuple[Content, ...]) -> Mapping[str, tuple[Content, ...]]:
    """Contents in groups: pipes by size, then units by kind."""
    groups: dict[str, tuple[Content, ...]] = {}
    for content in contents:
        name = content.size if content.length is not None else content.kind
        groups[name] = (*groups.get(name, ()), content)
    return groups
